//! The plane round a ring, and its second harmonic.
//!
//! The question: which tilted plane, and which bend or twist, do the readings round a ring show?
//!
//! `h(θ) = h0 + a cos θ + b sin θ [+ a2 cos 2θ + b2 sin 2θ]`
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | θ | angle of a place, counter-clockwise | rad |
//! | h | reading at the place | the caller's length |
//! | h0 | mean height of the fitted shape | as h |
//! | a, b | cosine and sine part of the tilt | as h |
//! | a2, b2 | cosine and sine part of the second harmonic (saddle, twist) | as h |
//!
//! Weighted with `1/u²` by the standard uncertainties of the places. Where all places have the
//! same one they count alike, and it may be zero. The covariance is the known one (from the given
//! uncertainties), never rescaled by the scatter of the residuals.
//!
//! Valid for at least as many different angles as coefficients (3 or 5); otherwise the rank check
//! refuses. Four places 90° apart cannot see `sin 2θ` at all: the second harmonic is then refused.

use std::f64::consts::{PI, TAU};

use nalgebra::{DMatrix, DVector};
use ringtrue_words::say;

use super::FitError;
use super::linear::{self, Design, Intercept, Weights};
use crate::source::Source;

/// Where the method comes from.
pub const SOURCES: &[Source] = &[
    Source::Published("JCGM 100:2008, H.3 (least squares and its covariance)"),
    Source::Published("JCGM 100:2008, 5.1.2 and 5.2.2 (amplitude and direction, first order)"),
    Source::Unverified(
        "R. D. Cook, S. Weisberg, Residuals and Influence in Regression, Chapman and Hall 1982, \
         section 2.2 (studentised residuals)",
    ),
];

/// An amplitude below this many of its standard uncertainties has no direction.
pub const RESOLVED_AT: f64 = 2.0;

/// One place on the ring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Angle θ, rad.
    pub angle_rad: f64,
    /// Reading h.
    pub value: f64,
    /// Standard uncertainty of the reading, `>= 0`; zero only if it is zero for every place.
    pub standard_uncertainty: f64,
}

/// Which terms are fitted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Terms {
    /// `h0, a, b`.
    Plane,
    /// `h0, a, b, a2, b2`.
    SecondHarmonic,
}

impl Terms {
    /// Number of coefficients: 3 or 5.
    #[must_use]
    pub fn coefficients(self) -> usize {
        match self {
            Self::Plane => 3,
            Self::SecondHarmonic => 5,
        }
    }
}

/// A fitted wave round the ring.
#[derive(Debug, Clone, PartialEq)]
pub struct Harmonic {
    terms: Terms,
    fit: linear::Fit,
    covariance: DMatrix<f64>,
    studentised: Vec<Option<f64>>,
    /// Amplitude that the readings' own rounding can make.
    rounding: f64,
}

/// Fits the plane, or the plane with its second harmonic.
///
/// # Errors
/// [`FitError`]: too few places, angles that repeat so that fewer are left than coefficients,
/// values that are not finite, a negative standard uncertainty, or one of zero beside others.
pub fn fit(places: &[Place], terms: Terms) -> Result<Harmonic, FitError> {
    for (i, place) in places.iter().enumerate() {
        // cos and sin keep their digits only for angles of a few turns.
        if place.angle_rad.is_nan() || place.angle_rad.abs() > 1e6 {
            return Err(FitError::NotFinite { what: say!("fit-angle"), row: i + 1 });
        }
        if place.standard_uncertainty.is_nan() || place.standard_uncertainty < 0.0 {
            return Err(FitError::Weight { row: i + 1 });
        }
    }
    let columns = columns(places, terms);
    let columns: Vec<&[f64]> = columns.iter().map(Vec::as_slice).collect();
    let design = Design::new(places.len(), &columns, Intercept::Fitted)?;
    let y: Vec<f64> = places.iter().map(|p| p.value).collect();

    // Weights relative to the first place: equal ones are then exactly 1, also when all are zero.
    let unit = places.first().map_or(0.0, |p| p.standard_uncertainty);
    let equal = places.iter().all(|p| p.standard_uncertainty == unit);
    let fit = if equal {
        linear::fit(&design, &y, Weights::Equal)?
    } else {
        if let Some(i) = places.iter().position(|p| p.standard_uncertainty == 0.0) {
            return Err(FitError::Weight { row: i + 1 });
        }
        let weights: Vec<f64> = places
            .iter()
            .map(|p| (unit / p.standard_uncertainty) * (unit / p.standard_uncertainty))
            .collect();
        linear::fit(&design, &y, Weights::Each(&weights))?
    };
    let covariance = fit.covariance_factor() * (unit * unit);
    let studentised = studentised(places, &fit);
    let largest = y.iter().fold(0.0, |most: f64, h| most.max(h.abs()));
    let rounding = 8.0 * f64::EPSILON * largest;
    Ok(Harmonic { terms, fit, covariance, studentised, rounding })
}

/// `cos θ, sin θ [, cos 2θ, sin 2θ]` at each place.
fn columns(places: &[Place], terms: Terms) -> Vec<Vec<f64>> {
    let orders: &[f64] = match terms {
        Terms::Plane => &[1.0],
        Terms::SecondHarmonic => &[1.0, 2.0],
    };
    let column = |f: fn(f64) -> f64, order: f64| -> Vec<f64> {
        places.iter().map(|p| f(order * p.angle_rad)).collect()
    };
    orders.iter().flat_map(|n| [column(libm::cos, *n), column(libm::sin, *n)]).collect()
}

fn studentised(places: &[Place], fit: &linear::Fit) -> Vec<Option<f64>> {
    // A place that fixes its own fit has no residual to judge; below this only rounding is left.
    const LEAST_FREEDOM: f64 = 1e-9;
    let rows = places.iter().zip(fit.residuals()).zip(fit.leverages());
    rows.map(|((place, residual), leverage)| {
        let freedom = 1.0 - leverage;
        (freedom > LEAST_FREEDOM && place.standard_uncertainty > 0.0)
            .then(|| residual / (place.standard_uncertainty * freedom.sqrt()))
    })
    .collect()
}

impl Harmonic {
    /// Which terms were fitted.
    #[must_use]
    pub fn terms(&self) -> Terms {
        self.terms
    }

    /// Mean height h0.
    #[must_use]
    pub fn mean(&self) -> f64 {
        self.fit.coefficients()[0]
    }

    /// Standard uncertainty of h0 from the given uncertainties of the places.
    #[must_use]
    pub fn mean_standard_uncertainty(&self) -> f64 {
        self.covariance[(0, 0)].max(0.0).sqrt()
    }

    /// The tilt: `a cos θ + b sin θ`.
    #[must_use]
    pub fn first(&self) -> Wave {
        self.wave(1)
    }

    /// The second harmonic `a2 cos 2θ + b2 sin 2θ`, where it was fitted.
    #[must_use]
    pub fn second(&self) -> Option<Wave> {
        match self.terms {
            Terms::Plane => None,
            Terms::SecondHarmonic => Some(self.wave(2)),
        }
    }

    fn wave(&self, order: u8) -> Wave {
        let i = 2 * usize::from(order) - 1;
        let (cosine, sine) = (self.fit.coefficients()[i], self.fit.coefficients()[i + 1]);
        // What rounding of the readings makes is no wave: a level ring read exactly has none.
        let is_rounding = libm::hypot(cosine, sine) <= self.rounding;
        let (cosine, sine) = if is_rounding { (0.0, 0.0) } else { (cosine, sine) };
        Wave {
            order,
            cosine,
            sine,
            variance_cosine: self.covariance[(i, i)],
            variance_sine: self.covariance[(i + 1, i + 1)],
            covariance: self.covariance[(i, i + 1)],
        }
    }

    /// Coefficients in the order `h0, a, b [, a2, b2]`.
    #[must_use]
    pub fn coefficients(&self) -> &[f64] {
        self.fit.coefficients()
    }

    /// Their covariance from the given uncertainties of the places, 3 × 3 or 5 × 5.
    #[must_use]
    pub fn covariance(&self) -> &DMatrix<f64> {
        &self.covariance
    }

    /// Reading minus fitted shape at each place.
    #[must_use]
    pub fn residuals(&self) -> &[f64] {
        self.fit.residuals()
    }

    /// Leverage of each place, in 0..=1.
    #[must_use]
    pub fn leverages(&self) -> &[f64] {
        self.fit.leverages()
    }

    /// Places less coefficients.
    #[must_use]
    pub fn degrees_of_freedom(&self) -> usize {
        self.fit.degrees_of_freedom()
    }

    /// Each residual over its own standard uncertainty, `eᵢ / (uᵢ sqrt(1 − leverageᵢ))`.
    ///
    /// Standard normal for a place that keeps to the fitted shape. `None` where the place fixes
    /// its own fit (leverage 1) or its uncertainty is zero. With one degree of freedom all have
    /// the same size, so none of them points at a place.
    #[must_use]
    pub fn studentised_residuals(&self) -> &[Option<f64>] {
        &self.studentised
    }

    /// `sqrt(Σ eᵢ² / degrees of freedom)`, unweighted where all uncertainties are equal, else in
    /// units of the first place's weight; `None` without degrees of freedom.
    #[must_use]
    pub fn residual_standard_deviation(&self) -> Option<f64> {
        self.fit.residual_standard_deviation()
    }

    /// The fitted shape at an angle, and its standard uncertainty there.
    #[must_use]
    pub fn at(&self, angle_rad: f64) -> (f64, f64) {
        let place = Place { angle_rad, value: 0.0, standard_uncertainty: 0.0 };
        let waves = columns(&[place], self.terms);
        let row = DVector::from_iterator(
            self.terms.coefficients(),
            std::iter::once(1.0).chain(waves.iter().map(|c| c[0])),
        );
        let value = row.iter().zip(self.coefficients()).map(|(x, b)| x * b).sum();
        (value, row.dot(&(&self.covariance * &row)).max(0.0).sqrt())
    }
}

/// One harmonic `cosine · cos nθ + sine · sin nθ` with the covariance of its two parts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wave {
    /// n: 1 for the tilt, 2 for the second harmonic.
    pub order: u8,
    /// Cosine part.
    pub cosine: f64,
    /// Sine part.
    pub sine: f64,
    /// Variance of the cosine part.
    pub variance_cosine: f64,
    /// Variance of the sine part.
    pub variance_sine: f64,
    /// Covariance of both.
    pub covariance: f64,
}

impl Wave {
    /// Amplitude `sqrt(cosine² + sine²)`; peak to peak is twice this.
    #[must_use]
    pub fn amplitude(&self) -> f64 {
        libm::hypot(self.cosine, self.sine)
    }

    /// Angle of the (first) crest, `atan2(sine, cosine) / n`, rad in `[0, 2π/n)`.
    ///
    /// Zero for an amplitude of zero; see [`Wave::direction`] for whether it means anything.
    #[must_use]
    pub fn phase_rad(&self) -> f64 {
        let angle = libm::atan2(self.sine, self.cosine);
        // A tiny negative angle plus 2π rounds to 2π, which is outside.
        let turned = if angle < 0.0 { angle + TAU } else { angle };
        (if turned >= TAU { 0.0 } else { turned }) / f64::from(self.order)
    }

    /// Standard uncertainty of the amplitude.
    ///
    /// First order, `u² = (c² u_c² + s² u_s² + 2 c s u_cs) / (c² + s²)`, where the amplitude is at
    /// least [`RESOLVED_AT`] times the larger principal axis of the covariance. Below, the
    /// amplitude is no longer linear in its parts (it is folded at zero), and that axis is given
    /// instead.
    #[must_use]
    pub fn amplitude_standard_uncertainty(&self) -> f64 {
        match self.resolved() {
            Some(along) => along,
            None => self.largest_axis(),
        }
    }

    /// Where the crest is and how well that is known.
    ///
    /// First order, `u_φ = sqrt(s² u_c² + c² u_s² − 2 c s u_cs) / (n (c² + s²))`, rad.
    ///
    /// # Errors
    /// [`Unresolved`] when the amplitude is below [`RESOLVED_AT`] standard uncertainties: a level
    /// ring read with noise shows such an amplitude at any angle.
    pub fn direction(&self) -> Result<Direction, Unresolved> {
        let amplitude = self.amplitude();
        if self.resolved().is_none() {
            let standard_uncertainty = self.largest_axis();
            return Err(Unresolved { amplitude, standard_uncertainty });
        }
        let (c, s) = (self.cosine / amplitude, self.sine / amplitude);
        let across = s * s * self.variance_cosine + c * c * self.variance_sine
            - 2.0 * c * s * self.covariance;
        let order = f64::from(self.order);
        let standard_uncertainty_rad =
            (across.max(0.0).sqrt() / (order * amplitude)).min(PI / order);
        Ok(Direction { angle_rad: self.phase_rad(), standard_uncertainty_rad })
    }

    /// The first-order uncertainty along the crest, if the amplitude stands out of it.
    fn resolved(&self) -> Option<f64> {
        let amplitude = self.amplitude();
        if amplitude == 0.0 {
            return None;
        }
        let (c, s) = (self.cosine / amplitude, self.sine / amplitude);
        let along = c * c * self.variance_cosine
            + s * s * self.variance_sine
            + 2.0 * c * s * self.covariance;
        let along = along.max(0.0).sqrt();
        // Across counts too: a direction is blurred by the error that turns it.
        (amplitude >= RESOLVED_AT * self.largest_axis().max(along)).then_some(along)
    }

    /// Square root of the larger eigenvalue of the covariance of (cosine, sine).
    fn largest_axis(&self) -> f64 {
        let mean = 0.5 * (self.variance_cosine + self.variance_sine);
        let half = 0.5 * (self.variance_cosine - self.variance_sine);
        (mean + libm::hypot(half, self.covariance)).max(0.0).sqrt()
    }
}

/// A crest whose angle is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Direction {
    /// Angle of the crest, rad in `[0, 2π/n)`.
    pub angle_rad: f64,
    /// Its standard uncertainty, rad; at most `π/n`.
    pub standard_uncertainty_rad: f64,
}

/// An amplitude that noise alone would show, so that its direction means nothing.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error(
    "{}",
    say!(
        "fit-amplitude-unresolved",
        amplitude = format!("{:.3e}", .amplitude),
        uncertainty = format!("{:.3e}", .standard_uncertainty)
    )
)]
pub struct Unresolved {
    /// The amplitude.
    pub amplitude: f64,
    /// The larger principal standard uncertainty of its two parts.
    pub standard_uncertainty: f64,
}
