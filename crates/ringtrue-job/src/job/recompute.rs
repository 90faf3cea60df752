//! Gates judged again years later, beside what was stored.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::definition::procedure::DecidedBy;

use super::assess::{Ground, Judged, assess};
use super::plan::Plan;
use super::{Job, load, seating};
use crate::Curves;
use crate::event::{Assessed, Payload};
use crate::record::Link;

/// A stored verdict beside the one that its inputs give now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Recomputed {
    /// Number of the verdict's event.
    pub event: u64,
    /// The stored verdict.
    pub stored: Verdict,
    /// The program that drew it.
    pub stored_by: String,
    /// The verdict now; `None` where the inputs can't be judged by this program.
    pub now: Option<Verdict>,
    /// Is the whole outcome the same: to the last digit, and what finite elements gave
    /// within its error band?
    pub same: bool,
}

/// Judges every gate of a log again, each on what stood before it.
///
/// # Errors
/// The number of the first event that is refused, and why.
pub fn recompute(
    plan: &Plan,
    log: &[Link],
    curves: &dyn Curves,
) -> Result<Vec<Recomputed>, (u64, super::Refusal)> {
    let Some((first, rest)) = log.split_first() else { return Ok(Vec::new()) };
    let mut job = Job::open(&first.event, first.hash).map_err(|refusal| (1, refusal))?;
    let mut all = Vec::new();
    for link in rest {
        if let Payload::Assessed(stored) = &link.event.payload {
            let ground = Ground { plan, job: &job, curves };
            let step = plan.step(&stored.place);
            let now = step.and_then(|step| assess(ground, (&stored.place, step)).ok()?);
            all.push(Recomputed {
                event: link.event.sequence,
                stored: stored.verdict,
                stored_by: stored.program_version.clone(),
                same: now.as_ref().is_some_and(|now| now.is(stored)),
                now: now.map(|now| now.verdict),
            });
        }
        job.apply(&link.event, link.hash).map_err(|refusal| (link.event.sequence, refusal))?;
    }
    Ok(all)
}

impl Judged {
    /// Is this what was stored?
    fn is(&self, stored: &Assessed) -> bool {
        let (now, then) = (&self.outcome, &stored.outcome);
        let same_outcome = match stored.decided_by {
            DecidedBy::FaceLoad => load::same(now, then),
            DecidedBy::Seating => seating::same(now, then),
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
            | DecidedBy::Closing => outcome_alone(now) == outcome_alone(then),
        };
        self.verdict == stored.verdict
            && self.summary == stored.summary
            && self.rests_on == stored.rests_on
            && same_outcome
    }
}

/// The outcome without the program's version, which is compared by itself.
fn outcome_alone(outcome: &str) -> Option<serde_json::Value> {
    let mut value: serde_json::Value = serde_json::from_str(outcome).ok()?;
    value.as_object_mut()?.remove("program_version");
    Some(value)
}
