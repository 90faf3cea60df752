//! Labels round and inside the ring, kept clear of each other.

use ringtrue_seal::assembled_height::{Action, Deed, Outcome};
use ringtrue_words::say;

use super::{DEED, Layout, Ring, at, deed_word, is_suspect};
use crate::figure::style;
use crate::figure::svg::{Anchor, Canvas, Pen, Point, Type};
use crate::figure::text_width;
use crate::reader;

/// From this angle between neighbours on, labels stand upright.
const UPRIGHT_DEG: f64 = 24.0;
/// Closest that two radial labels may stand.
const RADIAL_DEG: f64 = 5.4;

/// A place's label and where it stands.
struct Label {
    angle_deg: f64,
    drawn_deg: f64,
    value: String,
    angle: String,
}

/// Do the places stand far enough apart for upright labels?
pub(super) fn are_upright(outcome: &Outcome) -> bool {
    let mut angles: Vec<f64> = outcome.places.iter().map(|place| place.angle_deg).collect();
    angles.sort_by(f64::total_cmp);
    let round = angles.first().map(|first| first + 360.0);
    let next = angles.iter().skip(1).copied().chain(round);
    angles.iter().zip(next).all(|(angle, next)| next - angle >= UPRIGHT_DEG)
}

/// A label for each place: the reading, and its angle.
pub(super) fn places(canvas: &mut Canvas, ring: &Ring, layout: &Layout) {
    let outcome = ring.outcome;
    let circle = (layout.centre, layout.mean + layout.swing + 2.0);
    let mut labels: Vec<Label> = outcome
        .places
        .iter()
        .map(|place| {
            let decimals = ring.reader.decimals(place.standard_uncertainty_mm);
            Label {
                angle_deg: place.angle_deg,
                drawn_deg: place.angle_deg,
                value: ring.reader.number(place.height_mm, decimals),
                angle: reader::degrees(place.angle_deg),
            }
        })
        .collect();
    labels.sort_by(|a, b| a.angle_deg.total_cmp(&b.angle_deg));
    if are_upright(outcome) {
        for label in &labels {
            upright(canvas, label, is_suspect(outcome, label.angle_deg), circle);
        }
        return;
    }
    let most = (360.0 / RADIAL_DEG) as usize;
    let every = labels.len().div_ceil(most).max(1);
    let mut labels: Vec<Label> =
        labels.into_iter().enumerate().filter(|(i, _)| i % every == 0).map(|(_, l)| l).collect();
    spread(&mut labels);
    for label in &labels {
        radial(canvas, label, is_suspect(outcome, label.angle_deg), circle);
    }
    if every > 1 {
        let note = say!("figure-ring-labelled", every);
        canvas.text((89.5, 2.6), &note, style::SMALL.at(Anchor::End));
    }
}

/// Moves labels apart where they stand too close, a little at a time.
fn spread(labels: &mut [Label]) {
    let count = labels.len();
    for _ in 0..400 {
        let mut moved = false;
        for i in 0..count {
            let next = (i + 1) % count;
            let turn = if next == 0 { 360.0 } else { 0.0 };
            let short = RADIAL_DEG - (labels[next].drawn_deg + turn - labels[i].drawn_deg);
            if short > 1e-3 && count > 1 {
                labels[i].drawn_deg -= short / 2.0;
                labels[next].drawn_deg += short / 2.0;
                moved = true;
            }
        }
        if !moved {
            break;
        }
    }
}

fn upright(canvas: &mut Canvas, label: &Label, suspect: bool, (centre, radius): (Point, f64)) {
    let number = style::NUMBER;
    let small = if suspect { style::SMALL.bold() } else { style::SMALL };
    let angle = if suspect {
        say!("figure-ring-suspect", angle = label.angle)
    } else {
        label.angle.clone()
    };
    let wide = text_width::width(&label.value, number.size, number.weight).max(text_width::width(
        &angle,
        small.size,
        small.weight,
    ));
    // The label's box just clears the circle.
    let toward = at((0.0, 0.0), label.angle_deg, 1.0);
    let centre = at(centre, label.angle_deg, radius);
    let x = (centre.0 + toward.0 * wide / 2.0).clamp(wide / 2.0 + 0.3, 89.7 - wide / 2.0);
    let y = centre.1 + toward.1 * 2.6;
    canvas.text((x, y + 0.1), &label.value, number.at(Anchor::Middle));
    canvas.text((x, y + 2.7), &angle, small.at(Anchor::Middle));
}

fn radial(canvas: &mut Canvas, label: &Label, suspect: bool, (centre, radius): (Point, f64)) {
    let from = at(centre, label.angle_deg, radius - 1.6);
    let to = at(centre, label.drawn_deg, radius - 0.2);
    canvas.line(from, to, style::HAIR);
    // Counter-clockwise from the top: the left side reads towards the centre.
    let turned = label.drawn_deg.rem_euclid(360.0);
    let (anchor, turn) = if turned <= 180.0 {
        (Anchor::End, 90.0 - turned)
    } else {
        (Anchor::Start, 270.0 - turned)
    };
    let number = Type { size: 2.4, ..style::NUMBER };
    let small = Type { size: 2.0, ..style::SMALL };
    let small = if suspect { small.bold() } else { small };
    let angle = if suspect { format!("{} !", label.angle) } else { label.angle.clone() };
    let wide = text_width::width(&label.value, number.size, number.weight);
    // The baseline runs beside the ray, by a third of the letters' height.
    let side = if turned <= 180.0 { 1.0 } else { -1.0 };
    let beside = (side * 0.8f64).atan2(radius).to_degrees();
    let spot = |r: f64| at(centre, label.drawn_deg + beside, r);
    canvas.text(spot(radius + 0.4), &label.value, number.at(anchor).turned(turn));
    canvas.text(spot(radius + wide + 1.2), &angle, small.at(anchor).turned(turn));
}

/// The paint mark's name inside the ring, where nothing else stands there.
pub(super) fn paint_mark(canvas: &mut Canvas, ring: &Ring, layout: &Layout) {
    let near = |angle: f64| !(50.0..=310.0).contains(&angle.rem_euclid(360.0));
    let deed = ring.outcome.actions.iter().filter_map(|action| action.angle_deg).any(near);
    let hole = layout.face * ring.face.inner / ring.face.outer;
    if !deed && hole > 12.0 {
        let at = (layout.centre.0, layout.centre.1 - hole + 3.4);
        canvas.text(at, say!("figure-ring-paint-mark"), style::SMALL.at(Anchor::Middle));
    }
}

/// The arrow through the middle to the high side, its words beside it, low on the page.
pub(super) fn high_side(canvas: &mut Canvas, ring: &Ring, layout: &Layout) {
    let outcome = ring.outcome;
    let hole = layout.face * ring.face.inner / ring.face.outer;
    let words = style::LABEL.at(Anchor::Middle);
    let number = style::NUMBER.at(Anchor::Middle);
    let tilt = ring.reader.known(outcome.tilt_mm, outcome.tilt_standard_uncertainty_mm);
    let (x, y) = layout.centre;
    if !is_resolved(outcome) {
        for (i, line) in say!("figure-ring-no-high-side").lines().enumerate() {
            canvas.text_over((x, y - 1.0 + 3.2 * i as f64), line, words);
        }
        return;
    }
    let angle = outcome.high_side_deg;
    let tip = at(layout.centre, angle, hole * 0.3);
    let tail = at(layout.centre, angle, -hole * 0.28);
    canvas.line(tail, at(layout.centre, angle, hole * 0.2), Pen::new(0.7, style::ACCENT));
    let wing = |side: f64| {
        let back = at(layout.centre, angle, hole * 0.14);
        let across = at((0.0, 0.0), angle + 90.0, side);
        (back.0 + across.0, back.1 + across.1)
    };
    canvas.polygon(&[tip, wing(1.3), wing(-1.3)], style::ACCENT, None);
    let beside = [90.0, -90.0]
        .map(|turn| at(layout.centre, angle + turn, hole * 0.48))
        .into_iter()
        .max_by(|a, b| a.1.total_cmp(&b.1));
    let at_words = beside.unwrap_or(layout.centre);
    canvas.text_over((at_words.0, at_words.1 - 2.0), say!("figure-ring-high-side"), words);
    let direction = reader::direction(angle, outcome.high_side_standard_uncertainty_deg);
    canvas.text_over((at_words.0, at_words.1 + 1.1), &direction, number);
    canvas.text_over((at_words.0, at_words.1 + 4.2), &say!("figure-ring-tilt", tilt), words);
}

/// Is the direction of the tilt known well enough to point at?
fn is_resolved(outcome: &Outcome) -> bool {
    let unknown = outcome.tilt_standard_uncertainty_mm.is_none();
    outcome.tilt_mm > 0.0 && (unknown || outcome.high_side_standard_uncertainty_deg.is_some())
}

/// Signs on the face: a cross where to press (away from the reader), a point where to lift
/// (towards the reader), an open circle where to read again.
pub(super) fn deeds(canvas: &mut Canvas, ring: &Ring, layout: &Layout) {
    let inner = layout.face * ring.face.inner / ring.face.outer;
    let middle = (layout.face + inner) / 2.0;
    let size = ((layout.face - inner) / 2.0).clamp(1.5, 2.2);
    let pen = Pen::new(0.4, style::INK);
    for action in &ring.outcome.actions {
        let Some(angle) = action.angle_deg else { continue };
        let spot = at(layout.centre, angle, middle);
        canvas.circle(spot, size, (style::PAPER, Some(pen)));
        match action.deed {
            Deed::Press => {
                let d = size * 0.7;
                canvas.line((spot.0 - d, spot.1 - d), (spot.0 + d, spot.1 + d), pen);
                canvas.line((spot.0 - d, spot.1 + d), (spot.0 + d, spot.1 - d), pen);
            }
            Deed::Lift => canvas.circle(spot, size * 0.36, (style::INK, None)),
            Deed::MeasureAgain | Deed::TakeOut => {}
        }
        if action.deed != Deed::MeasureAgain {
            deed_label(canvas, ring, action, (layout.centre, inner - 0.8, angle));
        }
    }
}

fn deed_label(canvas: &mut Canvas, ring: &Ring, action: &Action, at_edge: (Point, f64, f64)) {
    let (centre, radius, angle) = at_edge;
    let word = deed_word(action.deed);
    let amount = action.amount_mm.map(|mm| ring.reader.about(mm));
    let wide = [Some(word), amount.as_deref()]
        .into_iter()
        .flatten()
        .map(|text| text_width::width(text, DEED.size, DEED.weight))
        .fold(0.0, f64::max);
    let toward = at((0.0, 0.0), angle, 1.0);
    let edge = at(centre, angle, radius);
    let x = edge.0 - toward.0 * wide / 2.0;
    let y = edge.1 - toward.1 * 2.8;
    match amount {
        Some(amount) => {
            canvas.text_over((x, y - 0.5), word, DEED);
            canvas.text_over((x, y + 2.4), &amount, DEED);
        }
        None => canvas.text_over((x, y + 0.9), word, DEED),
    }
}
