//! What the two halves and the chain between them say of each other.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{Length, Quantity, System, clip};
use ringtrue_words::say;

use super::Finding;
use super::finding::proven;
use crate::RoomError;
use crate::definition::joint::{GapLimits, Half, Joint, Sign};
use crate::finding::{shown, system_of};
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
    let found = say!(
        "match-contact-bands",
        inner_a = a.contact_band_inner_diameter.typed(),
        outer_a = a.contact_band_outer_diameter.typed(),
        inner_b = b.contact_band_inner_diameter.typed(),
        outer_b = b.contact_band_outer_diameter.typed()
    );
    let fits = if outer > inner {
        say!("match-bands-share", inner = shown(inner, system), outer = shown(outer, system))
    } else {
        say!("match-bands-should-share").to_owned()
    };
    Finding::new(
        say!("match-contact-band-against-contact-band"),
        proven(outer > inner),
        found,
        fits,
    )
}

/// Limits of two seals and a joint may leave no gap at all.
fn limits_agree(limits: &GapLimits, system: System) -> Option<Finding> {
    if limits.stated.len() < 2 {
        return None;
    }
    let agree = limits.min.zip(limits.max).is_none_or(|(min, max)| min <= max);
    let fits = if agree {
        say!("match-together", limits = span(limits, system))
    } else {
        say!("match-limits-that-overlap").into()
    };
    let found = limits.stated.join("; ");
    Some(Finding::new(say!("match-gap-limits-against-each-other"), proven(agree), found, fits))
}

fn chain(joint: &Joint, limits: &GapLimits, system: System) -> Result<Finding, RoomError> {
    let what = say!("match-dimension-chain-against-gap-limits");
    let (nominal, least, most) = worst_case(joint)?;
    let found = say!(
        "match-gap-of-chain",
        nominal = shown(nominal, system),
        least = shown(least, system),
        most = shown(most, system)
    );
    if limits.min.is_none() && limits.max.is_none() {
        let fits = say!("match-gap-limits-wanted");
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
        let fits = say!("match-chain-not-proven", limits = wanted);
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
            let found =
                say!("match-link-unfit", name = clip(&link.name), error = error.to_string());
            RoomError::input(found, say!("match-write-upper-and-lower"))
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
    let found = say!(
        "match-load-rings-just-touch",
        height_a = shown(a, system),
        height_b = shown(b, system),
        together = shown(together, system)
    );
    let fits = say!("match-gap-limits-below", limits = span(limits, system));
    Some(Finding::new(say!("match-gap-limits-against-free-heights"), verdict, found, fits))
}

fn span(limits: &GapLimits, system: System) -> String {
    match (limits.min, limits.max) {
        (Some(min), Some(max)) => {
            say!("match-from-to", min = shown(min, system), max = shown(max, system))
        }
        (Some(min), None) => say!("match-at-least", min = shown(min, system)),
        (None, Some(max)) => say!("match-at-most", max = shown(max, system)),
        (None, None) => say!("match-not-stated").to_owned(),
    }
}

fn larger(a: Length, b: Length) -> Length {
    if a > b { a } else { b }
}

fn smaller(a: Length, b: Length) -> Length {
    if a < b { a } else { b }
}
