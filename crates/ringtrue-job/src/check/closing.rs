//! Bolts and feeler readings of a closed joint, as given.

use ringtrue_metrology::units::{Given, Length, UnitError, clip, parse_range};
use ringtrue_seal::RoomError;
use ringtrue_seal::closing::{FeelerUncertainty, Input, STEPS};
use ringtrue_words::say;

use super::setting::{Setting, Settings};
use super::{CheckError, Made, Parts};
use crate::reading;

pub(super) const SETTINGS: &[Setting] = &[
    Setting::typed("bolts", "COUNT", "check-closing-bolts", |text| count(text).map(|_| ())),
    Setting::typed("steps", "COUNT", "check-closing-steps", |text| count(text).map(|_| ())).or("4"),
    Setting::typed("limit", "RANGE", "check-closing-limit", |text| {
        parse_range::<Length>(text).map(|_| ())
    })
    .in_unit("mm"),
    Setting::quantity::<Length>("diameter", "LENGTH", "check-closing-diameter"),
    Setting::quantity::<Length>("uncertainty", "LENGTH", "check-closing-uncertainty"),
];

fn count(text: &str) -> Result<u32, UnitError> {
    text.trim().parse().map_err(|_| UnitError {
        found: say!("check-closing-no-count", typed = clip(text)),
        fits: say!("check-closing-whole-number-wanted").to_owned(),
    })
}

pub(super) fn evidence(made: &Made<'_>) -> Result<Input, CheckError> {
    let settings = Settings::new(SETTINGS, made.stated)?;
    let readings = match made.text()? {
        Some(_) => made.read(reading::feeler)?,
        None => Vec::new(),
    };
    let stated = settings.read("limit", parse_range::<Length>)?;
    let gap_limits = match (stated, made.parts) {
        (Some((min, max)), _) => (Some(min), Some(max)),
        (None, Parts::Joint(joint, _)) => {
            let together = joint.gap_limits();
            (together.min, together.max)
        }
        (None, Parts::Half(..) | Parts::Toric(..) | Parts::Material(_) | Parts::Unknown) => {
            (None, None)
        }
    };
    Ok(Input {
        readings,
        gap_limits,
        diameter: settings.quantity("diameter")?.or_else(|| housing_face(made.parts)),
        uncertainty: uncertainty(made, &settings)?,
        bolts: settings.read("bolts", count)?,
        steps: settings.read("steps", count)?.unwrap_or(STEPS),
        // The face load is worked out by whoever has the load curve.
        load: None,
        levels: made.parts.levels(),
    })
}

/// Outside diameter of the smaller housing face, where files state it.
fn housing_face(parts: Parts<'_>) -> Option<Length> {
    let faces = parts
        .seals()
        .into_iter()
        .filter_map(|seal| seal.housing.face_outer_diameter.as_ref().map(Given::value));
    faces.reduce(|one, other| if other < one { other } else { one })
}

fn uncertainty(made: &Made<'_>, settings: &Settings<'_>) -> Result<FeelerUncertainty, RoomError> {
    Ok(match (settings.quantity("uncertainty")?, made.gauge) {
        (Some(stated), _) => FeelerUncertainty::Stated(stated),
        (None, Some(gauge)) => FeelerUncertainty::Gauge {
            repeating: gauge.repeating_uncertainty.value(),
            non_repeating: gauge.non_repeating_uncertainty.value(),
            resolution: gauge.resolution.value(),
        },
        (None, None) => FeelerUncertainty::Unknown,
    })
}
