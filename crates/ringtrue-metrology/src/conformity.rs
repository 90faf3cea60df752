//! Decisions against a limit with the measurement uncertainty taken in.
//!
//! The three outcomes are those of ISO 14253-1; the probability of conformity is that of
//! JCGM 106:2012 clause 7.

use serde::{Deserialize, Serialize};

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
    /// The word used in files, pages and prose.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Conforms => "conforms",
            Self::NotProven => "not proven",
            Self::DoesNotConform => "does not conform",
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn verdicts_are_ordered_from_best_to_worst() {
        assert_eq!(Verdict::Conforms.max(Verdict::NotProven), Verdict::NotProven);
        assert_eq!(Verdict::NotProven.max(Verdict::DoesNotConform), Verdict::DoesNotConform);
    }

    #[test]
    fn a_level_itself_decides() {
        let levels = Levels::DEFAULT;
        assert_eq!(levels.verdict(0.975), Verdict::Conforms);
        assert_eq!(levels.verdict(0.025), Verdict::DoesNotConform);
        assert_eq!(levels.verdict(0.5), Verdict::NotProven);
        assert!(Levels::new(0.5, 0.5).is_none() && Levels::new(f64::NAN, 0.1).is_none());
    }
}
