//! Light bands on a lapped face.

use ringtrue_metrology::units::{Angle, Length, UnitError, clip, parse, parse_number};
use ringtrue_seal::definition::TextError;
use ringtrue_seal::flatness::{Bend, BendAmount, FlatnessLimit, Order, ReadingUncertainty, Seen};
use ringtrue_words::say;

use super::table::{Column, HeaderUnit, Need, Row, Table};

/// Reads `angle_deg` with one of: `bend_mm` and `spacing_mm`; `bands`; `order`.
///
/// A bend is positive where the band's ends bend towards the line of contact.
///
/// # Errors
/// [`TextError`] at the first cell that does not fit, where there is no reading, and where the
/// columns say none or more than one of the three.
pub fn bands(text: &str) -> Result<Seen, TextError> {
    let columns = [
        Column { name: "angle", unit: HeaderUnit::of::<Angle>(), need: Need::Required },
        Column { name: "bend", unit: HeaderUnit::of::<Length>(), need: Need::Optional },
        Column { name: "spacing", unit: HeaderUnit::of::<Length>(), need: Need::Optional },
        Column { name: "bands", unit: HeaderUnit::None, need: Need::Optional },
        Column { name: "order", unit: HeaderUnit::None, need: Need::Optional },
    ];
    let table = Table::read(text, &columns)?;
    let has = ["bend", "spacing", "bands", "order"].map(|name| table.has(name));
    let seen = match has {
        [true, true, false, false] => Seen::Bends(each(&table, measured)?),
        [false, false, true, false] => Seen::Bends(each(&table, judged)?),
        [false, false, false, true] => Seen::Orders(each(&table, order)?),
        _ => {
            let found = say!("reading-columns-do-not-say-how-bands");
            let fits = say!("reading-beside-angle-deg-stand-bend-mm");
            return Err(TextError::of_text(found, fits));
        }
    };
    let empty = match &seen {
        Seen::Bends(bends) => bends.is_empty(),
        Seen::Orders(orders) => orders.is_empty(),
        Seen::Closed { .. } => false,
    };
    if empty {
        return Err(TextError::of_text(
            say!("reading-file-holds-no-reading"),
            say!("reading-one-reading-line-wanted"),
        ));
    }
    Ok(seen)
}

fn each<T>(
    table: &Table<'_>,
    read: fn(&Row<'_>) -> Result<T, TextError>,
) -> Result<Vec<T>, TextError> {
    table.rows().map(|row| read(&row)).collect()
}

fn measured(row: &Row<'_>) -> Result<Bend, TextError> {
    let amount = BendAmount::Measured {
        bend: row.quantity::<Length>("bend")?,
        spacing: row.quantity::<Length>("spacing")?,
    };
    Ok(Bend { azimuth: row.quantity::<Angle>("angle")?, amount })
}

fn judged(row: &Row<'_>) -> Result<Bend, TextError> {
    let amount = BendAmount::Bands(number(row, "bands")?);
    Ok(Bend { azimuth: row.quantity::<Angle>("angle")?, amount })
}

fn order(row: &Row<'_>) -> Result<Order, TextError> {
    Ok(Order { angle: row.quantity::<Angle>("angle")?, order: number(row, "order")? })
}

fn number(row: &Row<'_>, name: &str) -> Result<f64, TextError> {
    parse_number(row.text(name)).map_err(|UnitError { found, fits }| row.misfit(name, found, fits))
}

/// Bands or a length: `2 bands`, `0.6 um`.
enum BandsOrLength {
    Bands(f64),
    Length(Length),
}

fn bands_or_length(text: &str) -> Result<BandsOrLength, UnitError> {
    let trimmed = text.trim();
    let number = trimmed.strip_suffix("bands").or_else(|| trimmed.strip_suffix("band"));
    match number {
        Some(number) => parse_number(number).map(BandsOrLength::Bands),
        None => parse(trimmed).map(BandsOrLength::Length).map_err(|error| UnitError {
            found: error.found,
            fits: say!("reading-bands-or-length-wanted-such-as", typed = clip(trimmed)),
        }),
    }
}

/// A limit of flatness as typed: `2 bands`, `0.6 um`, `23 uin`.
///
/// # Errors
/// [`UnitError`] when it is neither a number of bands nor a length.
pub fn flatness_limit(text: &str) -> Result<FlatnessLimit, UnitError> {
    Ok(match bands_or_length(text)? {
        BandsOrLength::Bands(bands) => FlatnessLimit::Bands(bands),
        BandsOrLength::Length(length) => FlatnessLimit::Length(length),
    })
}

/// The standard uncertainty of a reading as typed: `0.1 bands`, or of a measured bend: `0.5 mm`.
///
/// # Errors
/// [`UnitError`] when it is neither a number of bands nor a length.
pub fn band_uncertainty(text: &str) -> Result<ReadingUncertainty, UnitError> {
    Ok(match bands_or_length(text)? {
        BandsOrLength::Bands(bands) => ReadingUncertainty::Bands(bands),
        BandsOrLength::Length(length) => ReadingUncertainty::Length(length),
    })
}
