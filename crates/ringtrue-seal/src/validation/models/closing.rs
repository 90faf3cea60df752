//! The closed joint, through the door of its room, and the order of its bolts.

use ringtrue_metrology::conformity::Levels;
use ringtrue_metrology::units::{Angle, Length};
use uom::si::angle::degree;
use uom::si::length::millimeter;

use crate::closing::{self, FeelerUncertainty, Input, Reading};
use crate::validation::ValidationError;
use crate::validation::inputs::{Inputs, Quantities};

/// The pull-down order of the case's bolts.
pub(super) fn order(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let bolts = inputs.number("bolts")?;
    let outcome = evaluated(inputs, Vec::new(), Some(bolts as u32))?;
    let order = outcome.pull_down.map_or(Vec::new(), |pull| pull.order);
    Ok(Quantities::default().list("order", order.into_iter().map(f64::from).collect()))
}

/// The gap round a joint that was read at the case's angles.
pub(super) fn gap(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let (angles, gaps) = (inputs.numbers("angle_deg")?, inputs.numbers("gap_mm")?);
    if angles.len() != gaps.len() {
        return Err(inputs.wrong("as many gaps as angles are needed"));
    }
    let reading =
        |(at, gap): (&f64, &f64)| Reading { angle: Angle::new::<degree>(*at), gap: mm(*gap) };
    let readings = angles.iter().zip(&gaps).map(reading).collect();
    let outcome = evaluated(inputs, readings, None)?;
    let Some(gap) = outcome.gap else { return Err(inputs.wrong("readings are needed")) };
    let given = Quantities::default()
        .one("mean_mm", gap.mean_mm)
        .one("out_of_parallel_mm", gap.out_of_parallel_mm)
        .one("widest_deg", gap.widest.angle_deg)
        .list("left_mm", gap.places.iter().map(|place| place.left_mm).collect());
    let optional = [
        ("mean_standard_uncertainty_mm", gap.mean_standard_uncertainty_mm),
        ("out_of_parallel_standard_uncertainty_mm", gap.out_of_parallel_standard_uncertainty_mm),
        ("direction_standard_uncertainty_deg", gap.direction_standard_uncertainty_deg),
        ("tilt_mrad", gap.tilt_mrad),
        ("widest_standard_uncertainty_mm", gap.widest.standard_uncertainty_mm),
    ];
    Ok(optional.into_iter().fold(given, |given, (name, value)| match value {
        Some(value) => given.one(name, value),
        None => given,
    }))
}

fn evaluated(
    inputs: &Inputs<'_>,
    readings: Vec<Reading>,
    bolts: Option<u32>,
) -> Result<closing::Outcome, ValidationError> {
    let u = inputs.optional_number("u_reading_mm")?;
    closing::evaluate(&Input {
        readings,
        gap_limits: (None, None),
        diameter: inputs.optional_number("diameter_mm")?.map(mm),
        uncertainty: u.map_or(FeelerUncertainty::Unknown, |u| FeelerUncertainty::Stated(mm(u))),
        bolts,
        steps: closing::STEPS,
        load: None,
        levels: Levels::DEFAULT,
    })
    .map_err(|e| inputs.refused(e))
}

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}
