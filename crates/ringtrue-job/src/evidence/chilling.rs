//! A toric to be chilled: from a seal's file, or from its sizes alone.

use ringtrue_metrology::conformity::Levels;
use ringtrue_metrology::units::{Fraction, HeatTransferCoefficient, Temperature, clip};
use ringtrue_seal::chilling::{Input, Medium, Seat};
use ringtrue_seal::definition::material::{Material, shipped, shipped_codes};
use ringtrue_seal::definition::seal::{LoadRing, Seal};
use ringtrue_seal::geometry::{FreeToric, lip_interference};
use ringtrue_seal::{RoomError, seating};
use ringtrue_words::say;

/// Where a toric is chilled and where it is fitted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cold {
    /// What it is cooled in.
    pub medium: Medium,
    /// A stated coefficient in that medium.
    pub coefficient: Option<HeatTransferCoefficient>,
    /// A stated coefficient in the room's air.
    pub room_coefficient: Option<HeatTransferCoefficient>,
    /// Temperature of the medium.
    pub cold: Temperature,
    /// Temperature of the room.
    pub room: Temperature,
    /// Relative humidity of the room's air.
    pub humidity: Fraction,
}

/// The toric of a seal's file on the ring of that file.
///
/// `material` is the file that the seal names, where it names one.
///
/// # Errors
/// [`RoomError`] for a conical washer, and for a material without figures.
pub fn chilled_seal(
    seal: &Seal,
    material: Option<Material>,
    cold: Cold,
) -> Result<Input, RoomError> {
    let (LoadRing::Toric(toric), Some(ramp)) = (&seal.load_ring, &seal.ring.ramp) else {
        return Err(RoomError::Input {
            found: say!("evidence-this-seal-has-conical-washer").to_owned(),
            fits: say!("evidence-chilling-does-nothing-useful-for-only").to_owned(),
        });
    };
    let material = match material {
        Some(material) => material,
        None => material_of(&toric.material)?,
    };
    let seat = Seat {
        diameter: ramp.diameter.value(),
        ramp_angle: ramp.angle.value(),
        ring_mass: Some(seal.ring.mass.value()),
    };
    let mut input = chilled_toric(FreeToric::from(toric), material, cold);
    input.seat = Some(seat);
    input.lip_interference = lip_interference(seal);
    input.chilling = Some(seal.fitting.chilling);
    input.levels = seal.levels();
    Ok(input)
}

/// A toric of which only sizes and material are known.
#[must_use]
pub fn chilled_toric(toric: FreeToric, material: Material, cold: Cold) -> Input {
    Input {
        toric,
        material,
        seat: None,
        lip_interference: None,
        chilling: None,
        medium: cold.medium,
        coefficient: cold.coefficient,
        room_coefficient: cold.room_coefficient,
        cold: cold.cold,
        room: cold.room,
        humidity: cold.humidity,
        in_cold: None,
        since: None,
        levels: Levels::DEFAULT,
    }
}

/// The load ring of a seal's file, with nothing stated of friction and height.
///
/// `material` is the file that the seal names, where it names one.
#[must_use]
pub fn seated(seal: &Seal, material: Option<Material>) -> seating::Input {
    let material = material.or_else(|| shipped(seal.load_ring.material()).cloned());
    seating::Input {
        seal: seal.clone(),
        material,
        dry: None,
        wet: None,
        friction_uncertainty: None,
        free_height: None,
    }
}

/// The shipped material with this code.
///
/// # Errors
/// [`RoomError`] names the codes that are shipped.
pub fn material_of(code: &str) -> Result<Material, RoomError> {
    shipped(code).cloned().ok_or_else(|| RoomError::Input {
        found: say!("evidence-no-figures-at-hand-for-material", material = clip(code)),
        fits: say!("evidence-one-or-material-file-ending-in", codes = shipped_codes().join(", ")),
    })
}
