//! The work in its order: each step with the cautions before it, what was recorded at it, its
//! verdicts, corrections, overrides and signatures.

use ringtrue_job::event::{
    Answer, Content, Entry, Event, Given, Meaning, Payload, Place, ReadingFile, summary_at,
};
use ringtrue_job::job::{Plan, Standing};
use ringtrue_job::procedure::due_steps;
use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::procedure::{DecidedBy, Stage, Step};
use ringtrue_words::{say, words};

use super::record::{kind, moment, who};
use super::{of_half, sentence};
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
    Section { title: say!("report-work-title").to_owned(), start: Start::Below, blocks }
}

fn heading(stage: Stage, half: Option<Half>) -> String {
    let stage = words().of("stage-", stage.name());
    match half {
        Some(half) => say!("report-work-stage-of-half", stage, half = half.name()),
        None => stage,
    }
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
        whose: place.half.map_or_else(String::new, of_half),
        standing: match standing {
            Some(Standing::Done) => say!("report-work-done").to_owned(),
            Some(Standing::Overridden) => say!("report-work-overridden").to_owned(),
            Some(Standing::Held(verdict)) => {
                say!("report-work-held", verdict = verdict.words())
            }
            Some(Standing::Unsigned) => say!("report-work-unsigned").to_owned(),
            Some(Standing::Wants(_)) | None => say!("report-work-not-done").to_owned(),
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
            let why =
                say!("report-work-no-longer-counts", event = it.event, why = sentence(&it.why));
            let now =
                if it.given.is_empty() { Vec::new() } else { given(record.plan, step, &it.given) };
            (std::iter::once(why).chain(now).collect(), EntryMark::Correction)
        }
        Payload::Overridden(it) => {
            let why = sentence(&it.why);
            let told = say!("report-work-passed-over", event = it.assessment, why);
            (vec![told], EntryMark::Override)
        }
        Payload::Signed(it) => {
            let event = event.sequence.saturating_sub(1);
            let told = match &it.meaning {
                Meaning::HoldPoint(_) => say!("report-work-hold-point-signed", event),
                Meaning::Job => say!("report-work-job-signed", event),
            };
            (vec![told], EntryMark::Signature)
        }
        Payload::Opened(_) | Payload::FollowedUp(_) => {
            (vec![kind(&event.payload).to_owned()], EntryMark::Evidence)
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
        return vec![say!("report-work-all-done").to_owned()];
    }
    let ask =
        |name: &str| step.evidence(name).map_or_else(|| name.to_owned(), |asked| asked.ask.clone());
    all.iter().map(|one| said(plan, &ask(&one.name), &one.entry)).collect()
}

fn said(plan: &Plan, ask: &str, entry: &Entry) -> String {
    let gauge = |digest: Option<ringtrue_job::digest::Digest>| {
        let gauge = digest.and_then(|digest| plan.gauge(&digest));
        gauge.map(|gauge| say!("report-work-gauge", gauge = gauge.name))
    };
    match entry {
        Entry::Tick(Answer::Yes) => say!("report-work-yes", ask),
        Entry::Tick(Answer::No) => say!("report-work-no", ask),
        Entry::Value(value) => {
            let u = value.uncertainty.as_ref();
            let u = u.map(|u| say!("report-work-standard-uncertainty", u = u.to_string()));
            let told = [Some(value.typed.clone()), u, gauge(value.gauge)];
            let told: Vec<String> = told.into_iter().flatten().collect();
            format!("{ask}: {}", told.join(", "))
        }
        Entry::Readings(readings) => {
            let files = readings.files.iter().map(file);
            let stated = readings
                .stated
                .iter()
                .map(|one| format!("{} {}", one.name.replace('-', " "), one.typed));
            let told: Vec<String> = files.chain(stated).collect();
            let told = match told.as_slice() {
                [] => say!("report-work-nothing-stated").to_owned(),
                _ => told.join("; "),
            };
            let asked: Vec<String> =
                std::iter::once(ask.to_owned()).chain(gauge(readings.gauge)).collect();
            format!("{}: {told}", asked.join(", "))
        }
        Entry::Photo(photo) => say!("report-work-photo", ask, photo = photo.name),
        Entry::Text(text) => format!("{ask}: \u{201c}{text}\u{201d}"),
        Entry::SecondPerson => say!("report-work-second-person", ask),
    }
}

/// A file of readings with its rows as they were typed; a long one by its name and its length.
fn file(one: &ReadingFile) -> String {
    /// Rows that are printed; the attached record has all of them.
    const MOST_ROWS: usize = 40;
    let text = match &one.content {
        Content::Text(text) => text,
        Content::Bytes(bytes) => {
            return say!("report-work-bytes", file = one.origin, bytes = bytes.len());
        }
    };
    let rows = text.lines().map(str::trim);
    let rows: Vec<&str> = rows.filter(|row| !row.is_empty() && !row.starts_with('#')).collect();
    if rows.len() > MOST_ROWS {
        return say!("report-work-rows", file = one.origin, rows = rows.len());
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
    let mut table =
        Table::new([("", Set::Words), (say!("report-work-caution"), Set::Prose), ("", Set::Prose)]);
    table.columns[0].head = say!("report-work-number").to_owned();
    table.columns[2].head = say!("report-work-before-steps").to_owned();
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
    let intro = say!("report-work-cautions-above");
    let blocks = vec![Block::Text(intro.to_owned()), Block::Tables(vec![table.close()])];
    Some(Section {
        title: say!("report-work-cautions-title").to_owned(),
        start: Start::Below,
        blocks,
    })
}

fn fell_away(plan: &Plan) -> Vec<Block> {
    let gone = due_steps(&plan.procedure, &plan.joint).fell_away;
    let told = gone.iter().map(|gone| {
        let half = gone.half.map_or(String::new(), |half| format!(" ({})", of_half(half)));
        format!("{}{half}: {}.", gone.step.title, gone.because)
    });
    let told: Vec<String> = told.collect();
    if told.is_empty() {
        return Vec::new();
    }
    vec![Block::Heading(say!("report-work-fell-away").to_owned()), Block::Columns(told)]
}

/// The gates of the job and how each was passed.
pub(super) fn gates(record: &JobRecord<'_>) -> Table {
    let mut table = Table::new([
        (say!("report-work-gate"), Set::Prose),
        (say!("report-work-decided-by"), Set::Words),
        (say!("report-common-verdict"), Set::Words),
        (say!("report-common-event"), Set::Numbers),
        ("", Set::Words),
    ]);
    for one in record.plan.standings(record.job) {
        let Some(gate) = one.step.gate else { continue };
        let half = one.place.half.map_or(String::new(), |half| format!(", {}", of_half(half)));
        let state = record.job.steps.get(one.place);
        let last = state.and_then(|state| state.verdict());
        let earlier = state.map_or(0, |state| state.assessments.len().saturating_sub(1));
        let note = match (&one.standing, last.map(|last| last.verdict)) {
            (Standing::Overridden, _) => {
                let by = state.and_then(|state| state.overridden());
                by.map_or_else(
                    || say!("report-work-overridden").to_owned(),
                    |event| say!("report-work-overridden-by", event),
                )
            }
            (Standing::Held(_), _) => say!("report-work-holds").to_owned(),
            (Standing::Unsigned, _) => say!("report-work-not-signed").to_owned(),
            (Standing::Wants(_), _) | (Standing::Done, None) => {
                say!("report-work-not-judged").to_owned()
            }
            (Standing::Done, Some(Verdict::Conforms)) if earlier > 0 => {
                say!("report-work-judged-times", times = earlier + 1)
            }
            (Standing::Done, Some(_)) => String::new(),
        };
        table.row([
            Cell::Text(format!("{}{half}", one.step.title)),
            Cell::text(decided_by(gate.decided_by)),
            last.map_or_else(|| Cell::text("-"), |last| Cell::Verdict(last.verdict)),
            Cell::Text(last.map_or_else(String::new, |last| last.sequence.to_string())),
            Cell::Text(note),
        ]);
    }
    table.close()
}

/// The word of the procedure's file for what decides a gate.
fn decided_by(what: DecidedBy) -> &'static str {
    match what {
        DecidedBy::Matching => say!("report-work-by-matching"),
        DecidedBy::AssembledHeight => say!("report-work-by-assembled-height"),
        DecidedBy::SealGap => say!("report-work-by-seal-gap"),
        DecidedBy::FaceLoad => say!("report-work-by-face-load"),
        DecidedBy::Limits => say!("report-work-by-limits"),
        DecidedBy::Evidence => say!("report-work-by-evidence"),
        DecidedBy::Alignment => say!("report-work-by-alignment"),
        DecidedBy::Roughness => say!("report-work-by-roughness"),
        DecidedBy::Flatness => say!("report-work-by-flatness"),
        DecidedBy::Seating => say!("report-work-by-seating"),
        DecidedBy::Chilling => say!("report-work-by-chilling"),
        DecidedBy::LeakTest => say!("report-work-by-leak-test"),
        DecidedBy::Agents => say!("report-work-by-agents"),
        DecidedBy::Closing => say!("report-work-by-closing"),
    }
}
