//! Ramp finish: a traced profile or typed values, and a limit as a drawing writes it.

use ringtrue_metrology::units::{Fraction, Length, Quantity, UnitError, clip, parse, parse_range};
use ringtrue_seal::definition::TextError;
use ringtrue_seal::roughness::{InstrumentUncertainty, Parameter, Rule, Trace};
use ringtrue_words::say;

use super::table::{Column, HeaderUnit, Need, Table};

/// By how much of a step a point may stand off its even place.
const EVEN: f64 = 0.1;

/// What a finish file holds.
#[derive(Debug, Clone, PartialEq)]
pub enum Finish {
    /// A traced profile.
    Trace(Trace),
    /// Values of one parameter.
    Values(Parameter, Vec<Length>),
}

/// Reads a trace, `z_um` with `x_mm` (or the step given beside it), or values, one of `ra_um`,
/// `rq_um`, `rz_um` and `rt_um`.
///
/// # Errors
/// [`TextError`] at the first cell that does not fit, at a point out of its even place, where the
/// step is not stated or stated twice, and where the columns say neither or both.
pub fn finish(text: &str, step: Option<Length>) -> Result<Finish, TextError> {
    let length = |name| Column { name, unit: HeaderUnit::of::<Length>(), need: Need::Optional };
    let columns = ["x", "z", "ra", "rq", "rz", "rt"].map(length);
    let table = Table::read(text, &columns)?;
    let parameters: Vec<(Parameter, &str)> = Parameter::ALL
        .into_iter()
        .zip(["ra", "rq", "rz", "rt"])
        .filter(|(_, name)| table.has(name))
        .collect();
    match (table.has("z"), parameters.as_slice()) {
        (true, []) => Ok(Finish::Trace(trace(&table, step)?)),
        (false, [(parameter, name)]) if !table.has("x") => {
            let values = table.rows().map(|row| row.quantity::<Length>(name));
            Ok(Finish::Values(*parameter, values.collect::<Result<_, _>>()?))
        }
        _ => {
            let found = say!("reading-columns-neither-trace-nor-values-one");
            let fits = say!("reading-z-um-with-x-mm-or");
            Err(TextError::of_text(found, fits))
        }
    }
}

fn trace(table: &Table<'_>, step: Option<Length>) -> Result<Trace, TextError> {
    let mut heights_um = Vec::new();
    let mut places = Vec::new();
    for row in table.rows() {
        heights_um.push(row.quantity::<Length>("z")?.si() * 1e6);
        if table.has("x") {
            places.push(row.quantity::<Length>("x")?.si());
        }
    }
    if heights_um.len() < 3 {
        let found = say!("reading-trace-of-few-points", points = heights_um.len());
        return Err(TextError::of_text(found, say!("reading-trace-has-some-thousand-points-one")));
    }
    let step = match (step, table.has("x")) {
        (Some(step), false) => return Ok(Trace { step, heights_um }),
        (None, true) => (places[places.len() - 1] - places[0]) / (places.len() - 1) as f64,
        (Some(_), true) => {
            let found = say!("reading-file-has-column-x-step-given");
            return Err(TextError::of_text(found, say!("reading-one-both-wanted")));
        }
        (None, false) => {
            let found = say!("reading-file-does-not-say-how-far");
            let fits = say!("reading-column-x-mm-or-step-beside");
            return Err(TextError::of_text(found, fits));
        }
    };
    let even = |i: usize| places[0] + i as f64 * step;
    let off = |(i, place): (usize, &f64)| (place - even(i)).abs() > EVEN * step.abs();
    if step.is_nan() || step <= 0.0 || places.iter().enumerate().any(off) {
        let uneven = places.iter().enumerate().position(off).unwrap_or(0);
        let row = table.rows().nth(uneven);
        let found = say!("reading-this-point-does-not-stand-at");
        let fits = say!("reading-points-at-one-step-from-each");
        return Err(match row {
            Some(row) => row.misfit("x", found, fits),
            None => TextError::of_text(found, fits),
        });
    }
    Ok(Trace { step: parse_metres(step), heights_um })
}

/// A length of so many metres.
pub(super) fn parse_metres(metres: f64) -> Length {
    Length::new::<uom::si::length::meter>(metres)
}

/// A limit of roughness as a drawing writes it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FinishLimit {
    /// Which parameter.
    pub parameter: Parameter,
    /// Smallest value that conforms.
    pub min: Option<Length>,
    /// Largest value that conforms.
    pub max: Option<Length>,
    /// The max rule, where `max` is written.
    pub rule: Option<Rule>,
}

/// Reads `Ra 0.8 um`, `Rz max 6.3 um`, `Ra 0.4 um..3.2 um`.
///
/// # Errors
/// [`UnitError`] when there is no parameter or no length.
pub fn finish_limit(text: &str) -> Result<FinishLimit, UnitError> {
    let trimmed = text.trim();
    let known = |parameter: &Parameter| {
        let start = trimmed.get(..2).unwrap_or_default();
        start.eq_ignore_ascii_case(parameter.symbol())
    };
    let Some(parameter) = Parameter::ALL.into_iter().find(known) else {
        return Err(UnitError {
            found: say!("reading-starts-with-no-parameter", typed = clip(trimmed)),
            fits: say!("reading-ra-rq-rz-or-rt-comes").to_owned(),
        });
    };
    let rest = trimmed[2..].trim_start();
    let (rest, rule) = match rest.get(..3) {
        Some(word) if word.eq_ignore_ascii_case("max") => (&rest[3..], Some(Rule::Max)),
        _ => (rest, None),
    };
    let (min, max) = if rest.contains("..") {
        let (min, max) = parse_range::<Length>(rest)?;
        (Some(min), Some(max))
    } else {
        (None, Some(parse::<Length>(rest)?))
    };
    Ok(FinishLimit { parameter, min, max, rule })
}

/// The standard uncertainty of a roughness instrument as typed: `3 %` or `0.02 um`.
///
/// # Errors
/// [`UnitError`] when it is neither a share nor a length.
pub fn instrument_uncertainty(text: &str) -> Result<InstrumentUncertainty, UnitError> {
    if text.trim_end().ends_with('%') {
        return Ok(InstrumentUncertainty::Share(parse::<Fraction>(text)?.si()));
    }
    Ok(InstrumentUncertainty::Absolute(parse(text)?))
}
