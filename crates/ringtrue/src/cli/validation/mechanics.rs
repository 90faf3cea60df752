//! The studies of the mechanics, and their page.

use std::fmt::Write;
use std::path::Path;

use ringtrue_report::study_drawing;
use ringtrue_seal::validation::study::{Study, moved, study, study_names};

use super::{Table, Topic, file, rows};
use crate::files;
use crate::problem::Problem;

/// Its name among the topics.
pub(super) const TOPIC: &str = "mechanics";
const PAGE: &str = "README.md";
const NUMBERS: &str = "studies.json";

const HEAD: &str = "\
# Mechanics: computed against what is known

Written by `cargo xtask validate`; `cargo xtask validate --check` says when it is stale.
`ringtrue validation mechanics` prints the same numbers from a fresh run of the program.

Lines are computed. Points are the reference, each with a bar: the reference's error band and the
program's own added. Every number comes from a run; the program's band is that of two meshes unless
the text beside a plot says otherwise. *Tolerance* in the tables is the sum of the two bands,
theirs first. Sources marked *from memory* were not at hand. Data, their origin and their bands:
[reference/mechanics](../reference/mechanics/README.md).
";

/// Runs all studies.
pub(super) fn studies() -> Result<Vec<Study>, Problem> {
    let run = |name: &str| {
        study(name, file).map_err(|error| {
            let next = "this is a fault of the shipped studies: please report it";
            Problem::not_completed(error.to_string(), next)
        })
    };
    study_names().into_iter().map(run).collect()
}

/// Their points as a topic of the table.
pub(super) fn table(studies: &[Study]) -> Table {
    let comparisons = studies.iter().flat_map(Study::comparisons).collect();
    Table::of(vec![Topic { topic: TOPIC, comparisons }])
}

/// Writes page, plots and numbers.
pub(super) fn write(studies: &[Study], folder: &Path) -> Result<(), Problem> {
    files::make_folder(folder)?;
    for (name, text) in written(studies)? {
        files::write(&folder.join(name), text.as_bytes())?;
    }
    Ok(())
}

/// Refuses a kept page that no longer tells the truth.
///
/// Its numbers are held against a fresh run within their bands; page and plots must be those of its
/// numbers, byte for byte.
pub(super) fn compare(fresh: &[Study], folder: &Path) -> Result<(), Problem> {
    let stale = |why: String| {
        let next = "look why, then write it again: `cargo xtask validate`";
        Problem::input(format!("the kept page is stale: {why}"), next).in_file(folder)
    };
    let kept: Vec<Study> = serde_json::from_str(&files::text(&folder.join(NUMBERS))?)
        .map_err(|error| stale(format!("{NUMBERS} holds no studies ({error})")))?;
    let names = |studies: &[Study]| -> Vec<String> {
        studies.iter().map(|study| study.name.clone()).collect()
    };
    if names(&kept) != names(fresh) {
        return Err(stale("it holds other studies".to_owned()));
    }
    for (kept, fresh) in kept.iter().zip(fresh) {
        if let Some(why) = moved(kept, fresh) {
            return Err(stale(format!("{}: {why}", fresh.name)));
        }
    }
    for (name, text) in written(&kept)? {
        if files::text(&folder.join(&name))? != text {
            return Err(stale(format!("{name} is not what its numbers give")));
        }
    }
    Ok(())
}

/// The files of the page: names and texts.
fn written(studies: &[Study]) -> Result<Vec<(String, String)>, Problem> {
    let numbers = serde_json::to_string_pretty(&studies).map_err(|error| {
        let next = "this is a fault of the program: please report it";
        Problem::not_completed(format!("the studies can't be written as JSON ({error})"), next)
    })?;
    let mut all = vec![(PAGE.to_owned(), page(studies)), (NUMBERS.to_owned(), numbers + "\n")];
    for study in studies {
        all.push((format!("{}.svg", study.name), study_drawing(study).svg));
    }
    Ok(all)
}

fn page(studies: &[Study]) -> String {
    let table = table(studies);
    let mut text = format!("{HEAD}\n{}.\n", super::summary(&table));
    for study in studies {
        let Study { name, title, about, .. } = study;
        let comparisons = study.comparisons();
        let within = comparisons.iter().filter(|one| one.pass).count();
        let _ = write!(
            text,
            "\n## {title}\n\n![{title}]({name}.svg)\n\n{about}\n\n<details><summary>{within} of {} \
             points within the bands</summary>\n\n{}\n</details>\n",
            comparisons.len(),
            rows(&comparisons),
        );
    }
    text
}
