//! A figure that is known as a range only.

use serde::Serialize;

/// A range of a figure that a computation rests on.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Figure {
    /// What it is.
    pub what: &'static str,
    /// Smallest value.
    pub low: f64,
    /// Largest value.
    pub high: f64,
    /// Unit of both.
    pub unit: &'static str,
    /// Where it comes from.
    pub source: String,
}
