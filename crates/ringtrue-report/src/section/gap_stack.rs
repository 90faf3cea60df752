//! Will the seal gap be inside its limits?

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{decimals_for, fixed};
use ringtrue_seal::definition::joint::{ChainLink, Sign};
use ringtrue_seal::gap_stack::{LinkOutcome, Outcome, ShimOutcome};
use ringtrue_words::say;

use super::reader;
use crate::JointReport;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine, paragraph};
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
        quantity: say!("report-gap-scale").to_owned(),
        value: gap.mean_gap_mm,
        spread: Spread::Between(gap.sampled_p0_135_mm, gap.sampled_p99_865_mm),
        min: Some(gap.limit_min_mm),
        max: Some(gap.limit_max_mm),
    };
    let decimals = reader.workshop_decimals();
    let said = match gap.verdict {
        Verdict::Conforms => say!("report-gap-all-inside"),
        Verdict::NotProven => {
            say!("report-gap-some-outside")
        }
        Verdict::DoesNotConform => {
            say!("report-gap-all-outside")
        }
    };
    VerdictLine {
        verdict: gap.verdict,
        question: say!("report-gap-question").to_owned(),
        sentence: paragraph([
            said.to_owned(),
            say!("report-gap-outside-share", outside = outside(gap)),
        ]),
        value: say!(
            "report-range",
            from = reader.number(gap.sampled_p0_135_mm, decimals),
            to = reader.length(gap.sampled_p99_865_mm, decimals)
        ),
        limit: limits(gap, reader),
        scale: limit_scale::draw(&scale, Size::Line, reader),
    }
}

/// The share outside the limits, or how many draws found none.
fn outside(gap: &Outcome) -> String {
    if gap.outside_limit_fraction <= 0.0 {
        say!("report-gap-none-in-draws", draws = reader::count(u64::from(gap.draws)))
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
        return vec![fit(set, reader)];
    }
    let amount = reader.about(gap.shim_mm.abs());
    let opens = gap.shim_mm >= 0.0;
    let centre = match (opens, gap.shims_on_hand.is_empty()) {
        (true, true) => say!("report-gap-centre-none-listed", amount),
        (true, false) => say!("report-gap-centre-none-fits", amount),
        (false, true) => say!("report-gap-take-out-none-listed", amount),
        (false, false) => say!("report-gap-take-out-none-fits", amount),
    };
    let widest =
        gap.links.iter().filter(|l| !l.measured).max_by(|a, b| a.share.total_cmp(&b.share));
    let measure = widest.map(|link| {
        let share = reader::percent(link.share);
        say!("report-gap-measure-first", link = link.name, share)
    });
    vec![paragraph([Some(centre), measure].into_iter().flatten())]
}

/// Which shims to fit, and what the gap is then.
fn fit(set: &ShimOutcome, reader: Reader) -> String {
    let decimals = reader.workshop_decimals();
    let each: Vec<_> = set.pieces_mm.iter().map(|mm| reader.exact_number(*mm, decimals)).collect();
    let unit = reader.unit();
    let gap = reader.length(set.mean_gap_mm, decimals);
    let outside = reader::percent(set.outside_limit_fraction);
    match each.as_slice() {
        [shim] => say!("report-gap-fit-one", shim, unit, gap, outside),
        all => {
            let shims = all.join(" + ");
            let together = reader.length(set.thickness_mm, decimals);
            say!("report-gap-fit-several", shims, unit, together, gap, outside)
        }
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
        blocks.push(Block::Heading(say!("report-what-to-do").to_owned()));
        blocks.push(Block::List(deeds));
    }
    blocks.push(Block::Heading(say!("report-gap-dimension-chain").to_owned()));
    blocks.push(chain(report, reader));
    blocks.extend(shims(gap, reader));
    blocks.push(Block::Small(say!(
        "report-gap-small-print",
        draws = reader::count(u64::from(gap.draws)),
        seed = gap.seed.to_string()
    )));
    Section { title: say!("report-gap-title").to_owned(), start: Start::NewPage, blocks }
}

fn views(gap: &Outcome, reader: Reader) -> Block {
    let unit = reader.unit();
    let mut table = Table::new([
        (say!("report-gap-view"), Set::Prose),
        (&say!("report-gap-from", unit), Set::Numbers),
        (&say!("report-gap-to", unit), Set::Numbers),
    ]);
    let decimals = reader.fine_decimals();
    let mut row = |what: &str, from: f64, to: f64| {
        let (from, to) = (reader.number(from, decimals), reader.number(to, decimals));
        table.row([Cell::text(what), Cell::Text(from), Cell::Text(to)]);
    };
    row(say!("report-gap-limits"), gap.limit_min_mm, gap.limit_max_mm);
    row(say!("report-gap-worst-case-every-link-at-worst"), gap.worst_min_mm, gap.worst_max_mm);
    row(say!("report-gap-root-sum-square"), gap.rss_min_mm, gap.rss_max_mm);
    row(say!("report-gap-sampled-99-73-joints"), gap.sampled_p0_135_mm, gap.sampled_p99_865_mm);
    let mut second = Table::new([
        (say!("report-gap-of-the-gap"), Set::Prose),
        (say!("report-value"), Set::Numbers),
    ]);
    let length = |mm: f64| reader.length(mm, decimals);
    let rows = [
        (say!("report-gap-nominal-gap"), length(gap.nominal_gap_mm)),
        (say!("report-gap-mean-of-gap"), length(gap.mean_gap_mm)),
        (say!("report-gap-standard-deviation"), length(gap.standard_deviation_mm)),
        (say!("report-gap-joints-below-smallest-gap"), reader::percent(gap.below_limit_fraction)),
        (say!("report-gap-joints-above-largest-gap"), reader::percent(gap.above_limit_fraction)),
        (say!("report-gap-shim-that-centres-gap-opens"), signed(gap.shim_mm, reader)),
    ];
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
        (say!("report-gap-sign"), Set::Words),
        (say!("report-gap-link"), Set::Prose),
        (&say!("report-gap-size", unit), Set::Numbers),
        (say!("report-gap-as-written"), Set::Words),
        (&say!("report-gap-std-deviation", unit), Set::Numbers),
        (say!("report-gap-share"), Set::Numbers),
    ]);
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
        return say!("report-gap-measured").to_owned();
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
        let none = say!("report-gap-no-shim-needed");
        let heading = Block::Heading(say!("report-gap-shims-on-hand").to_owned());
        return vec![heading, Block::Text(none.to_owned())];
    }
    let unit = reader.unit();
    let mut table = Table::new([
        (say!("report-verdict"), Set::Words),
        (&say!("report-gap-pieces", unit), Set::Prose),
        (&say!("report-gap-together", unit), Set::Numbers),
        (&say!("report-gap-mean", unit), Set::Numbers),
        (say!("report-gap-outside"), Set::Numbers),
    ]);
    let decimals = reader.workshop_decimals();
    for set in gap.shims_on_hand.iter().take(MOST_SHIM_SETS) {
        let each: Vec<_> =
            set.pieces_mm.iter().map(|mm| reader.exact_number(*mm, decimals)).collect();
        let each =
            if each.is_empty() { say!("report-gap-none").to_owned() } else { each.join(" + ") };
        table.row([
            Cell::Verdict(set.verdict),
            Cell::Text(each),
            Cell::Text(reader.number(set.thickness_mm, decimals)),
            Cell::Text(reader.number(set.mean_gap_mm, decimals)),
            Cell::Text(reader::percent(set.outside_limit_fraction)),
        ]);
    }
    let mut blocks = vec![
        Block::Heading(say!("report-gap-shims-on-hand").to_owned()),
        Block::Tables(vec![table]),
    ];
    let more = gap.shims_on_hand.len().saturating_sub(MOST_SHIM_SETS);
    if more > 0 {
        blocks.push(Block::Small(say!("report-gap-further-sets-not-listed", more)));
    }
    blocks
}
