//! Every word of the pages is in the language file, and nothing else is.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use fluent_bundle::FluentResource;

use super::{ENGLISH, Words, english};

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
    "try-",
    "build-",
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

/// The texts of all templates and of all code of the pages.
fn sources() -> String {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut paths = Vec::new();
    files(&root.join("templates"), "html", &mut paths);
    files(&root.join("src/web"), "rs", &mut paths);
    paths.iter().map(|path| std::fs::read_to_string(path).unwrap()).collect()
}

fn keys() -> BTreeSet<String> {
    let of_line = |line: &str| {
        let (key, _) = line.split_once(" =")?;
        key.starts_with(|c: char| c.is_ascii_lowercase()).then(|| key.to_owned())
    };
    ENGLISH.lines().filter_map(of_line).collect()
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
    let (sources, keys) = (sources(), keys());
    for asked in [".say(\"", ".with(\"", ".count(\"", ".with(\n            \""] {
        for (at, _) in sources.match_indices(asked) {
            let key = sources[at + asked.len()..].split('"').next().unwrap();
            assert!(keys.contains(key), "{key}");
        }
    }
}

#[test]
fn every_key_is_asked_for() {
    let sources = sources();
    for key in keys() {
        let whole = sources.contains(&format!("\"{key}\""));
        let parted = PREFIXES
            .iter()
            .any(|prefix| key.starts_with(prefix) && sources.contains(&format!("\"{prefix}\"")));
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
    files(&Path::new(env!("CARGO_MANIFEST_DIR")).join("templates"), "html", &mut paths);
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

/// What the pages' own code says stands in the language file. What the terminal is told, what a
/// program is told of its JSON, and what goes into a record as it is, stand in the code.
#[test]
fn code_of_the_pages_says_nothing_of_its_own() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/web");
    let told_elsewhere = ["tls.rs", "mod.rs", "deed.rs", "typed.rs", "slots.rs", "tests.rs"];
    let mut paths = Vec::new();
    files(&root, "rs", &mut paths);
    let is_page = |path: &PathBuf| {
        let name = path.file_name().unwrap().to_str().unwrap();
        !told_elsewhere.contains(&name) && !path.starts_with(root.join("api"))
    };
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
    let comma = Words::comma();
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
    let comma = Words::comma();
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

/// What such a language shows can be typed again, and so can the other sign.
#[test]
fn both_decimal_signs_are_read() {
    use ringtrue_metrology::units::{Length, Quantity, parse};
    let comma = Words::comma();
    let shown = comma.values("12.5 mm");
    assert_eq!(shown, "12,5 mm");
    let read = |text: &str| parse::<Length>(text).unwrap().si();
    assert!((read(&shown) - read("12.5 mm")).abs() < 1e-15);
}
