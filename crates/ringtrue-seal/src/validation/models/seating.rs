//! Seating: the push past a lip.

use crate::seating::{Passage, Passing};
use crate::validation::ValidationError;
use crate::validation::inputs::{Inputs, Quantities};

/// A round section pushed past a lip, solved: the largest push per mm at its mean radius, for a
/// Young's modulus of 1 MPa.
pub(super) fn past_a_lip(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let passage = Passage {
        section_mm: inputs.number("section_mm")?,
        mean_radius_mm: inputs.number("mean_radius_mm")?,
        hoop_stretch: 1.0,
        ramp_deg: inputs.number("ramp_deg")?,
        nose_radius_mm: inputs.number("nose_radius_mm")?,
        overlap_mm: inputs.number("overlap_mm")?,
    };
    let edges = f64::from(inputs.count("edges_round_the_section")?);
    let passed = Passing { passage, friction: inputs.number("friction")?, edges }
        .solve()
        .map_err(|why| inputs.refused(why))?;
    let most = passed.most().ok_or_else(|| inputs.refused(passed.fate.words()))?;
    Ok(Quantities::default().one("push_n_per_mm", most))
}
