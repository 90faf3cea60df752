//! Where something stands in a text.

use toml::de::{DeTable, DeValue};

/// Line and column of a byte, both from 1, the column in characters. A byte within a character
/// counts as that character, one behind the text as its end.
pub(super) fn line_and_column(text: &str, byte_offset: usize) -> (usize, usize) {
    let end = (0..=byte_offset.min(text.len())).rev().find(|at| text.is_char_boundary(*at));
    let before = &text[..end.unwrap_or(0)];
    let line = before.matches('\n').count() + 1;
    let start = before.rfind('\n').map_or(0, |newline| newline + 1);
    // A byte-order mark is no character that a person sees.
    let column = before[start..].trim_start_matches('\u{feff}').chars().count() + 1;
    (line, column)
}

/// The byte at which the value of a key path such as `gap.link[2].upper` stands (entries of a list
/// counted from 1); where the path ends earlier in the text, its last part that is there.
pub(super) fn of_path(table: &DeTable<'_>, path: &str) -> Option<usize> {
    let mut place = None;
    let mut here: Option<&DeValue<'_>> = None;
    for step in steps(path) {
        let next = match (step, here) {
            (Step::Key(key), None) => table.get(key),
            (Step::Key(key), Some(DeValue::Table(inner))) => inner.get(key),
            (Step::Entry(number), Some(DeValue::Array(array))) => {
                number.checked_sub(1).and_then(|index| array.get(index))
            }
            (Step::Key(_) | Step::Entry(_), _) => None,
        };
        let Some(next) = next else { break };
        place = Some(next.span().start);
        here = Some(next.get_ref());
    }
    place
}

/// The value at a key path of a table that is no text.
pub(super) fn within<'t>(table: &'t toml::Value, path: &str) -> Option<&'t toml::Value> {
    steps(path).try_fold(table, |here, step| match step {
        Step::Key(key) => here.get(key),
        Step::Entry(number) => here.get(number.checked_sub(1)?),
    })
}

/// A key, or an entry of a list counted from 1.
#[derive(Debug, Clone, Copy)]
pub(super) enum Step<'p> {
    Key(&'p str),
    Entry(usize),
}

/// The steps of a key path.
pub(super) fn steps(path: &str) -> impl Iterator<Item = Step<'_>> {
    path.split('.').flat_map(|part| {
        let (key, entries) = part.split_once('[').unwrap_or((part, ""));
        let entries = entries.split('[').filter_map(|n| n.trim_end_matches(']').parse().ok());
        std::iter::once(Step::Key(key)).chain(entries.map(Step::Entry))
    })
}
