//! `ringtrue job override`, `sign` and `follow-up`

use std::path::PathBuf;
use std::process::ExitCode;

use ringtrue_job::event::{FollowUp as Kind, FollowedUp, Place};
use ringtrue_job::job::deed::Deed;
use ringtrue_seal::definition::joint::Half;
use ringtrue_store::Access;

use super::{Brought, Kept, Meant, OnJob, act, evidence, half};
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(super) struct Override {
    #[command(flatten)]
    on: OnJob,
    /// The step whose gate holds
    gate: String,
    /// The half, where the step is done on each
    #[arg(long, value_parser = half)]
    half: Option<Half>,
    /// Why
    #[arg(long, value_name = "TEXT")]
    why: String,
}

#[derive(Debug, clap::Args)]
pub(super) struct Sign {
    #[command(flatten)]
    on: OnJob,
    /// The hold point's step; else the first that waits, else the whole job
    #[arg(long, value_name = "STEP")]
    hold_point: Option<String>,
    /// The half, where the step is done on each
    #[arg(long, value_parser = half, requires = "hold_point")]
    half: Option<Half>,
}

#[derive(Debug, clap::Args)]
pub(super) struct FollowUp {
    #[command(flatten)]
    on: OnJob,
    /// hours, leak, removal or still-running
    #[arg(value_parser = kind)]
    kind: Kind,
    /// Running time so far: `1250 h`
    #[arg(long, value_name = "TIME")]
    hours: Option<String>,
    /// In a few words
    #[arg(long, value_name = "TEXT", default_value = "")]
    note: String,
    /// A photo or another file
    #[arg(long, value_name = "FILE")]
    photo: Vec<PathBuf>,
}

pub(super) fn override_gate(arguments: &Override) -> Result<ExitCode, Problem> {
    plain(&arguments.on, meant_override(arguments))
}

pub(super) fn meant_override(arguments: &Override) -> Meant {
    let place = Place { step: arguments.gate.clone(), half: arguments.half };
    Meant::bare(Deed::Override { place, why: arguments.why.clone() })
}

pub(super) fn sign(arguments: &Sign) -> Result<ExitCode, Problem> {
    plain(&arguments.on, meant_signature(arguments))
}

pub(super) fn meant_signature(arguments: &Sign) -> Meant {
    let half = arguments.half;
    let place = arguments.hold_point.clone().map(|step| Place { step, half });
    Meant::bare(Deed::Sign(place))
}

pub(super) fn follow_up(arguments: &FollowUp) -> Result<ExitCode, Problem> {
    plain(&arguments.on, meant_follow_up(arguments)?)
}

pub(super) fn meant_follow_up(arguments: &FollowUp) -> Result<Meant, Problem> {
    let mut brought = Brought::default();
    let photos = arguments
        .photo
        .iter()
        .map(|path| evidence::photo(path, &mut brought))
        .collect::<Result<_, _>>()?;
    let deed = Deed::FollowUp(FollowedUp {
        kind: arguments.kind,
        hours: arguments.hours.clone(),
        note: arguments.note.clone(),
        photos,
    });
    Ok(Meant { deed, brought })
}

/// A deed that needs nothing of the job to be said.
fn plain(on: &OnJob, meant: Meant) -> Result<ExitCode, Problem> {
    let mut store = on.store.open(Access::Write)?;
    let kept = Kept::of(&store, &on.id)?;
    act(on, &mut store, kept, meant)
}

fn kind(name: &str) -> Result<Kind, String> {
    Kind::named(name)
        .ok_or_else(|| format!("the kinds are {}", Kind::ALL.map(Kind::name).join(", ")))
}
