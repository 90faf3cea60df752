//! Turning a torus inside out: moment per length `E I / R^2 sin(phi)`.
//!
//! Two smoothly moving, sticking cylinders roll the section between them; the couple of their axial
//! forces is the moment. Sources: see
//! `reference::everting_moment`.

use ringtrue_fem::reference::{EVERTING_GRIP, SECTION, everting, everting_moment};

use crate::curve::{meets, run};

#[test]
fn moment_follows_the_sine() {
    let run = run(&everting(), None);
    for step in run.steps.iter().filter(|s| s.roll_deg > 20.0) {
        let moment = step.walls[1].force_z_n_per_mm * (SECTION - EVERTING_GRIP);
        let wanted = everting_moment(3.0, SECTION, 90.0, step.roll_deg.to_radians());
        meets(&format!("moment at {:.1} deg", step.roll_deg), moment, wanted, 4.0);
    }
    assert!(run.steps[79].roll_deg > 100.0);
}
