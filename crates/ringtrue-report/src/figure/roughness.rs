//! A traced profile: with its mean line above, its roughness with the sampling lengths below.
//!
//! Heights are drawn far larger than lengths, as every instrument does; the axes say so.

use ringtrue_metrology::units::fixed;
use ringtrue_seal::roughness::{Outcome, Profile};
use ringtrue_words::say;

use super::axis::Axis;
use super::svg::{Anchor, Canvas, Pen, Point};
use super::{Drawing, style};

const LEFT: f64 = 13.0;
const RIGHT: f64 = 88.0;
/// Top and bottom of the upper and of the lower chart.
const UPPER: (f64, f64) = (6.0, 30.0);
const LOWER: (f64, f64) = (37.0, 61.0);
/// Columns of points that a drawing of 9 cm can show: each holds its highest and lowest.
const COLUMNS: usize = 600;

/// The picture of one trace; nothing where there is none.
pub(crate) fn draw(name: &str, outcome: &Outcome, index: usize) -> Option<Drawing> {
    let profile = outcome.profiles.get(index)?;
    let length = profile.roughness_um.len() as f64 * profile.step_mm;
    if profile.roughness_um.len() < 2 {
        return None;
    }
    let x = Axis::new((0.0, LEFT), (length, RIGHT));
    let mut canvas = Canvas::new(style::WIDTH, 73.0);
    let upper =
        chart(&mut canvas, &x, UPPER, (&profile.levelled_um, say!("figure-finish-axis-profile")));
    canvas.polyline(&line(&profile.levelled_um, profile, (&x, &upper)), Pen::new(0.12, style::INK));
    if profile.mean_line_um.iter().any(|z| *z != 0.0) {
        canvas.polyline(&line(&profile.mean_line_um, profile, (&x, &upper)), style::CURVE);
    }
    let lower = chart(
        &mut canvas,
        &x,
        LOWER,
        (&profile.roughness_um, say!("figure-finish-axis-roughness")),
    );
    sampling_lengths(&mut canvas, profile, &x);
    canvas
        .polyline(&line(&profile.roughness_um, profile, (&x, &lower)), Pen::new(0.12, style::INK));
    let zero = lower.within(0.0);
    canvas.line((LEFT, zero), (RIGHT, zero), Pen::new(0.25, style::ACCENT));
    along(&mut canvas, &x, outcome);
    let title = say!("figure-finish-title", number = index + 1);
    let alt = in_words(outcome, profile, index);
    Some(Drawing::new(name.to_owned(), title, alt, (style::WIDTH, canvas)))
}

/// Frame, grid and numbers of one chart.
fn chart(
    canvas: &mut Canvas,
    x: &Axis,
    (top, bottom): (f64, f64),
    (heights, words): (&[f64], &str),
) -> Axis {
    let high = heights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let low = heights.iter().copied().fold(f64::INFINITY, f64::min);
    let pad = 0.06 * (high - low);
    let y = Axis::new((low - pad, bottom), (high + pad, top));
    for (value, text) in y.ticks(5) {
        let at = y.at(value);
        canvas.line((LEFT, at), (RIGHT, at), Pen::new(0.1, style::FAINT));
        canvas.text((LEFT - 1.4, at + 0.9), &text, style::LABEL.at(Anchor::End));
    }
    for (value, _) in x.ticks(8) {
        canvas.line((x.at(value), bottom), (x.at(value), bottom + 0.9), style::THIN);
    }
    canvas.line((LEFT, top), (LEFT, bottom), style::THIN);
    canvas.line((LEFT, bottom), (RIGHT, bottom), style::THIN);
    canvas.text((0.5, top - 2.0), words, style::LABEL);
    y
}

/// The profile as one line, thinned to what can be seen: the lowest and highest of each column.
fn line(heights: &[f64], profile: &Profile, (x, y): (&Axis, &Axis)) -> Vec<Point> {
    let chunk = heights.len().div_ceil(COLUMNS).max(1);
    let point = |i: usize| (x.at(i as f64 * profile.step_mm), y.within(heights[i]));
    let by_height = |a: &usize, b: &usize| heights[*a].total_cmp(&heights[*b]);
    (0..heights.len())
        .step_by(chunk)
        .flat_map(|from| {
            let column = from..(from + chunk).min(heights.len());
            let lowest = column.clone().min_by(by_height).unwrap_or(from);
            let highest = column.max_by(by_height).unwrap_or(from);
            let (first, second) = (lowest.min(highest), lowest.max(highest));
            let mut points = vec![point(first)];
            if second != first {
                points.push(point(second));
            }
            points
        })
        .collect()
}

/// Borders of the sampling lengths.
fn sampling_lengths(canvas: &mut Canvas, profile: &Profile, x: &Axis) {
    let count = profile.sampling_lengths.max(1);
    let whole = profile.roughness_um.len() as f64 * profile.step_mm;
    for border in 1..count {
        let at = x.at(whole * border as f64 / count as f64);
        let pen = Pen::new(0.2, style::MUTED).dashed(1.2, 0.8);
        canvas.line((at, LOWER.0), (at, LOWER.1), pen);
    }
}

fn along(canvas: &mut Canvas, x: &Axis, outcome: &Outcome) {
    for (value, text) in x.ticks(8) {
        let at = (x.at(value), LOWER.1 + 3.6);
        canvas.text(at, &text, style::LABEL.at(Anchor::Middle));
    }
    let middle = style::LABEL.at(Anchor::Middle);
    let centre = (LEFT + RIGHT) / 2.0;
    canvas.text((centre, LOWER.1 + 6.8), say!("figure-finish-along"), middle);
    let caption = match outcome.cut_off_mm {
        Some(cut_off) => say!(
            "figure-finish-mean-line",
            cut_off = fixed(cut_off, if cut_off < 0.1 { 3 } else { 2 })
        ),
        None => say!("figure-finish-not-filtered").to_owned(),
    };
    canvas.text((centre, LOWER.1 + 10.6), &caption, style::SMALL.at(Anchor::Middle));
}

fn in_words(outcome: &Outcome, profile: &Profile, index: usize) -> String {
    let um = |value: Option<f64>| {
        value.map_or(say!("report-common-not-known").to_owned(), |um| fixed(um, 3))
    };
    say!(
        "figure-finish-alt",
        number = index + 1,
        length = fixed(profile.roughness_um.len() as f64 * profile.step_mm, 2),
        sampling_lengths = profile.sampling_lengths,
        ra = um(outcome.ra_um),
        rq = um(outcome.rq_um),
        rz = um(outcome.rz_um)
    )
}
