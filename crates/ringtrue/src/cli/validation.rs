//! `ringtrue validation [TOPIC]`

use std::fmt::Write;
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
    /// Only this topic, such as gap_stack; all where it is left out
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
    let table = table(arguments.topic.as_deref())?;
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
        let names: Vec<&str> = folders.iter().map(|folder| name(folder)).collect();
        let what = format!("there is no topic `{only}`");
        return Err(Problem::input(what, format!("the topics are {}", names.join(", "))));
    }
    let topics = folders
        .into_iter()
        .filter(|folder| only.is_none_or(|only| name(folder) == only))
        .map(|folder| Ok(Topic { topic: name(folder), comparisons: compare(folder)? }))
        .collect::<Result<Vec<_>, Problem>>()?;
    let all = || topics.iter().flat_map(|topic| &topic.comparisons);
    let (compared, failed) = (all().count(), all().filter(|one| !one.pass).count());
    Ok(Table { topics, compared, failed })
}

/// Runs the cases of one folder, in the order of their files' names.
fn compare(folder: &'static Dir<'static>) -> Result<Vec<Comparison>, Problem> {
    let mut files: Vec<_> = folder.files().collect();
    files.sort_by_key(|file| file.path());
    let data = |name: &str| {
        let below = name.strip_prefix("reference/")?;
        REFERENCE.get_file(below).and_then(include_dir::File::contents_utf8)
    };
    let mut comparisons = Vec::new();
    for file in files {
        let fault = |error: validation::ValidationError| {
            let next = "this is a fault of the shipped cases: please report it";
            Problem::not_completed(error.to_string(), next).in_file(file.path())
        };
        let text = file.contents_utf8().unwrap_or_default();
        for case in validation::cases(text).map_err(fault)? {
            comparisons.extend(validation::run(&case, data).map_err(fault)?);
        }
    }
    Ok(comparisons)
}

fn summary(table: &Table) -> String {
    format!(
        "{} numbers compared in {} topics, {} outside their tolerance",
        table.compared,
        table.topics.len(),
        table.failed
    )
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
                one.tolerance_text(),
            );
            let _ = writeln!(text, "    {} [{}]", one.source, one.status);
        }
    }
    text + &summary(table)
}

fn markdown(table: &Table) -> String {
    let mut text = format!(
        "# Validation: expected against computed\n\nWritten by `cargo xtask validate`; {}.\n",
        summary(table)
    );
    let cell = |text: &str| text.replace('|', "\\|");
    for topic in &table.topics {
        let _ = write!(
            text,
            "\n## {}\n\n| case | quantity | expected | computed | deviation | tolerance | \
             | source |\n|---|---|--:|--:|--:|--:|---|---|\n",
            topic.topic
        );
        for one in &topic.comparisons {
            let _ = writeln!(
                text,
                "| {} | {} | {} | {} | {} | {} | {} | {} ({}) |",
                cell(&one.case),
                cell(&one.quantity),
                one.expected_text(),
                one.computed_text(),
                one.deviation_text(),
                one.tolerance_text(),
                if one.pass { "passes" } else { "**fails**" },
                cell(&one.source),
                one.status,
            );
        }
    }
    text.trim_end().to_owned()
}
