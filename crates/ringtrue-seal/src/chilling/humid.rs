//! Does a cold surface draw water from the air?
//!
//! Magnus formula with the constants of WMO-No. 8 (2018), part I, annex 4.B:
//! `e = 611.2 Pa exp(17.62 t / (243.12 + t))` over water, −45..60 degC, and
//! `611.2 Pa exp(22.46 t / (272.62 + t))` over ice, −65..0.01 degC.

use libm::{exp, log};
use serde::Serialize;

/// Over a plane surface of water.
const WATER: (f64, f64) = (17.62, 243.12);
/// Over a plane surface of ice.
const ICE: (f64, f64) = (22.46, 272.62);
/// Pressure at 0 degC, Pa.
const AT_ZERO: f64 = 611.2;
/// A surface within this of the dew point may be wet, K: hygrometers and mixing air are no better.
/// Common practice, no source.
const MARGIN: f64 = 1.0;

/// What a surface that comes out of the cold does in the room's air.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Moisture {
    /// It stays dry.
    Dry,
    /// It is within a kelvin of the dew point: it may be wet.
    Marginal,
    /// Dew forms on it.
    Dew,
    /// Frost forms on it, and melts to water later.
    Frost,
}

/// Saturation pressure in Pa over water at a temperature in degC.
pub(crate) fn saturation_over_water(degc: f64) -> f64 {
    pressure(degc, WATER)
}

/// Saturation pressure in Pa over ice at a temperature in degC.
pub(crate) fn saturation_over_ice(degc: f64) -> f64 {
    pressure(degc, ICE)
}

fn pressure(degc: f64, (factor, offset): (f64, f64)) -> f64 {
    AT_ZERO * exp(factor * degc / (offset + degc))
}

/// Dew point over water of air at `degc` with a relative humidity of 0..=1 over water.
///
/// `None` for air without any water.
pub(crate) fn dew_point(degc: f64, humidity: f64) -> Option<f64> {
    inverse(humidity * saturation_over_water(degc), WATER)
}

/// Frost point over ice of the same air. Above the dew point where both are below 0 degC.
pub(crate) fn frost_point(degc: f64, humidity: f64) -> Option<f64> {
    inverse(humidity * saturation_over_water(degc), ICE)
}

fn inverse(pressure: f64, (factor, offset): (f64, f64)) -> Option<f64> {
    (pressure > 0.0).then(|| {
        let ratio = log(pressure / AT_ZERO);
        offset * ratio / (factor - ratio)
    })
}

/// The temperature in degC below which a surface takes up water from the air: the dew point, or
/// the frost point where that is below 0 degC. `None` for air without any water.
pub(crate) fn wets_below(degc: f64, humidity: f64) -> Option<f64> {
    dew_point(degc, humidity)
        .and_then(|dew| if dew >= 0.0 { Some(dew) } else { frost_point(degc, humidity) })
}

/// What a surface does in air that wets below a temperature, both in degC.
pub(crate) fn moisture(surface_degc: f64, wets_below: Option<f64>) -> Moisture {
    match wets_below {
        None => Moisture::Dry,
        Some(point) if surface_degc < point && surface_degc < 0.0 => Moisture::Frost,
        Some(point) if surface_degc < point => Moisture::Dew,
        Some(point) if surface_degc < point + MARGIN => Moisture::Marginal,
        Some(_) => Moisture::Dry,
    }
}
