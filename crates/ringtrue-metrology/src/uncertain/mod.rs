//! Standard uncertainties, how they combine, and how far to trust them.
//!
//! | question | function | source |
//! |---|---|---|
//! | uncertainty of `y = f(x₁ … xₙ)` | [`combined`] | JCGM 100 5.1 |
//! | how many readings is that worth | [`effective_degrees_of_freedom`] | JCGM 100 G.4.1 |
//! | expanded uncertainty | [`coverage_factor`] | JCGM 100 G.3 |
//! | two dominant rectangles | [`trapezoidal_coverage_factor`] | EA-4/02 S10 |
//! | uncertainty of bounds | [`uniform`], [`triangular`] | JCGM 100 4.3 |
//! | uncertainty from readings | [`type_a`], [`pooled`] | JCGM 100 4.2 |
//! | do readings scatter more than stated | [`Pooled::is_beyond`] | chi-square test |

mod readings;

pub use readings::{Pooled, ReadingsError, TypeA, pooled, type_a};

use crate::distribution::student_t_quantile;
use crate::source::Source;

/// Where the formulas come from.
pub const SOURCES: &[Source] = &[
    Source::Published("JCGM 100:2008, 4.2, 4.3, 5.1, annex G"),
    Source::Unverified("EA-4/02 M, supplement 2, example S10 (trapezoidal coverage factor)"),
];

/// One input of `y = f(x₁ … xₙ)`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contribution {
    /// Sensitivity `∂f/∂xᵢ`.
    pub sensitivity: f64,
    /// Standard uncertainty `u(xᵢ)`, `>= 0`.
    pub standard_uncertainty: f64,
    /// Degrees of freedom of that uncertainty; infinite when it is known without doubt.
    pub degrees_of_freedom: f64,
}

impl Contribution {
    /// A contribution whose uncertainty is known without doubt.
    #[must_use]
    pub fn known(sensitivity: f64, standard_uncertainty: f64) -> Self {
        Self { sensitivity, standard_uncertainty, degrees_of_freedom: f64::INFINITY }
    }

    /// `|cᵢ| u(xᵢ)`, in the unit of y.
    #[must_use]
    pub fn in_y(&self) -> f64 {
        (self.sensitivity * self.standard_uncertainty).abs()
    }

    /// `(cᵢ u(xᵢ))²`, in the unit of y squared.
    #[must_use]
    pub fn variance(&self) -> f64 {
        self.in_y() * self.in_y()
    }
}

/// Combined standard uncertainty of independent inputs, `u_c = sqrt(Σ cᵢ² uᵢ²)`.
///
/// First order: valid where the sensitivities hardly change within the uncertainties.
/// JCGM 100:2008 5.1.2, equation (10).
#[must_use]
pub fn combined(contributions: &[Contribution]) -> f64 {
    contributions.iter().map(Contribution::variance).sum::<f64>().sqrt()
}

/// Effective degrees of freedom, `ν = u_c⁴ / Σ (cᵢ uᵢ)⁴/νᵢ` (Welch–Satterthwaite), not rounded.
///
/// Infinite when no input with finite degrees of freedom contributes. Independent inputs only.
/// JCGM 100:2008 G.4.1, equation (G.2b).
#[must_use]
pub fn effective_degrees_of_freedom(contributions: &[Contribution]) -> f64 {
    // Relative to the combined uncertainty: fourth powers of small lengths vanish.
    let total = combined(contributions);
    if total == 0.0 {
        return f64::INFINITY;
    }
    let doubt: f64 = contributions
        .iter()
        .filter(|c| c.variance() > 0.0)
        .map(|c| {
            let share = c.in_y() / total;
            share * share * share * share / c.degrees_of_freedom
        })
        .sum();
    1.0 / doubt
}

/// Degrees of freedom for the table: truncated to the whole number below (JCGM 100:2008 G.4.1,
/// note 1), but not below 1.
#[must_use]
pub fn truncated(degrees_of_freedom: f64) -> f64 {
    // 16 reached as 15.999… by rounding is 16.
    libm::floor(degrees_of_freedom * (1.0 + 1e-12)).max(1.0)
}

/// Coverage factor `k = t_p(ν)`: the two-sided interval `± k u_c` holds the share `coverage`.
///
/// NaN unless `0 < coverage < 1` and `ν > 0`; an infinite ν gives the normal factor.
/// JCGM 100:2008 G.3.2.
#[must_use]
pub fn coverage_factor(coverage: f64, degrees_of_freedom: f64) -> f64 {
    if !(coverage > 0.0 && coverage < 1.0) {
        return f64::NAN;
    }
    -student_t_quantile(0.5 * (1.0 - coverage), degrees_of_freedom)
}

/// Coverage factor of the sum of two rectangles of half widths a1 and a2 (a trapezoid):
/// `k = (1 − sqrt((1 − p)(1 − β²))) / sqrt((1 + β²)/6)`, `β = |a1 − a2| / (a1 + a2)`.
///
/// For the sum's own standard uncertainty `sqrt((a1² + a2²)/3)`. Valid where these two dominate
/// and the interval ends on the trapezoid's slope, `p >= 2β/(1 + β)`; on its flat top the factor
/// is `p (1 + β)/(2 sqrt((1 + β²)/6))`, which is given there. NaN unless `0 < p < 1`, no width is
/// negative and one is positive. EA-4/02 M, supplement 2, example S10 (from memory).
#[must_use]
pub fn trapezoidal_coverage_factor(a1: f64, a2: f64, coverage: f64) -> f64 {
    let whole = a1 + a2;
    if !(a1 >= 0.0 && a2 >= 0.0 && whole > 0.0 && coverage > 0.0 && coverage < 1.0) {
        return f64::NAN;
    }
    let beta = (a1 - a2).abs() / whole;
    let half_width = if coverage * (1.0 + beta) >= 2.0 * beta {
        1.0 - ((1.0 - coverage) * (1.0 - beta * beta)).sqrt()
    } else {
        0.5 * coverage * (1.0 + beta)
    };
    half_width / ((1.0 + beta * beta) / 6.0).sqrt()
}

/// Standard uncertainty of a quantity within `± half_width`, all values alike: `a/√3`.
///
/// A display of resolution d has the half width d/2. JCGM 100:2008 4.3.7, F.2.2.1.
#[must_use]
pub fn uniform(half_width: f64) -> f64 {
    half_width / 3.0_f64.sqrt()
}

/// Standard uncertainty of a quantity within `± half_width`, most likely in the middle: `a/√6`.
/// JCGM 100:2008 4.3.9.
#[must_use]
pub fn triangular(half_width: f64) -> f64 {
    half_width / 6.0_f64.sqrt()
}

#[cfg(test)]
mod tests;
