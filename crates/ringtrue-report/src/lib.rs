//! From assessments to a document, its drawings and its PDF.
//!
//! [`document`] says what is said and draws the pictures, [`pdf()`] sets it, [`drawings`] hands
//! the pictures out. Nothing here judges: verdicts, values and uncertainties are those of the
//! rooms. There is no clock and no file access; the same input gives the same bytes.

mod document;
mod figure;
mod frames;
mod pdf;
mod photo;
mod pictures;
mod reader;
mod section;

pub use document::{
    Attached, Block, Cell, Column, Cover, Document, EntryMark, PagePhoto, Paper, PhotoPrint, Rows,
    Section, Set, Stands, Start, StepEntry, StepRecord, Table, VerdictLine, drawings,
};
pub use figure::Drawing;
pub use figure::half_section::Closed;
pub use frames::{
    ClosingFrame, ClosingHalf, FrameWords, HalfWords, closing, closing_drawing, frame_words,
    gap_words, load_at, load_compared, load_over_gap,
};
pub use pdf::{
    AttachmentError, Face, FileChanged, ReportError, TYPE_LICENCE, attachment, file_is_whole, pdf,
    type_face,
};
pub use pictures::{load_drawings, section_drawings, study_drawing};
pub use section::half_section::{half_drawing, joint_drawing};
pub use section::record::{EXPORT_NAME, PLACE_NAME};

use std::collections::BTreeMap;

pub use section::seating::caution as seating_caution;

use jiff::Timestamp;
use ringtrue_job::digest::Digest;
use ringtrue_job::job::{Job, Plan};
use ringtrue_job::record::{Attachment, Link};
use ringtrue_job::{Answer, Question};
use ringtrue_metrology::units::System;
use ringtrue_seal::definition::gauge::Gauge;
use ringtrue_seal::definition::joint::{Half, Joint};
use ringtrue_seal::{
    agents, alignment, assembled_height, chilling, face_load, flatness, gap_stack, leak_test,
    matching, roughness, rubber_law, seating,
};

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
    /// The face load; none where it was not computed, which the report then says.
    pub load: Option<&'a face_load::Outcome>,
    /// The checks between cleaning and closing that were made, in the order of their pages.
    pub further: &'a [CheckMade<'a>],
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

/// A check and where it was made.
#[derive(Debug, Clone, Copy)]
pub struct CheckMade<'a> {
    /// Where, as its pages say: `half a`; empty where that needs no words.
    pub place: &'a str,
    /// What its room says.
    pub check: Further<'a>,
}

/// A check between cleaning and closing: what its room says.
#[derive(Debug, Clone, Copy)]
pub enum Further<'a> {
    /// Are the housings concentric and square?
    Alignment(&'a alignment::Outcome),
    /// Is the ramp's finish within its limit?
    Roughness(&'a roughness::Outcome),
    /// Is the lapped face flat?
    Flatness(&'a flatness::Outcome),
    /// How does the toric get past the lip?
    Seating(&'a seating::Outcome),
    /// What does chilling give, and when may the joint be closed?
    Chilling(&'a chilling::Outcome),
    /// Is the leak within its limit?
    LeakTest(&'a leak_test::Outcome),
    /// May this agent touch this toric?
    Agents(&'a agents::Outcome),
    /// Is the gap of the closed joint inside its limits all round?
    Closing(&'a ringtrue_seal::closing::Outcome),
    /// Which constants does a rubber's law have?
    RubberLaw(&'a rubber_law::Outcome),
}

impl<'a> Further<'a> {
    /// The check that this answers; `None` for the questions that have pages of their own.
    #[must_use]
    pub fn of(answer: &'a Answer) -> Option<Self> {
        match answer {
            Answer::Alignment(outcome) => Some(Self::Alignment(outcome)),
            Answer::Roughness(outcome) => Some(Self::Roughness(outcome)),
            Answer::Flatness(outcome) => Some(Self::Flatness(outcome)),
            Answer::Seating(outcome) => Some(Self::Seating(outcome)),
            Answer::Chilling(outcome) => Some(Self::Chilling(outcome)),
            Answer::LeakTest(outcome) => Some(Self::LeakTest(outcome)),
            Answer::Agents(outcome) => Some(Self::Agents(outcome)),
            Answer::Closing(outcome) => Some(Self::Closing(outcome)),
            Answer::RubberLaw(outcome) => Some(Self::RubberLaw(outcome)),
            Answer::Matching(_)
            | Answer::AssembledHeight(_)
            | Answer::SealGap(_)
            | Answer::FaceLoad(_) => None,
        }
    }
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

/// A job's record, whose report this is.
#[derive(Debug, Clone, Copy)]
pub struct JobRecord<'a> {
    /// The job.
    pub job: &'a Job,
    /// Its events.
    pub log: &'a [Link],
    /// Its definitions.
    pub plan: &'a Plan,
    /// Its export, which is attached.
    pub export: &'a str,
    /// Its place in its store's tree, which is attached too.
    pub place: &'a str,
    /// Files that its events name.
    pub files: &'a BTreeMap<Digest, Attachment>,
    /// Size and root of the tree over all events of the store that it stands in.
    pub checkpoint: (u64, Digest),
    /// The last head that a keeper signed, where there is one.
    pub signed_checkpoint: Option<SignedHead<'a>>,
    /// What the pages show that is not to the digit what the record holds; empty where all is.
    pub remarks: &'a [String],
}

/// A tree head that a keeper signed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SignedHead<'a> {
    /// Number of events that it covers.
    pub size: u64,
    /// The tree's root.
    pub root: Digest,
    /// When.
    pub at: Timestamp,
    /// Who.
    pub person: &'a str,
}

/// The report of a job: that on its joint, its record in front, its export attached.
#[must_use]
pub fn job_document(report: &JointReport, record: &JobRecord) -> Document {
    section::record::of_job(section::document(report), record)
}

/// The drawings of one check.
#[must_use]
pub fn check_drawings(check: &Further, system: System) -> Vec<Drawing> {
    section::further::drawings(&CheckMade { place: "", check: *check }, system)
}

/// The mark of a verdict, of its own shape.
#[must_use]
pub fn verdict_mark(verdict: ringtrue_metrology::conformity::Verdict) -> Drawing {
    figure::mark::drawing(verdict)
}

/// What the report says about one check.
#[must_use]
pub fn check_section(further: &Further, system: System) -> Section {
    section::further::section(&CheckMade { place: "", check: *further }, system)
}

/// What the report says about one question on the joint, for a half where it is one of a half;
/// `None` for a check, whose section is [`check_section`].
#[must_use]
pub fn joint_section(
    report: &JointReport,
    question: Question,
    half: Option<Half>,
) -> Option<Section> {
    section::of_question(report, question, half)
}

/// The report on one joint.
#[must_use]
pub fn document(report: &JointReport) -> Document {
    section::document(report)
}

#[cfg(test)]
mod tests;
