//! Feeler readings round a closed joint.

use ringtrue_metrology::units::{Angle, Length};
use ringtrue_seal::closing::Reading;
use ringtrue_seal::definition::TextError;
use ringtrue_words::say;

use super::table::{Column, HeaderUnit, Need, Table};

/// Reads `angle_deg` and `gap_mm` (or `gap_in`, or `gap` with a unit in each cell).
///
/// # Errors
/// [`TextError`] at the first cell that does not fit, and where there is no reading.
pub fn feeler(text: &str) -> Result<Vec<Reading>, TextError> {
    let columns = [
        Column { name: "angle", unit: HeaderUnit::of::<Angle>(), need: Need::Required },
        Column { name: "gap", unit: HeaderUnit::of::<Length>(), need: Need::Required },
    ];
    let table = Table::read(text, &columns)?;
    let reading = |row: super::table::Row<'_>| {
        Ok(Reading { angle: row.quantity::<Angle>("angle")?, gap: row.quantity::<Length>("gap")? })
    };
    let readings = table.rows().map(reading).collect::<Result<Vec<_>, TextError>>()?;
    if readings.is_empty() {
        let fits = say!("reading-one-reading-line-wanted");
        return Err(TextError::of_text(say!("reading-file-holds-no-reading"), fits));
    }
    Ok(readings)
}
