//! Thick-walled cylinder under outer pressure, small strain, plane strain along the axis.
//!
//! ```text
//!   smooth end plates hold the length (pressing: the axial stress is compressive);
//!   a smooth wall narrows the rim;   u(r) = -(1 + nu) p / (E (b^2 - a^2)) ((1 - 2 nu) b^2 r + a^2
//!   b^2 / r)
//! ```
//!
//! Source: G. Lame's solution, S.P. Timoshenko, J.N. Goodier, Theory of Elasticity (from memory).
//! The
//! general formula is first checked against row `lame-u-ps` (inner pressure) of
//! `validation/reference/mechanics/solid_mechanics_fe.csv`.

use ringtrue_fem::material::{Material, SaintVenantKirchhoff};
use ringtrue_fem::{Friction, Problem, Section, Shape, Symmetry};

use crate::curve::{cases, line, meets, run};

/// A tube from `a` to `b`, its length `height`, whose rim a smooth wall narrows by `shrinkage`.
pub(crate) fn tube(material: Material, [a, b, height, shrinkage]: [f64; 4]) -> Problem {
    let (half, rim) = (0.5 * height, 0.5 * (b - a));
    Problem {
        symmetry: Symmetry::Axisymmetric,
        steps: 10,
        hold: Vec::new(),
        section: Section {
            shape: Shape::Polygon {
                corners: vec![[-rim, -half], [rim, -half], [rim, half], [-rim, half]],
                corner_radius: 0.0,
            },
            mean_radius: Some(0.5 * (a + b)),
        },
        prestretch: None,
        material,
        friction: Friction::Coulomb(0.0),
        walls: vec![
            line("rim", [b, 0.0], [b, 1.0], [-shrinkage, 0.0]),
            line("lower", [0.0, -half], [1.0, -half], [0.0, 0.0]),
            line("upper", [1.0, half], [0.0, half], [0.0, 0.0]),
        ],
    }
}

/// Radial displacement at `r` of a tube `[a, b]` under inner and outer pressure `[pi, po]`.
fn lame([a, b]: [f64; 2], [pi, po]: [f64; 2], [young, nu]: [f64; 2], r: f64) -> f64 {
    let (a2, b2) = (a * a, b * b);
    let uniform = (1.0 - 2.0 * nu) * (pi * a2 - po * b2) * r;
    (1.0 + nu) / (young * (b2 - a2)) * (uniform + (pi - po) * a2 * b2 / r)
}

#[test]
fn rim_pressure_and_bore_displacement() {
    let case = &cases("solid_mechanics_fe.csv", "lame-u-ps")[0];
    let [a, b, p, young, nu] = ["a", "b", "p", "E", "nu"].map(|k| case.input(k));
    meets(&case.id, lame([a, b], [p, 0.0], [young, nu], a), case.expected, 1e-4);
    // A small pressure: finite strain then differs by 1e-6.
    let small = 0.1;
    let rim = lame([a, b], [0.0, small], [young, nu], b);
    let material = Material::SaintVenantKirchhoff(SaintVenantKirchhoff { young, poisson: nu });
    let run = run(&tube(material, [a, b, 20.0, -rim]), Some(5.0));
    let end = run.steps.last().unwrap();
    meets("rim pressure", end.walls[0].mean_mpa, small, 0.01);
    let node = (0..run.mesh.nodes.len()).find(|&n| run.mesh.nodes[n][0] < a + 1e-9).unwrap();
    let bore = lame([a, b], [0.0, small], [young, nu], a);
    meets("bore displacement", end.displacement[node][0], bore, 0.01);
}
