//! Equilibrium along the walls' path: Newton's method, automatic increments, cut-back.

mod path;

mod predict;
#[cfg(test)]
mod tests;

pub use path::Stop;
pub(crate) use path::{Followed, follow};

use crate::assembly::{Assembly, Imbalance, Load, Model, State};
use crate::contact::{Bearing, Before, touch_down};
use crate::linear_solve::LinearSolveError;

/// Why an increment found no equilibrium.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum IncrementError {
    /// The iteration did not settle.
    #[error("the iteration did not settle within {0} steps")]
    NotConverged(usize),
    /// A piece of the section would turn inside out.
    #[error("a piece of the section would turn inside out")]
    Inverted,
    /// An equilibrium was found that holds more energy than the walls put in: another branch.
    #[error("the section would gain energy that no wall puts in")]
    Gained,
    /// The linear system failed.
    #[error(transparent)]
    Linear(#[from] LinearSolveError),
}

/// Accepted nodal residual over contact forces, and over `shear modulus x extent` when nothing
/// touches. The penalty makes rounded positions of a large ring into residuals of 2e-8 N per mm,
/// seen behind a lip; asked for less, a free section iterates for ever.
const FORCE_TOLERANCE: f64 = 5e-6;
const FREE_TOLERANCE: f64 = 1e-8;
/// Accepted pressure still missing over the shear modulus: with `K = 2000 mu` a volume error of
/// 5e-6.
const PRESSURE_TOLERANCE: f64 = 1e-2;
/// Accepted penetration over the section's extent.
const PENETRATION_TOLERANCE: f64 = 2e-6;
/// Most Newton iterations and most take-overs of the multipliers in an increment.
const MOST_ITERATIONS: usize = 30;
const MOST_TAKE_OVERS: usize = 6;
/// Most Newton iterations on the way of a jump, where another drag is soon tried.
const MOST_WITH_DRAG: usize = 12;
/// Least determinant of the deformation gradient, over that of the last equilibrium, that an
/// iterate and that a new equilibrium may have. Rubber keeps its volume: an element that loses half
/// of it at a point is folding, and an equilibrium with a folded element looks plausible.
const LEAST_J_ON_THE_WAY: f64 = 0.4;
const LEAST_J: f64 = 0.75;
/// Most halvings of a correction that would turn an element inside out.
const MOST_HALVINGS: usize = 5;

/// Solves for equilibrium under `load`, starting from and ending in `state`; `spare` is scratch.
///
/// Returns the iterations it took, also with an error.
pub(crate) fn equilibrate(
    model: &Model<'_>,
    assembly: &mut Assembly,
    load: &Load,
    (state, spare): (&mut State, &mut State),
) -> (usize, Result<Imbalance, IncrementError>) {
    let law = model.problem.material.law();
    let extent = model.problem.section.extent();
    let mut take_overs = 0;
    let mut damping = Damping::new();
    assembly.forget_conduct();
    let mut imbalance = assembly.assemble(model, state, load);
    if !(imbalance.least_j > 0.0) {
        return (0, Err(IncrementError::Inverted));
    }
    let most = if assembly.drag.is_some() { MOST_WITH_DRAG } else { MOST_ITERATIONS };
    for iteration in 1..=most {
        let hold = match assembly.solve(model, state) {
            Ok(hold) => hold,
            Err(error) => return (iteration, Err(error.into())),
        };
        spare.copy_from(state);
        let mut scale = damping.scale(imbalance.residual);
        for halvings in 0..=MOST_HALVINGS {
            if halvings > 0 {
                state.copy_from(spare);
            }
            assembly.update(model, (hold, scale), state);
            stay_on_arcs(model, load, (spare, state));
            imbalance = assembly.assemble(model, state, load);
            if imbalance.least_j > LEAST_J_ON_THE_WAY * state.least_j {
                break;
            }
            scale *= 0.5;
        }
        if !(imbalance.least_j > 0.0) {
            return (iteration, Err(IncrementError::Inverted));
        }
        let allowed =
            FORCE_TOLERANCE * imbalance.contact_force + FREE_TOLERANCE * law.shear() * extent;
        let balanced = imbalance.residual <= allowed
            && imbalance.on_trial == 0
            && imbalance.pressure_mismatch <= PRESSURE_TOLERANCE * law.shear();
        if !imbalance.residual.is_finite() {
            return (iteration, Err(IncrementError::NotConverged(iteration)));
        }
        if balanced {
            let tight = imbalance.penetration <= PENETRATION_TOLERANCE * extent;
            if tight || take_overs == MOST_TAKE_OVERS {
                if !(imbalance.least_j > LEAST_J * state.least_j) {
                    return (iteration, Err(IncrementError::Inverted));
                }
                state.least_j = imbalance.least_j;
                return (iteration, Ok(imbalance));
            }
            take_overs += 1;
            take_over(model, assembly, load, state);
            imbalance = assembly.assemble_contact(model, (state, load), &imbalance);
        }
    }
    (most, Err(IncrementError::NotConverged(most)))
}

/// Brings the nodes that bear on an arc back to it after a step along its tangent.
///
/// A step leaves a round wall by its length squared over twice the radius. Small as that is, the
/// stiff penalty takes it for a lifting off, all bearing nodes let go at once, and the iteration
/// swings between all open and all closed. Each node is put where the step's own, linear gap says.
fn stay_on_arcs(model: &Model<'_>, load: &Load, (before, after): (&State, &mut State)) {
    let contacts = &model.contacts;
    for (k, pair) in contacts.pairs.iter().enumerate() {
        let shift = load.shifts[pair.wall];
        let from = contacts.position(pair.point, &model.mesh.nodes, &before.u);
        let to = contacts.position(pair.point, &model.mesh.nodes, &after.u);
        let Some(old) = contacts.standing(pair, from, shift) else { continue };
        let Some(new) = contacts.standing(pair, to, shift) else { continue };
        if old.curvature == 0.0 && new.curvature == 0.0 {
            continue;
        }
        let step = [to[0] - from[0], to[1] - from[1]];
        let gap = old.gap + old.normal[0] * step[0] + old.normal[1] * step[1];
        let pressed = |gap: f64| before.memory[k].pressure - contacts.penalty * gap > 0.0;
        if pressed(old.gap) && pressed(gap) {
            let node = contacts.points[pair.point].node;
            for c in 0..2 {
                after.u[node][c] += (gap - new.gap) * new.normal[c];
            }
        }
    }
}

/// Breaks cycles: where points change between open and closed, or stick and slip, full Newton steps
/// can jump back and forth between two guesses; a part step lands between them.
struct Damping {
    recent: [f64; 4],
    calm: usize,
}

impl Damping {
    const FIRST_FULL: usize = 4;

    fn new() -> Self {
        Self { recent: [f64::INFINITY; 4], calm: Self::FIRST_FULL }
    }

    /// Share of the correction to apply at a state with this residual.
    fn scale(&mut self, residual: f64) -> f64 {
        let stalled = residual > 0.25 * self.recent[1].min(self.recent[3]);
        self.recent.rotate_right(1);
        self.recent[0] = residual;
        if self.calm > 0 {
            self.calm -= 1;
            return 1.0;
        }
        if stalled {
            // Two full steps follow, for the part step to show what it is worth.
            self.calm = 2;
            0.5
        } else {
            1.0
        }
    }
}

/// Takes the tractions over as multipliers, and notes how each pair bears.
pub(crate) fn take_over(model: &Model<'_>, assembly: &Assembly, load: &Load, state: &mut State) {
    let contacts = &model.contacts;
    for (k, pair) in contacts.pairs.iter().enumerate() {
        let x = contacts.position(pair.point, &model.mesh.nodes, &state.u);
        let memory = &mut state.memory[k];
        let Some(standing) = contacts.standing(pair, x, load.shifts[pair.wall]) else {
            memory.pressure = 0.0;
            memory.shear = 0.0;
            memory.bearing = Bearing::Open;
            continue;
        };
        let traction = contacts.traction(pair.wall, (&standing, memory), Before::Any);
        memory.pressure = traction.pressure;
        memory.shear = traction.shear;
        memory.bearing = traction.bearing;
        if traction.bearing != Bearing::Open && assembly.is_landing(k) {
            memory.anchor = standing.along;
            memory.shear = 0.0;
            memory.bearing = Bearing::Stick;
        } else if traction.bearing == Bearing::Slip {
            memory.anchor = standing.along;
        }
    }
}

/// Chooses where points that are still open would touch down on the way from `old` to `state`.
pub(crate) fn set_touch_downs(
    model: &Model<'_>,
    (old, old_load): (&State, &Load),
    (state, load): (&mut State, &Load),
) {
    let contacts = &model.contacts;
    for (k, pair) in contacts.pairs.iter().enumerate() {
        if old.memory[k].bearing != Bearing::Open {
            continue;
        }
        let before = contacts.position(pair.point, &model.mesh.nodes, &old.u);
        let after = contacts.position(pair.point, &model.mesh.nodes, &state.u);
        let before = contacts.standing(pair, before, old_load.shifts[pair.wall]);
        let after = contacts.standing(pair, after, load.shifts[pair.wall]);
        state.memory[k].anchor = match (before, after) {
            (Some(before), Some(after)) => touch_down(&before, &after),
            (None, Some(only)) | (Some(only), None) => only.along,
            (None, None) => 0.0,
        };
    }
    stop_at_walls(model, (old, old_load), (state, load));
}

/// Brings the nodes that an extrapolation took off or through a wall to where they must be:
/// sticking
/// ones move with their wall, the others stop at it (inside by a hair, so that they count as
/// touching).
fn stop_at_walls(
    model: &Model<'_>,
    (old, old_load): (&State, &Load),
    (state, load): (&mut State, &Load),
) {
    let contacts = &model.contacts;
    let hair = 1e-9 * model.problem.section.extent();
    for (k, pair) in contacts.pairs.iter().enumerate() {
        let node = contacts.points[pair.point].node;
        let x = contacts.position(pair.point, &model.mesh.nodes, &state.u);
        let bearing = old.memory[k].bearing;
        match (bearing, contacts.standing(pair, x, load.shifts[pair.wall])) {
            (Bearing::Stick, _) => {
                for c in 0..2 {
                    let shift = load.shifts[pair.wall][c] - old_load.shifts[pair.wall][c];
                    state.u[node][c] = old.u[node][c] + shift;
                }
            }
            (Bearing::Open | Bearing::Slip | Bearing::Trial, Some(standing))
                if standing.gap < -hair || bearing == Bearing::Slip =>
            {
                for c in 0..2 {
                    state.u[node][c] -= (standing.gap + hair) * standing.normal[c];
                }
            }
            (Bearing::Open | Bearing::Slip | Bearing::Trial, _) => {}
        }
    }
}
