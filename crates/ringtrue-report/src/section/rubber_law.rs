//! Which constants does this rubber's law have, and does the law hold?

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{fixed, significant};
use ringtrue_seal::rubber_law::Outcome;
use ringtrue_words::say;

use super::sentence;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine};
use crate::figure::rubber_law;
use crate::reader::percent;

/// The verdict on the law.
pub(super) fn line(outcome: &Outcome) -> VerdictLine {
    VerdictLine {
        verdict: outcome.verdict,
        question: say!("report-law-question", material = outcome.name),
        sentence: sentence(&outcome.stable.found),
        value: say!("report-law-modulus", modulus = significant(outcome.young_mpa, 3)),
        limit: outcome.stable.fits.clone(),
        scale: None,
    }
}

/// What to do about it.
pub(super) fn deeds(outcome: &Outcome) -> Vec<String> {
    match outcome.verdict {
        Verdict::Conforms | Verdict::NotProven => Vec::new(),
        Verdict::DoesNotConform => vec![say!("report-law-deed").to_owned()],
    }
}

/// The page of the law.
pub(super) fn section(outcome: &Outcome) -> Section {
    let mut blocks = vec![Block::Verdict(line(outcome))];
    blocks.extend(
        rubber_law::draw("rubber-law", outcome).map(|drawing| Block::Drawings(vec![vec![drawing]])),
    );
    blocks.push(Block::Tables(vec![constants(outcome)]));
    blocks.push(Block::Text(say!(
        "report-law-fit",
        points = outcome.points,
        least = fixed(outcome.stretch_range[0], 2),
        most = fixed(outcome.stretch_range[1], 2),
        rms = fixed(outcome.rms_mpa, 3),
        worst = percent(outcome.worst_relative),
        uncertainty = percent(outcome.relative_standard_uncertainty),
        holds = outcome.holds()
    )));
    blocks.push(Block::List(outcome.remarks.clone()));
    blocks.push(Block::Small(sentence(&say!("report-law-tests", source = outcome.source))));
    Section { title: say!("report-law-title").to_owned(), start: Start::NewPage, blocks }
}

fn constants(outcome: &Outcome) -> Table {
    let mut table = Table::new([
        (say!("report-law-constant"), Set::Words),
        (say!("report-law-value"), Set::Numbers),
        (say!("report-law-standard-uncertainty"), Set::Numbers),
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
