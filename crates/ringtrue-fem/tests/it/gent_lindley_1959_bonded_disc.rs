//! Rubber disc bonded between rigid plates: apparent modulus over Young's modulus against the shape
//! factor `S = R/(2 h)`.
//!
//! Source: A.N. Gent, P.B. Lindley, Proc. IMechE 173 (1959) 111 gives about `1 + 2 S^2`; the rows
//! `bonded-disc-*` of `validation/reference/mechanics/solid_mechanics_fe.csv` are finite-element
//! values of another code, 0.4 %.

use ringtrue_fem::reference::bonded_disc;

use crate::curve::{cases, meets, run};

#[test]
fn apparent_modulus() {
    for case in cases("solid_mechanics_fe.csv", "bonded-disc-") {
        let shape_factor = case.input("shape_factor");
        let radius = 20.0;
        let height = radius / (2.0 * shape_factor);
        let strain = 2e-4;
        let problem = bonded_disc([radius, height], strain);
        let run = run(&problem, Some(radius.min(height) / 24.0));
        let force = -run.steps[1].walls[1].force_z_n_per_mm * std::f64::consts::TAU * 0.5 * radius;
        let modulus = force / (std::f64::consts::PI * radius * radius * strain);
        // The bonded rim is singular: 0.4 % of our own on top.
        meets(&case.id, modulus / 3.0, case.expected, 100.0 * case.rel_tol + 0.4);
    }
}
