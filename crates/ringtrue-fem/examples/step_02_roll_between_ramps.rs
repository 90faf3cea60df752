//! Step 2, on step 1: a ring between two cone ramps. It is squeezed and rolls.
//!
//! In axial symmetry forces are per mm of circumference at the section's undeformed mean radius.
//! Friction makes the section roll: without it, it would slide along the ramps.

use ringtrue_fem::material::{Material, NeoHooke};
use ringtrue_fem::{
    ErrorEstimate, Extent, Friction, Problem, Section, Settings, Shape, SolveError, Symmetry, Wall,
    solve,
};

pub(crate) fn main() -> Result<(), SolveError> {
    let (radius, half) = (60.0, 4.0);
    let (sin, cos) = 20.0_f64.to_radians().sin_cos();
    let ramp = |name: &str, side: f64, path: Vec<[f64; 2]>| {
        // The ramp touches the round section at the end of its radius across the ramp.
        let touch = radius + side * half / cos;
        Wall {
            name: name.to_owned(),
            profile: vec![[touch, 0.0], [touch - side * 10.0 * sin / cos, side * 10.0]],
            fillets: Vec::new(),
            extent: Extent::Unbounded,
            path,
            friction: None,
        }
    };
    let travel = 5.0;
    let problem = Problem {
        symmetry: Symmetry::Axisymmetric,
        steps: 20,
        hold: Vec::new(),
        section: Section { shape: Shape::Round { diameter: 8.0 }, mean_radius: Some(radius) },
        prestretch: None,
        material: Material::NeoHooke(NeoHooke { mu: 1.0, bulk: 2000.0 }),
        friction: Friction::Coulomb(0.4),
        walls: vec![ramp("housing", 1.0, Vec::new()), ramp("ring", -1.0, vec![[0.0, travel]])],
    };
    let settings = Settings { error_estimate: ErrorEstimate::None, ..Settings::default() };
    let run = solve(&problem, &settings)?;
    let end = &run.steps[19];
    let (housing, ring) = (&end.walls[0], &end.walls[1]);
    // Nothing else carries load along z.
    assert!(
        (housing.force_z_n_per_mm + ring.force_z_n_per_mm).abs() < 1e-4 * ring.force_z_n_per_mm
    );
    // On equal ramps the axial force is the mean normal force times sin(angle), within a per cent.
    let mean = 0.5 * (housing.normal_n_per_mm + ring.normal_n_per_mm);
    assert!((ring.force_z_n_per_mm / (mean * sin) - 1.0).abs() < 0.02);
    // It rolls by a little less than travel cos(angle) / diameter, and goes half the way.
    let rolled = end.roll_deg.to_radians() / (travel * cos / 8.0);
    assert!((0.95..1.0).contains(&rolled), "{rolled}");
    assert!((end.centroid_dz_mm / travel - 0.5).abs() < 0.02);
    Ok(())
}
