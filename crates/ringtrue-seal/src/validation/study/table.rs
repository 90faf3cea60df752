//! The tables that studies are held against.

use std::collections::BTreeMap;

use super::ValidationError;

/// What a study may ask for.
pub(super) struct Data<'a> {
    /// The study's name, for messages.
    pub(super) study: &'a str,
    /// Gives the text of a table by its path below `validation/`.
    pub(super) text: &'a dyn Fn(&str) -> Option<String>,
}

impl Data<'_> {
    /// What went wrong, with the study's name.
    pub(super) fn refused(&self, why: impl std::fmt::Display) -> ValidationError {
        ValidationError::Refused { case: self.study.to_owned(), why: why.to_string() }
    }

    /// The text of a file below `validation/`.
    pub(super) fn file(&self, path: &str) -> Result<String, ValidationError> {
        (self.text)(path).ok_or_else(|| self.refused(format!("no table `{path}`")))
    }

    /// The rows of a table of `reference/mechanics/`; at least one.
    pub(super) fn rows(&self, name: &str) -> Result<Vec<Row>, ValidationError> {
        let text = self.file(&format!("reference/mechanics/{name}"))?;
        let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
        let wrong = |why: csv::Error| self.refused(format!("{name}: {why}"));
        let headings = reader.headers().map_err(wrong)?.clone();
        let mut rows = Vec::new();
        for record in reader.records() {
            let cells = headings.iter().map(str::to_owned);
            let record = record.map_err(wrong)?;
            rows.push(Row {
                table: format!("{}: {name}", self.study),
                cells: cells.zip(record.iter().map(str::to_owned)).collect(),
            });
        }
        if rows.is_empty() {
            return Err(self.refused(format!("{name} holds no row")));
        }
        Ok(rows)
    }

    /// The check values of a table whose identity starts with `prefix`; at least one.
    pub(super) fn checks(&self, name: &str, prefix: &str) -> Result<Vec<Check>, ValidationError> {
        let rows = self.rows(name)?;
        let checks: Result<Vec<Check>, _> = rows
            .iter()
            .filter(|row| row.text("case_id").is_ok_and(|id| id.starts_with(prefix)))
            .map(|row| {
                let expected = row.number("expected")?;
                let theirs = row.number("rel_tol")? * expected.abs();
                Ok(Check { row: row.clone(), expected, theirs })
            })
            .collect();
        let checks = checks?;
        if checks.is_empty() {
            return Err(self.refused(format!("{name} has no check value `{prefix}`")));
        }
        Ok(checks)
    }
}

/// A row by its headings.
#[derive(Debug, Clone)]
pub(super) struct Row {
    table: String,
    cells: BTreeMap<String, String>,
}

impl Row {
    fn wrong(&self, why: String) -> ValidationError {
        ValidationError::Refused { case: self.table.clone(), why }
    }

    pub(super) fn text(&self, heading: &str) -> Result<&str, ValidationError> {
        let cell = self.cells.get(heading);
        cell.map(String::as_str).ok_or_else(|| self.wrong(format!("no column `{heading}`")))
    }

    pub(super) fn number(&self, heading: &str) -> Result<f64, ValidationError> {
        let text = self.text(heading)?;
        let number = text.parse::<f64>().ok().filter(|number| number.is_finite());
        number.ok_or_else(|| self.wrong(format!("`{heading}` is `{text}`, no finite number")))
    }
}

/// One check value.
#[derive(Debug, Clone)]
pub(super) struct Check {
    row: Row,
    /// What the reference says.
    pub(super) expected: f64,
    /// Half-width of its band.
    pub(super) theirs: f64,
}

impl Check {
    /// An input, among the pairs `key=value;...`.
    pub(super) fn input(&self, key: &str) -> Result<f64, ValidationError> {
        Ok(self.inputs(key)?[0])
    }

    /// An input that is a list; never empty.
    pub(super) fn inputs(&self, key: &str) -> Result<Vec<f64>, ValidationError> {
        let pairs = self.row.text("inputs")?;
        let mut found =
            pairs.split(';').filter_map(|pair| pair.strip_prefix(key)?.strip_prefix('='));
        let list = found.next().unwrap_or_default();
        let numbers = list.split(',').map(str::parse).collect::<Result<Vec<f64>, _>>();
        numbers.map_err(|_| self.row.wrong(format!("no input `{key}` in `{pairs}`")))
    }
}
