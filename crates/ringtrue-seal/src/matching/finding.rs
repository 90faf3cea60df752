//! How a finding is made: values against limits.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{Given, Quantity};

use crate::definition::limit::Limit;

/// Is a value within a limit? A value that reads like the limit itself is within it: the last
/// digits of a computed number are not the fitter's.
pub(super) fn against<Q: Quantity>(value_si: f64, limit: &Limit<Q>) -> Verdict {
    let (min, max) = limit.bounds_si();
    let slack = |bound: f64| 1e-9 * bound.abs().max(value_si.abs());
    let low = min.is_some_and(|min| value_si < min - slack(min));
    let high = max.is_some_and(|max| value_si > max + slack(max));
    if low || high { Verdict::DoesNotConform } else { Verdict::Conforms }
}

/// `conforms` where the statement holds, else `does not conform`.
pub(super) fn proven(holds: bool) -> Verdict {
    if holds { Verdict::Conforms } else { Verdict::DoesNotConform }
}

/// Half of the last digit in which a value was typed, in SI; zero for a fraction, which is exact.
/// For kinds of quantity whose units share their zero.
pub(super) fn half_last_digit<Q: Quantity>(given: &Given<Q>) -> f64 {
    let typed = given.typed();
    let number: String = typed
        .chars()
        .take_while(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | '+' | '-'))
        .collect();
    let number = number.replace(',', ".");
    let Some(value) = number.parse::<f64>().ok().filter(|value| *value != 0.0) else { return 0.0 };
    if typed[number.len()..].trim_start().starts_with(|c: char| c == '/' || c.is_ascii_digit()) {
        return 0.0;
    }
    let decimals = number.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    let digit = libm::pow(10.0, -(decimals as f64));
    (given.value().si() / value * digit / 2.0).abs()
}
