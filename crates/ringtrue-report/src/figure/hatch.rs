//! Patterns of cut material as plain lines and dots: they look the same in every renderer.

use super::style;
use super::svg::{Canvas, Pen, Point};

/// Lines at 45 degrees, rising to the right, inside a polygon: what is not allowed.
pub(crate) fn lines(canvas: &mut Canvas, polygon: &[Point], spacing: f64, pen: Pen) {
    leaning(canvas, polygon, (Lean::Right, spacing), pen);
}

/// Which way the lines rise: two parts that touch take one each.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Lean {
    /// To the right.
    Right,
    /// To the left.
    Left,
}

/// Lines at 45 degrees inside a polygon: cut metal.
pub(crate) fn leaning(canvas: &mut Canvas, polygon: &[Point], how: (Lean, f64), pen: Pen) {
    let (lean, spacing) = how;
    let sign = match lean {
        Lean::Right => 1.0,
        Lean::Left => -1.0,
    };
    // Along a line that rises to the right x + y is constant, else y - x.
    let sums = || polygon.iter().map(|(x, y)| sign * x + y);
    let from = (sums().fold(f64::INFINITY, f64::min) / spacing).floor() as i64;
    let to = (sums().fold(f64::NEG_INFINITY, f64::max) / spacing).ceil() as i64;
    for step in from..=to.min(from + 2000) {
        let sum = (step as f64 + 0.5) * spacing;
        let mut crossings: Vec<Point> = edges(polygon)
            .filter_map(|(p, q)| {
                let (a, b) = (sign * p.0 + p.1 - sum, sign * q.0 + q.1 - sum);
                ((a < 0.0) != (b < 0.0)).then(|| {
                    let t = a / (a - b);
                    (p.0 + t * (q.0 - p.0), p.1 + t * (q.1 - p.1))
                })
            })
            .collect();
        crossings.sort_by(|p, q| p.0.total_cmp(&q.0));
        for pair in crossings.chunks_exact(2) {
            canvas.line(pair[0], pair[1], pen);
        }
    }
}

/// Small dots inside a polygon: cut rubber.
pub(crate) fn dots(canvas: &mut Canvas, polygon: &[Point], spacing: f64) {
    let bound = |pick: fn(&Point) -> f64| {
        let low = polygon.iter().map(pick).fold(f64::INFINITY, f64::min);
        let high = polygon.iter().map(pick).fold(f64::NEG_INFINITY, f64::max);
        (low, high)
    };
    let (x, y) = (bound(|p| p.0), bound(|p| p.1));
    let rows = (((y.1 - y.0) / spacing).ceil() as u32).min(200);
    let columns = (((x.1 - x.0) / spacing).ceil() as u32).min(200);
    for row in 0..=rows {
        let shift = if row % 2 == 0 { 0.25 } else { 0.75 };
        for column in 0..=columns {
            let dot = (
                x.0 + (f64::from(column) + shift) * spacing,
                y.0 + (f64::from(row) + 0.5) * spacing,
            );
            if contains(polygon, dot) {
                canvas.circle(dot, 0.16, (style::INK, None));
            }
        }
    }
}

fn edges(polygon: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    (0..polygon.len()).map(|i| (polygon[i], polygon[(i + 1) % polygon.len()]))
}

fn contains(polygon: &[Point], (x, y): Point) -> bool {
    edges(polygon)
        .filter(|(p, q)| (p.1 > y) != (q.1 > y) && x < p.0 + (y - p.1) / (q.1 - p.1) * (q.0 - p.0))
        .count()
        % 2
        == 1
}
