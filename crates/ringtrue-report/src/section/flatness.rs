//! Is the lapped face flat?

use ringtrue_metrology::units::{decimals_for, fixed};
use ringtrue_seal::flatness::{Outcome, Shape};

use super::meaning;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine};
use crate::figure::bands;
use crate::reader::{self, COVERAGE_FACTOR};

/// The verdict on the face.
pub(super) fn line(outcome: &Outcome) -> VerdictLine {
    VerdictLine {
        verdict: outcome.verdict,
        question: "flatness of the lapped face".to_owned(),
        sentence: if outcome.limit_bands.is_some() {
            meaning(outcome.verdict).to_owned()
        } else {
            "There is no limit to judge it by.".to_owned()
        },
        value: value(outcome),
        limit: outcome
            .limit_bands
            .zip(outcome.limit_um)
            .map_or("none stated".to_owned(), |(bands, um)| {
                format!("at most {} bands, {} \u{b5}m", fixed(bands, 2), fixed(um, 2))
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
            format!("{um} ± {expanded} \u{b5}m, {bands} bands")
        }
        None => format!("{um} \u{b5}m, {bands} bands (U not known)"),
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
        blocks.push(Block::Heading("What to do".to_owned()));
        blocks.push(Block::List(outcome.actions.clone()));
    }
    blocks.push(readings(outcome).beside());
    blocks.push(Block::Small(format!(
        "Light: {}, {} nm; one band is {} \u{b5}m of air gap as it was seen. Peak to valley; a \
         wedge does not count, and the flat's own error is left out.",
        outcome.source,
        fixed(outcome.wavelength_nm, 1),
        fixed(outcome.band_um, 4)
    )));
    Section { title: "Flatness of the lapped face".to_owned(), start: Start::NewPage, blocks }
}

fn looks(outcome: &Outcome) -> String {
    let shape = match outcome.shape {
        Shape::Crown => "The face is a crown, high in the middle",
        Shape::Dish => "The face is a dish, low in the middle",
        Shape::Saddle => "The face is a saddle, high along one azimuth and low along another",
        Shape::Flat => "The bands are straight",
        Shape::CrownOrDish => "The bands are closed: a crown or a dish, nobody pressed to tell",
        Shape::Wavy => "The face is wavy round the ring",
    };
    let told = if outcome.shape_resolved { "" } else { ", though that is not told from chance" };
    let wave = outcome.second_harmonic_bands.zip(outcome.second_harmonic_crest_deg);
    let second = wave.map_or(String::new(), |(bands, crest)| {
        let crest = reader::direction(crest, None);
        format!(" Second wave {} bands, crest at {crest}.", fixed(bands, 2))
    });
    let probability = outcome.probability_conforms.map_or(String::new(), |probability| {
        format!(" Within the limit with probability {}.", reader::probability(probability))
    });
    format!("{shape}{told}.{second}{probability}")
}

fn readings(outcome: &Outcome) -> Table {
    let all = &outcome.readings;
    let mut table = Table::new([
        ("at", Set::Numbers),
        ("read, bands", Set::Numbers),
        ("U, bands", Set::Numbers),
        ("height, bands", Set::Numbers),
    ]);
    for one in all {
        let u = one.standard_uncertainty_bands;
        table.row([
            Cell::text(one.angle_deg.map_or("all".to_owned(), reader::degrees)),
            Cell::text(fixed(one.bands, 2)),
            Cell::text(u.map_or("not known".into(), |u| fixed(COVERAGE_FACTOR * u, 2))),
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
