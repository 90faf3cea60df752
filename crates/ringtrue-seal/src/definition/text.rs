//! From the text of a file to a definition, with line and column where it does not fit.

use std::borrow::Cow;

use ringtrue_metrology::units::clip;
use ringtrue_words::say;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::{Definition, Kind, Misfit, complaint, place};

/// Longest text that is read, in bytes. A definition is a few thousand.
pub const LONGEST_TEXT: usize = 1 << 20;

/// A text that can't be read: where, what was found, what would fit.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub struct TextError {
    /// Line, from 1, where there is one.
    pub line: Option<usize>,
    /// Column in characters, from 1, where there is one.
    pub column: Option<usize>,
    /// What was found.
    pub found: String,
    /// What would fit.
    pub fits: String,
}

impl TextError {
    /// An error at a byte of the text.
    #[must_use]
    pub fn at(
        text: &str,
        byte_offset: usize,
        found: impl Into<String>,
        fits: impl Into<String>,
    ) -> Self {
        let (line, column) = place::line_and_column(text, byte_offset);
        Self { line: Some(line), column: Some(column), found: found.into(), fits: fits.into() }
    }

    /// An error of the whole text, which has no place in it.
    #[must_use]
    pub fn of_text(found: impl Into<String>, fits: impl Into<String>) -> Self {
        Self { line: None, column: None, found: found.into(), fits: fits.into() }
    }
}

impl std::fmt::Display for TextError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let (found, fits) = (&self.found, &self.fits);
        match (self.line, self.column) {
            (Some(line), Some(column)) => {
                f.write_str(&say!("definition-at-line-and-column", line, column, found, fits))
            }
            (Some(line), None) => f.write_str(&say!("definition-at-line", line, found, fits)),
            (None, _) => write!(f, "{found}; {fits}"),
        }
    }
}

/// Reads a definition from the text of its file.
///
/// # Errors
/// The first thing that does not fit: the syntax, then the `schema` line, then keys and values in
/// the order of the text, then what [`Definition::consistent`] refuses.
pub fn read<T: Definition>(text: &str) -> Result<T, TextError> {
    let table = parse(text)?;
    let (kind, at) = schema_line(text, table.get_ref())?;
    if kind != T::KIND {
        let found = say!("definition-file-of-kind", kind = kind.name());
        let fits = say!("definition-file-of-kind-wanted", kind = T::KIND.name());
        return Err(TextError::at(text, at, found, fits));
    }
    let deserializer = toml::de::Deserializer::from(with_dates_as_text(table));
    let definition: T = serde_path_to_error::deserialize(deserializer)
        .map_err(|error| complaint::of(text, T::KIND, &error))?;
    definition.consistent().map_err(|misfit| of_misfit(text, misfit))?;
    Ok(definition)
}

/// The kind of definition that a text says it is.
///
/// # Errors
/// As [`read`], for the syntax and the `schema` line.
pub fn kind_of(text: &str) -> Result<Kind, TextError> {
    schema_line(text, parse(text)?.get_ref()).map(|(kind, _)| kind)
}

fn parse(text: &str) -> Result<Spanned<DeTable<'_>>, TextError> {
    if text.len() > LONGEST_TEXT {
        let found = say!("definition-file-holds-bytes", bytes = text.len());
        let fits = say!("definition-bytes-at-most", most = LONGEST_TEXT);
        return Err(TextError::of_text(found, fits));
    }
    if text.trim_start_matches('\u{feff}').trim().is_empty() {
        return Err(TextError::of_text(say!("definition-file-empty"), schema_lines_wanted()));
    }
    DeTable::parse(text).map_err(|error| complaint::of_syntax(text, &error))
}

/// The kind in the `schema` line, and the byte at which it stands.
fn schema_line(text: &str, table: &DeTable<'_>) -> Result<(Kind, usize), TextError> {
    let Some(value) = table.get("schema") else {
        return Err(TextError::of_text(say!("definition-no-schema-line"), schema_lines_wanted()));
    };
    let at = value.span().start;
    let refused = |found: String, fits: String| Err(TextError::at(text, at, found, fits));
    let Some(line) = value.get_ref().as_str() else {
        return refused(say!("definition-schema-line-unfit").to_owned(), schema_lines_wanted());
    };
    if let Some(kind) = Kind::ALL.into_iter().find(|kind| kind.schema_line() == line) {
        return Ok((kind, at));
    }
    let version = line.strip_prefix("ringtrue/").and_then(|rest| rest.split_once('/'));
    if let Some((kind, version)) = version.and_then(|(kind, v)| Some((Kind::named(kind)?, v))) {
        let found = say!("definition-version-of-file", version = clip(version), kind = kind.name());
        return refused(found, say!("definition-version-read", schema_line = kind.schema_line()));
    }
    let lines = Kind::ALL.map(Kind::schema_line);
    let hint = complaint::nearest(line, lines.iter().map(String::as_str));
    refused(say!("definition-schema-not-known", line = clip(line)), hint + &schema_lines_wanted())
}

fn schema_lines_wanted() -> String {
    let lines = Kind::ALL.map(|kind| format!("`schema = \"{}\"`", kind.schema_line()));
    say!("definition-schema-lines-wanted", lines = lines.join(", "))
}

/// People write dates with and without quotes; both are the same date.
fn with_dates_as_text(table: Spanned<DeTable<'_>>) -> Spanned<DeTable<'_>> {
    fn quote(value: &mut DeValue<'_>) {
        match value {
            DeValue::Datetime(date) => *value = DeValue::String(Cow::Owned(date.to_string())),
            DeValue::Array(array) => array.iter_mut().for_each(|item| quote(item.get_mut())),
            DeValue::Table(table) => table.iter_mut().for_each(|(_, item)| quote(item.get_mut())),
            DeValue::String(_) | DeValue::Integer(_) | DeValue::Float(_) | DeValue::Boolean(_) => {}
        }
    }
    let mut table = table;
    table.get_mut().iter_mut().for_each(|(_, value)| quote(value.get_mut()));
    table
}

/// Finds the key's place by parsing again: the price is paid only where something is wrong.
fn of_misfit(text: &str, misfit: Misfit) -> TextError {
    let place =
        DeTable::parse(text).ok().and_then(|table| place::of_path(table.get_ref(), &misfit.path));
    match place {
        Some(at) => TextError::at(text, at, misfit.found, misfit.fits),
        None => TextError::of_text(misfit.found, misfit.fits),
    }
}
