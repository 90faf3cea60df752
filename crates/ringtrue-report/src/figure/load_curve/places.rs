//! Curves as places with what is known of each, in the reader's units.

use ringtrue_seal::face_load::{HalfOutcome, JointOutcome, LoadPoint};

use super::reached;
use crate::reader::{COVERAGE_FACTOR, Reader};

/// A place on a curve with what is known of it, in the reader's units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Place {
    pub(super) x: f64,
    pub(super) load: f64,
    /// Expanded uncertainty.
    pub(super) expanded: f64,
    /// Half of the band about the computed curve, for a given modulus.
    pub(super) computed: f64,
}

/// A place of which nothing is known yet.
pub(super) const NOWHERE: Place = Place { x: 0.0, load: 0.0, expanded: 0.0, computed: 0.0 };

/// The curve with the three gaps in it, the smallest gap first. A modulus is a factor on the force,
/// so between and beyond the three gaps the uncertainty is taken as the same share of the load.
pub(super) fn gap_places(joint: &JointOutcome, reader: Reader) -> Vec<Place> {
    let loads = reader.line_loads();
    let at_gap = reached(&joint.at_gap);
    let mut known: Vec<Place> = at_gap
        .iter()
        .filter(|(_, load)| load.face_load_n_per_mm > 0.0)
        .map(|(_, load)| Place {
            x: load.gap_mm,
            load: load.standard_uncertainty_n_per_mm / load.face_load_n_per_mm,
            ..NOWHERE
        })
        .collect();
    known.sort_by(|a, b| a.x.total_cmp(&b.x));
    let place = |gap_mm: f64, load: f64, band: Option<f64>| {
        let share = between(&known, gap_mm).map_or(0.0, |place| place.load);
        Place {
            x: reader.of_mm(gap_mm),
            load: loads.of_mm(load),
            expanded: loads.of_mm(load * share * COVERAGE_FACTOR),
            computed: loads.of_mm(band.unwrap_or(0.0)),
        }
    };
    let mut curve: Vec<Place> = joint
        .curve
        .iter()
        .map(|point| place(point.gap_mm, point.face_load_n_per_mm, point.error_band_n_per_mm))
        .collect();
    curve.extend(
        at_gap
            .iter()
            .map(|(_, load)| place(load.gap_mm, load.face_load_n_per_mm, load.error_band_n_per_mm)),
    );
    curve.sort_by(|a, b| a.x.total_cmp(&b.x));
    curve
}

pub(super) fn on_half(point: &LoadPoint, reader: Reader) -> Place {
    let loads = reader.line_loads();
    Place {
        x: reader.of_mm(point.travel_mm),
        load: loads.of_mm(point.face_load_n_per_mm),
        expanded: loads.of_mm(point.standard_uncertainty_n_per_mm * COVERAGE_FACTOR),
        computed: loads.of_mm(point.error_band_n_per_mm.unwrap_or(0.0)),
    }
}

/// The disc-spring formula as a line load over the same circumference as the curve's.
pub(super) fn disc_spring(half: &HalfOutcome, reader: Reader) -> Vec<Place> {
    let Some(last) = half.curve.last().filter(|last| last.force_n > 0.0) else {
        return Vec::new();
    };
    let by_force = last.face_load_n_per_mm / last.force_n;
    half.disc_spring_n
        .iter()
        .map(|(travel, force)| Place {
            x: reader.of_mm(*travel),
            load: reader.line_loads().of_mm(force * by_force),
            ..NOWHERE
        })
        .collect()
}

/// The place at an x between sorted places, by straight lines, kept at the ends.
pub(super) fn between(places: &[Place], x: f64) -> Option<Place> {
    let next = places.partition_point(|place| place.x < x);
    let before = next.checked_sub(1).and_then(|i| places.get(i));
    match (before, places.get(next)) {
        (Some(a), Some(b)) => {
            let t = (x - a.x) / (b.x - a.x);
            let at = |p: f64, q: f64| p + t * (q - p);
            Some(Place {
                x,
                load: at(a.load, b.load),
                expanded: at(a.expanded, b.expanded),
                computed: at(a.computed, b.computed),
            })
        }
        (Some(end), None) | (None, Some(end)) => Some(Place { x, ..*end }),
        (None, None) => None,
    }
}

/// The places up to an x, the last one on it where the curve goes on.
pub(super) fn cut(curve: &[Place], end: f64) -> Vec<Place> {
    let mut kept: Vec<Place> = curve.iter().copied().filter(|place| place.x <= end).collect();
    if kept.len() < curve.len() {
        kept.extend(between(curve, end));
    }
    kept
}

#[cfg(test)]
mod tests;
