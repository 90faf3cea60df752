//! From the assembled system to the increment, and from the increment to the next state.

use super::{Assembly, Model, State, axis_index};
use crate::linear_solve::LinearSolveError;
use crate::problem::Axis;

impl Assembly {
    /// Factorises and solves for the increment of the shared displacements, kept for
    /// [`Self::update`]; returns the increments of the holding forces.
    pub(crate) fn solve(
        &mut self,
        model: &Model<'_>,
        state: &State,
    ) -> Result<[f64; 2], LinearSolveError> {
        self.matrix.factorise()?;
        std::mem::swap(&mut self.recovery, &mut self.next_recovery);
        let mut solution = std::mem::take(&mut self.step);
        for (x, r) in solution.iter_mut().zip(&self.residual) {
            *x = -r;
        }
        let solved = self.solve_coupled(&mut solution);
        self.step = solution;
        solved?;
        let mut hold = [0.0; 2];
        if self.props.is_empty() {
            return Ok(hold);
        }
        // u = z0 - sum (dl_a z_a) + sum (y_a z'_a): the holding force acts on the mean (z_a), and
        // the prop's share (z'_a) is taken back. Unknowns dl and y make the mean vanish and the
        // propped displacement equal to y.
        let count = self.props.len();
        self.solve_borders(model)?;
        let mean = |vector: &[f64], axis: Axis| -> f64 {
            model
                .mean_share
                .iter()
                .enumerate()
                .map(|(node, share)| share * vector[2 * node + axis_index(axis)])
                .sum()
        };
        let mut small = [[0.0; 5]; 4];
        for (k, &(axis, unknown)) in self.props.iter().enumerate() {
            for m in 0..count {
                small[k][m] = -mean(&self.borders[m], axis);
                small[k][count + m] = mean(&self.borders[count + m], axis);
                small[count + k][m] = -self.borders[m][unknown];
                small[count + k][count + m] =
                    self.borders[count + m][unknown] - if m == k { 1.0 } else { 0.0 };
            }
            let present: f64 = model
                .mean_share
                .iter()
                .zip(&state.u)
                .map(|(share, u)| share * u[axis_index(axis)])
                .sum();
            small[k][4] = -present - mean(&self.step, axis);
            small[count + k][4] = -self.step[unknown];
        }
        let answer = solve_small(&mut small, 2 * count).ok_or(LinearSolveError::Singular)?;
        for (k, &(axis, _)) in self.props.iter().enumerate() {
            hold[axis_index(axis)] = answer[k];
            for (i, u) in self.step.iter_mut().enumerate() {
                *u += -answer[k] * self.borders[k][i]
                    + answer[count + k] * self.borders[count + k][i];
            }
        }
        Ok(hold)
    }

    /// The answers to a unit mean force along each held axis, and to each prop.
    fn solve_borders(&mut self, model: &Model<'_>) -> Result<(), LinearSolveError> {
        let count = self.props.len();
        for (k, &(axis, unknown)) in self.props.iter().enumerate() {
            let (means, props) = self.borders.split_at_mut(count);
            means[k].fill(0.0);
            for (node, share) in model.mean_share.iter().enumerate() {
                means[k][2 * node + axis_index(axis)] = *share;
            }
            props[k].fill(0.0);
            props[k][unknown] = self.prop_stiffness;
        }
        for k in 0..self.borders.len() {
            let mut border = std::mem::take(&mut self.borders[k]);
            let solved = self.solve_coupled(&mut border);
            self.borders[k] = border;
            solved?;
        }
        Ok(())
    }

    /// Solves with the factor, and with the unsymmetric coupling of slipping points on top.
    ///
    /// The matrix is `K + sum t_s f_s n_s^T`. With `y_s = n_s . x` the unknowns reduce to one a
    /// slipping point, `(1 + N^T K^-1 T) y = N^T K^-1 b`, solved by GMRES: each step is one
    /// back-substitution, and the factor stays symmetric.
    fn solve_coupled(&mut self, right: &mut [f64]) -> Result<(), LinearSolveError> {
        self.matrix.solve(right)?;
        if self.slips.is_empty() {
            return Ok(());
        }
        let Self { matrix, slips, krylov, scratch, fixed, .. } = self;
        let wanted: Vec<f64> = slips.iter().map(|s| s.normal_part(right)).collect();
        let mut spread = |y: &[f64], into: &mut [f64]| -> Result<(), LinearSolveError> {
            into.fill(0.0);
            for (slip, y) in slips.iter().zip(y) {
                slip.add_tangent(*y, into);
            }
            for &unknown in fixed.iter() {
                into[unknown] = 0.0;
            }
            matrix.solve(into)
        };
        let y = krylov.solve(&wanted, |y, out| {
            spread(y, scratch)?;
            for ((slip, out), y) in slips.iter().zip(out).zip(y) {
                *out = y + slip.normal_part(scratch);
            }
            Ok(())
        })?;
        spread(&y, scratch)?;
        for (x, dx) in right.iter_mut().zip(scratch.iter()) {
            *x -= dx;
        }
        Ok(())
    }

    /// Adds `scale` times the solved increment to `state`; centre nodes and pressures follow.
    pub(crate) fn update(
        &self,
        model: &Model<'_>,
        (hold, scale): ([f64; 2], f64),
        state: &mut State,
    ) {
        for (e, nodes) in model.mesh.elements.iter().enumerate() {
            let du = [0, 1].map(|c| [0, 1, 2, 3, 4, 5, 6, 7].map(|k| self.step[2 * nodes[k] + c]));
            let (centre, pressure) = self.recovery[e].recover(&du);
            let u = &mut state.u[nodes[8]];
            u[0] += scale * centre[0];
            u[1] += scale * centre[1];
            if model.problem.material.law().bulk().is_some() {
                for (p, new) in state.pressure[e].iter_mut().zip(pressure) {
                    *p += scale * (new - *p);
                }
            }
        }
        for (u, du) in state.u.iter_mut().zip(self.step.chunks_exact(2)) {
            u[0] += scale * du[0];
            u[1] += scale * du[1];
        }
        for c in 0..2 {
            state.hold[c] += scale * hold[c];
        }
    }
}

/// Gauss elimination with pivoting; right-hand side in column 4.
fn solve_small(m: &mut [[f64; 5]; 4], n: usize) -> Option<[f64; 4]> {
    for c in 0..n {
        let pivot = (c..n).max_by(|&a, &b| m[a][c].abs().total_cmp(&m[b][c].abs()))?;
        if m[pivot][c] == 0.0 || !m[pivot][c].is_finite() {
            return None;
        }
        m.swap(c, pivot);
        for r in c + 1..n {
            let factor = m[r][c] / m[c][c];
            for k in c..5 {
                m[r][k] -= factor * m[c][k];
            }
        }
    }
    let mut x = [0.0; 4];
    for r in (0..n).rev() {
        let rest: f64 = (r + 1..n).map(|k| m[r][k] * x[k]).sum();
        x[r] = (m[r][4] - rest) / m[r][r];
    }
    Some(x)
}
