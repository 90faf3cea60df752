//! The halves before they are solved: how far each is pressed, and what turns its curve into loads.

use ringtrue_metrology::units::Quantity;
use ringtrue_words::say;

use super::half::HalfProblem;
use super::{Input, STEEL_FRICTION, mm};
use crate::definition::material::Material;
use crate::definition::seal::{LoadRing, Seal};
use crate::definition::stiffness::Stiffness;
use crate::finding::shown_mm;
use crate::rubber::{self, FittedRubber, Form, Modulus};
use crate::{RoomError, geometry};

/// The geometry of closing.
#[derive(Debug, Clone, Copy)]
pub(super) struct Closing {
    pub(super) free_mm: [f64; 2],
    pub(super) gap_min: f64,
    pub(super) gap_nominal: f64,
    pub(super) gap_max: f64,
}

impl Closing {
    pub(super) fn of(input: &Input) -> Result<Self, RoomError> {
        let free = |seal: &Seal| {
            geometry::free_height(seal).map(mm).ok_or_else(|| {
                RoomError::input(say!("load-toric-lacks-ramp"), say!("load-ramp-on-ring-housing"))
            })
        };
        let [a, b] = input.seals.pair();
        let (gap_min, gap_max) = (mm(input.gap_limits.0), mm(input.gap_limits.1));
        if gap_min > gap_max {
            let found = say!(
                "load-gap-limits-from-mm-mm",
                min = gap_min.to_string(),
                max = gap_max.to_string()
            );
            return Err(RoomError::input(found, say!("load-smaller-limit-first")));
        }
        let gap_nominal = input.nominal_gap.map_or(f64::midpoint(gap_min, gap_max), mm);
        if gap_nominal < 0.0 {
            let gap = shown_mm(gap_nominal, a);
            let found = say!("load-housings-in-each-other", gap);
            return Err(RoomError::input(found, say!("load-gap-zero-or-more")));
        }
        let closing = Self { free_mm: [free(a)?, free(b)?], gap_min, gap_nominal, gap_max };
        let total = closing.total(gap_min.min(gap_nominal));
        if total <= 0.0 {
            let found = say!(
                "load-load-rings-just-touch-at-gap",
                gap = format!("{:.2}", closing.free_mm[0] + closing.free_mm[1]),
                smallest = gap_min.to_string()
            );
            return Err(RoomError::input(found, say!("load-gap-that-squeezes-load-rings")));
        }
        Ok(closing)
    }

    /// Travel of both halves together at a gap.
    pub(super) fn total(&self, gap: f64) -> f64 {
        self.free_mm[0] + self.free_mm[1] - gap
    }

    /// One problem where both halves are the same, else two. A softer half takes more than its
    /// share of the travel, so unlike halves are solved further than half of it.
    pub(super) fn problems(
        &self,
        input: &Input,
        halves: &[LoadedHalf; 2],
    ) -> Result<Vec<HalfProblem>, RoomError> {
        const ALIKE: f64 = 0.51;
        const UNLIKE: f64 = 0.62;
        let total = self.total(self.gap_min.min(self.gap_nominal));
        let seals = input.seals.pair();
        let of = |half: usize, share: f64| {
            // Rounded up to a hundredth, so that small changes of a gap find the same curve.
            let travel = libm::ceil(total * share * 100.0) / 100.0;
            // Stuck to its seats a washer of steel would be hundreds of times as stiff.
            let slides = seals[half].load_ring.is_steel().then_some(STEEL_FRICTION);
            let friction = input.friction.or(slides);
            HalfProblem::of(seals[half], halves[half].form.clone(), travel, friction)
        };
        let alike = [of(0, ALIKE)?, of(1, ALIKE)?];
        if alike[0] == alike[1] && halves[0].scale == halves[1].scale {
            let [one, _] = alike;
            return Ok(vec![one]);
        }
        Ok(vec![of(0, UNLIKE)?, of(1, UNLIKE)?])
    }
}

/// What turns a half's curve into loads.
#[derive(Debug, Clone)]
pub(crate) struct LoadedHalf {
    pub(crate) band: (f64, f64),
    pub(crate) weight_n: f64,
    pub(crate) modulus: Option<Modulus>,
    /// Young's modulus in MPa for rubber, 1 for steel.
    pub(crate) scale: f64,
    pub(crate) relative_uncertainty: f64,
    /// How its rubber's stress goes with the stretch, where tests tell.
    pub(crate) form: Option<Form>,
    /// Largest stretch of those tests.
    pub(crate) tested_to: Option<f64>,
}

impl LoadedHalf {
    pub(crate) fn of(seal: &Seal, material: Option<&Material>) -> Result<Self, RoomError> {
        /// Standard gravity, m/s².
        const GRAVITY: f64 = 9.806_65;
        let tested = match material.and_then(|material| material.stiffness.as_ref()) {
            Some(stiffness) if !seal.load_ring.is_steel() => Some(stable(stiffness)?),
            Some(_) | None => None,
        };
        let modulus = modulus(seal, tested.as_ref())?;
        Ok(Self {
            band: (
                mm(seal.ring.contact_band_inner_diameter.value()),
                mm(seal.ring.contact_band_outer_diameter.value()),
            ),
            weight_n: seal.ring.mass.value().si() * GRAVITY,
            modulus,
            scale: modulus.map_or(1.0, |modulus| modulus.young_mpa),
            relative_uncertainty: modulus.map_or(0.0, |m| m.relative_standard_uncertainty),
            form: tested.as_ref().and_then(FittedRubber::form),
            tested_to: tested.map(|tested| tested.range.1),
        })
    }
}

/// Young's modulus of a seal's load ring, MPa, by its own figures or its material's stretch tests;
/// `None` for steel.
///
/// # Errors
/// [`RoomError`] where nothing gives one, or the law of the tests does not stand their range.
pub(crate) fn rubber_modulus(
    seal: &Seal,
    material: Option<&Material>,
) -> Result<Option<Modulus>, RoomError> {
    LoadedHalf::of(seal, material).map(|half| half.modulus)
}

/// The law by a material's tests, where it stands the whole range of them.
fn stable(stiffness: &Stiffness) -> Result<FittedRubber, RoomError> {
    let tested = rubber::fitted(stiffness)?;
    match tested.fit.unstable {
        None => Ok(tested),
        Some(at) => Err(RoomError::input(
            say!(
                "load-law-fitted-materials-tests-unstable-at",
                stretch = format!("{:.2}", at.stretch)
            ),
            say!("load-another-law-fewer-constants-or-another"),
        )),
    }
}

/// Young's modulus of a rubber load ring: as measured on it, else by its material's tests, else by
/// its hardness. `None` for steel, whose curve holds its own.
fn modulus(seal: &Seal, tested: Option<&FittedRubber>) -> Result<Option<Modulus>, RoomError> {
    let (hardness, young, u) = match &seal.load_ring {
        LoadRing::Toric(t) => (&t.hardness, &t.modulus, &t.modulus_standard_uncertainty),
        LoadRing::ConicalWasher(w) => {
            if seal.load_ring.is_steel() {
                return Ok(None);
            }
            (&w.hardness, &w.modulus, &w.modulus_standard_uncertainty)
        }
    };
    if let Some(young) = young {
        let mpa = |pressure: &ringtrue_metrology::units::Pressure| pressure.si() / 1e6;
        let u = u.as_ref().map(|u| mpa(&u.value()));
        return Ok(Some(rubber::measured_modulus(mpa(&young.value()), u)));
    }
    if let Some(tested) = tested {
        return Ok(Some(tested.modulus()));
    }
    let Some(hardness) = hardness else {
        return Err(RoomError::input(
            say!("load-load-ring-has-neither-hardness-nor"),
            say!("load-give-hardness-from-certificate-measured-modu"),
        ));
    };
    rubber::modulus_from_hardness(hardness.value()).map(Some).map_err(|error| {
        RoomError::input(error.to_string(), say!("load-give-measured-modulus-in-place"))
    })
}
