//! Face load over the seal gap, and of one half over its travel.
//!
//! The gap grows to the right, so the load falls to the right.

use ringtrue_metrology::units::fixed;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::face_load::{AtGap, GapLoad, HalfOutcome, JointOutcome};
use ringtrue_words::say;

use super::axis::Axis;
use super::hatch;
use super::style;
use super::svg::{Anchor, Canvas, Pen, Point};
use super::{Drawing, text_width};
use crate::reader::{COVERAGE_FACTOR, Reader};

mod places;

use places::{NOWHERE, Place, between, cut, disc_spring, gap_places, on_half};

const LEFT: f64 = 9.5;
const RIGHT: f64 = 89.0;
const TOP: f64 = 7.0;
const BASE: f64 = 60.0;
/// From one row of words to the next.
const ROW: f64 = 3.6;

/// A gap that is marked beside the three of the outcome.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Marker {
    /// The gap, mm.
    pub(crate) gap_mm: f64,
    /// What it is: `measured`.
    pub(crate) words: &'static str,
}

/// Both axes.
#[derive(Debug, Clone, Copy)]
struct Plot {
    x: Axis,
    y: Axis,
}

impl Plot {
    /// Axes from one end of x to the other, over everything that is shown.
    fn new(ends: (f64, f64), shown: &[Place], limits: [Option<f64>; 2]) -> Self {
        let highest = shown
            .iter()
            .map(|place| place.load + place.expanded)
            .chain(limits.into_iter().flatten())
            .fold(0.0, f64::max);
        Self {
            x: Axis::new((ends.0, LEFT), (ends.1, RIGHT)),
            // Room for a value above the highest bar.
            y: Axis::new((0.0, BASE), (highest * 1.16, TOP)),
        }
    }

    fn at(&self, place: &Place) -> Point {
        (self.x.at(place.x), self.y.at(place.load))
    }
}

/// Face load over the gap, with its limits and those of the gap; `None` where there is no curve.
pub(crate) fn gap(
    name: &str,
    joint: &JointOutcome,
    markers: &[Marker],
    reader: Reader,
) -> Option<Drawing> {
    let at_gap = reached(&joint.at_gap);
    let curve = gap_places(joint, reader);
    let (first, last) = (curve.first()?, curve.last()?);
    let gaps = || at_gap.iter().map(|(_, load)| reader.of_mm(load.gap_mm));
    let low = gaps().fold(f64::INFINITY, f64::min);
    let high = gaps().fold(f64::NEG_INFINITY, f64::max);
    if !low.is_finite() || last.x - first.x <= 0.0 {
        return None;
    }
    let span = (high - low).max((last.x - first.x) * 0.04);
    // The curve ends at the smallest gap: to its left there is room for a value, and no more.
    let ends = (low - 0.3 * span, (high + 0.7 * span).min(last.x.max(high + 0.3 * span)));
    let shown = cut(&curve, ends.1);
    let plot = Plot::new(ends, &shown, limits(joint, reader));
    let mut canvas = Canvas::new(style::WIDTH, 102.0);
    let diameter = format!("Ø {}", reader.exact(joint.band_mean_diameter_mm, 1));
    frame(&mut canvas, &plot, &diameter, reader);
    load_limits(&mut canvas, &plot, joint, reader);
    curve_with_band(&mut canvas, &plot, &shown);
    x_axis(&mut canvas, &plot.x, (BASE, 7), &say!("figure-load-axis-gap", unit = reader.unit()));
    let span = [joint.at_gap.max, joint.at_gap.min].map(|load| load.map(|load| load.gap_mm));
    bracket(&mut canvas, &plot.x, (say!("figure-load-gap-limits"), span), reader);
    limit_words(&mut canvas, &plot, (joint, Falls::Right), reader);
    for (row, marker) in markers.iter().enumerate() {
        mark(&mut canvas, &plot, (&curve, *marker, row), (joint, reader));
    }
    points(&mut canvas, &plot, &at_gap, reader);
    overview(&mut canvas, (&curve, markers), (&plot, ends), reader);
    let title = say!("figure-load-title").to_owned();
    let alt = gap_in_words(joint, markers, reader);
    Some(Drawing::new(name.to_owned(), title, alt, (style::WIDTH, canvas)))
}

/// Face load over the gap of a joint, and of the same joint with something changed: the changed one
/// as a broken line; `None` where either has no curve.
pub(crate) fn compared(
    name: &str,
    [own, changed]: [&JointOutcome; 2],
    reader: Reader,
) -> Option<Drawing> {
    let (curve, other) = (gap_places(own, reader), gap_places(changed, reader));
    let start = curve.first()?.x.min(other.first()?.x);
    let end = curve.last()?.x.max(other.last()?.x);
    let span = end - start;
    if span <= 0.0 {
        return None;
    }
    let ends = (start - 0.06 * span, end);
    let all: Vec<Place> = curve.iter().chain(&other).copied().collect();
    let plot = Plot::new(ends, &all, limits(own, reader));
    let mut canvas = Canvas::new(style::WIDTH, 79.0);
    let diameter = format!("Ø {}", reader.exact(own.band_mean_diameter_mm, 1));
    frame(&mut canvas, &plot, &diameter, reader);
    load_limits(&mut canvas, &plot, own, reader);
    curve_with_band(&mut canvas, &plot, &curve);
    changed_curve(&mut canvas, &plot, &other);
    x_axis(&mut canvas, &plot.x, (BASE, 8), &say!("figure-load-axis-gap", unit = reader.unit()));
    let gaps = [own.at_gap.max, own.at_gap.min].map(|load| load.map(|load| load.gap_mm));
    bracket(&mut canvas, &plot.x, (say!("figure-load-gap-limits"), gaps), reader);
    limit_words(&mut canvas, &plot, (own, Falls::Right), reader);
    let words = say!("figure-load-with-change");
    canvas.text((89.5, BASE + 17.2), words, style::SMALL.at(Anchor::End));
    let title = say!("figure-load-title-change").to_owned();
    let alt = format!("{title}. {}", gap_in_words(own, &[], reader));
    Some(Drawing::new(name.to_owned(), title, alt, (style::WIDTH, canvas)))
}

/// Face load at a gap between the points of the curve, by straight lines; `None` without a curve.
pub(crate) fn load_at(joint: &JointOutcome, gap_mm: f64) -> Option<f64> {
    let mut places: Vec<Place> = joint
        .curve
        .iter()
        .map(|point| Place { x: point.gap_mm, load: point.face_load_n_per_mm, ..NOWHERE })
        .collect();
    places.sort_by(|a, b| a.x.total_cmp(&b.x));
    between(&places, gap_mm).map(|place| place.load)
}

/// Load of one half over its travel; `None` where there is no curve.
pub(crate) fn half(
    (name, whose): (&str, &str),
    half: &HalfOutcome,
    joint: &JointOutcome,
    reader: Reader,
) -> Option<Drawing> {
    let curve: Vec<Place> = half.curve.iter().map(|point| on_half(point, reader)).collect();
    let end = curve.last().filter(|last| last.x > 0.0)?.x;
    let beside = disc_spring(half, reader);
    let shown: Vec<Place> = curve.iter().chain(&beside).copied().collect();
    let plot = Plot::new((0.0, end * 1.04), &shown, limits(joint, reader));
    let mut canvas = Canvas::new(style::WIDTH, 79.0);
    frame(&mut canvas, &plot, whose, reader);
    load_limits(&mut canvas, &plot, joint, reader);
    curve_with_band(&mut canvas, &plot, &curve);
    if !beside.is_empty() {
        let line: Vec<Point> = beside.iter().map(|place| plot.at(place)).collect();
        canvas.polyline(&line, Pen::new(0.45, style::INK).dashed(1.8, 1.0));
        let words = say!("figure-load-disc-spring");
        canvas.text((89.5, BASE + 17.2), words, style::SMALL.at(Anchor::End));
    }
    let words = say!("figure-load-axis-travel", unit = reader.unit());
    x_axis(&mut canvas, &plot.x, (BASE, 8), &words);
    let travel = |load: Option<GapLoad>| load.map(|load| travel_of(half.half, &load));
    let span = [travel(joint.at_gap.max), travel(joint.at_gap.min)];
    bracket(&mut canvas, &plot.x, (say!("figure-load-over-gap-limits"), span), reader);
    limit_words(&mut canvas, &plot, (joint, Falls::Left), reader);
    if let Some(place) =
        travel(joint.at_gap.nominal).and_then(|travel| between(&curve, reader.of_mm(travel)))
    {
        dot(&mut canvas, &plot, &place);
        let (x, y) = plot.at(&Place { load: place.load + place.expanded, ..place });
        let half = text_width::width(
            say!("figure-load-nominal-gap"),
            style::LABEL.size,
            style::LABEL.weight,
        );
        let at = ((x - 1.0).max(LEFT + half + 1.0), y - 1.6);
        canvas.text_over(at, say!("figure-load-nominal-gap"), style::LABEL.at(Anchor::End));
    }
    let alt = half_in_words(whose, half, joint, reader);
    let title = say!("figure-load-title-half", whose);
    Some(Drawing::new(name.to_owned(), title, alt, (style::WIDTH, canvas)))
}

/// One of the three gaps.
#[derive(Debug, Clone, Copy)]
enum Gap {
    Smallest,
    Nominal,
    Largest,
}

impl Gap {
    /// In a word.
    fn word(self) -> &'static str {
        match self {
            Self::Smallest => say!("figure-load-smallest"),
            Self::Nominal => say!("figure-load-nominal"),
            Self::Largest => say!("figure-load-largest"),
        }
    }

    /// The load at it.
    fn told(self, load: &str, gap: &str) -> String {
        match self {
            Self::Smallest => say!("figure-load-at-smallest-gap", load, gap),
            Self::Nominal => say!("figure-load-at-nominal-gap", load, gap),
            Self::Largest => say!("figure-load-at-largest-gap", load, gap),
        }
    }
}

/// The gaps that the curve reaches.
fn reached(at_gap: &AtGap) -> Vec<(Gap, GapLoad)> {
    let all =
        [(Gap::Smallest, at_gap.min), (Gap::Nominal, at_gap.nominal), (Gap::Largest, at_gap.max)];
    all.into_iter().filter_map(|(which, load)| Some((which, load?))).collect()
}

/// Travel of a half at a gap, mm.
pub(crate) fn travel_of(half: Half, load: &GapLoad) -> f64 {
    match half {
        Half::A => load.travel_a_mm,
        Half::B => load.travel_b_mm,
    }
}

fn limits(joint: &JointOutcome, reader: Reader) -> [Option<f64>; 2] {
    [joint.face_load_min_n_per_mm, joint.face_load_max_n_per_mm]
        .map(|limit| limit.map(|limit| reader.line_loads().of_mm(limit)))
}

/// The y axis with its numbers and words; on the right, whose curve or at which diameter.
fn frame(canvas: &mut Canvas, plot: &Plot, right: &str, reader: Reader) {
    let unit = reader.line_loads().unit();
    let words = say!("figure-load-axis-load", unit);
    canvas.text((0.5, 3.2), &words, style::LABEL);
    let wide = text_width::width(&words, style::LABEL.size, style::LABEL.weight);
    let room = 86.0 - wide;
    let right = text_width::cut(right, style::LABEL.size, style::LABEL.bold().weight, room);
    canvas.text((89.5, 3.2), &right, style::LABEL.bold().at(Anchor::End));
    for (value, text) in plot.y.ticks(6) {
        let y = plot.y.at(value);
        canvas.line((LEFT - 1.0, y), (LEFT, y), style::THIN);
        canvas.text((LEFT - 1.4, y + 0.9), &text, style::LABEL.at(Anchor::End));
    }
    canvas.line((LEFT, TOP), (LEFT, BASE), style::EDGE);
}

fn x_axis(canvas: &mut Canvas, axis: &Axis, (base, most): (f64, u32), words: &str) {
    canvas.line((LEFT, base), (RIGHT, base), style::EDGE);
    for (value, text) in axis.ticks(most) {
        let x = axis.at(value);
        canvas.line((x, base), (x, base + 1.0), style::THIN);
        let half = text_width::width(&text, style::LABEL.size, style::LABEL.weight) / 2.0;
        let x = x.clamp(half + 0.3, 89.7 - half);
        canvas.text((x, base + 3.8), &text, style::LABEL.at(Anchor::Middle));
    }
    canvas.text((45.0, base + 7.4), words, style::LABEL.at(Anchor::Middle));
}

/// Which way the load falls: limits are written where the curve is not.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Falls {
    Left,
    Right,
}

/// What lies outside the limits, hatched.
fn load_limits(canvas: &mut Canvas, plot: &Plot, joint: &JointOutcome, reader: Reader) {
    let [low, high] = limits(joint, reader).map(|limit| limit.map(|limit| plot.y.within(limit)));
    for (from, to) in [(low, Some(BASE)), (Some(TOP), high)] {
        let (Some(from), Some(to)) = (from, to) else { continue };
        let zone = [(LEFT, from), (RIGHT, from), (RIGHT, to), (LEFT, to)];
        canvas.polygon(&zone, style::METAL, None);
        hatch::lines(canvas, &zone, 1.8, Pen::new(0.1, style::FAINT));
    }
}

/// The limits' lines and words, clear of what stands behind them.
fn limit_words(
    canvas: &mut Canvas,
    plot: &Plot,
    (joint, falls): (&JointOutcome, Falls),
    reader: Reader,
) {
    let [low, high] = limits(joint, reader).map(|limit| limit.map(|limit| plot.y.within(limit)));
    let loads = reader.line_loads();
    let exact = |limit: f64| loads.exact(limit, 1);
    let min = joint.face_load_min_n_per_mm.map(|min| say!("figure-common-min", value = exact(min)));
    let max = joint.face_load_max_n_per_mm.map(|max| say!("figure-common-max", value = exact(max)));
    let (left, right) = ((LEFT + 0.8, Anchor::Start), (RIGHT - 0.5, Anchor::End));
    let (of_min, of_max) = match falls {
        Falls::Right => (left, right),
        Falls::Left => (right, left),
    };
    let rows = [
        (low, 3.1, of_min, min.unwrap_or_default()),
        (high, -1.2, of_max, max.unwrap_or_default()),
    ];
    for (y, off, (x, anchor), text) in rows {
        let Some(y) = y else { continue };
        canvas.line((LEFT, y), (RIGHT, y), style::HEAVY);
        canvas.text_over((x, y + off), &text, style::LABEL.bold().at(anchor));
    }
}

/// The curve with its band of expanded uncertainty, and in it that of the computation alone.
fn curve_with_band(canvas: &mut Canvas, plot: &Plot, curve: &[Place]) {
    let band = |wide: fn(&Place) -> f64| -> Vec<Point> {
        let shifted = |place: &Place, by: f64| {
            plot.at(&Place { load: (place.load + by * wide(place)).max(0.0), ..*place })
        };
        let upper = curve.iter().map(|place| shifted(place, 1.0));
        let lower = curve.iter().rev().map(|place| shifted(place, -1.0));
        upper.chain(lower).collect()
    };
    let pen = Some(Pen::new(0.16, style::ACCENT));
    canvas.polygon(&band(|place| place.expanded), style::TINT, pen);
    if curve.iter().any(|place| place.computed > 0.0) {
        canvas.polygon(&band(|place| place.computed), style::ACCENT, None);
    }
    let line: Vec<Point> = curve.iter().map(|place| plot.at(place)).collect();
    canvas.polyline(&line, Pen::new(0.6, style::ACCENT));
}

/// The curve of a change as a broken line, its band of expanded uncertainty between two thin ones.
fn changed_curve(canvas: &mut Canvas, plot: &Plot, curve: &[Place]) {
    let at = |by: f64| -> Vec<Point> {
        let shifted =
            |place: &Place| Place { load: (place.load + by * place.expanded).max(0.0), ..*place };
        curve.iter().map(|place| plot.at(&shifted(place))).collect()
    };
    for by in [1.0, -1.0] {
        canvas.polyline(&at(by), Pen::new(0.2, style::INK).dashed(0.8, 0.8));
    }
    canvas.polyline(&at(0.0), Pen::new(0.5, style::INK).dashed(1.8, 1.0));
}

/// A span under the axis, dashed up into the plot: from the largest gap to the smallest.
fn bracket(
    canvas: &mut Canvas,
    axis: &Axis,
    (name, span): (&str, [Option<f64>; 2]),
    reader: Reader,
) {
    let [Some(at_largest), Some(at_smallest)] = span else { return };
    let (low, high) = (at_largest.min(at_smallest), at_largest.max(at_smallest));
    let (from, to) = (axis.within(reader.of_mm(low)), axis.within(reader.of_mm(high)));
    for x in [from, to] {
        canvas.line((x, TOP), (x, BASE), Pen::new(0.25, style::INK).dashed(1.4, 0.9));
    }
    let y = BASE + 10.6;
    let pen = Pen::new(0.45, style::INK);
    canvas.polyline(&[(from, y - 1.4), (from, y), (to, y), (to, y - 1.4)], pen);
    let decimals = reader.workshop_decimals();
    let numbers = say!(
        "figure-common-range",
        low = reader.number(low, decimals),
        high = reader.length(high, decimals)
    );
    let text = format!("{name}: {numbers}");
    let half = text_width::width(&text, style::LABEL.size, style::LABEL.weight) / 2.0;
    let middle = f64::midpoint(from, to).clamp(half + 0.5, 89.5 - half);
    canvas.text((middle, y + 3.4), &text, style::LABEL.at(Anchor::Middle));
}

/// A load with its bar of expanded uncertainty.
fn dot(canvas: &mut Canvas, plot: &Plot, place: &Place) {
    let (x, y) = plot.at(place);
    let ends = [1.0, -1.0].map(|by| {
        plot.at(&Place { load: (place.load + by * place.expanded).max(0.0), ..*place }).1
    });
    if ends[1] - ends[0] > 0.1 {
        canvas.line((x, ends[0]), (x, ends[1]), Pen::new(0.5, style::INK));
        for y in ends {
            canvas.line((x - 1.1, y), (x + 1.1, y), Pen::new(0.4, style::INK));
        }
    }
    canvas.circle((x, y), 1.1, (style::INK, Some(Pen::new(0.4, style::PAPER))));
}

/// The three gaps with their values above their bars, each clear of the next.
fn points(canvas: &mut Canvas, plot: &Plot, at_gap: &[(Gap, GapLoad)], reader: Reader) {
    let loads = reader.line_loads();
    let mut labels: Vec<(Place, &str, String, f64)> = at_gap
        .iter()
        .map(|(which, load)| {
            let name = which.word();
            let u = load.standard_uncertainty_n_per_mm;
            let place = Place {
                x: reader.of_mm(load.gap_mm),
                load: loads.of_mm(load.face_load_n_per_mm),
                expanded: loads.of_mm(u * COVERAGE_FACTOR),
                computed: 0.0,
            };
            let decimals = loads.decimals(Some(u));
            let value = format!(
                "{} ± {}",
                loads.number(load.face_load_n_per_mm, decimals),
                loads.number(u * COVERAGE_FACTOR, decimals)
            );
            let wide = text_width::width(&value, style::NUMBER.size, style::NUMBER.weight)
                .max(text_width::width(name, style::SMALL.size, style::SMALL.weight));
            (place, name, value, wide)
        })
        .collect();
    labels.sort_by(|a, b| a.0.x.total_cmp(&b.0.x));
    let mut left = LEFT + 0.6;
    let mut rest: f64 = labels.iter().map(|label| label.3 + 2.0).sum();
    for (place, name, value, wide) in &labels {
        dot(canvas, plot, place);
        let highest = plot.at(&Place { load: place.load + place.expanded, ..*place });
        // Not so far right that the others find no room.
        let middle =
            highest.0.clamp(left + wide / 2.0, (RIGHT - rest + wide / 2.0).max(left + wide / 2.0));
        let y = (highest.1 - 1.8).max(TOP + 5.2);
        canvas.text_over((middle, y), value, style::NUMBER.at(Anchor::Middle));
        canvas.text_over((middle, y - 3.0), name, style::SMALL.at(Anchor::Middle));
        left = middle + wide / 2.0 + 2.0;
        rest -= wide + 2.0;
    }
}

/// A marked gap on the curve; each further one has its words a row higher.
fn mark(
    canvas: &mut Canvas,
    plot: &Plot,
    (curve, marker, row): (&[Place], Marker, usize),
    (joint, reader): (&JointOutcome, Reader),
) {
    let gap = reader.of_mm(marker.gap_mm);
    let x = plot.x.at(gap);
    let Some(place) = between(curve, gap) else { return };
    if !(LEFT..=RIGHT).contains(&x) {
        return;
    }
    let (x, y) = plot.at(&place);
    canvas.line((x, y), (x, BASE), Pen::new(0.45, style::ACCENT));
    let lozenge = [(x, y - 1.7), (x + 1.5, y), (x, y + 1.7), (x - 1.5, y)];
    canvas.polygon(&lozenge, style::PAPER, Some(Pen::new(0.5, style::ACCENT)));
    let text =
        format!("{} {}", marker.words, reader.length(marker.gap_mm, reader.workshop_decimals()));
    let half = text_width::width(&text, style::LABEL.size, style::LABEL.weight) / 2.0;
    // Beside its line: the bar of the nominal gap often stands at the same place.
    let middle = (x + half + 1.2).clamp(LEFT + half + 1.0, RIGHT - half - 1.0);
    // Below the lower limit's words as far as there is room, and over its line from there on.
    let low = limits(joint, reader)[0].map_or(BASE, |low| plot.y.within(low));
    let (row, lowest) = (row as f64, BASE - 1.6);
    let rows_below = (((lowest - low - 5.5) / ROW).floor() + 1.0).max(0.0);
    let y =
        if row < rows_below { lowest - ROW * row } else { low - 1.6 - ROW * (row - rows_below) };
    canvas.text_over((middle, y), &text, style::LABEL.at(Anchor::Middle));
}

/// The whole curve from the first touch, and the part that is shown above.
fn overview(
    canvas: &mut Canvas,
    (curve, markers): (&[Place], &[Marker]),
    (plot, ends): (&Plot, (f64, f64)),
    reader: Reader,
) {
    const HIGH: f64 = 82.0;
    const FOOT: f64 = 94.0;
    let (Some(first), Some(last)) = (curve.first(), curve.last()) else { return };
    let highest = curve.iter().map(|place| place.load).fold(0.0, f64::max);
    let x = Axis::new((first.x.min(0.0), LEFT), (last.x * 1.02, RIGHT));
    let y = Axis::new((0.0, FOOT), (highest, HIGH));
    let (left, right) = (x.within(ends.0), x.within(ends.1));
    let frame = [(left, HIGH - 1.0), (right, HIGH - 1.0), (right, FOOT), (left, FOOT)];
    canvas.polygon(&frame, style::METAL, Some(Pen::new(0.25, style::INK)));
    for (corner, edge) in [(left, plot.x.at(ends.0)), (right, plot.x.at(ends.1))] {
        let thin = Pen::new(0.12, style::MUTED);
        canvas.line((corner, HIGH - 1.0), (edge, BASE + 15.2), thin);
    }
    let line: Vec<Point> = curve.iter().map(|place| (x.at(place.x), y.at(place.load))).collect();
    canvas.polyline(&line, Pen::new(0.6, style::ACCENT));
    for marker in markers {
        let Some(place) = between(curve, reader.of_mm(marker.gap_mm)) else { continue };
        let (at, load) = (x.within(place.x), y.at(place.load));
        let lozenge = [(at, load - 1.3), (at + 1.1, load), (at, load + 1.3), (at - 1.1, load)];
        canvas.line((at, load), (at, FOOT), Pen::new(0.35, style::ACCENT));
        canvas.polygon(&lozenge, style::PAPER, Some(Pen::new(0.4, style::ACCENT)));
    }
    canvas.line((LEFT, FOOT), (RIGHT, FOOT), style::EDGE);
    for (value, text) in x.ticks(8) {
        let at = x.at(value);
        canvas.line((at, FOOT), (at, FOOT + 1.0), style::THIN);
        let half = text_width::width(&text, style::SMALL.size, style::SMALL.weight) / 2.0;
        let at = at.clamp(half + 0.3, 89.7 - half);
        canvas.text((at, FOOT + 3.6), &text, style::SMALL.at(Anchor::Middle));
    }
    let touch = fixed(last.x, reader.workshop_decimals());
    let words = say!("figure-load-whole-curve", touch, unit = reader.unit());
    canvas.text((RIGHT, FOOT + 7.0), &words, style::LABEL.at(Anchor::End));
}

fn gap_in_words(joint: &JointOutcome, markers: &[Marker], reader: Reader) -> String {
    let loads = reader.line_loads();
    let decimals = reader.workshop_decimals();
    let told: Vec<String> = reached(&joint.at_gap)
        .iter()
        .map(|(which, load)| {
            let u = load.standard_uncertainty_n_per_mm;
            let gap = reader.length(load.gap_mm, decimals);
            which.told(&loads.uncertain(load.face_load_n_per_mm, Some(u)), &gap)
        })
        .collect();
    let limits =
        loads.limits(joint.face_load_min_n_per_mm, joint.face_load_max_n_per_mm, 1).map_or_else(
            || say!("figure-load-no-limits").to_owned(),
            |limits| say!("figure-load-limits", limits),
        );
    let marked =
        markers.iter().map(|at| format!("{} {}", at.words, reader.length(at.gap_mm, decimals)));
    let told: Vec<String> = [told.join("; "), limits].into_iter().chain(marked).collect();
    let diameter = reader.exact(joint.band_mean_diameter_mm, 1);
    say!("figure-load-alt", diameter, loads = told.join("; "))
}

fn half_in_words(whose: &str, half: &HalfOutcome, joint: &JointOutcome, reader: Reader) -> String {
    let length = |mm: f64| reader.length(mm, reader.workshop_decimals());
    let Some(last) = half.curve.last() else {
        return say!("figure-load-alt-half", whose);
    };
    let u = last.standard_uncertainty_n_per_mm;
    let load = reader.line_loads().uncertain(last.face_load_n_per_mm, Some(u));
    let travel = length(last.travel_mm);
    match joint.at_gap.nominal {
        Some(nominal) => {
            let nominal = length(travel_of(half.half, &nominal));
            say!("figure-load-alt-half-nominal", whose, load, travel, nominal)
        }
        None => say!("figure-load-alt-half-end", whose, load, travel),
    }
}
