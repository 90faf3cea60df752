//! The stiffness of a rubber by its stretch tests: the law to fit, and the tests' points or files.

use ringtrue_metrology::units::{Fraction, Given, Quantity, clip};
use ringtrue_words::say;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::misfit::some_text;
use super::{Misfit, Number};

/// Fewest points of a test: two make a line, and a line is no curve.
pub const FEWEST_POINTS: usize = 3;
/// Most points of a test.
pub const MOST_POINTS: usize = 10_000;
/// Most tests of a material.
const MOST_TESTS: usize = 12;
/// Stretches that a rubber can have.
const STRETCHES: (f64, f64) = (0.05, 20.0);
/// Stress over strain that a rubber can have, MPa: far outside, a unit is wrong.
const SECANT_MPA: (f64, f64) = (1e-3, 1e3);

/// The law of a rubber, and the tests that its constants come from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Stiffness {
    /// The law to fit.
    pub law: Law,
    /// Terms of Ogden's law, 1 to 4.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub terms: Option<u32>,
    /// Points beyond this stretch, and below its inverse, are left out: a law fits a load ring the
    /// better for not having to fit what no load ring sees.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub largest_stretch: Option<Number>,
    /// Standard uncertainty between the tested batch and others, as a share of the stress. Left
    /// out where the load rings are of the tested batch.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub batch_standard_uncertainty: Option<Given<Fraction>>,
    /// Where the tests come from.
    pub source: String,
    /// The tests: all are fitted together.
    pub tests: Vec<StretchTest>,
}

/// Laws that can be fitted. Each acts on the isochoric stretches; the rubber keeps its volume.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Law {
    /// One constant.
    NeoHooke,
    /// Two constants.
    MooneyRivlin,
    /// Three constants.
    Yeoh,
    /// Two constants a term: `terms`.
    Ogden,
}

/// One test: engineering stress against stretch on its first loading.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StretchTest {
    /// How the specimen was loaded.
    pub mode: TestMode,
    /// CSV file with the columns `stretch` and `stress_MPa`, from this file's folder.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub file: Option<String>,
    /// In place of a file: pairs of stretch and engineering stress in MPa. Compression is below 1
    /// and negative.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub points_mpa: Vec<[Number; 2]>,
}

/// How a specimen is loaded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum TestMode {
    /// One way: tension of a dumb-bell, compression of a lubricated button.
    Uniaxial,
    /// Two ways alike: an inflated sheet. The stress is that of one way.
    Equibiaxial,
    /// A wide strip that can't grow narrower (pure shear).
    Planar,
}

impl Law {
    /// All, in order of their constants.
    pub const ALL: [Self; 4] = [Self::NeoHooke, Self::MooneyRivlin, Self::Yeoh, Self::Ogden];

    /// The word, as files write it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::NeoHooke => "neo-hooke",
            Self::MooneyRivlin => "mooney-rivlin",
            Self::Yeoh => "yeoh",
            Self::Ogden => "ogden",
        }
    }
}

impl TestMode {
    /// All.
    pub const ALL: [Self; 3] = [Self::Uniaxial, Self::Equibiaxial, Self::Planar];

    /// The word, as files write it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Uniaxial => "uniaxial",
            Self::Equibiaxial => "equibiaxial",
            Self::Planar => "planar",
        }
    }
}

/// A point of a test that can't be right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PointMisfit {
    /// Which, from 0.
    pub point: usize,
    /// What was found.
    pub found: String,
    /// What would fit.
    pub fits: String,
}

/// Checks a test's points: pairs of stretch and stress in MPa.
///
/// # Errors
/// The first that can't be right. A first loading goes one way, and pulls where it stretches.
pub fn points_fit(points: &[[f64; 2]]) -> Result<(), PointMisfit> {
    let misfit = |point: usize, found: String, fits: &str| {
        Err(PointMisfit { point, found, fits: fits.to_owned() })
    };
    if points.len() < FEWEST_POINTS {
        let fits = say!("definition-points-at-least", least = FEWEST_POINTS);
        let last = points.len().saturating_sub(1);
        return misfit(last, say!("definition-test-of-points", points = points.len()), &fits);
    }
    if points.len() > MOST_POINTS {
        let fits = say!("definition-points-at-most", most = MOST_POINTS);
        return misfit(
            MOST_POINTS,
            say!("definition-test-of-points", points = points.len()),
            &fits,
        );
    }
    let rises = points[1][0] > points[0][0];
    for (k, &[stretch, stress]) in points.iter().enumerate() {
        if !(STRETCHES.0..=STRETCHES.1).contains(&stretch) {
            let (low, high) = STRETCHES;
            let fits =
                say!("definition-stretch-wanted", low = low.to_string(), high = high.to_string());
            return misfit(k, say!("definition-stretch-of", stretch = stretch.to_string()), &fits);
        }
        if !stress.is_finite() {
            return misfit(
                k,
                say!("definition-stress-of", stress = stress.to_string()),
                say!("definition-number-wanted"),
            );
        }
        if k > 0 && !(if rises { stretch > points[k - 1][0] } else { stretch < points[k - 1][0] }) {
            let found = say!(
                "definition-stretch-after",
                stretch = stretch.to_string(),
                before = points[k - 1][0].to_string()
            );
            let fits = say!("definition-one-way-wanted");
            return misfit(k, found, fits);
        }
        let secant = stress / (stretch - 1.0);
        if (stretch - 1.0).abs() > 0.05 && !(SECANT_MPA.0..=SECANT_MPA.1).contains(&secant) {
            let found = say!(
                "definition-stress-at-stretch",
                stress = stress.to_string(),
                stretch = stretch.to_string()
            );
            let fits = say!("definition-stress-wanted");
            return misfit(k, found, fits);
        }
    }
    Ok(())
}

impl Stiffness {
    pub(super) fn consistent(&self) -> Result<(), Misfit> {
        some_text("source", &self.source)?;
        terms_fit(self.law, self.terms)?;
        if let Some(Number(most)) = self.largest_stretch
            && !(most > 1.0 && most <= STRETCHES.1)
        {
            let found = say!("definition-largest-stretch-is", stretch = most.to_string());
            return Err(Misfit::at(
                "largest_stretch",
                found,
                say!("definition-largest-stretch-wanted"),
            ));
        }
        if let Some(batch) = &self.batch_standard_uncertainty
            && !(0.0..1.0).contains(&batch.value().si())
        {
            let found = say!("definition-batch-uncertainty-is", typed = batch.typed());
            return Err(Misfit::at(
                "batch_standard_uncertainty",
                found,
                say!("definition-batch-uncertainty-wanted"),
            ));
        }
        if self.tests.is_empty() || self.tests.len() > MOST_TESTS {
            let found = say!("definition-tests", tests = self.tests.len());
            return Err(Misfit::at(
                "tests",
                found,
                say!("definition-tests-wanted", most = MOST_TESTS),
            ));
        }
        for (index, test) in self.tests.iter().enumerate() {
            one_test(test).map_err(|misfit| misfit.under(&format!("tests[{}]", index + 1)))?;
        }
        Ok(())
    }
}

/// Are the terms given where they are wanted, and only there?
///
/// # Errors
/// [`Misfit`] at `terms`.
pub fn terms_fit(law: Law, terms: Option<u32>) -> Result<(), Misfit> {
    match (law, terms) {
        (Law::Ogden, Some(1..=4)) | (Law::NeoHooke | Law::MooneyRivlin | Law::Yeoh, None) => Ok(()),
        (Law::Ogden, Some(terms)) => Err(Misfit::at(
            "terms",
            say!("definition-terms", terms),
            say!("definition-terms-wanted"),
        )),
        (Law::Ogden, None) => Err(Misfit::at(
            "",
            say!("definition-ogden-without-terms"),
            say!("definition-add-terms"),
        )),
        (Law::NeoHooke | Law::MooneyRivlin | Law::Yeoh, Some(_)) => Err(Misfit::at(
            "terms",
            say!("definition-law-without-terms", law = law.word()),
            say!("definition-leave-terms-out"),
        )),
    }
}

fn one_test(test: &StretchTest) -> Result<(), Misfit> {
    match (&test.file, test.points_mpa.is_empty()) {
        (Some(file), true) => some_text("file", file),
        (Some(file), false) => {
            let found = say!("definition-file-and-points", file = clip(file));
            Err(Misfit::at("file", found, say!("definition-keep-file-or-points")))
        }
        (None, _) => {
            let points: Vec<[f64; 2]> =
                test.points_mpa.iter().map(|point| point.map(|Number(x)| x)).collect();
            points_fit(&points).map_err(|misfit| {
                let path = match points.len() {
                    0 => String::new(),
                    _ => format!("points_mpa[{}]", misfit.point + 1),
                };
                Misfit::at(path, misfit.found, misfit.fits)
            })
        }
    }
}
