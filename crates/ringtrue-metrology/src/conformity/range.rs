//! Decisions about the range (highest minus lowest) of several places.
//!
//! A range is not normal, and noise pushes it up: the readings of a level ring scatter over several
//! standard uncertainties. So the probability that the true range keeps its limit is taken from
//! the distribution of the true heights ([`RangeOfNormals`]), and a range is only called broken if
//! one pair of places proves it by itself.

use serde::Serialize;

use super::{Levels, Verdict};
use crate::distribution::normal_quantile;
use crate::source::Source;

pub use crate::distribution::{Moments, Place, RangeError, RangeOfNormals};

/// Where the rules come from.
pub const SOURCES: &[Source] = &[
    Source::Published("JCGM 106:2012, 7.1 (probability of conformity from the distribution)"),
    Source::Unverified(
        "H. A. David, H. N. Nagaraja, Order Statistics, 3rd ed., Wiley 2003, section 2.3 and 5.2 \
         (distribution of the range of independent, not identical variables)",
    ),
    Source::Unverified(
        "R. G. Miller, Simultaneous Statistical Inference, 2nd ed., Springer 1981, section 1.3 \
         (Bonferroni's inequality)",
    ),
];

/// `P(max − min <= r)`: the probability that the true range of the places is within r.
///
/// One call builds a [`RangeOfNormals`]; keep that where several r are asked for.
///
/// # Errors
/// [`RangeError`]: fewer than two places, a height or uncertainty that is unusable.
pub fn probability_within(places: &[Place], limit: f64) -> Result<f64, RangeError> {
    Ok(RangeOfNormals::new(places)?.cdf(limit))
}

/// Two places whose difference is proven to exceed the limit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ExceedingPair {
    /// Position of the lower place, counted from 0.
    pub low: usize,
    /// Position of the higher place, counted from 0.
    pub high: usize,
    /// Height of the higher less height of the lower.
    pub difference: f64,
    /// `sqrt(u_low² + u_high²)`.
    pub standard_uncertainty: f64,
    /// Lower bound of the true difference at the corrected level; above the limit.
    pub lower_bound: f64,
}

/// The pair that most clearly differs by more than the limit, if any does.
///
/// A pair exceeds when `difference − k sqrt(uᵢ² + uⱼ²) > limit`, with
/// `k = Φ⁻¹(1 − (1 − level) / (n (n − 1) / 2))`: a one-sided bound of `level` (0.975 by default)
/// that holds for all pairs together. The chance that any pair is named though no true difference
/// exceeds the limit is at most `1 − level`, as long as the limit is not small against the
/// uncertainties (for a limit of zero each pair could exceed either way: at most twice that).
///
/// # Errors
/// [`RangeError`] as for [`RangeOfNormals::new`].
pub fn pair_exceeds(
    places: &[Place],
    limit: f64,
    level: f64,
) -> Result<Option<ExceedingPair>, RangeError> {
    RangeOfNormals::new(places)?;
    let n = places.len() as f64;
    let k = -normal_quantile((1.0 - level) / (0.5 * n * (n - 1.0)));
    let largest = places.iter().map(|p| p.value.abs()).fold(0.0, f64::max);
    let rounding = 4.0 * f64::EPSILON * largest;
    let mut worst: Option<(f64, ExceedingPair)> = None;
    for (i, a) in places.iter().enumerate() {
        for (j, b) in places.iter().enumerate().skip(i + 1) {
            let (low, high) = if a.value <= b.value { (i, j) } else { (j, i) };
            let difference = (b.value - a.value).abs();
            let u = libm::hypot(a.standard_uncertainty, b.standard_uncertainty);
            let over = difference - limit - rounding;
            // A k of infinity (level 1) times an exact difference would be NaN.
            let margin = if u == 0.0 { over } else { over - k * u };
            if margin > 0.0 {
                // The clearest in its own uncertainty; exact pairs by how far they exceed.
                let clear = if u == 0.0 { f64::MAX } else { over / u };
                let pair = ExceedingPair {
                    low,
                    high,
                    difference,
                    standard_uncertainty: u,
                    lower_bound: margin + limit + rounding,
                };
                let better = worst.is_none_or(|(best, seen)| {
                    clear > best || (clear == best && difference > seen.difference)
                });
                if better {
                    worst = Some((clear, pair));
                }
            }
        }
    }
    Ok(worst.map(|(_, pair)| pair))
}

/// What was decided about a range, and from what.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct RangeDecision {
    /// Probability that the true range of the measured places is within the limit.
    pub probability_conforms: f64,
    /// The verdict.
    pub verdict: Verdict,
    /// The pair that proves the limit broken, where one does.
    pub pair: Option<ExceedingPair>,
}

/// Judges the range of the places against its limit.
///
/// Each true height is its reading plus a normal error of the given standard uncertainty, no
/// prior. `conforms` from `levels.accept()` on; `does not conform` up to `levels.reject()` **and**
/// if some pair exceeds the limit at `1 − levels.reject()` corrected for the number of pairs;
/// else `not proven`. The pair is needed because many noisy places make a small probability by
/// themselves, without any of them being out.
///
/// # Errors
/// [`RangeError`] as for [`RangeOfNormals::new`].
pub fn judge_range(
    places: &[Place],
    limit: f64,
    levels: Levels,
) -> Result<RangeDecision, RangeError> {
    let probability_conforms = probability_within(places, limit)?;
    let pair = pair_exceeds(places, limit, 1.0 - levels.reject())?;
    let verdict = match levels.verdict(probability_conforms) {
        Verdict::DoesNotConform if pair.is_none() => Verdict::NotProven,
        verdict @ (Verdict::Conforms | Verdict::NotProven | Verdict::DoesNotConform) => verdict,
    };
    Ok(RangeDecision { probability_conforms, verdict, pair })
}
