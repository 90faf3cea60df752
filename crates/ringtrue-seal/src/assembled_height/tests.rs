use proptest::prelude::*;
use uom::si::angle::degree;
use uom::si::length::millimeter;

use super::*;

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

fn reading(angle_deg: f64, height_mm: f64, round: u32) -> Reading {
    Reading { angle: Angle::new::<degree>(angle_deg), height: mm(height_mm), round }
}

fn input(heights: &[(f64, f64)], limit_mm: f64, u_mm: f64) -> Input {
    Input {
        readings: heights.iter().map(|(angle, height)| reading(*angle, *height, 1)).collect(),
        range_limit: Some(mm(limit_mm)),
        mean_height_limits: None,
        measuring_diameter: Some(mm(240.0)),
        uncertainty: GaugeUncertainty::Stated(mm(u_mm)),
        load_ring: LoadRingKind::Toric,
        levels: Levels::DEFAULT,
        tries: None,
    }
}

fn judge(heights: &[(f64, f64)], limit_mm: f64, u_mm: f64) -> Outcome {
    evaluate(&input(heights, limit_mm, u_mm)).unwrap()
}

fn deeds(outcome: &Outcome) -> Vec<(Deed, Option<f64>)> {
    outcome.actions.iter().map(|action| (action.deed, action.angle_deg)).collect()
}

/// A ring with `tilt` peak to peak, highest at `high_deg`, read at `count` even places.
fn tilted(count: u32, mean: f64, tilt: f64, high_deg: f64) -> Vec<(f64, f64)> {
    (0..count)
        .map(|index| {
            let angle = 360.0 * f64::from(index) / f64::from(count);
            (angle, mean + tilt / 2.0 * (angle - high_deg).to_radians().cos())
        })
        .collect()
}

#[test]
fn plane_through_four_places() {
    // Closed form of least squares, b = (h0 - h180)/2, c = (h90 - h270)/2.
    let heights = [(0.0, 10.42), (90.0, 10.10), (180.0, 9.98), (270.0, 10.30)];
    let outcome = judge(&heights, 1.0, 0.02);
    assert!((outcome.mean_height_mm - 10.2).abs() < 1e-12);
    assert!((outcome.tilt_mm - 0.483_321_838_944).abs() < 1e-10);
    assert!((outcome.high_side_deg - 335.556_045_22).abs() < 1e-7);
    assert!((outcome.range_mm - 0.44).abs() < 1e-12);
    assert!((outcome.mean_height_standard_uncertainty_mm.unwrap() - 0.01).abs() < 1e-12);
    // u of each part is 0.02 sqrt(2/4), and the tilt is twice the amplitude.
    assert!((outcome.tilt_standard_uncertainty_mm.unwrap() - 0.02 * 2f64.sqrt()).abs() < 1e-12);
    // Highest and lowest stand far apart against their uncertainty.
    assert!((outcome.range_standard_uncertainty_mm.unwrap() - 0.02 * 2f64.sqrt()).abs() < 1e-5);
    assert_eq!(outcome.verdict, Verdict::Conforms);
    assert!(outcome.actions.is_empty(), "{:?}", outcome.actions);
    assert!(outcome.second_harmonic_mm.is_none() && outcome.suspects.is_empty());
}

#[test]
fn a_cocked_ring_is_pressed_high_and_lifted_low() {
    let outcome = judge(&tilted(8, 4.0, 1.6, 90.0), 1.0, 0.02);
    assert_eq!(outcome.verdict, Verdict::DoesNotConform);
    let [press, lift, again] = outcome.actions.as_slice() else {
        panic!("{:?}", outcome.actions);
    };
    assert_eq!((press.deed, lift.deed, again.deed), (Deed::Press, Deed::Lift, Deed::MeasureAgain));
    assert!((press.angle_deg.unwrap() - 90.0).abs() < 1e-6);
    assert!((lift.angle_deg.unwrap() - 270.0).abs() < 1e-6);
    assert!((press.amount_mm.unwrap() - 0.8).abs() < 1e-9);
    assert!((lift.amount_mm.unwrap() - 0.8).abs() < 1e-9);
}

#[test]
fn a_range_at_its_limit_is_not_proven_and_is_read_again_at_its_extremes() {
    let outcome = judge(&[(0.0, 4.99), (90.0, 4.5), (180.0, 4.0), (270.0, 4.5)], 1.0, 0.02);
    assert_eq!(outcome.verdict, Verdict::NotProven);
    assert_eq!(
        deeds(&outcome),
        [(Deed::MeasureAgain, Some(0.0)), (Deed::MeasureAgain, Some(180.0))]
    );
}

#[test]
fn a_tilt_that_the_places_missed_is_looked_for_midway() {
    // Four places at 45 deg to the tilt see cos 45 of it: 0.92 mm of 1.30 mm.
    let outcome = judge(&tilted(4, 4.0, 1.3, 45.0), 1.0, 0.01);
    assert_eq!(outcome.verdict, Verdict::Conforms);
    assert!(outcome.tilt_mm > 1.0 && outcome.range_mm < 1.0);
    assert_eq!(
        deeds(&outcome)[..2],
        [(Deed::MeasureAgain, Some(45.0)), (Deed::MeasureAgain, Some(225.0))]
    );
}

#[test]
fn one_place_that_stands_off_is_named_where_it_can_be_told() {
    for count in [5, 6, 7, 8, 12, 24] {
        let mut heights = tilted(count, 4.0, 0.3, 30.0);
        heights[2].1 += 0.4;
        let outcome = judge(&heights, 1.0, 0.02);
        let [suspect] = outcome.suspects.as_slice() else {
            panic!("{count} places: {:?}", outcome.suspects);
        };
        assert!((suspect - heights[2].0).abs() < 1e-6, "{count} places: {suspect}");
    }
    let mut four = tilted(4, 4.0, 0.3, 30.0);
    four[2].1 += 0.4;
    assert!(judge(&four, 1.0, 0.02).suspects.is_empty());
}

#[test]
fn a_saddle_is_no_bulge() {
    let heights: Vec<(f64, f64)> = (0..12)
        .map(|index| {
            let angle = 30.0 * f64::from(index);
            (angle, 4.0 + 0.7 * (2.0 * (angle - 20.0)).to_radians().cos())
        })
        .collect();
    let outcome = judge(&heights, 1.0, 0.02);
    assert!((outcome.second_harmonic_mm.unwrap() - 0.7).abs() < 1e-8);
    let fit = outcome.second_harmonic_fit_mm.unwrap();
    let (sine, cosine) = 40f64.to_radians().sin_cos();
    let wanted = [4.0, 0.0, 0.0, 0.7 * cosine, 0.7 * sine];
    assert!(fit.iter().zip(wanted).all(|(got, want)| (got - want).abs() < 1e-8), "{fit:?}");
    assert!(outcome.suspects.is_empty());
    assert_eq!(outcome.verdict, Verdict::DoesNotConform);
    assert_eq!(deeds(&outcome), [(Deed::TakeOut, None)]);
}

#[test]
fn a_bulge_on_a_saddle_is_still_found() {
    let mut heights: Vec<(f64, f64)> = (0..12)
        .map(|index| {
            let angle = 30.0 * f64::from(index);
            (angle, 4.0 + 0.2 * (2.0 * angle).to_radians().cos())
        })
        .collect();
    heights[5].1 += 0.5;
    assert_eq!(judge(&heights, 2.0, 0.02).suspects, [150.0]);
}

#[test]
fn rounds_are_averaged_and_their_uncertainty_falls() {
    let mut twice = input(&tilted(4, 4.0, 0.2, 0.0), 1.0, 0.03);
    let again: Vec<Reading> = twice
        .readings
        .iter()
        .map(|r| Reading { round: 2, height: r.height + mm(0.01), ..*r })
        .collect();
    twice.readings.extend(again);
    let outcome = evaluate(&twice).unwrap();
    assert!((outcome.mean_height_mm - 4.005).abs() < 1e-12);
    assert!(
        (outcome.places[0].standard_uncertainty_mm.unwrap() - 0.03 / 2f64.sqrt()).abs() < 1e-12
    );
    assert!(!outcome.rounds_disagree);
}

#[test]
fn rounds_that_disagree_say_so_and_widen_the_uncertainty() {
    let mut twice = input(&tilted(4, 4.0, 0.2, 0.0), 1.0, 0.01);
    let again: Vec<Reading> = twice
        .readings
        .iter()
        .enumerate()
        .map(|(index, r)| {
            let off = if index == 1 { 0.3 } else { 0.0 };
            Reading { round: 2, height: r.height + mm(off), ..*r }
        })
        .collect();
    twice.readings.extend(again);
    let outcome = evaluate(&twice).unwrap();
    assert!(outcome.rounds_disagree);
    assert!(outcome.reading_standard_uncertainty_mm.unwrap() > 0.1);
    assert_eq!(deeds(&outcome)[0], (Deed::MeasureAgain, Some(90.0)));
}

#[test]
fn rounds_tell_the_uncertainty_where_nothing_is_stated() {
    let mut unknown = input(&tilted(4, 4.0, 0.2, 0.0), 1.0, 0.0);
    unknown.uncertainty = GaugeUncertainty::Unknown;
    let once = evaluate(&unknown).unwrap();
    assert_eq!(once.uncertainty_basis, UncertaintyBasis::None);
    assert_eq!((once.probability_conforms, once.verdict), (None, Verdict::NotProven));
    assert_eq!(deeds(&once), [(Deed::MeasureAgain, None)]);
    let first = unknown.readings.clone();
    for (round, off) in [(2, 0.01), (3, -0.01)] {
        let later = first.iter().map(|r| Reading { round, height: r.height + mm(off), ..*r });
        unknown.readings.extend(later.collect::<Vec<_>>());
    }
    let thrice = evaluate(&unknown).unwrap();
    assert_eq!(thrice.uncertainty_basis, UncertaintyBasis::Rounds);
    // s = 0.01 with 8 degrees of freedom, t(97.5 %) = 2.306 against 1.960.
    let expected = 0.01 * 2.306_004 / 1.959_964;
    assert!((thrice.reading_standard_uncertainty_mm.unwrap() - expected).abs() < 1e-7);
    assert_eq!(thrice.verdict, Verdict::Conforms);
}

#[test]
fn the_mean_height_carries_the_repeating_part() {
    let mut input = input(&tilted(4, 4.0, 0.1, 0.0), 1.0, 0.0);
    input.uncertainty = GaugeUncertainty::Gauge {
        repeating: mm(0.03),
        non_repeating: mm(0.02),
        resolution: mm(0.01),
    };
    input.mean_height_limits = Some((Some(mm(3.5)), Some(mm(4.5))));
    let outcome = evaluate(&input).unwrap();
    let one = libm::hypot(0.02, 0.01 / 12f64.sqrt());
    assert!((outcome.reading_standard_uncertainty_mm.unwrap() - one).abs() < 1e-12);
    let mean = libm::hypot(one / 2.0, 0.03);
    assert!((outcome.mean_height_standard_uncertainty_mm.unwrap() - mean).abs() < 1e-12);
    assert_eq!(outcome.verdict_mean_height, Some(Verdict::Conforms));
    input.mean_height_limits = Some((None, Some(mm(3.5))));
    let high = evaluate(&input).unwrap();
    assert_eq!(
        (high.verdict_range, high.verdict),
        (Some(Verdict::Conforms), Verdict::DoesNotConform)
    );
    assert_eq!(deeds(&high)[0], (Deed::Press, None));
    assert!((high.actions[0].amount_mm.unwrap() - 0.5).abs() < 1e-9);
}

#[test]
fn the_last_try_ends_in_taking_out() {
    let mut input = input(&tilted(4, 4.0, 3.0, 0.0), 1.0, 0.02);
    input.tries = Some(Tries { this: 3, most: 3 });
    assert_eq!(deeds(&evaluate(&input).unwrap()), [(Deed::TakeOut, None)]);
}

#[test]
fn a_washer_is_seated_again_not_lifted() {
    let mut input = input(&tilted(8, 4.0, 3.0, 0.0), 1.0, 0.02);
    input.load_ring = LoadRingKind::ConicalWasher;
    let outcome = evaluate(&input).unwrap();
    assert!(outcome.actions.iter().all(|action| action.deed != Deed::Lift));
    assert_eq!(deeds(&outcome).last().unwrap().0, Deed::TakeOut);
}

#[test]
fn what_is_no_set_of_heights_is_refused() {
    let refused = |heights: &[(f64, f64)]| evaluate(&input(heights, 1.0, 0.02)).unwrap_err();
    let three = [(0.0, 4.0), (120.0, 4.0), (240.0, 4.0)];
    assert!(refused(&three).to_string().contains("3 places"));
    let hole = [(0.0, 4.0), (60.0, 4.0), (120.0, 4.0), (200.0, 4.0)];
    assert!(refused(&hole).to_string().contains("160 deg from 200 deg"));
    let edge = [(0.0, 4.0), (70.0, 4.0), (140.0, 4.0), (210.0, 4.0)];
    assert!(evaluate(&input(&edge, 1.0, 0.02)).is_ok());
    let twice = [(0.0, 4.0), (90.0, 4.0), (180.0, 4.0), (270.0, 4.0), (360.0, 4.1)];
    assert!(refused(&twice).to_string().contains("0 deg is read twice"));
    let far = [(0.0, 4.0), (90.0, 4.0), (180.0, 4.0), (270.0, 900.0)];
    assert!(refused(&far).to_string().contains("900 mm"));
    let mut unlimited = input(&tilted(4, 4.0, 0.1, 0.0), 1.0, 0.02);
    unlimited.range_limit = None;
    assert!(evaluate(&unlimited).is_err());
}

#[test]
fn an_exact_gauge_makes_a_step_of_the_limit() {
    assert_eq!(judge(&tilted(4, 4.0, 0.5, 0.0), 1.0, 0.0).probability_conforms, Some(1.0));
    assert_eq!(judge(&tilted(4, 4.0, 1.5, 0.0), 1.0, 0.0).verdict, Verdict::DoesNotConform);
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn turning_the_ring_turns_the_high_side_and_nothing_else(
        heights in prop::collection::vec(3.0..5.0f64, 4..12),
        turn in 0.0..360.0f64,
    ) {
        let count = heights.len() as f64;
        let places: Vec<(f64, f64)> =
            heights.iter().enumerate().map(|(i, h)| (i as f64 * 360.0 / count, *h)).collect();
        let turned: Vec<(f64, f64)> = places.iter().map(|(a, h)| (a + turn, *h)).collect();
        let (one, two) = (judge(&places, 1.0, 0.05), judge(&turned, 1.0, 0.05));
        prop_assert!(close(one.mean_height_mm, two.mean_height_mm));
        prop_assert!(close(one.range_mm, two.range_mm) && close(one.tilt_mm, two.tilt_mm));
        prop_assert_eq!(one.verdict, two.verdict);
        let probability = |outcome: &Outcome| outcome.probability_conforms.unwrap();
        prop_assert!((probability(&one) - probability(&two)).abs() < 1e-9);
        if one.tilt_mm > 1e-3 {
            let turned_by = (two.high_side_deg - one.high_side_deg - turn).rem_euclid(360.0);
            prop_assert!(!(1e-5..=360.0 - 1e-5).contains(&turned_by));
        }
    }

    #[test]
    fn lifting_the_ring_shifts_only_the_mean(
        heights in prop::collection::vec(3.0..5.0f64, 4..12),
        lift in -2.0..2.0f64,
    ) {
        let count = heights.len() as f64;
        let places: Vec<(f64, f64)> =
            heights.iter().enumerate().map(|(i, h)| (i as f64 * 360.0 / count, *h)).collect();
        let lifted: Vec<(f64, f64)> = places.iter().map(|(a, h)| (*a, h + lift)).collect();
        let (one, two) = (judge(&places, 1.0, 0.05), judge(&lifted, 1.0, 0.05));
        prop_assert!((two.mean_height_mm - one.mean_height_mm - lift).abs() < 1e-8);
        prop_assert!((one.range_mm - two.range_mm).abs() < 1e-8);
        prop_assert!((one.tilt_mm - two.tilt_mm).abs() < 1e-8);
        prop_assert_eq!(one.verdict, two.verdict);
        prop_assert_eq!(one.suspects, two.suspects);
    }
}
