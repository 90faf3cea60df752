//! `ringtrue procedure show|diff`

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use ringtrue_job::procedure::{
    Difference, DueSteps, Field, Place, content_hash, difference, due_steps, half_of_other_type,
    limits_without_gate,
};
use ringtrue_seal::definition::joint::{Half, Joint};
use ringtrue_seal::definition::procedure::{
    Evidence, EvidenceKind, Gate, LoadRingType, Need, Procedure, Step, Times, shipped,
};
use serde::Serialize;

use super::output;
use crate::files;
use crate::problem::Problem;

/// Width of a line of text at the bench, in characters.
const WIDTH: usize = 92;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, clap::Subcommand)]
enum Command {
    /// Print a procedure: stages, steps, cautions, evidence and gates
    Show(Show),
    /// Print what changed from one procedure to another
    Diff(Diff),
}

#[derive(Debug, clap::Args)]
struct Show {
    /// A procedure file, or `toric` or `conical-washer` for the shipped one; left out, the shipped
    /// one for the joint, or for a toric
    procedure: Option<PathBuf>,
    /// Say which steps this joint needs, for which half, and why others fall away
    #[arg(long, value_name = "JOINT")]
    joint: Option<PathBuf>,
    /// Print one JSON object
    #[arg(long)]
    json: bool,
}

#[derive(Debug, clap::Args)]
struct Diff {
    /// The older procedure: a file, `toric` or `conical-washer`
    old: PathBuf,
    /// The newer procedure: a file, `toric` or `conical-washer`
    new: PathBuf,
    /// Print one JSON object
    #[arg(long)]
    json: bool,
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    match &arguments.command {
        Command::Show(arguments) => show(arguments),
        Command::Diff(arguments) => diff(arguments),
    }
}

/// A procedure and the hash of its text.
struct Read {
    procedure: Procedure,
    content_hash: String,
}

/// The shipped procedure of that name, else the file.
fn read(path: &Path) -> Result<Read, Problem> {
    let name = LoadRingType::ALL.into_iter().find(|kind| Path::new(kind.name()) == path);
    let text = match name {
        Some(kind) => shipped(kind).to_owned(),
        None => files::text(path)?,
    };
    let procedure = files::parse(path, &text)?;
    Ok(Read { procedure, content_hash: content_hash(&text).to_string() })
}

fn show(arguments: &Show) -> Result<ExitCode, Problem> {
    let joint = arguments.joint.as_deref().map(files::joint).transpose()?.map(|read| read.joint);
    let of_joint = joint.as_ref().map(|joint| LoadRingType::of(&joint.a.load_ring));
    let default = PathBuf::from(of_joint.unwrap_or(LoadRingType::Toric).name());
    let read = read(arguments.procedure.as_ref().unwrap_or(&default))?;
    if let Some((joint, path)) = joint.as_ref().zip(arguments.joint.as_deref()) {
        suits(&read.procedure, joint).map_err(|problem| problem.in_file(path))?;
    }
    if arguments.json {
        output::json(&Shown::of(&read, joint.as_ref()))?;
    } else {
        output::print(match &joint {
            None => whole(&read),
            Some(joint) => plan(&read, joint),
        })?;
    }
    Ok(ExitCode::SUCCESS)
}

fn suits(procedure: &Procedure, joint: &Joint) -> Result<(), Problem> {
    let Some(half) = half_of_other_type(procedure, joint) else { return Ok(()) };
    let kind = words(LoadRingType::of(&joint.seal(half).load_ring));
    let what = format!(
        "half {} has a {kind} and the procedure is for a {}",
        half.name(),
        words(procedure.load_ring)
    );
    Err(Problem::input(what, format!("take the procedure for a {kind}: each has its own")))
}

/// A procedure as JSON.
#[derive(Serialize)]
struct Shown<'p> {
    name: &'p str,
    version: &'p str,
    origin: &'p str,
    load_ring: LoadRingType,
    content_hash: &'p str,
    steps: Vec<ShownStep<'p>>,
    #[serde(flatten)]
    plan: Option<Plan<'p>>,
}

#[derive(Serialize)]
struct ShownStep<'p> {
    #[serde(flatten)]
    step: &'p Step,
    number: usize,
    times: Times,
    cautions: Vec<&'p str>,
}

/// What a joint makes of a procedure.
#[derive(Serialize)]
struct Plan<'p> {
    due: Vec<Due<'p>>,
    fell_away: Vec<Gone<'p>>,
    limits_without_gate: Vec<&'static str>,
}

#[derive(Serialize)]
struct Due<'p> {
    step: &'p str,
    half: Option<Half>,
}

#[derive(Serialize)]
struct Gone<'p> {
    step: &'p str,
    half: Option<Half>,
    rule: &'static str,
    because: String,
}

impl<'p> Shown<'p> {
    fn of(read: &'p Read, joint: Option<&Joint>) -> Self {
        let procedure = &read.procedure;
        let step = |(index, step): (usize, &'p Step)| ShownStep {
            step,
            number: index + 1,
            times: step.stage.times(),
            cautions: procedure.cautions(step),
        };
        Self {
            name: &procedure.name,
            version: &procedure.version,
            origin: &procedure.origin,
            load_ring: procedure.load_ring,
            content_hash: &read.content_hash,
            steps: procedure.step.iter().enumerate().map(step).collect(),
            plan: joint.map(|joint| Plan::of(procedure, joint)),
        }
    }
}

impl<'p> Plan<'p> {
    fn of(procedure: &'p Procedure, joint: &Joint) -> Self {
        let DueSteps { due, fell_away } = due_steps(procedure, joint);
        let limits = limits_without_gate(procedure, joint);
        Self {
            due: due.iter().map(|due| Due { step: &due.step.id, half: due.half }).collect(),
            fell_away: fell_away
                .into_iter()
                .map(|gone| Gone {
                    step: &gone.step.id,
                    half: gone.half,
                    rule: gone.rule.name(),
                    because: gone.because,
                })
                .collect(),
            limits_without_gate: limits.iter().map(|limit| limit.name()).collect(),
        }
    }
}

fn words(load_ring: LoadRingType) -> &'static str {
    match load_ring {
        LoadRingType::Toric => "toric",
        LoadRingType::ConicalWasher => "conical washer",
    }
}

fn head(read: &Read) -> String {
    let Procedure { name, version, origin, load_ring, step, .. } = &read.procedure;
    format!(
        "{name}, version {version} ({origin})\nFor a {}; {} steps\nContent hash {}\n",
        words(*load_ring),
        step.len(),
        read.content_hash
    )
}

/// Every step in full.
fn whole(read: &Read) -> String {
    let procedure = &read.procedure;
    let mut text = head(read);
    let mut stage = None;
    for (index, step) in procedure.step.iter().enumerate() {
        if stage != Some(step.stage) {
            stage = Some(step.stage);
            let times = match step.stage.times() {
                Times::Once => "once for the joint",
                Times::EachHalf => "once for each half",
            };
            let _ = write!(text, "\n{} ({times})\n", step.stage.name().to_uppercase());
        }
        let _ = write!(text, "\n{:>2} {}: {}\n", index + 1, step.id, step.title);
        if !step.when.is_empty() {
            let rules: Vec<_> = step.when.iter().map(|rule| rule.name()).collect();
            wrapped(&mut text, "Only where:", &rules.join(" and "));
        }
        for caution in procedure.cautions(step) {
            wrapped(&mut text, "CAUTION:", caution);
        }
        wrapped(&mut text, "", &step.what);
        wrapped(&mut text, "Why:", &step.why);
        for evidence in &step.evidence {
            wrapped(&mut text, "Record", &wanted(evidence));
        }
        if let Some(gate) = step.gate {
            wrapped(&mut text, "GATE:", &gate_words(gate));
        }
    }
    text.trim_end().to_owned()
}

fn wanted(evidence: &Evidence) -> String {
    let kind = match evidence.kind {
        EvidenceKind::Tick => "yes or no".to_owned(),
        EvidenceKind::Value => {
            let example = evidence.example.as_deref().unwrap_or_default();
            match evidence.limit {
                Some(limit) => format!("value such as {example}, against {}", limit.name()),
                None => format!("value such as {example}"),
            }
        }
        EvidenceKind::ReadingSet => {
            format!("readings for {}", evidence.readings.map_or("a question", |set| set.name()))
        }
        EvidenceKind::Photo => "photo".to_owned(),
        EvidenceKind::Text => "text".to_owned(),
        EvidenceKind::SecondPerson => "a second person".to_owned(),
    };
    let need = match evidence.need {
        Need::Always => "",
        Need::IfAny => ", if there is any",
    };
    format!("{} ({kind}{need}): {}", evidence.name, evidence.ask)
}

fn gate_words(gate: Gate) -> String {
    let decided = format!("decided by {}", gate.decided_by.name());
    match gate.hold_point {
        Some(point) => format!("{decided}; hold point {}", point.name()),
        None => decided,
    }
}

/// A paragraph under a step, broken at spaces; a word longer than a line keeps its line.
fn wrapped(text: &mut String, lead: &str, words: &str) {
    // Each word brings its space along.
    let mut line = if lead.is_empty() { "  ".to_owned() } else { format!("   {lead}") };
    for word in words.split_whitespace() {
        if line.chars().count() + 1 + word.chars().count() > WIDTH {
            let _ = writeln!(text, "{line}");
            line = "    ".to_owned();
        }
        line.push(' ');
        line.push_str(word);
    }
    let _ = writeln!(text, "{line}");
}

/// What a joint needs, a line each.
fn plan(read: &Read, joint: &Joint) -> String {
    let procedure = &read.procedure;
    let DueSteps { due, fell_away } = due_steps(procedure, joint);
    let mut text = head(read);
    let _ = write!(text, "Joint: {}; {} steps are due\n\n", joint.file.name, due.len());
    for due in &due {
        let gate = due.step.gate.map_or(String::new(), |gate| format!(" [{}]", gate_words(gate)));
        let half = due.half.map_or("      ", half_words);
        let stage = due.step.stage.name();
        let _ = writeln!(text, "{half} {stage:<8} {}: {}{gate}", due.step.id, due.step.title);
    }
    if !fell_away.is_empty() {
        text.push_str("\nFell away:\n");
    }
    for gone in &fell_away {
        let half = gone.half.map_or("      ", half_words);
        let _ = writeln!(text, "{half} {}: {}", gone.step.id, gone.because);
    }
    let limits = limits_without_gate(procedure, joint);
    if !limits.is_empty() {
        let names: Vec<_> = limits.iter().map(|limit| limit.name()).collect();
        let _ = write!(text, "\nLimits that no gate here judges: {}\n", names.join(", "));
    }
    text.trim_end().to_owned()
}

fn half_words(half: Half) -> &'static str {
    match half {
        Half::A => "half a",
        Half::B => "half b",
    }
}

/// A difference as JSON.
#[derive(Serialize)]
struct Compared<'p> {
    old_content_hash: &'p str,
    new_content_hash: &'p str,
    #[serde(flatten)]
    difference: &'p Difference,
}

fn diff(arguments: &Diff) -> Result<ExitCode, Problem> {
    let (old, new) = (read(&arguments.old)?, read(&arguments.new)?);
    let difference = difference(&old.procedure, &new.procedure);
    if arguments.json {
        output::json(&Compared {
            old_content_hash: &old.content_hash,
            new_content_hash: &new.content_hash,
            difference: &difference,
        })?;
    } else {
        output::print(difference_words(&difference, (&old, &new)))?;
    }
    Ok(ExitCode::SUCCESS)
}

fn difference_words(difference: &Difference, (old, new): (&Read, &Read)) -> String {
    let title =
        |read: &Read| format!("{}, version {}", read.procedure.name, read.procedure.version);
    let mut text = format!("From {}\nto   {}\n", title(old), title(new));
    if difference.is_empty() {
        text.push_str(if old.content_hash == new.content_hash {
            "The two texts are the same."
        } else {
            "No step and no word of them differs; only spacing, remarks or order of keys do."
        });
        return text;
    }
    fields(&mut text, &difference.head);
    for Place { id, title, new_after, .. } in &difference.added {
        let _ = writeln!(text, "added   {id}: {title} ({})", after(new_after));
    }
    for Place { id, title, old_after, .. } in &difference.removed {
        let _ = writeln!(text, "removed {id}: {title} (was {})", after(old_after));
    }
    for Place { id, title, old_after, new_after } in &difference.moved {
        let (was, is) = (after(old_after), after(new_after));
        let _ = writeln!(text, "moved   {id}: {title} (was {was}, now {is})");
    }
    for changed in &difference.changed {
        let _ = writeln!(text, "changed {}: {}", changed.id, changed.title);
        fields(&mut text, &changed.fields);
    }
    text.trim_end().to_owned()
}

fn after(id: &Option<String>) -> String {
    id.as_ref().map_or_else(|| "first".to_owned(), |id| format!("after {id}"))
}

fn fields(text: &mut String, fields: &[Field]) {
    for Field { key, old, new } in fields {
        let _ = writeln!(text, "  {key}");
        for (mark, side) in [("-", old), ("+", new)] {
            if let Some(side) = side {
                wrapped(text, mark, side);
            }
        }
    }
}
