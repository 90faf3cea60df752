//! How often the verdict on a range is wrong, over 10,000 simulated rings of known true range.
//!
//! Allowed: 2.5 % and three binomial standard errors. The true range is put where the error is
//! likeliest: exactly at the limit, with few or many places at the extremes.

use rayon::prelude::*;
use ringtrue_metrology::conformity::range::{Place, judge_range};
use ringtrue_metrology::conformity::{Levels, Verdict};

const RINGS: u64 = 10_000;
const LIMIT: f64 = 1.0;

/// 2.5 % of the rings and three standard errors of that count.
fn allowed() -> f64 {
    let n = RINGS as f64;
    n * 0.025 + 3.0 * (n * 0.025 * 0.975).sqrt()
}

/// SplitMix64 with Box-Muller: a ring's own stream, named by its number.
struct Noise(u64);

impl Noise {
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn normal(&mut self) -> f64 {
        let radius = (-2.0 * libm::log1p(-self.uniform())).sqrt();
        radius * libm::cos(std::f64::consts::TAU * self.uniform())
    }
}

/// Where the true heights stand.
#[derive(Debug, Clone, Copy)]
enum Shape {
    /// One lowest, one highest, the others in the middle.
    TwoExtremes,
    /// Half the places lowest, half highest.
    HalfAndHalf,
    /// A tilted plane.
    Tilted,
    /// One place high, all others level.
    OneHigh,
}

impl Shape {
    /// True heights with exactly this range.
    fn heights(self, n: usize, range: f64) -> Vec<f64> {
        (0..n)
            .map(|i| match self {
                Self::TwoExtremes if i == 0 => 0.0,
                Self::TwoExtremes if i == n / 2 => range,
                Self::TwoExtremes => 0.5 * range,
                Self::HalfAndHalf => range * (i % 2) as f64,
                Self::Tilted => {
                    0.5 * range * libm::cos(std::f64::consts::TAU * i as f64 / n as f64)
                }
                Self::OneHigh if i == 0 => range,
                Self::OneHigh => 0.0,
            })
            .collect()
    }
}

/// Readings' standard uncertainties, alike or not.
#[derive(Debug, Clone, Copy)]
enum Gauge {
    Alike(f64),
    Mixed(f64),
}

impl Gauge {
    fn at(self, i: usize) -> f64 {
        match self {
            Self::Alike(u) => u,
            Self::Mixed(u) => u * [0.5, 1.0, 2.0][i % 3],
        }
    }
}

/// How many of the rings were called conforming, and how many not conforming.
fn called(n: usize, shape: Shape, gauge: Gauge, true_range: f64) -> (u64, u64) {
    let heights = shape.heights(n, true_range);
    (0..RINGS)
        .into_par_iter()
        .map(|ring| {
            let mut noise = Noise(ring.wrapping_mul(0x1234_5678_9abc_def1));
            let places: Vec<Place> = heights
                .iter()
                .enumerate()
                .map(|(i, height)| {
                    let u = gauge.at(i);
                    Place { value: height + u * noise.normal(), standard_uncertainty: u }
                })
                .collect();
            match judge_range(&places, LIMIT, Levels::DEFAULT).unwrap().verdict {
                Verdict::Conforms => (1, 0),
                Verdict::DoesNotConform => (0, 1),
                Verdict::NotProven => (0, 0),
            }
        })
        .reduce(|| (0, 0), |a, b| (a.0 + b.0, a.1 + b.1))
}

fn verdicts_are_rarely_wrong(n: usize) {
    let (alike, mixed) = (Gauge::Alike(0.05), Gauge::Mixed(0.2));
    let worst = [
        (Shape::TwoExtremes, alike),
        (Shape::TwoExtremes, mixed),
        (Shape::HalfAndHalf, alike),
        (Shape::Tilted, mixed),
        (Shape::OneHigh, alike),
    ];
    for (shape, gauge) in worst {
        // At the limit either verdict would be wrong: it is neither proven kept nor broken.
        let (conforms, breaks) = called(n, shape, gauge, LIMIT);
        assert!(conforms as f64 <= allowed(), "{n} {shape:?} {gauge:?}: {conforms} accepted");
        assert!(breaks as f64 <= allowed(), "{n} {shape:?} {gauge:?}: {breaks} rejected");
    }
    // A little to either side, and a level ring read with much noise.
    let gauge = Gauge::Alike(0.1);
    let (conforms, _) = called(n, Shape::TwoExtremes, gauge, LIMIT + 0.05);
    assert!(conforms as f64 <= allowed());
    let (_, breaks) = called(n, Shape::HalfAndHalf, gauge, LIMIT - 0.05);
    assert!(breaks as f64 <= allowed());
    let (_, breaks) = called(n, Shape::Tilted, Gauge::Alike(1.0), 0.0);
    assert!(breaks as f64 <= allowed());
}

#[test]
fn four_places() {
    verdicts_are_rarely_wrong(4);
}

#[test]
fn eight_places() {
    verdicts_are_rarely_wrong(8);
}

#[test]
fn twenty_four_places() {
    verdicts_are_rarely_wrong(24);
}

/// A rule that never decides would be wrong never: clear rings must get their verdict.
#[test]
fn clear_rings_are_decided() {
    for n in [4, 8, 24] {
        let gauge = Gauge::Alike(0.02);
        let (conforms, _) = called(n, Shape::Tilted, gauge, LIMIT - 0.2);
        assert!(conforms >= RINGS * 99 / 100, "{n}: {conforms}");
        let (_, breaks) = called(n, Shape::Tilted, gauge, LIMIT + 0.2);
        assert!(breaks >= RINGS * 99 / 100, "{n}: {breaks}");
    }
}
