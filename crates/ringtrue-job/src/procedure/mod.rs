//! The procedure of a job: which of its steps a joint needs, and why the others fall away.
//!
//! The file's types and its parsing stand with the other definitions, in
//! [`ringtrue_seal::definition::procedure`]: there every kind of file is read, checked and
//! described in one way. Here is what a job makes of them, pure like all of this crate.

mod difference;
mod due;
mod limit;
mod rule;

pub use difference::{Changed, Difference, Field, Place, difference};
pub use due::{DueStep, DueSteps, FellAway, due_steps};
pub use limit::{StatedLimit, limits_without_gate, stated_limit};
pub use ringtrue_seal::definition::procedure::DecidedBy;
pub use rule::against;

use ringtrue_seal::definition::joint::{Half, Joint};
use ringtrue_seal::definition::procedure::{LoadRingType, Procedure, shipped};

use crate::digest::Digest;

/// The hash by which a job keeps the exact procedure that it used: BLAKE3 of the file's bytes, as
/// they are, so that two files with one hash are one file.
#[must_use]
pub fn content_hash(text: &str) -> Digest {
    Digest::of(text.as_bytes())
}

/// The first half whose load ring is not the one that a procedure is for.
#[must_use]
pub fn half_of_other_type(procedure: &Procedure, joint: &Joint) -> Option<Half> {
    Half::BOTH
        .into_iter()
        .find(|half| LoadRingType::of(&joint.seal(*half).load_ring) != procedure.load_ring)
}

/// The text of the shipped procedure for a joint, by the load ring of its half `a`.
#[must_use]
pub fn shipped_for(joint: &Joint) -> &'static str {
    shipped(LoadRingType::of(&joint.a.load_ring))
}

#[cfg(test)]
mod tests;
