//! Feeler readings round the closed joint: the plane through them, and what it says of the gap.

use ringtrue_metrology::conformity::{Levels, Limits, Verdict, judge};
use ringtrue_metrology::distribution::normal_quantile;
use ringtrue_metrology::fit::harmonic::{self, Harmonic, Place, Terms};
use ringtrue_metrology::units::{Quantity, in_mm};
use ringtrue_words::say;

use super::{Extreme, FEWEST_PLACES, FeelerUncertainty, GapRound, Input, PlaceRead};
use crate::RoomError;
use crate::around::{place_deg, turned};

/// Largest gap that a feeler reads, mm.
const LARGEST: f64 = 200.0;
/// Chance of naming a place that does not stand off, shared among all places.
const CHANCE: f64 = 0.05;

/// What one reading is good to, mm.
#[derive(Clone, Copy)]
struct Budget {
    /// The part that differs from reading to reading.
    each: f64,
    /// The part that all share.
    shared: f64,
}

impl Budget {
    fn of(uncertainty: FeelerUncertainty) -> Option<Self> {
        match uncertainty {
            FeelerUncertainty::Stated(u) => Some(Self { each: in_mm(u), shared: 0.0 }),
            FeelerUncertainty::Gauge { repeating, non_repeating, resolution } => {
                let step = in_mm(resolution) / 12f64.sqrt();
                let each = libm::hypot(in_mm(non_repeating), step);
                Some(Self { each, shared: in_mm(repeating) })
            }
            FeelerUncertainty::Unknown => None,
        }
    }
}

/// The gap all round and the verdict on it.
pub(super) fn gap_round(input: &Input) -> Result<(GapRound, Verdict), RoomError> {
    let budget = Budget::of(input.uncertainty);
    let plane = plane(input, budget)?;
    let u = |fitted: f64| budget.map(|budget| libm::hypot(fitted, budget.shared));
    let wave = plane.first();
    let towards = wave.phase_rad();
    let extreme = |angle: f64| {
        let (gap_mm, fitted) = plane.at(angle);
        let (load, load_u) = loads(input, gap_mm, u(fitted));
        Extreme {
            gap_mm,
            standard_uncertainty_mm: u(fitted),
            angle_deg: turned(angle.to_degrees()),
            face_load_n_per_mm: load,
            face_load_standard_uncertainty_n_per_mm: load_u,
        }
    };
    let narrowest = extreme(towards + std::f64::consts::PI);
    let widest = extreme(towards);
    let parallel_u = budget.map(|_| 2.0 * wave.amplitude_standard_uncertainty());
    let out_of_parallel_mm = 2.0 * wave.amplitude();
    let mrad = |length: f64| input.diameter.map(|diameter| 1e3 * length / in_mm(diameter));
    let limits = Limits::new(input.gap_limits.0.map(in_mm), input.gap_limits.1.map(in_mm));
    let places = places(input, (&plane, budget), limits);
    let decided: Vec<_> = [narrowest, widest]
        .iter()
        .filter_map(|one| {
            Some(judge(one.gap_mm, one.standard_uncertainty_mm?, limits?, input.levels))
        })
        .collect();
    let of_plane = decided.iter().map(|one| one.verdict).max().unwrap_or(Verdict::NotProven);
    let of_places = places.iter().map(|place| place.verdict).max().unwrap_or(Verdict::NotProven);
    let direction = wave.direction().ok().filter(|_| budget.is_some());
    let gap = GapRound {
        mean_mm: plane.mean(),
        mean_standard_uncertainty_mm: u(plane.mean_standard_uncertainty()),
        narrowest,
        widest,
        out_of_parallel_mm,
        out_of_parallel_standard_uncertainty_mm: parallel_u,
        direction_standard_uncertainty_deg: direction
            .map(|direction| direction.standard_uncertainty_rad.to_degrees()),
        tilt_mrad: mrad(out_of_parallel_mm),
        tilt_standard_uncertainty_mrad: parallel_u.and_then(mrad),
        places,
        probability_conforms: decided.iter().map(|one| one.probability_conforms).reduce(f64::min),
    };
    Ok((gap, of_plane.max(of_places)))
}

fn plane(input: &Input, budget: Option<Budget>) -> Result<Harmonic, RoomError> {
    let mut seen: Vec<f64> = Vec::new();
    for reading in &input.readings {
        let gap = in_mm(reading.gap);
        if !(0.0..=LARGEST).contains(&gap) {
            let found = say!("close-gap-mm", gap = gap.to_string());
            return Err(RoomError::input(
                found,
                say!("close-0-mm-read-by-feelers", largest = LARGEST.to_string()),
            ));
        }
        let angle = place_deg(reading.angle);
        if !angle.is_finite() {
            return Err(RoomError::input(
                say!("close-angle-that-no-number"),
                say!("close-degrees-wanted"),
            ));
        }
        if seen.iter().any(|other| (other - angle).abs() < 1e-6) {
            let found = say!("close-place-at-deg-read-twice", angle = angle.to_string());
            return Err(RoomError::input(found, say!("close-one-reading-place-wanted")));
        }
        seen.push(angle);
    }
    if seen.len() < FEWEST_PLACES {
        let found = say!("close-places-read", n = seen.len());
        let fits = say!("close-or-more-evenly-round-show-whether", fewest = FEWEST_PLACES);
        return Err(RoomError::input(found, fits));
    }
    let each = budget.map_or(1.0, |budget| budget.each);
    let places: Vec<Place> = input
        .readings
        .iter()
        .map(|reading| Place {
            angle_rad: reading.angle.si(),
            value: in_mm(reading.gap),
            standard_uncertainty: each,
        })
        .collect();
    harmonic::fit(&places, Terms::Plane).map_err(|error| {
        RoomError::input(error.to_string(), say!("close-places-evenly-round-wanted"))
    })
}

fn places(
    input: &Input,
    (plane, budget): (&Harmonic, Option<Budget>),
    limits: Option<Limits>,
) -> Vec<PlaceRead> {
    let bound = normal_quantile(1.0 - CHANCE / (2.0 * input.readings.len() as f64));
    let off = plane.studentised_residuals().iter();
    let rows = input.readings.iter().zip(plane.residuals()).zip(off);
    rows.map(|((reading, left), off)| {
        let gap_mm = in_mm(reading.gap);
        let u = budget.map(|budget| libm::hypot(budget.each, budget.shared));
        PlaceRead {
            angle_deg: place_deg(reading.angle),
            gap_mm,
            left_mm: *left,
            stands_off: budget.is_some() && off.is_some_and(|off| off.abs() > bound),
            face_load_n_per_mm: loads(input, gap_mm - left, u).0,
            verdict: place_verdict(gap_mm, u, limits, input.levels),
        }
    })
    .collect()
}

fn place_verdict(gap: f64, u: Option<f64>, limits: Option<Limits>, levels: Levels) -> Verdict {
    match (u, limits) {
        (Some(u), Some(limits)) => judge(gap, u, limits, levels).verdict,
        (_, _) => Verdict::NotProven,
    }
}

/// Face load at a gap, and its standard uncertainty: that of the curve, and what the gap's own does
/// along the curve.
fn loads(input: &Input, gap_mm: f64, u: Option<f64>) -> (Option<f64>, Option<f64>) {
    let Some(load) = &input.load else { return (None, None) };
    let Some((at, _)) = load.at(gap_mm) else { return (None, None) };
    let share = load.relative_uncertainty.map(|share| share * at);
    let along = u.and_then(|u| {
        let (narrow, wide) = (load.at(gap_mm - u), load.at(gap_mm + u));
        match (narrow, wide) {
            (Some((narrow, _)), Some((wide, _))) => Some((narrow - wide).abs() / 2.0),
            // At the end of the curve: one side of it.
            (None, Some((wide, _))) => Some((at - wide).abs()),
            (_, None) => None,
        }
    });
    (Some(at), share.zip(along).map(|(share, along)| libm::hypot(share, along)))
}
