//! Values against limits: the mean with its uncertainty, and the rule on the values themselves.

use ringtrue_metrology::conformity::{self, Limits, Verdict};
use ringtrue_metrology::distribution::{normal_quantile, student_t_quantile};
use ringtrue_metrology::units::{Quantity, decimals_for, fixed};
use ringtrue_words::say;

use super::trace::Traced;
use super::{
    CutOffBasis, Ends, Input, InstrumentUncertainty, Measured, Outcome, Rule, Statistics, um,
};
use crate::RoomError;

/// Most values that are typed for one ramp.
const MOST_VALUES: usize = 1000;
/// Roughness beyond this is no roughness of a sealing ramp, um.
const ROUGHEST_UM: f64 = 1e4;

/// Refuses what can't be judged.
pub(super) fn check(input: &Input) -> Result<(), RoomError> {
    let limits = [input.limits.0, input.limits.1];
    if limits.iter().all(Option::is_none) {
        let fits = say!("finish-limit-wanted");
        return Err(RoomError::input(say!("finish-no-limit"), fits));
    }
    let unfit = |length: f64| !(length > 0.0 && length <= ROUGHEST_UM);
    if let Some(limit) = limits.iter().flatten().map(|l| um(*l)).find(|limit| unfit(*limit)) {
        let found = say!("finish-limit-of", limit = limit.to_string());
        return Err(RoomError::input(found, say!("finish-limit-above-zero-wanted")));
    }
    if let (Some(min), Some(max)) = input.limits
        && min.si() > max.si()
    {
        let found = say!("finish-smallest-above-largest", smallest = um(min).to_string());
        return Err(RoomError::input(found, say!("finish-smaller-limit-first")));
    }
    let below_zero = match input.uncertainty {
        InstrumentUncertainty::Share(share) => !(0.0..=1.0).contains(&share),
        InstrumentUncertainty::Absolute(length) => length.si() < 0.0,
        InstrumentUncertainty::Unknown => false,
    };
    if below_zero {
        let fits = say!("finish-uncertainty-wanted");
        return Err(RoomError::input(say!("finish-uncertainty-unfit"), fits));
    }
    let Measured::Values(values) = &input.measured else { return Ok(()) };
    if values.is_empty() || values.len() > MOST_VALUES {
        let found = say!("finish-values", values = values.len());
        return Err(RoomError::input(found, say!("finish-values-wanted", most = MOST_VALUES)));
    }
    match values.iter().position(|value| unfit(um(*value))) {
        Some(index) => {
            let found =
                say!("finish-value-of", number = index + 1, value = um(values[index]).to_string());
            Err(RoomError::input(found, say!("finish-value-above-zero-wanted")))
        }
        None => Ok(()),
    }
}

/// Everything but what only traces show.
pub(super) fn judge(input: &Input, values: &[f64], traced: Option<&Traced>) -> Outcome {
    let statistics = statistics(values);
    let value =
        traced.map_or(statistics.mean_um, |traced| traced.value(input.parameter, input.edition));
    let u = uncertainty(input, values, value, &statistics);
    let (min, max) = (input.limits.0.map(um), input.limits.1.map(um));
    // `check` refused all that makes no limits.
    let decision = Limits::new(min, max)
        .zip(u)
        .map(|(limits, u)| conformity::judge(value, u, limits, input.levels));
    let verdict_value = decision.map_or(Verdict::NotProven, |decision| decision.verdict);
    let rule = input.rule.unwrap_or(Rule::of(input.edition));
    let verdict_rule = judge_rule(input, rule, values);
    let basis = traced.map_or(CutOffBasis::None, |traced| traced.basis);
    let mut verdict = verdict_value.max(verdict_rule);
    if basis == CutOffBasis::TraceTooShort {
        verdict = verdict.max(Verdict::NotProven);
    }
    let outside = |v: &&f64| min.is_some_and(|m| **v < m) || max.is_some_and(|m| **v > m);
    Outcome {
        parameter: input.parameter,
        edition: input.edition.words(),
        rule,
        value_um: value,
        standard_uncertainty_um: u,
        limit_min_um: min,
        limit_max_um: max,
        probability_conforms: decision.map(|decision| decision.probability_conforms),
        verdict_value,
        values: values.len(),
        values_outside: values.iter().filter(outside).count(),
        values_allowed_outside: rule.allowed(values.len()),
        verdict_rule,
        verdict,
        actions: Vec::new(),
        ra_um: None,
        rq_um: None,
        rz_um: None,
        rp_um: None,
        rv_um: None,
        rt_um: None,
        rsk: None,
        rku: None,
        sampling_lengths: Vec::new(),
        statistics,
        cut_off_mm: traced.and_then(|traced| traced.cut_off_mm),
        cut_off_basis: basis,
        ends: traced.map_or(Ends::None, Traced::ends),
        evaluation_length_mm: None,
        profiles: Vec::new(),
    }
}

fn statistics(values: &[f64]) -> Statistics {
    let n = values.len() as f64;
    let mean = values.iter().sum::<f64>() / n;
    let squares: f64 = values.iter().map(|value| (value - mean) * (value - mean)).sum();
    Statistics {
        mean_um: mean,
        standard_deviation_um: (values.len() > 1).then(|| (squares / (n - 1.0)).sqrt()),
        min_um: values.iter().copied().fold(f64::INFINITY, f64::min),
        max_um: values.iter().copied().fold(f64::NEG_INFINITY, f64::max),
    }
}

/// Scatter of the mean, `t s/√n` with Student's factor for few values, and the instrument's own.
fn uncertainty(input: &Input, values: &[f64], value: f64, of: &Statistics) -> Option<f64> {
    let n = values.len() as f64;
    let scatter = of.standard_deviation_um.map(|s| {
        let student = student_t_quantile(0.975, n - 1.0) / normal_quantile(0.975);
        student * s / n.sqrt()
    });
    match (scatter, instrument(input, value)) {
        (Some(scatter), instrument) => Some(libm::hypot(scatter, instrument.unwrap_or(0.0))),
        (None, instrument) => instrument,
    }
}

fn instrument(input: &Input, value: f64) -> Option<f64> {
    match input.uncertainty {
        InstrumentUncertainty::Share(share) => Some(share * value),
        InstrumentUncertainty::Absolute(length) => Some(um(length)),
        InstrumentUncertainty::Unknown => None,
    }
}

/// The rule holds when the first value that may not break the limit keeps it.
///
/// The instrument's error is common to all values, so that the probability is that of this one
/// value. Without a stated instrument the values count as they stand.
fn judge_rule(input: &Input, rule: Rule, values: &[f64]) -> Verdict {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let may = rule.allowed(values.len());
    let (lowest, highest) = (sorted[may], sorted[sorted.len() - 1 - may]);
    let one = |value: f64, limits: Option<Limits>| {
        let u = instrument(input, value).unwrap_or(0.0);
        limits.map(|limits| conformity::judge(value, u, limits, input.levels).verdict)
    };
    let min = input.limits.0.and_then(|min| Limits::at_least(um(min)));
    let max = input.limits.1.and_then(|max| Limits::at_most(um(max)));
    [one(lowest, min), one(highest, max)].into_iter().flatten().max().unwrap_or(Verdict::NotProven)
}

/// What to do, the first thing first.
pub(super) fn actions(outcome: &Outcome) -> Vec<String> {
    let mut actions = Vec::new();
    let mut tell = |text: &str| actions.push(text.to_owned());
    if outcome.cut_off_basis == CutOffBasis::TraceTooShort {
        tell(say!("finish-trace-too-short"));
    }
    if outcome.ends == Ends::WeightsRenormalised {
        tell(say!("finish-no-run-up"));
    }
    if outcome.cut_off_basis == CutOffBasis::BesideTable {
        tell(say!("finish-outside-table"));
    }
    if outcome.verdict == Verdict::NotProven {
        match outcome.standard_uncertainty_um {
            None => tell(say!("finish-no-uncertainty")),
            Some(_) => tell(say!("finish-trace-more-places")),
        }
    }
    if outcome.verdict == Verdict::DoesNotConform {
        let rougher = outcome
            .limit_max_um
            .is_some_and(|max| outcome.value_um > max || outcome.statistics.max_um > max);
        tell(if rougher { say!("finish-too-rough") } else { say!("finish-too-smooth") });
        let shown = |value: f64| fixed(value, decimals_for(outcome.standard_uncertainty_um, 3));
        if outcome.verdict_value != Verdict::DoesNotConform {
            tell(&say!(
                "finish-mean-keeps-limit",
                mean = shown(outcome.value_um),
                outside = outcome.values_outside,
                values = outcome.values,
                allowed = outcome.values_allowed_outside
            ));
        }
    }
    actions
}
