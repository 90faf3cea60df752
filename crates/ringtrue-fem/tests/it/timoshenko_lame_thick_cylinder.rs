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
use ringtrue_fem::reference::{lame, tube};

use crate::curve::{cases, meets, run};

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
