//! A rubber's law by its stretch tests, and how well the stress is known by it.

use ringtrue_fem::material::fit::{Family, Fit, Test, fit};
use ringtrue_fem::material::{
    Material as Rubber, Mode, MooneyRivlin, NeoHooke, Ogden, OgdenTerm, Yeoh, nominal_stress,
};
use ringtrue_metrology::units::Quantity;
use ringtrue_words::say;
use serde::{Deserialize, Serialize};

use super::{BULK_OVER_SHEAR, Modulus, ModulusBasis};
use crate::RoomError;
use crate::definition::Number;
use crate::definition::stiffness::{Law, Stiffness, TestMode};

/// Stretches that a load ring works between: the scatter of the points there counts.
const WORKING: f64 = 2.0;
/// Fewest points of that range for its own scatter; with fewer, all points' scatter counts.
const FEWEST: usize = 4;
/// Squeeze at which the constants' own uncertainty is read: a load ring's section can hardly grow
/// along the ring, so it is a planar test of about this compression and tension.
const READ_AT: f64 = 1.25;

/// A rubber whose law was fitted.
#[derive(Debug, Clone, PartialEq)]
pub struct FittedRubber {
    /// The law, its constants and their covariance.
    pub fit: Fit,
    /// The tests as fitted, without the points that were left out.
    pub tests: Vec<Test>,
    /// Smallest and largest stretch of those.
    pub range: (f64, f64),
    /// Residuals over stress, both root mean square, in the range that a load ring works in.
    pub relative_scatter: f64,
    /// Standard uncertainty of the stress from the constants, as a share of it.
    pub relative_from_constants: f64,
    /// Both, and that between batches where it is given.
    pub relative_standard_uncertainty: f64,
}

impl FittedRubber {
    /// Young's modulus at small strain, by which the law is scaled, with the uncertainty of the
    /// stress.
    #[must_use]
    pub fn modulus(&self) -> Modulus {
        Modulus {
            young_mpa: 3.0 * self.fit.material.law().shear(),
            relative_standard_uncertainty: self.relative_standard_uncertainty,
            basis: ModulusBasis::Tests,
        }
    }

    /// The law over its Young's modulus; `None` for neo-Hooke, which has no other form. Only for a
    /// law that is stable: another's modulus may be negative.
    #[must_use]
    pub fn form(&self) -> Option<Form> {
        let young = 3.0 * self.fit.material.law().shear();
        match &self.fit.material {
            Rubber::MooneyRivlin(law) => {
                Some(Form::MooneyRivlin { c10: law.c10 / young, c01: law.c01 / young })
            }
            Rubber::Yeoh(law) => Some(Form::Yeoh {
                c10: law.c10 / young,
                c20: law.c20 / young,
                c30: law.c30 / young,
            }),
            Rubber::Ogden(law) => Some(Form::Ogden {
                terms: law.terms.iter().map(|term| [term.mu / young, term.alpha]).collect(),
            }),
            Rubber::NeoHooke(_) | Rubber::SaintVenantKirchhoff(_) => None,
        }
    }
}

/// How the stress of a rubber goes with its stretch: a law whose Young's modulus at small strain
/// is 1.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "law")]
pub enum Form {
    /// Of both invariants.
    MooneyRivlin {
        /// Of the first invariant.
        c10: f64,
        /// Of the second.
        c01: f64,
    },
    /// Cubic in the first invariant.
    Yeoh {
        /// First power.
        c10: f64,
        /// Second power.
        c20: f64,
        /// Third power.
        c30: f64,
    },
    /// Powers of the stretches.
    Ogden {
        /// `mu` and `alpha` of each term.
        terms: Vec<[f64; 2]>,
    },
}

impl Form {
    /// The rubber of this form with a Young's modulus, MPa.
    pub(crate) fn rubber(form: Option<&Self>, young: f64) -> Rubber {
        let bulk = BULK_OVER_SHEAR * young / 3.0;
        match form {
            None => Rubber::NeoHooke(NeoHooke { mu: young / 3.0, bulk }),
            Some(Self::MooneyRivlin { c10, c01 }) => {
                Rubber::MooneyRivlin(MooneyRivlin { c10: c10 * young, c01: c01 * young, bulk })
            }
            Some(Self::Yeoh { c10, c20, c30 }) => {
                Rubber::Yeoh(Yeoh { c10: c10 * young, c20: c20 * young, c30: c30 * young, bulk })
            }
            Some(Self::Ogden { terms }) => {
                let term = |[mu, alpha]: &[f64; 2]| OgdenTerm { mu: mu * young, alpha: *alpha };
                Rubber::Ogden(Ogden { terms: terms.iter().map(term).collect(), bulk })
            }
        }
    }
}

/// The mode of the finite elements' fits.
fn mode(mode: TestMode) -> Mode {
    match mode {
        TestMode::Uniaxial => Mode::Uniaxial,
        TestMode::Equibiaxial => Mode::Equibiaxial,
        TestMode::Planar => Mode::Planar,
    }
}

/// Fits the law of a material to all its tests together.
///
/// The standard uncertainty of the stress is the scatter of the points about the law where a load
/// ring works (stretches of 1/2 to 2), with what the constants are uncertain by, and that between
/// batches. The scatter is not divided by the root of the number of points: neighbouring points of
/// one test are off together, and so is a law that can't follow the rubber.
///
/// # Errors
/// [`RoomError`] when the points are not at hand, or do not give the constants.
pub fn fitted(stiffness: &Stiffness) -> Result<FittedRubber, RoomError> {
    let family = match (stiffness.law, stiffness.terms) {
        (Law::NeoHooke, _) => Family::NeoHooke,
        (Law::MooneyRivlin, _) => Family::MooneyRivlin,
        (Law::Yeoh, _) => Family::Yeoh,
        (Law::Ogden, terms) => Family::Ogden { terms: terms.unwrap_or(0) as usize },
    };
    let most = stiffness.largest_stretch.map_or(f64::INFINITY, |Number(most)| most);
    let mut tests = Vec::with_capacity(stiffness.tests.len());
    for test in &stiffness.tests {
        if let Some(file) = &test.file {
            return Err(RoomError::input(
                say!("rubber-points-not-at-hand", file),
                say!("rubber-write-points-into-file"),
            ));
        }
        let all = test.points_mpa.iter().map(|point| point.map(|Number(x)| x));
        let points = all.filter(|[l, _]| *l <= most && *l >= 1.0 / most).collect();
        tests.push(Test { mode: mode(test.mode), points });
    }
    // Volume is kept in a test: the bulk modulus has no part in it.
    let mut fit = fit(family, &tests, 1.0).map_err(|error| {
        RoomError::input(
            say!("rubber-no-constants", error = error.to_string()),
            say!("rubber-other-tests-wanted"),
        )
    })?;
    let shear = fit.material.law().shear();
    set_bulk(&mut fit.material, BULK_OVER_SHEAR * shear);
    Ok(known(fit, tests, stiffness))
}

fn known(fit: Fit, tests: Vec<Test>, stiffness: &Stiffness) -> FittedRubber {
    let all = || tests.iter().flat_map(|t| t.points.iter().map(move |p| (t.mode, p[0], p[1])));
    let works = |l: f64| (1.0 / WORKING..=WORKING).contains(&l);
    let counted = all().filter(|(_, l, _)| works(*l)).count();
    let (mut residual, mut stress) = (0.0, 0.0);
    for (mode, l, measured) in all().filter(|(_, l, _)| counted < FEWEST || works(*l)) {
        let off = nominal_stress(fit.material.law(), mode, l) - measured;
        residual += off * off;
        stress += measured * measured;
    }
    let relative_scatter = (residual / stress).sqrt();
    let from_constants = |l: f64| {
        let stress = nominal_stress(fit.material.law(), Mode::Planar, l);
        (fit.stress_uncertainty(Mode::Planar, l) / stress).abs()
    };
    let relative_from_constants = from_constants(READ_AT).max(from_constants(1.0 / READ_AT));
    let batch = stiffness.batch_standard_uncertainty.as_ref().map_or(0.0, |u| u.value().si());
    let range = all().fold((1.0_f64, 1.0_f64), |r, (_, l, _)| (r.0.min(l), r.1.max(l)));
    let together = libm::hypot(libm::hypot(relative_scatter, relative_from_constants), batch);
    FittedRubber {
        range,
        relative_scatter,
        relative_from_constants,
        relative_standard_uncertainty: together,
        fit,
        tests,
    }
}

fn set_bulk(rubber: &mut Rubber, bulk: f64) {
    match rubber {
        Rubber::NeoHooke(law) => law.bulk = bulk,
        Rubber::MooneyRivlin(law) => law.bulk = bulk,
        Rubber::Yeoh(law) => law.bulk = bulk,
        Rubber::Ogden(law) => law.bulk = bulk,
        Rubber::SaintVenantKirchhoff(_) => {}
    }
}
