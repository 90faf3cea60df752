use proptest::prelude::*;

use super::filter::{mean_line, transmission, weight_within};
use super::parameters::evaluate;
use super::settings::{By, Edition, setting};
use super::*;

fn close(got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance, "{got} is not {expected} within {tolerance}");
}

#[test]
fn the_filter_passes_what_the_formula_says() {
    // A sine over many cut-offs, away from the ends, against exp(-π (α λc/λ)²).
    let (step, cut_off) = (0.001, 0.08);
    for ratio in [0.333_333, 0.5, 1.0, 2.0, 5.0] {
        let wavelength = ratio * cut_off;
        let sine: Vec<f64> = (0..4000)
            .map(|i| libm::sin(2.0 * std::f64::consts::PI * f64::from(i) * step / wavelength))
            .collect();
        let mean = mean_line(&sine, step, cut_off).unwrap();
        let kept = mean[500..3500].iter().fold(0.0, |most: f64, z| most.max(z.abs()));
        close(kept, transmission(wavelength, cut_off), 3e-4);
    }
    close(transmission(1.0, 1.0), 0.5, 1e-15);
    close(weight_within(1.0), 0.999_999_905_214, 1e-9);
}

#[test]
fn a_straight_line_is_form_and_not_roughness() {
    let line: Vec<f64> = (0..1000).map(|i| 3.0 + 0.01 * f64::from(i)).collect();
    assert!(level(&line).unwrap().iter().all(|z| z.abs() < 1e-12));
    let flat = evaluate(&[2.5; 100], 5).unwrap();
    assert_eq!((flat.whole.ra, flat.whole.rt, flat.whole.rsk), (0.0, 0.0, None));
}

#[test]
fn what_is_no_profile_is_refused() {
    assert_eq!(level(&[1.0, 2.0]), Err(ProfileError::Points { found: 2, fewest: 3 }));
    assert_eq!(level(&[1.0, f64::NAN, 2.0]), Err(ProfileError::NotUsable { point: 2 }));
    let profile = [0.0; 100];
    assert_eq!(mean_line(&profile, 0.0, 1.0), Err(ProfileError::Length));
    assert!(matches!(mean_line(&profile, 1.0, 3.0), Err(ProfileError::Coarse { .. })));
    assert!(evaluate(&[0.0; 9], 5).is_err());
    assert!(level(&vec![0.0; MOST_POINTS + 1]).is_err());
}

#[test]
fn limits_belong_to_the_lower_row() {
    let cut_off = |by| setting(Edition::Iso4287, by).cut_off_mm;
    assert_eq!((cut_off(By::Ra(0.1)), cut_off(By::Ra(0.100_1))), (0.25, 0.8));
    assert_eq!((cut_off(By::Rz(0.5)), cut_off(By::Rz(0.6))), (0.25, 0.8));
    assert_eq!(setting(Edition::Iso21920, By::Rz(0.6)).cut_off_mm, 0.25);
    assert_eq!(cut_off(By::Spacing(0.2)), 0.8);
    assert!(!setting(Edition::Iso4287, By::Ra(0.003)).within_table);
    assert!(!setting(Edition::Iso4287, By::Ra(f64::NAN)).within_table);
}

fn roughness(heights: &[f64]) -> parameters::Evaluated {
    let level = level(heights).unwrap();
    let mean = mean_line(&level, 1.0, 40.0).unwrap();
    let rough: Vec<f64> = level.iter().zip(&mean).map(|(z, w)| z - w).collect();
    evaluate(&rough[20..rough.len() - 20], 5).unwrap()
}

proptest! {
    #[test]
    fn a_constant_or_a_slope_changes_nothing(
        heights in prop::collection::vec(-1.0_f64..1.0, 250),
        constant in -100.0_f64..100.0,
        slope in -0.1_f64..0.1,
    ) {
        let shifted: Vec<f64> = heights
            .iter()
            .enumerate()
            .map(|(i, z)| z + constant + slope * i as f64)
            .collect();
        let (one, other) = (roughness(&heights).whole, roughness(&shifted).whole);
        prop_assert!((one.ra - other.ra).abs() < 1e-11 && (one.rt - other.rt).abs() < 1e-11);
        prop_assert!((one.rsk.unwrap() - other.rsk.unwrap()).abs() < 1e-9);
    }

    #[test]
    fn scaling_scales_heights_and_leaves_shape(
        heights in prop::collection::vec(-1.0_f64..1.0, 250),
        factor in 1e-3_f64..1e3,
    ) {
        let scaled: Vec<f64> = heights.iter().map(|z| z * factor).collect();
        let mirrored: Vec<f64> = heights.iter().map(|z| -z).collect();
        let [one, other, under] =
            [&heights, &scaled, &mirrored].map(|profile| roughness(profile).whole);
        prop_assert!((other.ra / factor - one.ra).abs() < 1e-12);
        prop_assert!((other.rq / factor - one.rq).abs() < 1e-12);
        prop_assert!((other.rsk.unwrap() - one.rsk.unwrap()).abs() < 1e-9);
        prop_assert!((under.rsk.unwrap() + one.rsk.unwrap()).abs() < 1e-9);
        prop_assert!(one.ra <= one.rq && one.rq <= one.rt && one.rku.unwrap() >= 1.0);
    }
}
