//! Two limits in one text: `2.0 mm..3.2 mm`.

use ringtrue_words::say;

use super::number::{find_unit, split_unit};
use super::{Quantity, UnitError, parse, parse_in};

/// Reads a smaller and a larger limit, parted by `..`; the unit may stand with the larger alone.
///
/// # Errors
/// [`UnitError`] when there is no `..`, a limit is no such quantity, or the smaller is not first.
pub fn parse_range<Q: Quantity>(text: &str) -> Result<(Q, Q), UnitError> {
    let fits = || say!("units-range-wanted", example = Q::EXAMPLE);
    let Some((low, high)) = text.split_once("..") else {
        return Err(UnitError { found: say!("units-no-range", text = text.trim()), fits: fits() });
    };
    let high_limit = parse::<Q>(high)?;
    let unit = split_unit(high).and_then(|symbol| find_unit(Q::UNITS, &symbol));
    let low_limit = match unit {
        Some(unit) => parse_in::<Q>(low, unit)?,
        None => parse::<Q>(low)?,
    };
    if low_limit.si() > high_limit.si() {
        let found = say!("units-range-turned", low = low.trim(), high = high.trim());
        return Err(UnitError { found, fits: fits() });
    }
    Ok((low_limit, high_limit))
}
