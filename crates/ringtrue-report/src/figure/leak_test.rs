//! Compensated pressure over time with the fitted line, and what was left out for settling.

use ringtrue_metrology::units::{duration_text, fixed, significant};
use ringtrue_seal::leak_test::{Line, Outcome};
use ringtrue_words::say;

use super::axis::Axis;
use super::svg::{Anchor, Canvas, Pen, Point};
use super::{Drawing, style};

const LEFT: f64 = 15.0;
const RIGHT: f64 = 88.0;
const TOP: f64 = 8.0;
const BASE: f64 = 52.0;

/// The picture of a pressure-change test; nothing of other evidence.
pub(crate) fn draw(name: &str, outcome: &Outcome) -> Option<Drawing> {
    let line = outcome.line?;
    let end = outcome.points.last()?.seconds;
    let shown = || {
        let pressures = outcome.points.iter().map(|point| point.compensated_kpa);
        pressures.chain([line.from_kpa, line.to_kpa])
    };
    let low = shown().fold(f64::INFINITY, f64::min);
    let high = shown().fold(f64::NEG_INFINITY, f64::max);
    let pad = 0.08 * (high - low);
    let x = Axis::new((0.0, LEFT), (end / 60.0, RIGHT));
    let y = Axis::new((low - pad, BASE), (high + pad, TOP));
    let mut canvas = Canvas::new(style::WIDTH, 68.0);
    settling(&mut canvas, &x, &line);
    frame(&mut canvas, (&x, &y), outcome);
    let place = |seconds: f64, kpa: f64| -> Point { (x.at(seconds / 60.0), y.at(kpa)) };
    for point in &outcome.points {
        let at = place(point.seconds, point.compensated_kpa);
        if point.fitted {
            canvas.circle(at, 0.55, (style::INK, None));
        } else {
            canvas.circle(at, 0.6, (style::PAPER, Some(Pen::new(0.2, style::MUTED))));
        }
    }
    let ends = [place(line.from_s, line.from_kpa), place(line.to_s, line.to_kpa)];
    canvas.polyline(&ends, Pen::new(0.6, style::ACCENT));
    caption(&mut canvas, outcome);
    let title = say!("figure-leak-title").to_owned();
    let alt = in_words(outcome, &line);
    Some(Drawing::new(name.to_owned(), title, alt, (style::WIDTH, canvas)))
}

fn frame(canvas: &mut Canvas, (x, y): (&Axis, &Axis), outcome: &Outcome) {
    for (value, text) in y.ticks(6) {
        let at = y.at(value);
        canvas.line((LEFT, at), (RIGHT, at), Pen::new(0.1, style::FAINT));
        canvas.text((LEFT - 1.4, at + 0.9), &text, style::LABEL.at(Anchor::End));
    }
    for (value, text) in x.ticks(7) {
        let at = x.at(value);
        canvas.line((at, BASE), (at, BASE + 1.0), style::THIN);
        canvas.text((at, BASE + 3.8), &text, style::LABEL.at(Anchor::Middle));
    }
    canvas.line((LEFT, TOP), (LEFT, BASE), style::EDGE);
    canvas.line((LEFT, BASE), (RIGHT, BASE), style::EDGE);
    let reference = outcome.reference_temperature_degc.unwrap_or(20.0);
    let words = say!("figure-leak-axis", temperature = fixed(reference, 1));
    canvas.text((0.5, 3.6), &words, style::LABEL);
    canvas.text(
        ((LEFT + RIGHT) / 2.0, BASE + 7.4),
        say!("figure-leak-minutes"),
        style::LABEL.at(Anchor::Middle),
    );
}

/// The time that was left out, tinted, with its end.
fn settling(canvas: &mut Canvas, x: &Axis, line: &Line) {
    if line.from_s <= 0.0 {
        return;
    }
    let end = x.at(line.from_s / 60.0);
    canvas.rectangle((LEFT, TOP), (end - LEFT, BASE - TOP), (style::METAL, None));
    canvas.line((end, TOP), (end, BASE), Pen::new(0.25, style::INK).dashed(1.4, 0.9));
    let words = say!("figure-leak-settling", time = duration_text(line.from_s));
    canvas.text_over((end + 0.8, TOP + 2.6), &words, style::SMALL);
}

fn caption(canvas: &mut Canvas, outcome: &Outcome) {
    let line = outcome
        .leak_rate_pa_m3_per_s
        .map(|rate| say!("figure-leak-line", rate = significant(rate, 3)));
    let readings = say!("figure-leak-readings").to_owned();
    let words = line.into_iter().chain([readings]).collect::<Vec<_>>().join(" ");
    let centre = (LEFT + RIGHT) / 2.0;
    canvas.text((centre, BASE + 12.0), &words, style::SMALL.at(Anchor::Middle));
}

fn in_words(outcome: &Outcome, line: &Line) -> String {
    say!(
        "figure-leak-alt",
        readings = outcome.points.len(),
        time = duration_text(line.to_s),
        settling = duration_text(line.from_s),
        first = fixed(line.from_kpa, 3),
        last = fixed(line.to_kpa, 3)
    )
}
