//! Will the seal gap be inside its limits?

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{decimals_for, fixed};
use ringtrue_seal::definition::joint::{ChainLink, Sign};
use ringtrue_seal::gap_stack::{LinkOutcome, Outcome, ShimOutcome};

use super::reader;
use crate::JointReport;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine};
use crate::figure::gap_distribution;
use crate::figure::limit_scale::{self, Scale, Size, Spread};
use crate::reader::{self, Reader};

/// Sets of shims that are listed.
const MOST_SHIM_SETS: usize = 8;

/// The verdict on the gap.
pub(super) fn line(report: &JointReport) -> VerdictLine {
    let (reader, gap) = (reader(report), report.gap);
    let scale = Scale {
        name: "seal-gap-line".to_owned(),
        quantity: "Seal gap, 99.73 % of joints".to_owned(),
        value: gap.mean_gap_mm,
        spread: Spread::Between(gap.sampled_p0_135_mm, gap.sampled_p99_865_mm),
        min: Some(gap.limit_min_mm),
        max: Some(gap.limit_max_mm),
    };
    let decimals = reader.workshop_decimals();
    let said = match gap.verdict {
        Verdict::Conforms => "As good as every joint made to this chain is inside the limits.",
        Verdict::NotProven => {
            "Some joints made to this chain are outside the limits: measure its links."
        }
        Verdict::DoesNotConform => {
            "As good as every joint made to this chain is outside the limits."
        }
    };
    VerdictLine {
        verdict: gap.verdict,
        question: "seal gap".to_owned(),
        sentence: format!("{said} Outside: {}.", outside(gap)),
        value: format!(
            "{} to {}",
            reader.number(gap.sampled_p0_135_mm, decimals),
            reader.length(gap.sampled_p99_865_mm, decimals)
        ),
        limit: limits(gap, reader),
        scale: limit_scale::draw(&scale, Size::Line, reader),
    }
}

/// The share outside the limits, or how many draws found none.
fn outside(gap: &Outcome) -> String {
    if gap.outside_limit_fraction <= 0.0 {
        format!("none in {} draws", reader::count(u64::from(gap.draws)))
    } else {
        reader::percent(gap.outside_limit_fraction)
    }
}

fn limits(gap: &Outcome, reader: Reader) -> String {
    reader
        .limits(Some(gap.limit_min_mm), Some(gap.limit_max_mm), reader.workshop_decimals())
        .unwrap_or_default()
}

/// What to do about the gap.
pub(super) fn deeds(report: &JointReport) -> Vec<String> {
    let (reader, gap) = (reader(report), report.gap);
    if gap.verdict == Verdict::Conforms {
        return Vec::new();
    }
    let fitting = gap.shims_on_hand.iter().find(|set| set.verdict == Verdict::Conforms);
    if let Some(set) = fitting {
        return vec![format!(
            "Seal gap: fit {} from those on hand. That opens the mean gap to {}, with {} outside \
             the limits.",
            pieces(set, reader),
            reader.length(set.mean_gap_mm, reader.workshop_decimals()),
            reader::percent(set.outside_limit_fraction)
        )];
    }
    let amount = reader.about(gap.shim_mm.abs());
    let centring = if gap.shim_mm >= 0.0 {
        format!("a shim of {amount} centres it between its limits")
    } else {
        format!("take {amount} out of the stack to centre it between its limits")
    };
    let none = if gap.shims_on_hand.is_empty() {
        "no shim on hand was listed"
    } else {
        "none of the shims on hand makes it conform"
    };
    let widest =
        gap.links.iter().filter(|l| !l.measured).max_by(|a, b| a.share.total_cmp(&b.share));
    let measure = widest.map_or_else(String::new, |link| {
        let share = reader::percent(link.share);
        format!(" Measure \u{201c}{}\u{201d} first: it makes {share} of the spread.", link.name)
    });
    vec![format!("Seal gap: {centring}; {none}.{measure}")]
}

fn pieces(set: &ShimOutcome, reader: Reader) -> String {
    let decimals = reader.workshop_decimals();
    let each: Vec<_> = set.pieces_mm.iter().map(|mm| reader.exact_number(*mm, decimals)).collect();
    match each.len() {
        1 => format!("the shim of {} {}", each[0], reader.unit()),
        _ => format!(
            "the shims {} {} ({} together)",
            each.join(" + "),
            reader.unit(),
            reader.length(set.thickness_mm, decimals)
        ),
    }
}

/// The pages of the gap.
pub(super) fn section(report: &JointReport) -> Section {
    let (reader, gap) = (reader(report), report.gap);
    let mut blocks = vec![
        Block::Verdict(VerdictLine { scale: None, ..line(report) }),
        Block::Drawings(vec![
            vec![gap_distribution::draw("seal-gap", gap, reader)],
            vec![gap_distribution::shares("seal-gap-shares", gap)],
        ]),
        views(gap, reader),
    ];
    let deeds = deeds(report);
    if !deeds.is_empty() {
        blocks.push(Block::Heading("What to do".to_owned()));
        blocks.push(Block::List(deeds));
    }
    blocks.push(Block::Heading("The dimension chain".to_owned()));
    blocks.push(chain(report, reader));
    blocks.extend(shims(gap, reader));
    blocks.push(Block::Small(format!(
        "{} quasi-random draws, seed {}. + opens the gap, \u{2212} closes it. Root-sum-square is \
         about the middle of the worst case. A measured link's value and standard uncertainty \
         stand in the place of its tolerance.",
        reader::count(u64::from(gap.draws)),
        gap.seed
    )));
    Section { title: "Seal gap".to_owned(), start: Start::NewPage, blocks }
}

fn views(gap: &Outcome, reader: Reader) -> Block {
    let unit = reader.unit();
    let mut table = Table::new([
        ("View", Set::Prose),
        (&format!("From, {unit}"), Set::Numbers),
        (&format!("To, {unit}"), Set::Numbers),
    ]);
    let decimals = reader.fine_decimals();
    let mut row = |what: &str, from: f64, to: f64| {
        let (from, to) = (reader.number(from, decimals), reader.number(to, decimals));
        table.row([Cell::text(what), Cell::Text(from), Cell::Text(to)]);
    };
    row("Limits", gap.limit_min_mm, gap.limit_max_mm);
    row("Worst case: every link at its worst", gap.worst_min_mm, gap.worst_max_mm);
    row("Root-sum-square", gap.rss_min_mm, gap.rss_max_mm);
    row("Sampled: 99.73 % of joints", gap.sampled_p0_135_mm, gap.sampled_p99_865_mm);
    let mut second = Table::new([("", Set::Prose), ("", Set::Numbers)]);
    let length = |mm: f64| reader.length(mm, decimals);
    let rows = [
        ("Nominal gap", length(gap.nominal_gap_mm)),
        ("Mean of the gap", length(gap.mean_gap_mm)),
        ("Standard deviation", length(gap.standard_deviation_mm)),
        ("Joints below the smallest gap", reader::percent(gap.below_limit_fraction)),
        ("Joints above the largest gap", reader::percent(gap.above_limit_fraction)),
        ("Shim that centres the gap (+ opens)", signed(gap.shim_mm, reader)),
    ];
    second.columns[0].head = "Of the gap".to_owned();
    second.columns[1].head = "Value".to_owned();
    for (what, value) in rows {
        second.row([Cell::text(what), Cell::Text(value)]);
    }
    Block::Tables(vec![table, second])
}

fn signed(mm: f64, reader: Reader) -> String {
    let text = reader.length(mm, reader.workshop_decimals());
    if mm > 0.0 && !text.starts_with('\u{2212}') { format!("+{text}") } else { text }
}

fn chain(report: &JointReport, reader: Reader) -> Block {
    let unit = reader.unit();
    let mut table = Table::new([
        ("", Set::Words),
        ("Link", Set::Prose),
        (&format!("Size, {unit}"), Set::Numbers),
        ("As written", Set::Words),
        (&format!("Std deviation, {unit}"), Set::Numbers),
        ("Share", Set::Numbers),
    ]);
    table.columns[0].head = "Sign".to_owned();
    let links = &report.joint.file.gap.link;
    for link in &report.gap.links {
        let sign = match link.sign {
            Sign::Opens => "+",
            Sign::Closes => "\u{2212}",
        };
        let spread = reader.of_mm(link.standard_deviation_mm);
        let decimals = decimals_for(Some(spread), reader.workshop_decimals());
        table.row([
            Cell::text(sign),
            Cell::text(link.name.clone()),
            Cell::Text(reader.number(link.value_mm, reader.fine_decimals())),
            Cell::Text(as_written(link, links.iter().find(|l| l.name == link.name))),
            Cell::Text(fixed(spread, decimals)),
            Cell::Text(reader::percent(link.share)),
        ]);
    }
    Block::Tables(vec![table])
}

fn as_written(link: &LinkOutcome, drawn: Option<&ChainLink>) -> String {
    if link.measured {
        return "measured".to_owned();
    }
    let Some(drawn) = drawn else { return String::new() };
    let tolerance = match (&drawn.plus_minus, &drawn.upper, &drawn.lower, &drawn.class) {
        (Some(plus_minus), _, _, _) => format!("± {}", plus_minus.typed()),
        (None, Some(upper), Some(lower), _) => {
            format!("({} / {})", upper.typed(), lower.typed())
        }
        (None, _, _, Some(class)) => class.clone(),
        (None, Some(upper), None, None) => upper.typed().to_owned(),
        (None, None, Some(lower), None) => lower.typed().to_owned(),
        (None, None, None, None) => String::new(),
    };
    format!("{} {tolerance}", drawn.nominal.typed())
}

fn shims(gap: &Outcome, reader: Reader) -> Vec<Block> {
    if gap.shims_on_hand.is_empty() {
        return Vec::new();
    }
    if gap.verdict == Verdict::Conforms {
        let none = "No shim is needed: the gap conforms without one.";
        let heading = Block::Heading("Shims on hand".to_owned());
        return vec![heading, Block::Text(none.to_owned())];
    }
    let unit = reader.unit();
    let mut table = Table::new([
        ("Verdict", Set::Words),
        (&format!("Pieces, {unit}"), Set::Prose),
        (&format!("Together, {unit}"), Set::Numbers),
        (&format!("Mean gap, {unit}"), Set::Numbers),
        ("Outside", Set::Numbers),
    ]);
    let decimals = reader.workshop_decimals();
    for set in gap.shims_on_hand.iter().take(MOST_SHIM_SETS) {
        let each: Vec<_> =
            set.pieces_mm.iter().map(|mm| reader.exact_number(*mm, decimals)).collect();
        let each = if each.is_empty() { "none".to_owned() } else { each.join(" + ") };
        table.row([
            Cell::Verdict(set.verdict),
            Cell::Text(each),
            Cell::Text(reader.number(set.thickness_mm, decimals)),
            Cell::Text(reader.number(set.mean_gap_mm, decimals)),
            Cell::Text(reader::percent(set.outside_limit_fraction)),
        ]);
    }
    let mut blocks = vec![Block::Heading("Shims on hand".to_owned()), Block::Tables(vec![table])];
    let more = gap.shims_on_hand.len().saturating_sub(MOST_SHIM_SETS);
    if more > 0 {
        blocks.push(Block::Small(format!("{more} further sets are not listed.")));
    }
    blocks
}
