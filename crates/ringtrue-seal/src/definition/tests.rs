use proptest::prelude::*;

use super::gauge::Gauge;
use super::joint::{Half, JointFile, assemble};
use super::material::Material;
use super::procedure::{LoadRingType, Procedure};
use super::seal::Seal;
use super::*;

/// Reads a text as one kind; the definition itself does not matter.
fn read_as(kind: Kind, text: &str) -> Result<(), TextError> {
    match kind {
        Kind::Seal => read::<Seal>(text).map(drop),
        Kind::Joint => read::<JointFile>(text).map(drop),
        Kind::Gauge => read::<Gauge>(text).map(drop),
        Kind::Material => read::<Material>(text).map(drop),
        Kind::Procedure => read::<Procedure>(text).map(drop),
        Kind::Squeeze => read::<crate::squeeze::SqueezeFile>(text).map(drop),
    }
}

#[test]
fn every_starter_is_read_and_says_its_kind() {
    for kind in Kind::ALL {
        assert_eq!(read_as(kind, starter(kind)), Ok(()));
        assert_eq!(kind_of(starter(kind)), Ok(kind));
        for load_ring in LoadRingType::ALL {
            let Some(text) = starter_with(kind, load_ring) else { continue };
            assert_eq!(read_as(kind, text), Ok(()));
            let instance: serde_json::Value = toml::from_str(text).unwrap();
            let schema = schema(kind);
            against(&schema, &schema, &instance).unwrap_or_else(|why| panic!("{why}"));
        }
    }
}

#[test]
fn every_shipped_material_is_read_under_its_own_code() {
    for code in material::shipped_codes() {
        let material = material::shipped(code).unwrap_or_else(|| panic!("{code} does not read"));
        assert_eq!(material.code, code);
        let text = material::shipped_text(&code.to_lowercase()).unwrap();
        assert_eq!(super::read::<Material>(text).as_ref(), Ok(material));
        let known = material::ISO_1629.iter().find(|(known, _)| *known == code);
        assert_eq!(known.map(|(_, name)| *name), Some(material.name.as_str()));
        for fluid in &material.fluid {
            assert!(material::FLUIDS.iter().any(|(name, _)| *name == fluid.name), "{}", fluid.name);
        }
    }
    assert!(material::shipped("nbr").is_some() && material::shipped("FVMQ").is_none());
}

/// A starter with one thing changed: the place and the words of what is said.
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Wrong {
    kind: String,
    from: String,
    to: String,
    line: Option<usize>,
    column: Option<usize>,
    found: String,
    fits: String,
}

#[derive(serde::Deserialize)]
struct AllWrong {
    case: Vec<Wrong>,
}

#[test]
fn what_does_not_fit_is_said_with_its_place() {
    let text = include_str!("../../tests/data/wrong_definitions.toml");
    let all: AllWrong = toml::from_str(text).unwrap();
    assert!(all.case.len() > 60, "{}", all.case.len());
    for case in &all.case {
        let kind = Kind::named(&case.kind).unwrap();
        let starter = starter(kind);
        let start = starter.find(&case.from).unwrap_or_else(|| panic!("no {:?}", case.from));
        let text = starter.replacen(&case.from, &case.to, 1);
        let error = read_as(kind, &text).expect_err(&case.to);
        let said = format!("{:?} -> {error}", case.to);
        assert!(error.found.contains(&case.found), "{said}\n  found lacks {:?}", case.found);
        assert!(error.fits.contains(&case.fits), "{said}\n  fits lacks {:?}", case.fits);
        let Some((line, column)) = case.line.zip(case.column) else { continue };
        let before = &starter[..start];
        let first = before.matches('\n').count() + 1;
        let offset = before.len() - before.rfind('\n').map_or(0, |newline| newline + 1);
        let column = if line == 0 { column + offset } else { column };
        assert_eq!((error.line, error.column), (Some(first + line), Some(column)), "{said}");
    }
}

#[test]
fn texts_that_are_no_definition() {
    let deep = |open: &str| format!("a = {}", open.repeat(300_000));
    let dotted = format!("a{} = 1", ".a".repeat(300_000));
    let header = format!("[a{}]", ".a".repeat(300_000));
    let long = "#".repeat(LONGEST_TEXT + 1);
    let cases: [(&str, &str); 12] = [
        ("", "the file is empty"),
        (" \n\t\n", "the file is empty"),
        ("\u{feff}", "the file is empty"),
        ("# nothing but a remark\n", "no `schema` line"),
        ("\u{0}\u{1}\u{7f}", "line 1, column"),
        ("angle_deg,height_mm\n0,1.2\n", "line 1, column 10"),
        ("{\"schema\": \"ringtrue/seal/1\"}", "line 1, column 1"),
        (&deep("["), "too deeply"),
        (&deep("{a="), "too deeply"),
        (&dotted, "too deeply"),
        (&header, "too deeply"),
        (&long, "1048577 bytes"),
    ];
    for (text, said) in cases {
        let error = read::<Seal>(text).expect_err(said).to_string();
        assert!(error.contains(said), "{error}");
        assert!(!error.contains(|c: char| c.is_control()), "{error:?}");
    }
}

#[test]
fn garbage_is_not_quoted_at_length() {
    let garbage = "é\u{7}".repeat(5_000);
    for key in [format!("\"{}\" = 1", garbage.replace('\u{7}', "x")), format!("x = \"{garbage}\"")]
    {
        let text = format!("schema = \"ringtrue/gauge/1\"\n{key}\n");
        let error = read::<Gauge>(&text).expect_err("garbage").to_string();
        assert!(error.chars().count() < 500, "{error}");
    }
}

#[test]
fn columns_are_counted_in_characters_and_a_byte_order_mark_is_none() {
    let text = "\u{feff}schema = \"ringtrue/gauge/1\"\r\nnäme = 1\r\n";
    let error = read::<Gauge>(text).expect_err("a key of its own");
    assert_eq!((error.line, error.column), (Some(2), Some(2)), "{error}");
    let text =
        "schema = \"ringtrue/gauge/1\"\nname = \"Prüfmaß\"\nkind = \"ähnlich\" # \u{1F527}\n";
    let error = read::<Gauge>(text).expect_err("an unknown kind");
    assert_eq!((error.line, error.column), (Some(3), Some(8)), "{error}");
}

#[test]
fn a_date_needs_no_quotes() {
    let text = starter(Kind::Gauge).replace("\"2099-12-31\"", "2099-12-31");
    assert_eq!(read::<Gauge>(&text).unwrap(), read(starter(Kind::Gauge)).unwrap());
}

#[test]
fn a_quantity_without_its_unit_is_refused_wherever_it_stands() {
    let mut quantities = 0;
    for kind in Kind::ALL {
        let text = starter(kind);
        for line in text.lines().filter(|line| !line.starts_with('#')) {
            let Some((key, value)) = line.split_once(" = \"") else { continue };
            let value = value.trim_end_matches('"');
            let Some((number, unit)) = value.split_once(' ') else { continue };
            if number.parse::<f64>().is_err() || unit.len() > 8 {
                continue;
            }
            quantities += 1;
            for bare in [format!("{key} = \"{number}\""), format!("{key} = {number}")] {
                let changed = text.replacen(&format!("{line}\n"), &format!("{bare}\n"), 1);
                let error = read_as(kind, &changed).expect_err(&bare);
                assert!(error.line.is_some() && error.fits.contains("wanted"), "{bare}: {error}");
            }
        }
    }
    assert!(quantities > 100, "{quantities}");
}

#[test]
fn a_text_cut_anywhere_is_refused_or_read_but_never_a_panic() {
    for kind in Kind::ALL {
        let text = starter(kind);
        // The long starters repeat themselves: every byte of the first part, then every seventh.
        for end in (0..text.len()).filter(|end| *end < 2_000 || end % 7 == 0) {
            let Some(cut) = text.get(..end) else { continue };
            if let Err(error) = read_as(kind, cut) {
                assert!(!error.found.is_empty() && !error.fits.is_empty());
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn lines_left_out_or_exchanged_never_panic(
        kind in 0..Kind::ALL.len(),
        lines in proptest::collection::vec(0usize..400, 1..6),
    ) {
        let kind = Kind::ALL[kind];
        let mut text: Vec<&str> = starter(kind).lines().collect();
        for pair in lines.chunks(2) {
            let count = text.len();
            match pair {
                [one, other] => text.swap(one % count, other % count),
                [one] => drop(text.remove(one % count)),
                _ => {}
            }
        }
        let _ = read_as(kind, &text.join("\n"));
    }

    #[test]
    fn units_exchanged_never_panic(
        kind in 0..Kind::ALL.len(),
        from in prop::sample::select(vec!["mm", "deg", "degC", "kg", "MPa", "%", "rpm", "N/mm"]),
        to in "\\PC{0,8}",
    ) {
        let kind = Kind::ALL[kind];
        let _ = read_as(kind, &starter(kind).replace(from, &to));
    }

    #[test]
    fn any_text_never_panics(text in "\\PC{0,80}", head in 0..=Kind::ALL.len()) {
        let head = Kind::ALL.get(head).map(|k| format!("schema = \"{}\"\n", k.schema_line()));
        let text = format!("{}{text}", head.unwrap_or_default());
        for kind in Kind::ALL {
            let _ = read_as(kind, &text);
        }
    }
}

#[test]
fn a_washer_seal_is_read_and_its_outline_must_be_a_section() {
    let washer = include_str!("../../tests/data/washer_seal.toml");
    assert_eq!(read_as(Kind::Seal, washer), Ok(()));
    let outline = washer.lines().find(|line| line.starts_with("outline")).unwrap();
    for (corners, said) in [
        (r#"[["104 mm", "0 mm"], ["108 mm", "0 mm"]]"#, "2 corners"),
        (
            r#"[["104 mm", "0 mm"], ["116 mm", "9 mm"], ["120 mm", "9 mm"], ["108 mm", "0 mm"]]"#,
            "clockwise",
        ),
        (
            r#"[["104 mm", "0 mm"], ["120 mm", "9 mm"], ["108 mm", "0 mm"], ["116 mm", "9 mm"]]"#,
            "crosses or touches",
        ),
        (r#"[["-4 mm", "0 mm"], ["108 mm", "0 mm"], ["120 mm", "9 mm"]]"#, "corner 1 is at radius"),
        (r#"[["104 mm", "0 mm"], ["104 mm", "0 mm"], ["120 mm", "9 mm"]]"#, "crosses or touches"),
        (
            r#"[["104 mm", "0 mm"], ["120 mm", "0 mm"], ["108 mm", "0 mm"], ["110 mm", "5 mm"]]"#,
            "crosses or touches",
        ),
        (r#"[["104 mm"], ["120 mm", "0 mm"], ["108 mm", "0 mm"]]"#, "invalid length 1"),
    ] {
        let text = washer.replace(outline, &format!("outline = {corners}"));
        let error = read::<Seal>(&text).expect_err(said);
        assert!(error.to_string().contains(said), "{error}");
        assert!(error.line.is_some(), "{error}");
    }
    let strong = washer.replace("material = ", "yield_strength = \"900 MPa\"\nmaterial = ");
    let error = read::<Seal>(&strong).expect_err("of rubber").to_string();
    assert!(error.contains("yield strength of a rubber washer"), "{error}");
    let steel = strong
        .replace("\"NBR\"", "\"steel\"")
        .replace("hardness = \"65 Shore A\"", "modulus = \"206 GPa\"");
    assert_eq!(read_as(Kind::Seal, &steel), Ok(()));
    let weak = steel.replace("900 MPa", "0 MPa");
    assert!(read::<Seal>(&weak).expect_err("none").to_string().contains("yield_strength"));
    let with_ramp = format!(
        "{washer}\n[ring.ramp]\nangle = \"15 deg\"\ndiameter = \"200 mm\"\n\
         plane_from_face = \"9 mm\"\n"
    );
    let error = read::<Seal>(&with_ramp).expect_err("a ramp").to_string();
    assert!(error.contains("conical washer"), "{error}");
}

#[test]
fn a_joint_is_assembled_from_files_and_inline_seals() {
    let text = starter(Kind::Joint);
    let start = text.find("[half.b.seal]").unwrap();
    let text = format!("{}[half.b]\nseal_file = \"hub.toml\"\n", &text[..start]);
    let file = read::<JointFile>(&text).unwrap();
    let seal: Seal = read(starter(Kind::Seal)).unwrap();
    let joint = assemble(file.clone(), |path, half| {
        assert_eq!((path, half), ("hub.toml", Half::B));
        Ok::<_, ()>(seal.clone())
    });
    assert_eq!(joint.unwrap().seal(Half::B).name, seal.name);
    assert_eq!(assemble(file, |_, _| Err("no such file")), Err("no such file"));
}

#[test]
fn the_gap_limits_of_a_joint_are_what_all_statements_leave() {
    let file = read::<JointFile>(starter(Kind::Joint)).unwrap();
    let mut joint = assemble(file, |_, _| Err(())).unwrap();
    let mm = |length: Option<ringtrue_metrology::units::Length>| {
        length.map(|l| (l.get::<uom::si::length::millimeter>() * 1e6).round() / 1e6)
    };
    let limits = joint.gap_limits();
    assert_eq!((mm(limits.min), mm(limits.max)), (Some(2.1), Some(3.1)));
    assert_eq!(limits.stated.len(), 3);
    joint.file.gap.limits = None;
    joint.a.limits.seal_gap = None;
    let limits = joint.gap_limits();
    assert_eq!((mm(limits.min), mm(limits.max)), (Some(2.0), Some(3.2)));
    joint.b.limits.seal_gap = None;
    assert_eq!(joint.gap_limits().min, None);
}

#[test]
fn the_schema_names_every_key_of_the_starter() {
    for kind in Kind::ALL {
        let schema = schema(kind);
        assert_eq!(schema["properties"]["schema"]["const"], kind.schema_line());
        assert_eq!(schema["additionalProperties"], false);
        assert_eq!(schema["required"][0], "schema");
        assert!(!schema.to_string().contains("\"null\""));
        let instance: serde_json::Value = toml::from_str(starter(kind)).unwrap();
        against(&schema, &schema, &instance).unwrap_or_else(|why| panic!("{}: {why}", kind.name()));
    }
}

/// As much of JSON Schema as these schemas use: `$ref`, `oneOf`, `const`, `enum`, `type`,
/// `properties`, `required`, `additionalProperties`, `items`, `prefixItems`.
fn against(
    root: &serde_json::Value,
    schema: &serde_json::Value,
    instance: &serde_json::Value,
) -> Result<(), String> {
    use serde_json::Value;
    let rules = schema.as_object().ok_or("a schema is an object")?;
    for (rule, wanted) in rules {
        let kept = match (rule.as_str(), wanted, instance) {
            ("$ref", Value::String(target), _) => {
                let target = root.pointer(target.trim_start_matches('#')).ok_or("no such $ref")?;
                against(root, target, instance)?;
                true
            }
            ("oneOf", Value::Array(all), _) => {
                all.iter().filter(|one| against(root, one, instance).is_ok()).count() == 1
            }
            ("const", _, _) => wanted == instance,
            ("enum", Value::Array(all), _) => all.contains(instance),
            ("type", Value::String(name), _) => match name.as_str() {
                "object" => instance.is_object(),
                "array" => instance.is_array(),
                "string" => instance.is_string(),
                "integer" => instance.is_i64(),
                "number" => instance.is_number(),
                "boolean" => instance.is_boolean(),
                other => return Err(format!("type {other} is not expected here")),
            },
            ("minItems", Value::Number(least), Value::Array(items)) => {
                least.as_u64().is_some_and(|least| items.len() as u64 >= least)
            }
            ("maxItems", Value::Number(most), Value::Array(items)) => {
                most.as_u64().is_some_and(|most| items.len() as u64 <= most)
            }
            ("required", Value::Array(keys), Value::Object(object)) => {
                keys.iter().all(|key| object.contains_key(key.as_str().unwrap_or_default()))
            }
            ("additionalProperties", Value::Bool(false), Value::Object(object)) => object
                .keys()
                .all(|key| rules.get("properties").is_some_and(|all| all.get(key).is_some())),
            ("properties", Value::Object(all), Value::Object(object)) => {
                for (key, value) in object {
                    all.get(key).map_or(Ok(()), |schema| against(root, schema, value))?;
                }
                true
            }
            ("items", _, Value::Array(array)) => {
                array.iter().try_for_each(|item| against(root, wanted, item))?;
                true
            }
            ("maxLength", Value::Number(most), Value::String(text)) => {
                text.chars().count() as u64 <= most.as_u64().unwrap_or(0)
            }
            ("minimum", Value::Number(least), Value::Number(number)) => {
                number.as_f64() >= least.as_f64()
            }
            (
                "$schema" | "$id" | "$defs" | "title" | "description" | "examples" | "format"
                | "default",
                _,
                _,
            ) => true,
            (other, _, _) => return Err(format!("rule {other} is not expected here")),
        };
        if !kept {
            return Err(format!("{instance} against {rule}: {wanted}"));
        }
    }
    Ok(())
}

#[test]
fn every_polymer_stands_in_the_language_file() {
    for (code, name) in material::ISO_1629 {
        assert_eq!(material::polymer(code), name);
    }
}
