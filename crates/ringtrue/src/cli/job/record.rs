//! `ringtrue job record` and `ringtrue job correct`

use std::process::ExitCode;

use ringtrue_job::event::{Corrected, Place, Recorded};
use ringtrue_job::job::deed::{Deed, DeedError};
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::procedure::Step;
use ringtrue_store::Access;

use super::{Brought, Kept, Meant, OnJob, act, evidence, half};
use crate::cli::refused;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(super) struct Arguments {
    #[command(flatten)]
    on: OnJob,
    /// The step's id
    // A setting of a check is called `step` too.
    #[arg(id = "step-id", value_name = "STEP")]
    step: String,
    /// The half, where the step is done on each
    #[arg(long, value_parser = half)]
    half: Option<Half>,
    #[command(flatten)]
    evidence: evidence::Options,
}

#[derive(Debug, clap::Args)]
pub(super) struct Correct {
    #[command(flatten)]
    on: OnJob,
    /// Number of the event that was wrong
    event: u64,
    /// Why
    #[arg(long, value_name = "TEXT")]
    why: String,
    #[command(flatten)]
    evidence: evidence::Options,
}

pub(super) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let mut store = arguments.on.store.open(Access::Write)?;
    let kept = Kept::of(&store, &arguments.on.id)?;
    let meant = meant(arguments, &kept)?;
    act(&arguments.on, &mut store, kept, meant)
}

pub(super) fn meant(arguments: &Arguments, kept: &Kept) -> Result<Meant, Problem> {
    let mut brought = Brought::default();
    let gauge = arguments.evidence.gauge(&mut brought)?;
    let place = Place { step: arguments.step.clone(), half: arguments.half };
    let step = step_of(kept, &place)?;
    let given = arguments.evidence.given(step, (&mut brought, gauge))?;
    Ok(Meant { deed: Deed::Record(Recorded { place, given }), brought })
}

pub(super) fn correct(arguments: &Correct) -> Result<ExitCode, Problem> {
    let mut store = arguments.on.store.open(Access::Write)?;
    let kept = Kept::of(&store, &arguments.on.id)?;
    let meant = meant_correction(arguments, &kept)?;
    act(&arguments.on, &mut store, kept, meant)
}

pub(super) fn meant_correction(arguments: &Correct, kept: &Kept) -> Result<Meant, Problem> {
    let mut brought = Brought::default();
    let gauge = arguments.evidence.gauge(&mut brought)?;
    let entry = kept.job.entry(arguments.event);
    let given = match entry.and_then(|entry| entry.place.as_ref()) {
        Some(place) if arguments.evidence.are_given() => {
            arguments.evidence.given(step_of(kept, place)?, (&mut brought, gauge))?
        }
        Some(_) | None => Vec::new(),
    };
    let (event, why) = (arguments.event, arguments.why.clone());
    Ok(Meant { deed: Deed::Correct(Corrected { event, why, given }), brought })
}

fn step_of<'k>(kept: &'k Kept, place: &Place) -> Result<&'k Step, Problem> {
    kept.plan.step(place).ok_or_else(|| {
        let near = kept.plan.due().iter().map(ToString::to_string).collect();
        refused::deed(DeedError::NoStep { place: place.clone(), near })
    })
}
