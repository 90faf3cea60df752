//! A round section between two flat plates, against other codes' curves. Source:
//! `validation/reference/mechanics/README.md`.

use ringtrue_fem::reference::plates;
use ringtrue_fem::{Friction, Run};

use crate::curve::{Curve, meets, run};

fn squeeze(mean_radius: Option<f64>, friction: Friction, approach: f64) -> Run {
    let mut problem = plates(mean_radius, friction, approach);
    // A multiple of the reference's 12 or 10 points.
    problem.steps = if mean_radius.is_some() { 30 } else { 36 };
    run(&problem, None)
}

fn compare(run: &Run, file: &str) {
    let curve = Curve::read(file);
    let at = |name: &str| curve.column(name);
    for row in curve.rows() {
        let travel = row[at("squeeze_mm")];
        let step = run.steps.iter().find(|s| (s.travel_mm - travel).abs() < 1e-9).unwrap();
        let own = if travel < 1.0 { 1.0 } else { 0.5 };
        let band = row[at("err_pct")] + own;
        let force = row[at("force_N_per_mm")];
        meets(&format!("{file} at {travel}"), -step.walls[1].force_z_n_per_mm, force, band);
        let stretch = row[at("max_principal_stretch")] - 1.0;
        if travel > 1.0 {
            meets("stretch", step.max_principal_stretch - 1.0, stretch, 3.0);
            meets("peak", step.walls[0].peak_mpa, row[at("peak_pressure_MPa")], 4.0);
        }
    }
}

#[test]
fn plane_strain_frictionless() {
    compare(&squeeze(None, Friction::Coulomb(0.0), 3.6), "plate_plane_strain_frictionless.csv");
}

#[test]
fn plane_strain_no_slip() {
    compare(&squeeze(None, Friction::NoSlip, 3.6), "plate_plane_strain_noslip.csv");
}

#[test]
fn ring_frictionless_grows_freely() {
    let run = squeeze(Some(120.0), Friction::Coulomb(0.0), 3.0);
    compare(&run, "plate_axial_ring_frictionless.csv");
    let end = &run.steps[29];
    meets("growth of the ring", end.centroid_dr_mm, 11.3809, 0.5);
}

#[test]
fn ring_no_slip() {
    compare(&squeeze(Some(120.0), Friction::NoSlip, 3.0), "plate_axial_ring_noslip.csv");
}
