//! What counts in a job's record, judged once more for its report.

use ringtrue_seal::closing::Load;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::procedure::{ReadingSet, Step};
use ringtrue_words::say;

use super::assess::{AssessError, Ground, gap_assessment, height_assessment, made};
use super::plan::Plan;
use super::step::StepState;
use super::{Job, load};
use crate::check::Check;
use crate::digest::Digest;
use crate::event::{Entry, Place};
use crate::record::Link;
use crate::{Answer, Assessment, Curves, Evidence, judge_with};

/// What a job's record says about its joint, judged from the stored inputs: for its report.
#[derive(Debug, Clone)]
pub struct JobAssessments {
    /// The parts against each other.
    pub matching: Assessment,
    /// Height readings that count, in their order: half, where they came from, gauge, judged.
    pub heights: Vec<JudgedTry>,
    /// The seal gap, with the sizes that were measured.
    pub gap: Assessment,
    /// The face load, where the record holds one.
    pub load: Option<JudgedLoad>,
    /// The checks that count, in the order of the work.
    pub checks: Vec<JudgedCheck>,
}

/// A face load of the record, worked out again to be drawn.
#[derive(Debug, Clone)]
pub struct JudgedLoad {
    /// Number of its event.
    pub event: u64,
    /// The program that judged.
    pub stored_by: String,
    /// Is it, within its error band, what the record holds?
    pub same: bool,
    /// Judged again.
    pub assessment: Assessment,
}

impl JudgedLoad {
    /// What the load rings give over the gap.
    fn over_gap(&self) -> Option<Load> {
        match &self.assessment.answer {
            Answer::FaceLoad(outcome) => Some(Load::of(&outcome.joint)),
            Answer::Matching(_)
            | Answer::AssembledHeight(_)
            | Answer::SealGap(_)
            | Answer::Alignment(_)
            | Answer::Roughness(_)
            | Answer::Flatness(_)
            | Answer::Seating(_)
            | Answer::Chilling(_)
            | Answer::LeakTest(_)
            | Answer::Agents(_)
            | Answer::Closing(_)
            | Answer::RubberLaw(_) => None,
        }
    }
}

/// One check of a job.
#[derive(Debug, Clone)]
pub struct JudgedCheck {
    /// Where it was made.
    pub place: Place,
    /// The evidence's name within the step.
    pub name: String,
    /// Where its readings came from, and the event that holds them.
    pub origin: String,
    /// Judged.
    pub assessment: Assessment,
}

/// One try at a half.
#[derive(Debug, Clone)]
pub struct JudgedTry {
    /// The half.
    pub half: Half,
    /// Where the readings came from, and the event that holds them.
    pub origin: String,
    /// The gauge.
    pub gauge: Option<Digest>,
    /// Judged.
    pub assessment: Assessment,
}

/// Judges what a job's record holds on its joint.
///
/// # Errors
/// [`AssessError`]
pub fn assessments(
    plan: &Plan,
    (job, log): (&Job, &[Link]),
    curves: &dyn Curves,
) -> Result<JobAssessments, AssessError> {
    let load = load::of_record(Ground { plan, job, curves }, log)?;
    let with = With { plan, curves, load: load.as_ref().and_then(JudgedLoad::over_gap) };
    let mut heights = Vec::new();
    let mut checks = Vec::new();
    for place in plan.due() {
        let (Some(step), Some(state)) = (plan.step(place), job.steps.get(place)) else { continue };
        checks.extend(place_checks(&with, (place, step), state)?);
        let mut tries = 0;
        for given in state.given.iter().filter(|given| given.counts) {
            let Entry::Readings(found) = &given.given.entry else { continue };
            let asked = step.evidence(&given.given.name).and_then(|asked| asked.readings);
            if let (Some(ReadingSet::AssembledHeight), Some(half)) = (asked, place.half) {
                tries += 1;
                heights.push(JudgedTry {
                    half,
                    origin: say!(
                        "job-readings-of-event",
                        origin = found.origin(),
                        event = given.sequence
                    ),
                    gauge: found.gauge,
                    assessment: height_assessment(plan, place, found, Some(tries))?,
                });
            }
        }
    }
    let measured = load::stack(plan, job);
    let gap = gap_assessment(plan, measured.map(|(_, readings)| readings))?;
    Ok(JobAssessments { matching: plan.matching()?, heights, gap, load, checks })
}

/// The checks of one step that count, judged; a closing with the face load of the record.
///
/// # Errors
/// [`AssessError`]
pub fn checks_at(
    plan: &Plan,
    (job, log, place): (&Job, &[Link], &Place),
    curves: &dyn Curves,
) -> Result<Vec<JudgedCheck>, AssessError> {
    let (Some(step), Some(state)) = (plan.step(place), job.steps.get(place)) else {
        return Ok(Vec::new());
    };
    let closes = step.evidence.iter().any(|asked| asked.readings == Some(ReadingSet::Closing));
    let load = if closes { load::of_record(Ground { plan, job, curves }, log)? } else { None };
    let with = With { plan, curves, load: load.as_ref().and_then(JudgedLoad::over_gap) };
    place_checks(&with, (place, step), state)
}

/// What checks are judged with.
struct With<'w> {
    plan: &'w Plan,
    curves: &'w dyn Curves,
    /// The face load of the record, which a closing's own evidence can't hold.
    load: Option<Load>,
}

fn place_checks(
    with: &With<'_>,
    (place, step): (&Place, &Step),
    state: &StepState,
) -> Result<Vec<JudgedCheck>, AssessError> {
    let mut all = Vec::new();
    for asked in &step.evidence {
        let Some(check) = asked.readings.and_then(Check::of) else { continue };
        let Some(given) = state.current(&asked.name) else { continue };
        let Entry::Readings(found) = &given.given.entry else { continue };
        let mut evidence = check.evidence(&made(with.plan, place, found))?;
        if let Evidence::Closing(input) = &mut evidence {
            input.load.clone_from(&with.load);
        }
        let assessment = match (judge_with(&evidence, with.curves), check) {
            (Ok(assessment), _) => assessment,
            // The record holds that it could not be worked out; there is nothing to show.
            (Err(_), Check::Seating) => continue,
            (Err(error), _) => return Err(error.into()),
        };
        all.push(JudgedCheck {
            place: place.clone(),
            name: asked.name.clone(),
            origin: say!("job-readings-of-event", origin = found.origin(), event = given.sequence),
            assessment,
        });
    }
    Ok(all)
}
