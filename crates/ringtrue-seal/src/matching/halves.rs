//! What the two halves and the chain between them say of each other.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{Length, Quantity, System, clip};

use super::Finding;
use super::finding::{proven, shown, system_of};
use crate::RoomError;
use crate::definition::joint::{GapLimits, Half, Joint, Sign};
use crate::geometry;

/// Contact bands, gap limits, chain and free heights.
pub(super) fn findings(joint: &Joint) -> Result<Vec<Finding>, RoomError> {
    let system = system_of(&joint.a);
    let limits = joint.gap_limits();
    let mut findings = vec![contact_bands(joint, system)];
    findings.extend(limits_agree(&limits, system));
    findings.push(chain(joint, &limits, system)?);
    findings.extend(faces_touch(joint, &limits, system));
    Ok(findings)
}

/// The bands run on each other: they must share some of their width.
fn contact_bands(joint: &Joint, system: System) -> Finding {
    let [a, b] = Half::BOTH.map(|half| &joint.seal(half).ring);
    let inner =
        larger(a.contact_band_inner_diameter.value(), b.contact_band_inner_diameter.value());
    let outer =
        smaller(a.contact_band_outer_diameter.value(), b.contact_band_outer_diameter.value());
    let found = format!(
        "half a {} to {}, half b {} to {}",
        a.contact_band_inner_diameter,
        a.contact_band_outer_diameter,
        b.contact_band_inner_diameter,
        b.contact_band_outer_diameter
    );
    let fits = if outer > inner {
        format!("they share {} to {}", shown(inner, system), shown(outer, system))
    } else {
        "bands that share some of their width".to_owned()
    };
    Finding::new("contact band of half a against half b", proven(outer > inner), found, fits)
}

/// Limits of two seals and a joint may leave no gap at all.
fn limits_agree(limits: &GapLimits, system: System) -> Option<Finding> {
    if limits.stated.len() < 2 {
        return None;
    }
    let agree = limits.min.zip(limits.max).is_none_or(|(min, max)| min <= max);
    let fits = if agree {
        format!("together {}", span(limits, system))
    } else {
        "limits that overlap".into()
    };
    let found = limits.stated.join("; ");
    Some(Finding::new("gap limits against each other", proven(agree), found, fits))
}

fn chain(joint: &Joint, limits: &GapLimits, system: System) -> Result<Finding, RoomError> {
    let what = "dimension chain against gap limits";
    let (nominal, least, most) = worst_case(joint)?;
    let found = format!(
        "gap {} nominal, {} to {} in the worst case",
        shown(nominal, system),
        shown(least, system),
        shown(most, system)
    );
    if limits.min.is_none() && limits.max.is_none() {
        let fits = "limits.seal_gap in the seals, or gap.limits in the joint, to compare it with";
        return Ok(Finding::new(what, Verdict::NotProven, found, fits));
    }
    // A hair, so that limits that the chain just fills are kept.
    let hair = 1e-12;
    let keeps = |gap: Length| {
        limits.min.is_none_or(|min| gap.si() >= min.si() - hair)
            && limits.max.is_none_or(|max| gap.si() <= max.si() + hair)
    };
    let wanted = span(limits, system);
    Ok(if keeps(least) && keeps(most) {
        Finding::new(what, Verdict::Conforms, found, wanted)
    } else if keeps(nominal) {
        let fits =
            format!("{wanted}; `ringtrue gap` says how many joints keep it, and which shim helps");
        Finding::new(what, Verdict::NotProven, found, fits)
    } else {
        Finding::new(what, Verdict::DoesNotConform, found, wanted)
    })
}

/// Nominal, smallest and largest gap of the chain.
fn worst_case(joint: &Joint) -> Result<(Length, Length, Length), RoomError> {
    let zero = Length::default();
    let mut gap = (zero, zero, zero);
    for link in &joint.file.gap.link {
        let (upper, lower) = link.deviations().map_err(|error| {
            let found = format!("link `{}`: {error}", clip(&link.name));
            RoomError::input(found, "write `upper` and `lower` in its place")
        })?;
        let nominal = link.nominal.value();
        let (least, most) = (nominal + lower, nominal + upper);
        gap = match link.sign {
            Sign::Opens => (gap.0 + nominal, gap.1 + least, gap.2 + most),
            Sign::Closes => (gap.0 - nominal, gap.1 - most, gap.2 - least),
        };
    }
    Ok(gap)
}

/// The faces press on each other only where the gap is smaller than both free heights together.
fn faces_touch(joint: &Joint, limits: &GapLimits, system: System) -> Option<Finding> {
    let (a, b) = (geometry::free_height(&joint.a)?, geometry::free_height(&joint.b)?);
    let together = a + b;
    let verdict = match (limits.min, limits.max) {
        (None, None) => return None,
        (_, Some(max)) if max < together => Verdict::Conforms,
        (Some(min), _) if min >= together => Verdict::DoesNotConform,
        (_, _) => Verdict::NotProven,
    };
    let found = format!(
        "the load rings just touch at {} (half a) and {} (half b): the faces part at a gap of {}",
        shown(a, system),
        shown(b, system),
        shown(together, system)
    );
    let fits = format!("gap limits below that; they are {}", span(limits, system));
    Some(Finding::new("gap limits against free heights", verdict, found, fits))
}

fn span(limits: &GapLimits, system: System) -> String {
    match (limits.min, limits.max) {
        (Some(min), Some(max)) => format!("{} to {}", shown(min, system), shown(max, system)),
        (Some(min), None) => format!("at least {}", shown(min, system)),
        (None, Some(max)) => format!("at most {}", shown(max, system)),
        (None, None) => "not stated".to_owned(),
    }
}

fn larger(a: Length, b: Length) -> Length {
    if a > b { a } else { b }
}

fn smaller(a: Length, b: Length) -> Length {
    if a < b { a } else { b }
}
