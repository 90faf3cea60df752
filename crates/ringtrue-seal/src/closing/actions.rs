//! What to do about a joint that did not close as it should.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{fixed, in_mm};
use ringtrue_words::say;

use super::{FeelerUncertainty, GapRound, Input};

pub(super) fn actions(input: &Input, gap: Option<&GapRound>, verdict: Verdict) -> Vec<String> {
    let Some(gap) = gap else { return Vec::new() };
    let mut all = Vec::new();
    for place in gap.places.iter().filter(|place| place.stands_off) {
        all.push(say!("close-read-again-at-deg-stands-off", angle = fixed(place.angle_deg, 0)));
    }
    if input.uncertainty == FeelerUncertainty::Unknown {
        all.push(say!("close-state-what-one-reading-good-or").to_owned());
    }
    let (min, max) = (input.gap_limits.0.map(in_mm), input.gap_limits.1.map(in_mm));
    if min.is_none() && max.is_none() {
        all.push(say!("close-put-gaps-limits-into-joints-or").to_owned());
    }
    let outside = |gap: f64| min.is_some_and(|min| gap < min) || max.is_some_and(|max| gap > max);
    if outside(gap.mean_mm) {
        all.push(say!("close-do-not-run-slacken-evenly-part").to_owned());
    } else if outside(gap.widest.gap_mm) || outside(gap.narrowest.gap_mm) {
        all.push(say!(
            "close-slacken-evenly-draw-together-again-side",
            angle = fixed(gap.widest.angle_deg, 0)
        ));
    } else if verdict == Verdict::NotProven && input.uncertainty != FeelerUncertainty::Unknown {
        all.push(say!("close-read-more-places-or-with-finer").to_owned());
    }
    all
}
