//! Decisions on a distance in the plane: an eccentricity, or a tilt with its direction.
//!
//! The question: a point is known as `(x, y)` with a covariance; with what probability is its
//! true distance from the middle within a limit? The distance itself is folded at zero and not
//! normal, so the probability is that of the two-dimensional normal distribution over the disk:
//!
//! ```text
//! P = ∫ φ₁(s) [Φ₂(c(s)) − Φ₂(−c(s))] ds,   c(s) = sqrt(L² − s²),   −L <= s <= L
//! ```
//!
//! along the principal axes of the covariance, s on the longer one. With equal axes it is
//! `1 − Q₁(d/u, L/u)`, Marcum's function; at d = 0 it is Rayleigh's `1 − exp(−L²/(2u²))`.
//!
//! Absolute error below 1e-9 while the shorter axis is at least a hundredth of the longer one;
//! 1e-3 below that.

use std::f64::consts::FRAC_PI_2;

use super::{Decision, Levels};
use crate::distribution::{integrate, normal_cdf, normal_pdf};

/// A point of the plane and the covariance of its two coordinates.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlanePoint {
    /// First coordinate.
    pub x: f64,
    /// Second coordinate.
    pub y: f64,
    /// Variance of x.
    pub variance_x: f64,
    /// Variance of y.
    pub variance_y: f64,
    /// Covariance of both.
    pub covariance: f64,
}

/// How far out a normal density is followed, in standard deviations.
const REACH: f64 = 8.5;
/// Panels of the integral.
const PANELS: f64 = 128.0;

/// The probability that the true distance from the middle is at most `limit`.
///
/// NaN for values that are not finite, a negative variance or a limit below zero. Without any
/// uncertainty it is a step that counts the limit as kept.
#[must_use]
pub fn probability_within(point: PlanePoint, limit: f64) -> f64 {
    let PlanePoint { x, y, variance_x, variance_y, covariance } = point;
    let all = [x, y, variance_x, variance_y, covariance, limit];
    if all.iter().any(|value| !value.is_finite())
        || variance_x < 0.0
        || variance_y < 0.0
        || limit < 0.0
    {
        return f64::NAN;
    }
    // Principal axes: the angle that makes the covariance vanish.
    let turn = 0.5 * libm::atan2(2.0 * covariance, variance_x - variance_y);
    let (cos, sin) = (libm::cos(turn), libm::sin(turn));
    let mean = 0.5 * (variance_x + variance_y);
    let half = libm::hypot(0.5 * (variance_x - variance_y), covariance);
    let (long, short) = ((mean + half).max(0.0).sqrt(), (mean - half).max(0.0).sqrt());
    let (along, across) = (cos * x + sin * y, cos * y - sin * x);
    if long == 0.0 {
        return if libm::hypot(x, y) <= limit { 1.0 } else { 0.0 };
    }
    let from = (along - REACH * long).max(-limit);
    let to = (along + REACH * long).min(limit);
    if from >= to {
        return 0.0;
    }
    // s = L sin t: the chord's square root has no sharp ends in t.
    let angle = |s: f64| if limit > 0.0 { libm::asin((s / limit).clamp(-1.0, 1.0)) } else { 0.0 };
    let (from, to) = (angle(from).max(-FRAC_PI_2), angle(to).min(FRAC_PI_2));
    let density = |t: f64| {
        let (s, chord) = (limit * libm::sin(t), limit * libm::cos(t));
        let inside = if short > 0.0 {
            normal_cdf((chord - across) / short) - normal_cdf((-chord - across) / short)
        } else {
            f64::from(u8::from(across.abs() <= chord))
        };
        normal_pdf((s - along) / long) / long * inside * chord
    };
    integrate(from, to, (to - from) / PANELS, density).clamp(0.0, 1.0)
}

/// Judges a distance against its largest permissible value.
#[must_use]
pub fn judge(point: PlanePoint, limit: f64, levels: Levels) -> Decision {
    let probability_conforms = probability_within(point, limit);
    Decision { probability_conforms, verdict: levels.verdict(probability_conforms) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn round(x: f64, y: f64, u: f64) -> PlanePoint {
        PlanePoint { x, y, variance_x: u * u, variance_y: u * u, covariance: 0.0 }
    }

    fn close(got: f64, expected: f64, tolerance: f64) {
        assert!((got - expected).abs() <= tolerance, "{got} is not {expected}");
    }

    #[test]
    fn a_point_in_the_middle_is_rayleigh() {
        for limit in [0.1, 1.0, 2.448, 5.0] {
            let expected = 1.0 - libm::exp(-0.5 * limit * limit);
            close(probability_within(round(0.0, 0.0, 1.0), limit), expected, 1e-11);
        }
    }

    #[test]
    fn far_from_the_middle_the_edge_is_nearly_straight() {
        // A disk of radius 1000 u: P = Φ(z) less a curvature of u/(2 L) times the density.
        for z in [-2.0, 0.0, 1.96] {
            let edge = probability_within(round(1000.0 - z, 0.0, 1.0), 1000.0);
            close(edge, normal_cdf(z), 3e-4);
        }
        let turned = probability_within(round(600.0, 799.0, 1.0), 1000.0);
        let straight = probability_within(round(libm::hypot(600.0, 799.0), 0.0, 1.0), 1000.0);
        close(turned, straight, 1e-10);
    }

    #[test]
    fn unlike_axes_agree_with_a_sum_over_small_squares() {
        let point =
            PlanePoint { x: 0.6, y: -0.4, variance_x: 0.09, variance_y: 0.25, covariance: 0.06 };
        let determinant = 0.09 * 0.25 - 0.06 * 0.06;
        let (mut sum, step) = (0.0, 0.004);
        for i in -250..250 {
            for j in -250..250 {
                let (x, y) = ((f64::from(i) + 0.5) * step, (f64::from(j) + 0.5) * step);
                let (dx, dy) = (x - 0.6, y + 0.4);
                let form = (0.25 * dx * dx - 0.12 * dx * dy + 0.09 * dy * dy) / determinant;
                if x * x + y * y <= 1.0 {
                    sum += libm::exp(-0.5 * form) * step * step;
                }
            }
        }
        let expected = sum / (std::f64::consts::TAU * determinant.sqrt());
        close(probability_within(point, 1.0), expected, 2e-4);
    }

    #[test]
    fn without_uncertainty_it_is_a_step() {
        assert_eq!(probability_within(round(0.3, 0.4, 0.0), 0.500_001), 1.0);
        assert_eq!(probability_within(round(0.3, 0.4, 0.0), 0.49), 0.0);
        assert!(probability_within(round(f64::NAN, 0.4, 0.1), 1.0).is_nan());
        assert!(probability_within(round(0.0, 0.0, 0.1), -1.0).is_nan());
        assert_eq!(probability_within(round(0.0, 0.0, 0.1), 0.0), 0.0);
        assert_eq!(probability_within(round(9.0, 0.0, 0.1), 1.0), 0.0);
    }
}
