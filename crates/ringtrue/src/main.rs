//! `ringtrue`: the fitting bench's own engineer for metal face seals.
//!
//! A door: it parses, calls and prints. It does no arithmetic.

mod cli;
mod curves;
mod files;
mod problem;

use std::process::ExitCode;

fn main() -> ExitCode {
    match cli::run(std::env::args_os()) {
        Ok(exit) => exit,
        Err(problem) => problem.report(),
    }
}
