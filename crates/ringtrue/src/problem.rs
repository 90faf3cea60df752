//! What went wrong, for the person who has to mend it, and the exit code that says so.

use std::borrow::Cow;
use std::fmt;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use ringtrue_seal::RoomError;
use ringtrue_seal::definition::TextError;

/// Exit code: bad input.
const BAD_INPUT: u8 = 2;
/// Exit code: the computation could not be completed.
const NOT_COMPLETED: u8 = 3;

/// Exit code: the store could not be used.
const NO_STORE: u8 = 4;

/// What was wrong, where, and what to do next.
#[derive(Debug)]
pub(crate) struct Problem {
    place: Option<Place>,
    what: String,
    do_next: String,
    code: u8,
}

#[derive(Debug)]
struct Place {
    file: PathBuf,
    line: Option<usize>,
    column: Option<usize>,
}

impl Problem {
    /// Input that does not fit: exit code 2.
    pub(crate) fn input(what: impl Into<String>, do_next: impl Into<String>) -> Self {
        Self { place: None, what: what.into(), do_next: do_next.into(), code: BAD_INPUT }
    }

    /// Something that should have come to an end and did not: exit code 3.
    pub(crate) fn not_completed(what: impl Into<String>, do_next: impl Into<String>) -> Self {
        Self { place: None, what: what.into(), do_next: do_next.into(), code: NOT_COMPLETED }
    }

    /// A store that could not be used: exit code 4.
    pub(crate) fn store(what: impl Into<String>, do_next: impl Into<String>) -> Self {
        Self { place: None, what: what.into(), do_next: do_next.into(), code: NO_STORE }
    }

    /// A text that does not fit, in a file.
    pub(crate) fn text(file: &Path, error: TextError) -> Self {
        let TextError { line, column, found, fits } = error;
        Self { place: None, what: found, do_next: fits, code: BAD_INPUT }.at(file, line, column)
    }

    /// Evidence that can't be judged.
    pub(crate) fn room(error: RoomError) -> Self {
        let RoomError::Input { found, fits } = error;
        Self::input(found, fits)
    }

    /// The same problem, in this file.
    pub(crate) fn in_file(self, file: &Path) -> Self {
        if self.place.is_some() { self } else { self.at(file, None, None) }
    }

    /// Says on which line of which file it came up, where nothing closer is known.
    pub(crate) fn in_line(self, file: &Path, line: usize) -> Self {
        if self.place.is_some() { self } else { self.at(file, Some(line), None) }
    }

    fn at(mut self, file: &Path, line: Option<usize>, column: Option<usize>) -> Self {
        self.place = Some(Place { file: file.to_owned(), line, column });
        self
    }

    /// What was wrong, and where, as the start of a sentence.
    pub(crate) fn what(&self) -> String {
        let place = self.place.as_ref().map_or(String::new(), |place| format!("{place}: "));
        format!("{place}{}", upper_first(&self.what))
    }

    /// What to do next.
    pub(crate) fn do_next(&self) -> String {
        upper_first(&self.do_next)
    }

    /// Prints the problem and gives its exit code, which stands where nobody can be told.
    pub(crate) fn report(&self) -> ExitCode {
        let _ = writeln!(std::io::stderr().lock(), "{}", shown(&self.to_string()));
        ExitCode::from(self.code)
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.file.display())?;
        for number in [self.line, self.column].into_iter().flatten() {
            write!(f, ":{number}")?;
        }
        Ok(())
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}.\n  {}.", self.what(), self.do_next())
    }
}

/// A text as a terminal may be given it: what would steer the terminal is written out.
pub(crate) fn shown(text: &str) -> Cow<'_, str> {
    let steers = |c: char| c.is_control() && !matches!(c, '\n' | '\t');
    if !text.contains(steers) {
        return text.into();
    }
    let each = |c: char| {
        if steers(c) { c.escape_unicode().to_string() } else { c.to_string() }
    };
    text.chars().map(each).collect::<String>().into()
}

fn upper_first(text: &str) -> String {
    // A path is another one with its first letter changed.
    if text.split_whitespace().next().is_some_and(|word| word.contains(['/', '.', '\\'])) {
        return text.to_owned();
    }
    let mut chars = text.chars();
    match chars.next() {
        Some(first) if first.is_lowercase() => first.to_uppercase().chain(chars).collect(),
        _ => text.to_owned(),
    }
}
