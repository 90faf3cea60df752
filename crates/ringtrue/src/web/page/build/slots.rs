//! The fields of the form: each is a key of the joint file or of a seal file, by its path.

use ringtrue_metrology::units::System;

/// What a field takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Takes {
    /// Words.
    Text,
    /// A number with a unit; a bare one is in the first unit, or the second one for inches.
    Quantity([&'static str; 2]),
    /// A whole number.
    Count,
    /// One of these words.
    OneOf(&'static [&'static str]),
}

/// May a field stay empty?
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Need {
    Always,
    IfAny,
}

/// A field of the form.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Slot {
    /// Path of its key, from the top of its file.
    pub(crate) path: &'static str,
    pub(crate) takes: Takes,
    pub(crate) need: Need,
    /// How one is typed.
    pub(crate) example: &'static str,
}

impl Slot {
    /// The unit of a bare number; empty where there is none.
    pub(crate) fn unit(&self, system: System) -> &'static str {
        match (self.takes, system) {
            (Takes::Quantity([unit, _]), System::Millimetre)
            | (Takes::Quantity([_, unit]), System::Inch) => unit,
            (Takes::Text | Takes::Count | Takes::OneOf(_), _) => "",
        }
    }

    /// Key of its name in the language file; that of its explanation ends in `-help`.
    pub(crate) fn word(&self) -> String {
        format!("build-{}", self.path.replace(['.', '_'], "-"))
    }
}

/// Fields under one heading.
pub(crate) struct Group {
    /// Key of the heading in the language file.
    pub(crate) word: &'static str,
    pub(crate) slots: &'static [Slot],
}

const LENGTH: Takes = Takes::Quantity(["mm", "in"]);
const ANGLE: Takes = Takes::Quantity(["deg", "deg"]);
const LINE_LOAD: Takes = Takes::Quantity(["N/mm", "lbf/in"]);
const TEMPERATURE: Takes = Takes::Quantity(["degC", "degF"]);

const fn wanted(path: &'static str, takes: Takes, example: &'static str) -> Slot {
    Slot { path, takes, need: Need::Always, example }
}

const fn if_any(path: &'static str, takes: Takes, example: &'static str) -> Slot {
    Slot { path, takes, need: Need::IfAny, example }
}

/// The joint itself.
pub(crate) static JOINT: &[Slot] = &[
    wanted("name", Takes::Text, "final drive, left"),
    if_any("shop", Takes::Text, "Harbour Lane Rebuild Shop"),
    if_any("machine", Takes::Text, "wheeled carrier 14"),
    wanted("attitude", Takes::OneOf(&["shaft-horizontal", "shaft-vertical"]), ""),
];

/// How the joint runs.
pub(crate) static SERVICE: &[Slot] = &[
    wanted("service.speed", Takes::Quantity(["rpm", "rpm"]), "85 rpm"),
    wanted("service.oil", Takes::Text, "mineral-oil"),
    if_any("service.oil_grade", Takes::Text, "ISO VG 220"),
    wanted("service.temperature_min", TEMPERATURE, "-25 degC"),
    wanted("service.temperature_max", TEMPERATURE, "85 degC"),
    if_any("service.pressure_difference", Takes::Quantity(["MPa", "psi"]), "0.03 MPa"),
];

/// The limits of the gap, and the shims on hand.
pub(crate) static GAP: &[Slot] = &[
    if_any("gap.limits.min", LENGTH, "2.1 mm"),
    if_any("gap.limits.max", LENGTH, "3.1 mm"),
    if_any(SHIMS, Takes::Text, "0.1 mm; 0.2 mm; 0.5 mm"),
];

/// The one field that takes a list.
pub(crate) const SHIMS: &str = "gap.shims_on_hand";

/// A dimension of the chain; its path goes on behind `gap.link[N]`.
pub(crate) static LINK: &[Slot] = &[
    wanted("name", Takes::Text, "frame face to bearing seat"),
    wanted("sign", Takes::OneOf(&["+", "-"]), ""),
    wanted("nominal", LENGTH, "71.5 mm"),
    if_any("plus_minus", LENGTH, "0.15 mm"),
    if_any("upper", LENGTH, "0 mm"),
    if_any("lower", LENGTH, "-0.2 mm"),
    if_any("class", Takes::Text, "h11"),
];

/// A seal; its path goes on behind `half.a.seal`.
pub(crate) static SEAL: &[Group] = &[
    Group { word: "build-of-parts", slots: PARTS },
    Group { word: "build-of-ring", slots: RING },
    Group { word: "build-of-toric", slots: TORIC },
    Group { word: "build-of-housing", slots: HOUSING },
    Group { word: "build-of-limits", slots: LIMITS },
    Group { word: "build-of-fitting", slots: FITTING },
];

static PARTS: &[Slot] = &[
    wanted("name", Takes::Text, "final drive 260-15, frame side"),
    if_any("identity.drawing", Takes::Text, "HL-2207-11 revision D"),
    if_any("identity.ring_batch", Takes::Text, "R-1192"),
    if_any("identity.load_ring_batch", Takes::Text, "T-3308"),
    if_any("identity.load_ring_cured", Takes::Text, "2026-03-09"),
];

static RING: &[Slot] = &[
    wanted("ring.face_outer_diameter", LENGTH, "266 mm"),
    wanted("ring.face_inner_diameter", LENGTH, "232 mm"),
    wanted("ring.contact_band_outer_diameter", LENGTH, "263 mm"),
    wanted("ring.contact_band_inner_diameter", LENGTH, "257 mm"),
    if_any("ring.measuring_diameter", LENGTH, "260 mm"),
    wanted("ring.ramp.angle", ANGLE, "15 deg"),
    wanted("ring.ramp.diameter", LENGTH, "251 mm"),
    wanted("ring.ramp.plane_from_face", LENGTH, "18 mm"),
    wanted("ring.mass", Takes::Quantity(["kg", "lb"]), "2.3 kg"),
];

/// Where the measured modulus would contradict a typed hardness.
pub(crate) const HARDNESS: &str = "load_ring.toric.hardness";

static TORIC: &[Slot] = &[
    wanted("load_ring.toric.section_diameter", LENGTH, "12 mm"),
    wanted("load_ring.toric.inside_diameter", LENGTH, "244 mm"),
    wanted("load_ring.toric.material", Takes::Text, "NBR"),
    wanted(HARDNESS, Takes::Quantity(["Shore A", "Shore A"]), "60 Shore A"),
];

static HOUSING: &[Slot] = &[
    wanted("housing.depth", LENGTH, "28 mm"),
    if_any("housing.face_outer_diameter", LENGTH, "320 mm"),
    wanted("housing.ramp.angle", ANGLE, "15 deg"),
    wanted("housing.ramp.diameter", LENGTH, "274.4 mm"),
    wanted("housing.ramp.plane_from_face", LENGTH, "9 mm"),
    if_any("housing.lip.diameter", LENGTH, "272.6 mm"),
    if_any("housing.lip.height", LENGTH, "3 mm"),
];

static LIMITS: &[Slot] = &[
    if_any("limits.seal_gap.min", LENGTH, "2 mm"),
    if_any("limits.seal_gap.max", LENGTH, "3.2 mm"),
    if_any("limits.face_load.min", LINE_LOAD, "1.2 N/mm"),
    if_any("limits.face_load.max", LINE_LOAD, "5 N/mm"),
    if_any("limits.assembled_height.min", LENGTH, "10.2 mm"),
    if_any("limits.assembled_height.max", LENGTH, "11.8 mm"),
    if_any("limits.height_range.max", LENGTH, "1 mm"),
    if_any(ORIGIN, Takes::Text, "drawing HL-2207-11"),
];

/// Where the limits come from that are typed: one field for all of them.
pub(crate) const ORIGIN: &str = "limits.origin";

static FITTING: &[Slot] = &[
    if_any("fitting.pressed_up_to", LENGTH, "300 mm"),
    wanted("fitting.chilling", Takes::OneOf(&["allowed", "not-allowed"]), ""),
    wanted("fitting.most_tries", Takes::Count, "3"),
    wanted("fitting.cleaning_agent", Takes::Text, "isopropyl-alcohol"),
    if_any("tool.name", Takes::Text, "tool HL-T15-262"),
    if_any("tool.ramp_angle", ANGLE, "15 deg"),
    if_any("tool.diameter", LENGTH, "262.4 mm"),
];

/// All fields of a seal.
pub(crate) fn of_seal() -> impl Iterator<Item = &'static Slot> {
    SEAL.iter().flat_map(|group| group.slots)
}

#[cfg(test)]
mod tests {
    use toml::{Table, Value};

    use super::*;
    use crate::web::words::english;
    use ringtrue_seal::definition::{Kind, schema, starter};

    #[test]
    fn every_field_has_a_name_and_an_explanation() {
        let links = LINK.iter().map(|slot| format!("build-link-{}", slot.path.replace('_', "-")));
        let others = JOINT.iter().chain(SERVICE).chain(GAP).chain(of_seal()).map(Slot::word);
        for word in links.chain(others) {
            for key in [word.clone(), format!("{word}-help")] {
                assert_ne!(english().say(&key), key, "not in the language file");
            }
        }
    }

    /// Is this a key of the definition's type?
    fn is_known(kind: Kind, path: &str) -> bool {
        let root = schema(kind);
        let mut here = vec![root.clone()];
        path.split('.').all(|key| {
            here = here.iter().flat_map(|one| below(&root, one, key)).collect();
            !here.is_empty()
        })
    }

    fn below(
        root: &serde_json::Value,
        one: &serde_json::Value,
        key: &str,
    ) -> Vec<serde_json::Value> {
        let target = one.get("$ref").and_then(|r| root.pointer(&r.as_str().unwrap()[1..]));
        let one = target.unwrap_or(one);
        let all = ["oneOf", "anyOf"].into_iter().filter_map(|name| one.get(name)?.as_array());
        let inner = all.flatten().flat_map(|one| below(root, one, key));
        let items = one.get("items").into_iter().flat_map(|one| below(root, one, key));
        let own = one.get("properties").and_then(|all| all.get(key)).cloned();
        own.into_iter().chain(inner).chain(items).collect()
    }

    #[test]
    fn every_field_is_a_key_of_its_definition() {
        for slot in of_seal().filter(|slot| slot.path != ORIGIN) {
            assert!(is_known(Kind::Seal, slot.path), "{}", slot.path);
        }
        for slot in JOINT.iter().chain(SERVICE).chain(GAP) {
            assert!(is_known(Kind::Joint, slot.path), "{}", slot.path);
        }
        for slot in LINK {
            assert!(is_known(Kind::Joint, &format!("gap.link.{}", slot.path)), "{}", slot.path);
        }
    }

    #[test]
    fn every_key_that_a_seal_needs_has_a_field() {
        // The tables stand empty, so that each missing key is told by itself.
        let mut seal = Table::new();
        for path in super::super::typed::TABLES {
            super::super::typed::put(&mut seal, path, Value::Table(Table::new()));
        }
        let checked =
            ringtrue_seal::definition::check::<ringtrue_seal::definition::seal::Seal>(&seal);
        for flaw in &checked.flaws {
            let path = &flaw.misfit.path;
            assert!(of_seal().any(|slot| slot.path == path), "{path}");
        }
        assert!(starter(Kind::Seal).contains("hardness"));
    }
}
