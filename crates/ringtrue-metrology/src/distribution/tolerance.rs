//! The distribution that a tolerance interval stands for.

use serde::{Deserialize, Serialize};

use super::{normal_cdf, normal_pdf, normal_quantile};

/// A normal tolerance's half width in standard deviations, unless said otherwise.
pub const NORMAL_SIGMAS: f64 = 3.0;

/// How values scatter within their tolerance.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum Shape {
    /// Normal, the limits at ± 3 standard deviations.
    #[default]
    Normal,
    /// All values within the limits alike.
    Uniform,
    /// Most in the middle, falling in a straight line to the limits.
    Triangular,
}

impl Shape {
    /// The distribution of a quantity whose tolerance is `centre ± half_width`.
    #[must_use]
    pub fn of_tolerance(self, centre: f64, half_width: f64) -> Distribution {
        match self {
            Self::Normal => {
                Distribution::Normal { centre, standard_deviation: half_width / NORMAL_SIGMAS }
            }
            Self::Uniform => Distribution::Uniform { centre, half_width },
            Self::Triangular => Distribution::Triangular { centre, half_width },
        }
    }
}

/// A symmetric distribution about its centre.
///
/// | | variance | source |
/// |---|---|---|
/// | normal | σ² | |
/// | uniform | a²/3 | JCGM 100:2008 4.3.7 |
/// | triangular | a²/6 | JCGM 100:2008 4.3.9 |
///
/// A width of zero is a fixed value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Distribution {
    /// Normal; it has no bounds.
    Normal {
        /// Mean.
        centre: f64,
        /// Standard deviation σ.
        standard_deviation: f64,
    },
    /// Uniform on `centre ± half_width`.
    Uniform {
        /// Mean.
        centre: f64,
        /// Half width a.
        half_width: f64,
    },
    /// Symmetric triangular on `centre ± half_width`.
    Triangular {
        /// Mean.
        centre: f64,
        /// Half width a.
        half_width: f64,
    },
}

impl Distribution {
    /// Mean.
    #[must_use]
    pub fn centre(&self) -> f64 {
        match *self {
            Self::Normal { centre, .. }
            | Self::Uniform { centre, .. }
            | Self::Triangular { centre, .. } => centre,
        }
    }

    /// σ of a normal, half width of the others.
    #[must_use]
    pub fn width(&self) -> f64 {
        match *self {
            Self::Normal { standard_deviation: width, .. }
            | Self::Uniform { half_width: width, .. }
            | Self::Triangular { half_width: width, .. } => width,
        }
    }

    /// Variance.
    #[must_use]
    pub fn variance(&self) -> f64 {
        match *self {
            Self::Normal { standard_deviation, .. } => standard_deviation * standard_deviation,
            Self::Uniform { half_width, .. } => half_width * half_width / 3.0,
            Self::Triangular { half_width, .. } => half_width * half_width / 6.0,
        }
    }

    /// Standard deviation.
    #[must_use]
    pub fn standard_deviation(&self) -> f64 {
        self.variance().sqrt()
    }

    /// The value below which the share `p` lies; NaN outside 0..=1.
    #[must_use]
    pub fn quantile(&self, p: f64) -> f64 {
        if !(0.0..=1.0).contains(&p) {
            return f64::NAN;
        }
        match *self {
            // A fixed value times an infinite quantile is still the fixed value.
            Self::Normal { centre, standard_deviation: 0.0 } => centre,
            Self::Normal { centre, standard_deviation } => {
                centre + standard_deviation * normal_quantile(p)
            }
            Self::Uniform { centre, half_width } => centre + half_width * (2.0 * p - 1.0),
            Self::Triangular { centre, half_width } => {
                centre + half_width * unit_triangular_quantile(p)
            }
        }
    }

    /// `P(X <= x)`; a fixed value is a step.
    #[must_use]
    pub fn cdf(&self, x: f64) -> f64 {
        let width = self.width();
        if width == 0.0 {
            return if x >= self.centre() { 1.0 } else { 0.0 };
        }
        let z = (x - self.centre()) / width;
        match self {
            Self::Normal { .. } => normal_cdf(z),
            Self::Uniform { .. } => (0.5 + 0.5 * z).clamp(0.0, 1.0),
            Self::Triangular { .. } if z <= 0.0 => 0.5 * (1.0 + z).max(0.0) * (1.0 + z).max(0.0),
            Self::Triangular { .. } => 1.0 - 0.5 * (1.0 - z).max(0.0) * (1.0 - z).max(0.0),
        }
    }

    /// Density at `x`; infinite at a fixed value.
    #[must_use]
    pub fn pdf(&self, x: f64) -> f64 {
        let width = self.width();
        if width == 0.0 {
            return if x == self.centre() { f64::INFINITY } else { 0.0 };
        }
        let z = (x - self.centre()) / width;
        let unit = match self {
            Self::Normal { .. } => normal_pdf(z),
            Self::Uniform { .. } => {
                if z.abs() <= 1.0 {
                    0.5
                } else {
                    0.0
                }
            }
            Self::Triangular { .. } => (1.0 - z.abs()).max(0.0),
        };
        unit / width
    }
}

/// Quantile of the symmetric triangular distribution on ±1.
pub(crate) fn unit_triangular_quantile(p: f64) -> f64 {
    if p <= 0.5 { (2.0 * p).sqrt() - 1.0 } else { 1.0 - (2.0 * (1.0 - p)).sqrt() }
}
