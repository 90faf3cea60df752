//! NIST/ITL Statistical Reference Datasets, linear regression (public domain). Certified values
//! recomputed from the data with 60-digit normal equations; see
//! `validation/reference/nist-strd/README.md`.

use ringtrue_metrology::fit::linear::{Design, Fit, Intercept, Weights, fit};

use crate::check;

/// Observations and regressors of a data file.
fn data(text: &str) -> (Vec<f64>, Vec<Vec<f64>>) {
    let rows: Vec<Vec<f64>> = text
        .lines()
        .filter(|line| !line.starts_with('#') && !line.starts_with('y'))
        .map(|line| line.split(',').map(|cell| cell.parse().unwrap()).collect())
        .collect();
    let y = rows.iter().map(|row| row[0]).collect();
    let columns = (1..rows[0].len()).map(|j| rows.iter().map(|row| row[j]).collect()).collect();
    (y, columns)
}

macro_rules! dataset {
    ($name:literal) => {
        data(include_str!(concat!("../../../../validation/reference/nist-strd/", $name)))
    };
}

struct Certified<'a> {
    beta: &'a [f64],
    standard_errors: &'a [f64],
    residual_sd: f64,
    r_squared: f64,
    relative: f64,
}

fn compare(fit: &Fit, certified: &Certified<'_>) {
    let tolerance = (certified.relative, 1e-9);
    for (j, beta) in certified.beta.iter().enumerate() {
        check(&format!("coefficient {j}"), fit.coefficients()[j], *beta, tolerance);
        let error = fit.standard_error(j).unwrap();
        check(&format!("standard error {j}"), error, certified.standard_errors[j], tolerance);
    }
    let sd = fit.residual_standard_deviation().unwrap();
    check("residual standard deviation", sd, certified.residual_sd, tolerance);
    check("R squared", fit.r_squared().unwrap(), certified.r_squared, tolerance);
}

/// Decimal digits of agreement of the worst coefficient.
fn digits(fit: &Fit, beta: &[f64]) -> f64 {
    let worst = fit
        .coefficients()
        .iter()
        .zip(beta)
        .map(|(got, b)| (got / b - 1.0).abs())
        .fold(1e-16, f64::max);
    -worst.log10()
}

#[test]
fn norris_straight_line() {
    let (y, x) = dataset!("norris.csv");
    let line = fit(&Design::polynomial(&x[0], 1).unwrap(), &y, Weights::Equal).unwrap();
    compare(
        &line,
        &Certified {
            beta: &[-0.262_323_073_774, 1.002_116_818_02],
            standard_errors: &[0.232_818_234_301, 0.000_429_796_848_2],
            residual_sd: 0.884_796_396_144,
            r_squared: 0.999_993_745_884,
            relative: 1e-9,
        },
    );
    assert_eq!(line.degrees_of_freedom(), 34);
}

#[test]
fn noint1_line_through_zero() {
    let (y, x) = dataset!("noint1.csv");
    let design = Design::new(y.len(), &[&x[0]], Intercept::Absent).unwrap();
    compare(
        &fit(&design, &y, Weights::Equal).unwrap(),
        &Certified {
            beta: &[2.074_380_165_29],
            standard_errors: &[0.016_528_925_619_8],
            residual_sd: 3.567_530_340_06,
            r_squared: 0.999_365_492_299,
            relative: 1e-9,
        },
    );
}

#[test]
fn longley_collinear_regressors() {
    let (y, x) = dataset!("longley.csv");
    let columns: Vec<&[f64]> = x.iter().map(Vec::as_slice).collect();
    let design = Design::new(y.len(), &columns, Intercept::Fitted).unwrap();
    let got = fit(&design, &y, Weights::Equal).unwrap();
    let beta = [
        -3_482_258.634_6,
        15.061_872_271_4,
        -0.035_819_179_292_6,
        -2.020_229_803_82,
        -1.033_226_867_17,
        -0.051_104_105_653_6,
        1_829.151_464_61,
    ];
    compare(
        &got,
        &Certified {
            beta: &beta,
            standard_errors: &[
                890_420.383_607,
                84.914_925_774_8,
                0.033_491_007_772_2,
                0.488_399_681_652,
                0.214_274_163_162,
                0.226_073_200_069,
                455.478_499_142,
            ],
            residual_sd: 304.854_073_562,
            r_squared: 0.995_479_004_577,
            relative: 1e-8,
        },
    );
    // The values above carry 12 digits.
    assert!(digits(&got, &beta) > 11.0, "{}", digits(&got, &beta));
}

#[test]
fn wampler1_exact_polynomial() {
    let (y, x) = dataset!("wampler1.csv");
    let got = fit(&Design::polynomial(&x[0], 5).unwrap(), &y, Weights::Equal).unwrap();
    compare(
        &got,
        &Certified {
            beta: &[1.0; 6],
            standard_errors: &[0.0; 6],
            residual_sd: 0.0,
            r_squared: 1.0,
            relative: 1e-9,
        },
    );
    assert!(digits(&got, &[1.0; 6]) > 13.0, "{}", digits(&got, &[1.0; 6]));
}

#[test]
fn wampler2_exact_polynomial_of_falling_coefficients() {
    let (y, x) = dataset!("wampler2.csv");
    let got = fit(&Design::polynomial(&x[0], 5).unwrap(), &y, Weights::Equal).unwrap();
    let beta = [1.0, 0.1, 0.01, 0.001, 0.0001, 1e-5];
    compare(
        &got,
        &Certified {
            beta: &beta,
            standard_errors: &[0.0; 6],
            residual_sd: 0.0,
            r_squared: 1.0,
            relative: 1e-9,
        },
    );
    // An absolute 1e-9 would pass a wrong last coefficient. The decimal data are not exact in
    // binary, which limits the digits.
    assert!(digits(&got, &beta) > 9.0, "{}", digits(&got, &beta));
}

#[test]
fn wampler4_large_scatter() {
    let (y, x) = dataset!("wampler4.csv");
    let got = fit(&Design::polynomial(&x[0], 5).unwrap(), &y, Weights::Equal).unwrap();
    compare(
        &got,
        &Certified {
            beta: &[1.0; 6],
            standard_errors: &[
                215_232.624_678,
                236_355.173_47,
                77_934.352_433_2,
                10_147.550_755,
                564.566_512_171,
                11.232_485_467_9,
            ],
            residual_sd: 236_014.502_379,
            r_squared: 0.957_478_440_826,
            relative: 1e-8,
        },
    );
}
