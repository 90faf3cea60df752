//! A load ring and how it goes in, as given.

use ringtrue_metrology::units::{UnitError, clip, parse_number};
use ringtrue_seal::seating::Input;

use super::setting::{Setting, Settings};
use super::{CheckError, Made, Parts, refuse};
use crate::evidence;

/// Largest friction coefficient that is taken: more is a slip of the hand.
const MOST_FRICTION: f64 = 5.0;

pub(super) const SETTINGS: &[Setting] = &[
    Setting::typed(
        "dry",
        "COEFFICIENT",
        "Friction coefficient of the dry load ring; where it is left out 0.8 for rubber, 0.15 for \
         steel",
        |text| friction(text).map(|_| ()),
    ),
    Setting::typed(
        "wet",
        "COEFFICIENT",
        "The same, wetted with the cleaning agent; where it is left out 0.3 for rubber",
        |text| friction(text).map(|_| ()),
    ),
];

fn friction(text: &str) -> Result<f64, UnitError> {
    let within = |found: &f64| (0.0..=MOST_FRICTION).contains(found);
    parse_number(text).ok().filter(within).ok_or_else(|| UnitError {
        found: format!("`{}` is no friction coefficient", clip(text)),
        fits: format!("a number from 0 to {MOST_FRICTION} is wanted"),
    })
}

pub(super) fn evidence(made: &Made<'_>) -> Result<Input, CheckError> {
    made.no_files("seating is computed from the seal's file: leave it out")?;
    let settings = Settings::new(SETTINGS, made.stated)?;
    let friction = [settings.read("dry", friction)?, settings.read("wet", friction)?];
    match made.parts {
        Parts::Half(seal, material) => Ok(evidence::seated(seal, material.cloned(), friction)),
        Parts::Joint(..) | Parts::Toric(..) | Parts::Material(_) | Parts::Unknown => {
            Err(refuse("the half is not named", "name one half's seal").into())
        }
    }
}

#[cfg(test)]
mod tests {
    use ringtrue_seal::seating::{DRY, DRY_STEEL, WET};

    use super::{SETTINGS, friction};

    /// What the help says is what the room takes.
    #[test]
    fn the_help_names_the_rooms_own_friction() {
        for (setting, of_room) in SETTINGS.iter().zip([DRY, WET]) {
            assert!(setting.help.contains(&format!(" {of_room} for rubber")), "{}", setting.help);
        }
        assert!(SETTINGS[0].help.contains(&format!(" {DRY_STEEL} for steel")));
        assert!(friction("0,25").is_ok_and(|found| found == 0.25));
        for wrong in ["-0.1", "9", "0.3 mm", "slippery", "NaN", ""] {
            assert!(friction(wrong).is_err(), "{wrong}");
        }
    }
}
