use proptest::prelude::*;

use super::gauss::{Bend, Panel, REACH, panels};
use super::*;

fn relative(got: f64, expected: f64, tolerance: f64) {
    let off = (got - expected).abs() / expected.abs();
    assert!(off <= tolerance, "{got} is not {expected}: off by {off:e}");
}

// Expected values of this file: 20 to 30-digit evaluation of the defining integrals with mpmath.

#[test]
fn the_normal_tails_keep_their_digits() {
    let cases = [
        (-38.0, 2.885_428_36e-316),
        (-20.0, 2.753_624_118_606_233_7e-89),
        (-8.0, 6.220_960_574_271_784e-16),
        (-3.0, 0.001_349_898_031_630_094_5),
        (-1.0, 0.158_655_253_931_457_05),
        (0.5, 0.691_462_461_274_013_1),
    ];
    for (z, p) in cases {
        // A subnormal number has few digits left.
        let tolerance = if z < -37.5 { 1e-6 } else { 4e-16 * (1.0 + z * z) };
        relative(normal_cdf(z), p, tolerance);
        relative(normal_sf(-z), p, tolerance);
    }
}

#[test]
fn normal_quantiles() {
    let cases = [
        (1e-300, -37.047_096_299_361_2),
        (1e-20, -9.262_340_089_798_408),
        (1e-10, -6.361_340_902_404_056),
        (0.001_35, -2.999_976_992_703_393),
        (0.025, -1.959_963_984_540_054),
        (0.158_7, -0.999_815_093_614_744_4),
        (0.3, -0.524_400_512_708_040_8),
    ];
    for (p, z) in cases {
        relative(normal_quantile(p), z, 4e-15);
    }
    relative(normal_quantile(0.975), 1.959_963_984_540_054, 4e-15);
    assert_eq!(normal_quantile(0.5), 0.0);
    assert_eq!(normal_quantile(0.0), f64::NEG_INFINITY);
    assert_eq!(normal_quantile(1.0), f64::INFINITY);
    assert!(normal_quantile(5e-324) < -38.0);
    assert!([-0.1, 1.1, f64::NAN].iter().all(|p| normal_quantile(*p).is_nan()));
}

#[test]
fn student_quantiles() {
    let cases = [
        (0.005, 16.0, -2.920_781_622_425_1),
        (0.005, 2.0, -9.924_843_200_918_293),
        (0.025, 1.0, -12.706_204_736_174_705),
        (0.025, 16.7, -2.112_706_420_659_591),
        (0.025, 1000.0, -1.962_339_080_826_408_5),
        (0.000_5, 5.0, -6.868_826_625_881_11),
        (0.4, 3.0, -0.276_670_662_332_689_9),
    ];
    for (p, dof, t) in cases {
        relative(student_t_quantile(p, dof), t, 1e-10);
        relative(student_t_quantile(1.0 - p, dof), -t, 1e-10);
        relative(student_t_cdf(t, dof), p, 1e-10);
    }
    assert_eq!(student_t_quantile(0.025, f64::INFINITY), normal_quantile(0.025));
    assert_eq!(student_t_quantile(0.5, 3.0), 0.0);
    assert_eq!(student_t_quantile(0.0, 3.0), f64::NEG_INFINITY);
    for (p, dof) in [(0.5, 0.0), (0.5, -1.0), (0.5, f64::NAN), (1.5, 3.0), (f64::NAN, 3.0)] {
        assert!(student_t_quantile(p, dof).is_nan());
    }
}

#[test]
fn chi_squared_functions() {
    let tails = [
        (3.841_458_820_694_124, 1.0, 0.05),
        (9.487_729_036_781_154, 4.0, 0.05),
        (100.0, 10.0, 5.449_701_982_920_53e-17),
        (0.001, 3.0, 0.999_991_592_080_941_9),
        (40.0, 40.0, 0.470_257_266_839_24),
    ];
    for (x, dof, p) in tails {
        relative(chi_squared_sf(x, dof), p, 1e-10);
    }
    let quantiles = [
        (0.975, 4.0, 11.143_286_781_877_797),
        (0.975, 24.0, 39.364_077_026_603_91),
        (0.05, 1.0, 0.003_932_140_000_019_523),
        (0.999, 100.0, 149.449_252_779_038_7),
        (0.01, 2.0, 0.020_100_671_707_002_88),
    ];
    for (p, dof, x) in quantiles {
        relative(chi_squared_quantile(p, dof), x, 1e-10);
    }
    assert_eq!((chi_squared_sf(0.0, 3.0), chi_squared_sf(-1.0, 3.0)), (1.0, 1.0));
    assert_eq!(chi_squared_quantile(0.0, 3.0), 0.0);
    assert_eq!(chi_squared_quantile(1.0, 3.0), f64::INFINITY);
    assert!(chi_squared_sf(1.0, 0.0).is_nan() && chi_squared_sf(f64::NAN, 1.0).is_nan());
    assert!(chi_squared_quantile(0.5, f64::INFINITY).is_nan());
}

#[test]
fn the_rule_is_exact_up_to_degree_31() {
    let panel = Panel { from: -1.0, to: 1.0 };
    for degree in 0..32_u16 {
        let got: f64 = panel.nodes().map(|(x, w)| w * libm::pow(x, f64::from(degree))).sum();
        let exact = if degree % 2 == 0 { 2.0 / f64::from(degree + 1) } else { 0.0 };
        assert!((got - exact).abs() < 1e-15, "degree {degree}: {got} {exact}");
    }
}

#[test]
fn panels_cover_the_span_without_gaps() {
    let bends = [Bend { centre: 0.0, width: 1.0 }, Bend { centre: 0.5, width: 1e-6 }];
    let all = panels(-20.0, 20.0, &bends, 3.0);
    assert_eq!((all[0].from, all[all.len() - 1].to), (-20.0, 20.0));
    assert!(all.windows(2).all(|w| w[0].to == w[1].from && w[0].from < w[0].to));
    assert!(all.len() < 40, "{}", all.len());
    let fine = |p: &&Panel| p.from >= 0.5 - REACH * 1e-6 && p.to <= 0.5 + REACH * 1e-6;
    assert!(all.iter().filter(fine).all(|p| p.to - p.from <= 3.0001e-6));
    assert!(panels(1.0, 1.0, &bends, 3.0).is_empty() && panels(2.0, 1.0, &bends, 3.0).is_empty());
}

#[test]
fn alike_places_follow_the_short_formula() {
    // n ∫ φ(x) [Φ(x + r) − Φ(x)]^(n−1) dx, in panels thirty times shorter.
    for (n, r) in [(2_u16, 0.1), (24, 3.5), (24, 6.0), (64, 4.0), (1000, 6.3)] {
        let within = |x: f64| normal_cdf(x + r) - normal_cdf(x);
        let exact = integrate(-9.0, 9.0, 0.1, |x| {
            f64::from(n) * normal_pdf(x) * libm::pow(within(x), f64::from(n) - 1.0)
        });
        let got = RangeOfNormals::alike(usize::from(n), 1.0).unwrap().cdf(r);
        assert!((got - exact).abs() < 1e-10, "{n}: {got}, exact {exact}");
    }
}

fn places(list: &[(f64, f64)]) -> Vec<Place> {
    let place = |(value, standard_uncertainty): &(f64, f64)| Place {
        value: *value,
        standard_uncertainty: *standard_uncertainty,
    };
    list.iter().map(place).collect()
}

#[test]
fn ranges_of_unlike_places() {
    let eight: Vec<(f64, f64)> =
        (0..8_u8).map(|i| (0.1 * f64::from(i * i % 7), 0.02 + 0.005 * f64::from(i % 3))).collect();
    type Case<'a> = (&'a [(f64, f64)], &'a [(f64, f64)]);
    let cases: [Case<'_>; 5] = [
        (
            &[(0.0, 0.1), (0.3, 0.02), (-0.2, 0.05), (0.05, 1e-6), (0.5, 0.2)],
            &[
                (0.3, 8.321_669_028_839_6e-6),
                (0.75, 0.592_813_175_959_88),
                (1.0, 0.926_206_920_847_47),
                (1.5, 0.999_946_461_628_03),
            ],
        ),
        (
            &[(0.0, 0.03), (0.5, 0.04)],
            &[(0.4, 0.022_750_131_948_179), (0.5, 0.5), (0.6, 0.977_249_868_051_82)],
        ),
        (
            &[(0.0, 0.0), (0.5, 0.0), (0.4, 0.1), (0.1, 0.05), (0.45, 0.02)],
            &[
                (0.49, 0.0),
                (0.5, 0.817_067_671_627_44),
                (0.6, 0.976_897_397_764_74),
                (0.8, 0.999_966_956_046_8),
            ],
        ),
        (
            &[(0.0, 1.0), (0.0, 1e-4), (0.2, 1e-4), (0.1, 0.01)],
            &[
                (0.199_9, 0.019_000_935_852_878),
                (0.2, 0.039_652_139_588_624),
                (0.200_1, 0.060_334_602_763_544),
                (0.5, 0.309_373_882_010_72),
                (2.0, 0.941_319_547_688_43),
            ],
        ),
        (
            &eight,
            &[
                (0.5, 0.985_675_647_544_86),
                (0.6, 0.999_999_668_740_22),
                (0.65, 0.999_999_999_842_42),
                (0.7, 0.999_999_999_999_98),
            ],
        ),
    ];
    for (list, expected) in cases {
        for shift in [0.0, 1000.0] {
            let moved: Vec<(f64, f64)> = list.iter().map(|(h, u)| (h + shift, *u)).collect();
            let range = RangeOfNormals::new(&places(&moved)).unwrap();
            for (r, p) in expected {
                let off = (range.cdf(*r) - p).abs();
                // A thousand up, heights are rounded to 1e-13, against a width of 1e-6.
                let tolerance = if shift > 0.0 { 1e-7 } else { 1e-12 };
                assert!(off < tolerance, "{list:?} at {r}: off by {off:e}");
            }
        }
    }
}

#[test]
fn exact_places_make_a_step() {
    let range = RangeOfNormals::new(&places(&[(10.3, 0.0), (10.1, 0.0), (10.2, 0.0)])).unwrap();
    // 10.3 − 10.1 is above 0.2 by rounding alone.
    assert_eq!((range.cdf(0.2), range.cdf(0.199_999), range.cdf(-1.0)), (1.0, 0.0, 0.0));
    let moments = range.moments();
    assert!((moments.mean - 0.2).abs() < 1e-14 && moments.standard_deviation == 0.0);
    assert!((range.quantile(0.5) - 0.2).abs() < 1e-12);
    let same = RangeOfNormals::new(&places(&[(1.0, 0.0), (1.0, 0.0)])).unwrap();
    assert_eq!((same.cdf(0.0), same.cdf(-0.1), same.moments().mean), (1.0, 0.0, 0.0));
    assert!(same.cdf(f64::NAN).is_nan());
}

#[test]
fn an_exact_place_is_the_limit_of_a_nearly_exact_one() {
    let list = |u| places(&[(0.0, u), (0.3, 0.05), (0.1, 0.02), (0.5, u)]);
    let exact = RangeOfNormals::new(&list(0.0)).unwrap();
    let nearly = RangeOfNormals::new(&list(1e-7)).unwrap();
    for r in [0.501, 0.52, 0.6] {
        assert!((exact.cdf(r) - nearly.cdf(r)).abs() < 1e-5);
    }
    let (a, b) = (exact.moments(), nearly.moments());
    assert!((a.mean - b.mean).abs() < 1e-6);
    assert!((a.standard_deviation - b.standard_deviation).abs() < 1e-6);
}

/// `E[R] = ∫ (1 − F)` and `E[R²] = ∫ 2 r (1 − F)`: another way to the same moments.
fn moments_from_cdf(range: &RangeOfNormals, top: f64, step: f64) -> (f64, f64) {
    let mean = integrate(0.0, top, step, |r| 1.0 - range.cdf(r));
    let square = integrate(0.0, top, step, |r| 2.0 * r * (1.0 - range.cdf(r)));
    (mean, (square - mean * mean).sqrt())
}

#[test]
fn moments_agree_with_the_distribution_function() {
    let lists: [&[(f64, f64)]; 6] = [
        &[(0.0, 0.03), (0.0, 0.04)],
        &[(0.0, 0.03), (0.5, 0.04)],
        &[(0.0, 0.1), (0.3, 0.02), (-0.2, 0.05), (0.05, 0.01), (0.5, 0.2)],
        &[(0.0, 0.0), (0.3, 0.05), (0.1, 0.02)],
        &[(0.0, 0.0), (0.2, 0.0), (0.1, 0.1), (0.1, 0.05)],
        &[(0.0, 0.2), (0.1, 0.01), (0.15, 0.01)],
    ];
    for list in lists {
        let range = RangeOfNormals::new(&places(list)).unwrap();
        let got = range.moments();
        let (mean, deviation) = moments_from_cdf(&range, 4.0, 0.01);
        assert!((got.mean - mean).abs() < 1e-9, "{list:?}: {got:?}, not {mean}");
        assert!(
            (got.standard_deviation - deviation).abs() < 1e-7,
            "{list:?}: {got:?}, not {deviation}"
        );
    }
}

#[test]
fn unusable_places_are_refused() {
    let refuse = |list: &[(f64, f64)]| RangeOfNormals::new(&places(list)).unwrap_err();
    assert_eq!(refuse(&[(0.0, 0.1)]), RangeError::Places { found: 1 });
    assert_eq!(refuse(&[(0.0, 0.1), (f64::NAN, 0.1)]), RangeError::NotUsable { place: 2 });
    assert_eq!(refuse(&[(0.0, -0.1), (0.0, 0.1)]), RangeError::NotUsable { place: 1 });
    assert_eq!(refuse(&[(0.0, 0.1), (0.0, f64::INFINITY)]), RangeError::NotUsable { place: 2 });
    assert!(RangeOfNormals::alike(MOST_PLACES + 1, 1.0).is_err());
    assert!(RangeOfNormals::alike(64, 1.0).is_ok());
}

/// Independent of the integral: heights drawn one by one (SplitMix64, Box-Muller).
fn drawn_share_within(list: &[Place], r: f64, draws: u32) -> f64 {
    let mut state = 20_u64;
    let mut uniform = move || {
        state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = state;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    };
    let mut within = 0_u32;
    for _ in 0..draws {
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for place in list {
            let radius = (-2.0 * libm::log1p(-uniform())).sqrt();
            let z = radius * libm::cos(std::f64::consts::TAU * uniform());
            let x = place.value + place.standard_uncertainty * z;
            (low, high) = (x.min(low), x.max(high));
        }
        within += u32::from(high - low <= r);
    }
    f64::from(within) / f64::from(draws)
}

#[test]
fn sampling_gives_the_same_probability() {
    for n in [2_u8, 4, 8, 24] {
        let list: Vec<Place> = (0..n)
            .map(|i| Place {
                value: 0.1 * libm::sin(f64::from(i)),
                standard_uncertainty: if i % 5 == 3 { 0.0 } else { 0.02 + 0.01 * f64::from(i % 3) },
            })
            .collect();
        let range = RangeOfNormals::new(&list).unwrap();
        let draws = 100_000;
        for p in [0.1, 0.5, 0.9] {
            let r = range.quantile(p);
            let share = drawn_share_within(&list, r, draws);
            // Where an exact pair makes a step, the probability at r is above p.
            let expected = range.cdf(r);
            let error = (expected * (1.0 - expected) / f64::from(draws)).sqrt();
            assert!(
                (share - expected).abs() < 4.0 * error + 1e-9,
                "{n} places: {share} {expected}"
            );
        }
    }
}

#[test]
fn tolerances_as_distributions() {
    let normal = Shape::default().of_tolerance(10.0, 0.3);
    assert_eq!(normal, Distribution::Normal { centre: 10.0, standard_deviation: 0.3 / 3.0 });
    // Share outside ± 3 σ: 0.27 %.
    relative(normal.cdf(9.7), 0.001_349_898_031_630_094_5, 1e-9);
    let uniform = Shape::Uniform.of_tolerance(0.0, 3.0_f64.sqrt());
    relative(uniform.variance(), 1.0, 1e-15);
    let triangular = Shape::Triangular.of_tolerance(0.0, 6.0_f64.sqrt());
    relative(triangular.variance(), 1.0, 1e-15);
    let fixed = Shape::Normal.of_tolerance(2.0, 0.0);
    assert_eq!((fixed.quantile(0.0), fixed.cdf(2.0), fixed.cdf(1.9)), (2.0, 1.0, 0.0));
    assert_eq!((fixed.pdf(2.0), fixed.pdf(2.1)), (f64::INFINITY, 0.0));
    assert!(uniform.quantile(1.1).is_nan());
    // A density with a jump is integrated only to the width of a panel.
    for shape in [normal, uniform, triangular] {
        let (centre, width) = (shape.centre(), 9.0 * shape.standard_deviation());
        let at = |x| integrate(centre - width, centre + x, width / 512.0, |x| shape.pdf(x));
        assert!((at(width) - 1.0).abs() < 2e-3, "{shape:?}");
        for p in [0.001, 0.2, 0.5, 0.7, 0.999] {
            relative(shape.cdf(shape.quantile(p)), p, 1e-12);
            assert!((at(shape.quantile(p) - centre) - p).abs() < 2e-3, "{shape:?}");
        }
    }
}

fn ring_of_any_gauge() -> impl Strategy<Value = Vec<(f64, f64)>> {
    let place = (-0.5..0.5_f64, prop_oneof![Just(0.0), 0.001..0.2_f64]);
    proptest::collection::vec(place, 2..12)
}

proptest! {
    #[test]
    fn quantile_and_cdf_are_inverse(p in 1e-12..0.999_999_f64) {
        prop_assert!((normal_cdf(normal_quantile(p)) / p - 1.0).abs() < 1e-13);
    }

    #[test]
    fn the_range_does_not_care_for_order_or_level(
        list in ring_of_any_gauge(),
        turn in 0_usize..12,
        r in 0.0..2.0_f64,
    ) {
        let one = RangeOfNormals::new(&places(&list)).unwrap();
        let mut other = list.clone();
        other.rotate_left(turn % list.len());
        other.reverse();
        let other = RangeOfNormals::new(&places(&other)).unwrap();
        prop_assert!((one.cdf(r) - other.cdf(r)).abs() < 1e-13);
        // Upside down: the highest place becomes the lowest.
        let down: Vec<(f64, f64)> = list.iter().map(|(h, u)| (-h, *u)).collect();
        let down = RangeOfNormals::new(&places(&down)).unwrap();
        prop_assert!((one.cdf(r) - down.cdf(r)).abs() < 1e-10, "{} {}", one.cdf(r), down.cdf(r));
        let (a, b) = (one.moments(), down.moments());
        prop_assert!((a.mean - b.mean).abs() < 1e-11);
        prop_assert!((a.standard_deviation - b.standard_deviation).abs() < 1e-7);
    }

    #[test]
    fn the_distribution_function_rises(
        list in proptest::collection::vec((-0.5..0.5_f64, 1e-6..0.2_f64), 2..12),
        from in 0.0..1.5_f64,
        more in 0.0..0.5_f64,
    ) {
        let range = RangeOfNormals::new(&places(&list)).unwrap();
        prop_assert!(range.cdf(from) <= range.cdf(from + more) + 1e-12);
        prop_assert!(range.cdf(20.0) > 1.0 - 1e-12);
    }
}
