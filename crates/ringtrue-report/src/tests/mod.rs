//! The crate's tests: reports of joints that the rooms judged.

mod drawings;
pub(crate) mod fixture;
mod words;
