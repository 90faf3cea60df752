//! Readings round a ring: at which angle each stands, and whether they go all round.

use ringtrue_metrology::units::{Angle, Quantity};
use ringtrue_words::say;

/// Widest stretch of a ring that may be without a reading, degrees: at least as much is seen on
/// each side of it as a plane needs. Common practice, no source.
const WIDEST_HOLE_DEG: f64 = 150.0;

/// A stretch of a ring without a reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Hole {
    /// Where it begins, degrees.
    pub(crate) from_deg: f64,
    /// How wide it is, degrees.
    pub(crate) wide_deg: f64,
}

/// An angle in degrees in [0, 360), the rounding of radians taken off again.
pub(crate) fn place_deg(angle: Angle) -> f64 {
    turned(angle.si() * 180.0 / std::f64::consts::PI)
}

/// The same of an angle in degrees.
pub(crate) fn turned(degrees: f64) -> f64 {
    let turned = degrees - 360.0 * libm::floor(degrees / 360.0);
    let tidy = libm::round(turned * 1e9) / 1e9;
    // A tiny negative angle turns to 360.
    if tidy >= 360.0 { 0.0 } else { tidy }
}

/// The widest stretch without a reading where it is wider than [`WIDEST_HOLE_DEG`].
///
/// `places` are in degrees within one turn, ascending.
pub(crate) fn hole(places: &[f64]) -> Option<Hole> {
    let first = places.first()?;
    let next = places.iter().skip(1).copied().chain(std::iter::once(first + 360.0));
    let holes =
        places.iter().zip(next).map(|(from, to)| Hole { from_deg: *from, wide_deg: to - from });
    holes
        .max_by(|a, b| a.wide_deg.total_cmp(&b.wide_deg))
        .filter(|hole| hole.wide_deg > WIDEST_HOLE_DEG + 1e-6)
}

/// What would fit where a stretch is too wide.
pub(crate) fn no_hole() -> String {
    say!("around-no-hole-wider", widest = WIDEST_HOLE_DEG.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_angle_is_told_within_one_turn_as_it_was_typed() {
        for (typed, told) in
            [(0.0, 0.0), (360.0, 0.0), (-1e-12, 0.0), (-90.0, 270.0), (765.3, 45.3)]
        {
            assert_eq!(turned(typed), told);
            let angle = Angle::new::<uom::si::angle::degree>(typed);
            assert_eq!(place_deg(angle), told);
        }
    }

    #[test]
    fn the_widest_stretch_is_told_where_it_is_too_wide() {
        assert_eq!(hole(&[]), None);
        assert_eq!(hole(&[0.0, 150.0, 210.0]), None);
        assert_eq!(hole(&[10.0]), Some(Hole { from_deg: 10.0, wide_deg: 360.0 }));
        // Over the mark at which angles begin again.
        assert_eq!(hole(&[40.0, 90.0, 240.0]), Some(Hole { from_deg: 240.0, wide_deg: 160.0 }));
        assert_eq!(hole(&[0.0, 155.0, 200.0]), Some(Hole { from_deg: 200.0, wide_deg: 160.0 }));
    }
}
