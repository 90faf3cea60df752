//! What to do with housings that are not in line, and why.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_words::say;

use super::{Action, Deed, Input, Outcome, Reference, Surface};
use crate::definition::joint::Half;

/// What to do, the first thing first.
pub(super) fn actions(input: &Input, outcome: &Outcome) -> Vec<Action> {
    let mut actions = Vec::new();
    not_repeating(outcome, &mut actions);
    not_swept(outcome, &mut actions);
    not_proven(outcome, &mut actions);
    let moves = input.moves.unwrap_or(outcome.of_half);
    let off = outcome.verdict_eccentricity == Some(Verdict::DoesNotConform);
    let tilted = outcome.verdict_angle == Some(Verdict::DoesNotConform);
    if tilted {
        open(outcome, moves, &mut actions);
    }
    if off {
        shift(outcome, moves, &mut actions);
    }
    if off || tilted {
        let why = say!("align-sweep-again-after-each-correction-shim");
        actions.push(action(Deed::MeasureAgain, None, NOWHERE, why));
    }
    out_of_form(outcome, &mut actions);
    actions
}

/// An action, with where it is done and by how much.
fn action(
    deed: Deed,
    half: Option<Half>,
    (angle_deg, amount_mm): (Option<f64>, Option<f64>),
    why: &str,
) -> Action {
    Action { deed, half, angle_deg, amount_mm, why: why.to_owned() }
}

/// All round, by no amount.
const NOWHERE: (Option<f64>, Option<f64>) = (None, None);

fn not_repeating(outcome: &Outcome, actions: &mut Vec<Action>) {
    for sweep in &outcome.sweeps {
        for angle in &sweep.not_repeating_deg {
            let why = say!("align-sweep-does-not-come-back-same");
            let (half, angle) = (Some(sweep.half), Some(*angle));
            actions.push(action(Deed::MeasureAgain, half, (angle, None), why));
        }
    }
}

fn not_swept(outcome: &Outcome, actions: &mut Vec<Action>) {
    if outcome.verdict_eccentricity.is_some() && outcome.eccentricity_mm.is_none() {
        let why = say!("align-there-limit-for-eccentricity-no-rim");
        actions.push(action(Deed::MeasureAgain, Some(outcome.of_half), NOWHERE, why));
    }
    if outcome.verdict_angle.is_some() && outcome.angle_mrad.is_none() {
        let why = say!("align-there-limit-for-angle-no-face");
        actions.push(action(Deed::MeasureAgain, Some(outcome.of_half), NOWHERE, why));
    }
}

fn not_proven(outcome: &Outcome, actions: &mut Vec<Action>) {
    if outcome.verdict != Verdict::NotProven {
        return;
    }
    if outcome.verdict_eccentricity.is_none() && outcome.verdict_angle.is_none() {
        let why = say!("align-there-nothing-judge-by-name-seal");
        actions.push(action(Deed::MeasureAgain, None, NOWHERE, why));
        return;
    }
    let covered = outcome.probability_eccentricity_conforms.is_some()
        || outcome.probability_angle_conforms.is_some();
    if outcome.reading_standard_uncertainty_mm.is_none() {
        let why = say!("align-nothing-known-indicators-uncertainty-name-ga");
        actions.push(action(Deed::MeasureAgain, None, NOWHERE, why));
    } else if covered {
        let why = say!("align-uncertainty-covers-limit-sweep-more-places");
        actions.push(action(Deed::MeasureAgain, None, NOWHERE, why));
    }
}

/// Moves the half that can be moved so that the axes meet.
fn shift(outcome: &Outcome, moves: Half, actions: &mut Vec<Action>) {
    let (Some(off), Some(towards)) = (outcome.eccentricity_mm, outcome.eccentricity_direction_deg)
    else {
        return;
    };
    let angle = if moves == outcome.of_half { opposite(towards) } else { towards };
    let why = match outcome.relative_to {
        Reference::OtherHalf => say!("align-two-housings-not-on-one-axis"),
        Reference::IndicatorAxis => say!("align-housing-not-on-axis-that-indicator"),
    };
    actions.push(action(Deed::Move, Some(moves), (Some(angle), Some(off)), why));
}

/// Opens the gap where the faces stand nearest, by what the sweep shows across its diameter.
fn open(outcome: &Outcome, moves: Half, actions: &mut Vec<Action>) {
    let (Some(mrad), Some(nearest)) = (outcome.angle_mrad, outcome.angle_direction_deg) else {
        return;
    };
    let face = outcome
        .sweeps
        .iter()
        .filter(|sweep| sweep.surface == Surface::Face)
        .filter_map(|sweep| sweep.diameter_mm)
        .fold(0.0, f64::max);
    let why = say!("align-faces-not-square-each-other-stand");
    let amount = Some(mrad * 1e-3 * face);
    actions.push(action(Deed::OpenGap, Some(moves), (Some(nearest), amount), why));
}

fn out_of_form(outcome: &Outcome, actions: &mut Vec<Action>) {
    for sweep in outcome.sweeps.iter().filter(|sweep| sweep.out_of_form) {
        let why = match sweep.surface {
            Surface::Rim | Surface::Bore => {
                say!("align-surface-out-round-by-more-than")
            }
            Surface::Face => {
                say!("align-face-out-flat-by-more-than")
            }
        };
        let (half, amount) = (Some(sweep.half), Some(sweep.left_mm));
        actions.push(action(Deed::LookAtSurface, half, (sweep.second_crest_deg, amount), why));
    }
}

fn opposite(angle_deg: f64) -> f64 {
    if angle_deg < 180.0 { angle_deg + 180.0 } else { angle_deg - 180.0 }
}
