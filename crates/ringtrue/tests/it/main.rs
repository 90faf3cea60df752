//! The program from outside: whole commands, their output and their exit codes.

#![allow(clippy::unwrap_used, reason = "a test stops at the first thing that is wrong")]

mod bench;
mod checks;
mod handling;
mod job;
mod outputs;
mod pages;
mod procedure;
mod wrong_files;

mod commands;
mod fit;
mod load;
mod squeeze;
