//! How much does the closed space leak, and could this test have seen a leak as small as the limit?
//!
//! Three kinds of evidence: a **pressure change** over time, **bubbles** counted under water or in
//! a
//! film, and a **soak** with oil. Only the first gives a rate with an uncertainty of its own.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | p, T | absolute pressure and temperature of one reading | Pa, K |
//! | T₀ | mean temperature of the fitted readings | K |
//! | y | `p T₀/T`: the pressure that the gas would have at T₀ | Pa |
//! | V | volume of the test space | m³ |
//! | q | `∓V dy/dt`, throughput at T₀; positive the way the pressure drives it | Pa m³/s |
//! | E | `2.5 pₜ V (1 − (pₐ/pₜ)^0.286)` with the largest pressure pₜ and the atmosphere pₐ | J |
//!
//! Ideal gas, rigid walls. A space that rubber load rings bound is not rigid: they give, at once
//! and
//! then ever slower. What gives at once is left out with the settling time; what still moves while
//! the line is fitted looks like a leak, or hides one. The standards for rigid vessels do not cover
//! it (ASTM E2930 leaves deformable ones out), so the outcome says how much give would hide a leak
//! as large as the limit, and takes a stated give into the uncertainty.

mod pressure;
mod seen;
mod settling;
#[cfg(test)]
mod tests;

use ringtrue_metrology::conformity::{Levels, Verdict};
use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::{
    LeakRate, Length, Pressure, Temperature, TemperatureDifference, Time, Volume,
};
use ringtrue_words::say;
use serde::Serialize;

pub use pressure::FEWEST_READINGS;

// The published cases run on the room's own parts.
pub(crate) use pressure::{counted, molar, stored_energy};

use crate::RoomError;

/// Where the formulas come from.
pub const SOURCES: &[Source] = &[
    Source::Published("40 CFR 1065.644 (amount of gas from pressure and temperature, ideal gas)"),
    Source::Published(
        "ASTM E2930, scope and principle: mass change from pressure and temperature; rigid vessels \
         only, change below 10 % of the start pressure",
    ),
    Source::Unverified("EN 1779, ISO 20485 (throughput V dp/dt)"),
    Source::Published("JCGM 100:2008, H.3 (straight line), 4.3.7 and 4.3.9 (resolution)"),
    Source::Published("JCGM 106:2012, clause 7 (probability of conformity)"),
    Source::Unverified("ISO 11843-1 (smallest detectable value: both errors at the levels' risk)"),
    Source::Published(
        "ASME PCC-2, article 501, appendix II (stored energy), as read in a committee draft",
    ),
    Source::Unverified("EN 1779, handbook tables: what bubbles under water and in a film show"),
];

/// One kind of evidence.
#[derive(Debug, Clone, PartialEq)]
pub enum Input {
    /// Pressure and temperature over time.
    PressureChange(Box<PressureChange>),
    /// Bubbles counted.
    Bubbles(Bubbles),
    /// Filled and left.
    Soak(Soak),
}

/// Readings of a pressure-change test and what they are judged by.
#[derive(Debug, Clone, PartialEq)]
pub struct PressureChange {
    /// The readings in the order of time; at least [`FEWEST_READINGS`].
    pub readings: Vec<Reading>,
    /// What the pressures are measured from.
    pub pressures: Pressures,
    /// The atmosphere; 101.325 kPa, known to 3 kPa, where it was not read.
    pub atmosphere: Option<Pressure>,
    /// Volume of the test space.
    pub volume: Volume,
    /// Its standard uncertainty.
    pub volume_standard_uncertainty: Volume,
    /// Largest leak rate that conforms.
    pub limit: LeakRate,
    /// The instruments.
    pub gauge: Gauge,
    /// Volume by which the load rings may still give while the line is fitted.
    pub give: Option<Volume>,
    /// Largest pressure difference that the seal may see.
    pub pressure_limit: Option<Pressure>,
    /// Probabilities at which the verdict is drawn.
    pub levels: Levels,
}

/// One reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Time since the start.
    pub time: Time,
    /// Pressure, absolute or over the atmosphere.
    pub pressure: Pressure,
    /// Temperature of the gas.
    pub temperature: Temperature,
}

/// What a pressure is measured from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Pressures {
    /// From nothing.
    Absolute,
    /// From the atmosphere.
    Gauge,
}

/// What the instruments show.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gauge {
    /// Last digit of the pressures as written down.
    pub pressure_written: Pressure,
    /// Resolution of the pressure gauge, where it is stated; the coarser of the two counts.
    pub pressure_resolution: Option<Pressure>,
    /// Last digit of the temperatures as written down.
    pub temperature_written: TemperatureDifference,
    /// Resolution of the thermometer, where it is stated; the coarser of the two counts.
    pub temperature_resolution: Option<TemperatureDifference>,
    /// Standard uncertainty of how well the thermometer follows the gas, at either end of the test.
    pub temperature_standard_uncertainty: Option<TemperatureDifference>,
}

/// Bubbles counted under water or in a film.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bubbles {
    /// How they were looked for.
    pub by: BubbleMethod,
    /// How many came.
    pub count: u32,
    /// Over which time.
    pub over: Time,
    /// Their diameter; 2 to 4 mm where it was not measured.
    pub diameter: Option<Length>,
    /// Largest leak rate that conforms.
    pub limit: LeakRate,
    /// Probabilities at which the verdict is drawn.
    pub levels: Levels,
}

/// How bubbles are looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum BubbleMethod {
    /// The part under water.
    Immersion,
    /// A film of bubble liquid on the joint.
    Film,
}

/// Filled with oil and left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Soak {
    /// What was seen.
    pub seen: Trace,
    /// After which time.
    pub over: Time,
    /// Time that the shop asks for; with none a dry soak proves nothing.
    pub wanted: Option<Time>,
}

/// What a soak showed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Trace {
    /// No wet trace.
    Dry,
    /// A wet trace.
    Wet,
}

/// What the test says. Throughputs in Pa m³/s at the reference temperature.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outcome {
    /// The kind of evidence.
    pub method: Method,
    /// Leak rate; null where the evidence gives none.
    pub leak_rate_pa_m3_per_s: Option<f64>,
    /// Its standard uncertainty.
    pub standard_uncertainty_pa_m3_per_s: Option<f64>,
    /// The same in mbar l/s.
    pub leak_rate_mbar_l_per_s: Option<f64>,
    /// The same as an amount of gas.
    pub leak_rate_mol_per_s: Option<f64>,
    /// The same in cm³/min counted at 0 degC and 101.325 kPa.
    pub leak_rate_sccm_0_degc: Option<f64>,
    /// The same in cm³/min counted at 20 degC and 101.325 kPa.
    pub leak_rate_sccm_20_degc: Option<f64>,
    /// Temperature of the throughput: the mean of the fitted readings.
    pub reference_temperature_degc: Option<f64>,
    /// Smallest leak that this test would have told from none.
    pub detectable_leak_pa_m3_per_s: Option<f64>,
    /// Largest leak rate that conforms, at the reference temperature.
    pub limit_pa_m3_per_s: Option<f64>,
    /// Probability that the leak is within the limit.
    pub probability_conforms: Option<f64>,
    /// Time at the start that was left out.
    pub settling_s: Option<f64>,
    /// Time over which the line was fitted, or over which was watched.
    pub watched_s: f64,
    /// Energy of the gas at the largest pressure.
    pub stored_energy_j: Option<f64>,
    /// Largest pressure over the atmosphere; below zero for a vacuum.
    pub largest_pressure_difference_kpa: Option<f64>,
    /// Give of the load rings, while the line was fitted, that would hide a leak as large as the
    /// limit.
    pub give_that_hides_the_limit_ml: Option<f64>,
    /// Where the uncertainty comes from, the largest first.
    pub contributions: Vec<Contribution>,
    /// What to know beside the number.
    pub notes: Vec<Note>,
    /// The readings, compensated.
    pub points: Vec<Point>,
    /// The fitted line.
    pub line: Option<Line>,
    /// Is the leak within its limit?
    pub verdict: Verdict,
}

/// Kinds of evidence.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Method {
    /// Pressure and temperature over time.
    PressureChange,
    /// Bubbles under water.
    BubbleImmersion,
    /// Bubbles in a film.
    BubbleFilm,
    /// Filled and left.
    Soak,
}

/// One part of the uncertainty.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Contribution {
    /// What it is.
    pub what: &'static str,
    /// Its standard uncertainty.
    pub standard_uncertainty_pa_m3_per_s: f64,
}

/// One reading, compensated.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Point {
    /// Time since the first reading.
    pub seconds: f64,
    /// Absolute pressure as read.
    pub pressure_kpa: f64,
    /// Absolute pressure at the reference temperature.
    pub compensated_kpa: f64,
    /// Is it part of the fit?
    pub fitted: bool,
}

/// The fitted line of compensated pressure.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Line {
    /// Where it starts.
    pub from_s: f64,
    /// Pressure there.
    pub from_kpa: f64,
    /// Where it ends.
    pub to_s: f64,
    /// Pressure there.
    pub to_kpa: f64,
}

/// What to know beside the number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Note {
    /// The slope was still changing at the end.
    NotSettled,
    /// More gas at the end than at the start.
    GasGained,
    /// The driving pressure fell so far that one rate does not describe it.
    LargeFall,
    /// The test could not have seen a leak as small as the limit.
    TooCoarse,
    /// It was watched for too short a time: a leak as large as the limit may have kept its first
    /// bubble back.
    TooShort,
    /// The pressure was above the seal's limit.
    AbovePressureLimit,
    /// The space was below the atmosphere.
    Vacuum,
    /// The atmosphere was not read.
    AtmosphereAssumed,
    /// Rubber gives: rigid-vessel standards do not cover it.
    RubberGives,
    /// No give was stated, so none is in the uncertainty.
    GiveNotStated,
    /// What bubbles show is remembered, not read in a standard.
    SensitivityFromMemory,
    /// Nobody said how long a soak must last.
    SoakTimeNotStated,
}

impl Note {
    /// What the fitter is told.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::NotSettled => say!("leak-note-not-settled"),
            Self::GasGained => say!("leak-note-gas-gained"),
            Self::LargeFall => say!("leak-note-large-fall"),
            Self::TooCoarse => say!("leak-note-too-coarse"),
            Self::TooShort => say!("leak-note-too-short"),
            Self::AbovePressureLimit => say!("leak-note-above-pressure-limit"),
            Self::Vacuum => say!("leak-note-vacuum"),
            Self::AtmosphereAssumed => say!("leak-note-atmosphere-assumed"),
            Self::RubberGives => say!("leak-note-rubber-gives"),
            Self::GiveNotStated => say!("leak-note-give-not-stated"),
            Self::SensitivityFromMemory => say!("leak-note-sensitivity-from-memory"),
            Self::SoakTimeNotStated => say!("leak-note-soak-time-not-stated"),
        }
    }
}

/// What stands before the test.
#[must_use]
pub fn caution() -> &'static str {
    say!("leak-caution")
}

/// Evaluates a leak test.
///
/// # Errors
/// [`RoomError`]: too few readings, times that go back, pressures or temperatures that can't be,
/// no volume, no time, a limit of zero.
pub fn evaluate(input: &Input) -> Result<Outcome, RoomError> {
    match input {
        Input::PressureChange(test) => pressure::evaluate(test),
        Input::Bubbles(test) => seen::bubbles(test),
        Input::Soak(test) => seen::soak(test),
    }
}
