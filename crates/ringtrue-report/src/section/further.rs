//! The checks between cleaning and closing: each a section and lines of its own.

use ringtrue_metrology::units::System;

use super::{agents, alignment, chilling, flatness, leak_test, roughness};
use crate::document::{Block, Section, VerdictLine};
use crate::reader::Reader;
use crate::{Drawing, Further};

/// The verdicts of a check, in the order of its pages.
pub(super) fn lines(further: &Further, system: System) -> Vec<VerdictLine> {
    match further {
        Further::Alignment(outcome) => alignment::lines(outcome, Reader::new(system)),
        Further::Roughness(outcome) => vec![roughness::line(outcome)],
        Further::Flatness(outcome) => vec![flatness::line(outcome)],
        Further::Chilling(outcome) => vec![chilling::line(outcome, Reader::new(system))],
        Further::LeakTest(outcome) => vec![leak_test::line(outcome)],
        Further::Agents(outcome) => vec![agents::line(outcome)],
    }
}

/// What to do about it, the first thing first.
pub(super) fn deeds(further: &Further, system: System) -> Vec<String> {
    match further {
        Further::Alignment(outcome) => alignment::deeds(outcome, Reader::new(system)),
        Further::Roughness(outcome) => outcome.actions.clone(),
        Further::Flatness(outcome) => outcome.actions.clone(),
        Further::Chilling(outcome) => chilling::deeds(outcome),
        Further::LeakTest(outcome) => leak_test::deeds(outcome),
        Further::Agents(outcome) => agents::deeds(outcome),
    }
}

/// The pages of a check.
pub(crate) fn section(further: &Further, system: System) -> Section {
    match further {
        Further::Alignment(outcome) => alignment::section(outcome, Reader::new(system)),
        Further::Roughness(outcome) => roughness::section(outcome),
        Further::Flatness(outcome) => flatness::section(outcome),
        Further::Chilling(outcome) => chilling::section(outcome, Reader::new(system)),
        Further::LeakTest(outcome) => leak_test::section(outcome),
        Further::Agents(outcome) => agents::section(outcome, Reader::new(system)),
    }
}

/// The drawings of a check's pages.
pub(crate) fn drawings(further: &Further, system: System) -> Vec<Drawing> {
    let blocks = section(further, system).blocks.into_iter();
    blocks
        .flat_map(|block| match block {
            Block::Drawings(columns) => columns.into_iter().flatten().collect(),
            Block::Beside(both) => vec![both.0],
            Block::Verdict(_)
            | Block::Heading(_)
            | Block::Text(_)
            | Block::Small(_)
            | Block::List(_)
            | Block::Caution(_)
            | Block::Tables(_)
            | Block::Columns(_)
            | Block::Steps(_)
            | Block::Photos(_) => Vec::new(),
        })
        .collect()
}
