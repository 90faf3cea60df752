//! Runs for studies: complete or refused, with their own error band.

use ringtrue_fem::fields::StepResult;
use ringtrue_fem::reference::SECTION;
use ringtrue_fem::{ErrorEstimate, Outcome, Problem, Run, Settings, solve};

use super::table::Data;
use super::{Point, ValidationError};
use crate::section::Stopped;

/// A run with its band.
pub(super) struct Solved {
    pub(super) run: Run,
    /// Half-width, percent of the force.
    pub(super) band_percent: f64,
}

/// Mesh size that gives a round section of the reference so many boundary edges.
pub(super) fn edges(count: f64) -> Option<f64> {
    Some(std::f64::consts::PI * SECTION / count)
}

/// Solves on the given mesh, and on a coarser one for the band.
pub(super) fn banded(
    data: &Data<'_>,
    problem: &Problem,
    mesh_size: Option<f64>,
) -> Result<Solved, ValidationError> {
    let settings = Settings { mesh_size, ..Settings::default() };
    let run = complete(data, problem, &settings)?;
    let band_percent =
        run.error_band_percent.ok_or_else(|| data.refused("the coarser run gave no error band"))?;
    Ok(Solved { run, band_percent })
}

/// Solves on one mesh.
pub(super) fn single(
    data: &Data<'_>,
    problem: &Problem,
    mesh_size: Option<f64>,
) -> Result<Run, ValidationError> {
    let settings =
        Settings { mesh_size, error_estimate: ErrorEstimate::None, ..Settings::default() };
    complete(data, problem, &settings)
}

fn complete(
    data: &Data<'_>,
    problem: &Problem,
    settings: &Settings,
) -> Result<Run, ValidationError> {
    let run = solve(problem, settings).map_err(|why| data.refused(why))?;
    match run.outcome {
        Outcome::Complete => Ok(run),
        Outcome::Stopped { fraction, why } => Err(data.refused(Stopped::at(fraction, why).words())),
    }
}

/// The step at a fraction of the whole motion.
pub(super) fn at_fraction<'r>(
    data: &Data<'_>,
    run: &'r Run,
    fraction: f64,
) -> Result<&'r StepResult, ValidationError> {
    let found = run.steps.iter().find(|step| (step.fraction - fraction).abs() < 1e-9);
    found.ok_or_else(|| data.refused(format!("no step at {fraction} of the motion")))
}

/// A quantity of every step over another.
pub(super) fn curve(
    run: &Run,
    x: impl Fn(&StepResult) -> f64,
    y: impl Fn(&StepResult) -> f64,
) -> Vec<[f64; 2]> {
    run.steps.iter().map(|step| [x(step), y(step)]).collect()
}

/// What a reference says at a place, and how far off it may be.
#[derive(Clone, Copy)]
pub(super) struct Expected {
    pub(super) at: f64,
    pub(super) value: f64,
    pub(super) theirs: f64,
}

/// The reference beside what was computed, with our band as a share in percent.
pub(super) fn point(expected: Expected, computed: f64, band_percent: f64) -> Point {
    Point {
        at: expected.at,
        expected: expected.value,
        computed,
        theirs: expected.theirs,
        ours: 0.01 * band_percent * computed.abs(),
    }
}
