//! The standard normal quantile at 32-bit strata, by a table.
//!
//! The lower half of 0..1 is cut into octaves (halved again and again towards zero) and each octave
//! into equal cells; within a cell the quantile is a straight line. The cells shrink as the
//! quantile bends, so that the error is below 3e-6 σ from the middle to the last stratum.

use std::sync::OnceLock;

use crate::distribution::normal_quantile;

/// Cells of an octave, as a power of two.
const CELL_BITS: u32 = 8;

/// Octaves between 2⁻³⁴ and 1/2: the smallest middle of a stratum is 2⁻³³.
const OCTAVES: u32 = 33;

/// Exponent of the lowest octave, in the biased form of a floating-point number.
const LOWEST: u64 = 1023 - 34;

/// Bits of a floating-point fraction below those that name the cell.
const REST_BITS: u32 = 52 - CELL_BITS;

/// Quantile at the start of each cell, ascending, one more at the end.
pub(super) struct QuantileTable {
    starts: Vec<f64>,
}

impl QuantileTable {
    /// The table, built at the first call.
    pub(super) fn shared() -> &'static Self {
        static TABLE: OnceLock<QuantileTable> = OnceLock::new();
        TABLE.get_or_init(Self::new)
    }

    fn new() -> Self {
        let cells = u64::from(OCTAVES << CELL_BITS);
        let start = |cell: u64| {
            normal_quantile(f64::from_bits(((LOWEST << CELL_BITS) + cell) << REST_BITS))
        };
        Self { starts: (0..=cells).map(start).collect() }
    }

    /// Quantile at the middle of the stratum `n` of 2³².
    #[inline]
    pub(super) fn quantile(&self, n: u32) -> f64 {
        const CELL: f64 = 1.0 / 4_294_967_296.0;
        // Fold the upper half on the lower: both tails have the same digits.
        let upper = n >> 31 == 1;
        let folded = if upper { !n } else { n };
        let p = (f64::from(folded) + 0.5) * CELL;
        let bits = p.to_bits();
        let cell = ((bits >> REST_BITS) - (LOWEST << CELL_BITS)) as usize;
        const ONE: u64 = 1023 << 52;
        // The bits below the cell's name, as a number in 0..1.
        let rest = (bits << CELL_BITS) & ((1 << 52) - 1);
        let along = f64::from_bits(ONE | rest) - 1.0;
        let (from, to) = (self.starts[cell], self.starts[cell + 1]);
        let z = from + along * (to - from);
        if upper { -z } else { z }
    }
}
