//! Is the lapped face flat?

use ringtrue_metrology::units::{decimals_for, fixed};
use ringtrue_seal::flatness::{Outcome, Shape};
use ringtrue_words::say;

use super::meaning;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine, paragraph};
use crate::figure::bands;
use crate::reader::{self, COVERAGE_FACTOR};

/// The verdict on the face.
pub(super) fn line(outcome: &Outcome) -> VerdictLine {
    VerdictLine {
        verdict: outcome.verdict,
        question: say!("report-flat-question").to_owned(),
        sentence: if outcome.limit_bands.is_some() {
            meaning(outcome.verdict).to_owned()
        } else {
            say!("report-no-limit-to-judge").to_owned()
        },
        value: value(outcome),
        limit: outcome
            .limit_bands
            .zip(outcome.limit_um)
            .map_or(say!("report-limit-none-stated").to_owned(), |(bands, um)| {
                say!("report-flat-limit", bands = fixed(bands, 2), um = fixed(um, 2))
            }),
        scale: None,
    }
}

fn value(outcome: &Outcome) -> String {
    let u = outcome.standard_uncertainty_um;
    let um = fixed(outcome.flatness_um, decimals_for(u, 3));
    let bands = fixed(outcome.flatness_bands, decimals_for(outcome.standard_uncertainty_bands, 2));
    match u {
        Some(u) => {
            let expanded = fixed(COVERAGE_FACTOR * u, decimals_for(Some(u), 3));
            say!("report-flat-value", um, expanded, bands)
        }
        None => say!("report-flat-value-u-not-known", um, bands),
    }
}

/// The pages of the face.
pub(super) fn section(outcome: &Outcome) -> Section {
    let mut blocks = vec![Block::Verdict(line(outcome))];
    if let Some(drawing) = bands::draw("face-flatness", outcome) {
        blocks.push(Block::Drawings(vec![vec![drawing]]));
    }
    blocks.push(Block::Text(looks(outcome)));
    if !outcome.actions.is_empty() {
        blocks.push(Block::Heading(say!("report-what-to-do").to_owned()));
        blocks.push(Block::List(outcome.actions.clone()));
    }
    blocks.push(readings(outcome).beside());
    blocks.push(Block::Small(say!(
        "report-flat-small-print",
        source = outcome.source,
        wavelength = fixed(outcome.wavelength_nm, 1),
        band = fixed(outcome.band_um, 4)
    )));
    Section { title: say!("report-flat-title").to_owned(), start: Start::NewPage, blocks }
}

fn looks(outcome: &Outcome) -> String {
    let shape = match outcome.shape {
        Shape::Crown => say!("report-flat-crown"),
        Shape::Dish => say!("report-flat-dish"),
        Shape::Saddle => say!("report-flat-saddle"),
        Shape::Flat => say!("report-flat-straight"),
        Shape::CrownOrDish => say!("report-flat-crown-or-dish"),
        Shape::Wavy => say!("report-flat-wavy"),
    };
    let shape = if outcome.shape_resolved {
        say!("report-flat-told", shape)
    } else {
        say!("report-flat-not-told", shape)
    };
    let wave = outcome.second_harmonic_bands.zip(outcome.second_harmonic_crest_deg);
    let second = wave.map(|(bands, crest)| {
        let crest = reader::direction(crest, None);
        say!("report-flat-second-wave", bands = fixed(bands, 2), crest)
    });
    let probability = outcome.probability_conforms.map(|probability| {
        say!("report-flat-probability", probability = reader::probability(probability))
    });
    paragraph([Some(shape), second, probability].into_iter().flatten())
}

fn readings(outcome: &Outcome) -> Table {
    let all = &outcome.readings;
    let mut table = Table::new([
        (say!("report-at"), Set::Numbers),
        (say!("report-flat-read-bands"), Set::Numbers),
        (say!("report-flat-u-bands"), Set::Numbers),
        (say!("report-flat-height-bands"), Set::Numbers),
    ]);
    for one in all {
        let u = one.standard_uncertainty_bands;
        table.row([
            Cell::text(one.angle_deg.map_or(say!("report-flat-all").to_owned(), reader::degrees)),
            Cell::text(fixed(one.bands, 2)),
            Cell::text(
                u.map_or(say!("report-not-known").into(), |u| fixed(COVERAGE_FACTOR * u, 2)),
            ),
            Cell::text(one.height_bands.map_or(String::new(), |height| fixed(height, 2))),
        ]);
    }
    // Bands that were bent over the whole face say nothing of the height at one place.
    if all.iter().all(|one| one.height_bands.is_none()) {
        table.columns.pop();
        table.rows.iter_mut().for_each(|row| row.truncate(table.columns.len()));
    }
    table
}
