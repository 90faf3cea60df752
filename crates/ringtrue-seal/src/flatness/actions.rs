//! What to do with a face, and why.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_words::say;

use super::{Input, Outcome, ReadingUncertainty, Shape};

/// What to do, the first thing first.
pub(super) fn actions(input: &Input, outcome: &Outcome) -> Vec<String> {
    let mut actions = Vec::new();
    let mut tell = |text: &str| actions.push(text.to_owned());
    if outcome.shape == Shape::CrownOrDish {
        tell(say!("flat-closed-bands-can-be-crown-or"));
    }
    match outcome.verdict {
        Verdict::Conforms => {}
        Verdict::NotProven => {
            if outcome.limit_bands.is_none() {
                tell(say!("flat-there-no-limit-judge-by-state"));
            } else if input.uncertainty == ReadingUncertainty::Unknown {
                tell(say!("flat-nothing-known-how-well-bands-were"));
            } else {
                tell(say!("flat-uncertainty-covers-limit-let-flat-face"));
            }
        }
        Verdict::DoesNotConform => {
            tell(say!("flat-clean-face-flat-let-both-come"));
            tell(match outcome.shape {
                Shape::Saddle => {
                    say!("flat-face-saddle-ring-that-pinched-or")
                }
                Shape::Crown | Shape::Dish | Shape::CrownOrDish | Shape::Wavy | Shape::Flat => {
                    say!("flat-what-stays-so-needs-lapping-or")
                }
            });
        }
    }
    actions
}
