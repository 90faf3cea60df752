//! The record of a job: signatures first, then what was corrected and overridden, the gates, and
//! what it can be checked against.

use jiff::Timestamp;
use jiff::tz::TimeZone;
use ringtrue_job::event::{Author, Detail, Event, Meaning, Payload};
use ringtrue_job::job::State;
use ringtrue_metrology::conformity::Verdict;
use ringtrue_words::{say, words};

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
    document.title = say!("report-record-title", report = document.title, job = record.job.id);
    let notice = say!("report-record-notice");
    document.notice = format!(
        "{} {notice}",
        say!("report-record-of-job", job = record.job.id, events = record.job.events())
    );
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
        description: say!("report-record-export", job = record.job.id),
        content: record.export.as_bytes().to_vec(),
    });
    document.attached.push(Attached {
        name: PLACE_NAME.to_owned(),
        media_type: "application/json".to_owned(),
        description: say!("report-record-place").to_owned(),
        content: record.place.as_bytes().to_vec(),
    });
    document
}

/// The first page tells what the record tells: a gate that does not conform, or that was passed by
/// a decision, is never hidden behind values that conform.
fn on_the_cover(cover: &mut Cover, record: &JobRecord<'_>) {
    cover.kind = say!("report-record-kind").to_owned();
    cover.facts.push((say!("report-record-job").to_owned(), record.job.id.clone()));
    cover.facts.push((say!("report-record-record").to_owned(), state(record)));
    for signed in record.job.signatures.iter().filter(|signed| signed.meaning == Meaning::Job) {
        let who = person(&signed.author);
        cover.facts.push((
            say!("report-record-signed-by").to_owned(),
            format!("{who}, {}", moment(signed.at)),
        ));
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
        Some(event) => say!(
            "report-record-gate-overridden",
            place = place.to_string(),
            verdict = last.verdict.words(),
            event
        ),
        None => say!(
            "report-record-gate-holds",
            place = place.to_string(),
            verdict = last.verdict.words()
        ),
    });
    let told: Vec<String> = told.collect();
    cover.because = format!("{} {}", cover.because, told.join(" ")).trim().to_owned();
}

fn state(record: &JobRecord<'_>) -> String {
    match record.job.state() {
        State::Open => say!("report-record-open").to_owned(),
        State::Held => say!("report-record-held").to_owned(),
        State::Signed => say!("report-record-signed").to_owned(),
        State::ChangedSinceSigned => say!("report-record-changed-since").to_owned(),
    }
}

/// Signatures, corrections, overrides, gates, and what the record can be checked against.
fn section(record: &JobRecord<'_>) -> Section {
    let mut blocks =
        vec![Block::Heading(say!("report-record-signatures").to_owned()), signatures(record)];
    let decided = decisions(record);
    if !decided.rows.is_empty() {
        blocks.push(Block::Heading(say!("report-record-decisions").to_owned()));
        blocks.push(Block::Tables(vec![decided]));
    }
    blocks.push(Block::Heading(say!("report-record-gates").to_owned()));
    blocks.push(Block::Tables(vec![work::gates(record)]));
    blocks.extend(record.remarks.iter().cloned().map(Block::Caution));
    blocks.push(Block::Heading(say!("report-record-checks").to_owned()));
    blocks.extend(checks(record));
    blocks.push(Block::Small(say!("report-record-how-checked").to_owned()));
    Section { title: say!("report-record-section").to_owned(), start: Start::NewPage, blocks }
}

fn signatures(record: &JobRecord<'_>) -> Block {
    if record.job.signatures.is_empty() {
        return Block::Text(say!("report-record-nobody-signed").to_owned());
    }
    let mut table = Table::new([
        (say!("report-record-for"), Set::Prose),
        (say!("report-record-by"), Set::Words),
        (say!("report-record-as"), Set::Words),
        (say!("report-record-when-utc"), Set::Words),
        (say!("report-record-covers-event"), Set::Numbers),
        (say!("report-record-key"), Set::Words),
    ]);
    for signed in &record.job.signatures {
        let meaning = match &signed.meaning {
            Meaning::Job => say!("report-record-whole-job").to_owned(),
            Meaning::HoldPoint(place) => {
                say!("report-record-hold-point", place = place.to_string())
            }
        };
        table.row([
            Cell::Text(meaning),
            Cell::text(&signed.author.name),
            Cell::Text(role(&signed.author)),
            Cell::Text(under_utc(signed.at)),
            Cell::Text((signed.sequence - 1).to_string()),
            Cell::Text(signed.author.key.fingerprint()),
        ]);
    }
    Block::Tables(vec![table.close()])
}

fn decisions(record: &JobRecord<'_>) -> Table {
    let mut table = Table::new([
        (say!("report-common-event"), Set::Numbers),
        (say!("report-record-what"), Set::Prose),
        (say!("report-record-why"), Set::Prose),
        (say!("report-record-by"), Set::Words),
    ]);
    for link in record.log {
        let (what, why) = match &link.event.payload {
            Payload::Overridden(it) => (
                say!(
                    "report-record-overridden",
                    place = it.place.to_string(),
                    event = it.assessment
                ),
                &it.why,
            ),
            Payload::Corrected(it) => (say!("report-record-corrected", event = it.event), &it.why),
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
    of_job.columns[0].head = say!("report-record-this-job").to_owned();
    let mut row = |what: &str, value: String| of_job.row([Cell::text(what), Cell::Text(value)]);
    row(say!("report-record-job"), job.id.clone());
    row(say!("report-record-events"), job.events().to_string());
    row(say!("report-record-last-hash"), spaced(&job.last_hash.to_string()));
    row(
        say!("report-record-opened"),
        say!("report-record-opened-by", moment = moment(job.opened_at), who = opened_by(record)),
    );
    let mut of_store = Table::new([("", Set::Words), ("", Set::Prose)]);
    of_store.columns[0].head = say!("report-record-its-store").to_owned();
    let mut row = |what: &str, value: String| of_store.row([Cell::text(what), Cell::Text(value)]);
    row(say!("report-record-checkpoint"), format!("{size}: {}", spaced(&root.to_string())));
    if let Some(signed) = record.signed_checkpoint {
        let head = format!("{}: {}", signed.size, spaced(&signed.root.to_string()));
        row(
            say!("report-record-last-signed"),
            say!(
                "report-record-signed-checkpoint",
                checkpoint = head,
                name = signed.person,
                moment = moment(signed.at)
            ),
        );
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
        beside("code-job", (say!("report-record-code-of-job"), &head), of_job),
        beside("code-checkpoint", (say!("report-record-code-of-store"), &tree), of_store.close()),
    ]
}

fn opened_by(record: &JobRecord<'_>) -> String {
    record.log.first().map_or_else(String::new, |link| who(&link.event))
}

/// What became known after the job.
fn later(record: &JobRecord<'_>) -> Option<Section> {
    let mut table = Table::new([
        (say!("report-common-event"), Set::Numbers),
        (say!("report-record-when-utc"), Set::Words),
        (say!("report-record-who"), Set::Words),
        (say!("report-record-what"), Set::Prose),
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
        let corrected = by.map_or(String::new(), |by| {
            format!(" {}", say!("report-record-corrected-by", event = by))
        });
        table.row([
            Cell::Text(event.sequence.to_string()),
            Cell::Text(under_utc(event.at)),
            Cell::Text(who(event)),
            Cell::Text(event.payload.words(Detail::Full) + &corrected),
        ]);
    }
    let blocks = vec![Block::Tables(vec![table.clone()])];
    (!table.rows.is_empty()).then_some(Section {
        title: say!("report-record-later").to_owned(),
        start: Start::Below,
        blocks,
    })
}

pub(super) fn who(event: &Event) -> String {
    person(&event.author)
}

fn person(author: &Author) -> String {
    say!("report-record-person", name = author.name, role = role(author))
}

fn role(author: &Author) -> String {
    words().of("role-", author.role.name())
}

/// What kind of event it is.
pub(super) fn kind(payload: &Payload) -> &'static str {
    match payload {
        Payload::Opened(_) => say!("report-record-kind-opened"),
        Payload::Recorded(_) => say!("report-record-kind-recorded"),
        Payload::Assessed(_) => say!("report-record-kind-assessed"),
        Payload::Corrected(_) => say!("report-record-kind-corrected"),
        Payload::Overridden(_) => say!("report-record-kind-overridden"),
        Payload::Signed(_) => say!("report-record-kind-signed"),
        Payload::FollowedUp(_) => say!("report-record-kind-followed-up"),
    }
}

pub(super) fn moment(at: Timestamp) -> String {
    format!("{} UTC", under_utc(at))
}

/// A moment in a column that says UTC at its head.
fn under_utc(at: Timestamp) -> String {
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
