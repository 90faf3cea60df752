//! How far off the curve may be: a second run on a coarser mesh with longer increments.
//!
//! The forces converge with the square of the edge length (contact ends cut edges) and with the
//! square of the increment, so the finer run's error is about `d / (r^2 - 1)`, with `d` the two
//! runs'
//! difference and `r` the ratio of their edges (L.F. Richardson, Phil. Trans. R. Soc. A 210 (1911)
//! 307; from memory). The band is that with a safety factor, for the worst step.

use crate::problem::{Problem, Settings};
use crate::run::{Outcome, Run, SolveError, solve_once};

/// Coarser over finer edge length.
const RATIO: f64 = 1.6;
/// On top of the estimate: differences of single steps scatter, because contact ends move from edge
/// to edge.
const SAFETY: f64 = 1.5;
/// The band is never given narrower than this, percent: what the two runs share (tolerances,
/// the quadratic fields' own error) does not show in their difference.
const LEAST_PERCENT: f64 = 0.1;
/// Steps up to this share of the motion do not count: forces are still near zero there.
const SKIPPED: f64 = 0.1;

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
    fine.error_band_percent = coarse.ok().and_then(|coarse| band_percent(&fine, &coarse));
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

/// The band from the two runs' steps at equal fractions; `None` when the coarse run stopped early
/// or
/// nothing is loaded.
fn band_percent(fine: &Run, coarse: &Run) -> Option<f64> {
    match coarse.outcome {
        Outcome::Complete => {}
        Outcome::Stopped { .. } => return None,
    }
    let mut worst: Option<f64> = None;
    for c in coarse.steps.iter().filter(|s| s.fraction > SKIPPED) {
        let Some(f) = fine.steps.iter().find(|s| (s.fraction - c.fraction).abs() < 1e-9) else {
            continue;
        };
        let load = f.walls.iter().map(|w| w.normal_n_per_mm).fold(0.0, f64::max);
        if load <= 0.0 {
            continue;
        }
        for (a, b) in f.walls.iter().zip(&c.walls) {
            let own = a.force_r_n_per_mm.hypot(a.force_z_n_per_mm);
            if own < 0.01 * load {
                continue;
            }
            let apart = (a.force_r_n_per_mm - b.force_r_n_per_mm)
                .hypot(a.force_z_n_per_mm - b.force_z_n_per_mm);
            worst = Some(worst.unwrap_or(0.0).max(apart / own));
        }
    }
    worst.map(|w| (100.0 * SAFETY * w / (RATIO * RATIO - 1.0)).max(LEAST_PERCENT))
}
