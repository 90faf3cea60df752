//! What one edition of a procedure has that another has not.

use std::collections::BTreeMap;

use ringtrue_seal::definition::procedure::{Evidence, Gate, Procedure, Step};
use serde::Serialize;

/// What changed from an older procedure to a newer one. Steps are the same by their id.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Difference {
    /// Keys of the file itself: name, version, origin, load ring, cautions.
    pub head: Vec<Field>,
    /// Steps that are new.
    pub added: Vec<Place>,
    /// Steps that are gone.
    pub removed: Vec<Place>,
    /// Steps that stand elsewhere among those that stayed; the fewest that explain the new order.
    pub moved: Vec<Place>,
    /// Steps of which something changed.
    pub changed: Vec<Changed>,
}

impl Difference {
    /// Is there none?
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// A step and where it stands.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Place {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The step before it in the older procedure; `None` where it stood first or not at all.
    pub old_after: Option<String>,
    /// The step before it in the newer procedure; `None` where it stands first or not at all.
    pub new_after: Option<String>,
}

/// A step of which something changed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Changed {
    /// Its id.
    pub id: String,
    /// Its title, the newer one.
    pub title: String,
    /// What changed, key by key.
    pub fields: Vec<Field>,
}

/// One key that changed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Field {
    /// The key: `why`, `evidence.heights.ask`, `caution.cold`.
    pub key: String,
    /// What stood there; `None` where the key was not given.
    pub old: Option<String>,
    /// What stands there; `None` where the key is not given.
    pub new: Option<String>,
}

/// What changed from an older procedure to a newer one.
#[must_use]
pub fn difference(old: &Procedure, new: &Procedure) -> Difference {
    let place = |step: &Step| Place {
        id: step.id.clone(),
        title: step.title.clone(),
        old_after: before(old, &step.id),
        new_after: before(new, &step.id),
    };
    let changed = new.step.iter().filter_map(|step| {
        let fields = changed(&of_step(old.step(&step.id)?), &of_step(step));
        let (id, title) = (step.id.clone(), step.title.clone());
        (!fields.is_empty()).then_some(Changed { id, title, fields })
    });
    Difference {
        head: self::changed(&of_head(old), &of_head(new)),
        added: new.step.iter().filter(|step| old.step(&step.id).is_none()).map(place).collect(),
        removed: old.step.iter().filter(|step| new.step(&step.id).is_none()).map(place).collect(),
        moved: moved(old, new).into_iter().map(place).collect(),
        changed: changed.collect(),
    }
}

/// The id of the step before this one.
fn before(procedure: &Procedure, id: &str) -> Option<String> {
    let at = procedure.step.iter().position(|step| step.id == id)?;
    procedure.step.get(at.checked_sub(1)?).map(|step| step.id.clone())
}

/// Steps of both that are not part of the longest run that kept its order.
fn moved<'p>(old: &Procedure, new: &'p Procedure) -> Vec<&'p Step> {
    let stayed: Vec<(usize, &Step)> = new
        .step
        .iter()
        .filter_map(|step| Some((old.step.iter().position(|other| other.id == step.id)?, step)))
        .collect();
    // Longest increasing subsequence of the old places: `length[i]` ends at entry `i`.
    let mut length: Vec<usize> = Vec::with_capacity(stayed.len());
    for (index, (at, _)) in stayed.iter().enumerate() {
        let longest = stayed[..index].iter().zip(&length).filter(|((other, _), _)| other < at);
        length.push(1 + longest.map(|(_, length)| *length).max().unwrap_or(0));
    }
    let mut wanted = length.iter().copied().max().unwrap_or(0);
    let mut bound = usize::MAX;
    let mut moved = Vec::new();
    for ((at, step), length) in stayed.iter().zip(&length).rev() {
        if *length == wanted && *at < bound {
            wanted -= 1;
            bound = *at;
        } else {
            moved.push(*step);
        }
    }
    moved.reverse();
    moved
}

type Fields = BTreeMap<String, String>;

fn changed(old: &Fields, new: &Fields) -> Vec<Field> {
    let keys: std::collections::BTreeSet<&String> = old.keys().chain(new.keys()).collect();
    keys.into_iter()
        .map(|key| Field {
            key: key.clone(),
            old: old.get(key).cloned(),
            new: new.get(key).cloned(),
        })
        .filter(|field| field.old != field.new)
        .collect()
}

fn of_head(procedure: &Procedure) -> Fields {
    // Taken apart in full, so that a key that is added to the type can't be forgotten here.
    let Procedure { schema, name, version, origin, load_ring, caution, step: _ } = procedure;
    let mut fields = Fields::new();
    put(&mut fields, "schema", schema);
    put(&mut fields, "name", name);
    put(&mut fields, "version", version);
    put(&mut fields, "origin", origin);
    put(&mut fields, "load_ring", load_ring.name());
    for caution in caution {
        put(&mut fields, &format!("caution.{}", caution.hazard.name()), &caution.text);
    }
    fields
}

fn of_step(step: &Step) -> Fields {
    let Step { id: _, stage, title, what, why, when, hazards, caution, evidence, gate } = step;
    let mut fields = Fields::new();
    put(&mut fields, "stage", stage.name());
    put(&mut fields, "title", title);
    put(&mut fields, "what", what);
    put(&mut fields, "why", why);
    let listed = |words: Vec<&str>| words.join(", ");
    put(&mut fields, "when", &listed(when.iter().map(|rule| rule.name()).collect()));
    put(&mut fields, "hazards", &listed(hazards.iter().map(|hazard| hazard.name()).collect()));
    put(&mut fields, "caution", caution.as_deref().unwrap_or_default());
    // The names in their order, so that one that comes, goes or moves shows here too.
    put(&mut fields, "evidence", &listed(evidence.iter().map(|one| one.name.as_str()).collect()));
    evidence.iter().for_each(|one| put_evidence(&mut fields, one));
    if let Some(Gate { decided_by, hold_point }) = gate {
        put(&mut fields, "gate.decided_by", decided_by.name());
        put(&mut fields, "gate.hold_point", hold_point.map_or("", |point| point.name()));
    }
    fields
}

fn put_evidence(fields: &mut Fields, evidence: &Evidence) {
    let Evidence { name, kind, ask, need, quantity, example, measures, .. } = evidence;
    let Evidence { limit, readings, stated, .. } = evidence;
    let mut put_under = |key: &str, text: &str| {
        put(fields, &format!("evidence.{name}.{key}"), text);
    };
    put_under("kind", kind.name());
    put_under("ask", ask);
    put_under("need", need.name());
    put_under("quantity", quantity.map_or("", |quantity| quantity.name()));
    put_under("example", example.as_deref().unwrap_or_default());
    put_under("measures", measures.map_or("", |measures| measures.name()));
    put_under("limit", limit.map_or("", |limit| limit.name()));
    put_under("readings", readings.map_or("", |readings| readings.name()));
    put_under("stated", &stated.join(", "));
}

/// A key that is not given has no entry.
fn put(fields: &mut Fields, key: &str, text: &str) {
    if !text.is_empty() {
        fields.insert(key.to_owned(), text.to_owned());
    }
}
