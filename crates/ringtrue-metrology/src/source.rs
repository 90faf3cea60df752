//! Where a formula or a figure comes from.

use ringtrue_words::say;
use serde::Serialize;

/// The pedigree of a formula, a figure or a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(tag = "kind", content = "cite", rename_all = "kebab-case")]
pub enum Source {
    /// A standard, book, paper or data set that can be looked up: edition, clause or equation.
    Published(&'static str),
    /// What shops do, with no published source.
    CommonPractice(&'static str),
    /// Remembered, and not yet checked against the text it names.
    Unverified(&'static str),
}

impl std::fmt::Display for Source {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Published(cite) => f.write_str(cite),
            Self::CommonPractice(what) => f.write_str(&say!("source-common-practice", what)),
            Self::Unverified(cite) => f.write_str(&say!("source-from-memory", cite)),
        }
    }
}
