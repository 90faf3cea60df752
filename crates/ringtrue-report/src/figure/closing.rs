//! The closed joint from above: gap round it, where it is widest, and the order of its bolts.
//!
//! Seen facing half b, 0 at the top, angles counter-clockwise, as the ring is. Gaps are drawn
//! outward about a circle that stands for the mean gap, exaggerated by a stated factor.

use ringtrue_seal::closing::{GapRound, Outcome, PlaceRead};
use ringtrue_words::say;

use super::axis::round_down;
use super::svg::{Anchor, Canvas, Pen, Point};
use super::{Drawing, style};
use crate::reader::{self, Reader};

const CENTRE: Point = (45.0, 43.0);
/// The circle of the mean gap.
const MEAN: f64 = 22.0;
/// Most that a gap is drawn off that circle.
const SWING: f64 = 5.0;
/// The circle of the bolts.
const BOLTS: f64 = 35.0;
/// Most bolts that are drawn one by one.
const MOST_DRAWN: usize = 36;
/// Points along a curve.
const STEPS: u32 = 180;

/// The picture of one closing; nothing where neither bolts nor gap are known.
pub(crate) fn draw(name: &str, outcome: &Outcome, reader: Reader) -> Option<Drawing> {
    let order = outcome.pull_down.as_ref().map(|pull| pull.order.as_slice());
    if outcome.gap.is_none() && order.is_none() {
        return None;
    }
    let mut canvas = Canvas::new(style::WIDTH, 96.0);
    canvas.circle(CENTRE, MEAN, (style::METAL, Some(style::EDGE)));
    let mut captions = Vec::new();
    if let Some(gap) = &outcome.gap {
        let stretch = stretch(gap, outcome);
        round(&mut canvas, (gap, outcome), stretch);
        labels(&mut canvas, gap, (reader, order.is_some()));
        let mut off = say!("figure-closing-wider", stretch = format!("{stretch:.0}"));
        if gap.direction_standard_uncertainty_deg.is_some() {
            off = format!("{off} {}", say!("figure-closing-bar-widest"));
        }
        captions.push(say!(
            "figure-closing-gap",
            narrowest = reader.known(gap.narrowest.gap_mm, gap.narrowest.standard_uncertainty_mm),
            widest = reader.known(gap.widest.gap_mm, gap.widest.standard_uncertainty_mm),
            mean = reader.uncertain(gap.mean_mm, gap.mean_standard_uncertainty_mm)
        ));
        captions.push(off);
        if limits(gap, outcome, stretch).next().is_some() {
            captions.push(say!("figure-closing-dashed-limits").to_owned());
        }
    }
    if let Some(order) = order {
        captions.push(bolts(&mut canvas, order));
    }
    for (i, caption) in captions.iter().enumerate() {
        let kind = if i == 0 { style::LABEL } else { style::SMALL };
        canvas.text((CENTRE.0, 84.4 + 3.4 * i as f64), caption, kind.at(Anchor::Middle));
    }
    canvas.lines(((0.5, 2.6), 2.7), say!("figure-common-facing"), style::SMALL);
    let title = say!("figure-closing-title").to_owned();
    let words = in_words(outcome, reader);
    Some(Drawing::new(name.to_owned(), title, words, (style::WIDTH, canvas)))
}

/// A point at an angle from the top, counter-clockwise.
fn at(angle_deg: f64, radius: f64) -> Point {
    let angle = angle_deg.to_radians();
    (CENTRE.0 - radius * libm::sin(angle), CENTRE.1 - radius * libm::cos(angle))
}

/// By what gaps about their mean are drawn larger: a round number, that of the drawing in mm.
fn stretch(gap: &GapRound, outcome: &Outcome) -> f64 {
    let off = gap.places.iter().map(|place| (place.gap_mm - gap.mean_mm).abs());
    let most = off.fold(gap.out_of_parallel_mm / 2.0, f64::max);
    let limits = [outcome.gap_limit_min_mm, outcome.gap_limit_max_mm];
    let nearest = limits.into_iter().flatten().map(|limit| (limit - gap.mean_mm).abs());
    // A limit that is near is drawn too.
    let near = nearest.filter(|limit| *limit < 3.0 * most).fold(most, f64::max);
    round_down(SWING / near.max(1e-3))
}

fn round(canvas: &mut Canvas, (gap, outcome): (&GapRound, &Outcome), stretch: f64) {
    let radius = |mm: f64| MEAN + stretch * (mm - gap.mean_mm);
    for limit in limits(gap, outcome, stretch) {
        let pen = Pen::new(0.25, style::INK).dashed(1.4, 0.8);
        canvas.circle(CENTRE, radius(limit), ("none", Some(pen)));
    }
    let half = gap.out_of_parallel_mm / 2.0;
    let plane: Vec<Point> = (0..=STEPS)
        .map(|step| {
            let angle = f64::from(step) * 360.0 / f64::from(STEPS);
            let wave = libm::cos((angle - gap.widest.angle_deg).to_radians());
            at(angle, radius(gap.mean_mm + half * wave))
        })
        .collect();
    canvas.polyline(&plane, Pen::new(0.5, style::ACCENT));
    for place in &gap.places {
        let end = at(place.angle_deg, radius(place.gap_mm));
        canvas.line(at(place.angle_deg, MEAN), end, Pen::new(0.25, style::INK));
        canvas.circle(end, 0.7, (style::INK, Some(Pen::new(0.2, style::PAPER))));
    }
}

/// The limits that lie on the drawing.
fn limits(gap: &GapRound, outcome: &Outcome, stretch: f64) -> impl Iterator<Item = f64> {
    let mean = gap.mean_mm;
    let near = move |limit: &f64| (stretch * (limit - mean)).abs() <= SWING * 1.02;
    [outcome.gap_limit_min_mm, outcome.gap_limit_max_mm].into_iter().flatten().filter(near)
}

/// What was read, inside the circle at its place; many places would not be legible.
fn labels(canvas: &mut Canvas, gap: &GapRound, (reader, bolts): (Reader, bool)) {
    if gap.places.len() <= 12 {
        for PlaceRead { angle_deg, gap_mm, .. } in &gap.places {
            let (x, y) = at(*angle_deg, MEAN - 8.6);
            let text = reader.number(*gap_mm, reader.workshop_decimals());
            canvas.text((x, y + 0.9), &text, style::SMALL.at(Anchor::Middle));
        }
    }
    if !bolts {
        for place in &gap.places {
            let (x, y) = at(place.angle_deg, MEAN + 11.0);
            let text = reader::degrees(place.angle_deg);
            canvas.text((x, y + 0.9), &text, style::SMALL.at(Anchor::Middle));
        }
    }
    if gap.direction_standard_uncertainty_deg.is_some() {
        let arc = |radius: f64| -> Vec<Point> {
            (-4..=4).map(|i| at(gap.widest.angle_deg + f64::from(i) * 2.5, radius)).collect()
        };
        canvas.polyline(&arc(MEAN + SWING + 1.8), Pen::new(1.2, style::INK));
    }
    let (x, y) = CENTRE;
    let kind = style::SMALL.at(Anchor::Middle);
    canvas.text((x, y), &say!("figure-closing-read", unit = reader.unit()), kind);
}

/// Bolts with the number of their turn; what the caption says of them.
fn bolts(canvas: &mut Canvas, order: &[u32]) -> String {
    let count = order.len();
    if count > MOST_DRAWN {
        return say!("figure-closing-order-in-table", count);
    }
    for (turn, bolt) in order.iter().enumerate() {
        let angle = 360.0 * f64::from(bolt - 1) / count as f64;
        let place = at(angle, BOLTS);
        let small = count > 20;
        let radius = if small { 2.0 } else { 2.7 };
        canvas.circle(place, radius, (style::PAPER, Some(style::EDGE)));
        let kind = if small { style::SMALL } else { style::LABEL };
        let text = (turn + 1).to_string();
        canvas.text((place.0, place.1 + 1.0), &text, kind.at(Anchor::Middle));
    }
    say!("figure-closing-bolts", count)
}

fn in_words(outcome: &Outcome, reader: Reader) -> String {
    let gap = outcome.gap.as_ref().map(|gap| {
        say!(
            "figure-closing-alt-gap",
            mean = reader.uncertain(gap.mean_mm, gap.mean_standard_uncertainty_mm),
            narrowest = reader.known(gap.narrowest.gap_mm, gap.narrowest.standard_uncertainty_mm),
            narrowest_at = reader::direction(gap.narrowest.angle_deg, None),
            widest = reader.known(gap.widest.gap_mm, gap.widest.standard_uncertainty_mm),
            widest_at = reader::direction(gap.widest.angle_deg, None)
        )
    });
    let bolts = outcome.pull_down.as_ref().map(|pull| {
        let order: Vec<String> = pull.order.iter().map(ToString::to_string).collect();
        say!("figure-closing-alt-bolts", order = order.join(", "))
    });
    gap.into_iter().chain(bolts).collect::<Vec<_>>().join(" ")
}
