//! A bare dimension chain, and measured sizes that replace tolerances.

use std::collections::BTreeMap;

use ringtrue_metrology::units::{Length, Quantity, clip};
use ringtrue_seal::definition::TextError;
use ringtrue_seal::definition::joint::{Sign, Spread};
use ringtrue_seal::gap_stack::{Link, Size};
use ringtrue_words::say;

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
        let fits = say!("reading-chain-has-one-link-at-least").to_owned();
        return Err(TextError::of_text(say!("reading-file-holds-no-link").to_owned(), fits));
    }
    Ok(links)
}

fn link(row: &Row<'_>, lines: &mut BTreeMap<String, usize>) -> Result<Link, TextError> {
    let name = named(row, lines)?;
    let sign = match row.text("sign") {
        "+" | "+1" | "1" => Sign::Opens,
        "-" | "-1" | "\u{2212}" | "\u{2212}1" => Sign::Closes,
        other => {
            let found = say!("reading-not-sign", typed = clip(other));
            return Err(row.misfit("sign", found, say!("reading-opens-gap-closes")));
        }
    };
    let nominal = row.quantity::<Length>("nominal")?;
    let upper = row.quantity::<Length>("upper")?;
    let lower = row.quantity::<Length>("lower")?;
    if upper.si() < lower.si() {
        let found = say!("reading-upper-deviation-below-lower", upper = row.text("upper"));
        return Err(row.misfit(
            "upper",
            found,
            say!("reading-deviations-signed-upper-above-lower"),
        ));
    }
    let spread = match row.text("distribution").to_lowercase().as_str() {
        "" | "normal" => Spread::Normal,
        "uniform" => Spread::Uniform,
        "triangular" => Spread::Triangular,
        other => {
            let found = say!("reading-not-known-distribution", typed = clip(other));
            let fits = say!("reading-normal-uniform-or-triangular-would-fit");
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
                let found = say!("reading-uncertainty-below-zero", uncertainty = row.text("u"));
                return Err(row.misfit(
                    "u",
                    found,
                    say!("reading-standard-uncertainty-zero-or-more-fits"),
                ));
            }
            Ok(MeasuredSize { name, value, standard_uncertainty, line: row.line() })
        })
        .collect()
}

/// The link's name, which no other row may have.
fn named(row: &Row<'_>, lines: &mut BTreeMap<String, usize>) -> Result<String, TextError> {
    let name = row.text("name");
    if name.is_empty() {
        return Err(row.misfit(
            "name",
            say!("reading-link-has-no-name"),
            say!("reading-name-own-wanted"),
        ));
    }
    if let Some(line) = lines.insert(name.to_owned(), row.line()) {
        let found = say!("reading-link-stands-also-on-line", link = clip(name), line);
        return Err(row.misfit("name", found, say!("reading-each-link-has-name-own")));
    }
    Ok(name.to_owned())
}
