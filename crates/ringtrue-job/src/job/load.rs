//! The face load of a job: judged on the joint, its load rings and the sizes that were measured.

use ringtrue_metrology::units::Length;
use ringtrue_seal::definition::procedure::{DecidedBy, ReadingSet};
use ringtrue_seal::{closing, gap_stack};
use serde_json::Value;
use uom::si::length::millimeter;

use super::assess::{AssessError, Ground, Judged, chain, json, made, not_worked_out, of_rooms};
use super::assessments::JudgedLoad;
use super::plan::Plan;
use super::step::GivenAt;
use super::{AssessedAt, Job};
use crate::check::Check;
use crate::event::{Entry, Payload, Place, Readings};
use crate::record::Link;
use crate::{Assessment, Evidence, Question, evidence, judge_load};

/// The gate that a face load decides. A load that can't be worked out is not proven.
///
/// # Errors
/// [`AssessError::Text`] for measured sizes that can't be read.
pub(super) fn judged(ground: Ground<'_>) -> Result<Judged, AssessError> {
    let rests_on = stack(ground.plan, ground.job).map(|(given, _)| given.sequence);
    let rests_on: Vec<u64> = rests_on.into_iter().collect();
    match assessment(ground) {
        Ok(assessment) => Ok(of_rooms(&assessment, rests_on)),
        Err(AssessError::Room(error)) => Ok(not_worked_out(Question::FaceLoad, &error, rests_on)),
        Err(error) => Err(error),
    }
}

fn assessment(ground: Ground<'_>) -> Result<Assessment, AssessError> {
    let measured = stack(ground.plan, ground.job).map(|(_, readings)| readings);
    let nominal = gap_stack::nominal(&chain(ground.plan, measured)?)?;
    let input = evidence::joint_load(&ground.plan.joint, ground.plan.materials(), nominal, None)?;
    Ok(judge_load(&input, &mut |problems| ground.curves.of(problems))?)
}

/// The measured sizes of the gap that count now.
pub(super) fn stack<'j>(plan: &Plan, job: &'j Job) -> Option<(&'j GivenAt, &'j Readings)> {
    let at = |place: &Place| {
        let state = job.steps.get(place)?;
        let asked = plan.step(place)?.evidence.iter();
        let mut sets = asked.filter(|asked| asked.readings == Some(ReadingSet::SealGap));
        sets.find_map(|asked| {
            let given = state.current(&asked.name)?;
            match &given.given.entry {
                Entry::Readings(readings) => Some((given, readings)),
                Entry::Tick(_)
                | Entry::Value(_)
                | Entry::Photo(_)
                | Entry::Text(_)
                | Entry::SecondPerson => None,
            }
        })
    };
    plan.due().iter().rev().find_map(at)
}

impl Plan {
    /// The gap that the measured sizes of a job make, with the drawing's in place of those that
    /// were not measured; `None` where none was, or the sizes make no gap.
    #[must_use]
    pub fn measured_gap(&self, job: &Job) -> Option<Length> {
        let (_, readings) = stack(self, job)?;
        gap_stack::nominal(&chain(self, Some(readings)).ok()?).ok()
    }
}

impl Plan {
    /// The mean gap that feelers found round the closed joint; `None` where none were read.
    #[must_use]
    pub fn feeler_gap(&self, job: &Job) -> Option<Length> {
        self.due().iter().rev().find_map(|place| {
            let state = job.steps.get(place)?;
            let asked = self.step(place)?.evidence.iter();
            let mut sets = asked.filter(|asked| asked.readings == Some(ReadingSet::Closing));
            sets.find_map(|asked| {
                let Entry::Readings(found) = &state.current(&asked.name)?.given.entry else {
                    return None;
                };
                let Ok(Evidence::Closing(input)) =
                    Check::Closing.evidence(&made(self, place, found))
                else {
                    return None;
                };
                let mean = closing::evaluate(&input).ok()?.gap?.mean_mm;
                Some(Length::new::<millimeter>(mean))
            })
        })
    }
}

/// Gates that rest on what is recorded at a place and were judged before: a face load on the sizes.
pub(super) fn resting_on(plan: &Plan, job: &Job, place: &Place) -> Vec<Place> {
    let sizes = |asked: &ringtrue_seal::definition::procedure::Evidence| {
        asked.readings == Some(ReadingSet::SealGap)
    };
    if !plan.step(place).is_some_and(|step| step.evidence.iter().any(sizes)) {
        return Vec::new();
    }
    judged_loads(plan, job).map(|(place, _)| place.clone()).collect()
}

fn judged_loads<'p>(
    plan: &'p Plan,
    job: &'p Job,
) -> impl DoubleEndedIterator<Item = (&'p Place, &'p AssessedAt)> {
    plan.due().iter().filter_map(|place| {
        let gate = plan.step(place)?.gate?;
        let verdict = job.steps.get(place)?.verdict()?;
        (gate.decided_by == DecidedBy::FaceLoad).then_some((place, verdict))
    })
}

/// The last face load of a record, worked out again; none where it holds none that can be.
///
/// # Errors
/// As [`judged`].
pub(super) fn of_record(
    ground: Ground<'_>,
    log: &[Link],
) -> Result<Option<JudgedLoad>, AssessError> {
    let Some((_, last)) = judged_loads(ground.plan, ground.job).next_back() else {
        return Ok(None);
    };
    let assessment = match assessment(ground) {
        Ok(assessment) => assessment,
        Err(AssessError::Room(_)) => return Ok(None),
        Err(error) => return Err(error),
    };
    let outcome = log.iter().find(|link| link.event.sequence == last.sequence).and_then(|link| {
        let Payload::Assessed(stored) = &link.event.payload else { return None };
        Some(stored.outcome.as_str())
    });
    let same = last.verdict == assessment.verdict()
        && outcome.is_some_and(|outcome| same(&json(&assessment), outcome));
    Ok(Some(JudgedLoad {
        event: last.sequence,
        stored_by: last.program_version.clone(),
        same,
        assessment,
    }))
}

/// Do two outcomes say the same loads at the same gaps, within the wider of their error bands? The
/// digits of a finite-element result behind that may differ from machine to machine.
pub(super) fn same(a: &str, b: &str) -> bool {
    let read = |text: &str| serde_json::from_str::<Value>(text).ok();
    let (Some(a), Some(b)) = (read(a), read(b)) else { return false };
    let band = |of: &Value| of["error_band_percent"].as_f64().unwrap_or(0.0) / 100.0;
    let within = band(&a).max(band(&b)).max(f64::EPSILON);
    let near = |a: &Value, b: &Value, within: f64| match (a.as_f64(), b.as_f64()) {
        (Some(a), Some(b)) => (a - b).abs() <= within * a.abs().max(b.abs()),
        (None, None) => a.is_null() && b.is_null(),
        (_, _) => false,
    };
    // A rounding of metres to millimetres is no other gap.
    const ROUNDING: f64 = 1e-9;
    let at_gap = |name: &str| {
        let (a, b) = (&a["joint"]["at_gap"][name], &b["joint"]["at_gap"][name]);
        near(&a["gap_mm"], &b["gap_mm"], ROUNDING)
            && near(&a["face_load_n_per_mm"], &b["face_load_n_per_mm"], within)
            && near(
                &a["standard_uncertainty_n_per_mm"],
                &b["standard_uncertainty_n_per_mm"],
                2.0 * within,
            )
    };
    let limit = |name: &str| near(&a["joint"][name], &b["joint"][name], ROUNDING);
    ["min", "nominal", "max"].into_iter().all(at_gap)
        && ["face_load_min_n_per_mm", "face_load_max_n_per_mm"].into_iter().all(limit)
        && ["question", "verdict", "complete", "reason"].into_iter().all(|key| a[key] == b[key])
}
