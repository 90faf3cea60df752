//! The assembled height, through the door of its room.

use ringtrue_metrology::conformity::Levels;
use ringtrue_metrology::units::{Angle, Length};
use uom::si::angle::degree;
use uom::si::length::millimeter;

use crate::assembled_height::{self, GaugeUncertainty, Input, LoadRingKind, Reading};
use crate::validation::ValidationError;
use crate::validation::inputs::{Inputs, Quantities};

/// Readings round a ring, each with the same standard uncertainty.
pub(super) fn assembled_height(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let (angles, heights) = (inputs.numbers("angle_deg")?, inputs.numbers("height_mm")?);
    if angles.len() != heights.len() {
        return Err(inputs.wrong("as many heights as angles are needed"));
    }
    let reading = |(angle, height): (&f64, &f64)| Reading {
        angle: Angle::new::<degree>(*angle),
        height: mm(*height),
        round: 1,
    };
    let outcome = assembled_height::evaluate(&Input {
        readings: angles.iter().zip(&heights).map(reading).collect(),
        range_limit: Some(mm(inputs.number("range_limit_mm")?)),
        mean_height_limits: None,
        measuring_diameter: inputs.optional_number("measuring_diameter_mm")?.map(mm),
        uncertainty: GaugeUncertainty::Stated(mm(inputs.number("u_reading_mm")?)),
        load_ring: LoadRingKind::Unknown,
        levels: Levels::DEFAULT,
        tries: None,
    })
    .map_err(|e| inputs.refused(e))?;
    let optional = [
        ("mean_height_standard_uncertainty_mm", outcome.mean_height_standard_uncertainty_mm),
        ("range_standard_uncertainty_mm", outcome.range_standard_uncertainty_mm),
        ("tilt_standard_uncertainty_mm", outcome.tilt_standard_uncertainty_mm),
        ("tilt_deg", outcome.tilt_deg),
        ("second_harmonic_mm", outcome.second_harmonic_mm),
        ("probability_conforms", outcome.probability_conforms),
    ];
    let given = Quantities::default()
        .one("mean_height_mm", outcome.mean_height_mm)
        .one("range_mm", outcome.range_mm)
        .one("tilt_mm", outcome.tilt_mm)
        .one("high_side_deg", outcome.high_side_deg)
        .list("residuals_mm", outcome.residuals_mm);
    Ok(optional.into_iter().fold(given, |given, (name, value)| match value {
        Some(value) => given.one(name, value),
        None => given,
    }))
}

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}
