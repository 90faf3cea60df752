//! Forces of one element, and its stiffness as a sum of products.
//!
//! The stiffness is `sum over points of G^T A G`: each of its rows is a short sum of products of a
//! number of that row's node with a line over all nodes. The lines are kept, and a row is summed
//! over all points at once, in registers; adding point by point would read and write the whole
//! matrix nine times.

use super::{CENTRE, Deformation, Local, NODES, Point, SHARED, State, deform};
use crate::material::{Law, Tangent, push_forward};

/// A line over the shared nodes, as wide as the widest register.
#[derive(Debug, Clone, Copy)]
#[repr(align(64))]
pub(super) struct Line(pub(super) [f64; SHARED]);

impl Line {
    pub(super) const ZERO: Self = Self([0.0; SHARED]);

    /// Adds `a` times `line`; in one rounding where the processor can.
    #[inline(always)]
    pub(super) fn add<const FUSED: bool>(&mut self, a: f64, line: &[f64; SHARED]) {
        for (x, b) in self.0.iter_mut().zip(line) {
            *x = add_product::<FUSED>(*x, a, *b);
        }
    }
}

/// `x + a b`. Without instructions for it the fused form is a call, far slower: also in a closure
/// that is not inlined into the function that has them, so there is none around it.
#[inline(always)]
pub(super) fn add_product<const FUSED: bool>(x: f64, a: f64, b: f64) -> f64 {
    if FUSED { a.mul_add(b, x) } else { x + a * b }
}

/// A line over all nodes.
#[derive(Debug, Clone, Copy)]
pub(super) struct Along {
    pub(super) shared: Line,
    pub(super) centre: f64,
}

impl Along {
    const ZERO: Self = Self { shared: Line::ZERO, centre: 0.0 };

    #[inline(always)]
    fn add_along<const FUSED: bool>(&mut self, a: f64, along: &Self) {
        self.shared.add::<FUSED>(a, &along.shared.0);
        self.centre = add_product::<FUSED>(self.centre, a, along.centre);
    }

    #[inline(always)]
    pub(super) fn add<const FUSED: bool>(&mut self, a: f64, line: &[f64; NODES]) {
        for k in 0..SHARED {
            self.shared.0[k] = add_product::<FUSED>(self.shared.0[k], a, line[k]);
        }
        self.centre = add_product::<FUSED>(self.centre, a, line[CENTRE]);
    }
}

/// What one integration point adds to the stiffness.
#[derive(Debug, Clone, Copy)]
struct Share {
    /// `G`: by which a displacement along r moves `F11, F12, F33`, and one along z `F21, F22`.
    left: [[f64; NODES]; 3],
    /// `A G` for displacements along r: changes of `P11, P12, P33`, then of `P21, P22`.
    by_r: [Along; 5],
    /// `A G` for displacements along z: changes of `P21, P22`.
    by_z: [Along; 2],
}

impl Share {
    const ZERO: Self =
        Self { left: [[0.0; NODES]; 3], by_r: [Along::ZERO; 5], by_z: [Along::ZERO; 2] };
}

/// One node's rows of the stiffness: its force along r by displacements along r, its force along z
/// by those along r, and by those along z.
#[derive(Debug, Clone, Copy)]
pub(super) struct Rows {
    pub(super) rr: Along,
    pub(super) zr: Along,
    pub(super) zz: Along,
}

/// Forces and stiffness of one element.
#[derive(Debug, Clone)]
pub(crate) struct System {
    /// Internal forces on the nodes, `[r; z]`, N per mm.
    pub(crate) force: Local,
    /// Derivative of the volume residual by the displacements, `[r; z]` for each `q`.
    pub(crate) volume_gradient: [Local; 3],
    /// `integral of q (J - 1)` (the `-p/K` is added when condensing).
    pub(crate) swell: [f64; 3],
    /// Smallest `J`.
    pub(crate) least_j: f64,
    shares: [Share; 9],
}

impl System {
    pub(crate) const ZERO: Self = Self {
        force: [[0.0; NODES]; 2],
        volume_gradient: [[[0.0; NODES]; 2]; 3],
        swell: [0.0; 3],
        least_j: f64::MAX,
        shares: [Share::ZERO; 9],
    };

    /// Rows of node `i`, summed over all points.
    #[inline(always)]
    pub(super) fn rows<const FUSED: bool>(&self, i: usize) -> Rows {
        let mut rows = [Along::ZERO; 3];
        for share in &self.shares {
            let [r, z, h] = [share.left[0][i], share.left[1][i], share.left[2][i]];
            let [t11, t12, t33, t21, t22] = &share.by_r;
            let [y21, y22] = &share.by_z;
            let [rr, zr, zz] = &mut rows;
            for (a, along) in [(r, t11), (z, t12), (h, t33)] {
                rr.add_along::<FUSED>(a, along);
            }
            for (a, along) in [(r, t21), (z, t22)] {
                zr.add_along::<FUSED>(a, along);
            }
            for (a, along) in [(r, y21), (z, y22)] {
                zz.add_along::<FUSED>(a, along);
            }
        }
        let [rr, zr, zz] = rows;
        Rows { rr, zr, zz }
    }

    /// Stiffness of the forces `[r, z]` on node `i` by displacements of node `k` along r, and of
    /// the force along z by those along z.
    pub(crate) fn stiffness(&self, i: usize, k: usize) -> [f64; 3] {
        let Rows { rr, zr, zz } = self.rows::<false>(i);
        [rr, zr, zz].map(|along| if k == CENTRE { along.centre } else { along.shared.0[k] })
    }
}

/// Integrates forces, stiffness and the volume residual of one element.
///
/// Stops early, with `least_j` at or below zero, when a point is inverted.
#[inline(always)]
pub(crate) fn integrate<const FUSED: bool, L: Law + ?Sized>(
    points: &[Point; 9],
    state: &State,
    law: &L,
    out: &mut System,
) {
    out.force = [[0.0; NODES]; 2];
    out.volume_gradient = [[[0.0; NODES]; 2]; 3];
    out.swell = [0.0; 3];
    out.least_j = f64::MAX;
    for (n, point) in points.iter().enumerate() {
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
        // dJ/dF.
        let slope = [
            invariants.w * f[3],
            -invariants.w * f[2],
            -invariants.w * f[1],
            invariants.w * f[0],
            invariants.d,
        ];
        let left = gradients(point, state);
        add_forces::<FUSED>((point, &left), &tangent, (slope, j), out);
        out.shares[n] = share::<FUSED>(point.volume, left, &tangent);
    }
}

/// Gradients of the shape functions, with the stretch that the mesh carries.
#[inline(always)]
fn gradients(point: &Point, state: &State) -> [[f64; NODES]; 3] {
    let (plane, hoop) = (state.carried.plane, state.carried.hoop);
    let mut left = [[0.0; NODES]; 3];
    for k in 0..NODES {
        left[0][k] = plane * point.dr[k];
        left[1][k] = plane * point.dz[k];
        left[2][k] = hoop * point.hoop[k];
    }
    left
}

#[inline(always)]
fn add_forces<const FUSED: bool>(
    (point, [r, z, h]): (&Point, &[[f64; NODES]; 3]),
    tangent: &Tangent,
    (slope, j): ([f64; 5], f64),
    out: &mut System,
) {
    let v = point.volume;
    add_local::<FUSED>(tangent.stress.map(|x| v * x), [r, z, h], &mut out.force);
    for i in 0..3 {
        let q = v * point.q[i];
        out.swell[i] += q * (j - 1.0);
        add_local::<FUSED>(slope.map(|x| q * x), [r, z, h], &mut out.volume_gradient[i]);
    }
}

/// Adds what the five entries do on each node.
#[inline(always)]
fn add_local<const FUSED: bool>(
    by: [f64; 5],
    [r, z, h]: [&[f64; NODES]; 3],
    [along_r, along_z]: &mut Local,
) {
    for k in 0..NODES {
        let x = add_product::<FUSED>(along_r[k], by[0], r[k]);
        along_r[k] = add_product::<FUSED>(add_product::<FUSED>(x, by[1], z[k]), by[4], h[k]);
        let x = add_product::<FUSED>(along_z[k], by[2], r[k]);
        along_z[k] = add_product::<FUSED>(x, by[3], z[k]);
    }
}

/// Columns of `v A G`.
#[inline(always)]
fn share<const FUSED: bool>(v: f64, left: [[f64; NODES]; 3], tangent: &Tangent) -> Share {
    let [r, z, h] = &left;
    let a = &tangent.stiffness;
    let mut share = Share { left, by_r: [Along::ZERO; 5], by_z: [Along::ZERO; 2] };
    for (along, row) in share.by_r.iter_mut().zip([0, 1, 4, 2, 3]) {
        along.add::<FUSED>(v * a[row][0], r);
        along.add::<FUSED>(v * a[row][1], z);
        along.add::<FUSED>(v * a[row][4], h);
    }
    for (along, row) in share.by_z.iter_mut().zip([2, 3]) {
        along.add::<FUSED>(v * a[row][2], r);
        along.add::<FUSED>(v * a[row][3], z);
    }
    share
}
