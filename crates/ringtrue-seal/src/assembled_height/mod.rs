//! Is the ring square in its housing, and at the right height?
//!
//! Heights are read at places round the ring; `theta` runs counter-clockwise seen facing the
//! lapped face, 0 at the paint mark. Height is positive when the lapped face stands proud of the
//! housing face.

//!
//! The mean height and the tilt are those of the least-squares plane
//! `h = h0 + a cos θ + b sin θ`, weighted with the number of rounds at each place. The range is
//! judged as the range of the measured places: each place's true height is its reading plus a
//! normal error of the non-repeating part, so that the range of the true heights has a
//! distribution of its own, which is not normal and which noise pushes up.

mod actions;
mod budget;
mod places;
mod shape;

use ringtrue_metrology::conformity::{self, Levels, Limits, Verdict, range};
use ringtrue_metrology::distribution::{Place as NormalPlace, RangeError, RangeOfNormals};
use ringtrue_metrology::fit::harmonic::Wave;
use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::{Angle, Length, Quantity, in_mm};
use ringtrue_words::say;
use serde::Serialize;

pub use places::place_key;

use crate::RoomError;
use actions::Case;
use budget::Budget;
use places::Spot;
use shape::Shape;

/// Where the formulas come from.
pub const SOURCES: &[Source] = &[
    Source::Published("JCGM 100:2008, H.3 (least squares with its covariance); 5.1.2, 5.2.2"),
    Source::Published("JCGM 106:2012, clause 7 (probability of conformity)"),
    Source::Unverified("ISO 14253-1:2017 (conforms, does not conform, not proven)"),
    Source::Published(
        "range of independent normal heights by the integral over the lowest; for equal ones the \
         d2, d3 constants of ASTM MNL 7",
    ),
    Source::CommonPractice(
        "heights at four or more places 90 deg apart; press through the tool, lift at the load \
         ring",
    ),
];

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
    /// The fit that it belongs to: coefficients of 1, cos θ, sin θ, cos 2θ and sin 2θ. Its first
    /// three differ from the plane's where places are uneven.
    pub second_harmonic_fit_mm: Option<[f64; 5]>,
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
    /// Do rounds differ by more than the gauge explains?
    pub rounds_disagree: bool,
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

/// Judges the heights round one ring.
///
/// # Errors
/// [`RoomError`]: fewer than 4 places, a hole above 150 deg, a place read twice in one round,
/// heights no ring can have, nothing to judge by, or limits that contradict themselves.
pub fn evaluate(input: &Input) -> Result<Outcome, RoomError> {
    check_limits(input)?;
    let spots = places::spots(input)?;
    let budget = budget::budget(&spots, input.uncertainty);
    let shape = shape::shape(&spots, budget.one_reading)?;
    let suspects = shape::suspects(&spots, budget.one_reading, &shape);
    let mut outcome = describe(input, &spots, &budget, &shape);
    outcome.suspects = suspects.iter().map(|index| spots[*index].angle_deg).collect();
    judge_range(input, &spots, &budget, &mut outcome)?;
    judge_mean_height(input, &mut outcome);
    outcome.verdict = [outcome.verdict_range, outcome.verdict_mean_height]
        .into_iter()
        .flatten()
        .max()
        .unwrap_or(Verdict::NotProven);
    let case = Case {
        outcome: &outcome,
        spots: &spots,
        budget: &budget,
        load_ring: input.load_ring,
        tries: input.tries,
        suspects: &suspects,
    };
    outcome.actions = actions::actions(&case);
    Ok(outcome)
}

fn check_limits(input: &Input) -> Result<(), RoomError> {
    let nothing = input.range_limit.is_none()
        && !input.mean_height_limits.is_some_and(|(low, high)| low.is_some() || high.is_some());
    if nothing {
        return Err(RoomError::input(
            say!("height-there-no-limit-judge-heights-by"),
            say!("height-limit-range-1-mm-or-seal"),
        ));
    }
    if let Some(limit) = input.range_limit.filter(|limit| limit.si() <= 0.0) {
        let found = say!("height-range-limit-mm", limit = (limit.si() * 1e3).to_string());
        return Err(RoomError::input(found, say!("height-range-limit-above-zero")));
    }
    if let Some(diameter) = input.measuring_diameter.filter(|diameter| diameter.si() <= 0.0) {
        let found =
            say!("height-measuring-diameter-mm", diameter = (diameter.si() * 1e3).to_string());
        return Err(RoomError::input(found, say!("height-diameter-above-zero")));
    }
    let negative = |length: Length| length.si() < 0.0;
    let below_zero = match input.uncertainty {
        GaugeUncertainty::Stated(u) => negative(u),
        GaugeUncertainty::Gauge { repeating, non_repeating, resolution } => {
            [repeating, non_repeating, resolution].into_iter().any(negative)
        }
        GaugeUncertainty::Unknown => false,
    };
    if below_zero {
        let found = say!("height-standard-uncertainty-below-zero");
        return Err(RoomError::input(
            found,
            say!("height-standard-uncertainty-zero-or-more-wanted"),
        ));
    }
    Ok(())
}

/// Everything but verdicts and actions.
fn describe(input: &Input, spots: &[Spot], budget: &Budget, shape: &Shape) -> Outcome {
    let known = |value: f64| budget.one_reading.map(|_| value);
    let plane = &shape.plane;
    let tilt = plane.first();
    let tilt_mm = 2.0 * tilt.amplitude();
    let tilt_u = known(2.0 * tilt.amplitude_standard_uncertainty());
    let second = shape.second.as_ref().and_then(|fit| fit.second());
    let degrees = |mm: f64| {
        let diameter = input.measuring_diameter?.si() * 1e3;
        Some(libm::atan2(mm, diameter).to_degrees())
    };
    Outcome {
        mean_height_mm: plane.mean(),
        mean_height_standard_uncertainty_mm: known(libm::hypot(
            plane.mean_standard_uncertainty(),
            budget.repeating,
        )),
        range_mm: spread(spots),
        range_standard_uncertainty_mm: None,
        tilt_mm,
        tilt_standard_uncertainty_mm: tilt_u,
        tilt_deg: degrees(tilt_mm),
        tilt_standard_uncertainty_deg: tilt_u.and_then(degrees),
        high_side_deg: direction_deg(&tilt),
        high_side_standard_uncertainty_deg: budget
            .one_reading
            .and_then(|_| tilt.direction().ok())
            .map(|direction| direction.standard_uncertainty_rad.to_degrees()),
        second_harmonic_mm: second.map(|wave| wave.amplitude()),
        second_harmonic_standard_uncertainty_mm: second
            .and_then(|wave| known(wave.amplitude_standard_uncertainty())),
        second_harmonic_fit_mm: shape
            .second
            .as_ref()
            .and_then(|fit| fit.coefficients().try_into().ok()),
        residuals_mm: plane.residuals().to_vec(),
        suspects: Vec::new(),
        range_limit_mm: input.range_limit.map(in_mm),
        probability_conforms: None,
        verdict_range: None,
        mean_height_min_mm: input.mean_height_limits.and_then(|(low, _)| low).map(in_mm),
        mean_height_max_mm: input.mean_height_limits.and_then(|(_, high)| high).map(in_mm),
        probability_mean_height_conforms: None,
        verdict_mean_height: None,
        verdict: Verdict::NotProven,
        actions: Vec::new(),
        places: spots.iter().map(|spot| place(spot, budget, shape)).collect(),
        reading_standard_uncertainty_mm: budget.one_reading,
        uncertainty_basis: budget.basis,
        rounds_disagree: budget.rounds_disagree || !budget.disagreeing.is_empty(),
    }
}

fn place(spot: &Spot, budget: &Budget, shape: &Shape) -> Place {
    Place {
        angle_deg: spot.angle_deg,
        height_mm: spot.height_mm,
        rounds: spot.readings_mm.len() as u32,
        standard_uncertainty_mm: budget.one_reading.map(|u| u / spot.rounds().sqrt()),
        readings_mm: spot.readings_mm.iter().map(|(_, mm)| *mm).collect(),
        plane_mm: shape.plane.at(spot.angle_rad()).0,
    }
}

/// The range of the true heights, against its limit.
fn judge_range(
    input: &Input,
    spots: &[Spot],
    budget: &Budget,
    outcome: &mut Outcome,
) -> Result<(), RoomError> {
    let limit = outcome.range_limit_mm;
    let Some(one_reading) = budget.one_reading else {
        outcome.verdict_range = limit.map(|_| Verdict::NotProven);
        return Ok(());
    };
    let places: Vec<NormalPlace> = spots
        .iter()
        .map(|spot| NormalPlace {
            value: spot.height_mm,
            standard_uncertainty: one_reading / spot.rounds().sqrt(),
        })
        .collect();
    let unfit = |error: RangeError| {
        RoomError::input(error.to_string(), say!("height-finite-heights-uncertainties-wanted"))
    };
    let moments = RangeOfNormals::new(&places).map_err(unfit)?.moments();
    outcome.range_standard_uncertainty_mm = Some(moments.standard_deviation);
    if let Some(limit) = limit {
        let decision = range::judge_range(&places, limit, input.levels).map_err(unfit)?;
        outcome.probability_conforms = Some(decision.probability_conforms);
        outcome.verdict_range = Some(decision.verdict);
    }
    Ok(())
}

fn judge_mean_height(input: &Input, outcome: &mut Outcome) {
    let limits = Limits::new(outcome.mean_height_min_mm, outcome.mean_height_max_mm);
    let Some(limits) = limits else { return };
    let decision = outcome
        .mean_height_standard_uncertainty_mm
        .map(|u| conformity::judge(outcome.mean_height_mm, u, limits, input.levels));
    outcome.probability_mean_height_conforms = decision.map(|d| d.probability_conforms);
    outcome.verdict_mean_height = Some(decision.map_or(Verdict::NotProven, |d| d.verdict));
}

/// Highest minus lowest place.
fn spread(spots: &[Spot]) -> f64 {
    let highest = spots.iter().map(|spot| spot.height_mm).fold(f64::NEG_INFINITY, f64::max);
    let lowest = spots.iter().map(|spot| spot.height_mm).fold(f64::INFINITY, f64::min);
    highest - lowest
}

fn direction_deg(wave: &Wave) -> f64 {
    let degrees = wave.phase_rad().to_degrees();
    if degrees >= 360.0 { 0.0 } else { degrees }
}

#[cfg(test)]
mod tests;
