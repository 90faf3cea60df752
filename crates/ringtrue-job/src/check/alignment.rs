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
    Setting::quantity::<Length>(
        "limit",
        "LENGTH",
        "Largest distance of the axes, in place of the file's",
    ),
    Setting::quantity::<Angle>(
        "tip-limit",
        "ANGLE",
        "Largest angle of the axes, in place of the file's",
    ),
    Setting::quantity::<Length>(
        "face-diameter",
        "LENGTH",
        "Diameter of the face sweep, where the readings do not state it",
    ),
    Setting::quantity::<Length>(
        "housing-diameter",
        "LENGTH",
        "Outside diameter of the housing face, whose edge may touch first when a half is tipped; \
         the seal's file where it is left out",
    ),
    Setting::words(
        "plus",
        "Which way the indicator counts up: as the plunger goes in, or out",
        || words_of(&PLUS),
    )
    .or("in"),
    Setting::quantity::<Length>(
        "sag",
        "LENGTH",
        "What the bracket sags: the reading at the bottom of a rigid pipe swept from outside, \
         zero at its top",
    ),
    Setting::quantity::<Angle>("top", "ANGLE", "Angle of the top, for the sag").or("0 deg"),
    Setting::quantity::<Length>(
        "uncertainty",
        "LENGTH",
        "Standard uncertainty of one reading, the part that differs from reading to reading",
    ),
    Setting::words(
        "moves",
        "Which half can be moved; the one that is swept where it is left out",
        || words_of(&HALVES),
    ),
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
