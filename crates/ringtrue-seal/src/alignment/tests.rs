use proptest::prelude::*;
use ringtrue_metrology::units::parse;
use uom::si::angle::degree;
use uom::si::length::millimeter;

use super::*;
use crate::definition::seal::Seal;
use crate::definition::{Kind, read, starter};

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

fn deg(value: f64) -> Angle {
    Angle::new::<degree>(value)
}

fn input(readings: Vec<Reading>) -> Input {
    Input {
        readings,
        sense: IndicatorSense::InCountsUp,
        sag: None,
        face_diameter: Some(mm(240.0)),
        eccentricity_limit: Some(mm(0.5)),
        tip_limit: Some(deg(0.5)),
        geometry: None,
        uncertainty: IndicatorUncertainty::Stated(mm(0.005)),
        moves: None,
        levels: Levels::DEFAULT,
    }
}

fn sweep(half: Half, surface: Surface, n: u32, value: impl Fn(f64) -> f64) -> Vec<Reading> {
    (0..n)
        .map(|i| {
            let angle = 360.0 * f64::from(i) / f64::from(n);
            Reading {
                half,
                surface,
                angle: deg(angle),
                value: mm(value(angle.to_radians())),
                sag: None,
                diameter: None,
            }
        })
        .collect()
}

fn wave(amplitude: f64, towards: f64) -> impl Fn(f64) -> f64 {
    move |theta| amplitude * libm::cos(theta - towards.to_radians())
}

fn near(got: Option<f64>, expected: f64) {
    let got = got.expect("a number");
    assert!((got - expected).abs() < 1e-6, "{got} is not {expected}");
}

#[test]
fn rim_and_face_give_offset_and_angle_with_direction() {
    let mut readings = sweep(Half::B, Surface::Rim, 8, wave(0.15, 30.0));
    readings.extend(sweep(Half::B, Surface::Face, 8, wave(0.09, 200.0)));
    let outcome = evaluate(&input(readings)).unwrap();
    near(outcome.eccentricity_mm, 0.15);
    near(outcome.eccentricity_direction_deg, 30.0);
    near(outcome.coaxiality_zone_mm, 0.3);
    near(outcome.angle_mrad, 0.75);
    near(outcome.angle_direction_deg, 200.0);
    assert!(outcome.out_of_round_mm.unwrap() < 1e-9);
    assert_eq!(outcome.tip_limit_deg, None);
    assert_eq!(outcome.verdict, Verdict::Conforms);
    assert!(outcome.actions.is_empty(), "{:?}", outcome.actions);
}

#[test]
fn a_bore_and_an_outward_indicator_turn_the_sign_twice() {
    let mut bore = input(sweep(Half::B, Surface::Bore, 8, wave(-0.15, 30.0)));
    bore.tip_limit = None;
    near(evaluate(&bore).unwrap().eccentricity_direction_deg, 30.0);
    bore.sense = IndicatorSense::OutCountsUp;
    near(evaluate(&bore).unwrap().eccentricity_direction_deg, 210.0);
}

#[test]
fn sag_is_taken_off_and_cancels_between_two_housings() {
    let sagging = |theta: f64| wave(0.1, 90.0)(theta) - 0.06 * (1.0 - libm::cos(theta)) / 2.0;
    let mut one = input(sweep(Half::B, Surface::Rim, 8, sagging));
    one.sag = Some(Sag { at_bottom: mm(-0.06), top: deg(0.0) });
    let outcome = evaluate(&one).unwrap();
    near(outcome.eccentricity_mm, 0.1);
    near(outcome.eccentricity_direction_deg, 90.0);
    let mut both = sweep(Half::B, Surface::Rim, 8, sagging);
    both.extend(sweep(Half::A, Surface::Rim, 8, |t| -0.06 * (1.0 - libm::cos(t)) / 2.0));
    let outcome = evaluate(&input(both)).unwrap();
    near(outcome.eccentricity_mm, 0.1);
    assert_eq!(outcome.relative_to, Reference::OtherHalf);
    // Read on the pipe at each angle, the same.
    let mut read = sweep(Half::B, Surface::Rim, 8, sagging);
    for reading in &mut read {
        let theta = reading.angle.si();
        reading.sag = Some(mm(-0.06 * (1.0 - libm::cos(theta)) / 2.0));
    }
    near(evaluate(&input(read.clone())).unwrap().eccentricity_mm, 0.1);
    let mut twice = input(read);
    twice.sag = one.sag;
    assert!(evaluate(&twice).unwrap_err().to_string().contains("twice"));
}

#[test]
fn faces_that_close_the_gap_add_up() {
    let mut readings = sweep(Half::A, Surface::Face, 8, wave(0.09, 0.0));
    readings.extend(sweep(Half::B, Surface::Face, 8, wave(0.09, 180.0)));
    // Both faces lean the same way: they are parallel.
    assert!(evaluate(&input(readings.clone())).unwrap().angle_mrad.unwrap() < 1e-9);
    for reading in &mut readings {
        reading.half = Half::A;
    }
    assert!(evaluate(&input(readings)).is_ok());
}

#[test]
fn out_of_round_is_told_from_eccentricity() {
    let lobes = |theta: f64| wave(0.1, 45.0)(theta) + 0.04 * libm::cos(2.0 * theta);
    let outcome = evaluate(&input(sweep(Half::B, Surface::Rim, 12, lobes))).unwrap();
    near(outcome.eccentricity_mm, 0.1);
    near(outcome.out_of_round_mm, 0.08);
    assert!(outcome.sweeps[0].out_of_form);
    near(outcome.sweeps[0].second_mm, 0.04);
    let told = outcome.actions.iter().any(|action| action.deed == Deed::LookAtSurface);
    assert!(told, "{:?}", outcome.actions);
}

#[test]
fn what_to_move_and_how_far() {
    let mut readings = sweep(Half::B, Surface::Rim, 8, wave(0.8, 30.0));
    readings.extend(sweep(Half::B, Surface::Face, 8, wave(2.4, 100.0)));
    let mut asked = input(readings);
    let outcome = evaluate(&asked).unwrap();
    assert_eq!(outcome.verdict, Verdict::DoesNotConform);
    let deeds: Vec<Deed> = outcome.actions.iter().map(|action| action.deed).collect();
    assert_eq!(deeds, [Deed::OpenGap, Deed::Move, Deed::MeasureAgain]);
    near(outcome.actions[0].angle_deg, 100.0);
    near(outcome.actions[0].amount_mm, 4.8);
    near(outcome.actions[1].angle_deg, 210.0);
    near(outcome.actions[1].amount_mm, 0.8);
    asked.moves = Some(Half::A);
    near(evaluate(&asked).unwrap().actions[1].angle_deg, 30.0);
}

#[test]
fn nothing_to_judge_by_is_not_proven() {
    let mut asked = input(sweep(Half::B, Surface::Rim, 8, wave(0.1, 0.0)));
    (asked.eccentricity_limit, asked.tip_limit) = (None, None);
    let outcome = evaluate(&asked).unwrap();
    assert_eq!(outcome.verdict, Verdict::NotProven);
    assert!(outcome.actions[0].why.contains("nothing to judge by"));
    asked.eccentricity_limit = Some(mm(0.5));
    asked.tip_limit = Some(deg(0.5));
    let outcome = evaluate(&asked).unwrap();
    assert_eq!(outcome.verdict_angle, Some(Verdict::NotProven));
    assert_eq!(outcome.verdict_eccentricity, Some(Verdict::Conforms));
}

#[test]
fn an_unknown_indicator_is_known_by_what_is_left() {
    let mut asked = input(sweep(Half::B, Surface::Rim, 4, wave(0.1, 0.0)));
    (asked.uncertainty, asked.tip_limit) = (IndicatorUncertainty::Unknown, None);
    assert_eq!(evaluate(&asked).unwrap().uncertainty_basis, UncertaintyBasis::None);
    let rough = |t: f64| wave(0.1, 0.0)(t) + 0.01 * libm::cos(5.0 * t);
    asked.readings = sweep(Half::B, Surface::Rim, 16, rough);
    let outcome = evaluate(&asked).unwrap();
    assert_eq!(outcome.uncertainty_basis, UncertaintyBasis::Residuals);
    assert_eq!(outcome.verdict, Verdict::Conforms);
}

#[test]
fn a_sweep_that_does_not_come_back_is_named() {
    let mut readings = sweep(Half::B, Surface::Rim, 8, wave(0.1, 0.0));
    let mut closing = readings[0];
    closing.angle = deg(360.0);
    closing.value = mm(0.16);
    readings.push(closing);
    let outcome = evaluate(&input(readings)).unwrap();
    assert_eq!(outcome.sweeps[0].not_repeating_deg, [0.0]);
}

#[test]
fn what_can_not_be_is_refused() {
    let refused = |asked: Input, said: &str| {
        let error = evaluate(&asked).unwrap_err().to_string();
        assert!(error.contains(said), "{error}");
    };
    refused(input(vec![]), "no reading");
    refused(input(sweep(Half::B, Surface::Rim, 3, |_| 0.0)), "3 places");
    refused(input(sweep(Half::B, Surface::Rim, 8, |_| 300.0)), "300 mm");
    let mut hole = sweep(Half::B, Surface::Rim, 12, |_| 0.0);
    hole.truncate(6);
    refused(input(hole), "210 deg");
    let mut both = sweep(Half::B, Surface::Rim, 8, |_| 0.0);
    both.extend(sweep(Half::B, Surface::Bore, 8, |_| 0.0));
    refused(input(both), "rim and bore");
    let mut unlike = sweep(Half::B, Surface::Rim, 8, |_| 0.0);
    unlike.extend(sweep(Half::A, Surface::Face, 8, |_| 0.0));
    refused(input(unlike), "rim or bore of one half");
    let mut bare = input(sweep(Half::B, Surface::Face, 8, |_| 0.0));
    bare.face_diameter = None;
    refused(bare, "no stated diameter");
    let mut below = input(sweep(Half::B, Surface::Rim, 8, |_| 0.0));
    below.eccentricity_limit = Some(mm(-1.0));
    refused(below, "eccentricity limit");
}

fn shipped_seal() -> Seal {
    read(starter(Kind::Seal)).unwrap()
}

#[test]
fn the_tip_of_the_starter_seal_by_hand() {
    let mut seal = shipped_seal();
    // The file's outside diameter of 280 mm.
    let stated = tip_limits(&TipGeometry::of_seal(&seal, None).unwrap()).unwrap();
    near(stated.edge_deg, libm::asin(2.0 / 140.0).to_degrees());
    assert_eq!(stated.edge_basis, EdgeBasis::Stated);
    seal.housing.face_outer_diameter = None;
    let tips = tip_limits(&TipGeometry::of_seal(&seal, None).unwrap()).unwrap();
    // Edge: 2 mm over the lip's radius of 118.75 mm.
    near(tips.edge_deg, libm::asin(2.0 / 118.75).to_degrees());
    assert_eq!(tips.edge_basis, EdgeBasis::InnermostEdge);
    let free = crate::geometry::free_height(&seal).unwrap().si() * 1e3;
    let touch = crate::geometry::first_touch_from_housing_face(&seal).unwrap().si() * 1e3;
    let radius = 119.45 - (touch - 11.0) * libm::tan(15f64.to_radians());
    let lift = libm::asin((2.0 * free - 3.2) / radius).to_degrees();
    assert!((tips.lift_deg - lift).abs() < 1e-9);
    near(Some(tips.smallest_deg), tips.edge_deg.unwrap());
    let wide: Length = parse("320 mm").unwrap();
    let wider = tip_limits(&TipGeometry::of_seal(&seal, Some(wide)).unwrap()).unwrap();
    near(wider.edge_deg, libm::asin(2.0 / 160.0).to_degrees());
    assert_eq!(wider.edge_basis, EdgeBasis::Stated);
}

#[test]
fn a_joint_that_is_loose_when_closed_may_not_be_tipped_at_all() {
    let half = TipHalf {
        free_height: mm(1.0),
        touch_radius: mm(100.0),
        touch_and_depth: Some((mm(8.0), mm(24.0))),
    };
    let sizes = TipGeometry {
        closed_gap: (mm(2.5), mm(3.0)),
        halves: [half; 2],
        edge_radius: None,
        edge_basis: EdgeBasis::InnermostEdge,
    };
    let tips = tip_limits(&sizes).unwrap();
    assert_eq!((tips.lift_deg, tips.smallest_deg, tips.edge_deg), (0.0, 0.0, None));
    let mut wrong = sizes;
    wrong.closed_gap = (mm(3.0), mm(2.0));
    assert!(tip_limits(&wrong).is_err());
}

proptest! {
    #[test]
    fn turning_the_marks_turns_directions_alone(
        offsets in prop::collection::vec(-0.3_f64..0.3, 9),
        turn in 0.0_f64..360.0,
    ) {
        let at = |by: f64| {
            let mut readings = sweep(Half::B, Surface::Rim, 9, |_| 0.0);
            for (reading, value) in readings.iter_mut().zip(&offsets) {
                reading.value = mm(*value);
                reading.angle = deg(reading.angle.get::<degree>() + by);
            }
            evaluate(&input(readings)).unwrap()
        };
        let (one, other) = (at(0.0), at(turn));
        let close = |a: Option<f64>, b: Option<f64>| (a.unwrap() - b.unwrap()).abs() < 1e-7;
        prop_assert!(close(one.eccentricity_mm, other.eccentricity_mm));
        prop_assert!(close(one.out_of_round_mm, other.out_of_round_mm));
        prop_assert!(close(
            one.probability_eccentricity_conforms,
            other.probability_eccentricity_conforms
        ));
        if one.eccentricity_mm.unwrap() > 1e-3 {
            let by = other.eccentricity_direction_deg.unwrap()
                - one.eccentricity_direction_deg.unwrap()
                - turn;
            let off = libm::remainder(by, 360.0);
            prop_assert!(off.abs() < 1e-5, "{off}");
        }
    }

    #[test]
    fn a_worse_indicator_never_knows_more(u in 0.0_f64..0.1, more in 1.0_f64..4.0) {
        let with = |u: f64| {
            let mut asked = input(sweep(Half::B, Surface::Rim, 8, wave(0.2, 10.0)));
            asked.uncertainty = IndicatorUncertainty::Stated(mm(u));
            evaluate(&asked).unwrap().eccentricity_standard_uncertainty_mm.unwrap()
        };
        prop_assert!(with(u) <= with(u * more) + 1e-12);
    }

    #[test]
    fn scaling_scales(factor in 0.1_f64..10.0) {
        let with = |k: f64| {
            let mut readings = sweep(Half::B, Surface::Rim, 8, |t| k * wave(0.2, 10.0)(t));
            readings.extend(sweep(Half::B, Surface::Face, 8, |t| k * wave(0.1, 77.0)(t)));
            evaluate(&input(readings)).unwrap()
        };
        let (one, other) = (with(1.0), with(factor));
        let ratio = |a: Option<f64>, b: Option<f64>| b.unwrap() / a.unwrap();
        prop_assert!((ratio(one.eccentricity_mm, other.eccentricity_mm) - factor).abs() < 1e-5);
        prop_assert!((ratio(one.angle_mrad, other.angle_mrad) - factor).abs() < 1e-5);
    }

    #[test]
    fn units_in_are_units_out(offset in 0.01_f64..1.0, tilt in 0.01_f64..1.0) {
        let with = |unit: &str, per_mm: f64| {
            let mut readings = sweep(Half::B, Surface::Rim, 8, wave(offset, 10.0));
            readings.extend(sweep(Half::B, Surface::Face, 8, wave(tilt, 77.0)));
            let typed = |mm: f64| parse(&format!("{} {unit}", mm * per_mm)).unwrap();
            for reading in &mut readings {
                reading.value = typed(reading.value.get::<millimeter>());
            }
            let uncertainty = IndicatorUncertainty::Stated(typed(0.005));
            evaluate(&Input { uncertainty, ..input(readings) }).unwrap()
        };
        let (metric, inch) = (with("mm", 1.0), with("in", 1.0 / 25.4));
        let same = |of: fn(&Outcome) -> Option<f64>| {
            (of(&metric).unwrap() - of(&inch).unwrap()).abs() < 1e-9
        };
        prop_assert!(same(|it| it.eccentricity_mm));
        prop_assert!(same(|it| it.eccentricity_standard_uncertainty_mm));
        prop_assert!(same(|it| it.angle_mrad));
    }
}
