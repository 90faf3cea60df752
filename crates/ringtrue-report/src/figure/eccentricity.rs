//! The housings from above: where the axes stand, by how much, and where the faces stand nearest.
//!
//! Seen facing the face of half b, 0 at the top, angles counter-clockwise, as the ring is. The
//! offset is drawn to its own scale, stated below: to that of the housing nobody would see it.

use ringtrue_metrology::units::fixed;
use ringtrue_seal::alignment::{Outcome, Surface, Sweep};
use ringtrue_words::say;

use super::axis::round_up;
use super::svg::{Anchor, Canvas, Pen, Point};
use super::{Drawing, style};
use crate::reader::{self, COVERAGE_FACTOR, Reader};

const CENTRE: Point = (45.0, 40.0);
/// The circle of the swept surface.
const SWEPT: f64 = 28.0;
/// How far the largest circle of the offset's scale reaches.
const REACH: f64 = 20.0;
/// Most that what is left after the first wave is drawn off its circle.
const SWING: f64 = 3.0;

/// The picture of one alignment; nothing where no rim or bore was swept.
pub(crate) fn draw(name: &str, outcome: &Outcome, reader: Reader) -> Option<Drawing> {
    let off = outcome.eccentricity_mm?;
    let towards = outcome.eccentricity_direction_deg?;
    let mut canvas = Canvas::new(style::WIDTH, 90.0);
    let most = off.max(outcome.eccentricity_limit_mm.unwrap_or(0.0));
    let whole = round_up(most.max(1e-4));
    let scale = REACH / whole;
    surface(&mut canvas, outcome);
    rings(&mut canvas, outcome, (whole, scale), reader);
    arrow(&mut canvas, (towards, off * scale));
    blur(&mut canvas, outcome, (towards, off * scale), scale);
    nearest(&mut canvas, outcome);
    words(&mut canvas, outcome, reader);
    let title = say!("figure-eccentricity-title").to_owned();
    Some(Drawing::new(name.to_owned(), title, in_words(outcome, reader), (style::WIDTH, canvas)))
}

/// A point at an angle from the top, counter-clockwise.
fn at(angle_deg: f64, radius: f64) -> Point {
    let angle = angle_deg.to_radians();
    (CENTRE.0 - radius * libm::sin(angle), CENTRE.1 - radius * libm::cos(angle))
}

/// The swept circle with what the first wave leaves, and the angles round it.
fn surface(canvas: &mut Canvas, outcome: &Outcome) {
    canvas.circle(CENTRE, SWEPT, (style::METAL, Some(style::EDGE)));
    for step in 0..8 {
        let angle = f64::from(step) * 45.0;
        canvas.line(at(angle, SWEPT), at(angle, SWEPT + 1.2), style::THIN);
        let (x, y) = at(angle, SWEPT + 7.0);
        canvas.text((x, y + 0.9), &format!("{angle}°"), style::SMALL.at(Anchor::Middle));
    }
    let radial = |sweep: &&Sweep| sweep.half == outcome.of_half && sweep.surface != Surface::Face;
    let Some(sweep) = outcome.sweeps.iter().find(radial) else { return };
    let largest = sweep.residuals_mm.iter().fold(0.0, |most: f64, e| most.max(e.abs()));
    let stretch = if largest > 1e-9 { SWING / largest } else { 0.0 };
    for (angle, left) in sweep.angles_deg.iter().zip(&sweep.residuals_mm) {
        let end = at(*angle, SWEPT + left * stretch);
        canvas.line(at(*angle, SWEPT), end, Pen::new(0.25, style::INK));
        canvas.circle(end, 0.6, (style::INK, Some(Pen::new(0.2, style::PAPER))));
    }
}

/// Circles of the offset's own scale, and the limit.
fn rings(canvas: &mut Canvas, outcome: &Outcome, (whole, scale): (f64, f64), reader: Reader) {
    canvas.circle(CENTRE, REACH, (style::PAPER, Some(Pen::new(0.16, style::FAINT))));
    canvas.circle(CENTRE, REACH / 2.0, ("none", Some(Pen::new(0.16, style::FAINT))));
    let cross = Pen::new(0.16, style::FAINT);
    canvas.line((CENTRE.0 - REACH, CENTRE.1), (CENTRE.0 + REACH, CENTRE.1), cross);
    canvas.line((CENTRE.0, CENTRE.1 - REACH), (CENTRE.0, CENTRE.1 + REACH), cross);
    if let Some(limit) = outcome.eccentricity_limit_mm.filter(|limit| limit * scale <= REACH) {
        canvas.circle(CENTRE, limit * scale, ("none", Some(style::HEAVY)));
    }
    canvas.circle(CENTRE, 0.7, (style::INK, None));
    let text = reader.exact(whole, 0);
    let kind = style::SMALL.at(Anchor::Middle);
    canvas.text_over((CENTRE.0, CENTRE.1 + REACH + 0.8), &text, kind);
}

fn arrow(canvas: &mut Canvas, (towards, length): (f64, f64)) {
    let tip = at(towards, length);
    canvas.line(CENTRE, tip, Pen::new(0.6, style::ACCENT));
    if length < 1.0 {
        return;
    }
    let size = (0.4 * length).min(2.6);
    let back = at(towards, length - size);
    let (dx, dy) = ((tip.0 - back.0) / size, (tip.1 - back.1) / size);
    let wing = |s: f64| (back.0 - s * dy, back.1 + s * dx);
    canvas.polygon(&[tip, wing(0.42 * size), wing(-0.42 * size)], style::ACCENT, None);
}

/// The expanded uncertainty as a circle about the arrow's tip.
fn blur(canvas: &mut Canvas, outcome: &Outcome, (towards, length): (f64, f64), scale: f64) {
    if let Some(u) = outcome.eccentricity_standard_uncertainty_mm {
        let radius = (COVERAGE_FACTOR * u * scale).min(REACH);
        let pen = Pen::new(0.25, style::ACCENT).dashed(1.0, 0.7);
        canvas.circle(at(towards, length), radius.max(0.3), ("none", Some(pen)));
    }
}

/// Where the faces stand nearest: a bar outside the circle.
fn nearest(canvas: &mut Canvas, outcome: &Outcome) {
    let resolved = outcome.angle_direction_standard_uncertainty_deg.is_some();
    let Some(angle) = outcome.angle_direction_deg.filter(|_| resolved) else { return };
    let arc: Vec<_> = (-4..=4).map(|i| at(angle + f64::from(i) * 2.5, SWEPT + 3.4)).collect();
    canvas.polyline(&arc, Pen::new(1.2, style::INK));
}

fn words(canvas: &mut Canvas, outcome: &Outcome, reader: Reader) {
    let middle = style::LABEL.at(Anchor::Middle);
    let mut lines = vec![(
        say!(
            "figure-eccentricity-stands-off",
            half = outcome.of_half.name(),
            offset = reader.uncertain(
                outcome.eccentricity_mm.unwrap_or(0.0),
                outcome.eccentricity_standard_uncertainty_mm
            ),
            direction = reader::direction(outcome.eccentricity_direction_deg.unwrap_or(0.0), None)
        ),
        middle.bold(),
    )];
    if let Some(limit) = outcome.eccentricity_limit_mm {
        lines.push((
            say!("figure-eccentricity-heavy-circle-limit", limit = reader.exact(limit, 0)),
            middle,
        ));
    }
    let mut small = vec![say!("figure-eccentricity-dots")];
    if outcome.angle_direction_standard_uncertainty_deg.is_some() {
        small.push(say!("figure-eccentricity-bar"));
    }
    if outcome.eccentricity_standard_uncertainty_mm.is_some() {
        small.push(say!("figure-eccentricity-dashed"));
    }
    lines.push((small.join(" "), style::SMALL.at(Anchor::Middle)));
    for (i, (line, kind)) in lines.iter().enumerate() {
        canvas.text((CENTRE.0, 80.8 + 3.6 * i as f64), line, *kind);
    }
    canvas.lines(((0.5, 2.6), 2.7), say!("figure-common-facing"), style::SMALL);
}

fn in_words(outcome: &Outcome, reader: Reader) -> String {
    let half = outcome.of_half.name();
    let offset = reader.uncertain(
        outcome.eccentricity_mm.unwrap_or(0.0),
        outcome.eccentricity_standard_uncertainty_mm,
    );
    let direction = reader::direction(
        outcome.eccentricity_direction_deg.unwrap_or(0.0),
        outcome.eccentricity_direction_standard_uncertainty_deg,
    );
    match (outcome.angle_mrad, outcome.angle_direction_deg) {
        (Some(mrad), Some(angle)) => {
            let (mrad, nearest) = (fixed(mrad, 2), reader::direction(angle, None));
            say!("figure-eccentricity-alt-faces", half, offset, direction, mrad, nearest)
        }
        (Some(_) | None, _) => say!("figure-eccentricity-alt", half, offset, direction),
    }
}
