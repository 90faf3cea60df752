//! May this agent touch this toric, and what does its vapour do?

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{duration_text, fixed, significant};
use ringtrue_seal::agents::{Finding, Outcome, Vapour, caution};

use super::sentence;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine};
use crate::reader::Reader;
use crate::reader::heat::temperature;

/// The verdict on the agent.
pub(super) fn line(outcome: &Outcome) -> VerdictLine {
    let said = match (&outcome.refused_for_toric, outcome.verdict) {
        (Some(reason), _) => format!("Refused for the toric: {reason}."),
        (None, Verdict::Conforms) => "It may wipe and wet this toric here.".to_owned(),
        (None, Verdict::NotProven) => "Not everything about it is proven.".to_owned(),
        (None, Verdict::DoesNotConform) => "It may not be used so here.".to_owned(),
    };
    let keeps = outcome.findings.iter().filter(|f| f.verdict == Verdict::Conforms).count();
    VerdictLine {
        verdict: outcome.verdict,
        question: format!("{} on {}", outcome.agent, outcome.material),
        sentence: said,
        value: format!("{keeps} of {} comparisons fit", outcome.findings.len()),
        limit: "each must fit".to_owned(),
        scale: None,
    }
}

/// What to do about it.
pub(super) fn deeds(outcome: &Outcome) -> Vec<String> {
    if outcome.refused_for_toric.is_some() {
        let words = "Take an agent that evaporates without a film and is free of petroleum.";
        return vec![words.to_owned()];
    }
    let misses = |finding: &&Finding| finding.verdict != Verdict::Conforms;
    let mut deeds = Vec::new();
    if let Some(finding) = outcome.time_finding().filter(misses) {
        deeds.push(format!("Leave both halves open: {}.", finding.fits));
    }
    if outcome.vapour_findings().iter().any(|finding| misses(&finding)) {
        deeds.push("Use less of it, or move more air, before it is opened.".to_owned());
    }
    if outcome.verdict_wiping != Verdict::Conforms {
        deeds.push("Ask the compound's data sheet before it touches the toric.".to_owned());
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
    if let Some(vapour) = outcome.vapour.as_ref().filter(|vapour| vapour.vapour_l > 0.0) {
        blocks.push(Block::Text(in_bay(vapour)));
    }
    blocks.push(Block::Text(format!("Throw away as {}.", outcome.disposal)));
    if !outcome.figures.is_empty() {
        blocks.push(Block::Heading("Figures".to_owned()));
        blocks.push(Block::Tables(vec![figures(outcome)]));
    }
    let title = "Cleaning and wetting agent".to_owned();
    Section { title, start: Start::NewPage, blocks }
}

fn findings(outcome: &Outcome) -> Block {
    let mut table = Table::new([
        ("Verdict", Set::Words),
        ("Compared", Set::Prose),
        ("Found", Set::Prose),
        ("What fits", Set::Prose),
    ]);
    for finding in outcome.findings.iter().chain([&outcome.immersion]) {
        let beside =
            if finding.what == outcome.immersion.what { " (beside the verdict)" } else { "" };
        table.row([
            Cell::Verdict(finding.verdict),
            Cell::text(format!("{}{beside}", finding.what)),
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
    row("what it is", Some(outcome.what.to_owned()));
    row("evaporation", Some(outcome.evaporation.words().to_owned()));
    row(
        "behind the toric",
        outcome.drying.as_ref().map(|drying| {
            let (likely, by) = (duration_text(drying.median_s), duration_text(drying.dry_by_s));
            format!("as likely as not gone after {likely}, almost surely after {by}")
        }),
    );
    row(
        "flash point",
        outcome.flash_point_degc.zip(outcome.ignitable_at_room).map(|(flash, lit)| {
            let words = if lit { "a wet wipe can be lit here" } else { "a warm part lights it" };
            format!("{}: {words}", temperature(flash, reader.system))
        }),
    );
    row(
        "explosive in air from",
        outcome.lower_explosive_limit_percent.map(|limit| format!("{} %", fixed(limit, 2))),
    );
    row(
        "over a wet wipe",
        outcome
            .saturated_times_lower_explosive_limit
            .map(|times| format!("{} times that at 20 °C", fixed(times, 1))),
    );
    row(
        "its vapour",
        outcome.vapour_over_air.map(|times| {
            format!("{} times as heavy as air: it lies at the floor", fixed(times, 1))
        }),
    );
    table
}

fn in_bay(vapour: &Vapour) -> String {
    let air = vapour.air_to_25_percent_of_lower_explosive_limit_m3.map_or(String::new(), |air| {
        format!(" {} m³ of air thin it to 25 % of the lower explosive limit.", significant(air, 3))
    });
    let hour = vapour.ventilation_to_exposure_limit_m3_per_h.map_or(String::new(), |air| {
        let factor = fixed(vapour.mixing_factor, 0);
        format!(
            " If as much is used every hour, {} m³/h hold the eight-hour limit, with a factor of \
             {factor} for air that mixes badly.",
            significant(air, 3)
        )
    });
    format!(
        "All of it evaporated makes {} l of vapour.{air}{hour}",
        significant(vapour.vapour_l, 3)
    )
}

fn figures(outcome: &Outcome) -> Table {
    let mut table =
        Table::new([("Figure", Set::Words), ("value", Set::Numbers), ("source", Set::Prose)]);
    for figure in &outcome.figures {
        table.row([
            Cell::text(figure.what),
            Cell::text(figure.value.to_string()),
            Cell::text(figure.source.as_str()),
        ]);
    }
    table
}
