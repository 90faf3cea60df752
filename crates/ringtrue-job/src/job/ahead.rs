//! What finite elements will have to decide, asked for before it is recorded: it takes seconds, and
//! may be there by then.

use ringtrue_seal::definition::procedure::DecidedBy;

use super::assess::Ground;
use super::plan::Plan;
use super::{Job, load, seating};
use crate::Curves;
use crate::event::Place;

/// Asks `curves` for what a record at this place is judged on, as far as that is known: a seating
/// with what counts at the step, else with nothing stated; a face load at the sizes that count.
/// What comes of it is of no consequence here.
pub fn look_ahead(plan: &Plan, (job, place): (&Job, &Place), curves: &dyn Curves) {
    let ground = Ground { plan, job, curves };
    let Some(step) = plan.step(place) else { return };
    match step.gate.map(|gate| gate.decided_by) {
        Some(DecidedBy::FaceLoad) => drop(load::judged(ground)),
        Some(DecidedBy::Seating) => seating::look_ahead(ground, (place, step)),
        Some(
            DecidedBy::Matching
            | DecidedBy::AssembledHeight
            | DecidedBy::SealGap
            | DecidedBy::Limits
            | DecidedBy::Evidence
            | DecidedBy::Alignment
            | DecidedBy::Roughness
            | DecidedBy::Flatness
            | DecidedBy::Chilling
            | DecidedBy::LeakTest
            | DecidedBy::Agents
            | DecidedBy::Closing,
        )
        | None => {}
    }
    if !load::resting_on(plan, job, place).is_empty() {
        drop(load::judged(ground));
    }
}
