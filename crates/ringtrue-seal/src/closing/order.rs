//! An even pull-down order: opposite first, then across, then between.
//!
//! Common practice, no source. Bolts are numbered counter-clockwise facing half b, from 1.

use ringtrue_metrology::units::in_mm;
use serde::Serialize;

use super::Input;

/// How the bolts are drawn.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PullDown {
    /// Bolts in the order of one round.
    pub order: Vec<u32>,
    /// The rounds, in equal steps of the way.
    pub steps: Vec<Step>,
    /// Where the order comes from.
    pub source: &'static str,
}

/// One round over all bolts.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Step {
    /// Which, from 1.
    pub step: u32,
    /// Share of the way from the first touch to the end, percent.
    pub share_percent: f64,
    /// Gap after it, where the load curve is known.
    pub gap_mm: Option<f64>,
    /// Force all round after it.
    pub force_n: Option<f64>,
    /// That force on each bolt: what it carries, not what it is tightened to.
    pub force_per_bolt_n: Option<f64>,
}

pub(super) fn pull_down(bolts: u32, input: &Input) -> PullDown {
    let way = input.load.as_ref().and_then(|load| {
        let middle = match input.gap_limits {
            (Some(min), Some(max)) => Some(f64::midpoint(in_mm(min), in_mm(max))),
            (_, _) => None,
        };
        Some((load, load.curve.first()?.gap_mm, load.nominal_gap_mm.or(middle)?))
    });
    let steps = (1..=input.steps).map(|step| {
        let share = f64::from(step) / f64::from(input.steps);
        let gap = way.map(|(_, first, end)| first + share * (end - first));
        let force = way.zip(gap).and_then(|((load, ..), gap)| Some(load.at(gap)?.1));
        Step {
            step,
            share_percent: 100.0 * share,
            gap_mm: gap,
            force_n: force,
            force_per_bolt_n: force.map(|force| force / f64::from(bolts)),
        }
    });
    PullDown {
        order: pull_down_order(bolts),
        steps: steps.collect(),
        source: "common practice, no source",
    }
}

/// Bolts in the order in which they are drawn.
///
/// Of a number that four divides, four at right angles belong together; of another even number,
/// two opposite ones; the groups follow each other so that each lies as far from those before it as
/// it can. An odd number goes round in the star that comes nearest to opposite.
pub(super) fn pull_down_order(bolts: u32) -> Vec<u32> {
    if bolts % 2 == 1 {
        let half = bolts / 2;
        return (0..bolts).map(|i| i * half.max(1) % bolts + 1).collect();
    }
    let turns: &[u32] = if bolts.is_multiple_of(4) { &[0, 2, 1, 3] } else { &[0, 1] };
    // Of four at right angles the opposite one comes second.
    let group = bolts / turns.len() as u32;
    let spread = |start: u32| turns.iter().map(move |turn| start + turn * group + 1);
    farthest_first(group).into_iter().flat_map(spread).collect()
}

/// Numbers below `count` on a circle of that size, each as far from those before it as it can be.
fn farthest_first(count: u32) -> Vec<u32> {
    let mut order: Vec<u32> = Vec::new();
    while order.len() < count as usize {
        let distance = |one: u32| {
            let from = |other: &u32| {
                let apart = one.abs_diff(*other);
                apart.min(count - apart)
            };
            order.iter().map(from).min().unwrap_or(count)
        };
        let left = (0..count).filter(|one| !order.contains(one));
        // The lowest of several that are as far.
        let Some(next) = left.rev().max_by_key(|one| distance(*one)) else { break };
        order.push(next);
    }
    order
}
