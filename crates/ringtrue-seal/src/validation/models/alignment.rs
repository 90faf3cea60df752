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

/// Rim and face read at top and bottom, zero at the top: where two planes on the far shaft stand,
/// as the source counts. A face that shows more at the bottom has its far end low.
pub(super) fn rim_and_face_feet(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let rim = inputs.number("rim_bottom")?;
    let face = inputs.number("face_bottom")?;
    let diameter = inputs.number("face_diameter")?;
    let mut readings = four(Surface::Rim, rim);
    readings.extend(four(Surface::Face, face));
    let outcome = evaluated(inputs, readings, None, Some(diameter))?;
    let vertical = |sweep: &alignment::Sweep| {
        sweep.first_mm * libm::cos(sweep.first_direction_deg.to_radians())
    };
    let [rim, face] = outcome.sweeps.as_slice() else {
        return Err(inputs.wrong("a rim and a face are needed"));
    };
    // The room counts an offset up where the top is pushed in: the source states it the other way.
    let offset = -vertical(rim);
    let angularity = -2.0 * vertical(face) / diameter;
    let foot = |distance: f64| angularity * distance - offset;
    let front = foot(inputs.number("dist_front")?);
    let rear = foot(inputs.number("dist_rear")?);
    Ok(Quantities::default()
        .one("offset", offset)
        .one("angularity", angularity)
        .one("front", front)
        .one("rear", rear))
}

/// Two rims swept from both shafts: the line of the axis, and where it stands at the feet.
pub(super) fn reverse_indicator(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let vertical = |key: &str| -> Result<f64, ValidationError> {
        let readings = four(Surface::Rim, inputs.number(key)?);
        let outcome = evaluated(inputs, readings, None, None)?;
        let sweep = &outcome.sweeps[0];
        Ok(sweep.first_mm * libm::cos(sweep.first_direction_deg.to_radians()))
    };
    // The sweep on the stationary shaft is made from the movable one: it sees it the other way.
    let at_movable = vertical("bottom_minus_top_on_movable")?;
    let at_stationary = -vertical("bottom_minus_top_on_stationary")?;
    let apart = inputs.number("AA")?;
    let slope = (at_movable - at_stationary) / apart;
    let at = |distance: f64| at_stationary + slope * distance;
    Ok(Quantities::default()
        .one("offset_at_stationary_plane", at_stationary)
        .one("slope", slope)
        .one("offset_front_feet", at(inputs.number("AB")?))
        .one("offset_rear_feet", at(inputs.number("AC")?)))
}

/// Points on a rim, given as radii at their angles to the sweep of its room.
pub(super) fn circle_points(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let (x, y) = (inputs.numbers("x")?, inputs.numbers("y")?);
    if x.len() != y.len() {
        return Err(inputs.wrong("as many x as y are needed"));
    }
    let radius = |(x, y): (&f64, &f64)| libm::hypot(*x, *y);
    // An indicator shows what a place stands off its zero: here the mean radius.
    let zero = x.iter().zip(&y).map(radius).sum::<f64>() / x.len() as f64;
    let readings = x.iter().zip(&y).map(|(x, y)| {
        let at = libm::atan2(*y, *x).to_degrees();
        reading(Surface::Rim, at, radius((x, y)) - zero)
    });
    let outcome = evaluated(inputs, readings.collect(), None, None)?;
    let sweep = &outcome.sweeps[0];
    let towards = sweep.first_direction_deg.to_radians();
    Ok(Quantities::default()
        .one("cx", sweep.first_mm * libm::cos(towards))
        .one("cy", sweep.first_mm * libm::sin(towards))
        .one("R", zero + sweep.mean_mm))
}

/// What the first wave leaves of a round rim that is only off centre.
pub(super) fn limacon(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let (off, radius) = (inputs.number("ecc_mm")?, inputs.number("R_mm")?);
    let readings = (0..360).map(|at| {
        let angle = f64::from(at).to_radians();
        let across = off * libm::sin(angle);
        let seen = off * libm::cos(angle) + (radius * radius - across * across).sqrt();
        reading(Surface::Rim, f64::from(at), seen - radius)
    });
    let outcome = evaluated(inputs, readings.collect(), None, None)?;
    let sweep = &outcome.sweeps[0];
    // The source counts from the true radius: what the mean took up belongs to it.
    let at = |residual: &f64| (residual + sweep.mean_mm).abs();
    let most = sweep.residuals_mm.iter().map(at).fold(0.0, f64::max);
    Ok(Quantities::default().one("max_error_um", 1e3 * most))
}

/// Sweeps whose sag was read on a pipe and is taken off.
pub(super) fn pipe_sag(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let at_bottom = inputs.number("sag_bottom_reading")?;
    let corrected = |key: &str| -> Result<f64, ValidationError> {
        let sag = Sag { at_bottom: mm(at_bottom), top: deg(0.0) };
        let readings = four(Surface::Rim, inputs.number(key)?);
        let outcome = evaluated(inputs, readings, Some(sag), None)?;
        let values = &outcome.sweeps[0].values_mm;
        Ok(values[2] - values[0])
    };
    Ok(Quantities::default()
        .one("corrected_on_movable", corrected("raw_bottom_on_movable")?)
        .one("corrected_on_stationary", corrected("raw_bottom_on_stationary")?))
}

/// Four readings, zero at the top, half of the bottom's at the sides.
fn four(surface: Surface, bottom: f64) -> Vec<Reading> {
    [(0.0, 0.0), (90.0, 0.5), (180.0, 1.0), (270.0, 0.5)]
        .into_iter()
        .map(|(at, share)| reading(surface, at, share * bottom))
        .collect()
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
