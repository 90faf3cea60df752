//! Pictures and words of the loads: the outcome's own numbers, and a plain word where there is
//! none.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::System;
use ringtrue_seal::definition::{Kind, read, starter};
use ringtrue_seal::face_load::{self, JointOutcome, Outcome};
use ringtrue_seal::rubber;
use ringtrue_seal::squeeze::{self, SqueezeFile};
use serde_json::json;

use super::drawings::shown;
use super::fixture;
use crate::section::sources::merged;
use crate::{
    Block, Cell, Section, load_at, load_compared, load_drawings, load_over_gap, section_drawings,
};

fn contains(shown: &[String], wanted: &str) {
    assert!(shown.iter().any(|text| text == wanted), "{wanted} in {shown:?}");
}

#[test]
fn the_curve_shows_limits_and_the_three_loads() {
    let load = fixture::final_drive_load();
    let all = load_drawings(load, System::Millimetre);
    let texts = shown(&all, "face-load");
    let at = &load.joint.at_gap;
    for (name, load) in [("smallest", at.min), ("nominal", at.nominal), ("largest", at.max)] {
        let load = load.unwrap();
        contains(&texts, name);
        let u = 2.0 * load.standard_uncertainty_n_per_mm;
        contains(&texts, &format!("{:.2} ± {u:.2}", load.face_load_n_per_mm));
    }
    contains(&texts, &format!("min {:.1} N/mm", load.joint.face_load_min_n_per_mm.unwrap()));
    contains(&texts, &format!("max {:.1} N/mm", load.joint.face_load_max_n_per_mm.unwrap()));
    let gaps = [at.min, at.max].map(|load| load.unwrap().gap_mm);
    contains(&texts, &format!("gap limits: {:.2} to {:.2} mm", gaps[0], gaps[1]));
    contains(&texts, "face load, N/mm at the contact band's mean diameter");
}

/// A change has its band, and words where it passes a limit.
#[test]
fn a_change_says_how_it_stands_to_the_limits() {
    let own = fixture::final_drive_load();
    let mut changed = own.clone();
    let nominal = own.joint.at_gap.nominal.unwrap();
    let drawing = load_compared([own, &changed], System::Millimetre).unwrap();
    let own_lines = load_over_gap(own, nominal.gap_mm, [None, None], System::Millimetre).unwrap();
    let dashed = |svg: &str| svg.matches("stroke-dasharray").count();
    // The changed curve and both edges of its band, beside the two dashes of the gap's limits.
    assert!(dashed(&drawing.svg) >= 5 && dashed(&own_lines.svg) < 5, "{}", drawing.svg);
    let said = |joint: &JointOutcome| load_at(&nominal, joint, System::Millimetre);
    assert!(said(&own.joint).ends_with("; inside the limits"), "{}", said(&own.joint));
    let (load, u) = (nominal.face_load_n_per_mm, nominal.standard_uncertainty_n_per_mm);
    for (least, words) in [(load + 3.0 * u, "below the"), (load - u, "may be below the")] {
        changed.joint.face_load_min_n_per_mm = Some(least);
        let said = said(&changed.joint);
        assert!(said.contains(&format!("; {words} limit of ")), "{said}");
    }
    changed.joint.face_load_min_n_per_mm = None;
    changed.joint.face_load_max_n_per_mm = Some(load - 3.0 * u);
    assert!(said(&changed.joint).contains("; above the limit of "));
    changed.joint.face_load_max_n_per_mm = None;
    assert!(!said(&changed.joint).contains("limit"), "{}", said(&changed.joint));
}

#[test]
fn the_stages_run_from_the_first_touch_to_the_end_of_the_curve() {
    let load = fixture::final_drive_load();
    let all = load_drawings(load, System::Millimetre);
    for half in &load.halves {
        let texts = shown(&all, &format!("half-{}-stages", half.half.name()));
        for number in 1..=6 {
            contains(&texts, &number.to_string());
        }
        for point in [&half.curve[0], &half.curve[5], half.curve.last().unwrap()] {
            contains(&texts, &format!("{:.2} mm", point.travel_mm));
            contains(&texts, &format!("{:.2} mm", point.height_mm));
            contains(&texts, &format!("{:.2} N/mm", point.face_load_n_per_mm));
            contains(&texts, &format!("{:.0}°", point.roll_deg));
        }
    }
}

#[test]
fn the_section_at_the_nominal_gap_shows_the_numbers_of_that_gap() {
    let load = fixture::final_drive_load();
    let nominal = load.joint.at_gap.nominal.unwrap();
    let all = load_drawings(load, System::Millimetre);
    for (half, travel) in load.halves.iter().zip([nominal.travel_a_mm, nominal.travel_b_mm]) {
        let texts = shown(&all, &format!("half-{}-squeezed", half.half.name()));
        contains(&texts, &format!("{travel:.2} mm"));
        contains(&texts, &format!("{:.2} mm", half.height_at_nominal_gap_mm.unwrap()));
        let next = half.curve.partition_point(|point| point.travel_mm < travel);
        let peaks = [next - 1, next].map(|i| half.curve[i].peak_contact_mpa);
        let peak = texts.iter().find_map(|text| text.strip_prefix("peak ")).unwrap();
        let peak: f64 = peak.trim_end_matches(" MPa").parse().unwrap();
        assert!((peaks[0] - 0.005..=peaks[1] + 0.005).contains(&peak), "{peak} in {peaks:?}");
    }
}

#[test]
fn a_curve_that_was_not_solved_has_no_picture_and_no_number() {
    let mut load: Outcome = fixture::final_drive_load().clone();
    for half in &mut load.halves {
        half.curve.clear();
        half.section.curve.picture.frames.clear();
    }
    load.joint.curve.clear();
    let at = &mut load.joint.at_gap;
    (at.min, at.nominal, at.max) = (None, None, None);
    (load.complete, load.verdict) = (false, Verdict::NotProven);
    assert!(load_drawings(&load, System::Millimetre).is_empty());
    let mut case = fixture::final_drive();
    case.load = Some(Box::leak(Box::new(load)));
    let document = case.document();
    let line = document.cover.lines.iter().find(|line| line.question == "face load").unwrap();
    assert_eq!(line.verdict, Verdict::NotProven);
    assert!(line.sentence.contains("not solved to its end"), "{}", line.sentence);
    assert!(line.scale.is_none());
    assert!(document.cover.to_do.iter().any(|deed| deed.starts_with("Face load: ")));
}

fn section(case: &fixture::Case) -> Section {
    let document = case.document();
    document.sections.into_iter().find(|section| section.title == "Face load").unwrap()
}

#[test]
fn the_table_holds_the_loads_at_the_three_gaps() {
    let case = fixture::mixer_shaft();
    let load = case.load.unwrap();
    let section = section(&case);
    let table = section.blocks.iter().find_map(|block| match block {
        Block::Tables(tables) => tables.first(),
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
    });
    let rows = &table.unwrap().rows;
    let at = &load.joint.at_gap;
    for (row, load) in rows.iter().zip([at.min, at.nominal, at.max]) {
        let load = load.unwrap();
        assert_eq!(row[1], Cell::Text(format!("{:.4}", load.gap_mm / 25.4)));
        // 1 lbf is 4.448 221 615 260 5 N.
        let force = format!("{:.1} lbf", load.force_n / 4.448_221_615_260_5);
        assert_eq!(row[3], Cell::Text(force));
    }
}

#[test]
fn cautions_stand_before_closing_and_beside_the_slip_friction() {
    let section = section(&fixture::final_drive());
    let place = |words: &str| {
        let said = |block: &Block| match block {
            Block::Caution(text) | Block::Text(text) => text.contains(words),
            Block::Verdict(_)
            | Block::Heading(_)
            | Block::Small(_)
            | Block::List(_)
            | Block::Drawings(_)
            | Block::Tables(_)
            | Block::Beside(_)
            | Block::Columns(_)
            | Block::Steps(_)
            | Block::Photos(_) => false,
        };
        let found = section.blocks.iter().position(said).unwrap();
        (found, matches!(section.blocks[found], Block::Caution(_)))
    };
    assert!(place("no leave to oil a ramp").1);
    let (apart, force) = (place("spring apart"), place("Closing force"));
    assert!(apart.1 && apart.0 < force.0);
}

#[test]
fn a_load_that_was_not_computed_is_said_to_be_so() {
    let mut case = fixture::final_drive();
    case.load = None;
    let section = section(&case);
    assert!(json!(section).to_string().contains("was not computed for this report"));
    let document = case.document();
    assert!(document.cover.lines.iter().all(|line| line.question != "face load"));
}

#[test]
fn verdict_and_sources_are_those_of_the_room() {
    let case = fixture::mixer_shaft();
    let document = case.document();
    let line = document.cover.lines.iter().find(|line| line.question == "face load").unwrap();
    assert_eq!(line.verdict, case.load.unwrap().verdict);
    let blocks = &document.sections.last().unwrap().blocks;
    let Some(Block::Columns(listed)) = blocks.last() else { panic!("no list of sources") };
    for source in face_load::SOURCES.iter().chain(rubber::SOURCES) {
        // It stands there, or what it cites does.
        let with = merged(listed.iter().cloned().chain([source.to_string()]));
        assert_eq!(&with, listed, "{source}");
    }
    let rings = listed.iter().filter(|source| source.contains("(Pappus)")).count();
    let pages = listed.iter().filter(|source| source.contains("34 (1958) 46-57")).count();
    assert_eq!((rings, pages), (1, 1), "{listed:?}");
}

#[test]
fn a_general_problem_has_six_stages_and_its_end() {
    let mut file: SqueezeFile = read(starter(Kind::Squeeze)).unwrap();
    file.steps = 6;
    let solved = squeeze::solve(&file).unwrap();
    let all = section_drawings(&file, &solved, System::Millimetre);
    let names: Vec<&str> = all.iter().map(|drawing| drawing.name.as_str()).collect();
    assert_eq!(names, ["stages", "section"]);
    let last = solved.steps.last().unwrap();
    for name in names {
        contains(&shown(&all, name), &format!("{:.2} mm", last.travel_mm));
        contains(&shown(&all, name), &format!("{:.0}°", last.roll_deg));
    }
    for wall in &file.wall {
        contains(&shown(&all, "section"), &wall.name);
    }
}
