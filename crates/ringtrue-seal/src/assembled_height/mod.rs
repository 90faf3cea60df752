//! Is the ring square in its housing, and at the right height?
//!
//! Heights are read at places round the ring; `theta` runs counter-clockwise seen facing the
//! lapped face, 0 at the paint mark. Height is positive when the lapped face stands proud of the
//! housing face.

use ringtrue_metrology::conformity::{Levels, Verdict};
use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::{Angle, Length};
use serde::Serialize;

/// Where the formulas come from.
pub const SOURCES: &[Source] = &[];

/// Readings round one ring, the limits and what is known of the gauge.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// The readings as taken.
    pub readings: Vec<Reading>,
    /// Largest range that conforms.
    pub range_limit: Option<Length>,
    /// Smallest and largest mean height that conform.
    pub mean_height_limits: Option<(Option<Length>, Option<Length>)>,
    /// Diameter of the circle on which the heights are read.
    pub measuring_diameter: Option<Length>,
    /// What is known of the gauge.
    pub uncertainty: GaugeUncertainty,
    /// What carries the ring: it decides how an uneven height is corrected.
    pub load_ring: LoadRingKind,
    /// Probabilities at which verdicts are drawn.
    pub levels: Levels,
    /// Which try this is, from 1, and how many there may be before parts are replaced.
    pub tries: Option<Tries>,
}

/// One reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Where.
    pub angle: Angle,
    /// Height of the lapped face over the housing face.
    pub height: Length,
    /// Which round it belongs to; 1 where there is but one.
    pub round: u32,
}

/// What is known of the uncertainty of one reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum GaugeUncertainty {
    /// From a gauge's definition.
    Gauge {
        /// Standard uncertainty that repeats in every reading.
        repeating: Length,
        /// Standard uncertainty that does not, without the resolution.
        non_repeating: Length,
        /// Smallest step that the gauge shows.
        resolution: Length,
    },
    /// Stated for these readings: the standard uncertainty of the non-repeating part.
    Stated(Length),
    /// Nothing is stated: only the rounds can tell.
    Unknown,
}

/// What carries the ring.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LoadRingKind {
    /// A toric: pressed down through the tool, lifted by the toric.
    Toric,
    /// A conical washer: seated again, not pushed and pulled.
    ConicalWasher,
    /// Not known: nothing but the limit was given.
    Unknown,
}

/// Which try at one half this is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tries {
    /// This try, from 1.
    pub this: u32,
    /// Tries before parts are replaced.
    pub most: u32,
}

/// What the readings say. Heights in mm, angles in degrees.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outcome {
    /// Height of the least-squares plane at the middle, h0.
    pub mean_height_mm: f64,
    /// Its standard uncertainty, the repeating part of the gauge included.
    pub mean_height_standard_uncertainty_mm: Option<f64>,
    /// Highest minus lowest place.
    pub range_mm: f64,
    /// Standard uncertainty of the range.
    pub range_standard_uncertainty_mm: Option<f64>,
    /// Peak-to-peak of the plane round the measuring circle, 2 √(a² + b²).
    pub tilt_mm: f64,
    /// Its standard uncertainty.
    pub tilt_standard_uncertainty_mm: Option<f64>,
    /// The tilt as an angle, where the measuring diameter is known.
    pub tilt_deg: Option<f64>,
    /// Its standard uncertainty.
    pub tilt_standard_uncertainty_deg: Option<f64>,
    /// Direction of the plane's highest point, atan2(b, a), in [0, 360).
    pub high_side_deg: f64,
    /// Its standard uncertainty; null where the tilt is not resolved.
    pub high_side_standard_uncertainty_deg: Option<f64>,
    /// Amplitude of the second harmonic, where six or more places allow it.
    pub second_harmonic_mm: Option<f64>,
    /// Its standard uncertainty.
    pub second_harmonic_standard_uncertainty_mm: Option<f64>,
    /// Residual from the plane at each place, in the order of `places`.
    pub residuals_mm: Vec<f64>,
    /// Angles of the places that stand off the fitted shape by more than their uncertainty
    /// explains: a suspected bulge or twist.
    pub suspects: Vec<f64>,
    /// Limit of the range.
    pub range_limit_mm: Option<f64>,
    /// Probability that the true range of the measured places is within its limit.
    pub probability_conforms: Option<f64>,
    /// On the range.
    pub verdict_range: Option<Verdict>,
    /// Smallest mean height that conforms.
    pub mean_height_min_mm: Option<f64>,
    /// Largest mean height that conforms.
    pub mean_height_max_mm: Option<f64>,
    /// Probability that the mean height is within its limits.
    pub probability_mean_height_conforms: Option<f64>,
    /// On the mean height, where a limit is given.
    pub verdict_mean_height: Option<Verdict>,
    /// The worse of those that apply.
    pub verdict: Verdict,
    /// What to do, the first thing first; empty when there is nothing to do.
    pub actions: Vec<Action>,
    /// The places, in the order in which they were first read.
    pub places: Vec<Place>,
    /// Standard uncertainty of one reading that was used, the non-repeating part.
    pub reading_standard_uncertainty_mm: Option<f64>,
    /// Where that came from.
    pub uncertainty_basis: UncertaintyBasis,
    /// What a reader must know besides: rounds that disagree, a tilt that the places missed.
    pub remarks: Vec<String>,
}

/// One place round the ring.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Place {
    /// Where, in [0, 360).
    pub angle_deg: f64,
    /// Mean of its rounds.
    pub height_mm: f64,
    /// Number of rounds.
    pub rounds: u32,
    /// Standard uncertainty of the mean, the non-repeating part.
    pub standard_uncertainty_mm: Option<f64>,
    /// Each round as read, by round number.
    pub readings_mm: Vec<f64>,
    /// Height of the fitted plane here.
    pub plane_mm: f64,
}

/// Where the standard uncertainty of a reading came from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum UncertaintyBasis {
    /// The gauge's definition.
    Gauge,
    /// Stated with the readings.
    Stated,
    /// Estimated from the rounds.
    Rounds,
    /// Nothing to go by: no verdict can be proven.
    None,
}

/// One thing to do.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Action {
    /// What.
    #[serde(rename = "do")]
    pub deed: Deed,
    /// Where, in [0, 360), where it has a place.
    pub angle_deg: Option<f64>,
    /// By about how much, where it has an amount.
    pub amount_mm: Option<f64>,
    /// Why, in one sentence to the fitter.
    pub why: String,
}

/// Things to do with a ring that is not yet right.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Deed {
    /// Press the ring down through the installing tool.
    Press,
    /// Lift at the load ring with the fingers, never at the ring.
    Lift,
    /// Read again.
    MeasureAgain,
    /// Take the half out and start again.
    TakeOut,
}
