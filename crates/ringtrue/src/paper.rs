//! A job's report: judged again from what its record holds, drawn and set as a PDF.

use ringtrue_job::job::{JobAssessments, JudgedCheck, JudgedLoad, assessments};
use ringtrue_job::{Answer, Assessment, Curves, event};
use ringtrue_metrology::units::System;
use ringtrue_report::{
    CheckMade, Further, Halves, HeightTry, InputFile, JobRecord, JointReport, SignedHead,
};
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::face_load::{self, HalfCurve, HalfProblem};
use ringtrue_seal::seating::{Passed, Passing};
use ringtrue_seal::{RoomError, assembled_height, gap_stack, matching};
use ringtrue_store::{Checkpoint, Store, TreeHead};
use ringtrue_words::say;

use crate::kept::Kept;
use crate::moment::now;
use crate::problem::Problem;
use crate::refused;

/// The PDF of a job, its export attached, and the head of the store that it was made at.
pub(crate) fn pdf(
    store: &Store,
    kept: &Kept,
    (system, curves): (System, &dyn Curves),
) -> Result<(Vec<u8>, TreeHead), Problem> {
    let export = store.export([kept.job.id.as_str()]).map_err(refused::store)?;
    let text = export.text();
    let head = store.tree_head().map_err(refused::store)?;
    let handed_out = store.checkpoints().map_err(refused::store)?;
    let signed = handed_out.last().and_then(|text| Checkpoint::read(text).ok());
    let judged = judged(kept, curves)?;
    let place = store.place(&kept.job.id).map_err(refused::store)?.text();
    let remarks: Vec<String> = judged.load.as_ref().and_then(drawn_otherwise).into_iter().collect();
    let record = JobRecord {
        job: &kept.job,
        log: &kept.log,
        plan: &kept.plan,
        export: &text,
        place: &place,
        files: &export.attachments,
        checkpoint: (head.size, head.root),
        signed_checkpoint: signed.as_ref().map(|signed| SignedHead {
            size: signed.head.size,
            root: signed.head.root,
            at: signed.at,
            person: &signed.person,
        }),
        remarks: &remarks,
    };
    let document =
        reported((kept, &judged), system, |report| ringtrue_report::job_document(report, &record))?;
    let bytes = ringtrue_report::pdf(&document).map_err(|error| {
        let next = say!("job-this-fault-program-please-report");
        Problem::not_completed(error.to_string(), next)
    })?;
    Ok((bytes, head))
}

/// Makes something of a job's report, judged from what the record holds.
pub(crate) fn with_report<T>(
    kept: &Kept,
    (system, curves): (System, &dyn Curves),
    make: impl FnOnce(&JointReport<'_>) -> T,
) -> Result<T, Problem> {
    reported((kept, &judged(kept, curves)?), system, make)
}

/// What a job's record holds, judged.
fn judged(kept: &Kept, curves: &dyn Curves) -> Result<JobAssessments, Problem> {
    assessments(&kept.plan, (&kept.job, &kept.log), curves).map_err(refused::assess)
}

/// Solves nothing: face load and seating are left out.
#[derive(Debug)]
pub(crate) struct NotSolved;

impl NotSolved {
    fn left_out<T>(number: usize) -> Vec<Result<T, RoomError>> {
        let why = || RoomError::Input {
            found: say!("job-what-takes-finite-elements-not-solved").to_owned(),
            fits: say!("job-ask-for").to_owned(),
        };
        (0..number).map(|_| Err(why())).collect()
    }
}

impl Curves for NotSolved {
    fn of(&self, problems: &[HalfProblem]) -> Vec<Result<HalfCurve, RoomError>> {
        Self::left_out(problems.len())
    }

    fn past(&self, problems: &[Passing]) -> Vec<Result<Passed, RoomError>> {
        Self::left_out(problems.len())
    }
}

/// The checks of a step that count, judged.
pub(crate) fn checks_at(
    kept: &Kept,
    place: &event::Place,
    curves: &dyn Curves,
) -> Result<Vec<JudgedCheck>, Problem> {
    let at = (&kept.job, &kept.log[..], place);
    ringtrue_job::job::checks_at(&kept.plan, at, curves).map_err(refused::assess)
}

/// Said where the pages show a face load that is not the one of the record.
fn drawn_otherwise(load: &JudgedLoad) -> Option<String> {
    (!load.same).then(|| {
        say!(
            "job-face-load-drawn-otherwise",
            event = load.event,
            then = load.stored_by,
            now = env!("CARGO_PKG_VERSION")
        )
    })
}

/// The report, judged from what the record holds.
fn reported<T>(
    (kept, judged): (&Kept, &JobAssessments),
    system: System,
    make: impl FnOnce(&JointReport<'_>) -> T,
) -> Result<T, Problem> {
    let joint = &kept.plan.joint;
    let tries = |half: Half| -> Vec<HeightTry<'_>> {
        let of_half = judged.heights.iter().filter(|one| one.half == half);
        of_half
            .map(|one| HeightTry { file: &one.origin, outcome: heights(&one.assessment) })
            .collect()
    };
    let (a, b) = (tries(Half::A), tries(Half::B));
    let load = judged.load.as_ref().map(|load| &load.assessment);
    let checks = checks(judged);
    let further: Vec<CheckMade<'_>> = checks
        .iter()
        .filter_map(|(place, assessment)| {
            Some(CheckMade { place, check: Further::of(&assessment.answer)? })
        })
        .collect();
    let gauge = judged.heights.iter().rev().find_map(|one| kept.plan.gauge(&one.gauge?));
    let inputs: Vec<(String, String)> = inputs(kept, judged);
    let inputs: Vec<InputFile<'_>> =
        inputs.iter().map(|(role, name)| InputFile { role, name }).collect();
    let report = JointReport {
        joint,
        matching: matching(&judged.matching),
        heights: Halves { a: &a, b: &b },
        gap: gap(&judged.gap),
        load: load.map(self::load),
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
/// once.
fn checks(judged: &JobAssessments) -> Vec<(String, &Assessment)> {
    let mut all: Vec<(Vec<Place>, &Assessment)> = Vec::new();
    for one in &judged.checks {
        let place = (one.name.replace('-', " "), one.place.half);
        match all.iter_mut().find(|(_, known)| **known == one.assessment) {
            Some((places, _)) => places.push(place),
            None => all.push((vec![place], &one.assessment)),
        }
    }
    all.into_iter().map(|(places, assessment)| (together(&places), assessment)).collect()
}

/// The name of a check, and the half on which it was made.
type Place = (String, Option<Half>);

/// Places in few words: what was done on each half is named once.
fn together(places: &[Place]) -> String {
    let mut told: Vec<String> = Vec::new();
    for (name, half) in places {
        let on = |half: Half| places.contains(&(name.clone(), Some(half)));
        let words = match half {
            None => name.clone(),
            Some(_) if Half::BOTH.into_iter().all(on) => {
                say!("job-check-on-both-halves", check = name)
            }
            Some(half) => say!("job-check-on-half", check = name, half = half.name()),
        };
        if !told.contains(&words) {
            told.push(words);
        }
    }
    told.join("; ")
}

/// What the report rests on: the texts kept with the job, by their hashes.
fn inputs(kept: &Kept, judged: &JobAssessments) -> Vec<(String, String)> {
    let opened = &kept.job.opened;
    let mut inputs = vec![
        (say!("job-input-joint").to_owned(), opened.joint.to_string()),
        (say!("job-input-procedure").to_owned(), opened.procedure.to_string()),
    ];
    let materials = [("a", opened.material_a), ("b", opened.material_b)];
    for (half, material) in materials {
        inputs.extend(material.map(|hash| (say!("job-material-half", half), hash.to_string())));
    }
    for one in &judged.heights {
        inputs.push((say!("job-readings-half", half = one.half.name()), one.origin.clone()));
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

#[cfg(test)]
mod tests {
    use super::{Half, together};

    #[test]
    fn what_was_done_on_both_halves_is_named_once() {
        let (a, b) = (Some(Half::A), Some(Half::B));
        let told = |places: &[(&str, Option<Half>)]| {
            let owned: Vec<_> = places.iter().map(|(name, half)| ((*name).into(), *half)).collect();
            together(&owned)
        };
        let all = [("agent check", a), ("wetting agent", a), ("agent check", b)];
        assert_eq!(told(&all), "agent check, both halves; wetting agent, half a");
        assert_eq!(told(&[("sweeps", None)]), "sweeps");
    }
}
