//! The crate from outside.

// The tests' own functions unwrap too: a panic is how a test fails.
#![allow(clippy::unwrap_used)]

mod random_seals;
mod shipped_materials;
mod validation_cases;
mod validation_mechanics;
