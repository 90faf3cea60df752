//! A study of the mechanics: computed lines, reference points with both error bands.

use ringtrue_seal::validation::study::{Point as Reference, Scale, ScaleKind, Series, Study};

use super::axis::Axis;
use super::svg::{Anchor, Canvas, Pen, Point};
use super::{Drawing, style, text_width};

const LEFT: f64 = 13.5;
const RIGHT: f64 = 88.0;
const TOP: f64 = 7.0;
const BASE: f64 = 52.0;
/// The strip of deviations under the plot.
const STRIP_TOP: f64 = 60.5;
const STRIP_BASE: f64 = 74.5;
/// Height of a line of the key under the plot.
const ROW: f64 = 4.0;

/// The plot of a study; under it, how far the computed lies from each reference point.
pub(crate) fn draw(study: &Study) -> Drawing {
    let plot = Plot::new(study);
    let rows = key_rows(study);
    let strip = deviations(study);
    let base = if strip.is_empty() { BASE } else { STRIP_BASE };
    let size = (style::WIDTH, base + 9.6 + ROW * rows.len() as f64 + 1.2);
    let mut canvas = Canvas::new(size.0, size.1);
    // It stands on a page of its own, whose ground may be dark.
    canvas.rectangle((0.0, 0.0), size, (style::PAPER, None));
    frame(&mut canvas, &plot, study);
    for (index, series) in study.series.iter().enumerate() {
        let line: Vec<Point> = series.line.iter().map(|[x, y]| plot.at(*x, *y)).collect();
        if !line.is_empty() {
            canvas.polyline(&line, pen(index));
        }
    }
    for (index, series) in study.series.iter().enumerate() {
        for point in &series.points {
            match plot.shown(point) {
                Some(at) => {
                    bar(&mut canvas, &plot, point);
                    marker(&mut canvas, at, index);
                }
                None => allowed(&mut canvas, &plot, point),
            }
        }
    }
    if !strip.is_empty() {
        deviation_strip(&mut canvas, &plot.x, &strip);
    }
    let middle = f64::midpoint(LEFT, RIGHT);
    canvas.text((middle, base + 7.4), &named(&study.x), style::LABEL.at(Anchor::Middle));
    for (number, row) in rows.iter().enumerate() {
        key(&mut canvas, row, base + 12.0 + ROW * number as f64);
    }
    let alt = in_words(study);
    Drawing::new(study.name.clone(), study.title.clone(), alt, (style::WIDTH, canvas))
}

/// A deviation from a reference point, percent.
struct Deviation {
    series: usize,
    at: f64,
    percent: f64,
    allowed: f64,
}

/// Deviations of the points that are not expected to vanish.
fn deviations(study: &Study) -> Vec<Deviation> {
    let mut all = Vec::new();
    for (series, one) in study.series.iter().enumerate() {
        for point in one.points.iter().filter(|point| point.expected != 0.0) {
            let size = point.expected.abs();
            all.push(Deviation {
                series,
                at: point.at,
                percent: 100.0 * (point.computed - point.expected) / size,
                allowed: 100.0 * (point.theirs + point.ours) / size,
            });
        }
    }
    all
}

fn deviation_strip(canvas: &mut Canvas, x: &Measured, strip: &[Deviation]) {
    // Near zero a percentage grows without limit; what is cut off stands in the table.
    let most = strip.iter().map(|d| d.allowed.max(d.percent.abs())).fold(0.0, f64::max).min(40.0);
    let y = Axis::new((-1.08 * most, STRIP_BASE), (1.08 * most, STRIP_TOP));
    for (value, text) in y.ticks(5) {
        let at = y.at(value);
        canvas.line((LEFT, at), (RIGHT, at), Pen::new(0.1, style::FAINT));
        canvas.text((LEFT - 1.2, at + 0.9), &text, style::LABEL.at(Anchor::End));
    }
    canvas.line((LEFT, y.at(0.0)), (RIGHT, y.at(0.0)), style::THIN);
    canvas.line((LEFT, STRIP_TOP), (LEFT, STRIP_BASE), style::EDGE);
    canvas.line((LEFT, STRIP_BASE), (RIGHT, STRIP_BASE), style::EDGE);
    across(canvas, x, STRIP_BASE);
    let words = "computed less reference, % (bars: both bands added)";
    canvas.text((LEFT, STRIP_TOP - 1.4), words, style::SMALL);
    for one in strip {
        let at = x.at(one.at);
        bracket(canvas, at, [y.within(one.allowed), y.within(-one.allowed)]);
    }
    for one in strip {
        marker(canvas, (x.at(one.at), y.within(one.percent)), one.series);
    }
}

/// An axis that may go by factors.
struct Measured {
    kind: ScaleKind,
    axis: Axis,
    low: f64,
    high: f64,
}

impl Measured {
    fn new(kind: ScaleKind, (low, high): (f64, f64), ends: (f64, f64)) -> Self {
        match kind {
            ScaleKind::Linear => {
                let span = high - low;
                // From zero, unless that would waste half the drawing.
                let zero = low > 0.0 && low < 0.5 * high;
                let (low, high) = (if zero { 0.0 } else { low - 0.04 * span }, high + 0.04 * span);
                Self { kind, axis: Axis::new((low, ends.0), (high, ends.1)), low, high }
            }
            ScaleKind::Logarithmic => {
                let (low, high) = (low / 1.3, high * 1.3);
                let axis = Axis::new((libm::log10(low), ends.0), (libm::log10(high), ends.1));
                Self { kind, axis, low, high }
            }
        }
    }

    fn at(&self, value: f64) -> f64 {
        match self.kind {
            ScaleKind::Linear => self.axis.within(value),
            ScaleKind::Logarithmic => self.axis.within(libm::log10(value.max(self.low))),
        }
    }

    fn ticks(&self, most: u32) -> Vec<(f64, String)> {
        match self.kind {
            ScaleKind::Linear => self.axis.ticks(most),
            ScaleKind::Logarithmic => {
                let decades = libm::log10(self.high / self.low);
                let leads: &[f64] = if decades < 2.5 { &[1.0, 2.0, 5.0] } else { &[1.0] };
                let every = libm::ceil(decades / f64::from(most)).max(1.0) as i32;
                let first = libm::floor(libm::log10(self.low)) as i32;
                let last = libm::ceil(libm::log10(self.high)) as i32;
                (first..=last)
                    .filter(|power| power % every == 0)
                    .flat_map(|power| leads.iter().map(move |lead| (*lead, power)))
                    .map(|(lead, power)| (lead * libm::pow(10.0, f64::from(power)), lead, power))
                    .filter(|(value, ..)| (self.low..=self.high).contains(value))
                    .map(|(value, lead, power)| (value, power_text(lead, power)))
                    .collect()
            }
        }
    }
}

/// `0.02`, `500`, or `1e-8`.
fn power_text(lead: f64, power: i32) -> String {
    match power {
        -3..=-1 => format!("{:.1$}", lead * libm::pow(10.0, f64::from(power)), (-power) as usize),
        0..=4 => format!("{}", lead * libm::pow(10.0, f64::from(power))),
        power => format!("{lead}e{power}"),
    }
}

struct Plot {
    x: Measured,
    y: Measured,
}

impl Plot {
    fn new(study: &Study) -> Self {
        let lines = || study.series.iter().flat_map(|series| &series.line);
        let points = || study.series.iter().flat_map(|series| &series.points);
        let xs = lines().map(|p| p[0]).chain(points().map(|p| p.at));
        let ys = lines().map(|p| p[1]).chain(points().flat_map(|p| {
            // A point that must vanish shows what is allowed.
            let reach = p.theirs + p.ours;
            if p.expected == 0.0 { [reach, reach] } else { [p.expected, p.expected] }
        }));
        Self {
            x: Measured::new(study.x.kind, range(xs, study.x.kind), (LEFT, RIGHT)),
            y: Measured::new(study.y.kind, range(ys, study.y.kind), (BASE, TOP)),
        }
    }

    fn at(&self, x: f64, y: f64) -> Point {
        (self.x.at(x), self.y.at(y))
    }

    /// Where a reference point stands; on a logarithmic axis zero stands nowhere.
    fn shown(&self, point: &Reference) -> Option<Point> {
        let shown = point.expected > 0.0 || self.y.kind == ScaleKind::Linear;
        shown.then(|| self.at(point.at, point.expected))
    }
}

/// The span of values that an axis can show.
fn range(values: impl Iterator<Item = f64>, kind: ScaleKind) -> (f64, f64) {
    let fit = values.filter(|v| v.is_finite() && (kind == ScaleKind::Linear || *v > 0.0));
    let (low, high) = fit.fold((f64::MAX, f64::MIN), |(low, high), v| (low.min(v), high.max(v)));
    if low > high { (1.0, 10.0) } else { (low, high) }
}

fn frame(canvas: &mut Canvas, plot: &Plot, study: &Study) {
    for (value, text) in plot.y.ticks(7) {
        let at = plot.y.at(value);
        canvas.line((LEFT, at), (RIGHT, at), Pen::new(0.1, style::FAINT));
        canvas.text((LEFT - 1.2, at + 0.9), &text, style::LABEL.at(Anchor::End));
    }
    across(canvas, &plot.x, BASE);
    canvas.line((LEFT, TOP), (LEFT, BASE), style::EDGE);
    canvas.line((LEFT, BASE), (RIGHT, BASE), style::EDGE);
    canvas.text((0.5, 3.6), &named(&study.y), style::LABEL);
    let words = "lines computed, points reference";
    canvas.text((RIGHT, 3.6), words, style::SMALL.at(Anchor::End));
}

/// Ticks and numbers of the axis across.
fn across(canvas: &mut Canvas, axis: &Measured, base: f64) {
    for (value, text) in axis.ticks(8) {
        let at = axis.at(value);
        canvas.line((at, base), (at, base + 1.0), style::THIN);
        let half = text_width::width(&text, style::LABEL.size, style::LABEL.weight) / 2.0;
        let place = (at.min(89.7 - half), base + 3.8);
        canvas.text(place, &text, style::LABEL.at(Anchor::Middle));
    }
}

/// `force, N/mm`.
fn named(scale: &Scale) -> String {
    if scale.unit.is_empty() {
        return scale.quantity.clone();
    }
    // The micro sign, as on any drawing.
    let unit = if scale.unit == "um" { "µm" } else { &scale.unit };
    format!("{}, {unit}", scale.quantity)
}

/// The line of a series: unbroken, dashed, dotted.
pub(super) fn pen(index: usize) -> Pen {
    let solid = Pen::new(0.45, style::ACCENT);
    match index {
        0 => solid,
        1 => solid.dashed(2.0, 1.0),
        _ => solid.dashed(0.3, 1.0),
    }
}

/// Both error bands, about what is expected.
fn bar(canvas: &mut Canvas, plot: &Plot, point: &Reference) {
    let reach = point.theirs + point.ours;
    let x = plot.x.at(point.at);
    let ends = [point.expected + reach, point.expected - reach].map(|y| plot.y.at(y));
    bracket(canvas, x, ends);
}

fn bracket(canvas: &mut Canvas, x: f64, ends: [f64; 2]) {
    if ends[1] - ends[0] < 0.2 {
        return;
    }
    let pen = Pen::new(0.2, style::INK);
    canvas.line((x, ends[0]), (x, ends[1]), pen);
    for y in ends {
        canvas.line((x - 0.7, y), (x + 0.7, y), pen);
    }
}

/// What is allowed of a number that should vanish.
fn allowed(canvas: &mut Canvas, plot: &Plot, point: &Reference) {
    let (x, y) = plot.at(point.at, point.theirs + point.ours);
    let pen = Pen::new(0.3, style::INK);
    canvas.line((x - 1.4, y), (x + 1.4, y), pen);
    canvas.line((x, y), (x, y + 1.8), pen);
}

/// The reference point of a series: circle, square, triangle.
pub(super) fn marker(canvas: &mut Canvas, (x, y): Point, index: usize) {
    let paint = (style::PAPER, Some(Pen::new(0.25, style::INK)));
    match index {
        0 => canvas.circle((x, y), 0.85, paint),
        1 => canvas.rectangle((x - 0.75, y - 0.75), (1.5, 1.5), paint),
        _ => {
            let corners = [(x, y - 1.05), (x + 0.95, y + 0.7), (x - 0.95, y + 0.7)];
            canvas.polygon(&corners, paint.0, paint.1);
        }
    }
}

/// The entries of the key, broken into rows that fit the width.
fn key_rows(study: &Study) -> Vec<Vec<(usize, &Series, f64)>> {
    let mut rows: Vec<Vec<(usize, &Series, f64)>> = vec![Vec::new()];
    let mut used = LEFT;
    for (index, series) in study.series.iter().enumerate() {
        let text = text_width::width(&series.name, style::LABEL.size, style::LABEL.weight);
        let wide = 10.0 + text;
        if used + wide > RIGHT && rows.last().is_some_and(|row| !row.is_empty()) {
            rows.push(Vec::new());
            used = LEFT;
        }
        if let Some(row) = rows.last_mut() {
            row.push((index, series, used));
        }
        used += wide + 3.0;
    }
    rows
}

fn key(canvas: &mut Canvas, row: &[(usize, &Series, f64)], y: f64) {
    for (index, series, x) in row {
        let middle = y - 0.9;
        if !series.line.is_empty() {
            canvas.line((*x, middle), (x + 7.0, middle), pen(*index));
        }
        // Points that should vanish have no marker.
        if series.points.iter().any(|point| point.expected != 0.0) {
            marker(canvas, (x + 3.5, middle), *index);
        }
        canvas.text((x + 8.2, y), &series.name, style::LABEL);
    }
}

fn in_words(study: &Study) -> String {
    let compared = study.comparisons();
    let within = compared.iter().filter(|one| one.pass).count();
    format!(
        "{} over {}: {within} of {} reference points within the two error bands added; lines are \
         computed, points are the reference with both bands.",
        study.y.quantity,
        study.x.quantity,
        compared.len()
    )
}
