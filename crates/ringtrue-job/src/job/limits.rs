//! Values of a step against the limits of the joint's own definition.

use ringtrue_metrology::conformity::{Levels, Limits, Verdict, judge};
use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::{Quantity, UnitError};
use ringtrue_seal::definition::gauge::Gauge;
use ringtrue_seal::definition::joint::{Half, Joint};
use ringtrue_seal::definition::procedure::{self, LimitKey, QuantityKind};
use ringtrue_words::say;
use serde::Serialize;

use crate::event::Value;
use crate::procedure::{StatedLimit, stated_limit};

/// Where the rule comes from.
pub(super) const SOURCES: &[Source] = &[
    Source::Published("JCGM 106:2012, clause 7 (probability of conformity)"),
    Source::Unverified("ISO 14253-1:2017 (conforms, does not conform, not proven)"),
    Source::Published("JCGM 100:2008, 4.3.7 (a resolution step is a uniform distribution)"),
];

/// A value against one limit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct Compared {
    /// The evidence's name.
    name: String,
    /// The limit's key.
    limit: &'static str,
    /// As typed.
    value: String,
    /// In SI.
    value_si: f64,
    /// In SI, where it is known.
    standard_uncertainty_si: Option<f64>,
    /// Lower limit in SI.
    limit_min_si: Option<f64>,
    /// Upper limit in SI.
    limit_max_si: Option<f64>,
    /// Where the limits come from.
    limit_stated: Vec<String>,
    /// Where the uncertainty is known.
    probability_conforms: Option<f64>,
    /// On this value; none where the definition states no such limit, which is then not judged.
    pub(super) verdict: Option<Verdict>,
    /// Why, where it is not judged or not proven for want of something.
    reason: Option<&'static str>,
}

/// Compares one value.
///
/// # Errors
/// What can't be read as a quantity, and what would fit.
pub(super) fn compare(
    (joint, half): (&Joint, Option<Half>),
    asked: &procedure::Evidence,
    key: LimitKey,
    (value, gauge): (&Value, Option<&Gauge>),
) -> Result<Compared, UnitError> {
    let quantity = asked.quantity.unwrap_or_else(|| key.quantity());
    let value_si = quantity.read_si(&value.typed)?;
    let u = uncertainty(quantity, value, gauge)?;
    let none = || StatedLimit { min_si: None, max_si: None, stated: Vec::new() };
    let holding = stated_limit(joint, half, key).unwrap_or_else(none);
    let levels = half.map_or_else(|| joint.levels(), |half| joint.seal(half).levels());
    let (verdict, probability_conforms, reason) = decide(value_si, u, &holding, levels);
    Ok(Compared {
        name: asked.name.clone(),
        limit: key.name(),
        value: value.typed.clone(),
        value_si,
        standard_uncertainty_si: u,
        limit_min_si: holding.min_si,
        limit_max_si: holding.max_si,
        limit_stated: holding.stated,
        probability_conforms,
        verdict,
        reason,
    })
}

type Decided = (Option<Verdict>, Option<f64>, Option<&'static str>);

fn decide(value: f64, u: Option<f64>, holding: &StatedLimit, levels: Levels) -> Decided {
    if holding.min_si.is_none() && holding.max_si.is_none() {
        return (None, None, Some(say!("job-joints-definition-states-no-such-limit")));
    }
    let Some(limits) = Limits::new(holding.min_si, holding.max_si) else {
        let reason = say!("job-limits-two-halves-contradict-each-other");
        return (Some(Verdict::NotProven), None, Some(reason));
    };
    let Some(u) = u else {
        let reason = say!("job-uncertainty-this-value-not-known-name");
        return (Some(Verdict::NotProven), None, Some(reason));
    };
    let decision = judge(value, u, limits, levels);
    (Some(decision.verdict), Some(decision.probability_conforms), None)
}

/// Standard uncertainty in SI: as stated, else from the gauge for a length.
///
/// # Errors
/// What was stated can't be read.
pub(super) fn uncertainty(
    quantity: QuantityKind,
    value: &Value,
    gauge: Option<&Gauge>,
) -> Result<Option<f64>, UnitError> {
    if let Some(stated) = &value.uncertainty {
        // A temperature's uncertainty is a difference: on a scale with an offset it would be read
        // as a temperature.
        let kelvin = quantity != QuantityKind::Temperature || stated.trim().ends_with('K');
        let u = quantity.read_si(stated)?;
        return if kelvin && u >= 0.0 {
            Ok(Some(u))
        } else {
            Err(UnitError {
                found: say!("job-not-standard-uncertainty", typed = stated),
                fits: say!("job-zero-or-more-that-temperature-given").to_owned(),
            })
        };
    }
    let of_length = match quantity {
        QuantityKind::Length => gauge,
        QuantityKind::Angle
        | QuantityKind::Mass
        | QuantityKind::Volume
        | QuantityKind::Temperature
        | QuantityKind::Pressure
        | QuantityKind::Torque
        | QuantityKind::Time
        | QuantityKind::Speed
        | QuantityKind::RotationSpeed
        | QuantityKind::FaceLoad
        | QuantityKind::Share => None,
    };
    Ok(of_length.map(|gauge| {
        let square = |length: f64| length * length;
        let step = square(gauge.resolution.value().si()) / 12.0;
        let repeating = square(gauge.repeating_uncertainty.value().si());
        let other = square(gauge.non_repeating_uncertainty.value().si());
        (repeating + other + step).sqrt()
    }))
}
