//! How wide will the seal gap be, and how likely is it to be inside its limits?
//!
//! The gap is a linear chain of dimensions, `gap = Σ sᵢ xᵢ` with `sᵢ = ±1`. Four views of it:
//! nominal, worst case, root-sum-square about the middle of the worst case, and a sampled
//! distribution (JCGM 101:2008) that carries each link's own spread.

//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | xᵢ | size of a link | mm |
//! | tᵢ | half its tolerance, about the middle mᵢ of its limits | mm |
//! | worst case | Σ sᵢ mᵢ ± Σ tᵢ | mm |
//! | root-sum-square | Σ sᵢ mᵢ ± √(Σ tᵢ²) | mm |
//!
//! A measured link has its value for mᵢ and three standard uncertainties for tᵢ, as a normal link
//! has its limits at three standard deviations.

mod shims;

use ringtrue_metrology::conformity::{Levels, Verdict};
use ringtrue_metrology::distribution::{Distribution, NORMAL_SIGMAS};
use ringtrue_metrology::monte_carlo::{self, Sample, Term};
use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::{Length, Quantity, in_mm};
use ringtrue_words::say;
use serde::Serialize;
use uom::si::length::millimeter;

use crate::RoomError;
use crate::definition::joint::{MOST_LINKS, Sign, Spread};

/// Where the formulas come from.
pub const SOURCES: &[Source] = &[
    Source::Published(
        "Dimensioning and Tolerancing Handbook (Drake ed., McGraw-Hill 1999), chapter 9: worst \
         case and root-sum-square about the mean of unequal limits",
    ),
    Source::Published("JCGM 101:2008, clauses 5 and 7 (propagation of distributions)"),
    Source::Published("JCGM 106:2012, clause 7 (probability of conformity)"),
    Source::Unverified("ISO 286-1:2010, table 1 (standard tolerances), for links with a class"),
];

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

/// Most bins of the histogram: readable at 9 cm wide.
const BINS: u32 = 80;

/// A link's size as the sums take it, in mm.
struct Sized {
    /// Nominal or measured.
    value: f64,
    /// Middle of its limits.
    middle: f64,
    /// Half its tolerance.
    half: f64,
    distribution: Distribution,
}

/// Evaluates a chain.
///
/// # Errors
/// [`RoomError`]: no link or more than [`MOST_LINKS`], deviations or limits the wrong way round, a
/// negative standard uncertainty, a shim that is no thickness, no draws or too many.
pub fn evaluate(input: &Input) -> Result<Outcome, RoomError> {
    check(input)?;
    let sized: Vec<Sized> = input.links.iter().map(|link| sized(link.size)).collect();
    let signs: Vec<f64> = input.links.iter().map(|link| factor(link.sign)).collect();
    let sum = |of: &dyn Fn(&Sized) -> f64| -> f64 {
        tidy(sized.iter().zip(&signs).map(|(link, sign)| sign * of(link)).sum())
    };
    let nominal = sum(&|link| link.value);
    let middle = sum(&|link| link.middle);
    let worst: f64 = sized.iter().map(|link| link.half).sum();
    let square: f64 = sized.iter().map(|link| link.half * link.half).sum();
    let rss = square.sqrt();
    let sample = sample(input, &sized, &signs)?;
    let (low, high) = limits_mm(input);
    let below = sample.share_below(low);
    let above = sample.share_above(high);
    let outside = (below + above).min(1.0);
    let histogram = sample.histogram(BINS);
    Ok(Outcome {
        nominal_gap_mm: nominal,
        worst_min_mm: tidy(middle - worst),
        worst_max_mm: tidy(middle + worst),
        rss_min_mm: middle - rss,
        rss_max_mm: middle + rss,
        sampled_p0_135_mm: sample.quantile(0.001_35),
        sampled_p99_865_mm: sample.quantile(0.998_65),
        mean_gap_mm: middle,
        standard_deviation_mm: sample_deviation(&sized),
        limit_min_mm: low,
        limit_max_mm: high,
        outside_limit_fraction: outside,
        below_limit_fraction: below,
        above_limit_fraction: above,
        links: links(input, &sized),
        shim_mm: tidy(f64::midpoint(low, high) - middle),
        shims_on_hand: shims::sets(input, middle, &sample),
        histogram: Histogram {
            from_mm: histogram.from,
            bin_mm: histogram.width,
            counts: histogram.counts,
        },
        draws: input.draws,
        seed: input.seed,
        verdict: input.levels.verdict(1.0 - outside),
    })
}

/// The nominal gap of a chain, with measured sizes in the place of nominal ones: what
/// [`evaluate`] gives as `nominal_gap_mm`, without the sampling.
///
/// # Errors
/// As [`evaluate`].
pub fn nominal(input: &Input) -> Result<Length, RoomError> {
    check(input)?;
    let sizes = input.links.iter().map(|link| factor(link.sign) * sized(link.size).value);
    Ok(Length::new::<millimeter>(tidy(sizes.sum())))
}

fn check(input: &Input) -> Result<(), RoomError> {
    let count = input.links.len();
    if count == 0 || count > MOST_LINKS {
        let fits = say!("gap-chain-1-links-wanted", most = MOST_LINKS);
        return Err(RoomError::input(say!("gap-chain-links", n = count), fits));
    }
    let (low, high) = limits_mm(input);
    if low > high {
        let found =
            say!("gap-gap-limits-from-mm-mm", min = low.to_string(), max = high.to_string());
        return Err(RoomError::input(found, say!("gap-smaller-limit-wanted-first")));
    }
    for link in &input.links {
        match link.size {
            Size::Drawn { upper, lower, .. } if upper.si() < lower.si() => {
                let found = say!("gap-link-has-upper-deviation-below-lower", link = link.name);
                return Err(RoomError::input(
                    found,
                    say!("gap-signed-deviations-upper-above-lower"),
                ));
            }
            Size::Measured { standard_uncertainty: u, .. } if u.si() < 0.0 => {
                let found = say!("gap-link-has-uncertainty-below-zero", link = link.name);
                return Err(RoomError::input(found, say!("gap-standard-uncertainty-zero-or-more")));
            }
            Size::Drawn { .. } | Size::Measured { .. } => {}
        }
    }
    if input.shims_on_hand.len() > shims::MOST_ON_HAND {
        let found = say!("gap-shims-on-hand", n = input.shims_on_hand.len());
        return Err(RoomError::input(found, say!("gap-at-most", most = shims::MOST_ON_HAND)));
    }
    if let Some(shim) = input.shims_on_hand.iter().find(|shim| shim.si() <= 0.0) {
        let found = say!("gap-shim-mm", shim = in_mm(*shim).to_string());
        return Err(RoomError::input(found, say!("gap-shim-has-thickness-above-zero")));
    }
    Ok(())
}

fn sized(size: Size) -> Sized {
    match size {
        Size::Drawn { nominal, upper, lower, spread } => {
            let (value, upper, lower) = (in_mm(nominal), in_mm(upper), in_mm(lower));
            let (middle, half) = (value + f64::midpoint(upper, lower), (upper - lower) / 2.0);
            Sized { value, middle, half, distribution: spread.of_tolerance(middle, half) }
        }
        Size::Measured { value, standard_uncertainty } => {
            let (value, u) = (in_mm(value), in_mm(standard_uncertainty));
            let distribution = Distribution::Normal { centre: value, standard_deviation: u };
            Sized { value, middle: value, half: NORMAL_SIGMAS * u, distribution }
        }
    }
}

fn sample(input: &Input, sized: &[Sized], signs: &[f64]) -> Result<Sample, RoomError> {
    let terms: Vec<Term> = sized
        .iter()
        .zip(signs)
        .map(|(link, sign)| Term { sensitivity: *sign, distribution: link.distribution })
        .collect();
    monte_carlo::sample_sum(&terms, input.draws, input.seed).map_err(|error| {
        let fits = say!("gap-1-draws-wanted", most = monte_carlo::MOST_DRAWS);
        RoomError::input(error.to_string(), fits)
    })
}

/// Standard deviation of the sum: the links are independent.
fn sample_deviation(sized: &[Sized]) -> f64 {
    sized.iter().map(|link| link.distribution.variance()).sum::<f64>().sqrt()
}

fn links(input: &Input, sized: &[Sized]) -> Vec<LinkOutcome> {
    let total: f64 = sized.iter().map(|link| link.distribution.variance()).sum();
    let share = |link: &Sized| {
        if total > 0.0 { link.distribution.variance() / total } else { 0.0 }
    };
    input
        .links
        .iter()
        .zip(sized)
        .map(|(link, sized)| LinkOutcome {
            name: link.name.clone(),
            share: share(sized),
            sign: link.sign,
            value_mm: sized.value,
            standard_deviation_mm: sized.distribution.standard_deviation(),
            measured: matches!(link.size, Size::Measured { .. }),
        })
        .collect()
}

fn factor(sign: Sign) -> f64 {
    match sign {
        Sign::Opens => 1.0,
        Sign::Closes => -1.0,
    }
}

fn limits_mm(input: &Input) -> (f64, f64) {
    (in_mm(input.limits.0), in_mm(input.limits.1))
}

/// Takes the rounding of sums off a length in mm: nothing is known to a picometre.
fn tidy(mm: f64) -> f64 {
    libm::round(mm * 1e9) / 1e9
}

#[cfg(test)]
mod tests;
