//! Heights against angle: readings with their uncertainty, the fitted plane, the range's limit.

use ringtrue_seal::assembled_height::{Outcome, Place};
use ringtrue_words::say;

use super::axis::Axis;
use super::ring_from_above::{is_suspect, suspect};
use super::style;
use super::svg::{Anchor, Canvas, Pen};
use super::{Drawing, text_width};
use crate::reader::{COVERAGE_FACTOR, Reader};

const LEFT: f64 = 13.0;
const RIGHT: f64 = 86.5;
const TOP: f64 = 7.5;
const BOTTOM: f64 = 50.0;

/// The chart of one half's heights.
pub(crate) fn draw(name: &str, whose: &str, outcome: &Outcome, reader: Reader) -> Drawing {
    let mut canvas = Canvas::new(style::WIDTH, 61.0);
    let x = Axis::new((0.0, LEFT), (360.0, RIGHT));
    let band = limit_band(outcome);
    let y = height_axis(outcome, band, reader);
    let band = band.map(|(low, high)| (y.within(reader.of_mm(low)), y.within(reader.of_mm(high))));
    if let Some(band) = band {
        limit_zone(&mut canvas, band);
    }
    frame(&mut canvas, &x, &y, reader);
    curves(&mut canvas, (&x, &y), outcome, reader);
    if let Some((_, top)) = band {
        limit_words(&mut canvas, top, outcome, reader);
    }
    for place in &outcome.places {
        reading(&mut canvas, &x, &y, (outcome, place, reader));
    }
    let bars = match outcome.reading_standard_uncertainty_mm {
        Some(_) => say!("figure-common-bars"),
        None => say!("figure-heights-no-bars"),
    };
    let curves = match outcome.second_harmonic_fit_mm {
        Some(_) => say!("figure-heights-plane-and-harmonic"),
        None => say!("figure-heights-plane"),
    };
    let caption = format!("{bars} {curves}");
    canvas.text(((LEFT + RIGHT) / 2.0, 60.4), &caption, style::SMALL.at(Anchor::Middle));
    let title = say!("figure-heights-title", whose);
    Drawing::new(name.to_owned(), title, in_words(whose, outcome, reader), (style::WIDTH, canvas))
}

/// Heights from the lowest place up to the limit of the range, where that fits on the chart.
fn limit_band(outcome: &Outcome) -> Option<(f64, f64)> {
    let limit = outcome.range_limit_mm?;
    let lowest = outcome.places.iter().map(|p| p.height_mm).fold(f64::INFINITY, f64::min);
    (limit <= 2.5 * outcome.range_mm && lowest.is_finite()).then_some((lowest, lowest + limit))
}

fn height_axis(outcome: &Outcome, band: Option<(f64, f64)>, reader: Reader) -> Axis {
    let half = |place: &Place| place.standard_uncertainty_mm.unwrap_or(0.0) * COVERAGE_FACTOR;
    let mut low = outcome.mean_height_mm - outcome.tilt_mm / 2.0;
    let mut high = outcome.mean_height_mm + outcome.tilt_mm / 2.0;
    for place in &outcome.places {
        low = low.min(place.height_mm - half(place));
        high = high.max(place.height_mm + half(place));
    }
    if let Some((_, top)) = band {
        high = high.max(top);
    }
    if let Some(fit) = &outcome.second_harmonic_fit_mm {
        for step in 0..72 {
            let height = oval(fit, f64::from(step) * 5.0);
            (low, high) = (low.min(height), high.max(height));
        }
    }
    let pad = ((high - low) * 0.09).max(0.01);
    Axis::new((reader.of_mm(low - pad), BOTTOM), (reader.of_mm(high + pad), TOP))
}

fn limit_zone(canvas: &mut Canvas, (bottom, top): (f64, f64)) {
    canvas.rectangle((LEFT, top), (RIGHT - LEFT, bottom - top), (style::METAL, None));
    canvas.line((LEFT, top), (RIGHT, top), style::HEAVY);
    canvas.line((LEFT, bottom), (RIGHT, bottom), Pen::new(0.2, style::INK).dashed(1.6, 1.0));
}

/// The limit's words, on the side where the plane is low.
fn limit_words(canvas: &mut Canvas, top: f64, outcome: &Outcome, reader: Reader) {
    let Some(limit) = outcome.range_limit_mm else { return };
    let text = say!("figure-heights-limit", limit = reader.exact(limit, 0));
    let (x, anchor) = if outcome.high_side_deg < 180.0 {
        (RIGHT - 0.8, Anchor::End)
    } else {
        (LEFT + 0.8, Anchor::Start)
    };
    canvas.text_over((x, top + 3.0), &text, style::LABEL.at(anchor));
}

fn frame(canvas: &mut Canvas, x: &Axis, y: &Axis, reader: Reader) {
    for (value, text) in y.ticks(8) {
        let at = y.at(value);
        canvas.line((LEFT, at), (RIGHT, at), Pen::new(0.1, style::FAINT));
        canvas.text((LEFT - 1.6, at + 0.9), &text, style::LABEL.at(Anchor::End));
    }
    for step in 0..=8 {
        let angle = f64::from(step) * 45.0;
        let at = x.at(angle);
        canvas.line((at, BOTTOM), (at, BOTTOM + 1.0), style::THIN);
        canvas.text((at, BOTTOM + 3.9), &format!("{angle}"), style::LABEL.at(Anchor::Middle));
    }
    canvas.line((LEFT, TOP), (LEFT, BOTTOM), style::THIN);
    canvas.line((LEFT, BOTTOM), (RIGHT, BOTTOM), style::THIN);
    let unit = say!("figure-heights-axis", unit = reader.unit());
    canvas.text((0.5, 3.4), &unit, style::LABEL);
    let words = say!("figure-heights-along");
    canvas.text(((LEFT + RIGHT) / 2.0, BOTTOM + 7.0), words, style::LABEL.at(Anchor::Middle));
}

/// Height of the fitted plane at an angle, mm.
fn plane(outcome: &Outcome, angle_deg: f64) -> f64 {
    let wave = libm::cos((angle_deg - outcome.high_side_deg).to_radians());
    outcome.mean_height_mm + outcome.tilt_mm / 2.0 * wave
}

/// Height of the fit with the second harmonic at an angle, mm.
fn oval(fit: &[f64; 5], angle_deg: f64) -> f64 {
    let angle = angle_deg.to_radians();
    let (one, two) = (libm::sincos(angle), libm::sincos(2.0 * angle));
    fit[0] + fit[1] * one.1 + fit[2] * one.0 + fit[3] * two.1 + fit[4] * two.0
}

fn curves(canvas: &mut Canvas, (x, y): (&Axis, &Axis), outcome: &Outcome, reader: Reader) {
    let mean = y.at(reader.of_mm(outcome.mean_height_mm));
    canvas.line((LEFT, mean), (RIGHT, mean), Pen::new(0.2, style::MUTED).dashed(1.0, 0.8));
    let points: Vec<_> = (0..=120)
        .map(|step| {
            let angle = f64::from(step) * 3.0;
            (x.at(angle), y.at(reader.of_mm(plane(outcome, angle))))
        })
        .collect();
    canvas.polyline(&points, style::CURVE);
    if let Some(fit) = &outcome.second_harmonic_fit_mm {
        let angles = (0..=180).map(|step| f64::from(step) * 2.0);
        let oval: Vec<_> =
            angles.map(|angle| (x.at(angle), y.at(reader.of_mm(oval(fit, angle))))).collect();
        canvas.polyline(&oval, Pen::new(0.3, style::ACCENT).dashed(1.8, 1.0));
    }
    let text = say!(
        "figure-heights-mean",
        height = reader.known(outcome.mean_height_mm, outcome.mean_height_standard_uncertainty_mm)
    );
    let wide = text_width::width(&text, style::LABEL.size, style::LABEL.weight);
    canvas.text((RIGHT - wide, 3.4), &text, style::LABEL);
    let dash = Pen::new(0.3, style::MUTED).dashed(1.0, 0.8);
    canvas.line((RIGHT - wide - 7.0, 2.5), (RIGHT - wide - 1.4, 2.5), dash);
}

fn reading(canvas: &mut Canvas, x: &Axis, y: &Axis, of: (&Outcome, &Place, Reader)) {
    let (outcome, place, reader) = of;
    let at = (x.at(place.angle_deg), y.at(reader.of_mm(place.height_mm)));
    if let Some(u) = place.standard_uncertainty_mm {
        let end = |sign: f64| y.within(reader.of_mm(place.height_mm + sign * u * COVERAGE_FACTOR));
        let pen = Pen::new(0.25, style::INK);
        canvas.line((at.0, end(-1.0)), (at.0, end(1.0)), pen);
        for sign in [-1.0, 1.0] {
            canvas.line((at.0 - 1.0, end(sign)), (at.0 + 1.0, end(sign)), pen);
        }
    }
    if is_suspect(outcome, place.angle_deg) {
        suspect(canvas, at, 1.6);
        let anchor = if at.0 > RIGHT - 16.0 { Anchor::End } else { Anchor::Start };
        let side = if anchor == Anchor::End { -2.4 } else { 2.4 };
        canvas.text_over(
            (at.0 + side, at.1 + 0.9),
            say!("figure-heights-suspect"),
            style::LABEL.bold().at(anchor),
        );
    } else {
        canvas.circle(at, 0.75, (style::INK, Some(Pen::new(0.2, style::PAPER))));
    }
}

fn in_words(whose: &str, outcome: &Outcome, reader: Reader) -> String {
    let told: Vec<_> = outcome
        .places
        .iter()
        .map(|place| {
            let decimals = reader.decimals(place.standard_uncertainty_mm);
            let height = reader.number(place.height_mm, decimals);
            say!("figure-heights-place", height, angle = crate::reader::degrees(place.angle_deg))
        })
        .collect();
    say!("figure-heights-alt", whose, unit = reader.unit(), places = told.join(", "))
}
