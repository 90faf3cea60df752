//! All words of the pages, from one language file.

use std::sync::LazyLock;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use unic_langid::LanguageIdentifier;

/// The English file: the complete one.
const ENGLISH: &str = include_str!("../../assets/text/en.ftl");

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
    "live-unlock",
    "live-waits",
];

/// Elements of a drawing that hold text.
const SVG_TEXTS: [&str; 3] = ["<text", "<title", "<desc"];

/// The words of one language.
pub(crate) struct Words {
    bundle: FluentBundle<FluentResource>,
    language: &'static str,
}

/// English.
pub(crate) fn english() -> &'static Words {
    static WORDS: LazyLock<Words> = LazyLock::new(|| Words::read("en", ENGLISH));
    &WORDS
}

impl Words {
    fn read(language: &'static str, text: &str) -> Self {
        // The root language has one plural form; a tag that can't be read is none of a language.
        let tag = language.parse::<LanguageIdentifier>().unwrap_or_default();
        let mut bundle = FluentBundle::new_concurrent(vec![tag]);
        // Isolation marks would stand between number and unit in copied text.
        bundle.set_use_isolating(false);
        // A file with a fault still gives what can be read of it; a test reads the whole.
        let resource = match FluentResource::try_new(text.to_owned()) {
            Ok(resource) | Err((resource, _)) => resource,
        };
        bundle.add_resource_overriding(resource);
        Self { bundle, language }
    }

    /// A language with a decimal comma.
    #[cfg(test)]
    pub(crate) fn comma() -> &'static Self {
        static WORDS: LazyLock<Words> =
            LazyLock::new(|| Words::read("pl", include_str!("words/comma.ftl")));
        &WORDS
    }

    /// The language's tag, for `lang`.
    pub(crate) fn language(&self) -> &'static str {
        self.language
    }

    /// A text.
    pub(crate) fn say(&self, key: &str) -> String {
        self.format(key, None)
    }

    /// What scripts say, by key.
    pub(crate) fn live(&self) -> Vec<(&'static str, String)> {
        let named = ["n", "of", "what", "who"].map(|name| (name, format!("{{{name}}}")));
        LIVE.iter().map(|key| (*key, self.with(key, &named))).collect()
    }

    /// The text for a word of a closed set: its key is the two together.
    pub(crate) fn of(&self, prefix: &str, word: impl AsRef<str>) -> String {
        self.say(&format!("{prefix}{}", word.as_ref().replace(' ', "-")))
    }

    /// A text in which names stand for values.
    pub(crate) fn with<V: AsRef<str>>(&self, key: &str, values: &[(&str, V)]) -> String {
        let mut args = FluentArgs::new();
        for (name, value) in values {
            args.set((*name).to_owned(), FluentValue::from(value.as_ref().to_owned()));
        }
        self.format(key, Some(&args))
    }

    /// A text about a number of things, `$n`.
    pub(crate) fn count(&self, key: &str, n: impl Into<u64>) -> String {
        let mut args = FluentArgs::new();
        args.set("n", FluentValue::from(n.into()));
        self.format(key, Some(&args))
    }

    /// A moment as people here read it, in the time of this machine.
    pub(crate) fn moment(&self, at: Timestamp) -> String {
        let local = at.to_zoned_datetime(TimeZone::system());
        local.strftime(&self.say("date-and-time-pattern")).to_string()
    }

    /// A stored moment as people here read it; what can't be read is shown as it is.
    pub(crate) fn stored_moment(&self, text: &str) -> String {
        text.parse().map_or_else(|_| text.to_owned(), |at| self.moment(at))
    }

    /// A day as people here write it.
    pub(crate) fn date(&self, day: Date) -> String {
        day.strftime(&self.say("date-pattern")).to_string()
    }

    /// The day of a moment, in the time of this machine.
    pub(crate) fn day(&self, at: Timestamp) -> String {
        self.date(at.to_zoned_datetime(TimeZone::system()).date())
    }

    /// A whole number, its digits in groups of three.
    pub(crate) fn whole(&self, number: impl Into<u64>) -> String {
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
    pub(crate) fn values(&self, text: impl AsRef<str>) -> String {
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
    pub(crate) fn prose(&self, text: impl AsRef<str>) -> String {
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
    pub(crate) fn drawing(&self, svg: impl AsRef<str>) -> String {
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

    fn format(&self, key: &str, args: Option<&FluentArgs<'_>>) -> String {
        let pattern = self.bundle.get_message(key).and_then(|message| message.value());
        // A test looks for each key in the file, so this is seen before anybody reads it.
        let Some(pattern) = pattern else { return key.to_owned() };
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
