//! A toric chilled and warmed, as given.

use ringtrue_metrology::units::{Fraction, HeatTransferCoefficient, Temperature, Time, Velocity};
use ringtrue_seal::RoomError;
use ringtrue_seal::chilling::{Input, Medium};
use ringtrue_words::say;

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
    Setting::words("medium", "check-chilling-medium", || words_of(&MEDIA)),
    Setting::quantity::<Temperature>("cold", "TEMPERATURE", "check-chilling-cold"),
    Setting::quantity::<Temperature>("room", "TEMPERATURE", "check-chilling-room"),
    Setting::quantity::<Fraction>("humidity", "SHARE", "check-chilling-humidity"),
    Setting::quantity::<Velocity>("air-speed", "SPEED", "check-chilling-air-speed"),
    Setting::quantity::<HeatTransferCoefficient>(
        "coefficient",
        "COEFFICIENT",
        "check-chilling-coefficient",
    ),
    Setting::quantity::<HeatTransferCoefficient>(
        "room-coefficient",
        "COEFFICIENT",
        "check-chilling-room-coefficient",
    ),
    Setting::quantity::<Time>("in-cold", "TIME", "check-chilling-in-cold").in_unit("min"),
    Setting::quantity::<Time>("since", "TIME", "check-chilling-since").in_unit("min"),
];

pub(super) fn evidence(made: &Made<'_>) -> Result<Input, CheckError> {
    made.no_files(say!("check-chilling-no-files"))?;
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
            return Err(refuse(
                say!("check-chilling-toric-not-described"),
                say!("check-chilling-name-one-halfs-seal"),
            )
            .into());
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
            let next = say!("check-chilling-leave-air-speed-out-or-state");
            return Err(refuse(say!("check-chilling-only-moving-air-has-air-speed"), next));
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
