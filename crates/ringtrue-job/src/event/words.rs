//! What an event says, as one line for a person: the same in lists and on paper.

use super::{Answer, Content, Entry, Given, Meaning, Payload, ReadingFile, Stated};

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
    /// What the event says. Corrections and overrides stand out.
    #[must_use]
    pub fn words(&self, detail: Detail) -> String {
        match self {
            Self::Opened(it) => format!("opened for {}", it.title),
            Self::Recorded(it) => format!("{}: {}", it.place, all(&it.given, detail)),
            Self::Assessed(it) => format!("{}, judged. {}", it.place, it.summary),
            Self::Corrected(it) if it.given.is_empty() => {
                format!("CORRECTED event {}: {}", it.event, it.why)
            }
            Self::Corrected(it) => {
                let now = all(&it.given, detail);
                format!("CORRECTED event {}: {}. Now {now}", it.event, it.why)
            }
            Self::Overridden(it) => {
                format!(
                    "OVERRIDDEN gate {}, verdict of event {}: {}",
                    it.place, it.assessment, it.why
                )
            }
            Self::Signed(it) => match &it.meaning {
                Meaning::HoldPoint(place) => format!("signed hold point {place}"),
                Meaning::Job => "signed the job".to_owned(),
            },
            Self::FollowedUp(it) => {
                let hours = it.hours.as_ref().map_or(String::new(), |hours| format!(" at {hours}"));
                let photos: String =
                    it.photos.iter().map(|photo| format!(", {}", photo.name)).collect();
                let note =
                    if it.note.is_empty() { String::new() } else { format!(": {}", it.note) };
                format!("follow-up, {}{hours}{note}{photos}", it.kind.name())
            }
        }
    }
}

impl Given {
    /// The evidence in a few words, with its name.
    #[must_use]
    pub fn words(&self) -> String {
        one(self, Detail::Short)
    }
}

fn all(given: &[Given], detail: Detail) -> String {
    if given.is_empty() {
        return "done".to_owned();
    }
    given.iter().map(|given| one(given, detail)).collect::<Vec<_>>().join("; ")
}

fn one(Given { name, entry }: &Given, detail: Detail) -> String {
    match (entry, detail) {
        (Entry::Tick(Answer::Yes), _) => format!("{name} yes"),
        (Entry::Tick(Answer::No), _) => format!("{name} NO"),
        (Entry::Value(value), _) => {
            let u = value.uncertainty.as_ref().map_or(String::new(), |u| format!(" (u {u})"));
            format!("{name} {}{u}", value.typed)
        }
        (Entry::Readings(given), Detail::Short) => {
            format!("{name} from {}{}", given.origin(), stated(&given.stated))
        }
        (Entry::Readings(given), Detail::Full) => {
            let files: Vec<String> = given.files.iter().map(file).collect();
            let files =
                if files.is_empty() { String::new() } else { ": ".to_owned() + &files.join(" | ") };
            format!("{name} from {}{}{files}", given.origin(), stated(&given.stated))
        }
        (Entry::Photo(photo), _) => format!("{name} {}", photo.name),
        (Entry::Text(text), Detail::Short) => format!("{name} \u{201c}{}\u{201d}", beginning(text)),
        (Entry::Text(text), Detail::Full) => format!("{name} \u{201c}{text}\u{201d}"),
        (Entry::SecondPerson, _) => format!("{name} seen by a second person"),
    }
}

/// What was stated beside readings, as typed.
fn stated(all: &[Stated]) -> String {
    let all: Vec<String> = all.iter().map(|one| format!("{} {}", one.name, one.typed)).collect();
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
                more => format!("{shown}; \u{2026} and {more} more rows"),
            }
        }
        Content::Bytes(bytes) => format!("{} bytes", bytes.len()),
    }
}

fn beginning(text: &str) -> String {
    let line: String = text.lines().next().unwrap_or_default().chars().take(SHORT).collect();
    if line.len() < text.trim_end().len() { line + "\u{2026}" } else { line }
}
