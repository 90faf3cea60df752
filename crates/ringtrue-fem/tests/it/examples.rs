//! The numbered examples: they run, and what they assert holds.

use ringtrue_fem::SolveError;
use ringtrue_fem::material::fit::FitError;

#[path = "../../examples/step_01_squeeze_between_plates.rs"]
mod step_01;
#[path = "../../examples/step_02_roll_between_ramps.rs"]
mod step_02;
#[path = "../../examples/step_03_fit_a_material.rs"]
mod step_03;

#[test]
fn a_bar_is_squeezed_between_plates() -> Result<(), SolveError> {
    step_01::main()
}

#[test]
fn a_ring_rolls_between_ramps() -> Result<(), SolveError> {
    step_02::main()
}

#[test]
fn a_material_is_fitted() -> Result<(), FitError> {
    step_03::main()
}
