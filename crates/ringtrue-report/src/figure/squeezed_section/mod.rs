//! A squeezed section between its walls: outline and mesh, stretch as shade, contact pressure as a
//! comb in the walls, and a marked line before and after, so that the roll is seen.
//!
//! It lies as a half-section does: the axis level below, half `a` to the right.

use ringtrue_metrology::units::fixed;
use ringtrue_seal::section::Picture;
use ringtrue_words::say;

use super::half_section::Facing;
use super::hatch::{self, Lean};
use super::style;
use super::svg::{Anchor, Canvas, Pen, Point};
use super::{Drawing, text_width};
use crate::reader::Reader;
use crate::reader::load::whole_degrees;

mod clip;
mod shade;
mod shape;
mod wall;

pub(crate) use clip::Window;
pub(crate) use shade::Shades;
pub(crate) use shape::{Mark, MarkedLine, Rz, Shape};
pub(crate) use wall::{Wall, of_file, of_half, of_passage};

/// A solved section with what it is squeezed between.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Squeezed<'p> {
    /// The solved mesh.
    pub(crate) picture: &'p Picture,
    /// Its walls.
    pub(crate) walls: &'p [Wall],
    /// Which way the lapped face looks.
    pub(crate) facing: Facing,
}

/// What is known at the travel that is drawn.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Stage {
    /// The travel, mm.
    pub(crate) travel_mm: f64,
    /// Mean roll; positive when the inner side moves into the housing.
    pub(crate) roll_deg: f64,
    /// Largest principal stretch.
    pub(crate) stretch: f64,
    /// Largest contact pressure, in the chosen unit with its symbol.
    pub(crate) peak: Option<String>,
    /// Numbers with their words, the most important first.
    pub(crate) facts: Vec<(&'static str, String)>,
}

/// How much is drawn of a section.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Detail {
    /// A drawing of its own: mesh, names of the walls, values.
    Full,
    /// One of a row.
    Small,
}

/// From the problem's half-plane to a window of the drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct View {
    facing: Facing,
    /// Middle of the extent that is shown.
    middle: Rz,
    /// Where that stands.
    at: Point,
    /// Drawn mm per mm.
    pub(crate) scale: f64,
    /// What is drawn of the walls.
    pub(crate) window: Window,
}

impl View {
    fn place(&self, [r, z]: Rz) -> Point {
        let (x, y) = self.way([r - self.middle[0], z - self.middle[1]]);
        (self.at.0 + x, self.at.1 + y)
    }

    /// A distance in the half-plane as one of the drawing.
    fn way(&self, [r, z]: Rz) -> Point {
        let x = match self.facing {
            Facing::Right => -z,
            Facing::Left => z,
        };
        (x * self.scale, -r * self.scale)
    }

    fn places(&self, points: &[Rz]) -> Vec<Point> {
        points.iter().map(|p| self.place(*p)).collect()
    }
}

/// Smallest r and z, largest r and z.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Extent {
    low: Rz,
    high: Rz,
    /// Room for the walls on each side.
    margin: f64,
}

/// What the section takes up before it is squeezed and at these shapes, with room for its walls.
pub(crate) fn extent(shapes: &[Shape]) -> Option<Extent> {
    let first = shapes.first()?;
    let before = first.outline_before();
    let bounds = |points: &mut dyn Iterator<Item = Rz>| {
        points.fold(([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]), |(low, high), p| {
            ([0, 1].map(|k| f64::min(low[k], p[k])), [0, 1].map(|k| f64::max(high[k], p[k])))
        })
    };
    let (low, high) = bounds(&mut before.iter().copied());
    let size = ((high[0] - low[0]) * (high[1] - low[1])).sqrt();
    let mut all = before.into_iter().chain(shapes.iter().flat_map(Shape::outline));
    let (low, high) = bounds(&mut all);
    (size > 1e-6).then(|| {
        let margin = 0.36 * size;
        Extent { low: low.map(|x| x - margin), high: high.map(|x| x + margin), margin }
    })
}

impl Extent {
    /// Its size across the drawing and up it, mm.
    fn size(&self) -> Point {
        (self.high[1] - self.low[1], self.high[0] - self.low[0])
    }

    /// The largest view of it inside a room: its middle at the top of the room.
    pub(crate) fn view(&self, facing: Facing, room: Window) -> View {
        let (wide, high) = self.size();
        let (x, y) = (room.right - room.left, room.bottom - room.top);
        let scale = (x / wide).min(y / high);
        let at = ((room.left + room.right) / 2.0, room.top + high * scale / 2.0);
        let window = Window {
            left: at.0 - wide * scale / 2.0,
            right: at.0 + wide * scale / 2.0,
            top: room.top,
            bottom: room.top + high * scale,
        };
        let middle = [0, 1].map(|k| f64::midpoint(self.low[k], self.high[k]));
        View { facing, middle, at, scale, window }
    }
}

/// One section with its numbers, as a drawing of its own; `None` where the picture has no frames.
pub(crate) fn draw(
    (name, whose): (&str, &str),
    squeezed: Squeezed,
    stage: &Stage,
    reader: Reader,
) -> Option<Drawing> {
    let shape = Shape::at(squeezed.picture, stage.travel_mm)?;
    let extent = extent(std::slice::from_ref(&shape))?;
    let room = Window { left: 2.0, right: 88.0, top: 16.5, bottom: 84.5 };
    let view = extent.view(squeezed.facing, room);
    let height = view.window.bottom + 22.0;
    let mut canvas = Canvas::new(style::WIDTH, height);
    let shades = Shades::over(shape.largest_stretch());
    let most = strongest(&shape);
    let sheet = Sheet { view, shades, comb: comb_scale(most, &extent), detail: Detail::Full };
    section(&mut canvas, (squeezed.walls, &shape), stage, &sheet);
    heading(&mut canvas, whose, squeezed.facing);
    facts(&mut canvas, &stage.facts, (0.5, 8.2));
    let bottom = view.window.bottom;
    shades.legend(&mut canvas, (0.5, bottom + 6.5));
    scale_bar(&mut canvas, view.scale, (89.5, bottom + 11.2), reader);
    canvas.text(
        (89.5, bottom + 5.3),
        say!("figure-common-axis-below"),
        style::SMALL.at(Anchor::End),
    );
    key(&mut canvas, shape.mark(), (0.5, bottom + 20.6));
    let title = say!("figure-squeezed-title", whose);
    let alt = in_words(whose, stage, shape.mark());
    Some(Drawing::new(name.to_owned(), title, alt, (style::WIDTH, canvas)))
}

/// What the parts of a section are drawn with.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Sheet {
    /// Where it is drawn.
    pub(crate) view: View,
    /// Tints of the stretch.
    pub(crate) shades: Shades,
    /// Length in the half-plane of a tooth of 1 MPa, mm.
    pub(crate) comb: f64,
    /// How much is drawn.
    pub(crate) detail: Detail,
}

/// Largest contact pressure of a shape, in the solved problem's MPa.
pub(crate) fn strongest(shape: &Shape) -> f64 {
    shape.bearings.iter().map(|bearing| f64::from(bearing.pressure_mpa)).fold(0.0, f64::max)
}

/// Length of a tooth of 1 MPa where the strongest has this pressure.
pub(crate) fn comb_scale(strongest_mpa: f64, extent: &Extent) -> f64 {
    if strongest_mpa > 0.0 { 0.72 * extent.margin / strongest_mpa } else { 0.0 }
}

/// Walls, comb, section and parting line.
pub(crate) fn section(
    canvas: &mut Canvas,
    (walls, shape): (&[Wall], &Shape),
    stage: &Stage,
    sheet: &Sheet,
) {
    let zones = wall::zones(walls, shape);
    for wall in walls {
        metal(canvas, wall, shape.travel, sheet);
    }
    for (_, zone) in &zones {
        comb(canvas, zone, sheet);
    }
    let view = &sheet.view;
    let before = view.places(&shape.outline_before());
    let pen = match sheet.detail {
        Detail::Full => Some(Pen::new(0.07, style::MUTED)),
        Detail::Small => None,
    };
    sheet.shades.fill(canvas, shape, (&|p| view.place(p), pen));
    let closed: Vec<Point> = before.iter().chain(before.first()).copied().collect();
    canvas.polyline(&closed, Pen::new(0.2, style::INK).dashed(1.2, 0.9));
    canvas.polygon(&view.places(&shape.outline()), "none", Some(style::HEAVY));
    if let Some(line) = shape.marked_line() {
        marked_line(canvas, &line, stage, sheet);
    }
    if sheet.detail == Detail::Full {
        for (i, wall) in walls.iter().enumerate() {
            wall_name(canvas, (wall, shape), &zones, (i, sheet));
        }
        if let Some(peak) = &stage.peak {
            peak_label(canvas, peak, &zones, sheet);
        }
    }
}

/// A wall's metal, as far as the window shows it.
fn metal(canvas: &mut Canvas, wall: &Wall, travel: f64, sheet: &Sheet) {
    let view = &sheet.view;
    let surface = wall.at(travel);
    let window = view.window;
    // A flat wall is solid as far as one sees; a bent one is a skin that follows its bends.
    let across = (window.right - window.left).hypot(window.bottom - window.top);
    let thick = if surface.len() == 2 { across } else { 2.2 } / view.scale;
    let metal = window.polygon(&view.places(&wall::solid(&surface, thick)));
    canvas.polygon(&metal, style::METAL, None);
    let lean = match (wall.moves(), view.facing) {
        (false, Facing::Right) | (true, Facing::Left) => Lean::Right,
        (true, Facing::Right) | (false, Facing::Left) => Lean::Left,
    };
    let spacing = if wall.moves() { 1.5 } else { 2.0 };
    hatch::leaning(canvas, &metal, (lean, spacing), Pen::new(0.1, style::MUTED));
    for part in window.line(&view.places(&surface)) {
        canvas.polyline(&part, style::HEAVY);
    }
}

/// The pressure of a zone as teeth into the wall, under a line through their tips.
fn comb(canvas: &mut Canvas, zone: &wall::Zone, sheet: &Sheet) {
    let view = &sheet.view;
    let tooth = |(at, into, mpa): &(Rz, Rz, f64)| {
        let long = mpa.max(0.0) * sheet.comb;
        (view.place(*at), view.place([at[0] + into[0] * long, at[1] + into[1] * long]))
    };
    let teeth: Vec<(Point, Point)> = zone.iter().map(tooth).collect();
    let (Some(first), Some(last)) = (teeth.first(), teeth.last()) else { return };
    let tips: Vec<Point> = std::iter::once(first.0)
        .chain(teeth.iter().map(|tooth| tooth.1))
        .chain(std::iter::once(last.0))
        .collect();
    canvas.polygon(&tips, style::PAPER, None);
    // As many teeth as can be told apart.
    let mut drawn: Option<Point> = None;
    for (foot, tip) in &teeth {
        if drawn.is_none_or(|last| (foot.0 - last.0).hypot(foot.1 - last.1) > 0.75) {
            canvas.line(*foot, *tip, Pen::new(0.2, style::ACCENT));
            drawn = Some(*foot);
        }
    }
    canvas.polyline(&tips, style::CURVE);
}

/// The marked line before (broken) and now, and the angle between.
fn marked_line(canvas: &mut Canvas, marked: &MarkedLine, stage: &Stage, sheet: &Sheet) {
    let view = &sheet.view;
    let (before, now) = (view.places(&marked.before), view.places(&marked.now));
    canvas.polyline(&before, Pen::new(0.3, style::INK).dashed(1.4, 0.9));
    let (halo, line) = match sheet.detail {
        Detail::Full => (1.7, 0.8),
        Detail::Small => (1.2, 0.6),
    };
    canvas.polyline(&now, Pen::new(halo, style::PAPER));
    canvas.polyline(&now, Pen::new(line, style::INK));
    let Some(middle) = now.get(now.len() / 2).copied() else { return };
    if sheet.detail == Detail::Full && stage.roll_deg.abs() > 4.0 {
        arc(canvas, middle, (marked.way, length(&now) / 2.0), (stage.roll_deg, view));
    }
    canvas.circle(middle, line, (style::PAPER, Some(Pen::new(0.3, style::INK))));
}

/// From the way that the line stood to the way that it stands.
fn arc(canvas: &mut Canvas, middle: Point, (way, long): (Rz, f64), (roll_deg, view): (f64, &View)) {
    // On a long line the arc stays near the middle.
    let radius = (0.62 * long).min(12.0);
    // Rolled by +, what was outside goes out of the housing: from +r towards -z.
    let ray = |deg: f64, long: f64| {
        let (sine, cosine) = (libm::sin(deg.to_radians()), libm::cos(deg.to_radians()));
        let (x, y) = view.way([way[0] * cosine + way[1] * sine, way[1] * cosine - way[0] * sine]);
        let unit = long / x.hypot(y);
        (middle.0 + x * unit, middle.1 + y * unit)
    };
    canvas.line(middle, ray(0.0, radius + 1.6), Pen::new(1.0, style::PAPER));
    canvas.line(middle, ray(0.0, radius + 1.6), Pen::new(0.2, style::INK).dashed(1.2, 0.9));
    let points: Vec<Point> =
        (0..=24).map(|i| ray(roll_deg * f64::from(i) / 24.0, radius)).collect();
    canvas.polyline(&points, Pen::new(1.2, style::PAPER));
    canvas.polyline(&points, Pen::new(0.3, style::INK));
    // An arrow's head at the end, along the arc.
    let back = roll_deg - roll_deg.signum() * (2.0 / radius).to_degrees();
    if back * roll_deg > 0.0 {
        let head = [ray(roll_deg, radius), ray(back, radius - 0.6), ray(back, radius + 0.6)];
        canvas.polygon(&head, style::INK, None);
    }
    let (x, y) = ray(roll_deg / 2.0, radius + 2.8);
    let text = whole_degrees(roll_deg);
    canvas.text_over((x, y + 0.9), &text, style::NUMBER.at(Anchor::Middle));
}

/// A wall's name in its metal, where no pressure is drawn; an arrow where it moves.
fn wall_name(
    canvas: &mut Canvas,
    (wall, shape): (&Wall, &Shape),
    zones: &[(usize, wall::Zone)],
    (index, sheet): (usize, &Sheet),
) {
    let view = &sheet.view;
    let surface = wall.at(shape.travel);
    let seen = view.window.line(&view.places(&surface));
    let Some(part) = seen.iter().max_by(|a, b| length(a).total_cmp(&length(b))) else { return };
    let bears: Vec<Point> = zones
        .iter()
        .filter(|(i, _)| *i == index)
        .flat_map(|(_, zone)| zone.iter().map(|(at, _, _)| view.place(*at)))
        .collect();
    let name = text_width::cut(&wall.name, style::LABEL.size, style::LABEL.weight, 30.0);
    let half = text_width::width(&name, style::LABEL.size, style::LABEL.weight) / 2.0;
    let (window, deep) = (view.window, 4.2);
    let spots = [0.12, 0.3, 0.5, 0.7, 0.88].into_iter().filter_map(|share| {
        let (at, way) = along(part, share * length(part))?;
        // Walking with the section on the left in (r, z), the metal is on the right; z to the
        // left and r up turn that over, z to the right turns it back.
        let side = match view.facing {
            Facing::Right => -1.0,
            Facing::Left => 1.0,
        };
        let into = (way.1 * side, -way.0 * side);
        let out = deep + half * into.0.abs();
        let x = (at.0 + into.0 * out).clamp(window.left + half + 1.0, window.right - half - 1.0);
        let y = (at.1 + into.1 * out).clamp(window.top + 2.6, window.bottom - 2.6);
        let off = bears.iter().map(|p| (p.0 - x).hypot(p.1 - y)).fold(f64::INFINITY, f64::min);
        Some(((x, y), off))
    });
    let Some(((x, y), _)) = spots.max_by(|a, b| a.1.total_cmp(&b.1)) else { return };
    canvas.text_over((x, y + 0.9), &name, style::LABEL.at(Anchor::Middle));
    if wall.moves() {
        let (dx, dy) = view.way(wall.per_travel);
        let long = dx.hypot(dy);
        let (ux, uy) = (dx / long, dy / long);
        let (from, to) = ((x - 3.0 * ux, y + 2.6 - 3.0 * uy), (x + 3.0 * ux, y + 2.6 + 3.0 * uy));
        canvas.line(from, to, Pen::new(1.3, style::METAL));
        canvas.line(from, to, Pen::new(0.35, style::INK));
        let back = (to.0 - 1.9 * ux, to.1 - 1.9 * uy);
        let head = [
            to,
            (back.0 - 0.65 * uy, back.1 + 0.65 * ux),
            (back.0 + 0.65 * uy, back.1 - 0.65 * ux),
        ];
        canvas.polygon(&head, style::INK, None);
    }
}

fn length(line: &[Point]) -> f64 {
    line.windows(2).map(|p| (p[1].0 - p[0].0).hypot(p[1].1 - p[0].1)).sum()
}

/// The point at a distance along a line, and the unit way of the line there.
fn along(line: &[Point], mut distance: f64) -> Option<(Point, Point)> {
    for pair in line.windows(2) {
        let (dx, dy) = (pair[1].0 - pair[0].0, pair[1].1 - pair[0].1);
        let long = dx.hypot(dy);
        if long > 1e-9 && distance <= long {
            let way = (dx / long, dy / long);
            return Some(((pair[0].0 + distance * way.0, pair[0].1 + distance * way.1), way));
        }
        distance -= long;
    }
    None
}

/// The largest pressure at the tip of its tooth.
fn peak_label(canvas: &mut Canvas, peak: &str, zones: &[(usize, wall::Zone)], sheet: &Sheet) {
    let view = &sheet.view;
    let strongest = zones.iter().flat_map(|(_, zone)| zone).max_by(|a, b| a.2.total_cmp(&b.2));
    let Some((at, into, mpa)) = strongest else { return };
    let long = mpa * sheet.comb;
    let tip = view.place([at[0] + into[0] * long, at[1] + into[1] * long]);
    let (ux, uy) = view.way(*into);
    let text = say!("figure-squeezed-peak", peak);
    let half = text_width::width(&text, style::NUMBER.size, style::NUMBER.weight) / 2.0;
    let (ux, uy) = (ux / view.scale, uy / view.scale);
    let out = 2.2 + half * ux.abs();
    let x = (tip.0 + ux * out).clamp(half + 0.6, style::WIDTH - half - 0.6);
    canvas.circle(tip, 0.6, (style::ACCENT, None));
    canvas.text_over((x, tip.1 + uy * out + 0.9), &text, style::NUMBER.at(Anchor::Middle));
}

fn heading(canvas: &mut Canvas, whose: &str, facing: Facing) {
    let kind = style::NUMBER;
    let shown = text_width::cut(whose, kind.size, kind.weight, 89.0);
    match facing {
        Facing::Right => canvas.text((0.5, 3.6), &shown, kind),
        Facing::Left => canvas.text((89.5, 3.6), &shown, kind.at(Anchor::End)),
    }
}

/// Numbers with their words above, side by side.
fn facts(canvas: &mut Canvas, facts: &[(&'static str, String)], (left, y): Point) {
    let mut x = left;
    for (what, value) in facts {
        canvas.text((x, y), what, style::SMALL);
        canvas.text((x, y + 3.6), value, style::NUMBER);
        let wide = text_width::width(what, style::SMALL.size, style::SMALL.weight)
            .max(text_width::width(value, style::NUMBER.size, style::NUMBER.weight));
        x += wide + 4.2;
    }
}

/// What the lines mean, in one row: broken and unbroken line, comb.
pub(crate) fn key(canvas: &mut Canvas, mark: Mark, (left, y): Point) {
    let mut x = left;
    let mut entry = |canvas: &mut Canvas, words: &str, sample: &dyn Fn(&mut Canvas, f64)| {
        sample(canvas, x);
        canvas.text((x + 6.2, y), words, style::SMALL);
        x += 6.2 + text_width::width(words, style::SMALL.size, style::SMALL.weight) + 3.2;
    };
    entry(canvas, say!("figure-squeezed-before"), &|canvas, x| {
        let pen = Pen::new(0.3, style::INK).dashed(1.4, 0.9);
        canvas.line((x, y - 0.8), (x + 5.2, y - 0.8), pen);
    });
    entry(canvas, mark.now(), &|canvas, x| {
        canvas.line((x, y - 0.8), (x + 5.2, y - 0.8), Pen::new(0.8, style::INK));
    });
    entry(canvas, say!("figure-squeezed-contact-pressure"), &|canvas, x| {
        let tips: Vec<Point> = (0..=8)
            .map(|i| f64::from(i) / 8.0)
            .map(|t| (x + 5.2 * t, y - 2.2 * (4.0 * t * (1.0 - t)).sqrt()))
            .collect();
        for tip in &tips {
            canvas.line((tip.0, y), *tip, Pen::new(0.2, style::ACCENT));
        }
        canvas.polyline(&tips, style::CURVE);
    });
}

/// A bar of a round length, its right end at the point.
pub(crate) fn scale_bar(canvas: &mut Canvas, scale: f64, (right, y): Point, reader: Reader) {
    let unit_mm = 1.0 / reader.of_mm(1.0);
    let long = super::axis::round_down(22.0 / (scale * unit_mm));
    let wide = long * unit_mm * scale;
    let left = right - wide;
    let ends = [(left, y - 1.2), (left, y), (right, y), (right, y - 1.2)];
    canvas.polyline(&ends, Pen::new(0.45, style::INK));
    let text = reader.exact(long * unit_mm, 0);
    canvas.text((right, y + 3.2), &text, style::LABEL.at(Anchor::End));
}

/// The section for a reader who does not see it.
fn in_words(whose: &str, stage: &Stage, mark: Mark) -> String {
    let told: Vec<String> =
        stage.facts.iter().map(|(what, value)| format!("{what} {value}")).collect();
    let peak = stage.peak.as_ref().map(|peak| say!("figure-squeezed-alt-peak", peak));
    let stretch = say!("figure-squeezed-alt-stretch", stretch = fixed(stage.stretch, 2));
    let told: Vec<String> = std::iter::once(told.join(", ")).chain(peak).chain([stretch]).collect();
    let title = say!("figure-squeezed-title", whose);
    let rolled = mark.rolled(&whole_degrees(stage.roll_deg));
    format!("{title}: {}. {rolled}", told.join("; "))
}
