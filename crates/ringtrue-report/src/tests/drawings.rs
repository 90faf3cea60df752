//! Drawings as a renderer sees them: well-formed, inside their frame, labels clear of each other.

use std::collections::BTreeSet;

use ringtrue_seal::validation::study::Study;
use roxmltree::{Document as Xml, Node};

use super::fixture::{self, Case};
use crate::figure::svg::Weight;
use crate::figure::text_width;
use crate::reader::percent;
use crate::{Drawing, drawings, load_drawings, study_drawing};

/// A text's box in the drawing: left, top, right, bottom.
struct Label {
    text: String,
    corners: [(f64, f64); 4],
    upright: bool,
}

fn number(node: &Node, name: &str) -> f64 {
    node.attribute(name).unwrap().parse().unwrap()
}

fn label(node: &Node) -> Label {
    let text = node.text().unwrap_or_default().to_owned();
    let (x, y, size) = (number(node, "x"), number(node, "y"), number(node, "font-size"));
    let weight =
        if node.attribute("font-weight").is_some() { Weight::Bold } else { Weight::Regular };
    let wide = text_width::width(&text, size, weight);
    let left = match node.attribute("text-anchor") {
        Some("middle") => x - wide / 2.0,
        Some("end") => x - wide,
        _ => x,
    };
    // Capitals and digits: 0.67 em above the baseline, 0.02 em below it.
    let (top, bottom) = (y - 0.67 * size, y + 0.02 * size);
    let turn: f64 = node.attribute("transform").map_or(0.0, |turn| {
        let inside = turn.trim_start_matches("rotate(");
        inside.split(' ').next().unwrap().parse().unwrap()
    });
    let (sine, cosine) = turn.to_radians().sin_cos();
    let turned = |(px, py): (f64, f64)| {
        let (dx, dy) = (px - x, py - y);
        (x + dx * cosine - dy * sine, y + dx * sine + dy * cosine)
    };
    let right = left + wide;
    let corners = [(left, top), (right, top), (right, bottom), (left, bottom)].map(turned);
    Label { text, corners, upright: turn == 0.0 }
}

fn labels(xml: &Xml) -> Vec<Label> {
    xml.descendants().filter(|node| node.has_tag_name("text")).map(|node| label(&node)).collect()
}

/// Do two boxes share an area? Their axes are the edges of both (separating axis theorem).
fn overlap(a: &Label, b: &Label) -> bool {
    let axes = [a, b].into_iter().flat_map(|label| {
        let edge = |i: usize, j: usize| {
            let (p, q) = (label.corners[i], label.corners[j]);
            let long = (q.0 - p.0).hypot(q.1 - p.1).max(1e-9);
            ((q.0 - p.0) / long, (q.1 - p.1) / long)
        };
        [edge(0, 1), edge(1, 2)]
    });
    axes.into_iter().all(|axis| {
        let span = |label: &Label| {
            let along = label.corners.map(|c| c.0 * axis.0 + c.1 * axis.1);
            (
                along.iter().copied().fold(f64::MAX, f64::min),
                along.iter().copied().fold(f64::MIN, f64::max),
            )
        };
        let ((a_low, a_high), (b_low, b_high)) = (span(a), span(b));
        a_high.min(b_high) - a_low.max(b_low) > 0.05
    })
}

/// The studies of the mechanics as they were kept.
fn kept_studies() -> Vec<Study> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let path = folder.join("../../validation/mechanics/studies.json");
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

fn each(mut check: impl FnMut(&str, &Drawing, &Xml)) {
    for (name, case) in fixture::all() {
        let on_their_own = case.load.map(|load| load_drawings(load, case.system));
        let all = drawings(&case.document()).into_iter();
        for drawing in all.chain(on_their_own.into_iter().flatten()) {
            let xml = Xml::parse(&drawing.svg).unwrap_or_else(|error| {
                panic!("{name}, {}: {error}", drawing.name);
            });
            check(name, &drawing, &xml);
        }
    }
    let studies = kept_studies();
    let studies = studies.iter().map(|study| ("mechanics", study_drawing(study)));
    for (name, drawing) in super::checks::drawn().into_iter().chain(studies) {
        let xml = Xml::parse(&drawing.svg).unwrap_or_else(|error| {
            panic!("{name}, {}: {error}", drawing.name);
        });
        check(name, &drawing, &xml);
    }
}

#[test]
fn drawings_are_well_formed_and_say_what_they_show() {
    each(|case, drawing, xml| {
        let root = xml.root_element();
        assert!(root.has_tag_name("svg"));
        let child = |tag| {
            let found = root.children().find(|node| node.has_tag_name(tag));
            found.and_then(|node| node.text()).unwrap_or_default().to_owned()
        };
        assert_eq!(child("title"), drawing.title, "{case}");
        assert_eq!(child("desc"), drawing.alt, "{case}");
        assert!(!drawing.title.is_empty() && drawing.alt.len() > 10, "{case}: {}", drawing.name);
        assert_eq!(root.attribute("width"), Some(&*format!("{}mm", drawing.width_mm)));
    });
}

#[test]
fn names_of_drawings_are_file_names_and_occur_once() {
    for (name, case) in fixture::all() {
        let mut seen = BTreeSet::new();
        for drawing in drawings(&case.document()) {
            let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
            assert!(drawing.name.chars().all(plain), "{}", drawing.name);
            assert!(seen.insert(drawing.name.clone()), "{name}: {} twice", drawing.name);
        }
    }
}

#[test]
fn labels_stay_inside_the_drawing() {
    each(|case, drawing, xml| {
        let frame = xml.root_element().attribute("viewBox").unwrap();
        let frame: Vec<f64> = frame.split(' ').map(|n| n.parse().unwrap()).collect();
        for label in labels(xml) {
            let inside = label.corners.iter().all(|(x, y)| {
                (-0.1..=frame[2] + 0.1).contains(x) && (-0.1..=frame[3] + 0.1).contains(y)
            });
            assert!(inside, "{case}, {}: `{}` at {:?}", drawing.name, label.text, label.corners);
        }
    });
}

#[test]
fn labels_keep_clear_of_each_other() {
    let mut seen = 0;
    each(|case, drawing, xml| {
        let labels = labels(xml);
        seen += labels.len();
        for (i, a) in labels.iter().enumerate() {
            for b in &labels[i + 1..] {
                assert!(
                    !overlap(a, b),
                    "{case}, {}: `{}` over `{}` ({:?}, {:?})",
                    drawing.name,
                    a.text,
                    b.text,
                    a.corners[0],
                    b.corners[0]
                );
            }
        }
    });
    assert!(seen > 1000, "{seen} labels");
}

fn texts(case: &Case, name: &str) -> Vec<String> {
    shown(&drawings(&case.document()), name)
}

/// The labels of a drawing by its name.
pub(super) fn shown(all: &[Drawing], name: &str) -> Vec<String> {
    let drawing = all.iter().find(|drawing| drawing.name == name).unwrap();
    let xml = Xml::parse(&drawing.svg).unwrap();
    labels(&xml).into_iter().map(|label| label.text).collect()
}

#[test]
fn the_ring_shows_each_reading_at_its_angle() {
    let case = fixture::final_drive();
    let outcome = &case.a[0].1;
    let all = drawings(&case.document());
    let ring = all.iter().find(|drawing| drawing.name == "half-a-from-above").unwrap();
    let xml = Xml::parse(&ring.svg).unwrap();
    let labels = labels(&xml);
    for place in &outcome.places {
        let text = format!("{:.3}", place.height_mm);
        let label = labels.iter().find(|label| label.text == text).unwrap();
        let middle = (
            (label.corners[0].0 + label.corners[1].0) / 2.0,
            (label.corners[0].1 + label.corners[2].1) / 2.0,
        );
        // The paint mark at the top, angles counter-clockwise.
        let drawn = (45.0 - middle.0).atan2(45.0 - middle.1).to_degrees().rem_euclid(360.0);
        let off = (drawn - place.angle_deg + 180.0).rem_euclid(360.0) - 180.0;
        assert!(off.abs() < 8.0, "{text}: drawn at {drawn}, read at {}", place.angle_deg);
    }
    assert!(labels.iter().all(|label| label.upright));
    let stated = ring.alt.contains(&format!("range {:.3}", outcome.range_mm));
    assert!(stated, "{}", ring.alt);
}

#[test]
fn many_places_are_labelled_along_the_rays() {
    let case = fixture::few_and_many();
    let shown = texts(&case, "half-b-from-above");
    for place in &case.b[0].1.places {
        assert!(shown.contains(&format!("{:.3}", place.height_mm)));
    }
    assert!(shown.contains(&"52.5° !".to_owned()), "the suspect is marked");
}

#[test]
fn the_ring_says_where_to_press_and_by_how_much() {
    let case = fixture::cocked();
    let shown = texts(&case, "half-b-from-above");
    for action in &case.b[0].1.actions {
        if let Some(amount) = action.amount_mm {
            assert!(shown.contains(&format!("{amount:.2} mm")), "{shown:?}");
        }
    }
    assert!(shown.contains(&"press".to_owned()) && shown.contains(&"lift".to_owned()));
}

#[test]
fn the_gap_shows_limits_spans_and_shares() {
    let case = fixture::cocked();
    let gap = &case.gap;
    let shown = texts(&case, "seal-gap");
    let two = |low: f64, high: f64| format!("{low:.2} to {high:.2} mm");
    for wanted in [
        format!("min {:.2} mm", gap.limit_min_mm),
        format!("max {:.2} mm", gap.limit_max_mm),
        format!("below: {}", percent(gap.below_limit_fraction)),
        format!("above: {}", percent(gap.above_limit_fraction)),
        format!("nominal: {:.2} mm", gap.nominal_gap_mm),
        format!("worst case: {}", two(gap.worst_min_mm, gap.worst_max_mm)),
        format!("root-sum-square: {}", two(gap.rss_min_mm, gap.rss_max_mm)),
    ] {
        assert!(shown.contains(&wanted), "{wanted} in {shown:?}");
    }
    let shares = texts(&case, "seal-gap-shares");
    for link in &gap.links {
        assert!(shares.contains(&percent(link.share)) && shares.contains(&link.name));
    }
}

#[test]
fn the_share_bars_together_are_the_whole() {
    let case = fixture::long_history();
    let all = drawings(&case.document());
    let drawing = all.iter().find(|drawing| drawing.name == "seal-gap-shares").unwrap();
    let xml = Xml::parse(&drawing.svg).unwrap();
    let bars: Vec<f64> = xml
        .descendants()
        .filter(|node| node.attribute("fill") == Some(crate::figure::style::ACCENT))
        .map(|node| {
            let points = node.attribute("points").unwrap();
            let x: Vec<f64> =
                points.split(' ').map(|p| p.split(',').next().unwrap().parse().unwrap()).collect();
            x[1] - x[0]
        })
        .collect();
    assert_eq!(bars.len(), 12);
    assert!((bars.iter().sum::<f64>() - 72.0).abs() < 0.05, "{bars:?}");
}

#[test]
fn inches_stand_in_every_drawing_of_an_inch_report() {
    let case = fixture::mixer_shaft();
    for drawing in drawings(&case.document()) {
        let xml = Xml::parse(&drawing.svg).unwrap();
        for label in labels(&xml) {
            assert!(!label.text.contains("mm"), "{}: {}", drawing.name, label.text);
        }
        assert!(!drawing.alt.contains(" mm"), "{}", drawing.alt);
    }
}
