//! Settings of a check: declared once, read from what was typed.

use ringtrue_metrology::units::{Given, Quantity, UnitError, clip, parse, parse_number};
use ringtrue_seal::RoomError;
use ringtrue_words::{say, words};

use super::refuse;
use crate::event::Stated;

/// One setting of a check.
#[derive(Debug, Clone, Copy)]
pub struct Setting {
    /// Its name: small letters and hyphens.
    pub name: &'static str,
    /// What stands for its value in a help text: `VOLUME`.
    pub value: &'static str,
    /// The key of what it is, in a few words.
    help: &'static str,
    /// How it is read.
    pub read: Read,
    /// What is taken where it is left out.
    pub default: Option<&'static str>,
    /// The unit that a bare number of it is meant in where one stands beside its field; empty where
    /// it has none.
    pub unit: &'static str,
}

/// How a setting is read.
#[derive(Debug, Clone, Copy)]
pub enum Read {
    /// As what its function takes.
    Typed(fn(&str) -> Result<(), UnitError>),
    /// As one of these words.
    Words(fn() -> Vec<&'static str>),
    /// It is stated or it is not; its text is `yes`.
    Flag,
}

/// What a flag is typed as.
const YES: &str = "yes";

impl Setting {
    /// What it is, in a few words.
    #[must_use]
    pub fn help(&self) -> &'static str {
        words().fixed(self.help)
    }

    /// A setting that is read by a function of its own.
    pub(super) const fn typed(
        name: &'static str,
        value: &'static str,
        help: &'static str,
        read: fn(&str) -> Result<(), UnitError>,
    ) -> Self {
        Self { name, value, help, read: Read::Typed(read), default: None, unit: "" }
    }

    /// A quantity with its unit; the first one of its kind stands beside a field.
    pub(super) const fn quantity<Q: Quantity>(
        name: &'static str,
        value: &'static str,
        help: &'static str,
    ) -> Self {
        Self::typed(name, value, help, |text| parse::<Q>(text).map(|_| ()))
            .in_unit(Q::UNITS[0].symbol)
    }

    /// One of a few words.
    pub(super) const fn words(
        name: &'static str,
        help: &'static str,
        words: fn() -> Vec<&'static str>,
    ) -> Self {
        Self { name, value: "WORD", help, read: Read::Words(words), default: None, unit: "" }
    }

    /// Something that is stated or not.
    pub(super) const fn flag(name: &'static str, help: &'static str) -> Self {
        Self { name, value: "", help, read: Read::Flag, default: None, unit: "" }
    }

    /// The same, with what is taken where it is left out.
    pub(super) const fn or(self, default: &'static str) -> Self {
        Self { default: Some(default), ..self }
    }

    /// The same, a bare number being meant in this unit.
    pub(super) const fn in_unit(self, unit: &'static str) -> Self {
        Self { unit, ..self }
    }

    /// Can this be read?
    ///
    /// # Errors
    /// What was found and what would fit.
    pub fn check(&self, typed: &str) -> Result<(), UnitError> {
        let words = match self.read {
            Read::Typed(read) => return read(typed),
            Read::Words(words) => words(),
            Read::Flag => vec![YES],
        };
        if words.contains(&typed.trim()) {
            return Ok(());
        }
        let found = say!("check-word-not-known-here", typed = clip(typed));
        Err(UnitError { found, fits: say!("check-one-of-these-wanted", words = words.join(", ")) })
    }
}

/// The words of a closed set.
pub(super) fn words_of<T>(set: &[(&'static str, T)]) -> Vec<&'static str> {
    set.iter().map(|(word, _)| *word).collect()
}

/// A bare number.
pub(super) fn number(text: &str) -> Result<(), UnitError> {
    parse_number(text).map(|_| ())
}

/// What is stated of the settings of one check.
pub(super) struct Settings<'s> {
    table: &'static [Setting],
    stated: &'s [Stated],
}

impl<'s> Settings<'s> {
    /// Refuses what the check does not know, what can't be read, and what stands twice.
    pub(super) fn new(table: &'static [Setting], stated: &'s [Stated]) -> Result<Self, RoomError> {
        for (index, one) in stated.iter().enumerate() {
            let name = &one.name;
            let Some(setting) = table.iter().find(|setting| setting.name == name) else {
                let names: Vec<&str> = table.iter().map(|setting| setting.name).collect();
                let found = say!("check-no-setting-this-check", setting = clip(name));
                return Err(refuse(
                    found,
                    say!("check-has-these-settings", settings = names.join(", ")),
                ));
            };
            if stated[..index].iter().any(|earlier| earlier.name == *name) {
                return Err(refuse(
                    say!("check-stated-twice", setting = name),
                    say!("check-state-once"),
                ));
            }
            setting.check(&one.typed).map_err(|error| unread(name, error))?;
        }
        Ok(Self { table, stated })
    }

    /// What was typed, or the default.
    pub(super) fn text(&self, name: &str) -> Option<&'s str> {
        let stated = self.stated.iter().find(|one| one.name == name);
        let default = || self.table.iter().find(|one| one.name == name)?.default;
        stated.map(|one| one.typed.as_str()).or_else(default)
    }

    /// What one reads by a function of its own.
    pub(super) fn read<T>(
        &self,
        name: &str,
        read: impl Fn(&str) -> Result<T, UnitError>,
    ) -> Result<Option<T>, RoomError> {
        self.text(name).map(read).transpose().map_err(|error| unread(name, error))
    }

    /// A quantity.
    pub(super) fn quantity<Q: Quantity>(&self, name: &str) -> Result<Option<Q>, RoomError> {
        self.read(name, parse::<Q>)
    }

    /// A quantity with its text.
    pub(super) fn given<Q: Quantity>(&self, name: &str) -> Result<Option<Given<Q>>, RoomError> {
        self.read(name, Given::new)
    }

    /// A bare number.
    pub(super) fn number(&self, name: &str) -> Result<Option<f64>, RoomError> {
        self.read(name, parse_number)
    }

    /// The member of a closed set.
    pub(super) fn word<T: Copy>(&self, name: &str, set: &[(&'static str, T)]) -> Option<T> {
        let typed = self.text(name)?.trim();
        set.iter().find(|(word, _)| *word == typed).map(|(_, member)| *member)
    }

    /// Which of these are stated?
    pub(super) fn stated(&self, names: &[&'static str]) -> Vec<&'static str> {
        let there = |name: &&&str| self.stated.iter().any(|one| one.name == **name);
        names.iter().filter(there).copied().collect()
    }

    /// Refuses these, with the reason.
    pub(super) fn none_of(&self, names: &[&'static str], why: &str) -> Result<(), RoomError> {
        match self.stated(names).as_slice() {
            [] => Ok(()),
            [first, ..] => Err(refuse(say!("check-setting-is-stated", setting = first), why)),
        }
    }
}

/// A setting that is missing.
pub(crate) fn wanted(name: &str) -> RoomError {
    refuse(
        say!("check-setting-is-missing", setting = name),
        say!("check-state-the-setting", setting = name),
    )
}

fn unread(name: &str, error: UnitError) -> RoomError {
    refuse(format!("`{name}`: {}", error.found), error.fits)
}

#[cfg(test)]
mod tests {
    use ringtrue_words::english;

    use super::Read;
    use crate::check::Check;

    #[test]
    fn every_setting_says_what_it_is() {
        for setting in Check::ALL.into_iter().flat_map(Check::settings) {
            assert_ne!(english().fixed(setting.help), setting.help);
            assert_eq!(setting.help(), english().fixed(setting.help));
            assert!(english().known("setting-name-", setting.name).is_some(), "{}", setting.name);
            if let Read::Words(words) = setting.read {
                for word in words() {
                    assert!(english().known("setting-word-", word).is_some(), "{word}");
                }
            }
        }
    }
}
