//! What an event says, as one line for a person: the same in lists and on paper.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::definition::procedure::Step;
use ringtrue_words::{in_english, say, words};

use super::{
    Answer, Content, Entry, Given, Meaning, Payload, Place, ReadingFile, Readings, Stated,
};
use crate::Question;

/// How much of the evidence is said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Detail {
    /// Where readings came from, and how a text begins.
    Short,
    /// Every reading and every word.
    Full,
}

/// Letters of a text that a short line shows.
const SHORT: usize = 60;
/// Rows of a file that are said in full: more than any ring or test is read at by hand.
const MOST_ROWS: usize = 60;

impl Payload {
    /// What the event says, evidence by its names. Corrections and overrides stand out.
    #[must_use]
    pub fn words(&self, detail: Detail) -> String {
        self.said(detail, Naming::Names)
    }

    /// The same where the step is called `title`, and evidence what the step asks for.
    #[must_use]
    pub fn words_at(&self, detail: Detail, (step, title): (&Step, &str)) -> String {
        self.said(detail, Naming::Asks(step, title))
    }

    fn said(&self, detail: Detail, naming: Naming<'_>) -> String {
        let all = |given: &[Given]| all(given, (detail, naming));
        let at = |place: &Place| naming.place(place);
        match self {
            Self::Opened(it) => say!("job-opened-for", title = it.title),
            Self::Recorded(it) => format!("{}: {}", at(&it.place), all(&it.given)),
            Self::Assessed(it) => {
                let summary = match naming {
                    Naming::Names | Naming::Nothing => it.summary.clone(),
                    Naming::Asks(step, _) => summary_at(&it.summary, step),
                };
                say!("job-assessed", place = at(&it.place), summary)
            }
            Self::Corrected(it) if it.given.is_empty() => {
                say!("job-corrected-event", event = it.event, why = it.why)
            }
            Self::Corrected(it) => {
                let now = all(&it.given);
                say!("job-corrected-event-now", event = it.event, why = it.why, now)
            }
            Self::Overridden(it) => {
                say!("job-overridden", place = at(&it.place), verdict = it.assessment, why = it.why)
            }
            Self::Signed(it) => match &it.meaning {
                Meaning::HoldPoint(place) => say!("job-signed-hold-point", place = at(place)),
                Meaning::Job => say!("job-signed-job").to_owned(),
            },
            Self::FollowedUp(it) => {
                let kind = it.kind.name();
                let about = match &it.hours {
                    Some(hours) => say!("job-follow-up-at", kind, hours),
                    None => say!("job-follow-up", kind),
                };
                let photos: String =
                    it.photos.iter().map(|photo| format!(", {}", photo.name)).collect();
                let note =
                    if it.note.is_empty() { String::new() } else { format!(": {}", it.note) };
                format!("{about}{note}{photos}")
            }
        }
    }
}

impl Given {
    /// The evidence in a few words, with its name.
    #[must_use]
    pub fn words(&self) -> String {
        one(self, (Detail::Short, Naming::Names))
    }

    /// The same without its name, for where it stands beside what is asked for.
    #[must_use]
    pub fn words_alone(&self) -> String {
        entry(&self.entry, (Detail::Short, Naming::Nothing))
    }
}

/// Where readings come from that were typed on the spot.
const TYPED: &str = "typed";

/// What evidence and settings are called.
#[derive(Clone, Copy)]
enum Naming<'s> {
    /// By their names, as the command line takes them.
    Names,
    /// By what the step asks for; the step by its title.
    Asks(&'s Step, &'s str),
    /// The evidence not at all.
    Nothing,
}

impl Naming<'_> {
    fn place(self, place: &Place) -> String {
        match self {
            Self::Names | Self::Nothing => place.to_string(),
            Self::Asks(_, title) => title.to_owned(),
        }
    }

    /// Where readings came from; what has no file but settings is as stated.
    fn origin(self, readings: &Readings) -> String {
        let origin = readings.origin();
        let is_stated = readings.files.is_empty() && !readings.stated.is_empty();
        match self {
            Self::Names | Self::Asks(..) | Self::Nothing if is_stated => origin,
            Self::Asks(..) | Self::Nothing if origin == TYPED => say!("job-given-typed").to_owned(),
            Self::Names | Self::Asks(..) | Self::Nothing => say!("job-from", origin),
        }
    }

    fn setting(self, name: &str) -> String {
        match self {
            Self::Names => name.to_owned(),
            Self::Asks(..) | Self::Nothing => {
                words().known("setting-name-", name).unwrap_or_else(|| name.replace('-', " "))
            }
        }
    }
}

/// What stands between the pieces of evidence that a verdict's summary names.
pub(crate) const BETWEEN: &str = ", ";

/// A verdict's summary, which is recorded in English, as it is said here, with evidence named by
/// what its step asks for.
///
/// `Answered no: NAME, NAME; ...` becomes `Answered no: “...”, “...”; ...`, and `QUESTION: NAME
/// VERDICT, NAME VERDICT` the like. What an earlier program summed up in other words stays.
#[must_use]
pub fn summary_at(summary: &str, step: &Step) -> String {
    let Some((head, listed)) = summary.split_once(": ") else { return summary.to_owned() };
    let said = |part: &str| {
        let end = part.find([' ', ';']).unwrap_or(part.len());
        let (name, rest) = part.split_at(end);
        match step.evidence(name) {
            Some(asked) => format!("{}{}", quoted(&asked.ask), verdict_at(rest)),
            None => verdict_at(part),
        }
    };
    let told = listed.split(BETWEEN).map(said).collect::<Vec<_>>().join(BETWEEN);
    let recorded = in_english(|| summaries(listed)).iter().position(|known| known == summary);
    recorded
        .and_then(|at| summaries(&told).into_iter().nth(at))
        .unwrap_or_else(|| format!("{head}: {told}"))
}

/// All that a summary can be of what it lists.
fn summaries(listed: &str) -> Vec<String> {
    let mut all = vec![
        say!("job-values-against-their-limits", verdict = listed),
        say!("job-what-was-be-seen-done", verdict = listed),
    ];
    all.extend(Question::ALL.iter().map(|question| format!("{}: {listed}", question.title())));
    if let Some((names, verdict)) = listed.rsplit_once("; ") {
        all.push(say!("job-answered-no", names, verdict));
    }
    all
}

/// A piece of a summary with its verdict as it is said here.
fn verdict_at(part: &str) -> String {
    let verdict = [Verdict::Conforms, Verdict::NotProven, Verdict::DoesNotConform]
        .into_iter()
        .find_map(|verdict| Some((verdict, part.split_once(in_english(|| verdict.words()))?)));
    match verdict {
        Some((verdict, (before, after))) => format!("{before}{}{after}", verdict.words()),
        None => part.to_owned(),
    }
}

fn ask<'s>(step: &'s Step, name: &'s str) -> &'s str {
    step.evidence(name).map_or(name, |asked| &asked.ask)
}

fn quoted(text: &str) -> String {
    format!("\u{201c}{text}\u{201d}")
}

fn all(given: &[Given], how: (Detail, Naming<'_>)) -> String {
    if given.is_empty() {
        return say!("job-given-done").to_owned();
    }
    given.iter().map(|given| one(given, how)).collect::<Vec<_>>().join("; ")
}

fn one(given: &Given, how: (Detail, Naming<'_>)) -> String {
    let said = entry(&given.entry, how);
    match how.1 {
        Naming::Names => format!("{} {said}", given.name),
        Naming::Asks(step, _) => format!("{}: {said}", ask(step, &given.name)),
        Naming::Nothing => said,
    }
}

fn entry(entry: &Entry, (detail, naming): (Detail, Naming<'_>)) -> String {
    match (entry, detail) {
        (Entry::Tick(Answer::Yes), _) => say!("job-given-yes").to_owned(),
        (Entry::Tick(Answer::No), _) => say!("job-given-no").to_owned(),
        (Entry::Value(value), _) => {
            let u = value.uncertainty.as_ref().map_or(String::new(), |u| format!(" (u {u})"));
            format!("{}{u}", value.typed)
        }
        (Entry::Readings(given), Detail::Short) => {
            format!("{}{}", naming.origin(given), stated(&given.stated, naming))
        }
        (Entry::Readings(given), Detail::Full) => {
            let files: Vec<String> = given.files.iter().map(file).collect();
            let files =
                if files.is_empty() { String::new() } else { ": ".to_owned() + &files.join(" | ") };
            format!("{}{}{files}", naming.origin(given), stated(&given.stated, naming))
        }
        (Entry::Photo(photo), _) => photo.name.clone(),
        (Entry::Text(text), Detail::Short) => quoted(&beginning(text)),
        (Entry::Text(text), Detail::Full) => quoted(text),
        (Entry::SecondPerson, _) => say!("job-seen-by-second-person").to_owned(),
    }
}

/// What was stated beside readings, as typed.
fn stated(all: &[Stated], naming: Naming<'_>) -> String {
    let said = |one: &Stated| format!("{} {}", naming.setting(&one.name), one.typed);
    let all: Vec<String> = all.iter().map(said).collect();
    if all.is_empty() { String::new() } else { format!(" ({})", all.join(", ")) }
}

/// The rows of a file; of a long trace the first, the rest stands in the export.
fn file(file: &ReadingFile) -> String {
    match &file.content {
        Content::Text(text) => {
            let rows = text.lines().map(str::trim);
            let rows: Vec<&str> =
                rows.filter(|row| !row.is_empty() && !row.starts_with('#')).collect();
            let shown = rows[..rows.len().min(MOST_ROWS)].join("; ");
            match rows.len().saturating_sub(MOST_ROWS) {
                0 => shown,
                more => say!("job-more-rows", shown, more),
            }
        }
        Content::Bytes(bytes) => say!("job-bytes", bytes = bytes.len()),
    }
}

fn beginning(text: &str) -> String {
    let line: String = text.lines().next().unwrap_or_default().chars().take(SHORT).collect();
    if line.len() < text.trim_end().len() { line + "\u{2026}" } else { line }
}

#[cfg(test)]
mod tests {
    use ringtrue_seal::definition::procedure::Procedure;
    use ringtrue_seal::definition::{Kind, read, starter};
    use ringtrue_words::{Words, speaking};

    use super::summary_at;

    #[test]
    fn summaries_name_evidence_by_what_is_asked_for_and_keep_their_other_words() {
        let procedure: Procedure = read(starter(Kind::Procedure)).unwrap();
        let step = |id: &str| procedure.step.iter().find(|step| step.id == id).unwrap();
        for (id, summary, said) in [
            (
                "make-safe",
                "Answered no: locked-out, pressure-off; does not conform",
                "Answered no: \u{201c}Blocked, locked out and tagged\u{201d}, \
                 \u{201c}Pressure let off, vent open\u{201d}; does not conform",
            ),
            (
                "make-safe",
                "Ramp finish: locked-out conforms, other not proven",
                "Ramp finish: \u{201c}Blocked, locked out and tagged\u{201d} conforms, \
                 other not proven",
            ),
            ("make-safe", "Seal gap: conforms", "Seal gap: conforms"),
            ("make-safe", "locked-out", "locked-out"),
        ] {
            assert_eq!(summary_at(summary, step(id)), said);
        }
        let language = "language-tag = pl\nverdict-not-proven = niepewne\n\
                        question-seal-gap = Szczelina\n\
                        job-answered-no = Nie: { $names } ({ $verdict })\n";
        let other = Box::leak(Box::new(Words::of_file(language).unwrap()));
        for (summary, said) in [
            ("Seal gap: not proven; no size", "Szczelina: niepewne; no size"),
            (
                "Seal gap: locked-out not proven",
                "Szczelina: \u{201c}Blocked, locked out and \
                tagged\u{201d} niepewne",
            ),
            ("Answered no: x; not proven", "Nie: x (niepewne)"),
            ("Gap: x; not proven", "Gap: x; niepewne"),
        ] {
            assert_eq!(speaking(other, || summary_at(summary, step("make-safe"))), said);
        }
    }
}
