//! From derivatives by the invariants to the first Piola-Kirchhoff stress and its tangent.

use super::Jet;

/// Stress and tangent with respect to `[F11, F12, F21, F22, F33]`.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Tangent {
    /// First Piola-Kirchhoff stress, MPa.
    pub(crate) stress: [f64; 5],
    /// `dP/dF`, symmetric, MPa.
    pub(crate) stiffness: [[f64; 5]; 5],
}

/// Chains a [`Jet`] by `ds = 2 F`, `dd = cof F` in the plane and `dw` along the hoop.
#[inline(always)]
pub(crate) fn push_forward(f: [f64; 4], jet: &Jet) -> Tangent {
    let [gs, gd, gw] = jet.gradient;
    let [ss, sd, sw, dd, dw, ww] = jet.hessian;
    let a = [2.0 * f[0], 2.0 * f[1], 2.0 * f[2], 2.0 * f[3]];
    let b = [f[3], -f[2], -f[1], f[0]];
    let mut stress = [0.0; 5];
    let mut stiffness = [[0.0; 5]; 5];
    for i in 0..4 {
        stress[i] = gs * a[i] + gd * b[i];
        let (left_a, left_b) = (ss * a[i] + sd * b[i], sd * a[i] + dd * b[i]);
        for j in 0..4 {
            stiffness[i][j] = left_a * a[j] + left_b * b[j];
        }
        stiffness[i][i] += 2.0 * gs;
        let hoop = sw * a[i] + dw * b[i];
        stiffness[i][4] = hoop;
        stiffness[4][i] = hoop;
    }
    stress[4] = gw;
    stiffness[4][4] = ww;
    // d = F11 F22 - F12 F21 has these constant second derivatives.
    stiffness[0][3] += gd;
    stiffness[3][0] += gd;
    stiffness[1][2] -= gd;
    stiffness[2][1] -= gd;
    Tangent { stress, stiffness }
}
