//! The stages of one Newton step on their own: for benches, and for reading along.

use crate::assembly::{Assembly, Load, Model, State};
use crate::mesh::Mesh;
use crate::newton::follow;
use crate::problem::Problem;
use crate::run::SolveError;

/// A problem brought to some point of its path, ready to take the stages of a Newton step again and
/// again.
pub struct Stages<'a> {
    model: Model<'a>,
    assembly: Assembly,
    state: State,
    load: Load,
}

impl<'a> Stages<'a> {
    /// Follows `problem` on `mesh` to its end and stays there.
    ///
    /// # Errors
    /// [`SolveError`] when the problem or its structure cannot be set up.
    pub fn at_the_end(problem: &'a Problem, mesh: &'a Mesh) -> Result<Self, SolveError> {
        if let Some(defect) = problem.defect() {
            return Err(SolveError::Problem(defect));
        }
        let model = Model::new(problem, mesh);
        let mut state = State::start(&model);
        follow(&model, usize::MAX, &mut |_, reached, _| state.copy_from(reached))?;
        let load = Load::at(&model, state.fraction);
        let assembly = Assembly::new(&model)?;
        Ok(Self { model, assembly, state, load })
    }

    /// Fills residual and stiffness; returns the residual's norm, N/mm.
    pub fn assemble(&mut self) -> f64 {
        self.assembly.assemble(&self.model, &self.state, &self.load).residual
    }

    /// Factorises the stiffness of the last [`Self::assemble`].
    ///
    /// # Errors
    /// [`SolveError::Linear`] when a pivot vanishes.
    pub fn factorise(&mut self) -> Result<(), SolveError> {
        Ok(self.assembly.matrix.factorise()?)
    }

    /// Solves for `right` (two entries a shared node) with the last factor, in place.
    ///
    /// # Errors
    /// [`SolveError::Linear`] when the residual stays too large.
    pub fn back_substitute(&mut self, right: &mut [f64]) -> Result<(), SolveError> {
        Ok(self.assembly.matrix.solve(right)?)
    }

    /// One whole Newton step: assemble, factorise, solve, update.
    ///
    /// # Errors
    /// [`SolveError::Linear`] as above.
    pub fn newton_step(&mut self) -> Result<(), SolveError> {
        self.assembly.assemble(&self.model, &self.state, &self.load);
        let hold = self.assembly.solve(&self.model, &self.state)?;
        self.assembly.update(&self.model, (hold, 1.0), &mut self.state);
        Ok(())
    }

    /// Number of unknowns.
    #[must_use]
    pub fn unknowns(&self) -> usize {
        2 * self.model.mesh.shared_nodes()
    }
}
