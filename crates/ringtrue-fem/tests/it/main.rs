//! The crate from outside: published cases, closed forms and other codes' curves.

// A test that cannot read its reference fails, as it should.
#![allow(clippy::unwrap_used)]

mod curve;
mod energy_balance;
mod error_band;
mod examples;
mod gent_lindley_1959_bonded_disc;
mod johnson_1985_line_contact;
mod lindley_1967_free_ring;
mod mounted_ring;
mod ogden_1972_treloar_1944;
mod other_codes_disc_spring;
mod other_codes_plates;
mod other_codes_ramp;
mod past_a_lip;
mod rates;
mod rivlin_1949_thick_cylinder;
mod robustness;
mod timoshenko_lame_thick_cylinder;
mod timoshenko_torus_everting;
