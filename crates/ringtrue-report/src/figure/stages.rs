//! Six stages of a section as it is squeezed, on one scale, for a trainer to print.

use ringtrue_words::say;

use super::squeezed_section::{
    self as squeezed, Detail, Shades, Shape, Sheet, Squeezed, Stage, Window,
};
use super::style;
use super::svg::{Anchor, Canvas, Pen, Type};
use super::{Drawing, text_width};
use crate::reader::Reader;

/// How many stages are drawn.
pub(crate) const STAGES: usize = 6;
/// The drawing is as wide as a printed page's text.
const WIDTH: f64 = 180.0;
const COLUMNS: usize = 3;
/// Room for a stage's numbers above its picture.
const ABOVE: f64 = 10.5;

/// Indices of the stages among `count` points: the first, the last and evenly between.
pub(crate) fn spread(count: usize) -> Vec<usize> {
    let last = count.saturating_sub(1);
    let mut chosen: Vec<usize> =
        (0..STAGES).map(|i| (i * last * 2 + STAGES - 1) / (2 * (STAGES - 1))).collect();
    chosen.dedup();
    chosen.retain(|i| *i < count);
    chosen
}

/// The stages, three a row; `None` where the picture has no frames.
pub(crate) fn draw(
    (name, whose): (&str, &str),
    section: Squeezed,
    stages: &[Stage],
    reader: Reader,
) -> Option<Drawing> {
    let shapes: Vec<Shape> = stages
        .iter()
        .map(|stage| Shape::at(section.picture, stage.travel_mm))
        .collect::<Option<_>>()?;
    let extent = squeezed::extent(&shapes)?;
    let wide = (WIDTH - 6.0) / COLUMNS as f64;
    let room = |column: usize, top: f64| {
        let left = column as f64 * (wide + 3.0);
        Window { left, right: left + wide, top, bottom: top + 62.0 }
    };
    let first = extent.view(section.facing, room(0, 0.0)).window;
    let pitch = ABOVE + (first.bottom - first.top) + 7.0;
    let rows = stages.len().div_ceil(COLUMNS);
    let bottom = 9.0 + pitch * rows as f64;
    let mut canvas = Canvas::new(WIDTH, bottom + 15.0);
    let title = text_width::cut(whose, style::NUMBER.size, style::NUMBER.weight, 120.0);
    canvas.text((0.5, 3.6), &title, style::NUMBER);
    canvas.text((WIDTH - 0.5, 3.6), say!("figure-common-axis-below"), style::SMALL.at(Anchor::End));
    let shades = Shades::over(shapes.iter().map(Shape::largest_stretch).fold(1.0, f64::max));
    let strongest = shapes.iter().map(squeezed::strongest).fold(0.0, f64::max);
    let comb = squeezed::comb_scale(strongest, &extent);
    let mut scale = 1.0;
    for (i, (shape, stage)) in shapes.iter().zip(stages).enumerate() {
        let top = 9.0 + pitch * (i / COLUMNS) as f64 + ABOVE;
        let view = extent.view(section.facing, room(i % COLUMNS, top));
        scale = view.scale;
        let sheet = Sheet { view, shades, comb, detail: Detail::Small };
        squeezed::section(&mut canvas, (section.walls, shape), stage, &sheet);
        numbers(&mut canvas, (i, stage), room(i % COLUMNS, top));
    }
    shades.legend(&mut canvas, (0.5, bottom + 3.0));
    squeezed::key(&mut canvas, shapes.first()?.mark(), (62.0, bottom + 6.2));
    squeezed::scale_bar(&mut canvas, scale, (WIDTH - 0.5, bottom + 6.2), reader);
    let told: Vec<String> = stages
        .iter()
        .enumerate()
        .map(|(i, stage)| {
            let facts: Vec<String> =
                stage.facts.iter().map(|(what, value)| format!("{what} {value}")).collect();
            format!("{}: {}", i + 1, facts.join(", "))
        })
        .collect();
    let title = say!("figure-stages-title", count = stages.len(), whose);
    let alt = format!("{title}. {}.", told.join("; "));
    Some(Drawing::new(name.to_owned(), title, alt, (WIDTH, canvas)))
}

/// The stage's number in a disc, and its values in two lines, above its room.
fn numbers(canvas: &mut Canvas, (i, stage): (usize, &Stage), room: Window) {
    let (left, top) = (room.left.max(0.3), room.top - ABOVE);
    let disc = (left + 2.8, top + 4.6);
    canvas.circle(disc, 2.6, (style::PAPER, Some(Pen::new(0.4, style::INK))));
    let number = format!("{}", i + 1);
    canvas.text((disc.0, disc.1 + 1.0), &number, style::NUMBER.at(Anchor::Middle));
    let wide = |text: &str, kind: Type| text_width::width(text, kind.size, kind.weight);
    let mut x = left + 7.0;
    for column in stage.facts.chunks(2) {
        let words = column.iter().map(|(what, _)| wide(what, style::SMALL)).fold(0.0, f64::max);
        let mut next = x;
        for (k, (what, value)) in column.iter().enumerate() {
            let y = top + 3.4 + 3.8 * k as f64;
            canvas.text((x, y), what, style::SMALL);
            canvas.text((x + words + 1.2, y), value, style::LABEL.bold());
            next = f64::max(next, x + words + 1.2 + wide(value, style::LABEL.bold()) + 2.8);
        }
        x = next;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stages_run_from_the_first_point_to_the_last() {
        assert_eq!(spread(25), [0, 5, 10, 14, 19, 24]);
        assert_eq!(spread(6), [0, 1, 2, 3, 4, 5]);
        assert_eq!(spread(3), [0, 1, 2]);
        assert_eq!(spread(1), [0]);
        assert!(spread(0).is_empty());
    }
}
