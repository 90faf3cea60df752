//! Uncertainty, sampling, and the distributions that noise makes.

use ringtrue_metrology::distribution::{
    Distribution, Place, RangeOfNormals, Shape, rayleigh_mean, rayleigh_quantile,
};
use ringtrue_metrology::monte_carlo::{Term, sample_sum};
use ringtrue_metrology::uncertain::{
    self, Contribution, combined, coverage_factor, effective_degrees_of_freedom, truncated, uniform,
};

use crate::gap_stack::{DRAWS, SEED};
use crate::validation::ValidationError;
use crate::validation::inputs::{Inputs, Quantities};

/// Repeated readings of one quantity: JCGM 100:2008 4.2.
pub(super) fn type_a(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let found = uncertain::type_a(&inputs.numbers("readings")?).map_err(|e| inputs.refused(e))?;
    Ok(Quantities::default()
        .one("mean", found.mean)
        .one("s", found.standard_deviation)
        .one("u_mean", found.standard_uncertainty))
}

/// The end gauge of JCGM 100:2008 H.1, `l = l_s + d - l_s (δα θ + α_s δθ)` at `δα = δθ = 0`.
pub(super) fn end_gauge(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let length = inputs.number("l_s_nm")?;
    let part = |sensitivity: f64, u: &str, freedom: &str| {
        Ok(Contribution {
            sensitivity,
            standard_uncertainty: inputs.number(u)?,
            degrees_of_freedom: inputs.number(freedom)?,
        })
    };
    let contributions = [
        part(1.0, "u_ls_nm", "nu_ls")?,
        part(1.0, "u_d_nm", "nu_d")?,
        part(-length * inputs.number("theta_bar")?, "u_delta_alpha", "nu_delta_alpha")?,
        part(-length * inputs.number("alpha_s")?, "u_delta_theta", "nu_delta_theta")?,
    ];
    let u = combined(&contributions);
    let freedom = effective_degrees_of_freedom(&contributions);
    let k = coverage_factor(inputs.number("coverage")?, truncated(freedom));
    Ok(Quantities::default()
        .one("l_nm", length + inputs.number("d_nm")?)
        .one("u_c_nm", u)
        .one("nu_eff", freedom)
        .one("k99", k)
        .one("U99_nm", k * u))
}

/// Two rectangles that dominate: EA-4/02 M supplement 2, S10.
pub(super) fn trapezoidal_coverage(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let half_widths = [
        inputs.number("a_reference_um")?,
        inputs.number("a_temperature_um")?,
        inputs.number("a_resolution_um")?,
        inputs.number("a_mechanical_um")?,
    ];
    let u = half_widths.map(uniform);
    let total = combined(&u.map(|u| Contribution::known(1.0, u)));
    let [_, _, resolution, mechanical] = half_widths;
    let k = uncertain::trapezoidal_coverage_factor(resolution, mechanical, inputs.number("p")?);
    Ok(Quantities::default()
        .one("u_reference", u[0])
        .one("u_temperature", u[1])
        .one("u_resolution", u[2])
        .one("u_mechanical", u[3])
        .one("u_c_um", total)
        .one("k", k)
        .one("U_um", k * total))
}

/// A sum of like quantities by sampling, with its shortest coverage interval: JCGM 101:2008 9.2.
pub(super) fn sampled_sum(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let distributions: Vec<Distribution> = match inputs.text("dist")? {
        "normal" => (inputs.numbers("u")?.into_iter())
            .map(|u| Distribution::Normal { centre: 0.0, standard_deviation: u })
            .collect(),
        "rectangular" => {
            let one = Shape::Uniform.of_tolerance(0.0, inputs.number("half_width")?);
            vec![one; inputs.count("count")? as usize]
        }
        other => return Err(inputs.wrong(format!("no distribution `{other}` for this model"))),
    };
    let terms: Vec<Term> = (distributions.into_iter())
        .map(|distribution| Term { sensitivity: 1.0, distribution })
        .collect();
    let sample = sample_sum(&terms, DRAWS, SEED).map_err(|e| inputs.refused(e))?;
    let interval = sample.shortest_interval(inputs.number("p")?);
    let (low, high) = interval.ok_or_else(|| inputs.refused("p must lie between 0 and 1"))?;
    Ok(Quantities::default()
        .one("y", sample.mean())
        .one("u_y", sample.standard_deviation())
        .one("lo", low)
        .one("hi", high))
}

/// The tilt that noise alone shows on a level ring.
pub(super) fn rayleigh(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let n = f64::from(inputs.count("n")?);
    let sigma = inputs.number("sigma_mm")? * (2.0 / n).sqrt();
    Ok(Quantities::default()
        .one("sigma_coeff", sigma)
        .one("mean_amplitude", rayleigh_mean(sigma))
        .one("p95_amplitude", rayleigh_quantile(0.95, sigma)))
}

/// The range that noise alone shows on a level ring.
pub(super) fn range_of_normals(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let range = level_ring(inputs, inputs.count("n")?, inputs.number("sigma_mm")?)?;
    let moments = range.moments();
    Ok(Quantities::default()
        .one("mean_range", moments.mean)
        .one("std_range", moments.standard_deviation)
        .one("p95_range", range.quantile(0.95)))
}

/// Quantiles of the range of n standard normal readings.
pub(super) fn range_quantiles(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let p = inputs.number("p")?;
    let quantile = |n: f64| Ok(level_ring(inputs, n as u32, 1.0)?.quantile(p));
    let quantiles = inputs.numbers("n")?.into_iter().map(quantile);
    Ok(Quantities::default().list("q", quantiles.collect::<Result<_, ValidationError>>()?))
}

fn level_ring(
    inputs: &Inputs<'_>,
    places: u32,
    sigma: f64,
) -> Result<RangeOfNormals, ValidationError> {
    let place = Place { value: 0.0, standard_uncertainty: sigma };
    RangeOfNormals::new(&vec![place; places as usize]).map_err(|e| inputs.refused(e))
}
