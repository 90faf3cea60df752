//! Turning a torus inside out: moment per length `E I / R^2 sin(phi)`.
//!
//! Two smoothly moving, sticking cylinders roll the section between them; the couple of their axial
//! forces is the moment. Source: S.P. Timoshenko, Strength of Materials II, ring twisted by uniform
//! couples, `theta = M a^2 / (E I)` for small angles (from memory); for large ones the hoop strain
//! at a
//! point turned by `phi` is `rho (sin(a + phi) - sin a)/R`, whose energy gives `sin(phi)`.

use ringtrue_fem::Friction;

use crate::curve::{line, meets, round_12, run};

#[test]
fn moment_follows_the_sine() {
    let (radius, squeeze) = (90.0, 0.12);
    let mut walls = vec![
        line("outer", [radius + 6.0, 0.0], [radius + 6.0, 1.0], [0.0, 0.0]),
        line("inner", [radius - 6.0, 1.0], [radius - 6.0, 0.0], [0.0, 0.0]),
    ];
    // First a light grip, then the roll: 24 mm is about 115 degrees.
    walls[1].path = vec![[squeeze, 0.0], [squeeze, 24.0]];
    let mut problem = round_12(Some(radius), Friction::NoSlip, walls);
    problem.steps = 80;
    let run = run(&problem, None);
    let inertia = std::f64::consts::PI * 12.0_f64.powi(4) / 64.0;
    for step in run.steps.iter().filter(|s| s.roll_deg > 20.0) {
        let moment = step.walls[1].force_z_n_per_mm * (12.0 - squeeze);
        let wanted = 3.0 * inertia / (radius * radius) * step.roll_deg.to_radians().sin();
        meets(&format!("moment at {:.1} deg", step.roll_deg), moment, wanted, 4.0);
    }
    assert!(run.steps[79].roll_deg > 100.0);
}
