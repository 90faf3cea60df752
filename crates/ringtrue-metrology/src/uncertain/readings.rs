//! What repeated readings say about their own uncertainty.

use ringtrue_words::say;

use crate::distribution::{chi_squared_sf, normal_quantile, student_t_quantile};

/// Why readings cannot be evaluated.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum ReadingsError {
    /// Scatter needs two readings of one thing.
    #[error("{}", say!("uncertain-readings-too-few"))]
    TooFew,
    /// A reading is NaN or infinite.
    #[error("{}", say!("uncertain-reading-not-usable", reading))]
    NotFinite {
        /// Position, counted from 1 over all readings.
        reading: usize,
    },
}

/// Type A evaluation of n readings of one quantity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TypeA {
    /// Number of readings n.
    pub readings: usize,
    /// Mean.
    pub mean: f64,
    /// Experimental standard deviation of one reading, divisor n − 1.
    pub standard_deviation: f64,
    /// Standard uncertainty of the mean, `s/√n`.
    pub standard_uncertainty: f64,
}

impl TypeA {
    /// `n − 1`.
    #[must_use]
    pub fn degrees_of_freedom(&self) -> f64 {
        self.readings as f64 - 1.0
    }
}

/// Mean, scatter and uncertainty of the mean. JCGM 100:2008 4.2.1 to 4.2.3.
///
/// # Errors
/// [`ReadingsError`]: fewer than two readings, or one that is not finite.
pub fn type_a(readings: &[f64]) -> Result<TypeA, ReadingsError> {
    check(readings, 0)?;
    let n = readings.len();
    if n < 2 {
        return Err(ReadingsError::TooFew);
    }
    let mean = mean(readings);
    let standard_deviation = (squares_about(readings, mean) / (n as f64 - 1.0)).sqrt();
    let standard_uncertainty = standard_deviation / (n as f64).sqrt();
    Ok(TypeA { readings: n, mean, standard_deviation, standard_uncertainty })
}

/// The scatter that several groups of readings share.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pooled {
    /// Standard deviation of one reading about its group's mean.
    pub standard_deviation: f64,
    /// Readings less groups, over the groups of two and more.
    pub degrees_of_freedom: f64,
}

impl Pooled {
    /// The standard deviation widened so that a normal quantile at 97.5 % stands where Student's
    /// does: it takes in how little few readings say. JCGM 100:2008 G.3.2.
    #[must_use]
    pub fn widened(&self) -> f64 {
        let student = student_t_quantile(0.975, self.degrees_of_freedom) / normal_quantile(0.975);
        student * self.standard_deviation
    }

    /// Would readings of this standard uncertainty scatter so in less than this share of cases, by
    /// chance alone?
    ///
    /// One-sided chi-square test: `ν s²/σ²` is chi-square with ν degrees of freedom if the readings
    /// are normal and σ holds. Readings that are all alike scatter by no more than anything; any
    /// scatter is more than none.
    #[must_use]
    pub fn is_beyond(&self, standard_uncertainty: f64, chance: f64) -> bool {
        if self.standard_deviation == 0.0 {
            return false;
        }
        let ratio = self.standard_deviation / standard_uncertainty;
        let chi_squared = self.degrees_of_freedom * ratio * ratio;
        standard_uncertainty == 0.0 || chi_squared_sf(chi_squared, self.degrees_of_freedom) < chance
    }
}

/// Pooled standard deviation `s = sqrt(Σ Σ (xᵢⱼ − x̄ᵢ)² / Σ (nᵢ − 1))`. JCGM 100:2008 4.2.4, H.3.6.
///
/// Groups of one reading say nothing and count nothing.
///
/// # Errors
/// [`ReadingsError`]: no group of two, or a reading that is not finite.
pub fn pooled<G: AsRef<[f64]>>(groups: &[G]) -> Result<Pooled, ReadingsError> {
    let (mut squares, mut dof, mut seen) = (0.0, 0_usize, 0_usize);
    for group in groups {
        let group = group.as_ref();
        check(group, seen)?;
        seen += group.len();
        if group.len() >= 2 {
            squares += squares_about(group, mean(group));
            dof += group.len() - 1;
        }
    }
    if dof == 0 {
        return Err(ReadingsError::TooFew);
    }
    let degrees_of_freedom = dof as f64;
    Ok(Pooled { standard_deviation: (squares / degrees_of_freedom).sqrt(), degrees_of_freedom })
}

fn check(readings: &[f64], before: usize) -> Result<(), ReadingsError> {
    // Squares are summed: beyond this they overflow.
    match readings.iter().position(|x| !x.is_finite() || x.abs() > 1e140) {
        Some(i) => Err(ReadingsError::NotFinite { reading: before + i + 1 }),
        None => Ok(()),
    }
}

/// Mean about the first reading, so that equal readings have exactly their own value as mean.
fn mean(readings: &[f64]) -> f64 {
    let origin = readings.first().copied().unwrap_or(0.0);
    origin + readings.iter().map(|x| x - origin).sum::<f64>() / readings.len() as f64
}

fn squares_about(readings: &[f64], mean: f64) -> f64 {
    readings.iter().map(|x| (x - mean) * (x - mean)).sum()
}
