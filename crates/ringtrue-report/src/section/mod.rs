//! What each question's pages say, and the first page that sums them up.

mod agents;
mod alignment;
mod assembled_height;
mod basis;
mod chilling;
mod closing;
mod cover;
mod face_load;
mod flatness;
pub(crate) mod further;
mod gap_stack;
pub(crate) mod half_section;
mod leak_test;
mod matching;
mod photos;
pub(crate) mod record;
mod roughness;
mod rubber_law;
pub(crate) mod seating;
pub(crate) mod sources;
mod work;

use ringtrue_job::Question;
use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::System;
use ringtrue_seal::definition::joint::Half;
use ringtrue_words::say;

use crate::document::{Document, Paper, Section, VerdictLine};
use crate::reader::Reader;
use crate::{HeightTry, JointReport};

/// What comes before a hand goes near a ring.
fn caution() -> &'static str {
    say!("report-common-caution")
}

/// The whole report.
pub(crate) fn document(report: &JointReport) -> Document {
    let mut sections: Vec<_> =
        Half::BOTH.into_iter().map(|half| assembled_height::section(report, half)).collect();
    sections.push(gap_stack::section(report));
    sections.push(face_load::section(report));
    sections.push(half_section::section(report));
    sections.extend(report.further.iter().map(|one| further::section(one, report.system)));
    sections.push(matching::section(report));
    sections.push(basis::section(report));
    let file = &report.joint.file;
    Document {
        title: say!("report-common-fitting-report", joint = file.name),
        author: file.shop.clone(),
        made: report.made,
        program: format!("ringtrue {}", report.program_version),
        paper: match report.system {
            System::Millimetre => Paper::A4,
            System::Inch => Paper::UsLetter,
        },
        cover: cover::cover(report),
        sections,
        notice: say!("report-common-notice").to_owned(),
        attached: Vec::new(),
        photos: Vec::new(),
    }
}

/// The section on one question; `None` for a check.
pub(crate) fn of_question(
    report: &JointReport,
    question: Question,
    half: Option<Half>,
) -> Option<Section> {
    match question {
        Question::AssembledHeight => half.map(|half| assembled_height::section(report, half)),
        Question::SealGap => Some(gap_stack::section(report)),
        Question::FaceLoad => Some(face_load::section(report)),
        Question::Matching => Some(matching::section(report)),
        Question::Seating
        | Question::Chilling
        | Question::LeakTest
        | Question::Agents
        | Question::Alignment
        | Question::Roughness
        | Question::Flatness
        | Question::Closing
        | Question::RubberLaw => None,
    }
}

fn reader(report: &JointReport) -> Reader {
    Reader::new(report.system)
}

/// The last try at a half, where it was measured.
fn last_try<'a>(report: &JointReport<'a>, half: Half) -> Option<&'a HeightTry<'a>> {
    report.heights.of(half).last()
}

/// Every verdict of the report, in the order of its pages.
fn verdict_lines(report: &JointReport) -> Vec<VerdictLine> {
    let mut lines: Vec<_> =
        Half::BOTH.into_iter().flat_map(|half| assembled_height::lines(report, half)).collect();
    lines.push(gap_stack::line(report));
    lines.extend(face_load::line(report));
    lines.extend(report.further.iter().flat_map(|one| further::lines(one, report.system)));
    lines.push(matching::line(report));
    lines
}

/// `half a`.
pub(crate) fn of_half(half: Half) -> String {
    say!("report-common-half", half = half.name())
}

/// A sentence with a capital at its head and a full stop at its end.
fn sentence(text: &str) -> String {
    let text = text.trim();
    let mut letters = text.chars();
    let Some(first) = letters.next() else { return String::new() };
    let mut out: String = first.to_uppercase().collect();
    out.push_str(letters.as_str());
    if !out.ends_with(['.', '!', '?', ':']) {
        out.push('.');
    }
    out
}

/// `a`, `a and b`, `a, b and c`.
fn listed(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => say!("report-common-and", first = first.join(", "), last),
    }
}

/// What a verdict means, where the question has no better words for it.
fn meaning(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Conforms => say!("report-common-within"),
        Verdict::NotProven => say!("report-common-covered"),
        Verdict::DoesNotConform => say!("report-common-outside"),
    }
}
