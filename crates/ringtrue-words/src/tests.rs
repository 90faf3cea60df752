//! Every word of the pages is in the language file, and nothing else is.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use fluent_bundle::FluentResource;

use super::{ENGLISH, Words, english, in_english, speaking, words};

/// Prefixes of keys that are put together with a word of a closed set.
const PREFIXES: &[&str] = &[
    "role-",
    "role-does-",
    "look-theme-",
    "look-units-",
    "jobs-",
    "state-",
    "stage-",
    "standing-",
    "next-",
    "kind-",
    "follow-up-",
    "library-kind-",
    "library-one-",
    "reading-column-",
    "reading-word-",
    "setting-name-",
    "setting-word-",
    "try-",
    "build-",
    "quantity-",
    "polymer-",
];

fn files(folder: &Path, ending: &str, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files(&path, ending, found);
        } else if path.extension().is_some_and(|known| known == ending) {
            found.push(path);
        }
    }
}

/// The folder of all crates.
fn crates() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap()
}

/// The files of all templates and of all code that says something, each with its text.
fn sources() -> Vec<(PathBuf, String)> {
    let mut paths = Vec::new();
    files(&crates().join("ringtrue/templates"), "html", &mut paths);
    for entry in std::fs::read_dir(crates()).unwrap() {
        let path = entry.unwrap().path();
        if !path.ends_with("ringtrue-words") {
            files(&path.join("src"), "rs", &mut paths);
        }
    }
    let read = |path: PathBuf| {
        let text = std::fs::read_to_string(&path).unwrap();
        (path, text)
    };
    paths.into_iter().map(read).collect()
}

/// What stands between the commas of the parentheses that open at the start of a text.
fn parts(text: &str) -> Vec<&str> {
    let (mut depth, mut quoted, mut escaped) = (0_usize, false, false);
    let mut parts = Vec::new();
    let mut from = 1;
    for (at, c) in text.char_indices() {
        match c {
            _ if escaped => escaped = false,
            '\\' if quoted => escaped = true,
            '"' => quoted = !quoted,
            '(' | '[' | '{' if !quoted => depth += 1,
            ',' if !quoted && depth == 1 => {
                parts.push(text[from..at].trim());
                from = at + 1;
            }
            ')' | ']' | '}' if !quoted => {
                depth -= 1;
                if depth == 0 {
                    parts.push(text[from..at].trim());
                    return parts.into_iter().filter(|part| !part.is_empty()).collect();
                }
            }
            _ => {}
        }
    }
    panic!("parentheses stay open: {}", text.lines().next().unwrap_or_default());
}

/// Every `say!` of the code: its key, and the names that it gives values for.
fn said(code: &str) -> Vec<(String, BTreeSet<String>)> {
    let mut found = Vec::new();
    for (at, _) in code.match_indices("say!(") {
        let parts = parts(&code[at + "say!".len()..]);
        let Some(key) = parts.first().and_then(|key| key.strip_prefix('"')) else { continue };
        let name = |part: &&str| part.split('=').next().unwrap().trim().to_owned();
        found.push((key.trim_end_matches('"').to_owned(), parts[1..].iter().map(name).collect()));
    }
    found
}

/// Whoever says a sentence gives a value for each of its names, and for no other.
#[test]
fn every_sentence_has_its_values() {
    let english = crate::resource(ENGLISH);
    let known: BTreeMap<_, _> = crate::file::messages(&english)
        .map(crate::file::named)
        .map(|(key, names)| (key, names.into_iter().map(str::to_owned).collect::<BTreeSet<_>>()))
        .collect();
    for (path, text) in sources() {
        for (key, values) in said(&text) {
            let names = known.get(key.as_str());
            let names = names.unwrap_or_else(|| panic!("{}: {key} is no key", path.display()));
            assert_eq!(*names, values, "{}: {key}", path.display());
        }
    }
    let found = said("say!(\"a-b\", one = f(x, \"=,\"), two) say!(\n    \"c\"\n)");
    assert_eq!(found.len(), 2);
    assert_eq!(found[0].1.iter().collect::<Vec<_>>(), ["one", "two"]);
    assert_eq!(found[1].0, "c");
}

fn keys() -> BTreeSet<String> {
    let of_line = |line: &str| {
        let (key, _) = line.split_once(" =")?;
        key.starts_with(|c: char| c.is_ascii_lowercase()).then(|| key.to_owned())
    };
    ENGLISH.lines().filter_map(of_line).collect()
}

/// A language with a decimal comma.
fn comma() -> Words {
    Words::of_file(include_str!("comma.ftl")).unwrap()
}

#[test]
fn the_file_has_no_fault_and_no_key_twice() {
    assert!(FluentResource::try_new(ENGLISH.to_owned()).is_ok());
    let lines = ENGLISH
        .lines()
        .filter(|line| line.contains(" =") && line.starts_with(|c: char| c.is_ascii_lowercase()));
    assert_eq!(lines.count(), keys().len());
}

#[test]
fn every_key_that_is_asked_for_is_there() {
    let door = |(path, text): (PathBuf, String)| {
        path.starts_with(crates().join("ringtrue")).then_some(text)
    };
    let sources: String = sources().into_iter().filter_map(door).collect();
    let keys = keys();
    for asked in [".say(\"", ".with(\"", ".count(\"", ".with(\n            \""] {
        for (at, _) in sources.match_indices(asked) {
            let key = sources[at + asked.len()..].split('"').next().unwrap();
            assert!(keys.contains(key), "{key}");
        }
    }
}

#[test]
fn every_key_is_asked_for() {
    let own = include_str!("lib.rs").to_owned();
    let sources: String = sources().into_iter().map(|(_, text)| text).chain([own]).collect();
    // What the file says of itself is read, not said.
    for key in keys().into_iter().filter(|key| key != "language-tag") {
        let whole = sources.contains(&format!("\"{key}\""));
        let parted = PREFIXES
            .iter()
            .filter(|prefix| key.starts_with(*prefix))
            .flat_map(|prefix| [format!("\"{prefix}\""), format!("\"{prefix}{{}}\"")])
            .any(|asked| sources.contains(&asked));
        assert!(whole || parted, "{key} is not used");
    }
}

/// What a template says by itself, without what it takes from elsewhere.
fn own_words(template: &str) -> Vec<String> {
    let mut text = template.to_owned();
    for (open, close) in [("{{", "}}"), ("{%", "%}"), ("{#", "#}")] {
        while let Some(at) = text.find(open) {
            let end = text[at..].find(close).unwrap() + at + close.len();
            text.replace_range(at..end, "");
        }
    }
    let said = ["aria-label", "title", "alt", "placeholder"]
        .into_iter()
        .flat_map(|name| text.split(&format!(" {name}=\"")).skip(1).collect::<Vec<_>>())
        .filter_map(|rest| rest.split('"').next());
    let between = text.split('>').skip(1).filter_map(|rest| rest.split('<').next());
    let words = said.chain(between).flat_map(str::split_whitespace);
    let is_word = |word: &&str| word.chars().filter(|c| c.is_alphabetic()).count() > 1;
    words.filter(is_word).map(str::to_owned).collect()
}

#[test]
fn templates_say_nothing_of_their_own() {
    let mut paths = Vec::new();
    files(&crates().join("ringtrue/templates"), "html", &mut paths);
    for path in paths {
        let words = own_words(&std::fs::read_to_string(&path).unwrap());
        let others: Vec<&String> = words.iter().filter(|word| *word != "ringtrue").collect();
        assert!(others.is_empty(), "{}: {others:?}", path.display());
    }
    assert_eq!(own_words("<a title=\"Go on\">{{ x }} Say it</a>"), ["Go", "on", "Say", "it"]);
}

/// Texts of three words and more in a line of code: a sentence, not a name.
fn sentences(line: &str) -> Vec<&str> {
    let texts = line.split('"').skip(1).step_by(2);
    let is_word = |word: &str| word.len() > 1 && word.chars().all(|c| c.is_ascii_lowercase());
    let is_sentence = |text: &&str| {
        let words: Vec<bool> = text.split(' ').map(is_word).collect();
        words.windows(3).any(|three| three.iter().all(|word| *word))
    };
    texts.filter(is_sentence).collect()
}

/// What the pages' own code says stands in the language file. What the terminal is told and what a
/// program is told of its JSON stand in the code.
#[test]
fn code_of_the_pages_says_nothing_of_its_own() {
    let root = crates().join("ringtrue/src/web");
    let told_elsewhere = [root.join("mod.rs"), root.join("tls.rs"), root.join("tls/tests.rs")];
    let mut paths = Vec::new();
    files(&root, "rs", &mut paths);
    let is_page =
        |path: &PathBuf| !told_elsewhere.contains(path) && !path.starts_with(root.join("api"));
    for path in paths.into_iter().filter(is_page) {
        let text = std::fs::read_to_string(&path).unwrap();
        let code = text.split("#[cfg(test)]").next().unwrap();
        for line in code.lines().map(str::trim) {
            let aside = ["//", "#[", "unreachable!"].iter().any(|sign| line.starts_with(sign));
            let found = if aside { Vec::new() } else { sentences(line) };
            assert!(found.is_empty(), "{}: {found:?}", path.display());
        }
    }
    assert_eq!(sentences("say(\"go on with it\", \"jobs-open\")"), ["go on with it"]);
}

/// A second language is a file: numbers, days and plurals come from it, through the same door.
#[test]
fn numbers_and_days_follow_the_language_file() {
    let comma = comma();
    assert_eq!(comma.language(), "pl");
    assert_eq!(
        comma.values("0.42 ± 0.05 mm, 2.00 to 3.20 mm."),
        "0,42 ± 0,05 mm, 2,00 to 3,20 mm."
    );
    assert_eq!(comma.whole(1_234_567_u64), "1.234.567");
    assert_eq!(comma.date(jiff::civil::date(2027, 4, 2)), "02.04.2027");
    let at: jiff::Timestamp = "2026-07-05T12:00:00Z".parse().unwrap();
    let moment = comma.moment(at);
    assert!(moment.contains(".07.2026, "), "{moment}");
    for (n, word) in [(1_u64, "jedna"), (3, "kilka"), (5, "wiele")] {
        assert_eq!(comma.count("enter-wait-next", n), word);
    }
    let svg = "<svg width=\"1.5\"><title>at 2.60 mm</title><path d=\"M0.5 1\"/><text x=\"1.2\">\
               2.60 mm</text></svg>";
    let shown = "<svg width=\"1.5\"><title>at 2,60 mm</title><path d=\"M0.5 1\"/><text x=\"1.2\">\
                 2,60 mm</text></svg>";
    assert_eq!(comma.drawing(svg), shown);
    assert_eq!(english().drawing(svg), svg);
    assert_eq!(english().whole(10_000_u64), "10\u{2009}000");
    assert_eq!(english().whole(1000_u64), "1000");
}

#[test]
fn numbers_in_sentences_follow_too_and_places_in_standards_do_not() {
    let comma = comma();
    for (text, shown) in [
        (
            "The range is 0.42 ± 0.05 mm; 1 mm is allowed.",
            "The range is 0,42~±~0,05~mm; 1~mm is allowed.",
        ),
        ("Press at 270 deg by 0.12 mm.", "Press at 270~deg by 0,12~mm."),
        ("2.00 to 3.20mm (-0.5 %)", "2,00 to 3,20mm (-0,5~%)"),
        ("By JCGM 106:2012, 8.3, and 0.5 mm", "By JCGM 106:2012, 8.3, and 0,5~mm"),
        ("ISO 16610-21 clause 4.2", "ISO 16610-21 clause 4.2"),
        ("See clause 7.2. It took 0.5 s.", "See clause 7.2. It took 0,5 s."),
        ("edition 2.1 and 1.2.3", "edition 2.1 and 1.2.3"),
        ("G3.5, m4.5x and 20260705-0.5", "G3.5, m4.5x and 20260705-0.5"),
        ("It ends with 3.", "It ends with 3."),
        ("±0.5", "±0,5"),
        ("", ""),
    ] {
        // `~` stands for the space that is not broken.
        assert_eq!(comma.prose(text).replace('\u{a0}', "~"), shown);
        assert_eq!(english().prose(text).replace('\u{a0}', " "), text);
    }
}

/// What a second language says, and what it leaves to English.
#[test]
fn a_second_language_is_spoken_where_it_was_asked_for() {
    let other: &'static Words = Box::leak(Box::new(comma()));
    assert_eq!(words().language(), "en");
    let said = speaking(other, || (say_here(), in_english(say_here), words().language()));
    assert_eq!(said.0, ("jobs-title", "jedna".to_owned(), "Warsztat"));
    assert_eq!(said.1, ("jobs-title", "Try again in one second.".to_owned(), "Bench"));
    assert_eq!(said.2, "pl");
    assert_eq!(words().language(), "en");
    assert_eq!(other.fixed("skip"), "To the page");
    // What is said in English counts as English does.
    assert_eq!(other.count("asked-back", 3_u64), english().count("asked-back", 3_u64));
    assert_eq!(other.known("role-", "fitter").as_deref(), Some("fitter"));
    assert_eq!(other.known("role-", "nobody"), None);
}

fn say_here() -> (&'static str, String, &'static str) {
    let n = 1_u64;
    ("jobs-title", words().count("enter-wait-next", n), words().fixed("nav"))
}

#[test]
fn what_is_wrong_with_a_language_file_is_said_with_its_line() {
    let wrong = |text: &str| Words::of_file(text).map(|_| ()).unwrap_err().to_string();
    for (text, says) in [
        ("", "line 1: `language-tag` is missing"),
        ("language-tag = zz zz\n", "line 1: `zz zz` is no tag of a language"),
        ("language-tag = pl\nnav-jobz = x\n", "line 2: `nav-jobz` is no key"),
        ("language-tag = pl\nnav-jobs = { $x }\n", "line 2: `nav-jobs` asks for `$x`"),
        ("language-tag = pl\nnav-jobs = { $x\n", "line 3: Expected"),
        ("language-tag = pl\nnav-jobs = { NUMBER(2) }\n", "line 2: `nav-jobs` takes something"),
        ("language-tag = pl\ndecimal-sign = <b>\n", "line 2: `decimal-sign` is none"),
        ("language-tag = pl\nnav-jobs = { nav }\n", "line 2: `nav-jobs` takes something"),
        ("language-tag = pl\nnav-jobs = a\nnav-jobs = b\n", "line 2: `nav-jobs` stands here twice"),
        ("language-tag = pl\nnav-jobs =\n    .title = b\n", "line 2: `nav-jobs` has no text"),
        ("language-tag = pl\n\nnav-jobs\n", "line 3: "),
    ] {
        assert!(wrong(text).starts_with(says), "{text:?}: {}", wrong(text));
    }
    assert!(Words::of_file(ENGLISH).is_ok());
}
