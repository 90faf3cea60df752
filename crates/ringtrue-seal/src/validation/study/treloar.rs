//! Treloar's data: what Ogden's constants and what a law fitted to them make of it.

use ringtrue_fem::material::fit::{Family, Test, fit};
use ringtrue_fem::material::{Law, Mode, Ogden, OgdenTerm, nominal_stress};

use super::table::Data;
use super::{Point, Series, Study, ValidationError, beside, linear};
use crate::validation::Status;

const KGF_PER_CM2: f64 = 0.098_066_5;
const BULK_MPA: f64 = 2000.0;
/// The constants have two digits: they meet the tension data within 11.6 %.
const SHARE: f64 = 0.12;
/// Half of what the two digitisations differ by at small stresses, MPa.
const READING: f64 = 0.03;
/// Beyond this stretch the constants fall short by up to 20 %.
const LARGEST: f64 = 7.1;
/// Word in the table, name on the page.
const TESTS: [(&str, &str, Mode); 3] = [
    ("uniaxial", "tension", Mode::Uniaxial),
    ("equibiaxial", "equibiaxial", Mode::Equibiaxial),
    ("pure_shear", "planar", Mode::Planar),
];

pub(super) fn laws_response(data: &Data<'_>) -> Result<Study, ValidationError> {
    let law = published(data)?;
    let mut series = Vec::new();
    for (word, name, mode) in TESTS {
        let points = read_off(data, word, "A")?;
        let source = "L. R. G. Treloar, Trans. Faraday Soc. 40 (1944) 59, digitisation A; \
                      constants of R. W. Ogden, Proc. R. Soc. A 326 (1972) 565";
        series.push(held_against(&law, (name, mode), &points, source));
    }
    Ok(Study {
        name: data.study.to_owned(),
        title: "Treloar's rubber with Ogden's constants".to_owned(),
        about: "Nominal stress of the three-term law in three tests. The constants have two \
                digits and meet the tension data within 12 % up to a stretch of 7.1; 0.03 MPa is \
                for reading the printed points. Nothing is fitted here."
            .to_owned(),
        x: linear("stretch", ""),
        y: linear("nominal stress", "MPa"),
        series,
    })
}

pub(super) fn fitted_law(data: &Data<'_>) -> Result<Study, ValidationError> {
    let mut tests = Vec::new();
    for (word, _, mode) in TESTS {
        tests.push(Test { mode, points: read_off(data, word, "A")? });
    }
    let fitted = fit(Family::Ogden { terms: 3 }, &tests, BULK_MPA).map_err(|why| {
        ValidationError::Refused { case: data.study.to_owned(), why: why.to_string() }
    })?;
    let law = fitted.material.law();
    let constants = published(data)?;
    let mut series = Vec::new();
    for (word, name, mode) in TESTS {
        let points = read_off(data, word, "B")?;
        let source = "L. R. G. Treloar, Trans. Faraday Soc. 40 (1944) 59, digitisation B; the \
                      law is fitted to digitisation A";
        series.push(held_against(law, (name, mode), &points, source));
    }
    for (word, name, mode) in TESTS {
        let line = response(&constants, mode, most(&read_off(data, word, "B")?));
        let source = "constants of R. W. Ogden, Proc. R. Soc. A 326 (1972) 565";
        series.push(beside(&format!("{name}, Ogden's constants"), source, line));
    }
    Ok(Study {
        name: data.study.to_owned(),
        title: "A law fitted to Treloar's rubber".to_owned(),
        about:
            "Three terms of Ogden's form by least squares over the three tests, from one reading \
                of the printed points and held against another that was made by other hands. Bands \
                as with Ogden's own constants, up to the same stretch; their curves are beside."
                .to_owned(),
        x: linear("stretch", ""),
        y: linear("nominal stress", "MPa"),
        series,
    })
}

/// Ogden's constants.
fn published(data: &Data<'_>) -> Result<Ogden, ValidationError> {
    let published = &data.checks("hyperelastic.csv", "ogden-mu0")?[0];
    let terms = published.inputs("mu_kgf_cm2")?.into_iter().zip(published.inputs("alpha")?);
    let terms = terms.map(|(mu, alpha)| OgdenTerm { mu: mu * KGF_PER_CM2, alpha });
    Ok(Ogden { terms: terms.collect(), bulk: BULK_MPA })
}

/// Stretch and nominal stress in MPa of one test in one digitisation.
fn read_off(
    data: &Data<'_>,
    mode: &str,
    digitisation: &str,
) -> Result<Vec<[f64; 2]>, ValidationError> {
    let mut points = Vec::new();
    for row in &data.rows("treloar_1944.csv")? {
        if row.text("mode")? == mode && row.text("digitisation")? == digitisation {
            points.push([row.number("stretch")?, row.number("nominal_stress_MPa")?]);
        }
    }
    Ok(points)
}

/// The largest stretch that counts.
fn most(points: &[[f64; 2]]) -> f64 {
    points.iter().map(|p| p[0]).filter(|at| *at < LARGEST).fold(1.0, f64::max)
}

fn response(law: &dyn Law, mode: Mode, most: f64) -> Vec<[f64; 2]> {
    let places = (0..=40).map(|k| 1.0 + (most - 1.0) * f64::from(k) / 40.0);
    places.map(|stretch| [stretch, nominal_stress(law, mode, stretch)]).collect()
}

fn held_against(
    law: &dyn Law,
    (name, mode): (&str, Mode),
    points: &[[f64; 2]],
    source: &str,
) -> Series {
    let counted = points.iter().filter(|[at, _]| *at < LARGEST).map(|&[at, expected]| Point {
        at,
        expected,
        computed: nominal_stress(law, mode, at),
        theirs: SHARE * expected + READING,
        ours: 0.0,
    });
    Series {
        name: name.to_owned(),
        source: source.to_owned(),
        status: Status::Published,
        line: response(law, mode, most(points)),
        points: counted.collect(),
    }
}
