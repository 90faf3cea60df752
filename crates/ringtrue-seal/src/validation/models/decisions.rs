//! Conformity: probabilities, decision limits, and the risks over a production.

use ringtrue_metrology::conformity::risk::{self, GlobalRisk, Inspection};
use ringtrue_metrology::conformity::{self, Levels, Limits, guard_band};
use ringtrue_metrology::distribution::normal_pdf;

use crate::validation::ValidationError;
use crate::validation::inputs::{Inputs, Quantities};

/// Probability of conformity with one limit or two: JCGM 106:2012 clause 7.
pub(super) fn probability_within(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let limits = Limits::new(inputs.optional_number("lower")?, inputs.optional_number("upper")?);
    let limits = limits.ok_or_else(|| inputs.refused("the limits are none"))?;
    let (y, u) = (inputs.number("y")?, inputs.number("u")?);
    Ok(Quantities::default().one("p_conform", conformity::probability_within(y, u, limits)))
}

/// Guard band and decision limits at one upper limit: ISO 14253-1:2017.
pub(super) fn decision_limits(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let (u, p) = (inputs.number("u")?, inputs.number("p")?);
    let levels = Levels::new(p, 1.0 - p).ok_or_else(|| inputs.refused("p is no level"))?;
    let limits = conformity::decision_limits_upper(inputs.number("upper")?, u, levels);
    Ok(Quantities::default()
        .one("g_over_u", guard_band(u, p) / u)
        .one("acceptance_limit", limits.acceptance)
        .one("rejection_limit", limits.rejection))
}

/// Shares wrongly accepted and wrongly rejected: JCGM 106:2012 clause 9.
pub(super) fn global_risk(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    match inputs.optional_text("prior")? {
        None => normal_process(inputs),
        Some("gamma") => gamma_process(inputs),
        Some(other) => Err(inputs.wrong(format!("no prior `{other}` for this model"))),
    }
}

/// A centred normal process between symmetric limits, drawn in by a guard band.
fn normal_process(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let sigma = inputs.number("sigma_process")?;
    let limit = inputs.number("limit")?;
    let within = |half_width: f64| {
        Limits::new(Some(-half_width), Some(half_width)).ok_or_else(|| inputs.refused("no limits"))
    };
    let inspection = Inspection {
        tolerance: within(limit)?,
        acceptance: within(limit - inputs.number("guard")?)?,
        standard_uncertainty: inputs.number("sigma_measure")?,
    };
    let reach = 9.0 * sigma;
    let prior = |y: f64| normal_pdf(y / sigma) / sigma;
    let found = risk::global_risk(prior, -reach..=reach, &inspection);
    Ok(Quantities::default().one("pfa", found.consumer).one("pfr", found.producer))
}

/// A gamma process below one upper limit, and the guard band that holds the consumer's risk.
fn gamma_process(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    const HALVINGS: usize = 40;
    let (shape, rate) = (inputs.number("shape")?, inputs.number("rate")?);
    let upper = inputs.number("upper_tol")?;
    let u = inputs.number("u_m")?;
    let target = inputs.number("target_consumer_risk")?;
    let at_most = |limit| Limits::at_most(limit).ok_or_else(|| inputs.refused("no limit"));
    let tolerance = at_most(upper)?;
    let scale = shape * libm::log(rate) - libm::lgamma(shape);
    let prior = |y: f64| libm::exp(scale + (shape - 1.0) * libm::log(y) - rate * y);
    let risk_at = |accept: f64| -> Result<GlobalRisk, ValidationError> {
        let acceptance = at_most(accept)?;
        let inspection = Inspection { tolerance, acceptance, standard_uncertainty: u };
        // Beyond ten times the limit a share of less than 1e-26 is left.
        Ok(risk::global_risk(prior, 0.0..=10.0 * upper, &inspection))
    };
    let without = risk_at(upper)?;
    let (mut low, mut high) = (0.0, upper);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if risk_at(middle)?.consumer < target {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(Quantities::default()
        .one("p_nonconforming", without.nonconforming)
        .one("consumer_risk_no_guard", without.consumer)
        .one("guard_band", upper - low)
        .one("acceptance_limit", low))
}
