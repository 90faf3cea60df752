//! Light bands: the signed bend along each azimuth, or the height round a narrow ring, in bands.

use ringtrue_metrology::units::fixed;
use ringtrue_seal::flatness::{Outcome, Shown};
use ringtrue_words::say;

use super::axis::Axis;
use super::svg::{Anchor, Canvas, Pen};
use super::{Drawing, style};
use crate::reader::COVERAGE_FACTOR;

const LEFT: f64 = 12.0;
const RIGHT: f64 = 78.0;
const TOP: f64 = 7.0;
const BOTTOM: f64 = 42.0;

/// The picture of a face; nothing where one number was read.
pub(crate) fn draw(name: &str, outcome: &Outcome) -> Option<Drawing> {
    let points: Vec<(f64, &Shown)> =
        outcome.readings.iter().filter_map(|one| Some((one.angle_deg?, one))).collect();
    if points.len() < 2 {
        return None;
    }
    let round = points.iter().any(|(_, one)| one.height_bands.is_some());
    let mut canvas = Canvas::new(style::WIDTH, 54.0);
    let x = Axis::new((0.0, LEFT), (if round { 360.0 } else { 180.0 }, RIGHT));
    let y = axis(&points);
    frame(&mut canvas, (&x, &y), outcome, round);
    curve(&mut canvas, (&x, &y), outcome, round);
    for (angle, one) in &points {
        let turn = if round { 360.0 } else { 180.0 };
        let at = (x.at(libm::fmod(*angle, turn)), y.at(value(one)));
        if let Some(u) = one.standard_uncertainty_bands {
            let end = |sign: f64| y.within(value(one) + sign * COVERAGE_FACTOR * u);
            canvas.line((at.0, end(-1.0)), (at.0, end(1.0)), Pen::new(0.25, style::INK));
        }
        canvas.circle(at, 0.75, (style::INK, Some(Pen::new(0.2, style::PAPER))));
    }
    let title =
        if round { say!("figure-bands-title-heights") } else { say!("figure-bands-title-bends") };
    let alt = in_words(outcome, &points, round);
    Some(Drawing::new(name.to_owned(), title.to_owned(), alt, (style::WIDTH, canvas)))
}

fn value(one: &Shown) -> f64 {
    one.height_bands.unwrap_or(one.bands)
}

fn axis(points: &[(f64, &Shown)]) -> Axis {
    let (mut low, mut high) = (0.0_f64, 0.0_f64);
    for (_, one) in points {
        let half = COVERAGE_FACTOR * one.standard_uncertainty_bands.unwrap_or(0.0);
        low = low.min(value(one) - half);
        high = high.max(value(one) + half);
    }
    let pad = (0.08 * (high - low)).max(0.05);
    Axis::new((low - pad, BOTTOM), (high + pad, TOP))
}

/// The frame, bands on the left and micrometres on the right.
fn frame(canvas: &mut Canvas, (x, y): (&Axis, &Axis), outcome: &Outcome, round: bool) {
    for (bands, text) in y.ticks(6) {
        let at = y.at(bands);
        canvas.line((LEFT, at), (RIGHT, at), Pen::new(0.1, style::FAINT));
        canvas.text((LEFT - 1.4, at + 0.9), &text, style::LABEL.at(Anchor::End));
        let um = fixed(bands * outcome.band_um, 2);
        canvas.text((RIGHT + 1.4, at + 0.9), &um, style::LABEL);
    }
    let step = if round { 45.0 } else { 22.5 };
    for i in 0..=8 {
        let angle = f64::from(i) * step;
        canvas.line((x.at(angle), BOTTOM), (x.at(angle), BOTTOM + 1.0), style::THIN);
        if round || i % 2 == 0 {
            let at = (x.at(angle), BOTTOM + 4.0);
            canvas.text(at, &format!("{angle}"), style::LABEL.at(Anchor::Middle));
        }
    }
    canvas.line((LEFT, TOP), (LEFT, BOTTOM), style::THIN);
    canvas.line((RIGHT, TOP), (RIGHT, BOTTOM), style::THIN);
    canvas.line((LEFT, BOTTOM), (RIGHT, BOTTOM), style::THIN);
    let zero = y.within(0.0);
    canvas.line((LEFT, zero), (RIGHT, zero), style::EDGE);
    let what =
        if round { say!("figure-bands-axis-heights") } else { say!("figure-bands-axis-bends") };
    canvas.text((0.5, 3.4), what, style::LABEL);
    canvas.text((89.5, 3.4), "\u{b5}m", style::LABEL.at(Anchor::End));
    let along =
        if round { say!("figure-bands-along-ring") } else { say!("figure-bands-along-azimuth") };
    let centre = (LEFT + RIGHT) / 2.0;
    canvas.text((centre, BOTTOM + 7.4), along, style::LABEL.at(Anchor::Middle));
    let curve = say!("figure-bands-curve");
    let caption = match outcome.standard_uncertainty_bands {
        Some(_) => format!("{} {curve}", say!("figure-common-bars")),
        None => curve.to_owned(),
    };
    canvas.text((centre, BOTTOM + 11.0), &caption, style::SMALL.at(Anchor::Middle));
}

/// Mean bend and second wave, where they were fitted.
fn curve(canvas: &mut Canvas, (x, y): (&Axis, &Axis), outcome: &Outcome, round: bool) {
    let (Some(second), Some(crest)) =
        (outcome.second_harmonic_bands, outcome.second_harmonic_crest_deg)
    else {
        return;
    };
    let mean = outcome.mean_bend_bands.unwrap_or(0.0);
    let whole = if round { 360.0 } else { 180.0 };
    let points: Vec<_> = (0..=90)
        .map(|i| {
            let angle = whole * f64::from(i) / 90.0;
            let wave = second * libm::cos(2.0 * (angle - crest).to_radians());
            (x.at(angle), y.within(mean + wave))
        })
        .collect();
    canvas.polyline(&points, style::CURVE);
}

fn in_words(outcome: &Outcome, points: &[(f64, &Shown)], round: bool) -> String {
    let told: Vec<String> = points
        .iter()
        .map(|(angle, one)| {
            say!(
                "figure-bands-place",
                bands = fixed(value(one), 2),
                angle = crate::reader::degrees(*angle)
            )
        })
        .collect();
    let (band, places) = (fixed(outcome.band_um, 4), told.join(", "));
    if round {
        say!("figure-bands-alt-heights", band, places)
    } else {
        say!("figure-bands-alt-bends", band, places)
    }
}
