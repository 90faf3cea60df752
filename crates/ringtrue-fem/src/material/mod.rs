//! Constitutive laws: energy, stress and tangent of isotropic solids.
//!
//! In plane strain and in axial symmetry the deformation gradient has the five entries
//! `F11, F12, F21, F22` (in the section plane) and `F33` (along the hoop). Every isotropic energy
//! is
//! then a function of three scalars, see [`Invariants`]: no eigenvectors are needed, and no case of
//! equal stretches has to be singled out. A law states its energy and the first and second
//! derivatives with respect to these three; `push_forward` turns them into the first
//! Piola-Kirchhoff stress and its tangent.
//!
//! Energies are per undeformed volume, N mm/mm^3 = MPa.

pub mod fit;
pub mod mooney_rivlin;
pub mod neo_hooke;
pub mod ogden;
mod push;
pub mod saint_venant_kirchhoff;
mod simple_modes;
pub mod stability;
#[cfg(test)]
mod tests;
pub mod yeoh;

pub use mooney_rivlin::MooneyRivlin;
pub use neo_hooke::NeoHooke;
pub use ogden::{Ogden, OgdenTerm};
pub(crate) use push::{Tangent, push_forward};
pub use saint_venant_kirchhoff::SaintVenantKirchhoff;
pub use simple_modes::{Mode, nominal_stress};
pub use yeoh::Yeoh;

/// The three scalars that an isotropic energy of this kinematics depends on.
///
/// With in-plane principal stretches `l1, l2` and hoop stretch `w`: `s = l1^2 + l2^2`,
/// `d = l1 l2`. Hence `J = d w`, `I1 = s + w^2`, `I2 = d^2 + s w^2`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Invariants {
    /// Squared Frobenius norm of the in-plane deformation gradient.
    pub s: f64,
    /// Determinant of the in-plane deformation gradient; positive.
    pub d: f64,
    /// Hoop stretch `F33`; positive.
    pub w: f64,
}

/// An energy with its first and second derivatives with respect to `(s, d, w)`, MPa.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Jet {
    /// Energy per undeformed volume.
    pub energy: f64,
    /// First derivatives by `s`, `d`, `w`.
    pub gradient: [f64; 3],
    /// Second derivatives `ss, sd, sw, dd, dw, ww`.
    pub hessian: [f64; 6],
}

/// A law whose energy depends on [`Invariants`] alone.
pub trait Law: Sync {
    /// Energy and derivatives; the volumetric part is left out when [`Law::bulk`] gives a modulus.
    fn jet(&self, at: Invariants) -> Jet;

    /// Bulk modulus `K` of the volumetric part `K/2 (J - 1)^2`, MPa; `None` when the energy of
    /// [`Law::jet`] is complete and the element needs no pressure of its own.
    fn bulk(&self) -> Option<f64>;

    /// Shear modulus at zero strain, MPa.
    fn shear(&self) -> f64;

    /// Young's modulus at zero strain, MPa.
    fn young(&self) -> f64 {
        match self.bulk() {
            Some(bulk) => 9.0 * bulk * self.shear() / (3.0 * bulk + self.shear()),
            None => 3.0 * self.shear(),
        }
    }
}

/// The laws on offer. The rubber laws take isochoric invariants and add `bulk/2 (J - 1)^2`.
#[derive(Debug, Clone, PartialEq)]
pub enum Material {
    /// One constant.
    NeoHooke(NeoHooke),
    /// Two constants.
    MooneyRivlin(MooneyRivlin),
    /// Three constants, cubic in the first invariant.
    Yeoh(Yeoh),
    /// Powers of the principal stretches.
    Ogden(Ogden),
    /// Steel at large rotation and small strain.
    SaintVenantKirchhoff(SaintVenantKirchhoff),
}

impl Material {
    /// The law behind the variant.
    #[must_use]
    pub fn law(&self) -> &dyn Law {
        match self {
            Self::NeoHooke(law) => law,
            Self::MooneyRivlin(law) => law,
            Self::Yeoh(law) => law,
            Self::Ogden(law) => law,
            Self::SaintVenantKirchhoff(law) => law,
        }
    }

    /// What is wrong with the constants, if anything: every modulus must be finite, the initial
    /// shear modulus and the bulk modulus positive.
    #[must_use]
    pub fn defect(&self) -> Option<String> {
        let law = self.law();
        let shear = law.shear();
        if !(shear.is_finite() && shear > 0.0) {
            return Some(format!("the shear modulus at zero strain is {shear} MPa, not positive"));
        }
        match law.bulk() {
            Some(bulk) if !(bulk.is_finite() && bulk > 0.0) => {
                Some(format!("the bulk modulus is {bulk} MPa, not positive"))
            }
            Some(bulk) if bulk < 2.0 / 3.0 * shear => Some(format!(
                "the bulk modulus {bulk} MPa makes Poisson's ratio negative; rubber has some \
                 2000 MPa"
            )),
            Some(_) => None,
            None if law.young().is_finite() && law.young() > 0.0 => None,
            None => Some("Poisson's ratio must lie between -1 and 0.5".to_owned()),
        }
    }
}

/// Energy of a law in the isochoric invariants and the derivatives by them.
#[derive(Debug, Clone, Copy)]
pub(crate) struct IsochoricJet {
    pub(crate) energy: f64,
    /// Derivatives by the isochoric `I1` and `I2`.
    pub(crate) first: [f64; 2],
    /// Second derivatives `11, 12, 22`.
    pub(crate) second: [f64; 3],
}

/// Chains derivatives by the isochoric invariants `J^(-2/3) I1`, `J^(-4/3) I2` to `(s, d, w)`.
#[inline(always)]
pub(crate) fn chain_isochoric(
    at: Invariants,
    energy: impl FnOnce(f64, f64) -> IsochoricJet,
) -> Jet {
    let Invariants { s, d, w } = at;
    // J^(-1/3) through one cube root; both invariants are products of its powers.
    let cube = inverse_cube_root(d * w);
    let (c2, c4) = (cube * cube, cube * cube * cube * cube);
    let first = power_chain((c2, -2.0 / 3.0), at, [s + w * w, 1.0, 0.0, 2.0 * w], [0.0, 0.0, 2.0]);
    let second = power_chain(
        (c4, -4.0 / 3.0),
        at,
        [d * d + s * w * w, w * w, 2.0 * d, 2.0 * s * w],
        [2.0, 2.0 * w, 2.0 * s],
    );
    let e = energy(first.energy, second.energy);
    let mut jet = Jet { energy: e.energy, ..Jet::default() };
    for i in 0..3 {
        jet.gradient[i] = e.first[0] * first.gradient[i] + e.first[1] * second.gradient[i];
    }
    const PAIR: [(usize, usize); 6] = [(0, 0), (0, 1), (0, 2), (1, 1), (1, 2), (2, 2)];
    for (k, (i, j)) in PAIR.into_iter().enumerate() {
        let (a, b) = (&first.gradient, &second.gradient);
        jet.hessian[k] = e.first[0] * first.hessian[k]
            + e.first[1] * second.hessian[k]
            + e.second[0] * a[i] * a[j]
            + e.second[1] * (a[i] * b[j] + b[i] * a[j])
            + e.second[2] * b[i] * b[j];
    }
    jet
}

/// The same for laws of the first invariant alone; `energy` gives value, first and second
/// derivative.
#[inline(always)]
pub(crate) fn chain_first(at: Invariants, energy: impl FnOnce(f64) -> [f64; 3]) -> Jet {
    let Invariants { s, d, w } = at;
    let cube = inverse_cube_root(d * w);
    let f = [s + w * w, 1.0, 0.0, 2.0 * w];
    let first = power_chain((cube * cube, -2.0 / 3.0), at, f, [0.0, 0.0, 2.0]);
    let [value, by_i1, twice] = energy(first.energy);
    let g = first.gradient;
    let pair = [g[0] * g[0], g[0] * g[1], g[0] * g[2], g[1] * g[1], g[1] * g[2], g[2] * g[2]];
    let mut jet = Jet { energy: value, gradient: g.map(|x| by_i1 * x), hessian: [0.0; 6] };
    for k in 0..6 {
        jet.hessian[k] = by_i1 * first.hessian[k] + twice * pair[k];
    }
    jet
}

/// `j^(-1/3)`. Rubber keeps its volume, so near 1 a parabola and Newton's iteration for `y^-3 = j`,
/// which needs no division, get there in the element loop's own instructions; the library's root
/// took a twelfth of a whole run.
#[inline(always)]
fn inverse_cube_root(j: f64) -> f64 {
    let off = j - 1.0;
    if off.abs() > 0.06 {
        return 1.0 / j.cbrt();
    }
    // Off by at most 0.173 x 0.06^3 = 4e-5, then 3e-9, then rounding.
    let mut y = 1.0 + off * (2.0 / 9.0 * off - 1.0 / 3.0);
    for _ in 0..2 {
        y += y * (1.0 - j * y * y * y) * (1.0 / 3.0);
    }
    y
}

/// Derivatives of `J^m f` for `f` with value and gradient `f = [f, fs, fd, fw]` and the non-zero
/// second derivatives `h = [f_dd, f_sw, f_ww]`; `scale = J^m`, `J = d w`.
#[inline(always)]
fn power_chain((scale, m): (f64, f64), at: Invariants, f: [f64; 4], h: [f64; 3]) -> Jet {
    let inverse = 1.0 / (at.d * at.w);
    let (by_d, by_w) = (inverse * at.w, inverse * at.d);
    let (md, mw) = (m * by_d, m * by_w);
    let [v, fs, fd, fw] = f;
    Jet {
        energy: scale * v,
        gradient: [scale * fs, scale * (fd + md * v), scale * (fw + mw * v)],
        hessian: [
            0.0,
            scale * md * fs,
            scale * (h[1] + mw * fs),
            scale * (h[0] + 2.0 * md * fd + md * (m - 1.0) * by_d * v),
            scale * (md * fw + mw * fd + md * mw * v),
            scale * (h[2] + 2.0 * mw * fw + mw * (m - 1.0) * by_w * v),
        ],
    }
}
