//! Which constants does this rubber's law have, and does the law hold?

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{fixed, significant};
use ringtrue_seal::rubber_law::Outcome;

use super::sentence;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine};
use crate::figure::rubber_law;
use crate::reader::percent;

/// The verdict on the law.
pub(super) fn line(outcome: &Outcome) -> VerdictLine {
    VerdictLine {
        verdict: outcome.verdict,
        question: format!("rubber law, {}", outcome.name),
        sentence: sentence(&outcome.stable.found),
        value: format!("Young's modulus {} MPa", significant(outcome.young_mpa, 3)),
        limit: outcome.stable.fits.clone(),
        scale: None,
    }
}

/// What to do about it.
pub(super) fn deeds(outcome: &Outcome) -> Vec<String> {
    match outcome.verdict {
        Verdict::Conforms | Verdict::NotProven => Vec::new(),
        Verdict::DoesNotConform => vec![
            "Take a law of fewer constants, or add a test in another mode: no face load is worked \
             out with a law that does not hold."
                .to_owned(),
        ],
    }
}

/// The page of the law.
pub(super) fn section(outcome: &Outcome) -> Section {
    let mut blocks = vec![Block::Verdict(line(outcome))];
    blocks.extend(
        rubber_law::draw("rubber-law", outcome).map(|drawing| Block::Drawings(vec![vec![drawing]])),
    );
    blocks.push(Block::Tables(vec![constants(outcome)]));
    blocks.push(Block::Text(format!(
        "{} points at stretches of {} to {}, off by {} MPa rms and by {} of the stress at most. \
         The stress is known to a standard uncertainty of {} where a load ring works. The law \
         holds {}.",
        outcome.points,
        fixed(outcome.stretch_range[0], 2),
        fixed(outcome.stretch_range[1], 2),
        fixed(outcome.rms_mpa, 3),
        percent(outcome.worst_relative),
        percent(outcome.relative_standard_uncertainty),
        outcome.holds(),
    )));
    blocks.push(Block::List(outcome.remarks.clone()));
    blocks.push(Block::Small(sentence(&format!("Tests: {}", outcome.source))));
    Section { title: "Rubber law".to_owned(), start: Start::NewPage, blocks }
}

fn constants(outcome: &Outcome) -> Table {
    let mut table = Table::new([
        ("Constant", Set::Words),
        ("value", Set::Numbers),
        ("standard uncertainty", Set::Numbers),
    ]);
    for constant in &outcome.constants {
        table.row([
            Cell::Text(constant.name.clone()),
            Cell::Text(format!("{} {}", significant(constant.value, 5), constant.unit)),
            Cell::Text(significant(constant.standard_uncertainty, 2)),
        ]);
    }
    table
}
