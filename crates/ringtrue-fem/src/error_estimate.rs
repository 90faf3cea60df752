//! How far off the curve may be: a second run on a coarser mesh with longer increments.
//!
//! The forces converge with the square of the edge length (contact ends cut edges) and with the
//! square of the increment, so the finer run's error is about `d / (r^2 - 1)`, with `d` the two
//! runs' difference and `r` the ratio of their edges (L.F. Richardson, Phil. Trans. R. Soc. A 210
//! (1911) 307; from memory). The band is that with a safety factor: of each step by itself, and of
//! the curve for the worst step.

use crate::fields::{StepResult, WallResult};
use crate::problem::{Problem, Settings};
use crate::run::{Outcome, Run, SolveError, solve_once};

/// Coarser over finer edge length.
const RATIO: f64 = 1.6;
/// On top of the estimate: differences of single steps scatter, because contact ends move from edge
/// to edge.
const SAFETY: f64 = 1.5;
/// The same for the band of one step, which rests on a handful of differences.
const STEP_SAFETY: f64 = 2.0;
/// The band is never given narrower than this, percent: what the two runs share (tolerances,
/// the quadratic fields' own error) does not show in their difference.
const LEAST_PERCENT: f64 = 0.1;
/// Steps up to this share of the motion do not count: forces are still near zero there.
const SKIPPED: f64 = 0.1;
/// A step's band is the widest of the coarse run's steps within this many of them: one difference
/// may vanish where two curves cross, and every other fine step has no partner of its own.
const NEIGHBOURS: f64 = 2.5;

/// Solves with an error band.
pub(crate) fn solve_with_band(
    problem: &Problem,
    size: f64,
    settings: &Settings,
) -> Result<Run, SolveError> {
    let mut coarse_problem = problem.clone();
    if problem.steps >= 8 && problem.steps.is_multiple_of(2) {
        coarse_problem.steps /= 2;
    }
    let (fine, coarse) = both(
        || solve_once(problem, size, settings.max_iterations),
        || solve_once(&coarse_problem, RATIO * size, settings.max_iterations),
    );
    let mut fine = fine?;
    // A coarse run that failed gives no band; the fine one stands.
    if let Ok(coarse) = coarse {
        put_band(&mut fine, &coarse);
    }
    Ok(fine)
}

/// Two independent runs, at once where there are threads.
#[cfg(not(target_family = "wasm"))]
fn both<A: Send, B: Send>(a: impl FnOnce() -> A + Send, b: impl FnOnce() -> B + Send) -> (A, B) {
    rayon::join(a, b)
}

#[cfg(target_family = "wasm")]
fn both<A, B>(a: impl FnOnce() -> A, b: impl FnOnce() -> B) -> (A, B) {
    (a(), b())
}

/// Writes the band of each step and that of the curve; none when the coarse run stopped early or
/// nothing is loaded.
fn put_band(fine: &mut Run, coarse: &Run) {
    match coarse.outcome {
        Outcome::Complete => {}
        Outcome::Stopped { .. } => return,
    }
    let apart: Vec<[f64; 2]> = coarse
        .steps
        .iter()
        .filter_map(|c| {
            let f = fine.steps.iter().find(|s| (s.fraction - c.fraction).abs() < 1e-9)?;
            Some([c.fraction, percent_apart(f, c)?])
        })
        .collect();
    let least = |band: f64| band.max(LEAST_PERCENT);
    let reach = NEIGHBOURS / coarse.steps.len().max(1) as f64;
    for step in &mut fine.steps {
        let near = apart.iter().filter(|a| (a[0] - step.fraction).abs() <= reach);
        step.error_band_percent = near.map(|a| STEP_SAFETY * a[1]).reduce(f64::max).map(least);
    }
    let counted = apart.iter().filter(|a| a[0] > SKIPPED);
    fine.error_band_percent = counted.map(|a| SAFETY * a[1]).reduce(f64::max).map(least);
}

/// The error estimated from one step of both runs, percent of the force: that of the wall where it
/// is larger. Of the larger of the two runs' forces: where one has let go and the other holds, no
/// more than the whole force is in doubt.
fn percent_apart(fine: &StepResult, coarse: &StepResult) -> Option<f64> {
    let both = fine.walls.iter().chain(&coarse.walls);
    let load = both.map(|w| w.normal_n_per_mm).fold(0.0, f64::max);
    if load <= 0.0 {
        return None;
    }
    let apart = |(a, b): (&WallResult, &WallResult)| {
        let [a, b] = [a, b].map(|w| [w.force_r_n_per_mm, w.force_z_n_per_mm]);
        // A wall that hardly bears says nothing.
        (larger(a, b) >= 0.01 * load).then(|| share_apart(a, b))
    };
    let worst = fine.walls.iter().zip(&coarse.walls).filter_map(apart).reduce(f64::max)?;
    Some(100.0 * worst / (RATIO * RATIO - 1.0))
}

fn larger(a: [f64; 2], b: [f64; 2]) -> f64 {
    a[0].hypot(a[1]).max(b[0].hypot(b[1]))
}

/// Difference of two forces over the larger of them.
fn share_apart(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1]) / larger(a, b)
}

#[cfg(test)]
mod tests {
    use super::share_apart;

    #[test]
    fn forces_differ_by_the_share_of_the_larger() {
        assert!((share_apart([3.0, 4.0], [3.3, 4.4]) - 0.5 / 5.5).abs() < 1e-12);
        assert_eq!(share_apart([3.0, 4.0], [3.3, 4.4]), share_apart([3.3, 4.4], [3.0, 4.0]));
        // A seal that slides in the finer run alone: all of the force is in doubt, not many times
        // the little that is left.
        assert!((share_apart([0.0, 0.01], [0.0, 5.0]) - 0.998).abs() < 1e-12);
    }
}
