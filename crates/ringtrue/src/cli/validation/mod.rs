//! `ringtrue validation [TOPIC]`
//!
//! The topic `mechanics` is computed from studies, with a plot each; the others from the cases.

mod mechanics;

use std::fmt::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use include_dir::{Dir, include_dir};
use ringtrue_seal::validation::{self, Comparison};
use serde::Serialize;

use super::output;
use crate::problem::Problem;

/// The published cases and the tables that they name; they ship inside the program.
static CASES: Dir<'static> = include_dir!("$CARGO_MANIFEST_DIR/../../validation/cases");
static REFERENCE: Dir<'static> = include_dir!("$CARGO_MANIFEST_DIR/../../validation/reference");

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    /// Only this topic, such as gap_stack; all but mechanics where it is left out, which solves
    /// finite elements for about half a minute
    topic: Option<String>,
    /// Print one JSON object
    #[arg(long, conflicts_with = "markdown")]
    json: bool,
    /// Print Markdown tables, one a topic
    #[arg(long)]
    markdown: bool,
    /// Exit with 1 unless every case passes
    #[arg(long)]
    gate: bool,
    /// Write the page of the mechanics, its plots and their numbers into this folder
    #[arg(long, value_name = "DIR", conflicts_with = "kept")]
    out: Option<PathBuf>,
    /// Compare the page of the mechanics kept in this folder with what is computed
    #[arg(long, value_name = "DIR")]
    kept: Option<PathBuf>,
}

/// The comparisons of one topic.
#[derive(Serialize)]
struct Topic {
    topic: &'static str,
    comparisons: Vec<Comparison>,
}

#[derive(Serialize)]
struct Table {
    topics: Vec<Topic>,
    compared: usize,
    failed: usize,
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let topic = arguments.topic.as_deref();
    let folders = [&arguments.out, &arguments.kept];
    if topic != Some(mechanics::TOPIC) && folders.iter().any(|folder| folder.is_some()) {
        let next = "name the topic: `ringtrue validation mechanics`";
        return Err(Problem::input("only the mechanics have a page of their own", next));
    }
    let table = if topic == Some(mechanics::TOPIC) {
        let studies = mechanics::studies()?;
        if let Some(folder) = &arguments.out {
            mechanics::write(&studies, folder)?;
        }
        if let Some(folder) = &arguments.kept {
            mechanics::compare(&studies, folder)?;
        }
        mechanics::table(&studies)
    } else {
        table(topic)?
    };
    let failed = table.failed;
    if arguments.json {
        output::json(&table)?;
    } else if arguments.markdown {
        output::print(markdown(&table))?;
    } else {
        output::print(text(&table))?;
    }
    Ok(ExitCode::from(u8::from(arguments.gate && failed > 0)))
}

fn table(only: Option<&str>) -> Result<Table, Problem> {
    let mut folders: Vec<&Dir<'static>> = CASES.dirs().collect();
    folders.sort_by_key(|folder| folder.path());
    let name = |folder: &Dir<'static>| folder.path().to_str().unwrap_or_default();
    if let Some(only) = only.filter(|only| !folders.iter().any(|folder| name(folder) == *only)) {
        let mut names: Vec<&str> = folders.iter().map(|folder| name(folder)).collect();
        names.push(mechanics::TOPIC);
        let what = format!("there is no topic `{only}`");
        return Err(Problem::input(what, format!("the topics are {}", names.join(", "))));
    }
    let topics = folders
        .into_iter()
        .filter(|folder| only.is_none_or(|only| name(folder) == only))
        .map(|folder| Ok(Topic { topic: name(folder), comparisons: compare(folder)? }))
        .collect::<Result<Vec<_>, Problem>>()?;
    Ok(Table::of(topics))
}

impl Table {
    fn of(topics: Vec<Topic>) -> Self {
        let all = || topics.iter().flat_map(|topic| &topic.comparisons);
        let (compared, failed) = (all().count(), all().filter(|one| !one.pass).count());
        Self { topics, compared, failed }
    }
}

/// The text of a file below `validation/`.
fn file(name: &str) -> Option<&'static str> {
    let found = match name.strip_prefix("reference/") {
        Some(below) => REFERENCE.get_file(below),
        None => CASES.get_file(name.strip_prefix("cases/")?),
    };
    found.and_then(include_dir::File::contents_utf8)
}

/// Runs the cases of one folder, in the order of their files' names.
fn compare(folder: &'static Dir<'static>) -> Result<Vec<Comparison>, Problem> {
    let mut files: Vec<_> = folder.files().collect();
    files.sort_by_key(|file| file.path());
    let mut comparisons = Vec::new();
    for listed in files {
        let fault = |error: validation::ValidationError| {
            let next = "this is a fault of the shipped cases: please report it";
            Problem::not_completed(error.to_string(), next).in_file(listed.path())
        };
        let text = listed.contents_utf8().unwrap_or_default();
        for case in validation::cases(text).map_err(fault)? {
            comparisons.extend(validation::run(&case, file).map_err(fault)?);
        }
    }
    Ok(comparisons)
}

fn summary(table: &Table) -> String {
    let topics = match table.topics.as_slice() {
        [one] => one.topic.to_owned(),
        several => format!("{} topics", several.len()),
    };
    let (compared, failed) = (table.compared, table.failed);
    format!("{compared} numbers compared in {topics}, {failed} outside their tolerance")
}

fn text(table: &Table) -> String {
    let mut text = String::new();
    for topic in &table.topics {
        let _ = writeln!(text, "{}", topic.topic);
        for one in &topic.comparisons {
            let mark = if one.pass { "  " } else { "! " };
            let _ = writeln!(
                text,
                "{mark}{:<46} expected {:>18}  computed {:>18}  deviation {:>12}  tolerance {}",
                format!("{} {}", one.case, one.quantity),
                one.expected_text(),
                one.computed_text(),
                one.deviation_text(),
                tolerance(one),
            );
            let _ = writeln!(text, "    {} [{}]", one.source, one.status);
        }
    }
    text + &summary(table)
}

/// The tolerance, and the two error bands that it is the sum of, the reference's first:
/// `0.012 = 0.01 + 0.002`.
fn tolerance(one: &Comparison) -> String {
    let tolerance = one.tolerance_text();
    match one.bands_text() {
        None => tolerance,
        Some(bands) => format!("{tolerance} = {bands}"),
    }
}

fn markdown(table: &Table) -> String {
    let mut text = format!(
        "# Validation: expected against computed\n\nWritten by `cargo xtask validate`; {}.\n",
        summary(table)
    );
    for topic in &table.topics {
        let _ = write!(text, "\n## {}\n\n{}", topic.topic, rows(&topic.comparisons));
    }
    text.trim_end().to_owned()
}

/// A table in Markdown.
fn rows(comparisons: &[Comparison]) -> String {
    let cell = |text: &str| text.replace('|', "\\|");
    let mut text = "| case | quantity | expected | computed | deviation | tolerance | | source |\n\
                    |---|---|--:|--:|--:|--:|---|---|\n"
        .to_owned();
    {
        for one in comparisons {
            let _ = writeln!(
                text,
                "| {} | {} | {} | {} | {} | {} | {} | {} ({}) |",
                cell(&one.case),
                cell(&one.quantity),
                one.expected_text(),
                one.computed_text(),
                one.deviation_text(),
                tolerance(one),
                if one.pass { "passes" } else { "**fails**" },
                cell(&one.source),
                one.status,
            );
        }
    }
    text
}
