//! A job's report: judged again from what its record holds, drawn and set as a PDF.

use ringtrue_job::job::{JobAssessments, assessments};
use ringtrue_job::{Answer, Assessment, Evidence, evidence, judge, judge_load};
use ringtrue_metrology::units::System;
use ringtrue_report::{CheckMade, Further, Halves, HeightTry, InputFile, JobRecord, JointReport};
use ringtrue_seal::closing::Load;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::{assembled_height, face_load, gap_stack, matching};
use ringtrue_store::{Store, TreeHead};

use crate::curves::Curves;
use crate::kept::Kept;
use crate::moment::now;
use crate::problem::Problem;
use crate::refused;

/// The PDF of a job, its export attached, and the head of the store that it was made at.
pub(crate) fn pdf(
    store: &Store,
    kept: &Kept,
    system: System,
) -> Result<(Vec<u8>, TreeHead), Problem> {
    let export = store.export([kept.job.id.as_str()]).map_err(refused::store)?.text();
    let head = store.tree_head().map_err(refused::store)?;
    let checkpoint = (head.size, head.root);
    let record = JobRecord { job: &kept.job, log: &kept.log, export: &export, checkpoint };
    let load = With::Load;
    let document =
        with_report(kept, (system, load), |report| ringtrue_report::job_document(report, &record))?;
    let bytes = ringtrue_report::pdf(&document).map_err(|error| {
        let next = "this is a fault of the program: please report it";
        Problem::not_completed(error.to_string(), next)
    })?;
    Ok((bytes, head))
}

/// What a report is made with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum With {
    /// The face load too, solved where it is not kept.
    Load,
    /// What the record holds alone.
    Record,
}

/// Makes something of a job's report, judged from what the record holds.
pub(crate) fn with_report<T>(
    kept: &Kept,
    (system, with): (System, With),
    make: impl FnOnce(&JointReport<'_>) -> T,
) -> Result<T, Problem> {
    let judged = assessments(&kept.plan, &kept.job).map_err(refused::assess)?;
    let joint = &kept.plan.joint;
    let tries = |half: Half| -> Vec<HeightTry<'_>> {
        let of_half = judged.heights.iter().filter(|one| one.half == half);
        of_half
            .map(|one| HeightTry { file: &one.origin, outcome: heights(&one.assessment) })
            .collect()
    };
    let (a, b) = (tries(Half::A), tries(Half::B));
    // The face load is not part of the record: it is computed for the page.
    let load = match with {
        With::Load => face_load(kept, &judged),
        With::Record => None,
    };
    let checks = checks(&judged, load.as_ref())?;
    let further: Vec<CheckMade<'_>> = checks
        .iter()
        .filter_map(|(place, assessment)| {
            Some(CheckMade { place, check: Further::of(&assessment.answer)? })
        })
        .collect();
    let gauge = judged.heights.iter().rev().find_map(|one| kept.plan.gauge(&one.gauge?));
    let inputs: Vec<(String, String)> = inputs(kept, &judged);
    let inputs: Vec<InputFile<'_>> =
        inputs.iter().map(|(role, name)| InputFile { role, name }).collect();
    let report = JointReport {
        joint,
        matching: matching(&judged.matching),
        heights: Halves { a: &a, b: &b },
        gap: gap(&judged.gap),
        load: load.as_ref().map(self::load),
        further: &further,
        gauge,
        inputs: &inputs,
        system,
        made: now(),
        program_version: judged.gap.program_version,
    };
    Ok(make(&report))
}

/// The checks that count, each with where it was made; the same check with the same answer stands
/// once. What the record can't hold of a closing, the load, is taken in for the page.
fn checks(
    judged: &JobAssessments,
    load: Option<&Assessment>,
) -> Result<Vec<(String, Assessment)>, Problem> {
    let mut all: Vec<(String, Assessment)> = Vec::new();
    for one in &judged.checks {
        let mut evidence = one.evidence.clone();
        let assessment = match (&mut evidence, load) {
            (Evidence::Closing(input), Some(load)) => {
                input.load = Some(Load::of(&self::load(load).joint));
                judge(&evidence).map_err(Problem::room)?
            }
            (_, _) => one.assessment.clone(),
        };
        let half = one.place.half.map_or(String::new(), |half| format!(", half {}", half.name()));
        let place = format!("{}{half}", one.name.replace('-', " "));
        match all.iter_mut().find(|(_, known)| *known == assessment) {
            Some((places, _)) => {
                places.push_str("; ");
                places.push_str(&place);
            }
            None => all.push((place, assessment)),
        }
    }
    Ok(all)
}

fn face_load(kept: &Kept, judged: &JobAssessments) -> Option<Assessment> {
    let nominal = gap_stack::nominal(&judged.chain).ok()?;
    let input = evidence::joint_load(&kept.plan.joint, nominal, None).ok()?;
    judge_load(&input, &mut |problems| Curves::kept().of(problems)).ok()
}

/// What the report rests on: the texts kept with the job, by their hashes.
fn inputs(kept: &Kept, judged: &JobAssessments) -> Vec<(String, String)> {
    let opened = &kept.job.opened;
    let mut inputs = vec![
        ("joint".to_owned(), opened.joint.to_string()),
        ("procedure".to_owned(), opened.procedure.to_string()),
    ];
    let materials = [("a", opened.material_a), ("b", opened.material_b)];
    for (half, material) in materials {
        inputs.extend(material.map(|hash| (format!("material, half {half}"), hash.to_string())));
    }
    for one in &judged.heights {
        inputs.push((format!("readings, half {}", one.half.name()), one.origin.clone()));
    }
    for one in &judged.checks {
        inputs.push((one.place.to_string(), one.origin.clone()));
    }
    inputs
}

/// Declares the outcome of each question that a job's report rests on.
macro_rules! outcomes {
    ($($name:ident: $answer:ident of $outcome:ty,)+) => {
        $(fn $name(assessment: &Assessment) -> &$outcome {
            let Answer::$answer(outcome) = &assessment.answer else {
                unreachable!("each question is answered by its own room")
            };
            outcome
        })+
    };
}

outcomes! {
    heights: AssembledHeight of assembled_height::Outcome,
    matching: Matching of matching::Outcome,
    gap: SealGap of gap_stack::Outcome,
    load: FaceLoad of face_load::Outcome,
}
