//! Step 1: a round rubber bar between two flat plates, in plane strain.
//!
//! A problem is a section, a material, walls and how they move. `solve` follows the walls and
//! returns a curve; a run that cannot go on says so in `outcome` and keeps the steps it has.

use ringtrue_fem::material::{Material, NeoHooke};
use ringtrue_fem::{
    Axis, Extent, Friction, Outcome, Problem, Section, Settings, Shape, SolveError, Symmetry, Wall,
    solve,
};

pub(crate) fn main() -> Result<(), SolveError> {
    // Walk a wall so that the rubber is on the left: the lower plate to the right, the upper one
    // back.
    let plate = |name: &str, from: [f64; 2], to: [f64; 2], path: Vec<[f64; 2]>| Wall {
        name: name.to_owned(),
        profile: vec![from, to],
        fillets: Vec::new(),
        extent: Extent::Unbounded,
        path,
        friction: None,
    };
    let problem = Problem {
        symmetry: Symmetry::PlaneStrain,
        steps: 10,
        // Smooth plates leave the sideways place open; the mean is held.
        hold: vec![Axis::R],
        section: Section { shape: Shape::Round { diameter: 10.0 }, mean_radius: None },
        prestretch: None,
        material: Material::NeoHooke(NeoHooke { mu: 1.0, bulk: 2000.0 }),
        friction: Friction::Coulomb(0.0),
        walls: vec![
            plate("lower", [0.0, -5.0], [1.0, -5.0], Vec::new()),
            plate("upper", [1.0, 5.0], [0.0, 5.0], vec![[0.0, -2.0]]),
        ],
    };
    let run = solve(&problem, &Settings::default())?;
    assert_eq!(run.outcome, Outcome::Complete);
    // 20 % squeeze: 0.4538 mu d, row disc-ps-F-0.20 of
    // validation/reference/mechanics/round_section.csv.
    let end = &run.steps[9];
    let force = -end.walls[1].force_z_n_per_mm;
    assert!((force / 10.0 - 0.4538).abs() < 0.005, "{force}");
    // The curve comes with the band that should hold the exact one.
    assert!(run.error_band_percent.is_some_and(|band| band < 2.0));
    Ok(())
}
