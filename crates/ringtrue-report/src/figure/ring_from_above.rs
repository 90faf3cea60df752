//! The ring seen facing its lapped face: where it stands high, and what to do about it.
//!
//! The paint mark is at the top, angles run counter-clockwise. The face is to scale; heights are
//! drawn outward about a circle that stands for the mean height, exaggerated by a stated factor.

use ringtrue_seal::assembled_height::{Action, Deed, Outcome};
use ringtrue_words::say;

use super::axis::round_down;
use super::style;
use super::svg::{Anchor, Canvas, Pen, Point, Type};
use super::{Drawing, mark};
use crate::reader::{self, Reader};

mod labels;

/// The ring's own measures, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Face {
    /// Outside diameter of the lapped face.
    pub(crate) outer: f64,
    /// Inside diameter of the lapped face.
    pub(crate) inner: f64,
    /// Outside and inside diameter of the contact band.
    pub(crate) band: (f64, f64),
}

/// One ring with its readings.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Ring<'a> {
    /// Name of the drawing.
    pub(crate) name: &'a str,
    /// Whose ring: `half a`.
    pub(crate) whose: &'a str,
    /// The ring's face.
    pub(crate) face: Face,
    /// What the readings say.
    pub(crate) outcome: &'a Outcome,
    /// Units.
    pub(crate) reader: Reader,
}

/// Where things stand on the drawing, mm.
struct Layout {
    centre: Point,
    /// Outer edge of the face.
    face: f64,
    /// The circle of the mean height.
    mean: f64,
    /// Most that a height is drawn off that circle.
    swing: f64,
}

/// Few places, their labels upright.
const FEW: Layout = Layout { centre: (45.0, 45.0), face: 20.0, mean: 26.2, swing: 4.0 };
/// Many places, their labels along the rays.
const MANY: Layout = Layout { centre: (45.0, 45.0), face: 17.5, mean: 22.7, swing: 3.6 };
/// Points along a curve.
const STEPS: u32 = 180;

/// The ring with every reading, the fitted tilt and what to do.
pub(crate) fn draw(ring: &Ring) -> Drawing {
    let layout = if labels::are_upright(ring.outcome) { &FEW } else { &MANY };
    let stretch = stretch(ring.outcome, layout);
    let captions = captions(ring, layout, stretch);
    let mut canvas = Canvas::new(style::WIDTH, 90.0 + 3.3 * captions.len() as f64);
    face(&mut canvas, &ring.face, layout);
    ribbon(&mut canvas, ring.outcome, layout, stretch);
    dots(&mut canvas, ring.outcome, layout, stretch);
    labels::places(&mut canvas, ring, layout);
    way_round(&mut canvas);
    labels::paint_mark(&mut canvas, ring, layout);
    labels::high_side(&mut canvas, ring, layout);
    labels::deeds(&mut canvas, ring, layout);
    for (i, caption) in captions.iter().enumerate() {
        let y = 92.0 + 3.3 * i as f64;
        canvas.text((45.0, y), caption, style::SMALL.at(Anchor::Middle));
    }
    let title = say!("figure-ring-title", whose = ring.whose);
    Drawing::new(ring.name.to_owned(), title, in_words(ring), (style::WIDTH, canvas))
}

fn captions(ring: &Ring, layout: &Layout, stretch: Option<f64>) -> Vec<String> {
    let mut captions = match stretch {
        Some(stretch) => vec![
            say!("figure-ring-tint").to_owned(),
            exaggeration_text(exaggeration(&ring.face, layout, stretch)),
        ],
        None => vec![say!("figure-ring-no-tilt").to_owned()],
    };
    if !ring.outcome.suspects.is_empty() {
        captions.push(say!("figure-ring-triangle").to_owned());
    }
    let again = |a: &Action| a.deed == Deed::MeasureAgain && a.angle_deg.is_some();
    if ring.outcome.actions.iter().any(again) {
        captions.push(say!("figure-ring-open-circle").to_owned());
    }
    captions
}

/// Earlier tries and the last one side by side, each as a small ring.
pub(crate) fn tries(name: &str, whose: &str, rings: &[Ring]) -> Drawing {
    const WIDE: f64 = 30.0;
    const HIGH: f64 = 38.0;
    let across = rings.len().clamp(2, 3);
    let rows = rings.len().div_ceil(across).max(1);
    let mut canvas = Canvas::new(WIDE * across as f64, HIGH * rows as f64);
    // One exaggeration for all, so that they can be compared.
    let small = |centre| Layout { centre, face: 9.0, mean: 11.4, swing: 2.2 };
    let stretch = rings
        .iter()
        .filter_map(|ring| self::stretch(ring.outcome, &small((0.0, 0.0))))
        .fold(None, |least: Option<f64>, s| Some(least.map_or(s, |l| l.min(s))));
    for (i, ring) in rings.iter().enumerate() {
        let left = (i % across) as f64 * WIDE;
        let top = (i / across) as f64 * HIGH;
        let layout = small((left + WIDE / 2.0, top + 19.0));
        face(&mut canvas, &ring.face, &layout);
        ribbon(&mut canvas, ring.outcome, &layout, stretch);
        dots(&mut canvas, ring.outcome, &layout, stretch);
        let middle = layout.centre.0;
        let heading = say!("figure-ring-try", number = i + 1);
        canvas.text((middle + 1.6, top + 3.4), &heading, style::LABEL.bold().at(Anchor::Middle));
        let half = super::text_width::width(&heading, 2.5, super::svg::Weight::Bold) / 2.0;
        mark::draw(&mut canvas, ring.outcome.verdict, (middle - half - 1.0, top + 2.5), 2.8);
        let u = ring.outcome.range_standard_uncertainty_mm;
        let range = say!("figure-ring-range", range = ring.reader.known(ring.outcome.range_mm, u));
        canvas.text((middle, top + 36.4), &range, style::LABEL.at(Anchor::Middle));
    }
    let told: Vec<_> = rings
        .iter()
        .enumerate()
        .map(|(i, ring)| {
            let range = ring
                .reader
                .known(ring.outcome.range_mm, ring.outcome.range_standard_uncertainty_mm);
            say!(
                "figure-ring-try-told",
                number = i + 1,
                range,
                verdict = ring.outcome.verdict.words()
            )
        })
        .collect();
    let alt = say!("figure-ring-tries-alt", whose, tries = told.join("; "));
    let title = say!("figure-ring-tries-title", whose);
    Drawing::new(name.to_owned(), title, alt, (WIDE * across as f64, canvas))
}

/// The ring alone, small, with its mark: the picture of one half on the first page.
pub(crate) fn emblem(ring: &Ring) -> Drawing {
    let mut canvas = Canvas::new(44.0, 44.0);
    let layout = Layout { centre: (22.0, 22.0), face: 15.0, mean: 18.2, swing: 2.6 };
    let stretch = stretch(ring.outcome, &layout);
    face(&mut canvas, &ring.face, &layout);
    ribbon(&mut canvas, ring.outcome, &layout, stretch);
    dots(&mut canvas, ring.outcome, &layout, stretch);
    mark::draw(&mut canvas, ring.outcome.verdict, (22.0, 18.6), 6.0);
    canvas.text((22.0, 26.6), ring.whose, style::NUMBER.at(Anchor::Middle));
    let title = say!("figure-ring-title", whose = ring.whose);
    Drawing::new(ring.name.to_owned(), title, in_words(ring), (44.0, canvas))
}

/// Drawn mm per mm of height; `None` where all places stand at one height.
fn stretch(outcome: &Outcome, layout: &Layout) -> Option<f64> {
    let off = |place: &ringtrue_seal::assembled_height::Place| {
        (place.height_mm - outcome.mean_height_mm).abs()
    };
    let most = outcome.places.iter().map(off).fold(outcome.tilt_mm / 2.0, f64::max);
    (most.is_finite() && most > 1e-9).then(|| layout.swing / most)
}

/// How many times larger heights are drawn than the face.
fn exaggeration(face: &Face, layout: &Layout, stretch: f64) -> f64 {
    stretch / (layout.face / (face.outer / 2.0))
}

fn exaggeration_text(times: f64) -> String {
    // Two digits are as many as a reader can use.
    let step = round_down(times) / 10.0;
    let shown = (times / step).round() * step;
    let decimals = usize::from(shown < 10.0);
    let shown = ringtrue_metrology::units::fixed(shown, decimals);
    say!("figure-ring-exaggeration", times = shown)
}

/// A point at an angle from the paint mark, counter-clockwise.
fn at(centre: Point, angle_deg: f64, radius: f64) -> Point {
    let angle = angle_deg.to_radians();
    (centre.0 - radius * libm::sin(angle), centre.1 - radius * libm::cos(angle))
}

fn circle_points(centre: Point, radius: impl Fn(f64) -> f64) -> Vec<Point> {
    (0..STEPS)
        .map(|step| f64::from(step) * 360.0 / f64::from(STEPS))
        .map(|angle| at(centre, angle, radius(angle)))
        .collect()
}

fn face(canvas: &mut Canvas, face: &Face, layout: &Layout) {
    let scale = layout.face / (face.outer / 2.0);
    let radius = |diameter: f64| (diameter / 2.0 * scale).max(0.0);
    canvas.circle(layout.centre, layout.face, (style::METAL, Some(style::EDGE)));
    let edge = Some(style::HAIR);
    canvas.circle(layout.centre, radius(face.band.0), (style::BAND, edge));
    canvas.circle(layout.centre, radius(face.band.1), (style::METAL, edge));
    canvas.circle(layout.centre, radius(face.inner), (style::PAPER, Some(style::EDGE)));
    // The paint mark, across the face.
    let mark = Pen::new(layout.face * 0.06, style::INK);
    let middle = layout.face - 0.5 * mark.width;
    canvas.line(at(layout.centre, 0.0, middle), at(layout.centre, 0.0, radius(face.inner)), mark);
}

fn ribbon(canvas: &mut Canvas, outcome: &Outcome, layout: &Layout, stretch: Option<f64>) {
    let pen = Pen::new(0.2, style::MUTED).dashed(1.0, 0.8);
    let Some(stretch) = stretch.filter(|_| outcome.tilt_mm.is_finite()) else {
        canvas.circle(layout.centre, layout.mean, ("none", Some(pen)));
        return;
    };
    let plane = |angle: f64| {
        let off = outcome.tilt_mm / 2.0 * libm::cos((angle - outcome.high_side_deg).to_radians());
        layout.mean + off * stretch
    };
    let above = |angle: f64| plane(angle).max(layout.mean);
    let mut sickle = circle_points(layout.centre, above);
    sickle.push(sickle[0]);
    let mut back = circle_points(layout.centre, |_| layout.mean);
    back.push(back[0]);
    back.reverse();
    sickle.extend(back);
    canvas.polygon(&sickle, style::TINT, None);
    let ray = Pen::new(0.16, style::ACCENT);
    for step in 0..STEPS {
        let angle = f64::from(step) * 360.0 / f64::from(STEPS);
        if plane(angle) < layout.mean - 0.05 {
            let centre = layout.centre;
            canvas.line(at(centre, angle, plane(angle)), at(centre, angle, layout.mean), ray);
        }
    }
    canvas.circle(layout.centre, layout.mean, ("none", Some(pen)));
    let curve = circle_points(layout.centre, plane);
    canvas.polygon(&curve, "none", Some(Pen::new(layout.face * 0.02, style::ACCENT)));
}

fn dots(canvas: &mut Canvas, outcome: &Outcome, layout: &Layout, stretch: Option<f64>) {
    let stretch = stretch.unwrap_or(0.0);
    let size = layout.face * 0.05;
    for place in &outcome.places {
        let drawn = |height: f64| layout.mean + (height - outcome.mean_height_mm) * stretch;
        let dot = at(layout.centre, place.angle_deg, drawn(place.height_mm));
        let on_plane = at(layout.centre, place.angle_deg, drawn(place.plane_mm));
        canvas.line(on_plane, dot, Pen::new(0.25, style::INK));
        if is_suspect(outcome, place.angle_deg) {
            suspect(canvas, dot, size * 1.6);
        } else {
            canvas.circle(dot, size, (style::INK, Some(Pen::new(0.25, style::PAPER))));
        }
    }
}

/// Is this the angle of a suspected bulge or twist?
pub(super) fn is_suspect(outcome: &Outcome, angle_deg: f64) -> bool {
    outcome.suspects.iter().any(|suspect| (suspect - angle_deg).abs() < 1e-6)
}

/// The mark of a place that stands off the fitted shape: a triangle on its base.
pub(super) fn suspect(canvas: &mut Canvas, (x, y): Point, size: f64) {
    let corners = [(x, y - size), (x + size, y + size * 0.75), (x - size, y + size * 0.75)];
    canvas.polygon(&corners, style::PAPER, Some(Pen::new(0.4, style::INK)));
}

/// The arrow that tells which way angles run.
fn way_round(canvas: &mut Canvas) {
    let centre = FEW.centre;
    let arc: Vec<_> = (0..=12).map(|i| at(centre, 47.0 + f64::from(i) * 1.2, 50.0)).collect();
    canvas.polyline(&arc, style::EDGE);
    let tip = arc[arc.len() - 1];
    let (back, side) = (at(centre, 59.0, 50.0), 0.9);
    let along = ((tip.0 - back.0).hypot(tip.1 - back.1)).max(1e-9);
    let (dx, dy) = ((tip.0 - back.0) / along, (tip.1 - back.1) / along);
    let wing = |s: f64| (tip.0 - 1.8 * dx - s * dy, tip.1 - 1.8 * dy + s * dx);
    canvas.polygon(&[tip, wing(side), wing(-side)], style::INK, None);
    canvas.lines(((0.5, 2.6), 2.7), say!("figure-ring-way-round"), style::SMALL);
}

fn in_words(ring: &Ring) -> String {
    let outcome = ring.outcome;
    let reader = ring.reader;
    let mut told = vec![say!(
        "figure-ring-alt",
        whose = ring.whose,
        places = outcome.places.len(),
        range = reader.uncertain(outcome.range_mm, outcome.range_standard_uncertainty_mm),
        tilt = reader.uncertain(outcome.tilt_mm, outcome.tilt_standard_uncertainty_mm),
        direction =
            reader::direction(outcome.high_side_deg, outcome.high_side_standard_uncertainty_deg)
    )];
    for angle in &outcome.suspects {
        told.push(say!("figure-ring-alt-suspect", angle = reader::degrees(*angle)));
    }
    for action in &outcome.actions {
        if let (Some(angle), Some(amount)) = (action.angle_deg, action.amount_mm) {
            let (angle, amount) = (reader::direction(angle, None), reader.about(amount));
            told.push(match action.deed {
                Deed::Press => say!("figure-ring-alt-press", amount, angle),
                Deed::Lift => say!("figure-ring-alt-lift", amount, angle),
                Deed::MeasureAgain => say!("figure-ring-alt-read-here", amount, angle),
                Deed::TakeOut => say!("figure-ring-alt-take-out", amount, angle),
            });
        }
    }
    format!("{}.", told.join("; "))
}

/// The word that stands beside a deed's sign.
fn deed_word(deed: Deed) -> &'static str {
    match deed {
        Deed::Press => say!("figure-ring-press"),
        Deed::Lift => say!("figure-ring-lift"),
        Deed::MeasureAgain => say!("figure-ring-read-here"),
        Deed::TakeOut => say!("figure-ring-take-out"),
    }
}

/// Style of the label beside a sign.
const DEED: Type = style::LABEL.bold().at(Anchor::Middle);
