//! Units, uncertainty, fits, distributions and conformity decisions.
//!
//! Pure: no files, no clock, no randomness without a given seed. Elementary functions come from
//! [`libm`], so that one record gives the same digits on every machine.
//!
//! | question | room |
//! |---|---|
//! | what does `1/4 in` mean, and how is it printed | [`units`] |
//! | where does a formula come from | [`source`] |
//! | how uncertain is a value | [`uncertain`] |
//! | which plane, line or wave fits the readings | [`fit`] |
//! | how probable is a value | [`distribution`] |
//! | how does a sum of many links scatter | [`monte_carlo`] |
//! | is the limit kept | [`conformity`] |
//! | how rough is a traced profile | [`profile`] |
//!
//! The statistical rooms take plain `f64`: all values of one call are in one unit, the caller's,
//! and the results are in that unit too. Angles are radians, probabilities lie in 0..1.

pub mod conformity;
pub mod distribution;
pub mod fit;
pub mod monte_carlo;
pub mod profile;
pub mod source;
pub mod uncertain;
pub mod units;
