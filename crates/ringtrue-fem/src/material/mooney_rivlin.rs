//! Mooney-Rivlin: `W = c10 (I1 - 3) + c01 (I2 - 3)` on isochoric invariants, plus
//! `bulk/2 (J - 1)^2`.

use super::{Invariants, IsochoricJet, Jet, Law, chain_isochoric};

/// Mooney-Rivlin rubber. Source: M. Mooney, J. Appl. Phys. 11 (1940) 582; R.S. Rivlin, Phil.
/// Trans. R. Soc. A 241 (1948) 379 (both from memory). A negative `c01`, as fits of tension alone
/// give, is unstable in compression: see [`super::fit`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MooneyRivlin {
    /// Constant of the first invariant, MPa.
    pub c10: f64,
    /// Constant of the second invariant, MPa.
    pub c01: f64,
    /// Bulk modulus of the volumetric part `bulk/2 (J - 1)^2`, MPa.
    pub bulk: f64,
}

impl Law for MooneyRivlin {
    #[inline(always)]
    fn jet(&self, at: Invariants) -> Jet {
        chain_isochoric(at, |i1, i2| IsochoricJet {
            energy: self.c10 * (i1 - 3.0) + self.c01 * (i2 - 3.0),
            first: [self.c10, self.c01],
            second: [0.0; 3],
        })
    }

    fn bulk(&self) -> Option<f64> {
        Some(self.bulk)
    }

    fn shear(&self) -> f64 {
        2.0 * (self.c10 + self.c01)
    }
}
