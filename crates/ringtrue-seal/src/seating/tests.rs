use ringtrue_metrology::units::Given as Typed;

use super::*;
use crate::definition::{self, Kind, material::shipped};

fn seal() -> Seal {
    definition::read(definition::starter(Kind::Seal)).unwrap()
}

fn input(seal: Seal) -> Input {
    Input { seal, material: shipped("NBR").cloned(), dry: 0.35, wet: WET }
}

#[test]
fn the_starter_slides_past_its_lip_when_it_is_wetted() {
    let outcome = evaluate(&Input { dry: DRY, ..input(seal()) }).unwrap();
    // 209 mm on 216 mm less the section's share: as `check` says.
    assert!((outcome.stretch_percent - 3.1).abs() < 0.3, "{}", outcome.stretch_percent);
    assert!(outcome.section_mm < 12.0 && outcome.section_mm > 11.7);
    let interference = outcome.interference_mm.unwrap();
    assert!((1.0..3.0).contains(&interference), "{interference}");
    let [dry, wet] = outcome.pushes.as_slice() else { panic!("{:?}", outcome.pushes) };
    // Dry rubber rolls and folds under the lip: nobody gets it past.
    assert_eq!((dry.fate, dry.all_round_n), (Fate::Folds, None));
    assert_eq!(wet.fate, Fate::SlidesPast);
    assert!(dry.max_principal_stretch > 2.0);
    // At one side less than all round.
    assert!(wet.all_round_n > wet.one_side_n && wet.one_side_n > Some(0.0));
    // Wiped with alcohol and pressed in: the starter's own way.
    assert_eq!((outcome.way, outcome.surface), (Way::PressedAllRound, Surface::Wetted));
    assert_eq!(outcome.push_force_n, wet.all_round_n);
    assert!(outcome.complete);
    assert_eq!(outcome.verdict, Verdict::Conforms, "{:?}", outcome.findings);
    // Two meshes agree.
    assert!(outcome.error_band_percent.unwrap() < 10.0, "{:?}", outcome.error_band_percent);
}

/// More friction, more push; inches are millimetres; a dry toric gets no push and no method.
#[test]
fn friction_and_units_do_what_they_must() {
    let push = |seal: Seal, [dry, wet]: [f64; 2]| {
        let outcome = evaluate(&Input { dry, wet, ..input(seal) }).unwrap();
        outcome.pushes.iter().map(|push| push.all_round_n.unwrap()).collect::<Vec<_>>()
    };
    let pushes = push(seal(), [0.3, 0.15]);
    assert!(pushes[0] > 1.2 * pushes[1], "{pushes:?}");
    let mut inch = seal();
    inch.housing.lip.as_mut().unwrap().edge_radius = Typed::new("0.0590551181102362 in").ok();
    let in_inches = push(inch, [0.3, 0.15]);
    assert!((in_inches[0] / pushes[0] - 1.0).abs() < 0.01, "{in_inches:?} {pushes:?}");

    let mut unwiped = seal();
    unwiped.fitting.cleaning_agent = definition::material::NO_AGENT.to_owned();
    let outcome = evaluate(&Input { dry: DRY, ..input(unwiped) }).unwrap();
    assert_eq!((outcome.push_force_n, outcome.method), (None, None));
    assert_eq!(outcome.verdict, Verdict::NotProven);
    assert!(outcome.remarks.iter().any(|remark| remark.contains("Wet it")));
}

#[test]
fn what_the_push_asks_for_decides_the_method() {
    let forces = |hand: &str, tool: &str, chilling: Chilling| {
        let mut seal = seal();
        seal.fitting.hand_force = Typed::new(hand).ok();
        seal.fitting.tool_force = Typed::new(tool).ok();
        seal.fitting.chilling = chilling;
        evaluate(&input(seal)).unwrap().method.unwrap()
    };
    assert_eq!(forces("900 kN", "900 kN", Chilling::NotAllowed), Method::Hand);
    assert_eq!(forces("1 N", "900 kN", Chilling::NotAllowed), Method::ToolAndMallet);
    assert_eq!(forces("1 N", "2 N", Chilling::Allowed), Method::ChillFirst);
    assert_eq!(forces("1 N", "2 N", Chilling::NotAllowed), Method::Press);
}

#[test]
fn a_toric_that_slips_through_is_not_held() {
    let mut loose = seal();
    loose.housing.lip.as_mut().unwrap().diameter = Typed::new("245 mm").unwrap();
    let outcome = evaluate(&input(loose)).unwrap();
    assert!(outcome.interference_mm.unwrap() < 0.0);
    assert_eq!(outcome.push_force_n, None);
    assert_eq!(outcome.verdict, Verdict::DoesNotConform);
}

#[test]
fn a_rubber_without_a_figure_is_not_proven() {
    let outcome = evaluate(&Input { material: None, ..input(seal()) }).unwrap();
    assert_eq!(outcome.verdict, Verdict::NotProven);
    assert!(outcome.findings.iter().any(|f| f.fits.contains("elongation_at_break")));
}

#[test]
fn a_tighter_lip_pushes_back_harder() {
    let at = |diameter: &str| {
        let mut seal = seal();
        seal.housing.lip.as_mut().unwrap().diameter = Typed::new(diameter).unwrap();
        evaluate(&input(seal)).unwrap().push_force_n.unwrap()
    };
    assert!(at("236.5 mm") > at("237.5 mm"));
}

#[test]
fn a_friction_that_cannot_be_is_refused() {
    for (dry, wet) in [(-0.1, 0.3), (0.8, 9.0), (f64::NAN, 0.3)] {
        assert!(evaluate(&Input { dry, wet, ..input(seal()) }).is_err());
    }
}
