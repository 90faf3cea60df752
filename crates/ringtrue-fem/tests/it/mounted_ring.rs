//! A ring mounted with hoop stretch presses on what carries it: line load = hoop tension / radius.
//!
//! The core's pressure squeezes the section: over the section its mean is `-N arm`, with the line
//! load `N` and the arm from centroid to contact, and incompressible rubber loses half of that in
//! hoop tension. So `N (R + arm/2) = T`.
//!
//! Closed form for the incompressible neo-Hookean ring: tension `mu (l - l^-2) A0`, with `A0 = l A`
//! the stress-free section of the drawn, thinned section `A`.

use ringtrue_fem::reference::{line, round};
use ringtrue_fem::{Axis, Friction, Prestretch};

use crate::curve::{meets, run};

#[test]
fn line_load_balances_the_hoop_tension() {
    let walls = vec![line("core", [114.0, 1.0], [114.0, 0.0], [0.0, 0.0])];
    let mut problem = round(Some(120.0), Friction::Coulomb(0.0), walls);
    problem.steps = 8;
    problem.hold = vec![Axis::Z];
    let stretch: f64 = 1.06;
    problem.prestretch = Some(Prestretch { hoop_stretch: stretch, over: 1.0 });
    let run = run(&problem, None);
    let end = run.steps.last().unwrap();
    // The section sinks towards the core as it flattens there: the stretch left is a little less.
    let left = stretch * (1.0 + end.centroid_dr_mm / 120.0);
    let section = 36.0 * std::f64::consts::PI;
    let tension = (left - left.powi(-2)) * stretch * section;
    let arm = 6.0 + end.centroid_dr_mm;
    let wanted = tension / (120.0 + 0.5 * arm);
    meets("line load", end.walls[0].normal_n_per_mm, wanted, 0.6);
    assert!(end.centroid_dr_mm < 0.0 && end.centroid_dr_mm > -1.0);
    assert!(end.max_principal_stretch > 1.05);
}
