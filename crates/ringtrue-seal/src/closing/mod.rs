//! How are the halves drawn together, and did they close evenly?
//!
//! Two parts. **Before**: an even pull-down order for the bolts, in equal steps, with the closing
//! force over the gap where the load curve is known. It is an order and shares of the way only:
//! the torque comes from the machine's own job sheet. **After**: feeler readings round the closed
//! joint, a plane through them, and so gap, parallelism and face load all round.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | g(θ) | gap, `g0 + a cos θ + b sin θ` by least squares | mm |
//! | out of parallel | widest less narrowest of the plane, `2 sqrt(a² + b²)` | mm |
//! | tilt | out of parallel over the diameter on which the feelers went in | mrad |
//! | face load | the load curve read at g(θ), by straight lines between its points | N/mm |
//!
//! The verdict asks whether the gap keeps its limits all round: the narrowest and the widest of the
//! plane, and of the readings, since a plane can hide a place. Each is judged with its own
//! uncertainty, and the worst decides. Angles run counter-clockwise facing half b.
//!
//! Valid for three places or more, and a tilt that is small: the face load at a place is that of a
//! joint closed square to the gap there.

mod actions;
mod feeler;
mod order;
#[cfg(test)]
mod tests;

use ringtrue_metrology::conformity::{Levels, Verdict};
use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::{Angle, Length, Quantity, in_mm};
use ringtrue_words::say;
use serde::Serialize;

pub use order::{PullDown, Step};

use crate::RoomError;
use crate::face_load::{GapPoint, JointOutcome};

/// Where the method comes from.
pub const SOURCES: &[Source] = &[
    Source::Published("JCGM 100:2008, H.3 (least squares and its covariance)"),
    Source::Published("JCGM 100:2008, 4.3.7 (a resolution step is a uniform distribution)"),
    Source::Published("JCGM 106:2012, clause 7 (probability of conformity)"),
    Source::CommonPractice("star order of bolts: opposite first, then across, then between"),
];

/// What stands before the step.
#[must_use]
pub fn caution() -> &'static str {
    say!("close-caution")
}

/// Fewest places that fix a plane.
pub const FEWEST_PLACES: usize = 3;
/// Most bolts that are ordered.
pub const MOST_BOLTS: u32 = 120;
/// Steps in which bolts are drawn where nothing is stated: common practice, no source.
pub const STEPS: u32 = 4;
/// Most steps.
pub const MOST_STEPS: u32 = 20;

/// A joint that is closed.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// Feeler readings; none before it is closed.
    pub readings: Vec<Reading>,
    /// Smallest and largest gap that conform.
    pub gap_limits: (Option<Length>, Option<Length>),
    /// Diameter on which the feelers went in, where it is known.
    pub diameter: Option<Length>,
    /// What one reading is good to.
    pub uncertainty: FeelerUncertainty,
    /// Number of bolts, evenly round.
    pub bolts: Option<u32>,
    /// Equal steps in which they are drawn.
    pub steps: u32,
    /// The load curve, where it was worked out.
    pub load: Option<Load>,
    /// Probabilities at which verdicts are drawn.
    pub levels: Levels,
}

/// One feeler reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Where.
    pub angle: Angle,
    /// Housing face to housing face.
    pub gap: Length,
}

/// What is known of the feelers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum FeelerUncertainty {
    /// A stated standard uncertainty of one reading.
    Stated(Length),
    /// From the gauge's file.
    Gauge {
        /// The part that is the same in every reading.
        repeating: Length,
        /// The part that differs from reading to reading.
        non_repeating: Length,
        /// Step of the display, or between two blades.
        resolution: Length,
    },
    /// Nothing is stated: nothing can be proven.
    Unknown,
}

/// What the load rings give over the gap.
#[derive(Debug, Clone, PartialEq)]
pub struct Load {
    /// Face load and force over the gap, the gap falling from the first touch.
    pub curve: Vec<GapPoint>,
    /// Standard uncertainty as a share of the load.
    pub relative_uncertainty: Option<f64>,
    /// Nominal gap, to which the bolts draw.
    pub nominal_gap_mm: Option<f64>,
}

impl Load {
    /// Of a joint whose loads were worked out.
    #[must_use]
    pub fn of(joint: &JointOutcome) -> Self {
        let nominal = joint.at_gap.nominal.as_ref();
        Self {
            curve: joint.curve.clone(),
            relative_uncertainty: nominal
                .filter(|load| load.face_load_n_per_mm > 0.0)
                .map(|load| load.standard_uncertainty_n_per_mm / load.face_load_n_per_mm),
            nominal_gap_mm: nominal.map(|load| load.gap_mm),
        }
    }

    /// Face load (N/mm) and force (N) at a gap; zero beyond the first touch, `None` below the
    /// smallest gap that was solved.
    #[must_use]
    pub fn at(&self, gap_mm: f64) -> Option<(f64, f64)> {
        let (first, last) = (self.curve.first()?, self.curve.last()?);
        if gap_mm >= first.gap_mm {
            return Some((0.0, 0.0));
        }
        if gap_mm < last.gap_mm {
            return None;
        }
        self.curve.windows(2).find_map(|pair| {
            let [wide, narrow] = pair else { return None };
            let inside = (narrow.gap_mm..=wide.gap_mm).contains(&gap_mm);
            let width = wide.gap_mm - narrow.gap_mm;
            let t = if width > 0.0 { (wide.gap_mm - gap_mm) / width } else { 0.0 };
            let between = |a: f64, b: f64| a + t * (b - a);
            inside.then(|| {
                (
                    between(wide.face_load_n_per_mm, narrow.face_load_n_per_mm),
                    between(wide.force_n, narrow.force_n),
                )
            })
        })
    }
}

/// How the joint closes, and how it closed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outcome {
    /// The gap all round, where feelers were read.
    pub gap: Option<GapRound>,
    /// The pull-down order, where the number of bolts is known.
    pub pull_down: Option<PullDown>,
    /// Force that closes the joint, over the gap; empty where the load curve is not known.
    pub closing_force: Vec<ClosingForce>,
    /// Smallest gap that conforms.
    pub gap_limit_min_mm: Option<f64>,
    /// Largest gap that conforms.
    pub gap_limit_max_mm: Option<f64>,
    /// What to do, the first thing first.
    pub actions: Vec<String>,
    /// On the gap all round; not proven where nothing was read or no limit is stated.
    pub verdict: Verdict,
}

/// The gap round the closed joint.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GapRound {
    /// Mean gap.
    pub mean_mm: f64,
    /// Its standard uncertainty.
    pub mean_standard_uncertainty_mm: Option<f64>,
    /// Narrowest of the plane, and where.
    pub narrowest: Extreme,
    /// Widest of the plane, and where.
    pub widest: Extreme,
    /// Widest less narrowest of the plane.
    pub out_of_parallel_mm: f64,
    /// Its standard uncertainty.
    pub out_of_parallel_standard_uncertainty_mm: Option<f64>,
    /// Standard uncertainty of where it is widest; null where the tilt does not stand out of the
    /// readings' uncertainty.
    pub direction_standard_uncertainty_deg: Option<f64>,
    /// Tilt of the faces to each other, where the diameter is known.
    pub tilt_mrad: Option<f64>,
    /// Its standard uncertainty.
    pub tilt_standard_uncertainty_mrad: Option<f64>,
    /// Each place, in the order of the readings.
    pub places: Vec<PlaceRead>,
    /// Probability that the narrowest and the widest, each by itself, keep the limits: the smaller.
    pub probability_conforms: Option<f64>,
}

/// The narrowest or widest place of the plane.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Extreme {
    /// Gap.
    pub gap_mm: f64,
    /// Its standard uncertainty.
    pub standard_uncertainty_mm: Option<f64>,
    /// Where.
    pub angle_deg: f64,
    /// Face load there, where the load curve is known and reaches.
    pub face_load_n_per_mm: Option<f64>,
    /// Its standard uncertainty: of the curve and of the gap.
    pub face_load_standard_uncertainty_n_per_mm: Option<f64>,
}

/// One place as it was read.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PlaceRead {
    /// Where.
    pub angle_deg: f64,
    /// Gap as read.
    pub gap_mm: f64,
    /// Reading less plane.
    pub left_mm: f64,
    /// Does it stand off the plane by more than its uncertainty explains?
    pub stands_off: bool,
    /// Face load at the plane's gap there.
    pub face_load_n_per_mm: Option<f64>,
    /// On this place alone.
    pub verdict: Verdict,
}

/// One gap on the way.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ClosingForce {
    /// Gap.
    pub gap_mm: f64,
    /// Face load at the contact band's mean diameter.
    pub face_load_n_per_mm: f64,
    /// Force all round, which bolts or a press supply.
    pub force_n: f64,
}

/// Works out how a joint is closed and how it closed.
///
/// # Errors
/// [`RoomError`]: fewer than three places, a place read twice, a gap below zero or beyond anything
/// a feeler reads, limits that contradict each other, a number of bolts or steps that nobody has,
/// and nothing asked at all.
pub fn evaluate(input: &Input) -> Result<Outcome, RoomError> {
    check(input)?;
    let limits = (input.gap_limits.0.map(in_mm), input.gap_limits.1.map(in_mm));
    let gap = match input.readings.as_slice() {
        [] => None,
        _ => Some(feeler::gap_round(input)?),
    };
    let verdict = match &gap {
        Some((_, verdict)) => *verdict,
        None => Verdict::NotProven,
    };
    let gap = gap.map(|(gap, _)| gap);
    let closing_force = input.load.as_ref().map_or(Vec::new(), |load| {
        let point = |point: &GapPoint| ClosingForce {
            gap_mm: point.gap_mm,
            face_load_n_per_mm: point.face_load_n_per_mm,
            force_n: point.force_n,
        };
        load.curve.iter().map(point).collect()
    });
    let actions = actions::actions(input, gap.as_ref(), verdict);
    Ok(Outcome {
        pull_down: input.bolts.map(|bolts| order::pull_down(bolts, input)),
        gap,
        closing_force,
        gap_limit_min_mm: limits.0,
        gap_limit_max_mm: limits.1,
        actions,
        verdict,
    })
}

fn check(input: &Input) -> Result<(), RoomError> {
    if input.readings.is_empty() && input.bolts.is_none() && input.load.is_none() {
        let fits = say!("close-feeler-readings-number-bolts-or-both");
        return Err(RoomError::input(say!("close-nothing-asked"), fits));
    }
    if let Some(bolts) = input.bolts.filter(|bolts| !(2..=MOST_BOLTS).contains(bolts)) {
        let found = say!("close-bolts-stated", n = bolts);
        return Err(RoomError::input(found, say!("close-2-bolts-would-fit", most = MOST_BOLTS)));
    }
    if !(1..=MOST_STEPS).contains(&input.steps) {
        let found = say!("close-steps-stated", n = input.steps);
        return Err(RoomError::input(found, say!("close-1-steps-would-fit", most = MOST_STEPS)));
    }
    if let (Some(min), Some(max)) = input.gap_limits
        && min > max
    {
        let found = say!(
            "close-gap-limits-from-mm-mm",
            min = in_mm(min).to_string(),
            max = in_mm(max).to_string()
        );
        return Err(RoomError::input(found, say!("close-smaller-limit-first")));
    }
    if let Some(diameter) = input.diameter.filter(|d| !(1.0..=20_000.0).contains(&in_mm(*d))) {
        let found = say!("close-feelers-went-in-on-mm", diameter = in_mm(diameter).to_string());
        return Err(RoomError::input(found, say!("close-diameter-1-mm-20-m-would")));
    }
    let negative = |u: Length| u.si().is_nan() || u.si() < 0.0;
    let wrong = match input.uncertainty {
        FeelerUncertainty::Stated(u) => negative(u),
        FeelerUncertainty::Gauge { repeating, non_repeating, resolution } => {
            [repeating, non_repeating, resolution].into_iter().any(negative)
        }
        FeelerUncertainty::Unknown => false,
    };
    if wrong {
        return Err(RoomError::input(
            say!("close-uncertainty-below-zero"),
            say!("close-zero-or-more-would-fit"),
        ));
    }
    Ok(())
}
