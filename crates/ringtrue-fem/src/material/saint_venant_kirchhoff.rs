//! Saint Venant-Kirchhoff: Hooke's law between Green-Lagrange strain `E` and second
//! Piola-Kirchhoff stress, `W = lambda/2 (tr E)^2 + mu tr(E^2)`. It has no separate volumetric
//! part.

use super::{Invariants, Jet, Law};

/// Steel at large rotations and small strains. Softens without limit in strong compression: not for
/// rubber. Source: any text on finite elasticity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SaintVenantKirchhoff {
    /// Young's modulus, MPa.
    pub young: f64,
    /// Poisson's ratio, between -1 and 0.5.
    pub poisson: f64,
}

impl SaintVenantKirchhoff {
    fn lame(&self) -> (f64, f64) {
        let Self { young, poisson } = *self;
        let mu = 0.5 * young / (1.0 + poisson);
        (2.0 * mu * poisson / (1.0 - 2.0 * poisson), mu)
    }
}

impl Law for SaintVenantKirchhoff {
    #[inline(always)]
    fn jet(&self, at: Invariants) -> Jet {
        let Invariants { s, d, w } = at;
        let (lambda, mu) = self.lame();
        let trace = 0.5 * (s + w * w - 3.0);
        // 4 tr(E^2) = tr (C - I)^2 with tr C_plane^2 = s^2 - 2 d^2.
        let hoop = w * w - 1.0;
        let square = 0.25 * (s * s - 2.0 * d * d - 2.0 * s + 2.0 + hoop * hoop);
        Jet {
            energy: 0.5 * lambda * trace * trace + mu * square,
            gradient: [
                0.5 * lambda * trace + 0.5 * mu * (s - 1.0),
                -mu * d,
                lambda * trace * w + mu * hoop * w,
            ],
            hessian: [
                0.25 * lambda + 0.5 * mu,
                0.0,
                0.5 * lambda * w,
                -mu,
                0.0,
                lambda * (trace + w * w) + mu * (3.0 * w * w - 1.0),
            ],
        }
    }

    fn bulk(&self) -> Option<f64> {
        None
    }

    fn shear(&self) -> f64 {
        self.lame().1
    }

    /// NaN when Poisson's ratio is out of its range, so that [`super::Material::defect`] sees it.
    fn young(&self) -> f64 {
        if self.poisson > -1.0 && self.poisson < 0.5 { self.young } else { f64::NAN }
    }
}
