//! What is typed into the form, as definitions: checked field by field, drawn, and sent.

use std::collections::BTreeMap;

use ringtrue_job::evidence;
use ringtrue_metrology::units::{Quantity, System};
use ringtrue_report::{Closed, Drawing, half_drawing, joint_drawing};
use ringtrue_seal::definition::joint::{Half, Joint, JointFile, MOST_LINKS};
use ringtrue_seal::definition::procedure::LoadRingType;
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::definition::{self, Flaw, Kind, Why};
use ringtrue_seal::gap_stack;
use ringtrue_store::Edition;
use toml::{Table, Value};

use super::slots::{self, CORNER, LINK, LOAD_RING, ORIGIN, OUTLINE, SHIMS, STIFFNESS, Slot, Takes};
use crate::problem::Problem;
use crate::web::fields::Fields;
use crate::web::page::frame::units_name;
use crate::web::page::step_form::with_unit;
use ringtrue_words::{in_english, say, words};

/// Tables that a seal with this load ring has in any case: what is missing from them is told key by
/// key.
pub(super) fn tables(load_ring: LoadRingType) -> &'static [&'static str] {
    match load_ring {
        LoadRingType::Toric => &[
            "ring",
            "ring.ramp",
            "load_ring.toric",
            "housing",
            "housing.ramp",
            "limits",
            "fitting",
        ],
        LoadRingType::ConicalWasher => {
            &["ring", "load_ring.conical_washer", "housing", "limits", "fitting"]
        }
    }
}

/// What only a seal with another load ring has.
fn foreign(load_ring: LoadRingType) -> &'static [&'static str] {
    match load_ring {
        LoadRingType::Toric => &["load_ring.conical_washer"],
        LoadRingType::ConicalWasher => &[
            "load_ring.toric",
            "ring.ramp",
            "housing.ramp",
            "tool.ramp_angle",
            "limits.ramp_finish_ra",
            "limits.toric_stretch",
            "limits.ramp_angle_difference",
        ],
    }
}

/// Keys of the parts that no line of the drawing comes from.
const UNDRAWN: [&str; 3] = ["mass", "face_hardness", "material"];
/// Most corners that the form takes; a section with more comes as a file.
const MOST_CORNERS: usize = 40;
/// Stands for half b being as half a.
pub(super) const AS_A: &str = "a";

/// What was wrong with a field.
pub(super) struct Wrong {
    pub(super) why: Why,
    pub(super) what: String,
    pub(super) do_next: String,
}

/// The form as definitions.
pub(super) struct Typed {
    /// The joint file, and the files that it names.
    pub(super) joint: Table,
    pub(super) files: BTreeMap<String, String>,
    /// What does not fit, by the field's name.
    pub(super) wrong: BTreeMap<String, Wrong>,
    /// Both seals as they come to, with what stands in the library already.
    pub(super) halves: [HalfTyped; 2],
    file: Option<JointFile>,
}

/// One half of the form.
#[derive(Clone)]
pub(super) struct HalfTyped {
    /// Its load ring: as chosen, or as the library's seal has it.
    pub(super) load_ring: LoadRingType,
    /// The library's seal that it starts from.
    pub(super) base: Option<Table>,
    text: String,
    flaws: Vec<Flaw>,
    seal: Option<Seal>,
}

/// Name of a field of a half.
pub(super) fn field(half: Half, path: &str) -> String {
    format!("half.{}.{path}", half.name())
}

/// Name of a field of a dimension; rows are counted from 1.
pub(super) fn link_field(row: usize, path: &str) -> String {
    format!("gap.link[{row}].{path}")
}

/// Path of a corner of a washer's section in the form; corners are counted from 1.
pub(super) fn corner_path(corner: usize, path: &str) -> String {
    format!("{OUTLINE}[{corner}].{path}")
}

/// The corners of a library's washer.
pub(super) fn corners_of(base: Option<&Table>) -> &[Value] {
    base.and_then(|base| get(base, OUTLINE)?.as_array()).map_or(&[], Vec::as_slice)
}

/// Corners up to the last one with something in it.
pub(super) fn corners_typed(half: Half, fields: &Fields) -> usize {
    let is_typed = |corner: usize, slot: &Slot| {
        fields.some(&field(half, &format!("seal.{}", corner_path(corner, slot.path)))).is_some()
    };
    let has = |corner: &usize| CORNER.iter().any(|slot| is_typed(*corner, slot));
    (1..=MOST_CORNERS).rev().find(has).unwrap_or(0)
}

/// Puts a value at a path of keys, making the tables on the way.
pub(super) fn put(table: &mut Table, path: &str, value: Value) {
    match path.split_once('.') {
        None => drop(table.insert(path.to_owned(), value)),
        Some((key, rest)) => {
            let inner = table.entry(key).or_insert_with(|| Value::Table(Table::new()));
            if let Value::Table(inner) = inner {
                put(inner, rest, value);
            }
        }
    }
}

/// The value at a path of keys.
pub(super) fn get<'t>(table: &'t Table, path: &str) -> Option<&'t Value> {
    let (first, rest) = path.split_once('.').map_or((path, None), |(a, b)| (a, Some(b)));
    let value = table.get(first)?;
    rest.map_or(Some(value), |rest| get(value.as_table()?, rest))
}

/// A typed text as its file holds it.
fn value(slot: &Slot, typed: &str, system: System) -> Value {
    match slot.takes {
        Takes::Quantity(_) => Value::String(with_unit(typed, slot.unit(system))),
        // What is no number is left to the reader, which says so.
        Takes::Count => {
            typed.parse().map_or_else(|_| Value::String(typed.to_owned()), Value::Integer)
        }
        Takes::Text | Takes::OneOf(_) => Value::String(typed.to_owned()),
    }
}

impl Typed {
    /// The form as typed, with the editions of the library; bare numbers are in `system`.
    pub(super) fn of(fields: &Fields, editions: &[Edition], system: System) -> Self {
        let a = HalfTyped::of(Half::A, fields, (editions, system));
        let b = match fields.text(&field(Half::B, "from")) {
            AS_A => HalfTyped { flaws: Vec::new(), ..a.clone() },
            _ => HalfTyped::of(Half::B, fields, (editions, system)),
        };
        let (joint, rows) = joint(fields, system);
        let checked = definition::check::<JointFile>(&joint);
        let mut wrong = BTreeMap::new();
        for mut flaw in checked.flaws {
            if rows.is_empty() && flaw.misfit.path == "gap.link" {
                flaw.why = Why::Missing;
            }
            wrong.entry(field_of(&flaw.misfit.path, &rows)).or_insert_with(|| said(&flaw, ""));
        }
        let mut files: BTreeMap<String, String> = editions
            .iter()
            .filter(|edition| edition.kind == Kind::Material.name())
            .map(|edition| (format!("{}.toml", edition.name), edition.text.clone()))
            .collect();
        for (half, typed) in Half::BOTH.into_iter().zip([&a, &b]) {
            for flaw in &typed.flaws {
                let name = match flaw.misfit.path.as_str() {
                    "from" => field(half, "from"),
                    path => field(half, &format!("seal.{}", seal_field(path))),
                };
                wrong.entry(name).or_insert_with(|| said(flaw, "seal"));
            }
            files.insert(format!("seal-{}.toml", half.name()), typed.text.clone());
        }
        Self { joint, files, wrong, halves: [a, b], file: checked.definition }
    }

    /// A half to scale, as soon as its sizes make a section.
    pub(super) fn half(&self, half: Half, system: System) -> Option<Drawing> {
        half_drawing(half, self.halves[half as usize].seal.as_ref()?, system)
    }

    /// Both halves together, with the gap as soon as its dimensions and limits are there.
    pub(super) fn together(&self, system: System) -> Option<Drawing> {
        let [a, b] = &self.halves;
        let (a, b) = (a.seal.as_ref()?, b.seal.as_ref()?);
        joint_drawing((a, b), self.closed((a, b)), system)
    }

    fn closed(&self, (a, b): (&Seal, &Seal)) -> Option<Closed> {
        if self.wrong.keys().any(|name| name.starts_with("gap.")) {
            return None;
        }
        let joint = Joint { file: self.file.clone()?, a: a.clone(), b: b.clone() };
        let chain = evidence::joint_gap(&joint, None).ok()?;
        let nominal = gap_stack::nominal(&chain).ok()?;
        let [gap, min, max] =
            [nominal, chain.limits.0, chain.limits.1].map(|length| length.si() * 1e3);
        Some(Closed { gap, limits: (min, max) })
    }
}

impl HalfTyped {
    fn of(half: Half, fields: &Fields, (editions, system): (&[Edition], System)) -> Self {
        let from = fields.text(&field(half, "from"));
        let edition = editions.iter().find(|edition| edition.document.to_string() == from);
        let base: Option<Table> = edition.and_then(|edition| edition.text.parse().ok());
        let own = base.as_ref().and_then(load_ring_of);
        let chosen = fields.text(&field(half, &format!("seal.{}", LOAD_RING.path)));
        let chosen = LoadRingType::ALL.into_iter().find(|kind| kind.name() == chosen);
        let load_ring = chosen.or(own).unwrap_or(LoadRingType::Toric);
        let typed: Vec<(&Slot, Value)> = slots::of_seal()
            .filter(|slot| slot.goes_with(load_ring))
            .filter_map(|slot| {
                let typed = fields.some(&field(half, &format!("seal.{}", slot.path)))?;
                Some((slot, value(slot, typed, system)))
            })
            .collect();
        let corners = match load_ring {
            LoadRingType::Toric => None,
            LoadRingType::ConicalWasher => corners(half, (fields, base.as_ref()), system),
        };
        let is_other = own.is_some_and(|own| own != load_ring);
        match (edition, typed.is_empty() && corners.is_none() && !is_other) {
            (Some(edition), true) => Self {
                load_ring,
                base,
                text: edition.text.clone(),
                flaws: Vec::new(),
                seal: definition::read(&edition.text).ok(),
            },
            (None, true) => {
                let flaws = vec![no_seal(half)];
                Self { load_ring, base: None, text: String::new(), flaws, seal: None }
            }
            (_, false) => {
                let (corners, rows) = corners.unwrap_or_default();
                let put = Self::put_together(base, (load_ring, typed, corners));
                put.with_rows(half, (fields, &rows))
            }
        }
    }

    /// Complaints of corners at the form's own rows, and at the part of a corner that is missing.
    fn with_rows(mut self, half: Half, (fields, rows): (&Fields, &[usize])) -> Self {
        for Flaw { misfit, why } in &mut self.flaws {
            let Some(rest) = misfit.path.strip_prefix(OUTLINE) else { continue };
            let mut numbers =
                rest.split(['[', ']']).filter_map(|number| number.parse::<usize>().ok());
            let (entry, part) = (numbers.next().unwrap_or(1), numbers.next());
            let row = entry.checked_sub(1).and_then(|at| rows.get(at)).copied().unwrap_or(entry);
            let is_typed = |slot: &&Slot| {
                let path = corner_path(row, slot.path);
                fields.some(&field(half, &format!("seal.{path}"))).is_some()
            };
            let slot = match part.and_then(|part| CORNER.get(part.checked_sub(1)?)) {
                Some(slot) => slot,
                None if rest.is_empty() => &CORNER[0],
                // Half a corner is one of which the other half is still wanted.
                None => match CORNER.iter().find(|slot| !is_typed(slot)) {
                    Some(slot) if CORNER.iter().any(|slot| is_typed(&slot)) => {
                        *why = Why::Missing;
                        slot
                    }
                    Some(_) | None => &CORNER[0],
                },
            };
            misfit.path = corner_path(row, slot.path);
        }
        self
    }

    /// The library's seal with what was typed in its place, or all of it as typed.
    fn put_together(
        base: Option<Table>,
        (load_ring, typed, corners): (LoadRingType, Vec<(&Slot, Value)>, Vec<Value>),
    ) -> Self {
        let mut table = base.clone().unwrap_or_default();
        // What was changed is no longer the library's seal.
        if let Some(name) = table.get("name").and_then(Value::as_str) {
            let name = in_english(|| words().with("build-changed-name", &[("name", name)]));
            put(&mut table, "name", Value::String(name));
        }
        foreign(load_ring).iter().for_each(|path| take(&mut table, path));
        for path in tables(load_ring) {
            if get(&table, path).is_none() {
                put(&mut table, path, Value::Table(Table::new()));
            }
        }
        if !corners.is_empty() {
            put(&mut table, OUTLINE, Value::Array(corners));
        }
        put(&mut table, "schema", Value::String(Kind::Seal.schema_line()));
        for (slot, _) in &typed {
            without_other_stiffness(&mut table, slot.path);
        }
        let origin = typed.iter().find(|(slot, _)| slot.path == ORIGIN);
        let origin = origin.map_or_else(typed_here, |(_, origin)| origin.clone());
        for (slot, value) in typed {
            if slot.path == ORIGIN {
                continue;
            }
            if let (true, Some((limit, _))) =
                (slot.path.starts_with("limits."), slot.path.rsplit_once('.'))
            {
                put(&mut table, &format!("{limit}.origin"), origin.clone());
            }
            put(&mut table, slot.path, value);
        }
        let checked = definition::check::<Seal>(&table);
        let unfit = |part: &str| {
            let paths = checked.flaws.iter().map(|flaw| flaw.misfit.path.as_str());
            let is_drawn = |path: &&str| {
                let key = path.rsplit('.').next().unwrap_or(path);
                !UNDRAWN.contains(&key) && !STIFFNESS.contains(&key)
            };
            paths.filter(is_drawn).any(|path| path.starts_with(part))
        };
        let is_drawn = !["ring", "load_ring", "housing"].into_iter().any(unfit);
        let seal = checked.definition.filter(|_| is_drawn).map(|seal| match unfit("name") {
            true => Seal { name: words().say("build-unnamed"), ..seal },
            false => seal,
        });
        let text = toml::to_string(&table).unwrap_or_default();
        Self { load_ring, base, text, flaws: checked.flaws, seal }
    }
}

/// The load ring of a library's seal.
fn load_ring_of(base: &Table) -> Option<LoadRingType> {
    let holder = base.get("load_ring")?.as_table()?;
    LoadRingType::ALL.into_iter().find(|kind| holder.contains_key(&kind.name().replace('-', "_")))
}

/// The corners of a washer's section, the library's where nothing is typed, and the form's row of
/// each; `None` where nothing is typed.
fn corners(
    half: Half,
    (fields, base): (&Fields, Option<&Table>),
    system: System,
) -> Option<(Vec<Value>, Vec<usize>)> {
    let typed = corners_typed(half, fields);
    if typed == 0 {
        return None;
    }
    let known = corners_of(base);
    let corner = |row: usize| {
        let known = row.checked_sub(1).and_then(|at| known.get(at)?.as_array());
        let part = |(at, slot): (usize, &Slot)| {
            let name = field(half, &format!("seal.{}", corner_path(row, slot.path)));
            let typed = fields.some(&name).map(|typed| value(slot, typed, system));
            typed.or_else(|| known?.get(at).cloned())
        };
        let parts: Vec<Value> = CORNER.iter().enumerate().filter_map(part).collect();
        (!parts.is_empty()).then_some((Value::Array(parts), row))
    };
    Some((1..=typed.max(known.len())).filter_map(corner).unzip())
}

/// A typed stiffness stands alone: what the library's seal had in its place goes.
fn without_other_stiffness(table: &mut Table, path: &str) {
    let Some((holder, key)) = path.rsplit_once('.') else { return };
    let other: &[&str] = match key {
        "hardness" => &["modulus", "modulus_standard_uncertainty"],
        "modulus" => &["hardness", "modulus_standard_uncertainty"],
        _ => &[],
    };
    if holder.starts_with("load_ring.") {
        other.iter().for_each(|key| take(table, &format!("{holder}.{key}")));
    }
}

/// Where limits come from that nobody said the origin of; it stands in the record.
fn typed_here() -> Value {
    Value::String(in_english(|| say!("build-origin-typed")).to_owned())
}

fn take(table: &mut Table, path: &str) {
    match path.split_once('.') {
        None => drop(table.remove(path)),
        Some((key, rest)) => {
            if let Some(Value::Table(inner)) = table.get_mut(key) {
                take(inner, rest);
            }
        }
    }
}

fn no_seal(half: Half) -> Flaw {
    let t = words();
    let misfit = definition::Misfit {
        path: "from".to_owned(),
        found: t.with("build-no-seal", &[("half", half.name())]),
        fits: t.say("build-no-seal-next"),
    };
    Flaw { misfit, why: Why::Missing }
}

/// The joint file, and the form's row of each of its links.
fn joint(fields: &Fields, system: System) -> (Table, Vec<usize>) {
    let mut joint = Table::new();
    put(&mut joint, "schema", Value::String(Kind::Joint.schema_line()));
    for table in ["service", "gap"] {
        put(&mut joint, table, Value::Table(Table::new()));
    }
    for half in Half::BOTH {
        let file = Value::String(format!("seal-{}.toml", half.name()));
        put(&mut joint, &field(half, "seal_file"), file);
    }
    let slots = slots::JOINT.iter().chain(slots::SERVICE).chain(slots::GAP);
    for slot in slots {
        let Some(typed) = fields.some(slot.path) else { continue };
        if slot.path == SHIMS {
            let shims = typed.split(';').map(str::trim).filter(|shim| !shim.is_empty());
            let unit = units_name(system);
            let shims = shims.map(|shim| Value::String(with_unit(shim, unit))).collect();
            put(&mut joint, SHIMS, Value::Array(shims));
            continue;
        }
        if slot.path.starts_with("gap.limits.") {
            put(&mut joint, "gap.limits.origin", typed_here());
        }
        put(&mut joint, slot.path, value(slot, typed, system));
    }
    let (mut links, mut rows) = (Vec::new(), Vec::new());
    for row in 1..=rows_typed(fields) {
        let typed = LINK.iter().filter_map(|slot| {
            let typed = fields.some(&link_field(row, slot.path))?;
            Some((slot.path.to_owned(), value(slot, typed, system)))
        });
        links.push(Value::Table(typed.collect()));
        rows.push(row);
    }
    let is_blank =
        |link: &Value| link.as_table().is_none_or(|link| link.keys().all(|k| k == "sign"));
    let (links, rows) = links.into_iter().zip(rows).filter(|(link, _)| !is_blank(link)).unzip();
    put(&mut joint, "gap.link", Value::Array(links));
    (joint, rows)
}

/// Rows of dimensions up to the last one with something in it.
pub(super) fn rows_typed(fields: &Fields) -> usize {
    let has = |row: &usize| {
        let slots = LINK.iter().filter(|slot| slot.path != "sign");
        slots.into_iter().any(|slot| fields.some(&link_field(*row, slot.path)).is_some())
    };
    (1..=MOST_LINKS).rev().find(has).unwrap_or(0)
}

/// The field that a path of the joint file stands in.
fn field_of(path: &str, rows: &[usize]) -> String {
    let Some(rest) = path.strip_prefix("gap.link") else {
        return match path {
            "gap.limits" => "gap.limits.min".to_owned(),
            _ if path.starts_with(SHIMS) => SHIMS.to_owned(),
            _ => path.to_owned(),
        };
    };
    let entry = rest.strip_prefix('[').and_then(|rest| rest.split_once(']'));
    let (entry, key) = entry.unwrap_or(("1", ""));
    let at = entry.parse::<usize>().ok().and_then(|n| rows.get(n.checked_sub(1)?));
    let key = key.trim_start_matches('.');
    link_field(at.copied().unwrap_or(1), if key.is_empty() { "name" } else { key })
}

/// The field of a seal that a path stands in: its own, or the first one below it.
fn seal_field(path: &str) -> &str {
    if path.starts_with(OUTLINE) || slots::of_seal().any(|slot| slot.path == path) {
        return path;
    }
    let below =
        |slot: &&Slot| slot.path.strip_prefix(path).is_some_and(|rest| rest.starts_with('.'));
    slots::of_seal().find(below).map_or("name", |slot| slot.path)
}

/// A flaw in words, names of fields in place of keys.
fn said(flaw: &Flaw, file: &str) -> Wrong {
    let Flaw { misfit, why } = flaw;
    if *why == Why::Missing && misfit.path != "from" {
        let what = words().say("build-missing");
        return Wrong { why: *why, what, do_next: String::new() };
    }
    let named = |text: &str| with_names(text, &misfit.path, file == "seal");
    let problem = Problem::input(named(&misfit.found), named(&misfit.fits));
    Wrong { why: *why, what: problem.what(), do_next: problem.do_next() }
}

/// Keys between back-quotes by the names of their fields, looked for from where the flaw is.
fn with_names(text: &str, path: &str, of_seal: bool) -> String {
    let name_of = |key: &str| {
        let holders = std::iter::successors(Some(path), |path| Some(path.rsplit_once('.')?.0));
        holders.chain([""]).find_map(|holder| {
            let whole = if holder.is_empty() { key.to_owned() } else { format!("{holder}.{key}") };
            let mut joint = slots::JOINT.iter().chain(slots::SERVICE).chain(slots::GAP);
            let slot = match of_seal {
                true => slots::of_seal().find(|slot| slot.path == whole),
                false => joint.find(|slot| slot.path == whole),
            };
            let of_link = || {
                let link = holder.starts_with("gap.link[") && !of_seal;
                let known = link && LINK.iter().any(|slot| slot.path == key);
                known.then(|| format!("build-link-{}", key.replace('_', "-")))
            };
            slot.map(Slot::word).or_else(of_link)
        })
    };
    let mut parts = text.split('`');
    let mut out = parts.next().unwrap_or_default().to_owned();
    for (at, part) in parts.enumerate() {
        match (at % 2 == 0).then(|| name_of(part)).flatten() {
            Some(word) => out.push_str(&format!("“{}”", words().say(&word))),
            None if at % 2 == 0 => out.push_str(&format!("“{part}”")),
            None => out.push_str(part),
        }
    }
    out
}

#[cfg(test)]
mod tests;
