//! Reading reference curves and comparing with them.

use std::path::Path;

use ringtrue_fem::material::{Material, NeoHooke};
use ringtrue_fem::{
    Axis, ErrorEstimate, Extent, Friction, Outcome, Problem, Run, Section, Settings, Shape,
    Symmetry, Wall, solve,
};

/// Rows of a reference curve as (column name, value) tables.
pub(crate) struct Curve {
    names: Vec<String>,
    rows: Vec<Vec<f64>>,
}

impl Curve {
    pub(crate) fn read(name: &str) -> Self {
        let path = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("../../validation/reference/mechanics")
            .join(name);
        let text = std::fs::read_to_string(&path).unwrap();
        let mut lines = text.lines().filter(|l| !l.starts_with('#'));
        let names = lines.next().unwrap().split(',').map(str::to_owned).collect();
        // An empty cell is a value the other code did not give.
        let rows =
            lines.map(|l| l.split(',').map(|v| v.parse().unwrap_or(f64::NAN)).collect()).collect();
        Self { names, rows }
    }

    pub(crate) fn rows(&self) -> impl Iterator<Item = &[f64]> {
        self.rows.iter().map(Vec::as_slice)
    }

    pub(crate) fn column(&self, name: &str) -> usize {
        self.names.iter().position(|n| n == name).unwrap()
    }
}

/// A wall through two points, without end.
pub(crate) fn line(name: &str, from: [f64; 2], to: [f64; 2], motion: [f64; 2]) -> Wall {
    Wall {
        name: name.to_owned(),
        profile: vec![from, to],
        fillets: Vec::new(),
        extent: Extent::Unbounded,
        path: vec![motion],
    }
}

/// A round section of 12 mm between walls, of the reference's rubber: `mu` 1 MPa, `bulk` 2000 MPa.
pub(crate) fn round_12(mean_radius: Option<f64>, friction: Friction, walls: Vec<Wall>) -> Problem {
    Problem {
        symmetry: match mean_radius {
            Some(_) => Symmetry::Axisymmetric,
            None => Symmetry::PlaneStrain,
        },
        steps: 36,
        hold: match mean_radius {
            Some(_) => Vec::new(),
            None => vec![Axis::R],
        },
        section: Section { shape: Shape::Round { diameter: 12.0 }, mean_radius },
        prestretch: None,
        material: Material::NeoHooke(NeoHooke { mu: 1.0, bulk: 2000.0 }),
        friction,
        walls,
    }
}

/// Solves and insists on a complete run.
pub(crate) fn run(problem: &Problem, mesh_size: Option<f64>) -> Run {
    let settings =
        Settings { mesh_size, error_estimate: ErrorEstimate::None, ..Settings::default() };
    let run = solve(problem, &settings).unwrap();
    assert_eq!(run.outcome, Outcome::Complete);
    run
}

/// Asserts that `ours` meets `theirs` within `percent`.
pub(crate) fn meets(what: &str, ours: f64, theirs: f64, percent: f64) {
    let deviation = 100.0 * (ours / theirs - 1.0);
    assert!(
        deviation.abs() <= percent,
        "{what}: {ours:.5} against {theirs:.5}, {deviation:+.2} % with {percent} % allowed"
    );
}
