//! The three verdict marks: a whole ring, a half-filled lozenge, a split square.

use ringtrue_metrology::conformity::Verdict;

use super::Drawing;
use super::style;
use super::svg::{Canvas, Pen, Point};

/// Colour that goes with a verdict; its shape says the same.
pub(crate) fn colour(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Conforms => "#0d6b52",
        Verdict::NotProven => "#8a5a00",
        Verdict::DoesNotConform => "#a01c2c",
    }
}

/// Draws the mark of a verdict, `size` high, about its centre.
pub(crate) fn draw(canvas: &mut Canvas, verdict: Verdict, centre: Point, size: f64) {
    let colour = colour(verdict);
    let (x, y) = centre;
    let r = size / 2.0;
    match verdict {
        // A ring that is whole and sits square.
        Verdict::Conforms => {
            canvas.circle(centre, r, (colour, None));
            canvas.circle(centre, r * 0.62, (style::PAPER, None));
            canvas.circle(centre, r * 0.36, (colour, None));
        }
        // The limit runs through what is known.
        Verdict::NotProven => {
            let lozenge = [(x, y - r), (x + r, y), (x, y + r), (x - r, y)];
            let pen = Pen::new(size * 0.09, colour);
            canvas.polygon(&lozenge, style::PAPER, Some(pen));
            canvas.polygon(&[lozenge[1], lozenge[2], lozenge[3]], colour, None);
        }
        // Two parts that no longer meet.
        Verdict::DoesNotConform => {
            let (s, gap) = (r * 0.92, r * 0.22);
            canvas.polygon(
                &[(x - s, y - s), (x + s - gap, y - s), (x - s, y + s - gap)],
                colour,
                None,
            );
            canvas.polygon(
                &[(x + s, y + s), (x - s + gap, y + s), (x + s, y - s + gap)],
                colour,
                None,
            );
        }
    }
}

/// The mark of a verdict as a drawing of its own.
#[must_use]
pub(crate) fn drawing(verdict: Verdict) -> Drawing {
    let mut canvas = Canvas::new(10.0, 10.0);
    draw(&mut canvas, verdict, (5.0, 5.0), 9.0);
    let name = match verdict {
        Verdict::Conforms => "mark-conforms",
        Verdict::NotProven => "mark-not-proven",
        Verdict::DoesNotConform => "mark-does-not-conform",
    };
    Drawing::new(
        name.to_owned(),
        verdict.words().to_owned(),
        verdict.words().to_owned(),
        (10.0, canvas),
    )
}
