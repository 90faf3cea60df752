//! The nine-node quadrilateral with a linear, discontinuous pressure (Q2/P-1), total Lagrangian.
//!
//! Displacements are biquadratic, the pressure is `p0 + p1 x + p2 y` in scaled reference
//! coordinates about the element's centre: the pair satisfies the inf-sup condition, so nearly
//! incompressible rubber neither locks nor shows pressure modes (D. Boffi, F. Brezzi, M. Fortin,
//! Mixed Finite Element Methods and Applications, Springer 2013, ch. 8; from memory). The pressure
//! is an unknown of its own, `integral of q (J - 1 - p/K) = 0` for each `q`, and is condensed in
//! the element, as are the displacements of the centre node. Laws without a bulk modulus of their
//! own take the same path with the pressure switched off.

mod condense;
mod integrate;
#[cfg(test)]
mod tests;

pub(crate) use condense::{Condensed, Recovery, condense};
pub(crate) use integrate::{Carried, Local, Nodal, Point, State, System, deform, integrate};

use crate::mesh::Mesh;
use crate::problem::Symmetry;
use crate::quadrature::gauss_3x3;

/// Nodes of an element.
pub(crate) const NODES: usize = 9;
/// Displacements of the shared nodes: r and z of eight nodes.
pub(crate) const OUTER: usize = 16;

/// Shape functions and their derivatives `(N, dN/dxi, dN/deta)` at `(xi, eta)`.
pub(crate) fn shape(xi: f64, eta: f64) -> [[f64; 3]; NODES] {
    let line = |x: f64| {
        [[0.5 * x * (x - 1.0), x - 0.5], [1.0 - x * x, -2.0 * x], [0.5 * x * (x + 1.0), x + 0.5]]
    };
    let (a, b) = (line(xi), line(eta));
    const PLACE: [(usize, usize); NODES] =
        [(0, 0), (2, 0), (2, 2), (0, 2), (1, 0), (2, 1), (1, 2), (0, 1), (1, 1)];
    PLACE.map(|(i, j)| [a[i][0] * b[j][0], a[i][1] * b[j][0], a[i][0] * b[j][1]])
}

/// Derivatives by `xi` of the shape functions of a boundary edge.
pub(crate) fn edge_slope(x: f64) -> [f64; 3] {
    [x - 0.5, -2.0 * x, x + 0.5]
}

/// Whether the map from the square keeps its orientation at the Gauss points and corners.
pub(crate) fn is_unfolded(mesh: &Mesh, element: usize) -> bool {
    let corners = [[-1.0, -1.0, 0.0], [1.0, -1.0, 0.0], [1.0, 1.0, 0.0], [-1.0, 1.0, 0.0]];
    gauss_3x3().iter().chain(&corners).all(|p| jacobian(mesh, element, *p).2 > 0.0)
}

/// Shape functions, the transposed inverse map and the map's determinant at a point.
fn jacobian(mesh: &Mesh, element: usize, at: [f64; 3]) -> ([[f64; 3]; NODES], [f64; 4], f64) {
    let shapes = shape(at[0], at[1]);
    let mut map = [0.0; 4];
    for (n, &node) in shapes.iter().zip(&mesh.elements[element]) {
        let x = mesh.nodes[node];
        map[0] += n[1] * x[0];
        map[1] += n[2] * x[0];
        map[2] += n[1] * x[1];
        map[3] += n[2] * x[1];
    }
    (shapes, map, map[0] * map[3] - map[1] * map[2])
}

/// Integration points of all elements, and each element's pressure mass.
#[derive(Debug, Clone)]
pub(crate) struct Table {
    pub(crate) points: Vec<[Point; 9]>,
    /// Inverse of `integral of q q^T`, 1/mm^2, times nothing: the law supplies `K`.
    pub(crate) mass_inverse: Vec<[[f64; 3]; 3]>,
}

impl Table {
    /// Tabulates `mesh`; `mean_radius` scales forces to mm of circumference there.
    pub(crate) fn new(mesh: &Mesh, symmetry: Symmetry, mean_radius: f64) -> Self {
        let rule = gauss_3x3();
        let mut points = Vec::with_capacity(mesh.elements.len());
        let mut mass_inverse = Vec::with_capacity(mesh.elements.len());
        for (e, nodes) in mesh.elements.iter().enumerate() {
            let centre = mesh.nodes[nodes[8]];
            let size = [0, 1, 2, 3]
                .map(|k| {
                    let x = mesh.nodes[nodes[k]];
                    (x[0] - centre[0]).hypot(x[1] - centre[1])
                })
                .into_iter()
                .fold(0.0, f64::max);
            let list = rule.map(|g| point(mesh, e, g, (symmetry, mean_radius, centre, size)));
            let mut mass = [[0.0; 3]; 3];
            for p in &list {
                for i in 0..3 {
                    for j in 0..3 {
                        mass[i][j] += p.volume * p.q[i] * p.q[j];
                    }
                }
            }
            points.push(list);
            mass_inverse.push(inverse_3(&mass));
        }
        Self { points, mass_inverse }
    }
}

fn point(
    mesh: &Mesh,
    element: usize,
    gauss: [f64; 3],
    (symmetry, mean_radius, centre, size): (Symmetry, f64, [f64; 2], f64),
) -> Point {
    let (shapes, map, det) = jacobian(mesh, element, gauss);
    let mut x = [0.0; 2];
    for (n, &node) in shapes.iter().zip(&mesh.elements[element]) {
        x[0] += n[0] * mesh.nodes[node][0];
        x[1] += n[0] * mesh.nodes[node][1];
    }
    let area = gauss[2] * det;
    let (hoop_over, volume) = match symmetry {
        Symmetry::Axisymmetric => (1.0 / x[0], area * x[0] / mean_radius),
        Symmetry::PlaneStrain => (0.0, area),
    };
    let by_r = shapes.map(|n| (n[1] * map[3] - n[2] * map[2]) / det);
    let by_z = shapes.map(|n| (n[2] * map[0] - n[1] * map[1]) / det);
    let [dr, dz, hoop] =
        [by_r, by_z, shapes.map(|n| n[0] * hoop_over)].map(|v| Nodal::from_nodes(&v));
    let q = [1.0, (x[0] - centre[0]) / size, (x[1] - centre[1]) / size];
    Point { dr, dz, hoop, q, volume, area }
}

/// Inverse of a symmetric positive 3 x 3 matrix by cofactors.
fn inverse_3(m: &[[f64; 3]; 3]) -> [[f64; 3]; 3] {
    let c = |i: usize, j: usize| {
        let (a, b) = ((i + 1) % 3, (i + 2) % 3);
        let (d, e) = ((j + 1) % 3, (j + 2) % 3);
        m[a][d] * m[b][e] - m[a][e] * m[b][d]
    };
    let det = m[0][0] * c(0, 0) + m[0][1] * c(0, 1) + m[0][2] * c(0, 2);
    let mut inverse = [[0.0; 3]; 3];
    for (i, row) in inverse.iter_mut().enumerate() {
        for (j, entry) in row.iter_mut().enumerate() {
            *entry = c(j, i) / det;
        }
    }
    inverse
}
