//! `ringtrue`: the fitting bench's own engineer for metal face seals.
//!
//! Two doors, the command line and the pages of the bench: they parse, call and show. They do no
//! arithmetic.

mod cli;
mod curves;
mod files;
mod kept;
mod moment;
mod opening;
mod paper;
mod photo;
mod problem;
mod recent;
mod refused;
mod web;

use std::process::ExitCode;

fn main() -> ExitCode {
    match cli::run(std::env::args_os()) {
        Ok(exit) => exit,
        Err(problem) => problem.report(),
    }
}
