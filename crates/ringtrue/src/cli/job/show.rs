//! `ringtrue job show ID`

use std::fmt::Write;
use std::process::ExitCode;

use ringtrue_job::event::Detail;
use ringtrue_job::job::{Job, Standing};
use ringtrue_job::record::Link;
use ringtrue_store::Access;
use serde::Serialize;

use super::{EventLine, Kept, PlaceLine, StepLine};
use crate::cli::bench::{StoreAt, moment};
use crate::cli::output;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(super) struct Arguments {
    /// The job's id
    id: String,
    #[command(flatten)]
    store: StoreAt,
    /// Print one JSON object
    #[arg(long)]
    json: bool,
}

#[derive(Serialize)]
struct Shown {
    job: String,
    title: String,
    state: &'static str,
    events: u64,
    last_hash: String,
    joint: String,
    procedure: String,
    overrides: u64,
    corrections: u64,
    steps: Vec<StepLine>,
    log: Vec<EventLine>,
}

pub(super) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let store = arguments.store.open(Access::Read)?;
    let kept = Kept::of(&store, &arguments.id)?;
    let count = |kind: &str| kept.job.log.iter().filter(|entry| entry.kind == kind).count() as u64;
    let shown = Shown {
        job: kept.job.id.clone(),
        title: kept.job.opened.title.clone(),
        state: kept.job.state().words(),
        events: kept.job.events(),
        last_hash: kept.job.last_hash.to_string(),
        joint: kept.job.opened.joint.to_string(),
        procedure: kept.job.opened.procedure.to_string(),
        overrides: count("overridden"),
        corrections: count("corrected"),
        steps: kept.plan.standings(&kept.job).iter().map(StepLine::of).collect(),
        log: kept.log.iter().map(|link| event_line(&kept.job, link)).collect(),
    };
    if arguments.json {
        output::json(&shown)?;
    } else {
        output::print(text(&shown, &kept))?;
    }
    Ok(ExitCode::SUCCESS)
}

fn text(shown: &Shown, kept: &Kept) -> String {
    let mut text = format!("{}  {}: {}\n", shown.job, shown.title, shown.state);
    for one in kept.plan.standings(&kept.job) {
        match &one.standing {
            Standing::Overridden => {
                let _ =
                    writeln!(text, "  OVERRIDDEN  {}: passed by an engineer's decision", one.place);
            }
            Standing::Held(verdict) => {
                let _ = writeln!(text, "  HELD        {}: {verdict}", one.place);
            }
            Standing::Done | Standing::Wants(_) | Standing::Unsigned => {}
        }
    }
    for line in &shown.log {
        let corrected =
            line.corrected_by.map_or(String::new(), |by| format!("  [corrected by event {by}]"));
        let _ = writeln!(
            text,
            "{:>5}  {}  {} ({})  {}{corrected}",
            line.event, line.at, line.person, line.role, line.says
        );
    }
    let done = kept.plan.standings(&kept.job).iter().filter(|one| one.standing.is_done()).count();
    let _ = write!(
        text,
        "{done} of {} steps done, {} events, last hash {}",
        kept.plan.due().len(),
        shown.events,
        shown.last_hash
    );
    text
}

/// An event in short, with what came of it later.
pub(super) fn event_line(job: &Job, link: &Link) -> EventLine {
    let event = &link.event;
    let entry = job.entry(event.sequence);
    EventLine {
        event: event.sequence,
        kind: event.payload.kind(),
        at: moment(event.at),
        person: event.author.name.clone(),
        role: event.author.role.name(),
        place: entry.and_then(|entry| entry.place.as_ref()).map(PlaceLine::from),
        corrected_by: entry.and_then(|entry| entry.corrected_by),
        says: event.payload.words(Detail::Short),
    }
}
