//! A chilled toric: how much smaller it gets in the cold, and how warm its core is in the room.

use ringtrue_metrology::units::{duration_text, fixed};
use ringtrue_seal::chilling::{Course, Curve, Outcome};
use ringtrue_words::say;

use super::axis::Axis;
use super::svg::{Anchor, Canvas, Pen, Point, Type};
use super::{Drawing, style, text_width};
use crate::reader::Reader;
use crate::reader::heat;

const LEFT: f64 = 11.0;
const RIGHT: f64 = 88.0;
/// Top and bottom of the upper and of the lower chart.
const UPPER: (f64, f64) = (8.0, 38.0);
const LOWER: (f64, f64) = (54.0, 88.0);
/// The shop rule's time, min.
const SHOP_MINUTES: f64 = 5.0;

/// One body's line: its curve, its pen and its name.
struct Body<'o> {
    course: &'o Course,
    pen: Pen,
    name: &'static str,
    side: Side,
}

/// Where a curve's label stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    /// To the right, under the curve.
    Right,
    /// To the left, over the curve.
    Left,
}

fn bodies(outcome: &Outcome) -> [Body<'_>; 2] {
    [
        Body {
            course: &outcome.free,
            pen: Pen::new(0.6, style::ACCENT),
            name: say!("figure-chilling-toric-alone"),
            side: Side::Right,
        },
        Body {
            course: &outcome.mounted,
            pen: Pen::new(0.6, style::INK).dashed(2.2, 1.1),
            name: say!("figure-chilling-toric-on-ring"),
            side: Side::Left,
        },
    ]
}

/// The picture of one toric.
pub(crate) fn draw(name: &str, outcome: &Outcome, reader: Reader) -> Drawing {
    let mut canvas = Canvas::new(style::WIDTH, 98.0);
    contraction(&mut canvas, outcome, reader);
    warming(&mut canvas, outcome, reader);
    let title = say!("figure-chilling-title").to_owned();
    Drawing::new(name.to_owned(), title, in_words(outcome, reader), (style::WIDTH, canvas))
}

fn minutes(curve: &Curve) -> impl Iterator<Item = f64> + '_ {
    curve.seconds.iter().map(|seconds| seconds / 60.0)
}

fn last(values: &[f64]) -> f64 {
    values.last().copied().unwrap_or(0.0)
}

/// Frame, grid and numbers of one chart.
fn frame(canvas: &mut Canvas, (x, y): (&Axis, &Axis), (top, bottom): (f64, f64), words: [&str; 2]) {
    for (value, text) in y.ticks(5) {
        let at = y.at(value);
        canvas.line((LEFT, at), (RIGHT, at), Pen::new(0.1, style::FAINT));
        canvas.text((LEFT - 1.4, at + 0.9), &text, style::LABEL.at(Anchor::End));
    }
    for (value, text) in x.ticks(7) {
        let at = x.at(value);
        canvas.line((at, bottom), (at, bottom + 1.0), style::THIN);
        canvas.text((at, bottom + 3.8), &text, style::LABEL.at(Anchor::Middle));
    }
    canvas.line((LEFT, top), (LEFT, bottom), style::EDGE);
    canvas.line((LEFT, bottom), (RIGHT, bottom), style::EDGE);
    let [above, below] = words;
    canvas.text((0.5, top - 3.0), above, style::LABEL);
    canvas.text(((LEFT + RIGHT) / 2.0, bottom + 7.2), below, style::LABEL.at(Anchor::Middle));
}

fn contraction(canvas: &mut Canvas, outcome: &Outcome, reader: Reader) {
    let bodies = bodies(outcome);
    let end = bodies.iter().map(|body| last(&body.course.cooling.seconds)).fold(0.0, f64::max);
    let highest =
        bodies.iter().map(|body| reader.of_mm(body.course.contraction_mm)).fold(0.0, f64::max);
    let x = Axis::new((0.0, LEFT), (end / 60.0, RIGHT));
    let y = Axis::new((0.0, UPPER.1), (highest * 1.12, UPPER.0));
    let words = say!("figure-chilling-smaller-by", unit = reader.unit());
    let cold = say!(
        "figure-chilling-minutes-in-cold",
        temperature = heat::temperature(outcome.cold_degc, reader.system)
    );
    frame(canvas, (&x, &y), UPPER, [&words, &cold]);
    for body in &bodies {
        let whole = y.at(reader.of_mm(body.course.contraction_mm));
        canvas.line((LEFT, whole), (RIGHT, whole), Pen::new(0.2, style::MUTED).dashed(0.8, 0.8));
        let curve = &body.course.cooling;
        let line: Vec<Point> = minutes(curve)
            .zip(&curve.contraction_mm)
            .map(|(minutes, mm)| (x.at(minutes), y.within(reader.of_mm(*mm))))
            .collect();
        canvas.polyline(&line, body.pen);
        let at = x.within(body.course.time_to_95_percent_s / 60.0);
        let reached = y.at(reader.of_mm(0.95 * body.course.contraction_mm));
        canvas.circle((at, reached), 0.9, (style::PAPER, Some(style::EDGE)));
        let time = duration_text(body.course.time_to_95_percent_s);
        let text = say!("figure-chilling-95-percent-after", toric = body.name, time);
        match body.side {
            Side::Right => beside(canvas, (at + 1.6, reached + 4.0), &text, style::LABEL),
            Side::Left => beside(canvas, (at, whole - 1.4), &text, style::LABEL),
        }
    }
    shop_rule(canvas, &x, end / 60.0);
}

/// The shop rule's time, where the chart reaches it.
fn shop_rule(canvas: &mut Canvas, x: &Axis, end_minutes: f64) {
    if SHOP_MINUTES > end_minutes {
        return;
    }
    let at = x.within(SHOP_MINUTES);
    canvas.line((at, UPPER.0), (at, UPPER.1), Pen::new(0.25, style::INK).dashed(1.4, 0.9));
    let words = say!("figure-chilling-shop-rule");
    beside(canvas, (at, UPPER.0 - 0.6), words, style::SMALL);
}

/// A text from its point to the right, or as far to the left of that as the chart asks.
fn beside(canvas: &mut Canvas, (x, y): Point, text: &str, kind: Type) {
    let wide = text_width::width(text, kind.size, kind.weight);
    let x = x.min(RIGHT - wide).max(LEFT + 0.8);
    canvas.text_over((x, y), text, kind);
}

fn warming(canvas: &mut Canvas, outcome: &Outcome, reader: Reader) {
    let bodies = bodies(outcome);
    let degrees = |degc: f64| heat::degrees(degc, reader.system);
    let end = bodies.iter().map(|body| last(&body.course.warming.seconds)).fold(0.0, f64::max);
    let span = outcome.room_degc - outcome.cold_degc;
    let x = Axis::new((0.0, LEFT), (end / 60.0, RIGHT));
    let y = Axis::new(
        (degrees(outcome.cold_degc), LOWER.1),
        (degrees(outcome.room_degc + 0.12 * span), LOWER.0),
    );
    let words = say!("figure-chilling-core-temperature", unit = heat::unit(reader.system));
    let room = say!(
        "figure-chilling-minutes-in-room",
        temperature = heat::temperature(outcome.room_degc, reader.system)
    );
    frame(canvas, (&x, &y), LOWER, [&words, &room]);
    let warm = y.at(degrees(outcome.room_degc - 2.0));
    let top = y.at(degrees(outcome.room_degc));
    canvas.rectangle((LEFT, top), (RIGHT - LEFT, warm - top), (style::TINT, None));
    for body in &bodies {
        let curve = &body.course.warming;
        let line: Vec<Point> = minutes(curve)
            .zip(&curve.core_degc)
            .map(|(minutes, degc)| (x.at(minutes), y.within(degrees(*degc))))
            .collect();
        canvas.polyline(&line, body.pen);
        let at = x.within(body.course.rewarm_time_s / 60.0);
        canvas.line((at, warm), (at, LOWER.1), Pen::new(0.2, style::MUTED).dashed(0.8, 0.8));
    }
    if let Some(point) = outcome
        .dew_point_degc
        .filter(|point| *point > outcome.cold_degc && *point < outcome.room_degc)
    {
        let at = y.at(degrees(point));
        canvas.line((LEFT, at), (RIGHT, at), Pen::new(0.25, style::INK).dashed(1.4, 0.9));
        let text = say!(
            "figure-chilling-dew-point",
            temperature = heat::temperature(point, reader.system)
        );
        canvas.text_over((RIGHT - 0.5, at + 3.0), &text, style::SMALL.at(Anchor::End));
    }
    let words = say!("figure-chilling-may-be-closed");
    canvas.text_over((RIGHT - 0.5, top - 1.0), words, style::SMALL.at(Anchor::End));
    for (row, body) in bodies.iter().enumerate() {
        let at = x.within(body.course.rewarm_time_s / 60.0);
        let time = match body.course.rewarm_time_s {
            s if s < 1.0 => say!("figure-chilling-at-once").to_owned(),
            s => say!("figure-chilling-after", time = duration_text(s)),
        };
        let text = format!("{}: {time}", body.name);
        let y = LOWER.1 - 2.0 - 3.8 * row as f64;
        let wide = text_width::width(&text, style::LABEL.size, style::LABEL.weight);
        match body.side {
            Side::Right => beside(canvas, (at + 1.0, y), &text, style::LABEL),
            Side::Left => beside(canvas, (at - 1.0 - wide, y), &text, style::LABEL),
        }
    }
}

fn in_words(outcome: &Outcome, reader: Reader) -> String {
    let told: Vec<String> = bodies(outcome)
        .iter()
        .map(|body| {
            let course = body.course;
            let u = Some(course.contraction_standard_uncertainty_mm);
            say!(
                "figure-chilling-told",
                toric = body.name,
                smaller = reader.known(course.contraction_mm, u),
                time = duration_text(course.time_to_95_percent_s),
                rewarm = duration_text(course.rewarm_time_s)
            )
        })
        .collect();
    say!(
        "figure-chilling-alt",
        cold = heat::temperature(outcome.cold_degc, reader.system),
        room = heat::temperature(outcome.room_degc, reader.system),
        torics = told.join("; "),
        share = fixed(100.0 * outcome.free.share_after_5_min, 0)
    )
}
