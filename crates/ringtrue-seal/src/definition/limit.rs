//! Limits, each with its origin.

use ringtrue_metrology::units::{Given, Quantity};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A limit above, below or both, and where it comes from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, bound = "")]
#[schemars(bound = "")]
pub struct Limit<Q: Quantity> {
    /// Smallest value that conforms.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub min: Option<Given<Q>>,
    /// Largest value that conforms.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub max: Option<Given<Q>>,
    /// Where it comes from: drawing, job sheet, `common practice, no source`, `from memory`.
    pub origin: String,
}

impl<Q: Quantity> Limit<Q> {
    /// Smallest and largest value in SI, where given.
    #[must_use]
    pub fn bounds_si(&self) -> (Option<f64>, Option<f64>) {
        let si = |given: &Option<Given<Q>>| given.as_ref().map(|given| given.value().si());
        (si(&self.min), si(&self.max))
    }
}

/// The probabilities at which a verdict is drawn, as written in a file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DecisionLevels {
    /// Probability of conformity from which on the verdict is `conforms`: `97.5 %`.
    pub conforms_from: Given<ringtrue_metrology::units::Fraction>,
    /// Probability of conformity up to which the verdict is `does not conform`: `2.5 %`.
    pub does_not_conform_to: Given<ringtrue_metrology::units::Fraction>,
}
