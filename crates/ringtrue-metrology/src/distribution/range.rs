//! The range (highest minus lowest) of independent normal heights.
//!
//! The question: n places have the true heights `Xᵢ ~ Normal(hᵢ, uᵢ)`; how is
//! `R = max Xᵢ − min Xᵢ` distributed?
//!
//! ```text
//! P(R <= r) = Σᵢ ∫ φᵢ(x) Π_{j≠i} [Φⱼ(x + r) − Φⱼ(x)] dx
//! ```
//!
//! the one-dimensional integral over the lowest place (place i is lowest at x, all others lie in
//! `x..x + r`), with φᵢ, Φᵢ the density and distribution function of place i. A place with `u = 0`
//! is exact: it cuts the integral off and adds the point mass of being the lowest place itself.
//!
//! Mean and standard deviation follow without a further integral over r:
//!
//! ```text
//! E[R]   = E[max] − E[min]
//! Var[R] = Var[max] + Var[min] − 2 Cov[min, max]
//! Cov    = ∫∫ { P(min > x) P(max <= y) − Π [Φⱼ(y) − Φⱼ(x)]₊ } dx dy
//! ```
//!
//! (Hoeffding's identity), the moments of max and min from their own distribution functions.
//!
//! Valid for 2 to [`MOST_PLACES`] places. Absolute error of the probability below 1e-10
//! (checked against 14-digit values for unlike places, the short formula for alike ones up to 1000,
//! and published tables).

use ringtrue_words::say;

use super::gauss::{Bend, Panel, REACH, panels, stride};
use super::{INV_SQRT_TAU, normal_cdf};

/// More places than anyone reads round a ring; the work grows with their number.
pub const MOST_PLACES: usize = 1000;

/// One place: what was read, and how uncertain that is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Height h.
    pub value: f64,
    /// Standard uncertainty u, `>= 0`; zero is an exactly known height.
    pub standard_uncertainty: f64,
}

/// Why a range cannot be judged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum RangeError {
    /// A range needs two places.
    #[error("{}", say!("distribution-places", most = MOST_PLACES, found))]
    Places {
        /// How many were given.
        found: usize,
    },
    /// A height is not finite, or its uncertainty is negative or not finite.
    #[error("{}", say!("distribution-place-not-usable", place))]
    NotUsable {
        /// Position, counted from 1.
        place: usize,
    },
}

/// Mean and standard deviation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moments {
    /// Mean.
    pub mean: f64,
    /// Standard deviation.
    pub standard_deviation: f64,
}

/// The distribution of the range of independent normal heights.
#[derive(Debug, Clone, PartialEq)]
pub struct RangeOfNormals {
    noisy: Vec<Noisy>,
    exact: Option<Exact>,
    /// Rounding of the heights themselves: differences below it are none.
    rounding: f64,
}

/// A place with `u > 0`, heights counted from the middle of all.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Noisy {
    mean: f64,
    u: f64,
}

impl Noisy {
    fn low(self) -> f64 {
        self.mean - REACH * self.u
    }

    fn high(self) -> f64 {
        self.mean + REACH * self.u
    }

    /// Φ at x; 0 or 1 beyond reach, where it differs by less than 1e-13.
    fn cdf(self, x: f64) -> f64 {
        let z = (x - self.mean) / self.u;
        if z >= REACH {
            1.0
        } else if z <= -REACH {
            0.0
        } else {
            normal_cdf(z)
        }
    }

    fn pdf(self, x: f64) -> f64 {
        let z = (x - self.mean) / self.u;
        if z.abs() >= REACH { 0.0 } else { INV_SQRT_TAU * libm::exp(-0.5 * z * z) / self.u }
    }
}

/// Lowest and highest of the places that are known exactly.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Exact {
    lowest: f64,
    highest: f64,
}

impl RangeOfNormals {
    /// The range of these places.
    ///
    /// An uncertainty below 1e-12 of the whole span counts as zero: the heights' own rounding is
    /// of that size.
    ///
    /// # Errors
    /// [`RangeError`]: fewer than two places or too many, a height or uncertainty that is unusable.
    pub fn new(places: &[Place]) -> Result<Self, RangeError> {
        if !(2..=MOST_PLACES).contains(&places.len()) {
            return Err(RangeError::Places { found: places.len() });
        }
        let usable =
            |p: &Place| p.value.abs() <= 1e140 && (0.0..=1e140).contains(&p.standard_uncertainty);
        if let Some(i) = places.iter().position(|p| !usable(p)) {
            return Err(RangeError::NotUsable { place: i + 1 });
        }
        let lowest = places.iter().map(|p| p.value).fold(f64::INFINITY, f64::min);
        let highest = places.iter().map(|p| p.value).fold(f64::NEG_INFINITY, f64::max);
        let widest = places.iter().map(|p| p.standard_uncertainty).fold(0.0, f64::max);
        let least = 1e-12 * (highest - lowest + 2.0 * REACH * widest);
        let origin = 0.5 * (lowest + highest);
        let (mut noisy, mut exact) = (Vec::with_capacity(places.len()), None::<Exact>);
        for place in places {
            let mean = place.value - origin;
            if place.standard_uncertainty > least {
                noisy.push(Noisy { mean, u: place.standard_uncertainty });
            } else {
                let seen = exact.unwrap_or(Exact { lowest: mean, highest: mean });
                exact =
                    Some(Exact { lowest: seen.lowest.min(mean), highest: seen.highest.max(mean) });
            }
        }
        let rounding = 4.0 * f64::EPSILON * lowest.abs().max(highest.abs());
        Ok(Self { noisy, exact, rounding })
    }

    /// The range of n readings of one height, all with the same standard uncertainty.
    ///
    /// Mean `d2 σ` and standard deviation `d3 σ` of the control-chart tables.
    ///
    /// # Errors
    /// As [`RangeOfNormals::new`].
    pub fn alike(n: usize, standard_uncertainty: f64) -> Result<Self, RangeError> {
        if n > MOST_PLACES {
            return Err(RangeError::Places { found: n });
        }
        Self::new(&vec![Place { value: 0.0, standard_uncertainty }; n])
    }

    /// `P(R <= r)`. NaN for a NaN.
    ///
    /// Where all places are exact it is a step; a range that meets r to within the rounding of the
    /// heights (4 ε of the largest) counts as r, so that 10.3 − 10.1 keeps a limit of 0.2.
    #[must_use]
    pub fn cdf(&self, r: f64) -> f64 {
        if r.is_nan() {
            return f64::NAN;
        }
        if let Some(exact) = self.exact
            && exact.highest - exact.lowest > r + self.rounding
        {
            return 0.0;
        }
        if self.noisy.is_empty() {
            return 1.0;
        }
        if r <= 0.0 {
            return 0.0;
        }
        let (from, to) = self.lowest_place_span(r);
        let bends: Vec<Bend> = (self.noisy.iter())
            .flat_map(|p| [p.mean, p.mean - r].map(|centre| Bend { centre, width: p.u }))
            .collect();
        let mut sum = 0.0;
        for panel in panels(from, to, &bends, stride(self.noisy.len())) {
            for (x, weight) in panel.nodes() {
                sum += weight * self.lowest_at(x, r);
            }
        }
        (sum + self.exact_is_lowest(r)).clamp(0.0, 1.0)
    }

    /// Where the lowest place can be if all lie within r.
    fn lowest_place_span(&self, r: f64) -> (f64, f64) {
        let mut from = self.noisy.iter().map(|p| p.low() - r).fold(f64::NEG_INFINITY, f64::max);
        let mut to = self.noisy.iter().map(|p| p.high()).fold(f64::INFINITY, f64::min);
        if let Some(exact) = self.exact {
            from = from.max(exact.highest - r);
            to = to.min(exact.lowest);
        }
        // Below every place's reach no one is the lowest.
        let reach = self.noisy.iter().map(|p| p.low()).fold(f64::INFINITY, f64::min);
        (from.max(reach), to)
    }

    /// `Σᵢ φᵢ(x) Π_{j≠i} Dⱼ` with `Dⱼ = Φⱼ(x + r) − Φⱼ(x)`, by the product rule: no division.
    fn lowest_at(&self, x: f64, r: f64) -> f64 {
        let (mut product, mut sum) = (1.0, 0.0);
        for place in &self.noisy {
            let within = place.cdf(x + r) - place.cdf(x);
            sum = sum * within + product * place.pdf(x);
            product *= within;
        }
        sum
    }

    /// The chance that the lowest exact place is the lowest of all and all lie within r above it.
    fn exact_is_lowest(&self, r: f64) -> f64 {
        self.exact.map_or(0.0, |exact| {
            let x = exact.lowest;
            self.noisy.iter().map(|p| p.cdf(x + r) - p.cdf(x)).product()
        })
    }

    /// The r with `P(R <= r) = p`, to 1e-12 of the span; NaN outside 0..=1.
    #[must_use]
    pub fn quantile(&self, p: f64) -> f64 {
        const HALVINGS: usize = 200;
        if !(0.0..=1.0).contains(&p) {
            return f64::NAN;
        }
        let (bottom, top) = (self.lowest_end(), self.highest_end());
        let (mut low, mut high) = (0.0, top.1 - bottom.0);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            if high - low <= 1e-13 * high || middle <= low || middle >= high {
                break;
            }
            if self.cdf(middle) < p {
                low = middle;
            } else {
                high = middle;
            }
        }
        high
    }

    /// Mean and standard deviation of the true range; the deviation to about 1e-8 of the largest
    /// uncertainty, as it is a difference of variances.
    #[must_use]
    pub fn moments(&self) -> Moments {
        let bottom = self.lowest_end();
        let top = self.highest_end();
        let mut cuts = [bottom.0, bottom.1, top.0, top.1];
        cuts.sort_by(f64::total_cmp);
        let bends: Vec<Bend> =
            self.noisy.iter().map(|p| Bend { centre: p.mean, width: p.u }).collect();
        let stride = stride(self.noisy.len());
        let grid: Vec<Panel> =
            cuts.windows(2).flat_map(|cut| panels(cut[0], cut[1], &bends, stride)).collect();
        let within = |(from, to): (f64, f64)| -> Vec<Nodes> {
            (grid.iter())
                .filter(|p| p.from >= from && p.to <= to)
                .map(|panel| self.nodes(*panel))
                .collect()
        };
        let (lows, highs) = (within(bottom), within(top));
        // Survival of the minimum below `bottom.1`, and of the maximum above `top.0`.
        let low = one_sided(&lows, |n| 1.0 - n.above, |x| bottom.1 - x);
        let high = one_sided(&highs, |n| 1.0 - n.below, |y| y - top.0);
        let kept: f64 = lows.iter().flat_map(|p| &p.0).map(|n| n.weight * n.above).sum();
        let reached: f64 = highs.iter().flat_map(|p| &p.0).map(|n| n.weight * n.below).sum();
        let covariance = kept * reached - self.between(&lows, &highs);
        let variance = low.1 + high.1 - 2.0 * covariance;
        Moments {
            mean: (top.0 + high.0) - (bottom.1 - low.0),
            standard_deviation: variance.max(0.0).sqrt(),
        }
    }

    /// Where the minimum can lie.
    fn lowest_end(&self) -> (f64, f64) {
        let exact = self.exact.map_or(f64::INFINITY, |e| e.lowest);
        let from = self.noisy.iter().map(|p| p.low()).fold(exact, f64::min);
        let to = self.noisy.iter().map(|p| p.high()).fold(exact, f64::min);
        (from, to)
    }

    /// Where the maximum can lie.
    fn highest_end(&self) -> (f64, f64) {
        let exact = self.exact.map_or(f64::NEG_INFINITY, |e| e.highest);
        let from = self.noisy.iter().map(|p| p.low()).fold(exact, f64::max);
        let to = self.noisy.iter().map(|p| p.high()).fold(exact, f64::max);
        (from, to)
    }

    fn nodes(&self, panel: Panel) -> Nodes {
        let node = |(x, weight)| {
            let cdf: Vec<f64> = self.noisy.iter().map(|p| p.cdf(x)).collect();
            let below = cdf.iter().product();
            let above = cdf.iter().map(|f| 1.0 - f).product();
            Node { x, weight, below, above, cdf }
        };
        Nodes(panel.nodes().map(node).collect(), panel)
    }

    /// `∫∫ Π [Φⱼ(y) − Φⱼ(x)] dx dy` over x of the first, y of the second panels, x < y.
    fn between(&self, lows: &[Nodes], highs: &[Nodes]) -> f64 {
        let mut sum = 0.0;
        for low in lows {
            for high in highs {
                if low.1 == high.1 {
                    sum += self.between_diagonal(low);
                } else if low.1.to <= high.1.from {
                    sum += between_apart(low, high);
                }
            }
        }
        sum
    }

    /// The triangle x < y of one panel: a rule of its own from each x to the panel's end.
    fn between_diagonal(&self, nodes: &Nodes) -> f64 {
        let mut sum = 0.0;
        for node in &nodes.0 {
            let rest = Panel { from: node.x, to: nodes.1.to };
            for (y, weight) in rest.nodes() {
                let places = self.noisy.iter().zip(&node.cdf);
                let all: f64 = places.map(|(p, below)| p.cdf(y) - below).product();
                sum += node.weight * weight * all;
            }
        }
        sum
    }
}

/// A node with what is needed of it again and again.
struct Node {
    x: f64,
    weight: f64,
    /// All noisy places at or below x.
    below: f64,
    /// All noisy places above x.
    above: f64,
    cdf: Vec<f64>,
}

struct Nodes(Vec<Node>, Panel);

/// Mean and variance of a distance `d >= 0` from its survival function: `∫ S`, `2 ∫ d S − mean²`.
fn one_sided(
    panels: &[Nodes],
    survival: impl Fn(&Node) -> f64,
    distance: impl Fn(f64) -> f64,
) -> (f64, f64) {
    let (mut mean, mut square) = (0.0, 0.0);
    for node in panels.iter().flat_map(|p| &p.0) {
        let share = node.weight * survival(node);
        mean += share;
        square += 2.0 * share * distance(node.x);
    }
    (mean, square - mean * mean)
}

fn between_apart(low: &Nodes, high: &Nodes) -> f64 {
    let mut sum = 0.0;
    for x in &low.0 {
        for y in &high.0 {
            let all: f64 = y.cdf.iter().zip(&x.cdf).map(|(y, x)| y - x).product();
            sum += x.weight * y.weight * all;
        }
    }
    sum
}
