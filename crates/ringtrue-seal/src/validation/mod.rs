//! Does the program give the numbers that were published?
//!
//! A case is an input, what a source says comes out, and how far the two may differ. Cases are data
//! (`validation/cases/`); this module reads them, runs the model that each one names on the same
//! functions that judge real readings, and compares. Nothing is passed over in silence: an unknown
//! model, a quantity that its model does not give, an input that no one reads and a case without a
//! tolerance are errors.

mod case;
mod inputs;
mod models;
mod shown;
pub mod study;

pub use case::{Case, Status};

use case::Quantity;
use inputs::{Inputs, Quantities};
use serde::Serialize;

/// Why cases could not be run.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum ValidationError {
    /// The text is not a file of cases.
    #[error("not a file of cases: {0}")]
    File(String),
    /// A case that could not fail, or that contradicts itself.
    #[error("case {case}: {what}")]
    Case {
        /// Its id.
        case: String,
        /// What is wrong with it and what would fit.
        what: String,
    },
    /// No model of this name.
    #[error("case {case}: no model `{model}`; the nearest is `{nearest}`")]
    Model {
        /// Its id.
        case: String,
        /// What it asked for.
        model: String,
        /// The known model with the nearest name.
        nearest: &'static str,
    },
    /// The model does not give an expected quantity.
    #[error("case {case}: its model gives no `{quantity}`, only {given}")]
    Quantity {
        /// Its id.
        case: String,
        /// What was expected.
        quantity: String,
        /// What the model gives.
        given: String,
    },
    /// The calculation itself refused the input.
    #[error("case {case}: refused: {why}")]
    Refused {
        /// Its id.
        case: String,
        /// What it said.
        why: String,
    },
}

/// One expected number beside the computed one.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Comparison {
    /// Id of the case.
    pub case: String,
    /// Name of the quantity, with its place in a list: `beta[2]`.
    pub quantity: String,
    /// What the source says.
    pub expected: f64,
    /// What the program gives.
    pub computed: f64,
    /// Computed less expected.
    pub deviation: f64,
    /// Largest deviation that passes.
    pub tolerance: f64,
    /// What a study's tolerance is the sum of: the error bands of the reference and of the program.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bands: Option<[f64; 2]>,
    /// Is the deviation within the tolerance?
    pub pass: bool,
    /// Where the expected number comes from.
    pub source: String,
    /// How strong that source is.
    pub status: Status,
}

impl Comparison {
    /// The expected number to the digits that the tolerance can tell apart.
    #[must_use]
    pub fn expected_text(&self) -> String {
        shown::number(self.expected, self.tolerance)
    }

    /// The computed number to the digits that the tolerance can tell apart.
    ///
    /// Digits below a hundredth of the tolerance are rounding and differ between machines; a table
    /// that is kept and compared must not hold them.
    #[must_use]
    pub fn computed_text(&self) -> String {
        shown::number(self.computed, self.tolerance)
    }

    /// The deviation, `0` when it is below a hundredth of the tolerance.
    #[must_use]
    pub fn deviation_text(&self) -> String {
        shown::number(self.deviation, self.tolerance)
    }

    /// The two error bands that make up a study's tolerance, theirs and ours, to two digits.
    #[must_use]
    pub fn bands_text(&self) -> Option<String> {
        let digits = |band: f64| shown::number(band, self.tolerance * 10.0);
        self.bands.map(|[theirs, ours]| format!("{} + {}", digits(theirs), digits(ours)))
    }

    /// The tolerance to two digits.
    #[must_use]
    pub fn tolerance_text(&self) -> String {
        shown::number(self.tolerance, self.tolerance * 10.0)
    }
}

/// Reads a file of cases.
///
/// # Errors
/// [`ValidationError`]: no TOML, an unknown or missing key, no case, two cases of one id, a case
/// without a tolerance or without an expected number.
pub fn cases(text: &str) -> Result<Vec<Case>, ValidationError> {
    case::read(text)
}

/// Names of the models that a case may ask for.
#[must_use]
pub fn models() -> Vec<&'static str> {
    models::MODELS.iter().map(|model| model.name).collect()
}

/// Runs a case and compares every number that it expects.
///
/// `data` gives the text of a table that a case names, by its path below `validation/`.
///
/// # Errors
/// [`ValidationError`]: an unknown model, a missing, surplus or unfit input, a quantity that the
/// model does not give, a list of another length, or the calculation's own refusal. A number that
/// is merely wrong is no error but a comparison that does not pass.
pub fn run<'d>(
    case: &Case,
    data: impl Fn(&str) -> Option<&'d str>,
) -> Result<Vec<Comparison>, ValidationError> {
    let model = models::find(case)?;
    let data = |name: &str| data(name).map(str::to_owned);
    let inputs = Inputs::new(case, &data);
    let given = (model.compute)(&inputs)?;
    inputs.all_used()?;
    let mut comparisons = Vec::new();
    for (quantity, expected) in &case.expected {
        comparisons.extend(compare(case, quantity, expected, &given)?);
    }
    Ok(comparisons)
}

fn compare(
    case: &Case,
    quantity: &str,
    expected: &Quantity,
    given: &Quantities,
) -> Result<Vec<Comparison>, ValidationError> {
    let computed = given.get(quantity).ok_or_else(|| ValidationError::Quantity {
        case: case.id.clone(),
        quantity: quantity.to_owned(),
        given: given.names().join(", "),
    })?;
    let one = |quantity: String, expected: f64, computed: f64| {
        let (deviation, tolerance) = (computed - expected, case.tolerance(expected));
        Comparison {
            case: case.id.clone(),
            quantity,
            expected,
            computed,
            deviation,
            tolerance,
            bands: None,
            // A computed NaN is within no tolerance.
            pass: deviation.abs() <= tolerance,
            source: case.source.clone(),
            status: case.status,
        }
    };
    match (expected, computed) {
        (Quantity::One(expected), Quantity::One(computed)) => {
            Ok(vec![one(quantity.to_owned(), *expected, *computed)])
        }
        (Quantity::List(expected), Quantity::List(computed))
            if expected.len() == computed.len() =>
        {
            let pairs = expected.iter().zip(computed).enumerate();
            Ok(pairs.map(|(i, (e, c))| one(format!("{quantity}[{i}]"), *e, *c)).collect())
        }
        (expected, computed) => Err(case.wrong(format!(
            "`{quantity}` is expected as {}, its model gives {}",
            expected.form(),
            computed.form()
        ))),
    }
}

#[cfg(test)]
mod tests;
