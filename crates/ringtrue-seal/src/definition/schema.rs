//! The JSON Schema of each kind of definition, and the starters that people begin with.

use ringtrue_words::say;
use schemars::generate::SchemaSettings;
use serde_json::{Map, Value, json};

use super::gauge::Gauge;
use super::joint::JointFile;
use super::material::Material;
use super::procedure::{LoadRingType, Procedure, shipped};
use super::seal::Seal;
use super::{Definition, Kind};
use crate::squeeze::SqueezeFile;

/// The JSON Schema (draft 2020-12) of a kind of file.
#[must_use]
pub fn schema(kind: Kind) -> Value {
    match kind {
        Kind::Seal => of::<Seal>(),
        Kind::Joint => of::<JointFile>(),
        Kind::Gauge => of::<Gauge>(),
        Kind::Material => of::<Material>(),
        Kind::Procedure => of::<Procedure>(),
        Kind::Squeeze => of::<SqueezeFile>(),
    }
}

/// A commented file to begin with: it is complete, and passes the checks as it stands. Its numbers
/// are invented; a procedure begins as the shipped one for a toric.
#[must_use]
pub fn starter(kind: Kind) -> &'static str {
    match kind {
        Kind::Seal => SEAL_WITH_TORIC,
        Kind::Joint => include_str!("../../data/starter/joint.toml"),
        Kind::Gauge => include_str!("../../data/starter/gauge.toml"),
        Kind::Material => include_str!("../../data/starter/material.toml"),
        Kind::Procedure => shipped(LoadRingType::Toric),
        Kind::Squeeze => include_str!("../../data/starter/squeeze.toml"),
    }
}

/// A starter for this load ring; `None` for kinds of file that no load ring decides.
#[must_use]
pub fn starter_with(kind: Kind, load_ring: LoadRingType) -> Option<&'static str> {
    match (kind, load_ring) {
        (Kind::Seal, LoadRingType::Toric) => Some(SEAL_WITH_TORIC),
        (Kind::Seal, LoadRingType::ConicalWasher) => {
            Some(include_str!("../../data/starter/seal-conical-washer.toml"))
        }
        (Kind::Procedure, load_ring) => Some(shipped(load_ring)),
        (Kind::Joint | Kind::Gauge | Kind::Material | Kind::Squeeze, _) => None,
    }
}

const SEAL_WITH_TORIC: &str = include_str!("../../data/starter/seal.toml");

fn of<T: Definition>() -> Value {
    let schema = SchemaSettings::draft2020_12().into_generator().into_root_schema_for::<T>();
    let mut schema = schema.to_value();
    without_null(&mut schema);
    let kind = T::KIND;
    if let Value::Object(root) = &mut schema {
        root.insert("$id".to_owned(), json!(format!("urn:ringtrue:{}:1", kind.name())));
        root.insert("title".to_owned(), json!(format!("ringtrue {} file", kind.name())));
        name_schema_line(root, kind);
        if let Some(Value::Array(required)) = root.get_mut("required")
            && !required.contains(&json!("schema"))
        {
            required.insert(0, json!("schema"));
        }
        if let Some(Value::Object(seal)) = root.get_mut("$defs").and_then(|d| d.get_mut("Seal")) {
            name_schema_line(seal, Kind::Seal);
        }
    }
    schema
}

/// The one text that the `schema` line of this kind may hold.
fn name_schema_line(schema: &mut Map<String, Value>, kind: Kind) {
    if let Some(Value::Object(properties)) = schema.get_mut("properties") {
        properties.insert("schema".to_owned(), json!({ "const": kind.schema_line() }));
    }
}

/// A key that may be left out is no key that may be null: TOML has no null.
fn without_null(value: &mut Value) {
    match value {
        Value::Object(object) => {
            if let Some(Value::Array(types)) = object.get_mut("type") {
                types.retain(|name| name != "null");
                if let [only] = types.as_slice() {
                    let only = only.clone();
                    object.insert("type".to_owned(), only);
                }
            }
            if let Some(Value::Array(any)) = object.get_mut("anyOf") {
                any.retain(|schema| schema != &json!({ "type": "null" }));
                if let [Value::Object(only)] = any.as_slice() {
                    let only = only.clone();
                    object.remove("anyOf");
                    object.extend(only);
                }
            }
            if object.get("default") == Some(&Value::Null) {
                object.remove("default");
            }
            object.values_mut().for_each(without_null);
        }
        Value::Array(array) => array.iter_mut().for_each(without_null),
        Value::Null | Value::Bool(_) | Value::Number(_) | Value::String(_) => {}
    }
}

/// What may stand at one key of a file.
pub(super) struct Form {
    root: Value,
    here: Value,
}

impl Form {
    /// The form at a path of keys from the top; entries of a list share one.
    pub(super) fn at(kind: Kind, keys: &[String]) -> Option<Self> {
        let root = schema(kind);
        let here = keys.iter().try_fold(root.clone(), |here, key| child(&root, &here, key))?;
        Some(Self { root, here })
    }

    /// The keys of the table here, or of each table in the list here, in the order of the type.
    pub(super) fn keys(&self) -> Vec<String> {
        alternatives(&self.root, &self.here)
            .iter()
            .flat_map(|schema| match schema.get("items") {
                Some(items) => alternatives(&self.root, items),
                None => vec![schema.clone()],
            })
            .filter_map(|schema| schema.get("properties")?.as_object().cloned())
            .flat_map(|properties| properties.into_iter().map(|(key, _)| key))
            .collect()
    }

    /// The words that may stand here, where it is one of a list.
    pub(super) fn words(&self) -> Vec<String> {
        alternatives(&self.root, &self.here)
            .iter()
            .flat_map(|schema| {
                let list = schema.get("enum").and_then(Value::as_array).cloned();
                list.unwrap_or_else(|| schema.get("const").cloned().into_iter().collect())
            })
            .filter_map(|word| word.as_str().map(str::to_owned))
            .collect()
    }

    /// What it is, in one line.
    pub(super) fn description(&self) -> Option<String> {
        let text = self.here.get("description")?.as_str()?;
        Some(text.lines().next()?.trim_end_matches('.').to_owned())
    }

    pub(super) fn is_date(&self) -> bool {
        self.here.get("format") == Some(&json!("date"))
    }

    /// How the line is written: `mass = "1.9 kg"`, or the name of the table.
    pub(super) fn line(&self, keys: &[String]) -> String {
        let key = keys.last().map(String::as_str).unwrap_or_default();
        let alternatives = alternatives(&self.root, &self.here);
        let example = alternatives
            .iter()
            .find_map(|schema| Some(schema.get("examples")?.get(0)?.as_str()?.to_owned()));
        if let Some(word) = self.words().into_iter().next().or(example) {
            return format!("`{key} = \"{word}\"`");
        }
        match alternatives.first().and_then(|schema| schema.get("type")?.as_str()) {
            Some("object") => say!("definition-the-table", table = format!("[{}]", keys.join("."))),
            Some("array") => {
                say!("definition-the-tables", table = format!("[[{}]]", keys.join(".")))
            }
            Some("integer") => format!("`{key} = 3`"),
            _ if self.is_date() => format!("`{key} = \"2027-03-31\"`"),
            _ => format!("`{key} = \"...\"`"),
        }
    }
}

fn child(root: &Value, schema: &Value, key: &str) -> Option<Value> {
    alternatives(root, schema).iter().find_map(|schema| {
        let own = schema.get("properties").and_then(|properties| properties.get(key));
        own.cloned().or_else(|| child(root, schema.get("items")?, key))
    })
}

/// The schemas that this one stands for: references followed, `oneOf` and `anyOf` opened.
fn alternatives(root: &Value, schema: &Value) -> Vec<Value> {
    let target = schema
        .get("$ref")
        .and_then(Value::as_str)
        .and_then(|reference| root.pointer(reference.strip_prefix('#').unwrap_or(reference)));
    let schema = target.unwrap_or(schema);
    let open = schema.get("oneOf").or_else(|| schema.get("anyOf")).and_then(Value::as_array);
    match open {
        Some(all) => all.iter().flat_map(|one| alternatives(root, one)).collect(),
        None => vec![schema.clone()],
    }
}
