//! What to do about a joint that did not close as it should.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::fixed;

use super::{FeelerUncertainty, GapRound, Input, mm};

pub(super) fn actions(input: &Input, gap: Option<&GapRound>, verdict: Verdict) -> Vec<String> {
    let Some(gap) = gap else { return Vec::new() };
    let mut all = Vec::new();
    for place in gap.places.iter().filter(|place| place.stands_off) {
        all.push(format!(
            "Read again at {} deg. It stands off the others by more than its uncertainty explains: \
             a burr, dirt, or a slip of the feeler.",
            fixed(place.angle_deg, 0)
        ));
    }
    if input.uncertainty == FeelerUncertainty::Unknown {
        all.push(
            "State what one reading is good to, or name the gauge. Without it nothing is proven."
                .to_owned(),
        );
    }
    let (min, max) = (input.gap_limits.0.map(mm), input.gap_limits.1.map(mm));
    if min.is_none() && max.is_none() {
        all.push("Put the gap's limits into the joint's or the seals' files.".to_owned());
    }
    let outside = |gap: f64| min.is_some_and(|min| gap < min) || max.is_some_and(|max| gap > max);
    if outside(gap.mean_mm) {
        all.push(
            "Do not run it. Slacken evenly and part the halves: stack-up, shims, and whether every \
             part is home, since the mean gap is outside its limits."
                .to_owned(),
        );
    } else if outside(gap.widest.gap_mm) || outside(gap.narrowest.gap_mm) {
        all.push(format!(
            "Slacken evenly and draw together again, the side at {} deg first by the way that is \
             missing: the gap is widest there and closes one-sided.",
            fixed(gap.widest.angle_deg, 0)
        ));
    } else if verdict == Verdict::NotProven && input.uncertainty != FeelerUncertainty::Unknown {
        all.push(
            "Read more places, or with a finer gauge. The uncertainty covers a limit.".to_owned(),
        );
    }
    all
}
