//! Where a reading may be expected, so that a slip of the finger is asked back while the gauge is
//! still in the hand. It decides nothing: whoever read it so may keep it.

use ringtrue_metrology::units::{Angle, Given, Length, Pressure, Quantity, Temperature, parse};
use ringtrue_seal::definition::joint::{GapChain, Half, Joint};
use ringtrue_seal::definition::limit::Limit;
use ringtrue_seal::definition::procedure::{Evidence, LimitKey, Measures, QuantityKind};
use ringtrue_seal::definition::seal::Seal;

use crate::check::Check;
use crate::drawn;
use crate::procedure::stated_limit;

/// How many times the limit on a reading it may stand off before it is asked back: what does not
/// conform stands within that, a wrong digit does not. Common practice, no source.
const TIMES: f64 = 10.0;
/// How many times larger or smaller than the middle of the others readings of one thing may be.
/// Common practice, no source.
const RATIO: f64 = 5.0;
/// How many times larger or smaller than drawn a size may be: more than any part that could be
/// taken for the drawn one, and less than a radius is off its diameter, an inch off a millimetre,
/// or a decimal point off its place. Common practice, no source.
const NEAR: f64 = 1.5;
/// Coldest and hottest gas and part while a joint is tested in a shop. Common practice, no source.
const SHOP: [&str; 2] = ["-30 degC", "60 degC"];
/// By how much their temperature changes at most, K. Common practice, no source.
const WARMING: f64 = 15.0;
/// Lowest gauge pressure, that of an empty space.
const EMPTY: &str = "-101.325 kPa";
/// Farthest that an angle round a ring is counted, either way.
const ROUND: &str = "360 deg";

/// Where a reading may be expected, in SI. What is not known is not asked back by.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Plausible {
    /// Lowest value.
    pub low: Option<f64>,
    /// Highest value.
    pub high: Option<f64>,
    /// Most that it may stand off the middle of the others.
    pub spread: Option<f64>,
    /// Most times that it may be larger or smaller than the middle of the others.
    pub ratio: Option<f64>,
    /// Must it be above the one before it?
    pub rises: bool,
}

impl Plausible {
    /// Is nothing known?
    #[must_use]
    pub fn is_unknown(&self) -> bool {
        *self == Self::default()
    }

    /// Is a reading to be asked back? `others` are those of the same thing, and `before` is the
    /// last of them that stands before it; all in SI.
    #[must_use]
    pub fn asks_back(&self, value: f64, others: &[f64], before: Option<f64>) -> bool {
        let outside = self.low.is_some_and(|low| value < low)
            || self.high.is_some_and(|high| value > high)
            || (self.rises && before.is_some_and(|before| value <= before));
        let Some(middle) = middle(others) else { return outside };
        let far = self.spread.is_some_and(|spread| (value - middle).abs() > spread);
        let by_ratio = self.ratio.is_some_and(|ratio| {
            let (value, middle) = (value.abs(), middle.abs());
            middle > 0.0 && value > 0.0 && (value > ratio * middle || ratio * value < middle)
        });
        outside || far || by_ratio
    }
}

fn middle(values: &[f64]) -> Option<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let half = sorted.len() / 2;
    let high = *sorted.get(half)?;
    let low = if sorted.len().is_multiple_of(2) { sorted[half - 1] } else { high };
    Some(0.5 * (low + high))
}

/// A height of one half's ring: by the limits of its seal. What stands farther off the middle of
/// the others than the limit on the range lets any two stand apart breaks that limit alone.
#[must_use]
pub fn height(joint: &Joint, half: Half) -> Plausible {
    let limits = &joint.seal(half).limits;
    let spread = limits.height_range.as_ref().and_then(|limit| limit.bounds_si().1);
    let mean = limits.assembled_height.as_ref().map(Limit::bounds_si);
    let (low, high) = mean.unwrap_or_default();
    Plausible {
        low: low.zip(spread).map(|(low, spread)| low - spread),
        high: high.zip(spread).map(|(high, spread)| high + spread),
        spread,
        ..Plausible::default()
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
    let (nominal, varies) = (link.nominal.value().si(), max - min);
    Plausible { low: Some(nominal - varies), high: Some(nominal + varies), ..Plausible::default() }
}

/// A step's value: by the limit that it is held against, else by what it measures of the joint.
#[must_use]
pub fn value(at: (&Joint, Option<Half>), asked: &Evidence) -> Plausible {
    let limit = asked.limit.map(|key| within(at, key)).unwrap_or_default();
    let size = asked.measures.map(|what| measured(at, what)).unwrap_or_default();
    Plausible { low: limit.low.or(size.low), high: limit.high.or(size.high), ..limit }
}

/// What a value measures of a half, or of either half.
fn measured((joint, half): (&Joint, Option<Half>), what: Measures) -> Plausible {
    let halves = half.map_or(Half::BOTH.to_vec(), |half| vec![half]);
    let each: Vec<Plausible> =
        halves.into_iter().map(|half| of_half(joint, joint.seal(half), what)).collect();
    let widest = |side: fn(&Plausible) -> Option<f64>, pick: fn(f64, f64) -> f64| {
        let sides: Option<Vec<f64>> = each.iter().map(side).collect();
        sides?.into_iter().reduce(pick)
    };
    Plausible {
        low: widest(|one| one.low, f64::min),
        high: widest(|one| one.high, f64::max),
        ..Plausible::default()
    }
}

fn of_half(joint: &Joint, seal: &Seal, what: Measures) -> Plausible {
    match what {
        Measures::ToricTemperature => {
            let [low, high] = SHOP.map(fixed::<Temperature>);
            return Plausible { low, high, ..Plausible::default() };
        }
        Measures::ContactBand => return band(seal),
        Measures::EndPlay | Measures::FaceRunOut => return up_to(gap_varies(joint)),
        Measures::RadialPlay => {
            let most = stated_limit(joint, None, LimitKey::Eccentricity).and_then(|one| one.max_si);
            return up_to(most.map(|most| TIMES * most));
        }
        Measures::ToricSection
        | Measures::WasherHeight
        | Measures::HousingDepth
        | Measures::RampAngle
        | Measures::RampDiameter
        | Measures::LipHeight
        | Measures::SeatDiameter
        | Measures::SeatDepth => {}
    }
    let drawn = drawn::of_seal(seal, what).map(|drawn| drawn.si);
    Plausible {
        low: drawn.map(|drawn| drawn / NEAR),
        high: drawn.map(|drawn| NEAR * drawn),
        ..Plausible::default()
    }
}

/// From nothing to at most this; nothing is known where this is not.
fn up_to(high: Option<f64>) -> Plausible {
    Plausible { low: high.map(|_| 0.0), high, ..Plausible::default() }
}

fn si(given: &Given<Length>) -> f64 {
    given.value().si()
}

/// By how much the gap may vary: what plays by more takes all of it.
fn gap_varies(joint: &Joint) -> Option<f64> {
    let gap = joint.gap_limits();
    let (min, max) = gap.min.zip(gap.max)?;
    Some((max - min).si()).filter(|varies| *varies > 0.0)
}

/// A contact band that has run may be wider than the drawn one, and no wider than the face.
fn band(seal: &Seal) -> Plausible {
    let ring = &seal.ring;
    let wide = |outer: &Given<Length>, inner: &Given<Length>| (si(outer) - si(inner)) / 2.0;
    let drawn = wide(&ring.contact_band_outer_diameter, &ring.contact_band_inner_diameter);
    let face = wide(&ring.face_outer_diameter, &ring.face_inner_diameter);
    Plausible { low: Some(drawn / RATIO), high: Some(face), ..Plausible::default() }
}

/// What of the parts a setting of a check is, that evidence of another step may have measured.
#[must_use]
pub fn measured_by(check: Check, name: &str) -> Option<Measures> {
    match (check, name) {
        (Check::Seating, "free-height") => Some(Measures::WasherHeight),
        (_, _) => None,
    }
}

/// A setting of a check, by its name, with what it measures; `None` where nothing is known of it.
#[must_use]
pub fn setting(
    at: (&Joint, Option<Half>),
    (check, name): (Check, &str),
) -> Option<(QuantityKind, Plausible)> {
    let shop = |kind| {
        let [low, high] = SHOP.map(fixed::<Temperature>);
        (kind, Plausible { low, high, ..Plausible::default() })
    };
    if let Some(what) = measured_by(check, name) {
        return Some((what.quantity(), measured(at, what)))
            .filter(|(_, known)| !known.is_unknown());
    }
    let plausible = match (check, name) {
        (Check::Chilling | Check::Agents, "room") => shop(QuantityKind::Temperature),
        (_, _) => return None,
    };
    Some(plausible).filter(|(_, plausible)| !plausible.is_unknown())
}

/// Within a limit of the joint's definition, widened by its own width where it has two sides.
fn within((joint, half): (&Joint, Option<Half>), key: LimitKey) -> Plausible {
    let Some(limit) = stated_limit(joint, half, key) else { return Plausible::default() };
    let (low, high) = match (limit.min_si, limit.max_si) {
        (Some(min), Some(max)) if min < max => (Some(min - (max - min)), Some(max + (max - min))),
        (_, Some(max)) if max > 0.0 => (None, Some(TIMES * max)),
        (_, _) => (None, None),
    };
    // A temperature's zero is no end of a scale that its limit could be a multiple of.
    if key.quantity() == QuantityKind::Temperature && limit.min_si.is_none() {
        return Plausible::default();
    }
    Plausible { low, high, ..Plausible::default() }
}

/// What the readings of a check's column measure; `None` where words stand in it.
#[must_use]
pub fn measured_in(column: &str) -> Option<QuantityKind> {
    match column {
        "angle" => Some(QuantityKind::Angle),
        "reading" | "ra" | "bend" | "spacing" | "gap" => Some(QuantityKind::Length),
        "time" => Some(QuantityKind::Time),
        "pressure" => Some(QuantityKind::Pressure),
        "temperature" => Some(QuantityKind::Temperature),
        _ => None,
    }
}

/// A reading of a check, in the column with this name, by what the definition says of the joint or
/// of the half that it is made on.
#[must_use]
pub fn cell((joint, half): (&Joint, Option<Half>), column: &str) -> Plausible {
    let most = |key| stated_limit(joint, half, key).and_then(|limit| limit.max_si);
    let nothing = Plausible::default();
    let from_zero = Plausible { low: Some(0.0), ..nothing };
    match column {
        "angle" => {
            let round = fixed::<Angle>(ROUND);
            Plausible { low: round.map(|round| -round), high: round, ..nothing }
        }
        // An axis that is off by `e` moves the indicator by `e` to either side.
        "reading" => {
            let spread = most(LimitKey::Eccentricity).map(|off| TIMES * off);
            Plausible { spread, ..nothing }
        }
        "ra" => {
            let high = most(LimitKey::RampFinishRa).map(|most| TIMES * most);
            Plausible { high, ratio: Some(RATIO), ..from_zero }
        }
        // Bands are seen on the lapped face, and no farther than across it.
        "bend" | "spacing" => {
            let halves = half.map_or(Half::BOTH.to_vec(), |half| vec![half]);
            let across = |half: Half| joint.seal(half).ring.face_outer_diameter.value().si();
            let across = halves.into_iter().map(across).reduce(f64::max);
            let low = if column == "bend" { across.map(|across| -across) } else { Some(0.0) };
            let ratio = (column == "spacing").then_some(RATIO);
            Plausible { low, high: across, ratio, ..nothing }
        }
        "time" => Plausible { rises: true, ..from_zero },
        "pressure" => {
            let empty = fixed::<Pressure>(EMPTY);
            let most = most(LimitKey::PressureDifference).zip(empty);
            let high = most.map(|(most, empty)| TIMES * most - empty);
            Plausible { low: empty, high, ratio: Some(RATIO), ..nothing }
        }
        "temperature" => {
            let [low, high] = SHOP.map(fixed::<Temperature>);
            Plausible { low, high, spread: Some(WARMING), ..nothing }
        }
        "gap" => {
            let gap = within((joint, half), LimitKey::SealGap);
            // One place that is off the others by half of what the gap may vary in all.
            let spread = gap_varies(joint).map(|varies| varies / 2.0);
            Plausible { low: gap.low.map(|low| low.max(0.0)), spread, ..gap }
        }
        _ => nothing,
    }
}

fn fixed<Q: Quantity>(text: &str) -> Option<f64> {
    parse::<Q>(text).ok().map(Quantity::si)
}

#[cfg(test)]
mod tests {
    use ringtrue_seal::definition::joint::{Half, Joint, JointFile, assemble};
    use ringtrue_seal::definition::procedure::{
        self, LoadRingType, Procedure, QuantityKind, shipped,
    };
    use ringtrue_seal::definition::read;
    use ringtrue_seal::definition::seal::Seal;

    use super::{Plausible, cell, height, measured_in, setting, size, value};
    use crate::check::Check;
    use crate::job::tests::fixture::{Bench, people};

    fn near(found: Option<f64>, wanted: f64) -> bool {
        (found.unwrap() - wanted).abs() < 1e-9
    }

    #[test]
    fn a_size_may_stand_off_its_nominal_by_as_much_as_the_gap_may_vary() {
        let text = include_str!("../../../examples/final-drive/joint.toml");
        let file: JointFile = read(text).unwrap();
        let spacer = size(&file.gap, 2);
        assert!(near(spacer.low, 2.5e-3) && near(spacer.high, 4.5e-3), "{spacer:?}");
        assert_eq!(size(&file.gap, 9), Plausible::default());
    }

    #[test]
    fn a_slip_of_one_digit_stands_off_the_other_heights_and_gaps() {
        let drive = joint(include_str!("../../../examples/final-drive/joint.toml"));
        let mm = |values: &[f64]| values.iter().map(|value| value * 1e-3).collect::<Vec<_>>();
        let heights = height(&drive, Half::B);
        let read = mm(&[10.74, 10.25, 10.06, 10.23, 10.79, 11.41, 11.68]);
        // A ring that is tilted far more than it may be is read as it stands.
        assert!(!heights.asks_back(11.37e-3, &read, None), "{heights:?}");
        assert!(heights.asks_back(12.37e-3, &read, None), "{heights:?}");
        let gap = cell((&drive, None), "gap");
        let read = mm(&[2.63, 2.61, 2.61]);
        assert!(!gap.asks_back(2.68e-3, &read, None), "{gap:?}");
        assert!(gap.asks_back(3.63e-3, &read, None), "{gap:?}");
    }

    #[test]
    fn a_reading_is_asked_back_by_its_bounds_the_others_and_the_one_before() {
        let spread = Plausible { spread: Some(0.5), ..Plausible::default() };
        assert!(!spread.asks_back(9.0, &[], None));
        assert!(!spread.asks_back(9.0, &[8.6, 8.7, 20.0], None));
        assert!(spread.asks_back(9.3, &[8.6, 8.7, 20.0], None));
        let ratio = Plausible { ratio: Some(5.0), ..Plausible::default() };
        assert!(ratio.asks_back(52.0, &[5.2, 5.1], None) && ratio.asks_back(0.52, &[5.2], None));
        assert!(!ratio.asks_back(0.0, &[5.2], None) && !ratio.asks_back(20.0, &[5.2], None));
        let rises = Plausible { rises: true, ..Plausible::default() };
        assert!(rises.asks_back(5.0, &[5.0, 9.0], Some(5.0)));
        assert!(!rises.asks_back(6.0, &[5.0, 9.0], Some(5.0)) && !rises.asks_back(0.0, &[], None));
    }

    /// Each column of each check says what it measures and where its readings may be expected.
    #[test]
    fn every_column_of_numbers_has_a_range_of_its_own() {
        let Bench { plan, .. } = Bench::new(&people());
        for check in Check::ALL {
            for column in check.row_header().split(',').filter(|column| !column.is_empty()) {
                let expected = cell((&plan.joint, None), column);
                let is_number = column != "surface";
                assert_eq!(measured_in(column).is_some(), is_number, "{column}");
                assert_eq!(!expected.is_unknown(), is_number, "{column}");
            }
        }
    }

    fn joint(text: &str) -> Joint {
        let file: JointFile = read(text).unwrap();
        let seal = |path: &str, _| -> Result<Seal, ()> {
            Ok(match path {
                "frame-half.toml" => {
                    read(include_str!("../../../examples/final-drive/frame-half.toml")).unwrap()
                }
                _ => read(include_str!("../../../examples/final-drive/hub-half.toml")).unwrap(),
            })
        };
        assemble(file, seal).unwrap()
    }

    /// Of the values of a procedure: what is typed, and whether it is asked back.
    fn asked_back(
        (joint, load_ring): (&Joint, LoadRingType),
        values: &[(&str, &str, &[&str], &[&str])],
    ) {
        let procedure: Procedure = read(shipped(load_ring)).unwrap();
        for (step, name, right, slips) in values {
            let step = procedure.step(step).unwrap();
            let asked = step.evidence(name).unwrap();
            let half = (step.stage.times() == procedure::Times::EachHalf).then_some(Half::B);
            let plausible = value((joint, half), asked);
            let kind = asked.quantity.unwrap();
            let asks = |typed: &&str| plausible.asks_back(kind.read_si(typed).unwrap(), &[], None);
            assert!(!right.iter().any(asks), "{name}: {plausible:?}");
            assert!(slips.iter().all(asks), "{name}: {plausible:?}");
        }
    }

    #[test]
    fn a_value_is_asked_back_where_it_can_not_be_what_the_joint_is_drawn_with() {
        let drive = joint(include_str!("../../../examples/final-drive/joint.toml"));
        let toric = (&drive, LoadRingType::Toric);
        asked_back(
            toric,
            &[
                // A decimal point, inches for millimetres, a radius for a diameter.
                ("measure-housing", "depth", &["28.3 mm", "1.1 in"], &["2.83 mm", "28.3 in"]),
                ("measure-housing", "ramp-diameter-1", &["274.6 mm"], &["137.3 mm", "27.46 mm"]),
                ("measure-housing", "ramp-angle", &["15.2 deg"], &["51.2 deg", "1.52 deg"]),
                ("look-at-toric", "section", &["12.1 mm", "11.2 mm"], &["121 mm", "0.47 mm"]),
                ("check-lip", "lip-height", &["2.9 mm"], &["29 mm", "0.12 mm"]),
                ("read-old-seal", "band-widest", &["3.2 mm", "5 mm"], &["32 mm", "3.2 in"]),
                ("bearing-play", "end-play", &["0.1 mm", "0 mm"], &["0.1 in", "-0.1 mm"]),
                ("bearing-play", "radial-play", &["0.05 mm"], &["50 mm"]),
                ("gap-closed", "gap-end-play", &["0.1 mm"], &["10 mm"]),
                ("re-warm", "surface-temperature", &["20 degC"], &["200 degC", "-60 degC"]),
            ],
        );
        let shaft = joint(include_str!("../../../examples/mixer-shaft/joint.toml"));
        let washer = (&shaft, LoadRingType::ConicalWasher);
        asked_back(
            washer,
            &[
                ("measure-housing", "seat-diameter-1", &["6.9 in", "175.3 mm"], &["3.45 in"]),
                ("measure-housing", "seat-depth", &["11.4 mm"], &["114 mm", "11.4 in"]),
                ("measure-free-height", "free-height-lowest", &["5.1 mm"], &["0.51 mm", "2 in"]),
            ],
        );
        // The same where it is a setting of the check on seating.
        let at = (&shaft, Some(Half::A));
        let (kind, free) = setting(at, (Check::Seating, "free-height")).unwrap();
        let asks = |typed| free.asks_back(kind.read_si(typed).unwrap(), &[], None);
        assert_eq!(kind, QuantityKind::Length);
        assert!(!asks("0.2015 in") && asks("0.02015 in") && asks("0.2015 mm"));
        // A toric has none, and of the job sheet's torque nothing is known.
        assert_eq!(setting((&drive, Some(Half::A)), (Check::Seating, "free-height")), None);
        let procedure: Procedure = read(shipped(LoadRingType::Toric)).unwrap();
        let torque = procedure.step("tighten").unwrap().evidence("torque").unwrap();
        assert!(value((&drive, None), torque).is_unknown());
    }
}
