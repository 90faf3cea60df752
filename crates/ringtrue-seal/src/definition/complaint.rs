//! The parser's complaints in a fitter's words.
//!
//! Known keys and the form of a missing value come from the JSON Schema of the same types.

use ringtrue_metrology::units::clip;
use ringtrue_words::say;
use serde_path_to_error::Segment;

use super::{Flaw, Kind, Misfit, TextError, Why, place, schema};

type ReadError = serde_path_to_error::Error<toml::de::Error>;

/// What toml could not make sense of.
pub(super) fn of_syntax(text: &str, error: &toml::de::Error) -> TextError {
    let span = error.span().unwrap_or(0..0);
    let piece = clip(text.get(span.clone()).unwrap_or_default().lines().next().unwrap_or_default());
    let (message, expected) = match error.message().split_once(", expected ") {
        Some((message, expected)) => (message, expected),
        None => (error.message(), ""),
    };
    let (found, fits) = match message {
        "duplicate key" => (
            say!("definition-second-time", key = piece),
            say!("definition-keep-one-two").to_owned(),
        ),
        "recursion limit" | "cannot recurse further; max recursion depth met" => {
            (say!("definition-too-deep").to_owned(), say!("definition-levels-at-most").to_owned())
        }
        "string values must be quoted" | "unexpected key or value" | "invalid value" => (
            if piece.is_empty() {
                message.to_owned()
            } else {
                say!("definition-has-no-quotes", piece)
            },
            say!("definition-quotes-wanted").to_owned(),
        ),
        _ => (
            if piece.is_empty() {
                message.to_owned()
            } else {
                say!("definition-syntax-at", message, piece)
            },
            syntax_that_fits(expected),
        ),
    };
    TextError::at(text, span.start, found, fits)
}

fn syntax_that_fits(expected: &str) -> String {
    let line = say!("definition-line-wanted");
    match expected {
        "" | "nothing" => line.to_owned(),
        wanted => say!("definition-syntax-wanted", wanted, line),
    }
}

/// What does not fit the definition's types.
pub(super) fn of(text: &str, kind: Kind, error: &ReadError) -> TextError {
    let inner = error.inner();
    let span = inner.span();
    let piece = span.clone().and_then(|span| text.get(span)).unwrap_or_default();
    let about = About {
        kind,
        message: inner.message(),
        path: Path::of(error.path()),
        piece: clip(piece.trim_matches(['"', '\''])),
    };
    let (found, fits) = about.found_and_fits();
    match span.filter(|_| !about.is_missing_at_top()) {
        Some(span) => TextError::at(text, span.start, found, fits),
        None => TextError::of_text(found, fits),
    }
}

/// The same for a definition that was put together from fields: no text, but the path of the key.
pub(super) fn of_fields(table: &toml::Value, kind: Kind, error: &ReadError) -> Flaw {
    let path = Path::of(error.path());
    let piece = match place::within(table, &path.shown) {
        Some(toml::Value::String(text)) => text.clone(),
        Some(other) => other.to_string(),
        None => String::new(),
    };
    let message = error.inner().message();
    let about = About { kind, message, path, piece: clip(&piece) };
    let (found, fits) = about.found_and_fits();
    let lead = about.path.lead();
    let found = found.strip_prefix(&lead).map_or_else(|| found.clone(), str::to_owned);
    let path = about.path.shown.clone();
    match message.strip_prefix("missing field `").and_then(|rest| rest.strip_suffix('`')) {
        Some(key) => {
            let path = if path.is_empty() { key.to_owned() } else { format!("{path}.{key}") };
            Flaw { misfit: Misfit { path, found, fits }, why: Why::Missing }
        }
        None => Flaw { misfit: Misfit { path, found, fits }, why: Why::Unfit },
    }
}

/// ` did you mean ...? ` with the nearest of the known names, or nothing.
pub(super) fn nearest<'n>(name: &str, known: impl Iterator<Item = &'n str>) -> String {
    // Long garbage is near to nothing, and the distance costs its length squared.
    if name.chars().count() > 64 {
        return String::new();
    }
    known
        .map(|known| (strsim::damerau_levenshtein(known, name), known))
        .filter(|(distance, known)| *distance <= 1 + known.chars().count() / 3)
        .min_by_key(|(distance, _)| *distance)
        .map_or_else(String::new, |(_, known)| say!("definition-did-you-mean", known))
}

/// One complaint of the parser, and where it arose.
struct About<'e> {
    kind: Kind,
    message: &'e str,
    path: Path,
    piece: String,
}

type FoundAndFits = (String, String);

impl About<'_> {
    fn found_and_fits(&self) -> FoundAndFits {
        self.missing_key()
            .or_else(|| self.unknown_key())
            .or_else(|| self.unknown_word())
            .or_else(|| self.other_type())
            .or_else(|| self.not_a_date())
            .or_else(|| self.of_quantity())
            .unwrap_or_else(|| self.anything_else())
    }

    fn is_missing_at_top(&self) -> bool {
        self.message.starts_with("missing field `") && self.path.keys.is_empty()
    }

    fn missing_key(&self) -> Option<FoundAndFits> {
        let key = self.message.strip_prefix("missing field `")?.strip_suffix('`')?;
        let found = match self.path.table() {
            Some(table) => say!("definition-missing-from-table", key, table),
            None => say!("definition-missing-from-file", key),
        };
        let mut keys = self.path.keys.clone();
        keys.push(key.to_owned());
        let form = schema::Form::at(self.kind, &keys);
        let line = form.as_ref().map_or_else(|| format!("`{key}`"), |form| form.line(&keys));
        let what = form.and_then(|form| form.description()).unwrap_or_default();
        let fits = if what.is_empty() {
            say!("definition-add", line)
        } else {
            say!("definition-add-described", line, what)
        };
        Some((found, fits))
    }

    fn unknown_key(&self) -> Option<FoundAndFits> {
        if !self.message.starts_with("unknown field `") {
            return None;
        }
        // The path ends with the unknown key itself.
        let parent = self.path.parent();
        let key = self.piece.as_str();
        let found = match parent.table() {
            Some(table) => say!("definition-no-key-of-table", key, table),
            None => say!("definition-no-key-of-file", key),
        };
        let known = schema::Form::at(self.kind, &parent.keys).map(|form| form.keys());
        let known = known.unwrap_or_default();
        let hint = nearest(key, known.iter().map(String::as_str));
        Some((found, say!("definition-known-keys", hint, keys = known.join(", "))))
    }

    fn unknown_word(&self) -> Option<FoundAndFits> {
        let (_, known) =
            self.message.strip_prefix("unknown variant `")?.rsplit_once(", expected ")?;
        let known: Vec<_> = known.split('`').skip(1).step_by(2).collect();
        let found = self.led(&say!("definition-not-known-here", word = self.piece));
        let hint = nearest(&self.piece, known.iter().copied());
        Some((found, say!("definition-known-words", hint, words = known.join(", "))))
    }

    fn other_type(&self) -> Option<FoundAndFits> {
        let (found, wanted) = self
            .message
            .strip_prefix("invalid type: ")
            .or_else(|| self.message.strip_prefix("invalid value: "))?
            .rsplit_once(", expected ")?;
        let found = match found.split_once(' ') {
            Some(("string", _)) => say!("definition-found-text", text = self.piece),
            Some(("integer" | "floating", _)) => {
                say!("definition-found-bare-number", number = self.piece)
            }
            Some(("boolean" | "unit", _)) => format!("`{}`", self.piece),
            _ => match found {
                "map" => say!("definition-found-table").to_owned(),
                "sequence" => say!("definition-found-list").to_owned(),
                other => clip(other),
            },
        };
        let fits = match wanted {
            "a string" => say!("definition-text-wanted").to_owned(),
            "a sequence" => say!("definition-list-wanted").to_owned(),
            "u32" => say!("definition-whole-number-wanted").to_owned(),
            "newtype variant" => say!("definition-own-table-wanted").to_owned(),
            other if other.starts_with("struct ") => say!("definition-table-wanted").to_owned(),
            other => say!("definition-type-wanted", wanted = clip(other)),
        };
        Some((self.led(&found), fits))
    }

    fn not_a_date(&self) -> Option<FoundAndFits> {
        schema::Form::at(self.kind, &self.path.keys).filter(schema::Form::is_date)?;
        let found = self.led(&say!("definition-not-a-date", text = self.piece));
        Some((found, say!("definition-date-wanted").to_owned()))
    }

    /// A quantity says itself what was found and what would fit.
    fn of_quantity(&self) -> Option<FoundAndFits> {
        let (found, fits) = self.message.rsplit_once("; ")?;
        Some((self.led(found), fits.to_owned()))
    }

    fn anything_else(&self) -> FoundAndFits {
        let form = schema::Form::at(self.kind, &self.path.keys);
        let (keys, words) = form.as_ref().map(|f| (f.keys(), f.words())).unwrap_or_default();
        let fits = match (keys.as_slice(), words.as_slice(), &form) {
            ([_, ..], _, _) => say!("definition-one-key-wanted", keys = keys.join(", ")),
            ([], [_, ..], _) => say!("definition-words-wanted", words = words.join(", ")),
            ([], [], Some(form)) => say!("definition-write-as", line = form.line(&self.path.keys)),
            ([], [], None) => say!("definition-schema-prints", kind = self.kind.name()),
        };
        let found = match self.message {
            many if many.contains("exactly 1 element, more") => {
                say!("definition-more-than-one").to_owned()
            }
            none if none.contains("exactly 1") => say!("definition-none").to_owned(),
            "wanted string or table" => say!("definition-does-not-fit", text = self.piece),
            other => clip(other),
        };
        (self.led(&found), fits)
    }

    /// What was found, behind the key where it was.
    fn led(&self, found: &str) -> String {
        self.path.lead() + found
    }
}

/// The keys from the top of the file to where a complaint arose; list entries have no key.
struct Path {
    keys: Vec<String>,
    shown: String,
}

impl Path {
    fn of(path: &serde_path_to_error::Path) -> Self {
        let mut keys = Vec::new();
        let mut shown = String::new();
        for segment in path {
            match segment {
                Segment::Seq { index } => shown.push_str(&format!("[{}]", index + 1)),
                Segment::Map { key } | Segment::Enum { variant: key } => {
                    if !shown.is_empty() {
                        shown.push('.');
                    }
                    shown.push_str(&clip(key));
                    keys.push(key.clone());
                }
                Segment::Unknown => {}
            }
        }
        Self { keys, shown }
    }

    /// The path without its last key.
    fn parent(&self) -> Self {
        let keys = self.keys.split_last().map(|(_, front)| front.to_vec()).unwrap_or_default();
        let shown = self.shown.rsplit_once('.').map_or("", |(front, _)| front).to_owned();
        Self { keys, shown }
    }

    /// The table by name; none is the file itself.
    fn table(&self) -> Option<&str> {
        (!self.shown.is_empty()).then_some(self.shown.as_str())
    }

    /// The key at the start of a message.
    fn lead(&self) -> String {
        if self.shown.is_empty() { String::new() } else { format!("`{}`: ", self.shown) }
    }
}
