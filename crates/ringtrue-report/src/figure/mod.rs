//! The drawings, all in one visual language (see [`style`]).
//!
//! A ring is seen facing its lapped face, the paint mark at the top, angles counter-clockwise. A
//! section lies with its axis level below it, half `a` on the left with its lapped face to the
//! right.

mod axis;
pub(crate) mod bands;
pub(crate) mod chilling;
pub(crate) mod closing;
pub(crate) mod code;
pub(crate) mod eccentricity;
pub(crate) mod gap_distribution;
pub(crate) mod half_section;
mod hatch;
pub(crate) mod heights;
pub(crate) mod leak_test;
pub(crate) mod limit_scale;
pub(crate) mod load_curve;
pub(crate) mod mark;
pub(crate) mod ring_from_above;
pub(crate) mod roughness;
pub(crate) mod rubber_law;
pub(crate) mod squeezed_section;
pub(crate) mod stages;
pub(crate) mod study;
pub(crate) mod style;
pub(crate) mod svg;
pub(crate) mod text_width;

use serde::Serialize;

/// One drawing: its words and its SVG text.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Drawing {
    /// File name without its ending: lower case, hyphens.
    pub name: String,
    /// What it shows.
    pub title: String,
    /// The same in words, for a reader who does not see it.
    pub alt: String,
    /// Natural width in mm.
    pub width_mm: u32,
    /// The drawing.
    pub svg: String,
}

impl Drawing {
    fn new(name: String, title: String, alt: String, drawn: (f64, svg::Canvas)) -> Self {
        let (width, canvas) = drawn;
        let svg = canvas.finish(&title, &alt);
        Self { name, title, alt, width_mm: width as u32, svg }
    }
}
