//! How far may a half be tipped while it is lowered straight down on the other?
//!
//! ```text
//!        high side                    axis                     low side
//!  upper housing face ___________________________________________
//!                     \ tipped by β          |                   ‾‾‾
//!        gap G + R sin β                     | G        gap G − R sin β
//!  lower housing face ____________________________________________
//!                     |<--------- R -------->|<-------- R ------>|
//! ```
//!
//! Housings and rings are rigid, the load rings give way, and the tipped half comes down along the
//! axis until the housing faces stand at the closed gap G there. At the radius R they then stand
//! `G + R sin β` apart on the high side and `G − R sin β` on the low side. The lapped faces touch
//! on the low side first at any tip; that alone does no harm, since the rings follow one another.
//! What must not happen:
//!
//! 1. **Edge**: a housing's edge touches the other housing before the joint is closed,
//!    `sin β <= G/R` with R the radius of the housing face's edge
//!    (`housing.face_outer_diameter`, of two faces the smaller). Where no file states it, R is the
//!    innermost edge of the face, at the lip or the ramp's mouth: a wider face touches at a
//!    smaller tip.
//! 2. **Lift**: on the high side the toric leaves its ramp. Two rings in series are unsqueezed
//!    where the gap is the sum of both free heights H, so `sin β <= (H_a + H_b − G)/r`, with r the
//!    radius at which the toric touches the housing's ramp.
//! 3. **Bottom**: on the low side the toric runs off the lower end of the ramp. A toric that rolls
//!    without slip between two cones travels half as far as its ring; with the travel shared alike
//!    by both halves it touches the ramp at `t + (H_a + H_b − G + r sin β)/4` from the housing
//!    face, t where it first touches, and that must be within the housing's depth.
//!
//! The edge goes by the smallest closed gap, the lift by the largest, the bottom by the smallest.
//! A limit below zero is given as zero: even a square lowering breaks it; above 90 degrees there is
//! none. Limits of validity: sizes as drawn, without tolerances; small strains; no slip; halves of
//! like stiffness in 3; nothing but the parts of the seal file in the way.

use ringtrue_metrology::units::{Given, Length, Quantity};
use ringtrue_words::say;
use serde::Serialize;

use crate::RoomError;
use crate::definition::joint::{Half, Joint};
use crate::definition::seal::{LoadRing, Seal};
use crate::geometry;

/// Sizes that limit a tip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TipGeometry {
    /// Smallest and largest closed gap.
    pub closed_gap: (Length, Length),
    /// Both halves.
    pub halves: [TipHalf; 2],
    /// Radius of the housing face's edge.
    pub edge_radius: Option<Length>,
    /// Where that comes from.
    pub edge_basis: EdgeBasis,
}

/// Sizes of one half.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TipHalf {
    /// Assembled height at which the load ring just touches both sides.
    pub free_height: Length,
    /// Radius at which the load ring touches the housing.
    pub touch_radius: Length,
    /// Axial distance from the housing face at which a toric first touches the ramp, and the
    /// housing's depth; `None` for a conical washer, which does not roll.
    pub touch_and_depth: Option<(Length, Length)>,
}

/// Where the edge's radius comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum EdgeBasis {
    /// The outside diameter of the housing face was stated.
    Stated,
    /// The innermost edge of the housing face: a wider face allows less.
    InnermostEdge,
}

/// The largest tips, each by itself.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct TipLimits {
    /// Before a housing's edge touches; null where no edge is known.
    pub edge_deg: Option<f64>,
    /// Which edge.
    pub edge_basis: EdgeBasis,
    /// Before the load ring leaves its seat on the high side.
    pub lift_deg: f64,
    /// Before the toric runs off the ramp on the low side; null where no tip does that.
    pub bottom_deg: Option<f64>,
    /// The smallest of them.
    pub smallest_deg: f64,
}

impl TipGeometry {
    /// Of a joint, at the gap that its limits leave; `None` where they leave none or contradict
    /// each other.
    #[must_use]
    pub fn of_joint(joint: &Joint, face_outer_diameter: Option<Length>) -> Option<Self> {
        let limits = joint.gap_limits();
        let gap = limits.min.zip(limits.max)?;
        let seals = Half::BOTH.map(|half| joint.seal(half));
        Self::of(seals, gap, face_outer_diameter)
    }

    /// Of a seal, its other half taken as the same.
    #[must_use]
    pub fn of_seal(seal: &Seal, face_outer_diameter: Option<Length>) -> Option<Self> {
        let limit = seal.limits.seal_gap.as_ref()?;
        let gap = limit.min.as_ref()?.value();
        let gap = (gap, limit.max.as_ref()?.value());
        Self::of([seal, seal], gap, face_outer_diameter)
    }

    fn of(
        seals: [&Seal; 2],
        closed_gap: (Length, Length),
        face_outer_diameter: Option<Length>,
    ) -> Option<Self> {
        let [a, b] = seals;
        let larger = |x: Option<Length>, y: Option<Length>| match (x, y) {
            (Some(x), Some(y)) => Some(if x > y { x } else { y }),
            (x, y) => x.or(y),
        };
        let smaller = |x: Option<Length>, y: Option<Length>| match (x, y) {
            (Some(x), Some(y)) => Some(if x < y { x } else { y }),
            (x, y) => x.or(y),
        };
        // Beyond the smaller of two faces there is nothing to touch; one alone that is known is
        // no smaller than that.
        let stated = face_outer_diameter.or_else(|| smaller(outside(a), outside(b)));
        let (edge, edge_basis) = match stated {
            Some(diameter) => (Some(diameter), EdgeBasis::Stated),
            None => (larger(mouth(a), mouth(b)), EdgeBasis::InnermostEdge),
        };
        Some(Self {
            closed_gap,
            halves: [half(a)?, half(b)?],
            edge_radius: edge.map(|diameter| diameter / 2.0),
            edge_basis,
        })
    }
}

/// Outside diameter of the housing face, where the seal's file states it.
fn outside(seal: &Seal) -> Option<Length> {
    seal.housing.face_outer_diameter.as_ref().map(Given::value)
}

/// Diameter of the innermost edge of the housing face.
fn mouth(seal: &Seal) -> Option<Length> {
    let lip = seal.housing.lip.as_ref().map(|lip| lip.diameter.value());
    lip.or_else(|| geometry::housing_ramp_diameter_at(&seal.housing, Length::default()))
}

fn half(seal: &Seal) -> Option<TipHalf> {
    let free_height = geometry::free_height(seal)?;
    if let LoadRing::ConicalWasher(washer) = &seal.load_ring {
        let radii = washer.outline.iter().map(|[radius, _]| radius.value());
        let touch_radius = radii.reduce(|a, b| if a > b { a } else { b })?;
        return Some(TipHalf { free_height, touch_radius, touch_and_depth: None });
    }
    let touch = geometry::first_touch_from_housing_face(seal)?;
    let diameter = geometry::housing_ramp_diameter_at(&seal.housing, touch)?;
    Some(TipHalf {
        free_height,
        touch_radius: diameter / 2.0,
        touch_and_depth: Some((touch, seal.housing.depth.value())),
    })
}

/// The largest tips that the sizes allow.
///
/// # Errors
/// [`RoomError`]: radii or gaps that no joint has.
pub fn tip_limits(sizes: &TipGeometry) -> Result<TipLimits, RoomError> {
    let (least, most) = (sizes.closed_gap.0.si(), sizes.closed_gap.1.si());
    let radius = sizes.halves.iter().map(|half| half.touch_radius.si()).fold(0.0, f64::max);
    let edge_radius = sizes.edge_radius.map(Quantity::si);
    if !(radius > 0.0 && least >= 0.0 && most >= least && edge_radius.is_none_or(|r| r > 0.0)) {
        let found = say!("align-sizes-which-no-tip-can-be");
        return Err(RoomError::input(found, say!("align-radii-above-zero-gap-limits-in")));
    }
    let free: f64 = sizes.halves.iter().map(|half| half.free_height.si()).sum();
    let edge = edge_radius.and_then(|edge| degrees(least / edge));
    let lift = degrees((free - most) / radius).unwrap_or(90.0);
    let room = sizes
        .halves
        .iter()
        .filter_map(|half| half.touch_and_depth)
        .map(|(touch, depth)| (depth - touch).si())
        .reduce(f64::min);
    let bottom = room.and_then(|room| degrees((4.0 * room - free + least) / radius));
    let smallest = [edge, Some(lift), bottom].into_iter().flatten().fold(f64::INFINITY, f64::min);
    Ok(TipLimits {
        edge_deg: edge,
        edge_basis: sizes.edge_basis,
        lift_deg: lift,
        bottom_deg: bottom,
        smallest_deg: smallest,
    })
}

/// The angle of a sine; zero below zero, `None` above one.
fn degrees(sine: f64) -> Option<f64> {
    (sine <= 1.0).then(|| libm::asin(sine.max(0.0)).to_degrees())
}
