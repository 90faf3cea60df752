//! Units, uncertainty, fits, distributions and conformity decisions.
//!
//! Pure: no files, no clock, no randomness without a given seed. Elementary functions come from
//! [`libm`], so that one record gives the same digits on every machine.

pub mod conformity;
pub mod source;
pub mod units;
