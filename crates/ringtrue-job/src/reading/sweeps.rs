//! Indicator sweeps of housings.

use ringtrue_metrology::units::{Angle, Length, clip};
use ringtrue_seal::alignment::{Reading, Surface};
use ringtrue_seal::definition::TextError;
use ringtrue_seal::definition::joint::Half;
use ringtrue_words::say;

use super::table::{Column, HeaderUnit, Need, Row, Table};

/// The surfaces that are swept, by their words in a file.
pub const SURFACES: [(&str, Surface); 3] =
    [("rim", Surface::Rim), ("bore", Surface::Bore), ("face", Surface::Face)];

/// Reads `surface`, `angle_deg`, `reading_mm` (or `reading_in`, or `reading` with a unit in each
/// cell) and, where they are there, `housing`, `sag` and `diameter`.
///
/// Without `housing` the readings are of half b, the half that is swept. A place may be read more
/// than once: a sweep that comes back to its start shows whether it repeats.
///
/// # Errors
/// [`TextError`] at the first cell that does not fit, and where there is no reading.
pub fn sweeps(text: &str) -> Result<Vec<Reading>, TextError> {
    let columns = [
        Column { name: "surface", unit: HeaderUnit::None, need: Need::Required },
        Column { name: "angle", unit: HeaderUnit::of::<Angle>(), need: Need::Required },
        Column { name: "reading", unit: HeaderUnit::of::<Length>(), need: Need::Required },
        Column { name: "housing", unit: HeaderUnit::None, need: Need::Optional },
        Column { name: "sag", unit: HeaderUnit::of::<Length>(), need: Need::Optional },
        Column { name: "diameter", unit: HeaderUnit::of::<Length>(), need: Need::Optional },
    ];
    let table = Table::read(text, &columns)?;
    let readings = table.rows().map(|row| reading(&table, &row)).collect::<Result<Vec<_>, _>>()?;
    if readings.is_empty() {
        let fits = say!("reading-sweep-has-four-readings-at-least");
        return Err(TextError::of_text(say!("reading-file-holds-no-reading"), fits));
    }
    Ok(readings)
}

fn reading(table: &Table<'_>, row: &Row<'_>) -> Result<Reading, TextError> {
    let typed = row.text("surface").to_lowercase();
    let Some((_, surface)) = SURFACES.into_iter().find(|(word, _)| *word == typed) else {
        let found = say!("reading-no-surface-that-swept", typed = clip(&typed));
        return Err(row.misfit("surface", found, say!("reading-rim-bore-or-face-would-fit")));
    };
    let half = match row.text("housing").to_lowercase().as_str() {
        _ if !table.has("housing") => Half::B,
        "a" => Half::A,
        "b" => Half::B,
        other => {
            let found = say!("reading-names-no-half", typed = clip(other));
            return Err(row.misfit("housing", found, say!("reading-half-a-or-b-would-fit")));
        }
    };
    // An empty cell of an optional column says nothing.
    let stated = |name: &str| {
        let there = table.has(name) && !row.text(name).is_empty();
        there.then(|| row.quantity::<Length>(name)).transpose()
    };
    Ok(Reading {
        half,
        surface,
        angle: row.quantity::<Angle>("angle")?,
        value: row.quantity::<Length>("reading")?,
        sag: stated("sag")?,
        diameter: stated("diameter")?,
    })
}
