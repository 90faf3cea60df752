//! Cylinder between flat smooth plates in plane strain, from Hertz's small contact to 40 % squeeze.
//!
//! Sources: K.L. Johnson, Contact Mechanics, 1985, sections 4.2 and 5.6 (from memory) at 2 %;
//! rows `disc-ps-*` of `validation/reference/mechanics/round_section.csv`, another code's values.

use ringtrue_fem::Friction;
use ringtrue_fem::reference::{hertz_half_width, plates};

use crate::curve::{cases, meets, run};

#[test]
fn force_and_peak_pressure() {
    let mut problem = plates(None, Friction::Coulomb(0.0), 4.8);
    problem.steps = 40;
    let run = run(&problem, Some(12.0 * std::f64::consts::PI / 192.0));
    let step = |case: &crate::curve::Case| {
        let fraction = case.input("squeeze") / 0.4;
        run.steps.iter().find(|s| (s.fraction - fraction).abs() < 1e-9).unwrap()
    };
    for case in cases("round_section.csv", "disc-ps-F-") {
        let force = -step(&case).walls[1].force_z_n_per_mm / 12.0;
        let own = if case.input("squeeze") < 0.03 { 1.0 } else { 0.3 };
        meets(&case.id, force, case.expected, 100.0 * case.rel_tol + own);
    }
    for case in cases("round_section.csv", "disc-ps-p-") {
        let own = if case.input("squeeze") < 0.03 { 4.0 } else { 1.5 };
        meets(&case.id, step(&case).walls[1].peak_mpa, case.expected, 100.0 * case.rel_tol + own);
    }
    // Hertz's peak over the same load: p0 = 2 F / (pi b), E* = 4 mu here.
    let small = &run.steps[1];
    let force = -small.walls[1].force_z_n_per_mm;
    let half_width = hertz_half_width(force, 6.0, 4.0);
    let peak = 2.0 * force / (std::f64::consts::PI * half_width);
    meets("Hertz peak", small.walls[1].peak_mpa, peak, 4.0);
}
