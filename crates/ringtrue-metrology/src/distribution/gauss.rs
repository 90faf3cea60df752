//! Integration by panels of Gauss-Legendre rule, placed by where the integrand can bend.

/// Positive nodes of the 16-point Gauss-Legendre rule on −1..1.
///
/// Source: Abramowitz & Stegun 25.4.30, table 25.4 (a test checks exactness up to degree 31).
const NODES: [f64; 8] = [
    0.095_012_509_837_637_44,
    0.281_603_550_779_258_9,
    0.458_016_777_657_227_4,
    0.617_876_244_402_643_7,
    0.755_404_408_355_003,
    0.865_631_202_387_831_7,
    0.944_575_023_073_232_6,
    0.989_400_934_991_649_9,
];

/// Their weights.
const WEIGHTS: [f64; 8] = [
    0.189_450_610_455_068_5,
    0.182_603_415_044_923_6,
    0.169_156_519_395_002_54,
    0.149_595_988_816_576_73,
    0.124_628_971_255_533_88,
    0.095_158_511_682_492_78,
    0.062_253_523_938_647_894,
    0.027_152_459_411_754_096,
];

/// Number of nodes of a panel.
const POINTS: usize = 16;

/// A stretch that is integrated by one rule.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Panel {
    pub(super) from: f64,
    pub(super) to: f64,
}

impl Panel {
    /// Nodes and weights, ascending.
    pub(super) fn nodes(self) -> impl Iterator<Item = (f64, f64)> {
        let centre = 0.5 * (self.from + self.to);
        let half = 0.5 * (self.to - self.from);
        (0..POINTS).map(move |k| {
            let (sign, i) = if k < 8 { (-1.0, 7 - k) } else { (1.0, k - 8) };
            (centre + sign * half * NODES[i], half * WEIGHTS[i])
        })
    }
}

/// A smooth step or bump: it bends within `reach` widths of its centre and is flat beyond.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Bend {
    pub(super) centre: f64,
    pub(super) width: f64,
}

/// How far from its centre, in widths, a normal distribution function differs from 0 or 1.
///
/// `1 − Φ(7.5) = 3e-14`.
pub(super) const REACH: f64 = 7.5;

/// Panel length, in widths of the narrowest active bend, for a product of `factors` functions.
///
/// The 16-point rule then integrates products of normal distribution functions to about 1e-12. A
/// product of n of them bends within `1/sqrt(2 ln n)` of a width (extreme-value scale of the
/// normal distribution), so the panels shrink with it.
pub(super) fn stride(factors: usize) -> f64 {
    6.0 / (2.0 * libm::log(factors.max(8) as f64)).sqrt()
}

/// Divides `from..to` so that no panel is longer than `stride` widths of a bend it touches.
///
/// At most `sum (2 REACH / stride + 2)` panels over all bends, whatever their widths are.
pub(super) fn panels(from: f64, to: f64, bends: &[Bend], stride: f64) -> Vec<Panel> {
    let mut out = Vec::new();
    let mut x = from;
    while x < to {
        let mut step = to - x;
        for bend in bends {
            let start = bend.centre - REACH * bend.width;
            if x < start + 2.0 * REACH * bend.width {
                step = step.min((start - x).max(stride * bend.width));
            }
        }
        let next = if x + step > x { (x + step).min(to) } else { to };
        out.push(Panel { from: x, to: next });
        x = next;
    }
    out
}

/// `∫ f` over `from..to` in equal panels no longer than `step`, at most 100,000 of them.
pub(crate) fn integrate(from: f64, to: f64, step: f64, f: impl Fn(f64) -> f64) -> f64 {
    let count = libm::ceil((to - from) / step).clamp(1.0, 1e5);
    let width = (to - from) / count;
    (0..count as u32)
        .flat_map(|i| {
            let start = from + f64::from(i) * width;
            Panel { from: start, to: start + width }.nodes()
        })
        .map(|(x, weight)| weight * f(x))
        .sum()
}
