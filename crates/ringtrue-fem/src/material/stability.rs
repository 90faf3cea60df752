//! Drucker's postulate for incompressible states: every small further strain must take work.

use super::{Invariants, Law, Mode};

/// Where a law first becomes unstable.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Instability {
    /// Mode of loading.
    pub mode: Mode,
    /// Stretch at which it is met; below 1 in compression.
    pub stretch: f64,
}

/// Points checked on each branch.
const POINTS: usize = 200;

/// The first unstable state out to stretch `reach` and its inverse, nearest to 1; `None` if all are
/// stable. The condition: `d tau : d epsilon > 0` for all isochoric increments of the logarithmic
/// strains, with `d tau_i / d epsilon_j = l_i W_i delta_ij + l_i l_j W_ij`.
#[must_use]
pub fn first_instability(law: &dyn Law, reach: f64) -> Option<Instability> {
    let mut first: Option<(f64, Instability)> = None;
    for mode in [Mode::Uniaxial, Mode::Equibiaxial, Mode::Planar] {
        for side in [1.0, -1.0] {
            let hit = (0..=POINTS)
                .map(|k| side * reach.ln() * k as f64 / POINTS as f64)
                .find(|strain| !is_stable(law, mode.stretches(strain.exp())));
            if let Some(strain) = hit
                && first.is_none_or(|f| strain.abs() < f.0)
            {
                first = Some((strain.abs(), Instability { mode, stretch: strain.exp() }));
            }
        }
    }
    first.map(|f| f.1)
}

fn is_stable(law: &dyn Law, [l1, l2, w]: [f64; 3]) -> bool {
    let jet = law.jet(Invariants { s: l1 * l1 + l2 * l2, d: l1 * l2, w });
    let [gs, gd, gw] = jet.gradient;
    let [ss, sd, sw, dd, dw, ww] = jet.hessian;
    // l_i W_i, and l_i l_j W_ij, by the chain rule.
    let single = [2.0 * l1 * l1 * gs + l1 * l2 * gd, 2.0 * l2 * l2 * gs + l1 * l2 * gd, w * gw];
    let (q1, q2, d) = (l1 * l1, l2 * l2, l1 * l2);
    let pair = |i: usize, j: usize| match (i.min(j), i.max(j)) {
        (0, 0) => 2.0 * q1 * gs + 4.0 * q1 * q1 * ss + 4.0 * q1 * d * sd + d * d * dd,
        (1, 1) => 2.0 * q2 * gs + 4.0 * q2 * q2 * ss + 4.0 * q2 * d * sd + d * d * dd,
        (0, 1) => d * gd + 4.0 * q1 * q2 * ss + 2.0 * (q1 + q2) * d * sd + d * d * dd,
        (0, _) => w * (2.0 * q1 * sw + d * dw),
        (1, _) => w * (2.0 * q2 * sw + d * dw),
        (_, _) => w * w * ww,
    };
    let full = |i: usize, j: usize| pair(i, j) + if i == j { single[i] } else { 0.0 };
    // Increments (a, b, -a - b).
    let reduced = |i: usize, j: usize| full(i, j) - full(i, 2) - full(2, j) + full(2, 2);
    let (a, b, c) = (reduced(0, 0), reduced(0, 1), reduced(1, 1));
    a > 0.0 && a * c - b * b > 0.0
}
