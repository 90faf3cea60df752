//! Range of n normal readings: control-chart constants and studentised-range tables.

use ringtrue_metrology::distribution::RangeOfNormals;

use crate::check;

/// d2, d3 and quantiles; see `validation/reference/range-of-normals/README.md`.
#[test]
fn control_chart_constants() {
    let text = include_str!("../../../../validation/reference/range-of-normals/quantiles.csv");
    let mut rows = 0;
    for line in text.lines().filter(|line| line.starts_with(|c: char| c.is_ascii_digit())) {
        let cells: Vec<f64> = line.split(',').map(|cell| cell.parse().unwrap()).collect();
        let range = RangeOfNormals::alike(cells[0] as usize, 1.0).unwrap();
        let moments = range.moments();
        let tolerance = (0.0, 6e-7);
        check(&format!("d2({})", cells[0]), moments.mean, cells[1], tolerance);
        check(&format!("d3({})", cells[0]), moments.standard_deviation, cells[2], tolerance);
        for (p, quantile) in [0.05, 0.5, 0.95, 0.99].iter().zip(&cells[3..]) {
            check(&format!("W_{p}({})", cells[0]), range.quantile(*p), *quantile, tolerance);
            // The table rounds W to 1e-6; the density of the range is below 1.
            check(&format!("P({})", cells[0]), range.cdf(*quantile), *p, tolerance);
        }
        rows += 1;
    }
    assert_eq!(rows, 10);
}

/// Two places: the range is |X|, X ~ Normal(0, √2): d2 = 2/√π, d3 = √(2 − 4/π).
#[test]
fn two_places_in_closed_form() {
    let moments = RangeOfNormals::alike(2, 1.0).unwrap().moments();
    let pi = std::f64::consts::PI;
    check("d2", moments.mean, 2.0 / pi.sqrt(), (1e-12, 0.0));
    check("d3", moments.standard_deviation, (2.0 - 4.0 / pi).sqrt(), (1e-9, 0.0));
}

/// Studentised range q 0.05 for infinite degrees of freedom (published tables, from memory).
#[test]
fn studentised_range_of_infinite_degrees() {
    for (n, q) in [(3, 3.314), (4, 3.633), (5, 3.858), (8, 4.286), (10, 4.474)] {
        let range = RangeOfNormals::alike(n, 1.0).unwrap();
        check(&format!("q({n})"), range.quantile(0.95), q, (0.0, 0.0015));
    }
}

/// Apparent spread of a level ring from reading noise alone, n = 4, σ = 0.05 mm.
#[test]
fn noise_floor_of_four_places() {
    let range = RangeOfNormals::alike(4, 0.05).unwrap();
    check("mean", range.moments().mean, 0.102_937_55, (2e-5, 0.0));
    check("deviation", range.moments().standard_deviation, 0.043_990_4, (2e-5, 0.0));
    check("95 %", range.quantile(0.95), 0.181_658, (2e-5, 0.0));
}
