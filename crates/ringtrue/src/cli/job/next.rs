//! `ringtrue job next ID`

use std::fmt::Write;
use std::process::ExitCode;

use ringtrue_job::job::deed::kind_words;
use ringtrue_job::job::{Standing, StepStanding};
use ringtrue_seal::definition::procedure::{Evidence, Need};
use ringtrue_store::Access;
use serde::Serialize;

use super::{Kept, StepLine};
use crate::cli::bench::StoreAt;
use crate::cli::{output, refused};
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
struct Next {
    job: String,
    state: &'static str,
    step: Option<Step>,
    way_on: String,
}

#[derive(Serialize)]
struct Step {
    #[serde(flatten)]
    line: StepLine,
    cautions: Vec<String>,
    what: String,
    why: String,
    evidence: Vec<Wanted>,
    gate: Option<String>,
}

#[derive(Serialize)]
struct Wanted {
    name: String,
    kind: &'static str,
    ask: String,
    always: bool,
    example: Option<String>,
    limit: Option<&'static str>,
    /// Settings without which a set of readings is not recorded.
    stated: Vec<String>,
    given: bool,
}

pub(super) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let store = arguments.store.open(Access::Read)?;
    let kept = Kept::of(&store, &arguments.id)?;
    let next = kept.plan.next(&kept.job);
    let way_on = match &next {
        Some(next) => refused::way_on(&next.standing),
        None if kept.job.signed_at().is_none() => {
            "everything is done: sign the job, `ringtrue job sign`".to_owned()
        }
        None => format!("the job is {}", kept.job.state().words()),
    };
    let next = Next {
        job: kept.job.id.clone(),
        state: kept.job.state().words(),
        step: next.map(|next| step(&kept, &next)),
        way_on,
    };
    if arguments.json {
        output::json(&next)?;
    } else {
        output::print(text(&next))?;
    }
    Ok(ExitCode::SUCCESS)
}

fn step(kept: &Kept, next: &StepStanding<'_>) -> Step {
    let state = kept.job.steps.get(next.place);
    let wanted = |asked: &Evidence| Wanted {
        name: asked.name.clone(),
        kind: kind_words(asked.kind),
        ask: asked.ask.clone(),
        always: asked.need == Need::Always,
        example: asked.example.clone(),
        limit: asked.limit.map(|limit| limit.name()),
        stated: asked.stated.clone(),
        given: state.is_some_and(|state| state.current(&asked.name).is_some()),
    };
    let cautions = kept.plan.procedure.cautions(next.step);
    Step {
        line: StepLine::of(next),
        cautions: cautions.into_iter().map(str::to_owned).collect(),
        what: next.step.what.clone(),
        why: next.step.why.clone(),
        evidence: next.step.evidence.iter().map(wanted).collect(),
        gate: next.step.gate.map(|gate| {
            let signed =
                if gate.hold_point.is_some() { "; a hold point: it is signed" } else { "" };
            format!("decided by {}{signed}", gate.decided_by.name())
        }),
    }
}

fn text(next: &Next) -> String {
    let Some(step) = &next.step else { return upper_first(&next.way_on) };
    let mut text = String::new();
    let half = step.line.place.half.map_or(String::new(), |half| format!(", half {half}"));
    let _ = writeln!(
        text,
        "{}{half}  ({}, {})",
        step.line.title, step.line.place.step, step.line.stage
    );
    for caution in &step.cautions {
        let _ = writeln!(text, "  Caution: {caution}");
    }
    let _ = writeln!(text, "  {}", step.what);
    let _ = writeln!(text, "  Why: {}", step.why);
    for wanted in &step.evidence {
        let mark = if wanted.given {
            "given"
        } else if wanted.always {
            "wanted"
        } else {
            "if any"
        };
        let example = wanted.example.as_ref().map_or(String::new(), |e| format!(", such as {e}"));
        let _ = writeln!(
            text,
            "  {mark:<8}{:<18}{}: {}{example}",
            wanted.name, wanted.kind, wanted.ask
        );
        for name in &wanted.stated {
            let _ = writeln!(text, "  {:<8}{:<18}`--{name}` is wanted with it", "", "");
        }
    }
    if let Some(gate) = &step.gate {
        let _ = writeln!(text, "  Gate: {gate}");
    }
    let _ = write!(text, "  {}", upper_first(&next.way_on));
    text
}

/// Where a step stands, in a sentence.
pub(super) fn sentence(next: &StepStanding<'_>) -> String {
    match &next.standing {
        Standing::Wants(_) => format!("{} - {}", next.place, next.step.title),
        Standing::Held(_) => {
            format!("{} holds the job; {}", next.place, refused::way_on(&next.standing))
        }
        Standing::Unsigned => format!("{} waits for a signature", next.place),
        Standing::Done | Standing::Overridden => format!("{} is done", next.place),
    }
}

fn upper_first(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}
