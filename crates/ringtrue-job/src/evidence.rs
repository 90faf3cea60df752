//! From definitions and readings to the input of a room.

mod alignment;
mod chilling;
mod finish;
mod leak_test;

pub use alignment::{AlignmentBasis, Parts, sweeps};
pub use chilling::{Cold, chilled_seal, chilled_toric, material_of, seated};
pub use finish::{FinishBasis, finish};
pub(crate) use leak_test::digit_uncertainty;
pub use leak_test::{LeakBasis, leak_test};

use ringtrue_metrology::conformity::Levels;
use ringtrue_metrology::units::{Given, Length};
use ringtrue_seal::assembled_height::{self, GaugeUncertainty, LoadRingKind, Reading, Tries};
use ringtrue_seal::definition::TextError;
use ringtrue_seal::definition::gauge::Gauge;
use ringtrue_seal::definition::joint::Joint;
use ringtrue_seal::definition::limit::Limit;
use ringtrue_seal::definition::material::{Material, shipped};
use ringtrue_seal::definition::seal::{LoadRing, Seal};
use ringtrue_seal::face_load::{self, Seals};
use ringtrue_seal::gap_stack::{self, Link, Size};
use ringtrue_seal::{RoomError, geometry};
use ringtrue_words::say;

use crate::reading::MeasuredSize;

/// The dimension chain of a joint and its shims, with its gap limits or others in their place.
///
/// # Errors
/// [`RoomError`] when no gap limits are given on both sides, or a tolerance class is not in the
/// table for its size.
pub fn joint_gap(
    joint: &Joint,
    limits: Option<(Length, Length)>,
) -> Result<gap_stack::Input, RoomError> {
    let together = joint.gap_limits();
    let limits = match limits {
        Some(limits) => limits,
        None => both_sides(together.min, together.max)?,
    };
    let links = joint.file.gap.link.iter().map(|link| {
        let (upper, lower) = link.deviations().map_err(|error| RoomError::Input {
            found: say!("evidence-link-deviations", link = link.name, error = error.to_string()),
            fits: say!("evidence-write-upper-lower-in-place").to_owned(),
        })?;
        let nominal = link.nominal.value();
        let size = Size::Drawn { nominal, upper, lower, spread: link.distribution };
        Ok(Link { name: link.name.clone(), sign: link.sign, size })
    });
    let links = links.collect::<Result<Vec<_>, RoomError>>()?;
    let mut input = bare_chain(links, limits);
    input.shims_on_hand = joint.file.gap.shims_on_hand.iter().map(Given::value).collect();
    input.levels = joint.levels();
    Ok(input)
}

/// A chain with nothing but its limits.
#[must_use]
pub fn bare_chain(links: Vec<Link>, limits: (Length, Length)) -> gap_stack::Input {
    gap_stack::Input {
        links,
        limits,
        shims_on_hand: Vec::new(),
        levels: Levels::DEFAULT,
        draws: gap_stack::DRAWS,
        seed: gap_stack::SEED,
    }
}

/// Both halves of a joint, closed to its gap. `materials` are the files that its seals name; a
/// shipped material is found by its code.
///
/// # Errors
/// As [`joint_gap`].
pub fn joint_load(
    joint: &Joint,
    materials: [Option<&Material>; 2],
    nominal_gap: Length,
    friction: Option<f64>,
) -> Result<face_load::Input, RoomError> {
    let together = joint.gap_limits();
    Ok(face_load::Input {
        seals: Seals::Joint(Box::new([joint.a.clone(), joint.b.clone()])),
        materials: [known(&joint.a, materials[0]), known(&joint.b, materials[1])],
        gap_limits: both_sides(together.min, together.max)?,
        nominal_gap: Some(nominal_gap),
        friction,
        levels: joint.levels(),
    })
}

/// One seal, closed against its like within its own gap limits.
///
/// # Errors
/// [`RoomError`] when the seal has no gap limits on both sides.
pub fn seal_load(
    seal: &Seal,
    material: Option<&Material>,
    friction: Option<f64>,
) -> Result<face_load::Input, RoomError> {
    let (min, max) = seal.limits.seal_gap.as_ref().map_or((None, None), bounds);
    Ok(face_load::Input {
        seals: Seals::Alike(Box::new(seal.clone())),
        materials: [known(seal, material), None],
        gap_limits: both_sides(min, max)?,
        nominal_gap: None,
        friction,
        levels: seal.levels(),
    })
}

/// What is known of a load ring's material: its file, else the shipped one of that code.
fn known(seal: &Seal, file: Option<&Material>) -> Option<Box<Material>> {
    file.or_else(|| shipped(seal.load_ring.material())).cloned().map(Box::new)
}

fn both_sides(min: Option<Length>, max: Option<Length>) -> Result<(Length, Length), RoomError> {
    min.zip(max).ok_or_else(|| RoomError::Input {
        found: say!("evidence-seal-gap-has-no-limit-on").to_owned(),
        fits: say!("evidence-give-limits-seal-gap-in-seals").to_owned(),
    })
}

fn bounds(limit: &Limit<Length>) -> (Option<Length>, Option<Length>) {
    (limit.min.as_ref().map(Given::value), limit.max.as_ref().map(Given::value))
}

/// Puts measured sizes in the place of tolerances.
///
/// # Errors
/// [`TextError`] at the line that names a link which the chain does not have.
pub fn put_measured(
    input: &mut gap_stack::Input,
    measured: &[MeasuredSize],
) -> Result<(), TextError> {
    for size in measured {
        let link = input.links.iter_mut().find(|link| link.name == size.name);
        let Some(link) = link else {
            let names: Vec<String> =
                input.links.iter().map(|link| format!("`{}`", link.name)).collect();
            return Err(TextError {
                line: Some(size.line),
                column: Some(1),
                found: say!("evidence-chain-has-no-link", link = size.name),
                fits: say!("evidence-its-links-are", links = names.join(", ")),
            });
        };
        link.size =
            Size::Measured { value: size.value, standard_uncertainty: size.standard_uncertainty };
    }
    Ok(())
}

/// What heights are judged by besides their limit.
#[derive(Debug, Clone, Copy, Default)]
pub struct HeightBasis<'b> {
    /// The seal: limits, measuring diameter, load ring, decision levels.
    pub seal: Option<&'b Seal>,
    /// A range limit that goes before the seal's.
    pub range_limit: Option<Length>,
    /// A measuring diameter that goes before the seal's.
    pub measuring_diameter: Option<Length>,
    /// The gauge.
    pub gauge: Option<&'b Gauge>,
    /// A stated standard uncertainty of the non-repeating part; goes before the gauge's.
    pub stated_uncertainty: Option<Length>,
    /// Which try this is, where it is known; the most tries come from the seal.
    pub this_try: Option<u32>,
}

/// Height readings with what they are judged by.
#[must_use]
pub fn heights(readings: Vec<Reading>, basis: HeightBasis<'_>) -> assembled_height::Input {
    let seal = basis.seal;
    let limits = seal.map(|seal| &seal.limits);
    let seal_range = || bounds(limits?.height_range.as_ref()?).1;
    assembled_height::Input {
        readings,
        range_limit: basis.range_limit.or_else(seal_range),
        mean_height_limits: limits.and_then(|l| l.assembled_height.as_ref()).map(bounds),
        measuring_diameter: basis
            .measuring_diameter
            .or_else(|| seal.map(|seal| geometry::measuring_diameter(&seal.ring))),
        uncertainty: uncertainty(&basis),
        load_ring: seal.map_or(LoadRingKind::Unknown, |seal| match seal.load_ring {
            LoadRing::Toric(_) => LoadRingKind::Toric,
            LoadRing::ConicalWasher(_) => LoadRingKind::ConicalWasher,
        }),
        levels: seal.map_or(Levels::DEFAULT, Seal::levels),
        tries: basis
            .this_try
            .zip(seal)
            .map(|(this, seal)| Tries { this, most: seal.fitting.most_tries }),
    }
}

fn uncertainty(basis: &HeightBasis<'_>) -> GaugeUncertainty {
    match (basis.stated_uncertainty, basis.gauge) {
        (Some(stated), _) => GaugeUncertainty::Stated(stated),
        (None, Some(gauge)) => GaugeUncertainty::Gauge {
            repeating: gauge.repeating_uncertainty.value(),
            non_repeating: gauge.non_repeating_uncertainty.value(),
            resolution: gauge.resolution.value(),
        },
        (None, None) => GaugeUncertainty::Unknown,
    }
}
