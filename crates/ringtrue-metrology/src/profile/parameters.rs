//! Height parameters of a roughness profile.

use std::ops::Range;

use super::{ProfileError, usable};

/// Height parameters of a stretch of profile about the mean line z = 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heights {
    /// Ra, mean of |z|.
    pub ra: f64,
    /// Rq, root mean square of z.
    pub rq: f64,
    /// Rp, highest point over the mean line.
    pub rp: f64,
    /// Rv, depth of the lowest point below the mean line.
    pub rv: f64,
    /// Highest minus lowest point: Rt over an evaluation length, Rz over a sampling length.
    pub rt: f64,
    /// Rsk, mean of z³ over Rq³; `None` for a flat profile.
    pub rsk: Option<f64>,
    /// Rku, mean of z⁴ over Rq⁴; `None` for a flat profile.
    pub rku: Option<f64>,
}

/// Parameters over an evaluation length and over each of its sampling lengths.
#[derive(Debug, Clone, PartialEq)]
pub struct Evaluated {
    /// Over the whole evaluation length.
    pub whole: Heights,
    /// Over each sampling length, about the same mean line.
    pub sections: Vec<Heights>,
    /// The profile that was evaluated, its own mean taken off.
    pub profile: Vec<f64>,
}

impl Evaluated {
    /// Rz, Rp, Rv: means over the sampling lengths.
    #[must_use]
    pub fn rz(&self) -> f64 {
        self.mean(|section| section.rt)
    }

    /// Mean of a parameter over the sampling lengths.
    #[must_use]
    pub fn mean(&self, of: impl Fn(&Heights) -> f64) -> f64 {
        self.sections.iter().map(of).sum::<f64>() / self.sections.len() as f64
    }
}

/// Parameters of a roughness profile (the evaluation length alone, its ends already left out).
///
/// The mean of the evaluation length is taken off: it is the mean line of what is evaluated. The
/// sampling lengths are as equal as the points allow, the longer ones first.
///
/// # Errors
/// [`ProfileError`]: fewer than two points to a sampling length, no sampling length, an unusable
/// height.
pub fn evaluate(roughness: &[f64], sampling_lengths: usize) -> Result<Evaluated, ProfileError> {
    usable(roughness, 2 * sampling_lengths.max(1))?;
    let first = roughness[0];
    let mean = roughness.iter().map(|z| z - first).sum::<f64>() / roughness.len() as f64;
    let profile: Vec<f64> = roughness.iter().map(|z| z - first - mean).collect();
    let parts = equal_parts(profile.len(), sampling_lengths.max(1));
    let sections = parts.into_iter().map(|part| heights(&profile[part])).collect();
    Ok(Evaluated { whole: heights(&profile), sections, profile })
}

/// Parameters of heights over their mean line, which is zero.
#[must_use]
pub fn heights(profile: &[f64]) -> Heights {
    let n = profile.len() as f64;
    let mean = |f: &dyn Fn(f64) -> f64| profile.iter().map(|z| f(*z)).sum::<f64>() / n;
    let highest = profile.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let lowest = profile.iter().copied().fold(f64::INFINITY, f64::min);
    let rq = mean(&|z| z * z).sqrt();
    // In units of Rq, so that powers of small heights do not vanish.
    let moment = |f: &dyn Fn(f64) -> f64| (rq > 0.0).then(|| mean(&|z| f(z / rq)));
    Heights {
        ra: mean(&f64::abs),
        rq,
        rp: highest,
        rv: -lowest,
        rt: highest - lowest,
        rsk: moment(&|z| z * z * z),
        rku: moment(&|z| z * z * z * z),
    }
}

/// `points` in `parts` stretches as equal as can be, the longer ones first.
fn equal_parts(points: usize, parts: usize) -> Vec<Range<usize>> {
    let (short, longer) = (points / parts, points % parts);
    let mut from = 0;
    (0..parts)
        .map(|part| {
            let to = from + short + usize::from(part < longer);
            let range = from..to;
            from = to;
            range
        })
        .collect()
}
