//! A solved section as plain data: what the rooms that squeeze a load ring share, and what the
//! drawings are made of.

use std::collections::BTreeMap;

use ringtrue_fem::fields::{StepResult, WallResult};
use ringtrue_fem::{Outcome, Problem, Run, Settings, SolveError, solve};
use ringtrue_words::say;
use serde::{Deserialize, Serialize};

use crate::RoomError;

mod stopped;

pub use stopped::{Obstacle, Stopped, Why};

/// Version of the solver's numbers: a kept curve of another version is solved again. Raise it with
/// every change of the mechanics that changes a digit.
pub const SOLVER_VERSION: u32 = 5;

/// A solved section: one number a step and wall, and the deformed mesh at each step.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SolvedSection {
    /// The steps that were reached.
    pub steps: Vec<Step>,
    /// Nodes of the mesh.
    pub nodes: usize,
    /// Elements of the mesh.
    pub elements: usize,
    /// Newton iterations, failed increments included.
    pub newton_iterations: usize,
    /// Half-width of the band about the forces that should hold the exact curve, percent: the
    /// widest past the first tenth of the motion. Each step has its own besides.
    pub error_band_percent: Option<f64>,
    /// Length over which `peak_mean_mpa` is averaged: a tenth of the section's extent.
    pub peak_over_mm: f64,
    /// Were all steps reached? No verdict may be drawn where they were not.
    pub complete: bool,
    /// Where and why it went no further, where it did not.
    #[serde(rename = "reason", serialize_with = "Stopped::said")]
    pub stopped: Option<Stopped>,
    /// The mesh at each step, for drawing.
    #[serde(skip)]
    pub picture: Picture,
}

/// One step. Forces are what a wall exerts on the section, per mm of circumference at the section's
/// undeformed mean radius (in plane strain per mm of length).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Step {
    /// Fraction of the whole motion, to 1.
    pub fraction: f64,
    /// That fraction of the longest motion.
    pub travel_mm: f64,
    /// The walls by name.
    pub walls: BTreeMap<String, WallStep>,
    /// Area mean of the rotation; positive when the inner side moves to +z.
    pub roll_deg: f64,
    /// Area mean of the displacement along r.
    pub centroid_dr_mm: f64,
    /// Area mean of the displacement along z.
    pub centroid_dz_mm: f64,
    /// Largest principal stretch.
    pub max_principal_stretch: f64,
    /// Strain energy.
    pub strain_energy_n_mm_per_mm: f64,
    /// Work of the walls since the start.
    pub wall_work_n_mm_per_mm: f64,
    /// Half-width of the band about the forces of this step, percent of them.
    pub error_band_percent: Option<f64>,
}

/// One wall at one step.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct WallStep {
    /// Force along r.
    pub force_r_n_per_mm: f64,
    /// Force along z.
    pub force_z_n_per_mm: f64,
    /// Sum of the normal forces.
    pub normal_n_per_mm: f64,
    /// Moment about the section's present centroid.
    pub moment_n_mm_per_mm: f64,
    /// Touching length.
    pub width_mm: f64,
    /// Largest contact pressure at any point; at a corner it grows with a finer mesh.
    pub peak_mpa: f64,
    /// Largest mean contact pressure over any `peak_over_mm` of the section's outline.
    pub peak_mean_mpa: f64,
    /// Mean contact pressure.
    pub mean_mpa: f64,
    /// Share of the touching length that slips.
    pub slip_share: f64,
}

/// The mesh as drawn: positions in the solved problem's half-plane, mm.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Picture {
    /// Corners of each element, counter-clockwise.
    pub elements: Vec<[u32; 4]>,
    /// Boundary edges as (start, middle, end), counter-clockwise.
    pub boundary: Vec<[u32; 3]>,
    /// The undeformed mesh, then one frame a step.
    pub frames: Vec<Frame>,
}

/// The mesh at one step.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Frame {
    /// Travel.
    pub travel_mm: f32,
    /// Places of the nodes.
    pub nodes: Vec<[f32; 2]>,
    /// Largest principal stretch of each element.
    pub stretch: Vec<f32>,
    /// Contact pressure along the walls: place, unit normal into the section, MPa.
    pub pressure: Vec<Bearing>,
}

/// Contact pressure at a place.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Bearing {
    /// Where.
    pub at: [f32; 2],
    /// Unit normal from the wall into the section.
    pub normal: [f32; 2],
    /// Pressure on the deformed area.
    pub pressure_mpa: f32,
}

/// Solves a problem.
///
/// # Errors
/// [`RoomError`] when the problem's values make no sense. A run that stops early is no error: it
/// gives the steps it has and says why.
pub fn solved(problem: &Problem, settings: &Settings) -> Result<SolvedSection, RoomError> {
    let run = solve(problem, settings).map_err(|error| match error {
        SolveError::Problem(why) => RoomError::input(why, say!("section-values-wanted")),
        SolveError::Mesh(error) => {
            RoomError::input(error.to_string(), say!("section-outline-wanted"))
        }
        SolveError::Linear(error) => {
            RoomError::input(error.to_string(), say!("section-walls-wanted"))
        }
    })?;
    Ok(plain(run, problem.peak_length()))
}

fn plain(run: Run, peak_over_mm: f64) -> SolvedSection {
    let stopped = match run.outcome {
        Outcome::Complete => None,
        Outcome::Stopped { fraction, why } => Some(Stopped::at(fraction, why)),
    };
    let picture = picture(&run);
    SolvedSection {
        steps: run.steps.iter().map(step).collect(),
        nodes: run.mesh.shared_nodes(),
        elements: run.mesh.elements.len(),
        newton_iterations: run.newton_iterations,
        error_band_percent: run.error_band_percent,
        peak_over_mm,
        complete: stopped.is_none(),
        stopped,
        picture,
    }
}

fn step(result: &StepResult) -> Step {
    let wall = |wall: &WallResult| {
        let step = WallStep {
            force_r_n_per_mm: wall.force_r_n_per_mm,
            force_z_n_per_mm: wall.force_z_n_per_mm,
            normal_n_per_mm: wall.normal_n_per_mm,
            moment_n_mm_per_mm: wall.moment_n_mm_per_mm,
            width_mm: wall.width_mm,
            peak_mpa: wall.peak_mpa,
            peak_mean_mpa: wall.peak_mean_mpa,
            mean_mpa: wall.mean_mpa,
            slip_share: wall.slip_share,
        };
        (wall.name.clone(), step)
    };
    Step {
        fraction: result.fraction,
        travel_mm: result.travel_mm,
        walls: result.walls.iter().map(wall).collect(),
        roll_deg: result.roll_deg,
        centroid_dr_mm: result.centroid_dr_mm,
        centroid_dz_mm: result.centroid_dz_mm,
        max_principal_stretch: result.max_principal_stretch,
        strain_energy_n_mm_per_mm: result.strain_energy_n_mm_per_mm,
        wall_work_n_mm_per_mm: result.wall_work_n_mm_per_mm,
        error_band_percent: result.error_band_percent,
    }
}

fn picture(run: &Run) -> Picture {
    // A node's index is a mesh's: far below 2^32.
    let corners = |element: &[usize; 9]| [0, 1, 2, 3].map(|corner| element[corner] as u32);
    let undeformed = Frame {
        nodes: run.mesh.nodes.iter().map(|node| node.map(|x| x as f32)).collect(),
        stretch: vec![1.0; run.mesh.elements.len()],
        ..Frame::default()
    };
    let deformed = run.steps.iter().map(|step| Frame {
        travel_mm: step.travel_mm as f32,
        nodes: run
            .mesh
            .nodes
            .iter()
            .zip(&step.displacement)
            .map(|(node, u)| [(node[0] + u[0]) as f32, (node[1] + u[1]) as f32])
            .collect(),
        stretch: step.element_stretch.iter().map(|stretch| *stretch as f32).collect(),
        pressure: step
            .walls
            .iter()
            .flat_map(|wall| &wall.samples)
            .map(|sample| Bearing {
                at: sample.at.map(|x| x as f32),
                normal: sample.normal.map(|x| x as f32),
                pressure_mpa: sample.pressure_mpa as f32,
            })
            .collect(),
    });
    Picture {
        elements: run.mesh.elements.iter().map(corners).collect(),
        boundary: run.mesh.boundary.iter().map(|edge| edge.map(|node| node as u32)).collect(),
        frames: std::iter::once(undeformed).chain(deformed).collect(),
    }
}
