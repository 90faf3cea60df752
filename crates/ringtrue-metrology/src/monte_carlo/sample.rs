//! Sorted draws and what is read from them.

/// The draws of a quantity, in ascending order.
#[derive(Debug, Clone, PartialEq)]
pub struct Sample {
    sorted: Vec<f64>,
    mean: f64,
    standard_deviation: f64,
}

/// Counts of draws in equal bins.
#[derive(Debug, Clone, PartialEq)]
pub struct Histogram {
    /// Lower end of the first bin.
    pub from: f64,
    /// Width of a bin.
    pub width: f64,
    /// Draws in each bin.
    pub counts: Vec<u32>,
}

impl Sample {
    /// Sorts the draws. The caller gives at least one, all finite.
    pub(super) fn of(mut values: Vec<f64>) -> Self {
        sort(&mut values);
        // About the middle draw, so that a small scatter on a large value keeps its digits; in
        // sorted order, so that the sum does not depend on threads.
        let origin = values.get(values.len() / 2).copied().unwrap_or(0.0);
        let n = values.len() as f64;
        let shift = values.iter().map(|x| x - origin).sum::<f64>() / n;
        let squares: f64 = values.iter().map(|x| (x - origin - shift) * (x - origin - shift)).sum();
        let standard_deviation = if n > 1.0 { (squares / (n - 1.0)).sqrt() } else { 0.0 };
        Self { sorted: values, mean: origin + shift, standard_deviation }
    }

    /// The draws, ascending; at least one.
    #[must_use]
    pub fn sorted(&self) -> &[f64] {
        &self.sorted
    }

    /// Mean of the draws.
    #[must_use]
    pub fn mean(&self) -> f64 {
        self.mean
    }

    /// Standard deviation of the draws (divisor n − 1); zero for a single one.
    #[must_use]
    pub fn standard_deviation(&self) -> f64 {
        self.standard_deviation
    }

    /// The value below which the share `p` of the draws lies, between draws on a straight line
    /// (draw i of n stands at `(i − 1/2)/n`; JCGM 101:2008 7.5, clause from memory). NaN outside
    /// 0..=1.
    #[must_use]
    pub fn quantile(&self, p: f64) -> f64 {
        if !(0.0..=1.0).contains(&p) {
            return f64::NAN;
        }
        let last = self.sorted.len() - 1;
        let position = (p * self.sorted.len() as f64 - 0.5).clamp(0.0, last as f64);
        let i = position as usize;
        let (from, to) = (self.sorted[i], self.sorted[(i + 1).min(last)]);
        from + (position - i as f64) * (to - from)
    }

    /// Share of the draws below `x` (a draw at x is not below it).
    #[must_use]
    pub fn share_below(&self, x: f64) -> f64 {
        self.sorted.partition_point(|v| *v < x) as f64 / self.sorted.len() as f64
    }

    /// Share of the draws above `x` (a draw at x is not above it).
    #[must_use]
    pub fn share_above(&self, x: f64) -> f64 {
        let above = self.sorted.len() - self.sorted.partition_point(|v| *v <= x);
        above as f64 / self.sorted.len() as f64
    }

    /// The shortest interval that holds the share `p` of the draws; `None` unless `0 < p <= 1`.
    /// JCGM 101:2008 7.7 (clause from memory).
    #[must_use]
    pub fn shortest_interval(&self, p: f64) -> Option<(f64, f64)> {
        if !(p > 0.0 && p <= 1.0) {
            return None;
        }
        let n = self.sorted.len();
        let held = (libm::ceil(p * n as f64) as usize).clamp(1, n);
        let ends = |i: usize| (self.sorted[i], self.sorted[i + held - 1]);
        (0..=n - held).map(ends).min_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)))
    }

    /// Counts in `bins` equal bins from the lowest to the highest draw (at least 1, at most 10,000
    /// bins). All draws in one bin of width zero when they are all alike.
    #[must_use]
    pub fn histogram(&self, bins: u32) -> Histogram {
        let bins = bins.clamp(1, 10_000);
        let from = self.sorted[0];
        let to = self.sorted[self.sorted.len() - 1];
        let width = (to - from) / f64::from(bins);
        if width == 0.0 {
            let counts = vec![u32::try_from(self.sorted.len()).unwrap_or(u32::MAX)];
            return Histogram { from, width, counts };
        }
        let mut counts = vec![0_u32; bins as usize];
        let mut done = 0;
        for (bin, count) in counts.iter_mut().enumerate() {
            let end = from + width * (bin + 1) as f64;
            let is_last = bin + 1 == bins as usize;
            let rest = &self.sorted[done..];
            let here = if is_last { rest.len() } else { rest.partition_point(|v| *v < end) };
            *count = u32::try_from(here).unwrap_or(u32::MAX);
            done += here;
        }
        Histogram { from, width, counts }
    }
}

#[cfg(not(target_arch = "wasm32"))]
fn sort(values: &mut [f64]) {
    use rayon::slice::ParallelSliceMut;
    values.par_sort_unstable_by(f64::total_cmp);
}

#[cfg(target_arch = "wasm32")]
fn sort(values: &mut [f64]) {
    values.sort_unstable_by(f64::total_cmp);
}
