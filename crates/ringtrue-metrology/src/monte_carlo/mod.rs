//! The distribution of a linear sum by quasi-random sampling.
//!
//! The question: links `Xᵢ` with given distributions and sensitivities cᵢ make `Y = Σ cᵢ Xᵢ`; how
//! is Y distributed?
//!
//! The propagation of distributions of JCGM 101:2008 (clause 5 and 7), with an Owen-scrambled Sobol
//! sequence instead of pseudo-random numbers: each link's distribution is sampled evenly, so the
//! quantiles settle with far fewer draws. A seed names the sequence; the same seed gives the same
//! digits on any number of threads.
//!
//! Limits: at most [`MOST_TERMS`] scattering terms (the sequence has 256 dimensions) and
//! [`MOST_DRAWS`] draws. The sequence is 2¹⁶ points long; a longer sample is made of independently
//! scrambled blocks of that length. Each coordinate is a 32-bit stratum taken at its middle, so a
//! normal link reaches ± 6.3 σ and never infinity. The normal quantile is tabulated and
//! interpolated to within 3e-6 σ.
//!
//! How near the quantiles come, root mean square over seeds, for a sum of 8 normal links and 10⁶
//! draws: mean 2e-6 σ, standard deviation 1e-5 σ, median 5e-4 σ, 2.5 % 1.5e-3 σ, 0.135 % 5e-3 σ
//! (pseudo-random draws: 1e-3, 7e-4, 1.3e-3, 2.7e-3, 8e-3).

mod quantile_table;
mod sample;

pub use sample::{Histogram, Sample};

use ringtrue_words::say;

use sobol_burley::parts::{Int4, hash, hash_int4, owen_scramble_int4_rev, sobol_int4_rev};

use crate::distribution::{Distribution, unit_triangular_quantile};
use crate::source::Source;
use quantile_table::QuantileTable;

/// Where the method comes from.
pub const SOURCES: &[Source] = &[
    Source::Published("JCGM 101:2008, clauses 5 and 7 (propagation of distributions)"),
    Source::Published(
        "B. Burley, Practical hash-based Owen scrambling, Journal of Computer Graphics Techniques \
         9 (4), 2020",
    ),
    Source::Unverified(
        "A. B. Owen, Scrambled net variance for integrals of smooth functions, Annals of \
         Statistics 25 (1997) 1541-1562",
    ),
];

/// Most terms with a width above zero.
pub const MOST_TERMS: usize = sobol_burley::NUM_DIMENSIONS as usize;

/// Most draws: their sorted list takes 8 bytes each.
pub const MOST_DRAWS: u32 = 1 << 24;

/// One link of the sum.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Term {
    /// Sensitivity c: how much the sum grows when the link grows by one.
    pub sensitivity: f64,
    /// The link's distribution, its centre included.
    pub distribution: Distribution,
}

/// Why a sum cannot be sampled.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum SampleError {
    /// No draws, or too many.
    #[error("{}", say!("sample-draws", most = MOST_DRAWS, found))]
    Draws {
        /// What was asked for.
        found: u32,
    },
    /// No terms.
    #[error("{}", say!("sample-no-terms"))]
    NoTerms,
    /// More terms scatter than the sequence has dimensions.
    #[error("{}", say!("sample-too-many-terms", found, most = MOST_TERMS))]
    TooManyTerms {
        /// How many scatter.
        found: usize,
    },
    /// A sensitivity, centre or width is not finite, or a width is negative.
    #[error("{}", say!("sample-term-not-usable", term))]
    NotUsable {
        /// Position, counted from 1.
        term: usize,
    },
}

/// Samples `Y = Σ cᵢ Xᵢ`.
///
/// # Errors
/// [`SampleError`]: no draws or terms, too many of them, or a term that is not finite.
pub fn sample_sum(terms: &[Term], draws: u32, seed: u32) -> Result<Sample, SampleError> {
    if !(1..=MOST_DRAWS).contains(&draws) {
        return Err(SampleError::Draws { found: draws });
    }
    if terms.is_empty() {
        return Err(SampleError::NoTerms);
    }
    let usable = |t: &Term| {
        let d = &t.distribution;
        [t.sensitivity, d.centre()].iter().all(|x| x.abs() <= 1e140)
            && (0.0..=1e140).contains(&d.width())
    };
    if let Some(i) = terms.iter().position(|t| !usable(t)) {
        return Err(SampleError::NotUsable { term: i + 1 });
    }
    let centre: f64 = terms.iter().map(|t| t.sensitivity * t.distribution.centre()).sum();
    let links: Vec<Link> = terms.iter().filter_map(Link::of).collect();
    if links.len() > MOST_TERMS {
        return Err(SampleError::TooManyTerms { found: links.len() });
    }
    let plan = Plan { centre, links, seed, table: QuantileTable::shared() };
    let mut values = vec![0.0; draws as usize];
    fill(&plan, &mut values);
    Ok(Sample::of(values))
}

/// A scattering term: its width times its sensitivity, and the shape on unit width.
#[derive(Debug, Clone, Copy)]
struct Link {
    factor: f64,
    shape: Distribution,
}

impl Link {
    fn of(term: &Term) -> Option<Self> {
        let factor = term.sensitivity * term.distribution.width();
        (factor != 0.0).then_some(Self { factor, shape: term.distribution })
    }
}

/// What one stretch of draws needs to know.
struct Plan {
    centre: f64,
    links: Vec<Link>,
    seed: u32,
    table: &'static QuantileTable,
}

/// Draws filled at a time: their coordinates stay in the nearest cache.
const STRETCH: usize = 1 << 10;

/// Points before the sequence repeats.
const BLOCK: u32 = 1 << 16;

#[cfg(not(target_arch = "wasm32"))]
fn fill(plan: &Plan, values: &mut [f64]) {
    use rayon::prelude::*;
    // A stretch never crosses a block, as the block's length is a multiple of it.
    values.par_chunks_mut(STRETCH).enumerate().for_each(|(i, out)| plan.fill_stretch(i, out));
}

#[cfg(target_arch = "wasm32")]
fn fill(plan: &Plan, values: &mut [f64]) {
    values.chunks_mut(STRETCH).enumerate().for_each(|(i, out)| plan.fill_stretch(i, out));
}

impl Plan {
    fn fill_stretch(&self, stretch: usize, out: &mut [f64]) {
        let first = (stretch * STRETCH) as u32;
        let (block, start) = (first / BLOCK, first % BLOCK);
        // Hashed twice, so that neighbouring seeds and neighbouring blocks share nothing.
        let block_seed = hash(hash(self.seed).wrapping_add(block));
        out.fill(self.centre);
        let mut strata = [[0_u32; 4]; STRETCH];
        for (set, links) in self.links.chunks(4).enumerate() {
            let scramble = scramble(set as u32, block_seed);
            for (k, coordinates) in strata[..out.len()].iter_mut().enumerate() {
                let index = (start + k as u32).reverse_bits();
                let point = sobol_int4_rev(index, set as u32);
                *coordinates = owen_scramble_int4_rev(point, scramble).reverse_bits().into();
            }
            for (lane, link) in links.iter().enumerate() {
                let pairs = out.iter_mut().zip(&strata);
                match link.shape {
                    Distribution::Normal { .. } => pairs.for_each(|(y, s)| {
                        *y += link.factor * self.table.quantile(s[lane]);
                    }),
                    Distribution::Uniform { .. } => pairs.for_each(|(y, s)| {
                        *y += link.factor * (2.0 * middle(s[lane]) - 1.0);
                    }),
                    Distribution::Triangular { .. } => pairs.for_each(|(y, s)| {
                        *y += link.factor * unit_triangular_quantile(middle(s[lane]));
                    }),
                }
            }
        }
    }
}

/// The Owen scramble of four dimensions of one block.
fn scramble(set: u32, block_seed: u32) -> Int4 {
    let lanes = [0, 1, 2, 3].map(|lane| hash(block_seed).wrapping_add(4 * set + lane));
    hash_int4(lanes.into())
}

/// The middle of a 32-bit stratum, in 0..1 without its ends.
fn middle(stratum: u32) -> f64 {
    const CELL: f64 = 1.0 / 4_294_967_296.0;
    (f64::from(stratum) + 0.5) * CELL
}

#[cfg(test)]
mod tests;
