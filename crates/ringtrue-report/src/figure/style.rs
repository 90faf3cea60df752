//! The one visual language: line weights, type sizes, colours and the way round.
//!
//! Every drawing is made for a width of 9 cm and for a black-and-white printer: a colour never says
//! what a shape, a pattern or a word does not say too.

use super::svg::{Pen, Type};

/// Natural width of a drawing, mm.
pub(crate) const WIDTH: f64 = 90.0;

/// The shipped type, and what stands in where a drawing is opened without it.
pub(crate) const FAMILIES: &str = "Ringtrue Sans, sans-serif";

/// Paper.
pub(crate) const PAPER: &str = "#ffffff";
/// Ink: outlines and numbers.
pub(crate) const INK: &str = "#18222c";
/// Words beside the numbers.
pub(crate) const MUTED: &str = "#4d5963";
/// Grid lines and open scales.
pub(crate) const FAINT: &str = "#c3cbd1";
/// Metal seen from outside.
pub(crate) const METAL: &str = "#e9edf0";
/// Metal where it is lapped and in contact.
pub(crate) const BAND: &str = "#cfd7dd";
/// The one accent: what was fitted or computed.
pub(crate) const ACCENT: &str = "#1f5f8b";
/// The accent as a tint.
pub(crate) const TINT: &str = "#c4dbea";
/// Rubber in section.
pub(crate) const RUBBER: &str = "#dcd8d0";

/// Cut outlines and limits.
pub(crate) const HEAVY: Pen = Pen::new(0.5, INK);
/// Edges and fitted curves.
pub(crate) const EDGE: Pen = Pen::new(0.3, INK);
/// Fitted curves.
pub(crate) const CURVE: Pen = Pen::new(0.45, ACCENT);
/// Dimension lines, axes and leaders.
pub(crate) const THIN: Pen = Pen::new(0.16, INK);
/// Hatch and grid.
pub(crate) const HAIR: Pen = Pen::new(0.12, MUTED);

/// The number that counts.
pub(crate) const NUMBER: Type = Type::new(2.7, INK).bold();
/// Words and axis numbers.
pub(crate) const LABEL: Type = Type::new(2.5, INK);
/// What stands behind.
pub(crate) const SMALL: Type = Type::new(2.25, MUTED);
