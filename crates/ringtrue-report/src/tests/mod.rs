//! The crate's tests: reports of joints that the rooms judged.

mod checks;
mod drawings;
pub(crate) mod fixture;
mod handling;
mod loads;
mod words;
