//! The general problem: a section squeezed between rigid walls.
//!
//! A thin room over the finite elements: it reads the problem's file, solves it, and gives the
//! numbers. The solver's own documentation holds formulas and limits. Viscoelastic hysteresis is
//! left out: a curve is that of the first slow loading, and a conditioned part is softer.

mod file;
mod rules;

use ringtrue_fem::Settings;
use ringtrue_metrology::source::Source;

pub use file::SqueezeFile;

use crate::RoomError;
use crate::section::{SolvedSection, solved};

/// Where the method comes from.
pub const SOURCES: &[Source] = &[
    Source::Unverified(
        "T. J. R. Hughes, The Finite Element Method (1987): mixed displacement and pressure",
    ),
    Source::Unverified(
        "J. C. Simo, T. A. Laursen, An augmented Lagrangian treatment of contact problems \
         involving friction, Computers & Structures 42 (1992) 97-116",
    ),
];

/// Solves the problem of a file: forces, roll, contact and stretch at each step.
///
/// # Errors
/// [`RoomError`] when its values make no sense. A run that stops early gives the steps it has, with
/// `complete` false and the reason.
pub fn solve(file: &SqueezeFile) -> Result<SolvedSection, RoomError> {
    solved(&file.problem(), &Settings::default())
}
