//! Definitions a person can write: seal, joint, gauge, material and procedure as TOML files.
//!
//! A file starts with its `schema` line; every quantity carries its unit. The types here are the
//! one declaration: parsing, the JSON Schema and the key names in messages all come from them.

mod check;
mod complaint;
pub mod gauge;
pub mod joint;
mod joint_rules;
pub mod limit;
pub mod material;
mod misfit;
mod number;
mod outline;
mod place;
pub mod procedure;
mod schema;
pub mod seal;
mod seal_rules;
pub mod stiffness;
mod text;

pub use check::{Checked, Flaw, Why, check};
pub use misfit::Misfit;
pub use number::Number;
pub use schema::{schema, starter, starter_with};
pub use text::{LONGEST_TEXT, TextError, kind_of, read};

use schemars::JsonSchema;
use serde::de::DeserializeOwned;

/// The kinds of definition file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// One ring, its load ring, its housing, their limits and fitting rules.
    Seal,
    /// Two halves, the dimension chain of the gap, and how the joint runs.
    Joint,
    /// A measuring instrument and its uncertainty.
    Gauge,
    /// An elastomer family.
    Material,
    /// A whole job, step by step.
    Procedure,
    /// A section between rigid walls: the general problem of the solver.
    Squeeze,
}

impl Kind {
    /// All kinds, in the order in which they are listed to a person.
    pub const ALL: [Self; 6] =
        [Self::Seal, Self::Joint, Self::Gauge, Self::Material, Self::Procedure, Self::Squeeze];

    /// The kind's name, as in the `schema` line and on the command line.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Seal => "seal",
            Self::Joint => "joint",
            Self::Gauge => "gauge",
            Self::Material => "material",
            Self::Procedure => "procedure",
            Self::Squeeze => "squeeze",
        }
    }

    /// The kind with this name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.name() == name)
    }

    /// The first line of a file of this kind: `ringtrue/seal/1`.
    #[must_use]
    pub fn schema_line(self) -> String {
        format!("ringtrue/{}/1", self.name())
    }
}

/// A type that one kind of definition file is read into.
pub trait Definition: DeserializeOwned + JsonSchema {
    /// The kind of file.
    const KIND: Kind;

    /// What parsing alone can't refuse: signs, orders of diameters, keys that need each other.
    ///
    /// # Errors
    /// The first thing that does not fit, with the path of its key.
    fn consistent(&self) -> Result<(), Misfit>;

    /// The same, part by part: the first thing in each part that does not fit.
    fn misfits(&self) -> Vec<Misfit> {
        self.consistent().err().into_iter().collect()
    }
}

#[cfg(test)]
mod tests;
