use proptest::prelude::*;
use ringtrue_metrology::units::Given as Typed;

use super::*;
use crate::definition::material::{STEEL, shipped};
use crate::definition::seal::Chilling;
use crate::definition::{self, Kind};

mod washer;

fn seal() -> Seal {
    definition::read(definition::starter(Kind::Seal)).unwrap()
}

fn input(seal: Seal) -> Input {
    Input {
        seal,
        material: shipped("NBR").cloned(),
        dry: Some(0.35),
        wet: Some(WET),
        // Two ways less to solve; what it adds is tested apart.
        friction_uncertainty: Some(0.0),
        free_height: None,
    }
}

fn past(outcome: &Outcome) -> &PastLip {
    match &outcome.load_ring {
        Seated::Toric(past) => past,
        Seated::ConicalWasher(_) => panic!("a washer"),
    }
}

fn edges(outcome: &Outcome) -> &Edges {
    match &outcome.load_ring {
        Seated::Toric(_) => panic!("a toric"),
        Seated::ConicalWasher(edges) => edges,
    }
}

#[test]
fn the_starter_slides_past_its_lip_when_it_is_wetted() {
    let given = Input { dry: None, friction_uncertainty: None, ..input(seal()) };
    let outcome = evaluate(&given).unwrap();
    let toric = past(&outcome);
    // 209 mm on 216 mm less the section's share: as `check` says.
    assert!((toric.stretch_percent - 3.1).abs() < 0.3, "{}", toric.stretch_percent);
    assert!(toric.section_mm < 12.0 && toric.section_mm > 11.7);
    let interference = toric.interference_mm.unwrap();
    assert!((1.0..3.0).contains(&interference), "{interference}");
    let [dry, wet] = toric.pushes.as_slice() else { panic!("{:?}", toric.pushes) };
    // Dry rubber rolls and folds under the lip: nobody gets it past.
    assert_eq!((dry.fate, dry.all_round_n), (Fate::Folds, None));
    assert_eq!(wet.fate, Fate::SlidesPast);
    assert!(dry.max_principal_stretch > 2.0);
    // At one side less than all round.
    assert!(wet.all_round_n > wet.one_side_n && wet.one_side_n > Some(0.0));
    // Wiped with alcohol and pressed in: the starter's own way.
    assert_eq!((toric.way, outcome.surface), (Way::PressedAllRound, Surface::Wetted));
    assert_eq!(outcome.push_force_n, wet.all_round_n);
    assert!(outcome.complete);
    assert_eq!(outcome.verdict, Verdict::Conforms, "{:?}", outcome.findings);
    // A third of the friction either way is worth a fifth of the push or so.
    let parts = outcome.standard_uncertainty_parts_n.unwrap();
    let share = parts.friction / outcome.push_force_n.unwrap();
    assert!((0.15..0.3).contains(&share), "{share}");
    // Two meshes agree.
    assert!(outcome.error_band_percent.unwrap() < 10.0, "{:?}", outcome.error_band_percent);
}

/// More friction, more push; inches are millimetres; a dry toric gets no push and no method.
#[test]
fn friction_and_units_do_what_they_must() {
    let push = |seal: Seal, [dry, wet]: [f64; 2]| {
        let outcome = evaluate(&Input { dry: Some(dry), wet: Some(wet), ..input(seal) }).unwrap();
        past(&outcome).pushes.iter().map(|push| push.all_round_n.unwrap()).collect::<Vec<_>>()
    };
    let pushes = push(seal(), [0.3, 0.15]);
    assert!(pushes[0] > 1.2 * pushes[1], "{pushes:?}");
    let mut inch = seal();
    inch.housing.lip.as_mut().unwrap().edge_radius = Typed::new("0.0590551181102362 in").ok();
    let in_inches = push(inch, [0.3, 0.15]);
    assert!((in_inches[0] / pushes[0] - 1.0).abs() < 0.01, "{in_inches:?} {pushes:?}");

    let mut unwiped = seal();
    unwiped.fitting.cleaning_agent = definition::material::NO_AGENT.to_owned();
    let outcome = evaluate(&Input { dry: None, ..input(unwiped) }).unwrap();
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
    assert!(past(&outcome).interference_mm.unwrap() < 0.0);
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
        assert!(evaluate(&Input { dry: Some(dry), wet: Some(wet), ..input(seal()) }).is_err());
    }
}

/// A way made up in the place of finite elements: its push goes with friction and overlap, and the
/// coarser mesh gives a little less. What the room makes of a way is looked at, not the way.
fn made_up(problems: &[Passing]) -> Vec<Result<Passed, RoomError>> {
    let way = |problem: &Passing| {
        let finer = problem.edges / passing::EDGES;
        let most = problem.friction * problem.passage.overlap_mm * (0.9 + 0.1 * finer);
        let point = |(step, share): (usize, f64)| PassagePoint {
            travel_mm: step as f64,
            push_n_per_mm: share * most,
            max_principal_stretch: 1.0 + 0.1 * step as f64,
            roll_deg: 0.0,
        };
        let shares = [0.0, 0.6, 1.0, 0.5, 0.1];
        Passed {
            friction: problem.friction,
            points: shares.into_iter().enumerate().map(point).collect(),
            peak: Some(2),
            fate: Fate::SlidesPast,
            stopped: None,
            picture: crate::section::Picture::default(),
        }
    };
    problems.iter().map(|problem| Ok(way(problem))).collect()
}

/// The same, but nothing slides past from this friction on.
fn folds_from(most: f64) -> impl FnMut(&[Passing]) -> Vec<Result<Passed, RoomError>> {
    move |problems| {
        let mut ways = made_up(problems);
        for way in ways.iter_mut().flatten().filter(|way| way.friction >= most) {
            (way.fate, way.peak) = (Fate::Folds, None);
        }
        ways
    }
}

/// The push of a made-up way goes with the friction: its relative uncertainty is friction's own.
#[test]
fn the_frictions_uncertainty_is_in_that_of_the_push() {
    let of = |u: Option<f64>| {
        let given = Input { friction_uncertainty: u, ..input(seal()) };
        evaluate_with(&given, &mut made_up).unwrap()
    };
    let practice = of(None);
    let (push, parts) =
        (practice.push_force_n.unwrap(), practice.standard_uncertainty_parts_n.unwrap());
    let third = 1.0 / 3.0 / 3f64.sqrt();
    assert!((parts.friction / push - third).abs() < 1e-9, "{parts:?} of {push}");
    let u = practice.friction_standard_uncertainty;
    assert!((u.value - WET * third).abs() < 1e-12 && u.origin == "common practice, no source");
    let stated = of(Some(0.03));
    let parts = stated.standard_uncertainty_parts_n.unwrap();
    assert!((parts.friction / push - 0.1).abs() < 1e-9, "{parts:?} of {push}");
    let whole = (parts.modulus.powi(2) + parts.friction.powi(2) + parts.mesh.powi(2)).sqrt();
    assert!((stated.standard_uncertainty_n.unwrap() / whole - 1.0).abs() < 1e-12);
    assert_eq!(of(Some(0.0)).standard_uncertainty_parts_n.unwrap().friction, 0.0);
    // Wider than the coefficient: none below zero.
    assert!(of(Some(0.5)).standard_uncertainty_parts_n.unwrap().friction > parts.friction);
}

#[test]
fn a_toric_that_may_fold_within_frictions_uncertainty_is_not_proven() {
    let of = |most: f64| {
        let given = Input { friction_uncertainty: None, ..input(seal()) };
        evaluate_with(&given, &mut folds_from(most)).unwrap()
    };
    let sure = of(0.45);
    assert_eq!(sure.verdict, Verdict::Conforms, "{:?}", sure.findings);
    let near = of(0.33);
    assert!(near.push_force_n.is_some() && near.standard_uncertainty_n.is_none());
    let finding = near.findings.iter().find(|f| f.what.contains("friction")).unwrap();
    assert_eq!((finding.verdict, near.verdict), (Verdict::NotProven, Verdict::NotProven));
    assert!(finding.found.contains("0.36"), "{finding:?}");
}

#[test]
fn a_push_that_may_be_more_than_hands_give_says_so() {
    let push = outcome(seal(), WET).push_force_n.unwrap();
    let mut near = seal();
    near.fitting.hand_force = Typed::new(&format!("{} N", 1.05 * push)).ok();
    near.fitting.tool_force = Typed::new(&format!("{} N", 9.0 * push)).ok();
    let outcome = outcome(near, WET);
    assert_eq!(outcome.method, Some(Method::Hand));
    assert!(outcome.remarks.iter().any(|remark| remark.contains("soft mallet")), "{outcome:?}");
}

fn outcome(seal: Seal, wet: f64) -> Outcome {
    evaluate_with(&Input { wet: Some(wet), ..input(seal) }, &mut made_up).unwrap()
}

fn with_lip(diameter: &str) -> Seal {
    let mut seal = seal();
    seal.housing.lip.as_mut().unwrap().diameter = Typed::new(diameter).unwrap();
    seal
}

/// A section as it is kept on disk comes back to the last digit.
#[test]
fn a_way_that_is_kept_comes_back_as_it_was() {
    let passage = Passage {
        section_mm: 11.8,
        mean_radius_mm: 113.7,
        hoop_stretch: 1.03,
        ramp_deg: 15.0,
        nose_radius_mm: 1.5,
        overlap_mm: 0.9,
    };
    let problem = Passing { passage, friction: 0.3, edges: passing::COARSE_EDGES };
    let text = serde_json::to_string(&problem).unwrap();
    assert_eq!(serde_json::from_str::<Passing>(&text).unwrap(), problem);
    let way = problem.solve().unwrap();
    let text = serde_json::to_string(&way).unwrap();
    assert_eq!(serde_json::from_str::<Passed>(&text).unwrap(), way);
}

proptest! {
    #[test]
    fn units_in_are_units_out(diameter in 236.0_f64..239.0, wet in 0.1_f64..0.6) {
        let of = |text: &str| outcome(with_lip(text), wet);
        let (mm, inch) =
            (of(&format!("{diameter} mm")), of(&format!("{} in", diameter / 25.4)));
        let close = |a: Option<f64>, b: Option<f64>| {
            let (a, b) = (a.unwrap(), b.unwrap());
            (a - b).abs() < 1e-7 * a.abs().max(1.0)
        };
        prop_assert!(close(past(&mm).interference_mm, past(&inch).interference_mm));
        prop_assert!(close(mm.push_force_n, inch.push_force_n));
        prop_assert!(close(mm.standard_uncertainty_n, inch.standard_uncertainty_n));
        prop_assert_eq!(mm.method, inch.method);
    }

    #[test]
    fn a_harder_rubber_a_tighter_lip_and_more_friction_push_back_harder(
        hardness in 45.0_f64..70.0,
        by in 1.0_f64..10.0,
        (diameter, wet) in (236.5_f64..238.5, 0.1_f64..0.6),
    ) {
        let of = |hardness: f64, diameter: f64, wet: f64| {
            let mut seal = with_lip(&format!("{diameter} mm"));
            let LoadRing::Toric(toric) = &mut seal.load_ring else { panic!("a toric") };
            toric.hardness = Typed::new(&format!("{hardness} Shore A")).ok();
            outcome(seal, wet).push_force_n.unwrap()
        };
        let push = of(hardness, diameter, wet);
        prop_assert!(of(hardness + by, diameter, wet) > push);
        prop_assert!(of(hardness, diameter - 0.1 * by, wet) > push);
        prop_assert!(of(hardness, diameter, wet + 0.01 * by) > push);
    }

    #[test]
    fn a_modulus_that_is_known_worse_never_knows_the_push_better(
        u in 0.0_f64..1.0,
        more in 1.0_f64..4.0,
    ) {
        let of = |u: f64| {
            let mut seal = seal();
            let LoadRing::Toric(toric) = &mut seal.load_ring else { panic!("a toric") };
            toric.hardness = None;
            toric.modulus = Typed::new("3.4 MPa").ok();
            toric.modulus_standard_uncertainty = Typed::new(&format!("{u} MPa")).ok();
            outcome(seal, WET).standard_uncertainty_n.unwrap()
        };
        prop_assert!(of(u) <= of(more * u) + 1e-9);
    }

    #[test]
    fn a_friction_that_is_known_worse_never_knows_the_push_better(
        u in 0.0_f64..0.2,
        more in 1.0_f64..3.0,
    ) {
        let of = |u: f64| {
            let given = Input { friction_uncertainty: Some(u), ..input(seal()) };
            evaluate_with(&given, &mut made_up).unwrap().standard_uncertainty_n.unwrap()
        };
        prop_assert!(of(u) <= of(more * u) + 1e-9);
    }

    #[test]
    fn stronger_hands_never_ask_for_a_harder_way(hand in 1.0_f64..900.0, more in 1.0_f64..900.0) {
        let of = |newton: f64| {
            let mut seal = seal();
            seal.fitting.hand_force = Typed::new(&format!("{newton} N")).ok();
            outcome(seal, WET)
        };
        let (weak, strong) = (of(hand), of(hand + more));
        let by_hand = |outcome: &Outcome| outcome.method == Some(Method::Hand);
        prop_assert!(by_hand(&strong) || !by_hand(&weak));
        prop_assert_eq!(weak.push_force_n, strong.push_force_n);
    }
}
