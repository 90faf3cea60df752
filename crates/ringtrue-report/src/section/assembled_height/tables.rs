//! The tables of one half.

use ringtrue_metrology::units::{decimals_for, fixed};
use ringtrue_seal::assembled_height::Outcome;
use ringtrue_words::say;

use crate::document::{Cell, Set, Table};
use crate::reader::{self, COVERAGE_FACTOR, Reader};

/// What the readings say, a quantity a row.
pub(super) fn numbers(outcome: &Outcome, reader: Reader) -> Table {
    let mut table = Table::new([
        (say!("report-height-quantity"), Set::Words),
        (say!("report-height-value-and-u"), Set::Numbers),
        (say!("report-height-limit"), Set::Prose),
    ]);
    let none = || say!("report-no-limit-given").to_owned();
    let limits = |min, max, u| {
        reader.limits(min, max, super::limit_decimals(reader, u)).unwrap_or_else(none)
    };
    let mut row = |what: &str, value: String, limit: String| {
        table.row([Cell::text(what), Cell::Text(value), Cell::Text(limit)]);
    };
    let (u_range, u_mean) =
        (outcome.range_standard_uncertainty_mm, outcome.mean_height_standard_uncertainty_mm);
    row(
        say!("report-height-row-range"),
        reader.uncertain(outcome.range_mm, u_range),
        limits(None, outcome.range_limit_mm, u_range),
    );
    row(
        say!("report-height-row-mean"),
        reader.uncertain(outcome.mean_height_mm, u_mean),
        limits(outcome.mean_height_min_mm, outcome.mean_height_max_mm, u_mean),
    );
    row(
        say!("report-height-tilt-peak-peak"),
        reader.uncertain(outcome.tilt_mm, outcome.tilt_standard_uncertainty_mm),
        String::new(),
    );
    let tilt = match outcome.tilt_deg {
        Some(tilt) => angle_text(tilt, outcome.tilt_standard_uncertainty_deg),
        None => say!("report-height-diameter-not-known").to_owned(),
    };
    row(say!("report-height-tilt-as-angle"), tilt, String::new());
    let high = reader::direction(outcome.high_side_deg, outcome.high_side_standard_uncertainty_deg);
    let high = match outcome.high_side_standard_uncertainty_deg {
        Some(_) => high,
        None => say!("report-height-not-resolved", direction = high),
    };
    row(say!("report-height-high-side"), high, String::new());
    let second = match outcome.second_harmonic_mm {
        Some(mm) => reader.uncertain(mm, outcome.second_harmonic_standard_uncertainty_mm),
        None => say!("report-height-too-few-places").to_owned(),
    };
    row(say!("report-height-second-harmonic"), second, String::new());
    table
}

fn angle_text(degrees: f64, standard_uncertainty: Option<f64>) -> String {
    let decimals = decimals_for(standard_uncertainty, 3);
    let value = fixed(degrees, decimals);
    match standard_uncertainty {
        Some(u) => {
            let u = fixed(u * COVERAGE_FACTOR, decimals);
            format!("{value}° ± {u}°")
        }
        None => say!("report-height-angle-u-not-known", angle = value),
    }
}

/// The readings, a place a row.
pub(super) fn places(outcome: &Outcome, reader: Reader) -> Table {
    let unit = reader.unit();
    let mut table = Table::new([
        (say!("report-height-angle"), Set::Numbers),
        (&say!("report-height-height", unit), Set::Numbers),
        (&say!("report-height-u", unit), Set::Numbers),
        (say!("report-height-off-plane"), Set::Numbers),
        (say!("report-height-rounds"), Set::Words),
    ]);
    for (i, place) in outcome.places.iter().enumerate() {
        let u = place.standard_uncertainty_mm;
        let decimals = reader.decimals(u);
        let expanded = match u {
            Some(u) => reader.number(u * COVERAGE_FACTOR, decimals),
            None => say!("report-not-known").to_owned(),
        };
        let residual = outcome
            .residuals_mm
            .get(i)
            .map_or_else(|| say!("report-not-known").to_owned(), |mm| reader.number(*mm, decimals));
        let mut rounds = match place.readings_mm.len() {
            0 | 1 => say!("report-height-one").to_owned(),
            2..=4 => {
                let each = place.readings_mm.iter().map(|mm| reader.number(*mm, decimals));
                each.collect::<Vec<_>>().join("  ")
            }
            many => say!("report-height-averaged", rounds = many),
        };
        if outcome.suspects.iter().any(|suspect| (suspect - place.angle_deg).abs() < 1e-6) {
            rounds = say!("report-height-suspect", rounds);
        }
        table.row([
            Cell::Text(reader::degrees(place.angle_deg)),
            Cell::Text(reader.number(place.height_mm, decimals)),
            Cell::Text(expanded),
            Cell::Text(residual),
            Cell::Text(rounds),
        ]);
    }
    table
}
