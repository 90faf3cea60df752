//! The sampled seal gap against its limits, with the spans of the other views beneath it, and each
//! link's share of the variance.

use ringtrue_seal::gap_stack::{LinkOutcome, Outcome};
use ringtrue_words::say;

use super::axis::Axis;
use super::hatch;
use super::style;
use super::svg::{Anchor, Canvas, Pen, Point};
use super::{Drawing, text_width};
use crate::reader::{self, Reader};

const LEFT: f64 = 3.0;
const RIGHT: f64 = 87.0;
const TOP: f64 = 11.0;
const BASE: f64 = 45.0;
/// Bars that still show as bars at 9 cm.
const MOST_BARS: usize = 60;

/// Histogram, limits and spans.
pub(crate) fn draw(name: &str, outcome: &Outcome, reader: Reader) -> Drawing {
    let mut canvas = Canvas::new(style::WIDTH, 89.0);
    let x = gap_axis(outcome, reader);
    closed_zones(&mut canvas, &x, outcome, reader);
    bars(&mut canvas, &x, outcome, reader);
    limits(&mut canvas, &x, outcome, reader);
    nominal(&mut canvas, &x, outcome, reader);
    scale(&mut canvas, &x, reader);
    let spans = [
        (say!("figure-gap-worst-case"), outcome.worst_min_mm, outcome.worst_max_mm),
        (say!("figure-gap-root-sum-square"), outcome.rss_min_mm, outcome.rss_max_mm),
        (say!("figure-gap-sampled"), outcome.sampled_p0_135_mm, outcome.sampled_p99_865_mm),
    ];
    for (i, (name, low, high)) in spans.into_iter().enumerate() {
        let y = 67.0 + 8.2 * i as f64;
        bracket(&mut canvas, &x, &Span { name, low, high, y }, reader);
    }
    let title = say!("figure-gap-title").to_owned();
    Drawing::new(name.to_owned(), title, in_words(outcome, reader), (style::WIDTH, canvas))
}

fn gap_axis(outcome: &Outcome, reader: Reader) -> Axis {
    let ends = [
        outcome.worst_min_mm,
        outcome.worst_max_mm,
        outcome.limit_min_mm,
        outcome.limit_max_mm,
        outcome.sampled_p0_135_mm,
        outcome.sampled_p99_865_mm,
        outcome.nominal_gap_mm,
    ];
    let low = ends.into_iter().fold(f64::INFINITY, f64::min);
    let high = ends.into_iter().fold(f64::NEG_INFINITY, f64::max);
    let pad = (high - low) * 0.06;
    Axis::new((reader.of_mm(low - pad), LEFT), (reader.of_mm(high + pad), RIGHT))
}

fn closed_zones(canvas: &mut Canvas, x: &Axis, outcome: &Outcome, reader: Reader) {
    let low = x.within(reader.of_mm(outcome.limit_min_mm));
    let high = x.within(reader.of_mm(outcome.limit_max_mm));
    for (from, to) in [(LEFT, low), (high, RIGHT)] {
        if to - from > 0.01 {
            let zone = [(from, TOP), (to, TOP), (to, BASE), (from, BASE)];
            canvas.polygon(&zone, style::METAL, None);
            hatch::lines(canvas, &zone, 1.8, Pen::new(0.1, style::FAINT));
        }
    }
}

fn bars(canvas: &mut Canvas, x: &Axis, outcome: &Outcome, reader: Reader) {
    let histogram = &outcome.histogram;
    let wide = histogram.bin_mm;
    if !(wide > 0.0 && wide.is_finite()) || histogram.counts.is_empty() {
        // All draws at one value.
        let at = x.within(reader.of_mm(outcome.mean_gap_mm));
        canvas.line((at, BASE), (at, TOP + 3.0), Pen::new(1.0, style::ACCENT));
        return;
    }
    let together = histogram.counts.len().div_ceil(MOST_BARS).max(1);
    let bars: Vec<f64> = histogram
        .counts
        .chunks(together)
        .map(|bins| bins.iter().map(|n| f64::from(*n)).sum::<f64>() / bins.len() as f64)
        .collect();
    let most = bars.iter().copied().fold(0.0, f64::max);
    if most <= 0.0 {
        return;
    }
    for (i, count) in bars.iter().enumerate().filter(|(_, count)| **count > 0.0) {
        let bin = |edge: usize| {
            let edge = (edge * together).min(histogram.counts.len());
            x.within(reader.of_mm(histogram.from_mm + edge as f64 * wide))
        };
        let (left, right) = (bin(i), bin(i + 1));
        let high = (BASE - TOP - 3.0) * count / most;
        let corner = (left, BASE - high);
        let pen = Pen::new(0.16, style::ACCENT);
        canvas.rectangle(corner, (right - left, high), (style::TINT, Some(pen)));
    }
}

fn limits(canvas: &mut Canvas, x: &Axis, outcome: &Outcome, reader: Reader) {
    let kind = style::LABEL.bold();
    let decimals = reader.workshop_decimals();
    let min = say!("figure-common-min", value = reader.exact(outcome.limit_min_mm, decimals));
    let max = say!("figure-common-max", value = reader.exact(outcome.limit_max_mm, decimals));
    let below = say!("figure-gap-below", share = reader::percent(outcome.below_limit_fraction));
    let above = say!("figure-gap-above", share = reader::percent(outcome.above_limit_fraction));
    let (low, high) =
        (x.at(reader.of_mm(outcome.limit_min_mm)), x.at(reader.of_mm(outcome.limit_max_mm)));
    for at in [low, high] {
        canvas.line((at, TOP - 0.6), (at, BASE), style::HEAVY);
    }
    // The two labels lean outwards where they would meet.
    let half = |text: &str| text_width::width(text, kind.size, kind.weight) / 2.0;
    let (a, b) = (half(&min).max(half(&below)), half(&max).max(half(&above)));
    let short = (a + b + 2.0 - (high - low)).max(0.0) / 2.0;
    let left = (low - short).clamp(a + 0.5, 89.5 - 2.0 * b - 2.0 - a);
    let right = (high + short).max(left + a + b + 2.0).min(89.5 - b);
    for (at, limit, outside) in [(left, &min, &below), (right, &max, &above)] {
        canvas.text((at, TOP - 5.0), limit, kind.at(Anchor::Middle));
        canvas.text((at, TOP - 1.8), outside, style::LABEL.at(Anchor::Middle));
    }
}

fn scale(canvas: &mut Canvas, x: &Axis, reader: Reader) {
    canvas.line((LEFT, BASE), (RIGHT, BASE), style::EDGE);
    for (value, text) in x.ticks(7) {
        let at = x.at(value);
        canvas.line((at, BASE), (at, BASE + 1.0), style::THIN);
        let half = text_width::width(&text, style::LABEL.size, style::LABEL.weight) / 2.0;
        let at = at.clamp(half + 0.3, 89.7 - half);
        canvas.text_over((at, BASE + 3.8), &text, style::LABEL.at(Anchor::Middle));
    }
    let words = say!("figure-gap-axis", unit = reader.unit());
    canvas.text_over((45.0, BASE + 7.2), &words, style::LABEL.at(Anchor::Middle));
}

/// The nominal gap, from the bars down to its words.
fn nominal(canvas: &mut Canvas, x: &Axis, outcome: &Outcome, reader: Reader) {
    let at = x.at(reader.of_mm(outcome.nominal_gap_mm));
    let pen = Pen::new(0.3, style::INK).dashed(1.4, 0.9);
    canvas.line((at, TOP + 1.0), (at, BASE + 10.0), pen);
    let text = say!(
        "figure-gap-nominal",
        gap = reader.length(outcome.nominal_gap_mm, reader.workshop_decimals())
    );
    let half = text_width::width(&text, style::LABEL.size, style::LABEL.weight) / 2.0;
    let middle = at.clamp(half + 0.5, 89.5 - half);
    canvas.text((middle, BASE + 13.2), &text, style::LABEL.at(Anchor::Middle));
}

/// A span beneath the scale.
struct Span {
    name: &'static str,
    low: f64,
    high: f64,
    y: f64,
}

fn bracket(canvas: &mut Canvas, x: &Axis, span: &Span, reader: Reader) {
    let Span { name, low, high, y } = *span;
    let (from, to) = (x.within(reader.of_mm(low)), x.within(reader.of_mm(high)));
    let pen = Pen::new(0.45, style::INK);
    let ends: [Point; 4] = [(from, y - 1.4), (from, y), (to, y), (to, y - 1.4)];
    canvas.polyline(&ends, pen);
    let decimals = reader.workshop_decimals();
    let numbers = say!(
        "figure-common-range",
        low = reader.number(low, decimals),
        high = reader.length(high, decimals)
    );
    let text = format!("{name}: {numbers}");
    let half = text_width::width(&text, style::LABEL.size, style::LABEL.weight) / 2.0;
    let middle = ((from + to) / 2.0).clamp(half + 0.5, 89.5 - half);
    canvas.text((middle, y + 3.4), &text, style::LABEL.at(Anchor::Middle));
}

fn in_words(outcome: &Outcome, reader: Reader) -> String {
    let decimals = reader.workshop_decimals();
    let limits = reader
        .limits(Some(outcome.limit_min_mm), Some(outcome.limit_max_mm), 0)
        .unwrap_or_default();
    say!(
        "figure-gap-alt",
        draws = reader::count(u64::from(outcome.draws)),
        limits,
        nominal = reader.length(outcome.nominal_gap_mm, decimals),
        worst_min = reader.number(outcome.worst_min_mm, decimals),
        worst_max = reader.length(outcome.worst_max_mm, decimals),
        rss_min = reader.number(outcome.rss_min_mm, decimals),
        rss_max = reader.length(outcome.rss_max_mm, decimals),
        sampled_min = reader.number(outcome.sampled_p0_135_mm, decimals),
        sampled_max = reader.length(outcome.sampled_p99_865_mm, decimals),
        outside = reader::percent(outcome.outside_limit_fraction)
    )
}

/// Links that are drawn; the rest stand together in one bar.
const MOST_LINKS: usize = 12;

/// Each link's share of the variance, the largest first.
pub(crate) fn shares(name: &str, outcome: &Outcome) -> Drawing {
    let mut links: Vec<&LinkOutcome> = outcome.links.iter().collect();
    links.sort_by(|a, b| b.share.total_cmp(&a.share));
    let shown = if links.len() > MOST_LINKS { MOST_LINKS - 1 } else { links.len() };
    let mut rows: Vec<(String, f64)> = links[..shown]
        .iter()
        .map(|link| {
            let measured = |link: &str| say!("figure-gap-measured", link);
            let name = if link.measured { measured(&link.name) } else { link.name.clone() };
            (name, link.share)
        })
        .collect();
    if links.len() > shown {
        let rest = links[shown..].iter().map(|link| link.share).sum();
        rows.push((say!("figure-gap-others", count = links.len() - shown), rest));
    }
    let height = 8.0 + 7.4 * rows.len() as f64;
    let mut canvas = Canvas::new(style::WIDTH, height);
    canvas.text((0.5, 3.2), say!("figure-gap-share"), style::LABEL);
    for (i, (link, share)) in rows.iter().enumerate() {
        share_bar(&mut canvas, 6.0 + 7.4 * i as f64, link, *share);
    }
    let told: Vec<_> =
        rows.iter().map(|(link, share)| format!("{link} {}", reader::percent(*share))).collect();
    let alt = say!("figure-gap-shares-alt", links = told.join("; "));
    let title = say!("figure-gap-shares-title").to_owned();
    Drawing::new(name.to_owned(), title, alt, (style::WIDTH, canvas))
}

fn share_bar(canvas: &mut Canvas, top: f64, link: &str, share: f64) {
    const FULL: f64 = 72.0;
    let kind = style::LABEL;
    let link = text_width::cut(link, kind.size, kind.weight, 86.0);
    canvas.text((0.5, top + 2.4), &link, kind);
    let wide = (share.clamp(0.0, 1.0) * FULL).max(0.3);
    canvas.rectangle((0.5, top + 3.3), (FULL, 2.0), (style::METAL, None));
    canvas.rectangle((0.5, top + 3.3), (wide, 2.0), (style::ACCENT, None));
    canvas.text((74.0, top + 5.3), &reader::percent(share), style::NUMBER);
}
