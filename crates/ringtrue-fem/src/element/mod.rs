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
#[cfg(test)]
mod tests;

pub(crate) use condense::{Condensed, Recovery, condense};

use crate::material::{Invariants, Law, push_forward};
use crate::mesh::Mesh;
use crate::problem::Symmetry;
use crate::quadrature::gauss_3x3;

/// Nodes of an element, and of one padded to three registers of four numbers. Loops over the padded
/// length are left to the compiler, which makes vector code of them.
pub(crate) const NODES: usize = 9;
const PAD: usize = 12;
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

/// What an integration point needs of the undeformed geometry.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Point {
    /// `dN/dR`, `dN/dZ` and `N/R` (0 in plane strain), 1/mm; entries past the ninth are 0.
    pub(crate) dr: [f64; PAD],
    pub(crate) dz: [f64; PAD],
    pub(crate) hoop: [f64; PAD],
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
    let (mut dr, mut dz, mut hoop) = ([0.0; PAD], [0.0; PAD], [0.0; PAD]);
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
pub(crate) type Local = [[f64; PAD]; 2];

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
fn dot(a: &[f64; PAD], b: &[f64; PAD]) -> f64 {
    let mut p = [0.0; PAD];
    for k in 0..PAD {
        p[k] = a[k] * b[k];
    }
    let mut q = [0.0; 4];
    for k in 0..4 {
        q[k] = p[k] + p[k + 4] + p[k + 8];
    }
    (q[0] + q[2]) + (q[1] + q[3])
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

/// Forces and stiffness of one element.
#[derive(Debug, Clone)]
pub(crate) struct System {
    /// Internal forces on the nodes, `[r; z]`, N per mm.
    pub(crate) force: Local,
    /// Stiffness blocks rr, zr (row z, column r) and zz.
    pub(crate) rr: [[f64; PAD]; NODES],
    pub(crate) zr: [[f64; PAD]; NODES],
    pub(crate) zz: [[f64; PAD]; NODES],
    /// Derivative of the volume residual by the displacements, `[r; z]` for each `q`.
    pub(crate) volume_gradient: [Local; 3],
    /// `integral of q (J - 1)` (the `-p/K` is added when condensing).
    pub(crate) swell: [f64; 3],
    /// Smallest `J`.
    pub(crate) least_j: f64,
}

impl System {
    pub(crate) const ZERO: Self = Self {
        force: [[0.0; PAD]; 2],
        rr: [[0.0; PAD]; NODES],
        zr: [[0.0; PAD]; NODES],
        zz: [[0.0; PAD]; NODES],
        volume_gradient: [[[0.0; PAD]; 2]; 3],
        swell: [0.0; 3],
        least_j: f64::MAX,
    };
}

/// State of one element.
#[derive(Debug, Clone, Copy)]
pub(crate) struct State {
    pub(crate) u: Local,
    pub(crate) pressure: [f64; 3],
    pub(crate) carried: Carried,
}

/// Integrates forces, stiffness and the volume residual of one element.
///
/// Stops early, with `least_j` at or below zero, when a point is inverted.
#[inline(always)]
pub(crate) fn integrate<L: Law + ?Sized>(
    points: &[Point; 9],
    state: &State,
    law: &L,
    out: &mut System,
) {
    *out = System::ZERO;
    for point in points {
        let Deformation { f, invariants } = deform(point, &state.u, state.carried);
        let j = invariants.d * invariants.w;
        out.least_j = out.least_j.min(if invariants.w > 0.0 { j } else { -1.0 });
        if !(out.least_j > 0.0) {
            return;
        }
        let mut jet = law.jet(invariants);
        let p = state.pressure[0] * point.q[0]
            + state.pressure[1] * point.q[1]
            + state.pressure[2] * point.q[2];
        jet.gradient[1] += p * invariants.w;
        jet.gradient[2] += p * invariants.d;
        jet.hessian[4] += p;
        let tangent = push_forward(f, &jet);
        let slope = [
            invariants.w * f[3],
            -invariants.w * f[2],
            -invariants.w * f[1],
            invariants.w * f[0],
            invariants.d,
        ];
        accumulate((point, state.carried), &tangent, (slope, j), out);
    }
}

/// Adds one point's share. `slope` is `dJ/dF`.
#[inline(always)]
fn accumulate(
    (point, carried): (&Point, Carried),
    tangent: &crate::material::Tangent,
    (slope, j): ([f64; 5], f64),
    out: &mut System,
) {
    let v = point.volume;
    let (mut r, mut z, mut h) = ([0.0; PAD], [0.0; PAD], [0.0; PAD]);
    for k in 0..PAD {
        r[k] = carried.plane * point.dr[k];
        z[k] = carried.plane * point.dz[k];
        h[k] = carried.hoop * point.hoop[k];
    }
    let stress = tangent.stress.map(|x| v * x);
    for k in 0..PAD {
        out.force[0][k] += stress[0] * r[k] + stress[1] * z[k] + stress[4] * h[k];
        out.force[1][k] += stress[2] * r[k] + stress[3] * z[k];
    }
    for i in 0..3 {
        let q = v * point.q[i];
        out.swell[i] += q * (j - 1.0);
        let s = slope.map(|x| q * x);
        for k in 0..PAD {
            out.volume_gradient[i][0][k] += s[0] * r[k] + s[1] * z[k] + s[4] * h[k];
            out.volume_gradient[i][1][k] += s[2] * r[k] + s[3] * z[k];
        }
    }
    // Columns of A G, for displacements along r (five stresses) and along z (two are needed).
    let a = &tangent.stiffness;
    let mut t = [[0.0; PAD]; 5];
    for (row, t) in a.iter().zip(&mut t) {
        let (c0, c1, c4) = (v * row[0], v * row[1], v * row[4]);
        for k in 0..PAD {
            t[k] = c0 * r[k] + c1 * z[k] + c4 * h[k];
        }
    }
    let mut y = [[0.0; PAD]; 2];
    for (row, y) in a[2..4].iter().zip(&mut y) {
        let (c2, c3) = (v * row[2], v * row[3]);
        for k in 0..PAD {
            y[k] = c2 * r[k] + c3 * z[k];
        }
    }
    for i in 0..NODES {
        let (ri, zi, hi) = (r[i], z[i], h[i]);
        for k in 0..PAD {
            out.rr[i][k] += ri * t[0][k] + zi * t[1][k] + hi * t[4][k];
            out.zr[i][k] += ri * t[2][k] + zi * t[3][k];
            out.zz[i][k] += ri * y[0][k] + zi * y[1][k];
        }
    }
}
