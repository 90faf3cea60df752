//! Every word of the pages is in the language file, and nothing else is.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use fluent_bundle::FluentResource;

use super::ENGLISH;

/// Prefixes of keys that are put together with a word of a closed set.
const PREFIXES: &[&str] = &[
    "role-",
    "role-does-",
    "look-theme-",
    "look-units-",
    "jobs-",
    "state-",
    "stage-",
    "standing-",
    "next-",
    "kind-",
    "follow-up-",
    "library-kind-",
    "library-one-",
    "try-",
    "build-",
];

fn files(folder: &Path, ending: &str, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files(&path, ending, found);
        } else if path.extension().is_some_and(|known| known == ending) {
            found.push(path);
        }
    }
}

/// The texts of all templates and of all code of the pages.
fn sources() -> String {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut paths = Vec::new();
    files(&root.join("templates"), "html", &mut paths);
    files(&root.join("src/web"), "rs", &mut paths);
    paths.iter().map(|path| std::fs::read_to_string(path).unwrap()).collect()
}

fn keys() -> BTreeSet<String> {
    let of_line = |line: &str| {
        let (key, _) = line.split_once(" =")?;
        key.starts_with(|c: char| c.is_ascii_lowercase()).then(|| key.to_owned())
    };
    ENGLISH.lines().filter_map(of_line).collect()
}

#[test]
fn the_file_has_no_fault_and_no_key_twice() {
    assert!(FluentResource::try_new(ENGLISH.to_owned()).is_ok());
    let lines = ENGLISH
        .lines()
        .filter(|line| line.contains(" =") && line.starts_with(|c: char| c.is_ascii_lowercase()));
    assert_eq!(lines.count(), keys().len());
}

#[test]
fn every_key_that_is_asked_for_is_there() {
    let (sources, keys) = (sources(), keys());
    for asked in [".say(\"", ".with(\"", ".count(\"", ".with(\n            \""] {
        for (at, _) in sources.match_indices(asked) {
            let key = sources[at + asked.len()..].split('"').next().unwrap();
            assert!(keys.contains(key), "{key}");
        }
    }
}

#[test]
fn every_key_is_asked_for() {
    let sources = sources();
    for key in keys() {
        let whole = sources.contains(&format!("\"{key}\""));
        let parted = PREFIXES
            .iter()
            .any(|prefix| key.starts_with(prefix) && sources.contains(&format!("\"{prefix}\"")));
        assert!(whole || parted, "{key} is not used");
    }
}
