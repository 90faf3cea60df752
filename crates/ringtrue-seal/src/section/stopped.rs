//! Where and why a run went no further, told apart from how it is said: it is kept with the numbers
//! and read later, perhaps in another language.

use ringtrue_fem::{IncrementError, Stop};
use ringtrue_metrology::units::fixed;
use ringtrue_words::say;
use serde::{Deserialize, Serialize, Serializer};

/// Where and why a run went no further.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Stopped {
    /// Share of the whole motion that was reached, percent.
    pub reached_percent: f64,
    /// Why it went no further.
    pub why: Why,
}

/// Why a run went no further.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Why {
    /// So many Newton iterations were allowed, and used up.
    UsedUp(usize),
    /// No equilibrium was found so close ahead.
    Stuck {
        /// The smallest increment that was tried, as a share of the whole motion.
        increment: f64,
        /// What became of it.
        at: Obstacle,
    },
}

/// What became of an increment that found no equilibrium.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Obstacle {
    /// The iteration did not settle within so many steps.
    NotSettled(usize),
    /// A piece of the section would turn inside out.
    InsideOut,
    /// The section would hold more energy than the walls put in.
    EnergyFromNothing,
    /// The equations had no solution that can be trusted.
    NoSolution,
}

impl Stopped {
    /// At a fraction of the whole motion.
    #[must_use]
    pub fn at(fraction: f64, why: Stop) -> Self {
        let why = match why {
            Stop::Budget(iterations) => Why::UsedUp(iterations),
            Stop::Stuck { increment, why } => Why::Stuck { increment, at: Obstacle::of(why) },
        };
        Self { reached_percent: 100.0 * fraction, why }
    }

    /// In words, such as `stopped at 40.0 % of the motion: ...`.
    #[must_use]
    pub fn words(self) -> String {
        let why = match self.why {
            Why::UsedUp(iterations) => say!("stopped-used-up", iterations),
            Why::Stuck { increment, at } => {
                say!("stopped-stuck", share = fixed(100.0 * increment, 4), why = at.words())
            }
        };
        say!("stopped-at", percent = fixed(self.reached_percent, 1), why)
    }

    /// As its words: what whoever reads an answer gets.
    ///
    /// # Errors
    /// Those of the serializer.
    pub(super) fn said<S: Serializer>(
        stopped: &Option<Self>,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        stopped.map(Self::words).serialize(serializer)
    }
}

impl Obstacle {
    fn of(why: IncrementError) -> Self {
        match why {
            IncrementError::NotConverged(steps) => Self::NotSettled(steps),
            IncrementError::Inverted => Self::InsideOut,
            IncrementError::Gained => Self::EnergyFromNothing,
            IncrementError::Linear(_) => Self::NoSolution,
        }
    }

    fn words(self) -> String {
        match self {
            Self::NotSettled(steps) => say!("stopped-not-settled", steps),
            Self::InsideOut => say!("stopped-inside-out").to_owned(),
            Self::EnergyFromNothing => say!("stopped-energy-from-nothing").to_owned(),
            Self::NoSolution => say!("stopped-no-solution").to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use ringtrue_fem::LinearSolveError;

    use super::*;

    #[test]
    fn it_is_kept_apart_from_how_it_is_said() {
        let increment = 1.0 / 512.0 / 40.0;
        let stuck = |why| Stopped::at(0.404, Stop::Stuck { increment, why });
        let every = [
            Stopped::at(0.404, Stop::Budget(2000)),
            stuck(IncrementError::NotConverged(30)),
            stuck(IncrementError::Inverted),
            stuck(IncrementError::Gained),
            stuck(IncrementError::Linear(LinearSolveError::Singular)),
        ];
        let mut said: Vec<String> = every.iter().map(|stopped| stopped.words()).collect();
        assert_eq!(
            said[1],
            "stopped at 40.4 % of the motion: no equilibrium was found within the next 0.0049 % of \
             it: the iteration did not settle within 30 steps"
        );
        assert!(said.iter().all(|words| words.starts_with("stopped at 40.4 % of the motion: ")));
        for stopped in every {
            let kept = serde_json::to_string(&stopped).unwrap();
            assert_eq!(serde_json::from_str::<Stopped>(&kept).unwrap(), stopped);
        }
        said.sort();
        said.dedup();
        assert_eq!(said.len(), every.len());
    }
}
