//! The grammar: `[sign] number [space] unit`, where the number may be a fraction.

use ringtrue_words::say;

use super::{
    Angle, AngularVelocity, Density, ExpansionCoefficient, Force, Fraction, Hardness,
    HeatTransferCoefficient, LeakRate, Length, LineLoad, Mass, Pressure, Quantity, SpecificHeat,
    Temperature, TemperatureDifference, ThermalConductivity, Time, Torque, Unit, Velocity, Volume,
};

/// Why a text is not the wanted quantity: what was found and what would fit.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{found}; {fits}")]
pub struct UnitError {
    /// What was found.
    pub found: String,
    /// What would fit.
    pub fits: String,
}

/// Longest text that can be a quantity. Longer ones are cut in messages.
const LONGEST: usize = 64;

pub(super) fn parse_with_unit<Q: Quantity>(text: &str) -> Result<Q, UnitError> {
    let (value, rest) = split::<Q>(text)?;
    if rest.is_empty() {
        return Err(wanted::<Q>(say!("units-has-no-unit", text = clip(text))));
    }
    let unit = resolve::<Q>(text, &rest)?;
    plausible(text, Q::from_unit(value, unit))
}

pub(super) fn parse_in_unit<Q: Quantity>(text: &str, unit: &'static Unit) -> Result<Q, UnitError> {
    let (value, rest) = split::<Q>(text)?;
    let unit = if rest.is_empty() { unit } else { resolve::<Q>(text, &rest)? };
    plausible(text, Q::from_unit(value, unit))
}

pub(super) fn parse_bare(text: &str) -> Result<f64, UnitError> {
    let fits = || say!("units-plain-number-wanted").to_owned();
    let tidied = tidy(text);
    let (number, rest) = split_number(&tidied);
    match value_of(number) {
        Some(value) if rest.trim().is_empty() && value.is_finite() => Ok(value),
        _ => Err(UnitError { found: say!("units-not-number", text = clip(text)), fits: fits() }),
    }
}

pub(super) fn find_unit(units: &'static [Unit], symbol: &str) -> Option<&'static Unit> {
    let written = |unit: &Unit, same: &dyn Fn(&str) -> bool| {
        same(unit.symbol) || unit.aliases.iter().any(|alias| same(alias))
    };
    // Case tells MPa from mPa, so the exact spelling goes first and the lax one only where it is
    // the spelling of one unit alone.
    units.iter().find(|unit| written(unit, &|name| name == symbol)).or_else(|| {
        let mut lax =
            units.iter().filter(|unit| written(unit, &|name| name.eq_ignore_ascii_case(symbol)));
        let first = lax.next()?;
        lax.next().is_none().then_some(first)
    })
}

/// The value and what stands behind it.
fn split<Q: Quantity>(text: &str) -> Result<(f64, String), UnitError> {
    let tidied = tidy(text);
    let (number, rest) = split_number(&tidied);
    match value_of(number) {
        Some(value) if value.is_finite() => Ok((value, rest.trim().to_owned())),
        Some(_) => Err(wanted::<Q>(say!("units-too-large", text = clip(text)))),
        None => Err(wanted::<Q>(say!("units-no-number", text = clip(text)))),
    }
}

/// The size of the last digit that was written, in SI; `None` for a fraction, which is exact, for a
/// number with an exponent and where no unit is known. `header` is the unit of the column.
#[must_use]
pub fn last_digit<Q: Quantity>(text: &str, header: Option<&'static Unit>) -> Option<f64> {
    let tidied = tidy(text);
    let (number, rest) = split_number(&tidied);
    value_of(number)?;
    let rest = rest.trim();
    let unit = if rest.is_empty() { header } else { find_unit(Q::UNITS, rest) }?;
    if number.contains(['/', 'e', 'E']) {
        return None;
    }
    let decimals = number.split_once(['.', ',']).map_or(0, |(_, decimals)| decimals.len());
    let digit = libm::pow(10.0, -(decimals as f64));
    Some((unit.to_si(digit) - unit.to_si(0.0)).abs())
}

/// The unit that stands behind a number, as typed; `None` without a number.
pub(super) fn split_unit(text: &str) -> Option<String> {
    let tidied = tidy(text);
    let (number, rest) = split_number(&tidied);
    value_of(number).map(|_| rest.trim().to_owned())
}

/// Spellings of one thing, as keyboards and spreadsheets give them, made one.
fn tidy(text: &str) -> String {
    let mut tidied = String::with_capacity(text.len());
    for c in text.trim().chars() {
        match c {
            '\u{2212}' | '\u{2013}' => tidied.push('-'),
            '\u{00b5}' | '\u{03bc}' => tidied.push('u'),
            '\u{00b0}' => tidied.push_str("deg"),
            '\u{00b2}' => tidied.push('2'),
            '\u{00a0}' | '\u{202f}' | '\u{2009}' => tidied.push(' '),
            '\u{00b7}' => tidied.push(' '),
            other => tidied.push(other),
        }
    }
    tidied
}

/// Splits behind the longest number at the start: `-1 1/4 in` at ` in`.
fn split_number(text: &str) -> (&str, &str) {
    let bytes = text.as_bytes();
    let digits =
        |from: usize| from + bytes[from..].iter().take_while(|b| b.is_ascii_digit()).count();
    let mut end = usize::from(matches!(bytes.first(), Some(b'+' | b'-')));
    end += bytes[end..].iter().take_while(|b| matches!(b, b'0'..=b'9' | b'.' | b',')).count();
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let sign = usize::from(matches!(bytes.get(end + 1), Some(b'+' | b'-')));
        let exponent = digits(end + 1 + sign);
        if exponent > end + 1 + sign {
            end = exponent;
        }
    }
    // `/4`, or a whole number and a fraction: ` 1/4`, `-1/4`.
    let slash = match bytes.get(end) {
        Some(b'/') => end,
        Some(b' ' | b'-') if digits(end + 1) > end + 1 => digits(end + 1),
        _ => return text.split_at(end),
    };
    let denominator = if bytes.get(slash) == Some(&b'/') { digits(slash + 1) } else { 0 };
    if denominator > slash + 1 { text.split_at(denominator) } else { text.split_at(end) }
}

fn value_of(number: &str) -> Option<f64> {
    let (negative, magnitude) = match number.strip_prefix('-') {
        Some(rest) => (true, rest),
        None => (false, number.strip_prefix('+').unwrap_or(number)),
    };
    let value = match magnitude.split_once('/') {
        None => decimal(magnitude)?,
        Some((left, denominator)) => {
            let (whole, numerator) = left.rsplit_once([' ', '-']).unwrap_or(("0", left));
            let denominator = whole_number(denominator)?;
            if denominator == 0.0 {
                return None;
            }
            whole_number(whole)? + whole_number(numerator)? / denominator
        }
    };
    Some(if negative { -value } else { value })
}

fn whole_number(text: &str) -> Option<f64> {
    let digits = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    if digits { text.parse().ok() } else { None }
}

/// A decimal with point or comma. Both together, or two of one, could mean two numbers: refused.
fn decimal(text: &str) -> Option<f64> {
    if text.matches([',', '.']).count() > 1
        || !text.starts_with(|c: char| c.is_ascii_digit() || c == '.' || c == ',')
    {
        return None;
    }
    text.replace(',', ".").parse().ok()
}

fn resolve<Q: Quantity>(text: &str, symbol: &str) -> Result<&'static Unit, UnitError> {
    if let Some(unit) = find_unit(Q::UNITS, symbol) {
        return Ok(unit);
    }
    let text = clip(text);
    if let Some((kind, _)) = all_kinds().find(|(_, units)| find_unit(units, symbol).is_some()) {
        return Err(wanted::<Q>(say!("units-other-kind", text, kind = kind())));
    }
    let spellings = Q::UNITS.iter().flat_map(|u| std::iter::once(&u.symbol).chain(u.aliases));
    let nearest = spellings
        .map(|name| (strsim::damerau_levenshtein(name, symbol), *name))
        .filter(|(distance, name)| *distance <= 2 && *distance < name.len().max(symbol.len()))
        .min_by_key(|(distance, _)| *distance);
    let symbol = clip(symbol);
    Err(wanted::<Q>(match nearest {
        Some((_, name)) => say!("units-unknown-unit-near", symbol, text, nearest = name),
        None => say!("units-unknown-unit", symbol, text),
    }))
}

/// What a kind is called, and its units.
pub(super) type NameAndUnits = (fn() -> String, &'static [Unit]);

pub(super) fn all_kinds() -> impl Iterator<Item = NameAndUnits> {
    fn of<Q: Quantity>() -> NameAndUnits {
        (Q::kind, Q::UNITS)
    }
    [
        of::<Length>(),
        of::<Angle>(),
        of::<Temperature>(),
        of::<Pressure>(),
        of::<LineLoad>(),
        of::<Force>(),
        of::<Mass>(),
        of::<Velocity>(),
        of::<AngularVelocity>(),
        of::<ExpansionCoefficient>(),
        of::<Fraction>(),
        of::<Time>(),
        of::<Volume>(),
        of::<Torque>(),
        of::<LeakRate>(),
        of::<HeatTransferCoefficient>(),
        of::<ThermalConductivity>(),
        of::<SpecificHeat>(),
        of::<Density>(),
        of::<TemperatureDifference>(),
        of::<Hardness>(),
    ]
    .into_iter()
}

fn plausible<Q: Quantity>(text: &str, quantity: Q) -> Result<Q, UnitError> {
    let (low, high) = Q::PLAUSIBLE_SI;
    if (low..=high).contains(&quantity.si()) {
        return Ok(quantity);
    }
    Err(wanted::<Q>(say!("units-beyond", text = clip(text), quantity = Q::kind())))
}

fn wanted<Q: Quantity>(found: String) -> UnitError {
    let symbols: Vec<_> = Q::UNITS.iter().map(|unit| unit.symbol).collect();
    let fits = say!(
        "units-quantity-wanted",
        quantity = Q::kind(),
        example = Q::EXAMPLE,
        units = symbols.join(", ")
    );
    UnitError { found, fits }
}

/// A text cut to what a message can carry: at most 64 characters, control characters replaced.
#[must_use]
pub fn clip(text: &str) -> String {
    let mut clipped: String = text
        .trim()
        .chars()
        .take(LONGEST)
        .map(|c| if c.is_control() { '\u{fffd}' } else { c })
        .collect();
    if text.trim().chars().count() > LONGEST {
        clipped.push('…');
    }
    clipped
}
