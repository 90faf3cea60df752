//! The gauge: a measuring instrument and its uncertainty in two parts.

use jiff::civil::Date;
use ringtrue_metrology::units::{Given, Length, Quantity};
use ringtrue_words::say;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::misfit::{above_zero, not_negative, some_text};
use super::{Definition, Kind, Misfit};

/// A measuring instrument.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Gauge {
    /// `ringtrue/gauge/1`.
    pub schema: String,
    /// The number on it.
    pub name: String,
    /// What it is.
    pub kind: GaugeKind,
    /// Smallest step that it shows.
    pub resolution: Given<Length>,
    /// Standard uncertainty that repeats in every reading (calibration, zero): it cancels in range
    /// and tilt, not in mean height.
    pub repeating_uncertainty: Given<Length>,
    /// Standard uncertainty that differs from reading to reading (feel, contact), without the
    /// resolution.
    pub non_repeating_uncertainty: Given<Length>,
    /// Its calibration.
    pub calibration: Calibration,
}

/// Kinds of instrument.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum GaugeKind {
    /// Depth gauge with a bridge.
    DepthGauge,
    /// Depth micrometer.
    DepthMicrometer,
    /// Dial or digital indicator on a stand.
    Indicator,
    /// Caliper.
    Caliper,
    /// Feeler blades.
    Feeler,
    /// Rule.
    Rule,
}

/// What is stated of a gauge's calibration.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Calibration {
    /// Certificate or statement, with the coverage it gives.
    pub statement: String,
    /// Day on which it is due again.
    #[schemars(with = "String", extend("format" = "date"))]
    pub due: Date,
}

impl Definition for Gauge {
    const KIND: Kind = Kind::Gauge;

    fn consistent(&self) -> Result<(), Misfit> {
        some_text("name", &self.name)?;
        above_zero("resolution", &self.resolution)?;
        not_negative("repeating_uncertainty", &self.repeating_uncertainty)?;
        not_negative("non_repeating_uncertainty", &self.non_repeating_uncertainty)?;
        let zero = |given: &Given<Length>| given.value().si() == 0.0;
        if zero(&self.repeating_uncertainty) && zero(&self.non_repeating_uncertainty) {
            return Err(Misfit::at(
                "repeating_uncertainty",
                say!("definition-gauge-without-uncertainty"),
                say!("definition-gauge-uncertainty-wanted"),
            ));
        }
        some_text("calibration.statement", &self.calibration.statement)
    }
}
