//! Rules on everything else in the repository: papers that must be there, paths that must not.

use super::{File, Finding, text_of};

const ARCHITECTURE_LINES: usize = 300;
const REQUIRED: &[&str] = &[
    "README.md",
    "ARCHITECTURE.md",
    "CONTRIBUTING.md",
    "CHANGELOG.md",
    "LICENSE-MIT",
    "LICENSE-APACHE",
    "validation/README.md",
    "validation/RESULTS.md",
];
/// Folders of one machine, each cut in two so that this file does not hold what it looks for.
const MACHINE_FOLDERS: &[(&str, &str)] = &[
    ("/ro", "ot/"),
    ("/tm", "p/"),
    ("/wo", "rk/"),
    ("/ho", "me/"),
    ("/Us", "ers/"),
    ("/bui", "lds/"),
    ("../sha", "red"),
    ("file:", "///"),
    ("C:\\Us", "ers"),
];

/// Every rule on papers and paths.
pub(crate) fn check(files: &[File]) -> Vec<Finding> {
    let mut findings = Vec::new();
    for path in REQUIRED {
        if text_of(files, path).is_none_or(|text| text.trim().is_empty()) {
            findings.push(Finding::error(*path, "is missing or empty"));
        }
    }
    let lines = text_of(files, "ARCHITECTURE.md").map_or(0, |text| text.lines().count());
    if lines > ARCHITECTURE_LINES {
        let what = format!("{lines} lines; at most {ARCHITECTURE_LINES}");
        findings.push(Finding::error("ARCHITECTURE.md", what));
    }
    let changelog = text_of(files, "CHANGELOG.md").unwrap_or_default();
    if !changelog.lines().any(|line| line.starts_with("## [Unreleased]")) {
        findings.push(Finding::error("CHANGELOG.md", "has no `## [Unreleased]`"));
    }
    for file in files {
        machine_paths(file, &mut findings);
    }
    findings
}

fn machine_paths(file: &File, findings: &mut Vec<Finding>) {
    let Some(text) = &file.text else { return };
    for (start, end) in MACHINE_FOLDERS {
        let folder = format!("{start}{end}");
        for (index, line) in text.lines().enumerate() {
            if holds(line, &folder) {
                let what = format!("`{folder}` is a path of one machine");
                findings.push(Finding::error(format!("{}:{}", file.path, index + 1), what));
            }
        }
    }
}

/// Does a line hold the folder at the start of a path, not in the middle of another?
fn holds(line: &str, folder: &str) -> bool {
    line.match_indices(folder).any(|(at, _)| {
        let before = line[..at].chars().next_back();
        !before.is_some_and(|c| c.is_alphanumeric() || matches!(c, '_' | '-' | '.' | '}' | '/'))
    })
}

#[cfg(test)]
mod tests {
    use super::super::{errors, sample};
    use super::{MACHINE_FOLDERS, REQUIRED, check};

    fn papers(change: (&str, &str)) -> Vec<String> {
        let fine = |path: &str| match path {
            "CHANGELOG.md" => "# Changelog\n\n## [Unreleased]\n",
            _ => "text\n",
        };
        let mut files: Vec<(&str, &str)> =
            REQUIRED.iter().map(|path| (*path, fine(path))).collect();
        files.retain(|(path, _)| *path != change.0);
        files.push(change);
        errors(&check(&sample(&files)))
    }

    /// A folder inside the project that only ends like one of a machine is none.
    #[test]
    fn papers_in_order_pass() {
        for (start, end) in MACHINE_FOLDERS {
            let text = format!("see crates{start}{end}x\n");
            assert!(papers(("docs/x.md", &text)).is_empty(), "{text}");
        }
    }

    #[test]
    fn a_missing_or_empty_paper_is_found() {
        for path in REQUIRED {
            assert!(!papers((path, " \n")).is_empty(), "{path}");
        }
        assert!(check(&[]).len() > REQUIRED.len());
    }

    #[test]
    fn a_changelog_without_a_place_for_changes_is_found() {
        assert_eq!(papers(("CHANGELOG.md", "# Changelog\n\n## [0.1.0]\n")).len(), 1);
    }

    #[test]
    fn a_map_that_has_grown_too_long_is_found() {
        assert!(papers(("ARCHITECTURE.md", &"line\n".repeat(300))).is_empty());
        assert_eq!(papers(("ARCHITECTURE.md", &"line\n".repeat(301))).len(), 1);
    }

    #[test]
    fn a_path_of_one_machine_is_found() {
        for (start, end) in MACHINE_FOLDERS {
            let text = format!("fine\nopen(\"{start}{end}x\")\n");
            let places = papers(("docs/x.md", &text));
            assert_eq!(places.len(), 1, "{text}");
            assert!(places[0].starts_with("docs/x.md:2"), "{places:?}");
        }
    }
}
