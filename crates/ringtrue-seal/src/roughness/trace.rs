//! From a trace to parameters: form off, cut-off chosen, filtered, ends discarded.

use ringtrue_metrology::profile::parameters::{self, Evaluated, Heights};
use ringtrue_metrology::profile::settings::{By, CUT_OFFS_MM, SAMPLING_LENGTHS, setting};
use ringtrue_metrology::profile::{ProfileError, filter, level};
use ringtrue_metrology::units::Quantity;
use ringtrue_words::say;

use super::{CutOff, CutOffBasis, Edition, Ends, Input, Parameter, Profile, Trace, um};
use crate::RoomError;

/// Most traces of one ramp.
const MOST_TRACES: usize = 20;
/// Cut-offs that are tried until the table agrees with the value: there are five in it.
const MOST_TURNS: usize = 6;

/// All traces, evaluated with one cut-off.
pub(super) struct Traced {
    pub(super) ones: Vec<One>,
    pub(super) cut_off_mm: Option<f64>,
    pub(super) basis: CutOffBasis,
}

/// One evaluated trace.
pub(super) struct One {
    pub(super) step_mm: f64,
    pub(super) evaluated: Evaluated,
    levelled_um: Vec<f64>,
    mean_line_um: Vec<f64>,
    sampling_lengths: usize,
    ends: Ends,
}

impl Traced {
    /// The worst treatment of the ends.
    pub(super) fn ends(&self) -> Ends {
        self.ones.iter().map(|one| one.ends).max().unwrap_or(Ends::None)
    }

    /// The parameter over each sampling length; Rt has one value a trace.
    pub(super) fn values(&self, parameter: Parameter) -> Vec<f64> {
        let each = |of: fn(&Heights) -> f64| {
            self.ones.iter().flat_map(|one| one.evaluated.sections.iter().map(of)).collect()
        };
        match parameter {
            Parameter::Ra => each(|section| section.ra),
            Parameter::Rq => each(|section| section.rq),
            Parameter::Rz => each(|section| section.rt),
            Parameter::Rt => self.ones.iter().map(|one| one.evaluated.whole.rt).collect(),
        }
    }

    /// The parameter as the edition defines it.
    pub(super) fn value(&self, parameter: Parameter, edition: Edition) -> f64 {
        match (parameter, edition) {
            (Parameter::Ra, Edition::Iso21920) => self.mean(&|one| one.evaluated.whole.ra),
            (Parameter::Rq, Edition::Iso21920) => self.mean(&|one| one.evaluated.whole.rq),
            (Parameter::Ra, Edition::Iso4287) => {
                self.mean(&|one| one.evaluated.mean(|section| section.ra))
            }
            (Parameter::Rq, Edition::Iso4287) => {
                self.mean(&|one| one.evaluated.mean(|section| section.rq))
            }
            (Parameter::Rz, Edition::Iso4287 | Edition::Iso21920) => {
                self.mean(&|one| one.evaluated.rz())
            }
            (Parameter::Rt, Edition::Iso4287 | Edition::Iso21920) => {
                self.mean(&|one| one.evaluated.whole.rt)
            }
        }
    }

    pub(super) fn mean(&self, of: &dyn Fn(&One) -> f64) -> f64 {
        self.ones.iter().map(of).sum::<f64>() / self.ones.len() as f64
    }

    pub(super) fn mean_of_known(&self, of: impl Fn(&One) -> Option<f64>) -> Option<f64> {
        let known: Vec<f64> = self.ones.iter().filter_map(of).collect();
        (!known.is_empty()).then(|| known.iter().sum::<f64>() / known.len() as f64)
    }
}

impl One {
    pub(super) fn into_profile(self) -> Profile {
        Profile {
            step_mm: self.step_mm,
            levelled_um: self.levelled_um,
            mean_line_um: self.mean_line_um,
            roughness_um: self.evaluated.profile,
            sampling_lengths: self.sampling_lengths,
        }
    }
}

/// A trace with its form taken off.
struct Levelled {
    step_mm: f64,
    heights_um: Vec<f64>,
}

impl Levelled {
    fn length_mm(&self) -> f64 {
        self.heights_um.len() as f64 * self.step_mm
    }
}

/// Evaluates all traces with the cut-off that the input asks for.
pub(super) fn evaluate(traces: &[Trace], input: &Input) -> Result<Traced, RoomError> {
    if traces.is_empty() || traces.len() > MOST_TRACES {
        let found = say!("finish-traces", traces = traces.len());
        return Err(RoomError::input(found, say!("finish-traces-wanted", most = MOST_TRACES)));
    }
    let levelled = traces
        .iter()
        .map(|trace| {
            let step_mm = trace.step.si() * 1e3;
            if !(step_mm > 0.0 && step_mm <= 10.0) {
                let found = say!("finish-step-of", step = step_mm.to_string());
                return Err(RoomError::input(found, say!("finish-step-wanted")));
            }
            // A filtered profile has its mean line already: a tilt in it is none of the trace's.
            let heights_um = match input.cut_off {
                CutOff::AlreadyFiltered => trace.heights_um.clone(),
                CutOff::ByTable | CutOff::ByFeed(_) | CutOff::Given(_) => {
                    level(&trace.heights_um).map_err(unfit)?
                }
            };
            Ok(Levelled { step_mm, heights_um })
        })
        .collect::<Result<Vec<_>, RoomError>>()?;
    match input.cut_off {
        CutOff::AlreadyFiltered => unfiltered(levelled),
        CutOff::Given(length) => with(&levelled, length.si() * 1e3, CutOffBasis::Given),
        CutOff::ByFeed(feed) => {
            let row = setting(input.edition, By::Spacing(feed.si() * 1e3));
            with_table(&levelled, row.cut_off_mm, basis(row.within_table, CutOffBasis::Feed))
        }
        CutOff::ByTable => by_table(&levelled, input),
    }
}

fn basis(within_table: bool, of: CutOffBasis) -> CutOffBasis {
    if within_table { of } else { CutOffBasis::BesideTable }
}

/// ISO 21920-3 goes by the limit; ISO 4288 measures, looks the value up, and measures again until
/// both agree.
fn by_table(levelled: &[Levelled], input: &Input) -> Result<Traced, RoomError> {
    let entry = |value: f64| match input.parameter {
        Parameter::Ra | Parameter::Rq => By::Ra(value),
        Parameter::Rz | Parameter::Rt => By::Rz(value),
    };
    let limit = input.limits.1.or(input.limits.0).map_or(f64::NAN, um);
    let first = setting(input.edition, entry(limit));
    let mut traced =
        with_table(levelled, first.cut_off_mm, basis(first.within_table, CutOffBasis::Table))?;
    if input.edition == Edition::Iso21920 {
        return Ok(traced);
    }
    let mut tried = vec![first.cut_off_mm];
    for _ in 0..MOST_TURNS {
        let row = setting(input.edition, entry(traced.value(input.parameter, input.edition)));
        if tried.contains(&row.cut_off_mm) {
            // Two rows that each ask for the other: the longer shows more.
            if traced.cut_off_mm.is_none_or(|used| used >= row.cut_off_mm) {
                return Ok(traced);
            }
            return with_table(
                levelled,
                row.cut_off_mm,
                basis(row.within_table, CutOffBasis::Table),
            );
        }
        tried.push(row.cut_off_mm);
        traced = with_table(levelled, row.cut_off_mm, basis(row.within_table, CutOffBasis::Table))?;
    }
    Ok(traced)
}

/// The table's cut-off, or the longest of the table that the shortest trace has room for.
fn with_table(
    levelled: &[Levelled],
    cut_off_mm: f64,
    basis: CutOffBasis,
) -> Result<Traced, RoomError> {
    let shortest = levelled.iter().map(Levelled::length_mm).fold(f64::INFINITY, f64::min);
    let room = |cut_off: &f64| SAMPLING_LENGTHS as f64 * cut_off <= shortest * (1.0 + 1e-9);
    if room(&cut_off_mm) {
        return with(levelled, cut_off_mm, basis);
    }
    match CUT_OFFS_MM.iter().rev().find(|cut_off| room(cut_off)) {
        Some(fits) => with(levelled, *fits, CutOffBasis::TraceTooShort),
        None => {
            let found = say!("finish-trace-of", length = format!("{:.3}", shortest));
            let fits = say!(
                "finish-cut-off-wants-trace",
                cut_off = cut_off_mm.to_string(),
                length = format!("{:.2}", (SAMPLING_LENGTHS + 1) as f64 * cut_off_mm)
            );
            Err(RoomError::input(found, fits))
        }
    }
}

/// Filters each trace and leaves out half a cut-off at each end.
fn with(levelled: &[Levelled], cut_off_mm: f64, basis: CutOffBasis) -> Result<Traced, RoomError> {
    let ones = levelled.iter().map(|trace| one(trace, cut_off_mm)).collect::<Result<_, _>>()?;
    Ok(Traced { ones, cut_off_mm: Some(cut_off_mm), basis })
}

fn one(trace: &Levelled, cut_off_mm: f64) -> Result<One, RoomError> {
    let (heights, step) = (&trace.heights_um, trace.step_mm);
    let mean_line = filter::mean_line(heights, step, cut_off_mm).map_err(unfit)?;
    // Half a cut-off at each end is left out where that leaves five sampling lengths, or none.
    let cut_offs = trace.length_mm() / cut_off_mm + 1e-9;
    let fit = |cut_offs: f64| (libm::floor(cut_offs).max(0.0) as usize).min(SAMPLING_LENGTHS);
    let sampling_lengths =
        if fit(cut_offs) == SAMPLING_LENGTHS { SAMPLING_LENGTHS } else { fit(cut_offs - 1.0) };
    if sampling_lengths == 0 {
        let found = say!("finish-trace-of", length = format!("{:.3}", trace.length_mm()));
        let fits = say!(
            "finish-cut-off-wants",
            cut_off = cut_off_mm.to_string(),
            length = format!("{:.2}", 6.0 * cut_off_mm)
        );
        return Err(RoomError::input(found, fits));
    }
    let points = libm::round(sampling_lengths as f64 * cut_off_mm / step) as usize;
    let points = points.min(heights.len());
    // The middle of the trace: both ends are equally far from what the filter mars.
    let from = (heights.len() - points) / 2;
    let part = from..from + points;
    let roughness: Vec<f64> = part.clone().map(|i| heights[i] - mean_line[i]).collect();
    let evaluated = parameters::evaluate(&roughness, sampling_lengths).map_err(unfit)?;
    Ok(One {
        step_mm: step,
        evaluated,
        levelled_um: heights[part.clone()].to_vec(),
        mean_line_um: mean_line[part].to_vec(),
        sampling_lengths,
        ends: if (from as f64 + 1.0) * step >= 0.5 * cut_off_mm {
            Ends::LeftOut
        } else {
            Ends::WeightsRenormalised
        },
    })
}

/// A trace that the instrument filtered: all of it, in five sampling lengths, its mean taken off.
fn unfiltered(levelled: Vec<Levelled>) -> Result<Traced, RoomError> {
    let ones = levelled.into_iter().map(|trace| {
        let evaluated = parameters::evaluate(&trace.heights_um, SAMPLING_LENGTHS).map_err(unfit)?;
        Ok(One {
            step_mm: trace.step_mm,
            mean_line_um: vec![0.0; trace.heights_um.len()],
            levelled_um: trace.heights_um,
            evaluated,
            sampling_lengths: SAMPLING_LENGTHS,
            ends: Ends::None,
        })
    });
    let ones = ones.collect::<Result<Vec<_>, RoomError>>()?;
    Ok(Traced { ones, cut_off_mm: None, basis: CutOffBasis::None })
}

fn unfit(error: ProfileError) -> RoomError {
    RoomError::input(error.to_string(), say!("finish-fine-trace-wanted"))
}
