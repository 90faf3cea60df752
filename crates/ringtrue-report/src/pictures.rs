//! Pictures of solved sections that stand on their own, outside a report.

use ringtrue_metrology::units::{System, fixed};
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::face_load::{GapLoad, HalfOutcome, JointOutcome, LoadPoint, Outcome};
use ringtrue_seal::section::SolvedSection;
use ringtrue_seal::squeeze::SqueezeFile;
use ringtrue_seal::validation::study::Study;
use ringtrue_words::say;

use crate::Drawing;
use crate::figure::half_section::Facing;
use crate::figure::load_curve::{self, travel_of};
use crate::figure::squeezed_section::{self, Squeezed, Stage};
use crate::figure::stages;
use crate::reader::Reader;
use crate::reader::load::whole_degrees;

/// The pictures of the loads: face load over the seal gap, then for each half its section at the
/// nominal gap, six stages from the first touch on, and its load over the travel.
///
/// A picture that has nothing to show is left out: a curve that was not solved.
#[must_use]
pub fn load_drawings(outcome: &Outcome, system: System) -> Vec<Drawing> {
    let reader = Reader::new(system);
    let joint = &outcome.joint;
    let mut all: Vec<Drawing> =
        load_curve::gap("face-load", joint, &[], reader).into_iter().collect();
    for half in &outcome.halves {
        let whose = whose(half, joint);
        let name = |what: &str| format!("half-{}-{what}", half.half.name());
        all.extend(squeezed(half, joint, reader));
        let staged = say!("report-section-as-ring-goes-in", whose);
        all.extend(six_stages(&name("stages"), &staged, half, reader));
        all.extend(load_curve::half((&name("load"), &whose), half, joint, reader));
    }
    all
}

/// The plot of a study of the mechanics: computed lines, reference points with both error bands.
#[must_use]
pub fn study_drawing(study: &Study) -> Drawing {
    crate::figure::study::draw(study)
}

/// The pictures of a general problem: six stages, and the section at the end of the motion.
///
/// They lie as a half does: z grows to the left, r upwards.
#[must_use]
pub fn section_drawings(
    file: &SqueezeFile,
    section: &SolvedSection,
    system: System,
) -> Vec<Drawing> {
    let reader = Reader::new(system);
    let far = section.picture.frames.first().map_or(0.0, |frame| {
        let places = frame.nodes.iter().flatten();
        // Beyond anything that is shown.
        10.0 * places.fold(1.0, |most, x| f64::max(most, f64::from(x.abs())))
    });
    let walls = squeezed_section::of_file(file, far);
    let squeezed = Squeezed { picture: &section.picture, walls: &walls, facing: Facing::Right };
    let start = Stage {
        travel_mm: 0.0,
        roll_deg: 0.0,
        stretch: 1.0,
        peak: None,
        facts: vec![
            (say!("report-travel"), reader.length(0.0, reader.workshop_decimals())),
            (say!("report-roll"), whole_degrees(0.0)),
        ],
    };
    let reached: Vec<Stage> = std::iter::once(start)
        .chain((0..section.steps.len()).map(|step| general(section, step, reader)))
        .collect();
    let chosen: Vec<Stage> =
        stages::spread(reached.len()).into_iter().map(|i| reached[i].clone()).collect();
    let whose = say!("report-squeezed-between-walls");
    let last = reached.last();
    stages::draw(("stages", whose), squeezed, &chosen, reader)
        .into_iter()
        .chain(last.and_then(|last| {
            let whose = say!("report-at-end-motion");
            squeezed_section::draw(("section", whose), squeezed, last, reader)
        }))
        .collect()
}

fn general(section: &SolvedSection, step: usize, reader: Reader) -> Stage {
    let step = &section.steps[step];
    let peak = step.walls.values().map(|wall| wall.peak_mpa).fold(0.0, f64::max);
    let facts = vec![
        (say!("report-travel"), reader.length(step.travel_mm, reader.workshop_decimals())),
        (say!("report-roll"), whole_degrees(step.roll_deg)),
        (say!("report-peak-pressure"), reader.pressure(peak)),
        (say!("report-stretch"), fixed(step.max_principal_stretch, 2)),
    ];
    Stage {
        travel_mm: step.travel_mm,
        roll_deg: step.roll_deg,
        stretch: step.max_principal_stretch,
        peak: (peak > 0.0).then(|| reader.pressure(peak)),
        facts,
    }
}

/// `half a`, or the seal that is taken against its like.
pub(crate) fn whose(half: &HalfOutcome, joint: &JointOutcome) -> String {
    if joint.alike {
        say!("report-one-seal-closed-against-like").to_owned()
    } else {
        say!("report-half", half = half.half.name())
    }
}

/// The section of a half at the nominal gap, or at the end of a curve that does not reach it.
pub(crate) fn squeezed(
    half: &HalfOutcome,
    joint: &JointOutcome,
    reader: Reader,
) -> Option<Drawing> {
    let walls = squeezed_section::of_half(&half.section.problem);
    let whose = whose(half, joint);
    let (stage, whose) = match &joint.at_gap.nominal {
        Some(load) => (at_gap(half, load, reader), say!("report-whose-at-nominal-gap", whose)),
        None => (at_point(half.curve.last()?, reader), say!("report-whose-at-end-of-curve", whose)),
    };
    let name = format!("half-{}-squeezed", half.half.name());
    squeezed_section::draw((&name, &whose), of(half, &walls), &stage, reader)
}

/// The section of a half at a stage.
pub(crate) fn drawn_at(
    named: (&str, &str),
    half: &HalfOutcome,
    stage: &Stage,
    reader: Reader,
) -> Option<Drawing> {
    let walls = squeezed_section::of_half(&half.section.problem);
    squeezed_section::draw(named, of(half, &walls), stage, reader)
}

fn six_stages(name: &str, whose: &str, half: &HalfOutcome, reader: Reader) -> Option<Drawing> {
    let walls = squeezed_section::of_half(&half.section.problem);
    let chosen: Vec<Stage> = stages::spread(half.curve.len())
        .into_iter()
        .map(|i| at_point(&half.curve[i], reader))
        .collect();
    stages::draw((name, whose), of(half, &walls), &chosen, reader)
}

fn of<'h>(half: &'h HalfOutcome, walls: &'h [squeezed_section::Wall]) -> Squeezed<'h> {
    let facing = match half.half {
        Half::A => Facing::Right,
        Half::B => Facing::Left,
    };
    Squeezed { picture: &half.section.curve.picture, walls, facing }
}

pub(crate) fn at_point(point: &LoadPoint, reader: Reader) -> Stage {
    let loads = reader.line_loads();
    // The same digits at each stage, so that they compare.
    let load = loads.length(point.face_load_n_per_mm, loads.workshop_decimals());
    Stage {
        travel_mm: point.travel_mm,
        roll_deg: point.roll_deg,
        stretch: point.max_principal_stretch,
        peak: (point.peak_contact_mpa > 0.0).then(|| reader.pressure(point.peak_contact_mpa)),
        facts: numbers([point.travel_mm, point.height_mm], load, point.roll_deg, reader),
    }
}

fn numbers(
    [travel, height]: [f64; 2],
    load: String,
    roll_deg: f64,
    reader: Reader,
) -> Vec<(&'static str, String)> {
    let decimals = reader.workshop_decimals();
    vec![
        (say!("report-travel"), reader.length(travel, decimals)),
        (say!("report-height"), reader.length(height, decimals)),
        (say!("report-load-question"), load),
        (say!("report-roll"), whole_degrees(roll_deg)),
    ]
}

/// A half at a gap. Roll and peak pressure stand between two points of the curve, by straight
/// lines: a degree and a few per cent of what a step changes.
fn at_gap(half: &HalfOutcome, load: &GapLoad, reader: Reader) -> Stage {
    let travel = travel_of(half.half, load);
    let at = |of: fn(&LoadPoint) -> f64| between(&half.curve, travel, of);
    let (roll_deg, peak) = (at(|point| point.roll_deg), at(|point| point.peak_contact_mpa));
    let u = load.standard_uncertainty_n_per_mm;
    let face_load = reader.line_loads().uncertain(load.face_load_n_per_mm, Some(u));
    Stage {
        travel_mm: travel,
        roll_deg,
        stretch: at(|point| point.max_principal_stretch),
        peak: (peak > 0.0).then(|| reader.pressure(peak)),
        facts: numbers([travel, half.free_height_mm - travel], face_load, roll_deg, reader),
    }
}

/// A value at a travel between the points of a curve, by straight lines.
pub(crate) fn between(curve: &[LoadPoint], travel: f64, of: impl Fn(&LoadPoint) -> f64) -> f64 {
    let next = curve.partition_point(|point| point.travel_mm < travel);
    match (next.checked_sub(1).and_then(|i| curve.get(i)), curve.get(next)) {
        (Some(a), Some(b)) => {
            let t = (travel - a.travel_mm) / (b.travel_mm - a.travel_mm);
            of(a) + t * (of(b) - of(a))
        }
        (Some(end), None) | (None, Some(end)) => of(end),
        (None, None) => 0.0,
    }
}
