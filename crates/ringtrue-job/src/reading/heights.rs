//! Assembled heights round a ring.

use std::collections::BTreeMap;

use ringtrue_metrology::units::{Angle, Length, clip};
use ringtrue_seal::assembled_height::{Reading, place_key};
use ringtrue_seal::definition::TextError;
use ringtrue_words::say;

use super::table::{Column, HeaderUnit, Need, Table};

/// Most rounds that a file may number.
const MOST_ROUNDS: u32 = 1000;

/// Reads `angle_deg`, `height_mm` (or `height_in`, or `height` with a unit in each cell) and, where
/// it is there, `round`.
///
/// # Errors
/// [`TextError`] at the first cell that does not fit, and at a place that is read twice in one
/// round.
pub fn heights(text: &str) -> Result<Vec<Reading>, TextError> {
    let columns = [
        Column { name: "angle", unit: HeaderUnit::of::<Angle>(), need: Need::Required },
        Column { name: "height", unit: HeaderUnit::of::<Length>(), need: Need::Required },
        Column { name: "round", unit: HeaderUnit::None, need: Need::Optional },
    ];
    let table = Table::read(text, &columns)?;
    let mut taken = BTreeMap::new();
    let mut readings = Vec::new();
    for row in table.rows() {
        let angle = row.quantity::<Angle>("angle")?;
        let height = row.quantity::<Length>("height")?;
        let round = match row.text("round") {
            _ if !table.has("round") => 1,
            text => text
                .parse::<u32>()
                .ok()
                .filter(|round| (1..=MOST_ROUNDS).contains(round))
                .ok_or_else(|| {
                    let found = say!("reading-not-number-round", typed = clip(text));
                    row.misfit(
                        "round",
                        found,
                        say!("reading-round-one-to-most", most = MOST_ROUNDS),
                    )
                })?,
        };
        if let Some(line) = taken.insert((place_key(angle), round), row.line()) {
            let found = say!("reading-this-place-also-read-on-line", line);
            let fits = if table.has("round") {
                say!("reading-one-reading-place-round-wanted")
            } else {
                say!("reading-place-that-read-more-than-once")
            };
            return Err(row.misfit("angle", found, fits));
        }
        readings.push(Reading { angle, height, round });
    }
    Ok(readings)
}
