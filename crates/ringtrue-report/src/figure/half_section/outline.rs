//! Where the surfaces of one half stand, from its definition.

use ringtrue_metrology::units::{Length, Quantity, in_mm as mm};
use ringtrue_seal::definition::seal::{ConicalWasher, LoadRing, Ramp, Seal};
use ringtrue_seal::geometry;

use crate::figure::svg::Point;

/// Is an edge given by the definition?
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Edge {
    /// It is.
    Given,
    /// It closes the shape.
    Open,
}

/// A side of a part, from its corner to the next side's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Side {
    /// The corner, `(z, r)` in mm.
    pub(super) from: Point,
    /// Whether it is given.
    pub(super) edge: Edge,
}

/// The load ring's section.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Load {
    /// A round section: centre and diameter.
    Round {
        /// Centre, `(z, r)`.
        centre: Point,
        /// Diameter on the ring.
        diameter: f64,
    },
    /// Corners of a washer.
    Corners(Vec<Point>),
}

impl Load {
    /// The outline as points.
    pub(super) fn points(&self) -> Vec<Point> {
        match self {
            Self::Corners(corners) => corners.clone(),
            Self::Round { centre, diameter } => (0..72)
                .map(|step| f64::from(step) * std::f64::consts::PI / 36.0)
                .map(|t| {
                    let r = diameter / 2.0;
                    (centre.0 + r * libm::cos(t), centre.1 + r * libm::sin(t))
                })
                .collect(),
        }
    }
}

/// One half, each point `(z, r)` in mm: z from the housing face into the housing.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Outline {
    /// Assembled height at which the load ring just touches.
    pub(crate) height: f64,
    pub(super) housing: Vec<Side>,
    pub(super) ring: Vec<Side>,
    /// The contact band, on the lapped face.
    pub(super) band: [Point; 2],
    /// The load ring.
    pub(crate) load: Load,
}

impl Outline {
    /// Smallest and largest z, smallest and largest r.
    pub(super) fn extent(&self) -> (f64, f64, f64, f64) {
        let sides = self.housing.iter().chain(&self.ring).map(|side| side.from);
        let mut all = (f64::INFINITY, f64::NEG_INFINITY, f64::INFINITY, f64::NEG_INFINITY);
        for (z, r) in sides.chain(self.load.points()) {
            all = (all.0.min(z), all.1.max(z), all.2.min(r), all.3.max(r));
        }
        all
    }
}

/// Radius of a ramp at a distance from its face.
fn ramp_radius(ramp: &Ramp, from_face: f64) -> f64 {
    let behind = from_face - mm(ramp.plane_from_face.value());
    mm(ramp.diameter.value()) / 2.0 - behind * libm::tan(ramp.angle.value().si())
}

/// The outline of a half where its load ring just touches; `None` where its measures make no
/// section that can be drawn.
pub(crate) fn outline(seal: &Seal) -> Option<Outline> {
    let outline = match &seal.load_ring {
        LoadRing::Toric(_) => with_toric(seal)?,
        LoadRing::ConicalWasher(washer) => with_washer(seal, washer)?,
    };
    let (z_low, z_high, r_low, r_high) = outline.extent();
    let (wide, high) = (z_high - z_low, r_high - r_low);
    let load = outline.load.points().iter().map(|p| p.0).fold(f64::NEG_INFINITY, f64::max)
        - outline.load.points().iter().map(|p| p.0).fold(f64::INFINITY, f64::min);
    // Nothing reaches the axis, and the load ring is large enough to be seen.
    let drawable = [wide, high, load].iter().all(|size| size.is_finite() && *size > 1e-3)
        && r_low > 0.0
        && wide.max(high) < 25.0 * load;
    drawable.then_some(outline)
}

fn given(from: Point) -> Side {
    Side { from, edge: Edge::Given }
}

fn open(from: Point) -> Side {
    Side { from, edge: Edge::Open }
}

fn with_toric(seal: &Seal) -> Option<Outline> {
    let toric = geometry::mounted(seal)?;
    let height = mm(geometry::free_height(seal)?);
    let (ring_ramp, housing_ramp) = (seal.ring.ramp.as_ref()?, seal.housing.ramp.as_ref()?);
    let section = mm(toric.section_diameter);
    let seat = mm(ring_ramp.plane_from_face.value()) - height;
    let sine = libm::sin(ring_ramp.angle.value().si());
    let centre = (seat + section / 2.0 * sine, mm(toric.centroid_diameter) / 2.0);
    let face = face(seal, height);

    // The ring's ramp is drawn as far as the toric needs it.
    let front = (seat - 0.7 * section).max(-height + 0.1 * section);
    let back = seat + 0.8 * section;
    let on_ring = |z: f64| (z, ramp_radius(ring_ramp, z + height));
    let inside = face.inner.1.min(on_ring(back).1 - 0.35 * section);
    let ring = vec![
        given(face.outer),
        open(face.inner),
        open((back, inside)),
        given(on_ring(back)),
        open(on_ring(front)),
    ];

    let depth = mm(seal.housing.depth.value());
    let on_housing = |z: f64| (z, ramp_radius(housing_ramp, z));
    let mouth = match &seal.housing.lip {
        Some(lip) => {
            let (radius, high) = (mm(lip.diameter.value()) / 2.0, mm(lip.height.value()));
            vec![given((0.0, radius)), given((high, radius)), given(on_housing(high))]
        }
        None => vec![given(on_housing(0.0))],
    };
    let floor = on_housing(depth).1 - 0.5 * section;
    let widest = mouth.iter().map(|side| side.from.1).fold(face.outer.1, f64::max);
    let wall = (depth + 0.45 * section, widest + 0.6 * section);
    let mut housing = vec![given((0.0, wall.1))];
    housing.extend(mouth);
    housing.extend([
        given(on_housing(depth)),
        open((depth, floor)),
        open((wall.0, floor)),
        open((wall.0, wall.1)),
    ]);
    let load = Load::Round { centre, diameter: section };
    Some(Outline { height, housing, ring, band: face.band, load })
}

fn with_washer(seal: &Seal, washer: &ConicalWasher) -> Option<Outline> {
    let corners: Vec<Point> =
        washer.outline.iter().map(|[r, z]| (mm(z.value()), mm(r.value()))).collect();
    let bound = |pick: fn(&Point) -> f64| {
        let low = corners.iter().map(pick).fold(f64::INFINITY, f64::min);
        (low, corners.iter().map(pick).fold(f64::NEG_INFINITY, f64::max))
    };
    let ((front, back), (r_low, r_high)) = (bound(|p| p.0), bound(|p| p.1));
    let ring_seat = mm(washer.ring_seat_from_face.value());
    let housing_seat = mm(washer.housing_seat_from_face.value());
    // The ring's edge is at axial 0, the farthest corner bears on the housing's seat.
    let height = ring_seat + back - housing_seat;
    let shift = ring_seat - height;
    let load: Vec<Point> = corners.iter().map(|(z, r)| (z + shift, *r)).collect();
    let thick = ((r_high - r_low).min(back - front) * 0.5).max(0.1);
    let face = face(seal, height);
    let edge = |at: f64| {
        let near = corners.iter().filter(|(z, _)| (z - at).abs() <= (back - front) * 0.15);
        let radii: Vec<f64> = near.map(|p| p.1).collect();
        let low = radii.iter().copied().fold(f64::INFINITY, f64::min);
        (low, radii.iter().copied().fold(f64::NEG_INFINITY, f64::max))
    };
    let (on_ring, on_housing) = (edge(front), edge(back));
    let seat = ring_seat - height;
    let ring = vec![
        given(face.outer),
        open(face.inner),
        open((seat, face.inner.1.min(on_ring.0 - thick))),
        given((seat, on_ring.0 - thick)),
        open((seat, on_ring.1 + 0.6 * thick)),
    ];
    let depth = mm(seal.housing.depth.value()).max(housing_seat);
    let bore = r_high + 0.5 * thick;
    let inside = on_housing.0 - thick;
    let wall = (depth + 1.2 * thick, bore.max(face.outer.1) + 1.6 * thick);
    let mut housing = vec![given((0.0, wall.1)), open((0.0, bore)), given((housing_seat, bore))];
    if depth > housing_seat + 1e-6 {
        housing.extend([open((housing_seat, inside)), given((depth, inside))]);
    }
    let floor = inside - thick;
    housing.extend([open((depth, floor)), open((wall.0, floor)), open(wall)]);
    Some(Outline { height, housing, ring, band: face.band, load: Load::Corners(load) })
}

/// The lapped face at z = -h.
struct FaceLine {
    outer: Point,
    inner: Point,
    band: [Point; 2],
}

fn face(seal: &Seal, height: f64) -> FaceLine {
    let at = |diameter: Length| (-height, mm(diameter) / 2.0);
    let ring = &seal.ring;
    FaceLine {
        outer: at(ring.face_outer_diameter.value()),
        inner: at(ring.face_inner_diameter.value()),
        band: [
            at(ring.contact_band_outer_diameter.value()),
            at(ring.contact_band_inner_diameter.value()),
        ],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tests::fixture;

    /// Distance of a point from the line through two others.
    fn distance(point: Point, (p, q): (Point, Point)) -> f64 {
        let (dz, dr) = (q.0 - p.0, q.1 - p.1);
        ((point.0 - p.0) * dr - (point.1 - p.1) * dz).abs() / dz.hypot(dr)
    }

    #[test]
    fn the_toric_touches_both_ramps_and_no_more() {
        let seal = fixture::final_drive().joint.a;
        let outline = outline(&seal).unwrap();
        let Load::Round { centre, diameter } = outline.load else { panic!("a toric is round") };
        let given = |sides: &[Side], at: usize| (sides[at].from, sides[at + 1].from);
        // Ring: face, open, open, ramp, open. Housing: face, lip, lip, ramp.
        let on_ring = distance(centre, given(&outline.ring, 3));
        let on_housing = distance(centre, given(&outline.housing, 3));
        assert!((on_ring - diameter / 2.0).abs() < 1e-9, "{on_ring} {diameter}");
        assert!((on_housing - diameter / 2.0).abs() < 1e-9, "{on_housing} {diameter}");
    }

    #[test]
    fn a_washer_stands_between_its_seats() {
        let seal = fixture::mixer_shaft().joint.a;
        let outline = outline(&seal).unwrap();
        let points = outline.load.points();
        let front = points.iter().map(|p| p.0).fold(f64::INFINITY, f64::min);
        let back = points.iter().map(|p| p.0).fold(f64::NEG_INFINITY, f64::max);
        // Ring seat 0.40 in from the lapped face, housing seat 0.45 in from the housing face,
        // washer 0.20 in high: the face stands 0.40 + 0.20 - 0.45 = 0.15 in proud.
        assert!((outline.height - 0.15 * 25.4).abs() < 1e-9);
        assert!((front - (0.40 - 0.15) * 25.4).abs() < 1e-9);
        assert!((back - 0.45 * 25.4).abs() < 1e-9);
    }

    #[test]
    fn measures_that_make_no_section_are_not_drawn() {
        let mut seal = fixture::final_drive().joint.a;
        seal.housing.depth = ringtrue_metrology::units::Given::new("90 m").unwrap();
        assert!(outline(&seal).is_none());
        seal.housing.ramp = None;
        assert!(outline(&seal).is_none());
    }
}
