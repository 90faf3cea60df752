//! The checks between cleaning and closing, judged on the shipped examples and on odd inputs.

use std::path::PathBuf;

use ringtrue_job::evidence::{self, AlignmentBasis, FinishBasis, Parts};
use ringtrue_job::{Assessment, Evidence, judge, reading};
use ringtrue_metrology::conformity::Levels;
use ringtrue_metrology::units::{Angle, Length, System, parse};
use ringtrue_seal::alignment::{IndicatorSense, Sag};
use ringtrue_seal::closing;
use ringtrue_seal::face_load::GapPoint;
use ringtrue_seal::flatness::{Input, LightSource, Pressed, ReadingUncertainty, Seen};
use ringtrue_seal::roughness::{CutOff, Edition, InstrumentUncertainty};

use super::fixture;
use crate::document::Block;
use crate::{CheckMade, Drawing, Further, check_drawings};

fn example(name: &str) -> Vec<u8> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../examples/checks");
    std::fs::read(folder.join(name)).unwrap()
}

pub(super) fn text(name: &str) -> String {
    String::from_utf8(example(name)).unwrap()
}

fn length(text: &str) -> Length {
    parse(text).unwrap()
}

fn alignment(sweeps: &str, limit: Option<&str>, known: Option<&str>) -> Assessment {
    let joint = fixture::final_drive().joint;
    let basis = AlignmentBasis {
        parts: if limit.is_some() { Parts::Joint(&joint) } else { Parts::Unknown },
        eccentricity_limit: limit.map(length),
        tip_limit: None,
        housing_face_diameter: None,
        face_diameter: Some(length("300 mm")),
        sense: IndicatorSense::InCountsUp,
        sag: Some(Sag { at_bottom: length("-0.04 mm"), top: Angle::default() }),
        gauge: None,
        stated_uncertainty: known.map(length),
        moves: None,
    };
    let readings = reading::sweeps(sweeps).unwrap();
    judge(&Evidence::Alignment(evidence::sweeps(readings, basis))).unwrap()
}

fn finish(files: &[&str], limit: &str) -> Assessment {
    let read = files.iter().map(|name| match name.strip_suffix(".x3p") {
        Some(_) => reading::Finish::Trace(reading::x3p(&example(name)).unwrap()),
        None => reading::finish(&text(name), None).unwrap(),
    });
    let basis = FinishBasis {
        limit: Some(reading::finish_limit(limit).unwrap()),
        seal: None,
        rule: None,
        edition: Edition::Iso4287,
        cut_off: CutOff::ByTable,
        uncertainty: InstrumentUncertainty::Share(0.03),
    };
    let input = evidence::finish(read.collect(), basis).unwrap();
    judge(&Evidence::Roughness(input)).unwrap()
}

fn flatness(seen: Seen, limit: &str) -> Assessment {
    judge(&Evidence::Flatness(Input {
        seen,
        source: LightSource::Helium,
        view: Angle::default(),
        limit: Some(reading::flatness_limit(limit).unwrap()),
        uncertainty: ReadingUncertainty::Bands(0.1),
        levels: Levels::DEFAULT,
    }))
    .unwrap()
}

/// Checks by name.
fn all() -> Vec<(&'static str, Assessment)> {
    let sweeps = text("sweeps.csv");
    let rim: String = sweeps
        .lines()
        .filter(|line| !line.starts_with("face"))
        .fold(String::new(), |all, line| all + line + "\n");
    let face: String = sweeps
        .lines()
        .filter(|line| !line.starts_with("rim"))
        .fold(String::new(), |all, line| all + line + "\n");
    let level = "surface,angle_deg,reading_mm\nrim,0,0\nrim,90,0\nrim,180,-0.04\nrim,270,-0.04\n";
    let bands = |name: &str| reading::bands(&text(name)).unwrap();
    let closed = Seen::Closed { bands: 2.5, pressed: Pressed::NotTried };
    vec![
        ("aligned", alignment(&sweeps, Some("0.5 mm"), Some("0.006 mm"))),
        ("off", alignment(&sweeps, Some("0.1 mm"), Some("0.006 mm"))),
        ("rim alone", alignment(&rim, Some("0.2 mm"), Some("0.03 mm"))),
        ("face alone", alignment(&face, None, None)),
        ("hardly off", alignment(level, None, None)),
        ("two traces", finish(&["ramp-trace.csv", "ramp-trace.x3p"], "Ra 0.8 um")),
        ("too rough", finish(&["ramp-trace.csv"], "Rz 3.2 um")),
        ("values", finish(&["ramp-values.csv"], "Ra 0.8 um..2.5 um")),
        ("bands", flatness(bands("bands.csv"), "1 band")),
        ("orders", flatness(bands("band-orders.csv"), "0.2 um")),
        ("closed", flatness(closed, "2 bands")),
        ("closed evenly", closed_joint(&[2.62, 2.60, 2.57, 2.59], Some(8))),
        ("closed one-sided", closed_joint(&[3.3, 2.6, 1.9, 2.6], None)),
        ("many bolts", closed_joint(&[], Some(48))),
    ]
}

/// Feeler readings evenly round, on a joint whose load curve is a straight line.
fn closed_joint(gaps_mm: &[f64], bolts: Option<u32>) -> Assessment {
    let mm = |value: f64| parse::<Length>(&format!("{value} mm")).unwrap();
    let reading = |(index, gap): (usize, &f64)| closing::Reading {
        angle: parse(&format!("{} deg", 360.0 * index as f64 / gaps_mm.len() as f64)).unwrap(),
        gap: mm(*gap),
    };
    let point = |gap_mm: f64| {
        let face_load_n_per_mm = 2.0 * (4.6 - gap_mm);
        GapPoint {
            gap_mm,
            face_load_n_per_mm,
            error_band_n_per_mm: None,
            standard_uncertainty_n_per_mm: 0.25 * face_load_n_per_mm,
            force_n: 800.0 * face_load_n_per_mm,
        }
    };
    judge(&Evidence::Closing(closing::Input {
        readings: gaps_mm.iter().enumerate().map(reading).collect(),
        gap_limits: (Some(mm(2.1)), Some(mm(3.1))),
        diameter: Some(mm(300.0)),
        uncertainty: closing::FeelerUncertainty::Stated(mm(0.015)),
        bolts,
        steps: closing::STEPS,
        load: Some(closing::Load {
            curve: [4.6, 4.0, 3.0, 2.0].map(point).to_vec(),
            relative_uncertainty: Some(0.06),
            nominal_gap_mm: Some(2.6),
        }),
        levels: Levels::DEFAULT,
    }))
    .unwrap()
}

pub(super) fn further(assessment: &Assessment) -> Further<'_> {
    Further::of(&assessment.answer).expect("only checks are listed here")
}

/// All drawings of all checks, in both systems of units.
pub(super) fn drawn() -> Vec<(&'static str, Drawing)> {
    let mut drawn = Vec::new();
    for (name, assessment) in all().into_iter().chain(super::handling::all()) {
        for system in [System::Millimetre, System::Inch] {
            let each = check_drawings(&further(&assessment), system);
            drawn.extend(each.into_iter().map(|drawing| (name, drawing)));
        }
    }
    drawn
}

#[test]
fn each_check_has_its_picture() {
    let drawn = drawn();
    let has = |check: &str, name: &str| drawn.iter().any(|(c, d)| *c == check && d.name == name);
    assert!(has("aligned", "alignment") && !has("face alone", "alignment"));
    assert!(has("two traces", "ramp-finish-1") && has("two traces", "ramp-finish-2"));
    assert!(!has("values", "ramp-finish-1"));
    assert!(has("bands", "face-flatness") && has("orders", "face-flatness"));
    assert!(!has("closed", "face-flatness"));
    for check in ["closed evenly", "closed one-sided", "many bolts"] {
        assert!(has(check, "closing"), "{check}");
    }
}

#[test]
fn checks_stand_in_the_report_with_verdict_and_deeds() {
    let checks = all();
    let chosen: Vec<Further<'_>> = checks
        .iter()
        .filter(|(name, _)| ["off", "two traces", "orders"].contains(name))
        .map(|(_, assessment)| further(assessment))
        .collect();
    let document = fixture::final_drive().document_with(&chosen);
    let titles: Vec<&str> = document.sections.iter().map(|s| s.title.as_str()).collect();
    for title in ["Alignment of the housings", "Ramp finish", "Flatness of the lapped face"] {
        assert!(titles.contains(&title), "{titles:?}");
    }
    let questions: Vec<&str> =
        document.cover.lines.iter().map(|line| line.question.as_str()).collect();
    for question in
        ["eccentricity of the housings", "ramp finish, Ra", "flatness of the lapped face"]
    {
        assert!(questions.contains(&question), "{questions:?}");
    }
    assert!(document.cover.to_do.iter().any(|deed| deed.contains("Move half b by 0.21 mm")));
    // A caution stands before what to do with a part that hangs.
    let section = document.sections.iter().find(|s| s.title.starts_with("Alignment")).unwrap();
    let caution = section.blocks.iter().position(|b| matches!(b, Block::Caution(_))).unwrap();
    let list = section.blocks.iter().position(|b| matches!(b, Block::List(_))).unwrap();
    assert!(caution < list);
    assert!(crate::pdf(&document).unwrap().starts_with(b"%PDF-"));
}

#[test]
fn the_same_check_made_twice_has_pages_and_pictures_of_its_own() {
    let checks = all();
    let bands: Vec<Further<'_>> = checks
        .iter()
        .filter(|(name, _)| ["bands", "orders"].contains(name))
        .map(|(_, assessment)| further(assessment))
        .collect();
    let made: Vec<CheckMade<'_>> = ["half a", "half b"]
        .into_iter()
        .zip(&bands)
        .map(|(place, check)| CheckMade { place, check: *check })
        .collect();
    let document = fixture::final_drive().document_of(&made);
    let titles: Vec<&str> = document.sections.iter().map(|s| s.title.as_str()).collect();
    for half in ["half a", "half b"] {
        let title = format!("Flatness of the lapped face, {half}");
        assert!(titles.contains(&title.as_str()), "{titles:?}");
    }
    let mut names: Vec<String> =
        crate::drawings(&document).iter().map(|drawing| drawing.name.clone()).collect();
    assert!(names.contains(&"face-flatness-half-b".to_owned()), "{names:?}");
    let count = names.len();
    names.sort();
    names.dedup();
    assert_eq!(names.len(), count);
}
