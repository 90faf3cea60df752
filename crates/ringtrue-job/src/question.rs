//! The questions that ringtrue answers, declared once for command line, page and report.

use ringtrue_metrology::source::Source;
use ringtrue_seal::{
    agents, alignment, assembled_height, chilling, closing, face_load, flatness, gap_stack,
    leak_test, matching, roughness, rubber_law, seating,
};
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
    /// A short title.
    #[must_use]
    pub fn title(self) -> &'static str {
        match self {
            Self::Matching => "Parts that belong together",
            Self::AssembledHeight => "Assembled height",
            Self::SealGap => "Seal gap",
            Self::FaceLoad => "Face load",
            Self::Seating => "Seating",
            Self::Chilling => "Chilling",
            Self::LeakTest => "Leak test",
            Self::Agents => "Cleaning and wetting agent",
            Self::Alignment => "Alignment",
            Self::Roughness => "Ramp finish",
            Self::Flatness => "Face flatness",
            Self::Closing => "Closing",
            Self::RubberLaw => "Rubber law",
        }
    }

    /// The question as a fitter would ask it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Matching => "Do the parts belong together?",
            Self::AssembledHeight => "Is the ring square in its housing, and at the right height?",
            Self::SealGap => "Will the seal gap be inside its limits?",
            Self::FaceLoad => "Do the faces press together as they should, over the whole gap?",
            Self::Seating => "What does it take to seat the load ring, and does it stand it?",
            Self::Chilling => {
                "May this toric be chilled, what does it give, and when is it warm again?"
            }
            Self::LeakTest => "Is the leak within its limit, and could this test have seen it?",
            Self::Agents => "May this agent touch this toric, and is its vapour harmless here?",
            Self::Alignment => "Are the two housings concentric and square to each other?",
            Self::Roughness => "Is the ramp smooth enough, and rough enough to hold the toric?",
            Self::Flatness => "Is the lapped face flat?",
            Self::Closing => "Is the gap of the closed joint inside its limits all round?",
            Self::RubberLaw => "Which constants does this rubber's law have, and does it hold?",
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
