//! A value that parses and can't be right, and the checks that most values share.

use ringtrue_metrology::units::{Given, Quantity, clip};

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
        return Err(Misfit::at(key, format!("{} is empty", named(key)), "say it in a few words"));
    }
    let length = text.chars().count();
    if length > LONGEST_NAME {
        let found = format!("{} has {length} characters", named(key));
        return Err(Misfit::at(key, found, format!("at most {LONGEST_NAME} fit")));
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
    let found = format!("{} is `{}`", named(key), clip(given.typed()));
    Err(Misfit::at(key, found, format!("{} above zero is wanted", Q::KIND)))
}

pub(super) fn not_negative<Q: Quantity>(key: &str, given: &Given<Q>) -> Result<(), Misfit> {
    if given.value().si() >= 0.0 {
        return Ok(());
    }
    let found = format!("{} is `{}`", named(key), clip(given.typed()));
    Err(Misfit::at(key, found, format!("{} of zero or more is wanted", Q::KIND)))
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
    let (kept, wanted) = match order {
        Order::Below => (small_si < large_si, "below"),
        Order::BelowOrEqual => (small_si <= large_si, "at most"),
    };
    if kept {
        return Ok(());
    }
    let found = format!(
        "{} is `{}` and {} is `{}`",
        named(small_key),
        clip(small.typed()),
        named(large_key),
        clip(large.typed())
    );
    let fits = format!("{} must be {wanted} {}", named(small_key), named(large_key));
    Err(Misfit::at(small_key, found, fits))
}

/// The last key of a path, as a message names it.
pub(super) fn named(path: &str) -> String {
    format!("`{}`", path.rsplit('.').next().unwrap_or(path))
}
