//! What stands around every page.

use askama::filters::{Escaper, Html};
use axum::http::HeaderMap;
use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::System;
use ringtrue_report::{Column, Set};

use crate::web::session::Visitor;
use crate::web::{Shared, cookie};
use ringtrue_words::{Words, words};

/// Cookies of choices that a tablet keeps.
pub(crate) const THEME: &str = "ringtrue-theme";
pub(crate) const UNITS: &str = "ringtrue-units";
pub(crate) const DEVICE: &str = "ringtrue-device";

/// Colours of a page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Theme {
    /// As the system has it.
    System,
    Light,
    Dark,
}

impl Theme {
    const ALL: [Self; 3] = [Self::System, Self::Light, Self::Dark];

    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::System => "system",
            Self::Light => "light",
            Self::Dark => "dark",
        }
    }

    pub(crate) fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|theme| theme.name() == name)
    }
}

/// Name of a system of units, as forms and cookies have it.
pub(crate) fn units_name(system: System) -> &'static str {
    match system {
        System::Millimetre => "mm",
        System::Inch => "in",
    }
}

/// The system with this name.
pub(crate) fn units_named(name: &str) -> Option<System> {
    [System::Millimetre, System::Inch].into_iter().find(|system| units_name(*system) == name)
}

/// The units that a form's bare numbers are in: those that its page showed.
pub(crate) fn units_of(fields: &crate::web::fields::Fields) -> System {
    units_named(fields.text("units")).unwrap_or(System::Millimetre)
}

/// A text as HTML, with what stands between two backticks in it set apart: words to be typed or
/// written as they are.
fn marked(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, word, after)) = backticked(rest) {
        escape(before, &mut out);
        out.push_str("<code>");
        escape(word, &mut out);
        out.push_str("</code>");
        rest = after;
    }
    escape(rest, &mut out);
    out
}

/// The same of sentences that were made elsewhere: their numbers as a language writes them, but for
/// what stands between backticks.
fn marked_prose(text: &str, t: &Words) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, word, after)) = backticked(rest) {
        out.push_str(&escaped(&t.prose(before)));
        out.push_str(&format!("<code>{}</code>", escaped(word)));
        rest = after;
    }
    out.push_str(&escaped(&t.prose(rest)));
    out
}

/// What stands before the first two backticks, between and behind them.
fn backticked(text: &str) -> Option<(&str, &str, &str)> {
    let (before, rest) = text.split_once('`')?;
    let (word, after) = rest.split_once('`')?;
    Some((before, word, after))
}

fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    escape(text, &mut out);
    out
}

fn escape(text: &str, out: &mut String) {
    // Writing into a string does not fail.
    let _ = Html.write_escaped_str(out, text);
}

/// What stands around every page: words, who is signed in, choices.
pub(crate) struct Frame {
    pub(crate) t: &'static Words,
    pub(crate) who: Option<(String, &'static str)>,
    pub(crate) keeps_people: bool,
    pub(crate) csrf: String,
    pub(crate) theme: Theme,
    pub(crate) units: System,
    pub(crate) idle_seconds: u64,
    /// The address of the page.
    pub(crate) here: String,
    /// Where to go back to after trouble.
    pub(crate) back: String,
}

impl Frame {
    /// The frame for whoever asks.
    pub(crate) fn of(shared: &Shared, visitor: Option<&Visitor>, headers: &HeaderMap) -> Self {
        let choice = |name| cookie::read(headers, name);
        Self {
            t: words(),
            who: visitor.map(|visitor| (visitor.name.clone(), visitor.role.name())),
            keeps_people: visitor.is_some_and(|visitor| visitor.keeps_people),
            csrf: visitor.map_or(String::new(), |visitor| visitor.csrf.clone()),
            theme: choice(THEME).and_then(Theme::named).unwrap_or(Theme::System),
            units: choice(UNITS).and_then(units_named).unwrap_or(System::Millimetre),
            idle_seconds: shared.sessions.idle_seconds(),
            here: "/jobs".to_owned(),
            back: "/jobs".to_owned(),
        }
    }

    /// The mark of a verdict.
    #[expect(clippy::unused_self, reason = "templates reach it through the frame")]
    pub(crate) fn mark(&self, verdict: &Verdict) -> String {
        ringtrue_report::verdict_mark(*verdict).svg
    }

    /// A cell of a report's table as HTML, a number as this language writes it.
    pub(crate) fn cell(&self, set: &Set, text: &str) -> String {
        match set {
            Set::Numbers => escaped(&self.t.values(text)),
            Set::Words => escaped(text),
            Set::Prose => marked(text),
        }
    }

    /// A text as HTML; see [`marked`].
    #[expect(clippy::unused_self, reason = "templates reach it through the frame")]
    pub(crate) fn marked(&self, text: impl AsRef<str>) -> String {
        marked(text.as_ref())
    }

    /// Sentences that were made elsewhere, as HTML, their numbers as this language writes them.
    pub(crate) fn prose(&self, text: impl AsRef<str>) -> String {
        marked_prose(text.as_ref(), self.t)
    }

    /// Does a column of a report's table hold sentences?
    #[expect(clippy::unused_self, reason = "templates reach it through the frame")]
    pub(crate) fn has_prose(&self, columns: &[Column]) -> bool {
        columns.iter().any(|column| column.set == Set::Prose)
    }

    /// Does any column of a report's table say what it holds?
    #[expect(clippy::unused_self, reason = "templates reach it through the frame")]
    pub(crate) fn has_heads(&self, columns: &[Column]) -> bool {
        columns.iter().any(|column| !column.head.is_empty())
    }

    /// How a column of a report's table is set.
    #[expect(clippy::unused_self, reason = "templates reach it through the frame")]
    pub(crate) fn set_class(&self, set: &Set) -> &'static str {
        match set {
            Set::Words => "words",
            Set::Prose => "prose",
            Set::Numbers => "number",
        }
    }

    /// The same frame on the page with this address.
    pub(crate) fn at(self, here: impl Into<String>) -> Self {
        Self { here: here.into(), ..self }
    }

    pub(crate) fn themes(&self) -> &'static [Theme] {
        &Theme::ALL
    }

    pub(crate) fn page_back(&self) -> &str {
        &self.back
    }

    pub(crate) fn units_name(&self) -> &'static str {
        units_name(self.units)
    }
}

#[cfg(test)]
mod tests {
    use super::marked;

    #[test]
    fn what_stands_between_backticks_is_set_apart_and_nothing_else_is_markup() {
        let told = marked("tries; `level at once` where none");
        assert_eq!(told, "tries; <code>level at once</code> where none");
        assert_eq!(marked("`<b>` & `a` `b"), "<code>&#60;b&#62;</code> &#38; <code>a</code> `b");
        assert_eq!(marked("\"x\" is 'y'"), "&#34;x&#34; is &#39;y&#39;");
        assert_eq!(marked("``"), "<code></code>");
    }
}
