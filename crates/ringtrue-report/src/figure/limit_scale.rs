//! A value with its uncertainty on a scale, against its limits.

use ringtrue_words::say;

use super::Drawing;
use super::axis::Axis;
use super::hatch;
use super::style;
use super::svg::{Anchor, Canvas, Pen, Point};
use crate::reader::{COVERAGE_FACTOR, Reader};

/// What stands on the scale. Lengths in mm.
#[derive(Debug, Clone)]
pub(crate) struct Scale {
    /// Name of the drawing.
    pub(crate) name: String,
    /// The quantity: `range of the assembled height, half a`.
    pub(crate) quantity: String,
    /// The value.
    pub(crate) value: f64,
    /// What is known of it.
    pub(crate) spread: Spread,
    /// Smallest that conforms.
    pub(crate) min: Option<f64>,
    /// Largest that conforms.
    pub(crate) max: Option<f64>,
}

/// The bar about the value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Spread {
    /// A standard uncertainty; the bar is the expanded one.
    Uncertainty(Option<f64>),
    /// From one value to another, and decimals to show.
    Between(f64, f64),
}

/// How large the scale is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Size {
    /// Beside a line of the first page: limits only are labelled.
    Line,
    /// A drawing of its own.
    Full,
}

struct Layout {
    width: f64,
    height: f64,
    bar_top: f64,
    bar_bottom: f64,
}

/// The scale; `None` where there is no limit to stand against.
pub(crate) fn draw(scale: &Scale, size: Size, reader: Reader) -> Option<Drawing> {
    if scale.min.is_none() && scale.max.is_none() {
        return None;
    }
    let layout = match size {
        Size::Line => Layout { width: 50.0, height: 10.0, bar_top: 1.2, bar_bottom: 5.6 },
        Size::Full => Layout { width: style::WIDTH, height: 20.0, bar_top: 9.0, bar_bottom: 14.0 },
    };
    let axis = axis(scale, &layout);
    let mut canvas = Canvas::new(layout.width, layout.height);
    zones(&mut canvas, scale, (&axis, &layout));
    limit_labels(&mut canvas, scale, (&axis, &layout), reader);
    value_mark(&mut canvas, scale, (&axis, &layout));
    let decimals = decimals(scale, reader);
    if size == Size::Full {
        canvas.text((2.0, layout.bar_top - 5.4), &scale.quantity, style::LABEL);
        let text = value_text(scale, reader);
        let half = super::text_width::width(&text, style::NUMBER.size, style::NUMBER.weight) / 2.0;
        let x = axis.within(scale.value).clamp(half, layout.width - half);
        canvas.text((x, layout.bar_top - 1.8), &text, style::NUMBER.at(Anchor::Middle));
    }
    let limits = reader.limits(scale.min, scale.max, decimals).unwrap_or_default();
    let alt = say!(
        "figure-scale-alt",
        quantity = scale.quantity,
        value = value_text(scale, reader),
        limits
    );
    let title = say!("figure-scale-title", quantity = scale.quantity);
    Some(Drawing::new(scale.name.clone(), title, alt, (layout.width, canvas)))
}

fn ends(scale: &Scale) -> (f64, f64) {
    match scale.spread {
        Spread::Uncertainty(u) => {
            let half = u.unwrap_or(0.0) * COVERAGE_FACTOR;
            (scale.value - half, scale.value + half)
        }
        Spread::Between(low, high) => (low, high),
    }
}

fn decimals(scale: &Scale, reader: Reader) -> usize {
    match scale.spread {
        Spread::Uncertainty(u) => reader.decimals(u),
        Spread::Between(..) => reader.workshop_decimals(),
    }
}

fn value_text(scale: &Scale, reader: Reader) -> String {
    let decimals = decimals(scale, reader);
    match scale.spread {
        Spread::Uncertainty(u) => reader.uncertain(scale.value, u),
        Spread::Between(low, high) => {
            say!(
                "figure-common-range",
                low = reader.number(low, decimals),
                high = reader.length(high, decimals)
            )
        }
    }
}

fn axis(scale: &Scale, layout: &Layout) -> Axis {
    let (low, high) = ends(scale);
    let (from, to) = match (scale.min, scale.max) {
        (Some(min), Some(max)) => {
            let room = ((max - min).abs() * 0.35).max(1e-6);
            (min - room, max + room)
        }
        // A range is never below zero.
        (None, Some(max)) if scale.value >= 0.0 && max > 0.0 => (0.0, max * 1.3),
        (None, Some(bound)) | (Some(bound), None) => {
            let room = ((scale.value - bound).abs() * 1.3).max(bound.abs() * 0.2).max(1e-6);
            (bound - room, bound + room)
        }
        (None, None) => (low, high),
    };
    let (from, to) = (from.min(low), to.max(high));
    let pad = if from == 0.0 { 0.0 } else { (to - from) * 0.03 };
    Axis::new((from - pad, 2.0), (to + (to - from) * 0.03, layout.width - 2.0))
}

fn zones(canvas: &mut Canvas, scale: &Scale, (axis, layout): (&Axis, &Layout)) {
    let (top, height) = (layout.bar_top, layout.bar_bottom - layout.bar_top);
    let (left, right) = (2.0, layout.width - 2.0);
    canvas.rectangle((left, top), (right - left, height), (style::PAPER, Some(style::HAIR)));
    let mut closed = |from: f64, to: f64| {
        if to - from > 0.01 {
            let corners: [Point; 4] =
                [(from, top), (to, top), (to, top + height), (from, top + height)];
            canvas.polygon(&corners, style::METAL, None);
            hatch::lines(canvas, &corners, 1.1, style::HAIR);
        }
    };
    if let Some(min) = scale.min {
        closed(left, axis.within(min));
    }
    if let Some(max) = scale.max {
        closed(axis.within(max), right);
    }
    for limit in [scale.min, scale.max].into_iter().flatten() {
        let x = axis.within(limit);
        canvas.line((x, top - 0.6), (x, top + height + 0.6), style::HEAVY);
    }
}

fn limit_labels(canvas: &mut Canvas, scale: &Scale, on: (&Axis, &Layout), reader: Reader) {
    let (axis, layout) = on;
    let least = decimals(scale, reader).min(reader.workshop_decimals());
    let kind = style::LABEL;
    let exact = |limit: f64| reader.exact(limit, least);
    let y = layout.bar_bottom + 3.4;
    let room = |text: &str| super::text_width::width(text, kind.size, kind.weight) / 2.0;
    let min = scale.min.map(|min| (min, say!("figure-common-min", value = exact(min))));
    let max = scale.max.map(|max| (max, say!("figure-common-max", value = exact(max))));
    let texts: Vec<_> =
        min.into_iter().chain(max).map(|(limit, text)| (axis.within(limit), text)).collect();
    let mut taken_to = 0.0;
    let mut right = layout.width;
    if let [(_, _), (_, last)] = &texts[..] {
        right -= 2.0 * room(last) + 1.5;
    }
    for (i, (x, text)) in texts.iter().enumerate() {
        let half = room(text);
        let right = if i + 1 == texts.len() { layout.width } else { right };
        let low: f64 = half + taken_to;
        let x = x.min(right - half).max(low);
        canvas.text((x, y), text, kind.at(Anchor::Middle));
        taken_to = x + half + 1.5;
    }
}

fn value_mark(canvas: &mut Canvas, scale: &Scale, (axis, layout): (&Axis, &Layout)) {
    let y = (layout.bar_top + layout.bar_bottom) / 2.0;
    let (low, high) = ends(scale);
    let (low, high) = (axis.within(low), axis.within(high));
    if high - low > 0.05 {
        let halo = Pen::new(1.5, style::PAPER);
        let bar = Pen::new(0.6, style::INK);
        canvas.line((low, y), (high, y), halo);
        canvas.line((low, y), (high, y), bar);
        for x in [low, high] {
            canvas.line((x, y - 1.2), (x, y + 1.2), Pen::new(0.4, style::INK));
        }
    }
    let halo = Some(Pen::new(0.4, style::PAPER));
    canvas.circle((axis.within(scale.value), y), 1.1, (style::INK, halo));
}
