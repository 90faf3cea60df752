//! Versions of dependencies stand in the root `Cargo.toml` only, each with its reason.

use std::collections::BTreeSet;

use super::{File, Finding, text_of};

const ROOT: &str = "Cargo.toml";
const KINDS: &[&str] = &["dependencies", "dev-dependencies", "build-dependencies"];

/// Every rule on the manifests.
pub(crate) fn check(files: &[File]) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut used = BTreeSet::new();
    let members = files.iter().filter(|file| file.path.ends_with("/Cargo.toml"));
    for file in members {
        let Some(table) = parse(&file.path, file.text.as_deref(), &mut findings) else {
            continue;
        };
        member(&file.path, &table, &mut used, &mut findings);
    }
    let text = text_of(files, ROOT);
    if let Some(table) = parse(ROOT, text, &mut findings) {
        root(text.unwrap_or_default(), &table, &used, &mut findings);
    }
    findings
}

fn parse(path: &str, text: Option<&str>, findings: &mut Vec<Finding>) -> Option<toml::Table> {
    let parsed = text.ok_or("is missing".to_owned()).and_then(|text| {
        text.parse::<toml::Table>().map_err(|error| format!("is no TOML: {}", error.message()))
    });
    parsed.map_err(|why| findings.push(Finding::error(path, why))).ok()
}

fn member(
    path: &str,
    table: &toml::Table,
    used: &mut BTreeSet<String>,
    findings: &mut Vec<Finding>,
) {
    let targets = table.get("target").and_then(toml::Value::as_table);
    let tables = std::iter::once(table)
        .chain(targets.into_iter().flat_map(toml::Table::values).filter_map(toml::Value::as_table));
    for table in tables {
        let kinds = KINDS.iter().filter_map(|kind| table.get(*kind)?.as_table());
        for (name, entry) in kinds.flatten() {
            used.insert(name.clone());
            let inherits =
                entry.get("workspace").and_then(toml::Value::as_bool).unwrap_or_default();
            if !inherits {
                let what =
                    format!("{name}: write `{name}.workspace = true`; versions stand in the root");
                findings.push(Finding::error(path, what));
            }
        }
    }
    let lints = table.get("lints").and_then(|lints| lints.get("workspace"));
    if lints.and_then(toml::Value::as_bool) != Some(true) {
        findings.push(Finding::error(path, "takes no part in the lints: `lints.workspace = true`"));
    }
}

fn root(text: &str, table: &toml::Table, used: &BTreeSet<String>, findings: &mut Vec<Finding>) {
    let list = table.get("workspace").and_then(|workspace| workspace.get("dependencies"));
    let Some(list) = list.and_then(toml::Value::as_table) else {
        findings.push(Finding::error(ROOT, "has no [workspace.dependencies]"));
        return;
    };
    for (name, entry) in list {
        // A crate of the house says itself what it is, and may be one that nobody imports yet.
        if entry.get("path").is_some() {
            continue;
        }
        if !used.contains(name) {
            findings.push(Finding::error(ROOT, format!("{name}: no crate uses it")));
        }
        if !has_reason(text, name) {
            let what = format!("{name}: say in a comment on its line why it is here");
            findings.push(Finding::error(ROOT, what));
        }
    }
}

/// Is there a comment on the line that declares a dependency?
fn has_reason(text: &str, name: &str) -> bool {
    text.lines().any(|line| {
        let declares =
            line.strip_prefix(name).is_some_and(|rest| rest.trim_start().starts_with('='));
        let mut outside = true;
        let comment = line.find(|c| {
            outside ^= c == '"';
            c == '#' && outside
        });
        declares && comment.is_some_and(|at| line[at + 1..].split_whitespace().count() >= 2)
    })
}

#[cfg(test)]
mod tests {
    use super::super::{errors, sample};
    use super::check;

    const ROOT: &str = "[workspace.dependencies]\nlibm = \"0.2\" # the same digits everywhere\n";
    const MEMBER: &str = "[lints]\nworkspace = true\n[dependencies]\nlibm.workspace = true\n";

    fn found(root: &str, member: &str) -> Vec<String> {
        errors(&check(&sample(&[("Cargo.toml", root), ("crates/a/Cargo.toml", member)])))
    }

    #[test]
    fn manifests_as_they_should_be_pass() {
        assert!(found(ROOT, MEMBER).is_empty());
        let ours = format!("{ROOT}ringtrue-fem = {{ path = \"crates/ringtrue-fem\" }}\n");
        assert!(found(&ours, &format!("{MEMBER}ringtrue-fem.workspace = true\n")).is_empty());
        assert!(found(&ours, MEMBER).is_empty());
    }

    #[test]
    fn a_version_in_a_member_is_found() {
        for entry in ["csv = \"1.4\"", "csv = { version = \"1.4\" }", "csv = { path = \"../csv\" }"]
        {
            assert_eq!(found(ROOT, &format!("{MEMBER}{entry}\n")).len(), 1, "{entry}");
        }
        let tests = format!("{MEMBER}[dev-dependencies]\nproptest = \"1\"\n");
        assert_eq!(found(ROOT, &tests).len(), 1);
        let target = format!("{MEMBER}[target.'cfg(unix)'.dependencies]\nnix = \"1\"\n");
        assert_eq!(found(ROOT, &target).len(), 1);
    }

    #[test]
    fn a_dependency_without_a_reason_or_a_user_is_found() {
        let bare = "[workspace.dependencies]\nlibm = \"0.2\"\n";
        assert_eq!(found(bare, MEMBER).len(), 1);
        let empty = "[workspace.dependencies]\nlibm = \"0.2#is no comment at all\" #\n";
        assert_eq!(found(empty, MEMBER).len(), 1);
        let spare = format!("{ROOT}csv = \"1.4\" # reads readings files\n");
        assert_eq!(found(&spare, MEMBER), ["Cargo.toml: csv: no crate uses it"]);
    }

    #[test]
    fn a_member_without_the_lints_is_found() {
        assert_eq!(found(ROOT, "[dependencies]\nlibm.workspace = true\n").len(), 1);
    }

    #[test]
    fn a_missing_or_broken_manifest_is_found() {
        assert!(!check(&[]).is_empty());
        assert!(!found("[workspace", MEMBER).is_empty());
    }
}
