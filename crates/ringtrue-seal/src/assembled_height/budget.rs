//! What one reading is worth: the standard uncertainty of its non-repeating part.

use ringtrue_metrology::uncertain::{Pooled, pooled};
use ringtrue_metrology::units::Quantity;

use super::places::Spot;
use super::{GaugeUncertainty, UncertaintyBasis};

/// Degrees of freedom from which on the rounds say more of the feel than the gauge's file.
///
/// With 8 of them (four places three times) a standard deviation is known to 25 %
/// (JCGM 100:2008 E.4.3); what that leaves open is taken in by Student's factor.
const ENOUGH_FREEDOM: f64 = 8.0;
/// Rounds disagree when chance alone would scatter them so in less than this share of cases.
const CHANCE: f64 = 0.025;

/// The standard uncertainties that the judgement uses, in mm.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Budget {
    /// Non-repeating part of one reading.
    pub(super) one_reading: Option<f64>,
    /// Repeating part, the same in every reading.
    pub(super) repeating: f64,
    /// Where the non-repeating part came from.
    pub(super) basis: UncertaintyBasis,
    /// Places whose rounds scatter by more than was stated, the worst first.
    pub(super) disagreeing: Vec<usize>,
    /// Do the rounds as a whole scatter by more than was stated?
    pub(super) rounds_disagree: bool,
}

/// The rounds' pooled scatter about their places; `None` without a repeated place.
fn scatter<'s>(spots: impl IntoIterator<Item = &'s Spot>) -> Option<Pooled> {
    let rounds = |spot: &Spot| spot.readings_mm.iter().map(|(_, mm)| *mm).collect();
    let groups: Vec<Vec<f64>> = spots.into_iter().map(rounds).collect();
    pooled(&groups).ok()
}

/// What the readings and the gauge together say one reading is worth.
pub(super) fn budget(spots: &[Spot], gauge: GaugeUncertainty) -> Budget {
    let rounds = scatter(spots);
    let enough = rounds.filter(|rounds| rounds.degrees_of_freedom >= ENOUGH_FREEDOM);
    let estimate = enough.map(|rounds| rounds.widened());
    let (stated, least, repeating, basis) = match gauge {
        GaugeUncertainty::Unknown => {
            let basis =
                if estimate.is_some() { UncertaintyBasis::Rounds } else { UncertaintyBasis::None };
            return Budget {
                one_reading: estimate,
                repeating: 0.0,
                basis,
                disagreeing: Vec::new(),
                rounds_disagree: false,
            };
        }
        GaugeUncertainty::Stated(u) => (u.si() * 1e3, 0.0, 0.0, UncertaintyBasis::Stated),
        GaugeUncertainty::Gauge { repeating, non_repeating, resolution } => {
            // A step of the display is a rectangle of half a step each way (JCGM 100:2008 F.2.2.1).
            let step = resolution.si() * 1e3 / 12f64.sqrt();
            let stated = libm::hypot(non_repeating.si() * 1e3, step);
            (stated, step, repeating.si() * 1e3, UncertaintyBasis::Gauge)
        }
    };
    let disagreed = rounds.filter(|rounds| rounds.is_beyond(stated, CHANCE));
    let (one_reading, basis) = match (disagreed, estimate, basis) {
        // What was seen to scatter can't be called steadier than it was.
        (Some(seen), _, _) => (seen.widened().max(stated), UncertaintyBasis::Rounds),
        (None, Some(seen), UncertaintyBasis::Gauge) => (seen.max(least), UncertaintyBasis::Rounds),
        (None, _, basis) => (stated, basis),
    };
    Budget {
        one_reading: Some(one_reading),
        repeating,
        basis,
        disagreeing: disagreeing(spots, stated),
        rounds_disagree: disagreed.is_some(),
    }
}

/// Places whose own rounds scatter by more than chance allows, the chance shared among them.
fn disagreeing(spots: &[Spot], stated: f64) -> Vec<usize> {
    let repeated = spots.iter().filter(|spot| spot.readings_mm.len() > 1).count();
    let chance = CHANCE / repeated.max(1) as f64;
    let mut places: Vec<(f64, usize)> = spots
        .iter()
        .enumerate()
        .filter_map(|(index, spot)| Some((scatter([spot])?, index)))
        .filter(|(scatter, _)| scatter.is_beyond(stated, chance))
        .map(|(scatter, index)| (scatter.standard_deviation, index))
        .collect();
    places.sort_by(|a, b| b.0.total_cmp(&a.0));
    places.into_iter().map(|(_, index)| index).collect()
}
