//! What a model takes from its case, and what it gives back.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Display;

use super::ValidationError;
use super::case::{Case, Quantity};

/// Gives the text of a table by its name.
type Data<'a> = &'a dyn Fn(&str) -> Option<String>;

/// The inputs of one case. Remembers which were asked for, so that none is passed over.
pub(super) struct Inputs<'a> {
    case: &'a Case,
    data: Data<'a>,
    used: RefCell<BTreeSet<String>>,
}

impl<'a> Inputs<'a> {
    pub(super) fn new(case: &'a Case, data: Data<'a>) -> Self {
        Self { case, data, used: RefCell::default() }
    }

    /// An input that a reader of the case needs but its model does not.
    pub(super) fn ignore(&self, key: &str) {
        self.used.borrow_mut().insert(key.to_owned());
    }

    /// Does the case have this input?
    pub(super) fn given(&self, key: &str) -> bool {
        self.case.inputs.contains_key(key)
    }

    fn value(&self, key: &str) -> Option<&'a toml::Value> {
        self.ignore(key);
        self.case.inputs.get(key)
    }

    fn needed(&self, key: &str) -> Result<&'a toml::Value, ValidationError> {
        self.value(key).ok_or_else(|| self.wrong(format!("the input `{key}` is missing")))
    }

    pub(super) fn wrong(&self, what: impl Into<String>) -> ValidationError {
        self.case.wrong(what)
    }

    /// The calculation's own refusal.
    pub(super) fn refused(&self, why: impl Display) -> ValidationError {
        ValidationError::Refused { case: self.case.id.clone(), why: why.to_string() }
    }

    pub(super) fn number(&self, key: &str) -> Result<f64, ValidationError> {
        let value = self.needed(key)?;
        number(value).ok_or_else(|| self.wrong(format!("the input `{key}` is no finite number")))
    }

    pub(super) fn optional_number(&self, key: &str) -> Result<Option<f64>, ValidationError> {
        self.value(key).map(|_| self.number(key)).transpose()
    }

    /// A whole number, 0 to 4,294,967,295.
    pub(super) fn count(&self, key: &str) -> Result<u32, ValidationError> {
        let whole = self.needed(key)?.as_integer().and_then(|number| u32::try_from(number).ok());
        whole.ok_or_else(|| self.wrong(format!("the input `{key}` is no whole number from 0 on")))
    }

    pub(super) fn numbers(&self, key: &str) -> Result<Vec<f64>, ValidationError> {
        let list = self.needed(key)?.as_array();
        let list = list.and_then(|list| list.iter().map(number).collect::<Option<Vec<f64>>>());
        list.ok_or_else(|| self.wrong(format!("the input `{key}` is no list of finite numbers")))
    }

    pub(super) fn optional_text(&self, key: &str) -> Result<Option<&'a str>, ValidationError> {
        self.value(key).map(|_| self.text(key)).transpose()
    }

    pub(super) fn text(&self, key: &str) -> Result<&'a str, ValidationError> {
        let text = self.needed(key)?.as_str();
        text.ok_or_else(|| self.wrong(format!("the input `{key}` is no text")))
    }

    pub(super) fn texts(&self, key: &str) -> Result<Vec<&'a str>, ValidationError> {
        let list = self.needed(key)?.as_array();
        let list = list.and_then(|list| list.iter().map(toml::Value::as_str).collect());
        list.ok_or_else(|| self.wrong(format!("the input `{key}` is no list of texts")))
    }

    /// The numeric table that the input `key` names: its columns by their headings.
    pub(super) fn table(&self, key: &str) -> Result<BTreeMap<String, Vec<f64>>, ValidationError> {
        let name = self.text(key)?;
        let text = (self.data)(name).ok_or_else(|| self.wrong(format!("no table `{name}`")))?;
        columns(&text).map_err(|why| self.wrong(format!("table `{name}`: {why}")))
    }

    /// Every input of the case was asked for.
    pub(super) fn all_used(&self) -> Result<(), ValidationError> {
        let used = self.used.borrow();
        match self.case.inputs.keys().find(|key| !used.contains(*key)) {
            None => Ok(()),
            Some(key) => Err(self.wrong(format!("its model takes no input `{key}`"))),
        }
    }
}

fn number(value: &toml::Value) -> Option<f64> {
    let number = value.as_float().or_else(|| value.as_integer().map(|whole| whole as f64));
    number.filter(|number| number.is_finite())
}

fn columns(text: &str) -> Result<BTreeMap<String, Vec<f64>>, String> {
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let headings = reader.headers().map_err(|error| error.to_string())?.clone();
    let mut columns = vec![Vec::new(); headings.len()];
    for record in reader.records() {
        let record = record.map_err(|error| error.to_string())?;
        for (column, cell) in columns.iter_mut().zip(&record) {
            let number = cell.parse::<f64>().ok().filter(|number| number.is_finite());
            column.push(number.ok_or_else(|| format!("`{cell}` is no finite number"))?);
        }
    }
    Ok(headings.iter().map(str::to_owned).zip(columns).collect())
}

/// What a model computed, by name.
#[derive(Debug, Default)]
pub(super) struct Quantities(BTreeMap<&'static str, Quantity>);

impl Quantities {
    pub(super) fn one(mut self, name: &'static str, number: f64) -> Self {
        self.0.insert(name, Quantity::One(number));
        self
    }

    pub(super) fn list(mut self, name: &'static str, numbers: Vec<f64>) -> Self {
        self.0.insert(name, Quantity::List(numbers));
        self
    }

    pub(super) fn get(&self, name: &str) -> Option<&Quantity> {
        self.0.get(name)
    }

    pub(super) fn names(&self) -> Vec<&'static str> {
        self.0.keys().copied().collect()
    }
}
