//! Sweeps of the housings, as given.

use ringtrue_metrology::units::{Angle, Length};
use ringtrue_seal::alignment::{IndicatorSense, Input, Sag};
use ringtrue_seal::definition::joint::Half;

use super::setting::{Setting, Settings, words_of};
use super::{CheckError, Made, Parts};
use crate::evidence::{self, AlignmentBasis};
use crate::reading;

const PLUS: [(&str, IndicatorSense); 2] =
    [("in", IndicatorSense::InCountsUp), ("out", IndicatorSense::OutCountsUp)];
const HALVES: [(&str, Half); 2] = [("a", Half::A), ("b", Half::B)];

pub(super) const SETTINGS: &[Setting] = &[
    Setting::quantity::<Length>("limit", "LENGTH", "check-alignment-limit"),
    Setting::quantity::<Angle>("tip-limit", "ANGLE", "check-alignment-tip-limit"),
    Setting::quantity::<Length>("face-diameter", "LENGTH", "check-alignment-face-diameter"),
    Setting::quantity::<Length>("housing-diameter", "LENGTH", "check-alignment-housing-diameter"),
    Setting::words("plus", "check-alignment-plus", || words_of(&PLUS)).or("in"),
    Setting::quantity::<Length>("sag", "LENGTH", "check-alignment-sag"),
    Setting::quantity::<Angle>("top", "ANGLE", "check-alignment-top").or("0 deg"),
    Setting::quantity::<Length>("uncertainty", "LENGTH", "check-alignment-uncertainty"),
    Setting::words("moves", "check-alignment-moves", || words_of(&HALVES)),
];

pub(super) fn evidence(made: &Made<'_>) -> Result<Input, CheckError> {
    let settings = Settings::new(SETTINGS, made.stated)?;
    let top = settings.quantity("top")?.unwrap_or_default();
    let basis = AlignmentBasis {
        parts: match made.parts {
            Parts::Joint(joint, _) => evidence::Parts::Joint(joint),
            Parts::Half(seal, _) => evidence::Parts::Seal(seal),
            Parts::Toric(..) | Parts::Material(_) | Parts::Unknown => evidence::Parts::Unknown,
        },
        eccentricity_limit: settings.quantity("limit")?,
        tip_limit: settings.quantity("tip-limit")?,
        housing_face_diameter: settings.quantity("housing-diameter")?,
        face_diameter: settings.quantity("face-diameter")?,
        sense: settings.word("plus", &PLUS).unwrap_or(IndicatorSense::InCountsUp),
        sag: settings.quantity("sag")?.map(|at_bottom| Sag { at_bottom, top }),
        gauge: made.gauge,
        stated_uncertainty: settings.quantity("uncertainty")?,
        moves: settings.word("moves", &HALVES),
    };
    Ok(evidence::sweeps(made.read(reading::sweeps)?, basis))
}
