//! Wrong files: each gives one clear message with its place, exit code 2, and nothing is written.

use serde::Deserialize;

use crate::bench::Bench;

#[derive(Deserialize)]
struct Cases {
    case: Vec<Case>,
}

/// One wrong input. `files` are written first; `arguments` are run; `says` must all be said.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    arguments: Vec<String>,
    #[serde(default)]
    file: Vec<File>,
    says: Vec<String>,
}

/// A file made from a text, a starter, bytes or a repeated text; or a folder.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    name: String,
    #[serde(default)]
    text: Option<String>,
    #[serde(default)]
    starter: Option<String>,
    #[serde(default)]
    replace: Vec<[String; 2]>,
    #[serde(default)]
    bytes: Option<Vec<u8>>,
    /// A file of the repository, by its path there.
    #[serde(default)]
    copy: Option<String>,
    /// How many bytes of the copy are kept.
    #[serde(default)]
    cut: Option<usize>,
    #[serde(default)]
    repeat: Option<(String, usize)>,
    #[serde(default)]
    folder: bool,
}

impl File {
    fn make(&self, bench: &Bench) {
        if self.folder {
            std::fs::create_dir(bench.path().join(&self.name)).unwrap();
            return;
        }
        let mut text = match (&self.text, &self.starter) {
            (Some(text), _) => text.clone(),
            (None, Some(kind)) => bench.run(&["new", kind]).stdout(),
            (None, None) => String::new(),
        };
        for [from, to] in &self.replace {
            assert!(text.contains(from), "`{from}` is not in the text to be spoilt");
            text = text.replacen(from, to, 1);
        }
        let mut bytes = text.into_bytes();
        if let Some(path) = &self.copy {
            let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../..");
            let copied = std::fs::read(std::path::Path::new(root).join(path)).unwrap();
            bytes.extend(&copied[..self.cut.unwrap_or(copied.len())]);
        }
        if let Some((text, times)) = &self.repeat {
            bytes.extend(text.repeat(*times).into_bytes());
        }
        bytes.extend(self.bytes.iter().flatten());
        bench.file(&self.name, bytes);
    }
}

#[test]
fn each_wrong_file_gives_one_clear_message_and_nothing_else() {
    let cases: Cases = toml::from_str(include_str!("wrong_files.toml")).unwrap();
    assert!(cases.case.len() >= 60, "{} cases", cases.case.len());
    refuse_all(&cases);
}

#[test]
fn each_wrong_check_gives_one_clear_message_and_nothing_else() {
    let cases: Cases = toml::from_str(include_str!("wrong_checks.toml")).unwrap();
    for command in ["align", "finish", "flat"] {
        let own = cases.case.iter().filter(|case| case.arguments[0] == command).count();
        assert!(own >= 10, "{own} cases of {command}");
    }
    refuse_all(&cases);
}

#[test]
fn each_wrong_handling_gives_one_clear_message_and_nothing_else() {
    let cases: Cases = toml::from_str(include_str!("wrong_handling.toml")).unwrap();
    for command in ["chill", "leak", "agent"] {
        let own = cases.case.iter().filter(|case| case.arguments[0] == command).count();
        assert!(own >= 10, "{own} cases of {command}");
    }
    refuse_all(&cases);
}

#[test]
fn each_wrong_closing_gives_one_clear_message_and_nothing_else() {
    let cases: Cases = toml::from_str(include_str!("wrong_closing.toml")).unwrap();
    let own = cases.case.iter().filter(|case| case.arguments[0] == "close").count();
    assert!(own >= 10, "{own} cases of close");
    refuse_all(&cases);
}

#[test]
fn each_wrong_seating_gives_one_clear_message_and_nothing_else() {
    let cases: Cases = toml::from_str(include_str!("wrong_seating.toml")).unwrap();
    assert!(cases.case.len() >= 10, "{} cases of seat", cases.case.len());
    refuse_all(&cases);
}

fn refuse_all(cases: &Cases) {
    let failures: Vec<String> = cases.case.iter().filter_map(|case| refused(case).err()).collect();
    assert!(failures.is_empty(), "{} failed:\n{}", failures.len(), failures.join("\n"));
}

fn refused(case: &Case) -> Result<(), String> {
    let bench = Bench::new();
    for file in &case.file {
        file.make(&bench);
    }
    let before = bench.listing();
    let arguments: Vec<&str> = case.arguments.iter().map(String::as_str).collect();
    let ran = bench.run(&arguments);
    let said = ran.stderr();
    let fail = |what: &str| Err(format!("- {}: {what}: {said}", case.name));
    if ran.code() != 2 {
        return fail(&format!("exit code {}", ran.code()));
    }
    if !ran.stdout().is_empty() {
        return fail("something was printed");
    }
    let lower = said.to_lowercase();
    if let Some(missing) = case.says.iter().find(|wanted| !lower.contains(&wanted.to_lowercase())) {
        return fail(&format!("`{missing}` is not said"));
    }
    let lines = said.lines().filter(|line| !line.trim().is_empty()).count();
    if lines > 6 || said.len() > 1500 || lower.contains("panicked") {
        return fail("not one clear message");
    }
    if bench.listing() != before {
        return fail("something was written");
    }
    Ok(())
}
