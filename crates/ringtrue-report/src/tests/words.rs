//! What a report says: the outcomes' own verdicts and numbers, and a reason where there is none.

use ringtrue_metrology::conformity::Verdict;
use serde_json::{Value, json};

use super::fixture;
use crate::{Block, Cell};

fn strings(value: &Value, out: &mut Vec<String>) {
    match value {
        Value::String(text) => out.push(text.clone()),
        Value::Array(items) => items.iter().for_each(|item| strings(item, out)),
        Value::Object(fields) => fields.values().for_each(|field| strings(field, out)),
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

#[test]
fn no_report_shows_a_missing_value_as_a_number() {
    for (name, case) in fixture::all() {
        let mut all = Vec::new();
        strings(&json!(case.document()), &mut all);
        for text in all {
            for word in ["NaN", "None", "Some(", " inf", "null"] {
                assert!(!text.contains(word), "{name}: {text}");
            }
        }
    }
}

#[test]
fn verdicts_are_those_of_the_rooms() {
    for (name, case) in fixture::all() {
        let document = case.document();
        let of = |question: &str| {
            let found = document.cover.lines.iter().find(|line| line.question == question);
            found.map(|line| line.verdict)
        };
        assert_eq!(of("seal gap"), Some(case.gap.verdict), "{name}");
        assert_eq!(of("parts that belong together"), Some(case.matching.verdict), "{name}");
        let range = case.b.last().map_or(Some(Verdict::NotProven), |(_, last)| last.verdict_range);
        assert_eq!(of("half b, height round the ring"), range, "{name}");
        let worst = document.cover.lines.iter().map(|line| line.verdict).max();
        assert_eq!(Some(document.cover.verdict), worst, "{name}");
    }
}

#[test]
fn a_half_that_was_not_measured_is_not_proven() {
    let mut case = fixture::final_drive();
    case.b.clear();
    let document = case.document();
    assert_eq!(document.cover.verdict, Verdict::NotProven);
    assert!(document.cover.to_do.iter().any(|deed| deed.starts_with("Half b: ")));
}

#[test]
fn a_caution_stands_before_a_hand_goes_near_a_ring() {
    let document = fixture::cocked().document();
    assert!(document.cover.caution.is_some());
    let section = &document.sections[1];
    let caution = section.blocks.iter().position(|b| matches!(b, Block::Caution(_))).unwrap();
    let deeds = section.blocks.iter().position(|b| matches!(b, Block::List(_))).unwrap();
    assert!(caution < deeds);
    assert!(fixture::final_drive().document().cover.caution.is_none());
}

#[test]
fn an_overdue_gauge_is_the_first_thing_to_do() {
    let mut case = fixture::final_drive();
    case.gauge.as_mut().unwrap().calibration.due = "2026-11-19".parse().unwrap();
    assert!(case.document().cover.to_do[0].contains("calibration was due on 2026-11-19"));
    case.gauge.as_mut().unwrap().calibration.due = "2026-11-20".parse().unwrap();
    assert!(case.document().cover.to_do.is_empty());
}

#[test]
fn every_place_is_in_the_table_with_its_height() {
    let case = fixture::few_and_many();
    let document = case.document();
    let tables: Vec<_> = document.sections[1]
        .blocks
        .iter()
        .filter_map(|block| match block {
            Block::Tables(tables) => Some(tables),
            Block::Verdict(_)
            | Block::Heading(_)
            | Block::Text(_)
            | Block::Small(_)
            | Block::List(_)
            | Block::Caution(_)
            | Block::Drawings(_)
            | Block::Beside(_)
            | Block::Columns(_)
            | Block::Steps(_)
            | Block::Photos(_) => None,
        })
        .flatten()
        .filter(|table| table.columns[0].head == "Angle")
        .collect();
    let rows: Vec<_> = tables.iter().flat_map(|table| &table.rows).collect();
    let places = &case.b[0].1.places;
    assert_eq!(rows.len(), places.len());
    for (row, place) in rows.iter().zip(places) {
        assert_eq!(row[1], Cell::Text(format!("{:.3}", place.height_mm)));
    }
}

#[test]
fn the_report_says_that_it_is_no_signed_record() {
    assert!(fixture::final_drive().document().notice.starts_with("Not a signed record"));
}

#[test]
fn sources_of_every_room_are_named() {
    let mut all = Vec::new();
    strings(&json!(fixture::final_drive().document().sections.last()), &mut all);
    let rooms =
        ringtrue_seal::assembled_height::SOURCES.iter().chain(ringtrue_seal::gap_stack::SOURCES);
    for source in rooms {
        assert!(all.contains(&source.to_string()), "{source}");
    }
}
