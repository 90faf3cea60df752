//! The checks between cleaning and closing: each a section and lines of its own.

use ringtrue_metrology::units::System;

use super::{
    agents, alignment, chilling, closing, flatness, leak_test, roughness, rubber_law, seating,
};
use crate::document::{Block, Section, Start, VerdictLine};
use crate::reader::Reader;
use crate::{CheckMade, Drawing, Further};

/// The verdicts of a check, in the order of its pages.
pub(super) fn lines(made: &CheckMade, system: System) -> Vec<VerdictLine> {
    let mut lines = match made.check {
        Further::Alignment(outcome) => alignment::lines(outcome, Reader::new(system)),
        Further::Roughness(outcome) => vec![roughness::line(outcome)],
        Further::Flatness(outcome) => vec![flatness::line(outcome)],
        Further::Seating(outcome) => vec![seating::line(outcome, Reader::new(system))],
        Further::Chilling(outcome) => vec![chilling::line(outcome, Reader::new(system))],
        Further::LeakTest(outcome) => vec![leak_test::line(outcome)],
        Further::Agents(outcome) => vec![agents::line(outcome)],
        Further::Closing(outcome) => {
            closing::line(outcome, Reader::new(system)).into_iter().collect()
        }
        Further::RubberLaw(outcome) => vec![rubber_law::line(outcome)],
    };
    for line in &mut lines {
        placed(made, &mut line.question);
        if let Some(scale) = &mut line.scale {
            named(made, scale);
        }
    }
    lines
}

/// What to do about all of them, the first thing first; what is asked for at several places is
/// said once.
pub(super) fn all_deeds(all: &[CheckMade<'_>], system: System) -> Vec<String> {
    let mut asked: Vec<(String, Vec<&str>)> = Vec::new();
    for made in all {
        for deed in deeds(made, system) {
            match asked.iter_mut().find(|(known, _)| *known == deed) {
                Some((_, places)) => places.push(made.place),
                None => asked.push((deed, vec![made.place])),
            }
        }
    }
    let placed = |(deed, mut places): (String, Vec<&str>)| {
        places.retain(|place| !place.is_empty());
        if places.is_empty() { deed } else { format!("{}: {deed}", places.join("; ")) }
    };
    asked.into_iter().map(placed).collect()
}

fn deeds(made: &CheckMade, system: System) -> Vec<String> {
    match made.check {
        Further::Alignment(outcome) => alignment::deeds(outcome, Reader::new(system)),
        Further::Roughness(outcome) => outcome.actions.clone(),
        Further::Flatness(outcome) => outcome.actions.clone(),
        Further::Seating(outcome) => seating::deeds(outcome),
        Further::Chilling(outcome) => chilling::deeds(outcome),
        Further::LeakTest(outcome) => leak_test::deeds(outcome),
        Further::Agents(outcome) => agents::deeds(outcome),
        Further::Closing(outcome) => outcome.actions.clone(),
        Further::RubberLaw(outcome) => rubber_law::deeds(outcome),
    }
}

/// The pages of a check.
pub(crate) fn section(made: &CheckMade, system: System) -> Section {
    let mut section = match made.check {
        Further::Alignment(outcome) => alignment::section(outcome, Reader::new(system)),
        Further::Roughness(outcome) => roughness::section(outcome),
        Further::Flatness(outcome) => flatness::section(outcome),
        Further::Seating(outcome) => seating::section(outcome, Reader::new(system)),
        Further::Chilling(outcome) => chilling::section(outcome, Reader::new(system)),
        Further::LeakTest(outcome) => leak_test::section(outcome),
        Further::Agents(outcome) => agents::section(outcome, Reader::new(system)),
        Further::Closing(outcome) => closing::section(outcome, Reader::new(system)),
        Further::RubberLaw(outcome) => rubber_law::section(outcome),
    };
    if section.blocks.iter().all(only_words) {
        section.start = Start::Below;
    }
    placed(made, &mut section.title);
    section.blocks.iter_mut().flat_map(drawn).for_each(|drawing| named(made, drawing));
    section
}

/// Words alone need no page of their own.
fn only_words(block: &Block) -> bool {
    match block {
        Block::Verdict(_)
        | Block::Heading(_)
        | Block::Text(_)
        | Block::Small(_)
        | Block::List(_)
        | Block::Caution(_) => true,
        Block::Drawings(_)
        | Block::Tables(_)
        | Block::Beside(_)
        | Block::Columns(_)
        | Block::Steps(_)
        | Block::Photos(_) => false,
    }
}

/// The drawings of a check's pages.
pub(crate) fn drawings(made: &CheckMade, system: System) -> Vec<Drawing> {
    let blocks = section(made, system).blocks.into_iter();
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

/// Every drawing of a block.
fn drawn(block: &mut Block) -> Vec<&mut Drawing> {
    match block {
        Block::Drawings(columns) => columns.iter_mut().flatten().collect(),
        Block::Verdict(line) => line.scale.iter_mut().collect(),
        Block::Beside(both) => vec![&mut both.0],
        Block::Heading(_)
        | Block::Text(_)
        | Block::Small(_)
        | Block::List(_)
        | Block::Caution(_)
        | Block::Tables(_)
        | Block::Columns(_)
        | Block::Steps(_)
        | Block::Photos(_) => Vec::new(),
    }
}

/// Says where the check was made.
fn placed(made: &CheckMade, words: &mut String) {
    if !made.place.is_empty() {
        words.push_str(", ");
        words.push_str(made.place);
    }
}

/// Names a drawing apart from that of the same check made elsewhere.
fn named(made: &CheckMade, drawing: &mut Drawing) {
    placed(made, &mut drawing.title);
    let apart = |c: char| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' };
    let place: String = made.place.chars().map(apart).collect();
    for part in place.split('-').filter(|part| !part.is_empty()) {
        drawing.name.push('-');
        drawing.name.push_str(part);
    }
}
