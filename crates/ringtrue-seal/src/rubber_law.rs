//! Which constants does this rubber's law have, and does the law hold?
//!
//! The constants of a law come from all stretch tests together, by least squares of the engineering
//! stress; their standard uncertainties from the scatter of the residuals. A law must take work for
//! every further small strain (Drucker): it is looked at in tension and compression of all three
//! modes, over the stretches that the tests cover, and on to where it ends.

use ringtrue_fem::material::stability::Instability;
use ringtrue_fem::material::{Mode, nominal_stress};
use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::{fixed, significant};
use ringtrue_words::say;
use serde::Serialize;

use crate::RoomError;
use crate::definition::stiffness::{Law, Stiffness, TestMode};
use crate::finding::Finding;
use crate::rubber::{self, FittedRubber};

/// Where laws and method come from.
pub const SOURCES: &[Source] = &[
    Source::Published(
        "R. W. Ogden, Proc. R. Soc. Lond. A 326 (1972) 565-584: sums of powers of the stretches",
    ),
    Source::Unverified("O. H. Yeoh, Rubber Chem. Technol. 66 (1993) 754-771: cubic in I1"),
    Source::Unverified(
        "M. Mooney, J. Appl. Phys. 11 (1940) 582; R. S. Rivlin, Phil. Trans. A 241 (1948) 379",
    ),
    Source::Unverified("D. C. Drucker: a stable material takes work for every further strain"),
];

/// A law and its tests, with their points.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// What is fitted: `HNBR, batch 12`.
    pub name: String,
    /// The law and the tests.
    pub stiffness: Stiffness,
}

/// The fitted law.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outcome {
    /// What was fitted.
    pub name: String,
    /// Where the tests come from.
    pub source: String,
    /// The law.
    pub law: Law,
    /// Its constants.
    pub constants: Vec<Constant>,
    /// Young's modulus at zero strain, three times the shear modulus; not positive where the law
    /// holds nowhere.
    pub young_mpa: f64,
    /// Standard uncertainty of the stress in the range that a load ring works in, as a share: what
    /// a face load takes from the tests.
    pub relative_standard_uncertainty: f64,
    /// Points fitted.
    pub points: usize,
    /// Smallest and largest stretch fitted, 1 among them.
    pub stretch_range: [f64; 2],
    /// Root mean square of the residuals over all tests.
    pub rms_mpa: f64,
    /// Largest residual over the stress, beyond 2 % strain.
    pub worst_relative: f64,
    /// The tests and the law beside them.
    pub tests: Vec<Tested>,
    /// Where the law ends, going out from the unstretched state; null where it holds to 10 times
    /// the length and a tenth of it.
    pub ends: Option<End>,
    /// Is the law stable over the stretches of its tests?
    pub stable: Finding,
    /// Stable over the stretches of its tests?
    pub verdict: Verdict,
    /// What to know besides.
    pub remarks: Vec<String>,
}

impl Outcome {
    /// How far the law holds, in words: `to a stretch of 2.31 in the planar mode`.
    #[must_use]
    pub fn holds(&self) -> String {
        match self.ends {
            None => say!("law-holds-far").to_owned(),
            Some(end) if end.stretch == 1.0 => say!("law-holds-at-none").to_owned(),
            Some(end) => {
                say!("law-holds-to", stretch = fixed(end.stretch, 2), mode = end.mode.word())
            }
        }
    }
}

/// One constant.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Constant {
    /// Its name in the law: `c10`, `mu 1`, `alpha 1`.
    pub name: String,
    /// Its value: MPa, a power without a unit.
    pub value: f64,
    /// Its standard uncertainty, by the scatter of the residuals.
    pub standard_uncertainty: f64,
    /// `MPa`, or nothing.
    pub unit: &'static str,
}

/// One test with the law beside it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Tested {
    /// How the specimen was loaded.
    pub mode: TestMode,
    /// Stretch and stress, MPa.
    pub points: Vec<[f64; 2]>,
    /// The law over the same stretches, MPa.
    pub line: Vec<[f64; 2]>,
    /// Root mean square of the residuals.
    pub rms_mpa: f64,
}

/// Where a law ends.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct End {
    /// In which mode.
    pub mode: TestMode,
    /// At which stretch; below 1 in compression.
    pub stretch: f64,
}

/// Fits the law.
///
/// # Errors
/// [`RoomError`] when the tests do not give the constants, or their points are not at hand.
pub fn evaluate(input: &Input) -> Result<Outcome, RoomError> {
    let fitted = rubber::fitted(&input.stiffness)?;
    let fit = &fitted.fit;
    let stable = stable(&fitted);
    Ok(Outcome {
        name: input.name.clone(),
        source: input.stiffness.source.clone(),
        law: input.stiffness.law,
        constants: constants(input.stiffness.law, &fitted),
        young_mpa: 3.0 * fit.material.law().shear(),
        relative_standard_uncertainty: fitted.relative_standard_uncertainty,
        points: fit.points,
        stretch_range: [fitted.range.0, fitted.range.1],
        rms_mpa: fit.rms_mpa,
        worst_relative: fit.worst_relative,
        tests: tests(input, &fitted),
        ends: fit.ends.map(end),
        verdict: stable.verdict,
        stable,
        remarks: remarks(input, &fitted),
    })
}

fn end(at: Instability) -> End {
    let mode = match at.mode {
        Mode::Uniaxial => TestMode::Uniaxial,
        Mode::Equibiaxial => TestMode::Equibiaxial,
        Mode::Planar => TestMode::Planar,
    };
    End { mode, stretch: at.stretch }
}

fn constants(law: Law, fitted: &FittedRubber) -> Vec<Constant> {
    let fit = &fitted.fit;
    let name = |k: usize| match law {
        Law::NeoHooke => ("mu".to_owned(), "MPa"),
        Law::MooneyRivlin => (["c10", "c01"][k % 2].to_owned(), "MPa"),
        Law::Yeoh => (["c10", "c20", "c30"][k % 3].to_owned(), "MPa"),
        Law::Ogden if k.is_multiple_of(2) => (format!("mu {}", k / 2 + 1), "MPa"),
        Law::Ogden => (format!("alpha {}", k / 2 + 1), ""),
    };
    let both = fit.constants.iter().zip(fit.standard_uncertainties());
    both.enumerate()
        .map(|(k, (value, u))| {
            let (name, unit) = name(k);
            Constant { name, value: *value, standard_uncertainty: u, unit }
        })
        .collect()
}

fn tests(input: &Input, fitted: &FittedRubber) -> Vec<Tested> {
    const POINTS: u32 = 60;
    let law = fitted.fit.material.law();
    let both = input.stiffness.tests.iter().zip(&fitted.tests);
    both.map(|(written, test)| {
        let stress = |l: f64| nominal_stress(law, test.mode, l);
        let ends =
            test.points.iter().fold((1.0_f64, 1.0_f64), |e, p| (e.0.min(p[0]), e.1.max(p[0])));
        let at = |k: u32| ends.0 + (ends.1 - ends.0) * f64::from(k) / f64::from(POINTS);
        let off = |p: &[f64; 2]| stress(p[0]) - p[1];
        let square: f64 = test.points.iter().map(|p| off(p) * off(p)).sum();
        Tested {
            mode: written.mode,
            points: test.points.clone(),
            line: (0..=POINTS).map(|k| [at(k), stress(at(k))]).collect(),
            rms_mpa: (square / test.points.len().max(1) as f64).sqrt(),
        }
    })
    .collect()
}

fn stable(fitted: &FittedRubber) -> Finding {
    let (low, high) = fitted.range;
    let (verdict, found) = match fitted.fit.unstable.map(end) {
        Some(end) if end.stretch == 1.0 => (
            Verdict::DoesNotConform,
            say!("law-holds-nowhere", shear = significant(fitted.fit.material.law().shear(), 3)),
        ),
        None => (Verdict::Conforms, say!("law-takes-work").to_owned()),
        Some(end) => (
            Verdict::DoesNotConform,
            say!("law-takes-no-work", stretch = fixed(end.stretch, 2), mode = end.mode.word()),
        ),
    };
    let fits = say!(
        "law-should-be-stable",
        least = fixed(low.min(1.0 / high), 2),
        most = fixed(high.max(1.0 / low), 2)
    );
    Finding::new(say!("law-stability"), verdict, found, fits)
}

fn remarks(input: &Input, fitted: &FittedRubber) -> Vec<String> {
    let mut said = Vec::new();
    let modes = |mode: TestMode| input.stiffness.tests.iter().any(|test| test.mode == mode);
    if TestMode::ALL.into_iter().filter(|mode| modes(*mode)).count() == 1 {
        said.push(say!("law-one-mode").to_owned());
    }
    if input.stiffness.batch_standard_uncertainty.is_none() {
        said.push(say!("law-one-batch").to_owned());
    }
    if fitted.range.1 < 1.3 && fitted.range.0 > 0.8 {
        said.push(say!("law-tests-end-early").to_owned());
    }
    said.push(say!("law-first-loading").to_owned());
    said
}
