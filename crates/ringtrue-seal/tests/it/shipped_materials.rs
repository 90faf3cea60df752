//! No shipped figure of an elastomer stands outside the tables that it was taken from.

use std::path::Path;

use ringtrue_metrology::units::Quantity;
use ringtrue_seal::definition::material::{
    ISO_1629, Material, Rating, Span, shipped, shipped_codes,
};

type Row = Vec<String>;

fn table(name: &str) -> Vec<Row> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../validation/reference/elastomers");
    let mut reader = csv::Reader::from_path(path.join(name)).expect("the table is there");
    let rows = reader.records().map(|row| row.expect("a row").iter().map(str::to_owned).collect());
    rows.collect()
}

fn shipped_one(code: &str) -> &'static Material {
    shipped(code).expect("each code in the list is shipped")
}

/// Low and high ends of one property in the table, in its own unit.
fn ends(code: &str, property: &str, basis: &str) -> (Vec<f64>, Vec<f64>) {
    let rows = table("elastomer_properties.csv");
    let of = rows.iter().filter(|row| row[0] == code && row[1] == property);
    let of: Vec<_> = of.filter(|row| row[5].starts_with(basis)).collect();
    let column = |index: usize| of.iter().filter_map(|row| row[index].parse().ok()).collect();
    (column(2), column(3))
}

fn least(values: &[f64]) -> f64 {
    values.iter().copied().fold(f64::INFINITY, f64::min)
}

fn most(values: &[f64]) -> f64 {
    values.iter().copied().fold(f64::NEG_INFINITY, f64::max)
}

/// A span as its table writes it; the offset and scale of its unit are undone.
fn span<Q: Quantity>(span: &Span<Q>, of_si: impl Fn(f64) -> f64) -> (f64, f64) {
    (of_si(span.min.value().si()), of_si(span.max.value().si()))
}

fn same(one: f64, other: f64) -> bool {
    (one - other).abs() < 1e-6
}

fn celsius(kelvin: f64) -> f64 {
    kelvin - 273.15
}

#[test]
fn transitions_and_expansions_span_their_sources() {
    let mut compared = 0;
    for code in shipped_codes() {
        let material = shipped_one(code);
        let spans = [
            ("glass_transition", "", material.glass_transition.as_ref().map(|s| span(s, celsius))),
            ("TR10", "", material.tr10.as_ref().map(|s| span(s, celsius))),
            (
                "thermal_expansion_linear",
                "filled",
                material.linear_expansion.as_ref().map(|s| span(s, |si| si * 1e6)),
            ),
        ];
        for (property, basis, shipped) in spans {
            let (low, high) = ends(code, property, basis);
            let Some((min, max)) = shipped else {
                assert!(low.is_empty() && high.is_empty(), "{code} {property} is left out");
                continue;
            };
            assert!(same(min, least(&low)) && same(max, most(&high)), "{code} {property}");
            compared += 1;
        }
    }
    assert_eq!(compared, 17);
}

#[test]
fn service_temperatures_are_no_wider_than_any_claim() {
    for code in shipped_codes() {
        let (low, high) = ends(code, "service_temperature", "");
        let (_, high_alone) = ends(code, "service_temperature_max", "");
        let high = [high, high_alone].concat();
        let material = shipped_one(code);
        let Some(narrowest) = &material.service_temperature else {
            assert!(low.is_empty() && high.is_empty(), "{code} is left out");
            continue;
        };
        let (min, max) = span(narrowest, celsius);
        assert!(low.iter().all(|claim| min >= claim - 1e-6), "{code} from {min}");
        assert!(same(max, least(&high)), "{code} to {max}");
        let widest = material.service_temperature_widest.as_ref().expect("both or none");
        let (min, max) = span(widest, celsius);
        assert!(low.is_empty() || same(min, least(&low)), "{code} from {min} at the widest");
        assert!(same(max, most(&high)), "{code} to {max} at the widest");
    }
}

fn ratings(letters: &str) -> (Rating, Rating) {
    let rating = |letter: &str| match letter {
        "E" => Rating::Excellent,
        "G" => Rating::Good,
        "F" => Rating::Fair,
        "P" => Rating::Poor,
        other => panic!("`{other}` is no rating"),
    };
    let (worst, best) = letters.split_once('-').unwrap_or((letters, letters));
    (rating(worst), rating(best))
}

/// The shipped name of a fluid in the table.
fn fluid(named: &str) -> &'static str {
    let starts = [
        ("mineral oil", "mineral-oil"),
        ("hot mineral oil", "hot-mineral-oil"),
        ("alcohols", "isopropyl-alcohol"),
        ("isopropyl alcohol", "isopropyl-alcohol"),
        ("aliphatic", "aliphatic-solvent"),
        ("aromatic", "aromatic-solvent"),
        ("oxygenated", "ketone"),
        ("acetone", "ketone"),
        ("water-glycol", "water-glycol"),
        ("water", "water"),
        ("animal", "vegetable-oil"),
    ];
    let known = starts.iter().find(|(start, _)| named.starts_with(start));
    known.map_or_else(|| panic!("`{named}` has no shipped name"), |(_, name)| name)
}

#[test]
fn fluid_ratings_are_the_worst_and_best_of_their_sources() {
    let rows = table("fluid_compatibility.csv");
    let mut used = 0;
    for code in shipped_codes() {
        for rating in &shipped_one(code).fluid {
            // HNBR has no row for mineral oil; hot oil is the harder test.
            let name = match (code, rating.name.as_str()) {
                ("HNBR", "mineral-oil") => "hot-mineral-oil",
                (_, name) => name,
            };
            let of = rows.iter().filter(|row| row[1] == code && fluid(&row[0]) == name);
            let of: Vec<_> = of.map(|row| ratings(&row[2])).collect();
            let worst = of.iter().map(|(worst, _)| *worst).min();
            let best = of.iter().map(|(_, best)| *best).max();
            let expected = (Some(rating.worst), Some(rating.best));
            assert_eq!((worst, best), expected, "{code} in {}", rating.name);
            used += if name == rating.name { of.len() } else { 0 };
        }
    }
    assert_eq!(used, rows.len(), "each row of the table is shipped");
}

#[test]
fn codes_and_names_are_those_of_the_table() {
    let rows = table("iso1629_names.csv");
    let names: Vec<_> = rows.iter().map(|row| (row[0].as_str(), row[1].as_str())).collect();
    assert_eq!(names, ISO_1629);
}

/// Low and high end of `low-high` or of one figure.
fn ends_of(cell: &str) -> Option<(f64, f64)> {
    let (low, high) = cell.split_once('-').unwrap_or((cell, cell));
    Some((low.parse().ok()?, high.parse().ok()?))
}

#[test]
fn figures_of_heat_are_those_of_their_table() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../validation/reference/elastomers/rubber_thermal_properties.csv");
    let mut reader =
        csv::ReaderBuilder::new().comment(Some(b'#')).from_path(path).expect("the table is there");
    let rows: Vec<Row> = reader
        .records()
        .map(|row| row.expect("a row").iter().map(str::to_owned).collect())
        .collect();
    // Density, conductivity, heat. Rows by code are ranges and are shipped as they are; rows by
    // name are single figures, which a shipped range holds.
    let named = [("EPDM", "EPDM"), ("CR", "polychloroprene"), ("NR", "rubber, natural")];
    let by_code = [("VMQ", "VMQ"), ("NBR", "NBR"), ("FKM", "FKM")];
    for (code, name) in by_code.into_iter().chain(named) {
        let row = rows.iter().find(|row| row[0] == name).unwrap_or_else(|| panic!("{name}"));
        let material = shipped_one(code);
        let shipped = [
            span(material.density.as_ref().expect(code), |si| si),
            span(material.thermal_conductivity.as_ref().expect(code), |si| si),
            span(material.specific_heat.as_ref().expect(code), |si| si),
        ];
        for (column, (min, max)) in (1..).zip(shipped) {
            let (low, high) = ends_of(&row[column]).unwrap_or_else(|| panic!("{name} {column}"));
            if code == name && code != "EPDM" {
                assert!(same(min, low) && same(max, high), "{code} {column}");
            } else {
                assert!(min <= low + 1e-9 && high <= max + 1e-9, "{code} {column}");
            }
        }
    }
    let unknown = shipped_one("HNBR");
    assert!(unknown.thermal_conductivity.is_none() && unknown.specific_heat.is_none());
}
