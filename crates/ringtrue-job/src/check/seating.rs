//! A load ring and how it goes in, as given.

use ringtrue_metrology::units::{Length, UnitError, clip, parse_number};
use ringtrue_seal::RoomError;
use ringtrue_seal::definition::seal::{LoadRing, Seal};
use ringtrue_seal::seating::{FreeHeight, Input};
use ringtrue_words::say;
use uom::si::length::meter;

use super::setting::{Setting, Settings, wanted};
use super::{CheckError, Made, Parts, refuse};
use crate::evidence::{self, digit_uncertainty};

/// Largest friction coefficient that is taken: more is a slip of the hand.
const MOST_FRICTION: f64 = 5.0;

pub(super) const SETTINGS: &[Setting] = &[
    Setting::typed("dry", "COEFFICIENT", "check-seating-dry", |text| friction(text).map(|_| ())),
    Setting::typed("wet", "COEFFICIENT", "check-seating-wet", |text| friction(text).map(|_| ())),
    Setting::typed(
        "friction-uncertainty",
        "COEFFICIENT",
        "check-seating-friction-uncertainty",
        |text| friction(text).map(|_| ()),
    ),
    Setting::quantity::<Length>(FREE_HEIGHT, "LENGTH", "check-seating-free-height"),
    Setting::quantity::<Length>(
        FREE_HEIGHT_UNCERTAINTY,
        "LENGTH",
        "check-seating-free-height-uncertainty",
    ),
];

const FREE_HEIGHT: &str = "free-height";
const FREE_HEIGHT_UNCERTAINTY: &str = "free-height-uncertainty";

/// Only a washer has a free height.
pub(super) fn takes(setting: &str, seals: &[&Seal]) -> bool {
    let is_washer = |seal: &&Seal| match seal.load_ring {
        LoadRing::ConicalWasher(_) => true,
        LoadRing::Toric(_) => false,
    };
    ![FREE_HEIGHT, FREE_HEIGHT_UNCERTAINTY].contains(&setting) || seals.iter().any(is_washer)
}

fn friction(text: &str) -> Result<f64, UnitError> {
    let within = |found: &f64| (0.0..=MOST_FRICTION).contains(found);
    parse_number(text).ok().filter(within).ok_or_else(|| UnitError {
        found: say!("check-seating-no-friction-coefficient", typed = clip(text)),
        fits: say!("check-seating-number-from-zero-wanted", most = MOST_FRICTION.to_string()),
    })
}

pub(super) fn evidence(made: &Made<'_>) -> Result<Input, CheckError> {
    made.no_files(say!("check-seating-no-files"))?;
    let settings = Settings::new(SETTINGS, made.stated)?;
    let free_height = free_height(&settings)?;
    match made.parts {
        Parts::Half(seal, material) => Ok(Input {
            dry: settings.read("dry", friction)?,
            wet: settings.read("wet", friction)?,
            friction_uncertainty: settings.read("friction-uncertainty", friction)?,
            free_height,
            ..evidence::seated(seal, material.cloned())
        }),
        Parts::Joint(..) | Parts::Toric(..) | Parts::Material(_) | Parts::Unknown => Err(refuse(
            say!("check-seating-half-not-named"),
            say!("check-seating-name-one-halfs-seal"),
        )
        .into()),
    }
}

fn free_height(settings: &Settings<'_>) -> Result<Option<FreeHeight>, RoomError> {
    let stated = settings.quantity::<Length>(FREE_HEIGHT_UNCERTAINTY)?;
    let Some(height) = settings.given::<Length>(FREE_HEIGHT)? else {
        return match stated {
            Some(_) => Err(refuse(
                say!(
                    "check-seating-uncertainty-without-height",
                    uncertainty = FREE_HEIGHT_UNCERTAINTY,
                    height = FREE_HEIGHT
                ),
                say!("check-seating-state-height-too-or-leave-both"),
            )),
            None => Ok(None),
        };
    };
    let standard_uncertainty = match (stated, digit_uncertainty(&height)) {
        (Some(u), _) => u,
        (None, Some(u)) => Length::new::<meter>(u),
        (None, None) => return Err(wanted(FREE_HEIGHT_UNCERTAINTY)),
    };
    Ok(Some(FreeHeight { height: height.value(), standard_uncertainty }))
}

#[cfg(test)]
mod tests {
    use ringtrue_seal::seating::{DRY, DRY_STEEL, FRICTION_RANGE, WET};

    use super::{SETTINGS, friction};

    /// What the help says is what the room takes.
    #[test]
    fn the_help_names_the_rooms_own_friction() {
        for (setting, of_room) in SETTINGS.iter().zip([DRY, WET]) {
            assert!(
                setting.help().contains(&format!(" {of_room} for rubber")),
                "{}",
                setting.help()
            );
        }
        assert!(SETTINGS[0].help().contains(&format!(" {DRY_STEEL} for steel")));
        assert!(friction("0,25").is_ok_and(|found| found == 0.25));
        assert!(SETTINGS[2].help().contains("a third") && FRICTION_RANGE == 1.0 / 3.0);
        for wrong in ["-0.1", "9", "0.3 mm", "slippery", "NaN", ""] {
            assert!(friction(wrong).is_err(), "{wrong}");
        }
    }
}
