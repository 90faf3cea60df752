//! Yeoh: `W = c10 x + c20 x^2 + c30 x^3`, `x = I1 - 3` on the isochoric invariant, plus
//! `bulk/2 (J - 1)^2`.

use super::{Invariants, Jet, Law, chain_first};

/// Yeoh rubber, for carbon-black filled compounds. Source: O.H. Yeoh, Rubber Chem. Technol. 66
/// (1993) 754 (from memory).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Yeoh {
    /// Linear constant, MPa; half the initial shear modulus.
    pub c10: f64,
    /// Quadratic constant, MPa; usually negative.
    pub c20: f64,
    /// Cubic constant, MPa; usually positive, the upturn at high stretch.
    pub c30: f64,
    /// Bulk modulus of the volumetric part `bulk/2 (J - 1)^2`, MPa.
    pub bulk: f64,
}

impl Law for Yeoh {
    #[inline(always)]
    fn jet(&self, at: Invariants) -> Jet {
        let Self { c10, c20, c30, .. } = *self;
        chain_first(at, |i1| {
            let x = i1 - 3.0;
            [
                x * (c10 + x * (c20 + x * c30)),
                c10 + x * (2.0 * c20 + x * 3.0 * c30),
                2.0 * c20 + 6.0 * c30 * x,
            ]
        })
    }

    fn bulk(&self) -> Option<f64> {
        Some(self.bulk)
    }

    fn shear(&self) -> f64 {
        2.0 * self.c10
    }
}
