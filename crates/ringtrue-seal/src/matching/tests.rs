use jiff::civil::date;
use proptest::prelude::*;

use super::*;
use crate::definition::joint::{JointFile, assemble};
use crate::definition::{Kind, read, starter};

fn joint_of(text: &str) -> JointInput {
    let file: JointFile = read(text).unwrap_or_else(|error| panic!("{error}"));
    let joint = assemble(file, |_, _| Err(())).unwrap();
    JointInput { joint, material_a: None, material_b: None }
}

fn judge(text: &str) -> Outcome {
    evaluate(&Input::Joint(Box::new(joint_of(text)))).unwrap()
}

/// The starter with one thing changed, in half `a` where both have it.
fn changed(from: &str, to: &str) -> Outcome {
    let starter = starter(Kind::Joint);
    assert!(starter.contains(from), "no {from:?}");
    judge(&starter.replacen(from, to, 1))
}

fn seal_of(text: &str) -> Outcome {
    let seal = read(text).unwrap_or_else(|error| panic!("{error}"));
    evaluate(&Input::Seal(Box::new(SealInput { seal, material: None }))).unwrap()
}

fn find<'o>(outcome: &'o Outcome, what: &str) -> &'o Finding {
    outcome.findings.iter().find(|finding| finding.what == what).unwrap_or_else(|| {
        let all: Vec<_> = outcome.findings.iter().map(|finding| &finding.what).collect();
        panic!("no finding `{what}` in {all:#?}")
    })
}

/// One finding's verdict is as wanted, and every other one conforms.
fn only(outcome: &Outcome, what: &str, verdict: Verdict, said: &str) {
    let finding = find(outcome, what);
    assert_eq!(finding.verdict, verdict, "{finding:?}");
    let words = format!("{} / {}", finding.found, finding.fits);
    assert!(words.contains(said), "{words}");
    assert_eq!(outcome.verdict, verdict);
    for other in outcome.findings.iter().filter(|other| other.what != what) {
        assert_eq!(other.verdict, Verdict::Conforms, "{other:?}");
    }
}

#[test]
fn the_starters_conform() {
    let joint = judge(starter(Kind::Joint));
    assert!(joint.findings.iter().all(|f| f.verdict == Verdict::Conforms), "{joint:#?}");
    assert_eq!(seal_of(starter(Kind::Seal)).verdict, Verdict::Conforms);
    let gauge: Gauge = read(starter(Kind::Gauge)).unwrap();
    let outcome = evaluate(&Input::Gauge { gauge, today: date(2026, 11, 25) }).unwrap();
    assert_eq!(outcome.verdict, Verdict::Conforms);
    let material: Material = read(starter(Kind::Material)).unwrap();
    assert_eq!(evaluate(&Input::Material(Box::new(material))).unwrap().verdict, Verdict::Conforms);
}

#[test]
fn every_check_is_made_once_a_half_in_a_complete_joint() {
    let outcome = judge(starter(Kind::Joint));
    let of = |half| outcome.findings.iter().filter(|f| f.half == half).count();
    // 9 of geometry, 3 of the material alone, 3 of the material in service, 4 of the service.
    assert_eq!((of(Some(Half::A)), of(Some(Half::B)), of(None)), (19, 19, 4));
    for finding in &outcome.findings {
        assert!(!finding.found.is_empty() && !finding.fits.is_empty(), "{finding:?}");
    }
}

const DIFFERENCE: &str =
    "[half.a.seal.limits.ramp_angle_difference]\nmax = \"0.5 deg\"\norigin = \"example\"\n";

#[test]
fn ramp_angles() {
    let what = "ring ramp angle against housing ramp angle";
    let housing = "angle = \"15 deg\"\ndiameter = \"238.9 mm\"";
    let other = |angle: &str| housing.replace("15 deg", angle);
    // 0.4 deg also moves the free height, by less than its limits leave.
    only(&changed(housing, &other("15.4 deg")), what, Verdict::Conforms, "15.4 deg");
    only(&changed(housing, &other("15.5 deg")), what, Verdict::Conforms, "15.5 deg");
    only(&changed(housing, &other("15.6 deg")), what, Verdict::DoesNotConform, "at most 0.5 deg");
    only(&changed(housing, &other("20 deg")), what, Verdict::DoesNotConform, "ring 15 deg");
    // Without a stated difference the typed digits decide.
    let without = |ring: &str, angle: &str| {
        let text = starter(Kind::Joint).replace(DIFFERENCE, "").replacen(housing, &other(angle), 1);
        let ring_ramp = "angle = \"15 deg\"\ndiameter = \"216 mm\"";
        judge(&text.replacen(ring_ramp, &ring_ramp.replace("15 deg", ring), 1))
    };
    assert_eq!(find(&without("15 deg", "15 deg"), what).verdict, Verdict::Conforms);
    assert_eq!(find(&without("15 deg", "15.00 deg"), what).verdict, Verdict::Conforms);
    assert_eq!(find(&without("15 deg", "15.4 deg"), what).verdict, Verdict::Conforms);
    assert_eq!(find(&without("15.0 deg", "15.4 deg"), what).verdict, Verdict::DoesNotConform);
    assert_eq!(find(&without("15 deg", "20 deg"), what).verdict, Verdict::DoesNotConform);
}

#[test]
fn the_installing_tool() {
    let angle = "installing tool's ramp angle against ring ramp angle";
    let outcome = changed("ramp_angle = \"15 deg\"", "ramp_angle = \"20 deg\"");
    only(&outcome, angle, Verdict::DoesNotConform, "20 deg");
    let diameter = "installing tool's diameter against the circle it bears on";
    let tool = "diameter = \"227.5 mm\"";
    only(&changed(tool, "diameter = \"228.4 mm\""), diameter, Verdict::Conforms, "227.43 mm");
    only(
        &changed(tool, "diameter = \"228.5 mm\""),
        diameter,
        Verdict::DoesNotConform,
        "at most 1 mm",
    );
    let limit =
        "[half.a.seal.limits.tool_diameter_difference]\nmax = \"1 mm\"\norigin = \"example\"\n";
    let free = |to: &str| judge(&starter(Kind::Joint).replace(limit, "").replacen(tool, to, 1));
    only(&free("diameter = \"235 mm\""), diameter, Verdict::Conforms, "between");
    only(&free("diameter = \"240 mm\""), diameter, Verdict::DoesNotConform, "239.26 mm");
}

#[test]
fn stretch_of_the_toric() {
    let what = "stretch of the toric on the ring";
    let inside = "inside_diameter = \"209 mm\"";
    let to = |d: &str| changed(inside, &format!("inside_diameter = \"{d}\""));
    assert_eq!(find(&to("214 mm"), what).verdict, Verdict::DoesNotConform);
    assert_eq!(find(&to("213 mm"), what).verdict, Verdict::Conforms);
    assert_eq!(find(&to("205 mm"), what).verdict, Verdict::DoesNotConform);
    let loose = to("220 mm");
    assert!(find(&loose, what).fits.contains("loose"));
    assert_eq!(find(&loose, what).verdict, Verdict::DoesNotConform);
}

#[test]
fn the_lip() {
    let lip = "diameter = \"237.5 mm\"";
    let to = |d: &str| changed(lip, &format!("diameter = \"{d}\""));
    let keeps = "lip diameter against mounted toric";
    only(&to("239.2 mm"), keeps, Verdict::Conforms, "0.06 mm");
    only(&to("239.3 mm"), keeps, Verdict::DoesNotConform, "keep it in");
    only(&to("215 mm"), "lip diameter against ring", Verdict::DoesNotConform, "can't pass");
    let behind = find(&to("244 mm"), "lip diameter against housing ramp").clone();
    assert_eq!(behind.verdict, Verdict::DoesNotConform, "{behind:?}");
    // The cone behind a lip 3 mm high: 238.9 + 2 (11 - 3) tan 15 deg = 243.19 mm.
    assert!(behind.found.contains("243.19 mm"), "{behind:?}");
}

#[test]
fn heights() {
    let what = "free height against assembled-height limits";
    let min = "min = \"9.2 mm\"\nmax = \"10.8 mm\"";
    only(
        &changed(min, "min = \"10 mm\"\nmax = \"10.8 mm\""),
        what,
        Verdict::DoesNotConform,
        "loose",
    );
    only(&changed(min, "min = \"9 mm\"\nmax = \"9.9 mm\""), what, Verdict::NotProven, "friction");
    only(&changed(min, "max = \"10 mm\""), what, Verdict::Conforms, "9.97 mm");
    let depth = changed("depth = \"24 mm\"", "depth = \"11 mm\"");
    only(&depth, "place of the toric against housing depth", Verdict::DoesNotConform, "11.09 mm");
}

#[test]
fn fluids() {
    let oil = "load ring material against oil";
    let starter = starter(Kind::Joint);
    let in_oil = |fluid: &str| {
        judge(&starter.replace("oil = \"mineral-oil\"", &format!("oil = \"{fluid}\"")))
    };
    assert_eq!(find(&in_oil("ketone"), oil).verdict, Verdict::DoesNotConform);
    assert_eq!(find(&in_oil("isopropyl-alcohol"), oil).verdict, Verdict::NotProven);
    let unknown = in_oil("Mineral oil");
    assert_eq!(find(&unknown, oil).verdict, Verdict::NotProven);
    assert!(find(&unknown, oil).fits.contains("did you mean `mineral-oil`?"), "{unknown:#?}");
    let agent = "load ring material against cleaning agent";
    let wiped = |fluid: &str| changed("isopropyl-alcohol", fluid);
    // NBR in alcohols is fair to good: enough for a wipe, not proven for a life.
    only(&wiped("aromatic-solvent"), agent, Verdict::Conforms, "fair to good");
    only(&wiped("ketone"), agent, Verdict::DoesNotConform, "poor");
    only(&wiped("brake-cleaner"), agent, Verdict::NotProven, "known are mineral-oil");
    let dry = wiped("none");
    assert!(!dry.findings.iter().any(|f| f.half == Some(Half::A) && f.what == agent));
    assert!(find(&in_oil("mineral-oil"), oil).sources[0].contains("rubber moulder"));
}

#[test]
fn materials() {
    let what = "load ring material against fluids and temperatures";
    let of = |material: &str| changed("material = \"NBR\"", &format!("material = \"{material}\""));
    only(&of("FVMQ"), what, Verdict::NotProven, "no figures are at hand for FVMQ");
    only(&of("rubber"), what, Verdict::NotProven, "ISO 1629");
    let epdm = of("EPDM");
    assert_eq!(find(&epdm, "load ring material against oil").verdict, Verdict::DoesNotConform);
    let mut input = joint_of(&starter(Kind::Joint).replacen("\"NBR\"", "\"own.toml\"", 1));
    let missing = evaluate(&Input::Joint(Box::new(input.clone()))).unwrap_err();
    assert!(missing.to_string().contains("own.toml"), "{missing}");
    input.material_a = Some(read(starter(Kind::Material)).unwrap());
    let outcome = evaluate(&Input::Joint(Box::new(input))).unwrap();
    // Its service temperatures end at -25 degC, the seal's limit goes on to -30 degC.
    only(&outcome, "lower temperature limit against material", Verdict::DoesNotConform, "-25 degC");
}

#[test]
fn temperatures() {
    let starter = starter(Kind::Joint);
    let hot = "hottest service against material";
    let at = |max: &str| {
        judge(
            &starter
                .replace("temperature_max = \"85 degC\"", &format!("temperature_max = \"{max}\"")),
        )
    };
    // NBR: 100 degC is the narrowest claim and 125 degC the widest.
    assert_eq!(find(&at("100 degC"), hot).verdict, Verdict::Conforms);
    assert_eq!(find(&at("212 degF"), hot).verdict, Verdict::Conforms);
    assert_eq!(find(&at("101 degC"), hot).verdict, Verdict::NotProven);
    assert_eq!(find(&at("126 degC"), hot).verdict, Verdict::DoesNotConform);
    assert_eq!(find(&at("126 degC"), hot).sources.len(), 2);
    let limit = "hottest service against its limit";
    assert_eq!(find(&at("90 degC"), limit).verdict, Verdict::Conforms);
    assert_eq!(find(&at("91 degC"), limit).verdict, Verdict::DoesNotConform);
    let cold =
        judge(&starter.replace("temperature_min = \"-25 degC\"", "temperature_min = \"-60 degC\""));
    assert_eq!(find(&cold, "coldest start against material").verdict, Verdict::DoesNotConform);
    let natural = changed("material = \"NBR\"", "material = \"NR\"");
    assert_eq!(find(&natural, hot).verdict, Verdict::NotProven);
}

#[test]
fn service() {
    let starter = starter(Kind::Joint);
    let what = "sliding speed against its limit";
    let turning =
        |rpm: &str| judge(&starter.replace("speed = \"60 rpm\"", &format!("speed = \"{rpm}\"")));
    // 60 rpm at 225 mm: pi 0.225 m a second.
    assert!(find(&turning("60 rpm"), what).found.contains("0.71 m/s"));
    assert_eq!(find(&turning("127 rpm"), what).verdict, Verdict::Conforms);
    assert_eq!(find(&turning("128 rpm"), what).verdict, Verdict::DoesNotConform);
    let what = "pressure difference against its limit";
    let none = judge(&starter.replace("pressure_difference = \"0.03 MPa\"\n", ""));
    assert_eq!(find(&none, what).verdict, Verdict::NotProven);
    let high = judge(&starter.replace("\"0.03 MPa\"", "\"2.1 bar\""));
    assert_eq!(find(&high, what).verdict, Verdict::DoesNotConform);
}

#[test]
fn gap_and_chain() {
    let what = "dimension chain against gap limits";
    let own = "min = \"2.1 mm\"\nmax = \"3.1 mm\"";
    let outcome = judge(starter(Kind::Joint));
    // 62 ± 0.15, 48 +0/-0.12, 107.4 h11 (0/-0.22): 2.6 nominal, 2.33 to 2.97.
    assert!(find(&outcome, what).found.contains("2.60 mm nominal, 2.33 mm to 2.97 mm"));
    only(&changed(own, "min = \"2.33 mm\"\nmax = \"2.97 mm\""), what, Verdict::Conforms, "2.33 mm");
    only(&changed(own, "min = \"2.4 mm\""), what, Verdict::NotProven, "ringtrue gap");
    only(&changed(own, "min = \"2.7 mm\""), what, Verdict::DoesNotConform, "2.70 mm to 3.20 mm");
    let agree = "gap limits against each other";
    let clash = changed(own, "min = \"3.3 mm\"\nmax = \"3.5 mm\"");
    assert_eq!(find(&clash, agree).verdict, Verdict::DoesNotConform);
    let text = starter(Kind::Joint).lines().collect::<Vec<_>>().join("\n");
    let mut input = joint_of(&text);
    input.joint.file.gap.limits = None;
    input.joint.a.limits.seal_gap = None;
    input.joint.b.limits.seal_gap = None;
    let bare = evaluate(&Input::Joint(Box::new(input))).unwrap();
    only(&bare, what, Verdict::NotProven, "limits.seal_gap");
}

#[test]
fn halves() {
    let what = "gap limits against free heights";
    let low = changed("plane_from_face = \"18 mm\"", "plane_from_face = \"1 mm\"");
    let finding = find(&low, what);
    // -7.03 mm and 9.97 mm: the faces part at 2.95 mm, between the limits of 2.1 and 3.1 mm.
    assert_eq!(finding.verdict, Verdict::NotProven, "{finding:?}");
    let lower = changed("plane_from_face = \"18 mm\"", "plane_from_face = \"0.1 mm\"");
    assert_eq!(find(&lower, what).verdict, Verdict::DoesNotConform);
    let bands = changed(
        "contact_band_outer_diameter = \"228 mm\"\ncontact_band_inner_diameter = \"222 mm\"",
        "contact_band_outer_diameter = \"222 mm\"\ncontact_band_inner_diameter = \"216 mm\"",
    );
    let what = "contact band of half a against half b";
    assert_eq!(find(&bands, what).verdict, Verdict::DoesNotConform);
}

#[test]
fn a_conical_washer_has_checks_of_its_own() {
    let washer = include_str!("../../tests/data/washer_seal.toml");
    let outcome = seal_of(washer);
    let whats: Vec<_> = outcome.findings.iter().map(|f| f.what.as_str()).collect();
    assert_eq!(whats, ["load ring material against cleaning agent"]);
    let more = format!(
        "{washer}\n[limits.assembled_height]\nmin = \"5 mm\"\nmax = \"7 mm\"\n\
         origin = \"example\"\n[tool]\nname = \"ring\"\ndiameter = \"235 mm\"\n"
    );
    let outcome = seal_of(&more);
    assert_eq!(outcome.verdict, Verdict::Conforms, "{outcome:#?}");
    assert!(
        find(&outcome, "free height against assembled-height limits").found.contains("6.00 mm")
    );
    let small = seal_of(&more.replace("235 mm", "200 mm"));
    let what = "installing tool's diameter against the circle it bears on";
    only(&small, what, Verdict::DoesNotConform, "240.00 mm");
    let steel = more
        .replace("material = \"NBR\"", "material = \"steel\"")
        .replace("\"65 Shore A\"", "\"45 HRC\"");
    assert!(seal_of(&steel).findings.iter().all(|f| !f.what.contains("material")));
}

#[test]
fn gauge_and_material() {
    let gauge: Gauge = read(&starter(Kind::Gauge).replace("2099-12-31", "2026-11-25")).unwrap();
    let on = |today| {
        let input = Input::Gauge { gauge: gauge.clone(), today };
        evaluate(&input).unwrap().verdict
    };
    assert_eq!(on(date(2026, 11, 25)), Verdict::Conforms);
    assert_eq!(on(date(2026, 11, 26)), Verdict::DoesNotConform);
    let text = starter(Kind::Material).replace("\"HNBR\"", "\"XNBR\"");
    let material: Material = read(&text).unwrap();
    let outcome = evaluate(&Input::Material(Box::new(material))).unwrap();
    assert_eq!(outcome.verdict, Verdict::NotProven);
}

#[test]
fn an_inch_drawing_is_answered_in_inches() {
    let text = starter(Kind::Seal)
        .replace("face_outer_diameter = \"230 mm\"", "face_outer_diameter = \"9.055 in\"");
    let outcome = seal_of(&text);
    let finding = find(&outcome, "lip diameter against mounted toric");
    assert!(finding.found.contains("9.420 in"), "{finding:?}");
}

proptest! {
    #[test]
    fn the_same_joint_in_inches_gets_the_same_verdicts(
        inside in 200.0..222.0f64,
        lip in 210.0..245.0f64,
        plane in 2.0..20.0f64,
    ) {
        let judged = |unit: &str, per: f64| {
            let mut text = starter(Kind::Joint).to_owned();
            let sizes = [
                ("inside_diameter = \"209", inside),
                ("diameter = \"237.5", lip),
                ("plane_from_face = \"18", plane),
            ];
            for (size, value) in sizes {
                let (key, _) = size.split_once('"').unwrap();
                let other = format!("{key}\"{:.9} {unit}\"", value / per);
                text = text.replace(&format!("{size} mm\""), &other);
            }
            judge(&text).findings.iter().map(|f| f.verdict).collect::<Vec<_>>()
        };
        prop_assert_eq!(judged("mm", 1.0), judged("in", 25.4));
    }
}
