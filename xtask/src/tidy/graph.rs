//! Who may import whom, and under which licences the crates from outside stand.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use serde_json::Value;

use super::Finding;
use crate::process;

/// The floors of the house: each crate and the crates of the house that it may import.
const MAY_IMPORT: &[(&str, &[&str])] = &[
    ("ringtrue-fem", &[]),
    ("ringtrue-words", &[]),
    ("ringtrue-metrology", &["ringtrue-words"]),
    ("ringtrue-seal", &["ringtrue-fem", "ringtrue-metrology", "ringtrue-words"]),
    ("ringtrue-job", &["ringtrue-seal", "ringtrue-metrology", "ringtrue-words"]),
    ("ringtrue-store", &["ringtrue-job", "ringtrue-metrology", "ringtrue-words"]),
    ("ringtrue-report", &["ringtrue-job", "ringtrue-seal", "ringtrue-metrology", "ringtrue-words"]),
    (
        "ringtrue",
        &[
            "ringtrue-metrology",
            "ringtrue-seal",
            "ringtrue-job",
            "ringtrue-store",
            "ringtrue-report",
            "ringtrue-words",
        ],
    ),
    ("xtask", &[]),
];

/// Libraries that one crate alone may name, by the start of their names.
const ONLY_IN: &[(&str, &str)] = &[("typst", "ringtrue-report"), ("faer", "ringtrue-fem")];

/// The one place that crates from outside come from.
const REGISTRY: &str = "registry+https://github.com/rust-lang/crates.io-index";

/// The folder that cargo builds into.
///
/// # Errors
/// Cargo failed, or its answer is not what it documents.
pub(crate) fn target(root: &Path) -> Result<PathBuf, String> {
    let arguments = ["metadata", "--format-version", "1", "--locked", "--no-deps"];
    let metadata: Value = serde_json::from_str(&process::output(root, "cargo", &arguments)?)
        .map_err(|error| format!("cargo metadata is no JSON: {error}"))?;
    let folder = metadata["target_directory"].as_str().map(PathBuf::from);
    folder.ok_or_else(|| "cargo metadata names no target folder".to_owned())
}

/// What cargo knows of the workspace and of all that it builds on.
#[derive(Debug)]
pub(crate) struct Workspace {
    packages: Vec<Package>,
}

#[derive(Debug)]
struct Package {
    name: String,
    version: String,
    /// Where it came from; `None` for a crate of the house.
    source: Option<String>,
    licence: Option<String>,
    imports: Vec<String>,
}

impl Workspace {
    /// Asks cargo.
    ///
    /// # Errors
    /// Cargo failed, or its answer is not what it documents.
    pub(crate) fn read(root: &Path) -> Result<Self, String> {
        let arguments = ["metadata", "--format-version", "1", "--locked"];
        Self::parse(&process::output(root, "cargo", &arguments)?)
    }

    fn parse(metadata: &str) -> Result<Self, String> {
        let value: Value = serde_json::from_str(metadata)
            .map_err(|error| format!("cargo metadata is no JSON: {error}"))?;
        let packages = value["packages"].as_array().ok_or("cargo metadata has no packages")?;
        let packages = packages.iter().map(Package::read).collect::<Option<Vec<_>>>();
        Ok(Self { packages: packages.ok_or("a package of cargo metadata has no name")? })
    }

    fn house(&self) -> impl Iterator<Item = &Package> {
        self.packages.iter().filter(|package| package.source.is_none())
    }
}

impl Package {
    fn read(value: &Value) -> Option<Self> {
        let text = |key: &str| value[key].as_str().map(str::to_owned);
        let imports = value["dependencies"].as_array()?.iter();
        Some(Self {
            name: text("name")?,
            version: text("version")?,
            source: text("source"),
            licence: text("license"),
            imports: imports
                .filter_map(|import| import["name"].as_str())
                .map(str::to_owned)
                .collect(),
        })
    }
}

/// The import list.
pub(crate) fn check(workspace: &Workspace) -> Vec<Finding> {
    let house: BTreeSet<&str> = workspace.house().map(|package| package.name.as_str()).collect();
    let mut findings = Vec::new();
    for package in workspace.house() {
        let name = package.name.as_str();
        let Some((_, allowed)) = MAY_IMPORT.iter().find(|(crate_, _)| *crate_ == name) else {
            findings.push(Finding::error(name, "no such crate in the list of floors"));
            continue;
        };
        for import in package.imports.iter().map(String::as_str) {
            if house.contains(import) && !allowed.contains(&import) {
                findings.push(Finding::error(name, format!("may not import {import}")));
            }
            for (library, only) in ONLY_IN {
                if import.starts_with(library) && name != *only {
                    let what = format!("names {import}; only {only} may");
                    findings.push(Finding::error(name, what));
                }
            }
        }
    }
    findings
}

/// The licences against the allow-list of `deny.toml`.
pub(crate) fn licences(workspace: &Workspace, deny: Option<&str>) -> Vec<Finding> {
    let allowed = match allow_list(deny) {
        Ok(allowed) => allowed,
        Err(why) => return vec![Finding::error("deny.toml", why)],
    };
    let mut findings = Vec::new();
    for package in &workspace.packages {
        let place = format!("{} {}", package.name, package.version);
        if let Some(source) = package.source.as_deref().filter(|source| *source != REGISTRY) {
            findings.push(Finding::error(&place, format!("comes from {source}")));
        }
        let Some(licence) = &package.licence else {
            findings.push(Finding::error(&place, "names no licence"));
            continue;
        };
        match spdx::Expression::parse_mode(licence, spdx::ParseMode::LAX) {
            Err(error) => {
                let what = format!("`{licence}` is no licence expression: {}", error.reason);
                findings.push(Finding::error(&place, what));
            }
            Ok(expression) => {
                let fits = |asked: &spdx::LicenseReq| allowed.iter().any(|l| l.satisfies(asked));
                if !expression.evaluate(fits) {
                    let what = format!("`{licence}` is not in the allow-list of deny.toml");
                    findings.push(Finding::error(&place, what));
                }
            }
        }
    }
    findings
}

fn allow_list(deny: Option<&str>) -> Result<Vec<spdx::Licensee>, String> {
    let table: toml::Table =
        deny.ok_or("is missing")?.parse().map_err(|error| format!("is no TOML: {error}"))?;
    let list = table.get("licenses").and_then(|licences| licences.get("allow"));
    let list = list.and_then(toml::Value::as_array).ok_or("has no list `licenses.allow`")?;
    if list.is_empty() {
        return Err("`licenses.allow` is empty".to_owned());
    }
    list.iter()
        .map(|name| {
            let name = name.as_str().ok_or("`licenses.allow` holds something that is no text")?;
            spdx::Licensee::parse(name).map_err(|error| format!("`{name}`: {}", error.reason))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::errors;
    use super::{REGISTRY, Workspace, check, licences};

    const DENY: Option<&str> =
        Some("[licenses]\nallow = [\"MIT\", \"Apache-2.0 WITH LLVM-exception\", \"Unicode-3.0\"]");

    fn workspace(packages: &[(&str, &str, &[&str])]) -> Workspace {
        let packages: Vec<_> = packages
            .iter()
            .map(|(name, licence, imports)| {
                let imports: Vec<_> =
                    imports.iter().map(|name| serde_json::json!({ "name": name })).collect();
                serde_json::json!({
                    "name": name, "version": "1.0.0", "license": licence, "dependencies": imports,
                    "source": (!name.starts_with("ringtrue")).then_some(REGISTRY),
                })
            })
            .collect();
        Workspace::parse(&serde_json::json!({ "packages": packages }).to_string()).unwrap()
    }

    #[test]
    fn the_floors_as_drawn_pass() {
        let house = workspace(&[
            ("ringtrue-metrology", "MIT", &["libm"]),
            ("ringtrue-seal", "MIT", &["ringtrue-metrology", "toml"]),
            ("ringtrue-report", "MIT", &["ringtrue-seal", "typst-pdf"]),
            ("ringtrue", "MIT", &["ringtrue-seal", "ringtrue-report"]),
        ]);
        assert!(check(&house).is_empty());
    }

    #[test]
    fn an_import_upward_or_across_is_found() {
        let bad: &[(&str, &str)] = &[
            ("ringtrue-metrology", "ringtrue-seal"),
            ("ringtrue-fem", "ringtrue-metrology"),
            ("ringtrue-report", "ringtrue-store"),
            ("ringtrue-store", "ringtrue-seal"),
            ("ringtrue", "ringtrue-fem"),
            ("ringtrue-seal", "typst"),
            ("ringtrue-job", "faer"),
        ];
        for (from, to) in bad {
            let house = workspace(&[(from, "MIT", &[to]), (to, "MIT", &[])]);
            assert_eq!(check(&house).len(), 1, "{from} -> {to}");
        }
    }

    #[test]
    fn a_crate_without_a_floor_is_found() {
        assert_eq!(check(&workspace(&[("ringtrue-attic", "MIT", &[])])).len(), 1);
    }

    #[test]
    fn licences_are_read_as_expressions() {
        for fine in ["MIT", "GPL-3.0-only OR MIT", "MIT/Apache-2.0", "MIT AND Unicode-3.0"] {
            assert!(licences(&workspace(&[("x", fine, &[])]), DENY).is_empty(), "{fine}");
        }
        for bad in ["GPL-3.0-only", "MIT AND MPL-2.0", "Apache-2.0", "all rights reserved"] {
            assert_eq!(licences(&workspace(&[("x", bad, &[])]), DENY).len(), 1, "{bad}");
        }
    }

    #[test]
    fn a_missing_list_or_a_stranger_is_found() {
        let fine = workspace(&[("x", "MIT", &[])]);
        assert_eq!(errors(&licences(&fine, None)), ["deny.toml: is missing"]);
        assert_eq!(licences(&fine, Some("[licenses]\nallow = []")).len(), 1);
        assert_eq!(licences(&fine, Some("[licenses]\nallow = [\"My own\"]")).len(), 1);
        let mut stranger = workspace(&[("x", "MIT", &[])]);
        stranger.packages[0].source = Some("git+https://example.org/x".to_owned());
        assert_eq!(licences(&stranger, DENY).len(), 1);
        stranger.packages[0].licence = None;
        assert_eq!(licences(&stranger, DENY).len(), 2);
    }
}
