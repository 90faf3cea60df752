//! Engineering stress over stretch: the tests as points, the fitted law as lines.

use ringtrue_metrology::units::fixed;
use ringtrue_seal::rubber_law::{Outcome, Tested};
use ringtrue_words::say;

use super::axis::Axis;
use super::study::{marker, pen};
use super::svg::{Anchor, Canvas, Pen, Point};
use super::{Drawing, style};

const LEFT: f64 = 13.5;
const RIGHT: f64 = 88.0;
const TOP: f64 = 7.0;
const BASE: f64 = 52.0;
/// Height of a line of the key under the plot.
const ROW: f64 = 4.0;

/// The plot; `None` without a test.
pub(crate) fn draw(name: &str, outcome: &Outcome) -> Option<Drawing> {
    let all = || outcome.tests.iter().flat_map(|test| test.points.iter().chain(&test.line));
    all().next()?;
    let ends = |k: usize| {
        let each = || all().map(|point| point[k]);
        (each().fold(f64::INFINITY, f64::min), each().fold(f64::NEG_INFINITY, f64::max))
    };
    let ((left, right), (low, high)) = (ends(0), ends(1));
    let (wide, tall) = (0.03 * (right - left), 0.05 * (high - low));
    let x = Axis::new((left - wide, LEFT), (right + wide, RIGHT));
    let y = Axis::new((low - tall, BASE), (high + tall, TOP));
    let height = BASE + 9.6 + ROW * outcome.tests.len() as f64 + 1.2;
    let mut canvas = Canvas::new(style::WIDTH, height);
    frame(&mut canvas, &x, &y);
    let place = |point: &[f64; 2]| -> Point { (x.at(point[0]), y.at(point[1])) };
    for (index, test) in outcome.tests.iter().enumerate() {
        let line: Vec<Point> = test.line.iter().map(place).collect();
        canvas.polyline(&line, pen(index));
    }
    for (index, test) in outcome.tests.iter().enumerate() {
        test.points.iter().for_each(|point| marker(&mut canvas, place(point), index));
        let base = BASE + 12.4 + ROW * index as f64;
        canvas.line((LEFT, base - 0.9), (LEFT + 7.0, base - 0.9), pen(index));
        marker(&mut canvas, (LEFT + 3.5, base - 0.9), index);
        canvas.text((LEFT + 8.2, base), &key(test), style::LABEL);
    }
    let title = say!("figure-law-title", material = outcome.name);
    let keys: Vec<String> = outcome.tests.iter().map(key).collect();
    let alt = say!(
        "figure-law-alt",
        least = fixed(outcome.stretch_range[0], 2),
        most = fixed(outcome.stretch_range[1], 2),
        tests = keys.join("; ")
    );
    Some(Drawing::new(name.to_owned(), title, alt, (style::WIDTH, canvas)))
}

fn key(test: &Tested) -> String {
    let rms = fixed(test.rms_mpa, 3);
    say!("figure-law-test", mode = test.mode.word(), points = test.points.len(), rms)
}

fn frame(canvas: &mut Canvas, x: &Axis, y: &Axis) {
    for (value, text) in y.ticks(7) {
        let at = y.at(value);
        canvas.line((LEFT, at), (RIGHT, at), Pen::new(0.1, style::FAINT));
        canvas.text((LEFT - 1.2, at + 0.9), &text, style::LABEL.at(Anchor::End));
    }
    for (value, text) in x.ticks(8) {
        let at = x.at(value);
        canvas.line((at, BASE), (at, BASE + 1.0), style::THIN);
        canvas.text((at, BASE + 3.8), &text, style::LABEL.at(Anchor::Middle));
    }
    canvas.line((LEFT, TOP), (LEFT, BASE), style::EDGE);
    canvas.line((LEFT, BASE), (RIGHT, BASE), style::EDGE);
    canvas.text((0.5, 3.6), say!("figure-law-axis-stress"), style::LABEL);
    let words = say!("figure-law-points-and-lines");
    canvas.text((RIGHT, 3.6), words, style::SMALL.at(Anchor::End));
    canvas.text(
        ((LEFT + RIGHT) / 2.0, BASE + 7.4),
        say!("figure-law-axis-stretch"),
        style::LABEL.at(Anchor::Middle),
    );
}
