//! Sparse symmetric systems: one symbolic factorisation a mesh, then numbers only.
//!
//! The only room that names the solver library. Matrices are symmetric and may be indefinite (a
//! section that snaps past a lip is unstable on the way), so the factor is `L D L^T` without
//! pivoting, and every solution is tested by its residual and refined.

use faer::dyn_stack::{MemBuffer, MemStack};
use faer::sparse::linalg::SupernodalThreshold;
use faer::sparse::linalg::cholesky::{
    CholeskySymbolicParams, LdltRef, SymbolicCholesky, SymmetricOrdering,
    factorize_symbolic_cholesky,
};
use faer::sparse::{SparseColMatRef, SymbolicSparseColMatRef};
use faer::{Conj, MatMut, Par, Side};

/// Why a system could not be solved.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum LinearSolveError {
    /// The ordering or symbolic factorisation ran out of memory or index range.
    #[error("the matrix structure could not be factorised")]
    Structure,
    /// A pivot vanished.
    #[error("the stiffness matrix is singular")]
    Singular,
    /// The residual stayed too large after refinement.
    #[error("the linear solution has a relative residual of {0:.1e}")]
    Inaccurate(f64),
}

/// Largest accepted residual over right-hand side.
const TOLERANCE: f64 = 1e-8;
/// Most refinement steps.
const REFINEMENTS: usize = 3;

/// A symmetric sparse matrix of fixed structure with its factor.
pub(crate) struct Sparse {
    /// Inner position of each unknown.
    position: Vec<usize>,
    column_start: Vec<usize>,
    row: Vec<usize>,
    values: Vec<f64>,
    symbolic: SymbolicCholesky<usize>,
    factor: Vec<f64>,
    memory: MemBuffer,
    inner: [Vec<f64>; 3],
}

/// Lower triangle by columns, diagonal first in each column.
struct Structure {
    column_start: Vec<usize>,
    row: Vec<usize>,
}

/// Structure of the matrix in which the unknowns of each group couple. `upper` gives the transpose.
fn structure(n: usize, groups: &[Vec<usize>], position: &[usize], side: Side) -> Structure {
    let mut columns: Vec<Vec<usize>> = (0..n).map(|i| vec![i]).collect();
    for group in groups {
        for &i in group {
            for &j in group {
                let (a, b) = (position[i], position[j]);
                let lower = match side {
                    Side::Lower => a > b,
                    Side::Upper => a < b,
                };
                if lower {
                    columns[b].push(a);
                }
            }
        }
    }
    let mut column_start = vec![0];
    let mut row = Vec::new();
    for column in &mut columns {
        column.sort_unstable();
        column.dedup();
        row.extend_from_slice(column);
        column_start.push(row.len());
    }
    Structure { column_start, row }
}

fn symbolic(
    n: usize,
    of: &Structure,
    order: SymmetricOrdering<'_, usize>,
) -> Result<SymbolicCholesky<usize>, LinearSolveError> {
    let matrix = SymbolicSparseColMatRef::new_checked(n, n, &of.column_start, None, &of.row);
    let params = CholeskySymbolicParams {
        supernodal_flop_ratio_threshold: SupernodalThreshold::FORCE_SUPERNODAL,
        ..CholeskySymbolicParams::default()
    };
    factorize_symbolic_cholesky(matrix, Side::Upper, order, params)
        .map_err(|_| LinearSolveError::Structure)
}

impl Sparse {
    /// Prepares the matrix of `n` unknowns that couple within each of `groups`.
    pub(crate) fn new(n: usize, groups: &[Vec<usize>]) -> Result<Self, LinearSolveError> {
        let identity: Vec<usize> = (0..n).collect();
        let plain = structure(n, groups, &identity, Side::Upper);
        let ordered = symbolic(n, &plain, SymmetricOrdering::Amd)?;
        // Unknowns are renumbered once, so that no factorisation has to permute the matrix.
        let position = match ordered.perm() {
            Some(permutation) => permutation.arrays().1.to_vec(),
            None => identity,
        };
        let upper = structure(n, groups, &position, Side::Upper);
        let symbolic = symbolic(n, &upper, SymmetricOrdering::Identity)?;
        let Structure { column_start, row } = structure(n, groups, &position, Side::Lower);
        let scratch = symbolic
            .factorize_numeric_ldlt_scratch::<f64>(Par::Seq, Default::default())
            .or(symbolic.solve_in_place_scratch::<f64>(1, Par::Seq));
        let memory = MemBuffer::try_new(scratch).map_err(|_| LinearSolveError::Structure)?;
        Ok(Self {
            position,
            values: vec![0.0; row.len()],
            column_start,
            row,
            factor: vec![0.0; symbolic.len_val()],
            symbolic,
            memory,
            inner: [vec![0.0; n], vec![0.0; n], vec![0.0; n]],
        })
    }

    /// Index in [`Self::values_mut`] of entry `(i, j)`, which must couple.
    pub(crate) fn slot(&self, i: usize, j: usize) -> Option<usize> {
        let (a, b) = (self.position[i], self.position[j]);
        let (row, column) = (a.max(b), a.min(b));
        let range = self.column_start[column]..self.column_start[column + 1];
        self.row[range.clone()].binary_search(&row).ok().map(|k| range.start + k)
    }

    /// Entries of the lower triangle.
    pub(crate) fn values_mut(&mut self) -> &mut [f64] {
        &mut self.values
    }

    /// Factorises the present values.
    pub(crate) fn factorise(&mut self) -> Result<(), LinearSolveError> {
        let n = self.position.len();
        let structure =
            SymbolicSparseColMatRef::new_checked(n, n, &self.column_start, None, &self.row);
        let matrix = SparseColMatRef::new(structure, self.values.as_slice());
        self.symbolic
            .factorize_numeric_ldlt(
                &mut self.factor,
                matrix,
                Side::Lower,
                Default::default(),
                Par::Seq,
                MemStack::new(&mut self.memory),
                Default::default(),
            )
            .map(|_| ())
            .map_err(|_| LinearSolveError::Singular)
    }

    /// Solves for `right` in place with the last factor.
    pub(crate) fn solve(&mut self, right: &mut [f64]) -> Result<(), LinearSolveError> {
        let [wanted, solution, residual] = &mut self.inner;
        let mut size = 0.0_f64;
        for (i, &p) in self.position.iter().enumerate() {
            wanted[p] = right[i];
            size = size.max(right[i].abs());
        }
        if size == 0.0 {
            return Ok(());
        }
        if !size.is_finite() {
            return Err(LinearSolveError::Inaccurate(f64::NAN));
        }
        let factor = LdltRef::new(&self.symbolic, &self.factor);
        solution.fill(0.0);
        residual.copy_from_slice(wanted);
        let mut miss = f64::INFINITY;
        for _ in 0..=REFINEMENTS {
            let n = residual.len();
            factor.solve_in_place_with_conj(
                Conj::No,
                MatMut::from_column_major_slice_mut(residual, n, 1),
                Par::Seq,
                MemStack::new(&mut self.memory),
            );
            for (x, dx) in solution.iter_mut().zip(residual.iter()) {
                *x += dx;
            }
            residual.copy_from_slice(wanted);
            for column in 0..n {
                let range = self.column_start[column]..self.column_start[column + 1];
                let x = solution[column];
                let mut sum = self.values[range.start] * x;
                for k in range.start + 1..range.end {
                    residual[self.row[k]] -= self.values[k] * x;
                    sum += self.values[k] * solution[self.row[k]];
                }
                residual[column] -= sum;
            }
            let worst = residual
                .iter()
                .fold(0.0_f64, |m, r| if r.is_nan() { f64::NAN } else { m.max(r.abs()) });
            miss = worst / size;
            if miss < TOLERANCE {
                break;
            }
        }
        if !(miss < TOLERANCE) {
            return Err(LinearSolveError::Inaccurate(miss));
        }
        for (i, &p) in self.position.iter().enumerate() {
            right[i] = solution[p];
        }
        Ok(())
    }
}

/// GMRES for small dense systems given by their action.
#[derive(Debug, Clone)]
pub(crate) struct Krylov {
    basis: Vec<Vec<f64>>,
}

/// Most GMRES steps, without restart.
const MOST_STEPS: usize = 60;
/// Wanted residual over right-hand side.
const STEP_TOLERANCE: f64 = 1e-8;

impl Krylov {
    pub(crate) fn new() -> Self {
        Self { basis: Vec::new() }
    }

    /// Solves `A y = b` with `apply(y, out)` giving `A y`. Returns the best it found when the steps
    /// run out: the caller's own iteration tests the outcome.
    pub(crate) fn solve(
        &mut self,
        b: &[f64],
        mut apply: impl FnMut(&[f64], &mut [f64]) -> Result<(), LinearSolveError>,
    ) -> Result<Vec<f64>, LinearSolveError> {
        let n = b.len();
        let norm = |v: &[f64]| v.iter().map(|x| x * x).sum::<f64>().sqrt();
        let size = norm(b);
        if size == 0.0 {
            return Ok(vec![0.0; n]);
        }
        let most = MOST_STEPS.min(n);
        self.basis.clear();
        self.basis.push(b.iter().map(|x| x / size).collect());
        // Columns of the triangular factor, the rotations, and the rotated right-hand side.
        let mut columns: Vec<Vec<f64>> = Vec::new();
        let mut turns: Vec<(f64, f64)> = Vec::new();
        let mut rotated = vec![size];
        for step in 0..most {
            let mut next = vec![0.0; n];
            apply(&self.basis[step], &mut next)?;
            let mut column = Vec::with_capacity(step + 2);
            for q in &self.basis {
                let dot: f64 = q.iter().zip(&next).map(|(a, b)| a * b).sum();
                for (x, q) in next.iter_mut().zip(q) {
                    *x -= dot * q;
                }
                column.push(dot);
            }
            let rest = norm(&next);
            for (k, (c, s)) in turns.iter().enumerate() {
                let (x, y) = (column[k], column[k + 1]);
                column[k] = c * x + s * y;
                column[k + 1] = c * y - s * x;
            }
            let length = column[step].hypot(rest);
            if length == 0.0 {
                break;
            }
            let (c, s) = (column[step] / length, rest / length);
            column[step] = length;
            turns.push((c, s));
            columns.push(column);
            let last = rotated[step];
            rotated[step] = c * last;
            rotated.push(-s * last);
            if (s * last).abs() <= STEP_TOLERANCE * size || rest <= 1e-14 * size {
                break;
            }
            self.basis.push(next.iter().map(|x| x / rest).collect());
        }
        let m = columns.len();
        let mut weights = vec![0.0; m];
        for i in (0..m).rev() {
            let sum: f64 = (i + 1..m).map(|k| columns[k][i] * weights[k]).sum();
            weights[i] = (rotated[i] - sum) / columns[i][i];
        }
        let mut y = vec![0.0; n];
        for (w, q) in weights.iter().zip(&self.basis) {
            for (y, q) in y.iter_mut().zip(q) {
                *y += w * q;
            }
        }
        Ok(y)
    }
}
