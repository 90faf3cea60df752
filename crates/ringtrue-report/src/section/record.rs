//! The record of a job: signatures first, then what was corrected and overridden, the gates, and
//! what it can be checked against.

use jiff::Timestamp;
use jiff::tz::TimeZone;
use ringtrue_job::event::{Detail, Event, Meaning, Payload};
use ringtrue_job::job::State;
use ringtrue_metrology::conformity::Verdict;

use super::{photos, work};
use crate::JobRecord;
use crate::document::{Attached, Block, Cell, Cover, Document, Section, Set, Start, Table};
use crate::figure::code;

/// Name of the attached export.
pub const EXPORT_NAME: &str = "record.json";
/// Name of the attached place in the store's tree.
pub const PLACE_NAME: &str = "place.json";

/// Makes a report the report of a job: verdicts, signatures and decisions first, then the work in
/// its order, photos, cautions and what became known later, then what the verdicts rest on. The
/// export is attached.
pub(crate) fn of_job(mut document: Document, record: &JobRecord<'_>) -> Document {
    document.title = format!("{} \u{b7} job {}", document.title, record.job.id);
    let notice = "The signatures are in the attached record: `ringtrue job verify` checks them, \
                  and this file.";
    document.notice = format!("Job {}, {} events. {notice}", record.job.id, record.job.events());
    on_the_cover(&mut document.cover, record);
    let evidence = std::mem::take(&mut document.sections);
    document.sections.push(section(record));
    document.sections.push(work::section(record));
    photos::add(&mut document, record);
    document.sections.extend(later(record));
    document.sections.extend(work::given_cautions(record.plan));
    document.sections.extend(evidence);
    document.attached.push(Attached {
        name: EXPORT_NAME.to_owned(),
        media_type: "application/json".to_owned(),
        description: format!("The whole record of job {}", record.job.id),
        content: record.export.as_bytes().to_vec(),
    });
    document.attached.push(Attached {
        name: PLACE_NAME.to_owned(),
        media_type: "application/json".to_owned(),
        description: "The proven place of the job in the tree over its store's events".to_owned(),
        content: record.place.as_bytes().to_vec(),
    });
    document
}

/// The first page tells what the record tells: a gate that does not conform, or that was passed by
/// a decision, is never hidden behind values that conform.
fn on_the_cover(cover: &mut Cover, record: &JobRecord<'_>) {
    cover.kind = "Metal face seal joint \u{b7} record of a job".to_owned();
    cover.facts.push(("Job".to_owned(), record.job.id.clone()));
    cover.facts.push(("Record".to_owned(), state(record)));
    for signed in record.job.signatures.iter().filter(|signed| signed.meaning == Meaning::Job) {
        let who = format!("{} ({})", signed.author.name, signed.author.role.name());
        cover.facts.push(("Signed by".to_owned(), format!("{who}, {}", moment(signed.at))));
    }
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

/// Signatures, corrections, overrides, gates, and what the record can be checked against.
fn section(record: &JobRecord<'_>) -> Section {
    let mut blocks = vec![Block::Heading("Signatures".to_owned()), signatures(record)];
    let decided = decisions(record);
    if !decided.rows.is_empty() {
        blocks.push(Block::Heading("Overrides and corrections".to_owned()));
        blocks.push(Block::Tables(vec![decided]));
    }
    blocks.push(Block::Heading("Gates".to_owned()));
    blocks.push(Block::Tables(vec![work::gates(record)]));
    blocks.extend(record.remarks.iter().cloned().map(Block::Caution));
    blocks.push(Block::Heading("Against which it can be checked".to_owned()));
    blocks.extend(checks(record));
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
    Block::Tables(vec![table.close()])
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

/// Numbers to compare with, as text and for a camera.
fn checks(record: &JobRecord<'_>) -> Vec<Block> {
    let job = record.job;
    let (size, root) = record.checkpoint;
    let mut of_job = Table::new([("", Set::Words), ("", Set::Prose)]);
    of_job.columns[0].head = "This job".to_owned();
    let mut row = |what: &str, value: String| of_job.row([Cell::text(what), Cell::Text(value)]);
    row("Job", job.id.clone());
    row("Events", job.events().to_string());
    row("Last hash", spaced(&job.last_hash.to_string()));
    row("Opened", format!("{} by {}", moment(job.opened_at), opened_by(record)));
    let mut of_store = Table::new([("", Set::Words), ("", Set::Prose)]);
    of_store.columns[0].head = "Its store".to_owned();
    let mut row = |what: &str, value: String| of_store.row([Cell::text(what), Cell::Text(value)]);
    row("Checkpoint", format!("{size}: {}", spaced(&root.to_string())));
    if let Some(signed) = record.signed_checkpoint {
        let head = format!("{}: {}", signed.size, spaced(&signed.root.to_string()));
        row("Last signed", format!("{head} by {}, {}", signed.person, moment(signed.at)));
    }
    let head = format!("{} {} {}", job.id, job.events(), job.last_hash);
    let tree = format!("{size}:{root}");
    let beside =
        |name: &str, (what, text): (&str, &str), table: Table| match code::draw(name, what, text) {
            Some(drawing) => Block::Beside(Box::new((drawing, table))),
            None => Block::Tables(vec![table]),
        };
    let of_job = of_job.close();
    vec![
        beside("code-job", ("job, number of events and last hash", &head), of_job),
        beside("code-checkpoint", ("the store's checkpoint", &tree), of_store.close()),
    ]
}

fn opened_by(record: &JobRecord<'_>) -> String {
    record.log.first().map_or_else(String::new, |link| who(&link.event))
}

/// What became known after the job.
fn later(record: &JobRecord<'_>) -> Option<Section> {
    let mut table = Table::new([
        ("Event", Set::Numbers),
        ("When, UTC", Set::Words),
        ("Who", Set::Words),
        ("What", Set::Prose),
    ]);
    for link in record.log {
        let event = &link.event;
        let entry = record.job.entry(event.sequence);
        let follows = match &event.payload {
            Payload::FollowedUp(_) => true,
            // A correction of a follow-up has no step either.
            Payload::Corrected(_) => entry.is_some_and(|entry| entry.place.is_none()),
            Payload::Opened(_)
            | Payload::Recorded(_)
            | Payload::Assessed(_)
            | Payload::Overridden(_)
            | Payload::Signed(_) => false,
        };
        if !follows {
            continue;
        }
        let by = entry.and_then(|entry| entry.corrected_by);
        let corrected = by.map_or(String::new(), |by| format!(" CORRECTED by event {by}."));
        table.row([
            Cell::Text(event.sequence.to_string()),
            Cell::Text(moment(event.at)),
            Cell::Text(who(event)),
            Cell::Text(event.payload.words(Detail::Full) + &corrected),
        ]);
    }
    let blocks = vec![Block::Tables(vec![table.clone()])];
    (!table.rows.is_empty()).then_some(Section {
        title: "What became known later".to_owned(),
        start: Start::Below,
        blocks,
    })
}

pub(super) fn who(event: &Event) -> String {
    format!("{} ({})", event.author.name, event.author.role.name())
}

pub(super) fn moment(at: Timestamp) -> String {
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
