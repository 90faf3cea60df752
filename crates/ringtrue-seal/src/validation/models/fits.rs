//! Least squares: lines, polynomials, planes and waves round a ring.

use ringtrue_metrology::fit::FitError;
use ringtrue_metrology::fit::harmonic::{self, Harmonic, Place, Terms};
use ringtrue_metrology::fit::linear::{self, Design, Fit, Intercept, Weights};

use crate::validation::ValidationError;
use crate::validation::inputs::{Inputs, Quantities};

/// A linear model on a table, its terms written as `1`, `x`, `x2` or `x^3`.
pub(super) fn linear(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let table = inputs.table("data")?;
    let column = |name: &str| {
        table.get(name).ok_or_else(|| inputs.wrong(format!("the table has no column `{name}`")))
    };
    let y = column("y")?;
    let mut columns = Vec::new();
    let mut intercept = Intercept::Absent;
    for (place, term) in inputs.texts("terms")?.into_iter().enumerate() {
        match term {
            // `Design` puts the constant first, so it must be first here.
            "1" | "x^0" if place == 0 => intercept = Intercept::Fitted,
            _ => columns.push(power(inputs, term, &column)?),
        }
    }
    let columns: Vec<&[f64]> = columns.iter().map(Vec::as_slice).collect();
    let fit = Design::new(y.len(), &columns, intercept)
        .and_then(|design| linear::fit(&design, y, Weights::Equal))
        .map_err(|e| inputs.refused(e))?;
    let errors: Option<Vec<f64>> =
        (0..fit.coefficients().len()).map(|j| fit.standard_error(j)).collect();
    let no_scatter = || inputs.refused("the fit has no degrees of freedom");
    Ok(Quantities::default()
        .list("beta", fit.coefficients().to_vec())
        .list("se_beta", errors.ok_or_else(no_scatter)?)
        .one("resid_sd", fit.residual_standard_deviation().ok_or_else(no_scatter)?)
        .one("r_squared", fit.r_squared().ok_or_else(no_scatter)?))
}

fn power<'t>(
    inputs: &Inputs<'_>,
    term: &str,
    column: &impl Fn(&str) -> Result<&'t Vec<f64>, ValidationError>,
) -> Result<Vec<f64>, ValidationError> {
    const HIGHEST: usize = 20;
    let (name, power) = term.split_once('^').unwrap_or((term, "1"));
    let power = power.parse().ok().filter(|power| (1..=HIGHEST).contains(power));
    let power: usize = power.ok_or_else(|| inputs.wrong(format!("no term `{term}`")))?;
    let product = |x: &f64| std::iter::repeat_n(*x, power).product();
    Ok(column(name)?.iter().map(product).collect())
}

/// The calibration line of JCGM 100:2008 H.3, `b = y1 + y2 (t - t0)`.
pub(super) fn straight_line(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let t0 = inputs.number("t0")?;
    let from_t0: Vec<f64> = inputs.numbers("t")?.iter().map(|t| t - t0).collect();
    let fit: Fit = Design::new(from_t0.len(), &[&from_t0], Intercept::Fitted)
        .and_then(|design| {
            linear::fit(&design, &inputs.numbers("b").unwrap_or_default(), Weights::Equal)
        })
        .map_err(|e| inputs.refused(e))?;
    let scatter = fit.residual_standard_deviation();
    let scatter = scatter.ok_or_else(|| inputs.refused("the fit has no degrees of freedom"))?;
    let factor = fit.covariance_factor();
    let (value, spread) =
        fit.predict(&[1.0, inputs.number("t_pred")? - t0]).map_err(|e| inputs.refused(e))?;
    Ok(Quantities::default()
        .one("y1", fit.coefficients()[0])
        .one("s_y1", scatter * factor[(0, 0)].sqrt())
        .one("y2", fit.coefficients()[1])
        .one("s_y2", scatter * factor[(1, 1)].sqrt())
        .one("r_y1_y2", factor[(0, 1)] / (factor[(0, 0)] * factor[(1, 1)]).sqrt())
        .one("s_resid", scatter)
        .one("b_pred", value)
        .one("u_b_pred", scatter * spread))
}

/// The plane through heights round a circle of radius `R_mm`, its slopes as rise over run.
pub(super) fn plane(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let heights = inputs.numbers("height_mm")?;
    let u = inputs.number("u_reading_mm")?;
    let places = places(inputs, &heights, u)?;
    let plane = harmonic::fit(&places, Terms::Plane).map_err(|e| inputs.refused(e))?;
    let radius = inputs.number("R_mm")?;
    let (tilt, covariance) = (plane.first(), plane.covariance());
    let highest = heights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let lowest = heights.iter().copied().fold(f64::INFINITY, f64::min);
    let largest = plane.residuals().iter().fold(0.0, |largest: f64, e| largest.max(e.abs()));
    Ok(Quantities::default()
        .one("mean_height", plane.mean())
        .one("slope_x", plane.coefficients()[1] / radius)
        .one("slope_y", plane.coefficients()[2] / radius)
        .one("tilt_rad", tilt.amplitude() / radius)
        .one("high_point_deg", tilt.phase_rad().to_degrees())
        .one("peak_to_peak_tilt", 2.0 * tilt.amplitude())
        .one("range", highest - lowest)
        .one("rms_resid", root_mean_square(&plane))
        .one("max_abs_resid", largest)
        .one("u_slope_x", covariance[(1, 1)].sqrt() / radius)
        .one("u_slope_y", covariance[(2, 2)].sqrt() / radius)
        .one("cov_xy", covariance[(1, 2)] / (radius * radius))
        .one("u_mean_height", plane.mean_standard_uncertainty())
        .one("u_tilt_rad", tilt.amplitude_standard_uncertainty() / radius))
}

/// Mean and two harmonics through values round a circle.
pub(super) fn second_harmonic(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let places = places(inputs, &inputs.numbers("height")?, 1.0)?;
    let wave = harmonic::fit(&places, Terms::SecondHarmonic).map_err(|e| inputs.refused(e))?;
    let covariance = wave.covariance();
    let factors = (0..Terms::SecondHarmonic.coefficients()).map(|j| covariance[(j, j)].sqrt());
    let beta = wave.coefficients();
    Ok(Quantities::default()
        .one("a0", beta[0])
        .one("a1", beta[1])
        .one("b1", beta[2])
        .one("a2", beta[3])
        .one("b2", beta[4])
        .one("rms_resid", root_mean_square(&wave))
        .list("unit_sigma_factors", factors.collect()))
}

/// A twisted ring read at places that cannot see the twist.
pub(super) fn second_harmonic_alias(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let [a0, a1, b1, a2, b2] = ["a0", "a1", "b1", "a2", "b2"].map(|key| inputs.number(key));
    let (a0, a1, b1, a2, b2) = (a0?, a1?, b1?, a2?, b2?);
    let angles = inputs.numbers("angle_deg")?;
    let height = |degrees: &f64| {
        let angle = degrees.to_radians();
        let first = a1 * libm::cos(angle) + b1 * libm::sin(angle);
        a0 + first + a2 * libm::cos(2.0 * angle) + b2 * libm::sin(2.0 * angle)
    };
    let heights: Vec<f64> = angles.iter().map(height).collect();
    let places = places(inputs, &heights, 0.0)?;
    let plane = harmonic::fit(&places, Terms::Plane).map_err(|e| inputs.refused(e))?;
    let is_refused = match harmonic::fit(&places, Terms::SecondHarmonic) {
        Err(FitError::TooFewRows { .. } | FitError::RankDeficient { .. }) => 1.0,
        Err(other) => return Err(inputs.refused(other)),
        Ok(_) => 0.0,
    };
    let highest = heights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let lowest = heights.iter().copied().fold(f64::INFINITY, f64::min);
    Ok(Quantities::default()
        .list("readings", heights)
        .one("apparent_range", highest - lowest)
        .one("apparent_tilt", 2.0 * plane.first().amplitude())
        .one("second_harmonic_refused", is_refused))
}

fn places(inputs: &Inputs<'_>, values: &[f64], u: f64) -> Result<Vec<Place>, ValidationError> {
    let angles = inputs.numbers("angle_deg")?;
    if angles.len() != values.len() {
        return Err(inputs.wrong("as many heights as angles are needed"));
    }
    let place = |(angle, value): (&f64, &f64)| Place {
        angle_rad: angle.to_radians(),
        value: *value,
        standard_uncertainty: u,
    };
    Ok(angles.iter().zip(values).map(place).collect())
}

fn root_mean_square(wave: &Harmonic) -> f64 {
    let squares: f64 = wave.residuals().iter().map(|e| e * e).sum();
    (squares / wave.residuals().len() as f64).sqrt()
}
