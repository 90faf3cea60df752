//! A second language: whatever pages say stands in the language file.
//!
//! The bench speaks English with each text in brackets. What a page shows outside of brackets has
//! to come from elsewhere: from what people typed, from definition files, or from the names of
//! sources.

use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::path::{Path, PathBuf};

use super::client::{Server, Tablet};
use crate::bench::Bench;

const OPEN: char = '\u{27e6}';
const CLOSE: char = '\u{27e7}';

/// Texts that are patterns and signs, not words.
const SIGNS: [&str; 4] = ["date-and-time-pattern", "date-pattern", "decimal-sign", "digit-group"];

/// Every text of a language file between brackets.
fn bracketed(file: &str) -> String {
    let mut out: Vec<String> = Vec::new();
    let mut message: Vec<String> = Vec::new();
    let mut end = |message: &mut Vec<String>| {
        let blank = message.iter().rev().take_while(|line| line.trim().is_empty()).count();
        let last = message.len().saturating_sub(blank + 1);
        if let Some((key, text)) = message.first().and_then(|first| first.split_once(" =")) {
            let (key, text) = (key.to_owned(), text.trim().to_owned());
            if key == "language-tag" {
                message[0] = "language-tag = pl".to_owned();
            } else if !SIGNS.contains(&key.as_str()) {
                if text.is_empty() {
                    let line = message[1].trim_start();
                    message[1] = format!("    {OPEN}{line}");
                } else {
                    message[0] = format!("{key} = {OPEN}{text}");
                }
                message[last].push(CLOSE);
            }
        }
        out.append(message);
    };
    for line in file.lines() {
        let is_key = line.starts_with(|c: char| c.is_ascii_lowercase());
        if is_key || line.starts_with('#') {
            end(&mut message);
        }
        message.push(line.to_owned());
    }
    end(&mut message);
    out.join("\n")
}

/// The texts of all files below a folder that can be read as text, on one line in small letters.
fn corpus(folders: &[&str]) -> String {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut folders: Vec<PathBuf> = folders.iter().map(|folder| root.join(folder)).collect();
    let mut all = String::new();
    while let Some(path) = folders.pop() {
        if path.is_dir() {
            folders.extend(std::fs::read_dir(path).unwrap().map(|entry| entry.unwrap().path()));
        } else if let Ok(text) = std::fs::read_to_string(&path) {
            all.push_str(&text.replace("\\\n", " "));
            all.push('\n');
        }
    }
    flat(&all)
}

fn flat(text: &str) -> String {
    text.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Names of standards and books, and the words for what has none, as the code gives them.
fn citations() -> String {
    const CITING: [&str; 14] = [
        "iso",
        "jcgm",
        "astm",
        "din",
        "en ",
        "iec",
        "rfc",
        "asme",
        "nist",
        "19",
        "20",
        "from memory",
        "common practice",
        "no source",
    ];
    let code = corpus(&[
        "crates/ringtrue-metrology/src",
        "crates/ringtrue-seal/src",
        "crates/ringtrue-job/src",
        "crates/ringtrue-report/src",
    ]);
    let cites = |text: &&str| CITING.iter().any(|sign| text.contains(sign));
    code.split('"').filter(cites).collect::<Vec<_>>().join("\n")
}

/// A page's texts outside of brackets, and those of its attributes.
fn outside(page: &str) -> Vec<String> {
    let mut rest = page.to_owned();
    for block in ["script", "style"] {
        while let Some(start) = rest.find(&format!("<{block}")) {
            let end =
                rest[start..].find(&format!("</{block}>")).map_or(rest.len(), |at| start + at);
            rest.replace_range(start..end, "");
            rest = rest.replacen(&format!("</{block}>"), "", 1);
        }
    }
    let mut texts = Vec::new();
    for name in ["title", "aria-label", "alt", "placeholder"] {
        let named = format!(" {name}=\"");
        let said = rest.split(named.as_str()).skip(1);
        texts.extend(said.filter_map(|text| text.split('"').next()).map(str::to_owned));
    }
    let mut shown = String::new();
    for piece in rest.split('<') {
        shown.push('\0');
        shown.push_str(piece.split_once('>').map_or(piece, |(_, text)| text));
    }
    texts.push(shown);
    texts.iter().flat_map(|text| out_of_brackets(&unescaped(text))).collect()
}

fn unescaped(text: &str) -> String {
    let mut text = text.to_owned();
    for (sign, letter) in
        [("#34", "\""), ("quot", "\""), ("#39", "'"), ("#60", "<"), ("lt", "<"), ("#62", ">")]
    {
        text = text.replace(&format!("&{sign};"), letter);
    }
    text.replace("&gt;", ">").replace("&#38;", "&").replace("&amp;", "&")
}

fn out_of_brackets(text: &str) -> Vec<String> {
    let mut depth = 0_usize;
    let mut all = vec![String::new()];
    for c in text.chars() {
        match c {
            OPEN => depth += 1,
            CLOSE => depth = depth.saturating_sub(1),
            _ if depth > 0 => continue,
            '\0' => {}
            _ => {
                all.last_mut().unwrap().push(c);
                continue;
            }
        }
        all.push(String::new());
    }
    all
}

/// What of a text is neither known nor a number with its unit.
fn unknown(text: &str, known: &[String]) -> Vec<String> {
    const UNITS: [&str; 14] = [
        "mrad", "mbar", "sccm", "degc", "degf", "irhd", "lbf", "mpa", "kpa", "min", "thou", "psi",
        "ringtrue", "deg",
    ];
    let is_known = |text: &str| known.iter().any(|known| known.contains(text));
    let trimmed = |text: &str| flat(text).trim_matches([' ', '.', ',', '`']).to_owned();
    let whole = trimmed(text);
    if is_known(&whole) {
        return Vec::new();
    }
    let pieces = whole.split([':', ';', '"', '\u{201c}', '\u{201d}', '(', ')', ',', '\u{b7}']);
    let is_word = |word: &str| {
        let bare = word.trim_matches(|c: char| !c.is_ascii_alphabetic());
        bare.len() > 2 && bare.chars().all(|c| c.is_ascii_alphabetic()) && !UNITS.contains(&bare)
    };
    pieces
        .map(trimmed)
        .filter(|piece| piece.split([' ', '/', '-']).any(is_word) && !is_known(piece))
        .collect()
}

/// Pages that a person reaches from one, but for files.
fn links(page: &str) -> BTreeSet<String> {
    const FILES: [&str; 9] = [
        "/pdf",
        "/export",
        "/file",
        "/assets",
        "/lock",
        "/sign-out",
        "/api/",
        "record.json",
        // A form that is only sent.
        "/people/retire",
    ];
    let named = ["href", "action"].map(|name| format!("{name}=\""));
    let found = named.iter().flat_map(|name| page.split(name.as_str()).skip(1));
    found
        .filter_map(|rest| rest.split(['"', '#']).next())
        .filter(|path| path.starts_with('/') && !path.contains("frame=") && *path != "/look")
        .filter(|path| !FILES.iter().any(|file| path.contains(file)))
        .map(unescaped)
        .collect()
}

/// All that the pages reached from `start` show beside the language file and what is known.
fn said_beside(tablet: &Tablet, start: &str, known: &[String]) -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    let mut seen = BTreeSet::from([start.to_owned()]);
    let mut read = BTreeSet::new();
    let mut queue = VecDeque::from([start.to_owned()]);
    while let Some(path) = queue.pop_front() {
        let answer = tablet.get(&path);
        if answer.status == 303 {
            continue;
        }
        assert_eq!(answer.status, 200, "{path}: {}", answer.body);
        for text in outside(&answer.body).into_iter().filter(|text| read.insert(text.clone())) {
            for piece in unknown(&text, known) {
                found.entry(piece).or_insert_with(|| path.clone());
            }
        }
        let fresh = links(&answer.body).into_iter().filter(|link| seen.insert(link.clone()));
        queue.extend(fresh);
    }
    assert!(seen.len() > 60, "only {} pages are reached from {start}", seen.len());
    found
}

#[test]
fn whatever_pages_say_stands_in_the_language_file() {
    let bench = Bench::new();
    let cache = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let demo = bench.run_in_cache(&["demo", "--out", "."], cache);
    assert_eq!(demo.code(), 0, "{}", demo.stderr());
    let words = bench.file("words.ftl", bracketed(&bench.run(&["bench", "words"]).stdout()));
    let words = words.to_str().unwrap();
    let checked = bench.run(&["bench", "words", words]);
    assert_eq!(checked.code(), 0, "{}", checked.stderr());
    let mut known = vec![
        corpus(&["examples", "crates/ringtrue-seal/data", "crates/ringtrue/src/cli/demo"]),
        citations(),
    ];
    let server = Server::on(&bench.path().join("record.db"), &["--words", words]);
    let mut eli = Tablet::at(&server);
    eli.sign_in_with("Eli", "only for the demo");
    let jobs = eli.get("/api/jobs?which=done").json();
    let told = |key: &str| jobs["jobs"][0][key].as_str().unwrap().to_owned();
    known.push(flat(&format!("{}\n{}", told("id"), told("last_hash"))));
    let signed = format!("/jobs/{}", told("id"));
    let mut found = said_beside(&eli, &signed, &known);
    // A job on which nothing is done yet shows its forms.
    let mut fay = Tablet::at(&server);
    fay.sign_in_with("Fay", "only for the demo");
    let open = fay.open_job();
    known.push(flat(&open));
    found.extend(said_beside(&fay, &format!("/jobs/{open}"), &known));
    assert!(found.is_empty(), "{found:#?}");
    // Without brackets, as without the file, it would be found.
    let english = Server::on(&bench.path().join("record.db"), &[]);
    let mut eli = Tablet::at(&english);
    eli.sign_in_with("Eli", "only for the demo");
    let page = eli.get(&format!("{signed}/steps/plan-seating/a"));
    assert_eq!(page.status, 200, "{}", page.body);
    let found: Vec<String> =
        outside(&page.body).iter().flat_map(|text| unknown(text, &known)).collect();
    assert!(found.len() > 40, "{found:#?}");
}

#[test]
fn what_is_wrong_with_a_language_file_is_said_before_the_bench_starts() {
    let bench = Bench::new();
    bench.file("wrong.ftl", "language-tag = pl\nnav-jobs = Zlecenia\nnav-jobz = x\n");
    for arguments in [
        ["bench", "words", "wrong.ftl"].as_slice(),
        &["bench", "--words", "wrong.ftl", "--store", "s.db"],
    ] {
        let ran = bench.run(arguments);
        assert_eq!(ran.code(), 2, "{}", ran.stdout());
        assert!(ran.stderr().contains("wrong.ftl:3: `nav-jobz`"), "{}", ran.stderr());
    }
    bench.file("some.ftl", "language-tag = pl\nnav-jobs = Zlecenia\n");
    let some = bench.run(&["bench", "words", "some.ftl"]).stdout();
    assert!(some.starts_with("some.ftl: 2 of ") && some.contains("\n  nav-library\n"), "{some}");
}
