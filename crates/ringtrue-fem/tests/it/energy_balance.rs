//! Without friction the walls' work is the strain energy; and no curve ripples.

use ringtrue_fem::Friction;
use ringtrue_fem::reference::{plates, two_cones};

use crate::curve::{meets, run};

#[test]
fn walls_work_is_strain_energy() {
    let mut problem = plates(Some(120.0), Friction::Coulomb(0.0), 3.0);
    problem.steps = 60;
    let run = run(&problem, None);
    for step in run.steps.iter().filter(|s| s.fraction > 0.3) {
        // The trapezoidal rule over 60 steps leaves 1e-4, the start of contact a little more.
        let work = step.wall_work_n_mm_per_mm;
        meets("work", work, step.strain_energy_n_mm_per_mm, 0.1);
    }
}

#[test]
fn sticking_contact_stores_all_work_too() {
    let run = run(&two_cones(Friction::NoSlip), None);
    let end = run.steps.last().unwrap();
    meets("work", end.wall_work_n_mm_per_mm, end.strain_energy_n_mm_per_mm, 0.2);
}

#[test]
fn the_ramp_curve_does_not_ripple() {
    let mut problem = two_cones(Friction::NoSlip);
    problem.steps = 72;
    let run = run(&problem, None);
    let force: Vec<f64> = run.steps.iter().map(|s| s.walls[1].force_z_n_per_mm).collect();
    for k in 12..force.len() - 2 {
        // A smooth curve is met by the cubic through its neighbours.
        let cubic = (4.0 * (force[k - 1] + force[k + 1]) - force[k - 2] - force[k + 2]) / 6.0;
        meets(&format!("force at step {k}"), force[k], cubic, 0.35);
    }
}
