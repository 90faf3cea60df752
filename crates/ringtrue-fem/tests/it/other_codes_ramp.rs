//! A round ring section between two cone ramps, 15 degrees to the axis, against other codes'
//! curves. Source: `validation/reference/mechanics/README.md`.
//!
//! ```text
//!        \  ( )\      housing ramp fixed, outside; ring ramp inside moves up by u:
//!         \     \     the section is squeezed and rolls
//! ```

use ringtrue_fem::reference::two_cones;
use ringtrue_fem::{Friction, Run};

use crate::curve::{Curve, meets, run};

/// Our own band, percent of the force: at the first touch the contact is three edges wide.
fn own_band(travel: f64) -> f64 {
    if travel < 2.1 { 1.0 } else { 0.5 }
}

fn compare(run: &Run, file: &str) {
    let curve = Curve::read(file);
    let at = |name: &str| curve.column(name);
    for row in curve.rows() {
        let travel = row[at("u_mm")];
        let step = run.steps.iter().find(|s| (s.travel_mm - travel).abs() < 1e-9).unwrap();
        let (housing, ring) = (&step.walls[0], &step.walls[1]);
        let band = row[at("err_pct")] + own_band(travel);
        let force = row[at("axial_force_ring_N_per_mm")];
        meets(&format!("{file} force at {travel}"), ring.force_z_n_per_mm, force, band);
        meets("housing reaction", -housing.force_z_n_per_mm, ring.force_z_n_per_mm, 1e-3);
        meets(
            &format!("{file} normal force at {travel}"),
            ring.normal_n_per_mm,
            row[at("normal_force_ring_N_per_mm")],
            band + 1.0,
        );
        meets(&format!("{file} roll at {travel}"), step.roll_deg, row[at("roll_deg")], 0.5);
        meets("centroid", step.centroid_dz_mm, row[at("centroid_dz_mm")], 0.3);
        let stretch = row[at("max_principal_stretch")] - 1.0;
        meets(
            "stretch",
            step.max_principal_stretch - 1.0,
            stretch,
            if travel < 2.1 { 45.0 } else { 4.0 },
        );
        if travel > 2.1 {
            let peak = row[at("peak_pressure_housing_MPa")];
            meets(&format!("{file} peak at {travel}"), housing.peak_mpa, peak, 5.0);
        }
    }
}

#[test]
fn no_slip_meets_the_reference_curve() {
    compare(&run(&two_cones(Friction::NoSlip), None), "ramp_15deg_noslip.csv");
}

#[test]
fn coulomb_03_meets_the_reference_curve() {
    compare(&run(&two_cones(Friction::Coulomb(0.3)), None), "ramp_15deg_coulomb03.csv");
}
