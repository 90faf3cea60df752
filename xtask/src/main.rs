//! House-keeping that no shipped crate needs: `cargo xtask tidy` and `cargo xtask validate`.

// A door like the command line: it talks to the person who runs it.
#![allow(clippy::print_stdout, clippy::print_stderr)]

mod process;
mod tidy;
mod validate;

use std::path::PathBuf;
use std::process::ExitCode;

const USAGE: &str = "\
usage: cargo xtask tidy               format, lints, and the rules of the house
       cargo xtask validate           write validation/RESULTS.md
       cargo xtask validate --check   fail when validation/RESULTS.md is stale";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let done = match words.as_slice() {
        ["tidy"] => tidy::run(&root()),
        ["validate"] => validate::run(&root(), validate::Mode::Write),
        ["validate", "--check"] => validate::run(&root(), validate::Mode::Check),
        ["-h" | "--help" | "help"] => {
            println!("{USAGE}");
            Ok(())
        }
        _ => {
            eprintln!("{USAGE}");
            return ExitCode::from(2);
        }
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("{why}");
            ExitCode::FAILURE
        }
    }
}

/// The workspace's folder: one above this crate's, wherever the command was started.
fn root() -> PathBuf {
    let mut folder = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    folder.pop();
    folder
}
