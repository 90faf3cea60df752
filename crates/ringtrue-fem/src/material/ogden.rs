//! Ogden: `W = sum mu_p/alpha_p (l1^alpha_p + l2^alpha_p + l3^alpha_p - 3)` on the isochoric
//! principal stretches `l_i = J^(-1/3) lambda_i`, plus `bulk/2 (J - 1)^2`.
//!
//! The initial shear modulus is `1/2 sum mu_p alpha_p`. Texts that write `2 mu_p/alpha_p^2` mean
//! other constants: there `sum mu_p` is the shear modulus.

use super::{Invariants, Jet, Law};

/// One term of the sum.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OgdenTerm {
    /// Modulus `mu_p`, MPa.
    pub mu: f64,
    /// Power `alpha_p`, not zero.
    pub alpha: f64,
}

/// Ogden rubber. Source: R.W. Ogden, Proc. R. Soc. Lond. A 326 (1972) 565.
#[derive(Debug, Clone, PartialEq)]
pub struct Ogden {
    /// The terms of the sum, usually one to three.
    pub terms: Vec<OgdenTerm>,
    /// Bulk modulus of the volumetric part `bulk/2 (J - 1)^2`, MPa.
    pub bulk: f64,
}

impl Law for Ogden {
    #[inline]
    fn jet(&self, at: Invariants) -> Jet {
        let mut sum = Jet::default();
        for term in &self.terms {
            let one = power_sum(at, term.alpha);
            let factor = term.mu / term.alpha;
            sum.energy += factor * (one.energy - 3.0);
            for i in 0..3 {
                sum.gradient[i] += factor * one.gradient[i];
            }
            for i in 0..6 {
                sum.hessian[i] += factor * one.hessian[i];
            }
        }
        sum
    }

    fn bulk(&self) -> Option<f64> {
        Some(self.bulk)
    }

    fn shear(&self) -> f64 {
        0.5 * self.terms.iter().map(|t| t.mu * t.alpha).sum::<f64>()
    }
}

/// `J^(-alpha/3) (lambda1^alpha + lambda2^alpha + w^alpha)` with its derivatives.
///
/// `lambda1^alpha + lambda2^alpha = 2 d^(alpha/2) T(c)` with `c = s/(2 d) >= 1` and
/// `T(c) = cosh(alpha/2 arccosh c)`, a Chebyshev function of real order: smooth where the two
/// in-plane stretches meet, at `c = 1`.
fn power_sum(at: Invariants, alpha: f64) -> Jet {
    let Invariants { s, d, w } = at;
    let (log_d, log_w) = (d.ln(), w.ln());
    let c = (0.5 * s / d).max(1.0);
    let [t, t1, t2] = chebyshev(0.5 * alpha, c);
    let (cs, cd) = (0.5 / d, -c / d);
    // In-plane part: 2 d^(alpha/6) w^(-alpha/3) T(c).
    let (m, n) = (alpha / 6.0, -alpha / 3.0);
    let a = 2.0 * (m * log_d + n * log_w).exp();
    let plane_s = a * t1 * cs;
    let plane_d = a * (m / d * t + t1 * cd);
    let plane_w = a * n / w * t;
    // Hoop part: d^(-alpha/3) w^(2 alpha/3).
    let q = 2.0 * alpha / 3.0;
    let b = (n * log_d + q * log_w).exp();
    let cross = t2 * cs * cd - t1 * 0.5 / (d * d) + m / d * t1 * cs;
    let dd =
        m * (m - 1.0) / (d * d) * t + 2.0 * m / d * t1 * cd + t2 * cd * cd + t1 * 2.0 * c / (d * d);
    Jet {
        energy: a * t + b,
        gradient: [plane_s, plane_d + b * n / d, plane_w + b * q / w],
        hessian: [
            a * t2 * cs * cs,
            a * cross,
            n / w * plane_s,
            a * dd + b * n * (n - 1.0) / (d * d),
            n / w * plane_d + b * n * q / (d * w),
            a * n * (n - 1.0) / (w * w) * t + b * q * (q - 1.0) / (w * w),
        ],
    }
}

/// `T(c) = cosh(nu arccosh c)` and its first two derivatives, for `c >= 1`.
fn chebyshev(nu: f64, c: f64) -> [f64; 3] {
    let x = c - 1.0;
    let n2 = nu * nu;
    if x < 1e-3 {
        // Series T = sum a_k x^k, a_(k+1) = a_k (nu^2 - k^2) / ((k + 1)(2 k + 1)), from Chebyshev's
        // equation (c^2 - 1) T'' + c T' = nu^2 T; for |nu| up to 10 seven terms leave 4e-16 of T'',
        // and less of T and T'.
        let (mut coefficient, mut value, mut first, mut second) = (1.0, 1.0, 0.0, 0.0);
        let mut power = [0.0, 0.0, 1.0];
        for k in 0..7_u32 {
            let k = f64::from(k);
            coefficient *= (n2 - k * k) / ((k + 1.0) * (2.0 * k + 1.0));
            // power holds x^(k-1), x^k for the derivatives of x^(k+1).
            value += coefficient * power[2] * x;
            first += coefficient * (k + 1.0) * power[2];
            second += coefficient * (k + 1.0) * k * power[1];
            power = [power[1], power[2], power[2] * x];
        }
        return [value, first, second];
    }
    let root = (x * (c + 1.0)).sqrt();
    let angle = (c + root).ln();
    let (up, down) = ((nu * angle).exp(), (-nu * angle).exp());
    let value = 0.5 * (up + down);
    let first = nu * 0.5 * (up - down) / root;
    [value, first, (n2 * value - c * first) / (x * (c + 1.0))]
}
