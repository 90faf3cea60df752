//! The rules of the house: format, lints, imports, licences, sizes, names, completeness.
//!
//! Each rule is a function from text to findings, tried in its own tests on samples that break it.

pub(crate) mod graph;
mod manifest;
mod mask;
mod paper;
mod rooms;
mod source;

use std::fmt;
use std::path::Path;

use crate::process;

/// One place where a rule is broken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Finding {
    /// How bad it is.
    pub(crate) level: Level,
    /// Path from the workspace's folder, with the line where there is one.
    pub(crate) place: String,
    /// What is wrong and what would be right.
    pub(crate) what: String,
}

/// How bad a finding is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Level {
    /// To be looked at; tidy passes.
    Warning,
    /// Tidy fails.
    Error,
}

impl Finding {
    fn error(place: impl Into<String>, what: impl Into<String>) -> Self {
        Self { level: Level::Error, place: place.into(), what: what.into() }
    }

    fn warning(place: impl Into<String>, what: impl Into<String>) -> Self {
        Self { level: Level::Warning, place: place.into(), what: what.into() }
    }
}

impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let level = match self.level {
            Level::Warning => "warning",
            Level::Error => "error",
        };
        write!(f, "{level}: {}: {}", self.place, self.what)
    }
}

/// One file of the repository.
#[derive(Debug, Clone)]
pub(crate) struct File {
    /// Path from the workspace's folder, with `/` between its parts.
    pub(crate) path: String,
    /// Its text; `None` when it is not UTF-8.
    pub(crate) text: Option<String>,
}

/// Runs every rule and prints what it finds.
///
/// # Errors
/// A rule is broken, or cargo or git could not be run.
pub(crate) fn run(root: &Path) -> Result<(), String> {
    let mut failed = Vec::new();
    for (name, arguments) in PROGRAMS {
        println!("tidy: {name}");
        if let Err(why) = process::show(root, "cargo", arguments) {
            eprintln!("error: {why}");
            failed.push(*name);
        }
    }
    println!("tidy: rules");
    let files = files(root)?;
    let workspace = graph::Workspace::read(root)?;
    let mut findings = graph::check(&workspace);
    findings.extend(graph::licences(&workspace, text_of(&files, "deny.toml")));
    findings.extend(manifest::check(&files));
    findings.extend(source::check(&files));
    findings.extend(rooms::check(&files));
    findings.extend(paper::check(&files));
    for finding in &findings {
        eprintln!("{finding}");
    }
    let errors = findings.iter().filter(|finding| finding.level == Level::Error).count();
    if errors > 0 {
        failed.push("rules");
    }
    println!("tidy: {} files, {errors} errors, {} warnings", files.len(), findings.len() - errors);
    if failed.is_empty() { Ok(()) } else { Err(format!("tidy: {} failed", failed.join(", "))) }
}

const PROGRAMS: &[(&str, &[&str])] = &[
    ("format", &["fmt", "--all", "--check"]),
    (
        "lints",
        &[
            "clippy",
            "--quiet",
            "--workspace",
            "--all-targets",
            "--locked",
            "--",
            "--deny",
            "warnings",
        ],
    ),
];

/// Every file that is in the repository or would be with the next commit.
fn files(root: &Path) -> Result<Vec<File>, String> {
    let list = process::output(
        root,
        "git",
        // A clone made by one user and checked by another (a CI as root) is still this clone.
        &["-c", "safe.directory=*", "ls-files", "--cached", "--others", "--exclude-standard", "-z"],
    )?;
    let mut files = Vec::new();
    for path in list.split('\0').filter(|path| !path.is_empty()) {
        // A file deleted but not yet committed is still in git's list.
        if let Ok(bytes) = std::fs::read(root.join(path)) {
            files.push(File { path: path.to_owned(), text: String::from_utf8(bytes).ok() });
        }
    }
    if files.is_empty() { Err("git names no files here".to_owned()) } else { Ok(files) }
}

fn text_of<'a>(files: &'a [File], path: &str) -> Option<&'a str> {
    files.iter().find(|file| file.path == path)?.text.as_deref()
}

/// Files for the rules' own tests.
#[cfg(test)]
fn sample(files: &[(&str, &str)]) -> Vec<File> {
    files
        .iter()
        .map(|(path, text)| File { path: (*path).to_owned(), text: Some((*text).to_owned()) })
        .collect()
}

#[cfg(test)]
fn errors(findings: &[Finding]) -> Vec<String> {
    findings
        .iter()
        .filter(|finding| finding.level == Level::Error)
        .map(|finding| format!("{}: {}", finding.place, finding.what))
        .collect()
}
