//! What a load ring's stretch and its sliding say beside the load.

use super::half::{CurvePoint, HalfCurve, HalfProblem, SectionOf};
use super::outcome::StretchAtBreak;
use crate::definition::joint::Half;
use crate::definition::material::Material;
use crate::finding;

/// A band about the forces wider than this says nothing, percent (a choice of ours).
pub(super) const BAND_SAYS_NOTHING: f64 = 20.0;
/// From this share of the contact on, all of it slides.
const ALL_SLIDES: f64 = 0.99;

/// A value of the curve at a travel: straight between two points, the end's beyond it.
pub(super) fn at(curve: &HalfCurve, travel_mm: f64, of: fn(&CurvePoint) -> f64) -> f64 {
    let known: Vec<_> = curve.points.iter().map(|point| (point.travel_mm, of(point))).collect();
    straight(&known, travel_mm).unwrap_or(0.0)
}

/// What is known at rising travels, at a travel: straight between two, the end's beyond it.
pub(super) fn straight(known: &[(f64, f64)], travel_mm: f64) -> Option<f64> {
    let next = known.partition_point(|(travel, _)| *travel < travel_mm);
    match (next.checked_sub(1).and_then(|k| known.get(k)), known.get(next)) {
        (Some((a, low)), Some((b, high))) => Some(low + (travel_mm - a) / (b - a) * (high - low)),
        (Some((_, end)), None) | (None, Some((_, end))) => Some(*end),
        (None, None) => None,
    }
}

/// The largest of a value of the curve up to a travel.
pub(super) fn largest(curve: &HalfCurve, travel_mm: f64, of: fn(&CurvePoint) -> f64) -> f64 {
    let before = curve.points.iter().filter(|point| point.travel_mm < travel_mm);
    before.map(of).fold(at(curve, travel_mm, of), f64::max)
}

/// The band about the force at a travel, percent: the wider of the points on both sides.
pub(super) fn band_at(curve: &HalfCurve, travel_mm: f64) -> Option<f64> {
    let next = curve.points.partition_point(|point| point.travel_mm < travel_mm);
    let near = curve.points.iter().skip(next.saturating_sub(1)).take(2);
    near.filter_map(|point| point.error_band_percent).reduce(f64::max).or(curve.error_band_percent)
}

/// The travel from which on the whole contact of a ramp slides, where it is one that counts: from
/// the largest gap, before which the load rings do not bear, to the smallest.
pub(super) fn slides_from(
    problem: &HalfProblem,
    curve: &HalfCurve,
    (from_mm, to_mm): (f64, f64),
) -> Option<f64> {
    match problem.section {
        SectionOf::Toric { .. } => {}
        // The edges of a washer slide on their seats as it flattens: that is how it works.
        SectionOf::ConicalWasher { .. } => return None,
    }
    let end = curve.points.last()?.travel_mm;
    let travels = curve.points.iter().map(|point| point.travel_mm);
    let inside = travels.filter(|travel| (from_mm..to_mm).contains(travel));
    let mut joints = [from_mm].into_iter().chain(inside).chain([to_mm.min(end)]);
    joints.find(|travel| at(curve, *travel, |point| point.slip_share) >= ALL_SLIDES)
}

/// The largest stretch up to a travel against the elongation at break.
pub(super) fn against_break(
    half: Half,
    material: &Material,
    (curve, travel_mm): (&HalfCurve, f64),
) -> Option<StretchAtBreak> {
    let end = curve.points.last()?.travel_mm;
    let travel_mm = travel_mm.min(end);
    let stretch = largest(curve, travel_mm, |point| point.max_principal_stretch);
    let elongation = 100.0 * (stretch - 1.0);
    let (breaks, mut finding) = finding::against_break(material, stretch)?;
    finding.half = Some(half);
    Some(StretchAtBreak {
        max_principal_stretch: stretch,
        travel_mm,
        elongation_percent: elongation,
        elongation_at_break_percent: breaks,
        share: elongation / breaks[0],
        finding,
    })
}
