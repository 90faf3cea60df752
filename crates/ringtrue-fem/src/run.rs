//! The door: a problem in, a curve out.

use crate::assembly::{Load, Model, State};
use crate::fields::{StepResult, evaluate};
use crate::linear_solve::LinearSolveError;
use crate::mesh::{Mesh, MeshError, mesh_section};
use crate::newton::{Followed, Stop, follow};
use crate::problem::{ErrorEstimate, Problem, Settings, Shape, Symmetry};

/// Why a problem was refused.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SolveError {
    /// The problem's values do not make sense.
    #[error("{0}")]
    Problem(String),
    /// The section could not be meshed.
    #[error(transparent)]
    Mesh(#[from] MeshError),
    /// The system could not be set up.
    #[error(transparent)]
    Linear(#[from] LinearSolveError),
}

/// How a run ended.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Outcome {
    /// All steps were reached.
    Complete,
    /// The run stopped early; the steps up to there stand, and no verdict may be drawn.
    Stopped {
        /// Fraction of the whole motion that was reached.
        fraction: f64,
        /// Why it went no further.
        why: Stop,
    },
}

/// A solved problem.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// The undeformed mesh.
    pub mesh: Mesh,
    /// The steps that were reached.
    pub steps: Vec<StepResult>,
    /// Whether all were.
    pub outcome: Outcome,
    /// Newton iterations, failed increments included.
    pub newton_iterations: usize,
    /// Increments that reached equilibrium, and those that were cut back.
    pub increments: usize,
    /// See `increments`.
    pub cut_backs: usize,
    /// Fractions of the motion at which the section jumped to another equilibrium: the curve has a
    /// step there that no finer run takes away.
    pub jumps: Vec<f64>,
    /// Half-width of the band about the curve's forces that should hold the exact curve, percent of
    /// the force at each step (largest over the steps past the first tenth of the motion).
    pub error_band_percent: Option<f64>,
}

/// Boundary edges round a section by default.
const EDGES: f64 = 120.0;

/// Solves `problem`.
///
/// # Errors
/// [`SolveError`] when the problem cannot be set up. A run that cannot go on is not an error: it
/// returns the steps it has, with [`Outcome::Stopped`].
pub fn solve(problem: &Problem, settings: &Settings) -> Result<Run, SolveError> {
    if let Some(defect) = problem.defect() {
        return Err(SolveError::Problem(defect));
    }
    let size = settings.mesh_size.unwrap_or_else(|| default_size(problem));
    if !(size.is_finite() && size > 0.0) {
        return Err(SolveError::Problem(format!("the mesh size is {size} mm, not positive")));
    }
    match settings.error_estimate {
        ErrorEstimate::None => solve_once(problem, size, settings.max_iterations),
        ErrorEstimate::TwoMeshes => crate::error_estimate::solve_with_band(problem, size, settings),
    }
}

/// Length of the boundary edges where [`Settings::mesh_size`] gives none, mm.
#[must_use]
pub fn default_size(problem: &Problem) -> f64 {
    match problem.section.shape {
        Shape::Round { diameter } => std::f64::consts::PI * diameter / EDGES,
        Shape::Polygon { .. } => problem.section.extent() / 16.0,
    }
}

/// One run on one mesh.
pub(crate) fn solve_once(
    problem: &Problem,
    size: f64,
    max_iterations: usize,
) -> Result<Run, SolveError> {
    let mesh = mesh_section(&problem.section, size, &first_touches(problem))?;
    let model = Model::new(problem, &mesh);
    let mut steps: Vec<StepResult> = Vec::with_capacity(problem.steps);
    let mut keep = |_: usize, state: &State, load: &Load| {
        let last_roll = steps.last().map_or(0.0, |s| s.roll_deg);
        let mut step = evaluate(&model, state, load, last_roll);
        step.wall_work_n_mm_per_mm = work(problem, steps.last(), &step);
        steps.push(step);
    };
    let Followed { iterations, increments, cut_backs, jumps, stopped } =
        follow(&model, max_iterations, &mut keep)?;
    Ok(Run {
        steps,
        outcome: match stopped {
            None => Outcome::Complete,
            Some((fraction, why)) => Outcome::Stopped { fraction, why },
        },
        newton_iterations: iterations,
        increments,
        cut_backs,
        jumps,
        error_band_percent: None,
        mesh,
    })
}

/// Work of the walls up to `step`, by the trapezoidal rule; the section pushes back on the walls.
fn work(problem: &Problem, before: Option<&StepResult>, step: &StepResult) -> f64 {
    let from = before.map_or(0.0, |b| b.fraction);
    let mut sum = before.map_or(0.0, |b| b.wall_work_n_mm_per_mm);
    for (k, wall) in problem.walls.iter().enumerate() {
        let (start, end) = (wall.displacement(from), wall.displacement(step.fraction));
        let force = |s: &StepResult| [s.walls[k].force_r_n_per_mm, s.walls[k].force_z_n_per_mm];
        let (old, new) = (before.map_or([0.0; 2], force), force(step));
        for c in 0..2 {
            sum += 0.5 * (old[c] + new[c]) * (end[c] - start[c]);
        }
    }
    sum
}

/// Directions from the centroid in which a round section comes closest to each wall.
fn first_touches(problem: &Problem) -> Vec<f64> {
    let centre = match problem.symmetry {
        Symmetry::Axisymmetric => [problem.section.mean_radius.unwrap_or(0.0), 0.0],
        Symmetry::PlaneStrain => [0.0, 0.0],
    };
    problem
        .walls
        .iter()
        .filter_map(|wall| {
            let surface = crate::contact::Surface::new(wall, 0.0).ok()?;
            let standing = surface.nearest(centre)?;
            Some((-standing.normal[1]).atan2(-standing.normal[0]))
        })
        .collect()
}
