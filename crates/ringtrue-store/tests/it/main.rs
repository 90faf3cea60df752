//! The store from outside: the life of a record, and what can go wrong with it.

mod faults;
mod fixture;
mod flips;
mod story;
