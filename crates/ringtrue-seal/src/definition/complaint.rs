//! The parser's complaints in a fitter's words.
//!
//! Known keys and the form of a missing value come from the JSON Schema of the same types.

use ringtrue_metrology::units::clip;
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
        "duplicate key" => {
            (format!("`{piece}` stands here a second time"), "keep one of the two".to_owned())
        }
        "recursion limit" | "cannot recurse further; max recursion depth met" => (
            "tables stand inside each other too deeply".to_owned(),
            "a definition needs five levels at most".to_owned(),
        ),
        "string values must be quoted" | "unexpected key or value" | "invalid value" => (
            if piece.is_empty() { message.to_owned() } else { format!("`{piece}` has no quotes") },
            "text and values with a unit stand in quotes, such as `mass = \"1.9 kg\"`".to_owned(),
        ),
        _ => (
            if piece.is_empty() { message.to_owned() } else { format!("{message} at `{piece}`") },
            syntax_that_fits(expected),
        ),
    };
    TextError::at(text, span.start, found, fits)
}

fn syntax_that_fits(expected: &str) -> String {
    let line = "a line is `key = \"value unit\"`, a table name in brackets, or a `#` comment";
    match expected {
        "" | "nothing" => line.to_owned(),
        wanted => format!("{wanted} is wanted; {line}"),
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
        .map_or_else(String::new, |(_, known)| format!("did you mean `{known}`? "))
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
        let found = format!("`{key}` is missing from {}", self.path.table());
        let mut keys = self.path.keys.clone();
        keys.push(key.to_owned());
        let form = schema::Form::at(self.kind, &keys);
        let line = form.as_ref().map_or_else(|| format!("`{key}`"), |form| form.line(&keys));
        let what = form.and_then(|form| form.description()).unwrap_or_default();
        Some((
            found,
            format!("add {line}{}", if what.is_empty() { what } else { format!(" ({what})") }),
        ))
    }

    fn unknown_key(&self) -> Option<FoundAndFits> {
        if !self.message.starts_with("unknown field `") {
            return None;
        }
        // The path ends with the unknown key itself.
        let table = self.path.parent();
        let found = format!("`{}` is not a key of {}", self.piece, table.table());
        let known = schema::Form::at(self.kind, &table.keys).map(|form| form.keys());
        let known = known.unwrap_or_default();
        let hint = nearest(&self.piece, known.iter().map(String::as_str));
        Some((found, format!("{hint}known keys are {}", known.join(", "))))
    }

    fn unknown_word(&self) -> Option<FoundAndFits> {
        let (_, known) =
            self.message.strip_prefix("unknown variant `")?.rsplit_once(", expected ")?;
        let known: Vec<_> = known.split('`').skip(1).step_by(2).collect();
        let found = format!("{}`{}` is not known here", self.path.lead(), self.piece);
        let hint = nearest(&self.piece, known.iter().copied());
        Some((found, format!("{hint}known are {}", known.join(", "))))
    }

    fn other_type(&self) -> Option<FoundAndFits> {
        let (found, wanted) = self
            .message
            .strip_prefix("invalid type: ")
            .or_else(|| self.message.strip_prefix("invalid value: "))?
            .rsplit_once(", expected ")?;
        let found = match found.split_once(' ') {
            Some(("string", _)) => format!("the text `{}`", self.piece),
            Some(("integer" | "floating", _)) => format!("the bare number `{}`", self.piece),
            Some(("boolean", _)) => format!("`{}`", self.piece),
            Some(("unit", _)) => format!("`{}`", self.piece),
            _ => match found {
                "map" => "a table".to_owned(),
                "sequence" => "a list".to_owned(),
                other => clip(other),
            },
        };
        let wanted = match wanted {
            "a string" => "text in quotes".to_owned(),
            "a sequence" => "a list in brackets".to_owned(),
            "u32" => "a whole number, such as `3`,".to_owned(),
            "newtype variant" => "a table of its own".to_owned(),
            other if other.starts_with("struct ") => "a table".to_owned(),
            other => clip(other),
        };
        Some((format!("{}{found}", self.path.lead()), format!("{wanted} is wanted")))
    }

    fn not_a_date(&self) -> Option<FoundAndFits> {
        schema::Form::at(self.kind, &self.path.keys).filter(schema::Form::is_date)?;
        let found = format!("{}`{}` is not a date", self.path.lead(), self.piece);
        Some((found, "year-month-day is wanted, such as `2027-03-31`".to_owned()))
    }

    /// A quantity says itself what was found and what would fit.
    fn of_quantity(&self) -> Option<FoundAndFits> {
        let (found, fits) = self.message.rsplit_once("; ")?;
        Some((format!("{}{found}", self.path.lead()), fits.to_owned()))
    }

    fn anything_else(&self) -> FoundAndFits {
        let form = schema::Form::at(self.kind, &self.path.keys);
        let (keys, words) = form.as_ref().map(|f| (f.keys(), f.words())).unwrap_or_default();
        let fits = match (keys.as_slice(), words.as_slice(), &form) {
            ([_, ..], _, _) => format!("one of {} is wanted", keys.join(", ")),
            ([], [_, ..], _) => format!("known are {}", words.join(", ")),
            ([], [], Some(form)) => format!("write it as {}", form.line(&self.path.keys)),
            ([], [], None) => format!("`ringtrue schema {}` prints what fits", self.kind.name()),
        };
        let found = match self.message {
            many if many.contains("exactly 1 element, more") => "more than one is given".to_owned(),
            none if none.contains("exactly 1") => "none is given".to_owned(),
            "wanted string or table" => format!("`{}` does not fit", self.piece),
            other => clip(other),
        };
        (format!("{}{found}", self.path.lead()), fits)
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

    /// The table by name.
    fn table(&self) -> String {
        if self.shown.is_empty() { "the file".to_owned() } else { format!("`{}`", self.shown) }
    }

    /// The key at the start of a message.
    fn lead(&self) -> String {
        if self.shown.is_empty() { String::new() } else { format!("`{}`: ", self.shown) }
    }
}
