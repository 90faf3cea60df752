//! The pull-down order and the gap round a joint.

use proptest::prelude::*;
use ringtrue_metrology::conformity::{Levels, Verdict};
use ringtrue_metrology::units::{Angle, Length};
use uom::si::angle::degree;
use uom::si::length::millimeter;

use super::order::pull_down_order;
use super::*;

fn length(mm: f64) -> Length {
    Length::new::<millimeter>(mm)
}

fn round(places: &[(f64, f64)]) -> Vec<Reading> {
    let reading =
        |(at, gap): &(f64, f64)| Reading { angle: Angle::new::<degree>(*at), gap: length(*gap) };
    places.iter().map(reading).collect()
}

fn closed(places: &[(f64, f64)]) -> Input {
    Input {
        readings: round(places),
        gap_limits: (Some(length(2.1)), Some(length(3.1))),
        diameter: Some(length(300.0)),
        uncertainty: FeelerUncertainty::Stated(length(0.02)),
        bolts: None,
        steps: STEPS,
        load: None,
        levels: Levels::DEFAULT,
    }
}

/// A straight curve: 2 N/mm less for each millimetre more, first touch at 4.6 mm.
fn load() -> Load {
    let point = |gap_mm: f64| {
        let face_load_n_per_mm = 2.0 * (4.6 - gap_mm);
        GapPoint {
            gap_mm,
            face_load_n_per_mm,
            error_band_n_per_mm: None,
            standard_uncertainty_n_per_mm: 0.25 * face_load_n_per_mm,
            force_n: 800.0 * face_load_n_per_mm,
        }
    };
    Load {
        curve: [4.6, 4.0, 3.0, 2.5, 2.0].map(point).to_vec(),
        relative_uncertainty: Some(0.06),
        nominal_gap_mm: Some(2.6),
    }
}

#[test]
fn a_tilted_gap_by_hand() {
    let mut input = closed(&[(0.0, 2.70), (90.0, 2.60), (180.0, 2.50), (270.0, 2.60)]);
    input.load = Some(load());
    let outcome = evaluate(&input).unwrap();
    let gap = outcome.gap.unwrap();
    assert!((gap.mean_mm - 2.6).abs() < 1e-9 && (gap.out_of_parallel_mm - 0.2).abs() < 1e-9);
    assert!((gap.tilt_mrad.unwrap() - 0.2 / 0.3).abs() < 1e-9);
    assert!(gap.widest.angle_deg.abs() < 1e-6 && (gap.narrowest.angle_deg - 180.0).abs() < 1e-6);
    // u of the mean of four is half of one; of an amplitude 1/sqrt 2, and there are two of it.
    assert!((gap.mean_standard_uncertainty_mm.unwrap() - 0.01).abs() < 1e-9);
    let u = gap.out_of_parallel_standard_uncertainty_mm.unwrap();
    assert!((u - 2.0 * 0.02 / 2f64.sqrt()).abs() < 1e-9, "{u}");
    assert!((gap.widest.face_load_n_per_mm.unwrap() - 3.8).abs() < 1e-9);
    assert!((gap.narrowest.face_load_n_per_mm.unwrap() - 4.2).abs() < 1e-9);
    // u of the extreme: sqrt(1/4 + 1/2) of one; 2 N/mm a mm, and 6 % of 3.8 N/mm.
    let expected = (2.0 * 0.02 * 0.75f64.sqrt()).hypot(0.06 * 3.8);
    let u = gap.widest.face_load_standard_uncertainty_n_per_mm.unwrap();
    assert!((u - expected).abs() < 1e-9, "{u} {expected}");
    assert_eq!(outcome.verdict, Verdict::Conforms);
    assert!(outcome.actions.is_empty(), "{:?}", outcome.actions);
}

#[test]
fn the_worst_place_decides() {
    let tilted = closed(&[(0.0, 3.3), (90.0, 2.6), (180.0, 1.9), (270.0, 2.6)]);
    let outcome = evaluate(&tilted).unwrap();
    assert_eq!(outcome.verdict, Verdict::DoesNotConform);
    assert!(outcome.actions[0].contains("at 0 deg first"), "{:?}", outcome.actions);
    let wide = closed(&[(0.0, 3.3), (120.0, 3.31), (240.0, 3.3)]);
    assert!(evaluate(&wide).unwrap().actions[0].starts_with("Do not run it"));
    // A plane would hide the one place.
    let mut places: Vec<(f64, f64)> = (0..8).map(|i| (45.0 * f64::from(i), 3.0)).collect();
    places[3].1 = 3.3;
    let hidden = evaluate(&closed(&places)).unwrap();
    assert!(hidden.gap.as_ref().unwrap().widest.gap_mm < 3.15);
    assert_eq!(hidden.verdict, Verdict::DoesNotConform);
    assert!(hidden.gap.unwrap().places[3].stands_off);
    let mut unknown = closed(&[(0.0, 2.6), (120.0, 2.6), (240.0, 2.6)]);
    unknown.uncertainty = FeelerUncertainty::Unknown;
    assert_eq!(evaluate(&unknown).unwrap().verdict, Verdict::NotProven);
    let mut unlimited = closed(&[(0.0, 2.6), (120.0, 2.6), (240.0, 2.6)]);
    unlimited.gap_limits = (None, None);
    assert_eq!(evaluate(&unlimited).unwrap().verdict, Verdict::NotProven);
}

#[test]
fn bolts_go_down_in_equal_steps_to_the_nominal_gap() {
    let mut input = closed(&[]);
    input.bolts = Some(8);
    input.load = Some(load());
    let outcome = evaluate(&input).unwrap();
    let pull = outcome.pull_down.unwrap();
    assert_eq!(pull.order, [1, 5, 3, 7, 2, 6, 4, 8]);
    let gaps: Vec<f64> = pull.steps.iter().map(|step| step.gap_mm.unwrap()).collect();
    for (gap, expected) in gaps.iter().zip([4.1, 3.6, 3.1, 2.6]) {
        assert!((gap - expected).abs() < 1e-9, "{gaps:?}");
    }
    let last = pull.steps[3];
    assert!((last.force_n.unwrap() - 3200.0).abs() < 1e-6, "{last:?}");
    assert!((last.force_per_bolt_n.unwrap() - 400.0).abs() < 1e-6);
    assert!((last.share_percent - 100.0).abs() < 1e-12);
    assert_eq!((outcome.verdict, outcome.gap), (Verdict::NotProven, None));
}

#[test]
fn what_nobody_reads_or_has_is_refused() {
    let good = [(0.0, 2.6), (120.0, 2.6), (240.0, 2.6)];
    let refused = |input: Input, wanted: &str| {
        let RoomError::Input { found, .. } = evaluate(&input).unwrap_err();
        assert!(found.contains(wanted), "{found}");
    };
    refused(closed(&[]), "nothing is asked");
    refused(closed(&good[..2]), "2 places");
    refused(closed(&[(0.0, 2.6), (360.0, 2.6), (90.0, 2.6)]), "read twice");
    refused(closed(&[(0.0, -0.1), (120.0, 2.6), (240.0, 2.6)]), "a gap of");
    refused(closed(&[(0.0, 201.0), (120.0, 2.6), (240.0, 2.6)]), "a gap of");
    refused(Input { bolts: Some(1), ..closed(&good) }, "1 bolts");
    refused(Input { bolts: Some(121), ..closed(&good) }, "121 bolts");
    refused(Input { steps: 0, ..closed(&good) }, "0 steps");
    refused(Input { diameter: Some(length(0.0)), ..closed(&good) }, "0 mm");
    let crossed = (Some(length(3.0)), Some(length(2.0)));
    refused(Input { gap_limits: crossed, ..closed(&good) }, "gap limits");
    let below = FeelerUncertainty::Stated(length(-0.01));
    refused(Input { uncertainty: below, ..closed(&good) }, "below zero");
}

#[test]
fn a_curve_is_read_between_its_points_and_not_beyond() {
    let load = load();
    assert_eq!(load.at(5.0), Some((0.0, 0.0)));
    assert_eq!(load.at(1.99), None);
    let (face, force) = load.at(2.75).unwrap();
    assert!((face - 3.7).abs() < 1e-12 && (force - 2960.0).abs() < 1e-9);
    let bare = Load { curve: Vec::new(), ..load };
    assert_eq!(bare.at(2.6), None);
}

proptest! {
    #[test]
    fn every_bolt_comes_once_and_opposite_ones_follow(bolts in 2_u32..=MOST_BOLTS) {
        let order = pull_down_order(bolts);
        let mut sorted = order.clone();
        sorted.sort_unstable();
        prop_assert_eq!(sorted, (1..=bolts).collect::<Vec<_>>());
        prop_assert_eq!(order[0], 1);
        if bolts.is_multiple_of(2) {
            for pair in order.chunks(2) {
                prop_assert_eq!(pair[0].abs_diff(pair[1]), bolts / 2);
            }
        }
    }

    #[test]
    fn turning_the_marks_turns_the_direction_alone(
        left in prop::collection::vec(-0.2_f64..0.2, 6),
        turn in 0.0_f64..360.0,
    ) {
        let at = |by: f64| {
            let places: Vec<(f64, f64)> = left
                .iter()
                .enumerate()
                .map(|(i, off)| (60.0 * i as f64 + by, 2.6 + off))
                .collect();
            evaluate(&closed(&places)).unwrap().gap.unwrap()
        };
        let (one, other) = (at(0.0), at(turn));
        prop_assert!((one.mean_mm - other.mean_mm).abs() < 1e-7);
        prop_assert!((one.out_of_parallel_mm - other.out_of_parallel_mm).abs() < 1e-7);
        if one.out_of_parallel_mm > 1e-3 {
            let turned = (other.widest.angle_deg - one.widest.angle_deg - turn).rem_euclid(360.0);
            prop_assert!(turned.min(360.0 - turned) < 1e-3, "{turned}");
        }
    }

    #[test]
    fn units_in_are_units_out(gaps in prop::collection::vec(2.2_f64..3.0, 4)) {
        use ringtrue_metrology::units::parse;
        let with = |unit: &str, per_mm: f64| {
            let mut input = closed(&[(0.0, 2.6), (90.0, 2.6), (180.0, 2.6), (270.0, 2.6)]);
            for (reading, gap) in input.readings.iter_mut().zip(&gaps) {
                reading.gap = parse(&format!("{} {unit}", gap * per_mm)).unwrap();
            }
            evaluate(&input).unwrap().gap.unwrap()
        };
        let (mm, inch) = (with("mm", 1.0), with("in", 1.0 / 25.4));
        prop_assert!((mm.mean_mm - inch.mean_mm).abs() < 1e-7);
        prop_assert!((mm.out_of_parallel_mm - inch.out_of_parallel_mm).abs() < 1e-7);
    }

    #[test]
    fn a_worse_gauge_never_shrinks_an_uncertainty(
        gaps in prop::collection::vec(2.2_f64..3.0, 4..9),
        u in 0.001_f64..0.05,
        worse in 1.0_f64..5.0,
    ) {
        let places: Vec<(f64, f64)> = gaps
            .iter()
            .enumerate()
            .map(|(i, gap)| (360.0 * i as f64 / gaps.len() as f64, *gap))
            .collect();
        let with = |u: f64| {
            let mut input = closed(&places);
            input.load = Some(load());
            input.uncertainty = FeelerUncertainty::Stated(length(u));
            evaluate(&input).unwrap().gap.unwrap()
        };
        let (one, other) = (with(u), with(u * worse));
        let less = |a: Option<f64>, b: Option<f64>| a.unwrap() <= b.unwrap() + 1e-9;
        prop_assert!(less(one.mean_standard_uncertainty_mm, other.mean_standard_uncertainty_mm));
        let (one, other) = (one.widest, other.widest);
        prop_assert!(less(one.standard_uncertainty_mm, other.standard_uncertainty_mm));
    }

    #[test]
    fn a_narrower_gap_carries_more(gap in 2.2_f64..3.8, by in 0.01_f64..0.2) {
        let carried = |mm: f64| {
            let places = [0.0, 90.0, 180.0, 270.0].map(|at| (at, mm));
            let input = Input { load: Some(load()), ..closed(&places) };
            evaluate(&input).unwrap().gap.unwrap().narrowest.face_load_n_per_mm.unwrap()
        };
        prop_assert!(carried(gap - by) > carried(gap));
    }
}
