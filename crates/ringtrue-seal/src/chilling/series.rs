//! The closed form: a long round section that exchanges heat with a constant coefficient.
//!
//! `θ(r, t) = Σ Cₙ exp(−zₙ² Fo) J₀(zₙ r/r₀)` with `zₙ J₁(zₙ) = Bi J₀(zₙ)`,
//! `Cₙ = 2 J₁(zₙ) / (zₙ (J₀² + J₁²))`, and over the section
//! `θ̄ = Σ 4 Bi² / (zₙ² (zₙ² + Bi²)) exp(−zₙ² Fo)`. θ is the share of the temperature step that is
//! left, `Bi = h r₀/k`, `Fo = α t/r₀²`. The ring's curvature is left out (section small against
//! diameter). H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids, 2nd ed., 7.7 (from
//! memory); the roots are compared with the one-term table of heat transfer textbooks.

use libm::{exp, j0, j1};

/// Terms that are kept: at Fo = 0.001 the last is below 1e-12 of the first.
const TERMS: usize = 60;
/// Halvings of a bracket: enough for every digit of a double.
const HALVINGS: usize = 60;

/// The roots and weights for one Biot number.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Series {
    terms: Vec<Term>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
struct Term {
    root: f64,
    weight: f64,
    at_surface: f64,
    mean: f64,
}

/// Share of the temperature step that is left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Left {
    pub(crate) centre: f64,
    pub(crate) surface: f64,
    pub(crate) mean: f64,
}

impl Series {
    /// For `Bi > 0`.
    pub(crate) fn new(biot: f64) -> Self {
        let mut terms = Vec::with_capacity(TERMS);
        let mut low = 0.0;
        for n in 1..=TERMS {
            // The roots are interlaced by the zeros of J0 and J1: below the n-th zero of J0 the
            // left side rises past the right, above the zero of J1 before it both are of one sign.
            let high = zero_of(j0, n as f64 - 0.25);
            let root = bisect(|z| z * j1(z) * sign(n) - biot * j0(z) * sign(n), low, high);
            let (zeroth, first) = (j0(root), j1(root));
            let square = root * root;
            terms.push(Term {
                root,
                weight: 2.0 * first / (root * (zeroth * zeroth + first * first)),
                at_surface: zeroth,
                mean: 4.0 * biot * biot / (square * (square + biot * biot)),
            });
            low = zero_of(j1, n as f64 + 0.25);
        }
        Self { terms }
    }

    /// The first root and its weight, as one-term tables print them.
    pub(crate) fn first_term(&self) -> (f64, f64) {
        self.terms.first().map_or((0.0, 0.0), |term| (term.root, term.weight))
    }

    /// What is left at a Fourier number. Below Fo = 1e-4 the series needs more terms than are kept;
    /// 1 is given for the centre and the mean there, whose true values differ by less than 0.03.
    pub(crate) fn left(&self, fourier: f64) -> Left {
        let mut left = Left { centre: 0.0, surface: 0.0, mean: 0.0 };
        if fourier < 1e-4 {
            return Left { centre: 1.0, surface: 1.0, mean: 1.0 };
        }
        for term in &self.terms {
            let decay = exp(-term.root * term.root * fourier);
            left.centre += term.weight * decay;
            left.surface += term.weight * term.at_surface * decay;
            left.mean += term.mean * decay;
        }
        left
    }
}

/// +1 where J0 falls through its n-th zero, −1 where it rises.
fn sign(n: usize) -> f64 {
    if n % 2 == 1 { 1.0 } else { -1.0 }
}

/// The zero of a Bessel function near `place` half waves: McMahon's first term is within 0.1 of it.
fn zero_of(bessel: fn(f64) -> f64, place: f64) -> f64 {
    let near = place * std::f64::consts::PI;
    let falling = if bessel(near - 0.3) > 0.0 { 1.0 } else { -1.0 };
    bisect(|z| -falling * bessel(z), near - 0.3, near + 0.3)
}

/// The zero of a function that rises through it between two bounds.
fn bisect(rises: impl Fn(f64) -> f64, mut low: f64, mut high: f64) -> f64 {
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if rises(middle) < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}
