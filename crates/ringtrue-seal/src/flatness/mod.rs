//! Is the lapped face flat?
//!
//! An optical flat on the face shows dark bands, one for every half wavelength of air gap
//! (`λ/(2 cos θ)` seen at θ from the normal). Three ways to read them:
//!
//! ```text
//! bends   each azimuth: bend a over spacing b of the bands, F(φ) = a/b bands
//! closed  rings: their number between the middle and the edge
//! orders  band orders at places round a narrow ring; the wedge (best plane) is taken off
//! ```
//!
//! A band marks one height of the gap. Under a wedge that opens with y over a surface that falls
//! off as x² from its middle, `gap = w y + c x²`, a band is `y = (g − c x²)/w`: its ends bend
//! towards the line of contact where the face is a crown (c > 0), away from it where it is a dish.
//! Along each azimuth a face of second order has the bend `F(φ) = F0 + F2 cos 2(φ − ψ)`: all of
//! one sign is a crown or a dish, both signs a saddle; the flatness is the spread of all bends
//! and zero, the middle.
//!
//! Limits of validity: flat and face at one temperature, the flat's own error left out, bands read
//! along a line through the middle of the face; a narrow ring is read by orders. Dust makes a
//! wedge, which does not count.

mod actions;
mod bands;
mod shape;

use ringtrue_metrology::conformity::{Levels, Verdict};
use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::{Angle, Length};
use serde::Serialize;

pub use bands::{LightSource, band_um};

use crate::RoomError;

/// Where the formulas come from.
pub const SOURCES: &[Source] = &[
    Source::Unverified("D. Malacara, Optical Shop Testing, Newton and Fizeau interferometers"),
    Source::Unverified("M. Born, E. Wolf, Principles of Optics, 7.5.1 (path difference 2 t cos)"),
    Source::Published("ISO 7944 (587.56 nm and 546.07 nm), as the reference table cites it"),
    Source::Unverified("sodium D lines, mean 589.29 nm (standard spectral tables)"),
    Source::Unverified("ISO 12781-1 (peak to valley from the least-squares plane)"),
    Source::Published("JCGM 106:2012, clause 7 (probability of conformity)"),
];

/// What was seen and what it is judged by.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// The bands.
    pub seen: Seen,
    /// The light.
    pub source: LightSource,
    /// Angle of view from the normal.
    pub view: Angle,
    /// Largest flatness deviation that conforms.
    pub limit: Option<FlatnessLimit>,
    /// Standard uncertainty of one reading.
    pub uncertainty: ReadingUncertainty,
    /// Probabilities at which verdicts are drawn.
    pub levels: Levels,
}

/// What was seen.
#[derive(Debug, Clone, PartialEq)]
pub enum Seen {
    /// Bends of the bands along one or several azimuths.
    Bends(Vec<Bend>),
    /// Closed bands.
    Closed {
        /// How many between the middle and the edge; halves and tenths count.
        bands: f64,
        /// What pressing at the edge showed.
        pressed: Pressed,
    },
    /// Band orders at places round a narrow ring.
    Orders(Vec<Order>),
}

/// The bend of the bands along one azimuth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bend {
    /// Azimuth of the line along which the band lies; 180 deg on is the same line.
    pub azimuth: Angle,
    /// How far, in bands.
    pub amount: BendAmount,
}

/// How far a band bends; positive where its ends bend towards the line of contact (high in the
/// middle).
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum BendAmount {
    /// Bend and spacing, as measured on the bands.
    Measured {
        /// From the line through the band's ends to its middle.
        bend: Length,
        /// From band to band.
        spacing: Length,
    },
    /// In bands, as judged by eye.
    Bands(f64),
}

/// One band order round a ring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Order {
    /// Where.
    pub angle: Angle,
    /// Number of the band there; growing with the gap.
    pub order: f64,
}

/// What pressing at the edge showed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pressed {
    /// Bands moved towards the pressed place: a crown (from memory; try it on a known part).
    TowardsPressure,
    /// Bands moved away from it, or the rings stayed about the middle: a dish.
    AwayFromPressure,
    /// It was not tried.
    NotTried,
}

/// A limit of flatness.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum FlatnessLimit {
    /// In bands of the light that is used.
    Bands(f64),
    /// As a length.
    Length(Length),
}

/// Standard uncertainty of one reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ReadingUncertainty {
    /// Of the bend, the count or the order, in bands.
    Bands(f64),
    /// Of a measured bend and of a measured spacing, each.
    Length(Length),
    /// Nothing is stated: nothing can be proven.
    Unknown,
}

/// What the bands say.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outcome {
    /// The light.
    pub source: &'static str,
    /// Its wavelength.
    pub wavelength_nm: f64,
    /// Height of one band, seen as it was.
    pub band_um: f64,
    /// Flatness deviation, peak to valley, in bands.
    pub flatness_bands: f64,
    /// The same as a length.
    pub flatness_um: f64,
    /// Its standard uncertainty.
    pub standard_uncertainty_bands: Option<f64>,
    /// The same as a length.
    pub standard_uncertainty_um: Option<f64>,
    /// What the face looks like.
    pub shape: Shape,
    /// Is the shape told with the verdict's probability, or only the likelier?
    pub shape_resolved: bool,
    /// Mean bend F0, where azimuths were read.
    pub mean_bend_bands: Option<f64>,
    /// Second wave round the face: of the bends by azimuth (three or more), or of the orders (six
    /// or more).
    pub second_harmonic_bands: Option<f64>,
    /// Direction of its first crest, in [0, 180).
    pub second_harmonic_crest_deg: Option<f64>,
    /// Largest deviation that conforms.
    pub limit_bands: Option<f64>,
    /// The same as a length.
    pub limit_um: Option<f64>,
    /// Probability that the flatness keeps its limit.
    pub probability_conforms: Option<f64>,
    /// On the flatness; not proven without a limit.
    pub verdict: Verdict,
    /// What to do, the first thing first.
    pub actions: Vec<String>,
    /// Each reading.
    pub readings: Vec<Shown>,
}

/// One reading as it was used.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Shown {
    /// Azimuth or place; null for closed bands.
    pub angle_deg: Option<f64>,
    /// Bend (signed), count or order, in bands.
    pub bands: f64,
    /// Its standard uncertainty.
    pub standard_uncertainty_bands: Option<f64>,
    /// For orders, height over the best plane: a wider gap is lower.
    pub height_bands: Option<f64>,
}

/// What a face looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Shape {
    /// High in the middle.
    Crown,
    /// Low in the middle.
    Dish,
    /// High along one azimuth, low along another.
    Saddle,
    /// Straight bands.
    Flat,
    /// Closed bands and nobody pressed: crown or dish.
    CrownOrDish,
    /// Waves of a higher order round the ring.
    Wavy,
}

/// Judges the flatness of a lapped face.
///
/// # Errors
/// [`RoomError`]: no reading, a spacing of zero, a view at 80 degrees or more, numbers no one
/// counts, a limit that is not above zero, an uncertainty of another kind than the readings.
pub fn evaluate(input: &Input) -> Result<Outcome, RoomError> {
    let band = bands::checked_band_um(input)?;
    let seen = shape::read(input)?;
    let mut outcome = shape::describe(input, band, &seen)?;
    outcome.actions = actions::actions(input, &outcome);
    Ok(outcome)
}

#[cfg(test)]
mod tests;
