//! A calculation is complete when every floor knows it: the places of a room. And rooms keep to
//! themselves.

use std::collections::BTreeSet;

use super::mask::{code_only, is_word};
use super::{File, Finding, text_of};

const ROOMS: &str = "crates/ringtrue-seal/src/";
const LIBRARY: &str = "crates/ringtrue-seal/src/lib.rs";
const CASES: &str = "validation/cases/";
const QUESTIONS: &str = "crates/ringtrue-job/src/question.rs";
const JUDGE: &str = "crates/ringtrue-job/src/judge.rs";
const SECTIONS: &str = "crates/ringtrue-report/src/section/";
const COMMANDS: &str = "crates/ringtrue/src/cli/";

/// Which room may read what another gives: both want the load curve.
const MAY_IMPORT: &[(&str, &str)] = &[("closing", "face_load"), ("seating", "face_load")];
/// Published cases run on the rooms' own functions.
const KNOWS_ALL: &str = "validation";

/// Every rule on every room.
pub(crate) fn check(files: &[File]) -> Vec<Finding> {
    let rooms = rooms(files);
    if rooms.is_empty() {
        return vec![Finding::error(ROOMS, "no room with a `pub fn evaluate` is found")];
    }
    let mut findings: Vec<Finding> = rooms.iter().flat_map(|room| missing(files, room)).collect();
    findings.extend(files.iter().flat_map(|file| imports(file, &rooms)));
    findings
}

/// Rooms that a module of `seal` names, and may not.
fn imports(file: &File, rooms: &BTreeSet<String>) -> Vec<Finding> {
    let Some(path) = file.path.strip_prefix(ROOMS).filter(|path| *path != "lib.rs") else {
        return Vec::new();
    };
    let own = path.split('/').next().unwrap_or(path).trim_end_matches(".rs");
    let may = |room: &str| own == room || own == KNOWS_ALL || MAY_IMPORT.contains(&(own, room));
    let named = modules_named(file.text.as_deref().unwrap_or_default());
    let wrong = rooms.iter().filter(|room| named.contains(*room) && !may(room));
    wrong
        .map(|room| {
            let what = format!("`{own}` imports the room `{room}`: see MAY_IMPORT in rooms.rs");
            Finding::error(file.path.as_str(), what)
        })
        .collect()
}

/// Modules of its own crate that a source names: `crate::name` and `crate::{name, ...}`.
fn modules_named(text: &str) -> BTreeSet<String> {
    let code: String = code_only(text).into_iter().collect();
    let mut named = BTreeSet::new();
    for (at, path) in code.match_indices("crate::") {
        let after = &code[at + path.len()..];
        match after.strip_prefix('{') {
            Some(group) => named.extend(heads(group)),
            None => named.extend(head(after)),
        }
    }
    named
}

/// The first name of each path in a group of imports, up to the brace that closes it.
fn heads(group: &str) -> Vec<String> {
    let (mut depth, mut heads) = (0_usize, Vec::new());
    let mut begins = true;
    for (at, c) in group.char_indices() {
        match c {
            '}' if depth == 0 => break,
            '{' => depth += 1,
            '}' => depth -= 1,
            ',' if depth == 0 => begins = true,
            _ if begins && is_word(c) => {
                heads.extend(head(&group[at..]));
                begins = false;
            }
            _ => {}
        }
    }
    heads
}

fn head(path: &str) -> Option<String> {
    let name: String = path.chars().take_while(|c| is_word(*c)).collect();
    (!name.is_empty()).then_some(name)
}

/// Modules of `seal` with the door of a room.
fn rooms(files: &[File]) -> BTreeSet<String> {
    let modules = files.iter().filter_map(|file| {
        let path = file.path.strip_prefix(ROOMS)?;
        let text = file.text.as_deref()?;
        let name = path.strip_suffix("/mod.rs").or_else(|| path.strip_suffix(".rs"))?;
        (!name.contains('/') && mentions(text, "pub fn evaluate")).then(|| name.to_owned())
    });
    modules.collect()
}

fn missing(files: &[File], room: &str) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut want = |there: bool, place: &str, what: &str| {
        if !there {
            findings.push(Finding::error(format!("room {room}"), format!("{place}: {what}")));
        }
    };
    let says =
        |path: &str, words: &str| text_of(files, path).is_some_and(|text| mentions(text, words));
    let module = |folder: &str| {
        let (flat, deep) = (format!("{folder}{room}.rs"), format!("{folder}{room}/mod.rs"));
        if text_of(files, &deep).is_some() { deep } else { flat }
    };
    let door = module(ROOMS);
    for part in ["Input", "Outcome"] {
        let is_there = ["struct", "enum"].iter().any(|k| says(&door, &format!("pub {k} {part}")));
        want(is_there, &door, &format!("has no public `{part}`"));
    }
    want(says(&door, "pub const SOURCES"), &door, "has no `SOURCES`");
    let no_sources = text_of(files, &door).is_some_and(|text| text.contains("[Source] = &[];"));
    want(!no_sources, &door, "SOURCES is empty");
    want(says(LIBRARY, &format!("pub mod {room}")), LIBRARY, "has no `pub mod` of it");
    let cases = format!("{CASES}{room}/");
    want(any(files, |path| path.starts_with(&cases) && is_toml(path)), &cases, "holds no case");
    want(says(QUESTIONS, room), QUESTIONS, "does not name it");
    // Where finite elements may be known already, a room is called with who solves them.
    let called = ["evaluate", "evaluate_with"];
    let is_called = called.iter().any(|name| says(JUDGE, &format!("{room}::{name}")));
    want(is_called, JUDGE, "does not call it");
    let section = module(SECTIONS);
    want(text_of(files, &section).is_some(), &section, "is missing");
    // The pages of the bench show the report's sections: a room needs no page of its own.
    let commanded = files.iter().any(|file| {
        file.path.starts_with(COMMANDS)
            && file.text.as_deref().is_some_and(|text| mentions(text, room))
    });
    want(commanded, COMMANDS, "no command names it");
    findings
}

fn any(files: &[File], fits: impl Fn(&str) -> bool) -> bool {
    files.iter().any(|file| fits(&file.path))
}

fn is_toml(path: &str) -> bool {
    std::path::Path::new(path).extension().is_some_and(|ending| ending == "toml")
}

/// Does the code (not a comment, not a string) hold these words?
fn mentions(text: &str, words: &str) -> bool {
    let code: String = code_only(text).into_iter().collect();
    code.match_indices(words).any(|(at, _)| {
        let before = code[..at].chars().next_back();
        let after = code[at + words.len()..].chars().next();
        !before.is_some_and(is_word) && !after.is_some_and(is_word)
    })
}

#[cfg(test)]
mod tests {
    use super::super::{errors, sample};
    use super::{check, imports};

    const DOOR: &str = "pub struct Input;\npub struct Outcome;\n\
        pub const SOURCES: &[Source] = &[Source::CommonPractice];\n\
        pub fn evaluate(input: &Input) {}\n";
    const FILES: &[(&str, &str)] = &[
        ("crates/ringtrue-seal/src/lib.rs", "pub mod closing;\n"),
        ("crates/ringtrue-seal/src/closing.rs", DOOR),
        ("crates/ringtrue-seal/src/geometry.rs", "pub fn mount() {}\n"),
        ("validation/cases/closing/handbook_p12.toml", "[[case]]\n"),
        ("crates/ringtrue-job/src/question.rs", "Self::Closing => closing::SOURCES,\n"),
        ("crates/ringtrue-job/src/judge.rs", "closing::evaluate(input)\n"),
        ("crates/ringtrue-report/src/section/closing.rs", "fn x() {}\n"),
        ("crates/ringtrue/src/cli/close.rs", "use ringtrue_seal::closing;\n"),
    ];

    fn with(path: &str, text: Option<&str>) -> Vec<String> {
        let mut files: Vec<(&str, &str)> =
            FILES.iter().copied().filter(|(there, _)| *there != path).collect();
        files.extend(text.map(|text| (path, text)));
        errors(&check(&sample(&files)))
    }

    #[test]
    fn a_complete_room_passes() {
        assert!(errors(&check(&sample(FILES))).is_empty());
    }

    #[test]
    fn each_missing_place_is_found() {
        let places =
            FILES.iter().filter(|(path, _)| !path.starts_with("crates/ringtrue-seal/src/"));
        for (path, _) in places {
            assert_eq!(with(path, None).len(), 1, "{path}");
        }
        assert_eq!(with("crates/ringtrue-seal/src/lib.rs", Some("pub mod geometry;")).len(), 1);
    }

    #[test]
    fn a_mention_in_a_comment_is_none() {
        let text = Some("// closing::evaluate(input)\n");
        assert_eq!(with("crates/ringtrue-job/src/judge.rs", text).len(), 1);
    }

    #[test]
    fn a_door_without_its_parts_is_found() {
        let bare = "pub const SOURCES: &[Source] = &[];\npub fn evaluate() {}\n";
        assert_eq!(with("crates/ringtrue-seal/src/closing.rs", Some(bare)).len(), 3);
        let either = DOOR.replace("struct Input", "enum Input");
        assert!(with("crates/ringtrue-seal/src/closing.rs", Some(&either)).is_empty());
        let none = DOOR.replace("pub const SOURCES", "const SOURCES");
        assert_eq!(with("crates/ringtrue-seal/src/closing.rs", Some(&none)).len(), 1);
    }

    #[test]
    fn rooms_keep_to_themselves() {
        let rooms = ["chilling", "closing", "face_load"].map(str::to_owned).into();
        let found = |path: &str, text: &str| {
            let path = format!("crates/ringtrue-seal/src/{path}");
            let files = sample(&[(path.as_str(), text)]);
            errors(&imports(&files[0], &rooms)).len()
        };
        let load = "use crate::face_load::{GapPoint, JointOutcome};\n";
        assert_eq!(found("closing/mod.rs", load), 0);
        assert_eq!(found("face_load/half.rs", load), 0);
        assert_eq!(found("validation/models/mod.rs", load), 0);
        assert_eq!(found("chilling/mod.rs", load), 1);
        assert_eq!(found("chilling.rs", load), 1);
        // What rooms share knows none of them.
        assert_eq!(found("geometry.rs", load), 1);
        assert_eq!(found("face_load/mod.rs", "use crate::closing;\n"), 1);
        let group =
            "use crate::{RoomError, section::{closing, Step}, chilling::{a, b}, face_load};";
        assert_eq!(found("closing/mod.rs", group), 1);
        assert_eq!(found("chilling/mod.rs", group), 1);
        assert_eq!(found("chilling/mod.rs", "fn f() { crate::closing::evaluate() }"), 1);
        assert_eq!(
            found("chilling/mod.rs", "// [`crate::closing`]\nuse super::face_load_like;"),
            0
        );
    }

    #[test]
    fn a_house_without_rooms_is_found() {
        assert_eq!(with("crates/ringtrue-seal/src/closing.rs", None).len(), 1);
    }
}
