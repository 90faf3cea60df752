//! A case as its file holds it.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::ValidationError;

/// One published case: an input, what comes out, how far the program may be off, and who says so.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Case {
    /// Its name, unique among all cases.
    pub id: String,
    /// What it is about, in one line.
    pub title: String,
    /// The calculation that it is put to.
    pub model: String,
    /// Where the expected numbers come from.
    pub source: String,
    /// How strong that source is.
    pub status: Status,
    /// Who or what confirmed the expected numbers.
    pub verified_by: String,
    /// What a reader must know before using it.
    pub caution: Option<String>,
    /// The formula that the source gives.
    pub formula: Option<String>,
    /// Largest deviation as a share of the expected number.
    pub tol_rel: Option<f64>,
    /// Largest deviation in the quantity's own unit; the larger of the two holds.
    pub tol_abs: Option<f64>,
    /// Why the tolerance is what it is.
    pub tol_reason: Option<String>,
    pub(super) inputs: BTreeMap<String, toml::Value>,
    pub(super) expected: BTreeMap<String, Quantity>,
}

/// How strong the source of an expected number is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Status {
    /// Printed in a text that was at hand, and reproduced.
    #[serde(rename = "published")]
    Published,
    /// The formula is published or a closed form; the number was computed independently.
    #[serde(rename = "recomputed")]
    Recomputed,
    /// Remembered; the text was not at hand.
    #[serde(rename = "from memory")]
    FromMemory,
}

impl std::fmt::Display for Status {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Published => "published",
            Self::Recomputed => "recomputed",
            Self::FromMemory => "from memory",
        })
    }
}

/// One number or a list of them.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(untagged, expecting = "a number or a list of numbers is wanted")]
pub(super) enum Quantity {
    One(f64),
    List(Vec<f64>),
}

impl Quantity {
    pub(super) fn form(&self) -> String {
        match self {
            Self::One(_) => "one number".to_owned(),
            Self::List(list) => format!("a list of {}", list.len()),
        }
    }

    fn numbers(&self) -> &[f64] {
        match self {
            Self::One(number) => std::slice::from_ref(number),
            Self::List(list) => list,
        }
    }
}

impl Case {
    /// Largest deviation from an expected number that passes.
    #[must_use]
    pub fn tolerance(&self, expected: f64) -> f64 {
        let relative = self.tol_rel.unwrap_or(0.0) * expected.abs();
        relative.max(self.tol_abs.unwrap_or(0.0))
    }

    /// Number of expected numbers.
    #[must_use]
    pub fn expects(&self) -> usize {
        self.expected.values().map(|quantity| quantity.numbers().len()).sum()
    }

    /// An expected quantity that is one number.
    pub(super) fn expected_number(&self, quantity: &str) -> Option<f64> {
        match self.expected.get(quantity)? {
            Quantity::One(number) => Some(*number),
            Quantity::List(_) => None,
        }
    }

    pub(super) fn wrong(&self, what: impl Into<String>) -> ValidationError {
        ValidationError::Case { case: self.id.clone(), what: what.into() }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CaseFile {
    case: Vec<Case>,
}

pub(super) fn read(text: &str) -> Result<Vec<Case>, ValidationError> {
    let file: CaseFile =
        toml::from_str(text).map_err(|error| ValidationError::File(error.to_string()))?;
    if file.case.is_empty() {
        return Err(ValidationError::File("it holds no [[case]]".to_owned()));
    }
    let mut ids = BTreeSet::new();
    for case in &file.case {
        if !ids.insert(case.id.as_str()) {
            return Err(case.wrong("another case of this file has the same id"));
        }
        check(case)?;
    }
    Ok(file.case)
}

/// A case must be able to fail, and must say who stands behind it.
fn check(case: &Case) -> Result<(), ValidationError> {
    let told = [&case.id, &case.title, &case.model, &case.source, &case.verified_by];
    if told.iter().any(|text| text.trim().is_empty()) {
        return Err(case.wrong("id, title, model, source and verified_by must say something"));
    }
    if case.tol_rel.is_none() && case.tol_abs.is_none() {
        return Err(case.wrong("it has no tolerance; give `tol_rel` or `tol_abs`"));
    }
    if case.tol_rel.is_some_and(|tolerance| !(tolerance > 0.0 && tolerance < 1.0)) {
        return Err(case.wrong("`tol_rel` must lie between 0 and 1"));
    }
    if case.tol_abs.is_some_and(|tolerance| !(tolerance > 0.0 && tolerance.is_finite())) {
        return Err(case.wrong("`tol_abs` must be a number above 0"));
    }
    if case.expects() == 0 || case.expected.values().any(|list| list.numbers().is_empty()) {
        return Err(case.wrong("it expects nothing, so it could not fail"));
    }
    for (quantity, list) in &case.expected {
        if list.numbers().iter().any(|number| !number.is_finite()) {
            return Err(case.wrong(format!("`{quantity}` expects something that is no number")));
        }
        if list.numbers().iter().any(|number| case.tolerance(*number) == 0.0) {
            return Err(
                case.wrong(format!("`{quantity}` expects 0: `tol_rel` alone allows nothing"))
            );
        }
    }
    Ok(())
}
