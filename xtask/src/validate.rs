//! The result table of the validation cases, kept in the repository so that a change shows.

use std::path::Path;

use crate::process;
use crate::tidy::graph;

const TABLE: &str = "validation/RESULTS.md";
/// Builds the program as the tests of the workspace build it: by itself it would have other
/// features of its libraries, and the largest of them would be compiled twice.
const BUILD: &[&str] = &["test", "--no-run", "--quiet", "--locked", "--workspace"];
/// With `--gate` it fails when a case does not pass.
const COMMAND: &[&str] = &["validation", "--markdown", "--gate"];

/// The page of the mechanics. It compares itself: finite elements only within their error bands.
const PAGE: &str = "validation/mechanics";

/// What to do with the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Mode {
    /// Write it.
    Write,
    /// Compare it with what would be written.
    Check,
}

/// Computes the table and writes or compares it.
///
/// # Errors
/// The program failed (a case does not pass), the file can't be written, or it is stale.
pub(crate) fn run(root: &Path, mode: Mode) -> Result<(), String> {
    process::show(root, "cargo", BUILD)?;
    let program = graph::target(root)?.join("debug/ringtrue");
    let program = program.to_str().ok_or("the target folder's name is no text")?;
    let fresh = process::output(root, program, COMMAND)
        .map_err(|why| format!("{why}; `ringtrue validation` marks cases that fail with `!`"))?;
    if !fresh.lines().any(|line| line.starts_with('|')) {
        return Err("the program printed no table of validation cases".to_owned());
    }
    mechanics((root, program), mode)?;
    let path = root.join(TABLE);
    match mode {
        Mode::Write => {
            std::fs::write(&path, fresh).map_err(|error| format!("cannot write {TABLE}: {error}"))
        }
        Mode::Check => {
            let kept = std::fs::read_to_string(&path)
                .map_err(|error| format!("cannot read {TABLE}: {error}"))?;
            match stale(&kept, &fresh) {
                None => Ok(()),
                Some(difference) => Err(format!(
                    "{TABLE} is stale: run `cargo xtask validate` and commit it\n{difference}"
                )),
            }
        }
    }
}

/// Writes or compares the page of the mechanics.
fn mechanics((root, program): (&Path, &str), mode: Mode) -> Result<(), String> {
    let (option, next) = match mode {
        Mode::Write => ("--out", "`ringtrue validation mechanics` marks points that fail with `!`"),
        Mode::Check => ("--kept", "run `cargo xtask validate` and commit validation/mechanics"),
    };
    let command = ["validation", "mechanics", "--gate", option, PAGE];
    // Its table is the page's own.
    process::output(root, program, &command).map(drop).map_err(|why| format!("{why}; {next}"))
}

/// The first line in which two tables differ; `None` when they don't.
fn stale(kept: &str, fresh: &str) -> Option<String> {
    if kept == fresh {
        return None;
    }
    let (mut old, mut new) = (kept.lines(), fresh.lines());
    let mut number = 0;
    loop {
        number += 1;
        let (was, is) = (old.next(), new.next());
        if was != is || was.is_none() {
            let (was, is) = (was.unwrap_or("(end)"), is.unwrap_or("(end)"));
            return Some(format!("line {number}\n  kept:  {was}\n  fresh: {is}"));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::stale;

    #[test]
    fn a_changed_number_is_stale() {
        assert_eq!(stale("| a | 1 |\n", "| a | 1 |\n"), None);
        let difference = stale("| a | 1 |\n| b | 2 |\n", "| a | 1 |\n| b | 3 |\n");
        assert!(difference.expect("the tables differ").starts_with("line 2"));
    }

    #[test]
    fn a_lost_or_an_extra_line_is_stale() {
        assert!(stale("| a |\n| b |\n", "| a |\n").is_some());
        assert!(stale("| a |\n", "| a |\n| b |\n").is_some());
        assert!(stale("| a |", "| a |\n").is_some());
    }
}
