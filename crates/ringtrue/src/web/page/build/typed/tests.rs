//! What is typed, as definitions: paths, corners, another load ring.

use super::*;

#[test]
fn paths_lead_to_the_field_that_they_stand_in() {
    let rows = [2, 5];
    assert_eq!(field_of("service.speed", &rows), "service.speed");
    assert_eq!(field_of("gap.link[2].upper", &rows), "gap.link[5].upper");
    assert_eq!(field_of("gap.link[1]", &rows), "gap.link[2].name");
    assert_eq!(field_of("gap.link", &[]), "gap.link[1].name");
    assert_eq!(field_of("gap.shims_on_hand[2]", &rows), SHIMS);
    assert_eq!(seal_field("ring.mass"), "ring.mass");
    assert_eq!(seal_field("housing.lip"), "housing.lip.diameter");
    assert_eq!(seal_field("ring"), "ring.face_outer_diameter");
}

/// A half of which this is typed, over a starter of the library.
fn half(load_ring: LoadRingType, typed: &[(&str, &str)]) -> HalfTyped {
    let text = definition::starter_with(Kind::Seal, load_ring).unwrap().to_owned();
    let document = ringtrue_job::digest::Digest::of(text.as_bytes());
    let edition = Edition {
        kind: Kind::Seal.name().to_owned(),
        name: "starter".to_owned(),
        text,
        document,
        brought_by: "Kim".to_owned(),
        brought_at: String::new(),
    };
    let mut query = form_urlencoded::Serializer::new(String::new());
    query.append_pair("half.a.from", &document.to_string());
    for (path, text) in typed {
        query.append_pair(&field(Half::A, &format!("seal.{path}")), text);
    }
    let fields = Fields::of_query(Some(&query.finish()));
    HalfTyped::of(Half::A, &fields, (&[edition], System::Millimetre))
}

fn paths(half: &HalfTyped) -> Vec<&str> {
    half.flaws.iter().map(|flaw| flaw.misfit.path.as_str()).collect()
}

#[test]
fn a_washer_of_the_library_is_changed_in_single_corners() {
    let washer = LoadRingType::ConicalWasher;
    let as_bought = half(washer, &[]);
    assert_eq!(as_bought.load_ring, washer);
    assert!(as_bought.text.starts_with('#') && as_bought.seal.is_some());
    let changed = half(washer, &[(&corner_path(2, "radius"), "108.5")]);
    assert_eq!(paths(&changed), [""; 0]);
    let outline = |half: &HalfTyped| {
        let table: Table = half.text.parse().unwrap();
        get(&table, OUTLINE).unwrap().to_string()
    };
    assert!(outline(&changed).contains(r#"["108.5 mm", "0 mm"]"#), "{}", outline(&changed));
    assert_eq!(outline(&changed).matches('[').count(), 5);
    // A modulus in the place of the hardness.
    let modulus = half(washer, &[("load_ring.conical_washer.modulus", "4.4")]);
    assert_eq!(paths(&modulus), [""; 0]);
    assert!(!modulus.text.contains("Shore") && modulus.seal.is_some());
}

#[test]
fn another_load_ring_asks_for_its_own_sizes_alone() {
    let washer = half(LoadRingType::Toric, &[("load_ring", "conical-washer")]);
    let told = paths(&washer);
    assert!(told.contains(&corner_path(1, "radius").as_str()), "{told:?}");
    assert!(told.iter().all(|path| path.starts_with("load_ring.conical_washer.")), "{told:?}");
    assert!(!washer.text.contains("toric") && washer.seal.is_none());
    let toric = half(LoadRingType::ConicalWasher, &[("load_ring", "toric")]);
    let told = paths(&toric);
    let own = ["load_ring.toric.", "ring.ramp.", "housing.ramp.", "tool"];
    let is_own = |path: &&str| own.iter().any(|part| path.starts_with(part));
    assert!(told.len() > 8 && told.iter().all(is_own), "{told:?}");
    // What is typed of a load ring that the half has not is kept in the form and not used.
    let other = half(LoadRingType::Toric, &[("load_ring.conical_washer.material", "EPDM")]);
    assert!(paths(&other).is_empty() && !other.text.contains("= \"EPDM\""));
}

#[test]
fn half_a_corner_wants_its_other_half() {
    let (radius, axial) = (corner_path(5, "radius"), corner_path(5, "axial"));
    let washer = half(LoadRingType::ConicalWasher, &[(&radius, "112")]);
    let flaw = washer.flaws.iter().find(|flaw| flaw.misfit.path == axial).unwrap();
    assert_eq!(flaw.why, Why::Missing);
}

#[test]
fn keys_are_named_as_their_fields_are() {
    let said = with_names(
        "`face_inner_diameter` is `300 mm` and `face_outer_diameter` is `266 mm`",
        "ring.face_inner_diameter",
        true,
    );
    assert!(!said.contains('_') && said.contains("“300 mm”"), "{said}");
}
