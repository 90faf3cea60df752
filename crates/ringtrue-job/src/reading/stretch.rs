//! A stretch test: engineering stress against stretch.

use ringtrue_metrology::units::{Pressure, Quantity, clip, parse_number};
use ringtrue_seal::definition::TextError;
use ringtrue_seal::definition::stiffness::points_fit;
use ringtrue_words::say;

use super::table::{Column, HeaderUnit, Need, Table};

/// Reads `stretch,stress_MPa`: pairs of stretch and MPa, along one first loading. A strain in
/// percent, `strain_percent`, may stand in the place of the stretch.
///
/// # Errors
/// [`TextError`] at the first cell that is no number or can't be right: a stretch of zero, a way
/// back, a stress against its stretch, fewer points than make a curve.
pub fn stretch_test(text: &str) -> Result<Vec<[f64; 2]>, TextError> {
    let columns = [
        Column { name: "stretch", unit: HeaderUnit::None, need: Need::Optional },
        Column { name: "strain_percent", unit: HeaderUnit::None, need: Need::Optional },
        Column { name: "stress", unit: HeaderUnit::of::<Pressure>(), need: Need::Required },
    ];
    let table = Table::read(text, &columns)?;
    let name = match (table.has("stretch"), table.has("strain_percent")) {
        (true, false) => "stretch",
        (false, true) => "strain_percent",
        (true, true) | (false, false) => {
            return Err(TextError::of_text(
                say!("reading-columns-stretch-strain-percent-both-there").to_owned(),
                say!("reading-one-two-stress-mpa").to_owned(),
            ));
        }
    };
    let rows: Vec<_> = table.rows().collect();
    let mut points = Vec::with_capacity(rows.len());
    for row in &rows {
        let number = parse_number(row.text(name)).map_err(|_| {
            let found = say!("reading-no-number", typed = clip(row.text(name)));
            row.misfit(name, found, say!("reading-stretch-plain-number-such-as-1"))
        })?;
        let stretch = if name == "stretch" { number } else { 1.0 + number / 100.0 };
        points.push([stretch, row.quantity::<Pressure>("stress")?.si() / 1e6]);
    }
    points_fit(&points).map_err(|misfit| match rows.get(misfit.point) {
        Some(row) => row.misfit(name, misfit.found, misfit.fits),
        None => TextError::of_text(misfit.found, misfit.fits),
    })?;
    Ok(points)
}
