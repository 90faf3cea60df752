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
mod system;
#[cfg(test)]
mod tests;

pub(crate) use condense::{Condensed, Recovery, condense};
pub(crate) use system::{System, integrate};

use crate::material::Invariants;
use crate::mesh::Mesh;
use crate::problem::Symmetry;
use crate::quadrature::gauss_3x3;

/// Nodes of an element: those that it shares with others, and the centre, which comes last.
pub(crate) const NODES: usize = SHARED + 1;
/// Loops over the eight shared nodes are left to the compiler, which makes vector code of them:
/// they fill its registers, where nine would leave one nearly empty.
pub(crate) const SHARED: usize = 8;
const CENTRE: usize = SHARED;
/// Displacements of the shared nodes: r and z of eight nodes.
pub(crate) const OUTER: usize = 2 * SHARED;

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

/// What an integration point needs of the undeformed geometry.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Point {
    /// `dN/dR`, `dN/dZ` and `N/R` (0 in plane strain), 1/mm.
    dr: [f64; NODES],
    dz: [f64; NODES],
    hoop: [f64; NODES],
    /// Pressure shape functions `1, x, y`.
    pub(crate) q: [f64; 3],
    /// Area times `R / mean radius`: volume per mm of circumference at the mean radius, mm^2.
    pub(crate) volume: f64,
    /// Plain area, mm^2.
    pub(crate) area: f64,
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
    let (mut dr, mut dz, mut hoop) = ([0.0; NODES], [0.0; NODES], [0.0; NODES]);
    for (k, n) in shapes.iter().enumerate() {
        dr[k] = (n[1] * map[3] - n[2] * map[2]) / det;
        dz[k] = (n[2] * map[0] - n[1] * map[1]) / det;
        hoop[k] = n[0] * hoop_over;
    }
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

/// Displacements of an element's nodes, `[r; z]`, mm.
pub(crate) type Local = [[f64; NODES]; 2];

/// Deformation at an integration point.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Deformation {
    /// `F11, F12, F21, F22`, hoop stretch after prestretch, and the in-plane determinant.
    pub(crate) f: [f64; 4],
    pub(crate) invariants: Invariants,
}

/// In-plane and hoop stretch that the undeformed mesh already carries.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Carried {
    pub(crate) plane: f64,
    pub(crate) hoop: f64,
}

impl Carried {
    pub(crate) fn by_hoop(hoop: f64) -> Self {
        Self { plane: 1.0 / hoop.sqrt(), hoop }
    }
}

/// Sum of products over the nodes, in a fixed tree order that vector units like.
#[inline(always)]
fn dot(a: &[f64; NODES], b: &[f64; NODES]) -> f64 {
    let mut p = [0.0; SHARED];
    for k in 0..SHARED {
        p[k] = a[k] * b[k];
    }
    let mut q = [0.0; 4];
    for k in 0..4 {
        q[k] = p[k] + p[k + 4];
    }
    (q[0] + q[2]) + (q[1] + q[3]) + a[CENTRE] * b[CENTRE]
}

/// Deformation gradient `F (I + grad u) F0` at a point, with `F0` the carried stretch.
#[inline(always)]
pub(crate) fn deform(point: &Point, u: &Local, carried: Carried) -> Deformation {
    let [r, z] = u;
    let g = [
        dot(&point.dr, r),
        dot(&point.dz, r),
        dot(&point.dr, z),
        dot(&point.dz, z),
        dot(&point.hoop, r),
    ];
    let a = carried.plane;
    let f = [a * (1.0 + g[0]), a * g[1], a * g[2], a * (1.0 + g[3])];
    let s = f[0] * f[0] + f[1] * f[1] + f[2] * f[2] + f[3] * f[3];
    let d = f[0] * f[3] - f[1] * f[2];
    Deformation { f, invariants: Invariants { s, d, w: carried.hoop * (1.0 + g[4]) } }
}

/// State of one element.
#[derive(Debug, Clone, Copy)]
pub(crate) struct State {
    pub(crate) u: Local,
    pub(crate) pressure: [f64; 3],
    pub(crate) carried: Carried,
}
