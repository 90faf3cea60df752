//! Sweeps of housings, through the door of their room, and the tip that sizes allow.

use ringtrue_metrology::conformity::Levels;
use ringtrue_metrology::units::{Angle, Length};
use uom::si::angle::degree;
use uom::si::length::millimeter;

use crate::alignment::{
    self, EdgeBasis, IndicatorSense, IndicatorUncertainty, Input, Outcome, Reading, Sag, Surface,
    TipGeometry, TipHalf, tip_limits,
};
use crate::definition::joint::Half;
use crate::validation::ValidationError;
use crate::validation::inputs::{Inputs, Quantities};

/// A rim swept at the case's angles.
pub(super) fn rim(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let (angles, values) = (inputs.numbers("angle_deg")?, inputs.numbers("reading_mm")?);
    if angles.len() != values.len() {
        return Err(inputs.wrong("as many readings as angles are needed"));
    }
    let readings = angles.iter().zip(&values).map(|(at, mm)| reading(Surface::Rim, *at, *mm));
    let outcome = evaluated(inputs, readings.collect(), None, None)?;
    let sweep = &outcome.sweeps[0];
    let squares: f64 = sweep.residuals_mm.iter().map(|e| e * e).sum();
    let highest = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let lowest = values.iter().copied().fold(f64::INFINITY, f64::min);
    let towards = sweep.first_direction_deg.to_radians();
    let given = Quantities::default()
        .one("mean", sweep.mean_mm)
        .one("ex", sweep.first_mm * libm::cos(towards))
        .one("ey", sweep.first_mm * libm::sin(towards))
        .one("ecc", sweep.first_mm)
        .one("dir_deg", sweep.first_direction_deg)
        .one("rms_resid", (squares / values.len() as f64).sqrt())
        .one("tir_readings", highest - lowest)
        .one("out_of_round_mm", sweep.left_mm);
    // (top + bottom) - (right + left): what a four-point sweep can't owe to an offset.
    Ok(match sweep.residuals_mm.as_slice() {
        [top, right, bottom, left] => given.one("imbalance", top + bottom - right - left),
        _ => given,
    })
}

/// Offset and angle from the total readings of a rim and of a face.
pub(super) fn total_readings(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let mut readings = Vec::new();
    if let Some(tir) = inputs.optional_number("tir_mm")? {
        readings.extend(swept(Surface::Rim, |cosine| tir / 2.0 * cosine));
    }
    let diameter = inputs.optional_number("sweep_diameter_mm")?;
    if let Some(tir) = inputs.optional_number("face_tir_mm")? {
        readings.extend(swept(Surface::Face, |cosine| tir / 2.0 * cosine));
    }
    let outcome = evaluated(inputs, readings, None, diameter)?;
    let mut given = Quantities::default();
    if let Some((offset, zone)) = outcome.eccentricity_mm.zip(outcome.coaxiality_zone_mm) {
        given = given.one("eccentricity_mm", offset).one("coaxiality_zone_mm", zone);
    }
    Ok(match outcome.angle_mrad {
        Some(mrad) => given.one("angle_mrad", mrad).one("angle_deg", (mrad * 1e-3).to_degrees()),
        None => given,
    })
}

/// What sag alone shows at the case's angles.
pub(super) fn sag(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let readings = inputs.numbers("angle_deg")?;
    let readings = readings.into_iter().map(|at| reading(Surface::Rim, at, 0.0)).collect();
    let sag = Sag { at_bottom: mm(inputs.number("sag_bottom")?), top: deg(0.0) };
    let outcome = evaluated(inputs, readings, Some(sag), None)?;
    let error = outcome.sweeps[0].values_mm.iter().map(|value| -value).collect();
    Ok(Quantities::default().list("error", error))
}

/// The tip that the sizes of two like halves allow.
pub(super) fn tip(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let half = TipHalf {
        free_height: mm(inputs.number("free_height_mm")?),
        touch_radius: mm(inputs.number("touch_radius_mm")?),
        touch_and_depth: Some((
            mm(inputs.number("touch_from_face_mm")?),
            mm(inputs.number("depth_mm")?),
        )),
    };
    let limits = tip_limits(&TipGeometry {
        closed_gap: (mm(inputs.number("gap_min_mm")?), mm(inputs.number("gap_max_mm")?)),
        halves: [half; 2],
        edge_radius: Some(mm(inputs.number("edge_radius_mm")?)),
        edge_basis: EdgeBasis::Stated,
    })
    .map_err(|e| inputs.refused(e))?;
    let given = Quantities::default()
        .one("lift_deg", limits.lift_deg)
        .one("tip_limit_deg", limits.smallest_deg);
    let optional = [("edge_deg", limits.edge_deg), ("bottom_deg", limits.bottom_deg)];
    Ok(optional.into_iter().fold(given, |given, (name, value)| match value {
        Some(value) => given.one(name, value),
        None => given,
    }))
}

fn evaluated(
    inputs: &Inputs<'_>,
    readings: Vec<Reading>,
    sag: Option<Sag>,
    face_diameter: Option<f64>,
) -> Result<Outcome, ValidationError> {
    alignment::evaluate(&Input {
        readings,
        sense: IndicatorSense::InCountsUp,
        sag,
        face_diameter: face_diameter.map(mm),
        eccentricity_limit: None,
        tip_limit: None,
        geometry: None,
        uncertainty: IndicatorUncertainty::Stated(mm(0.001)),
        moves: None,
        levels: Levels::DEFAULT,
    })
    .map_err(|e| inputs.refused(e))
}

/// Eight readings of a value that goes with the cosine of the angle.
fn swept(surface: Surface, value: impl Fn(f64) -> f64) -> Vec<Reading> {
    (0..8)
        .map(|i| {
            let at = 45.0 * f64::from(i);
            reading(surface, at, value(libm::cos(at.to_radians())))
        })
        .collect()
}

fn reading(surface: Surface, at_deg: f64, value_mm: f64) -> Reading {
    Reading {
        half: Half::B,
        surface,
        angle: deg(at_deg),
        value: mm(value_mm),
        sag: None,
        diameter: None,
    }
}

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

fn deg(value: f64) -> Angle {
    Angle::new::<degree>(value)
}
