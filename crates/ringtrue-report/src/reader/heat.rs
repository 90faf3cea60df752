//! Temperatures and times as a reader sees them.

use ringtrue_metrology::units::{System, fixed};

/// The unit of temperatures.
pub(crate) fn unit(system: System) -> &'static str {
    match system {
        System::Millimetre => "°C",
        System::Inch => "°F",
    }
}

/// A temperature in degC as a number of the chosen unit.
pub(crate) fn degrees(degc: f64, system: System) -> f64 {
    match system {
        System::Millimetre => degc,
        System::Inch => degc * 1.8 + 32.0,
    }
}

/// A temperature to tenths: `21.5 °C`.
pub(crate) fn temperature(degc: f64, system: System) -> String {
    format!("{} {}", fixed(degrees(degc, system), 1), unit(system))
}
