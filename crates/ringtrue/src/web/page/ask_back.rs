//! Readings that are asked back: those that stand far from where they may be expected.
//!
//! A script asks at once by what the page says of each field; the bench asks when the form is sent,
//! whoever sends it. A reading that was asked back and is sent as it was is kept. What can't be
//! read at all is told at its field, too.

use askama::filters::{Escaper, Html};
use ringtrue_job::check::{Check, Setting};
use ringtrue_job::event::Place;
use ringtrue_job::plausible::{self, Plausible};
use ringtrue_metrology::units::{System, Unit, UnitError, fixed};
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::procedure::{
    Evidence, EvidenceKind, LimitKey, QuantityKind, ReadingSet, Step,
};
use ringtrue_words::words;

use super::evidence::{cell, columns_of, field, unit_of, unit_of_column, unit_of_setting};
use super::frame::units_name;
use super::step_form::with_unit;
use crate::kept::Kept;
use crate::web::fields::Fields;
use crate::web::trouble::Trouble;

/// Digits that a bound is told to a script with.
const DECIMALS: usize = 4;
/// Name of the fields that say which readings were asked back already.
const KEPT: &str = "kept";

/// Where a reading may be expected, as attributes of its field, in the unit beside it.
#[derive(Default)]
pub(crate) struct Expected(String);

impl Expected {
    fn of(plausible: Plausible, (kind, symbol): (QuantityKind, &str)) -> Self {
        let Some(unit) = kind.unit(symbol) else { return Self::default() };
        let Plausible { low, high, spread, ratio, rises } = plausible;
        let spread = spread.map(|spread| unit.of_si(spread) - unit.of_si(0.0));
        let bounds = [
            ("low", low.map(|low| unit.of_si(low))),
            ("high", high.map(|high| unit.of_si(high))),
            ("spread", spread),
            ("ratio", ratio),
        ];
        let attribute = |(name, value): (&str, Option<f64>)| {
            Some(format!(" data-{name}=\"{}\"", fixed(value?, DECIMALS)))
        };
        let mut all: String = bounds.into_iter().filter_map(attribute).collect();
        if rises {
            all.push_str(" data-rises");
        }
        let spellings = |unit: &'static Unit| [&[unit.symbol], unit.aliases].concat();
        let fits: Vec<&str> = kind.units().iter().flat_map(spellings).collect();
        all.push_str(" data-fits=\"");
        // Writing into a string does not fail. One alias of the inch is a quote.
        let _ = Html.write_escaped_str(&mut all, &fits.join("|"));
        all.push('"');
        Self(all)
    }

    /// The attributes, each with a blank before it: bounds, and the units that may be typed.
    pub(crate) fn attributes(&self) -> &str {
        &self.0
    }
}

/// A reading that is asked back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Doubt {
    field: String,
    /// Which of the fields of this name.
    nth: usize,
    typed: String,
    /// Why it can't be read, and what would fit; else it is only far off, and may be kept.
    unread: Option<String>,
}

impl Doubt {
    /// What says that it was asked back, as it was typed.
    pub(crate) fn kept(&self) -> String {
        format!("{} {} {}", self.field, self.nth, self.typed)
    }

    /// The id of its words.
    pub(crate) fn id(&self) -> String {
        format!("ask-back-{}-{}", self.field, self.nth)
    }

    /// Its words.
    pub(crate) fn says(&self) -> String {
        let far = || words().with("ask-back", &[("what", &self.typed)]);
        self.unread.clone().unwrap_or_else(far)
    }
}

/// Fields of one name, in which one kind of thing is measured.
pub(crate) struct Measured {
    pub(crate) field: String,
    /// How the nth of them is called.
    called: Called,
    kind: QuantityKind,
    /// The unit of a bare number.
    unit: String,
    /// One for all, or one for each.
    plausible: Vec<Plausible>,
    typed: Vec<String>,
    /// What each is of: only readings of the same thing are held against each other.
    of: Vec<String>,
}

/// What a field is called where its reading is complained of.
enum Called {
    /// One field, by what it asks.
    Ask(String),
    /// The line of a column, by the column's name.
    Column(&'static str),
    /// A place and a round on a ring, or the name of a size.
    Rows(Vec<String>),
}

impl Called {
    fn name(&self, nth: usize) -> String {
        let t = words();
        match self {
            Self::Ask(ask) => format!("\u{201c}{ask}\u{201d}"),
            Self::Column(column) => {
                let column = t.of("reading-column-", column);
                t.with("reading-cell-named", &[("n", (nth + 1).to_string()), ("column", column)])
            }
            Self::Rows(rows) => rows.get(nth).cloned().unwrap_or_default(),
        }
    }
}

impl Measured {
    /// The first that can't be read: how it is called, what was found and what would fit.
    fn unread(&self) -> Option<(String, UnitError)> {
        let error = |nth: usize| Some((self.called.name(nth), self.read(nth)?.err()?));
        (0..self.typed.len()).find_map(error)
    }

    fn plausible(&self, nth: usize) -> Plausible {
        let own = self.plausible.get(nth).filter(|_| self.plausible.len() > 1);
        own.or(self.plausible.first()).copied().unwrap_or_default()
    }

    /// Where the nth reading may be expected.
    pub(crate) fn expected(&self, nth: usize) -> Expected {
        Expected::of(self.plausible(nth), (self.kind, &self.unit))
    }

    fn read(&self, nth: usize) -> Option<Result<f64, UnitError>> {
        let typed = self.typed.get(nth).filter(|typed| !typed.is_empty())?;
        Some(self.kind.read_si(&with_unit(typed, &self.unit)))
    }

    fn si(&self, nth: usize) -> Option<f64> {
        self.read(nth)?.ok()
    }

    /// The nth reading, where it can't be read or is to be asked back.
    pub(crate) fn doubt(&self, nth: usize) -> Option<Doubt> {
        let typed = self.typed.get(nth)?.clone();
        let doubt = |unread| Doubt { field: self.field.clone(), nth, typed, unread };
        let value = match self.read(nth)? {
            Ok(value) => value,
            Err(error) => return Some(doubt(Some(format!("{}; {}", error.found, error.fits)))),
        };
        let same = |other: &usize| *other != nth && self.of.get(*other) == self.of.get(nth);
        let others: Vec<(usize, f64)> = (0..self.typed.len())
            .filter(same)
            .filter_map(|other| Some((other, self.si(other)?)))
            .collect();
        let before = others.iter().rfind(|(other, _)| *other < nth).map(|(_, value)| *value);
        let values: Vec<f64> = others.into_iter().map(|(_, value)| value).collect();
        self.plausible(nth).asks_back(value, &values, before).then(|| doubt(None))
    }

    /// All that are to be asked back.
    pub(crate) fn doubts(&self) -> impl Iterator<Item = Doubt> {
        let all = (0..self.typed.len()).filter_map(|nth| self.doubt(nth));
        all.filter(|doubt| doubt.unread.is_none())
    }
}

/// What is measured by a piece of evidence, with what was typed.
pub(crate) fn measured(
    asked: &Evidence,
    (kept, place): (&Kept, &Place),
    (typed, units): (&Fields, System),
) -> Vec<Measured> {
    let joint = &kept.plan.joint;
    let texts = |field: &str| texts(typed, field);
    let one = |part: &str, unit: (QuantityKind, &str), plausible: Vec<Plausible>| {
        one((asked, typed), part, unit, plausible)
    };
    let length = (QuantityKind::Length, units_name(units));
    match (asked.kind, asked.readings) {
        (EvidenceKind::Value, _) => {
            let plausible = plausible::value((joint, place.half), asked);
            let kind = asked.quantity.or(asked.limit.map(LimitKey::quantity));
            let known = kind.map(|kind| {
                let unit = unit_of(asked, units);
                one("", (kind, unit.as_str()), vec![plausible])
            });
            known.into_iter().collect()
        }
        (EvidenceKind::ReadingSet, Some(ReadingSet::AssembledHeight)) => {
            let half = place.half.unwrap_or(Half::A);
            let heights = one("height", length, vec![plausible::height(joint, half)]);
            let [angles, rounds] = ["angle", "round"].map(|part| texts(&field(&asked.name, part)));
            let row = |(angle, round): (&String, &String)| {
                words().with("reading-label", &[("angle", angle), ("round", round)])
            };
            let rows = angles.iter().zip(&rounds).map(row).collect();
            vec![Measured { called: Called::Rows(rows), ..heights }]
        }
        (EvidenceKind::ReadingSet, Some(ReadingSet::SealGap)) => {
            let links = 0..joint.file.gap.link.len();
            let each = links.map(|link| plausible::size(&joint.file.gap, link)).collect();
            let rows = joint.file.gap.link.iter().map(|link| link.name.clone()).collect();
            vec![Measured { called: Called::Rows(rows), ..one("value", length, each) }]
        }
        (EvidenceKind::ReadingSet, Some(set)) => {
            let at = (kept, place);
            Check::of(set).map_or(Vec::new(), |check| of_check(check, asked, at, (typed, units)))
        }
        (EvidenceKind::ReadingSet, None)
        | (
            EvidenceKind::Tick
            | EvidenceKind::Photo
            | EvidenceKind::Text
            | EvidenceKind::SecondPerson,
            _,
        ) => Vec::new(),
    }
}

/// What was typed in the fields with this name.
fn texts(typed: &Fields, field: &str) -> Vec<String> {
    typed.all(field).into_iter().map(|text| text.trim().to_owned()).collect()
}

/// What is typed in a part of a piece of evidence.
fn one(
    (asked, typed): (&Evidence, &Fields),
    part: &str,
    (kind, unit): (QuantityKind, &str),
    plausible: Vec<Plausible>,
) -> Measured {
    let field = field(&asked.name, part);
    let (typed, unit, of) = (texts(typed, &field), unit.to_owned(), Vec::new());
    Measured { field, called: Called::Ask(asked.ask.clone()), kind, unit, plausible, typed, of }
}

/// The readings of a check, column by column, and its settings.
fn of_check(
    check: Check,
    asked: &Evidence,
    (kept, place): (&Kept, &Place),
    (typed, units): (&Fields, System),
) -> Vec<Measured> {
    let at = (&kept.plan.joint, place.half);
    let columns: Vec<&'static str> = columns_of(check).collect();
    let named = columns.iter().find(|name| plausible::measured_in(name).is_none());
    let of = named.map_or(Vec::new(), |name| texts(typed, &cell(&asked.name, name)));
    let column = |name: &&'static str| {
        let unit = (plausible::measured_in(name)?, unit_of_column(name, units));
        let plausible = vec![plausible::cell(at, name)];
        Some(Measured {
            of: of.clone(),
            called: Called::Column(name),
            ..one((asked, typed), &format!("cell.{name}"), unit, plausible)
        })
    };
    let setting = |setting: &Setting| {
        let (kind, plausible) = plausible::setting(at, (check, setting.name))?;
        let unit = (kind, unit_of_setting(setting, units));
        let called = Called::Ask(words().of("setting-name-", setting.name));
        let part = format!("set.{}", setting.name);
        Some(Measured { called, ..one((asked, typed), &part, unit, vec![plausible]) })
    };
    let settings = check.settings().iter().filter_map(setting);
    columns.iter().filter_map(column).chain(settings).collect()
}

/// Refuses a form in which readings stand that can't be read, or that are to be asked back and were
/// not yet.
pub(crate) fn asked(
    step: &Step,
    at: (&Kept, &Place),
    (fields, units): (&Fields, System),
) -> Result<(), Trouble> {
    let known = fields.all(KEPT);
    let measured = step.evidence.iter().flat_map(|asked| measured(asked, at, (fields, units)));
    let measured: Vec<Measured> = measured.collect();
    if let Some((name, error)) = measured.iter().find_map(Measured::unread) {
        return Err(Trouble::input(format!("{name}: {}", error.found), error.fits));
    }
    let doubts: Vec<Doubt> = measured
        .iter()
        .flat_map(Measured::doubts)
        .filter(|doubt| !known.contains(&doubt.kept().as_str()))
        .collect();
    if doubts.is_empty() {
        return Ok(());
    }
    let t = words();
    let count = u64::try_from(doubts.len()).unwrap_or(u64::MAX);
    Err(Trouble::input(t.count("asked-back", count), t.say("asked-back-next")))
}
