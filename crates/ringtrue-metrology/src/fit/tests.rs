use std::f64::consts::{FRAC_PI_2, TAU};

use proptest::prelude::*;

use super::harmonic::{self, Place, Terms, Wave};
use super::linear::{self, Design, Intercept, Weights};
use super::*;

fn close(got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance, "{got} is not {expected} within {tolerance}");
}

fn ring(angles_deg: &[f64], heights: &[f64], u: f64) -> Vec<Place> {
    let place = |(deg, value): (&f64, &f64)| Place {
        angle_rad: deg.to_radians(),
        value: *value,
        standard_uncertainty: u,
    };
    angles_deg.iter().zip(heights).map(place).collect()
}

#[test]
fn a_dot_product_keeps_what_plain_sums_lose() {
    let mut sum = twofold::Twofold::default();
    for (x, y) in [(1e16, 1.0), (1.0, 1.0), (-1e16, 1.0), (0.1, 0.1), (-0.1, 0.1)] {
        sum.add_product(x, y);
    }
    assert_eq!(sum.value(), 1.0);
}

#[test]
fn lists_that_do_not_fit_are_refused() {
    let x = [1.0, 2.0, 3.0];
    let shape = Design::new(4, &[&x], Intercept::Fitted);
    assert_eq!(shape, Err(FitError::Shape { what: "a column", found: 3, expected: 4 }));
    let few = Design::polynomial(&[1.0, 2.0], 2);
    assert_eq!(few, Err(FitError::TooFewRows { rows: 2, coefficients: 3 }));
    assert!(matches!(
        Design::new(0, &[], Intercept::Absent),
        Err(FitError::TooFewRows { rows: 0, coefficients: 0 })
    ));
    let nan = Design::polynomial(&[1.0, f64::NAN], 1);
    assert_eq!(nan, Err(FitError::NotFinite { what: "x", row: 2 }));
    let design = Design::polynomial(&x, 1).unwrap();
    let weights = [1.0, 0.0, 1.0];
    let zero = linear::fit(&design, &x, Weights::Each(&weights));
    assert_eq!(zero, Err(FitError::Weight { row: 2 }));
    let inf = linear::fit(&design, &[1.0, f64::INFINITY, 0.0], Weights::Equal);
    assert_eq!(inf, Err(FitError::NotFinite { what: "the observations", row: 2 }));
}

#[test]
fn dependent_columns_are_named_by_rank() {
    let x = [1.0, 2.0, 3.0, 4.0];
    let twice: Vec<f64> = x.iter().map(|x| 2.0 * x).collect();
    let zero = [0.0; 4];
    for columns in [[&x[..], &twice[..]], [&x[..], &zero[..]]] {
        let design = Design::new(4, &columns, Intercept::Fitted).unwrap();
        assert_eq!(
            linear::fit(&design, &x, Weights::Equal),
            Err(FitError::RankDeficient { rank: 2, coefficients: 3 })
        );
    }
}

#[test]
fn weights_too_large_to_square_are_refused() {
    let design = Design::polynomial(&[1e100, 2e100, 5e100], 1).unwrap();
    let weights = [1e120, 1.0, 1.0];
    let got = linear::fit(&design, &[1.0, 2.0, 3.0], Weights::Each(&weights));
    assert!(matches!(got, Err(FitError::NotFinite { .. })), "{got:?}");
}

#[test]
fn weights_are_one_over_variance() {
    // Two readings of one quantity: the weighted mean and its uncertainty in closed form.
    let design = Design::new(2, &[], Intercept::Fitted).unwrap();
    let fit = linear::fit(&design, &[1.0, 2.0], Weights::Each(&[1.0 / 0.01, 1.0 / 0.04])).unwrap();
    close(fit.coefficients()[0], 1.2, 1e-15);
    close(fit.unit_standard_error(0).unwrap(), (1.0_f64 / 125.0).sqrt(), 1e-15);
    assert_eq!(fit.unit_standard_error(1), None);
    // chi-square: 100 * 0.2² + 25 * 0.8² = 20.
    close(fit.weighted_sum_of_squares(), 20.0, 1e-12);
    assert!(fit.residuals()[0] < 0.0);
}

#[test]
fn r_squared_follows_the_constant() {
    let x = [1.0, 2.0, 3.0, 4.0];
    let y = [2.1, 3.9, 6.2, 7.8];
    let through_zero = Design::new(4, &[&x], Intercept::Absent).unwrap();
    let fit = linear::fit(&through_zero, &y, Weights::Equal).unwrap();
    let sse: f64 = fit.residuals().iter().map(|e| e * e).sum();
    let about_zero: f64 = y.iter().map(|y| y * y).sum();
    close(fit.r_squared().unwrap(), 1.0 - sse / about_zero, 1e-14);
    let flat = linear::fit(&Design::polynomial(&x, 1).unwrap(), &[5.0; 4], Weights::Equal).unwrap();
    assert_eq!(flat.r_squared(), None);
    assert!(flat.residual_standard_deviation().unwrap() < 1e-30);
}

#[test]
fn no_degrees_of_freedom_no_scatter() {
    let design = Design::polynomial(&[0.0, 1.0], 1).unwrap();
    let fit = linear::fit(&design, &[1.0, 3.0], Weights::Equal).unwrap();
    assert_eq!(fit.degrees_of_freedom(), 0);
    assert_eq!(fit.residual_standard_deviation(), None);
    assert_eq!(fit.standard_error(0), None);
    close(fit.leverages()[0], 1.0, 1e-15);
    assert!(fit.predict(&[1.0]).is_err());
}

#[test]
fn four_even_places_see_no_sine_of_twice_the_angle() {
    let places = ring(&[0.0, 90.0, 180.0, 270.0], &[10.0; 4], 0.02);
    assert_eq!(
        harmonic::fit(&places, Terms::SecondHarmonic),
        Err(FitError::TooFewRows { rows: 4, coefficients: 5 })
    );
    // Read twice round, they are eight readings but still four places.
    let twice: Vec<Place> = places.iter().chain(&places).copied().collect();
    assert_eq!(
        harmonic::fit(&twice, Terms::SecondHarmonic),
        Err(FitError::RankDeficient { rank: 4, coefficients: 5 })
    );
}

#[test]
fn four_even_places_have_residuals_of_one_size() {
    let places = ring(&[0.0, 90.0, 180.0, 270.0], &[10.4, 10.1, 10.05, 10.3], 0.02);
    let fit = harmonic::fit(&places, Terms::Plane).unwrap();
    let t: Vec<f64> = fit.studentised_residuals().iter().map(|t| t.unwrap()).collect();
    for value in &t {
        close(value.abs(), t[0].abs(), 1e-10);
    }
    // One residual e of leverage 3/4: e / (u/2); e = (10.4 − 10.1 + 10.05 − 10.3)/4.
    close(t[0], 0.05 / 4.0 / 0.01, 1e-9);
}

#[test]
fn a_place_that_fixes_its_own_fit_is_not_judged() {
    let places = ring(&[0.0, 120.0, 240.0], &[10.0, 10.3, 9.9], 0.01);
    let fit = harmonic::fit(&places, Terms::Plane).unwrap();
    assert_eq!(fit.studentised_residuals(), [None; 3]);
    assert_eq!(fit.degrees_of_freedom(), 0);
}

#[test]
fn zero_uncertainty_is_for_all_places_or_none() {
    let mut places = ring(&[0.0, 90.0, 180.0, 270.0], &[10.4, 10.1, 10.05, 10.3], 0.0);
    let fit = harmonic::fit(&places, Terms::Plane).unwrap();
    assert_eq!(fit.mean_standard_uncertainty(), 0.0);
    assert_eq!(fit.studentised_residuals(), [None; 4]);
    assert_eq!(fit.first().direction().unwrap().standard_uncertainty_rad, 0.0);
    places[2].standard_uncertainty = 0.01;
    assert_eq!(harmonic::fit(&places, Terms::Plane), Err(FitError::Weight { row: 1 }));
    places[2].standard_uncertainty = -0.01;
    assert_eq!(harmonic::fit(&places, Terms::Plane), Err(FitError::Weight { row: 3 }));
    places[2].angle_rad = f64::NAN;
    assert!(matches!(harmonic::fit(&places, Terms::Plane), Err(FitError::NotFinite { .. })));
}

#[test]
fn a_level_ring_read_exactly_has_no_high_side() {
    let angles = [0.0, 40.0, 90.0, 170.0, 200.0, 290.0];
    let fit = harmonic::fit(&ring(&angles, &[10.1; 6], 0.0), Terms::SecondHarmonic).unwrap();
    for wave in [fit.first(), fit.second().unwrap()] {
        assert_eq!((wave.amplitude(), wave.phase_rad()), (0.0, 0.0));
        assert!(wave.direction().is_err());
    }
}

fn wave(cosine: f64, sine: f64, order: u8) -> Wave {
    Wave { order, cosine, sine, variance_cosine: 0.04, variance_sine: 0.01, covariance: 0.0 }
}

#[test]
fn a_crest_below_two_uncertainties_has_no_direction() {
    let level = wave(0.0, 0.0, 1);
    assert_eq!((level.amplitude(), level.phase_rad()), (0.0, 0.0));
    close(level.amplitude_standard_uncertainty(), 0.2, 1e-15);
    let said = level.direction().unwrap_err().to_string();
    assert!(said.contains("below 2 of its standard uncertainties"), "{said}");
    assert!(wave(0.39, 0.0, 1).direction().is_err());
    let clear = wave(0.41, 0.0, 1).direction().unwrap();
    close(clear.standard_uncertainty_rad, 0.1 / 0.41, 1e-15);
    // Along the crest only the cosine part counts, at right angles only the sine part.
    close(wave(5.0, 0.0, 1).amplitude_standard_uncertainty(), 0.2, 1e-15);
    close(wave(0.0, 5.0, 1).amplitude_standard_uncertainty(), 0.1, 1e-15);
}

#[test]
fn phases_lie_in_one_period() {
    close(wave(0.0, -1.0, 1).phase_rad(), 3.0 * FRAC_PI_2, 1e-15);
    close(wave(0.0, -1.0, 2).phase_rad(), 1.5 * FRAC_PI_2, 1e-15);
    assert_eq!(wave(1.0, -1e-30, 1).phase_rad(), 0.0);
    assert_eq!(wave(1.0, -0.0, 1).phase_rad(), 0.0);
}

#[test]
fn the_shape_is_known_best_where_it_was_read() {
    let places = ring(&[0.0, 40.0, 80.0, 120.0], &[1.0, 1.1, 1.0, 0.8], 0.01);
    let fit = harmonic::fit(&places, Terms::Plane).unwrap();
    let (value, near) = fit.at(40_f64.to_radians());
    close(value, 1.1 - fit.residuals()[1], 1e-12);
    assert!(fit.at(240_f64.to_radians()).1 > 5.0 * near);
    assert_eq!(fit.second(), None);
}

/// Angles at least 20° apart, so that five coefficients are well fixed.
fn angles() -> impl Strategy<Value = Vec<f64>> {
    proptest::collection::vec(0.0..1.0_f64, 7..14).prop_map(|parts| {
        let n = parts.len() as f64;
        parts.iter().enumerate().map(|(i, part)| TAU * (i as f64 + 0.4 * part) / n).collect()
    })
}

fn places() -> impl Strategy<Value = Vec<Place>> {
    angles().prop_flat_map(|angles| {
        let n = angles.len();
        let values = proptest::collection::vec(-1.0..1.0_f64, n);
        let spread = proptest::collection::vec(0.01..0.05_f64, n);
        (Just(angles), values, spread).prop_map(|(angles, values, spread)| {
            let rows = angles.into_iter().zip(values).zip(spread);
            rows.map(|((angle_rad, value), standard_uncertainty)| Place {
                angle_rad,
                value,
                standard_uncertainty,
            })
            .collect()
        })
    })
}

fn turned(from: f64, to: f64, period: f64) -> f64 {
    let turn = (to - from).rem_euclid(period);
    turn.min(period - turn)
}

proptest! {
    #[test]
    fn rotating_the_angles_rotates_only_the_phases(places in places(), by in -7.0..7.0_f64) {
        let before = harmonic::fit(&places, Terms::SecondHarmonic).unwrap();
        let rotated: Vec<Place> =
            places.iter().map(|p| Place { angle_rad: p.angle_rad + by, ..*p }).collect();
        let after = harmonic::fit(&rotated, Terms::SecondHarmonic).unwrap();
        prop_assert!((before.mean() - after.mean()).abs() < 1e-12);
        let waves = [
            (before.first(), after.first(), TAU),
            (before.second().unwrap(), after.second().unwrap(), TAU / 2.0),
        ];
        for (old, new, period) in waves {
            prop_assert!((old.amplitude() - new.amplitude()).abs() < 1e-12);
            if old.amplitude() > 1e-3 {
                prop_assert!(turned(old.phase_rad() + by, new.phase_rad(), period) < 1e-9);
            }
            let (old_u, new_u) =
                (old.amplitude_standard_uncertainty(), new.amplitude_standard_uncertainty());
            // At the border of "resolved" rounding may take the other branch.
            let edge = old.amplitude() / old_u;
            if !(1.9..2.1).contains(&edge) {
                prop_assert!((old_u - new_u).abs() < 1e-10);
            }
        }
        for (old, new) in before.residuals().iter().zip(after.residuals()) {
            prop_assert!((old - new).abs() < 1e-12);
        }
    }

    #[test]
    fn a_constant_shifts_only_the_mean(places in places(), by in -100.0..100.0_f64) {
        let before = harmonic::fit(&places, Terms::Plane).unwrap();
        let lifted: Vec<Place> =
            places.iter().map(|p| Place { value: p.value + by, ..*p }).collect();
        let after = harmonic::fit(&lifted, Terms::Plane).unwrap();
        prop_assert!((before.mean() + by - after.mean()).abs() < 1e-12);
        prop_assert!((before.first().cosine - after.first().cosine).abs() < 1e-12);
        prop_assert!((before.first().sine - after.first().sine).abs() < 1e-12);
        prop_assert_eq!(before.covariance(), after.covariance());
    }

    #[test]
    fn leverages_sum_to_the_number_of_coefficients(places in places()) {
        let fit = harmonic::fit(&places, Terms::SecondHarmonic).unwrap();
        let sum: f64 = fit.leverages().iter().sum();
        prop_assert!((sum - 5.0).abs() < 1e-10);
    }

    #[test]
    fn residuals_are_orthogonal_to_the_model(
        x in proptest::collection::vec(-10.0..10.0_f64, 6..20),
        seed in 0_u32..1000,
    ) {
        let y: Vec<f64> = (0..x.len()).map(|i| libm::sin(f64::from(seed) + i as f64)).collect();
        let design = Design::polynomial(&x, 2).unwrap();
        // x may repeat so much that a parabola is not fixed: then it must say so.
        if let Ok(fit) = linear::fit(&design, &y, Weights::Equal) {
            for d in 0..3 {
                let dot: f64 =
                    fit.residuals().iter().zip(&x).map(|(e, x)| e * x.powi(d)).sum();
                prop_assert!(dot.abs() < 1e-9, "{dot}");
            }
        }
    }
}
