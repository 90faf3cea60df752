//! Linear axes and their round numbers.

use ringtrue_metrology::units::fixed;

/// A linear map from values to a coordinate of the drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Axis {
    /// Value and coordinate of one end.
    from: (f64, f64),
    /// Value and coordinate of the other end.
    to: (f64, f64),
}

impl Axis {
    /// An axis from one value and coordinate to another; a span of nothing is opened about its
    /// value.
    pub(crate) fn new(from: (f64, f64), to: (f64, f64)) -> Self {
        let span = to.0 - from.0;
        if span.is_finite() && span.abs() > 1e-12 {
            return Self { from, to };
        }
        let open = (from.0.abs() * 0.05).max(0.01);
        Self { from: (from.0 - open, from.1), to: (from.0 + open, to.1) }
    }

    /// Coordinate of a value.
    pub(crate) fn at(&self, value: f64) -> f64 {
        let t = (value - self.from.0) / (self.to.0 - self.from.0);
        self.from.1 + t * (self.to.1 - self.from.1)
    }

    /// Coordinate of a value, kept between the ends.
    pub(crate) fn within(&self, value: f64) -> f64 {
        let (low, high) = (self.from.1.min(self.to.1), self.from.1.max(self.to.1));
        self.at(value).clamp(low, high)
    }

    /// Round values between the ends, at most `most`, and the decimals that they need.
    pub(crate) fn ticks(&self, most: u32) -> Vec<(f64, String)> {
        let (low, high) = (self.from.0.min(self.to.0), self.from.0.max(self.to.0));
        let step = round_up((high - low) / f64::from(most.max(1)));
        let decimals = (-libm::floor(libm::log10(step) + 1e-9)).max(0.0) as usize;
        let first = libm::ceil(low / step - 1e-9);
        (0..=most)
            .map(|i| (first + f64::from(i)) * step)
            .take_while(|value| *value <= high + step * 1e-9)
            .map(|value| (value, fixed(value, decimals)))
            .collect()
    }
}

/// The next of 1, 2, 5 times a power of ten that is not below `value`.
pub(crate) fn round_up(value: f64) -> f64 {
    let power = libm::pow(10.0, libm::floor(libm::log10(value)));
    let lead = value / power;
    let round = [1.0, 2.0, 5.0].into_iter().find(|r| lead <= r + 1e-9).unwrap_or(10.0);
    round * power
}

/// The next of 1, 2, 5 times a power of ten that is not above `value`.
pub(crate) fn round_down(value: f64) -> f64 {
    let power = libm::pow(10.0, libm::floor(libm::log10(value)));
    let lead = value / power;
    let round = [5.0, 2.0, 1.0].into_iter().find(|r| lead >= r - 1e-9).unwrap_or(1.0);
    round * power
}
