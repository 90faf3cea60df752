//! What ringtrue says, in one language file.
//!
//! Every sentence that a page or a report shows stands in `text/en.ftl` under a key, with names
//! where code puts values; code says it by [`say!`]. A second language is a second file with the
//! same keys, read by [`Words::of_file`] and spoken by the whole process from [`speak`] on. What it
//! lacks is said in English.
//!
//! A record is written in English whatever the bench speaks, so that it reads the same everywhere:
//! whoever judges for it does so within [`in_english`].

use std::cell::Cell;
use std::collections::{BTreeSet, HashMap};
use std::sync::{LazyLock, OnceLock};

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource};
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use unic_langid::LanguageIdentifier;

mod file;
mod value;

pub use file::{Fault, Faults};
pub use value::Value;

/// The English file: the complete one.
pub const ENGLISH: &str = include_str!("../text/en.ftl");

/// A sentence of the language file: `&'static str` by its key alone, a `String` where it names
/// values, `say!("seal-gap", gap = shown, half)`.
///
/// A key that the file lacks is said as it is; a test of this crate reads all code for that.
#[macro_export]
macro_rules! say {
    ($key:literal) => { $crate::words().fixed($key) };
    ($key:literal, $($name:ident $(= $value:expr)?),+ $(,)?) => {
        $crate::words().told(
            $key,
            &[$((stringify!($name), $crate::value!($name $(, $value)?))),+],
        )
    };
}

/// The value of a name in [`say!`].
#[doc(hidden)]
#[macro_export]
macro_rules! value {
    ($name:ident) => {
        $crate::Value::from(&$name)
    };
    ($name:ident, $value:expr) => {
        $crate::Value::from(&$value)
    };
}

/// What scripts say; names stand in braces where they put values.
const LIVE: &[&str] = &[
    "live-ask-back",
    "live-away",
    "live-back",
    "live-before",
    "live-drawn-at",
    "live-frame",
    "live-locked",
    "live-new-readings",
    "live-next-place",
    "live-not-drawn",
    "live-not-read",
    "live-not-saved",
    "live-others",
    "live-pause",
    "live-passphrase",
    "live-play",
    "live-reload",
    "live-restored",
    "live-saving",
    "live-slider",
    "live-solved",
    "live-solving",
    "live-solving-parts",
    "live-unlock",
    "live-waits",
];

/// Elements of a drawing that hold text.
const SVG_TEXTS: [&str; 3] = ["<text", "<title", "<desc"];

/// The words of one language.
pub struct Words {
    bundle: FluentBundle<FluentResource>,
    /// Keys of this language's own messages.
    keys: BTreeSet<String>,
    /// Messages that name no value.
    fixed: HashMap<String, &'static str>,
    language: String,
}

/// The language that is spoken, where it isn't English.
static SPOKEN: OnceLock<&'static Words> = OnceLock::new();

thread_local! {
    static OVERRIDE: Cell<Option<&'static Words>> = const { Cell::new(None) };
}

/// The words that are spoken here and now.
#[must_use]
pub fn words() -> &'static Words {
    OVERRIDE.get().or_else(|| SPOKEN.get().copied()).unwrap_or_else(english)
}

/// English.
#[must_use]
pub fn english() -> &'static Words {
    static WORDS: LazyLock<Words> = LazyLock::new(|| Words::read("en", resource(ENGLISH)));
    &WORDS
}

/// Lets the whole process speak a language. The first call decides.
pub fn speak(words: Words) {
    // Whoever came first has spoken already, and two languages at once help nobody.
    let _ = SPOKEN.set(Box::leak(Box::new(words)));
}

/// Does something in English, on this thread: what goes into a record.
pub fn in_english<T>(what: impl FnOnce() -> T) -> T {
    speaking(english(), what)
}

/// Does something in one language, on this thread.
pub fn speaking<T>(words: &'static Words, what: impl FnOnce() -> T) -> T {
    /// Puts the language from before back, after a panic too.
    struct Before(Option<&'static Words>);
    impl Drop for Before {
        fn drop(&mut self) {
            OVERRIDE.set(self.0);
        }
    }
    let _before = Before(OVERRIDE.replace(Some(words)));
    what()
}

/// A file with a fault still gives what can be read of it.
fn resource(text: &str) -> FluentResource {
    match FluentResource::try_new(text.to_owned()) {
        Ok(resource) | Err((resource, _)) => resource,
    }
}

impl Words {
    /// Reads a language file; what it lacks is English.
    ///
    /// # Errors
    /// All that is wrong with it: what can't be read, keys and values that English does not know, a
    /// tag that names no language.
    pub fn of_file(text: &str) -> Result<Self, Faults> {
        let tag = file::check(text)?;
        Ok(Self::read(&tag, resource(text)))
    }

    fn read(language: &str, resource: FluentResource) -> Self {
        // The root language has one plural form; a tag that can't be read is none of a language.
        let tag = language.parse::<LanguageIdentifier>().unwrap_or_default();
        let mut bundle = FluentBundle::new_concurrent(vec![tag]);
        // Isolation marks would stand between number and unit in copied text.
        bundle.set_use_isolating(false);
        let keys = file::messages(&resource).map(|message| message.id.name.to_owned()).collect();
        let fixed = file::without_values(&resource);
        bundle.add_resource_overriding(resource);
        let mut words = Self { bundle, keys, fixed: HashMap::new(), language: language.to_owned() };
        for key in fixed {
            // Kept as long as the process speaks: a language is read once.
            let text = words.format(&key, None).leak();
            words.fixed.insert(key, text);
        }
        words
    }

    /// The language's tag, for `lang`.
    #[must_use]
    pub fn language(&self) -> &str {
        &self.language
    }

    /// Keys of all texts.
    pub fn keys(&self) -> impl Iterator<Item = &str> {
        self.keys.iter().map(String::as_str)
    }

    /// What this language lacks, and says in English.
    #[must_use]
    pub fn lacks(&self) -> Vec<&str> {
        english().keys().filter(|key| !self.keys.contains(*key)).collect()
    }

    /// A text that names no value.
    #[must_use]
    pub fn fixed(&self, key: &'static str) -> &'static str {
        match self.fixed.get(key) {
            Some(text) => text,
            None => self.lacking(key).map_or(key, |english| english.fixed(key)),
        }
    }

    /// A text in which names stand for values.
    #[must_use]
    pub fn told(&self, key: &str, values: &[(&str, Value)]) -> String {
        let mut args = FluentArgs::with_capacity(values.len());
        for (name, value) in values {
            args.set((*name).to_owned(), value.clone());
        }
        self.format(key, Some(&args))
    }

    /// A text.
    #[must_use]
    pub fn say(&self, key: &str) -> String {
        self.format(key, None)
    }

    /// What scripts say, by key.
    #[must_use]
    pub fn live(&self) -> Vec<(&'static str, String)> {
        let named = ["n", "of", "unit", "what", "who"].map(|name| (name, format!("{{{name}}}")));
        LIVE.iter().map(|key| (*key, self.with(key, &named))).collect()
    }

    /// The text for a word of a closed set: its key is the two together.
    #[must_use]
    pub fn of(&self, prefix: &str, word: impl AsRef<str>) -> String {
        self.say(&format!("{prefix}{}", word.as_ref().replace(' ', "-")))
    }

    /// The same, where the file knows the word.
    #[must_use]
    pub fn known(&self, prefix: &str, word: &str) -> Option<String> {
        let key = format!("{prefix}{word}");
        let is_known = self.has(&key) || english().has(&key);
        is_known.then(|| self.say(&key))
    }

    /// A text in which names stand for values.
    #[must_use]
    pub fn with<V: AsRef<str>>(&self, key: &str, values: &[(&str, V)]) -> String {
        let values: Vec<_> =
            values.iter().map(|(name, value)| (*name, Value::from(value.as_ref()))).collect();
        self.told(key, &values)
    }

    /// A text about a number of things, `$n`.
    #[must_use]
    pub fn count(&self, key: &str, n: impl Into<u64>) -> String {
        self.told(key, &[("n", Value::from(&n.into()))])
    }

    /// A moment as people here read it, in the time of this machine.
    #[must_use]
    pub fn moment(&self, at: Timestamp) -> String {
        let local = at.to_zoned_datetime(TimeZone::system());
        local.strftime(&self.say("date-and-time-pattern")).to_string()
    }

    /// A stored moment as people here read it; what can't be read is shown as it is.
    #[must_use]
    pub fn stored_moment(&self, text: &str) -> String {
        text.parse().map_or_else(|_| text.to_owned(), |at| self.moment(at))
    }

    /// A day as people here write it.
    #[must_use]
    pub fn date(&self, day: Date) -> String {
        day.strftime(&self.say("date-pattern")).to_string()
    }

    /// The day of a moment, in the time of this machine.
    #[must_use]
    pub fn day(&self, at: Timestamp) -> String {
        self.date(at.to_zoned_datetime(TimeZone::system()).date())
    }

    /// A whole number, its digits in groups of three.
    #[must_use]
    pub fn whole(&self, number: impl Into<u64>) -> String {
        let digits = number.into().to_string();
        let (group, mut out) = (self.say("digit-group"), String::new());
        for (at, digit) in digits.chars().enumerate() {
            // Four digits are read at a glance.
            if at > 0 && digits.len() > 4 && (digits.len() - at).is_multiple_of(3) {
                out.push_str(&group);
            }
            out.push(digit);
        }
        out
    }

    /// Values as they were made elsewhere, `0.42 ± 0.05 mm`, with this language's decimal sign.
    #[must_use]
    pub fn values(&self, text: impl AsRef<str>) -> String {
        let (text, sign) = (text.as_ref(), self.say("decimal-sign"));
        let is_digit = |at: Option<&u8>| at.is_some_and(u8::is_ascii_digit);
        let bytes = text.as_bytes();
        let mut out = String::with_capacity(text.len());
        for (at, c) in text.char_indices() {
            let before = at.checked_sub(1).and_then(|at| bytes.get(at));
            if c == '.' && is_digit(before) && is_digit(bytes.get(at + 1)) {
                out.push_str(&sign);
            } else {
                out.push(c);
            }
        }
        out
    }

    /// Sentences that were made elsewhere, their numbers with this language's decimal sign and kept
    /// on a line with their unit. What names a place in a standard or a book stays as it is printed
    /// there.
    #[must_use]
    pub fn prose(&self, text: impl AsRef<str>) -> String {
        let (text, sign) = (text.as_ref(), self.say("decimal-sign"));
        let mut out = String::with_capacity(text.len());
        let mut rest = text;
        while let Some(start) = rest.find(|c: char| c.is_ascii_digit()) {
            let (before, from) = rest.split_at(start);
            let is_part = |c: char| c.is_ascii_alphanumeric() || ".:-/_".contains(c);
            let end = from.find(|c| !is_part(c)).unwrap_or(from.len());
            // A full stop ends the sentence and is no part of the number.
            let number = from[..end].trim_end_matches(|c: char| !c.is_ascii_alphanumeric());
            out.push_str(before);
            let done = text.len() - rest.len() + start;
            // What the number hangs on to makes a name of it: `G3.5`, `ISO-21.4`.
            let signed = before.trim_end_matches('-');
            let is_free = !signed.ends_with(is_part) && !is_cited(&text[..done]);
            match decimal(number).filter(|_| is_free) {
                Some((whole, part)) => out.extend([whole, sign.as_str(), part]),
                None => out.push_str(number),
            }
            rest = &from[number.len()..];
            let word = rest.strip_prefix(' ').and_then(|rest| rest.split_whitespace().next());
            if word.is_some_and(|word| TIED.contains(&word.trim_end_matches([',', '.', ';', ')'])))
            {
                out.push('\u{a0}');
                rest = &rest[1..];
            }
            if let Some(after) = rest.strip_prefix("\u{b1} ") {
                out.push_str("\u{b1}\u{a0}");
                rest = after;
            }
        }
        out.push_str(rest);
        out
    }

    /// A drawing with the values in its texts as this language writes them.
    #[must_use]
    pub fn drawing(&self, svg: impl AsRef<str>) -> String {
        let mut rest = svg.as_ref();
        let mut out = String::with_capacity(rest.len());
        while let Some(start) = SVG_TEXTS.iter().filter_map(|tag| rest.find(tag)).min() {
            let inner = rest[start..].find('>').map_or(rest.len(), |end| start + end + 1);
            let end = rest[inner..].find("</").map_or(rest.len(), |end| inner + end);
            out.push_str(&rest[..inner]);
            out.push_str(&self.values(&rest[inner..end]));
            rest = &rest[end..];
        }
        out.push_str(rest);
        out
    }

    /// English, where that has a key that this language lacks.
    fn lacking(&self, key: &str) -> Option<&'static Self> {
        Some(english()).filter(|english| !std::ptr::eq(*english, self) && english.has(key))
    }

    fn has(&self, key: &str) -> bool {
        self.keys.contains(key)
    }

    fn format(&self, key: &str, args: Option<&FluentArgs<'_>>) -> String {
        let pattern = self.bundle.get_message(key).and_then(|message| message.value());
        let Some(pattern) = pattern else {
            // By the plurals of English, too. A test looks for each key in the file, so a key is
            // seen before anybody reads it.
            return match self.lacking(key) {
                Some(english) => english.format(key, args),
                None => key.to_owned(),
            };
        };
        self.bundle.format_pattern(pattern, args, &mut Vec::new()).into_owned()
    }
}

/// Words behind which a number with a point is a place in a text, not a quantity.
const CITING: [&str; 17] = [
    "ISO", "JCGM", "ASTM", "DIN", "EN", "IEC", "clause", "clauses", "section", "table", "figure",
    "equation", "part", "chapter", "edition", "version", "page",
];

/// What stays on one line with the number before it.
const TIED: [&str; 30] = [
    "\u{b1}", "%", "mm", "\u{b5}m", "um", "in", "thou", "N", "N/mm", "lbf", "lbf/in", "MPa", "kPa",
    "Pa", "bar", "mbar", "psi", "deg", "mrad", "degC", "degF", "\u{b0}C", "\u{b0}F", "K", "min",
    "h", "kg", "lb", "ppm", "J",
];

/// Does a sentence that ends here name a standard or a book just before?
fn is_cited(before: &str) -> bool {
    let sentence = before.rsplit(". ").next().unwrap_or(before);
    let words = sentence.split_whitespace().rev().take(2);
    words.map(|word| word.trim_matches(|c: char| !c.is_ascii_alphanumeric())).any(|word| {
        CITING.iter().any(|citing| word.eq_ignore_ascii_case(citing) || word.contains(':'))
    })
}

/// Both sides of the point of a decimal number, the unit that hangs on to it with the second one.
fn decimal(text: &str) -> Option<(&str, &str)> {
    let (whole, part) = text.split_once('.')?;
    let digits = part.trim_end_matches(|c: char| c.is_ascii_alphabetic());
    let is_number = |text: &str| !text.is_empty() && text.chars().all(|c| c.is_ascii_digit());
    (is_number(whole) && is_number(digits)).then_some((whole, part))
}

#[cfg(test)]
mod tests;
