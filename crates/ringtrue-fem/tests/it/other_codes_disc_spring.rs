//! Steel conical disc spring loaded at its diagonal corner circles, against other codes' curves.
//! Source: `validation/reference/mechanics/README.md`: De 125, Di 64, t 5, h0 3.5 mm.
//!
//! The walls are narrow lands under and over the two corners: on wide flats the bent section would
//! touch beside the corners before it is flat, and the lever arm would shrink.

use ringtrue_fem::material::{Material, SaintVenantKirchhoff};
use ringtrue_fem::{Extent, Friction, Problem, Section, Shape, Symmetry, Wall};

use crate::curve::{Curve, line, meets, run};

/// Corners `(r, z)`: lower inner, lower outer, upper outer, upper inner; the inner side stands
/// high.
fn spring(corners: [[f64; 2]; 4]) -> Problem {
    let centre = [0, 1].map(|c| corners.iter().map(|x| x[c]).sum::<f64>() / 4.0);
    let shape = Shape::Polygon {
        corners: corners.iter().map(|x| [x[0] - centre[0], x[1] - centre[1]]).collect(),
        corner_radius: 0.0,
    };
    let (low, high) = (corners[1][1] - centre[1], corners[3][1] - centre[1]);
    Problem {
        symmetry: Symmetry::Axisymmetric,
        steps: 14,
        hold: Vec::new(),
        section: Section { shape, mean_radius: Some(centre[0]) },
        prestretch: None,
        material: Material::SaintVenantKirchhoff(SaintVenantKirchhoff {
            young: 206e3,
            poisson: 0.3,
        }),
        friction: Friction::Coulomb(0.0),
        walls: vec![
            land("support", corners[1][0], low, [0.0, 0.0]),
            land("load", corners[3][0], high, [0.0, -3.5]),
        ],
    }
}

/// A bounded land at height `z` about a corner at radius `r`: 0.02 mm under the section, 1.5 mm
/// beside it, where the corner goes. The support faces up under the outer corner, the moving land
/// down over the inner one.
fn land(name: &str, r: f64, z: f64, motion: [f64; 2]) -> Wall {
    let (from, to) = if motion[1] < 0.0 { (r + 0.02, r - 1.5) } else { (r - 0.02, r + 1.5) };
    Wall { extent: Extent::Bounded, ..line(name, [from, z], [to, z], motion) }
}

fn compare(problem: &Problem, file: &str) {
    let run = run(problem, Some(1.0));
    let curve = Curve::read(file);
    let [s, force, band] = ["s_mm", "force_N", "err_pct"].map(|c| curve.column(c));
    for row in curve.rows() {
        let step = run.steps.iter().find(|k| (k.travel_mm - row[s]).abs() < 1e-9).unwrap();
        let total = -step.walls[1].force_z_n_per_mm
            * std::f64::consts::TAU
            * problem.section.mean_radius.unwrap();
        // Ours: the load at a sharp corner sinks in with a weak, logarithmic mesh dependence.
        meets(&format!("{file} at {}", row[s]), total, row[force], row[band] + 0.2);
    }
}

#[test]
fn rectangle_turned_by_the_cone_angle() {
    // L cos + t sin = 30.5, L sin + t cos = 8.5 with t = 5.
    let (mut low, mut high) = (0.0_f64, 0.5_f64);
    for _ in 0..60 {
        let angle = 0.5 * (low + high);
        let length = (30.5 - 5.0 * angle.sin()) / angle.cos();
        if length * angle.sin() + 5.0 * angle.cos() < 8.5 { low = angle } else { high = angle }
    }
    let (sin, cos) = low.sin_cos();
    let length = (30.5 - 5.0 * sin) / cos;
    let inner = [32.0, length * sin];
    let outer = [32.0 + length * cos, 0.0];
    let up = |x: [f64; 2]| [x[0] + 5.0 * sin, x[1] + 5.0 * cos];
    compare(&spring([inner, outer, up(outer), up(inner)]), "disc_spring_rectangular.csv");
}

#[test]
fn parallelogram_with_upright_ends() {
    let corners = [[32.0, 3.5], [62.5, 0.0], [62.5, 5.0], [32.0, 8.5]];
    compare(&spring(corners), "disc_spring_vertical_ends.csv");
}
