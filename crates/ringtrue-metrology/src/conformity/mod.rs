//! Decisions against a limit with the measurement uncertainty taken in.
//!
//! The three outcomes are those of ISO 14253-1; the probability of conformity is that of
//! JCGM 106:2012 clause 7. [`range`] judges the spread of several places and [`distance`] a
//! distance
//! in the plane, which are not normal.

pub mod distance;
pub mod range;
pub mod risk;

use ringtrue_words::say;
use serde::{Deserialize, Serialize};

use crate::distribution::{normal_cdf, normal_quantile, normal_sf};
use crate::source::Source;

/// Where the rules come from.
pub const SOURCES: &[Source] = &[
    Source::Published("JCGM 106:2012, 7.2 to 7.4 (probability of conformity), 8.3 (guard bands)"),
    Source::Unverified("ISO 14253-1:2017 (decision rule by conformance probability limit)"),
];

/// The outcome of a comparison with a limit. Ordered from best to worst.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// The value is proven to keep the limit.
    Conforms,
    /// The uncertainty covers the limit: measure better or more.
    NotProven,
    /// The value is proven to break the limit.
    DoesNotConform,
}

impl Verdict {
    /// The words used in pages and prose.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Conforms => say!("verdict-conforms"),
            Self::NotProven => say!("verdict-not-proven"),
            Self::DoesNotConform => say!("verdict-does-not-conform"),
        }
    }

    /// The word used in files and ids, the same in each language.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Conforms => "conforms",
            Self::NotProven => "not-proven",
            Self::DoesNotConform => "does-not-conform",
        }
    }
}

impl std::fmt::Display for Verdict {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.words())
    }
}

/// The probabilities at which a verdict is drawn. Invariant: `0 < reject < accept < 1`.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Levels {
    accept: f64,
    reject: f64,
}

impl Levels {
    /// Conforms at 97.5 % and above, does not conform at 2.5 % and below.
    ///
    /// Two-sided 95 % as in ISO 14253-1:2017 and JCGM 106:2012 8.3 (the clause numbers from
    /// memory); a definition file may name other levels.
    pub const DEFAULT: Self = Self { accept: 0.975, reject: 0.025 };

    /// Levels from a file; `None` unless `0 < reject < accept < 1`.
    #[must_use]
    pub fn new(accept: f64, reject: f64) -> Option<Self> {
        (0.0 < reject && reject < accept && accept < 1.0).then_some(Self { accept, reject })
    }

    /// Probability of conformity from which on the verdict is `conforms`.
    #[must_use]
    pub fn accept(self) -> f64 {
        self.accept
    }

    /// Probability of conformity up to which the verdict is `does not conform`.
    #[must_use]
    pub fn reject(self) -> f64 {
        self.reject
    }

    /// The verdict for a probability of conformity.
    #[must_use]
    pub fn verdict(self, probability_conforms: f64) -> Verdict {
        if probability_conforms >= self.accept {
            Verdict::Conforms
        } else if probability_conforms <= self.reject {
            Verdict::DoesNotConform
        } else {
            Verdict::NotProven
        }
    }
}

/// The interval of permissible values: a lower limit, an upper limit, or both.
///
/// Invariant: at least one limit, both finite, lower below or at upper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    lower: Option<f64>,
    upper: Option<f64>,
}

impl Limits {
    /// `None` without any limit, with a limit that is not finite, or with lower above upper.
    #[must_use]
    pub fn new(lower: Option<f64>, upper: Option<f64>) -> Option<Self> {
        let finite = lower.is_none_or(f64::is_finite) && upper.is_none_or(f64::is_finite);
        let some = lower.is_some() || upper.is_some();
        let ordered = lower.zip(upper).is_none_or(|(lower, upper)| lower <= upper);
        (finite && some && ordered).then_some(Self { lower, upper })
    }

    /// At most this.
    #[must_use]
    pub fn at_most(upper: f64) -> Option<Self> {
        Self::new(None, Some(upper))
    }

    /// At least this.
    #[must_use]
    pub fn at_least(lower: f64) -> Option<Self> {
        Self::new(Some(lower), None)
    }

    /// The lower limit.
    #[must_use]
    pub fn lower(self) -> Option<f64> {
        self.lower
    }

    /// The upper limit.
    #[must_use]
    pub fn upper(self) -> Option<f64> {
        self.upper
    }

    /// Whether a value is permissible; the limits themselves are.
    #[must_use]
    pub fn contain(self, value: f64) -> bool {
        self.lower.is_none_or(|lower| value >= lower)
            && self.upper.is_none_or(|upper| value <= upper)
    }
}

/// The probability that the true value keeps the limits: `Φ((T_U − y)/u) − Φ((T_L − y)/u)`.
///
/// `y` measured value, `u` its standard uncertainty (same unit as the limits), no prior knowledge
/// of the true value. `u = 0` is a step that counts the limits as kept; NaN for a NaN, an infinite
/// value or a negative u. JCGM 106:2012 7.2 to 7.4.
#[must_use]
pub fn probability_within(y: f64, u: f64, limits: Limits) -> f64 {
    if !(y.is_finite() && u >= 0.0 && u.is_finite()) {
        return f64::NAN;
    }
    if u == 0.0 {
        return if limits.contain(y) { 1.0 } else { 0.0 };
    }
    let z = |limit: f64| (limit - y) / u;
    match (limits.lower.map(z), limits.upper.map(z)) {
        (None, None) => 1.0,
        (Some(lower), None) => normal_sf(lower),
        (None, Some(upper)) => normal_cdf(upper),
        // The tail that both lie in keeps its digits.
        (Some(lower), Some(upper)) if lower > 0.0 => normal_sf(lower) - normal_sf(upper),
        (Some(lower), Some(upper)) => normal_cdf(upper) - normal_cdf(lower),
    }
}

/// A decision with the probability it was drawn from.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Decision {
    /// Probability that the true value keeps the limits.
    pub probability_conforms: f64,
    /// What follows from it.
    pub verdict: Verdict,
}

/// Judges one measured value; [`probability_within`] and [`Levels::verdict`] in one step.
#[must_use]
pub fn judge(y: f64, u: f64, limits: Limits, levels: Levels) -> Decision {
    let probability_conforms = probability_within(y, u, limits);
    Decision { probability_conforms, verdict: levels.verdict(probability_conforms) }
}

/// Guard band `g = u Φ⁻¹(probability)`: a value at `limit − g` keeps a single upper limit with that
/// probability. JCGM 106:2012 8.3; for 95 % it is 1.645 u.
#[must_use]
pub fn guard_band(u: f64, probability: f64) -> f64 {
    if u == 0.0 { 0.0 } else { u * normal_quantile(probability) }
}

/// The measured values at which a single limit's verdict changes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct DecisionLimits {
    /// Values from here towards the permissible side conform.
    pub acceptance: f64,
    /// Values from here towards the other side do not conform.
    pub rejection: f64,
}

/// Acceptance and rejection limit for a single upper limit.
#[must_use]
pub fn decision_limits_upper(upper: f64, u: f64, levels: Levels) -> DecisionLimits {
    DecisionLimits {
        acceptance: upper - guard_band(u, levels.accept()),
        rejection: upper - guard_band(u, levels.reject()),
    }
}

#[cfg(test)]
mod tests;
