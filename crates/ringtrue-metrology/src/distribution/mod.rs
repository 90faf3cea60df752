//! Distribution functions, and the distributions that a tolerance stands for.
//!
//! The normal functions keep their relative accuracy far into the tails (`libm::erfc`). Student's t
//! and chi-square come from `statrs`, refined by Newton steps on their own distribution functions.

mod gauss;
mod range;
mod tolerance;

pub(crate) use gauss::integrate;
pub use range::{MOST_PLACES, Moments, Place, RangeError, RangeOfNormals};
pub(crate) use tolerance::unit_triangular_quantile;
pub use tolerance::{Distribution, NORMAL_SIGMAS, Shape};

use std::f64::consts::{FRAC_1_SQRT_2, PI, SQRT_2};

use statrs::distribution::{ChiSquared, Continuous, ContinuousCDF, StudentsT};

use crate::source::Source;

/// Where the functions come from.
pub const SOURCES: &[Source] = &[
    Source::Published(
        "M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 1964, 26.2 (normal), \
         26.4 (chi-square), 26.7 (Student's t)",
    ),
    Source::Unverified("ASTM MNL 7, control-chart constants d2, d3 (range of n normals)"),
];

/// `1/sqrt(2π)`.
pub(crate) const INV_SQRT_TAU: f64 = 0.398_942_280_401_432_7;

/// Density of the standard normal distribution.
#[must_use]
pub fn normal_pdf(z: f64) -> f64 {
    INV_SQRT_TAU * libm::exp(-0.5 * z * z)
}

/// `Φ(z) = P(Z <= z)`, right to about `z² ε` relative, in the lower tail too.
#[must_use]
pub fn normal_cdf(z: f64) -> f64 {
    0.5 * libm::erfc(-z * FRAC_1_SQRT_2)
}

/// `1 − Φ(z) = P(Z > z)`, right to about `z² ε` relative, in the upper tail too.
#[must_use]
pub fn normal_sf(z: f64) -> f64 {
    0.5 * libm::erfc(z * FRAC_1_SQRT_2)
}

/// z with `Φ(z) = p`; infinite at 0 and 1, NaN outside 0..=1.
///
/// Starting value from `statrs`, one Halley step against [`normal_cdf`].
#[must_use]
pub fn normal_quantile(p: f64) -> f64 {
    if !(0.0..=1.0).contains(&p) {
        return f64::NAN;
    }
    // Only the lower tail resolves small probabilities; 1 − p is exact from one half on.
    if p > 0.5 {
        return -lower_normal_quantile(1.0 - p);
    }
    lower_normal_quantile(p)
}

fn lower_normal_quantile(p: f64) -> f64 {
    if p <= 0.0 {
        return f64::NEG_INFINITY;
    }
    let z = -SQRT_2 * statrs::function::erf::erfc_inv(2.0 * p);
    let density = normal_pdf(z);
    // Below the smallest normal number there is no density to divide by.
    if density < f64::MIN_POSITIVE || p < f64::MIN_POSITIVE {
        return z;
    }
    let step = (normal_cdf(z) - p) / density;
    z - step / (1.0 + 0.5 * z * step)
}

/// t with `P(T <= t) = p` for Student's t with `dof` degrees of freedom.
///
/// `dof` may be broken or infinite (then the normal quantile); NaN for `dof <= 0` or p outside
/// 0..=1.
#[must_use]
pub fn student_t_quantile(p: f64, dof: f64) -> f64 {
    if !(0.0..=1.0).contains(&p) || dof.is_nan() || dof <= 0.0 {
        return f64::NAN;
    }
    // From here on both agree to better than 1e-8 and the library's beta function loses digits.
    if dof > 1e9 {
        return normal_quantile(p);
    }
    if p > 0.5 {
        return -lower_t_quantile(1.0 - p, dof);
    }
    lower_t_quantile(p, dof)
}

fn lower_t_quantile(p: f64, dof: f64) -> f64 {
    if p <= 0.0 {
        return f64::NEG_INFINITY;
    }
    if p >= 0.5 {
        return 0.0;
    }
    let Ok(t) = StudentsT::new(0.0, 1.0, dof) else {
        return f64::NAN;
    };
    newton(t.inverse_cdf(p), |x| (t.cdf(x) - p, t.pdf(x)))
}

/// `P(T <= t)` for Student's t with `dof` degrees of freedom; NaN for `dof <= 0`.
#[must_use]
pub fn student_t_cdf(t: f64, dof: f64) -> f64 {
    if dof > 1e9 {
        return normal_cdf(t);
    }
    StudentsT::new(0.0, 1.0, dof).map_or(f64::NAN, |d| d.cdf(t))
}

/// x with `P(X <= x) = p` for chi-square with `dof` degrees of freedom.
///
/// NaN for `dof <= 0`, not finite, or p outside 0..=1.
#[must_use]
pub fn chi_squared_quantile(p: f64, dof: f64) -> f64 {
    if !((0.0..=1.0).contains(&p) && dof > 0.0 && dof.is_finite()) {
        return f64::NAN;
    }
    if p == 0.0 {
        return 0.0;
    }
    if p == 1.0 {
        return f64::INFINITY;
    }
    let Ok(x2) = ChiSquared::new(dof) else {
        return f64::NAN;
    };
    newton(x2.inverse_cdf(p), |x| (x2.cdf(x) - p, x2.pdf(x)))
}

/// `P(X > x)` for chi-square with `dof` degrees of freedom; NaN for `dof <= 0` or not finite.
#[must_use]
pub fn chi_squared_sf(x: f64, dof: f64) -> f64 {
    if x.is_nan() || !(dof > 0.0 && dof.is_finite()) {
        return f64::NAN;
    }
    if x <= 0.0 {
        return 1.0;
    }
    ChiSquared::new(dof).map_or(f64::NAN, |d| d.sf(x))
}

/// Two steps from a good starting value: the library's inverses stop at about 1e-9.
fn newton(mut x: f64, f: impl Fn(f64) -> (f64, f64)) -> f64 {
    for _ in 0..2 {
        let (excess, slope) = f(x);
        let step = excess / slope;
        // Never trust a step larger than the start was wrong by.
        if step.is_finite() && step.abs() <= 1e-3 * x.abs() {
            x -= step;
        }
    }
    x
}

/// Quantile of the Rayleigh distribution, `sigma sqrt(−2 ln(1 − p))`: the amplitude that noise of
/// standard uncertainty `sigma` in both parts shows on a level ring. NaN outside 0..=1.
#[must_use]
pub fn rayleigh_quantile(p: f64, sigma: f64) -> f64 {
    if !(0.0..=1.0).contains(&p) {
        return f64::NAN;
    }
    sigma * (-2.0 * libm::log1p(-p)).sqrt()
}

/// Mean of the Rayleigh distribution, `sigma sqrt(π/2)`.
#[must_use]
pub fn rayleigh_mean(sigma: f64) -> f64 {
    sigma * (PI / 2.0).sqrt()
}

#[cfg(test)]
mod tests;
