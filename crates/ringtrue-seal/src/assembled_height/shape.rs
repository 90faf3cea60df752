//! The shape of the heights round the ring: plane, second harmonic, and what stands off.

use ringtrue_metrology::distribution::normal_quantile;
use ringtrue_metrology::fit::FitError;
use ringtrue_metrology::fit::harmonic::{self, Harmonic, Place, Terms};
use ringtrue_words::say;

use super::places::Spot;
use crate::RoomError;

/// Places that a second harmonic needs, so that one is left to check it by.
const FEWEST_FOR_SECOND_HARMONIC: usize = 6;
/// A second harmonic whose parts are known this much worse than evenly spaced places would give
/// them is not one that the places can show.
const WORST_SPACING: f64 = 4.0;
/// Places that may stand off before the shape itself is in question.
const MOST_SUSPECTS: usize = 3;
/// Chance of naming a place of a ring that has none, shared among all places and both directions.
const CHANCE: f64 = 0.05;
/// By how much the square of the largest studentised residual must stand above the next one's
/// before one place can be told from its neighbours (a likelihood ratio at two standard
/// deviations).
const TOLD_APART: f64 = 4.0;

/// The fits of one set of heights.
pub(super) struct Shape {
    /// The least-squares plane.
    pub(super) plane: Harmonic,
    /// Plane and second harmonic, where the places allow it.
    pub(super) second: Option<Harmonic>,
}

/// Fits the places; weights go with the number of rounds.
///
/// `one_reading` is the standard uncertainty of one reading; without it the fit is the same and its
/// covariance has no meaning.
pub(super) fn shape(spots: &[Spot], one_reading: Option<f64>) -> Result<Shape, RoomError> {
    let places = places(spots, one_reading);
    let unfit = |error: FitError| {
        RoomError::input(error.to_string(), say!("height-places-evenly-round-ring-wanted"))
    };
    let plane = harmonic::fit(&places, Terms::Plane).map_err(unfit)?;
    let second = (spots.len() >= FEWEST_FOR_SECOND_HARMONIC)
        .then(|| harmonic::fit(&self::places(spots, None), Terms::SecondHarmonic).ok())
        .flatten()
        .filter(|fit| {
            let even = 2.0 / spots.iter().map(Spot::rounds).sum::<f64>();
            let covariance = fit.covariance();
            covariance[(3, 3)].max(covariance[(4, 4)]) <= WORST_SPACING * even
        })
        .and_then(|_| harmonic::fit(&places, Terms::SecondHarmonic).ok());
    Ok(Shape { plane, second })
}

fn places(spots: &[Spot], one_reading: Option<f64>) -> Vec<Place> {
    let one = one_reading.unwrap_or(1.0);
    let place = |spot: &Spot| Place {
        angle_rad: spot.angle_rad(),
        value: spot.height_mm,
        standard_uncertainty: one / spot.rounds().sqrt(),
    };
    spots.iter().map(place).collect()
}

/// Places that stand off the fitted shape by more than their uncertainty explains, in the order of
/// the places.
///
/// One place that stands off costs one parameter, a second harmonic two: the cheaper shape that
/// explains the heights is taken. Where two places explain them equally well none is named.
pub(super) fn suspects(spots: &[Spot], one_reading: Option<f64>, shape: &Shape) -> Vec<usize> {
    let Some(one_reading) = one_reading.filter(|u| *u > 0.0) else {
        return Vec::new();
    };
    let alone = outliers(spots, one_reading, Terms::Plane);
    if shape.second.is_none() || (alone.explained && alone.places.len() <= 2) {
        return alone.places;
    }
    let bent = outliers(spots, one_reading, Terms::SecondHarmonic);
    let cheaper = bent.places.len() + 2 < alone.places.len();
    if bent.explained && (cheaper || !alone.explained) { bent.places } else { alone.places }
}

struct Outliers {
    places: Vec<usize>,
    /// Do the places that are left keep to the shape?
    explained: bool,
}

/// Takes out the place that stands off most, again and again, while one does and can be told from
/// the next.
fn outliers(spots: &[Spot], one_reading: f64, terms: Terms) -> Outliers {
    let mut left: Vec<usize> = (0..spots.len()).collect();
    let mut places = Vec::new();
    let explained = loop {
        // One degree of freedom gives residuals of one size: no place can be named.
        let kept: Vec<Spot> = left.iter().map(|index| spots[*index].clone()).collect();
        let Ok(fit) = harmonic::fit(&self::places(&kept, Some(one_reading)), terms) else {
            break false;
        };
        let mut off: Vec<(f64, usize)> = fit
            .studentised_residuals()
            .iter()
            .enumerate()
            .filter_map(|(index, residual)| residual.map(|r| (r * r, index)))
            .collect();
        off.sort_by(|a, b| b.0.total_cmp(&a.0));
        let bound = normal_quantile(1.0 - CHANCE / (2.0 * left.len() as f64));
        let Some((worst, index)) = off.first().copied().filter(|(sq, _)| *sq > bound * bound)
        else {
            break true;
        };
        let next = off.get(1).map_or(0.0, |(square, _)| *square);
        let free = left.len() - terms.coefficients();
        if free < 2 || worst - next < TOLD_APART || places.len() == MOST_SUSPECTS {
            break false;
        }
        places.push(left.remove(index));
    };
    places.sort_unstable();
    Outliers { places, explained }
}
