//! What is seen: bubbles, and a wet trace.

use std::f64::consts::PI;

use ringtrue_metrology::conformity::{self, Limits, Verdict};
use ringtrue_metrology::uncertain::uniform;
use ringtrue_metrology::units::{Quantity, Time};
use ringtrue_words::say;

use super::pressure::{counted, limit_wanted, molar};
use super::{BubbleMethod, Bubbles, Contribution, Method, Note, Outcome, Soak, Trace};
use crate::RoomError;
use crate::constants::ATMOSPHERE;

/// Pressure and temperature of a bubble that is seen: the atmosphere at 20 degC, Pa and K.
const BUBBLE: (f64, f64) = (ATMOSPHERE, 293.15);
/// Diameter of a bubble where nobody measured it: 2 to 4 mm, m. Common practice, no source.
const DIAMETER: (f64, f64) = (3e-3, 1e-3);
/// How well a measured one is known, half of its range, m: common practice, no source.
const MEASURED: f64 = 0.5e-3;

impl BubbleMethod {
    /// The leak that this method shows for certain, Pa m³/s: the coarse end of handbook tables,
    /// from memory.
    fn shows(self) -> f64 {
        match self {
            Self::Immersion => 1e-4,
            Self::Film => 1e-3,
        }
    }

    fn method(self) -> Method {
        match self {
            Self::Immersion => Method::BubbleImmersion,
            Self::Film => Method::BubbleFilm,
        }
    }
}

/// Nothing is known but the method and the time.
fn blank(method: Method, over: Time) -> Outcome {
    Outcome {
        method,
        leak_rate_pa_m3_per_s: None,
        standard_uncertainty_pa_m3_per_s: None,
        leak_rate_mbar_l_per_s: None,
        leak_rate_mol_per_s: None,
        leak_rate_sccm_0_degc: None,
        leak_rate_sccm_20_degc: None,
        reference_temperature_degc: None,
        detectable_leak_pa_m3_per_s: None,
        limit_pa_m3_per_s: None,
        probability_conforms: None,
        settling_s: None,
        watched_s: over.si(),
        stored_energy_j: None,
        largest_pressure_difference_kpa: None,
        give_that_hides_the_limit_ml: None,
        contributions: Vec::new(),
        notes: Vec::new(),
        points: Vec::new(),
        line: None,
        verdict: Verdict::NotProven,
    }
}

fn some_time(over: Time) -> Result<(), RoomError> {
    if over.si() > 0.0 {
        return Ok(());
    }
    let found = say!("leak-time-of", time = over.si().to_string());
    Err(RoomError::input(found, say!("leak-how-long-was-watched-wanted")))
}

/// Bubbles: each carries `π d³/6` of gas at the atmosphere, and they come as chance has it. Without
/// any, the leak is below what the method shows and what would hardly have kept its first bubble
/// back for so long; a limit below either is not proven.
pub(super) fn bubbles(test: &Bubbles) -> Result<Outcome, RoomError> {
    some_time(test.over)?;
    let (_, kelvin) = BUBBLE;
    let limit = test.limit.throughput_at(kelvin);
    let limits =
        Limits::at_most(limit).filter(|_| limit > 0.0).ok_or_else(|| limit_wanted(limit))?;
    let (diameter, half) = match test.diameter {
        Some(measured) if (1e-4..=0.05).contains(&measured.si()) => (measured.si(), MEASURED),
        Some(odd) => {
            let found = say!("leak-bubbles-of", diameter = (odd.si() * 1e3).to_string());
            return Err(RoomError::input(found, say!("leak-bubbles-that-fit")));
        }
        None => DIAMETER,
    };
    // Of a leak that makes n bubbles in that time, none is seen by a chance of exp(-n); the largest
    // bubbles are the fewest.
    let n = -libm::log(1.0 - test.levels.accept());
    let first = n * carried(diameter + half) / test.over.si();
    let shows = test.by.shows().max(first);
    let mut outcome = Outcome {
        detectable_leak_pa_m3_per_s: Some(shows),
        limit_pa_m3_per_s: Some(limit),
        reference_temperature_degc: Some(kelvin - 273.15),
        notes: vec![Note::SensitivityFromMemory],
        ..blank(test.by.method(), test.over)
    };
    if limit < test.by.shows() {
        outcome.notes.push(Note::TooCoarse);
    } else if limit < shows {
        outcome.notes.push(Note::TooShort);
    }
    if test.count == 0 {
        outcome.verdict = if limit >= shows { Verdict::Conforms } else { Verdict::NotProven };
        return Ok(outcome);
    }
    let count = f64::from(test.count);
    let rate = count * carried(diameter) / test.over.si();
    let parts = [
        (say!("leak-diameter-bubble-cubed"), 3.0 * uniform(half / diameter)),
        (say!("leak-number-bubbles"), 1.0 / count.sqrt()),
    ];
    outcome.contributions = parts
        .into_iter()
        .map(|(what, share)| Contribution { what, standard_uncertainty_pa_m3_per_s: share * rate })
        .collect();
    let u = libm::hypot(parts[0].1, parts[1].1) * rate;
    let decision = conformity::judge(rate, u, limits, test.levels);
    outcome.leak_rate_pa_m3_per_s = Some(rate);
    outcome.standard_uncertainty_pa_m3_per_s = Some(u);
    outcome.leak_rate_mbar_l_per_s = Some(rate * 10.0);
    outcome.leak_rate_mol_per_s = Some(molar(rate, kelvin));
    outcome.leak_rate_sccm_0_degc = Some(counted(rate, kelvin, 273.15));
    outcome.leak_rate_sccm_20_degc = Some(counted(rate, kelvin, 293.15));
    outcome.probability_conforms = Some(decision.probability_conforms);
    outcome.verdict = decision.verdict;
    Ok(outcome)
}

/// Gas in a bubble of this diameter in m, Pa m³.
fn carried(diameter: f64) -> f64 {
    PI / 6.0 * diameter * diameter * diameter * BUBBLE.0
}

/// A soak: a wet trace is a leak; a dry one says so only for the time that was asked for.
pub(super) fn soak(test: &Soak) -> Result<Outcome, RoomError> {
    some_time(test.over)?;
    let mut outcome = blank(Method::Soak, test.over);
    if test.wanted.is_none() {
        outcome.notes.push(Note::SoakTimeNotStated);
    }
    outcome.verdict = match (test.seen, test.wanted) {
        (Trace::Wet, _) => Verdict::DoesNotConform,
        (Trace::Dry, Some(wanted)) if test.over.si() >= wanted.si() => Verdict::Conforms,
        (Trace::Dry, Some(_) | None) => Verdict::NotProven,
    };
    Ok(outcome)
}
