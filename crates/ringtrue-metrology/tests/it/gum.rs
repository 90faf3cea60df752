//! JCGM 100:2008, JCGM 101:2008 and EA-4/02 examples.

use ringtrue_metrology::distribution::{Distribution, rayleigh_mean, rayleigh_quantile};
use ringtrue_metrology::fit::linear::{Design, Weights, fit};
use ringtrue_metrology::monte_carlo::{Term, sample_sum};
use ringtrue_metrology::uncertain::{
    Contribution, combined, coverage_factor, effective_degrees_of_freedom,
    trapezoidal_coverage_factor, truncated, type_a, uniform,
};

use crate::check;

/// JCGM 100:2008 annex H.1, table H.1: u_c = 32 nm, ν_eff = 16, t99(16) = 2.92, U99 = 93 nm.
#[test]
fn h1_end_gauge() {
    let (l_s, alpha_s, theta) = (50_000_623.0, 11.5e-6, -0.1);
    let part = |sensitivity, standard_uncertainty, degrees_of_freedom| Contribution {
        sensitivity,
        standard_uncertainty,
        degrees_of_freedom,
    };
    let parts = [
        part(1.0, 25.0, 18.0),
        part(1.0, 9.7, 25.6),
        part(-l_s * theta, 0.58e-6, 50.0),
        part(-l_s * alpha_s, 0.029, 2.0),
    ];
    check("u_c, nm", combined(&parts), 31.7, (0.012, 0.0));
    let dof = effective_degrees_of_freedom(&parts);
    check("ν_eff", dof, 16.7, (0.012, 0.0));
    assert_eq!(truncated(dof), 16.0);
    let k = coverage_factor(0.99, truncated(dof));
    check("k", k, 2.92, (0.0, 0.005));
    // The printed 93 nm uses u_c rounded to 32 nm.
    check("U99, nm", k * 32.0, 93.0, (0.0, 0.5));
}

/// JCGM 100:2008 4.4.3, table 1 (printed results from memory).
#[test]
fn type_a_of_twenty_temperatures() {
    let readings = [
        96.9, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42,
        100.68, 100.95, 101.11, 101.2, 101.57, 101.84, 102.36, 102.72,
    ];
    let got = type_a(&readings).unwrap();
    check("mean", got.mean, 100.145, (0.0, 6e-4));
    check("s", got.standard_deviation, 1.489, (0.0, 6e-4));
    check("u", got.standard_uncertainty, 0.333, (0.0, 6e-4));
}

/// JCGM 100:2008 annex H.3, table H.6 and equations (H.13) to (H.15); the closer values recomputed
/// with numpy from the same data.
#[test]
fn h3_calibration_line() {
    let t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
    let b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
    let x: Vec<f64> = t.iter().map(|t| t - 20.0).collect();
    let line = fit(&Design::polynomial(&x, 1).unwrap(), &b, Weights::Equal).unwrap();
    check("y1", line.coefficients()[0], -0.171_203_79, (1e-7, 0.0));
    check("y2", line.coefficients()[1], 0.002_182_697_74, (1e-8, 0.0));
    check("s(y1)", line.standard_error(0).unwrap(), 0.002_877_597_84, (1e-8, 0.0));
    check("s(y2)", line.standard_error(1).unwrap(), 0.000_667_938_773, (1e-8, 0.0));
    let c = line.covariance_factor();
    check("r", c[(0, 1)] / (c[(0, 0)] * c[(1, 1)]).sqrt(), -0.930_429_603, (1e-8, 0.0));
    let s = line.residual_standard_deviation().unwrap();
    check("s", s, 0.0035, (0.016, 0.0));
    let (value, unit) = line.predict(&[1.0, 10.0]).unwrap();
    check("b(30)", value, -0.1494, (0.0, 5e-5));
    check("u(b(30))", unit * s, 0.0041, (0.016, 0.0));
}

/// JCGM 101:2008 9.2.2, table 2 and 9.2.3, table 3 (from memory; the rectangular sum recomputed in
/// closed form): 95 % of a sum of four.
#[test]
fn additive_models_of_four() {
    let sum = |distribution| {
        let terms = [Term { sensitivity: 1.0, distribution }; 4];
        sample_sum(&terms, 1_000_000, 1).unwrap()
    };
    let half_width = 3.0_f64.sqrt();
    let cases = [
        (sum(Distribution::Normal { centre: 0.0, standard_deviation: 1.0 }), 3.919_927_97),
        (sum(Distribution::Uniform { centre: 0.0, half_width }), 3.879_406_741_35),
    ];
    for (sample, end) in cases {
        check("y", sample.mean(), 0.0, (0.0, 1e-5));
        check("u(y)", sample.standard_deviation(), 2.0, (1e-4, 0.0));
        check("low", sample.quantile(0.025), -end, (0.0, 0.01));
        check("high", sample.quantile(0.975), end, (0.0, 0.01));
        let (low, high) = sample.shortest_interval(0.95).unwrap();
        check("shortest", high - low, 2.0 * end, (0.0, 0.02));
    }
}

/// EA-4/02 M, supplement 2, example S10 (printed u = 0.033 mm, k = 1.83, U = 0.06 mm, from memory).
#[test]
fn s10_vernier_caliper() {
    let half_widths = [0.8, 2.3, 25.0, 50.0];
    let parts = half_widths.map(|a| Contribution::known(1.0, uniform(a)));
    check("u_c, µm", combined(&parts), 32.305_469_093_2, (1e-11, 0.0));
    let k = trapezoidal_coverage_factor(50.0, 25.0, 0.95);
    check("k", k, 1.833_892_059_17, (1e-11, 0.0));
    check("U, µm", k * combined(&parts), 59.244_743_237_8, (1e-11, 0.0));
}

/// Apparent tilt of a level ring read with noise: scipy.stats.rayleigh for n = 8, σ = 0.05 mm.
#[test]
fn tilt_of_a_level_ring() {
    let sigma = 0.05 * (2.0_f64 / 8.0).sqrt();
    check("mean", rayleigh_mean(sigma), 0.031_332_853_432_9, (1e-11, 0.0));
    check("95 %", rayleigh_quantile(0.95, sigma), 0.061_193_670_767, (1e-11, 0.0));
}
