//! All that does not fit in a definition, for a form that says it at each field.
//!
//! The reader of a file stops at the first thing that does not fit. Here that is put right by the
//! starter's own value and reading goes on, so that each complaint is the reader's.

use toml::{Table, Value};

use super::place::{self, Step};
use super::procedure::LoadRingType;
use super::{Definition, Kind, Misfit, complaint, starter, starter_with};

/// Most flaws that are told.
const MOST_FLAWS: usize = 200;

/// Something that does not fit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Flaw {
    /// The key's path, what was found, what would fit.
    pub misfit: Misfit,
    /// Why it does not fit.
    pub why: Why,
}

/// Why something does not fit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// It is not there.
    Missing,
    /// It is there, and can't be right.
    Unfit,
}

/// A definition with all that does not fit in it.
#[derive(Debug, Clone, PartialEq)]
pub struct Checked<T> {
    /// The definition, with the starter's values in place of what is missing or can't be read;
    /// `None` where not even that makes one.
    pub definition: Option<T>,
    /// What does not fit, in the order in which it is read.
    pub flaws: Vec<Flaw>,
}

/// Checks a definition that is put together from fields, as [`read`](super::read) checks a text.
///
/// What values must keep among themselves is told of each part whose own values can all be read,
/// the first thing of each. Texts of numbers are those of a file: each quantity with its unit.
#[must_use]
pub fn check<T: Definition>(table: &Table) -> Checked<T> {
    let mut table = Value::Table(table.clone());
    dates_as_text(&mut table);
    let example =
        example(&table, T::KIND).parse().map_or_else(|_| Value::Table(Table::new()), Value::Table);
    let mut flaws: Vec<Flaw> = Vec::new();
    while flaws.len() < MOST_FLAWS {
        match serde_path_to_error::deserialize::<_, T>(table.clone()) {
            Ok(definition) => {
                let misfits = definition.misfits().into_iter();
                let kept: Vec<Flaw> = misfits
                    .filter(|misfit| flaws.iter().all(|flaw| !beside(misfit, &flaw.misfit)))
                    .map(|misfit| Flaw { misfit, why: Why::Unfit })
                    .collect();
                flaws.extend(kept);
                return Checked { definition: Some(definition), flaws };
            }
            Err(error) => {
                let flaw = complaint::of_fields(&table, T::KIND, &error);
                let mended = mend(&mut table, &example, &flaw);
                flaws.push(flaw);
                if !mended {
                    break;
                }
            }
        }
    }
    Checked { definition: None, flaws }
}

/// The starter that is like this definition: a seal's has the same load ring.
fn example(table: &Value, kind: Kind) -> &'static str {
    let washer = place::within(table, "load_ring.conical_washer").is_some();
    let like = washer.then(|| starter_with(kind, LoadRingType::ConicalWasher)).flatten();
    like.unwrap_or_else(|| starter(kind))
}

/// Do both stand in one table, or in one and a table of it? Then what the two values say of each
/// other says nothing of what was typed.
fn beside(one: &Misfit, other: &Misfit) -> bool {
    let table = |path: &str| path.rsplit_once('.').map_or(String::new(), |(table, _)| table.into());
    let (one, other): (String, String) = (table(&one.path), table(&other.path));
    let holds = |outer: &str, inner: &str| {
        inner.strip_prefix(outer).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
    };
    !one.is_empty() && !other.is_empty() && (holds(&one, &other) || holds(&other, &one))
}

/// Puts the starter's value where something does not fit, or takes it out where the starter has
/// none; says whether that changed anything.
fn mend(table: &mut Value, example: &Value, flaw: &Flaw) -> bool {
    let path = &flaw.misfit.path;
    let mut steps: Vec<Step<'_>> = place::steps(path).collect();
    let Some(last) = steps.pop() else { return false };
    let value = steps.iter().chain([&last]).try_fold(example, |here, step| match step {
        Step::Key(key) => here.get(*key),
        // The starter's entries are like each other.
        Step::Entry(_) => here.get(0),
    });
    let holder = steps.iter().try_fold(table, |here, step| match step {
        Step::Key(key) => here.get_mut(*key),
        Step::Entry(number) => here.get_mut(number.checked_sub(1)?),
    });
    match (holder, last) {
        (Some(Value::Table(holder)), Step::Key(key)) => match value {
            Some(value) if holder.get(key) == Some(value) => false,
            Some(value) => {
                holder.insert(key.to_owned(), value.clone());
                true
            }
            None => holder.remove(key).is_some(),
        },
        (Some(Value::Array(list)), Step::Entry(number)) => {
            let at = number.checked_sub(1).filter(|at| *at < list.len());
            match (at, value) {
                (Some(at), Some(value)) if list[at] != *value => list[at] = value.clone(),
                (Some(at), _) => drop(list.remove(at)),
                (None, _) => return false,
            }
            true
        }
        (_, _) => false,
    }
}

/// People write dates with and without quotes; both are the same date.
fn dates_as_text(value: &mut Value) {
    match value {
        Value::Datetime(date) => *value = Value::String(date.to_string()),
        Value::Array(list) => list.iter_mut().for_each(dates_as_text),
        Value::Table(table) => table.iter_mut().for_each(|(_, value)| dates_as_text(value)),
        Value::String(_) | Value::Integer(_) | Value::Float(_) | Value::Boolean(_) => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::definition::Kind;
    use crate::definition::joint::JointFile;
    use crate::definition::seal::Seal;

    fn starter_of(kind: Kind) -> Table {
        starter(kind).parse().unwrap()
    }

    fn paths<T>(checked: &Checked<T>) -> Vec<(&str, Why)> {
        let flaws = checked.flaws.iter();
        flaws.map(|flaw| (flaw.misfit.path.as_str(), flaw.why)).collect()
    }

    fn with_washer() -> Table {
        starter_with(Kind::Seal, LoadRingType::ConicalWasher).unwrap().parse().unwrap()
    }

    #[test]
    fn starters_have_no_flaw() {
        assert_eq!(paths(&check::<Seal>(&starter_of(Kind::Seal))), []);
        assert_eq!(paths(&check::<Seal>(&with_washer())), []);
        assert_eq!(paths(&check::<JointFile>(&starter_of(Kind::Joint))), []);
    }

    #[test]
    fn every_flaw_is_told_with_the_path_of_its_key() {
        let mut joint = starter_of(Kind::Joint);
        joint.remove("name");
        joint["service"]["speed"] = Value::String("60 mm".into());
        joint["service"].as_table_mut().unwrap().remove("temperature_min");
        joint["gap"]["link"][1]["nominal"] = Value::String("wide".into());
        joint["gap"]["link"][0]["plus_minus"] = Value::String("-1 mm".into());
        joint["attitude"] = Value::String("upside-down".into());
        let checked = check::<JointFile>(&joint);
        let mut told = paths(&checked);
        told.sort_by_key(|(path, _)| *path);
        let unfit = |path| (path, Why::Unfit);
        let missing = |path| (path, Why::Missing);
        assert_eq!(
            told,
            [
                unfit("attitude"),
                unfit("gap.link[1].plus_minus"),
                unfit("gap.link[2].nominal"),
                missing("name"),
                unfit("service.speed"),
                missing("service.temperature_min"),
            ]
        );
        let speed = checked.flaws.iter().find(|flaw| flaw.misfit.path == "service.speed").unwrap();
        assert!(speed.misfit.found.starts_with("`60 mm`"), "{}", speed.misfit.found);
        assert!(checked.definition.is_some());
    }

    #[test]
    fn what_stands_beside_a_gap_is_not_held_against_the_starter() {
        // The starter's own inner diameter is larger than this ring: nobody typed it.
        let mut seal = starter_of(Kind::Seal);
        seal["ring"]["face_outer_diameter"] = Value::String("90 mm".into());
        seal["ring"].as_table_mut().unwrap().remove("face_inner_diameter");
        assert_eq!(paths(&check::<Seal>(&seal)), [("ring.face_inner_diameter", Why::Missing)]);
        let ring = seal["ring"].as_table_mut().unwrap();
        ring.insert("face_inner_diameter".into(), Value::String("95 mm".into()));
        assert_eq!(paths(&check::<Seal>(&seal)), [("ring.face_inner_diameter", Why::Unfit)]);
    }

    #[test]
    fn a_washer_is_put_right_by_a_washers_starter() {
        let mut seal = with_washer();
        let washer = seal["load_ring"]["conical_washer"].as_table_mut().unwrap();
        washer.remove("ring_seat_from_face");
        washer["outline"][1][0] = Value::String("wide".into());
        washer["outline"].as_array_mut().unwrap()[3].as_array_mut().unwrap().pop();
        let checked = check::<Seal>(&seal);
        let mut told = paths(&checked);
        told.sort_by_key(|(path, _)| *path);
        assert_eq!(
            told,
            [
                ("load_ring.conical_washer.outline[2][1]", Why::Unfit),
                ("load_ring.conical_washer.outline[4]", Why::Unfit),
                ("load_ring.conical_washer.ring_seat_from_face", Why::Missing),
            ]
        );
        assert!(checked.definition.is_some());
        // With nothing of it typed, all of it is missing, and nothing else is told.
        seal["load_ring"]["conical_washer"] = Value::Table(Table::new());
        let told = check::<Seal>(&seal).flaws;
        assert!(told.iter().any(|flaw| flaw.misfit.path.ends_with(".outline")));
        let all = |flaw: &Flaw| flaw.misfit.path.starts_with("load_ring.conical_washer.");
        assert!(told.iter().all(all), "{told:?}");
    }

    #[test]
    fn an_empty_table_ends_and_tells_what_is_missing() {
        let told = check::<Seal>(&Table::new());
        assert!(told.flaws.iter().all(|flaw| flaw.why == Why::Missing));
        assert!(told.definition.is_some());
    }
}
