//! Roughness profiles: form removed, Gaussian filter, parameters, and the settings by table.
//!
//! The question: what roughness does a traced profile show?
//!
//! ```text
//! trace -> level (least-squares line) -> filter (ISO 16610-21) -> ends discarded, mean removed
//!       -> Ra, Rq, Rsk, Rku, Rt over the evaluation length; Rz, Rp, Rv as means of the sections
//! ```
//!
//! Heights are in one unit, the caller's; lengths along the profile in another, the caller's too.
//! Points stand at one step from each other.

pub mod filter;
pub mod parameters;
pub mod settings;

use ringtrue_words::say;

use crate::source::Source;

/// Where the methods come from.
pub const SOURCES: &[Source] = &[
    Source::Unverified(
        "ISO 16610-21:2011, 4.1 and 4.2 (Gaussian profile filter, alpha = sqrt(ln 2 / pi))",
    ),
    Source::Unverified("ISO 4287:1997, 4.1 and 4.2 (Ra, Rq, Rz, Rt, Rsk, Rku)"),
    Source::Unverified("ISO 21920-2:2021 (Ra, Rq, Rsk, Rku over the evaluation length)"),
    Source::Published(
        "ISO 4288:1996, tables 1 to 3, as two reprints give them (cut-off and evaluation length)",
    ),
    Source::Unverified(
        "ISO 21920-3:2021 (default settings), as one reprint gives them, not held against the \
         standard",
    ),
];

/// Most points of a trace: the filter's work grows with their square.
pub const MOST_POINTS: usize = 100_000;

/// Why a profile can't be evaluated.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ProfileError {
    /// Too few or too many points.
    #[error("{}", say!("profile-points", found, fewest, most = MOST_POINTS))]
    Points {
        /// How many there are.
        found: usize,
        /// How many there must be.
        fewest: usize,
    },
    /// A height that is no finite number, or beyond 1e9.
    #[error("{}", say!("profile-height-not-usable", point))]
    NotUsable {
        /// Position, counted from 1.
        point: usize,
    },
    /// Step or cut-off are not above zero.
    #[error("{}", say!("profile-step-above-zero"))]
    Length,
    /// A cut-off of fewer points than show its waves.
    #[error("{}", say!("profile-coarse", found = format!("{:.1}", .found), fewest))]
    Coarse {
        /// Points to the cut-off.
        found: f64,
        /// How many there must be.
        fewest: usize,
    },
}

/// The profile less its least-squares line over all points.
///
/// # Errors
/// [`ProfileError`]: fewer than 3 points, more than [`MOST_POINTS`], or an unusable height.
pub fn level(heights: &[f64]) -> Result<Vec<f64>, ProfileError> {
    let line = line(heights)?;
    let middle = 0.5 * (heights.len() as f64 - 1.0);
    let at = |i: usize| line.mean + line.slope * (i as f64 - middle);
    Ok(heights.iter().enumerate().map(|(i, z)| z - at(i)).collect())
}

/// The least-squares line through a profile.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// Height in the middle of the profile.
    pub mean: f64,
    /// Rise from one point to the next.
    pub slope: f64,
}

/// The least-squares line through equally spaced heights:
/// `slope = 12 Σ (i − m) zᵢ / (n (n² − 1))` with m = (n − 1)/2.
///
/// # Errors
/// See [`level`].
pub fn line(heights: &[f64]) -> Result<Line, ProfileError> {
    usable(heights, 3)?;
    let n = heights.len() as f64;
    let middle = 0.5 * (n - 1.0);
    // Counted from the first height, so that a constant added to all leaves no rounding.
    let first = heights[0];
    let mean = heights.iter().map(|z| z - first).sum::<f64>() / n;
    let moment: f64 =
        heights.iter().enumerate().map(|(i, z)| (i as f64 - middle) * (z - first - mean)).sum();
    Ok(Line { mean: first + mean, slope: 12.0 * moment / (n * (n * n - 1.0)) })
}

fn usable(heights: &[f64], fewest: usize) -> Result<(), ProfileError> {
    if !(fewest..=MOST_POINTS).contains(&heights.len()) {
        return Err(ProfileError::Points { found: heights.len(), fewest });
    }
    match heights.iter().position(|z| z.is_nan() || z.abs() > 1e9) {
        Some(index) => Err(ProfileError::NotUsable { point: index + 1 }),
        None => Ok(()),
    }
}

#[cfg(test)]
mod tests;
