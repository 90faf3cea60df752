//! Neo-Hooke: `W = mu/2 (I1 - 3)` on the isochoric invariant, plus `bulk/2 (J - 1)^2`.

use super::{Invariants, Jet, Law, chain_first};

/// Neo-Hookean rubber. Source: L.R.G. Treloar, Trans. Faraday Soc. 39 (1943) 36 and 241 (from
/// memory); in simple extension good to a stretch of about 1.5, in shear to about 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NeoHooke {
    /// Shear modulus `mu`, MPa.
    pub mu: f64,
    /// Bulk modulus of the volumetric part `bulk/2 (J - 1)^2`, MPa.
    pub bulk: f64,
}

impl Law for NeoHooke {
    #[inline(always)]
    fn jet(&self, at: Invariants) -> Jet {
        let half = 0.5 * self.mu;
        chain_first(at, |i1| [half * (i1 - 3.0), half, 0.0])
    }

    fn bulk(&self) -> Option<f64> {
        Some(self.bulk)
    }

    fn shear(&self) -> f64 {
        self.mu
    }
}
