//! The work in its order: each step with the cautions before it, what was recorded at it, its
//! verdicts, corrections, overrides and signatures.

use ringtrue_job::event::{
    Answer, Content, Entry, Event, Given, Meaning, Payload, Place, ReadingFile, summary_at,
};
use ringtrue_job::job::{Plan, Standing};
use ringtrue_job::procedure::due_steps;
use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::procedure::{Stage, Step};

use super::record::{moment, who};
use super::sentence;
use crate::JobRecord;
use crate::document::{
    Block, Cell, EntryMark, Section, Set, Stands, Start, StepEntry, StepRecord, Table,
};

/// The pages of the work.
pub(super) fn section(record: &JobRecord<'_>) -> Section {
    let mut blocks = Vec::new();
    let mut stage = None;
    for place in record.plan.due() {
        let Some(step) = record.plan.step(place) else { continue };
        let now = (step.stage, place.half);
        if stage != Some(now) {
            stage = Some(now);
            blocks.push(Block::Heading(heading(step.stage, place.half)));
            blocks.push(Block::Steps(Vec::new()));
        }
        if let Some(Block::Steps(steps)) = blocks.last_mut() {
            steps.push(one(record, (place, step)));
        }
    }
    blocks.extend(fell_away(record.plan));
    Section { title: "The work, step by step".to_owned(), start: Start::Below, blocks }
}

fn heading(stage: Stage, half: Option<Half>) -> String {
    let stage = sentence(&stage.name().replace('-', " "));
    let stage = stage.trim_end_matches('.');
    half.map_or_else(|| stage.to_owned(), |half| format!("{stage}, half {}", half.name()))
}

fn one(record: &JobRecord<'_>, (place, step): (&Place, &Step)) -> StepRecord {
    let entries: Vec<StepEntry> = record
        .log
        .iter()
        .filter(|link| {
            let entry = record.job.entry(link.event.sequence);
            entry.and_then(|entry| entry.place.as_ref()) == Some(place)
        })
        .map(|link| entry(record, step, &link.event))
        .collect();
    let standing = record.plan.standings(record.job);
    let standing = standing.iter().find(|one| one.place == place).map(|one| &one.standing);
    StepRecord {
        title: step.title.clone(),
        whose: place.half.map_or_else(String::new, |half| format!("half {}", half.name())),
        standing: match standing {
            Some(Standing::Done) => "done".to_owned(),
            Some(Standing::Overridden) => "OVERRIDDEN".to_owned(),
            Some(Standing::Held(verdict)) => format!("HELD: {verdict}"),
            Some(Standing::Unsigned) => "waits for its signature".to_owned(),
            Some(Standing::Wants(_)) | None => "not done".to_owned(),
        },
        cautions: numbers(record.plan, step),
        stands: stands(standing),
        entries,
    }
}

fn stands(standing: Option<&Standing>) -> Stands {
    match standing {
        Some(Standing::Done) => Stands::Done,
        Some(Standing::Overridden) => Stands::Overridden,
        Some(Standing::Held(_) | Standing::Unsigned | Standing::Wants(_)) | None => Stands::Open,
    }
}

fn entry(record: &JobRecord<'_>, step: &Step, event: &Event) -> StepEntry {
    let corrected = record.job.entry(event.sequence).and_then(|entry| entry.corrected_by);
    let (says, mark) = match &event.payload {
        Payload::Recorded(it) => (given(record.plan, step, &it.given), EntryMark::Evidence),
        Payload::Assessed(it) => {
            (vec![sentence(&summary_at(&it.summary, step))], EntryMark::Verdict(it.verdict))
        }
        Payload::Corrected(it) => {
            let why = format!("Event {} no longer counts: {}", it.event, sentence(&it.why));
            let now =
                if it.given.is_empty() { Vec::new() } else { given(record.plan, step, &it.given) };
            (std::iter::once(why).chain(now).collect(), EntryMark::Correction)
        }
        Payload::Overridden(it) => {
            let what = format!("The verdict of event {} is passed over: ", it.assessment);
            (vec![what + &sentence(&it.why)], EntryMark::Override)
        }
        Payload::Signed(it) => {
            let what = match &it.meaning {
                Meaning::HoldPoint(_) => "Hold point signed",
                Meaning::Job => "Job signed",
            };
            let covers = event.sequence.saturating_sub(1);
            (vec![format!("{what}, up to event {covers}.")], EntryMark::Signature)
        }
        Payload::Opened(_) | Payload::FollowedUp(_) => {
            (vec![event.payload.kind().to_owned()], EntryMark::Evidence)
        }
    };
    let mark = match (corrected, mark) {
        (Some(by), EntryMark::Evidence | EntryMark::Correction | EntryMark::Override) => {
            EntryMark::Corrected(by)
        }
        (_, mark) => mark,
    };
    let who = format!("{}, {}", who(event), moment(event.at));
    StepEntry { event: event.sequence, says, who, mark }
}

/// What was given, as the step asks for it; ticks together.
fn given(plan: &Plan, step: &Step, all: &[Given]) -> Vec<String> {
    if all.is_empty() {
        return vec!["Done.".to_owned()];
    }
    let ask =
        |name: &str| step.evidence(name).map_or_else(|| name.to_owned(), |asked| asked.ask.clone());
    all.iter().map(|one| said(plan, &ask(&one.name), &one.entry)).collect()
}

fn said(plan: &Plan, ask: &str, entry: &Entry) -> String {
    let gauge = |digest: Option<ringtrue_job::digest::Digest>| {
        let named = digest.and_then(|digest| plan.gauge(&digest));
        named.map_or(String::new(), |gauge| format!(", gauge {}", gauge.name))
    };
    match entry {
        Entry::Tick(Answer::Yes) => format!("{ask}: yes"),
        Entry::Tick(Answer::No) => format!("{ask}: NO"),
        Entry::Value(value) => {
            let u = value.uncertainty.as_ref();
            let u = u.map_or(String::new(), |u| format!(", standard uncertainty {u}"));
            format!("{ask}: {}{u}{}", value.typed, gauge(value.gauge))
        }
        Entry::Readings(readings) => {
            let files = readings.files.iter().map(file);
            let stated = readings
                .stated
                .iter()
                .map(|one| format!("{} {}", one.name.replace('-', " "), one.typed));
            let told: Vec<String> = files.chain(stated).collect();
            format!("{ask}{}: {}", gauge(readings.gauge), told.join("; "))
        }
        Entry::Photo(photo) => format!("{ask}: photo {}", photo.name),
        Entry::Text(text) => format!("{ask}: \u{201c}{text}\u{201d}"),
        Entry::SecondPerson => format!("{ask}: seen by this second person"),
    }
}

/// A file of readings with its rows as they were typed; a long one by its name and its length.
fn file(one: &ReadingFile) -> String {
    /// Rows that are printed; the attached record has all of them.
    const MOST_ROWS: usize = 40;
    let text = match &one.content {
        Content::Text(text) => text,
        Content::Bytes(bytes) => return format!("{}, {} bytes", one.origin, bytes.len()),
    };
    let rows = text.lines().map(str::trim);
    let rows: Vec<&str> = rows.filter(|row| !row.is_empty() && !row.starts_with('#')).collect();
    if rows.len() > MOST_ROWS {
        return format!("{}, {} rows", one.origin, rows.len());
    }
    format!("{}: {}", one.origin, rows.join("; "))
}

/// Cautions of a job by their numbers on the page: each text once, in the order of the work.
fn cautions(plan: &Plan) -> Vec<(&str, Vec<&Step>)> {
    let mut all: Vec<(&str, Vec<&Step>)> = Vec::new();
    for step in plan.due().iter().filter_map(|place| plan.step(place)) {
        for text in plan.procedure.cautions(step) {
            match all.iter_mut().find(|(known, _)| *known == text) {
                Some((_, steps)) if steps.last().is_some_and(|last| last.id == step.id) => {}
                Some((_, steps)) => steps.push(step),
                None => all.push((text, vec![step])),
            }
        }
    }
    all
}

fn numbers(plan: &Plan, step: &Step) -> Vec<String> {
    let all = cautions(plan);
    let number = |text: &str| all.iter().position(|(known, _)| *known == text);
    let of_step = plan.procedure.cautions(step).into_iter().filter_map(number);
    of_step.map(|index| format!("C{}", index + 1)).collect()
}

/// The cautions that stood before the steps.
pub(super) fn given_cautions(plan: &Plan) -> Option<Section> {
    let all = cautions(plan);
    if all.is_empty() {
        return None;
    }
    let mut table = Table::new([("", Set::Words), ("Caution", Set::Prose), ("", Set::Prose)]);
    table.columns[0].head = "No.".to_owned();
    table.columns[2].head = "Before the steps".to_owned();
    for (index, (text, steps)) in all.iter().enumerate() {
        let mut ids: Vec<&str> = Vec::new();
        for step in steps {
            // Each half has its own.
            if !ids.contains(&step.id.as_str()) {
                ids.push(&step.id);
            }
        }
        table.row([
            Cell::Text(format!("C{}", index + 1)),
            Cell::text(*text),
            Cell::Text(ids.join(", ")),
        ]);
    }
    let intro = "Each of these stands in the procedure of this job before the steps named. The \
                 safety data sheet, local rules and the seal maker's instruction stand above them.";
    let blocks = vec![Block::Text(intro.to_owned()), Block::Tables(vec![table.close()])];
    Some(Section { title: "Cautions that were given".to_owned(), start: Start::Below, blocks })
}

fn fell_away(plan: &Plan) -> Vec<Block> {
    let gone = due_steps(&plan.procedure, &plan.joint).fell_away;
    let told = gone.iter().map(|gone| {
        let half = gone.half.map_or(String::new(), |half| format!(" (half {})", half.name()));
        format!("{}{half}: {}.", gone.step.title, gone.because)
    });
    let told: Vec<String> = told.collect();
    if told.is_empty() {
        return Vec::new();
    }
    vec![Block::Heading("Steps that this joint does not need".to_owned()), Block::Columns(told)]
}

/// The gates of the job and how each was passed.
pub(super) fn gates(record: &JobRecord<'_>) -> Table {
    let mut table = Table::new([
        ("Gate", Set::Prose),
        ("Decided by", Set::Words),
        ("Verdict", Set::Words),
        ("Event", Set::Numbers),
        ("", Set::Words),
    ]);
    for one in record.plan.standings(record.job) {
        let Some(gate) = one.step.gate else { continue };
        let half = one.place.half.map_or(String::new(), |half| format!(", half {}", half.name()));
        let state = record.job.steps.get(one.place);
        let last = state.and_then(|state| state.verdict());
        let earlier = state.map_or(0, |state| state.assessments.len().saturating_sub(1));
        let note = match (&one.standing, last.map(|last| last.verdict)) {
            (Standing::Overridden, _) => {
                let by = state.and_then(|state| state.overridden());
                by.map_or_else(|| "OVERRIDDEN".to_owned(), |by| format!("OVERRIDDEN, event {by}"))
            }
            (Standing::Held(_), _) => "HOLDS THE JOB".to_owned(),
            (Standing::Unsigned, _) => "not signed".to_owned(),
            (Standing::Wants(_), _) | (Standing::Done, None) => "not judged".to_owned(),
            (Standing::Done, Some(Verdict::Conforms)) if earlier > 0 => {
                format!("judged {} times", earlier + 1)
            }
            (Standing::Done, Some(_)) => String::new(),
        };
        table.row([
            Cell::Text(format!("{}{half}", one.step.title)),
            Cell::text(gate.decided_by.name()),
            last.map_or_else(|| Cell::text("-"), |last| Cell::Verdict(last.verdict)),
            Cell::Text(last.map_or_else(String::new, |last| last.sequence.to_string())),
            Cell::Text(note),
        ]);
    }
    table.close()
}
