//! Facts of this module.
