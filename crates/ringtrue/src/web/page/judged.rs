//! What the report says about a step's verdict: its section, as on paper, for the page.

use std::sync::{Arc, Mutex, PoisonError};

use ringtrue_job::digest::Digest;
use ringtrue_job::event::Place;
use ringtrue_job::job::JudgedCheck;
use ringtrue_job::{Curves, Question};
use ringtrue_metrology::units::System;
use ringtrue_report::{Further, Section, check_section, joint_section};
use ringtrue_seal::definition::procedure::{DecidedBy, Step};

use crate::curves::Asked;
use crate::kept::Kept;
use crate::paper::{self, NotSolved};
use crate::recent::Recent;

/// Most steps whose sections are kept.
const MOST: usize = 128;

/// A step of a job, in these units.
type Key = (String, Place, &'static str);
/// Its sections, and the last hash of the record that they were made of.
type Made = (Digest, Arc<Vec<Section>>);

/// Sections that were made for a page.
pub(crate) struct Shown {
    kept: Mutex<Recent<Key, Made>>,
}

impl Default for Shown {
    fn default() -> Self {
        Self { kept: Mutex::new(Recent::new(MOST)) }
    }
}

impl Shown {
    /// What the report says on what decides a step's gate; nothing where that is no question of its
    /// own, or nothing was judged yet. Made once for a record that stays as it is, and not at all
    /// while something is wanted for it that is not solved.
    pub(crate) fn sections(
        &self,
        kept: &Kept,
        place: &Place,
        (system, curves): (System, &Asked),
    ) -> Arc<Vec<Section>> {
        let key = (kept.job.id.clone(), place.clone(), super::frame::units_name(system));
        let known = self.kept.lock().unwrap_or_else(PoisonError::into_inner).get(&key);
        if let Some((_, sections)) = known.filter(|(hash, _)| *hash == kept.job.last_hash) {
            return sections;
        }
        let sections = of_step(kept, place, (system, curves)).unwrap_or_default();
        if !curves.wanted().is_empty() {
            return Arc::default();
        }
        let sections = Arc::new(sections);
        let mut all = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        all.keep(key, (kept.job.last_hash, Arc::clone(&sections)));
        sections
    }
}

/// The section, drawn anew.
pub(crate) fn of_step(
    kept: &Kept,
    place: &Place,
    (system, curves): (System, &dyn Curves),
) -> Option<Vec<Section>> {
    let step = kept.plan.step(place)?;
    let at = (place, step);
    let Some(gate) = step.gate else { return of_checks(kept, at, (system, curves)) };
    let question = match gate.decided_by {
        DecidedBy::Matching => Question::Matching,
        DecidedBy::AssembledHeight => Question::AssembledHeight,
        DecidedBy::SealGap => Question::SealGap,
        DecidedBy::FaceLoad => Question::FaceLoad,
        // A check that decides no gate is looked at all the same.
        DecidedBy::Limits | DecidedBy::Evidence => return of_checks(kept, at, (system, curves)),
        DecidedBy::Alignment
        | DecidedBy::Roughness
        | DecidedBy::Flatness
        | DecidedBy::Seating
        | DecidedBy::Chilling
        | DecidedBy::LeakTest
        | DecidedBy::Agents
        | DecidedBy::Closing => {
            kept.job.steps.get(place)?.verdict()?;
            return of_checks(kept, at, (system, curves));
        }
    };
    kept.job.steps.get(place)?.verdict()?;
    let curves = if question == Question::FaceLoad { curves } else { &NotSolved };
    let section = paper::with_report(kept, (system, curves), |report| {
        joint_section(report, question, place.half)
    });
    section.ok().flatten().map(|section| vec![section])
}

/// Of each check that counts at the step.
fn of_checks(
    kept: &Kept,
    (place, step): (&Place, &Step),
    (system, curves): (System, &dyn Curves),
) -> Option<Vec<Section>> {
    let here = paper::checks_at(kept, place, curves).ok()?;
    let section = |one: &JudgedCheck| {
        let section = check_section(&Further::of(&one.assessment.answer)?, system);
        // Several of a kind are told apart by what each was asked for.
        let asked = step.evidence.iter().find(|asked| asked.name == one.name);
        let title = asked.filter(|_| here.len() > 1).map(|asked| asked.ask.clone());
        Some(Section { title: title.unwrap_or(section.title.clone()), ..section })
    };
    Some(here.iter().filter_map(section).collect())
}
