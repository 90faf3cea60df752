//! From when on do the readings follow one line?
//!
//! Filling warms the gas and the load rings give: at the start the slope changes. The readings from
//! one on are settled when the slope of their earlier half and that of their later half differ by
//! no more than chance and the falling pressure itself explain:
//!
//! `|b₁ − b₂| <= t₉₇.₅ sqrt(u₁² + u₂²) + 2 |b| ΔP/P`
//!
//! with the scatter about the two lines (the last digit written at the least), and the change ΔP of
//! the driving pressure P between the middles of the halves; the factor 2 is that of viscous flow,
//! which goes with the difference of squares. The first such reading starts the fit. At least six
//! readings and a third of the test must be left. What the gauge's file states plays no part here:
//! a worse gauge must not find a longer stretch to fit. The criterion is our own.

use ringtrue_metrology::distribution::student_t_quantile;
use ringtrue_metrology::fit::linear::{Design, Fit, Weights, fit};
use ringtrue_words::say;

use super::FEWEST_READINGS;
use crate::RoomError;

/// A straight line `y = level + slope (t − middle)`.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct StraightLine {
    pub(super) middle: f64,
    pub(super) level: f64,
    pub(super) slope: f64,
    /// Standard uncertainty of the slope for a scatter of one.
    pub(super) slope_per_scatter: f64,
    pub(super) squares: f64,
    pub(super) freedom: f64,
}

/// Times and compensated pressures.
#[derive(Debug, Clone, Copy)]
pub(super) struct Trace<'t> {
    pub(super) seconds: &'t [f64],
    pub(super) pressure: &'t [f64],
}

impl<'t> Trace<'t> {
    fn part(self, from: usize, to: usize) -> Self {
        Trace { seconds: &self.seconds[from..to], pressure: &self.pressure[from..to] }
    }

    pub(super) fn from(self, start: usize) -> Trace<'t> {
        self.part(start, self.seconds.len())
    }

    pub(super) fn time(self) -> f64 {
        self.seconds.last().copied().unwrap_or(0.0) - self.seconds.first().copied().unwrap_or(0.0)
    }

    pub(super) fn line(self) -> Result<StraightLine, RoomError> {
        let middle = self.seconds.iter().sum::<f64>() / self.seconds.len() as f64;
        let shifted: Vec<f64> = self.seconds.iter().map(|seconds| seconds - middle).collect();
        let unfit = |error: ringtrue_metrology::fit::FitError| {
            RoomError::input(error.to_string(), say!("leak-finite-readings-wanted"))
        };
        let design = Design::polynomial(&shifted, 1).map_err(unfit)?;
        let fitted: Fit = fit(&design, self.pressure, Weights::Equal).map_err(unfit)?;
        Ok(StraightLine {
            middle,
            level: fitted.coefficients()[0],
            slope: fitted.coefficients()[1],
            slope_per_scatter: fitted.unit_standard_error(1).unwrap_or(0.0),
            squares: fitted.weighted_sum_of_squares(),
            freedom: fitted.degrees_of_freedom() as f64,
        })
    }
}

/// The first reading from which on the line holds; `None` when none is.
///
/// `atmosphere` and `written` (the last digit) in Pa.
pub(super) fn settled_from(
    trace: Trace<'_>,
    atmosphere: f64,
    written: f64,
) -> Result<Option<usize>, RoomError> {
    let (count, whole) = (trace.seconds.len(), trace.time());
    for start in 0..=count.saturating_sub(FEWEST_READINGS) {
        let rest = trace.from(start);
        if rest.time() < whole / 3.0 || 3 * rest.seconds.len() < count {
            break;
        }
        if one_line(rest, atmosphere, written)? {
            return Ok(Some(start));
        }
    }
    Ok(None)
}

fn one_line(rest: Trace<'_>, atmosphere: f64, written: f64) -> Result<bool, RoomError> {
    let half = rest.seconds.len() / 2;
    let early = rest.part(0, half).line()?;
    let late = rest.part(half, rest.seconds.len()).line()?;
    let freedom = early.freedom + late.freedom;
    let step = written / 12f64.sqrt();
    let scatter = ((early.squares + late.squares) / freedom).sqrt().max(step);
    let u = scatter * libm::hypot(early.slope_per_scatter, late.slope_per_scatter);
    let slope = f64::midpoint(early.slope, late.slope);
    let driving = (f64::midpoint(early.level, late.level) - atmosphere).abs();
    let itself = if driving > 0.0 {
        let change = slope.abs() * (late.middle - early.middle);
        2.0 * slope.abs() * change / driving
    } else {
        0.0
    };
    let chance = student_t_quantile(0.975, freedom) * u;
    Ok((early.slope - late.slope).abs() <= chance + itself)
}
