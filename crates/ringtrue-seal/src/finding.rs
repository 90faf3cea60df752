//! One comparison with its own verdict: what rooms that compare several things answer with.

use ringtrue_metrology::conformity::Verdict;
use serde::Serialize;

use crate::definition::joint::Half;

/// One comparison.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Finding {
    /// What was compared: `ring ramp angle against housing ramp angle`.
    pub what: String,
    /// The half it concerns, where it concerns one.
    pub half: Option<Half>,
    /// What was found, with its numbers as typed or computed.
    pub found: String,
    /// What would fit, with the limit's origin.
    pub fits: String,
    /// On this comparison.
    pub verdict: Verdict,
    /// Sources of the figures that were used.
    pub sources: Vec<String>,
}

impl Finding {
    /// A finding that concerns no half and rests on no figure of another source.
    pub(crate) fn new(
        what: impl Into<String>,
        verdict: Verdict,
        found: impl Into<String>,
        fits: impl Into<String>,
    ) -> Self {
        Self {
            what: what.into(),
            half: None,
            found: found.into(),
            fits: fits.into(),
            verdict,
            sources: Vec::new(),
        }
    }

    pub(crate) fn with_sources(mut self, sources: Vec<String>) -> Self {
        self.sources = sources;
        self
    }
}

/// The worst of several findings; `conforms` when there was nothing to compare.
pub(crate) fn worst(findings: &[Finding]) -> Verdict {
    findings.iter().map(|finding| finding.verdict).max().unwrap_or(Verdict::Conforms)
}
