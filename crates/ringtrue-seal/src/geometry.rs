//! Shared geometry of a half: the mounted toric, and where things stand.
//!
//! The half-plane of the seal: radius r outward, z from the housing face into the housing. With
//! assembled height h the lapped face is at z = -h, and both ramps narrow with growing z:
//! r = R - (z - z₀) tan α on either. The toric stands outside the ring's ramp and inside the
//! housing's. Its section is taken as round and its volume as constant (rubber hardly changes its
//! volume; the flattening where it lies on the ramp is left out).

use std::f64::consts::PI;

use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::{Angle, Length, Quantity};
use uom::si::f64::Volume;
use uom::si::length::meter;
use uom::si::volume::cubic_meter;

use crate::definition::seal::{Housing, LoadRing, Ramp, Ring, Seal, Toric};

/// Where the formulas come from.
pub const SOURCES: &[Source] = &[
    Source::CommonPractice(
        "constant volume of a stretched ring (Pappus), as O-ring handbooks take it: \
         (d1 + d2) d2² unchanged",
    ),
    Source::CommonPractice("touching of a circle and two straight lines: plane geometry"),
];

/// A toric stretched on to its ring, before it meets the housing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MountedToric {
    /// Inside diameter on the ring: at the section's innermost point.
    pub inside_diameter: Length,
    /// Diameter of the thinned section, as if it stayed round.
    pub section_diameter: Length,
    /// Diameter of the circle through the middle of the section.
    pub centroid_diameter: Length,
    /// Stretch of the inside diameter: mounted over free, less one. Below zero the toric is loose.
    pub stretch: f64,
    /// Stretch of the circle through the middle of the section: mounted over free, less one.
    pub hoop_stretch: f64,
    /// Angle of the ramp that it lies on.
    ramp_angle: Angle,
}

impl MountedToric {
    /// Outside diameter, before it meets the housing.
    #[must_use]
    pub fn outside_diameter(&self) -> Length {
        self.centroid_diameter + self.section_diameter
    }

    /// How much further into the housing than the point where it touches the ring's ramp the
    /// middle of its section stands.
    fn middle_behind_seat(&self) -> f64 {
        self.section_diameter.si() / 2.0 * libm::sin(self.ramp_angle.si())
    }
}

/// A free toric by its two diameters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FreeToric {
    /// Inside diameter d1.
    pub inside_diameter: Length,
    /// Section diameter d2.
    pub section_diameter: Length,
}

impl From<&Toric> for FreeToric {
    fn from(toric: &Toric) -> Self {
        Self {
            inside_diameter: toric.inside_diameter.value(),
            section_diameter: toric.section_diameter.value(),
        }
    }
}

/// The toric on its ring's ramp.
///
/// See [`stretched`]; the ramp's reference plane is where the mounted toric touches it.
#[must_use]
pub fn mount(toric: &Toric, ring_ramp: &Ramp) -> MountedToric {
    stretched(FreeToric::from(toric), ring_ramp.diameter.value(), ring_ramp.angle.value())
}

/// A toric that touches a cone of angle α to the axis at the diameter D, its volume unchanged:
/// `(d1 + d2) d2² = Dc d'²` with `Dc = D + d' cos α`.
///
/// At α = 0 that is `(d1' + d2') d2'² = (d1 + d2) d2²` with d1' = D. Valid for positive diameters
/// and 0 <= α < 90°.
#[must_use]
pub fn stretched(free: FreeToric, seat_diameter: Length, ramp_angle: Angle) -> MountedToric {
    let (d1, d2) = (free.inside_diameter.si(), free.section_diameter.si());
    let (seat, cosine) = (seat_diameter.si(), libm::cos(ramp_angle.si()));
    let volume = (d1 + d2) * d2 * d2;
    // f(d) = (D + d cos α) d² - V grows and is convex for d > 0: after one step Newton comes down
    // from above and can't leave the root.
    let mut section = d2;
    for _ in 0..60 {
        let value = (seat + section * cosine) * section * section - volume;
        let slope = (2.0 * seat + 3.0 * section * cosine) * section;
        let step = value / slope;
        section -= step;
        if step.abs() <= 1e-16 * section {
            break;
        }
    }
    let centroid = seat + section * cosine;
    MountedToric {
        inside_diameter: metres(centroid - section),
        section_diameter: metres(section),
        centroid_diameter: metres(centroid),
        stretch: (centroid - section) / d1 - 1.0,
        hoop_stretch: centroid / (d1 + d2) - 1.0,
        ramp_angle,
    }
}

/// Volume of a torus (Pappus): π² D d² / 4, with D through the middle of the section.
#[must_use]
pub fn torus_volume(centroid_diameter: Length, section_diameter: Length) -> Volume {
    let (centroid, section) = (centroid_diameter.si(), section_diameter.si());
    Volume::new::<cubic_meter>(PI * PI / 4.0 * centroid * section * section)
}

/// The toric of a seal on its ring; `None` where the load ring is a conical washer.
#[must_use]
pub fn mounted(seal: &Seal) -> Option<MountedToric> {
    match (&seal.load_ring, &seal.ring.ramp) {
        (LoadRing::Toric(toric), Some(ramp)) => Some(mount(toric, ramp)),
        (LoadRing::Toric(_), None) | (LoadRing::ConicalWasher(_), _) => None,
    }
}

/// A ramp by its cone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cone {
    /// Angle to the axis, above 0 and below 90°.
    pub angle: Angle,
    /// Diameter at the reference plane.
    pub diameter: Length,
    /// Axial distance of that plane from the lapped face or the housing face.
    pub plane_from_face: Length,
}

impl From<&Ramp> for Cone {
    fn from(ramp: &Ramp) -> Self {
        Self {
            angle: ramp.angle.value(),
            diameter: ramp.diameter.value(),
            plane_from_face: ramp.plane_from_face.value(),
        }
    }
}

/// The assembled height at which the load ring of a seal just touches both sides, unsqueezed: the
/// load begins below it. `None` only where a toric lacks a ramp, which reading the file refuses.
///
/// A conical washer of free axial height H touches both seats at h = ring seat + H - housing seat,
/// each seat measured from its face.
#[must_use]
pub fn free_height(seal: &Seal) -> Option<Length> {
    if let LoadRing::ConicalWasher(washer) = &seal.load_ring {
        let axial = washer.outline.iter().map(|[_, axial]| axial.value());
        let tall = axial.reduce(|a, b| if a > b { a } else { b })?;
        return Some(
            washer.ring_seat_from_face.value() + tall - washer.housing_seat_from_face.value(),
        );
    }
    let toric = mounted(seal)?;
    let (ring, housing) = (seal.ring.ramp.as_ref()?, seal.housing.ramp.as_ref()?);
    Some(free_height_between(&toric, ring.plane_from_face.value(), Cone::from(housing)))
}

/// The assembled height at which a mounted toric just touches the housing's ramp.
///
/// The middle of the section is at r = Dc/2 and z = -h + z_ring + (d'/2) sin α; its distance from
/// the housing's ramp, [R - (z - z_h) tan α_h - r] cos α_h, equals d'/2. The two angles may differ.
#[must_use]
pub fn free_height_between(
    toric: &MountedToric,
    ring_plane_from_face: Length,
    housing: Cone,
) -> Length {
    let middle = middle_when_touching(toric, housing);
    metres(ring_plane_from_face.si() + toric.middle_behind_seat() - middle)
}

/// Axial distance from the housing face at which the unsqueezed toric touches the housing's ramp;
/// `None` where the load ring is a conical washer.
#[must_use]
pub fn first_touch_from_housing_face(seal: &Seal) -> Option<Length> {
    let toric = mounted(seal)?;
    let housing = Cone::from(seal.housing.ramp.as_ref()?);
    let sine = libm::sin(housing.angle.si());
    let middle = middle_when_touching(&toric, housing);
    Some(metres(middle + toric.section_diameter.si() / 2.0 * sine))
}

/// z of the section's middle where the toric touches the housing's ramp.
fn middle_when_touching(toric: &MountedToric, housing: Cone) -> f64 {
    let angle = housing.angle.si();
    let half_section = toric.section_diameter.si() / 2.0;
    let room = (housing.diameter - toric.centroid_diameter).si() / 2.0;
    let beside = room - half_section / libm::cos(angle);
    housing.plane_from_face.si() + beside / libm::tan(angle)
}

/// By how much the mounted toric's outside diameter is above the lip's: it must be squeezed by that
/// much on the diameter to pass, and is kept in while it is above zero. `None` without a lip or
/// where the load ring is a conical washer.
#[must_use]
pub fn lip_interference(seal: &Seal) -> Option<Length> {
    let lip = seal.housing.lip.as_ref()?;
    Some(mounted(seal)?.outside_diameter() - lip.diameter.value())
}

/// Diameter of the housing's ramp at an axial distance from the housing face.
#[must_use]
pub fn housing_ramp_diameter_at(housing: &Housing, from_face: Length) -> Option<Length> {
    let ramp = housing.ramp.as_ref()?;
    let depth = from_face.si() - ramp.plane_from_face.value().si();
    let narrower = 2.0 * depth * libm::tan(ramp.angle.value().si());
    Some(metres(ramp.diameter.value().si() - narrower))
}

/// Mean diameter of a ring's contact band: where face load and sliding speed are stated.
#[must_use]
pub fn contact_band_mean_diameter(ring: &Ring) -> Length {
    (ring.contact_band_inner_diameter.value() + ring.contact_band_outer_diameter.value()) / 2.0
}

/// Diameter of the circle on which assembled heights are read: the file's, or the middle of the
/// lapped face.
#[must_use]
pub fn measuring_diameter(ring: &Ring) -> Length {
    ring.measuring_diameter.as_ref().map_or_else(
        || (ring.face_inner_diameter.value() + ring.face_outer_diameter.value()) / 2.0,
        |given| given.value(),
    )
}

fn metres(value: f64) -> Length {
    Length::new::<meter>(value)
}

#[cfg(test)]
mod tests;
