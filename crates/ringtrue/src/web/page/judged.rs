//! What the report says about a step's verdict: its section, as on paper, for the page.

use std::sync::Arc;

use ringtrue_job::Question;
use ringtrue_job::event::Place;
use ringtrue_metrology::units::System;
use ringtrue_report::{Further, Section, check_section, joint_section};
use ringtrue_seal::definition::procedure::DecidedBy;

use crate::kept::Kept;
use crate::paper::{self, With};

/// The section on what decides a step's gate; `None` where that is no question of its own, or
/// nothing was judged yet.
pub(crate) fn sections(kept: &Kept, place: &Place, system: System) -> Arc<Vec<Section>> {
    let found = of_step(kept, place, system).unwrap_or_default();
    Arc::new(found)
}

fn of_step(kept: &Kept, place: &Place, system: System) -> Option<Vec<Section>> {
    let gate = kept.plan.step(place)?.gate?;
    kept.job.steps.get(place)?.verdict()?;
    let question = match gate.decided_by {
        DecidedBy::Matching => Question::Matching,
        DecidedBy::AssembledHeight => Question::AssembledHeight,
        DecidedBy::SealGap => Question::SealGap,
        DecidedBy::FaceLoad => Question::FaceLoad,
        DecidedBy::Limits | DecidedBy::Evidence => return None,
        DecidedBy::Alignment
        | DecidedBy::Roughness
        | DecidedBy::Flatness
        | DecidedBy::Chilling
        | DecidedBy::LeakTest
        | DecidedBy::Agents => {
            let judged = paper::judged(kept, With::Record).ok()?;
            let here = judged.checks.iter().filter(|one| one.place == *place);
            let further = here.filter_map(|one| Further::of(&one.assessment.answer));
            return Some(further.map(|one| check_section(&one, system)).collect());
        }
    };
    // Its curves were solved, and kept, when the gate was judged.
    let with = if question == Question::FaceLoad { With::Load } else { With::Record };
    let section = paper::with_report(kept, (system, with), |report| {
        joint_section(report, question, place.half)
    });
    section.ok().flatten().map(|section| vec![section])
}
