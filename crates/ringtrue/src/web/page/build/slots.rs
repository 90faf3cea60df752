//! The fields of the form: each is a key of the joint file or of a seal file, by its path.

use ringtrue_metrology::units::System;
use ringtrue_seal::definition::procedure::LoadRingType::{self, ConicalWasher, Toric};
use ringtrue_words::words;

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
    /// How one is typed; the key of it where it is made of words.
    example: &'static str,
    /// The load ring that it goes with, where it does not go with each.
    pub(crate) only: Option<LoadRingType>,
}

impl Slot {
    const fn only(self, load_ring: LoadRingType) -> Self {
        Self { only: Some(load_ring), ..self }
    }

    /// Does it go with this load ring?
    pub(crate) fn goes_with(&self, load_ring: LoadRingType) -> bool {
        self.only.is_none_or(|only| only == load_ring)
    }

    /// The unit of a bare number; empty where there is none.
    pub(crate) fn unit(&self, system: System) -> &'static str {
        match (self.takes, system) {
            (Takes::Quantity([unit, _]), System::Millimetre)
            | (Takes::Quantity([_, unit]), System::Inch) => unit,
            (Takes::Text | Takes::Count | Takes::OneOf(_), _) => "",
        }
    }

    /// How one is typed.
    pub(crate) fn example(&self) -> &'static str {
        words().fixed(self.example)
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
    /// The load ring that it goes with, where it does not go with each.
    pub(crate) only: Option<LoadRingType>,
}

impl Group {
    const fn new(word: &'static str, slots: &'static [Slot]) -> Self {
        Self { word, slots, only: None }
    }
}

const LENGTH: Takes = Takes::Quantity(["mm", "in"]);
const ANGLE: Takes = Takes::Quantity(["deg", "deg"]);
const LINE_LOAD: Takes = Takes::Quantity(["N/mm", "lbf/in"]);
const FINE: Takes = Takes::Quantity(["um", "uin"]);
const SHARE: Takes = Takes::Quantity(["%", "%"]);
const FORCE: Takes = Takes::Quantity(["N", "lbf"]);
const STRESS: Takes = Takes::Quantity(["MPa", "psi"]);
const SHORE: Takes = Takes::Quantity(["Shore A", "Shore A"]);
const TEMPERATURE: Takes = Takes::Quantity(["degC", "degF"]);

const fn wanted(path: &'static str, takes: Takes, example: &'static str) -> Slot {
    Slot { path, takes, need: Need::Always, example, only: None }
}

const fn if_any(path: &'static str, takes: Takes, example: &'static str) -> Slot {
    Slot { path, takes, need: Need::IfAny, example, only: None }
}

/// The joint itself.
pub(crate) static JOINT: &[Slot] = &[
    wanted("name", Takes::Text, "build-example-joint"),
    if_any("shop", Takes::Text, "build-example-shop"),
    if_any("machine", Takes::Text, "build-example-machine"),
    wanted("attitude", Takes::OneOf(&["shaft-horizontal", "shaft-vertical"]), ""),
];

/// How the joint runs.
pub(crate) static SERVICE: &[Slot] = &[
    wanted("service.speed", Takes::Quantity(["rpm", "rpm"]), "85 rpm"),
    wanted("service.oil", Takes::Text, "mineral-oil"),
    if_any("service.oil_grade", Takes::Text, "ISO VG 220"),
    wanted("service.temperature_min", TEMPERATURE, "-25 degC"),
    wanted("service.temperature_max", TEMPERATURE, "85 degC"),
    if_any("service.pressure_difference", STRESS, "0.03 MPa"),
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
    wanted("name", Takes::Text, "build-example-dimension"),
    wanted("sign", Takes::OneOf(&["+", "-"]), ""),
    wanted("nominal", LENGTH, "71.5 mm"),
    if_any("plus_minus", LENGTH, "0.15 mm"),
    if_any("upper", LENGTH, "0 mm"),
    if_any("lower", LENGTH, "-0.2 mm"),
    if_any("class", Takes::Text, "h11"),
];

/// A seal; its path goes on behind `half.a.seal`.
pub(crate) static SEAL: &[Group] = &[
    Group::new("build-of-parts", PARTS),
    Group::new("build-of-ring", RING),
    Group { only: Some(Toric), ..Group::new("build-of-toric", TORIC) },
    Group { only: Some(ConicalWasher), ..Group::new("build-of-washer", WASHER) },
    Group::new("build-of-housing", HOUSING),
    Group::new("build-of-limits", LIMITS),
    Group::new("build-of-more-limits", MORE_LIMITS),
    Group::new("build-of-fitting", FITTING),
];

/// Which load ring: the one field that is no key of a file, but decides which keys it has.
pub(crate) static LOAD_RING: Slot =
    if_any("load_ring", Takes::OneOf(&["toric", "conical-washer"]), "");

static PARTS: &[Slot] = &[
    wanted("name", Takes::Text, "build-example-seal"),
    if_any("identity.drawing", Takes::Text, "build-example-drawing"),
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
    wanted("ring.ramp.angle", ANGLE, "15 deg").only(Toric),
    wanted("ring.ramp.diameter", LENGTH, "251 mm").only(Toric),
    wanted("ring.ramp.plane_from_face", LENGTH, "18 mm").only(Toric),
    if_any("ring.face_hardness", Takes::Quantity(["HRC", "HRC"]), "62 HRC"),
    wanted("ring.mass", Takes::Quantity(["kg", "lb"]), "2.3 kg"),
];

/// Keys that say how stiff a load ring is: one typed takes the place of the others.
pub(crate) const STIFFNESS: [&str; 3] = ["hardness", "modulus", "modulus_standard_uncertainty"];

static TORIC: &[Slot] = &[
    wanted("load_ring.toric.section_diameter", LENGTH, "12 mm").only(Toric),
    wanted("load_ring.toric.inside_diameter", LENGTH, "244 mm").only(Toric),
    wanted("load_ring.toric.material", Takes::Text, "NBR").only(Toric),
    wanted("load_ring.toric.hardness", SHORE, "60 Shore A").only(Toric),
];

static WASHER: &[Slot] = &[
    wanted("load_ring.conical_washer.material", Takes::Text, "NBR").only(ConicalWasher),
    if_any("load_ring.conical_washer.hardness", SHORE, "65 Shore A").only(ConicalWasher),
    if_any("load_ring.conical_washer.modulus", STRESS, "4.4 MPa").only(ConicalWasher),
    if_any("load_ring.conical_washer.modulus_standard_uncertainty", STRESS, "0.3 MPa")
        .only(ConicalWasher),
    if_any("load_ring.conical_washer.yield_strength", STRESS, "1400 MPa").only(ConicalWasher),
    wanted("load_ring.conical_washer.ring_seat_from_face", LENGTH, "9 mm").only(ConicalWasher),
    wanted("load_ring.conical_washer.housing_seat_from_face", LENGTH, "12 mm").only(ConicalWasher),
    if_any("load_ring.conical_washer.corner_radius", LENGTH, "0.8 mm").only(ConicalWasher),
];

/// The list of a washer's corners; each of them has the fields of [`CORNER`].
pub(crate) const OUTLINE: &str = "load_ring.conical_washer.outline";

/// A corner of a washer's section, in the order of its file; its path goes on behind `outline[N]`.
pub(crate) static CORNER: [Slot; 2] = [
    wanted("radius", LENGTH, "104 mm").only(ConicalWasher),
    wanted("axial", LENGTH, "0 mm").only(ConicalWasher),
];

static HOUSING: &[Slot] = &[
    wanted("housing.depth", LENGTH, "28 mm"),
    if_any("housing.face_outer_diameter", LENGTH, "320 mm"),
    wanted("housing.ramp.angle", ANGLE, "15 deg").only(Toric),
    wanted("housing.ramp.diameter", LENGTH, "274.4 mm").only(Toric),
    wanted("housing.ramp.plane_from_face", LENGTH, "9 mm").only(Toric),
    if_any("housing.lip.diameter", LENGTH, "272.6 mm"),
    if_any("housing.lip.height", LENGTH, "3 mm"),
    if_any("housing.lip.edge_radius", LENGTH, "1.5 mm"),
];

static LIMITS: &[Slot] = &[
    if_any("limits.seal_gap.min", LENGTH, "2 mm"),
    if_any("limits.seal_gap.max", LENGTH, "3.2 mm"),
    if_any("limits.face_load.min", LINE_LOAD, "1.2 N/mm"),
    if_any("limits.face_load.max", LINE_LOAD, "5 N/mm"),
    if_any("limits.assembled_height.min", LENGTH, "10.2 mm"),
    if_any("limits.assembled_height.max", LENGTH, "11.8 mm"),
    if_any("limits.height_range.max", LENGTH, "1 mm"),
    if_any(ORIGIN, Takes::Text, "build-example-origin"),
];

/// The limits that checks between cleaning and closing are held against.
static MORE_LIMITS: &[Slot] = &[
    if_any("limits.ramp_finish_ra.max", FINE, "3.2 um").only(Toric),
    if_any("limits.face_flatness.max", FINE, "0.9 um"),
    if_any("limits.eccentricity.max", LENGTH, "0.5 mm"),
    if_any("limits.tip.max", ANGLE, "0.5 deg"),
    if_any("limits.speed.max", Takes::Quantity(["m/s", "ft/min"]), "1.5 m/s"),
    if_any("limits.temperature.min", TEMPERATURE, "-30 degC"),
    if_any("limits.temperature.max", TEMPERATURE, "90 degC"),
    if_any("limits.pressure_difference.max", STRESS, "0.2 MPa"),
    if_any("limits.toric_stretch.min", SHARE, "1 %").only(Toric),
    if_any("limits.toric_stretch.max", SHARE, "5 %").only(Toric),
    if_any("limits.free_height.min", LENGTH, "8.8 mm").only(ConicalWasher),
    if_any("limits.free_height.max", LENGTH, "9.2 mm").only(ConicalWasher),
    if_any("limits.ramp_angle_difference.max", ANGLE, "0.5 deg").only(Toric),
    if_any("limits.tool_diameter_difference.max", LENGTH, "1 mm"),
];

/// Where the limits come from that are typed: one field for all of them.
pub(crate) const ORIGIN: &str = "limits.origin";

static FITTING: &[Slot] = &[
    if_any("fitting.pressed_up_to", LENGTH, "300 mm"),
    if_any("fitting.hand_force", FORCE, "200 N"),
    if_any("fitting.tool_force", FORCE, "1000 N"),
    wanted("fitting.chilling", Takes::OneOf(&["allowed", "not-allowed"]), ""),
    wanted("fitting.most_tries", Takes::Count, "3"),
    wanted("fitting.cleaning_agent", Takes::Text, "isopropyl-alcohol"),
    if_any("tool.name", Takes::Text, "build-example-tool"),
    if_any("tool.ramp_angle", ANGLE, "15 deg").only(Toric),
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
    use ringtrue_seal::definition::{Kind, schema, starter_with};

    #[test]
    fn every_example_in_words_is_in_the_language_file() {
        let all = [JOINT, SERVICE, GAP, LINK, &CORNER].into_iter().flatten().chain(of_seal());
        for slot in all {
            assert_eq!(slot.example.starts_with("build-"), slot.example() != slot.example);
        }
    }

    #[test]
    fn every_field_has_a_name_and_an_explanation() {
        let links = LINK.iter().map(|slot| format!("build-link-{}", slot.path.replace('_', "-")));
        let corners = CORNER.iter().map(|slot| format!("build-corner-{}", slot.path));
        let others = JOINT.iter().chain(SERVICE).chain(GAP).chain(of_seal()).chain([&LOAD_RING]);
        for word in links.chain(corners).chain(others.map(Slot::word)) {
            for key in [word.clone(), format!("{word}-help")] {
                assert_ne!(words().say(&key), key, "not in the language file");
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
        for load_ring in LoadRingType::ALL {
            // The tables stand empty, so that each missing key is told by itself.
            let mut seal = Table::new();
            for path in super::super::typed::tables(load_ring) {
                super::super::typed::put(&mut seal, path, Value::Table(Table::new()));
            }
            let checked =
                ringtrue_seal::definition::check::<ringtrue_seal::definition::seal::Seal>(&seal);
            for flaw in &checked.flaws {
                let path = &flaw.misfit.path;
                let slot = of_seal().find(|slot| slot.path == path);
                let is_there = slot.is_some_and(|slot| slot.goes_with(load_ring));
                assert!(is_there || path == OUTLINE, "{path}");
            }
            assert!(checked.definition.is_some());
        }
    }

    #[test]
    fn every_key_of_a_seal_has_a_field_or_is_named_here() {
        // The shop's own levels of decision stay with the seal's file.
        const FILE_ONLY: [&str; 2] = ["schema", "decision"];
        for load_ring in LoadRingType::ALL {
            let starter: Table = starter_with(Kind::Seal, load_ring).unwrap().parse().unwrap();
            let mut paths = Vec::new();
            leaves(&starter, "", &mut paths);
            for path in paths {
                let slot = of_seal().find(|slot| slot.path == path);
                let is_there = slot.is_some_and(|slot| slot.goes_with(load_ring));
                let is_named = path.split('.').any(|key| FILE_ONLY.contains(&key));
                let is_origin = path.ends_with(".origin");
                assert!(is_there || is_named || is_origin || path == OUTLINE, "{path}");
            }
        }
    }

    fn leaves(table: &Table, under: &str, found: &mut Vec<String>) {
        for (key, value) in table {
            let path = if under.is_empty() { key.clone() } else { format!("{under}.{key}") };
            if let Value::Table(inner) = value {
                leaves(inner, &path, found);
            } else {
                found.push(path);
            }
        }
    }
}
