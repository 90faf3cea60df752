//! A toric chilled and warmed, as given.

use ringtrue_metrology::units::{Fraction, HeatTransferCoefficient, Temperature, Time, Velocity};
use ringtrue_seal::RoomError;
use ringtrue_seal::chilling::{Input, Medium};

use super::setting::{Setting, Settings, wanted, words_of};
use super::{CheckError, Made, Parts, refuse};
use crate::evidence::{self, Cold};

/// What a toric is cooled in, by name.
#[derive(Clone, Copy)]
enum Named {
    StillAir,
    MovingAir,
    Liquid,
}

const MEDIA: [(&str, Named); 3] =
    [("still-air", Named::StillAir), ("moving-air", Named::MovingAir), ("liquid", Named::Liquid)];

pub(super) const SETTINGS: &[Setting] = &[
    Setting::words(
        "medium",
        "What it is cooled in: a closed freezer, air that a fan moves, or a stirred cold liquid \
         that the rubber stands",
        || words_of(&MEDIA),
    ),
    Setting::quantity::<Temperature>("cold", "TEMPERATURE", "Temperature of the medium"),
    Setting::quantity::<Temperature>("room", "TEMPERATURE", "Temperature of the room"),
    Setting::quantity::<Fraction>("humidity", "SHARE", "Relative humidity of the room's air"),
    Setting::quantity::<Velocity>("air-speed", "SPEED", "Speed of moving air at the toric"),
    Setting::quantity::<HeatTransferCoefficient>(
        "coefficient",
        "COEFFICIENT",
        "Heat transfer coefficient in the medium, in place of the computed one",
    ),
    Setting::quantity::<HeatTransferCoefficient>(
        "room-coefficient",
        "COEFFICIENT",
        "Heat transfer coefficient in the room's air, in place of the computed one",
    ),
    Setting::quantity::<Time>("in-cold", "TIME", "Time that it lay in the cold: has it shrunk?")
        .in_unit("min"),
    Setting::quantity::<Time>(
        "since",
        "TIME",
        "Time since it came out of the cold: is it warm again?",
    )
    .in_unit("min"),
];

pub(super) fn evidence(made: &Made<'_>) -> Result<Input, CheckError> {
    made.no_files("chilling is computed from what is stated: leave it out")?;
    let settings = Settings::new(SETTINGS, made.stated)?;
    let cold = cold(&settings)?;
    let mut input = match made.parts {
        Parts::Half(seal, material) => evidence::chilled_seal(seal, material.cloned(), cold)?,
        Parts::Toric(toric, material, seat) => {
            let mut input = evidence::chilled_toric(toric, material.clone(), cold);
            input.seat = seat;
            input
        }
        Parts::Joint(..) | Parts::Material(_) | Parts::Unknown => {
            return Err(refuse("the toric is not described", "name one half's seal").into());
        }
    };
    input.in_cold = settings.quantity("in-cold")?;
    input.since = settings.quantity("since")?;
    Ok(input)
}

fn cold(settings: &Settings<'_>) -> Result<Cold, RoomError> {
    let speed = settings.quantity("air-speed")?;
    let medium = match settings.word("medium", &MEDIA).ok_or_else(|| wanted("medium"))? {
        Named::MovingAir => Medium::MovingAir { speed },
        Named::StillAir | Named::Liquid if speed.is_some() => {
            let next = "leave `air-speed` out, or state the medium as moving-air";
            return Err(refuse("only moving air has an air speed", next));
        }
        Named::StillAir => Medium::StillAir,
        Named::Liquid => Medium::Liquid,
    };
    Ok(Cold {
        medium,
        coefficient: settings.quantity("coefficient")?,
        room_coefficient: settings.quantity("room-coefficient")?,
        cold: settings.quantity("cold")?.ok_or_else(|| wanted("cold"))?,
        room: settings.quantity("room")?.ok_or_else(|| wanted("room"))?,
        humidity: settings.quantity("humidity")?.ok_or_else(|| wanted("humidity"))?,
    })
}
