//! Readings files: CSV text to typed readings, with the line where it does not fit; X3P traces.
//!
//! The unit stands in the column's name (`height_mm`, `height_in`) or in each cell (`height`).
//! Columns may be parted by comma, semicolon or tab, numbers may carry a decimal comma where the
//! comma does not part columns, and lines that start with `#` are remarks.

mod bands;
mod chain;
mod feeler;
mod heights;
mod leak;
mod profile;
mod stretch;
mod sweeps;
mod table;
mod x3p;

pub use bands::{band_uncertainty, bands, flatness_limit};
pub use chain::{MeasuredSize, chain, measured};
pub use feeler::feeler;
pub use heights::heights;
pub use leak::{LeakReadings, leak};
pub use profile::{Finish, FinishLimit, finish, finish_limit, instrument_uncertainty};
pub use stretch::stretch_test;
pub use sweeps::{SURFACES, sweeps};
pub use x3p::{looks_like_x3p, x3p};

#[cfg(test)]
mod tests;
