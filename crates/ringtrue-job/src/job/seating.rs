//! What takes a load ring into its housing, as a gate of the job.

use std::collections::BTreeSet;

use ringtrue_seal::definition::procedure::Step;
use serde_json::Value;

use super::assess::{AssessError, Ground, Judged, made, not_worked_out, of_checks};
use crate::check::Check;
use crate::event::{Entry, Place, Readings};
use crate::{Question, judge_with};

/// The gate that the seating decides. One that can't be worked out is not proven.
///
/// # Errors
/// [`AssessError::Text`] for what can't be read.
pub(super) fn judged(
    ground: Ground<'_>,
    (place, step): (&Place, &Step),
) -> Result<Option<Judged>, AssessError> {
    match of_checks(ground, (place, step), Check::Seating) {
        Err(AssessError::Room(error)) => {
            let state = ground.job.steps.get(place);
            let sets = step
                .evidence
                .iter()
                .filter(|asked| asked.readings.and_then(Check::of) == Some(Check::Seating));
            let given = sets.filter_map(|asked| Some(state?.current(&asked.name)?.sequence));
            let rests_on: BTreeSet<u64> = given.collect();
            let rests_on = rests_on.into_iter().collect();
            Ok(Some(not_worked_out(Question::Seating, &error, rests_on)))
        }
        judged => judged,
    }
}

/// Asks for the ways past the lip that the seating of a step goes by.
pub(super) fn look_ahead(ground: Ground<'_>, (place, step): (&Place, &Step)) {
    let Ground { plan, job, curves } = ground;
    let state = job.steps.get(place);
    let nothing = Readings { files: Vec::new(), stated: Vec::new(), gauge: None };
    let sets = step
        .evidence
        .iter()
        .filter(|asked| asked.readings.and_then(Check::of) == Some(Check::Seating));
    for asked in sets {
        let given = state.and_then(|state| state.current(&asked.name));
        let counts = given.and_then(|at| match &at.given.entry {
            Entry::Readings(readings) => Some(readings),
            Entry::Tick(_)
            | Entry::Value(_)
            | Entry::Photo(_)
            | Entry::Text(_)
            | Entry::SecondPerson => None,
        });
        let made = made(plan, place, counts.unwrap_or(&nothing));
        if let Ok(evidence) = Check::Seating.evidence(&made) {
            drop(judge_with(&evidence, curves));
        }
    }
}

/// Where no second mesh bounds them: what rounding may do to results of finite elements.
const ROUNDING: f64 = 1e-3;

/// Texts that hold digits of a result, which may differ from machine to machine.
const TEXTS: [&str; 3] = ["program_version", "found", "remarks"];

/// Do two outcomes say the same, their numbers within the wider of their error bands?
pub(super) fn same(a: &str, b: &str) -> bool {
    let read = |text: &str| serde_json::from_str::<Value>(text).ok();
    let (Some(a), Some(b)) = (read(a), read(b)) else { return false };
    let within = band(&a).max(band(&b)).max(ROUNDING);
    near((&a, &b), within)
}

/// The widest error band that an outcome states, as a share.
fn band(outcome: &Value) -> f64 {
    match outcome {
        Value::Object(map) => {
            let own = map.get("error_band_percent").and_then(Value::as_f64);
            map.values().map(band).fold(own.unwrap_or(0.0) / 100.0, f64::max)
        }
        Value::Array(list) => list.iter().map(band).fold(0.0, f64::max),
        Value::Null | Value::Bool(_) | Value::Number(_) | Value::String(_) => 0.0,
    }
}

fn near((a, b): (&Value, &Value), within: f64) -> bool {
    match (a, b) {
        (Value::Number(a), Value::Number(b)) => {
            let (a, b) = (a.as_f64().unwrap_or(f64::NAN), b.as_f64().unwrap_or(f64::NAN));
            (a - b).abs() <= within * a.abs().max(b.abs())
        }
        (Value::Array(a), Value::Array(b)) => {
            a.len() == b.len() && a.iter().zip(b).all(|pair| near(pair, within))
        }
        (Value::Object(a), Value::Object(b)) => {
            let alike = |(key, value): (&String, &Value)| {
                let bound = key == "error_band_percent" || key.starts_with("standard_uncertainty");
                TEXTS.contains(&key.as_str())
                    || b.get(key).is_some_and(|other| {
                        // These two follow from the band itself.
                        if bound {
                            value.is_null() == other.is_null()
                        } else {
                            near((value, other), within)
                        }
                    })
            };
            a.len() == b.len() && a.iter().all(alike)
        }
        (_, _) => a == b,
    }
}

#[cfg(test)]
mod tests {
    use super::same;

    #[test]
    fn digits_within_the_band_are_the_same_and_words_are_compared() {
        let outcome = |push: f64, method: &str, found: &str| {
            format!(
                r#"{{"push_force_n": {push}, "method": "{method}", "error_band_percent": 4.0,
                "standard_uncertainty_n": 9.1, "findings": [{{"found": "{found}"}}]}}"#
            )
        };
        let one = outcome(900.0, "hand", "112 %");
        assert!(same(&one, &outcome(920.0, "hand", "113 %")));
        assert!(!same(&one, &outcome(960.0, "hand", "112 %")));
        assert!(!same(&one, &outcome(900.0, "press", "112 %")));
        let none = outcome(900.0, "hand", "112 %").replace("9.1", "null");
        assert!(!same(&one, &none) && !same(&one, "{}") && !same(&one, "no JSON"));
    }
}
