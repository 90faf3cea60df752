//! From readings to the shape of the face and its peak to valley.

use ringtrue_metrology::conformity::{self, Limits, Verdict, range};
use ringtrue_metrology::distribution::{
    Place as NormalPlace, RangeError, RangeOfNormals, normal_quantile,
};
use ringtrue_metrology::fit::harmonic::{self, Harmonic, Place, Terms, Wave};
use ringtrue_metrology::units::Quantity;
use ringtrue_words::say;

use super::{
    BendAmount, FlatnessLimit, Input, Outcome, Pressed, ReadingUncertainty, Seen, Shape, Shown,
};
use crate::RoomError;
use crate::around::{Hole, hole, no_hole, place_deg};

/// Most readings of one face.
const MOST_READINGS: usize = 360;
/// More bands than anyone counts.
const MOST_BANDS: f64 = 1000.0;
/// Fewest places round a ring for its plane.
const FEWEST_ORDERS: usize = 4;
/// Places from which on a second wave round the ring leaves something to check it by.
const FEWEST_FOR_SECOND: usize = 6;

/// Readings, and what they give before any verdict.
pub(super) struct Read {
    shown: Vec<Shown>,
    /// What the peak to valley is the range of; empty where it is one count.
    spread: Vec<NormalPlace>,
    flatness: f64,
    /// Its uncertainty where it is one count.
    one: Option<f64>,
    mean_bend: Option<f64>,
    second: Option<Wave>,
}

/// Reads the bands.
pub(super) fn read(input: &Input) -> Result<Read, RoomError> {
    match &input.seen {
        Seen::Bends(bends) => {
            let shown = bends
                .iter()
                .map(|bend| {
                    let (bands, u) = bend_in_bands(bend.amount, input.uncertainty)?;
                    Ok(shown(Some(place_deg(bend.azimuth)), bands, u))
                })
                .collect::<Result<Vec<_>, RoomError>>()?;
            check(&shown)?;
            Ok(of_bends(shown))
        }
        Seen::Closed { bands, .. } => {
            let u = in_bands(input.uncertainty)?;
            let shown = vec![shown(None, *bands, u)];
            check(&shown)?;
            if *bands < 0.0 {
                return Err(RoomError::input(
                    say!("flat-count-below-zero"),
                    say!("flat-count-bands"),
                ));
            }
            let (flatness, mean_bend, second) = (*bands, None, None);
            Ok(Read { shown, spread: Vec::new(), flatness, one: u, mean_bend, second })
        }
        Seen::Orders(orders) => {
            let u = in_bands(input.uncertainty)?;
            let shown: Vec<Shown> = orders
                .iter()
                .map(|order| shown(Some(place_deg(order.angle)), order.order, u))
                .collect();
            check(&shown)?;
            of_orders(shown, u)
        }
    }
}

fn shown(angle_deg: Option<f64>, bands: f64, u: Option<f64>) -> Shown {
    Shown { angle_deg, bands, standard_uncertainty_bands: u, height_bands: None }
}

fn check(shown: &[Shown]) -> Result<(), RoomError> {
    if shown.is_empty() || shown.len() > MOST_READINGS {
        let found = say!("flat-readings", n = shown.len());
        return Err(RoomError::input(found, say!("flat-1-wanted", most = MOST_READINGS)));
    }
    match shown.iter().find(|one| one.bands.is_nan() || one.bands.abs() > MOST_BANDS) {
        Some(one) => {
            let found = say!("flat-reading-bands", bands = one.bands.to_string());
            Err(RoomError::input(
                found,
                say!("flat-at-most-bands-judged", most = MOST_BANDS.to_string()),
            ))
        }
        None => Ok(()),
    }
}

/// a/b, with `u² = (u/b)² (1 + (a/b)²)` where bend and spacing were measured with one ruler.
fn bend_in_bands(
    amount: BendAmount,
    uncertainty: ReadingUncertainty,
) -> Result<(f64, Option<f64>), RoomError> {
    match (amount, uncertainty) {
        (BendAmount::Bands(bands), uncertainty) => Ok((bands, in_bands(uncertainty)?)),
        (BendAmount::Measured { bend, spacing }, uncertainty) => {
            let (a, b) = (bend.si(), spacing.si());
            if b.is_nan() || b <= 0.0 {
                let found = say!("flat-spacing-mm-from-band-band", spacing = (b * 1e3).to_string());
                return Err(RoomError::input(found, say!("flat-spacing-above-zero-wanted")));
            }
            let ratio = a / b;
            let u = match uncertainty {
                ReadingUncertainty::Bands(bands) => Some(bands),
                ReadingUncertainty::Length(u) => Some(u.si() / b * libm::hypot(1.0, ratio)),
                ReadingUncertainty::Unknown => None,
            };
            Ok((ratio, u))
        }
    }
}

fn in_bands(uncertainty: ReadingUncertainty) -> Result<Option<f64>, RoomError> {
    match uncertainty {
        ReadingUncertainty::Bands(bands) => Ok(Some(bands)),
        ReadingUncertainty::Unknown => Ok(None),
        ReadingUncertainty::Length(_) => Err(RoomError::input(
            say!("flat-uncertainty-as-length-for-readings-in"),
            say!("flat-state-in-bands-such-as-0"),
        )),
    }
}

/// The spread of all bends and zero: the middle of the face counts too.
fn of_bends(shown: Vec<Shown>) -> Read {
    let high = shown.iter().map(|one| one.bands).fold(0.0, f64::max);
    let low = shown.iter().map(|one| one.bands).fold(0.0, f64::min);
    let mut spread: Vec<NormalPlace> = shown.iter().map(|one| normal(one, one.bands)).collect();
    spread.push(NormalPlace { value: 0.0, standard_uncertainty: 0.0 });
    let mean = shown.iter().map(|one| one.bands).sum::<f64>() / shown.len() as f64;
    // 2φ is the angle of a plain wave.
    let doubled: Vec<Place> = shown.iter().filter_map(|one| place(one, 2.0)).collect();
    let fit = harmonic::fit(&doubled, Terms::Plane).ok();
    let mean_bend = fit.as_ref().map_or(mean, Harmonic::mean);
    let second = fit.map(|fit| Wave { order: 2, ..fit.first() });
    Read { shown, spread, flatness: high - low, one: None, mean_bend: Some(mean_bend), second }
}

/// Peak to valley from the best plane.
fn of_orders(mut shown: Vec<Shown>, u: Option<f64>) -> Result<Read, RoomError> {
    let mut angles: Vec<f64> = shown.iter().filter_map(|one| one.angle_deg).collect();
    angles.sort_by(f64::total_cmp);
    angles.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    if angles.len() < FEWEST_ORDERS || angles.len() < shown.len() {
        let found = say!("flat-orders-at-places", orders = shown.len(), places = angles.len());
        let fits = say!("flat-one-order-at-each-four-places");
        return Err(RoomError::input(found, fits));
    }
    if let Some(Hole { from_deg, wide_deg }) = hole(&angles) {
        let found = say!(
            "flat-nothing-read-for-deg-from-deg",
            hole = format!("{wide_deg:.0}"),
            from = format!("{from_deg:.0}")
        );
        return Err(RoomError::input(found, no_hole()));
    }
    let places: Vec<Place> = shown.iter().filter_map(|one| place(one, 1.0)).collect();
    let plane = harmonic::fit(&places, Terms::Plane).map_err(|error| {
        RoomError::input(error.to_string(), say!("flat-places-evenly-round-ring-wanted"))
    })?;
    let second = (angles.len() >= FEWEST_FOR_SECOND)
        .then(|| harmonic::fit(&places, Terms::SecondHarmonic).ok())
        .flatten()
        .and_then(|fit| fit.second())
        // A wider gap is a lower face.
        .map(|wave| Wave { cosine: -wave.cosine, sine: -wave.sine, ..wave });
    for (one, residual) in shown.iter_mut().zip(plane.residuals()) {
        one.height_bands = Some(-residual);
    }
    let heights: Vec<f64> = shown.iter().filter_map(|one| one.height_bands).collect();
    let high = heights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let low = heights.iter().copied().fold(f64::INFINITY, f64::min);
    let spread = shown.iter().zip(&heights).map(|(one, height)| normal(one, *height)).collect();
    let flatness = high - low;
    Ok(Read { shown, spread, flatness, one: u, mean_bend: None, second })
}

fn normal(one: &Shown, value: f64) -> NormalPlace {
    NormalPlace { value, standard_uncertainty: one.standard_uncertainty_bands.unwrap_or(0.0) }
}

/// A reading as a place of a fit, all of one weight.
fn place(one: &Shown, order: f64) -> Option<Place> {
    Some(Place {
        angle_rad: order * one.angle_deg?.to_radians(),
        value: one.bands,
        standard_uncertainty: 1.0,
    })
}

/// Everything but what to do.
pub(super) fn describe(input: &Input, band: f64, read: &Read) -> Result<Outcome, RoomError> {
    let known = read.shown.iter().all(|one| one.standard_uncertainty_bands.is_some());
    let u = if known { Some(uncertainty(read)?) } else { None };
    let limit_bands = input.limit.map(|limit| match limit {
        FlatnessLimit::Bands(bands) => bands,
        FlatnessLimit::Length(length) => length.si() * 1e6 / band,
    });
    let decision = match (limit_bands, u) {
        (Some(limit), Some(u)) => Some(judge(input, read, limit, u)?),
        _ => None,
    };
    let (shape, shape_resolved) = shape(input, read, known);
    Ok(Outcome {
        source: input.source.name(),
        wavelength_nm: input.source.wavelength_nm(),
        band_um: band,
        flatness_bands: read.flatness,
        flatness_um: read.flatness * band,
        standard_uncertainty_bands: u,
        standard_uncertainty_um: u.map(|u| u * band),
        shape,
        shape_resolved,
        mean_bend_bands: read.mean_bend,
        second_harmonic_bands: read.second.map(|wave| wave.amplitude()),
        second_harmonic_crest_deg: read.second.map(|wave| wave.phase_rad().to_degrees()),
        limit_bands,
        limit_um: limit_bands.map(|limit| limit * band),
        probability_conforms: decision.map(|(probability, _)| probability),
        verdict: decision.map_or(Verdict::NotProven, |(_, verdict)| verdict),
        actions: Vec::new(),
        readings: read.shown.clone(),
    })
}

fn unfit(error: RangeError) -> RoomError {
    RoomError::input(error.to_string(), say!("flat-finite-readings-uncertainties-wanted"))
}

/// Standard uncertainty of the peak to valley.
fn uncertainty(read: &Read) -> Result<f64, RoomError> {
    if read.spread.is_empty() {
        return Ok(read.one.unwrap_or(0.0));
    }
    if read.spread.len() == 2 {
        // One bend against the middle: the bend's own.
        return Ok(read.spread[0].standard_uncertainty);
    }
    let range = RangeOfNormals::new(&read.spread).map_err(unfit)?;
    Ok(range.moments().standard_deviation)
}

fn judge(input: &Input, read: &Read, limit: f64, u: f64) -> Result<(f64, Verdict), RoomError> {
    if read.spread.is_empty() {
        // `checked_band_um` refused every limit that is none.
        let limits = Limits::at_most(limit);
        let decision =
            limits.map(|limits| conformity::judge(read.flatness, u, limits, input.levels));
        return Ok(decision.map_or((0.0, Verdict::NotProven), |decision| {
            (decision.probability_conforms, decision.verdict)
        }));
    }
    let decision = range::judge_range(&read.spread, limit, input.levels).map_err(unfit)?;
    Ok((decision.probability_conforms, decision.verdict))
}

/// What the face looks like, and whether that is told from chance.
fn shape(input: &Input, read: &Read, known: bool) -> (Shape, bool) {
    match &input.seen {
        Seen::Closed { pressed, .. } if read.flatness > 0.0 => match pressed {
            Pressed::TowardsPressure => (Shape::Crown, true),
            Pressed::AwayFromPressure => (Shape::Dish, true),
            Pressed::NotTried => (Shape::CrownOrDish, true),
        },
        Seen::Closed { .. } => (Shape::Flat, true),
        Seen::Bends(_) => of_signs(read, known),
        Seen::Orders(_) => {
            let u = read.one.unwrap_or(0.0);
            let n = read.shown.len() as f64;
            // The amplitude of a wave that noise alone makes has u √(2/n) in each part.
            let noise = normal_quantile(0.975) * u * (2.0 / n).sqrt();
            match read.second.map(|wave| wave.amplitude()) {
                _ if read.flatness == 0.0 => (Shape::Flat, true),
                Some(second) if 2.0 * second >= 0.5 * read.flatness => {
                    (Shape::Saddle, known && second > noise)
                }
                Some(_) | None => (Shape::Wavy, known && read.flatness > 4.0 * u),
            }
        }
    }
}

/// By the signs of the bends that stand out of their uncertainty.
fn of_signs(read: &Read, known: bool) -> (Shape, bool) {
    let k = normal_quantile(0.975);
    let beyond = |sign: f64, factor: f64| {
        read.shown.iter().any(|one| {
            let u = one.standard_uncertainty_bands.unwrap_or(0.0);
            sign * one.bands > factor * k * u + 1e-12
        })
    };
    match (beyond(1.0, 1.0), beyond(-1.0, 1.0)) {
        (true, true) => (Shape::Saddle, known),
        (true, false) => (Shape::Crown, known),
        (false, true) => (Shape::Dish, known),
        (false, false) => match (beyond(1.0, 0.0), beyond(-1.0, 0.0)) {
            (true, true) => (Shape::Saddle, false),
            (true, false) => (Shape::Crown, false),
            (false, true) => (Shape::Dish, false),
            (false, false) => (Shape::Flat, true),
        },
    }
}
