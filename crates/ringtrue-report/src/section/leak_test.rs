//! Is the leak within its limit, and could the test have seen it?

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{decimals_for, duration_text, fixed, significant};
use ringtrue_seal::leak_test::{Contribution, Method, Note, Outcome, caution};
use ringtrue_words::say;

use super::meaning;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine};
use crate::figure::leak_test;
use crate::reader::{COVERAGE_FACTOR, probability};

/// The verdict on the leak.
pub(super) fn line(outcome: &Outcome) -> VerdictLine {
    let unsure = [Note::NotSettled, Note::GasGained];
    let why = outcome.notes.iter().find(|note| unsure.contains(note));
    let said = match (why, outcome.method, outcome.verdict) {
        (Some(note), _, _) => note.words(),
        (None, Method::Soak, Verdict::Conforms) => say!("report-leak-stayed-dry"),
        (None, Method::Soak, Verdict::NotProven) => say!("report-leak-not-long-enough"),
        (None, Method::Soak, Verdict::DoesNotConform) => say!("report-leak-wet-trace"),
        (None, _, verdict) => meaning(verdict),
    };
    let pa = "Pa m³/s";
    let value = match (outcome.leak_rate_pa_m3_per_s, outcome.standard_uncertainty_pa_m3_per_s) {
        (Some(rate), Some(u)) => {
            let decimals = decimals_for(Some(u), 6);
            let expanded = fixed(COVERAGE_FACTOR * u, decimals);
            format!("{} ± {expanded} {pa}", fixed(rate, decimals))
        }
        (Some(rate), None) => {
            say!("report-common-u-not-known", value = format!("{} {pa}", significant(rate, 3)))
        }
        (None, _) => say!("report-leak-watched-for-time", time = duration_text(outcome.watched_s)),
    };
    VerdictLine {
        verdict: outcome.verdict,
        question: question(outcome.method).to_owned(),
        sentence: said.to_owned(),
        value,
        limit: outcome
            .limit_pa_m3_per_s
            .map_or(say!("report-common-none-stated").to_owned(), |limit| {
                say!("report-leak-at-most", limit = format!("{} {pa}", significant(limit, 3)))
            }),
        scale: None,
    }
}

fn question(method: Method) -> &'static str {
    match method {
        Method::PressureChange => say!("report-leak-by-pressure-change"),
        Method::BubbleImmersion => say!("report-leak-by-bubbles-under-water"),
        Method::BubbleFilm => say!("report-leak-by-bubbles-in-film"),
        Method::Soak => say!("report-leak-by-soak"),
    }
}

/// What to do about it.
pub(super) fn deeds(outcome: &Outcome) -> Vec<String> {
    let asks = [
        Note::AbovePressureLimit,
        Note::NotSettled,
        Note::GasGained,
        Note::TooCoarse,
        Note::TooShort,
    ];
    let mut deeds: Vec<String> = outcome
        .notes
        .iter()
        .filter(|note| asks.contains(note))
        .map(|note| note.words().to_owned())
        .collect();
    if outcome.verdict == Verdict::DoesNotConform {
        deeds.push(say!("report-leak-find-it").to_owned());
    }
    deeds
}

/// The pages of the leak test.
pub(super) fn section(outcome: &Outcome) -> Section {
    let mut blocks = Vec::new();
    if outcome.method != Method::Soak {
        blocks.push(Block::Caution(caution().to_owned()));
    }
    blocks.push(Block::Verdict(line(outcome)));
    if let Some(drawing) = leak_test::draw("leak-test", outcome) {
        blocks.push(Block::Drawings(vec![vec![drawing]]));
    }
    blocks.push(Block::Tables(vec![numbers(outcome)]));
    let deeds = deeds(outcome);
    if !deeds.is_empty() {
        blocks.push(Block::Heading(say!("report-common-what-to-do").to_owned()));
        blocks.push(Block::List(deeds));
    }
    if !outcome.contributions.is_empty() {
        blocks.push(Block::Heading(say!("report-leak-uncertainty").to_owned()));
        blocks.push(Block::Tables(vec![contributions(outcome)]));
    }
    let notes: Vec<String> = outcome.notes.iter().map(|note| note.words().to_owned()).collect();
    if !notes.is_empty() {
        blocks.push(Block::Heading(say!("report-leak-to-know").to_owned()));
        blocks.push(Block::List(notes));
    }
    Section { title: say!("report-leak-title").to_owned(), start: Start::NewPage, blocks }
}

fn numbers(outcome: &Outcome) -> Table {
    let mut table = Table::new([("", Set::Words), ("", Set::Numbers)]);
    let pa = |value: f64| format!("{} Pa m³/s", significant(value, 3));
    let rows = [
        (say!("report-leak-rate"), outcome.leak_rate_pa_m3_per_s.map(pa)),
        (
            say!("report-leak-the-same"),
            outcome.leak_rate_mbar_l_per_s.map(|q| format!("{} mbar l/s", significant(q, 3))),
        ),
        (
            say!("report-leak-counted-at-0-c"),
            outcome.leak_rate_sccm_0_degc.map(|q| format!("{} sccm", significant(q, 3))),
        ),
        (
            say!("report-leak-counted-at-20-c"),
            outcome.leak_rate_sccm_20_degc.map(|q| format!("{} sccm", significant(q, 3))),
        ),
        (say!("report-leak-smallest-seen"), outcome.detectable_leak_pa_m3_per_s.map(pa)),
        (
            say!("report-leak-within-with-probability"),
            outcome.probability_conforms.map(probability),
        ),
        (say!("report-leak-left-out-for-settling"), outcome.settling_s.map(duration_text)),
        (say!("report-leak-watched-for"), Some(duration_text(outcome.watched_s))),
        (
            say!("report-leak-largest-pressure"),
            outcome.largest_pressure_difference_kpa.map(|kpa| format!("{} kPa", fixed(kpa, 1))),
        ),
        (
            say!("report-leak-stored-energy"),
            outcome.stored_energy_j.map(|joule| format!("{} J", significant(joule, 3))),
        ),
        (
            say!("report-leak-give-that-hides"),
            outcome.give_that_hides_the_limit_ml.map(|ml| format!("{} ml", significant(ml, 3))),
        ),
    ];
    for (name, value) in rows {
        if let Some(value) = value {
            table.row([Cell::text(name), Cell::text(value)]);
        }
    }
    table
}

/// All parts by one power of ten, so that they can be held against each other at a glance.
fn contributions(outcome: &Outcome) -> Table {
    let parts = &outcome.contributions;
    let of = |part: &Contribution| part.standard_uncertainty_pa_m3_per_s;
    let largest = parts.iter().map(of).fold(0.0, f64::max);
    let power = (0..=4).map(|step| -3 * step).find(|power| largest >= 10f64.powi(*power));
    let power = power.unwrap_or(-12);
    let unit = if power == 0 { String::new() } else { format!("1e\u{2212}{} ", -power) };
    let head = say!("report-leak-standard-uncertainty", unit = format!("{unit}Pa m\u{b3}/s"));
    let mut table = Table::new([(say!("report-leak-part"), Set::Words), (&head, Set::Numbers)]);
    for part in parts {
        let scaled = of(part) / 10f64.powi(power);
        table.row([Cell::text(part.what), Cell::text(significant(scaled, 3))]);
    }
    table
}
