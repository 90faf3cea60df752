//! The record of a job: signatures first, then what was corrected and overridden, then everything
//! in the order in which it happened.

use jiff::Timestamp;
use jiff::tz::TimeZone;
use ringtrue_job::event::{Detail, Event, Meaning, Payload};
use ringtrue_job::job::State;
use ringtrue_metrology::conformity::Verdict;

use crate::JobRecord;
use crate::document::{Attached, Block, Cell, Cover, Document, Section, Set, Start, Table};

/// Name of the attached export.
pub const EXPORT_NAME: &str = "record.json";

/// Makes a report the report of a job: its record in front of the evidence, its export attached.
pub(crate) fn of_job(mut document: Document, record: &JobRecord<'_>) -> Document {
    document.title = format!("{} \u{b7} job {}", document.title, record.job.id);
    document.cover.facts.push(("Job".to_owned(), record.job.id.clone()));
    document.cover.facts.push(("Record".to_owned(), state(record)));
    let notice = "The signatures are in the attached record: `ringtrue job verify` checks them, \
                  and this file.";
    document.notice = format!("Job {}, {} events. {notice}", record.job.id, record.job.events());
    document.sections.insert(0, section(record));
    document.sections.push(history(record));
    on_the_cover(&mut document.cover, record);
    document.attached.push(Attached {
        name: EXPORT_NAME.to_owned(),
        media_type: "application/json".to_owned(),
        description: format!("The whole record of job {}", record.job.id),
        content: record.export.as_bytes().to_vec(),
    });
    document
}

/// The first page tells what the record tells: a gate that does not conform, or that was passed by
/// a decision, is never hidden behind values that conform.
fn on_the_cover(cover: &mut Cover, record: &JobRecord<'_>) {
    let gates: Vec<_> = record
        .job
        .steps
        .iter()
        .filter_map(|(place, step)| Some((place, step, step.verdict()?)))
        .filter(|(_, _, last)| last.verdict != Verdict::Conforms)
        .collect();
    let Some(worst) = gates.iter().map(|(_, _, last)| last.verdict).max() else { return };
    if worst > cover.verdict {
        cover.verdict = worst;
        cover.sentence = super::cover::sentence_of(worst).to_owned();
        cover.because = String::new();
    }
    let told = gates.iter().map(|(place, step, last)| match step.overridden() {
        Some(event) => format!("Gate {place}: {}, OVERRIDDEN by event {event}.", last.verdict),
        None => format!("Gate {place}: {}, and it holds the job.", last.verdict),
    });
    let told: Vec<String> = told.collect();
    cover.because = format!("{} {}", cover.because, told.join(" ")).trim().to_owned();
}

fn state(record: &JobRecord<'_>) -> String {
    match record.job.state() {
        State::Open => "not signed: work goes on".to_owned(),
        State::Held => "not signed: a gate holds the job".to_owned(),
        State::Signed => "signed".to_owned(),
        State::ChangedSinceSigned => "changed since it was signed".to_owned(),
    }
}

/// Signatures, corrections, overrides, and what the record can be checked against.
fn section(record: &JobRecord<'_>) -> Section {
    let mut blocks = vec![Block::Heading("Signatures".to_owned()), signatures(record)];
    let decided = decisions(record);
    if !decided.rows.is_empty() {
        blocks.push(Block::Heading("Overrides and corrections".to_owned()));
        blocks.push(Block::Tables(vec![decided]));
    }
    blocks.push(Block::Heading("Against which it can be checked".to_owned()));
    blocks.push(Block::Tables(vec![checks(record)]));
    blocks.push(Block::Small(
        "A changed, missing or added event is found by its hash; whoever holds the whole store and \
         the keys can write another history, which the checkpoint shows when it is kept elsewhere: \
         `ringtrue job verify --all --against SIZE:ROOT`."
            .to_owned(),
    ));
    Section { title: "Record of the job".to_owned(), start: Start::NewPage, blocks }
}

fn signatures(record: &JobRecord<'_>) -> Block {
    if record.job.signatures.is_empty() {
        return Block::Text("Nobody has signed yet.".to_owned());
    }
    let mut table = Table::new([
        ("For", Set::Prose),
        ("By", Set::Words),
        ("As", Set::Words),
        ("When", Set::Words),
        ("Covers event", Set::Numbers),
        ("Key", Set::Words),
    ]);
    for signed in &record.job.signatures {
        let meaning = match &signed.meaning {
            Meaning::Job => "the whole job".to_owned(),
            Meaning::HoldPoint(place) => format!("hold point {place}"),
        };
        table.row([
            Cell::Text(meaning),
            Cell::text(&signed.author.name),
            Cell::text(signed.author.role.name()),
            Cell::Text(moment(signed.at)),
            Cell::Text((signed.sequence - 1).to_string()),
            Cell::Text(signed.author.key.fingerprint()),
        ]);
    }
    Block::Tables(vec![table])
}

fn decisions(record: &JobRecord<'_>) -> Table {
    let mut table = Table::new([
        ("Event", Set::Numbers),
        ("What", Set::Prose),
        ("Why", Set::Prose),
        ("By", Set::Words),
    ]);
    for link in record.log {
        let (what, why) = match &link.event.payload {
            Payload::Overridden(it) => (
                format!("OVERRIDDEN: gate {}, verdict of event {}", it.place, it.assessment),
                &it.why,
            ),
            Payload::Corrected(it) => (format!("CORRECTED: event {}", it.event), &it.why),
            Payload::Opened(_)
            | Payload::Recorded(_)
            | Payload::Assessed(_)
            | Payload::Signed(_)
            | Payload::FollowedUp(_) => continue,
        };
        table.row([
            Cell::Text(link.event.sequence.to_string()),
            Cell::Text(what),
            Cell::text(why),
            Cell::Text(who(&link.event)),
        ]);
    }
    table
}

fn checks(record: &JobRecord<'_>) -> Table {
    let mut table = Table::new([("What", Set::Words), ("Value", Set::Prose)]);
    let mut row = |what: &str, value: String| table.row([Cell::text(what), Cell::Text(value)]);
    row("Job", record.job.id.clone());
    row("Events", record.job.events().to_string());
    row("Last hash", spaced(&record.job.last_hash.to_string()));
    row("Procedure", spaced(&record.job.opened.procedure.to_string()));
    row("Joint", spaced(&record.job.opened.joint.to_string()));
    let (size, root) = record.checkpoint;
    let checkpoint = format!("{size}: {}", spaced(&root.to_string()));
    row("Checkpoint of the store", checkpoint);
    table
}

/// Everything in the order in which it happened.
fn history(record: &JobRecord<'_>) -> Section {
    let mut table = Table::new([
        ("Event", Set::Numbers),
        ("When, UTC", Set::Words),
        ("Who", Set::Words),
        ("What", Set::Prose),
    ]);
    for link in record.log {
        let event = &link.event;
        let corrected = record
            .job
            .entry(event.sequence)
            .and_then(|entry| entry.corrected_by)
            .map_or(String::new(), |by| format!(" [corrected by event {by}]"));
        table.row([
            Cell::Text(event.sequence.to_string()),
            Cell::Text(moment(event.at)),
            Cell::Text(who(event)),
            Cell::Text(event.payload.words(Detail::Full) + &corrected),
        ]);
    }
    Section {
        title: "What was done".to_owned(),
        start: Start::NewPage,
        blocks: vec![Block::Tables(vec![table])],
    }
}

fn who(event: &Event) -> String {
    format!("{} ({})", event.author.name, event.author.role.name())
}

fn moment(at: Timestamp) -> String {
    at.to_zoned_datetime(TimeZone::UTC).strftime("%Y-%m-%d %H:%M").to_string()
}

/// A long number in groups, so that it breaks across lines and can be typed back.
fn spaced(text: &str) -> String {
    let mut out = String::new();
    for (index, letter) in text.chars().enumerate() {
        if index > 0 && index % 8 == 0 {
            out.push(' ');
        }
        out.push(letter);
    }
    out
}
