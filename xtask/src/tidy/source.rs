//! Rules on Rust source: sizes, names, words that don't belong, digits that must repeat.

use super::mask::{code_only, is_word};
use super::{File, Finding};

const FUNCTION_LINES: usize = 70;
const LINE_COLUMNS: usize = 100;
const FILE_LINES_WARN: usize = 600;
const FILE_LINES_MOST: usize = 1000;
/// A file whose first line starts so is a table and may be long.
const TABLE_MARK: &str = "//! Table";

const BANNED_NAMES: &[&str] = &["utils", "util", "common", "helpers", "helper", "manager", "misc"];
const PRINTING: &[&str] = &["println!", "print!", "eprintln!", "eprint!"];
const STOPPING: &[&str] = &[".unwrap()", ".unwrap_err()", "todo!", "unimplemented!", "dbg!"];
/// Crates that may print: the door, and this tool.
const DOORS: &[&str] = &["crates/ringtrue/", "xtask/"];
/// Crates whose digits must be the same on every machine.
const REPEATABLE: &[&str] = &["crates/ringtrue-metrology/src/", "crates/ringtrue-seal/src/"];
const UNORDERED: &[&str] = &["HashMap", "HashSet"];
const ELEMENTARY: &[&str] = &[
    "sin", "cos", "tan", "asin", "acos", "atan", "atan2", "sin_cos", "sinh", "cosh", "tanh",
    "asinh", "acosh", "atanh", "exp", "exp2", "exp_m1", "ln", "ln_1p", "log", "log2", "log10",
    "powf", "powi", "cbrt", "hypot",
];

/// Every rule on every Rust file.
pub(crate) fn check(files: &[File]) -> Vec<Finding> {
    let mut findings = Vec::new();
    for file in files {
        let Some(text) = &file.text else { continue };
        if is_script(&file.path) {
            line_widths(&file.path, text, &mut findings);
        } else if file.path.ends_with(".rs") {
            line_widths(&file.path, text, &mut findings);
            file_size(&file.path, text, &mut findings);
            module_names(&file.path, &mut findings);
            let code = Code::new(&file.path, text);
            functions(&code, &mut findings);
            words(&code, &mut findings);
        }
    }
    findings
}

fn is_script(path: &str) -> bool {
    matches!(path, "test" | ".ci/run")
        || std::path::Path::new(path).extension().is_some_and(|ending| ending == "sh")
}

fn line_widths(path: &str, text: &str, findings: &mut Vec<Finding>) {
    for (index, line) in text.lines().enumerate() {
        let columns = line.chars().count();
        if columns > LINE_COLUMNS {
            let what = format!("{columns} columns; at most {LINE_COLUMNS}");
            findings.push(Finding::error(format!("{path}:{}", index + 1), what));
        }
    }
}

fn file_size(path: &str, text: &str, findings: &mut Vec<Finding>) {
    let lines = text.lines().count();
    if lines > FILE_LINES_MOST && !text.starts_with(TABLE_MARK) {
        let what = format!(
            "{lines} lines; at most {FILE_LINES_MOST} unless it starts with `{TABLE_MARK}`"
        );
        findings.push(Finding::error(path, what));
    } else if lines > FILE_LINES_WARN {
        let what = format!("{lines} lines; more than {FILE_LINES_WARN} is too big");
        findings.push(Finding::warning(path, what));
    }
}

fn module_names(path: &str, findings: &mut Vec<Finding>) {
    let stems = path.split('/').map(|part| part.strip_suffix(".rs").unwrap_or(part));
    for stem in stems.filter(|stem| BANNED_NAMES.contains(stem)) {
        let what = format!("`{stem}` says nothing: name it after what it does");
        findings.push(Finding::error(path, what));
    }
}

/// One file's code, comments and strings blanked.
struct Code<'a> {
    path: &'a str,
    text: Vec<char>,
    /// First character of each line.
    starts: Vec<usize>,
    /// Ranges that only tests compile.
    tests: Vec<(usize, usize)>,
}

impl<'a> Code<'a> {
    fn new(path: &'a str, source: &str) -> Self {
        let text = code_only(source);
        let after_breaks = text.iter().enumerate().filter(|&(_, &c)| c == '\n').map(|(i, _)| i + 1);
        let starts = std::iter::once(0).chain(after_breaks).collect();
        let mut code = Self { path, text, starts, tests: Vec::new() };
        code.tests = if is_test_file(path) {
            vec![(0, code.text.len())]
        } else {
            code.find("#[cfg(test)]").map(|at| (at, code.item_end(at))).collect()
        };
        code
    }

    fn line(&self, at: usize) -> usize {
        self.starts.partition_point(|&start| start <= at)
    }

    fn place(&self, at: usize) -> String {
        format!("{}:{}", self.path, self.line(at))
    }

    fn in_tests(&self, at: usize) -> bool {
        self.tests.iter().any(|&(from, to)| from <= at && at < to)
    }

    /// Where a text occurs; where it starts or ends with a letter, as a whole word only.
    fn find<'b>(&'b self, wanted: &str) -> impl Iterator<Item = usize> + 'b {
        let wanted: Vec<char> = wanted.chars().collect();
        let (first, last) = (wanted.first().copied(), wanted.last().copied());
        let length = wanted.len();
        let ends_word = move |edge: Option<char>, beside: Option<char>| {
            edge.is_some_and(is_word) && beside.is_some_and(is_word)
        };
        (0..self.text.len().saturating_sub(length.saturating_sub(1))).filter(move |&at| {
            let before = at.checked_sub(1).map(|i| self.text[i]);
            let after = self.text.get(at + length).copied();
            self.text[at..at + length] == wanted[..]
                && !ends_word(first, before)
                && !ends_word(last, after)
        })
    }

    /// Behind the item that starts here: its closing brace, or its semicolon.
    fn item_end(&self, from: usize) -> usize {
        let (mut braces, mut others) = (0_usize, 0_usize);
        for (at, &c) in self.text.iter().enumerate().skip(from) {
            match c {
                '(' | '[' => others += 1,
                ')' | ']' => others = others.saturating_sub(1),
                ';' if braces == 0 && others == 0 => return at + 1,
                '{' => braces += 1,
                '}' => {
                    braces = braces.saturating_sub(1);
                    if braces == 0 {
                        return at + 1;
                    }
                }
                _ => {}
            }
        }
        self.text.len()
    }
}

fn is_test_file(path: &str) -> bool {
    path.ends_with("/tests.rs")
        || ["/tests/", "/benches/", "/examples/"].iter().any(|folder| path.contains(folder))
}

fn functions(code: &Code<'_>, findings: &mut Vec<Finding>) {
    for at in code.find("fn") {
        let name: String = code.text[at + 2..]
            .iter()
            .skip_while(|c| c.is_whitespace())
            .take_while(|&&c| is_word(c))
            .collect();
        // `fn(f64) -> f64` is a type, not a function.
        if name.is_empty() {
            continue;
        }
        let lines = code.line(code.item_end(at) - 1) - code.line(at) + 1;
        if lines > FUNCTION_LINES {
            let what = format!("`{name}` has {lines} lines; at most {FUNCTION_LINES}");
            findings.push(Finding::error(code.place(at), what));
        }
    }
}

fn words(code: &Code<'_>, findings: &mut Vec<Finding>) {
    for at in code.find("unsafe") {
        findings.push(Finding::error(code.place(at), "`unsafe` is not used here"));
    }
    let mut outside_tests = |wanted: &str, why: &str| {
        for at in code.find(wanted).filter(|&at| !code.in_tests(at)) {
            findings.push(Finding::error(code.place(at), format!("`{wanted}`: {why}")));
        }
    };
    for stop in STOPPING {
        outside_tests(stop, "outside tests use an error, or `expect` with the proof");
    }
    if !DOORS.iter().any(|door| code.path.starts_with(door)) {
        for print in PRINTING {
            outside_tests(print, "only the door crate prints");
        }
    }
    if REPEATABLE.iter().any(|folder| code.path.starts_with(folder)) {
        for name in UNORDERED {
            outside_tests(name, "its order changes from run to run: use BTreeMap or Vec");
        }
        for function in ELEMENTARY {
            let why = "differs between machines: take it from libm";
            outside_tests(&format!(".{function}("), why);
            outside_tests(&format!("f64::{function}"), why);
        }
    }
}

#[cfg(test)]
mod tests;
