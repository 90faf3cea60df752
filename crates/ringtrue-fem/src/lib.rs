//! Finite elements for squeezed rubber sections between rigid walls.
//!
//! The question: a section (a ring's cross-section, or a bar's) stands between rigid walls that
//! move
//! along given paths. What forces do the walls need, how does the section move, roll and stretch?
//!
//! Units throughout: mm, N, MPa, radians unless a name says degrees. Plain `f64`, no I/O, no clock.
//! Start at [`Problem`] and [`solve`].

// Matrix formulas read best with their indices.
#![allow(clippy::needless_range_loop)]
// `!(x > 0.0)` is meant: a NaN must count as failed.
#![allow(clippy::neg_cmp_op_on_partial_ord)]

mod assembly;
pub mod checks;
mod contact;
mod element;
mod error_estimate;
pub mod fields;
mod linear_solve;
pub mod material;
pub mod mesh;
mod newton;
pub mod problem;
pub mod quadrature;
pub mod reference;
mod run;
pub mod stages;

pub use linear_solve::LinearSolveError;
pub use newton::{IncrementError, Stop};
pub use problem::{
    Axis, ErrorEstimate, Extent, Friction, Prestretch, Problem, Section, Settings, Shape, Symmetry,
    Wall,
};
pub use run::{Outcome, Run, SolveError, default_size, solve};
