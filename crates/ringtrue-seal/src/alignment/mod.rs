//! Are the two housings concentric and square to each other?
//!
//! An indicator is swept round the rim (outside), the bore (inside) or the face of a housing. Its
//! readings are one wave round the circle: its amplitude is the eccentricity, or with the sweep's
//! diameter the angle; what is left is out-of-round and no matter of alignment.
//!
//! ```text
//! rim    v(θ) = v0 + e cos(θ − φ)            a pure offset e shows 2 e between two readings
//! bore   v(θ) = v0 − e cos(θ − φ)            the plunger points outward
//! face   v(θ) = v0 + (D/2) tan β cos(θ − ψ)  D swept diameter, ψ where the face stands nearest
//! ```
//!
//! v grows as the plunger is pressed in. Angles run counter-clockwise seen facing the face of half
//! b, 0 at the paint mark, the same marks for both housings. Either one housing is swept by an
//! indicator that the other one's axis carries, or both by an indicator on one axis; then the
//! centre of half b is given relative to half a, and sag, which is the same in both, cancels.
//!
//! Sag turns a rigid bracket's reading by `s (1 − cos(θ − top))/2`, with s read at the bottom of
//! a rigid pipe, zero at its top.

mod actions;
mod sweep;
mod tip;

use ringtrue_metrology::conformity::distance::{self, PlanePoint};
use ringtrue_metrology::conformity::{Levels, Verdict};
use ringtrue_metrology::fit::harmonic::Wave;
use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::{Angle, Length, Quantity, in_mm};
use ringtrue_words::say;
use serde::Serialize;

pub use tip::{EdgeBasis, TipGeometry, TipHalf, TipLimits, tip_limits};

use crate::RoomError;
use crate::definition::joint::Half;
use sweep::Swept;

/// Where the formulas come from.
pub const SOURCES: &[Source] = &[
    Source::CommonPractice(
        "rim and face sweeps: reading e cos(theta - phi), angle TIR / D, sag (1 - cos theta) / 2",
    ),
    Source::Published("JCGM 100:2008, H.3 (least squares with its covariance); 5.1.2, 5.2.2"),
    Source::Published("JCGM 106:2012, clause 7 (probability of conformity)"),
    Source::Unverified("ISO 1101 (the zone of concentricity and coaxiality is a diameter, 2 e)"),
    Source::CommonPractice("tip limit: plane geometry of rigid parts, as the handbook derives it"),
];

/// Readings round one or both housings and what they are judged by.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// The readings as taken.
    pub readings: Vec<Reading>,
    /// Which way the indicator counts.
    pub sense: IndicatorSense,
    /// What the bracket sags, where it does.
    pub sag: Option<Sag>,
    /// Diameter of the face sweep, where the readings do not state it.
    pub face_diameter: Option<Length>,
    /// Largest distance of the two axes.
    pub eccentricity_limit: Option<Length>,
    /// Largest angle of the two axes.
    pub tip_limit: Option<Angle>,
    /// Sizes that limit a tip, where they are known.
    pub geometry: Option<TipGeometry>,
    /// What is known of the indicator.
    pub uncertainty: IndicatorUncertainty,
    /// Which half can be moved; the one that is swept where it is left out.
    pub moves: Option<Half>,
    /// Probabilities at which verdicts are drawn.
    pub levels: Levels,
}

/// One reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// On which housing.
    pub half: Half,
    /// On which of its surfaces.
    pub surface: Surface,
    /// Where.
    pub angle: Angle,
    /// What the indicator showed.
    pub value: Length,
    /// What the bracket showed at this angle on a rigid pipe, where it was read.
    pub sag: Option<Length>,
    /// Diameter of a face sweep, where it is stated here.
    pub diameter: Option<Length>,
}

/// Surfaces that an indicator is swept on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Surface {
    /// An outside diameter: the plunger points inward.
    Rim,
    /// An inside diameter: the plunger points outward.
    Bore,
    /// The housing face: the plunger points along the axis.
    Face,
}

/// Which way an indicator counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum IndicatorSense {
    /// Pressing the plunger in counts up.
    InCountsUp,
    /// Letting the plunger out counts up.
    OutCountsUp,
}

/// What a bracket sags.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sag {
    /// Reading at the bottom of a rigid pipe swept from outside, zero at its top.
    pub at_bottom: Length,
    /// Angle of the top.
    pub top: Angle,
}

/// What is known of the uncertainty of one reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum IndicatorUncertainty {
    /// From a gauge's definition: what repeats in every reading cancels round a sweep.
    Gauge {
        /// Standard uncertainty that differs from reading to reading, without the resolution.
        non_repeating: Length,
        /// Smallest step that it shows.
        resolution: Length,
    },
    /// Stated for these readings.
    Stated(Length),
    /// Nothing is stated: only what is left after the fit can tell.
    Unknown,
}

/// What the sweeps say.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outcome {
    /// Whose position is given.
    pub of_half: Half,
    /// Relative to what.
    pub relative_to: Reference,
    /// Distance of the axes; null without a rim or bore sweep.
    pub eccentricity_mm: Option<f64>,
    /// Its standard uncertainty.
    pub eccentricity_standard_uncertainty_mm: Option<f64>,
    /// Towards where the half stands off, in [0, 360).
    pub eccentricity_direction_deg: Option<f64>,
    /// Its standard uncertainty; null where the eccentricity is not resolved.
    pub eccentricity_direction_standard_uncertainty_deg: Option<f64>,
    /// Diameter of the ISO 1101 zone: twice the eccentricity.
    pub coaxiality_zone_mm: Option<f64>,
    /// Angle of the axes; null without a face sweep.
    pub angle_mrad: Option<f64>,
    /// Its standard uncertainty.
    pub angle_standard_uncertainty_mrad: Option<f64>,
    /// Where the faces stand nearest to each other, in [0, 360).
    pub angle_direction_deg: Option<f64>,
    /// Its standard uncertainty; null where the angle is not resolved.
    pub angle_direction_standard_uncertainty_deg: Option<f64>,
    /// What the sweep of a rim or bore leaves after its first wave, highest minus lowest; the
    /// larger where two were swept.
    pub out_of_round_mm: Option<f64>,
    /// Its standard uncertainty.
    pub out_of_round_standard_uncertainty_mm: Option<f64>,
    /// The same for the face: out of flat.
    pub out_of_flat_mm: Option<f64>,
    /// The largest tip that the geometry allows; null where no geometry was given.
    pub tip_limit_deg: Option<f64>,
    /// What makes it, each limit by itself.
    pub tip_limits: Option<TipLimits>,
    /// Largest distance of the axes that conforms.
    pub eccentricity_limit_mm: Option<f64>,
    /// Probability that the eccentricity keeps its limit.
    pub probability_eccentricity_conforms: Option<f64>,
    /// On the eccentricity, where there is a limit.
    pub verdict_eccentricity: Option<Verdict>,
    /// Largest angle that conforms.
    pub angle_limit_mrad: Option<f64>,
    /// Where that comes from.
    pub angle_limit_basis: Option<AngleLimitBasis>,
    /// Probability that the angle keeps its limit.
    pub probability_angle_conforms: Option<f64>,
    /// On the angle, where there is a limit.
    pub verdict_angle: Option<Verdict>,
    /// The worse of both; not proven where there is nothing to judge by.
    pub verdict: Verdict,
    /// What to do, the first thing first.
    pub actions: Vec<Action>,
    /// Each sweep by itself.
    pub sweeps: Vec<Sweep>,
    /// Standard uncertainty of one reading that was used.
    pub reading_standard_uncertainty_mm: Option<f64>,
    /// Where that came from.
    pub uncertainty_basis: UncertaintyBasis,
}

/// What a position is relative to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Reference {
    /// The other half, which was swept too.
    OtherHalf,
    /// The axis that the indicator turns on.
    IndicatorAxis,
}

/// Where the limit of the angle comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum AngleLimitBasis {
    /// Stated: by the seal or with the readings.
    Stated,
    /// None is stated: what the geometry allows.
    Geometry,
}

/// Where the standard uncertainty of a reading came from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum UncertaintyBasis {
    /// The gauge's definition.
    Gauge,
    /// Stated with the readings.
    Stated,
    /// What the sweeps leave after their waves; out-of-round is in it, so it is rather too large.
    Residuals,
    /// Nothing to go by: no verdict can be proven.
    None,
}

/// One sweep.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Sweep {
    /// On which housing.
    pub half: Half,
    /// On which surface.
    pub surface: Surface,
    /// Angles of the readings, in [0, 360), in the order in which they were taken.
    pub angles_deg: Vec<f64>,
    /// Readings, sag taken off, counted as the plunger is pressed in; of a bore negated, so that
    /// they are largest where the housing stands off.
    pub values_mm: Vec<f64>,
    /// Mean of the fitted wave.
    pub mean_mm: f64,
    /// Amplitude of the first wave.
    pub first_mm: f64,
    /// Its direction, in [0, 360).
    pub first_direction_deg: f64,
    /// Amplitude of the second wave, where six or more places allow it.
    pub second_mm: Option<f64>,
    /// Direction of its first crest, in [0, 180).
    pub second_crest_deg: Option<f64>,
    /// What the first wave leaves at each reading.
    pub residuals_mm: Vec<f64>,
    /// Highest minus lowest of what is left.
    pub left_mm: f64,
    /// Its standard uncertainty.
    pub left_standard_uncertainty_mm: Option<f64>,
    /// Is more left than the readings' uncertainty explains?
    pub out_of_form: bool,
    /// Diameter of a face sweep.
    pub diameter_mm: Option<f64>,
    /// Places that were read more than once and differ by more than the uncertainty explains.
    pub not_repeating_deg: Vec<f64>,
}

/// One thing to do.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Action {
    /// What.
    #[serde(rename = "do")]
    pub deed: Deed,
    /// Which half, where it concerns one.
    pub half: Option<Half>,
    /// Towards where or where, in [0, 360), where it has a place.
    pub angle_deg: Option<f64>,
    /// By how much, where it has an amount.
    pub amount_mm: Option<f64>,
    /// Why, in one sentence to the fitter.
    pub why: String,
}

/// Things to do with housings that are not yet in line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Deed {
    /// Move the half sideways, towards the angle.
    Move,
    /// Open the gap between the faces at the angle, by shims or mounts.
    OpenGap,
    /// Sweep again, or what was not swept.
    MeasureAgain,
    /// Look at the surface: it is out of round or flat.
    LookAtSurface,
}

/// Judges the sweeps of one joint.
///
/// # Errors
/// [`RoomError`]: fewer than 4 places in a sweep, a hole above 150 deg, rim and bore of one half
/// mixed, a face without its diameter, one half's surface without the other's, sag stated twice,
/// limits or uncertainties below zero.
pub fn evaluate(input: &Input) -> Result<Outcome, RoomError> {
    check(input)?;
    let swept = sweep::sweeps(input)?;
    let tips = input.geometry.as_ref().map(tip_limits).transpose()?;
    let mut outcome = describe(input, &swept, tips);
    judge(input, &swept, &mut outcome);
    outcome.actions = actions::actions(input, &outcome);
    Ok(outcome)
}

fn check(input: &Input) -> Result<(), RoomError> {
    let refuse = |found: String, fits: &str| Err(RoomError::input(found, fits));
    if let Some(limit) = input.eccentricity_limit.filter(|limit| limit.si() <= 0.0) {
        let found = say!("align-eccentricity-limit-mm", limit = in_mm(limit).to_string());
        return refuse(found, say!("align-limit-above-zero-wanted"));
    }
    if let Some(limit) = input.tip_limit.filter(|limit| limit.si() <= 0.0) {
        let found = say!("align-tip-limit-deg", limit = limit.si().to_degrees().to_string());
        return refuse(found, say!("align-limit-above-zero-wanted"));
    }
    let below_zero = match input.uncertainty {
        IndicatorUncertainty::Stated(u) => u.si() < 0.0,
        IndicatorUncertainty::Gauge { non_repeating, resolution } => {
            non_repeating.si() < 0.0 || resolution.si() < 0.0
        }
        IndicatorUncertainty::Unknown => false,
    };
    if below_zero {
        let found = say!("align-standard-uncertainty-below-zero").to_owned();
        return refuse(found, say!("align-standard-uncertainty-zero-or-more-wanted"));
    }
    if input.sag.is_some() && input.readings.iter().any(|reading| reading.sag.is_some()) {
        let found = say!("align-sag-stated-twice-with-readings-beside").to_owned();
        return refuse(found, say!("align-state-once"));
    }
    Ok(())
}

/// Everything but verdicts and actions.
fn describe(input: &Input, swept: &Swept, tips: Option<TipLimits>) -> Outcome {
    let known = |value: f64| swept.one_reading.map(|_| value);
    let (offset, tilt) = (swept.offset.as_ref(), swept.tilt.as_ref());
    let direction_u =
        |wave: &Wave| wave.direction().ok().map(|d| d.standard_uncertainty_rad.to_degrees());
    let (out_of_round, out_of_round_u) = swept.left(&[Surface::Rim, Surface::Bore]).unzip();
    let stated = input.tip_limit.map(|limit| (limit.si() * 1e3, AngleLimitBasis::Stated));
    let by_geometry =
        tips.as_ref().map(|tips| (tips.smallest_deg.to_radians() * 1e3, AngleLimitBasis::Geometry));
    let (angle_limit_mrad, angle_limit_basis) = stated.or(by_geometry).unzip();
    Outcome {
        of_half: swept.of,
        relative_to: swept.relative_to,
        eccentricity_mm: offset.map(Wave::amplitude),
        eccentricity_standard_uncertainty_mm: offset
            .and_then(|wave| known(wave.amplitude_standard_uncertainty())),
        eccentricity_direction_deg: offset.map(direction_deg),
        eccentricity_direction_standard_uncertainty_deg: swept
            .one_reading
            .and_then(|_| direction_u(offset?)),
        coaxiality_zone_mm: offset.map(|wave| 2.0 * wave.amplitude()),
        angle_mrad: tilt.map(Wave::amplitude),
        angle_standard_uncertainty_mrad: tilt
            .and_then(|wave| known(wave.amplitude_standard_uncertainty())),
        angle_direction_deg: tilt.map(direction_deg),
        angle_direction_standard_uncertainty_deg: swept
            .one_reading
            .and_then(|_| direction_u(tilt?)),
        out_of_round_mm: out_of_round,
        out_of_round_standard_uncertainty_mm: out_of_round_u.flatten(),
        out_of_flat_mm: swept.left(&[Surface::Face]).map(|(left, _)| left),
        tip_limit_deg: tips.as_ref().map(|tips| tips.smallest_deg),
        tip_limits: tips,
        eccentricity_limit_mm: input.eccentricity_limit.map(in_mm),
        probability_eccentricity_conforms: None,
        verdict_eccentricity: None,
        angle_limit_mrad,
        angle_limit_basis,
        probability_angle_conforms: None,
        verdict_angle: None,
        verdict: Verdict::NotProven,
        actions: Vec::new(),
        sweeps: swept.sweeps.clone(),
        reading_standard_uncertainty_mm: swept.one_reading,
        uncertainty_basis: swept.basis,
    }
}

fn judge(input: &Input, swept: &Swept, outcome: &mut Outcome) {
    let decide = |wave: Option<&Wave>, limit: f64| {
        let (Some(wave), Some(_)) = (wave, swept.one_reading) else {
            return (None, Verdict::NotProven);
        };
        let point = PlanePoint {
            x: wave.cosine,
            y: wave.sine,
            variance_x: wave.variance_cosine,
            variance_y: wave.variance_sine,
            covariance: wave.covariance,
        };
        let decision = distance::judge(point, limit, input.levels);
        (Some(decision.probability_conforms), decision.verdict)
    };
    if let Some(limit) = outcome.eccentricity_limit_mm {
        let (probability, verdict) = decide(swept.offset.as_ref(), limit);
        outcome.probability_eccentricity_conforms = probability;
        outcome.verdict_eccentricity = Some(verdict);
    }
    if let Some(limit) = outcome.angle_limit_mrad {
        let (probability, verdict) = decide(swept.tilt.as_ref(), limit);
        outcome.probability_angle_conforms = probability;
        outcome.verdict_angle = Some(verdict);
    }
    outcome.verdict = [outcome.verdict_eccentricity, outcome.verdict_angle]
        .into_iter()
        .flatten()
        .max()
        .unwrap_or(Verdict::NotProven);
}

fn direction_deg(wave: &Wave) -> f64 {
    let degrees = wave.phase_rad().to_degrees();
    if degrees >= 360.0 { 0.0 } else { degrees }
}

/// A length in mm, the rounding of metres taken off again.
#[cfg(test)]
mod tests;
