//! The pressure-change test: compensated pressures, a line, and what its slope is worth.

use ringtrue_metrology::conformity::{self, Limits, Verdict, guard_band};
use ringtrue_metrology::distribution::{normal_quantile, student_t_quantile};
use ringtrue_metrology::uncertain::{triangular, uniform};
use ringtrue_metrology::units::{Quantity, fixed};
use ringtrue_words::say;

use super::settling::{StraightLine, Trace, settled_from};
use super::{Contribution, Line, Method, Note, Outcome, Point, PressureChange, Pressures};
use crate::RoomError;
use crate::constants::{ATMOSPHERE, GAS};

/// Fewest readings: two halves of three.
pub const FEWEST_READINGS: usize = 6;

/// How far the atmosphere may be from the standard one, standard uncertainty, Pa: weather and 300 m
/// of height; common practice, no source.
const ASSUMED_U: f64 = 3_000.0;
/// The same where a barometer was read, Pa: common practice, no source.
const READ_U: f64 = 100.0;
/// By how much the atmosphere may move in an hour either way, Pa: common practice, no source.
const WEATHER: f64 = 100.0;
/// A standard cubic centimetre a minute, Pa m³/s.
const SCCM: f64 = ATMOSPHERE * 1e-6 / 60.0;
/// Share of the driving pressure lost from which on the whole test is one mean rate.
const LARGE_FALL: f64 = 0.5;

/// The atmosphere and how well it is known, Pa.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Atmosphere {
    pub(super) pressure: f64,
    pub(super) standard_uncertainty: f64,
}

/// A throughput at `kelvin` as an amount, mol/s.
pub(crate) fn molar(throughput: f64, kelvin: f64) -> f64 {
    throughput / (GAS * kelvin)
}

/// A throughput at `kelvin` in cm³/min counted at `counted_at` and 101.325 kPa.
pub(crate) fn counted(throughput: f64, kelvin: f64, counted_at: f64) -> f64 {
    throughput * counted_at / kelvin / SCCM
}

/// Energy of a gas that expands to the atmosphere, J:
/// `2.5 pₜ V (1 − (pₐ/pₜ)^0.286)`, air or nitrogen (k = 1.4). Zero at the atmosphere and below.
/// ASME PCC-2, article 501, equation II-2.
pub(crate) fn stored_energy(pressure: f64, volume: f64, atmosphere: f64) -> f64 {
    if pressure <= atmosphere {
        return 0.0;
    }
    2.5 * pressure * volume * (1.0 - libm::pow(atmosphere / pressure, 0.286))
}

/// Readings in SI, absolute.
struct Series {
    seconds: Vec<f64>,
    absolute: Vec<f64>,
    kelvin: Vec<f64>,
    atmosphere: Atmosphere,
}

/// What was fitted, from which reading on.
struct Fitted {
    start: usize,
    reference: f64,
    compensated: Vec<f64>,
    line: StraightLine,
    settled: bool,
    large_fall: bool,
}

/// Evaluates a pressure-change test.
pub(super) fn evaluate(test: &PressureChange) -> Result<Outcome, RoomError> {
    let series = series(test)?;
    let fitted = fitted(&series, test)?;
    let volume = test.volume.si();
    let pressure = fitted.line.level;
    let way = if pressure >= series.atmosphere.pressure { 1.0 } else { -1.0 };
    let rate = -way * volume * fitted.line.slope;
    let mut contributions = contributions(test, &series, &fitted);
    let blank = combined(&contributions);
    contributions.push(Contribution {
        what: say!("leak-volume-test-space"),
        standard_uncertainty_pa_m3_per_s: rate.abs() * test.volume_standard_uncertainty.si()
            / volume,
    });
    let u = combined(&contributions);
    contributions.sort_by(|a, b| {
        b.standard_uncertainty_pa_m3_per_s.total_cmp(&a.standard_uncertainty_pa_m3_per_s)
    });
    let limit = test.limit.throughput_at(fitted.reference);
    let detectable =
        guard_band(blank, test.levels.accept()) + guard_band(blank, 1.0 - test.levels.reject());
    let limits = Limits::at_most(limit).ok_or_else(|| limit_wanted(limit))?;
    let decision = conformity::judge(rate, u, limits, test.levels);
    let result = Rates { rate, u, detectable, limit };
    let notes = notes(test, &series, &fitted, result);
    let unsure = notes.contains(&Note::NotSettled) || notes.contains(&Note::GasGained);
    let largest = series.absolute.iter().copied().fold(0.0, f64::max);
    let watched =
        Trace { seconds: &series.seconds, pressure: &fitted.compensated }.from(fitted.start).time();
    let difference = (largest - series.atmosphere.pressure) / 1e3;
    Ok(Outcome {
        method: Method::PressureChange,
        leak_rate_pa_m3_per_s: Some(rate),
        standard_uncertainty_pa_m3_per_s: Some(u),
        leak_rate_mbar_l_per_s: Some(rate * 10.0),
        leak_rate_mol_per_s: Some(molar(rate, fitted.reference)),
        leak_rate_sccm_0_degc: Some(counted(rate, fitted.reference, 273.15)),
        leak_rate_sccm_20_degc: Some(counted(rate, fitted.reference, 293.15)),
        reference_temperature_degc: Some(fitted.reference - 273.15),
        detectable_leak_pa_m3_per_s: Some(detectable),
        limit_pa_m3_per_s: Some(limit),
        probability_conforms: Some(decision.probability_conforms),
        settling_s: Some(series.seconds[fitted.start] - series.seconds[0]),
        watched_s: watched,
        stored_energy_j: Some(stored_energy(largest, volume, series.atmosphere.pressure)),
        largest_pressure_difference_kpa: Some(difference),
        give_that_hides_the_limit_ml: Some(limit * watched / pressure * 1e6),
        contributions,
        notes,
        points: points(&series, &fitted),
        line: Some(line(&series, &fitted)),
        verdict: if unsure { Verdict::NotProven } else { decision.verdict },
    })
}

fn combined(contributions: &[Contribution]) -> f64 {
    let square = |part: &Contribution| {
        part.standard_uncertainty_pa_m3_per_s * part.standard_uncertainty_pa_m3_per_s
    };
    contributions.iter().map(square).sum::<f64>().sqrt()
}

pub(super) fn limit_wanted(limit: f64) -> RoomError {
    RoomError::input(
        say!("leak-limit-of", limit = limit.to_string()),
        say!("leak-rate-above-zero-wanted"),
    )
}

fn series(test: &PressureChange) -> Result<Series, RoomError> {
    let count = test.readings.len();
    if count < FEWEST_READINGS {
        let fits = say!("leak-readings-at-least", least = FEWEST_READINGS);
        return Err(RoomError::input(say!("leak-readings", count), fits));
    }
    if !(1e-9..=1e6).contains(&test.volume.si()) {
        let found = say!("leak-test-space-of", volume = (test.volume.si() * 1e3).to_string());
        return Err(RoomError::input(found, say!("leak-test-space-wanted")));
    }
    if test.limit.si() <= 0.0 {
        return Err(limit_wanted(test.limit.si()));
    }
    let atmosphere = atmosphere(test)?;
    let seconds: Vec<f64> = test.readings.iter().map(|reading| reading.time.si()).collect();
    if let Some(at) = seconds.windows(2).position(|pair| pair[1] <= pair[0]) {
        let found = say!("leak-reading-no-later", number = at + 2);
        return Err(RoomError::input(found, say!("leak-readings-in-order-wanted")));
    }
    let add = match test.pressures {
        Pressures::Absolute => 0.0,
        Pressures::Gauge => atmosphere.pressure,
    };
    let absolute: Vec<f64> =
        test.readings.iter().map(|reading| reading.pressure.si() + add).collect();
    if let Some(at) = absolute.iter().position(|pressure| *pressure <= 0.0) {
        let shown = fixed(test.readings[at].pressure.si() / 1e3, 3);
        let number = at + 1;
        let found = match test.pressures {
            Pressures::Absolute => say!("leak-reading-absolute", number, pressure = shown),
            Pressures::Gauge => say!("leak-reading-gauge", number, pressure = shown),
        };
        return Err(RoomError::input(found, say!("leak-no-gas-has-absolute-pressure-zero")));
    }
    let kelvin: Vec<f64> = test.readings.iter().map(|reading| reading.temperature.si()).collect();
    if let Some(at) = kelvin.iter().position(|kelvin| !(200.0..=500.0).contains(kelvin)) {
        let found = say!(
            "leak-reading-at-degc",
            number = at + 1,
            temperature = fixed(kelvin[at] - 273.15, 1)
        );
        return Err(RoomError::input(found, say!("leak-gas-temperatures")));
    }
    Ok(Series { seconds, absolute, kelvin, atmosphere })
}

fn atmosphere(test: &PressureChange) -> Result<Atmosphere, RoomError> {
    let Some(read) = test.atmosphere else {
        return Ok(Atmosphere { pressure: ATMOSPHERE, standard_uncertainty: ASSUMED_U });
    };
    if (50_000.0..=110_000.0).contains(&read.si()) {
        return Ok(Atmosphere { pressure: read.si(), standard_uncertainty: READ_U });
    }
    let found = say!("leak-atmosphere-of", pressure = fixed(read.si() / 1e3, 3));
    Err(RoomError::input(found, say!("leak-barometer-shows")))
}

fn fitted(series: &Series, test: &PressureChange) -> Result<Fitted, RoomError> {
    let at = |reference: f64| -> Vec<f64> {
        let pairs = series.absolute.iter().zip(&series.kelvin);
        pairs.map(|(pressure, kelvin)| pressure * reference / kelvin).collect()
    };
    let mean = |kelvin: &[f64]| kelvin.iter().sum::<f64>() / kelvin.len() as f64;
    let rough = at(mean(&series.kelvin));
    let trace = Trace { seconds: &series.seconds, pressure: &rough };
    let written = test.gauge.pressure_written.si();
    let found = settled_from(trace, series.atmosphere.pressure, written)?;
    let last = series.absolute.len() - 1;
    let driving = |index: usize| (rough[index] - series.atmosphere.pressure).abs();
    let large_fall = driving(last) < LARGE_FALL * driving(0);
    let start = match found {
        Some(start) => start,
        // A space that has lost half of its pressure leaks, however its slope changes.
        None if large_fall => 0,
        None => (series.seconds.len() * 2 / 3).min(series.seconds.len() - FEWEST_READINGS),
    };
    let reference = mean(&series.kelvin[start..]);
    let compensated = at(reference);
    let line = Trace { seconds: &series.seconds, pressure: &compensated }.from(start).line()?;
    let settled = found.is_some() || large_fall;
    Ok(Fitted { start, reference, compensated, line, settled, large_fall })
}

/// Everything that is uncertain in the slope, times the volume.
fn contributions(test: &PressureChange, series: &Series, fitted: &Fitted) -> Vec<Contribution> {
    let line = &fitted.line;
    let volume = test.volume.si();
    let time = series.seconds[series.seconds.len() - 1] - series.seconds[fitted.start];
    let student = student_t_quantile(0.975, line.freedom) / normal_quantile(0.975);
    let scatter = (line.squares / line.freedom).sqrt() * line.slope_per_scatter * student;
    // Rounded readings of a slow change are rounded alike, so more of them do not help: the two
    // ends are each off by up to half a step, which makes a triangle of a whole step.
    let step = |written: f64, stated: Option<f64>| written.max(stated.unwrap_or(0.0));
    let gauge = &test.gauge;
    let pressure_step =
        step(gauge.pressure_written.si(), gauge.pressure_resolution.map(Quantity::si));
    let temperature_step =
        step(gauge.temperature_written.si(), gauge.temperature_resolution.map(Quantity::si));
    let per_kelvin = line.level / fitted.reference;
    let follows = gauge.temperature_standard_uncertainty.map_or(0.0, Quantity::si);
    let mut parts = vec![
        (say!("leak-scatter-about-line"), scatter),
        (say!("leak-step-pressure-gauge"), triangular(pressure_step / time)),
        (say!("leak-step-thermometer"), triangular(temperature_step * per_kelvin / time)),
        (say!("leak-thermometer-against-gas"), 2f64.sqrt() * follows * per_kelvin / time),
    ];
    if test.pressures == Pressures::Gauge {
        let last = series.kelvin.len() - 1;
        let warming =
            fitted.reference / series.kelvin[fitted.start] - fitted.reference / series.kelvin[last];
        let known = warming.abs() / time * series.atmosphere.standard_uncertainty;
        parts.push((say!("leak-atmosphere-value"), known));
        parts.push((say!("leak-atmosphere-change"), uniform(WEATHER / 3600.0)));
    }
    if let Some(give) = test.give {
        parts.push((say!("leak-give-load-rings"), uniform(give.si() * line.level / volume / time)));
    }
    parts
        .into_iter()
        .map(|(what, slope)| Contribution {
            what,
            standard_uncertainty_pa_m3_per_s: slope * volume,
        })
        .collect()
}

/// Throughputs that the notes compare, Pa m³/s.
struct Rates {
    rate: f64,
    u: f64,
    detectable: f64,
    limit: f64,
}

fn notes(
    test: &PressureChange,
    series: &Series,
    fitted: &Fitted,
    Rates { rate, u, detectable, limit }: Rates,
) -> Vec<Note> {
    let largest = series.absolute.iter().copied().fold(0.0, f64::max);
    let over = |allowed: f64| largest - series.atmosphere.pressure > allowed * (1.0 + 1e-9);
    let said = [
        (Note::AbovePressureLimit, test.pressure_limit.is_some_and(|limit| over(limit.si()))),
        (Note::NotSettled, !fitted.settled),
        (Note::GasGained, rate < -guard_band(u, test.levels.accept())),
        (Note::LargeFall, fitted.large_fall),
        (Note::TooCoarse, detectable > limit),
        (Note::Vacuum, fitted.line.level < series.atmosphere.pressure),
        (Note::AtmosphereAssumed, test.atmosphere.is_none()),
        (Note::RubberGives, true),
        (Note::GiveNotStated, test.give.is_none()),
    ];
    said.into_iter().filter(|(_, holds)| *holds).map(|(note, _)| note).collect()
}

fn points(series: &Series, fitted: &Fitted) -> Vec<Point> {
    (0..series.seconds.len())
        .map(|index| Point {
            seconds: series.seconds[index] - series.seconds[0],
            pressure_kpa: series.absolute[index] / 1e3,
            compensated_kpa: fitted.compensated[index] / 1e3,
            fitted: index >= fitted.start,
        })
        .collect()
}

fn line(series: &Series, fitted: &Fitted) -> Line {
    let kpa = |seconds: f64| {
        (fitted.line.level + fitted.line.slope * (seconds - fitted.line.middle)) / 1e3
    };
    let (from, to) = (series.seconds[fitted.start], series.seconds[series.seconds.len() - 1]);
    let first = series.seconds[0];
    Line { from_s: from - first, from_kpa: kpa(from), to_s: to - first, to_kpa: kpa(to) }
}
