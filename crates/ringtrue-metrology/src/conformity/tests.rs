use proptest::prelude::*;

use super::range::{Place, judge_range, pair_exceeds};
use super::*;

#[test]
fn verdicts_are_ordered_from_best_to_worst() {
    assert_eq!(Verdict::Conforms.max(Verdict::NotProven), Verdict::NotProven);
    assert_eq!(Verdict::NotProven.max(Verdict::DoesNotConform), Verdict::DoesNotConform);
}

#[test]
fn a_level_itself_decides() {
    let levels = Levels::DEFAULT;
    assert_eq!(levels.verdict(0.975), Verdict::Conforms);
    assert_eq!(levels.verdict(0.025), Verdict::DoesNotConform);
    assert_eq!(levels.verdict(0.5), Verdict::NotProven);
    assert!(Levels::new(0.5, 0.5).is_none() && Levels::new(f64::NAN, 0.1).is_none());
}

#[test]
fn an_unusable_value_proves_nothing() {
    let limits = Limits::at_most(1.0).unwrap();
    for (y, u) in [(f64::NAN, 0.1), (0.5, f64::NAN), (0.5, -0.1), (f64::INFINITY, 0.1)] {
        assert!(probability_within(y, u, limits).is_nan());
        assert_eq!(judge(y, u, limits, Levels::DEFAULT).verdict, Verdict::NotProven);
    }
}

#[test]
fn limits_are_at_least_one_and_in_order() {
    assert!(Limits::new(None, None).is_none());
    assert!(Limits::new(Some(2.0), Some(1.0)).is_none());
    assert!(Limits::new(Some(f64::NAN), None).is_none());
    assert!(Limits::new(None, Some(f64::INFINITY)).is_none());
    let point = Limits::new(Some(1.0), Some(1.0)).unwrap();
    assert!(point.contain(1.0) && !point.contain(1.1));
    assert!(Limits::at_least(1.0).unwrap().contain(1e300));
}

#[test]
fn an_exact_value_is_inside_or_not() {
    let limits = Limits::new(Some(1.0), Some(2.0)).unwrap();
    for (y, p) in [(1.0, 1.0), (2.0, 1.0), (0.999, 0.0), (2.001, 0.0)] {
        assert_eq!(probability_within(y, 0.0, limits), p);
    }
}

#[test]
fn small_probabilities_keep_their_digits() {
    // Φ(−20) = 2.753 624 118 606 233 7e-89: 20-digit evaluation of erfc with mpmath.
    let far = probability_within(0.0, 1.0, Limits::new(Some(20.0), Some(30.0)).unwrap());
    assert!((far / 2.753_624_118_606_233_7e-89 - 1.0).abs() < 1e-12);
    let below = probability_within(0.0, 1.0, Limits::new(Some(-30.0), Some(-20.0)).unwrap());
    assert!((below / far - 1.0).abs() < 1e-12);
}

#[test]
fn a_value_at_a_decision_limit_has_the_level_as_its_probability() {
    let levels = Levels::DEFAULT;
    let upper = decision_limits_upper(1.0, 0.05, levels);
    let at = |y| probability_within(y, 0.05, Limits::at_most(1.0).unwrap());
    assert!((at(upper.acceptance) - 0.975).abs() < 1e-14);
    assert!((at(upper.rejection) - 0.025).abs() < 1e-14);
    assert_eq!(guard_band(0.0, 0.975), 0.0);
}

fn places(list: &[(f64, f64)]) -> Vec<Place> {
    list.iter().map(|&(value, u)| Place { value, standard_uncertainty: u }).collect()
}

#[test]
fn the_pair_is_named_by_position() {
    let ring = places(&[(0.2, 0.02), (1.4, 0.02), (0.9, 0.02), (0.1, 0.02)]);
    let pair = pair_exceeds(&ring, 1.0, 0.975).unwrap().unwrap();
    assert_eq!((pair.low, pair.high), (3, 1));
    assert!((pair.difference - 1.3).abs() < 1e-15);
    // Six pairs: k = Φ⁻¹(1 − 0.025/6) = 2.638.
    assert!((pair.lower_bound - (1.3 - 2.638_257_2 * 0.02 * 2.0_f64.sqrt())).abs() < 1e-8);
    assert_eq!(pair_exceeds(&ring, 1.25, 0.975).unwrap(), None);
}

#[test]
fn the_clearest_pair_counts_not_the_widest() {
    let ring = places(&[(0.0, 0.3), (2.0, 0.01), (0.8, 0.01)]);
    let pair = pair_exceeds(&ring, 1.0, 0.975).unwrap().unwrap();
    assert_eq!((pair.low, pair.high), (2, 1));
}

#[test]
fn exact_pairs_exceed_by_more_than_rounding() {
    let ring = places(&[(10.3, 0.0), (10.1, 0.0), (10.2, 0.0)]);
    assert_eq!(pair_exceeds(&ring, 0.2, 0.975).unwrap(), None);
    let decision = judge_range(&ring, 0.2, Levels::DEFAULT).unwrap();
    assert_eq!((decision.probability_conforms, decision.verdict), (1.0, Verdict::Conforms));
    let decision = judge_range(&ring, 0.19, Levels::DEFAULT).unwrap();
    assert_eq!((decision.probability_conforms, decision.verdict), (0.0, Verdict::DoesNotConform));
    assert_eq!(decision.pair.map(|p| (p.low, p.high)), Some((1, 0)));
}

#[test]
fn many_noisy_places_alone_prove_nothing() {
    // 24 places of a level ring, read with u = 0.05 and scattered as such readings are.
    let scatter = [0.06, -0.05, 0.03, 0.01, -0.07, 0.04, -0.02, 0.05];
    let ring: Vec<(f64, f64)> = (0..24).map(|i| (scatter[i % 8], 0.05)).collect();
    let decision = judge_range(&places(&ring), 0.1, Levels::DEFAULT).unwrap();
    assert!(decision.probability_conforms < 0.025);
    assert_eq!(decision.pair, None);
    assert_eq!(decision.verdict, Verdict::NotProven);
}

#[test]
fn a_range_with_an_unusable_limit_is_not_proven() {
    let ring = places(&[(0.0, 0.1), (1.0, 0.1)]);
    let decision = judge_range(&ring, f64::NAN, Levels::DEFAULT).unwrap();
    assert_eq!((decision.verdict, decision.pair), (Verdict::NotProven, None));
    assert!(judge_range(&ring[..1], 1.0, Levels::DEFAULT).is_err());
}

#[test]
fn the_whole_production_is_shared_out() {
    let tolerance = Limits::new(Some(-2.0), Some(2.0)).unwrap();
    let inspection =
        risk::Inspection { tolerance, acceptance: tolerance, standard_uncertainty: 0.01 };
    let uniform = |_: f64| 0.125;
    let risk = risk::global_risk(uniform, -4.0..=4.0, &inspection);
    assert!((risk.nonconforming - 0.5).abs() < 1e-12);
    // Each limit: ∫ Φ(−x/u) dx = u/√(2π) on either side.
    let each = 0.125 * 2.0 * 0.01 * crate::distribution::normal_pdf(0.0);
    assert!((risk.consumer - each).abs() < 1e-12 && (risk.producer - each).abs() < 1e-12);
}

fn ring_of_any_gauge() -> impl Strategy<Value = Vec<(f64, f64)>> {
    let place = (-0.5..0.5_f64, prop_oneof![Just(0.0), 0.001..0.2_f64]);
    proptest::collection::vec(place, 2..10)
}

proptest! {
    #[test]
    fn a_wider_limit_never_makes_a_worse_verdict(
        list in ring_of_any_gauge(),
        limit in 0.0..1.5_f64,
        more in 0.0..0.5_f64,
    ) {
        let ring = places(&list);
        let tight = judge_range(&ring, limit, Levels::DEFAULT).unwrap();
        let wide = judge_range(&ring, limit + more, Levels::DEFAULT).unwrap();
        prop_assert!(wide.verdict <= tight.verdict);
        prop_assert!(wide.probability_conforms >= tight.probability_conforms - 1e-12);
    }

    #[test]
    fn the_order_of_places_does_not_matter(
        list in proptest::collection::vec((-0.5..0.5_f64, 0.001..0.2_f64), 2..10),
        limit in 0.0..1.5_f64,
    ) {
        let forth = judge_range(&places(&list), limit, Levels::DEFAULT).unwrap();
        let back: Vec<(f64, f64)> = list.iter().rev().copied().collect();
        let back = judge_range(&places(&back), limit, Levels::DEFAULT).unwrap();
        prop_assert_eq!(forth.verdict, back.verdict);
        let (a, b) = (forth.pair.map(|p| p.lower_bound), back.pair.map(|p| p.lower_bound));
        prop_assert_eq!(a, b);
    }

    #[test]
    fn two_limits_are_the_sum_of_both_risks(
        y in -3.0..3.0_f64,
        u in 0.01..2.0_f64,
        lower in -2.0..0.0_f64,
        width in 0.0..3.0_f64,
    ) {
        let both = probability_within(y, u, Limits::new(Some(lower), Some(lower + width)).unwrap());
        let low = probability_within(y, u, Limits::at_least(lower).unwrap());
        let high = probability_within(y, u, Limits::at_most(lower + width).unwrap());
        prop_assert!((both - (low + high - 1.0)).abs() < 1e-14);
    }
}
