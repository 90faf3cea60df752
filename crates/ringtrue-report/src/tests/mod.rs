//! The crate's tests: reports of joints that the rooms judged.

mod fixture;
mod look;
