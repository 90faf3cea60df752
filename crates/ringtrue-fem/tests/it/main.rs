//! The crate from outside: published cases and other codes' curves.

// A test that cannot read its reference fails, as it should.
#![allow(clippy::unwrap_used)]

mod curve;
mod other_codes_plates;
mod other_codes_ramp;
