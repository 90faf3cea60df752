//! Every published case of the repository, run on the functions that judge real readings.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use ringtrue_seal::validation::{Comparison, cases, models, run};

/// Cases in each topic. A file that no one reads, or a case that is lost, changes a number here.
const CASES: &[(&str, usize)] = &[
    ("agents", 13),
    ("alignment", 14),
    ("assembled_height", 7),
    ("chilling", 60),
    ("closing", 7),
    ("face_load", 24),
    ("flatness", 9),
    ("gap_stack", 11),
    ("iso286", 21),
    ("leak_test", 6),
    ("matching", 11),
    ("roughness", 15),
    ("rubber_law", 2),
    ("seating", 6),
    ("uncertainty", 25),
];

fn validation() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../validation")
}

/// Files of a folder and its folders, as paths below `validation/`, in order.
fn files_below(folder: &str) -> BTreeMap<String, String> {
    let mut files = BTreeMap::new();
    for entry in std::fs::read_dir(validation().join(folder)).unwrap() {
        let entry = entry.unwrap();
        let path = format!("{folder}/{}", entry.file_name().to_str().unwrap());
        if entry.file_type().unwrap().is_dir() {
            files.extend(files_below(&path));
        } else {
            let text = std::fs::read_to_string(entry.path()).unwrap();
            files.insert(path, text);
        }
    }
    files
}

fn topic(path: &str) -> &str {
    path.split('/').nth(1).unwrap()
}

#[test]
fn every_published_case_passes() {
    let tables = files_below("reference");
    let mut counts: BTreeMap<String, usize> = BTreeMap::new();
    let mut ids = BTreeSet::new();
    let mut used = BTreeSet::new();
    let mut failed = Vec::new();
    for (path, text) in files_below("cases") {
        let found = cases(&text).unwrap_or_else(|error| panic!("{path}: {error}"));
        *counts.entry(topic(&path).to_owned()).or_default() += found.len();
        for case in &found {
            assert!(ids.insert(case.id.clone()), "{path}: a second case `{}`", case.id);
            used.insert(case.model.clone());
            let data = |name: &str| tables.get(name).map(String::as_str);
            let compared = run(case, data).unwrap_or_else(|error| panic!("{path}: {error}"));
            assert_eq!(compared.len(), case.expects(), "{path}: {}", case.id);
            failed.extend(compared.iter().filter(|c| !c.pass).map(|c| line(&path, c)));
        }
    }
    assert!(failed.is_empty(), "cases that do not pass:\n{}", failed.join("\n"));
    let expected: BTreeMap<String, usize> =
        CASES.iter().map(|(topic, count)| ((*topic).to_owned(), *count)).collect();
    assert_eq!(counts, expected, "cases in each topic");
    let unused: Vec<_> = models().into_iter().filter(|model| !used.contains(*model)).collect();
    assert!(unused.is_empty(), "models that no case uses: {unused:?}");
}

fn line(path: &str, c: &Comparison) -> String {
    let (expected, computed, tolerance) = (c.expected, c.computed, c.tolerance);
    let deviation = c.deviation_text();
    format!(
        "{path}: {} {}: expected {expected}, computed {computed}, deviation {deviation}, \
         tolerance {tolerance:e}",
        c.case, c.quantity
    )
}
