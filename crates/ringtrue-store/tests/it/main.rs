//! The store from outside: the life of a record, and what can go wrong with it.

#![allow(clippy::unwrap_used, reason = "a test stops at the first thing that is wrong")]

mod faults;
mod fixture;
mod flips;
mod story;
