//! `ringtrue job`: a guided job and its record.

mod act;
mod evidence;
mod exchange;
mod list;
pub(super) mod new;
mod next;
mod of_checks;
mod record;
pub(super) mod report;
mod show;
pub(super) mod verify;

use std::process::ExitCode;

use clap::{Parser, Subcommand};
use ringtrue_job::event::Place;
use ringtrue_job::job::deed::{self, Deed, Now};
use ringtrue_job::job::{Job, Plan, Standing};
use ringtrue_job::record::Link;
use ringtrue_seal::definition::joint::Half;
use ringtrue_store::{Attached, Store};
use serde::Serialize;

use super::bench::{StoreAt, Who};
use super::{output, refused};
use crate::kept::Kept;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Open a job for a joint
    New(new::Arguments),
    /// All jobs, the one with the latest event first
    List(list::Arguments),
    /// What a job's record says
    Show(show::Arguments),
    /// What is due, why, what to take care of, and what evidence is wanted
    Next(next::Arguments),
    /// Record evidence at a step
    Record(Box<record::Arguments>),
    /// Say that an earlier event was wrong, and what is right; nothing is overwritten
    Correct(Box<record::Correct>),
    /// Pass a gate that holds, by an engineer's decision; it stands out everywhere
    Override(act::Override),
    /// Sign a hold point that waits, or the whole job
    Sign(act::Sign),
    /// Say what became known after the job
    FollowUp(act::FollowUp),
    /// Write a job's record as a PDF, its export attached
    Report(report::Arguments),
    /// Write jobs with all that belongs to them as JSON
    Export(exchange::Export),
    /// Take an export in
    Import(exchange::Import),
    /// Check every hash, link and signature of a job, of all, or of an export or PDF
    Verify(verify::Arguments),
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    match &arguments.command {
        Command::New(arguments) => new::run(arguments),
        Command::List(arguments) => list::run(arguments),
        Command::Show(arguments) => show::run(arguments),
        Command::Next(arguments) => next::run(arguments),
        Command::Record(arguments) => record::run(arguments),
        Command::Correct(arguments) => record::correct(arguments),
        Command::Override(arguments) => act::override_gate(arguments),
        Command::Sign(arguments) => act::sign(arguments),
        Command::FollowUp(arguments) => act::follow_up(arguments),
        Command::Report(arguments) => report::run(arguments),
        Command::Export(arguments) => exchange::export(arguments),
        Command::Import(arguments) => exchange::import(arguments),
        Command::Verify(arguments) => verify::run(arguments),
    }
}

/// A job on which something is done.
#[derive(Debug, clap::Args)]
struct OnJob {
    /// The job's id
    id: String,
    #[command(flatten)]
    who: Who,
    #[command(flatten)]
    store: StoreAt,
    /// Print one JSON object
    #[arg(long)]
    json: bool,
}

/// What a deed left behind.
#[derive(Serialize)]
struct Done {
    job: String,
    state: &'static str,
    events: Vec<EventLine>,
    last_hash: String,
    next: Option<StepLine>,
}

/// An event in short.
#[derive(Serialize)]
struct EventLine {
    event: u64,
    kind: &'static str,
    at: String,
    person: String,
    role: &'static str,
    place: Option<PlaceLine>,
    corrected_by: Option<u64>,
    says: String,
}

/// A step, and the half where it has one.
#[derive(Serialize)]
struct PlaceLine {
    step: String,
    half: Option<&'static str>,
}

/// A step and how far it is.
#[derive(Serialize)]
struct StepLine {
    #[serde(flatten)]
    place: PlaceLine,
    title: String,
    stage: &'static str,
    standing: &'static str,
    wants: Vec<String>,
}

impl From<&Place> for PlaceLine {
    fn from(place: &Place) -> Self {
        Self { step: place.step.clone(), half: place.half.map(Half::name) }
    }
}

impl StepLine {
    fn of(one: &ringtrue_job::job::StepStanding<'_>) -> Self {
        let wants = match &one.standing {
            Standing::Wants(names) => names.clone(),
            Standing::Done | Standing::Overridden | Standing::Held(_) | Standing::Unsigned => {
                Vec::new()
            }
        };
        Self {
            place: one.place.into(),
            title: one.step.title.clone(),
            stage: one.step.stage.name(),
            standing: standing_word(&one.standing),
            wants,
        }
    }
}

fn standing_word(standing: &Standing) -> &'static str {
    match standing {
        Standing::Done => "done",
        Standing::Overridden => "overridden",
        Standing::Wants(_) => "due",
        Standing::Held(_) => "held",
        Standing::Unsigned => "waits-for-signature",
    }
}

/// Does a deed as the person who is named: judged, appended, printed.
fn act(on: &OnJob, store: &mut Store, kept: Kept, meant: Meant) -> Result<ExitCode, Problem> {
    let bench = on.who.unlock(store)?;
    let (kept, links) = perform(store, kept, meant, &bench.now())?;
    done(on.json, &kept.job, (&kept.plan, &links))
}

/// Does a deed as the person at the bench: judged and appended.
fn perform(
    store: &mut Store,
    mut kept: Kept,
    Meant { deed, brought }: Meant,
    now: &Now<'_>,
) -> Result<(Kept, Vec<Link>), Problem> {
    for (path, text) in &brought.gauges {
        kept.plan.know_gauge(text).map_err(|error| Problem::text(path, error))?;
    }
    let (job, links) = deed::submit(&kept.job, &kept.plan, deed, now).map_err(refused::deed)?;
    let documents: Vec<String> = brought.gauges.into_iter().map(|(_, text)| text).collect();
    let attached = Attached { documents: &documents, files: &brought.files };
    store.append((&job, kept.job.events()), &links, attached).map_err(refused::store)?;
    kept.job = job;
    kept.log.extend(links.iter().cloned());
    Ok((kept, links))
}

/// One command on a job, as it is typed behind `ringtrue job`.
#[derive(Debug, clap::Parser)]
#[command(no_binary_name = true)]
struct Line {
    #[command(subcommand)]
    command: Command,
}

/// Does what a person types behind `ringtrue job`, the key unlocked before: for a demonstration.
///
/// # Errors
/// As the command itself; a command that records nothing is refused.
pub(super) fn typed(
    store: &mut Store,
    kept: Kept,
    words: &[String],
    now: &Now<'_>,
) -> Result<Kept, Problem> {
    let line = Line::try_parse_from(words)
        .map_err(|error| Problem::input(error.to_string(), "a command that records"))?;
    let meant = match &line.command {
        Command::Record(arguments) => record::meant(arguments, &kept)?,
        Command::Correct(arguments) => record::meant_correction(arguments, &kept)?,
        Command::Override(arguments) => act::meant_override(arguments),
        Command::Sign(arguments) => act::meant_signature(arguments),
        Command::FollowUp(arguments) => act::meant_follow_up(arguments)?,
        Command::New(_)
        | Command::List(_)
        | Command::Show(_)
        | Command::Next(_)
        | Command::Report(_)
        | Command::Export(_)
        | Command::Import(_)
        | Command::Verify(_) => {
            return Err(Problem::input("nothing is recorded by it", "a command that records"));
        }
    };
    Ok(perform(store, kept, meant, now)?.0)
}

/// What a person means to do, and what it brings along.
struct Meant {
    deed: Deed,
    brought: Brought,
}

impl Meant {
    /// A deed that brings nothing along.
    fn bare(deed: Deed) -> Self {
        Self { deed, brought: Brought::default() }
    }
}

/// What is brought along with a deed, to be kept beside its events.
#[derive(Debug, Default)]
struct Brought {
    gauges: Vec<(std::path::PathBuf, String)>,
    files: Vec<Vec<u8>>,
}

/// Prints what a deed left behind.
fn done(json: bool, job: &Job, (plan, links): (&Plan, &[Link])) -> Result<ExitCode, Problem> {
    let next = plan.next(job);
    if json {
        output::json(&Done {
            job: job.id.clone(),
            state: job.state().words(),
            events: links.iter().map(|link| show::event_line(job, link)).collect(),
            last_hash: job.last_hash.to_string(),
            next: next.as_ref().map(StepLine::of),
        })?;
        return Ok(ExitCode::SUCCESS);
    }
    let mut text = String::new();
    for link in links {
        let line = show::event_line(job, link);
        text.push_str(&format!("{} {:>4}  {}\n", job.id, line.event, line.says));
    }
    match next {
        Some(next) => text.push_str(&format!("Next: {}", next::sentence(&next))),
        None if job.signed_at().is_none() => text.push_str("Next: sign the job"),
        None => text.push_str(&format!("The job is {}", job.state().words())),
    }
    output::print(text)?;
    Ok(ExitCode::SUCCESS)
}

/// The half, by its name.
fn half(name: &str) -> Result<Half, String> {
    Half::BOTH
        .into_iter()
        .find(|half| half.name() == name)
        .ok_or_else(|| "the halves are a and b".to_owned())
}
