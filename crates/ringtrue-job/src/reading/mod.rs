//! Readings files: CSV text to typed readings, with the line where it does not fit.
//!
//! The unit stands in the column's name (`height_mm`, `height_in`) or in each cell (`height`).
//! Columns may be parted by comma, semicolon or tab, numbers may carry a decimal comma where the
//! comma does not part columns, and lines that start with `#` are remarks.

mod chain;
mod heights;
mod table;

pub use chain::{MeasuredSize, chain, measured};
pub use heights::heights;

#[cfg(test)]
mod tests;
