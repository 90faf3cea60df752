//! Which shims on hand bring the gap within its limits.

use ringtrue_metrology::monte_carlo::Sample;
use ringtrue_metrology::units::in_mm;

use super::{Input, ShimOutcome, limits_mm, tidy};

/// Most pieces on hand: with it every set of up to three is tried.
pub(super) const MOST_ON_HAND: usize = 24;
/// Most pieces in one pack; thin packs settle and work loose (common practice, no source).
const MOST_IN_A_PACK: usize = 3;
/// Most sets that are told.
const MOST_TOLD: usize = 5;

/// Sets of shims on hand, the best first: what conforms before what does not, then fewer pieces,
/// then the smaller share outside the limits.
pub(super) fn sets(input: &Input, mean_gap_mm: f64, sample: &Sample) -> Vec<ShimOutcome> {
    let mut on_hand: Vec<f64> = input.shims_on_hand.iter().map(|shim| in_mm(*shim)).collect();
    on_hand.sort_by(f64::total_cmp);
    let mut packs: Vec<Vec<f64>> = Vec::new();
    grow(&on_hand, 0, &mut Vec::new(), &mut packs);
    // Pieces of one thickness make the same pack.
    packs.sort_by(|a, b| a.len().cmp(&b.len()).then_with(|| compare(a, b)));
    packs.dedup();
    let mut sets: Vec<ShimOutcome> =
        packs.into_iter().map(|pack| judge(input, mean_gap_mm, sample, pack)).collect();
    sets.sort_by(|a, b| {
        a.verdict
            .cmp(&b.verdict)
            .then(a.pieces_mm.len().cmp(&b.pieces_mm.len()))
            .then(a.outside_limit_fraction.total_cmp(&b.outside_limit_fraction))
            .then(a.thickness_mm.total_cmp(&b.thickness_mm))
    });
    sets.truncate(MOST_TOLD);
    sets
}

fn grow(on_hand: &[f64], from: usize, pack: &mut Vec<f64>, packs: &mut Vec<Vec<f64>>) {
    for index in from..on_hand.len() {
        pack.push(on_hand[index]);
        packs.push(pack.clone());
        if pack.len() < MOST_IN_A_PACK {
            grow(on_hand, index + 1, pack, packs);
        }
        pack.pop();
    }
}

fn compare(a: &[f64], b: &[f64]) -> std::cmp::Ordering {
    let unequal = |(x, y): (&f64, &f64)| Some(x.total_cmp(y)).filter(|order| order.is_ne());
    a.iter().zip(b).find_map(unequal).unwrap_or(std::cmp::Ordering::Equal)
}

/// The gap with a pack is the sampled gap moved by its thickness.
fn judge(input: &Input, mean_gap_mm: f64, sample: &Sample, pieces_mm: Vec<f64>) -> ShimOutcome {
    let (low, high) = limits_mm(input);
    let thickness_mm = tidy(pieces_mm.iter().sum());
    let below = sample.share_below(low - thickness_mm);
    let above = sample.share_above(high - thickness_mm);
    let outside = (below + above).min(1.0);
    ShimOutcome {
        pieces_mm,
        thickness_mm,
        mean_gap_mm: tidy(mean_gap_mm + thickness_mm),
        outside_limit_fraction: outside,
        verdict: input.levels.verdict(1.0 - outside),
    }
}
