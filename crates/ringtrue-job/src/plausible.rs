//! Where a reading may be expected, so that a slip of the finger is asked back while the gauge is
//! still in the hand. It decides nothing: whoever read it so may keep it.

use ringtrue_metrology::units::Quantity;
use ringtrue_seal::definition::joint::{GapChain, Half, Joint};
use ringtrue_seal::definition::limit::Limit;

/// How many times the limit on the range two places of one ring may differ before the later one is
/// asked back: a cocked ring stands within it, a wrong digit does not. Common practice, no source.
const RANGES: f64 = 10.0;

/// Where a reading may be expected, mm. What is not known is not asked back by.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Plausible {
    /// Lowest value.
    pub low_mm: Option<f64>,
    /// Highest value.
    pub high_mm: Option<f64>,
    /// Most that it may stand off the middle of the others.
    pub spread_mm: Option<f64>,
}

/// A height of one half's ring: by the limits of its seal.
#[must_use]
pub fn height(joint: &Joint, half: Half) -> Plausible {
    let limits = &joint.seal(half).limits;
    let range = limits.height_range.as_ref().and_then(|limit| limit.bounds_si().1.map(mm));
    let mean = limits.assembled_height.as_ref().map(Limit::bounds_si);
    let spread_mm = range.map(|range| RANGES * range);
    let (low, high) = mean.unwrap_or_default();
    Plausible {
        low_mm: low.zip(spread_mm).map(|(low, spread)| mm(low) - spread),
        high_mm: high.zip(spread_mm).map(|(high, spread)| mm(high) + spread),
        spread_mm,
    }
}

/// The size of a link of the gap's chain: off its nominal size by no more than the gap may vary in
/// all.
#[must_use]
pub fn size(chain: &GapChain, link: usize) -> Plausible {
    let limits = chain.limits.as_ref().map(Limit::bounds_si);
    let Some(((Some(min), Some(max)), link)) = limits.zip(chain.link.get(link)) else {
        return Plausible::default();
    };
    let (nominal, varies) = (mm(link.nominal.value().si()), mm(max - min));
    Plausible { low_mm: Some(nominal - varies), high_mm: Some(nominal + varies), spread_mm: None }
}

fn mm(metres: f64) -> f64 {
    1e3 * metres
}

#[cfg(test)]
mod tests {
    use ringtrue_seal::definition::joint::JointFile;
    use ringtrue_seal::definition::read;

    use super::{Plausible, size};

    #[test]
    fn a_size_may_stand_off_its_nominal_by_as_much_as_the_gap_may_vary() {
        let text = include_str!("../../../examples/final-drive/joint.toml");
        let file: JointFile = read(text).unwrap();
        let spacer = size(&file.gap, 2);
        let near = |found: Option<f64>, wanted: f64| (found.unwrap() - wanted).abs() < 1e-9;
        assert!(near(spacer.low_mm, 2.5) && near(spacer.high_mm, 4.5), "{spacer:?}");
        assert_eq!(size(&file.gap, 9), Plausible::default());
    }
}
