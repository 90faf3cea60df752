//! The sizes that a joint's files draw its parts with, for what a step's value measures of them.

use ringtrue_metrology::units::{Angle, Given, Length, Quantity};
use ringtrue_seal::definition::joint::{Half, Joint};
use ringtrue_seal::definition::procedure::Measures;
use ringtrue_seal::definition::seal::{ConicalWasher, LoadRing, Seal};

/// A size as it is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// As its file has it; `None` where it follows from several sizes of the file.
    pub typed: Option<String>,
    /// In SI.
    pub si: f64,
    /// How far from the housing face it is measured, where that is part of the size.
    pub from_face: Option<Given<Length>>,
}

impl Drawn {
    fn worked_out(si: f64) -> Self {
        Self { typed: None, si, from_face: None }
    }

    fn length(given: &Given<Length>) -> Self {
        let typed = Some(given.typed().to_owned());
        Self { typed, si: given.value().si(), from_face: None }
    }

    fn angle(given: &Given<Angle>) -> Self {
        let typed = Some(given.typed().to_owned());
        Self { typed, si: given.value().si(), from_face: None }
    }
}

/// What a value at a place is drawn as, on the half of the place or on each half. Halves of which
/// their files say nothing are left out.
#[must_use]
pub fn drawn((joint, half): (&Joint, Option<Half>), what: Measures) -> Vec<(Half, Drawn)> {
    let halves = half.map_or(Half::BOTH.to_vec(), |half| vec![half]);
    let each = halves.into_iter().map(|half| (half, of_seal(joint.seal(half), what)));
    each.filter_map(|(half, drawn)| Some((half, drawn?))).collect()
}

/// What a value is drawn as on the half with this seal; `None` where its file does not say.
pub(crate) fn of_seal(seal: &Seal, what: Measures) -> Option<Drawn> {
    let ramp = seal.housing.ramp.as_ref();
    let (toric, washer) = match &seal.load_ring {
        LoadRing::Toric(toric) => (Some(toric), None),
        LoadRing::ConicalWasher(washer) => (None, Some(washer)),
    };
    let drawn = match what {
        Measures::ToricSection => toric.map(|toric| Drawn::length(&toric.section_diameter)),
        Measures::WasherHeight => washer.map(|washer| Drawn::worked_out(height_of(washer))),
        Measures::ContactBand => Some(Drawn::worked_out(band_of(seal))),
        Measures::HousingDepth => Some(Drawn::length(&seal.housing.depth)),
        Measures::RampAngle => ramp.map(|ramp| Drawn::angle(&ramp.angle)),
        Measures::RampDiameter => ramp.map(|ramp| Drawn {
            from_face: Some(ramp.plane_from_face.clone()),
            ..Drawn::length(&ramp.diameter)
        }),
        Measures::LipHeight => seal.housing.lip.as_ref().map(|lip| Drawn::length(&lip.height)),
        Measures::SeatDiameter => washer.map(|washer| Drawn::worked_out(across(washer))),
        Measures::SeatDepth => washer.map(|washer| Drawn::length(&washer.housing_seat_from_face)),
        Measures::ToricTemperature
        | Measures::EndPlay
        | Measures::FaceRunOut
        | Measures::RadialPlay => None,
    };
    drawn.filter(|drawn| drawn.si > 0.0)
}

/// The width of the contact band.
fn band_of(seal: &Seal) -> f64 {
    let ring = &seal.ring;
    let (outer, inner) = (&ring.contact_band_outer_diameter, &ring.contact_band_inner_diameter);
    (outer.value().si() - inner.value().si()) / 2.0
}

/// The free height of a washer, from its lowest corner to its highest.
fn height_of(washer: &ConicalWasher) -> f64 {
    let axial = || washer.outline.iter().map(|[_, axial]| axial.value().si());
    axial().fold(f64::NEG_INFINITY, f64::max) - axial().fold(f64::INFINITY, f64::min)
}

/// The diameter of the edge that sits in the housing: of the deepest corners, the outermost.
fn across(washer: &ConicalWasher) -> f64 {
    let axial = |corner: &[Given<Length>; 2]| corner[1].value().si();
    let deepest = washer.outline.iter().map(axial).fold(f64::MIN, f64::max);
    let edge = washer.outline.iter().filter(|corner| axial(corner) >= deepest);
    2.0 * edge.map(|[radius, _]| radius.value().si()).fold(0.0, f64::max)
}
