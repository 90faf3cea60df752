//! Reading a language file: what is wrong with it is said before it is spoken.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use fluent_bundle::FluentResource;
use fluent_syntax::ast::{Entry, Expression, InlineExpression, Message, Pattern, PatternElement};
use unic_langid::LanguageIdentifier;

use crate::ENGLISH;

/// The key of the language's own tag (BCP 47).
const TAG: &str = "language-tag";

/// The key of the decimal sign.
const SIGN: &str = "decimal-sign";

/// One thing that is wrong with a language file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// Line, counted from one.
    pub line: usize,
    /// What was found.
    pub found: String,
    /// What would fit.
    pub fits: String,
}

/// All that is wrong with a language file, in its order.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub struct Faults(pub Vec<Fault>);

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (nth, Fault { line, found, fits }) in self.0.iter().enumerate() {
            let end = if nth == 0 { "" } else { "\n" };
            write!(f, "{end}line {line}: {found}; {fits}")?;
        }
        Ok(())
    }
}

/// The tag of a language file in which nothing is wrong.
pub(crate) fn check(text: &str) -> Result<String, Faults> {
    let resource = FluentResource::try_new(text.to_owned()).map_err(|(_, errors)| {
        let fault = |error: &fluent_syntax::parser::ParserError| Fault {
            line: line_at(text, error.pos.start),
            found: error.kind.to_string(),
            fits: "a line is `key = text`, and what follows it is indented".to_owned(),
        };
        Faults(errors.iter().map(fault).collect())
    })?;
    let mut faults = strangers(text, &resource);
    let own = messages(&resource).find(|message| message.id.name == TAG).and_then(plain);
    let (found, fits) = match own {
        Some(tag) if tag.parse::<LanguageIdentifier>().is_ok() => {
            return if faults.is_empty() { Ok(tag.to_owned()) } else { Err(Faults(faults)) };
        }
        Some(tag) => (
            format!("`{tag}` is no tag of a language"),
            "a tag is such as `pl` or `pt-BR` (BCP 47)",
        ),
        None => (
            format!("`{TAG}` is missing"),
            "a file names its language, such as `language-tag = pl`",
        ),
    };
    faults.insert(0, Fault { line: line_of(text, TAG), found, fits: fits.to_owned() });
    Err(Faults(faults))
}

/// Keys and values of a file that English does not know.
fn strangers(text: &str, resource: &FluentResource) -> Vec<Fault> {
    let english = crate::resource(ENGLISH);
    let english: BTreeMap<&str, BTreeSet<&str>> = messages(&english).map(named).collect();
    let mut faults = Vec::new();
    let mut seen = BTreeSet::new();
    for message in messages(resource) {
        let (key, values) = named(message);
        let mut fault = |found: String, fits: &str| {
            faults.push(Fault { line: line_of(text, key), found, fits: fits.to_owned() });
        };
        if !seen.insert(key) {
            fault(format!("`{key}` stands here twice"), "keep one of the two");
        }
        if message.value.is_none() {
            fault(format!("`{key}` has no text"), "a text stands behind its `=`");
        }
        if message.value.as_ref().is_some_and(takes_other) {
            let found = format!("`{key}` takes something else than a value of its own");
            fault(found, "between braces stands `$value`, a choice by one, or a text in quotes");
        }
        let Some(known) = english.get(key) else {
            let found = format!("`{key}` is no key of the English file");
            fault(found, "keys are those that `ringtrue bench words` writes out");
            continue;
        };
        let is_sign = |text: &str| text.len() == 1 && text.starts_with(['.', ',']);
        if key == SIGN && !plain(message).is_some_and(is_sign) {
            fault(format!("`{SIGN}` is none"), "a point or a comma");
        }
        for value in values.difference(known) {
            let found = format!("`{key}` asks for `${value}`");
            fault(found, "a text takes the values that the English one takes");
        }
    }
    faults
}

/// Keys of the messages that name no value.
pub(crate) fn without_values(resource: &FluentResource) -> Vec<String> {
    let bare = messages(resource).map(named).filter(|(_, values)| values.is_empty());
    bare.map(|(key, _)| key.to_owned()).collect()
}

/// The messages of a file.
pub(crate) fn messages(resource: &FluentResource) -> impl Iterator<Item = &Message<&str>> {
    resource.entries().filter_map(|entry| match entry {
        Entry::Message(message) => Some(message),
        Entry::Term(_)
        | Entry::Comment(_)
        | Entry::GroupComment(_)
        | Entry::ResourceComment(_)
        | Entry::Junk { .. } => None,
    })
}

/// A message's key and the names that its text puts values for.
pub(crate) fn named<'m>(message: &'m Message<&'m str>) -> (&'m str, BTreeSet<&'m str>) {
    let mut names = BTreeSet::new();
    if let Some(pattern) = &message.value {
        names_in(pattern, &mut names);
    }
    (message.id.name, names)
}

fn names_in<'m>(pattern: &'m Pattern<&'m str>, names: &mut BTreeSet<&'m str>) {
    for element in &pattern.elements {
        let PatternElement::Placeable { expression } = element else { continue };
        match expression {
            Expression::Inline(inline) => name_of(inline, names),
            Expression::Select { selector, variants } => {
                name_of(selector, names);
                variants.iter().for_each(|variant| names_in(&variant.value, names));
            }
        }
    }
}

/// Does a text take functions, terms or other messages, none of which are at hand?
fn takes_other(pattern: &Pattern<&str>) -> bool {
    let is_other = |inline: &InlineExpression<&str>| match inline {
        InlineExpression::VariableReference { .. }
        | InlineExpression::StringLiteral { .. }
        | InlineExpression::NumberLiteral { .. } => false,
        InlineExpression::FunctionReference { .. }
        | InlineExpression::MessageReference { .. }
        | InlineExpression::TermReference { .. }
        | InlineExpression::Placeable { .. } => true,
    };
    pattern.elements.iter().any(|element| match element {
        PatternElement::TextElement { .. } => false,
        PatternElement::Placeable { expression: Expression::Inline(inline) } => is_other(inline),
        PatternElement::Placeable { expression: Expression::Select { selector, variants } } => {
            is_other(selector) || variants.iter().any(|variant| takes_other(&variant.value))
        }
    })
}

fn name_of<'m>(inline: &'m InlineExpression<&'m str>, names: &mut BTreeSet<&'m str>) {
    if let InlineExpression::VariableReference { id } = inline {
        names.insert(id.name);
    }
}

/// The text of a message that is one piece.
fn plain<'m>(message: &'m Message<&'m str>) -> Option<&'m str> {
    match message.value.as_ref()?.elements.as_slice() {
        [PatternElement::TextElement { value }] => Some(value.trim()),
        _ => None,
    }
}

fn line_at(text: &str, position: usize) -> usize {
    1 + text.bytes().take(position).filter(|byte| *byte == b'\n').count()
}

/// The line of a key; the first one where the key is missing.
fn line_of(text: &str, key: &str) -> usize {
    let is_it = |line: &str| line.split('=').next().is_some_and(|before| before.trim() == key);
    1 + text.lines().position(is_it).unwrap_or_default()
}
