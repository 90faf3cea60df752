//! A small SVG writer. One unit is one millimetre of a drawing at its natural width; y grows down.

use std::fmt::Write as _;

use super::style;

/// A point of the drawing, `(x, y)`.
pub(crate) type Point = (f64, f64);

/// A stroke: its width and colour, and whether it is broken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Pen {
    /// Width of the line.
    pub(crate) width: f64,
    /// Its colour.
    pub(crate) colour: &'static str,
    /// Lengths of dash and space; `None` for an unbroken line.
    pub(crate) dash: Option<(f64, f64)>,
}

impl Pen {
    /// An unbroken line.
    pub(crate) const fn new(width: f64, colour: &'static str) -> Self {
        Self { width, colour, dash: None }
    }

    /// The same line, broken.
    pub(crate) const fn dashed(self, dash: f64, space: f64) -> Self {
        Self { dash: Some((dash, space)), ..self }
    }
}

/// How a shape is painted: its fill, which may be `none`, and its outline.
pub(crate) type Paint = (&'static str, Option<Pen>);

/// The two weights of the shipped type.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Weight {
    /// Words.
    Regular,
    /// The number that counts.
    Bold,
}

/// Which end of a text stands at its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Anchor {
    /// Its start.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// How a text is set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Type {
    /// Size of the em.
    pub(crate) size: f64,
    /// Weight.
    pub(crate) weight: Weight,
    /// Which end stands at the point.
    pub(crate) anchor: Anchor,
    /// Colour.
    pub(crate) colour: &'static str,
    /// Clockwise turn about the point, in degrees.
    pub(crate) turn_deg: f64,
}

impl Type {
    /// Regular, from its start, unturned.
    pub(crate) const fn new(size: f64, colour: &'static str) -> Self {
        Self { size, weight: Weight::Regular, anchor: Anchor::Start, colour, turn_deg: 0.0 }
    }

    /// The same in bold.
    pub(crate) const fn bold(self) -> Self {
        Self { weight: Weight::Bold, ..self }
    }

    /// The same from another end.
    pub(crate) const fn at(self, anchor: Anchor) -> Self {
        Self { anchor, ..self }
    }

    /// The same, turned clockwise.
    pub(crate) const fn turned(self, turn_deg: f64) -> Self {
        Self { turn_deg, ..self }
    }
}

/// A drawing in the making.
#[derive(Debug)]
pub(crate) struct Canvas {
    width: f64,
    height: f64,
    body: String,
}

impl Canvas {
    /// An empty drawing of this size in mm.
    pub(crate) fn new(width: f64, height: f64) -> Self {
        Self { width, height, body: String::new() }
    }

    /// A straight line.
    pub(crate) fn line(&mut self, from: Point, to: Point, pen: Pen) {
        let _ = writeln!(
            self.body,
            r#"<line x1="{}" y1="{}" x2="{}" y2="{}"{}/>"#,
            number(from.0),
            number(from.1),
            number(to.0),
            number(to.1),
            stroke(pen)
        );
    }

    /// Lines from point to point.
    pub(crate) fn polyline(&mut self, points: &[Point], pen: Pen) {
        let points = point_list(points);
        let pen = stroke(pen);
        let _ = writeln!(self.body, r#"<polyline points="{points}" fill="none"{pen}/>"#);
    }

    /// A closed shape.
    pub(crate) fn polygon(&mut self, points: &[Point], fill: &str, pen: Option<Pen>) {
        let points = point_list(points);
        let pen = pen.map(stroke).unwrap_or_default();
        let _ = writeln!(self.body, r#"<polygon points="{points}" fill="{fill}"{pen}/>"#);
    }

    /// Many closed shapes as one element.
    pub(crate) fn shapes(&mut self, shapes: &[Vec<Point>], (fill, pen): Paint) {
        // Hundredths are finer than any printer.
        let short = |x: f64| number((x * 100.0).round() / 100.0);
        let mut path = String::new();
        for shape in shapes {
            for (i, (x, y)) in shape.iter().enumerate() {
                let step = if i == 0 { 'M' } else { 'L' };
                let _ = write!(path, "{step}{} {}", short(*x), short(*y));
            }
            path.push('z');
        }
        let pen = pen.map(stroke).unwrap_or_default();
        let _ = writeln!(self.body, r#"<path d="{path}" fill="{fill}"{pen}/>"#);
    }

    /// A circle.
    pub(crate) fn circle(&mut self, centre: Point, radius: f64, (fill, pen): Paint) {
        let _ = writeln!(
            self.body,
            r#"<circle cx="{}" cy="{}" r="{}" fill="{fill}"{}/>"#,
            number(centre.0),
            number(centre.1),
            number(radius),
            pen.map(stroke).unwrap_or_default()
        );
    }

    /// An upright rectangle from its top left corner.
    pub(crate) fn rectangle(&mut self, corner: Point, size: Point, (fill, pen): Paint) {
        let (x, y) = corner;
        let (w, h) = size;
        self.polygon(&[(x, y), (x + w, y), (x + w, y + h), (x, y + h)], fill, pen);
    }

    /// A text on one line, its baseline at the point.
    pub(crate) fn text(&mut self, at: Point, text: &str, kind: Type) {
        self.body.push_str(&text_element(at, text, kind, ""));
    }

    /// A text of several lines, each so far below the one before it.
    pub(crate) fn lines(&mut self, ((x, y), apart): (Point, f64), text: &str, kind: Type) {
        for (i, line) in text.lines().enumerate() {
            self.text((x, y + apart * i as f64), line, kind);
        }
    }

    /// A text on one line with the paper's colour round its letters, over other lines.
    pub(crate) fn text_over(&mut self, at: Point, text: &str, kind: Type) {
        let halo = format!(
            r#" paint-order="stroke" stroke="{}" stroke-width="{}" stroke-linejoin="round""#,
            style::PAPER,
            number(kind.size * 0.35)
        );
        self.body.push_str(&text_element(at, text, kind, &halo));
    }

    /// The finished drawing with its title and its description in words.
    pub(crate) fn finish(self, title: &str, alt: &str) -> String {
        let (w, h) = (number(self.width), number(self.height));
        format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm"
 viewBox="0 0 {w} {h}" role="img" font-family="{}">
<title>{}</title>
<desc>{}</desc>
{}</svg>
"#,
            style::FAMILIES,
            escaped(title),
            escaped(alt),
            self.body
        )
    }
}

fn text_element(at: Point, text: &str, kind: Type, halo: &str) -> String {
    let anchor = match kind.anchor {
        Anchor::Start => "",
        Anchor::Middle => r#" text-anchor="middle""#,
        Anchor::End => r#" text-anchor="end""#,
    };
    let weight = match kind.weight {
        Weight::Regular => "",
        Weight::Bold => r#" font-weight="700""#,
    };
    let (x, y) = (number(at.0), number(at.1));
    let turn = if kind.turn_deg == 0.0 {
        String::new()
    } else {
        format!(r#" transform="rotate({} {x} {y})""#, number(kind.turn_deg))
    };
    let (size, colour, text) = (number(kind.size), kind.colour, escaped(text));
    format!(
        "<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\" \
         fill=\"{colour}\"{weight}{anchor}{turn}{halo}>\
         {text}</text>\n"
    )
}

fn stroke(pen: Pen) -> String {
    let dash = match pen.dash {
        Some((dash, space)) => {
            format!(r#" stroke-dasharray="{} {}""#, number(dash), number(space))
        }
        None => String::new(),
    };
    format!(
        r#" stroke="{}" stroke-width="{}" stroke-linecap="round" stroke-linejoin="round"{dash}"#,
        pen.colour,
        number(pen.width)
    )
}

fn point_list(points: &[Point]) -> String {
    let pairs: Vec<_> =
        points.iter().map(|(x, y)| format!("{},{}", number(*x), number(*y))).collect();
    pairs.join(" ")
}

/// A coordinate with at most three decimals. Coordinates are finite by construction: figures leave
/// out what they have no number for. One that is not must not break the whole drawing.
fn number(value: f64) -> String {
    debug_assert!(value.is_finite(), "a coordinate must be finite");
    if !value.is_finite() {
        return "0".to_owned();
    }
    let text = format!("{value:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// Text as XML character data, without the control characters that XML can't hold.
pub(crate) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\n' | '\r' | '\t' => out.push(' '),
            letter if letter.is_control() || matches!(letter, '\u{fffe}' | '\u{ffff}') => {}
            letter => out.push(letter),
        }
    }
    out
}
