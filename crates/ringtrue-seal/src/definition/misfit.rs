//! A value that parses and can't be right, and the checks that most values share.

use ringtrue_metrology::units::{Given, Quantity, clip};
use ringtrue_words::say;

/// A value that parses and can't be right: the key's path, what was found, what would fit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Misfit {
    /// Path of the key from the top of the file, entries of a list counted from 1:
    /// `ring.face_inner_diameter`, `gap.link[2].sign`.
    pub path: String,
    /// What was found.
    pub found: String,
    /// What would fit.
    pub fits: String,
}

impl Misfit {
    pub(crate) fn at(
        path: impl Into<String>,
        found: impl Into<String>,
        fits: impl Into<String>,
    ) -> Self {
        Self { path: path.into(), found: found.into(), fits: fits.into() }
    }

    /// The misfit of a part, seen from the table that holds it.
    pub(super) fn under(mut self, table: &str) -> Self {
        if self.path.is_empty() {
            self.path = table.to_owned();
        } else {
            self.path = format!("{table}.{}", self.path);
        }
        self
    }
}

/// Longest name or remark, in characters: what a line of a report carries.
const LONGEST_NAME: usize = 200;

/// A text that says something and fits in a report.
pub(super) fn some_text(key: &str, text: &str) -> Result<(), Misfit> {
    if text.trim().is_empty() {
        return Err(Misfit::at(
            key,
            say!("definition-empty", key = named(key)),
            say!("definition-few-words-wanted"),
        ));
    }
    let length = text.chars().count();
    if length > LONGEST_NAME {
        let found = say!("definition-has-characters", key = named(key), length);
        return Err(Misfit::at(
            key,
            found,
            say!("definition-characters-at-most", most = LONGEST_NAME),
        ));
    }
    Ok(())
}

/// As [`some_text`], where the key may be left out.
pub(super) fn some_text_if_given(key: &str, text: Option<&String>) -> Result<(), Misfit> {
    text.map_or(Ok(()), |text| some_text(key, text))
}

pub(super) fn above_zero<Q: Quantity>(key: &str, given: &Given<Q>) -> Result<(), Misfit> {
    if given.value().si() > 0.0 {
        return Ok(());
    }
    let found = say!("definition-key-is", key = named(key), typed = clip(given.typed()));
    Err(Misfit::at(key, found, say!("definition-above-zero-wanted", quantity = Q::kind())))
}

pub(super) fn not_negative<Q: Quantity>(key: &str, given: &Given<Q>) -> Result<(), Misfit> {
    if given.value().si() >= 0.0 {
        return Ok(());
    }
    let found = say!("definition-key-is", key = named(key), typed = clip(given.typed()));
    Err(Misfit::at(key, found, say!("definition-zero-or-more-wanted", quantity = Q::kind())))
}

/// How two values that belong in order may stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Order {
    Below,
    BelowOrEqual,
}

/// The smaller of two values first, each with its key.
pub(super) fn in_order<Q: Quantity>(
    (small_key, small): (&str, &Given<Q>),
    order: Order,
    (large_key, large): (&str, &Given<Q>),
) -> Result<(), Misfit> {
    let (small_si, large_si) = (small.value().si(), large.value().si());
    let kept = match order {
        Order::Below => small_si < large_si,
        Order::BelowOrEqual => small_si <= large_si,
    };
    if kept {
        return Ok(());
    }
    let (key, other_key) = (named(small_key), named(large_key));
    let found = say!(
        "definition-both-are",
        key,
        typed = clip(small.typed()),
        other_key,
        other_typed = clip(large.typed())
    );
    let fits = match order {
        Order::Below => say!("definition-must-be-below", key, other_key),
        Order::BelowOrEqual => say!("definition-must-be-at-most", key, other_key),
    };
    Err(Misfit::at(small_key, found, fits))
}

/// The last key of a path, as a message names it.
pub(super) fn named(path: &str) -> String {
    format!("`{}`", path.rsplit('.').next().unwrap_or(path))
}
