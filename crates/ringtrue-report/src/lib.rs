//! From assessments to a document, its drawings and its PDF.
//!
//! [`document`] says what is said and draws the pictures, [`pdf()`] sets it, [`drawings`] hands
//! the pictures out. Nothing here judges: verdicts, values and uncertainties are those of the
//! rooms. There is no clock and no file access; the same input gives the same bytes.

mod document;
mod figure;
mod pdf;
mod reader;
mod section;

pub use document::{
    Block, Cell, Column, Cover, Document, Paper, Section, Set, Start, Table, VerdictLine, drawings,
};
pub use figure::Drawing;
pub use pdf::{ReportError, pdf};

use jiff::Timestamp;
use ringtrue_metrology::units::System;
use ringtrue_seal::definition::gauge::Gauge;
use ringtrue_seal::definition::joint::{Half, Joint};
use ringtrue_seal::{assembled_height, gap_stack, matching};

/// One joint with everything that was judged on it.
#[derive(Debug, Clone, Copy)]
pub struct JointReport<'a> {
    /// The joint's definition.
    pub joint: &'a Joint,
    /// Do the parts belong together?
    pub matching: &'a matching::Outcome,
    /// The tries at each half, the last one last; none where a half was not measured.
    pub heights: Halves<&'a [HeightTry<'a>]>,
    /// The seal gap.
    pub gap: &'a gap_stack::Outcome,
    /// The gauge that the heights were read with, where it is known.
    pub gauge: Option<&'a Gauge>,
    /// What was read: the files, in the order in which they are listed.
    pub inputs: &'a [InputFile<'a>],
    /// Units of the report, its drawings included.
    pub system: System,
    /// When the report is made.
    pub made: Timestamp,
    /// Version of the program that makes it.
    pub program_version: &'a str,
}

/// One thing for each half.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Halves<T> {
    /// Half `a`'s.
    pub a: T,
    /// Half `b`'s.
    pub b: T,
}

impl<T: Copy> Halves<T> {
    /// That of a half.
    #[must_use]
    pub fn of(&self, half: Half) -> T {
        match half {
            Half::A => self.a,
            Half::B => self.b,
        }
    }
}

/// The readings of one try at one half, and what they say.
#[derive(Debug, Clone, Copy)]
pub struct HeightTry<'a> {
    /// Name of the readings file.
    pub file: &'a str,
    /// What the readings say.
    pub outcome: &'a assembled_height::Outcome,
}

/// A file that the report rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct InputFile<'a> {
    /// What it is: `joint`, `readings, half a`.
    pub role: &'a str,
    /// Its name as it was given.
    pub name: &'a str,
}

/// The report on one joint.
#[must_use]
pub fn document(report: &JointReport) -> Document {
    section::document(report)
}

#[cfg(test)]
mod tests;
