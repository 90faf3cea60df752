//! A job as a store has it: the same for every door.

use ringtrue_job::job::{Job, Plan};
use ringtrue_job::record::Link;
use ringtrue_store::Store;
use ringtrue_words::say;

use crate::problem::Problem;
use crate::refused;

/// A job as a store has it.
#[derive(Debug)]
pub(crate) struct Kept {
    pub(crate) job: Job,
    pub(crate) log: Vec<Link>,
    pub(crate) plan: Plan,
}

impl Kept {
    /// The job with this id, folded, with its definitions.
    pub(crate) fn of(store: &Store, id: &str) -> Result<Self, Problem> {
        let log = store.log(id).map_err(refused::store)?;
        let job = Job::fold(&log).map_err(|(event, refusal)| {
            Problem::store(
                say!("job-record-refused", job = id, event, why = refusal.to_string()),
                say!("job-record-refused-next"),
            )
        })?;
        let documents = store.documents(&log).map_err(refused::store)?;
        let plan = Plan::of(&job.opened, &documents).map_err(refused::plan)?;
        Ok(Self { job, log, plan })
    }
}
