use super::*;
use crate::distribution::{Shape, normal_quantile};

fn normal(sensitivity: f64, standard_deviation: f64) -> Term {
    Term { sensitivity, distribution: Distribution::Normal { centre: 0.0, standard_deviation } }
}

#[test]
fn the_table_follows_the_normal_quantile() {
    let table = QuantileTable::shared();
    let exact = |n: u32| {
        let p = middle(if n >> 31 == 1 { !n } else { n });
        let z = normal_quantile(p);
        if n >> 31 == 1 { -z } else { z }
    };
    let mut worst: f64 = 0.0;
    let ends = [0, 1, 2, 3, u32::MAX, u32::MAX - 1, (1 << 31) - 1, 1 << 31];
    let spread = (0..200_000_u32).map(|i| i.wrapping_mul(2_654_435_769));
    let tail = (0..100_000_u32).map(|i| i * 70);
    for n in ends.into_iter().chain(spread).chain(tail) {
        worst = worst.max((table.quantile(n) - exact(n)).abs());
    }
    assert!(worst < 3e-6, "{worst:e}");
    // p = 0.00135, three sigma.
    let three = (0.001_35 * 4_294_967_296.0) as u32;
    assert!((table.quantile(three) + 2.999_976_993).abs() < 3e-6);
    assert_eq!(table.quantile(7), -table.quantile(u32::MAX - 7));
}

#[test]
fn the_digits_do_not_depend_on_threads() {
    let terms = [
        normal(1.0, 0.2),
        Term { sensitivity: -0.5, distribution: Shape::Uniform.of_tolerance(1.0, 0.3) },
        Term { sensitivity: 2.0, distribution: Shape::Triangular.of_tolerance(-1.0, 0.1) },
        normal(-1.0, 0.1),
        normal(1.0, 0.05),
    ];
    let with = |threads| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| sample_sum(&terms, 200_001, 42).unwrap())
    };
    let one = with(1);
    assert_eq!(one, with(2));
    assert_eq!(one, with(7));
    assert_ne!(one, sample_sum(&terms, 200_001, 43).unwrap());
}

#[test]
fn a_sum_has_the_moments_of_its_links() {
    let terms = [
        Term { sensitivity: 1.0, distribution: Shape::Normal.of_tolerance(10.0, 0.3) },
        Term { sensitivity: -1.0, distribution: Shape::Uniform.of_tolerance(4.0, 0.2) },
        Term { sensitivity: 0.5, distribution: Shape::Triangular.of_tolerance(2.0, 0.4) },
    ];
    let exact: f64 = terms.iter().map(|t| t.sensitivity.powi(2) * t.distribution.variance()).sum();
    let sample = sample_sum(&terms, 1 << 20, 1).unwrap();
    assert!((sample.mean() - 7.0).abs() < 1e-6, "{}", sample.mean());
    assert!((sample.standard_deviation() / exact.sqrt() - 1.0).abs() < 1e-4);
    assert_eq!(sample.sorted().len(), 1 << 20);
}

#[test]
fn eight_normal_links_have_normal_tails() {
    let terms = [normal(1.0, 1.0); 8];
    let deviation = 8.0_f64.sqrt();
    // Root-mean-square error over seeds: 0.005 at 0.135 %, 0.0015 at 2.5 %; four times that.
    for (p, tolerance) in [(0.001_35, 0.02), (0.025, 0.006), (0.5, 0.003), (0.998_65, 0.02)] {
        for seed in 0..4 {
            let sample = sample_sum(&terms, 1_000_000, seed).unwrap();
            let off = sample.quantile(p) / deviation - normal_quantile(p);
            assert!(off.abs() < tolerance, "p {p}, seed {seed}: {off}");
        }
    }
}

#[test]
fn dimensions_are_independent() {
    // A sum of equal links far apart in the sequence: any correlation shows in its variance.
    for far in [1, 4, 100, 254] {
        let mut terms = vec![normal(1.0, 1e-9); 256];
        terms[0] = normal(1.0, 1.0);
        terms[far] = normal(1.0, 1.0);
        let sample = sample_sum(&terms, 1 << 16, 3).unwrap();
        assert!((sample.standard_deviation() / 2.0_f64.sqrt() - 1.0).abs() < 0.01, "{far}");
    }
}

#[test]
fn what_cannot_be_sampled_is_refused() {
    let one = [normal(1.0, 1.0)];
    assert_eq!(sample_sum(&one, 0, 1), Err(SampleError::Draws { found: 0 }));
    assert_eq!(sample_sum(&one, u32::MAX, 1), Err(SampleError::Draws { found: u32::MAX }));
    assert_eq!(sample_sum(&[], 10, 1), Err(SampleError::NoTerms));
    for bad in [normal(f64::NAN, 1.0), normal(1.0, -1.0), normal(1.0, f64::INFINITY)] {
        assert_eq!(sample_sum(&[one[0], bad], 10, 1), Err(SampleError::NotUsable { term: 2 }));
    }
    assert!(sample_sum(&vec![one[0]; 256], 10, 1).is_ok());
    assert_eq!(
        sample_sum(&vec![one[0]; 257], 10, 1),
        Err(SampleError::TooManyTerms { found: 257 })
    );
    // Fixed links take no dimension.
    assert!(sample_sum(&vec![normal(1.0, 0.0); 1000], 10, 1).is_ok());
}

#[test]
fn a_fixed_sum_is_one_value() {
    let fixed = Term { sensitivity: 2.0, distribution: Shape::Uniform.of_tolerance(1.5, 0.0) };
    let sample = sample_sum(&[fixed], 1000, 1).unwrap();
    assert_eq!((sample.quantile(0.0), sample.quantile(1.0)), (3.0, 3.0));
    assert_eq!((sample.mean(), sample.standard_deviation()), (3.0, 0.0));
    assert_eq!((sample.share_below(3.0), sample.share_above(3.0)), (0.0, 0.0));
    assert_eq!(sample.histogram(20).counts, [1000]);
    assert_eq!(sample_sum(&[fixed], 1, 1).unwrap().standard_deviation(), 0.0);
}

#[test]
fn what_is_read_from_a_sample() {
    let sample = Sample::of(vec![3.0, 1.0, 2.0, 4.0, 4.0]);
    assert_eq!(sample.sorted(), [1.0, 2.0, 3.0, 4.0, 4.0]);
    assert_eq!((sample.quantile(0.0), sample.quantile(0.5), sample.quantile(1.0)), (1.0, 3.0, 4.0));
    assert!((sample.quantile(0.4) - 2.5).abs() < 1e-15);
    assert!(sample.quantile(1.01).is_nan() && sample.quantile(f64::NAN).is_nan());
    assert_eq!((sample.share_below(2.0), sample.share_above(3.0)), (0.2, 0.4));
    assert_eq!(sample.histogram(3).counts, [1, 1, 3]);
    assert_eq!(sample.shortest_interval(0.4), Some((4.0, 4.0)));
    assert_eq!(sample.shortest_interval(1.0), Some((1.0, 4.0)));
    assert_eq!(sample.shortest_interval(0.0), None);
    let total: u32 =
        sample_sum(&[normal(1.0, 1.0)], 12_345, 9).unwrap().histogram(40).counts.iter().sum();
    assert_eq!(total, 12_345);
}
