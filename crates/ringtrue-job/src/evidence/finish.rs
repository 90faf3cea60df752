//! Traces and typed values of a ramp's finish with what they are judged by.

use ringtrue_metrology::conformity::Levels;
use ringtrue_metrology::units::Given;
use ringtrue_seal::RoomError;
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::roughness::{
    CutOff, Edition, Input, InstrumentUncertainty, Measured, Parameter, Rule,
};
use ringtrue_words::say;

use crate::reading::{Finish, FinishLimit};

/// What a finish is judged by.
#[derive(Debug, Clone, Copy)]
pub struct FinishBasis<'b> {
    /// A limit that goes before the seal's.
    pub limit: Option<FinishLimit>,
    /// The seal, which may limit Ra of its ramps.
    pub seal: Option<&'b Seal>,
    /// A rule that goes before the limit's and the edition's.
    pub rule: Option<Rule>,
    /// By which standards.
    pub edition: Edition,
    /// The cut-off.
    pub cut_off: CutOff,
    /// What is known of the instrument.
    pub uncertainty: InstrumentUncertainty,
}

/// Files of one ramp with what they are judged by.
///
/// # Errors
/// [`RoomError`] when there is no limit, when traces and values are mixed, and when the values are
/// of another parameter than the limit.
pub fn finish(files: Vec<Finish>, basis: FinishBasis<'_>) -> Result<Input, RoomError> {
    let limit = basis.limit.or_else(|| of_seal(basis.seal?)).ok_or_else(|| RoomError::Input {
        found: say!("evidence-there-no-limit-judge-finish-by").to_owned(),
        fits: say!("evidence-state-one-such-as-ra-0").to_owned(),
    })?;
    Ok(Input {
        measured: together(files, limit.parameter)?,
        parameter: limit.parameter,
        limits: (limit.min, limit.max),
        rule: basis.rule.or(limit.rule),
        edition: basis.edition,
        cut_off: basis.cut_off,
        uncertainty: basis.uncertainty,
        levels: basis.seal.map_or(Levels::DEFAULT, Seal::levels),
    })
}

fn of_seal(seal: &Seal) -> Option<FinishLimit> {
    let limit = seal.limits.ramp_finish_ra.as_ref()?;
    Some(FinishLimit {
        parameter: Parameter::Ra,
        min: limit.min.as_ref().map(Given::value),
        max: limit.max.as_ref().map(Given::value),
        rule: None,
    })
}

fn together(files: Vec<Finish>, wanted: Parameter) -> Result<Measured, RoomError> {
    let (mut traces, mut values) = (Vec::new(), Vec::new());
    for file in files {
        match file {
            Finish::Trace(trace) => traces.push(trace),
            Finish::Values(parameter, more) if parameter == wanted => values.extend(more),
            Finish::Values(parameter, _) => {
                let (has, limit) = (parameter.symbol(), wanted.symbol());
                return Err(RoomError::Input {
                    found: say!("evidence-values-and-limit-of-two-parameters", values = has, limit),
                    fits: say!("evidence-values-limit-one-parameter-wanted").to_owned(),
                });
            }
        }
    }
    match (traces.is_empty(), values.is_empty()) {
        (false, false) => Err(RoomError::Input {
            found: say!("evidence-traces-typed-values-mixed").to_owned(),
            fits: say!("evidence-give-traces-or-values").to_owned(),
        }),
        (false, true) => Ok(Measured::Traces(traces)),
        (true, _) => Ok(Measured::Values(values)),
    }
}
