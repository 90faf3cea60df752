//! Is the ramp smooth enough, and rough enough to hold the toric?

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{decimals_for, fixed};
use ringtrue_seal::roughness::{CutOffBasis, Ends, Outcome, Rule};
use ringtrue_words::say;

use super::meaning;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine};
use crate::figure::roughness;
use crate::reader::{self, COVERAGE_FACTOR};

/// Traces that are drawn.
const MOST_DRAWN: usize = 4;

/// The verdict on the finish.
pub(super) fn line(outcome: &Outcome) -> VerdictLine {
    let said = match (outcome.verdict, outcome.verdict_value, outcome.verdict_rule) {
        (Verdict::DoesNotConform, Verdict::Conforms | Verdict::NotProven, _) => {
            say!("report-finish-too-many").to_owned()
        }
        (verdict, _, _) => meaning(verdict).to_owned(),
    };
    VerdictLine {
        verdict: outcome.verdict,
        question: say!("report-finish-question", parameter = outcome.parameter.symbol()),
        sentence: said,
        value: value(outcome),
        limit: limit(outcome),
        scale: None,
    }
}

fn value(outcome: &Outcome) -> String {
    let u = outcome.standard_uncertainty_um;
    let decimals = decimals_for(u, 3);
    match u {
        // A few values leave more doubt than the value itself, and no roughness is below zero.
        Some(u) if COVERAGE_FACTOR * u > outcome.value_um => say!(
            "report-finish-from-zero",
            value = fixed(outcome.value_um, decimals),
            most = fixed(outcome.value_um + COVERAGE_FACTOR * u, decimals)
        ),
        Some(u) => format!(
            "{} ± {} \u{b5}m",
            fixed(outcome.value_um, decimals),
            fixed(COVERAGE_FACTOR * u, decimals)
        ),
        None => say!(
            "report-common-u-not-known",
            value = format!("{} \u{b5}m", fixed(outcome.value_um, decimals))
        ),
    }
}

fn limit(outcome: &Outcome) -> String {
    let text = match (outcome.limit_min_um, outcome.limit_max_um) {
        (None, None) => return say!("report-common-none-stated").to_owned(),
        (None, Some(max)) => say!("report-finish-at-most", max = max.to_string()),
        (Some(min), None) => say!("report-finish-at-least", min = min.to_string()),
        (Some(min), Some(max)) => {
            say!("report-finish-between", min = min.to_string(), max = max.to_string())
        }
    };
    say!("report-finish-limit-and-rule", limit = text, rule = rule(outcome.rule))
}

fn rule(rule: Rule) -> &'static str {
    match rule {
        Rule::SixteenPercent => say!("report-finish-16-percent-rule"),
        Rule::Max => say!("report-finish-max-rule"),
    }
}

/// The pages of the finish.
pub(super) fn section(outcome: &Outcome) -> Section {
    let mut blocks = vec![Block::Verdict(line(outcome))];
    let drawn: Vec<_> = (0..outcome.profiles.len().min(MOST_DRAWN))
        .filter_map(|index| roughness::draw(&format!("ramp-finish-{}", index + 1), outcome, index))
        .collect();
    // Two beside each other.
    blocks.extend(
        drawn.chunks(2).map(|pair| {
            Block::Drawings(pair.iter().map(|drawing| vec![drawing.clone()]).collect())
        }),
    );
    blocks.push(Block::Text(judged(outcome)));
    if !outcome.actions.is_empty() {
        blocks.push(Block::Heading(say!("report-common-what-to-do").to_owned()));
        blocks.push(Block::List(outcome.actions.clone()));
    }
    if outcome.ra_um.is_some() {
        blocks.push(Block::Tables(vec![parameters(outcome)]));
        blocks.push(sampling_lengths(outcome).beside());
    }
    blocks.push(Block::Small(settings(outcome)));
    Section { title: say!("report-finish-title").to_owned(), start: Start::NewPage, blocks }
}

fn judged(outcome: &Outcome) -> String {
    let of = &outcome.statistics;
    let (outside, values) = (outcome.values_outside, outcome.values);
    let (rule, allowed) = (rule(outcome.rule), outcome.values_allowed_outside);
    let (least, most) = (fixed(of.min_um, 3), fixed(of.max_um, 3));
    let judged = match of.standard_deviation_um {
        Some(s) => {
            let deviation = fixed(s, decimals_for(Some(s), 3));
            say!(
                "report-finish-judged-scatter",
                outside,
                values,
                rule,
                allowed,
                least,
                most,
                deviation
            )
        }
        None => say!("report-finish-judged", outside, values, rule, allowed, least, most),
    };
    let probability = outcome.probability_conforms.map(reader::probability);
    let probability = probability.map(|probability| say!("report-finish-probability", probability));
    [Some(judged), probability].into_iter().flatten().collect::<Vec<_>>().join(" ")
}

fn parameters(outcome: &Outcome) -> Table {
    let mut table = Table::new([
        ("Ra, \u{b5}m", Set::Numbers),
        ("Rq, \u{b5}m", Set::Numbers),
        ("Rz, \u{b5}m", Set::Numbers),
        ("Rt, \u{b5}m", Set::Numbers),
        ("Rsk", Set::Numbers),
        ("Rku", Set::Numbers),
    ]);
    let um = |value: Option<f64>| {
        Cell::text(value.map_or(say!("report-common-none").into(), |v| fixed(v, 3)))
    };
    let bare = |value: Option<f64>| {
        Cell::text(value.map_or(say!("report-common-none").into(), |v| fixed(v, 2)))
    };
    table.row([
        um(outcome.ra_um),
        um(outcome.rq_um),
        um(outcome.rz_um),
        um(outcome.rt_um),
        bare(outcome.rsk),
        bare(outcome.rku),
    ]);
    table
}

fn sampling_lengths(outcome: &Outcome) -> Table {
    let mut table = Table::new([
        (say!("report-finish-trace"), Set::Numbers),
        ("Ra, \u{b5}m", Set::Numbers),
        ("Rq, \u{b5}m", Set::Numbers),
        ("Rz, \u{b5}m", Set::Numbers),
        ("Rsk", Set::Numbers),
    ]);
    for one in &outcome.sampling_lengths {
        table.row([
            Cell::text(one.trace.to_string()),
            Cell::text(fixed(one.ra_um, 3)),
            Cell::text(fixed(one.rq_um, 3)),
            Cell::text(fixed(one.rz_um, 3)),
            Cell::text(one.rsk.map_or(say!("report-common-none").into(), |rsk| fixed(rsk, 2))),
        ]);
    }
    table
}

fn settings(outcome: &Outcome) -> String {
    let mut text = say!("report-finish-edition", edition = outcome.edition);
    if let (Some(cut_off), Some(length)) = (outcome.cut_off_mm, outcome.evaluation_length_mm) {
        let why = match outcome.cut_off_basis {
            CutOffBasis::Table => say!("report-finish-cut-off-table"),
            CutOffBasis::BesideTable => say!("report-finish-cut-off-nearest-row"),
            CutOffBasis::Feed => say!("report-finish-cut-off-feed"),
            CutOffBasis::Given => say!("report-finish-cut-off-given"),
            CutOffBasis::TraceTooShort => say!("report-finish-cut-off-longest"),
            CutOffBasis::None => say!("report-common-none"),
        };
        let ends = match outcome.ends {
            Ends::LeftOut => say!("report-finish-ends-left-out"),
            Ends::WeightsRenormalised => say!("report-finish-ends-kept"),
            Ends::None => say!("report-finish-ends-none"),
        };
        let (cut_off, length) = (cut_off.to_string(), fixed(length, 2));
        text.push(' ');
        text.push_str(&say!("report-finish-filter", cut_off, why, length, ends));
    }
    text
}
