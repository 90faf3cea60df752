use super::*;

fn close(got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance, "{got} is not {expected} within {tolerance}");
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
    // JCGM 100:2008 4.3.7, 4.3.9.
    close(uniform(3.0_f64.sqrt()), 1.0, 1e-15);
    close(triangular(6.0_f64.sqrt()), 1.0, 1e-15);
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
    let tail = 5.0 * (-4.0_f64).exp();
    let seen = pooled(&groups).unwrap();
    assert!(seen.is_beyond(0.05, tail + 1e-9) && !seen.is_beyond(0.05, tail - 1e-9));
    assert!(seen.is_beyond(0.03, 0.025) && seen.is_beyond(0.0, 0.025));
    let alike = pooled(&[[0.1; 3]]).unwrap();
    assert!(!alike.is_beyond(0.0, 0.025));
}

#[test]
fn few_readings_widen_their_scatter() {
    // t(0.975, 8) = 2.306 004 and z(0.975) = 1.959 964: tables of both.
    let seen = Pooled { standard_deviation: 2.0, degrees_of_freedom: 8.0 };
    close(seen.widened(), 2.0 * 2.306_004_135 / 1.959_963_985, 1e-8);
}
