//! Orders of convergence on three meshes: quadratic displacements, third order in the mean square
//! between the nodes; and an absolute ceiling.
//!
//! Problem: the narrowed neo-Hookean tube of `rivlin_1949_thick_cylinder`, whose exact motion is
//! `r^2 = R^2 + c`.

use ringtrue_fem::Run;
use ringtrue_fem::material::{Material, NeoHooke};
use ringtrue_fem::reference::{rim_of_tube, tube};

use crate::curve::run;

/// Root mean square error of the radial displacement, given the computed rim (so that what the
/// wall's contact
/// leaves does not enter), half-way between the nodes of each element's middle line.
fn error(run: &Run, outer: f64) -> f64 {
    let u = &run.steps.last().unwrap().displacement;
    let rim = (0..run.mesh.nodes.len()).find(|&n| run.mesh.nodes[n][0] > outer - 1e-9).unwrap();
    let constant = (outer + u[rim][0]).powi(2) - outer * outer;
    let (mut square, mut count) = (0.0, 0.0);
    for nodes in &run.mesh.elements {
        // Nodes on the middle line eta = 0, by xi = -1, 0, 1.
        let line = [nodes[7], nodes[8], nodes[5]];
        for xi in [-0.5, 0.5] {
            let shape = [0.5 * xi * (xi - 1.0), 1.0 - xi * xi, 0.5 * xi * (xi + 1.0)];
            let sum = |value: &dyn Fn(usize) -> f64| -> f64 {
                shape.iter().zip(&line).map(|(s, n)| s * value(*n)).sum()
            };
            let (big, moved) = (sum(&|n| run.mesh.nodes[n][0]), sum(&|n| u[n][0]));
            square += (moved - ((big * big + constant).sqrt() - big)).powi(2);
            count += 1.0;
        }
    }
    (square / count).sqrt()
}

#[test]
fn displacement_converges_with_the_third_power() {
    let (inner, outer, now): (f64, f64, f64) = (10.0, 20.0, 9.0);
    let rim = rim_of_tube([inner, outer], now);
    let material = Material::NeoHooke(NeoHooke { mu: 1.0, bulk: 1e6 });
    let errors: Vec<f64> = [4.0, 8.0, 16.0]
        .iter()
        .map(|n| {
            let problem = tube(material.clone(), [inner, outer, 4.0, outer - rim]);
            let size = (outer - inner) / n;
            error(&run(&problem, Some(1.0001 * size)), outer)
        })
        .collect();
    for pair in errors.windows(2) {
        let order = (pair[0] / pair[1]).log2();
        assert!((order - 3.0).abs() < 0.25, "orders from {errors:?}: {order:.2}");
    }
    let fitted = 0.5 * (errors[0] / errors[2]).log2();
    assert!((fitted - 3.0).abs() < 0.1, "{errors:?}: {fitted:.3}");
    assert!(errors[2] < 2e-5 * (inner - now), "{errors:?}");
}
