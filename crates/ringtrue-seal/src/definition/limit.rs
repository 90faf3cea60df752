//! Limits, each with its origin.

use ringtrue_metrology::conformity::Levels;
use ringtrue_metrology::units::{Fraction, Given, Quantity};
use ringtrue_words::say;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Misfit;
use super::misfit::{not_negative, some_text};

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

    /// The limit in words, as typed, with its origin: `2 mm to 3.2 mm (drawing 4711)`.
    #[must_use]
    pub fn words(&self) -> String {
        let span = match (&self.min, &self.max) {
            (Some(min), Some(max)) => {
                say!("definition-limit-from-to", min = min.typed(), max = max.typed())
            }
            (Some(min), None) => say!("definition-limit-at-least", min = min.typed()),
            (None, Some(max)) => say!("definition-limit-at-most", max = max.typed()),
            (None, None) => say!("definition-limit-none").to_owned(),
        };
        format!("{span} ({})", self.origin)
    }

    /// One bound at least, in order, with an origin.
    pub(super) fn consistent(&self) -> Result<(), Misfit> {
        match self.bounds_si() {
            (None, None) => {
                return Err(Misfit::at(
                    "",
                    say!("definition-limit-without-bounds"),
                    say!("definition-limit-bounds-wanted"),
                ));
            }
            (Some(min), Some(max)) if min > max => {
                let found = say!("definition-min-above-max", limit = self.words());
                return Err(Misfit::at("min", found, say!("definition-smaller-as-min")));
            }
            (Some(_), _) | (_, Some(_)) => {}
        }
        some_text("origin", &self.origin)
    }

    /// As [`Self::consistent`], and neither bound below zero.
    pub(super) fn consistent_from_zero(&self) -> Result<(), Misfit> {
        self.consistent()?;
        self.min.as_ref().map_or(Ok(()), |min| not_negative("min", min))?;
        self.max.as_ref().map_or(Ok(()), |max| not_negative("max", max))
    }
}

/// The probabilities at which a verdict is drawn, as written in a file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DecisionLevels {
    /// Probability of conformity from which on the verdict is `conforms`: `97.5 %`.
    pub conforms_from: Given<Fraction>,
    /// Probability of conformity up to which the verdict is `does not conform`: `2.5 %`.
    pub does_not_conform_to: Given<Fraction>,
}

impl DecisionLevels {
    /// The levels, where they are in order: above 0 %, the lower one first, below 100 %.
    #[must_use]
    pub fn levels(&self) -> Option<Levels> {
        Levels::new(self.conforms_from.value().si(), self.does_not_conform_to.value().si())
    }

    pub(super) fn consistent(&self) -> Result<(), Misfit> {
        if self.levels().is_some() {
            return Ok(());
        }
        let found = say!(
            "definition-levels-are",
            from = self.conforms_from.typed(),
            to = self.does_not_conform_to.typed()
        );
        let fits = say!("definition-levels-wanted");
        Err(Misfit::at("conforms_from", found, fits))
    }
}
