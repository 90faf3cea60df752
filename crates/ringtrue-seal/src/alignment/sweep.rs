//! From readings to sweeps, from sweeps to the position of one half.

use ringtrue_metrology::distribution::{Place as NormalPlace, RangeOfNormals, chi_squared_sf};
use ringtrue_metrology::fit::FitError;
use ringtrue_metrology::fit::harmonic::{self, Harmonic, Place, Terms, Wave};
use ringtrue_metrology::uncertain::{Pooled, pooled};
use ringtrue_metrology::units::{Length, Quantity, in_mm};
use ringtrue_words::say;

use super::{
    IndicatorSense, IndicatorUncertainty, Input, Reading, Reference, Surface, Sweep,
    UncertaintyBasis, direction_deg,
};
use crate::RoomError;
use crate::around::{Hole, hole, no_hole, place_deg};
use crate::definition::joint::Half;

/// Fewest places round a sweep.
const FEWEST_PLACES: usize = 4;
/// Places that a second wave needs, so that one is left to check it by.
const FEWEST_FOR_SECOND: usize = 6;
/// A second wave whose parts are known this much worse than evenly spaced places would give them
/// is not one that the places can show.
const WORST_SPACING: f64 = 4.0;
/// Most readings of one sweep.
const MOST_READINGS: usize = 720;
/// Readings beyond this are not an indicator's.
const LARGEST_MM: f64 = 100.0;
/// Degrees of freedom from which on what is left tells the readings' uncertainty.
const ENOUGH_FREEDOM: f64 = 5.0;
/// More than the uncertainty explains: chance would show it in less than this share of sweeps.
const CHANCE: f64 = 0.025;

/// All sweeps, and the position that they give.
pub(super) struct Swept {
    pub(super) sweeps: Vec<Sweep>,
    /// Whose position is given.
    pub(super) of: Half,
    pub(super) relative_to: Reference,
    /// Offset of the axes, mm.
    pub(super) offset: Option<Wave>,
    /// Tilt of the faces, mrad, towards where they stand nearest.
    pub(super) tilt: Option<Wave>,
    pub(super) one_reading: Option<f64>,
    pub(super) basis: UncertaintyBasis,
}

impl Swept {
    /// The largest of what the sweeps of these surfaces leave, with its uncertainty.
    pub(super) fn left(&self, surfaces: &[Surface]) -> Option<(f64, Option<f64>)> {
        let sweeps = self.sweeps.iter().filter(|sweep| surfaces.contains(&sweep.surface));
        sweeps
            .map(|sweep| (sweep.left_mm, sweep.left_standard_uncertainty_mm))
            .max_by(|a, b| a.0.total_cmp(&b.0))
    }
}

/// One sweep's readings in the sense of the fit.
struct Raw {
    half: Half,
    surface: Surface,
    /// Angle in degrees and value in mm.
    points: Vec<(f64, f64)>,
    /// By how much a reading's uncertainty grows because its sag was read too.
    widened: f64,
    diameter_mm: Option<f64>,
}

/// Sorts, fits and combines.
pub(super) fn sweeps(input: &Input) -> Result<Swept, RoomError> {
    let raws = raws(input)?;
    let (one_reading, basis) = budget(input, &raws)?;
    let fitted = raws
        .iter()
        .map(|raw| fit(raw, one_reading.unwrap_or(1.0)))
        .collect::<Result<Vec<_>, _>>()?;
    let (of, relative_to) = relation(&raws)?;
    let radial = |surface: Surface| surface != Surface::Face;
    let of_kind = |kind: &dyn Fn(Surface) -> bool, half: Half| {
        raws.iter().zip(&fitted).find(|(raw, _)| raw.half == half && kind(raw.surface))
    };
    let other = if of == Half::A { Half::B } else { Half::A };
    let offset = of_kind(&radial, of).map(|(_, fit)| fit.first()).map(|own| {
        match of_kind(&radial, other) {
            // The same bracket sags alike on both: it cancels, and so does its uncertainty.
            Some((_, reference)) => combine(own, reference.first(), -1.0),
            None => with_sag(input, own, one_reading.unwrap_or(0.0)),
        }
    });
    let face = |surface: Surface| surface == Surface::Face;
    let milliradian = |(raw, fit): (&Raw, &Harmonic)| {
        // Reading over half the diameter is a slope; of a few mrad, so it is the angle.
        raw.diameter_mm.map(|diameter| scaled(fit.first(), 2e3 / diameter))
    };
    let tilt = of_kind(&face, of).and_then(milliradian).map(|own| {
        match of_kind(&face, other).and_then(milliradian) {
            // Each face is high towards the other: both close the gap.
            Some(reference) => combine(own, reference, 1.0),
            None => own,
        }
    });
    let sweeps =
        raws.iter().zip(&fitted).map(|(raw, fit)| describe(raw, fit, one_reading)).collect();
    Ok(Swept { sweeps, of, relative_to, offset, tilt, one_reading, basis })
}

/// Readings by half and surface, sag taken off, in the sense of the fit.
fn raws(input: &Input) -> Result<Vec<Raw>, RoomError> {
    let mut raws: Vec<Raw> = Vec::new();
    for reading in &input.readings {
        let index = raws
            .iter()
            .position(|raw| raw.half == reading.half && raw.surface == reading.surface)
            .unwrap_or_else(|| {
                let (half, surface) = (reading.half, reading.surface);
                raws.push(Raw { half, surface, points: vec![], widened: 1.0, diameter_mm: None });
                raws.len() - 1
            });
        let raw = &mut raws[index];
        raw.points.push((place_deg(reading.angle), value(input, reading)?));
        if reading.sag.is_some() {
            // Two readings of one indicator: the swept one less the pipe's.
            raw.widened = 2f64.sqrt();
        }
        put_diameter(raw, reading.diameter)?;
    }
    if raws.is_empty() {
        return Err(RoomError::input(
            say!("align-there-no-reading"),
            say!("align-sweep-four-or-more-wanted"),
        ));
    }
    for raw in &mut raws {
        check_places(raw)?;
        if raw.surface == Surface::Face {
            raw.diameter_mm = Some(face_diameter(raw, input.face_diameter)?);
        }
    }
    Ok(raws)
}

fn put_diameter(raw: &mut Raw, stated: Option<Length>) -> Result<(), RoomError> {
    let Some(stated) = stated.map(in_mm) else { return Ok(()) };
    match raw.diameter_mm.replace(stated) {
        Some(before) if (before - stated).abs() > 1e-6 => {
            let found = say!(
                "align-one-sweep-mm-mm-diameter",
                diameter = before.to_string(),
                other = stated.to_string()
            );
            Err(RoomError::input(found, say!("align-sweep-has-one-diameter")))
        }
        Some(_) | None => Ok(()),
    }
}

fn face_diameter(raw: &Raw, beside: Option<Length>) -> Result<f64, RoomError> {
    let diameter = raw.diameter_mm.or_else(|| beside.map(in_mm)).ok_or_else(|| {
        let found = say!("align-face-half-swept-on-no-stated", half = raw.half.name());
        RoomError::input(found, say!("align-give-diameter-face-sweep"))
    })?;
    if diameter > 0.0 {
        return Ok(diameter);
    }
    let found = say!("align-face-sweep-mm-diameter", diameter = diameter.to_string());
    Err(RoomError::input(found, say!("align-diameter-above-zero-wanted")))
}

/// The reading in mm, sag taken off, largest where the housing stands off or nearest.
fn value(input: &Input, reading: &Reading) -> Result<f64, RoomError> {
    let raw = in_mm(reading.value);
    if raw.is_nan() || raw.abs() > LARGEST_MM {
        let found = say!(
            "align-reading-mm-at-deg",
            reading = format!("{raw:.0}"),
            angle = format!("{:.0}", place_deg(reading.angle))
        );
        let fits = say!("align-readings-within-mm-wanted", largest = LARGEST_MM.to_string());
        return Err(RoomError::input(found, fits));
    }
    let pressed = match input.sense {
        IndicatorSense::InCountsUp => 1.0,
        IndicatorSense::OutCountsUp => -1.0,
    };
    let outward = match reading.surface {
        Surface::Rim | Surface::Face => 1.0,
        Surface::Bore => -1.0,
    };
    let by_formula = || {
        let sag = input.sag.filter(|_| reading.surface != Surface::Face)?;
        // Read with the plunger inward: in a bore the same droop shows the other way.
        let turned = libm::cos(reading.angle.si() - sag.top.si());
        Some(outward * in_mm(sag.at_bottom) * (1.0 - turned) / 2.0)
    };
    let sag = reading.sag.map(in_mm).or_else(by_formula).unwrap_or(0.0);
    Ok(pressed * outward * (raw - sag))
}

/// Whose position is given, and relative to what.
fn relation(raws: &[Raw]) -> Result<(Half, Reference), RoomError> {
    let radial = |half: Half| {
        raws.iter().filter(|raw| raw.half == half && raw.surface != Surface::Face).count()
    };
    let face = |half: Half| raws.iter().any(|raw| raw.half == half && raw.surface == Surface::Face);
    if let Some(half) = Half::BOTH.into_iter().find(|half| radial(*half) > 1) {
        let found = say!("align-rim-bore-half-both-swept", half = half.name());
        return Err(RoomError::input(found, say!("align-sweep-one-them")));
    }
    let swept = |half: Half| radial(half) > 0 || face(half);
    match (swept(Half::A), swept(Half::B)) {
        (true, true) => {
            let unlike = if radial(Half::A) == radial(Half::B) {
                (face(Half::A) != face(Half::B)).then(|| say!("align-face-of-one-half-not-others"))
            } else {
                Some(say!("align-rim-or-bore-of-one-half-not-others"))
            };
            match unlike {
                None => Ok((Half::B, Reference::OtherHalf)),
                Some(found) => {
                    Err(RoomError::input(found, say!("align-sweep-same-both-halves-or-one")))
                }
            }
        }
        (true, false) => Ok((Half::A, Reference::IndicatorAxis)),
        (false, _) => Ok((Half::B, Reference::IndicatorAxis)),
    }
}

fn check_places(raw: &Raw) -> Result<(), RoomError> {
    let (surface, half) = (raw.surface.name(), raw.half.name());
    let refuse = |found: String, fits: String| Err(RoomError::input(found, fits));
    if raw.points.len() > MOST_READINGS {
        let found = say!("align-readings-on", n = raw.points.len(), surface, half);
        return refuse(found, say!("align-at-most-judged", most = MOST_READINGS));
    }
    let angles = places(raw);
    if angles.len() < FEWEST_PLACES {
        let found = say!("align-places-round", n = angles.len(), surface, half);
        return refuse(
            found,
            say!("align-places-or-more-wanted-evenly-round", fewest = FEWEST_PLACES),
        );
    }
    match hole(&angles) {
        None => Ok(()),
        Some(Hole { from_deg, wide_deg }) => refuse(
            say!(
                "align-nothing-read-on-for-deg-from",
                surface,
                half,
                hole = format!("{wide_deg:.0}"),
                from = format!("{from_deg:.0}")
            ),
            no_hole(),
        ),
    }
}

/// The different angles of a sweep, ascending.
fn places(raw: &Raw) -> Vec<f64> {
    let mut angles: Vec<f64> = raw.points.iter().map(|(angle, _)| *angle).collect();
    angles.sort_by(f64::total_cmp);
    angles.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    angles
}

/// The standard uncertainty of one reading: stated, or from what the fits leave.
fn budget(input: &Input, raws: &[Raw]) -> Result<(Option<f64>, UncertaintyBasis), RoomError> {
    match input.uncertainty {
        IndicatorUncertainty::Stated(u) => Ok((Some(in_mm(u)), UncertaintyBasis::Stated)),
        IndicatorUncertainty::Gauge { non_repeating, resolution } => {
            // A step of the display is a rectangle of half a step each way (JCGM 100 F.2.2.1).
            let step = in_mm(resolution) / 12f64.sqrt();
            let u = libm::hypot(in_mm(non_repeating), step);
            Ok((Some(u), UncertaintyBasis::Gauge))
        }
        IndicatorUncertainty::Unknown => {
            let (mut squares, mut freedom) = (0.0, 0.0);
            for raw in raws {
                let fit = fit(raw, 1.0)?;
                let share = raw.widened * raw.widened;
                squares += fit.residuals().iter().map(|e| e * e / share).sum::<f64>();
                freedom += fit.degrees_of_freedom() as f64;
            }
            if freedom < ENOUGH_FREEDOM {
                return Ok((None, UncertaintyBasis::None));
            }
            let standard_deviation = (squares / freedom).sqrt();
            let seen = Pooled { standard_deviation, degrees_of_freedom: freedom };
            Ok((Some(seen.widened()), UncertaintyBasis::Residuals))
        }
    }
}

/// The waves of a sweep: with the second where the places can show it.
fn fit(raw: &Raw, one_reading: f64) -> Result<Harmonic, RoomError> {
    let unfit = |error: FitError| {
        RoomError::input(error.to_string(), say!("align-places-evenly-round-sweep-wanted"))
    };
    let places_of = |u: f64| {
        let place = |(angle, value): &(f64, f64)| Place {
            angle_rad: angle.to_radians(),
            value: *value,
            standard_uncertainty: u,
        };
        raw.points.iter().map(place).collect::<Vec<_>>()
    };
    let u = one_reading * raw.widened;
    if places(raw).len() >= FEWEST_FOR_SECOND {
        let even = 2.0 / raw.points.len() as f64;
        let well_spaced = harmonic::fit(&places_of(1.0), Terms::SecondHarmonic)
            .is_ok_and(|fit| (1..5).all(|i| fit.covariance()[(i, i)] <= WORST_SPACING * even));
        if well_spaced {
            return harmonic::fit(&places_of(u), Terms::SecondHarmonic).map_err(unfit);
        }
    }
    harmonic::fit(&places_of(u), Terms::Plane).map_err(unfit)
}

fn describe(raw: &Raw, fit: &Harmonic, one_reading: Option<f64>) -> Sweep {
    let first = fit.first();
    let wave = |angle: f64| {
        let rad = angle.to_radians();
        fit.mean() + first.cosine * libm::cos(rad) + first.sine * libm::sin(rad)
    };
    let residuals: Vec<f64> = raw.points.iter().map(|(at, value)| value - wave(*at)).collect();
    let (left_mm, left_u, out_of_form) = left(raw, &residuals, one_reading);
    let second = fit.second();
    let (angles_deg, values_mm) = raw.points.iter().copied().unzip();
    Sweep {
        half: raw.half,
        surface: raw.surface,
        angles_deg,
        values_mm,
        mean_mm: fit.mean(),
        first_mm: first.amplitude(),
        first_direction_deg: direction_deg(&first),
        second_mm: second.map(|wave| wave.amplitude()),
        second_crest_deg: second.map(|wave| wave.phase_rad().to_degrees()),
        residuals_mm: residuals,
        left_mm,
        left_standard_uncertainty_mm: left_u,
        out_of_form,
        diameter_mm: raw.diameter_mm,
        not_repeating_deg: not_repeating(raw, one_reading),
    }
}

/// Values at each different angle.
fn by_place(raw: &Raw, values: &[f64]) -> Vec<(f64, Vec<f64>)> {
    let mut groups: Vec<(f64, Vec<f64>)> =
        places(raw).into_iter().map(|angle| (angle, Vec::new())).collect();
    for ((angle, _), value) in raw.points.iter().zip(values) {
        if let Some((_, group)) = groups.iter_mut().find(|(at, _)| (at - angle).abs() < 1e-6) {
            group.push(*value);
        }
    }
    groups
}

/// Highest minus lowest of what the first wave leaves, its uncertainty, and whether it is real.
fn left(raw: &Raw, residuals: &[f64], one_reading: Option<f64>) -> (f64, Option<f64>, bool) {
    let groups = by_place(raw, residuals);
    let mean = |group: &Vec<f64>| group.iter().sum::<f64>() / group.len() as f64;
    let means: Vec<f64> = groups.iter().map(|(_, group)| mean(group)).collect();
    let highest = means.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let lowest = means.iter().copied().fold(f64::INFINITY, f64::min);
    let spread = highest - lowest;
    let Some(u) = one_reading.map(|u| u * raw.widened).filter(|u| *u > 0.0) else {
        // Without any uncertainty everything beyond rounding is real.
        return (spread, one_reading, one_reading.is_some() && spread > 1e-9);
    };
    let normal: Vec<NormalPlace> = groups
        .iter()
        .zip(&means)
        .map(|((_, group), mean)| NormalPlace {
            value: *mean,
            standard_uncertainty: u / (group.len() as f64).sqrt(),
        })
        .collect();
    let spread_u = RangeOfNormals::new(&normal).ok().map(|range| range.moments());
    let squares: f64 = normal
        .iter()
        .map(|p| p.value * p.value / (p.standard_uncertainty * p.standard_uncertainty))
        .sum();
    let real = chi_squared_sf(squares, means.len() as f64 - 3.0) < CHANCE;
    (spread, spread_u.map(|moments| moments.standard_deviation), real)
}

/// Places whose readings differ from each other by more than chance allows.
fn not_repeating(raw: &Raw, one_reading: Option<f64>) -> Vec<f64> {
    let Some(u) = one_reading.map(|u| u * raw.widened).filter(|u| *u > 0.0) else {
        return Vec::new();
    };
    let values: Vec<f64> = raw.points.iter().map(|(_, value)| *value).collect();
    let groups = by_place(raw, &values);
    let repeated = groups.iter().filter(|(_, group)| group.len() > 1).count().max(1);
    groups
        .iter()
        .filter(|(_, group)| {
            pooled(&[group]).is_ok_and(|seen| seen.is_beyond(u, CHANCE / repeated as f64))
        })
        .map(|(angle, _)| *angle)
        .collect()
}

/// `one + sign · other`, independent of each other.
fn combine(one: Wave, other: Wave, sign: f64) -> Wave {
    Wave {
        order: 1,
        cosine: one.cosine + sign * other.cosine,
        sine: one.sine + sign * other.sine,
        variance_cosine: one.variance_cosine + other.variance_cosine,
        variance_sine: one.variance_sine + other.variance_sine,
        covariance: one.covariance + other.covariance,
    }
}

fn scaled(wave: Wave, factor: f64) -> Wave {
    let square = factor * factor;
    Wave {
        order: 1,
        cosine: factor * wave.cosine,
        sine: factor * wave.sine,
        variance_cosine: square * wave.variance_cosine,
        variance_sine: square * wave.variance_sine,
        covariance: square * wave.covariance,
    }
}

/// The sag at the bottom is the difference of two readings, and half of it moves the centre along
/// the vertical.
fn with_sag(input: &Input, wave: Wave, one_reading: f64) -> Wave {
    let Some(sag) = input.sag else { return wave };
    let variance = one_reading * one_reading / 2.0;
    let (cos, sin) = (libm::cos(sag.top.si()), libm::sin(sag.top.si()));
    Wave {
        variance_cosine: wave.variance_cosine + variance * cos * cos,
        variance_sine: wave.variance_sine + variance * sin * sin,
        covariance: wave.covariance + variance * cos * sin,
        ..wave
    }
}

impl Surface {
    /// Its word.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Rim => say!("align-surface-rim"),
            Self::Bore => say!("align-surface-bore"),
            Self::Face => say!("align-surface-face"),
        }
    }
}
