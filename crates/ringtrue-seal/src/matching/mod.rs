//! Do the parts belong together?
//!
//! Cross-references between ring, load ring, housing, installing tool, material, oil, cleaning
//! agent, temperatures and gap chain. Each check gives a finding with its own verdict.

use ringtrue_metrology::conformity::Verdict;
use serde::Serialize;

use crate::definition::joint::Half;

/// What the checks found.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outcome {
    /// One finding a check, in the order in which a fitter would look.
    pub findings: Vec<Finding>,
    /// The worst of the findings; `conforms` when there was nothing to compare.
    pub verdict: Verdict,
}

/// One comparison.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Finding {
    /// What was compared: `ring ramp angle against housing ramp angle`.
    pub what: String,
    /// The half it concerns, where it concerns one.
    pub half: Option<Half>,
    /// What was found, with its numbers as typed.
    pub found: String,
    /// What would fit, with the limit's origin.
    pub fits: String,
    /// On this comparison.
    pub verdict: Verdict,
    /// Sources of the figures that were used.
    pub sources: Vec<String>,
}
