//! Dimension lines, leaders and angles of a half-section.

use ringtrue_metrology::units::{Length, Quantity, fixed, in_mm as mm};
use ringtrue_seal::definition::seal::{LoadRing, Ramp, Seal};
use ringtrue_words::say;

use super::{Facing, Load, Outline, View};
use crate::figure::style;
use crate::figure::svg::{Anchor, Canvas, Pen, Point};
use crate::figure::text_width;
use crate::reader::Reader;

/// All dimensions that the definition gives.
pub(super) fn all(canvas: &mut Canvas, seal: &Seal, on: (&Outline, &View), reader: Reader) {
    let (outline, view) = on;
    axial_row(canvas, seal, on, reader);
    columns(canvas, seal, on, reader);
    if let (Some(ring), Some(housing)) = (&seal.ring.ramp, &seal.housing.ramp) {
        let seat = mm(ring.plane_from_face.value()) - outline.height;
        let section = match &outline.load {
            Load::Round { diameter, .. } => *diameter,
            Load::Corners(_) => 0.0,
        };
        let at_ring = seat + 0.72 * section;
        let r = radius(ring, at_ring + outline.height);
        angle(canvas, view, (at_ring, r), (ring, Into::Ring));
        let at_housing = plane(housing).min(mm(seal.housing.depth.value()) * 0.5).max(0.0);
        angle(canvas, view, (at_housing, radius(housing, at_housing)), (housing, Into::Housing));
    }
    load_label(canvas, seal, on, reader);
}

fn plane(ramp: &Ramp) -> f64 {
    mm(ramp.plane_from_face.value())
}

fn radius(ramp: &Ramp, from_face: f64) -> f64 {
    mm(ramp.diameter.value()) / 2.0 - (from_face - plane(ramp)) * libm::tan(ramp.angle.value().si())
}

fn exact(reader: Reader, mm: f64) -> String {
    reader.exact_number(mm, 0)
}

/// Axial distances above the section: depth to one side of the housing face, assembled height to
/// the other.
fn axial_row(canvas: &mut Canvas, seal: &Seal, on: (&Outline, &View), reader: Reader) {
    let (outline, view) = on;
    let top = view.at((0.0, outline.extent().3)).1;
    let row = top - 3.2;
    let depth = mm(seal.housing.depth.value());
    let words = say!("figure-section-depth", depth = exact(reader, depth));
    axial(canvas, (view.x(0.0), view.x(depth)), top - 0.8, (row, &words));
    if outline.height.abs() * view.scale > 0.8 {
        let free = reader.number(outline.height, reader.workshop_decimals());
        axial(canvas, (view.x(0.0), view.x(-outline.height)), top - 0.8, (row, ""));
        let words = say!("figure-section-stands-proud", height = free);
        let x = view.x(-outline.height);
        let half = text_width::width(&words, style::LABEL.size, style::LABEL.weight) / 2.0;
        let x = x.clamp(half + 0.5, 89.5 - half);
        canvas.text((x, row - 5.4), &words, style::LABEL.at(Anchor::Middle));
        let from = (view.x(-outline.height / 2.0), row - 0.4);
        canvas.line(from, (from.0, row - 4.6), style::THIN);
    }
    if let Some(lip) = &seal.housing.lip {
        let high = mm(lip.height.value());
        let at = view.at((high / 2.0, mm(lip.diameter.value()) / 2.0));
        let words = say!("figure-section-lip-high", height = exact(reader, high));
        let from = (at.0, at.1 - 0.4);
        let inside = match view.facing {
            Facing::Right => -1.0,
            Facing::Left => 1.0,
        };
        let to = (at.0 + inside * 5.0, view.at((0.0, outline.extent().3)).1 + 2.6);
        canvas.line(from, to, style::THIN);
        let anchor = if inside < 0.0 { Anchor::End } else { Anchor::Start };
        canvas.text_over((to.0 + inside * 0.6, to.1 + 0.9), &words, style::LABEL.at(anchor));
    }
}

/// An axial dimension between two lines, with arrows and its words in the middle above.
pub(super) fn axial(
    canvas: &mut Canvas,
    (from, to): (f64, f64),
    edge: f64,
    (row, words): (f64, &str),
) {
    for x in [from, to] {
        canvas.line((x, edge), (x, row - 0.7 * (edge - row).signum()), style::THIN);
    }
    canvas.line((from, row), (to, row), style::THIN);
    let toward = (to - from).signum();
    // Arrows stand inside where there is room.
    let side = if (to - from).abs() > 5.0 { 1.0 } else { -1.0 };
    for (x, sign) in [(from, toward * side), (to, -toward * side)] {
        let back = x + sign * 1.6;
        canvas.polygon(&[(x, row), (back, row - 0.45), (back, row + 0.45)], style::INK, None);
        if side < 0.0 {
            canvas.line((x, row), (x + sign * 3.0, row), style::THIN);
        }
    }
    if !words.is_empty() {
        let half = text_width::width(words, style::LABEL.size, style::LABEL.weight) / 2.0;
        let middle = ((from + to) / 2.0).clamp(half + 0.5, 89.5 - half);
        canvas.text((middle, row - 1.5), words, style::LABEL.at(Anchor::Middle));
    }
}

/// Diameters in a column on either side, each with a leader to its edge.
fn columns(canvas: &mut Canvas, seal: &Seal, on: (&Outline, &View), reader: Reader) {
    let (outline, _) = on;
    let ring = &seal.ring;
    let diameter = |d: Length| format!("Ø {}", exact(reader, mm(d)));
    let at_face =
        |d: Length, what: &'static str| (what, diameter(d), (-outline.height, mm(d) / 2.0));
    let mut face = vec![
        at_face(ring.face_outer_diameter.value(), say!("figure-section-face")),
        at_face(ring.contact_band_outer_diameter.value(), say!("figure-section-band")),
        at_face(ring.contact_band_inner_diameter.value(), say!("figure-section-band")),
        at_face(ring.face_inner_diameter.value(), say!("figure-section-face")),
    ];
    if let Some(lip) = &seal.housing.lip {
        let d = lip.diameter.value();
        face.insert(0, (say!("figure-section-lip"), diameter(d), (0.0, mm(d) / 2.0)));
    }
    let mut back = Vec::new();
    if let Some(ramp) = &seal.housing.ramp {
        let d = ramp.diameter.value();
        back.push((say!("figure-section-housing-ramp"), diameter(d), (plane(ramp), mm(d) / 2.0)));
    }
    if let Some(ramp) = &ring.ramp {
        let d = ramp.diameter.value();
        back.push((
            say!("figure-section-ring-ramp"),
            diameter(d),
            (plane(ramp) - outline.height, mm(d) / 2.0),
        ));
    }
    if let LoadRing::ConicalWasher(washer) = &seal.load_ring {
        let middle = middle_of(&outline.load.points());
        back.push((say!("figure-section-conical-washer"), washer.material.clone(), middle));
    }
    let (face_side, back_side) = match on.1.facing {
        Facing::Right => (Column::Right, Column::Left),
        Facing::Left => (Column::Left, Column::Right),
    };
    column(canvas, &face, on, face_side);
    column(canvas, &back, on, back_side);
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Column {
    Left,
    Right,
}

type Entry = (&'static str, String, Point);

fn column(canvas: &mut Canvas, entries: &[Entry], on: (&Outline, &View), column: Column) {
    const APART: f64 = 6.6;
    let (outline, view) = on;
    let mut spots: Vec<(f64, &Entry)> =
        entries.iter().map(|entry| (view.at(entry.2).1, entry)).collect();
    spots.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut heights: Vec<f64> = spots.iter().map(|spot| spot.0).collect();
    let lowest = view.at((0.0, outline.extent().2)).1 + 4.0;
    for i in 1..heights.len() {
        heights[i] = heights[i].max(heights[i - 1] + APART);
    }
    if let Some(last) = heights.last().copied() {
        // Pushed too far down: move the column up, keeping its order.
        let over = (last - lowest).max(0.0);
        for (i, height) in heights.iter_mut().enumerate().rev() {
            *height = (*height).min(last - over - APART * (spots.len() - 1 - i) as f64);
        }
    }
    let (edge, anchor, knee) = match column {
        Column::Left => (0.5, Anchor::Start, 1.0),
        Column::Right => (89.5, Anchor::End, -1.0),
    };
    for ((_, (what, number, point)), y) in spots.iter().zip(heights) {
        let number = &text_width::cut(number, style::NUMBER.size, style::NUMBER.weight, 16.0);
        let wide = text_width::width(number, style::NUMBER.size, style::NUMBER.weight)
            .max(text_width::width(what, style::SMALL.size, style::SMALL.weight));
        canvas.text((edge, y + 0.1), number, style::NUMBER.at(anchor));
        canvas.text((edge, y + 2.8), what, style::SMALL.at(anchor));
        let from = (edge + knee * (wide + 1.0), y - 0.8);
        let to = view.at(*point);
        canvas.polyline(&[from, (from.0 + knee * 2.0, y - 0.8), to], style::THIN);
        canvas.circle(to, 0.45, (style::INK, None));
    }
}

/// Which part's metal a ramp belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Into {
    Ring,
    Housing,
}

/// A ramp's angle to the axis, its words in the part's own metal.
fn angle(canvas: &mut Canvas, view: &View, at: Point, (ramp, part): (&Ramp, Into)) {
    const LONG: f64 = 8.0;
    let angle = ramp.angle.value().si();
    let vertex = view.at(at);
    // Along the axis towards the face; the ramp rises that way.
    let side = match view.facing {
        Facing::Right => 1.0,
        Facing::Left => -1.0,
    };
    let ray =
        |t: f64, long: f64| (vertex.0 + side * long * libm::cos(t), vertex.1 - long * libm::sin(t));
    let flip = match part {
        Into::Ring => 1.0,
        Into::Housing => -1.0,
    };
    // In the ring the axis' direction lies in the metal below the ramp; in the housing, beyond
    // the vertex.
    let turned = if flip < 0.0 { std::f64::consts::PI } else { 0.0 };
    let pen = Pen::new(0.2, style::INK);
    canvas.line(vertex, ray(turned, LONG + 1.5), pen);
    let arc: Vec<_> = (0..=10).map(|i| ray(turned + angle * f64::from(i) / 10.0, LONG)).collect();
    canvas.polyline(&arc, pen);
    let degrees = angle.to_degrees();
    let decimals = usize::from((degrees - degrees.round()).abs() > 1e-6) * 2;
    let text = format!("{}°", fixed(degrees, decimals));
    let foot = ray(turned, LONG);
    let y = if flip > 0.0 { foot.1 + 3.0 } else { foot.1 - 1.2 };
    canvas.text_over((foot.0, y), &text, style::NUMBER.at(Anchor::Middle));
}

fn load_label(canvas: &mut Canvas, seal: &Seal, on: (&Outline, &View), reader: Reader) {
    let (outline, view) = on;
    match (&outline.load, &seal.load_ring) {
        (Load::Round { centre, diameter }, LoadRing::Toric(toric)) => {
            let (x, y) = view.at(*centre);
            let decimals = reader.workshop_decimals();
            let number = format!("Ø {}", reader.number(*diameter, decimals));
            let free = say!(
                "figure-section-free",
                diameter = exact(reader, mm(toric.section_diameter.value()))
            );
            let middle = style::NUMBER.at(Anchor::Middle);
            canvas.text_over((x, y - 0.2), &number, middle);
            canvas.text_over((x, y + 3.0), &free, style::LABEL.at(Anchor::Middle));
        }
        (Load::Round { .. } | Load::Corners(_), LoadRing::ConicalWasher(_))
        | (Load::Corners(_), LoadRing::Toric(_)) => {}
    }
}

fn middle_of(corners: &[Point]) -> Point {
    let count = corners.len().max(1) as f64;
    let sum = corners.iter().fold((0.0, 0.0), |s, p| (s.0 + p.0, s.1 + p.1));
    (sum.0 / count, sum.1 / count)
}

/// The section for a reader who does not see it.
pub(super) fn in_words(whose: &str, seal: &Seal, outline: &Outline, reader: Reader) -> String {
    let d = |length: Length| reader.exact(mm(length), 0);
    let workshop = |mm: f64| reader.length(mm, reader.workshop_decimals());
    let ramps = match (&seal.ring.ramp, &seal.housing.ramp) {
        (Some(ring), Some(housing)) => {
            let (ring, housing) = (ring.angle.typed(), housing.angle.typed());
            Some(say!("figure-section-alt-ramps", ring, housing))
        }
        (Some(_), None) | (None, Some(_)) | (None, None) => None,
    };
    let load = match &outline.load {
        Load::Round { diameter, .. } => {
            say!("figure-section-alt-toric", diameter = workshop(*diameter))
        }
        Load::Corners(_) => say!("figure-section-alt-washer").to_owned(),
    };
    let ring = &seal.ring;
    let faces = say!(
        "figure-section-alt",
        whose,
        face_inner = d(ring.face_inner_diameter.value()),
        face_outer = d(ring.face_outer_diameter.value()),
        band_inner = d(ring.contact_band_inner_diameter.value()),
        band_outer = d(ring.contact_band_outer_diameter.value())
    );
    let proud = say!("figure-section-alt-proud", height = workshop(outline.height));
    let deep = say!("figure-section-alt-deep", depth = d(seal.housing.depth.value()));
    let told: Vec<String> =
        std::iter::once(faces).chain(ramps).chain([load, proud, deep]).collect();
    format!("{}.", told.join("; "))
}
