//! Is the ramp smooth enough for the toric, and rough enough to hold it?
//!
//! A traced profile (or values read off another instrument) becomes roughness parameters by one
//! edition of the standards, and one of them is judged against a limit.
//!
//! A value is the parameter over one sampling length of a trace, or one value as typed. The mean
//! of the values is judged with its uncertainty; the rule of the standard is judged on the values
//! themselves: the 16 % rule lets one value in six or so lie over the limit, the max rule none.
//! Counting each sampling length as a value is what instruments do; the standard's clause speaks
//! of values over an evaluation length (from memory).

mod trace;
mod verdict;

use ringtrue_metrology::conformity::{Levels, Verdict};
pub use ringtrue_metrology::profile::settings::Edition;
use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::{Length, Quantity};
use serde::Serialize;

use crate::RoomError;
use trace::Traced;

/// Where the formulas come from.
pub const SOURCES: &[Source] = &[
    Source::Unverified(
        "ISO 16610-21:2011, 4.1 and 4.2 (Gaussian profile filter, alpha = sqrt(ln 2 / pi))",
    ),
    Source::Unverified("ISO 4287:1997, 4.1 and 4.2; ISO 21920-2:2021 (parameters)"),
    Source::Published(
        "ISO 4288:1996, tables 1 to 3, as two reprints give them (cut-off and evaluation length)",
    ),
    Source::Unverified(
        "ISO 21920-3:2021, default settings as one reprint gives them, not held against the \
         standard",
    ),
    Source::Unverified("ISO 4288:1996, 5.2 and 5.3 (16 % rule, max rule)"),
    Source::Published("JCGM 100:2008, 4.2.3, G.3.2 (mean of repeated values); JCGM 106:2012, 7"),
];

/// What was measured, by which settings, and what it is judged by.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// Traces, or values as typed.
    pub measured: Measured,
    /// Which parameter is judged.
    pub parameter: Parameter,
    /// Smallest and largest value that conform; one at least.
    pub limits: (Option<Length>, Option<Length>),
    /// Which rule; the edition's own where it is left out.
    pub rule: Option<Rule>,
    /// By which standards.
    pub edition: Edition,
    /// The cut-off of the filter.
    pub cut_off: CutOff,
    /// What is known of the instrument.
    pub uncertainty: InstrumentUncertainty,
    /// Probabilities at which verdicts are drawn.
    pub levels: Levels,
}

/// What was measured.
#[derive(Debug, Clone, PartialEq)]
pub enum Measured {
    /// Traces of one ramp.
    Traces(Vec<Trace>),
    /// Values of the parameter that is judged, read off an instrument.
    Values(Vec<Length>),
}

/// One traced profile.
#[derive(Debug, Clone, PartialEq)]
pub struct Trace {
    /// Distance from point to point.
    pub step: Length,
    /// Heights in um, positive out of the material.
    pub heights_um: Vec<f64>,
}

/// Height parameters that a drawing limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Parameter {
    /// Mean of the heights' sizes.
    Ra,
    /// Root mean square of the heights.
    Rq,
    /// Mean over the sampling lengths of highest minus lowest point.
    Rz,
    /// Highest minus lowest point of the evaluation length.
    Rt,
}

impl Parameter {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Ra, Self::Rq, Self::Rz, Self::Rt];

    /// Its symbol.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Ra => "Ra",
            Self::Rq => "Rq",
            Self::Rz => "Rz",
            Self::Rt => "Rt",
        }
    }
}

/// How many values may break the limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Rule {
    /// Not more than 16 % of the values.
    #[serde(rename = "16-percent")]
    SixteenPercent,
    /// None.
    Max,
}

impl Rule {
    /// The rule that an edition takes where nothing is written.
    #[must_use]
    pub fn of(edition: Edition) -> Self {
        match edition {
            Edition::Iso4287 => Self::SixteenPercent,
            Edition::Iso21920 => Self::Max,
        }
    }

    /// How many of `values` may break the limit.
    #[must_use]
    pub fn allowed(self, values: usize) -> usize {
        match self {
            // In whole numbers: 25 values allow exactly 4.
            Self::SixteenPercent => values * 16 / 100,
            Self::Max => 0,
        }
    }
}

/// The filter's cut-off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CutOff {
    /// By the edition's table: ISO 4288 by the measured value, ISO 21920-3 by the limit.
    ByTable,
    /// By ISO 4288 table 3: a turned surface's feed.
    ByFeed(Length),
    /// As given.
    Given(Length),
    /// The trace is a roughness profile already: no filter, no ends to discard.
    AlreadyFiltered,
}

/// What is known of the instrument.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum InstrumentUncertainty {
    /// Standard uncertainty as a share of the value (0.03 for 3 %).
    Share(f64),
    /// Standard uncertainty of a value.
    Absolute(Length),
    /// Nothing is stated.
    Unknown,
}

/// What the measurement says. Heights in um, lengths along the profile in mm.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outcome {
    /// Which parameter is judged.
    pub parameter: Parameter,
    /// By which standards.
    pub edition: &'static str,
    /// By which rule.
    pub rule: Rule,
    /// The parameter: by ISO 4287 the mean of the values, by ISO 21920 over the evaluation length.
    pub value_um: f64,
    /// Its standard uncertainty: scatter of the values and instrument; null where neither is known.
    pub standard_uncertainty_um: Option<f64>,
    /// Smallest value that conforms.
    pub limit_min_um: Option<f64>,
    /// Largest value that conforms.
    pub limit_max_um: Option<f64>,
    /// Probability that the parameter keeps its limits.
    pub probability_conforms: Option<f64>,
    /// On the parameter.
    pub verdict_value: Verdict,
    /// Values that were counted for the rule.
    pub values: usize,
    /// How many of them break a limit.
    pub values_outside: usize,
    /// How many of them may.
    pub values_allowed_outside: usize,
    /// On the rule.
    pub verdict_rule: Verdict,
    /// The worse of both; not proven where the settings are not the standard's.
    pub verdict: Verdict,
    /// What to do, the first thing first.
    pub actions: Vec<String>,
    /// Parameters over the evaluation length (means over the traces); null for typed values.
    pub ra_um: Option<f64>,
    /// Rq.
    pub rq_um: Option<f64>,
    /// Rz: mean of the sampling lengths.
    pub rz_um: Option<f64>,
    /// Rp: mean of the sampling lengths.
    pub rp_um: Option<f64>,
    /// Rv: mean of the sampling lengths.
    pub rv_um: Option<f64>,
    /// Rt.
    pub rt_um: Option<f64>,
    /// Rsk; below zero for plateaus with scratches.
    pub rsk: Option<f64>,
    /// Rku.
    pub rku: Option<f64>,
    /// Each sampling length, trace by trace.
    pub sampling_lengths: Vec<SamplingLength>,
    /// How the parameter scatters from sampling length to sampling length, or from value to value.
    pub statistics: Statistics,
    /// Cut-off of the filter; null where none was applied.
    pub cut_off_mm: Option<f64>,
    /// Why this cut-off.
    pub cut_off_basis: CutOffBasis,
    /// What became of the trace's ends.
    pub ends: Ends,
    /// Evaluation length of each trace; null for typed values.
    pub evaluation_length_mm: Option<f64>,
    /// Profiles for drawing; not in JSON.
    #[serde(skip)]
    pub profiles: Vec<Profile>,
}

/// One sampling length.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SamplingLength {
    /// Which trace, from 1.
    pub trace: usize,
    /// Ra.
    pub ra_um: f64,
    /// Rq.
    pub rq_um: f64,
    /// Rz: highest minus lowest point.
    pub rz_um: f64,
    /// Rsk.
    pub rsk: Option<f64>,
    /// Rku.
    pub rku: Option<f64>,
}

/// Scatter of the values.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Statistics {
    /// Mean.
    pub mean_um: f64,
    /// Standard deviation, divisor n − 1; null for one value.
    pub standard_deviation_um: Option<f64>,
    /// Smallest.
    pub min_um: f64,
    /// Largest.
    pub max_um: f64,
}

/// Why this cut-off.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum CutOffBasis {
    /// The edition's table.
    Table,
    /// The table's nearest row: the value lies outside it.
    BesideTable,
    /// The table of periodic profiles, by the feed.
    Feed,
    /// As given.
    Given,
    /// The trace is too short for the table's: the longest that fits.
    TraceTooShort,
    /// None: filtered before, or values as typed.
    None,
}

/// What became of the ends of a filtered trace.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Ends {
    /// Nothing was filtered.
    None,
    /// Half a cut-off at each end, which the filter mars, is left out.
    LeftOut,
    /// The trace has no such ends to spare: the weights that are left near its ends were made to
    /// sum to one.
    WeightsRenormalised,
}

/// A profile for drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    /// Distance from point to point, mm.
    pub step_mm: f64,
    /// Levelled profile over the evaluation length, um.
    pub levelled_um: Vec<f64>,
    /// Its mean line after the filter, um.
    pub mean_line_um: Vec<f64>,
    /// Roughness profile, um.
    pub roughness_um: Vec<f64>,
    /// Sampling lengths it is divided into.
    pub sampling_lengths: usize,
}

/// Judges a ramp's finish.
///
/// # Errors
/// [`RoomError`]: no trace or value, no limit or contradicting ones, a trace too short or too
/// coarse for its cut-off, heights that are no numbers, an uncertainty below zero.
pub fn evaluate(input: &Input) -> Result<Outcome, RoomError> {
    verdict::check(input)?;
    let traced = match &input.measured {
        Measured::Traces(traces) => Some(trace::evaluate(traces, input)?),
        Measured::Values(_) => None,
    };
    let values: Vec<f64> = match (&traced, &input.measured) {
        (Some(traced), _) => traced.values(input.parameter),
        (None, Measured::Values(values)) => values.iter().map(|value| um(*value)).collect(),
        (None, Measured::Traces(_)) => unreachable!("traces were evaluated above"),
    };
    let mut outcome = verdict::judge(input, &values, traced.as_ref());
    if let Some(traced) = traced {
        describe(&mut outcome, traced);
    }
    outcome.actions = verdict::actions(&outcome);
    Ok(outcome)
}

/// Puts what the traces show beside the verdict.
fn describe(outcome: &mut Outcome, traced: Traced) {
    let mean = |of: &dyn Fn(&trace::One) -> f64| Some(traced.mean(of));
    outcome.ra_um = mean(&|one| one.evaluated.whole.ra);
    outcome.rq_um = mean(&|one| one.evaluated.whole.rq);
    outcome.rz_um = mean(&|one| one.evaluated.rz());
    outcome.rp_um = mean(&|one| one.evaluated.mean(|section| section.rp));
    outcome.rv_um = mean(&|one| one.evaluated.mean(|section| section.rv));
    outcome.rt_um = mean(&|one| one.evaluated.whole.rt);
    outcome.rsk = traced.mean_of_known(|one| one.evaluated.whole.rsk);
    outcome.rku = traced.mean_of_known(|one| one.evaluated.whole.rku);
    outcome.evaluation_length_mm = mean(&|one| one.evaluated.profile.len() as f64 * one.step_mm);
    outcome.sampling_lengths = traced
        .ones
        .iter()
        .enumerate()
        .flat_map(|(index, one)| {
            one.evaluated.sections.iter().map(move |section| SamplingLength {
                trace: index + 1,
                ra_um: section.ra,
                rq_um: section.rq,
                rz_um: section.rt,
                rsk: section.rsk,
                rku: section.rku,
            })
        })
        .collect();
    outcome.profiles = traced.ones.into_iter().map(trace::One::into_profile).collect();
}

fn um(length: Length) -> f64 {
    // The rounding of metres is taken off again.
    libm::round(length.si() * 1e15) / 1e9
}

#[cfg(test)]
mod tests;
