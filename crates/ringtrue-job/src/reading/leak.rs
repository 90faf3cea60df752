//! Pressure and temperature over the time of a leak test.

use ringtrue_metrology::units::{
    Pressure, Quantity, Temperature, TemperatureDifference, Time, clip, last_digit, parse_number,
};
use ringtrue_seal::definition::TextError;
use ringtrue_seal::leak_test::Reading;
use ringtrue_words::say;
use uom::si::pressure::pascal;
use uom::si::temperature_interval::kelvin;
use uom::si::time::second;

use super::table::{Column, HeaderUnit, Need, Row, Table};

/// Readings, and the last digits that were written down.
#[derive(Debug, Clone, PartialEq)]
pub struct LeakReadings {
    /// The readings.
    pub readings: Vec<Reading>,
    /// Finest last digit of a pressure.
    pub pressure_written: Pressure,
    /// Finest last digit of a temperature.
    pub temperature_written: TemperatureDifference,
}

/// Reads `seconds` (or `time` with a unit), `pressure_kpa` and `temperature_degc`; units may also
/// stand in the cells.
///
/// # Errors
/// [`TextError`] at the first cell that does not fit, and at a time that is not after the one
/// before it.
pub fn leak(text: &str) -> Result<LeakReadings, TextError> {
    let columns = [
        Column { name: "seconds", unit: HeaderUnit::None, need: Need::Optional },
        Column { name: "time", unit: HeaderUnit::of::<Time>(), need: Need::Optional },
        Column { name: "pressure", unit: HeaderUnit::of::<Pressure>(), need: Need::Required },
        Column { name: "temperature", unit: HeaderUnit::of::<Temperature>(), need: Need::Required },
    ];
    let table = Table::read(text, &columns)?;
    if table.has("seconds") == table.has("time") {
        let found = if table.has("time") {
            say!("reading-file-has-seconds-time")
        } else {
            say!("reading-file-says-nothing-time")
        };
        let fits = say!("reading-one-column-two-wanted-seconds-or");
        return Err(TextError::of_text(found.to_owned(), fits.to_owned()));
    }
    let mut readings: Vec<Reading> = Vec::new();
    let (mut pressure_digit, mut temperature_digit) = (f64::INFINITY, f64::INFINITY);
    for row in table.rows() {
        let (name, time) = time(&row, &table)?;
        if readings.last().is_some_and(|last| time.si() <= last.time.si()) {
            let found = say!("reading-no-later-than-reading-before", time = clip(row.text(name)));
            return Err(row.misfit(name, found, say!("reading-readings-in-order-time-wanted")));
        }
        let pressure = row.quantity::<Pressure>("pressure")?;
        let temperature = row.quantity::<Temperature>("temperature")?;
        let digit = last_digit::<Pressure>(row.text("pressure"), row.header_unit("pressure"));
        pressure_digit = pressure_digit.min(digit.unwrap_or(f64::INFINITY));
        let header = row.header_unit("temperature");
        let digit = last_digit::<Temperature>(row.text("temperature"), header);
        temperature_digit = temperature_digit.min(digit.unwrap_or(f64::INFINITY));
        readings.push(Reading { time, pressure, temperature });
    }
    let known = |digit: f64| if digit.is_finite() { digit } else { 0.0 };
    Ok(LeakReadings {
        readings,
        pressure_written: Pressure::new::<pascal>(known(pressure_digit)),
        temperature_written: TemperatureDifference::new::<kelvin>(known(temperature_digit)),
    })
}

fn time(row: &Row<'_>, table: &Table<'_>) -> Result<(&'static str, Time), TextError> {
    if table.has("time") {
        return Ok(("time", row.quantity::<Time>("time")?));
    }
    let seconds = parse_number(row.text("seconds"))
        .map_err(|error| row.misfit("seconds", error.found, error.fits))?;
    Ok(("seconds", Time::new::<second>(seconds)))
}
