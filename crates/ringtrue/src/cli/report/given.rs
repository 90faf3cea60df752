//! A check on one line: `flatness a: bands.csv; uncertainty=0.3 mm`.

use std::path::PathBuf;

use ringtrue_job::check::Check;
use ringtrue_job::event::Stated;
use ringtrue_seal::definition::joint::Half;

/// A check with its files and settings.
#[derive(Debug, Clone)]
pub(crate) struct GivenCheck {
    pub(crate) check: Check,
    pub(crate) half: Option<Half>,
    pub(crate) files: Vec<PathBuf>,
    pub(crate) gauge: Option<PathBuf>,
    pub(crate) stated: Vec<Stated>,
}

/// Reads it; what the settings say is read where the check is made.
pub(super) fn check(text: &str) -> Result<GivenCheck, String> {
    let (head, rest) = text.split_once(':').unwrap_or((text, ""));
    let mut words = head.split_whitespace();
    let name = words.next().unwrap_or_default();
    let check = Check::named(name).ok_or_else(|| {
        let names = Check::ALL.map(Check::name).join(", ");
        format!("`{name}` is no check; the checks are {names}")
    })?;
    let half = match words.next() {
        None => None,
        Some(word) => Some(
            Half::BOTH
                .into_iter()
                .find(|half| half.name() == word)
                .ok_or_else(|| format!("`{word}` is no half; the halves are a and b"))?,
        ),
    };
    if let Some(more) = words.next() {
        return Err(format!("`{more}` stands before the colon; files and settings follow it"));
    }
    let mut given = GivenCheck { check, half, files: Vec::new(), gauge: None, stated: Vec::new() };
    for part in rest.split(';').map(str::trim).filter(|part| !part.is_empty()) {
        match part.split_once('=').map(|(name, typed)| (name.trim(), typed.trim())) {
            Some(("gauge", path)) => given.gauge = Some(path.into()),
            Some((name, typed)) if check.settings().iter().any(|one| one.name == name) => {
                given.stated.push(Stated { name: name.to_owned(), typed: typed.to_owned() });
            }
            Some((name, _)) if !name.contains(['.', '/', '\\']) => {
                let names: Vec<&str> = check.settings().iter().map(|one| one.name).collect();
                return Err(format!("`{name}` is no setting; it has {}", names.join(", ")));
            }
            Some(_) | None => given.files.push(part.into()),
        }
    }
    Ok(given)
}
