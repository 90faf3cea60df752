//! The crate from outside.

mod validation_cases;
