//! From readings to places: rounds at one place are averaged.

use ringtrue_metrology::units::{Angle, in_mm};
use ringtrue_words::say;

use super::{Input, Reading};
use crate::RoomError;
use crate::around::{Hole, hole, no_hole, place_deg};

/// Fewest places that make a plane and leave something to check it by.
const FEWEST_PLACES: usize = 4;
/// Most places that are read round one ring.
const MOST_PLACES: usize = 120;
/// Heights beyond this are not heights of a seal ring over its housing.
const HIGHEST_MM: f64 = 500.0;

/// One place round the ring.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Spot {
    /// Where, in [0, 360).
    pub(super) angle_deg: f64,
    /// Its rounds in mm, by round number.
    pub(super) readings_mm: Vec<(u32, f64)>,
    /// Their mean.
    pub(super) height_mm: f64,
}

impl Spot {
    pub(super) fn rounds(&self) -> f64 {
        self.readings_mm.len() as f64
    }

    pub(super) fn angle_rad(&self) -> f64 {
        self.angle_deg * std::f64::consts::PI / 180.0
    }
}

/// A key that is the same for readings at one place: the angle in [0, 360) to a millionth of a
/// degree.
#[must_use]
pub fn place_key(angle: Angle) -> u64 {
    libm::round(place_deg(angle) * 1e6) as u64 % 360_000_000
}

/// Groups readings by place, in the order in which places were first read.
pub(super) fn spots(input: &Input) -> Result<Vec<Spot>, RoomError> {
    let mut spots: Vec<(u64, Spot)> = Vec::new();
    for reading in &input.readings {
        let (key, height_mm) = (place_key(reading.angle), height_mm(reading)?);
        let new =
            || Spot { angle_deg: place_deg(reading.angle), readings_mm: vec![], height_mm: 0.0 };
        let index = spots.iter().position(|(known, _)| *known == key).unwrap_or_else(|| {
            spots.push((key, new()));
            spots.len() - 1
        });
        let rounds = &mut spots[index].1.readings_mm;
        if rounds.iter().any(|(round, _)| *round == reading.round) {
            let at = spots[index].1.angle_deg;
            let found = say!(
                "height-deg-read-twice-in-round",
                angle = at.to_string(),
                round = reading.round
            );
            return Err(RoomError::input(found, say!("height-repeated-angle-needs-round-own")));
        }
        rounds.push((reading.round, height_mm));
    }
    let mut spots: Vec<Spot> = spots.into_iter().map(|(_, spot)| spot).collect();
    for spot in &mut spots {
        spot.readings_mm.sort_by_key(|(round, _)| *round);
        let sum: f64 = spot.readings_mm.iter().map(|(_, mm)| mm).sum();
        spot.height_mm = sum / spot.rounds();
    }
    check_places(&spots)?;
    Ok(spots)
}

/// The middle of the stretch between two neighbouring places that holds `angle_deg`.
pub(super) fn midway(spots: &[Spot], angle_deg: f64) -> f64 {
    let mut angles: Vec<f64> = spots.iter().map(|spot| spot.angle_deg).collect();
    angles.sort_by(f64::total_cmp);
    let next = angles.iter().copied().find(|a| *a > angle_deg);
    let before = angles.iter().copied().rev().find(|a| *a <= angle_deg);
    let (first, last) = (angles[0], angles[angles.len() - 1]);
    let (from, to) = match (before, next) {
        (Some(from), Some(to)) => (from, to),
        _ => (last, first + 360.0),
    };
    let middle = (from + to) / 2.0;
    if middle >= 360.0 { middle - 360.0 } else { middle }
}

fn check_places(spots: &[Spot]) -> Result<(), RoomError> {
    let count = spots.len();
    if count < FEWEST_PLACES {
        let found = say!("height-heights-at-places-round-ring", n = count);
        return Err(RoomError::input(found, say!("height-4-places-or-more-wanted-evenly")));
    }
    if count > MOST_PLACES {
        let found = say!("height-heights-at-places-round-ring", n = count);
        return Err(RoomError::input(
            found,
            say!("height-places-at-most-judged", most = MOST_PLACES),
        ));
    }
    let mut angles: Vec<f64> = spots.iter().map(|spot| spot.angle_deg).collect();
    angles.sort_by(f64::total_cmp);
    match hole(&angles) {
        None => Ok(()),
        Some(Hole { from_deg, wide_deg }) => {
            let found = say!(
                "height-nothing-read-for-deg-from-deg",
                hole = format!("{wide_deg:.0}"),
                from = format!("{from_deg:.0}")
            );
            Err(RoomError::input(found, no_hole()))
        }
    }
}

/// The height in mm, where it is one.
fn height_mm(reading: &Reading) -> Result<f64, RoomError> {
    let mm = in_mm(reading.height);
    if mm.abs() <= HIGHEST_MM {
        return Ok(mm);
    }
    let found = say!(
        "height-height-mm-at-deg",
        height = format!("{mm:.0}"),
        angle = format!("{:.0}", place_deg(reading.angle))
    );
    Err(RoomError::input(
        found,
        say!("height-heights-within-mm-wanted", highest = HIGHEST_MM.to_string()),
    ))
}
