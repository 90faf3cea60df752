//! One half: ramps, tool, mounted toric, lip and heights.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{Angle, Given, Length, Quantity, fixed};
use ringtrue_words::say;

use super::Finding;
use super::finding::{against, half_last_digit, proven};
use crate::definition::seal::{LoadRing, Seal};
use crate::finding::{shown, system_of};
use crate::geometry::{self, MountedToric};

/// What the parts of one half say of each other.
pub(super) fn findings(seal: &Seal) -> Vec<Finding> {
    let toric = geometry::mounted(seal);
    [
        ramp_angles(seal),
        tool_angle(seal),
        tool_diameter(seal, toric.as_ref()),
        toric.as_ref().and_then(|toric| stretch(seal, toric)),
        toric.as_ref().and_then(|toric| lip_keeps(seal, toric)),
        lip_lets_pass(seal),
        lip_stands_in(seal),
        first_touch(seal),
        height(seal),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn ramp_angles(seal: &Seal) -> Option<Finding> {
    let (ring, housing) = (seal.ring.ramp.as_ref()?, seal.housing.ramp.as_ref()?);
    let what = say!("match-ring-angle-against-housing");
    let found =
        say!("match-ring-and-housing", ring = ring.angle.typed(), housing = housing.angle.typed());
    Some(angles(seal, what, found, [&ring.angle, &housing.angle]))
}

fn tool_angle(seal: &Seal) -> Option<Finding> {
    let tool = seal.tool.as_ref()?;
    let (ring, made_for) = (seal.ring.ramp.as_ref()?, tool.ramp_angle.as_ref()?);
    let what = say!("match-tool-angle-against-ring");
    let found = say!(
        "match-tool-and-ring",
        tool = tool.name,
        tool_angle = made_for.typed(),
        ring_angle = ring.angle.typed()
    );
    Some(angles(seal, what, found, [made_for, &ring.angle]))
}

/// Angles that work together. Without a stated difference they are equal to within the digits in
/// which they were typed, or they do not conform: a drawing that wants them unequal says so.
fn angles(seal: &Seal, what: &str, found: String, pair: [&Given<Angle>; 2]) -> Finding {
    let difference = (pair[0].value().si() - pair[1].value().si()).abs();
    let Some(limit) = &seal.limits.ramp_angle_difference else {
        let typed = half_last_digit(pair[0]) + half_last_digit(pair[1]);
        let equal = difference <= typed * (1.0 + 1e-9) + 1e-12;
        let fits = say!("match-equal-angles");
        return Finding::new(what, proven(equal), found, fits);
    };
    let fits = say!("match-difference", limit = limit.words());
    Finding::new(what, against(difference, limit), found, fits)
}

/// The circle that the tool is to bear on, and the edges between which it bears at all.
struct Bearing {
    on: &'static str,
    middle: Length,
    inner: Length,
    outer: Length,
}

fn bearing(seal: &Seal, toric: Option<&MountedToric>) -> Option<Bearing> {
    match &seal.load_ring {
        LoadRing::Toric(_) => toric.map(|toric| Bearing {
            on: say!("match-middle-mounted-toric"),
            middle: toric.centroid_diameter,
            inner: toric.inside_diameter,
            outer: toric.outside_diameter(),
        }),
        LoadRing::ConicalWasher(washer) => {
            let radii = || washer.outline.iter().map(|[radius, _]| radius.value());
            let outer = radii().reduce(|a, b| if a > b { a } else { b })?;
            let inner = radii().reduce(|a, b| if a < b { a } else { b })?;
            Some(Bearing {
                on: say!("match-washers-outer-edge"),
                middle: outer * 2.0,
                inner: inner * 2.0,
                outer: outer * 2.0,
            })
        }
    }
}

fn tool_diameter(seal: &Seal, toric: Option<&MountedToric>) -> Option<Finding> {
    let tool = seal.tool.as_ref()?;
    let bearing = bearing(seal, toric)?;
    let system = system_of(seal);
    let diameter = tool.diameter.value();
    let what = say!("match-tool-diameter-against-circle");
    let found = say!(
        "match-tool",
        diameter = tool.diameter.typed(),
        on = bearing.on,
        middle = shown(bearing.middle, system)
    );
    let Some(limit) = &seal.limits.tool_diameter_difference else {
        let fits = say!(
            "match-tool-between",
            inner = shown(bearing.inner, system),
            outer = shown(bearing.outer, system)
        );
        let bears = bearing.inner < diameter && diameter <= bearing.outer;
        return Some(Finding::new(what, proven(bears), found, fits));
    };
    let difference = (diameter - bearing.middle).si().abs();
    let fits = say!("match-difference", limit = limit.words());
    Some(Finding::new(what, against(difference, limit), found, fits))
}

fn stretch(seal: &Seal, toric: &MountedToric) -> Option<Finding> {
    let LoadRing::Toric(free) = &seal.load_ring else { return None };
    let what = say!("match-stretch-of-toric");
    let system = system_of(seal);
    let found = say!(
        "match-toric-stretched",
        free = free.inside_diameter.typed(),
        mounted = shown(toric.inside_diameter, system),
        stretch = fixed(toric.stretch * 100.0, 1),
        middle = fixed(toric.hoop_stretch * 100.0, 1)
    );
    if toric.stretch < -1e-9 {
        let fits = say!("match-toric-loose").to_owned();
        return Some(Finding::new(what, Verdict::DoesNotConform, found, fits));
    }
    Some(match &seal.limits.toric_stretch {
        Some(limit) => Finding::new(what, against(toric.stretch, limit), found, limit.words()),
        None => {
            let fits = say!("match-toric-not-loose");
            Finding::new(what, Verdict::Conforms, found, fits)
        }
    })
}

/// The lip must be narrower than the mounted toric.
fn lip_keeps(seal: &Seal, toric: &MountedToric) -> Option<Finding> {
    let lip = seal.housing.lip.as_ref()?;
    let interference = geometry::lip_interference(seal)?;
    let system = system_of(seal);
    let found = say!(
        "match-lip-and-mounted-toric",
        lip = lip.diameter.typed(),
        toric = shown(toric.outside_diameter(), system),
        interference = shown(interference, system)
    );
    let verdict = proven(interference.si() > 0.0);
    let fits = say!("match-lip-narrower-than-toric");
    Some(Finding::new(say!("match-lip-against-toric"), verdict, found, fits))
}

/// The ring must go through the lip up to the seat of its toric.
fn lip_lets_pass(seal: &Seal) -> Option<Finding> {
    let lip = seal.housing.lip.as_ref()?;
    let ramp = seal.ring.ramp.as_ref()?;
    let verdict = proven(lip.diameter.value() > ramp.diameter.value());
    let found =
        say!("match-lip-and-ring", lip = lip.diameter.typed(), ring = ramp.diameter.typed());
    let fits = say!("match-lip-wider-than-ring");
    Some(Finding::new(say!("match-lip-against-ring"), verdict, found, fits))
}

/// A lip stands in from the cone behind it.
fn lip_stands_in(seal: &Seal) -> Option<Finding> {
    let lip = seal.housing.lip.as_ref()?;
    let behind = geometry::housing_ramp_diameter_at(&seal.housing, lip.height.value())?;
    let verdict = proven(lip.diameter.value() < behind);
    let behind = shown(behind, system_of(seal));
    let found = say!("match-lip-and-ramp", lip = lip.diameter.typed(), ramp = behind);
    let fits = say!("match-lip-narrower-than-ramp");
    Some(Finding::new(say!("match-lip-against-ramp"), verdict, found, fits))
}

/// Where the toric first touches, there must be a ramp: behind the lip and above the bottom.
fn first_touch(seal: &Seal) -> Option<Finding> {
    let touch = geometry::first_touch_from_housing_face(seal)?;
    let lip = seal.housing.lip.as_ref().map(|lip| &lip.height);
    let behind_lip = lip.is_none_or(|height| touch > height.value()) && touch.si() > 0.0;
    let verdict = proven(behind_lip && touch < seal.housing.depth.value());
    let found = say!("match-toric-first-touches", depth = shown(touch, system_of(seal)));
    let depth = seal.housing.depth.typed();
    let fits = match lip {
        Some(lip) => say!("match-between-lip-and-depth", lip = lip.typed(), depth),
        None => say!("match-between-face-and-depth", depth),
    };
    Some(Finding::new(say!("match-toric-against-depth"), verdict, found, fits))
}

/// Before the joint is closed nothing but the load ring's own squeeze holds the ring: it stands
/// near its free height. Below the free height the load ring is squeezed and pushes the ring out,
/// unless friction holds it; above, it is loose.
fn height(seal: &Seal) -> Option<Finding> {
    let limit = seal.limits.assembled_height.as_ref()?;
    let free = geometry::free_height(seal)?;
    let verdict = match (against(free.si(), limit), limit.bounds_si()) {
        (Verdict::Conforms, _) => Verdict::Conforms,
        (_, (_, Some(max))) if free.si() > max => Verdict::NotProven,
        (Verdict::NotProven | Verdict::DoesNotConform, _) => Verdict::DoesNotConform,
    };
    let found = say!("match-free-height-by-drawing", height = shown(free, system_of(seal)));
    let fits = match verdict {
        Verdict::Conforms => limit.words(),
        Verdict::NotProven => say!("match-height-only-by-friction", limit = limit.words()),
        Verdict::DoesNotConform => say!("match-height-loose", limit = limit.words()),
    };
    Some(Finding::new(say!("match-free-height-against-limits"), verdict, found, fits))
}
