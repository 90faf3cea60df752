//! A pressure-change test: readings with the space, the limit and the instruments.

use ringtrue_metrology::conformity::Levels;
use ringtrue_metrology::units::{
    Given, LeakRate, Pressure, Quantity, TemperatureDifference, Volume, last_digit,
};
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::leak_test::{Gauge, Input, PressureChange, Pressures};
use uom::si::volume::cubic_meter;

use crate::reading::LeakReadings;

/// What leak readings are judged by.
#[derive(Debug, Clone)]
pub struct LeakBasis<'b> {
    /// What the pressures are measured from.
    pub pressures: Pressures,
    /// The atmosphere, where a barometer was read.
    pub atmosphere: Option<Pressure>,
    /// Volume of the test space, as typed.
    pub volume: &'b Given<Volume>,
    /// Its standard uncertainty; the last digit of the typed volume where it is not stated.
    pub volume_uncertainty: Option<Volume>,
    /// Largest leak rate that conforms.
    pub limit: LeakRate,
    /// Resolution of the pressure gauge; the last digit written down where it is not stated.
    pub pressure_resolution: Option<Pressure>,
    /// Resolution of the thermometer; the last digit written down where it is not stated.
    pub temperature_resolution: Option<TemperatureDifference>,
    /// Standard uncertainty of how well the thermometer follows the gas.
    pub temperature_uncertainty: Option<TemperatureDifference>,
    /// Volume by which the load rings may still give.
    pub give: Option<Volume>,
    /// The seal: pressure limit and decision levels.
    pub seal: Option<&'b Seal>,
}

/// Readings with what they are judged by.
#[must_use]
pub fn leak_test(read: LeakReadings, basis: &LeakBasis<'_>) -> Input {
    let limit = basis.seal.and_then(|seal| seal.limits.pressure_difference.as_ref());
    Input::PressureChange(Box::new(PressureChange {
        readings: read.readings,
        pressures: basis.pressures,
        atmosphere: basis.atmosphere,
        volume: basis.volume.value(),
        volume_standard_uncertainty: basis
            .volume_uncertainty
            .unwrap_or_else(|| cubic_metres(digit_uncertainty(basis.volume).unwrap_or(0.0))),
        limit: basis.limit,
        gauge: Gauge {
            pressure_written: read.pressure_written,
            pressure_resolution: basis.pressure_resolution,
            temperature_written: read.temperature_written,
            temperature_resolution: basis.temperature_resolution,
            temperature_standard_uncertainty: basis.temperature_uncertainty,
        },
        give: basis.give,
        pressure_limit: limit.and_then(|limit| limit.max.as_ref()).map(Given::value),
        levels: basis.seal.map_or(Levels::DEFAULT, Seal::levels),
    }))
}

/// A number is good to half of its last digit each way: a rectangle (JCGM 100:2008 4.3.7). In SI;
/// `None` for a number that has no last digit, such as a fraction.
pub(crate) fn digit_uncertainty<Q: Quantity>(given: &Given<Q>) -> Option<f64> {
    last_digit::<Q>(given.typed(), None).map(|digit| digit / 12f64.sqrt())
}

fn cubic_metres(value: f64) -> Volume {
    Volume::new::<cubic_meter>(value)
}
