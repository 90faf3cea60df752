//! Reading a curve between its points, and two halves in series.

use super::half::{CurvePoint, HalfCurve};

/// A half's force against travel, scaled by its modulus.
#[derive(Debug, Clone)]
pub(super) struct Spring {
    travel_mm: Vec<f64>,
    force_n: Vec<f64>,
    /// Slope at each point, limited so that the curve between has no wave of its own.
    slope: Vec<f64>,
}

impl Spring {
    /// A curve with every force multiplied by `scale` (Young's modulus in MPa for rubber).
    pub(super) fn new(curve: &HalfCurve, scale: f64) -> Self {
        let travel_mm: Vec<f64> = curve.points.iter().map(|point| point.travel_mm).collect();
        let force_n: Vec<f64> = curve.points.iter().map(|point| point.force_n * scale).collect();
        let slope = slopes(&travel_mm, &force_n);
        Self { travel_mm, force_n, slope }
    }

    /// Largest travel that was solved.
    pub(super) fn reach(&self) -> f64 {
        self.travel_mm.last().copied().unwrap_or(0.0)
    }

    /// Force at a travel: zero below the first touch, cubic Hermite between the points.
    pub(super) fn force(&self, travel: f64) -> f64 {
        if travel <= 0.0 || self.travel_mm.len() < 2 {
            return 0.0;
        }
        let next =
            self.travel_mm.partition_point(|x| *x < travel).clamp(1, self.travel_mm.len() - 1);
        let (a, b) = (next - 1, next);
        let width = self.travel_mm[b] - self.travel_mm[a];
        let t = (travel - self.travel_mm[a]) / width;
        let (t2, t3) = (t * t, t * t * t);
        (2.0 * t3 - 3.0 * t2 + 1.0) * self.force_n[a]
            + (t3 - 2.0 * t2 + t) * width * self.slope[a]
            + (3.0 * t2 - 2.0 * t3) * self.force_n[b]
            + (t3 - t2) * width * self.slope[b]
    }
}

/// Slopes of a monotone cubic (F. N. Fritsch, J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984)
/// 300-304): no overshoot where the points rise or fall.
fn slopes(x: &[f64], y: &[f64]) -> Vec<f64> {
    let n = x.len();
    if n < 2 {
        return vec![0.0; n];
    }
    let secant: Vec<f64> = (1..n).map(|i| (y[i] - y[i - 1]) / (x[i] - x[i - 1])).collect();
    let mut slope = vec![0.0; n];
    slope[0] = secant[0];
    slope[n - 1] = secant[n - 2];
    for i in 1..n - 1 {
        let (left, right) = (secant[i - 1], secant[i]);
        if left * right > 0.0 {
            let (h0, h1) = (x[i] - x[i - 1], x[i + 1] - x[i]);
            let alpha = (h0 + 2.0 * h1) / (3.0 * (h0 + h1));
            slope[i] = left * right / (alpha * right + (1.0 - alpha) * left);
        }
    }
    slope
}

/// How the total travel is shared, and the force in both.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Shared {
    pub(super) travel_a_mm: f64,
    pub(super) travel_b_mm: f64,
    pub(super) force_n: f64,
}

/// Two halves in series: equal force, travels that add up to `total`. `None` when a half would have
/// to travel beyond its curve.
///
/// A falling branch can allow several shares; the one nearest an even share is taken.
pub(super) fn series(a: &Spring, b: &Spring, total: f64) -> Option<Shared> {
    const CELLS: usize = 64;
    if total <= 0.0 {
        return Some(Shared { travel_a_mm: 0.0, travel_b_mm: 0.0, force_n: 0.0 });
    }
    let (least, most) = ((total - b.reach()).max(0.0), total.min(a.reach()));
    if least > most {
        return None;
    }
    let excess = |travel: f64| a.force(travel) - b.force(total - travel);
    let at = |cell: usize| least + (most - least) * cell as f64 / CELLS as f64;
    let root = (0..CELLS)
        .filter(|cell| excess(at(*cell)) <= 0.0 && excess(at(cell + 1)) >= 0.0)
        .map(|cell| bisect(excess, at(cell), at(cell + 1)))
        .min_by(|p, q| (p - total / 2.0).abs().total_cmp(&(q - total / 2.0).abs()))?;
    Some(Shared { travel_a_mm: root, travel_b_mm: total - root, force_n: a.force(root) })
}

fn bisect(excess: impl Fn(f64) -> f64, mut low: f64, mut high: f64) -> f64 {
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if excess(middle) < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}

/// Travel from which on a curve is twice as steep as in its middle third, where it is.
pub(super) fn steepens_at(points: &[CurvePoint]) -> Option<f64> {
    let slope = |from: &CurvePoint, to: &CurvePoint| {
        (to.force_n - from.force_n) / (to.travel_mm - from.travel_mm)
    };
    let third = points.len() / 3;
    let middle = slope(points.get(third)?, points.get(2 * third)?);
    points
        .windows(2)
        .skip(2 * third)
        .find(|pair| middle > 0.0 && slope(&pair[0], &pair[1]) > 2.0 * middle)
        .map(|pair| pair[0].travel_mm)
}
