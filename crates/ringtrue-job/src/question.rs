//! The questions that ringtrue answers, declared once for command line, page and report.

use ringtrue_metrology::source::Source;
use ringtrue_seal::{
    agents, alignment, assembled_height, chilling, closing, face_load, flatness, gap_stack,
    leak_test, matching, roughness, rubber_law, seating,
};
use ringtrue_words::say;
use serde::Serialize;

/// One question of the fitter; each has a room of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Question {
    /// Do the parts belong together?
    Matching,
    /// Is the ring square in its housing, and at the right height?
    AssembledHeight,
    /// How wide will the seal gap be?
    SealGap,
    /// What presses the lapped faces together?
    FaceLoad,
    /// How does the toric get past the lip?
    Seating,
    /// Does chilling help, and when may the joint be closed?
    Chilling,
    /// How much does the closed space leak?
    LeakTest,
    /// May this agent touch this toric?
    Agents,
    /// Are the housings concentric and square?
    Alignment,
    /// Is the ramp's finish within its limit?
    Roughness,
    /// Is the lapped face flat?
    Flatness,
    /// How is the joint drawn together, and did it close evenly?
    Closing,
    /// Which constants does a rubber's law have?
    RubberLaw,
}

impl Question {
    /// All of them.
    pub(crate) const ALL: [Self; 13] = [
        Self::Matching,
        Self::AssembledHeight,
        Self::SealGap,
        Self::FaceLoad,
        Self::Seating,
        Self::Chilling,
        Self::LeakTest,
        Self::Agents,
        Self::Alignment,
        Self::Roughness,
        Self::Flatness,
        Self::Closing,
        Self::RubberLaw,
    ];

    /// A short title.
    #[must_use]
    pub fn title(self) -> &'static str {
        match self {
            Self::Matching => say!("question-parts-that-belong-together"),
            Self::AssembledHeight => say!("question-assembled-height"),
            Self::SealGap => say!("question-seal-gap"),
            Self::FaceLoad => say!("question-face-load"),
            Self::Seating => say!("question-seating"),
            Self::Chilling => say!("question-chilling"),
            Self::LeakTest => say!("question-leak-test"),
            Self::Agents => say!("question-cleaning-wetting-agent"),
            Self::Alignment => say!("question-alignment"),
            Self::Roughness => say!("question-ramp-finish"),
            Self::Flatness => say!("question-face-flatness"),
            Self::Closing => say!("question-closing"),
            Self::RubberLaw => say!("question-rubber-law"),
        }
    }

    /// The question as a fitter would ask it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Matching => say!("question-do-parts-belong-together"),
            Self::AssembledHeight => say!("question-ring-square-in-housing-at-right"),
            Self::SealGap => say!("question-will-seal-gap-be-inside-limits"),
            Self::FaceLoad => say!("question-do-faces-press-together-as-they"),
            Self::Seating => say!("question-what-does-take-seat-load-ring"),
            Self::Chilling => {
                say!("question-may-this-toric-be-chilled-what")
            }
            Self::LeakTest => say!("question-leak-within-limit-could-this-test"),
            Self::Agents => say!("question-may-this-agent-touch-this-toric"),
            Self::Alignment => say!("question-two-housings-concentric-square-each-other"),
            Self::Roughness => say!("question-ramp-smooth-enough-rough-enough-hold"),
            Self::Flatness => say!("question-lapped-face-flat"),
            Self::Closing => say!("question-gap-closed-joint-inside-limits-all"),
            Self::RubberLaw => say!("question-which-constants-does-this-rubbers-law"),
        }
    }

    /// Where the answer's formulas come from.
    #[must_use]
    pub fn sources(self) -> &'static [Source] {
        match self {
            Self::Matching => matching::SOURCES,
            Self::AssembledHeight => assembled_height::SOURCES,
            Self::SealGap => gap_stack::SOURCES,
            Self::FaceLoad => face_load::SOURCES,
            Self::Seating => seating::SOURCES,
            Self::Chilling => chilling::SOURCES,
            Self::LeakTest => leak_test::SOURCES,
            Self::Agents => agents::SOURCES,
            Self::Alignment => alignment::SOURCES,
            Self::Roughness => roughness::SOURCES,
            Self::Flatness => flatness::SOURCES,
            Self::Closing => closing::SOURCES,
            Self::RubberLaw => rubber_law::SOURCES,
        }
    }
}
