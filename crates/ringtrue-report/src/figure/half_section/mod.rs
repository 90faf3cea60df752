//! The half-section of seal, load ring and housing, to scale from the definition.
//!
//! Each half is drawn where its load ring just touches, unsqueezed: that much geometry tells, and
//! no more. Surfaces that the definition does not give are closed with thin break lines.

use ringtrue_metrology::units::System;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::seal::Seal;
use ringtrue_words::say;

use super::hatch::{self, Lean};
use super::style;
use super::svg::{Anchor, Canvas, Pen, Point};
use super::{Drawing, text_width};
use crate::reader::Reader;
use crate::section::of_half;

mod dimensions;
pub(crate) mod installed;
mod outline;

use outline::{Edge, Side};
pub(crate) use outline::{Load, Outline, outline};

/// Which way the lapped face looks: half `a` to the right, half `b` to the left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Facing {
    /// Half `a`.
    Right,
    /// Half `b`.
    Left,
}

/// From the half-plane (z into the housing, r outward, mm) to the drawing.
#[derive(Debug, Clone, Copy)]
pub(crate) struct View {
    facing: Facing,
    /// Where z = 0, the housing face, stands.
    x_zero: f64,
    /// Where the radius `r_base` stands.
    y_base: f64,
    r_base: f64,
    /// Drawn mm per mm.
    scale: f64,
}

impl View {
    fn at(&self, (z, r): Point) -> Point {
        (self.x(z), self.y_base - (r - self.r_base) * self.scale)
    }

    fn x(&self, z: f64) -> f64 {
        match self.facing {
            Facing::Right => self.x_zero - z * self.scale,
            Facing::Left => self.x_zero + z * self.scale,
        }
    }
}

/// Room that one half may take: left edge, right edge and height.
const ROOM: (f64, f64, f64) = (18.0, 75.0, 66.0);
/// Room above a half for its name and its axial dimensions.
const ABOVE: f64 = 17.5;
/// Room below a half for its axis and its scale.
const BELOW: f64 = 18.0;

/// One half with its dimensions; `None` where the definition's measures make no section.
pub(crate) fn draw(name: &str, whose: &str, seal: &Seal, of: (Facing, Reader)) -> Option<Drawing> {
    let (facing, reader) = of;
    let outline = outline(seal)?;
    let (left, right, high) = ROOM;
    let (z_low, z_high, r_low, r_high) = outline.extent();
    let scale = ((right - left) / (z_high - z_low)).min(high / (r_high - r_low));
    let bottom = ABOVE + (r_high - r_low) * scale;
    let height = bottom + BELOW;
    let mut canvas = Canvas::new(style::WIDTH, height);
    let middle = (z_low + z_high) / 2.0;
    let centre = match facing {
        Facing::Right => (left + right) / 2.0,
        Facing::Left => style::WIDTH - (left + right) / 2.0,
    };
    let x_zero = match facing {
        Facing::Right => centre + middle * scale,
        Facing::Left => centre - middle * scale,
    };
    let view = View { facing, x_zero, y_base: bottom, r_base: r_low, scale };
    parts(&mut canvas, &outline, &view);
    dimensions::all(&mut canvas, seal, (&outline, &view), reader);
    centre_line(&mut canvas, height - 7.5, view.y_base + 1.5);
    scale_bar(&mut canvas, scale, height - 1.5, reader);
    let (start, end) = ((0.5, Anchor::Start), (89.5, Anchor::End));
    let (name_at, unit_at) = match facing {
        Facing::Right => (start, end),
        Facing::Left => (end, start),
    };
    let shown = text_width::cut(whose, style::NUMBER.size, style::NUMBER.weight, 70.0);
    canvas.text((name_at.0, 3.6), &shown, style::NUMBER.at(name_at.1));
    let unit = match reader.system {
        System::Millimetre => say!("figure-section-sizes-in-mm"),
        System::Inch => say!("figure-section-sizes-in-inches"),
    };
    canvas.text((unit_at.0, 3.6), unit, style::SMALL.at(unit_at.1));
    let title = say!("figure-section-title", whose);
    let alt = dimensions::in_words(whose, seal, &outline, reader);
    Some(Drawing::new(name.to_owned(), title, alt, (style::WIDTH, canvas)))
}

/// What the drawing of the joint shows besides its halves: the seal gap once it is closed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Closed {
    /// Nominal seal gap, mm.
    pub gap: f64,
    /// Smallest and largest gap that conforms, mm.
    pub limits: (f64, f64),
}

/// Both halves with their faces together, before and, where the gap is known, (as dashed lines)
/// after closing.
pub(crate) fn joint(
    name: &str,
    (a, b): (&Seal, &Seal),
    closed: Option<Closed>,
    reader: Reader,
) -> Option<Drawing> {
    let (a, b) = (outline(a)?, outline(b)?);
    let Together { mut canvas, views: [view_a, view_b], top } =
        together([&a, &b], Room { tallest: 44.0, below: 22.5 }, reader);
    let decimals = reader.workshop_decimals();
    let touch = reader.length(a.height + b.height, decimals);
    let words = say!("figure-section-just-touch", touch);
    dimensions::axial(&mut canvas, (view_a.x_zero, view_b.x_zero), top - 0.8, (top - 3.4, &words));
    let of_gap = closed.map(|closed| {
        gap_lines(&mut canvas, (&view_a, top), closed, reader);
        let gap = reader.length(closed.gap, decimals);
        let (min, max) = closed.limits;
        let limits = reader.limits(Some(min), Some(max), 0).unwrap_or_default();
        say!("figure-section-alt-closed", gap, limits)
    });
    let touching = say!("figure-section-joint-alt", touch);
    let alt = std::iter::once(touching).chain(of_gap).collect::<Vec<_>>().join(" ");
    let title = say!("figure-section-joint-title").to_owned();
    Some(Drawing::new(name.to_owned(), title, alt, (style::WIDTH, canvas)))
}

/// What a drawing of both halves leaves them, mm.
struct Room {
    /// Most that a section is high.
    tallest: f64,
    /// Below the sections.
    below: f64,
}

/// Both halves drawn with their lapped faces together.
struct Together {
    canvas: Canvas,
    views: [View; 2],
    /// Above which the dimensions stand.
    top: f64,
}

/// Draws both halves to one scale, with their names, centre line and scale bar.
fn together([a, b]: [&Outline; 2], room: Room, reader: Reader) -> Together {
    let wide = |outline: &Outline| outline.extent().1 + outline.height;
    let half_width = wide(a).max(wide(b));
    let r_low = a.extent().2.min(b.extent().2);
    let r_high = a.extent().3.max(b.extent().3);
    let scale = (43.0 / half_width).min(room.tallest / (r_high - r_low));
    let (face, bottom) = (style::WIDTH / 2.0, 13.5 + (r_high - r_low) * scale);
    let height = bottom + room.below;
    let mut canvas = Canvas::new(style::WIDTH, height);
    let view = |facing, outline: &Outline| {
        let x_zero = match facing {
            Facing::Right => face - outline.height * scale,
            Facing::Left => face + outline.height * scale,
        };
        View { facing, x_zero, y_base: bottom, r_base: r_low, scale }
    };
    let views = [view(Facing::Right, a), view(Facing::Left, b)];
    for (outline, view) in [a, b].into_iter().zip(&views) {
        parts(&mut canvas, outline, view);
    }
    let top = views[0].at((0.0, r_high)).1;
    canvas.text((0.5, 3.6), &of_half(Half::A), style::NUMBER);
    canvas.text((89.5, 3.6), &of_half(Half::B), style::NUMBER.at(Anchor::End));
    centre_line(&mut canvas, height - 7.5, bottom + 1.5);
    scale_bar(&mut canvas, scale, height - 1.5, reader);
    Together { canvas, views, top }
}

/// Housing face to housing face after closing.
fn gap_lines(canvas: &mut Canvas, (a, top): (&View, f64), closed: Closed, reader: Reader) {
    let decimals = reader.workshop_decimals();
    let limits =
        reader.limits(Some(closed.limits.0), Some(closed.limits.1), decimals).unwrap_or_default();
    let gap = reader.length(closed.gap, decimals);
    let words = say!("figure-section-closed", gap, limits);
    let below = a.y_base + 2.6;
    if closed.gap > 0.0 {
        let half = closed.gap * a.scale / 2.0;
        let (from, to) = (style::WIDTH / 2.0 - half, style::WIDTH / 2.0 + half);
        let pen = Pen::new(0.3, style::ACCENT).dashed(1.4, 0.9);
        for x in [from, to] {
            canvas.line((x, top), (x, below), pen);
        }
        dimensions::axial(canvas, (from, to), below, (below + 2.0, ""));
    }
    canvas.text((style::WIDTH / 2.0, below + 6.6), &words, style::LABEL.at(Anchor::Middle));
}

fn parts(canvas: &mut Canvas, outline: &Outline, view: &View) {
    // Parts that touch are hatched apart: ring from housing, half from half.
    let (housing, ring) = match view.facing {
        Facing::Right => (Lean::Right, Lean::Left),
        Facing::Left => (Lean::Left, Lean::Right),
    };
    part(canvas, &outline.housing, view, (housing, 2.0));
    part(canvas, &outline.ring, view, (ring, 1.5));
    let band: Vec<_> = outline.band.iter().map(|p| view.at(*p)).collect();
    canvas.polyline(&band, Pen::new(1.1, style::INK));
    let load: Vec<_> = outline.load.points().into_iter().map(|p| view.at(p)).collect();
    canvas.polygon(&load, style::RUBBER, None);
    hatch::dots(canvas, &load, 1.3);
    canvas.polygon(&load, "none", Some(style::HEAVY));
}

/// A part of metal: filled, hatched, its given edges heavy and the others broken.
fn part(canvas: &mut Canvas, sides: &[Side], view: &View, lean: (Lean, f64)) {
    let corners: Vec<_> = sides.iter().map(|side| view.at(side.from)).collect();
    canvas.polygon(&corners, style::METAL, None);
    hatch::leaning(canvas, &corners, lean, Pen::new(0.1, style::MUTED));
    for (i, side) in sides.iter().enumerate() {
        let (from, to) = (corners[i], corners[(i + 1) % corners.len()]);
        match side.edge {
            Edge::Given => canvas.line(from, to, style::HEAVY),
            Edge::Open => break_line(canvas, from, to),
        }
    }
}

/// A thin line with a zigzag in its middle: the part goes on, or is not given.
fn break_line(canvas: &mut Canvas, from: Point, to: Point) {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let long = dx.hypot(dy);
    if long < 4.0 {
        canvas.line(from, to, style::THIN);
        return;
    }
    let (ux, uy) = (dx / long, dy / long);
    let point = |along: f64, across: f64| {
        let along = long / 2.0 + along;
        (from.0 + ux * along - uy * across, from.1 + uy * along + ux * across)
    };
    let bend = [from, point(-1.0, 0.0), point(-0.5, 1.3), point(0.5, -1.3), point(1.0, 0.0), to];
    canvas.polyline(&bend, style::THIN);
}

/// The seal axis below the section, its distance broken.
fn centre_line(canvas: &mut Canvas, y: f64, section: f64) {
    let pen = Pen::new(0.25, style::INK);
    let mut x = 2.0;
    while x < 75.0 {
        canvas.line((x, y), (x + 6.0, y), pen);
        canvas.line((x + 7.6, y), (x + 7.9, y), pen);
        x += 9.5;
    }
    canvas.text((89.5, y + 0.9), say!("figure-section-axis"), style::LABEL.at(Anchor::End));
    break_line(canvas, (4.0, section), (4.0, y));
}

/// A bar of a round length: the drawing keeps its scale at any size.
fn scale_bar(canvas: &mut Canvas, scale: f64, y: f64, reader: Reader) {
    let unit_mm = 1.0 / reader.of_mm(1.0);
    let long = super::axis::round_down(22.0 / (scale * unit_mm));
    let wide = long * unit_mm * scale;
    let left = 3.0;
    let pen = Pen::new(0.45, style::INK);
    let ends = [(left, y - 1.2), (left, y), (left + wide, y), (left + wide, y - 1.2)];
    canvas.polyline(&ends, pen);
    let text = format!("{} {}", trimmed(long), reader.unit());
    canvas.text((left + wide + 1.5, y), &text, style::LABEL);
    let words = say!("figure-section-zigzag");
    let kind = style::SMALL.at(Anchor::End);
    let room = 88.0 - left - wide - text_width::width(&text, 2.5, kind.weight);
    if text_width::width(words, kind.size, kind.weight) < room {
        canvas.text((89.5, y), words, kind);
    }
}

fn trimmed(value: f64) -> String {
    let text = ringtrue_metrology::units::fixed(value, 4);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
