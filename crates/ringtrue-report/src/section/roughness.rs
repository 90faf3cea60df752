//! Is the ramp smooth enough, and rough enough to hold the toric?

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{decimals_for, fixed};
use ringtrue_seal::roughness::{CutOffBasis, Ends, Outcome, Rule};

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
            "Too many of the values lie outside the limit.".to_owned()
        }
        (verdict, _, _) => meaning(verdict).to_owned(),
    };
    VerdictLine {
        verdict: outcome.verdict,
        question: format!("ramp finish, {}", outcome.parameter.symbol()),
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
        Some(u) if COVERAGE_FACTOR * u > outcome.value_um => format!(
            "{} \u{b5}m (0 to {} \u{b5}m)",
            fixed(outcome.value_um, decimals),
            fixed(outcome.value_um + COVERAGE_FACTOR * u, decimals)
        ),
        Some(u) => format!(
            "{} ± {} \u{b5}m",
            fixed(outcome.value_um, decimals),
            fixed(COVERAGE_FACTOR * u, decimals)
        ),
        None => format!("{} \u{b5}m (U not known)", fixed(outcome.value_um, decimals)),
    }
}

fn limit(outcome: &Outcome) -> String {
    let text = match (outcome.limit_min_um, outcome.limit_max_um) {
        (None, None) => return "none stated".to_owned(),
        (None, Some(max)) => format!("at most {max} \u{b5}m"),
        (Some(min), None) => format!("at least {min} \u{b5}m"),
        (Some(min), Some(max)) => format!("{min} to {max} \u{b5}m"),
    };
    format!("{text}, {}", rule(outcome.rule))
}

fn rule(rule: Rule) -> &'static str {
    match rule {
        Rule::SixteenPercent => "16 % rule",
        Rule::Max => "max rule",
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
        blocks.push(Block::Heading("What to do".to_owned()));
        blocks.push(Block::List(outcome.actions.clone()));
    }
    if outcome.ra_um.is_some() {
        blocks.push(Block::Tables(vec![parameters(outcome)]));
        blocks.push(sampling_lengths(outcome).beside());
    }
    blocks.push(Block::Small(settings(outcome)));
    Section { title: "Ramp finish".to_owned(), start: Start::NewPage, blocks }
}

fn judged(outcome: &Outcome) -> String {
    let of = &outcome.statistics;
    let scatter = of.standard_deviation_um.map_or(String::new(), |s| {
        format!(", standard deviation {} \u{b5}m", fixed(s, decimals_for(Some(s), 3)))
    });
    let probability = outcome.probability_conforms.map_or(String::new(), |probability| {
        format!(" Within the limit with probability {}.", reader::probability(probability))
    });
    format!(
        "{} of {} values lie outside the limit, where the {} allows {}; they run from {} to {} \
         \u{b5}m{scatter}.{probability}",
        outcome.values_outside,
        outcome.values,
        rule(outcome.rule),
        outcome.values_allowed_outside,
        fixed(of.min_um, 3),
        fixed(of.max_um, 3)
    )
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
    let um = |value: Option<f64>| Cell::text(value.map_or("none".into(), |v| fixed(v, 3)));
    let bare = |value: Option<f64>| Cell::text(value.map_or("none".into(), |v| fixed(v, 2)));
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
        ("trace", Set::Numbers),
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
            Cell::text(one.rsk.map_or("none".into(), |rsk| fixed(rsk, 2))),
        ]);
    }
    table
}

fn settings(outcome: &Outcome) -> String {
    let mut text = format!("By {}.", outcome.edition);
    if let (Some(cut_off), Some(length)) = (outcome.cut_off_mm, outcome.evaluation_length_mm) {
        let why = match outcome.cut_off_basis {
            CutOffBasis::Table => "by the table",
            CutOffBasis::BesideTable => "the table's nearest row",
            CutOffBasis::Feed => "by the feed of the turned surface",
            CutOffBasis::Given => "as given",
            CutOffBasis::TraceTooShort => "the longest that the trace allows",
            CutOffBasis::None => "none",
        };
        let ends = match outcome.ends {
            Ends::LeftOut => "half a cut-off at each end left out",
            Ends::WeightsRenormalised => "ends kept, their weights made to sum to one",
            Ends::None => "nothing filtered here",
        };
        text.push_str(&format!(
            " Gaussian filter of ISO 16610-21, cut-off {cut_off} mm ({why}), {} mm evaluated, \
             {ends}.",
            fixed(length, 2)
        ));
    }
    text
}
