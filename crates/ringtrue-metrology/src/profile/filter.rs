//! The Gaussian profile filter of ISO 16610-21.

use std::f64::consts::{LN_2, PI};

use super::{ProfileError, usable};

/// Fewest points to a cut-off: with fewer the weighting function is no bell any more.
pub const FEWEST_POINTS_TO_CUT_OFF: usize = 16;

/// How far from its middle the weighting function is taken, in cut-offs: beyond it has less than
/// 1e-7 of its weight.
const HALF_WIDTH: f64 = 1.0;

/// `α = sqrt(ln 2 / π)`, so that half of a wave of the cut-off's length passes.
#[must_use]
pub fn alpha() -> f64 {
    (LN_2 / PI).sqrt()
}

/// Weighting function `s(x) = exp(−π (x/(α λc))²)/(α λc)`, per unit of x.
#[must_use]
pub fn weight(x: f64, cut_off: f64) -> f64 {
    let width = alpha() * cut_off;
    libm::exp(-PI * (x / width) * (x / width)) / width
}

/// Share of a sine wave's amplitude that the mean line keeps: `exp(−π (α λc/λ)²)`; roughness keeps
/// the rest.
#[must_use]
pub fn transmission(wavelength: f64, cut_off: f64) -> f64 {
    let ratio = alpha() * cut_off / wavelength;
    libm::exp(-PI * ratio * ratio)
}

/// Share of the weight within `± half_width` cut-offs: `erf(sqrt(π) half_width/α)`.
#[must_use]
pub fn weight_within(half_width: f64) -> f64 {
    libm::erf(PI.sqrt() * half_width / alpha())
}

/// The mean line (waviness) of a levelled profile.
///
/// `step` and `cut_off` in one unit; the window is cut at one cut-off each side, and near the ends
/// the weights that are left are made to sum to one again. Half a cut-off at each end is still
/// marred by that: [`super::parameters`] leaves it out.
///
/// # Errors
/// [`ProfileError`]: unusable heights, lengths not above zero, or a cut-off of fewer than
/// [`FEWEST_POINTS_TO_CUT_OFF`] points.
pub fn mean_line(heights: &[f64], step: f64, cut_off: f64) -> Result<Vec<f64>, ProfileError> {
    usable(heights, 3)?;
    if !(step > 0.0 && cut_off > 0.0 && step.is_finite() && cut_off.is_finite()) {
        return Err(ProfileError::Length);
    }
    let points = cut_off / step;
    if points < FEWEST_POINTS_TO_CUT_OFF as f64 {
        return Err(ProfileError::Coarse { found: points, fewest: FEWEST_POINTS_TO_CUT_OFF });
    }
    // A cut-off of whole steps must not lose its last point to rounding.
    let reach = libm::floor(HALF_WIDTH * points * (1.0 + 1e-12)).min(heights.len() as f64) as usize;
    let weights: Vec<f64> = (0..=reach).map(|k| weight(k as f64 * step, cut_off)).collect();
    Ok((0..heights.len()).map(|i| weighted(heights, &weights, i)).collect())
}

/// Weighted mean round one point, of as many neighbours as there are.
fn weighted(heights: &[f64], weights: &[f64], i: usize) -> f64 {
    // Counted from the point's own height: a constant added to all then changes nothing.
    let own = heights[i];
    let reach = weights.len() - 1;
    let side = |neighbours: &mut dyn Iterator<Item = &f64>| {
        let mut sums = (0.0, 0.0);
        for (z, w) in neighbours.zip(&weights[1..]) {
            sums.0 += w * (z - own);
            sums.1 += w;
        }
        sums
    };
    let before = side(&mut heights[i.saturating_sub(reach)..i].iter().rev());
    let after = side(&mut heights[i + 1..(i + 1 + reach).min(heights.len())].iter());
    own + (before.0 + after.0) / (weights[0] + before.1 + after.1)
}
