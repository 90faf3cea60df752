//! What a new job is opened with: its definitions as they are kept with it, and its id.

use jiff::Timestamp;
use ringtrue_job::job::deed::{self, Now};
use ringtrue_job::job::{Definitions, Job, Plan, opening};
use ringtrue_job::procedure::half_of_other_type;
use ringtrue_job::record::Link;
use ringtrue_seal::definition::joint::Joint;
use ringtrue_seal::definition::procedure::Procedure;
use ringtrue_words::say;

use crate::moment::random;
use crate::problem::Problem;
use crate::refused;

/// What a job is opened with.
pub(crate) struct Parts<'p> {
    /// The joint with its seals.
    pub(crate) joint: &'p Joint,
    /// Texts of the material files that the seals of half a and b name.
    pub(crate) materials: [Option<String>; 2],
    /// Text of the procedure, which [`suits`] the joint.
    pub(crate) procedure: String,
}

/// A job just opened, with what is kept beside it.
pub(crate) struct Opening {
    pub(crate) job: Job,
    pub(crate) link: Link,
    pub(crate) plan: Plan,
    pub(crate) documents: Vec<String>,
}

/// Opens a job under a new id; nothing is stored yet.
pub(crate) fn open(parts: Parts<'_>, now: &Now<'_>) -> Result<Opening, Problem> {
    let (opened, documents) = opening(Definitions {
        joint: parts.joint,
        material_files: parts.materials,
        procedure: parts.procedure,
        program_version: env!("CARGO_PKG_VERSION"),
    })
    .map_err(refused::plan)?;
    let id = new_id(now.at)?;
    let plan = Plan::of(&opened, &documents).map_err(refused::plan)?;
    let (job, link) = deed::open(&id, opened, &documents, now).map_err(refused::deed)?;
    Ok(Opening { job, link, plan, documents: documents.into_values().collect() })
}

/// Is the procedure for the load ring that the joint has?
pub(crate) fn suits(procedure: &Procedure, joint: &Joint) -> Result<(), Problem> {
    let Some(half) = half_of_other_type(procedure, joint) else { return Ok(()) };
    let what = say!(
        "job-procedure-for-another-load-ring",
        procedure = procedure.name,
        load_ring = procedure.load_ring.name(),
        half = half.name()
    );
    Err(Problem::input(what, say!("job-procedure-for-another-load-ring-next")))
}

/// The day and four letters that are not read for one another.
fn new_id(at: Timestamp) -> Result<String, Problem> {
    const LETTERS: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";
    let letters: String =
        random::<5>()?.iter().map(|byte| char::from(LETTERS[usize::from(byte % 32)])).collect();
    Ok(format!("{}-{letters}", at.strftime("%Y%m%d")))
}
