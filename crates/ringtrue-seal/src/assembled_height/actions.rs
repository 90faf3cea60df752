//! What to do with a ring that is not yet right, and why.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::distribution::normal_quantile;
use ringtrue_words::say;

use super::budget::Budget;
use super::places::{Spot, midway};
use super::{Action, Deed, LoadRingKind, Outcome, Tries};

/// More rounds than this are no help: a finer gauge is.
const MOST_ROUNDS_ASKED: f64 = 9.0;

/// What the actions are drawn from.
pub(super) struct Case<'c> {
    pub(super) outcome: &'c Outcome,
    pub(super) spots: &'c [Spot],
    pub(super) budget: &'c Budget,
    pub(super) load_ring: LoadRingKind,
    pub(super) tries: Option<Tries>,
    /// Indices of the places that stand off.
    pub(super) suspects: &'c [usize],
}

/// What to do, the first thing first.
pub(super) fn actions(case: &Case<'_>) -> Vec<Action> {
    let mut actions = Vec::new();
    missed_extremes(case, &mut actions);
    disagreeing_rounds(case, &mut actions);
    not_proven(case, &mut actions);
    let over = case.outcome.verdict_range == Some(Verdict::DoesNotConform);
    let height_off = case.outcome.verdict_mean_height == Some(Verdict::DoesNotConform);
    if !over && !height_off {
        return actions;
    }
    if let Some(tries) = case.tries.filter(|tries| tries.this >= tries.most) {
        let why =
            say!("height-this-was-try-take-half-out", attempt = tries.this, most = tries.most);
        actions.push(deed(Deed::TakeOut, None, None, why));
        return actions;
    }
    if over {
        correct_range(case, &mut actions);
    }
    if height_off {
        correct_height(case, &mut actions);
    }
    if actions.last().is_some_and(|last| last.deed != Deed::TakeOut) {
        let why = say!("height-read-every-place-again-after-each");
        actions.push(deed(Deed::MeasureAgain, None, None, why));
    }
    actions
}

fn deed(deed: Deed, angle: Option<f64>, amount: Option<f64>, why: impl Into<String>) -> Action {
    Action { deed, angle_deg: angle, amount_mm: amount, why: why.into() }
}

/// The places conform, but the plane through them rises above the limit between them.
fn missed_extremes(case: &Case<'_>, actions: &mut Vec<Action>) {
    let outcome = case.outcome;
    if outcome.range_limit_mm.is_none_or(|limit| outcome.tilt_mm <= limit) {
        return;
    }
    if outcome.verdict_range != Some(Verdict::Conforms) {
        return;
    }
    let sides = [
        (say!("height-highest-lies-between-places"), outcome.high_side_deg),
        (say!("height-lowest-lies-between-places"), opposite(outcome.high_side_deg)),
    ];
    for (why, angle) in sides {
        actions.push(deed(Deed::MeasureAgain, Some(midway(case.spots, angle)), None, why));
    }
}

fn disagreeing_rounds(case: &Case<'_>, actions: &mut Vec<Action>) {
    for index in &case.budget.disagreeing {
        let spot = &case.spots[*index];
        let why = say!("height-rounds-here-differ-by-more-than");
        actions.push(deed(Deed::MeasureAgain, Some(spot.angle_deg), None, why));
    }
    if case.budget.rounds_disagree && case.budget.disagreeing.is_empty() {
        let why = say!("height-rounds-differ-by-more-than-gauge");
        actions.push(deed(Deed::MeasureAgain, None, None, why));
    }
}

/// The uncertainty covers a limit: where more readings would settle it.
fn not_proven(case: &Case<'_>, actions: &mut Vec<Action>) {
    let outcome = case.outcome;
    let range = outcome.verdict_range == Some(Verdict::NotProven);
    let height = outcome.verdict_mean_height == Some(Verdict::NotProven);
    if !range && !height {
        return;
    }
    let Some(one_reading) = case.budget.one_reading else {
        let why = say!("height-nothing-known-gauges-uncertainty-name-gauge");
        actions.push(deed(Deed::MeasureAgain, None, None, why));
        return;
    };
    if range {
        let why = more_rounds(outcome, one_reading);
        for index in extremes(case.spots) {
            let angle = Some(case.spots[index].angle_deg);
            actions.push(deed(Deed::MeasureAgain, angle, None, why.clone()));
        }
    }
    if height {
        let why = if case.budget.repeating > one_reading {
            say!("height-gauges-calibration-leaves-mean-height-open")
        } else {
            say!("height-uncertainty-mean-height-covers-limit-read")
        };
        actions.push(deed(Deed::MeasureAgain, None, None, why));
    }
}

/// How many rounds at the highest and lowest place would settle the range, if it stays as read.
fn more_rounds(outcome: &Outcome, one_reading: f64) -> String {
    let limit = outcome.range_limit_mm.unwrap_or(outcome.range_mm);
    let margin = (limit - outcome.range_mm).abs();
    let spread = normal_quantile(0.975) * one_reading * 2f64.sqrt();
    let rounds = libm::ceil(spread * spread / (margin * margin));
    if rounds <= MOST_ROUNDS_ASKED {
        say!("height-too-near-read-again", rounds = rounds.max(2.0).to_string())
    } else {
        say!("height-too-near-finer-gauge").to_owned()
    }
}

/// Indices of the highest and the lowest place.
fn extremes(spots: &[Spot]) -> [usize; 2] {
    let by_height = |a: &usize, b: &usize| spots[*a].height_mm.total_cmp(&spots[*b].height_mm);
    let highest = (0..spots.len()).max_by(by_height).unwrap_or_default();
    let lowest = (0..spots.len()).min_by(by_height).unwrap_or_default();
    [highest, lowest]
}

fn correct_range(case: &Case<'_>, actions: &mut Vec<Action>) {
    let outcome = case.outcome;
    let limit = outcome.range_limit_mm.unwrap_or(0.0);
    // Peak to peak of the second harmonic: what is left when the tilt is gone.
    let saddle = outcome.second_harmonic_mm.map_or(0.0, |amplitude| 2.0 * amplitude);
    if case.suspects.is_empty() && saddle > limit {
        let why = say!("height-ring-sits-like-saddle-high-at");
        actions.push(deed(Deed::TakeOut, None, None, why));
        return;
    }
    for index in case.suspects {
        let (angle, off) = (case.spots[*index].angle_deg, outcome.residuals_mm[*index]);
        actions.push(stand_off(case.load_ring, angle, off));
    }
    if outcome.tilt_mm > limit || case.suspects.is_empty() {
        level(case, actions);
    }
    if !case.suspects.is_empty() || case.load_ring == LoadRingKind::ConicalWasher {
        actions.push(deed(Deed::TakeOut, None, None, springs_back(case.load_ring)));
    }
}

/// One place stands off the plane of the others.
fn stand_off(load_ring: LoadRingKind, angle: f64, off: f64) -> Action {
    let amount = Some(off.abs());
    match (load_ring, off > 0.0) {
        (LoadRingKind::ConicalWasher, true) => {
            let why = say!("height-this-place-alone-stands-proud-washers");
            deed(Deed::Press, Some(angle), amount, why)
        }
        (LoadRingKind::ConicalWasher, false) => {
            let why = say!("height-this-place-alone-stands-low-washers");
            deed(Deed::TakeOut, Some(angle), None, why)
        }
        (LoadRingKind::Toric | LoadRingKind::Unknown, true) => {
            let why = say!("height-this-place-alone-stands-proud-as");
            deed(Deed::Press, Some(angle), amount, why)
        }
        (LoadRingKind::Toric | LoadRingKind::Unknown, false) => {
            let why = say!("height-this-place-alone-stands-low-as");
            deed(Deed::Lift, Some(angle), amount, why)
        }
    }
}

fn springs_back(load_ring: LoadRingKind) -> &'static str {
    match load_ring {
        LoadRingKind::ConicalWasher => {
            say!("height-what-springs-back-folded-or-sits")
        }
        LoadRingKind::Toric | LoadRingKind::Unknown => {
            say!("height-if-that-place-comes-back-load")
        }
    }
}

/// Presses the high side down and lifts the low side, half of the tilt each.
fn level(case: &Case<'_>, actions: &mut Vec<Action>) {
    let (high, half) = (case.outcome.high_side_deg, case.outcome.tilt_mm / 2.0);
    if case.load_ring == LoadRingKind::ConicalWasher {
        let why = say!("height-ring-cocked-highest-here-washers-edge");
        actions.push(deed(Deed::Press, Some(high), Some(case.outcome.tilt_mm), why));
        return;
    }
    let why = say!("height-ring-cocked-highest-here-press-down");
    actions.push(deed(Deed::Press, Some(high), Some(half), why));
    let why = say!("height-ring-lowest-here-lift-with-fingers");
    actions.push(deed(Deed::Lift, Some(opposite(high)), Some(half), why));
}

/// The mean height is off: all round.
fn correct_height(case: &Case<'_>, actions: &mut Vec<Action>) {
    let outcome = case.outcome;
    let (least, most) = (outcome.mean_height_min_mm, outcome.mean_height_max_mm);
    let target = match (least, most) {
        (Some(least), Some(most)) => f64::midpoint(least, most),
        (Some(one), None) | (None, Some(one)) => one,
        (None, None) => return,
    };
    let off = outcome.mean_height_mm - target;
    let amount = Some(off.abs());
    let washer = case.load_ring == LoadRingKind::ConicalWasher;
    actions.push(if off > 0.0 {
        let why = say!("height-too-proud");
        deed(Deed::Press, None, amount, why)
    } else if washer {
        let why = say!("height-too-low-washer");
        deed(Deed::TakeOut, None, None, why)
    } else {
        let why = say!("height-too-low-lift");
        deed(Deed::Lift, None, amount, why)
    });
}

fn opposite(angle_deg: f64) -> f64 {
    if angle_deg < 180.0 { angle_deg + 180.0 } else { angle_deg - 180.0 }
}
