//! The questions that ringtrue answers, declared once for command line, page and report.

use ringtrue_metrology::source::Source;
use ringtrue_seal::{assembled_height, gap_stack, matching};
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
}

impl Question {
    /// A short title.
    #[must_use]
    pub fn title(self) -> &'static str {
        match self {
            Self::Matching => "Parts that belong together",
            Self::AssembledHeight => "Assembled height",
            Self::SealGap => "Seal gap",
        }
    }

    /// The question as a fitter would ask it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Matching => "Do the parts belong together?",
            Self::AssembledHeight => "Is the ring square in its housing, and at the right height?",
            Self::SealGap => "Will the seal gap be inside its limits?",
        }
    }

    /// Where the answer's formulas come from.
    #[must_use]
    pub fn sources(self) -> &'static [Source] {
        match self {
            Self::Matching => matching::SOURCES,
            Self::AssembledHeight => assembled_height::SOURCES,
            Self::SealGap => gap_stack::SOURCES,
        }
    }
}
