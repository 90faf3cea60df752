//! Risks of wrong decisions over a whole production, with knowledge of how its parts scatter.
//!
//! The question: of all parts made and measured, which share is wrongly accepted (consumer's risk)
//! and which wrongly rejected (producer's risk)?
//!
//! ```text
//! R_C = ∫ outside the limits  g0(y) P(accept | y) dy
//! R_P = ∫ inside the limits   g0(y) (1 − P(accept | y)) dy
//! ```
//!
//! g0 is the density of the true values before measuring, P(accept | y) the probability that a
//! measured value `y + Normal(0, u)` falls within the acceptance interval.
//!
//! Valid where g0 is known from other parts; a verdict on one joint does not use it.

use std::ops::RangeInclusive;

use super::{Limits, probability_within};
use crate::distribution::integrate;
use crate::source::Source;

/// Where the integrals come from.
pub const SOURCES: &[Source] = &[Source::Unverified("JCGM 106:2012, 9.5 (global risks)")];

/// How a production is measured and decided.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Inspection {
    /// What is permissible.
    pub tolerance: Limits,
    /// Which measured values are accepted.
    pub acceptance: Limits,
    /// Standard uncertainty of the measurement, `> 0`.
    pub standard_uncertainty: f64,
}

/// Shares of all parts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GlobalRisk {
    /// Parts outside the limits.
    pub nonconforming: f64,
    /// Parts outside the limits that are accepted.
    pub consumer: f64,
    /// Parts inside the limits that are rejected.
    pub producer: f64,
}

/// The three shares for a production whose true values have the density `prior`.
///
/// `support` is where the density is not negligible; it is integrated there in steps of the
/// measurement's standard uncertainty, or a 256th of the support if that is finer, at most 4096.
/// The density must be smooth on that scale.
#[must_use]
pub fn global_risk(
    prior: impl Fn(f64) -> f64,
    support: RangeInclusive<f64>,
    inspection: &Inspection,
) -> GlobalRisk {
    let (from, to) = (*support.start(), *support.end());
    let width = to - from;
    let step = (inspection.standard_uncertainty.min(width / 256.0)).max(width / 4096.0);
    let mut cuts = vec![from];
    for limit in [inspection.tolerance.lower(), inspection.tolerance.upper()] {
        cuts.extend(limit.filter(|x| *x > from && *x < to));
    }
    cuts.push(to);
    let mut risk = GlobalRisk { nonconforming: 0.0, consumer: 0.0, producer: 0.0 };
    let accept =
        |y: f64| probability_within(y, inspection.standard_uncertainty, inspection.acceptance);
    for cut in cuts.windows(2) {
        let (from, to) = (cut[0], cut[1]);
        let share = integrate(from, to, step, &prior);
        let accepted = integrate(from, to, step, |y| prior(y) * accept(y));
        if inspection.tolerance.contain(0.5 * (from + to)) {
            risk.producer += share - accepted;
        } else {
            risk.nonconforming += share;
            risk.consumer += accepted;
        }
    }
    risk
}
