//! Planes and second harmonics round a ring: closed forms and numpy.linalg.lstsq on the same data.

use ringtrue_metrology::fit::harmonic::{Harmonic, Place, Terms, fit};

use crate::check;

const CLOSE: (f64, f64) = (1e-9, 1e-12);

fn places(angles_deg: &[f64], heights: &[f64], u: f64) -> Vec<Place> {
    let rows = angles_deg.iter().zip(heights);
    rows.map(|(deg, value)| Place {
        angle_rad: deg.to_radians(),
        value: *value,
        standard_uncertainty: u,
    })
    .collect()
}

/// Mean, slopes (a/R, b/R), tilt, high point in degrees, and the uncertainties of mean and tilt.
struct Expected {
    radius: f64,
    mean: f64,
    slope_x: f64,
    slope_y: f64,
    high_point_deg: f64,
    u_mean: f64,
    u_slope_x: f64,
    u_slope_y: f64,
    cov_xy: f64,
    u_tilt: f64,
}

fn compare(fit: &Harmonic, expected: &Expected) {
    let tilt = fit.first();
    let r = expected.radius;
    check("mean", fit.mean(), expected.mean, CLOSE);
    check("a/R", tilt.cosine / r, expected.slope_x, CLOSE);
    check("b/R", tilt.sine / r, expected.slope_y, CLOSE);
    check("high side", tilt.phase_rad().to_degrees(), expected.high_point_deg, CLOSE);
    check("u(h0)", fit.mean_standard_uncertainty(), expected.u_mean, CLOSE);
    check("u(a)/R", tilt.variance_cosine.sqrt() / r, expected.u_slope_x, CLOSE);
    check("u(b)/R", tilt.variance_sine.sqrt() / r, expected.u_slope_y, CLOSE);
    check("cov(a, b)/R²", tilt.covariance / (r * r), expected.cov_xy, (1e-9, 1e-20));
    check("u(tilt)", tilt.amplitude_standard_uncertainty() / r, expected.u_tilt, CLOSE);
}

#[test]
fn plane_through_four_even_places() {
    let heights = [10.42, 10.1, 9.98, 10.3];
    let got = fit(&places(&[0.0, 90.0, 180.0, 270.0], &heights, 0.02), Terms::Plane).unwrap();
    compare(
        &got,
        &Expected {
            radius: 120.0,
            mean: 10.2,
            slope_x: 0.001_833_333_333_33,
            slope_y: -0.000_833_333_333_333,
            high_point_deg: 335.556_045_22,
            u_mean: 0.01,
            u_slope_x: 0.000_117_851_130_198,
            u_slope_y: 0.000_117_851_130_198,
            cov_xy: 0.0,
            u_tilt: 0.000_117_851_130_198,
        },
    );
    check("peak to peak", 2.0 * got.first().amplitude(), 0.483_321_838_944, CLOSE);
}

#[test]
fn plane_through_five_uneven_places() {
    let angles = [0.0, 70.0, 150.0, 200.0, 310.0];
    let heights = [8.05, 8.31, 8.44, 8.2, 7.83];
    let got = fit(&places(&angles, &heights, 0.02), Terms::Plane).unwrap();
    compare(
        &got,
        &Expected {
            radius: 150.0,
            mean: 8.154_076_438_07,
            slope_x: -0.001_003_319_611_24,
            slope_y: 0.001_740_312_160_45,
            high_point_deg: 119.964_181_591,
            u_mean: 0.009_013_809_073_91,
            u_slope_x: 7.561_893_013_84e-5,
            u_slope_y: 9.973_178_340_32e-5,
            cov_xy: 9.279_431_083_94e-10,
            u_tilt: 8.993_677_692_22e-5,
        },
    );
    let squares: f64 = got.residuals().iter().map(|e| e * e).sum();
    check("rms residual", (squares / 5.0).sqrt(), 0.031_646_811_508_3, CLOSE);
}

#[test]
fn plane_through_three_places_is_exact() {
    let heights = [10.0, 10.3, 9.9];
    let got = fit(&places(&[0.0, 120.0, 240.0], &heights, 0.01), Terms::Plane).unwrap();
    compare(
        &got,
        &Expected {
            radius: 100.0,
            mean: 10.066_666_666_7,
            slope_x: -0.000_666_666_666_667,
            slope_y: 0.002_309_401_076_76,
            high_point_deg: 106.102_113_752,
            u_mean: 0.005_773_502_691_9,
            u_slope_x: 8.164_965_809_28e-5,
            u_slope_y: 8.164_965_809_28e-5,
            cov_xy: 0.0,
            u_tilt: 8.164_965_809_28e-5,
        },
    );
    assert!(got.residuals().iter().all(|e| e.abs() < 1e-12));
}

#[test]
fn second_harmonic_through_nine_uneven_places() {
    let angles = [0.0, 30.0, 75.0, 130.0, 160.0, 200.0, 245.0, 290.0, 340.0];
    let heights = [5.254, 5.1712, 4.9279, 4.7546, 4.8019, 4.8998, 4.9989, 5.1038, 5.2442];
    let got = fit(&places(&angles, &heights, 1.0), Terms::SecondHarmonic).unwrap();
    let expected = [
        5.000_399_832_54,
        0.200_702_916_106,
        -0.100_315_237_514,
        0.050_674_782_042_5,
        0.028_627_496_779_2,
    ];
    let factors = [
        0.340_965_017_964,
        0.445_203_048_647,
        0.513_141_246_609,
        0.472_528_925_859,
        0.490_808_029_238,
    ];
    for j in 0..5 {
        check("coefficient", got.coefficients()[j], expected[j], (1e-8, 1e-10));
        check("unit sigma", got.covariance()[(j, j)].sqrt(), factors[j], (1e-8, 1e-10));
    }
    let squares: f64 = got.residuals().iter().map(|e| e * e).sum();
    check("rms residual", (squares / 9.0).sqrt(), 0.002_785_199_129_03, (1e-8, 1e-10));
}

/// Four places 90° apart read a twist of ± 0.2 as level (sampling theorem).
#[test]
fn four_even_places_alias_the_twist() {
    let angles = [0.0_f64, 90.0, 180.0, 270.0];
    let heights = angles.map(|deg| 10.0 + 0.2 * (2.0 * deg.to_radians()).sin());
    let got = fit(&places(&angles, &heights, 0.02), Terms::Plane).unwrap();
    check("mean", got.mean(), 10.0, (0.0, 1e-12));
    assert!(got.first().amplitude() < 1e-12 && got.residuals().iter().all(|e| e.abs() < 1e-12));
    assert!(fit(&places(&angles, &heights, 0.02), Terms::SecondHarmonic).is_err());
}
