//! How wide will the seal gap be, and how likely is it to be inside its limits?
//!
//! The gap is a linear chain of dimensions, `gap = Σ sᵢ xᵢ` with `sᵢ = ±1`. Four views of it:
//! nominal, worst case, root-sum-square about the middle of the worst case, and a sampled
//! distribution (JCGM 101:2008) that carries each link's own spread.

use ringtrue_metrology::conformity::{Levels, Verdict};
use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::Length;
use serde::Serialize;

use crate::definition::joint::{Sign, Spread};

/// Where the formulas come from.
pub const SOURCES: &[Source] = &[];

/// One chain, its limits and the shims on hand.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// The links, in the order of the drawing; 1 to [`MOST_LINKS`].
    pub links: Vec<Link>,
    /// Smallest and largest gap that conforms; may be negative for a bare chain.
    pub limits: (Length, Length),
    /// Thicknesses of the shims on hand, one entry a piece; each above zero.
    pub shims_on_hand: Vec<Length>,
    /// Probabilities at which the verdict is drawn.
    pub levels: Levels,
    /// Number of quasi-random draws.
    pub draws: u32,
    /// Seed of the draws; the same seed gives the same digits.
    pub seed: u32,
}

/// Most links that a chain may have.
pub const MOST_LINKS: usize = 200;
/// Number of draws where nobody asks for another.
pub const DRAWS: u32 = 1_000_000;
/// Seed where nobody asks for another.
pub const SEED: u32 = 1;

/// One dimension of the chain.
#[derive(Debug, Clone, PartialEq)]
pub struct Link {
    /// What it is.
    pub name: String,
    /// Does a longer link open or close the gap?
    pub sign: Sign,
    /// Its size.
    pub size: Size,
}

/// What is known of a link's size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Size {
    /// As drawn: nominal size and signed deviations, `lower <= upper`.
    Drawn {
        /// Nominal size.
        nominal: Length,
        /// Upper deviation.
        upper: Length,
        /// Lower deviation.
        lower: Length,
        /// How made sizes are spread between the limits.
        spread: Spread,
    },
    /// As measured: value and standard uncertainty take the place of the tolerance.
    Measured {
        /// Measured size.
        value: Length,
        /// Its standard uncertainty.
        standard_uncertainty: Length,
    },
}

/// What the chain gives. Lengths in mm.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outcome {
    /// Sum of the nominal (or measured) sizes.
    pub nominal_gap_mm: f64,
    /// Smallest gap with every link at its worst.
    pub worst_min_mm: f64,
    /// Largest gap with every link at its worst.
    pub worst_max_mm: f64,
    /// Middle of the worst case less the root-sum-square of the half tolerances.
    pub rss_min_mm: f64,
    /// Middle of the worst case plus the root-sum-square of the half tolerances.
    pub rss_max_mm: f64,
    /// Gap below which 0.135 % of the sampled joints lie.
    pub sampled_p0_135_mm: f64,
    /// Gap below which 99.865 % of the sampled joints lie.
    pub sampled_p99_865_mm: f64,
    /// Mean of the gap.
    pub mean_gap_mm: f64,
    /// Standard deviation of the gap.
    pub standard_deviation_mm: f64,
    /// Smallest gap that conforms.
    pub limit_min_mm: f64,
    /// Largest gap that conforms.
    pub limit_max_mm: f64,
    /// Share of joints outside the limits.
    pub outside_limit_fraction: f64,
    /// Share of joints below the smallest gap.
    pub below_limit_fraction: f64,
    /// Share of joints above the largest gap.
    pub above_limit_fraction: f64,
    /// Each link's share of the variance, in the order of the chain.
    pub links: Vec<LinkOutcome>,
    /// Shim that centres the gap between its limits; positive opens it, negative asks for less.
    pub shim_mm: f64,
    /// Sets of shims on hand and what each makes of the gap, the best first; empty when none is on
    /// hand.
    pub shims_on_hand: Vec<ShimOutcome>,
    /// The sampled distribution.
    pub histogram: Histogram,
    /// Number of draws.
    pub draws: u32,
    /// Seed of the draws.
    pub seed: u32,
    /// On the probability that the gap is inside its limits.
    pub verdict: Verdict,
}

/// One link in the outcome.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LinkOutcome {
    /// What it is.
    pub name: String,
    /// Share of the gap's variance, 0 to 1.
    pub share: f64,
    /// `+` opens, `-` closes.
    pub sign: Sign,
    /// Nominal or measured size.
    pub value_mm: f64,
    /// Standard deviation of the size.
    pub standard_deviation_mm: f64,
    /// Does a measured value take the place of the tolerance?
    pub measured: bool,
}

/// A set of shims on hand and the gap that it makes.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ShimOutcome {
    /// Thicknesses of the pieces.
    pub pieces_mm: Vec<f64>,
    /// Their sum.
    pub thickness_mm: f64,
    /// Mean gap with them.
    pub mean_gap_mm: f64,
    /// Share of joints outside the limits with them.
    pub outside_limit_fraction: f64,
    /// On the probability that the gap is inside its limits with them.
    pub verdict: Verdict,
}

/// Counts of the draws in bins of one width.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Histogram {
    /// Lower edge of the first bin.
    pub from_mm: f64,
    /// Width of a bin.
    pub bin_mm: f64,
    /// Draws in each bin.
    pub counts: Vec<u32>,
}
