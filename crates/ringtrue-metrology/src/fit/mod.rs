//! Linear least squares, and the waves that readings round a ring are fitted with.
//!
//! [`linear`] fits any model that is linear in its coefficients, with weights; [`harmonic`] fits
//! the plane `h0 + a cos θ + b sin θ` and its second harmonic.

pub mod harmonic;
pub mod linear;
mod twofold;

use ringtrue_words::say;

/// Why a fit could not be made.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FitError {
    /// Columns, observations or weights differ in number.
    #[error("{}", say!("fit-shape", list = what, found, expected))]
    Shape {
        /// Which list.
        what: &'static str,
        /// How many it has.
        found: usize,
        /// How many the others have.
        expected: usize,
    },
    /// Fewer observations than coefficients.
    #[error("{}", say!("fit-too-few-rows", rows, coefficients))]
    TooFewRows {
        /// Observations given.
        rows: usize,
        /// Coefficients asked for.
        coefficients: usize,
    },
    /// A value is NaN or infinite, or so large that its square is.
    #[error("{}", say!("fit-not-finite", list = what, row))]
    NotFinite {
        /// Which list.
        what: &'static str,
        /// Position, counted from 1.
        row: usize,
    },
    /// A weight that is not positive, or a standard uncertainty that is negative, or one that is
    /// zero beside others that are not.
    #[error("{}", say!("fit-weight", row))]
    Weight {
        /// Position, counted from 1.
        row: usize,
    },
    /// The columns do not fix all coefficients: one is a combination of others.
    #[error("{}", say!("fit-rank-deficient", rank, coefficients))]
    RankDeficient {
        /// How many combinations of coefficients the observations fix.
        rank: usize,
        /// Coefficients asked for.
        coefficients: usize,
    },
}

#[cfg(test)]
mod tests;
