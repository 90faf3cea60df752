//! The crate from outside: published numbers, and how often its verdicts are wrong.

// The tests' own functions unwrap too: a panic is how a test fails.
#![allow(clippy::unwrap_used)]

mod gum;
mod jcgm106;
mod nist;
mod range;
mod ring;
mod simulation;

/// `|got − expected| <= max(absolute, relative · |expected|)`.
fn check(what: &str, got: f64, expected: f64, (relative, absolute): (f64, f64)) {
    let allowed = absolute.max(relative * expected.abs());
    assert!(
        (got - expected).abs() <= allowed,
        "{what}: {got}, expected {expected}, allowed ±{allowed:e}"
    );
}
