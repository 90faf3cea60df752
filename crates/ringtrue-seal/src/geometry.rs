//! Shared geometry of a half: the mounted toric, and where things stand.
//!
//! The half-plane of the seal: radius r outward, z from the housing face into the housing. With
//! assembled height h the lapped face is at z = -h, and both ramps narrow with growing z.

use ringtrue_metrology::units::Length;

use crate::definition::seal::Toric;

/// A toric stretched on to its ring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MountedToric {
    /// Inside diameter on the ring.
    pub inside_diameter: Length,
    /// Diameter of the thinned section, as if it stayed round.
    pub section_diameter: Length,
    /// Stretch of the inside diameter: mounted over free, less one.
    pub stretch: f64,
}

/// The toric on a seat of the given diameter, its volume unchanged:
/// `(d1 + d2) d2² = (d1' + d2') d2'²` (Pappus; the usual assumption of O-ring handbooks).
#[must_use]
pub fn mount(_toric: &Toric, _seat_diameter: Length) -> MountedToric {
    unimplemented!()
}
