use super::*;

fn close(got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance, "{got} is not {expected} within {tolerance}");
}

#[test]
fn correlation_adds_or_cancels() {
    let two = [Contribution::known(1.0, 3.0), Contribution::known(-1.0, 4.0)];
    let with = |coefficient| {
        combined_correlated(&two, &[Correlation { first: 0, second: 1, coefficient }])
    };
    close(combined(&two), 5.0, 1e-15);
    close(with(0.0).unwrap(), 5.0, 1e-15);
    close(with(1.0).unwrap(), 1.0, 1e-15);
    close(with(-1.0).unwrap(), 7.0, 1e-15);
    let same = [Contribution::known(1.0, 0.1), Contribution::known(-1.0, 0.1)];
    let full = Correlation { first: 0, second: 1, coefficient: 1.0 };
    close(combined_correlated(&same, &[full]).unwrap(), 0.0, 1e-9);
}

#[test]
fn correlations_that_cannot_be_are_refused() {
    let three = [Contribution::known(1.0, 1.0); 3];
    let r = |first, second, coefficient| Correlation { first, second, coefficient };
    assert!(matches!(
        combined_correlated(&three, &[r(0, 3, 0.5)]),
        Err(CorrelationError::Inputs { inputs: 3, .. })
    ));
    assert!(combined_correlated(&three, &[r(1, 1, 0.5)]).is_err());
    assert!(combined_correlated(&three, &[r(0, 1, 1.5)]).is_err());
    assert!(combined_correlated(&three, &[r(0, 1, f64::NAN)]).is_err());
    let all = [r(0, 1, -1.0), r(0, 2, -1.0), r(1, 2, -1.0)];
    assert_eq!(combined_correlated(&three, &all), Err(CorrelationError::Contradiction));
}

#[test]
fn shares_of_the_variance() {
    let two = [Contribution::known(2.0, 0.5), Contribution::known(1.0, 3.0)];
    assert_eq!(variance_shares(&two), [0.1, 0.9]);
    assert!(variance_shares(&[Contribution::known(1.0, 0.0)]).is_empty());
}

#[test]
fn degrees_of_freedom_add_for_equal_parts() {
    let part =
        Contribution { sensitivity: 1.0, standard_uncertainty: 1e-90, degrees_of_freedom: 4.0 };
    close(effective_degrees_of_freedom(&[part; 3]), 12.0, 1e-9);
    assert_eq!(effective_degrees_of_freedom(&[Contribution::known(1.0, 2.0)]), f64::INFINITY);
    assert_eq!(effective_degrees_of_freedom(&[]), f64::INFINITY);
    assert_eq!((truncated(16.7), truncated(15.999_999_999_999_99)), (16.0, 16.0));
    assert_eq!((truncated(0.3), truncated(f64::INFINITY)), (1.0, f64::INFINITY));
}

#[test]
fn coverage_without_doubt_is_normal() {
    close(coverage_factor(0.95, f64::INFINITY), 1.959_963_984_540_054, 1e-14);
    assert!(coverage_factor(1.0, 5.0).is_nan() && coverage_factor(0.95, 0.0).is_nan());
}

#[test]
fn a_trapezoid_lies_between_rectangle_and_triangle() {
    // One rectangle: p a = 0.95 √3 u. Two alike: a triangle, (1 − √(1 − p)) √6.
    close(trapezoidal_coverage_factor(1.0, 0.0, 0.95), 0.95 * 3.0_f64.sqrt(), 1e-14);
    let triangle = (1.0 - 0.05_f64.sqrt()) * 6.0_f64.sqrt();
    close(trapezoidal_coverage_factor(2.0, 2.0, 0.95), triangle, 1e-14);
    // The two formulas meet where the interval ends on the shoulder, p = 2β/(1 + β) = 2/3.
    let at = |p| trapezoidal_coverage_factor(3.0, 1.0, p);
    close(at(2.0 / 3.0 - 1e-9), at(2.0 / 3.0 + 1e-9), 1e-7);
    assert!(trapezoidal_coverage_factor(0.0, 0.0, 0.95).is_nan());
    assert!(trapezoidal_coverage_factor(-1.0, 3.0, 0.95).is_nan());
}

#[test]
fn bounds_as_uncertainties() {
    // JCGM 100:2008 4.3.7, 4.3.9, H.1.3.4.
    close(uniform(3.0_f64.sqrt()), 1.0, 1e-15);
    close(triangular(6.0_f64.sqrt()), 1.0, 1e-15);
    close(arcsine(2.0_f64.sqrt()), 1.0, 1e-15);
}

#[test]
fn readings_need_two_of_one_thing() {
    assert_eq!(type_a(&[1.0]), Err(ReadingsError::TooFew));
    assert_eq!(type_a(&[1.0, f64::NAN]), Err(ReadingsError::NotFinite { reading: 2 }));
    assert_eq!(pooled(&[vec![1.0], vec![2.0]]), Err(ReadingsError::TooFew));
    assert_eq!(
        pooled(&[vec![1.0, 2.0], vec![f64::INFINITY]]),
        Err(ReadingsError::NotFinite { reading: 3 })
    );
    let same = type_a(&[0.1; 10]).unwrap();
    assert_eq!((same.mean, same.standard_deviation, same.degrees_of_freedom()), (0.1, 0.0, 9.0));
}

#[test]
fn groups_pool_by_their_own_means() {
    let groups = [vec![1.0, 2.0], vec![10.0, 12.0, 14.0], vec![5.0]];
    let both = pooled(&groups).unwrap();
    // (0.5 + 8) / (1 + 2).
    close(both.standard_deviation, (8.5_f64 / 3.0).sqrt(), 1e-15);
    close(both.degrees_of_freedom, 3.0, 0.0);
}

#[test]
fn scatter_is_proven_only_beyond_chance() {
    let groups = [vec![0.0, 0.1], vec![0.0, 0.1], vec![0.0, -0.1], vec![0.1, 0.0]];
    // Four groups: Σ = 4 · 0.005; against σ = 0.05 chi-square = 8 with 4 degrees of freedom,
    // whose upper tail is (1 + 4) e⁻⁴ = 0.0916 in closed form.
    let test = scatter_test(&groups, 0.05, 0.975).unwrap();
    close(test.chi_squared, 8.0, 1e-12);
    close(test.p_value, 5.0 * (-4.0_f64).exp(), 1e-12);
    assert!(!test.exceeds);
    assert!(scatter_test(&groups, 0.03, 0.975).unwrap().exceeds);
    assert_eq!(scatter_test(&groups, 0.0, 0.975), Err(ReadingsError::Stated));
}

#[test]
fn few_readings_inflate_their_uncertainty() {
    // JCGM 101:2008 6.4.9: s √(ν/(ν − 2)).
    close(inflated(1.0, 4.0).unwrap(), 2.0_f64.sqrt(), 1e-15);
    assert_eq!(inflated(1.0, f64::INFINITY), Some(1.0));
    assert_eq!((inflated(1.0, 2.0), inflated(1.0, f64::NAN)), (None, None));
}
