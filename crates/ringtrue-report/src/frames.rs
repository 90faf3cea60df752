//! A joint as it closes: numbers and pictures at any gap of its curve, and two joints' loads on
//! one plot. For whoever moves a slider; nothing here solves anything.

use ringtrue_metrology::units::System;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::face_load::{GapLoad, GapPoint, HalfOutcome, JointOutcome, LoadPoint, Outcome};
use ringtrue_words::say;
use serde::Serialize;

use crate::Drawing;
use crate::figure::load_curve::{self, Marker};
use crate::pictures::{at_point, between, drawn_at, whose};
use crate::reader::load::whole_degrees;
use crate::reader::{COVERAGE_FACTOR, Reader};

/// Most frames of a closing.
const FRAMES: usize = 25;

/// A joint at one gap.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ClosingFrame {
    /// Seal gap.
    pub gap_mm: f64,
    /// Face load at the contact band's mean diameter.
    pub face_load_n_per_mm: f64,
    /// Each half there; one where a seal is taken against its like.
    pub halves: Vec<ClosingHalf>,
}

/// One half at a gap.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ClosingHalf {
    /// Which half.
    pub half: Half,
    /// Travel from the first touch.
    pub travel_mm: f64,
    /// Assembled height.
    pub height_mm: f64,
    /// Roll of the section.
    pub roll_deg: f64,
    /// Largest contact pressure of the load ring.
    pub peak_contact_mpa: f64,
    /// Largest principal stretch.
    pub max_principal_stretch: f64,
}

/// Frames of a joint from the first touch to its smallest gap.
#[must_use]
pub fn closing(outcome: &Outcome) -> Vec<ClosingFrame> {
    let mut curve: Vec<GapPoint> = outcome.joint.curve.clone();
    curve.sort_by(|a, b| b.gap_mm.total_cmp(&a.gap_mm));
    let count = curve.len();
    let chosen = (0..count.min(FRAMES)).map(|i| match count {
        0..=FRAMES => i,
        _ => i * (count - 1) / (FRAMES - 1),
    });
    chosen.filter_map(|i| curve.get(i)).map(|point| frame(outcome, point)).collect()
}

fn frame(outcome: &Outcome, point: &GapPoint) -> ClosingFrame {
    let load = point.face_load_n_per_mm;
    let half = |half: &HalfOutcome| {
        let at = point_at(half, load);
        ClosingHalf {
            half: half.half,
            travel_mm: at.travel_mm,
            height_mm: at.height_mm,
            roll_deg: at.roll_deg,
            peak_contact_mpa: at.peak_contact_mpa,
            max_principal_stretch: at.max_principal_stretch,
        }
    };
    ClosingFrame {
        gap_mm: point.gap_mm,
        face_load_n_per_mm: load,
        halves: outcome.halves.iter().map(half).collect(),
    }
}

/// A half where it carries a load: both halves of a closed joint carry the same. Between two
/// points of the curve by straight lines.
fn point_at(half: &HalfOutcome, load: f64) -> LoadPoint {
    let curve = &half.curve;
    let next = curve.partition_point(|point| point.face_load_n_per_mm < load);
    let travel = match (next.checked_sub(1).and_then(|i| curve.get(i)), curve.get(next)) {
        (Some(a), Some(b)) if b.face_load_n_per_mm > a.face_load_n_per_mm => {
            let share =
                (load - a.face_load_n_per_mm) / (b.face_load_n_per_mm - a.face_load_n_per_mm);
            a.travel_mm + share * (b.travel_mm - a.travel_mm)
        }
        (_, Some(end)) | (Some(end), None) => end.travel_mm,
        (None, None) => 0.0,
    };
    let at = |of: fn(&LoadPoint) -> f64| between(curve, travel, of);
    LoadPoint {
        travel_mm: travel,
        height_mm: half.free_height_mm - travel,
        face_load_n_per_mm: load,
        standard_uncertainty_n_per_mm: at(|point| point.standard_uncertainty_n_per_mm),
        error_band_n_per_mm: curve
            .iter()
            .any(|point| point.error_band_n_per_mm.is_some())
            .then(|| at(|point| point.error_band_n_per_mm.unwrap_or(0.0))),
        force_n: at(|point| point.force_n),
        roll_deg: at(|point| point.roll_deg),
        peak_contact_mpa: at(|point| point.peak_contact_mpa),
        max_principal_stretch: at(|point| point.max_principal_stretch),
    }
}

/// The load ring of a half at a gap; `None` where its curve holds no picture.
#[must_use]
pub fn closing_drawing(
    outcome: &Outcome,
    half: Half,
    gap_mm: f64,
    system: System,
) -> Option<Drawing> {
    let reader = Reader::new(system);
    let half = outcome.halves.iter().find(|one| one.half == half)?;
    let load = load_curve::load_at(&outcome.joint, gap_mm)?;
    let stage = at_point(&point_at(half, load), reader);
    let name = format!("half-{}-closing", half.half.name());
    drawn_at((&name, &whose(half, &outcome.joint)), half, &stage, reader)
}

/// Face load over the gap with one gap marked, and where they are known the gap that the sizes make
/// and the mean gap of the feelers.
#[must_use]
pub fn load_over_gap(
    outcome: &Outcome,
    gap_mm: f64,
    [sizes_mm, feelers_mm]: [Option<f64>; 2],
    system: System,
) -> Option<Drawing> {
    let here = Marker { gap_mm, words: say!("report-this-gap") };
    let sizes = sizes_mm.map(|gap_mm| Marker { gap_mm, words: say!("report-gap-by-sizes") });
    let feelers = feelers_mm.map(|gap_mm| Marker { gap_mm, words: say!("report-gap-by-feelers") });
    let markers: Vec<Marker> = sizes.into_iter().chain(feelers).chain([here]).collect();
    load_curve::gap("face-load", &outcome.joint, &markers, Reader::new(system))
}

/// A seal gap as text, to the digits of [`FrameWords`].
#[must_use]
pub fn gap_words(gap_mm: f64, system: System) -> String {
    let reader = Reader::new(system);
    reader.length(gap_mm, reader.workshop_decimals())
}

/// A frame's values as text in the chosen units.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FrameWords {
    /// Seal gap.
    pub gap: String,
    /// Face load at the contact band's mean diameter.
    pub face_load: String,
    /// Each half there.
    pub halves: Vec<HalfWords>,
}

/// The values of a half in a frame.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HalfWords {
    /// Which half.
    pub half: Half,
    /// Travel from the first touch.
    pub travel: String,
    /// Assembled height.
    pub height: String,
    /// Roll of the section.
    pub roll: String,
    /// Largest contact pressure of the load ring.
    pub peak_contact: String,
}

/// A frame's values as text.
#[must_use]
pub fn frame_words(frame: &ClosingFrame, system: System) -> FrameWords {
    let reader = Reader::new(system);
    let loads = reader.line_loads();
    let length = |mm: f64| reader.length(mm, reader.workshop_decimals());
    let half = |half: &ClosingHalf| HalfWords {
        half: half.half,
        travel: length(half.travel_mm),
        height: length(half.height_mm),
        roll: whole_degrees(half.roll_deg),
        peak_contact: reader.pressure(half.peak_contact_mpa),
    };
    FrameWords {
        gap: gap_words(frame.gap_mm, system),
        face_load: loads.length(frame.face_load_n_per_mm, loads.workshop_decimals()),
        halves: frame.halves.iter().map(half).collect(),
    }
}

/// Face load over the gap of a joint, and of the same joint with something changed.
#[must_use]
pub fn load_compared([own, changed]: [&Outcome; 2], system: System) -> Option<Drawing> {
    load_curve::compared("face-load-compared", [&own.joint, &changed.joint], Reader::new(system))
}

/// A load in words: gap, load with its uncertainty, and how it stands to the joint's limits.
#[must_use]
pub fn load_at(load: &GapLoad, joint: &JointOutcome, system: System) -> String {
    let reader = Reader::new(system);
    let loads = reader.line_loads();
    let u = load.standard_uncertainty_n_per_mm;
    let said = loads.uncertain(load.face_load_n_per_mm, Some(u));
    let gap = reader.exact(load.gap_mm, reader.workshop_decimals());
    let stands = against_limits(load, joint, |limit| loads.exact(limit, 1));
    [Some(format!("{gap}: {said}")), stands].into_iter().flatten().collect::<Vec<_>>().join("; ")
}

/// Which limit a load is beyond, or which its uncertainty covers; `None` without limits.
fn against_limits(
    load: &GapLoad,
    joint: &JointOutcome,
    shown: impl Fn(f64) -> String,
) -> Option<String> {
    let (min, max) = (joint.face_load_min_n_per_mm, joint.face_load_max_n_per_mm);
    if min.is_none() && max.is_none() {
        return None;
    }
    let at = load.face_load_n_per_mm;
    let wide = COVERAGE_FACTOR * load.standard_uncertainty_n_per_mm;
    let below = |load: f64| min.filter(|min| load < *min);
    let above = |load: f64| max.filter(|max| load > *max);
    Some(match (below(at + wide), above(at - wide), below(at - wide), above(at + wide)) {
        (Some(min), ..) => say!("report-load-below", limit = shown(min)),
        (None, Some(max), ..) => say!("report-load-above", limit = shown(max)),
        (None, None, Some(min), _) => say!("report-load-perhaps-below", limit = shown(min)),
        (None, None, None, Some(max)) => say!("report-load-perhaps-above", limit = shown(max)),
        (None, None, None, None) => say!("report-load-stands-inside").to_owned(),
    })
}
