//! Cutting shapes off at the edge of a window.

use crate::figure::svg::Point;

/// A rectangle of the drawing: left, top, right, bottom.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Window {
    pub(crate) left: f64,
    pub(crate) top: f64,
    pub(crate) right: f64,
    pub(crate) bottom: f64,
}

impl Window {
    /// How far a point is inside each side; below zero it is outside.
    fn inside(&self, (x, y): Point) -> [f64; 4] {
        [x - self.left, self.right - x, y - self.top, self.bottom - y]
    }

    /// The part of a polygon inside (I. E. Sutherland, G. W. Hodgman, Comm. ACM 17 (1974) 32-42).
    pub(super) fn polygon(&self, corners: &[Point]) -> Vec<Point> {
        let mut kept = corners.to_vec();
        for side in 0..4 {
            let before = std::mem::take(&mut kept);
            for (i, q) in before.iter().enumerate() {
                let p = before[(i + before.len() - 1) % before.len()];
                let (a, b) = (self.inside(p)[side], self.inside(*q)[side]);
                if (a < 0.0) != (b < 0.0) {
                    kept.push(between(p, *q, a / (a - b)));
                }
                if b >= 0.0 {
                    kept.push(*q);
                }
            }
        }
        kept
    }

    /// The parts of a line inside.
    pub(super) fn line(&self, points: &[Point]) -> Vec<Vec<Point>> {
        let mut parts: Vec<Vec<Point>> = Vec::new();
        for pair in points.windows(2) {
            let Some((from, to)) = self.segment(pair[0], pair[1]) else { continue };
            match parts.last_mut() {
                Some(part) if part.last() == Some(&from) => part.push(to),
                Some(_) | None => parts.push(vec![from, to]),
            }
        }
        parts
    }

    /// The part of a straight line inside (Y.-D. Liang, B. A. Barsky, ACM Trans. Graph. 3 (1984)
    /// 1-22).
    fn segment(&self, p: Point, q: Point) -> Option<(Point, Point)> {
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for (a, b) in self.inside(p).into_iter().zip(self.inside(q)) {
            match (a < 0.0, b < 0.0) {
                (true, true) => return None,
                (true, false) => from = from.max(a / (a - b)),
                (false, true) => to = to.min(a / (a - b)),
                (false, false) => {}
            }
        }
        // The ends themselves stay as they are, so that parts join.
        let start = if from > 0.0 { between(p, q, from) } else { p };
        let end = if to < 1.0 { between(p, q, to) } else { q };
        (from < to).then_some((start, end))
    }
}

fn between(p: Point, q: Point, t: f64) -> Point {
    (p.0 + t * (q.0 - p.0), p.1 + t * (q.1 - p.1))
}

#[cfg(test)]
mod tests {
    use super::*;

    const WINDOW: Window = Window { left: 0.0, top: 0.0, right: 10.0, bottom: 5.0 };

    #[test]
    fn a_polygon_is_cut_at_each_side() {
        let cut = WINDOW.polygon(&[(-5.0, -5.0), (15.0, -5.0), (15.0, 15.0), (-5.0, 15.0)]);
        let area: f64 = (0..cut.len())
            .map(|i| (cut[i], cut[(i + 1) % cut.len()]))
            .map(|(p, q)| (p.0 * q.1 - q.0 * p.1) / 2.0)
            .sum();
        assert!((area - 50.0).abs() < 1e-12);
        assert!(WINDOW.polygon(&[(-3.0, 0.0), (-1.0, 0.0), (-2.0, 4.0)]).is_empty());
    }

    #[test]
    fn a_line_is_cut_where_it_leaves() {
        let parts = WINDOW.line(&[(-2.0, 1.0), (2.0, 1.0), (4.0, 1.0), (4.0, 9.0)]);
        assert_eq!(parts, [vec![(0.0, 1.0), (2.0, 1.0), (4.0, 1.0), (4.0, 5.0)]]);
    }
}
