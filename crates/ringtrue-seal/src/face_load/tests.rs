use ringtrue_metrology::conformity::Verdict;
use uom::si::length::millimeter;

use std::f64::consts::PI;

use super::*;
use crate::definition;
use crate::definition::seal::LoadRing;
use crate::section::{Stopped, Why};

fn length(mm: f64) -> Length {
    Length::new::<millimeter>(mm)
}

fn seal() -> Seal {
    definition::read(definition::starter(definition::Kind::Seal)).unwrap()
}

fn input(seals: Seals) -> Input {
    Input {
        seals,
        materials: [None, None],
        gap_limits: (length(2.0), length(3.2)),
        nominal_gap: Some(length(2.6)),
        friction: None,
        levels: Levels::DEFAULT,
    }
}

/// The ramp case of `validation/reference/mechanics`: 12 mm section at 120 mm, 15 deg ramps.
fn reference_ramp() -> HalfProblem {
    HalfProblem {
        section: SectionOf::Toric {
            section_mm: 12.0,
            mean_radius_mm: 120.0,
            hoop_stretch: 1.0,
            ring_ramp_deg: 15.0,
            housing_ramp_deg: 15.0,
        },
        rubber: None,
        friction: None,
        travel_mm: 9.0,
        steps: 9,
    }
}

/// Travel, axial force per mm, roll in degrees.
const REFERENCE: [(f64, f64, f64); 5] = [
    (1.0, 0.0714, 4.599),
    (3.0, 0.2803, 13.777),
    (5.0, 0.5579, 22.908),
    (7.0, 0.9112, 31.968),
    (9.0, 1.3583, 40.95),
];

#[test]
fn the_half_problem_is_that_of_the_published_ramp_case() {
    let curve = reference_ramp().solve().unwrap();
    assert!(curve.complete, "{:?}", curve.stopped);
    // Axial force in N per mm at the mean radius for a shear modulus of 1 MPa, another code's
    // answer (FElupe 11.3.0, ramp_15deg_noslip.csv), within the two error bands added.
    for (travel, expected, roll) in REFERENCE {
        let point = curve.points.iter().find(|p| (p.travel_mm - travel).abs() < 1e-9).unwrap();
        let per_mm = point.force_n * 3.0 / (2.0 * PI * 120.0);
        assert!((per_mm / expected - 1.0).abs() < 0.02, "{travel} mm: {per_mm} for {expected}");
        assert!((point.roll_deg.abs() / roll - 1.0).abs() < 0.02, "{travel}: {}", point.roll_deg);
    }
}

#[test]
fn like_halves_share_the_travel_evenly() {
    let outcome = evaluate(&input(Seals::Alike(Box::new(seal())))).unwrap();
    assert!(outcome.complete && outcome.joint.alike);
    let nominal = outcome.joint.at_gap.nominal.unwrap();
    assert!((nominal.travel_a_mm - nominal.travel_b_mm).abs() < 1e-6);
    let free = outcome.halves[0].free_height_mm;
    assert!((nominal.travel_a_mm + nominal.travel_b_mm - (2.0 * free - 2.6)).abs() < 1e-9);
    // Tighter gaps press harder, and hardness alone leaves the load uncertain by a quarter.
    let at = outcome.joint.at_gap;
    let loads = [at.max, at.nominal, at.min].map(|load| load.unwrap().face_load_n_per_mm);
    assert!(loads[0] < loads[1] && loads[1] < loads[2], "{loads:?}");
    for load in [at.max, at.nominal, at.min].into_iter().flatten() {
        let relative = load.standard_uncertainty_n_per_mm / load.face_load_n_per_mm;
        assert!((relative - 0.251).abs() < 0.01, "{relative}");
    }
    // Equal ramps ask for little friction (reference/mechanics: 0.4 to 2.2 % of the normal force).
    let slip = outcome.halves[0].slip_friction.unwrap();
    assert!((0.002..0.022).contains(&slip), "{slip}");
}

#[test]
fn unlike_halves_carry_one_force_and_the_softer_travels_more() {
    let (stiff, mut soft) = (seal(), seal());
    if let LoadRing::Toric(toric) = &mut soft.load_ring {
        toric.hardness = None;
        toric.modulus = ringtrue_metrology::units::Given::new("2.5 MPa").ok();
        toric.modulus_standard_uncertainty = ringtrue_metrology::units::Given::new("0.2 MPa").ok();
    }
    let outcome = evaluate(&input(Seals::Joint(Box::new([stiff, soft])))).unwrap();
    let nominal = outcome.joint.at_gap.nominal.unwrap();
    assert!(nominal.travel_b_mm > nominal.travel_a_mm);
    let force = |half: usize, travel: f64| {
        let points = &outcome.halves[half].curve;
        let next = points.partition_point(|p| p.travel_mm < travel);
        let (a, b) = (&points[next - 1], &points[next]);
        let t = (travel - a.travel_mm) / (b.travel_mm - a.travel_mm);
        a.force_n + t * (b.force_n - a.force_n)
    };
    let (a, b) = (force(0, nominal.travel_a_mm), force(1, nominal.travel_b_mm));
    // Straight lines between the points here, a cubic there.
    assert!((a / b - 1.0).abs() < 0.01 && (a / nominal.force_n - 1.0).abs() < 0.01, "{a} {b}");
}

#[test]
fn loads_grow_in_proportion_to_a_measured_modulus() {
    let with = |modulus: &str| {
        let mut seal = seal();
        if let LoadRing::Toric(toric) = &mut seal.load_ring {
            toric.hardness = None;
            toric.modulus = ringtrue_metrology::units::Given::new(modulus).ok();
            toric.modulus_standard_uncertainty =
                ringtrue_metrology::units::Given::new("0.1 MPa").ok();
        }
        let curve = &mut |problems: &[HalfProblem]| {
            problems.iter().map(|_| Ok(straight())).collect::<Vec<_>>()
        };
        evaluate_with(&input(Seals::Alike(Box::new(seal))), curve).unwrap()
    };
    let load = |outcome: &Outcome| outcome.joint.at_gap.nominal.unwrap().face_load_n_per_mm;
    assert!((load(&with("6 MPa")) / load(&with("3 MPa")) - 2.0).abs() < 1e-9);
}

/// A made-up straight curve, for what does not depend on the mechanics.
fn straight() -> HalfCurve {
    let point = |i: u32| CurvePoint {
        travel_mm: f64::from(i),
        force_n: 100.0 * f64::from(i),
        roll_deg: 0.0,
        peak_mpa: 0.1,
        max_principal_stretch: 1.0 + 0.1 * f64::from(i),
        error_band_percent: None,
        slip_share: 0.0,
        friction_asked: 0.01,
    };
    HalfCurve {
        points: (0..12).map(point).collect(),
        error_band_percent: Some(1.0),
        peak_over_mm: 1.2,
        complete: true,
        stopped: None,
        picture: crate::section::Picture::default(),
    }
}

#[test]
fn a_curve_that_was_not_solved_to_its_end_proves_nothing() {
    let mut stopped = straight();
    stopped.complete = false;
    stopped.stopped = Some(Stopped { reached_percent: 40.0, why: Why::UsedUp(2000) });
    let solver =
        &mut |problems: &[HalfProblem]| problems.iter().map(|_| Ok(stopped.clone())).collect();
    let outcome = evaluate_with(&input(Seals::Alike(Box::new(seal()))), solver).unwrap();
    assert_eq!((outcome.verdict, outcome.complete), (Verdict::NotProven, false));
    assert!(outcome.remarks.iter().any(|remark| remark.contains("40.0 %")));
}

/// Softer halves are solved beyond the smallest gap: nothing is told of what lies there.
#[test]
fn nothing_is_told_of_travels_that_the_joint_never_comes_to() {
    let mut curve = straight();
    for point in curve.points.iter_mut().skip(10) {
        (point.roll_deg, point.slip_share, point.max_principal_stretch) = (80.0, 1.0, 9.0);
    }
    let outcome = of_curve(&input(Seals::Alike(Box::new(seal()))), &curve);
    let (half, at_gap) = (&outcome.halves[0], outcome.joint.at_gap);
    let deepest = at_gap.min.unwrap().travel_a_mm;
    assert!(deepest < 9.0, "{deepest}");
    assert!(half.largest_roll_deg == 0.0 && half.slides_from_travel_mm.is_none());
    assert!((half.largest_stretch - (1.0 + 0.1 * deepest)).abs() < 1e-9);
}

fn of_curve(input: &Input, curve: &HalfCurve) -> Outcome {
    let solver =
        &mut |problems: &[HalfProblem]| problems.iter().map(|_| Ok(curve.clone())).collect();
    evaluate_with(input, solver).unwrap()
}

#[test]
fn a_section_that_slides_and_a_band_that_says_nothing_are_said_in_words() {
    let mut sliding = straight();
    sliding.points.iter_mut().skip(2).for_each(|point| point.slip_share = 1.0);
    sliding.error_band_percent = Some(74.0);
    let outcome = of_curve(&input(Seals::Alike(Box::new(seal()))), &sliding);
    assert_eq!(outcome.verdict, Verdict::NotProven);
    assert!(outcome.halves[0].slides_from_travel_mm.is_some());
    let said = outcome.remarks.join("\n");
    assert!(said.contains("slides") && said.contains("74 % says nothing"), "{said}");
    // The same curve without sliding and with a usable band has neither remark.
    let calm = of_curve(&input(Seals::Alike(Box::new(seal()))), &straight());
    let said = calm.remarks.join("\n");
    assert!(!said.contains("slides") && !said.contains("says nothing"), "{said}");
}

#[test]
fn the_largest_stretch_is_set_against_the_elongation_at_break() {
    let with = |most: f64| {
        let mut material = crate::definition::material::shipped("NBR").unwrap().clone();
        let elongation = material.elongation_at_break.as_mut().unwrap();
        elongation.min = ringtrue_metrology::units::Given::new(&format!("{most} %")).unwrap();
        elongation.max = elongation.min.clone();
        let materials = [Some(Box::new(material)), None];
        let input = Input { materials, ..input(Seals::Alike(Box::new(seal()))) };
        of_curve(&input, &straight()).halves[0].stretch_at_break.clone().unwrap()
    };
    // The made-up curve is stretched by 10 % a mm of travel, straight between its points.
    let one = with(200.0);
    assert!((one.elongation_percent - 10.0 * one.travel_mm).abs() < 1e-9, "{one:?}");
    assert!((one.share - one.elongation_percent / 200.0).abs() < 1e-12);
    assert_eq!(one.finding.verdict, Verdict::Conforms);
    assert_eq!(with(one.elongation_percent * 0.9).finding.verdict, Verdict::DoesNotConform);
}

/// Tests of a Yeoh law whose first constant is `c10`, with a stiffening far above it.
fn tested(c10: f64) -> Material {
    use crate::definition::Number;
    use crate::definition::stiffness::{Law, Stiffness, StretchTest, TestMode};
    let law = ringtrue_fem::material::Yeoh { c10, c20: 0.4 * c10, c30: 0.05 * c10, bulk: 1.0 };
    let point = |k: i32| {
        let l = 0.6 + 0.1 * f64::from(k);
        let mode = ringtrue_fem::material::Mode::Uniaxial;
        [Number(l), Number(ringtrue_fem::material::nominal_stress(&law, mode, l))]
    };
    let mut material = crate::definition::material::shipped("NBR").unwrap().clone();
    material.stiffness = Some(Stiffness {
        law: Law::Yeoh,
        terms: None,
        largest_stretch: None,
        batch_standard_uncertainty: Some(ringtrue_metrology::units::Given::new("10 %").unwrap()),
        source: "made up".to_owned(),
        tests: vec![StretchTest {
            mode: TestMode::Uniaxial,
            file: None,
            points_mpa: (0..15).map(point).collect(),
        }],
    });
    material
}

#[test]
fn stretch_tests_go_before_a_hardness_and_stiffen_the_curve() {
    let base = input(Seals::Alike(Box::new(seal())));
    let of = |material: Option<Material>| {
        evaluate(&Input { materials: [material.map(Box::new), None], ..base.clone() }).unwrap()
    };
    let outcome = of(Some(tested(0.6)));
    let modulus = outcome.halves[0].modulus.unwrap();
    // E = 6 C10 at zero strain; exact points leave the batch's 10 % alone.
    assert!((modulus.young_mpa - 3.6).abs() < 1e-6, "{modulus:?}");
    assert_eq!(modulus.basis, crate::rubber::ModulusBasis::Tests);
    assert!((modulus.relative_standard_uncertainty - 0.1).abs() < 1e-6, "{modulus:?}");
    let load = |outcome: &Outcome| outcome.joint.at_gap.min.unwrap();
    let neo = of(None);
    let scaled = load(&neo).face_load_n_per_mm * 3.6 / neo.halves[0].modulus.unwrap().young_mpa;
    // Small-strain modulus alike: the law that stiffens carries more.
    let stiffer = load(&outcome).face_load_n_per_mm / scaled;
    assert!(stiffer > 1.01 && stiffer < 2.0, "{stiffer}");
    let u = load(&outcome).standard_uncertainty_n_per_mm / load(&outcome).face_load_n_per_mm;
    assert!(u > 0.09 && u < 0.11, "{u}");
}

#[test]
fn the_disc_spring_formula_gives_table_values() {
    // DIN EN 16983 group 2, force at s = 0.75 h0 as tabled (three figures).
    let rows = [
        (31.5, 16.3, 1.75, 2.45, 3870.0),
        (50.0, 25.4, 3.0, 4.1, 12_000.0),
        (100.0, 51.0, 6.0, 8.2, 48_000.0),
        (71.0, 36.0, 2.5, 4.5, 6720.0),
    ];
    for (outside, inside, thickness, height, force) in rows {
        let spring = disc_spring::DiscSpring {
            outside_diameter_mm: outside,
            inside_diameter_mm: inside,
            thickness_mm: thickness,
            cone_height_mm: height - thickness,
            young_mpa: 206_000.0,
            poisson: 0.3,
        };
        let computed = spring.force_n(0.75 * spring.cone_height_mm);
        assert!((computed / force - 1.0).abs() < 0.005, "{outside}: {computed} for {force}");
    }
}
