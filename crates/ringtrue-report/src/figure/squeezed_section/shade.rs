//! Stretch as tints from light to dark, which a black-and-white printer keeps apart.

use ringtrue_metrology::units::fixed;
use ringtrue_words::say;

use super::shape::{Rz, Shape};
use crate::figure::axis::round_up;
use crate::figure::svg::{Anchor, Canvas, Pen, Point};
use crate::figure::{style, text_width};

/// Tints of the accent, light to dark in even steps of lightness.
const TINTS: [&str; 7] =
    ["#f3f7fa", "#dae6ef", "#c0d5e3", "#a4c2d6", "#86adc7", "#6796b6", "#477ea4"];

/// Even classes of stretch from 1 on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Shades {
    /// Width of a class.
    step: f64,
    /// Classes in use.
    count: usize,
}

impl Shades {
    /// Round classes up to a stretch.
    pub(crate) fn over(largest: f64) -> Self {
        let span = largest - 1.0;
        if span < 5e-4 {
            // Nothing is stretched.
            return Self { step: 0.001, count: 1 };
        }
        let step = round_up(span / TINTS.len() as f64);
        let count = (libm::ceil(span / step - 1e-9) as usize).clamp(1, TINTS.len());
        Self { step, count }
    }

    fn class(&self, stretch: f64) -> usize {
        // A cast of a value below zero gives the first class.
        (((stretch - 1.0) / self.step) as usize).min(self.count - 1)
    }

    fn tint(&self, class: usize) -> &'static str {
        // Few classes are spread over all tints.
        let last = (self.count - 1).max(1);
        TINTS[(class * (TINTS.len() - 1)).div_ceil(last).min(TINTS.len() - 1)]
    }

    /// Fills a section with the tints of its stretch, and draws its mesh where there is a pen.
    ///
    /// Bands run between equal stretches, as straight lines across the triangles from an element's
    /// middle to its edges.
    pub(super) fn fill(
        &self,
        canvas: &mut Canvas,
        shape: &Shape,
        (place, pen): (&dyn Fn(Rz) -> Point, Option<Pen>),
    ) {
        let mut bands: Vec<Vec<Vec<Point>>> = vec![Vec::new(); self.count];
        let mut mesh = Vec::new();
        for element in shape.elements() {
            let placed = |(at, stretch): (Rz, f64)| (place(at), stretch);
            let middle = placed(element.middle);
            let edge: Vec<(Point, f64)> = element.outline.into_iter().map(placed).collect();
            let outline: Vec<Point> = edge.iter().map(|(point, _)| *point).collect();
            let class = self.class(middle.1);
            if edge.iter().all(|(_, stretch)| self.class(*stretch) == class) {
                bands[class].push(outline.clone());
            } else {
                for (from, to) in edge.iter().zip(edge.iter().cycle().skip(1)) {
                    for (class, kept) in bands.iter_mut().enumerate() {
                        let band = self.band(class, &[middle, *from, *to]);
                        kept.extend((band.len() > 2).then_some(band));
                    }
                }
            }
            mesh.push(outline);
        }
        for (class, shapes) in bands.iter().enumerate().filter(|(_, shapes)| !shapes.is_empty()) {
            // Edged in its own tint, so that no paper shows between.
            let tint = self.tint(class);
            canvas.shapes(shapes, (tint, Some(Pen::new(0.08, tint))));
        }
        if let Some(pen) = pen {
            canvas.shapes(&mesh, ("none", Some(pen)));
        }
    }

    /// The part of a triangle whose stretch is of a class; the first and last are open.
    fn band(&self, class: usize, triangle: &[(Point, f64); 3]) -> Vec<Point> {
        let bound = |edge: usize| 1.0 + self.step * edge as f64;
        let mut kept = triangle.to_vec();
        if class > 0 {
            kept = beyond(&kept, bound(class), 1.0);
        }
        if class + 1 < self.count {
            kept = beyond(&kept, bound(class + 1), -1.0);
        }
        kept.into_iter().map(|(point, _)| point).collect()
    }

    /// The tints with their bounds, from the top left corner of the boxes.
    pub(crate) fn legend(&self, canvas: &mut Canvas, (left, top): Point) {
        const BOX: Point = (7.2, 3.4);
        canvas.text((left, top - 1.3), say!("figure-squeezed-largest-stretch"), style::SMALL);
        let decimals = (-libm::floor(libm::log10(self.step) + 1e-9)).max(0.0) as usize;
        let text = |edge: usize| fixed(1.0 + self.step * edge as f64, decimals);
        let wide = text_width::width(&text(0), style::SMALL.size, style::SMALL.weight);
        let left = left + wide / 2.0;
        let pen = Some(Pen::new(0.16, style::INK));
        for class in 0..self.count {
            let x = left + BOX.0 * class as f64;
            canvas.rectangle((x, top), BOX, (self.tint(class), pen));
        }
        // Bounds below the edges, only as many as keep clear.
        let every = libm::ceil((wide + 1.0) / BOX.0) as usize;
        for edge in (0..=self.count).step_by(every.max(1)) {
            let x = left + BOX.0 * edge as f64;
            canvas.text((x, top + BOX.1 + 2.8), &text(edge), style::SMALL.at(Anchor::Middle));
        }
    }
}

/// The part of a polygon whose value is above a bound, or below it where `sign` is -1.
fn beyond(corners: &[(Point, f64)], bound: f64, sign: f64) -> Vec<(Point, f64)> {
    let mut kept = Vec::new();
    for (i, q) in corners.iter().enumerate() {
        let p = corners[(i + corners.len() - 1) % corners.len()];
        let (a, b) = (sign * (p.1 - bound), sign * (q.1 - bound));
        if (a < 0.0) != (b < 0.0) {
            let t = a / (a - b);
            let between = |x: f64, y: f64| x + t * (y - x);
            kept.push(((between(p.0.0, q.0.0), between(p.0.1, q.0.1)), bound));
        }
        if b >= 0.0 {
            kept.push(*q);
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn classes_are_round_and_cover_the_stretch() {
        let shades = Shades::over(1.43);
        assert!((shades.step - 0.1).abs() < 1e-12 && shades.count == 5);
        assert_eq!([0.99, 1.0, 1.05, 1.1001, 1.43].map(|s| shades.class(s)), [0, 0, 0, 1, 4]);
        assert_eq!((shades.tint(0), shades.tint(4)), (TINTS[0], TINTS[6]));
        assert_eq!(Shades::over(1.0).count, 1);
    }

    #[test]
    fn bands_share_a_triangle_without_gap_or_overlap() {
        let shades = Shades::over(1.3);
        let triangle = [((0.0, 0.0), 1.0), ((6.0, 0.0), 1.3), ((0.0, 4.0), 1.07)];
        let area = |corners: &[Point]| {
            let sides = (0..corners.len()).map(|i| (corners[i], corners[(i + 1) % corners.len()]));
            sides.map(|(p, q)| (p.0 * q.1 - q.0 * p.1) / 2.0).sum::<f64>()
        };
        let bands: Vec<f64> =
            (0..shades.count).map(|class| area(&shades.band(class, &triangle))).collect();
        assert!((bands.iter().sum::<f64>() - 12.0).abs() < 1e-9, "{bands:?}");
        assert!(bands.iter().all(|band| *band > 0.0), "{bands:?}");
    }

    #[test]
    fn tints_grow_darker_in_grey() {
        // Luma of ITU-R BT.709.
        let grey = |tint: &str| {
            let part = |at: usize| f64::from(u8::from_str_radix(&tint[at..at + 2], 16).unwrap());
            0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5)
        };
        for pair in TINTS.windows(2) {
            assert!(grey(pair[0]) - grey(pair[1]) > 12.0, "{pair:?}");
        }
    }
}
