//! A bare dimension chain, and measured sizes that replace tolerances.

use std::collections::BTreeMap;

use ringtrue_metrology::units::{Length, Quantity, clip};
use ringtrue_seal::definition::TextError;
use ringtrue_seal::definition::joint::{Sign, Spread};
use ringtrue_seal::gap_stack::{Link, Size};

use super::table::{Column, HeaderUnit, Need, Row, Table};

/// A measured size that takes the place of a link's tolerance.
#[derive(Debug, Clone, PartialEq)]
pub struct MeasuredSize {
    /// Name of the link.
    pub name: String,
    /// Measured size.
    pub value: Length,
    /// Its standard uncertainty.
    pub standard_uncertainty: Length,
    /// Line of the file, from 1.
    pub line: usize,
}

/// Reads `name,sign,nominal_mm,upper_mm,lower_mm[,distribution]`.
///
/// # Errors
/// [`TextError`] at the first cell that does not fit, and when there is no link.
pub fn chain(text: &str) -> Result<Vec<Link>, TextError> {
    let columns = [
        Column { name: "name", unit: HeaderUnit::None, need: Need::Required },
        Column { name: "sign", unit: HeaderUnit::None, need: Need::Required },
        Column { name: "nominal", unit: HeaderUnit::of::<Length>(), need: Need::Required },
        Column { name: "upper", unit: HeaderUnit::of::<Length>(), need: Need::Required },
        Column { name: "lower", unit: HeaderUnit::of::<Length>(), need: Need::Required },
        Column { name: "distribution", unit: HeaderUnit::None, need: Need::Optional },
    ];
    let table = Table::read(text, &columns)?;
    let mut lines = BTreeMap::new();
    let links = table.rows().map(|row| link(&row, &mut lines)).collect::<Result<Vec<_>, _>>()?;
    if links.is_empty() {
        let fits = "a chain has one link at least, one a line".to_owned();
        return Err(TextError::of_text("the file holds no link".to_owned(), fits));
    }
    Ok(links)
}

fn link(row: &Row<'_>, lines: &mut BTreeMap<String, usize>) -> Result<Link, TextError> {
    let name = named(row, lines)?;
    let sign = match row.text("sign") {
        "+" | "+1" | "1" => Sign::Opens,
        "-" | "-1" | "\u{2212}" | "\u{2212}1" => Sign::Closes,
        other => {
            let found = format!("`{}` is not a sign", clip(other));
            return Err(row.misfit("sign", found, "`+` opens the gap, `-` closes it"));
        }
    };
    let nominal = row.quantity::<Length>("nominal")?;
    let upper = row.quantity::<Length>("upper")?;
    let lower = row.quantity::<Length>("lower")?;
    if upper.si() < lower.si() {
        let found = format!("the upper deviation `{}` is below the lower", row.text("upper"));
        return Err(row.misfit("upper", found, "deviations are signed: upper above lower"));
    }
    let spread = match row.text("distribution").to_lowercase().as_str() {
        "" | "normal" => Spread::Normal,
        "uniform" => Spread::Uniform,
        "triangular" => Spread::Triangular,
        other => {
            let found = format!("`{}` is not a known distribution", clip(other));
            let fits = "normal, uniform or triangular would fit";
            return Err(row.misfit("distribution", found, fits));
        }
    };
    Ok(Link { name, sign, size: Size::Drawn { nominal, upper, lower, spread } })
}

/// Reads `name,value_mm,u_mm`.
///
/// # Errors
/// [`TextError`] at the first cell that does not fit.
pub fn measured(text: &str) -> Result<Vec<MeasuredSize>, TextError> {
    let columns = [
        Column { name: "name", unit: HeaderUnit::None, need: Need::Required },
        Column { name: "value", unit: HeaderUnit::of::<Length>(), need: Need::Required },
        Column { name: "u", unit: HeaderUnit::of::<Length>(), need: Need::Required },
    ];
    let table = Table::read(text, &columns)?;
    let mut lines = BTreeMap::new();
    table
        .rows()
        .map(|row| {
            let name = named(&row, &mut lines)?;
            let value = row.quantity::<Length>("value")?;
            let standard_uncertainty = row.quantity::<Length>("u")?;
            if standard_uncertainty.si() < 0.0 {
                let found = format!("the uncertainty `{}` is below zero", row.text("u"));
                return Err(row.misfit("u", found, "a standard uncertainty of zero or more fits"));
            }
            Ok(MeasuredSize { name, value, standard_uncertainty, line: row.line() })
        })
        .collect()
}

/// The link's name, which no other row may have.
fn named(row: &Row<'_>, lines: &mut BTreeMap<String, usize>) -> Result<String, TextError> {
    let name = row.text("name");
    if name.is_empty() {
        return Err(row.misfit("name", "a link has no name", "a name of its own is wanted"));
    }
    if let Some(line) = lines.insert(name.to_owned(), row.line()) {
        let found = format!("link `{}` stands also on line {line}", clip(name));
        return Err(row.misfit("name", found, "each link has a name of its own"));
    }
    Ok(name.to_owned())
}
