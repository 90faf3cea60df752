//! What to do with a face, and why.

use ringtrue_metrology::conformity::Verdict;

use super::{Input, Outcome, ReadingUncertainty, Shape};

/// What to do, the first thing first.
pub(super) fn actions(input: &Input, outcome: &Outcome) -> Vec<String> {
    let mut actions = Vec::new();
    let mut say = |text: &str| actions.push(text.to_owned());
    if outcome.shape == Shape::CrownOrDish {
        say("Closed bands can be a crown or a dish: press lightly at the edge of the flat. Bands \
             that move towards the pressed place mean a crown (from memory: try it on a face whose \
             shape is known).");
    }
    match outcome.verdict {
        Verdict::Conforms => {}
        Verdict::NotProven => {
            if outcome.limit_bands.is_none() {
                say("There is no limit to judge by: state one in bands or um.");
            } else if input.uncertainty == ReadingUncertainty::Unknown {
                say("Nothing is known of how well the bands were read: state it in bands.");
            } else {
                say(
                    "The uncertainty covers the limit: let flat and face come to one temperature, \
                     make fewer and wider bands, and read again at more azimuths.",
                );
            }
        }
        Verdict::DoesNotConform => {
            say("Clean face and flat, let both come to one temperature, and look again: a warm \
                 hand bends a face by a band.");
            say(match outcome.shape {
                Shape::Saddle => {
                    "The face is a saddle: a ring that is pinched or stands on dirt looks so. Free \
                     it and look again before it is lapped; both rings of a pair stay together."
                }
                Shape::Crown | Shape::Dish | Shape::CrownOrDish | Shape::Wavy | Shape::Flat => {
                    "What stays so needs lapping, or the ring is replaced; both rings of a pair \
                     stay together."
                }
            });
        }
    }
    actions
}
