//! Closed-form responses of the laws, and fits to Treloar's data.
//!
//! Sources: R.W. Ogden, Proc. R. Soc. Lond. A 326 (1972) 565; L.R.G. Treloar, Trans. Faraday Soc.
//! 40
//! (1944) 59; rows of `validation/reference/mechanics/hyperelastic.csv` and `treloar_1944.csv`.

use std::path::Path;

use ringtrue_fem::material::fit::{Family, FitError, Test, fit};
use ringtrue_fem::material::stability::first_instability;
use ringtrue_fem::material::{
    Law, Material, Mode, MooneyRivlin, NeoHooke, Ogden, OgdenTerm, nominal_stress,
};

use crate::curve::{Case, cases, meets};

const KGF_PER_CM2: f64 = 0.098_066_5;

fn ogden(case: &Case) -> Ogden {
    let (mu, alpha) = (case.inputs("mu_kgf_cm2"), case.inputs("alpha"));
    Ogden {
        terms: mu
            .iter()
            .zip(&alpha)
            .map(|(mu, alpha)| OgdenTerm { mu: mu * KGF_PER_CM2, alpha: *alpha })
            .collect(),
        bulk: 2000.0,
    }
}

fn mode(case: &Case) -> Mode {
    if case.has("mode=uniaxial") {
        Mode::Uniaxial
    } else if case.has("mode=equibiaxial") {
        Mode::Equibiaxial
    } else {
        assert!(case.has("mode=pure_shear"), "{}", case.id);
        Mode::Planar
    }
}

/// Digitisation `which` of Treloar's tests.
fn treloar(which: &str) -> Vec<Test> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../validation/reference/mechanics/treloar_1944.csv");
    let text = std::fs::read_to_string(path).unwrap();
    [("uniaxial", Mode::Uniaxial), ("equibiaxial", Mode::Equibiaxial), ("pure_shear", Mode::Planar)]
        .map(|(name, mode)| {
            let points = text
                .lines()
                .filter_map(|l| l.strip_prefix(&format!("{which},{name},")))
                .map(|l| {
                    let (stretch, stress) = l.split_once(',').unwrap();
                    [stretch.parse().unwrap(), stress.parse().unwrap()]
                })
                .collect::<Vec<[f64; 2]>>();
            assert!(points.len() > 10);
            Test { mode, points }
        })
        .to_vec()
}

#[test]
fn closed_form_responses() {
    for case in cases("hyperelastic.csv", "ogden-") {
        let percent = 100.0 * case.rel_tol;
        match case.id.as_str() {
            "ogden-mu0" => meets(&case.id, ogden(&case).shear(), case.expected, percent),
            "ogden-vs-treloar-ut" => {}
            _ => {
                let stress = nominal_stress(&ogden(&case), mode(&case), case.input("stretch"));
                meets(&case.id, stress, case.expected, percent);
            }
        }
    }
    for prefix in ["nh-uniaxial", "nh-equibiaxial"] {
        for case in cases("hyperelastic.csv", prefix) {
            let law = NeoHooke { mu: 2.0 * case.input("C10"), bulk: 2000.0 };
            let stress = nominal_stress(&law, mode(&case), case.input("stretch"));
            meets(&case.id, stress, case.expected, 100.0 * case.rel_tol);
        }
    }
    for case in cases("hyperelastic.csv", "mr-") {
        let law = MooneyRivlin { c10: case.input("C10"), c01: case.input("C01"), bulk: 2000.0 };
        let stress = nominal_stress(&law, mode(&case), case.input("stretch"));
        meets(&case.id, stress, case.expected, 100.0 * case.rel_tol);
    }
}

#[test]
fn ogdens_constants_meet_treloars_tension() {
    let case = &cases("hyperelastic.csv", "ogden-vs-treloar-ut")[0];
    let law = ogden(&cases("hyperelastic.csv", "ogden-mu0")[0]);
    let worst = treloar("A")[0]
        .points
        .iter()
        .filter(|p| (1.2..=7.05).contains(&p[0]))
        .map(|p| (nominal_stress(&law, Mode::Uniaxial, p[0]) / p[1] - 1.0).abs())
        .fold(0.0, f64::max);
    meets(&case.id, worst, case.expected, 100.0 * case.rel_tol);
}

#[test]
fn yeoh_fit_to_tension_alone() {
    let tension = &treloar("A")[..1];
    let Material::Yeoh(law) = fit(Family::Yeoh, tension, 2000.0).unwrap().material else {
        panic!("another law")
    };
    for case in cases("hyperelastic.csv", "yeoh-fit-") {
        let value = if case.id.ends_with("C10") { law.c10 } else { law.c20 };
        meets(&case.id, value, case.expected, 100.0 * case.rel_tol);
    }
}

#[test]
fn ogden_fit_to_all_three_tests_is_good_and_stable() {
    let three = fit(Family::Ogden { terms: 3 }, &treloar("A"), 2000.0).unwrap();
    // No constants of ours to compare with: the published ones, fitted by hand, leave more.
    let published = ogden(&cases("hyperelastic.csv", "ogden-mu0")[0]);
    let square = |law: &dyn Law| -> f64 {
        let list: Vec<f64> = treloar("A")
            .iter()
            .flat_map(|t| t.points.iter().map(|p| nominal_stress(law, t.mode, p[0]) - p[1]))
            .collect();
        (list.iter().map(|e| e * e).sum::<f64>() / list.len() as f64).sqrt()
    };
    assert!((three.rms_mpa - square(three.material.law())).abs() < 1e-12);
    assert!(three.rms_mpa < 0.5 * square(&published), "{}", three.rms_mpa);
    assert_eq!(three.unstable, None, "{three:?}");
}

#[test]
fn mooney_rivlin_fitted_to_tension_alone_is_found_unstable() {
    let wrong = fit(Family::MooneyRivlin, &treloar("A")[..1], 2000.0).unwrap();
    let Material::MooneyRivlin(law) = &wrong.material else { panic!("another law") };
    assert!(law.c01 < 0.0);
    assert!(wrong.unstable.is_some(), "{wrong:?}");
    // A law with both constants positive is stable everywhere.
    assert_eq!(first_instability(&MooneyRivlin { c10: 0.2, c01: 0.05, bulk: 1e3 }, 6.0), None);
}

#[test]
fn unusable_data_are_refused() {
    let test = |points: Vec<[f64; 2]>| [Test { mode: Mode::Uniaxial, points }];
    let bad = fit(Family::NeoHooke, &test(vec![[1.1, 0.2], [-1.0, 0.3]]), 2000.0);
    assert!(matches!(bad, Err(FitError::Point { test: 1, point: 2, .. })), "{bad:?}");
    let few = fit(Family::Yeoh, &test(vec![[1.1, 0.2], [1.0, 0.0]]), 2000.0);
    assert!(matches!(few, Err(FitError::TooFew { constants: 3, found: 1 })), "{few:?}");
    let same = fit(Family::MooneyRivlin, &test(vec![[1.5, 0.7]; 5]), 2000.0);
    assert_eq!(same, Err(FitError::Undetermined));
}

#[test]
fn uncertainty_of_constants_is_that_of_repeated_tests() {
    // The spread of fits to many noisy copies of one law's data, against what one fit claims.
    let truth = MooneyRivlin { c10: 0.3, c01: 0.05, bulk: 2000.0 };
    let modes = [Mode::Uniaxial, Mode::Equibiaxial, Mode::Planar];
    const NOISE: f64 = 0.01;
    const COPIES: usize = 400;
    // A linear congruence, turned into sums of twelve: near enough to normal.
    let mut seed = 12_345_u64;
    let mut noise = || {
        let mut uniform = || {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963);
            (seed >> 11) as f64 / (1_u64 << 53) as f64
        };
        NOISE * ((0..12).map(|_| uniform()).sum::<f64>() - 6.0)
    };
    let (mut found, mut claimed) = (Vec::new(), 0.0);
    for _ in 0..COPIES {
        let tests = modes.map(|mode| {
            let stretches = (1..=12).map(|k| 1.0 + 0.1 * f64::from(k));
            let points = stretches.map(|l| [l, nominal_stress(&truth, mode, l) + noise()]);
            Test { mode, points: points.collect() }
        });
        let one = fit(Family::MooneyRivlin, &tests, 2000.0).unwrap();
        found.push(nominal_stress(one.material.law(), Mode::Planar, 1.25));
        claimed += one.stress_uncertainty(Mode::Planar, 1.25) / COPIES as f64;
    }
    let mean = found.iter().sum::<f64>() / COPIES as f64;
    let spread = found.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / (COPIES - 1) as f64;
    // 400 copies know a spread to 3.5 %: three times that.
    assert!((claimed / spread.sqrt() - 1.0).abs() < 0.11, "{claimed} {}", spread.sqrt());
}
