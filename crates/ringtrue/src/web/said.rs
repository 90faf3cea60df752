//! What events say on pages: steps by their titles, evidence by what is asked for.
//!
//! What people wrote stays as they wrote it.

use ringtrue_job::event::{Detail, Event, Place};
use ringtrue_job::job::Plan;

use super::refusal::title;

/// What an event says that happened at `at`.
pub(crate) fn event(at: Option<(&Plan, &Place)>, event: &Event, detail: Detail) -> String {
    let step = at.and_then(|(plan, place)| Some((plan.step(place)?, title(plan, place))));
    match step {
        Some((step, title)) => event.payload.words_at(detail, (step, &title)),
        None => event.payload.words(detail),
    }
}
