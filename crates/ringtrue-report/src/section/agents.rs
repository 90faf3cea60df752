//! May this agent touch this toric, and what does its vapour do?

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{duration_text, fixed, significant};
use ringtrue_seal::agents::{Outcome, Vapour, caution};
use ringtrue_words::say;

use super::sentence;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine, paragraph};
use crate::reader::Reader;
use crate::reader::heat::temperature;

/// The verdict on the agent.
pub(super) fn line(outcome: &Outcome) -> VerdictLine {
    let said = match (&outcome.refused_for_toric, outcome.verdict) {
        (Some(reason), _) => say!("report-agents-refused", reason),
        (None, Verdict::Conforms) => say!("report-agents-may-be-used").to_owned(),
        (None, Verdict::NotProven) => say!("report-agents-not-proven").to_owned(),
        (None, Verdict::DoesNotConform) => say!("report-agents-may-not-be-used").to_owned(),
    };
    let keeps = outcome.findings.iter().filter(|f| f.verdict == Verdict::Conforms).count();
    VerdictLine {
        verdict: outcome.verdict,
        question: say!(
            "report-agents-question",
            agent = outcome.agent,
            material = outcome.material
        ),
        sentence: said,
        value: say!("report-agents-comparisons-fit", fit = keeps, of = outcome.findings.len()),
        limit: say!("report-agents-each-must-fit").to_owned(),
        scale: None,
    }
}

/// What to do about it.
pub(super) fn deeds(outcome: &Outcome) -> Vec<String> {
    if outcome.refused_for_toric.is_some() {
        let words = say!("report-agents-take-another");
        return vec![words.to_owned()];
    }
    let mut deeds = Vec::new();
    if let Some(finding) = outcome.waited.as_ref().filter(|f| f.verdict != Verdict::Conforms) {
        deeds.push(say!("report-agents-leave-both-halves-open", wait = finding.fits));
    }
    if outcome.verdict_vapour.is_some_and(|verdict| verdict != Verdict::Conforms) {
        deeds.push(say!("report-agents-use-less").to_owned());
    }
    if outcome.verdict_wiping != Verdict::Conforms {
        deeds.push(say!("report-agents-ask-data-sheet").to_owned());
    }
    deeds
}

/// The page of the agent.
pub(super) fn section(outcome: &Outcome, reader: Reader) -> Section {
    let mut blocks = vec![
        Block::Caution(caution().to_owned()),
        Block::Verdict(line(outcome)),
        findings(outcome),
    ];
    blocks.push(Block::Tables(vec![properties(outcome, reader)]));
    if let Some(vapour) = &outcome.vapour {
        blocks.push(Block::Text(in_bay(vapour)));
    }
    blocks.push(Block::Text(say!("report-agents-throw-away-as", disposal = outcome.disposal)));
    if !outcome.figures.is_empty() {
        blocks.push(Block::Heading(say!("report-agents-figures").to_owned()));
        blocks.push(Block::Tables(vec![figures(outcome)]));
    }
    let title = say!("report-agents-title").to_owned();
    Section { title, start: Start::NewPage, blocks }
}

fn findings(outcome: &Outcome) -> Block {
    let mut table = Table::new([
        (say!("report-verdict"), Set::Words),
        (say!("report-compared"), Set::Prose),
        (say!("report-found"), Set::Prose),
        (say!("report-what-fits"), Set::Prose),
    ]);
    for finding in outcome.findings.iter().chain([&outcome.immersion]) {
        let what = if std::ptr::eq(finding, &outcome.immersion) {
            say!("report-agents-beside-verdict", what = finding.what)
        } else {
            finding.what.clone()
        };
        table.row([
            Cell::Verdict(finding.verdict),
            Cell::text(what),
            Cell::text(finding.found.clone()),
            Cell::text(sentence(&finding.fits)),
        ]);
    }
    Block::Tables(vec![table])
}

fn properties(outcome: &Outcome, reader: Reader) -> Table {
    let mut table = Table::new([("", Set::Words), ("", Set::Prose)]);
    let mut row = |name: &str, value: Option<String>| {
        if let Some(value) = value {
            table.row([Cell::text(name), Cell::text(value)]);
        }
    };
    row(say!("report-agents-what-it-is"), Some(outcome.what.to_owned()));
    row(say!("report-agents-evaporation"), Some(outcome.evaporation.words().to_owned()));
    row(
        say!("report-agents-behind-load-ring"),
        outcome.drying.as_ref().map(|drying| {
            let (likely, by) = (duration_text(drying.median_s), duration_text(drying.dry_by_s));
            say!("report-agents-gone-after", likely, by)
        }),
    );
    row(
        say!("report-agents-flash-point"),
        outcome.flash_point_degc.zip(outcome.ignitable_at_room).map(|(flash, lit)| {
            let flash = temperature(flash, reader.system);
            if lit {
                say!("report-agents-wet-wipe-can-be-lit-here", flash)
            } else {
                say!("report-agents-warm-part-lights-it", flash)
            }
        }),
    );
    row(
        say!("report-agents-explosive-in-air-from"),
        outcome.lower_explosive_limit_percent.map(|limit| format!("{} %", fixed(limit, 2))),
    );
    row(
        say!("report-agents-over-wet-wipe"),
        outcome
            .saturated_times_lower_explosive_limit
            .map(|times| say!("report-agents-times-explosive", times = fixed(times, 1))),
    );
    row(
        say!("report-agents-its-vapour"),
        outcome
            .vapour_over_air
            .map(|times| say!("report-agents-times-as-heavy-as-air", times = fixed(times, 1))),
    );
    table
}

fn in_bay(vapour: &Vapour) -> String {
    let all = say!("report-agents-vapour-made", litres = significant(vapour.vapour_l, 3));
    let air = vapour
        .air_to_25_percent_of_lower_explosive_limit_m3
        .map(|air| say!("report-agents-air-that-thins", air = significant(air, 3)));
    let hour = vapour.ventilation_to_exposure_limit_m3_per_h.map(|air| {
        let factor = fixed(vapour.mixing_factor, 0);
        say!("report-agents-air-every-hour", air = significant(air, 3), factor)
    });
    paragraph([Some(all), air, hour].into_iter().flatten())
}

fn figures(outcome: &Outcome) -> Table {
    let mut table = Table::new([
        (say!("report-figure"), Set::Words),
        (say!("report-agents-value"), Set::Numbers),
        (say!("report-source"), Set::Prose),
    ]);
    for figure in &outcome.figures {
        table.row([
            Cell::text(figure.what),
            Cell::text(figure.value.to_string()),
            Cell::text(figure.source.as_str()),
        ]);
    }
    table
}
