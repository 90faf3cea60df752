//! Incompressible homogeneous deformations that test machines make.

use super::{Invariants, Law};

/// A homogeneous test of an incompressible specimen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mode {
    /// One axis loaded, the others free: stretches `l, l^(-1/2), l^(-1/2)`.
    Uniaxial,
    /// Two axes loaded alike: stretches `l, l, l^(-2)`.
    Equibiaxial,
    /// Wide strip (planar tension, pure shear): stretches `l, 1, 1/l`.
    Planar,
}

impl Mode {
    /// The in-plane stretches and the hoop stretch of the kernel's kinematics.
    pub(crate) fn stretches(self, l: f64) -> [f64; 3] {
        match self {
            Self::Uniaxial => [l, 1.0 / l.sqrt(), 1.0 / l.sqrt()],
            Self::Equibiaxial => [l, 1.0 / (l * l), l],
            Self::Planar => [l, 1.0 / l, 1.0],
        }
    }
}

/// Nominal (engineering) stress at `stretch`, MPa: for the equibiaxial test per axis.
///
/// By incompressibility the stress is that of the free direction subtracted:
/// `P = w_1 - w_2 l_2 / l_1`. Closed form, `stretch > 0`.
#[must_use]
pub fn nominal_stress(law: &dyn Law, mode: Mode, stretch: f64) -> f64 {
    let [l1, l2, w] = mode.stretches(stretch);
    let jet = law.jet(Invariants { s: l1 * l1 + l2 * l2, d: l1 * l2, w });
    let [gs, gd, _] = jet.gradient;
    let (w1, w2) = (2.0 * gs * l1 + gd * l2, 2.0 * gs * l2 + gd * l1);
    w1 - w2 * l2 / l1
}
