//! Following the walls from start to end.

use super::predict::{extrapolate, rigid};
use super::{IncrementError, equilibrate, set_touch_downs, take_over};
use crate::assembly::{Assembly, Drag, Load, Model, State};
use crate::fields::{WallResult, evaluate};
use crate::linear_solve::LinearSolveError;

/// What following the path came to.
#[derive(Debug, Clone)]
pub(crate) struct Followed {
    /// Newton iterations, failed increments included.
    pub(crate) iterations: usize,
    pub(crate) increments: usize,
    pub(crate) cut_backs: usize,
    /// Fractions of the motion at which the section jumped to another equilibrium.
    pub(crate) jumps: Vec<f64>,
    /// Where and why it stopped early.
    pub(crate) stopped: Option<(f64, Stop)>,
}

/// Why following the path stopped early.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum Stop {
    /// The smallest increment failed.
    #[error(
        "no equilibrium was found even with an increment of {increment:.1e} of the motion: {why}"
    )]
    Stuck {
        /// Increment as a fraction of the whole motion.
        increment: f64,
        /// What the last attempt failed with.
        why: IncrementError,
    },
    /// The allowed iterations were used up.
    #[error("the allowed {0} Newton iterations were used up")]
    Budget(usize),
}

/// The smallest increment is this share of a requested step.
const SMALLEST: f64 = 1.0 / 512.0;
/// An increment that took at most this many iterations lets the next one grow.
const EASY: usize = 8;

/// Follows the path in even steps; calls `reached(step, state, load)` at each.
pub(crate) fn follow(
    model: &Model<'_>,
    max_iterations: usize,
    reached: &mut dyn FnMut(usize, &State, &Load),
) -> Result<Followed, LinearSolveError> {
    let mut assembly = Assembly::new(model)?;
    let steps = model.problem.steps;
    let step = 1.0 / steps as f64;
    let mut history = vec![State::start(model)];
    let mut scratch = (history[0].clone(), history[0].clone());
    let mut followed =
        Followed { iterations: 0, increments: 0, cut_backs: 0, jumps: Vec::new(), stopped: None };
    let mut increment = step * FIRST;
    for k in 1..=steps {
        let goal = k as f64 / steps as f64;
        loop {
            let from = history[history.len() - 1].fraction;
            let rest = goal - from;
            if rest <= 1e-9 * step {
                break;
            }
            // Two even increments rather than a long and a sliver.
            let length = if rest > 1.001 * increment && rest < 1.5 * increment {
                0.5 * rest
            } else {
                increment.min(rest)
            };
            let to = if length >= rest { goal } else { from + length };
            let (iterations, result) = attempt((model, &mut assembly), &history, to, &mut scratch);
            followed.iterations += iterations;
            match result {
                Ok(()) => {
                    followed.increments += 1;
                    accept(&mut history, &mut scratch.0);
                    if iterations <= EASY {
                        increment = (2.0 * length).max(increment).min(step);
                    }
                }
                Err(why) => {
                    followed.cut_backs += 1;
                    increment = 0.5 * length;
                    if increment < SMALLEST * step {
                        let way = (to, max_iterations.saturating_sub(followed.iterations));
                        let (spent, settled) =
                            settle((model, &mut assembly), &history, way, &mut scratch);
                        followed.iterations += spent;
                        if settled {
                            followed.increments += 1;
                            followed.jumps.push(to);
                            history.clear();
                            history.push(scratch.0.clone());
                            increment = SMALLEST.sqrt() * step;
                            continue;
                        }
                        followed.stopped = Some((from, Stop::Stuck { increment: length, why }));
                        return Ok(followed);
                    }
                }
            }
            if followed.iterations >= max_iterations {
                let at = history[history.len() - 1].fraction;
                followed.stopped = Some((at, Stop::Budget(max_iterations)));
                return Ok(followed);
            }
        }
        let state = &history[history.len() - 1];
        reached(k, state, &Load::at(model, state.fraction));
    }
    Ok(followed)
}

/// The first increment, where contact begins, as a share of a step.
const FIRST: f64 = 0.25;

/// Tries to reach `to`; on success the new state is in `scratch.0`.
fn attempt(
    (model, assembly): (&Model<'_>, &mut Assembly),
    history: &[State],
    to: f64,
    scratch: &mut (State, State),
) -> (usize, Result<(), IncrementError>) {
    let newest = &history[history.len() - 1];
    let (old_load, load) = (Load::at(model, newest.fraction), Load::at(model, to));
    let (guess, spare) = (&mut scratch.0, &mut scratch.1);
    extrapolate(history, to, guess);
    if history.len() == 1 {
        rigid(model, (&old_load, &load), guess);
    }
    set_touch_downs(model, (newest, &old_load), (guess, &load));
    let (iterations, result) = equilibrate(model, assembly, &load, (guess, spare));
    let result = result.and_then(|_| {
        take_over(model, assembly, &load, guess);
        if gains_energy(model, (newest, &old_load), (guess, &load)) {
            return Err(IncrementError::Gained);
        }
        Ok(())
    });
    (iterations, result)
}

/// A section that moves this much further than its walls may have come to another branch.
const FAR: f64 = 5.0;
/// Energy gained over work put in, and over the energy before, that an equilibrium may have: the
/// work is known by its two ends alone.
const GAIN: f64 = 1.1;
const GAIN_LEAST: f64 = 1e-3;

/// Whether a section that has moved far holds more energy than the walls can have put in. Newton's
/// method finds equilibria, not paths to them: a snap only ever loses energy.
fn gains_energy(
    model: &Model<'_>,
    (old, old_load): (&State, &Load),
    (new, load): (&State, &Load),
) -> bool {
    // The hoop tension puts energy in while it comes up.
    if model.problem.prestretch.is_some_and(|p| old.fraction < p.over) {
        return false;
    }
    let apart = |a: &[f64; 2], b: &[f64; 2]| (a[0] - b[0]).hypot(a[1] - b[1]);
    let most = |a: &[[f64; 2]], b: &[[f64; 2]]| {
        a.iter().zip(b).map(|(a, b)| apart(a, b)).fold(0.0, f64::max)
    };
    if most(&new.u, &old.u) <= FAR * most(&load.shifts, &old_load.shifts) {
        return false;
    }
    let before = evaluate(model, old, old_load, 0.0);
    let after = evaluate(model, new, load, 0.0);
    let mut work = 0.0;
    for (k, (to, from)) in load.shifts.iter().zip(&old_load.shifts).enumerate() {
        let by = |wall: &WallResult| {
            wall.force_r_n_per_mm * (to[0] - from[0]) + wall.force_z_n_per_mm * (to[1] - from[1])
        };
        work += by(&before.walls[k]).max(by(&after.walls[k])).max(0.0);
    }
    let energy = before.strain_energy_n_mm_per_mm;
    after.strain_energy_n_mm_per_mm - energy > GAIN * work + GAIN_LEAST * energy
}

/// Drag stiffness to start with over Young's modulus, how it falls and rises, and where it ends.
const DRAG: f64 = 1.0;
const DRAG_FALL: f64 = 0.5;
const DRAG_RISE: f64 = 4.0;
const DRAG_LEAST: f64 = 1e-5;
/// Most equilibria with drag on the way to one without.
const MOST_SETTLINGS: usize = 400;

/// Lets the section jump to another equilibrium with the walls at `to`: it moves against a drag
/// that
/// is taken away bit by bit, as a body in a thick oil would, until it rests without.
///
/// This is how a section passes a lip or lets go of a ramp: between the two states no equilibrium
/// path exists that small increments could follow.
fn settle(
    (model, assembly): (&Model<'_>, &mut Assembly),
    history: &[State],
    (to, most): (f64, usize),
    scratch: &mut (State, State),
) -> (usize, bool) {
    let young = model.problem.material.law().young();
    let mut rest = history[history.len() - 1].clone();
    let mut old_load = Load::at(model, rest.fraction);
    let load = Load::at(model, to);
    let mut stiffness = DRAG * young;
    let mut spent = 0;
    for _ in 0..MOST_SETTLINGS {
        if spent >= most {
            break;
        }
        let last = stiffness < DRAG_LEAST * young;
        assembly.drag = (!last).then(|| Drag { stiffness, from: rest.u.clone() });
        let (guess, spare) = (&mut scratch.0, &mut scratch.1);
        guess.copy_from(&rest);
        guess.fraction = to;
        set_touch_downs(model, (&rest, &old_load), (guess, &load));
        let (iterations, result) = equilibrate(model, assembly, &load, (guess, spare));
        spent += iterations;
        match result {
            Ok(_) => {
                take_over(model, assembly, &load, guess);
                if last {
                    assembly.drag = None;
                    return (spent, true);
                }
                rest.copy_from(guess);
                old_load = load.clone();
                if iterations <= EASY {
                    stiffness *= DRAG_FALL;
                }
            }
            Err(_) if stiffness > 1e4 * young => break,
            Err(_) => stiffness *= DRAG_RISE,
        }
    }
    assembly.drag = None;
    (spent, false)
}

/// Appends the state, keeping the last three.
fn accept(history: &mut Vec<State>, state: &mut State) {
    if history.len() < 3 {
        history.push(state.clone());
    } else {
        history.rotate_left(1);
        if let Some(last) = history.last_mut() {
            last.copy_from(state);
        }
    }
}
