//! Dot products in twice the working precision.
//!
//! Source: T. Ogita, S. M. Rump, S. Oishi, "Accurate sum and dot product", SIAM J. Sci. Comput. 26
//! (2005) 1955-1988, algorithm 5.3, Dot2 (from memory).

/// A sum kept as its rounded value and what the rounding lost.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Twofold {
    high: f64,
    low: f64,
}

impl Twofold {
    /// Adds a number.
    pub(super) fn add(&mut self, x: f64) {
        let sum = self.high + x;
        let part = sum - self.high;
        self.low += (self.high - (sum - part)) + (x - part);
        self.high = sum;
    }

    /// Adds a product without losing its lower half.
    pub(super) fn add_product(&mut self, x: f64, y: f64) {
        let product = x * y;
        let rest = libm::fma(x, y, -product);
        self.add(product);
        self.low += rest;
    }

    /// The sum, rounded once.
    pub(super) fn value(self) -> f64 {
        self.high + self.low
    }
}
