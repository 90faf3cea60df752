//! A CSV text as a table whose cells know their place.

use ringtrue_metrology::units::{Quantity, Unit, UnitError, clip, parse, parse_in, unit_of};
use ringtrue_seal::definition::TextError;
use ringtrue_words::say;

/// Largest text that is read: a thousand times a long set of readings.
const LONGEST_TEXT: usize = 4 << 20;
/// Most rows that a table may have: the points of a long trace.
const MOST_ROWS: usize = 100_000;

/// A column that a table may have.
pub(super) struct Column {
    /// Name without a unit.
    pub(super) name: &'static str,
    /// Does its name carry a unit?
    pub(super) unit: HeaderUnit,
    /// Must it be there?
    pub(super) need: Need,
}

/// What may follow a column's name.
pub(super) enum HeaderUnit {
    /// Nothing: text, or a plain number.
    None,
    /// `_mm` and the like; the function finds the unit.
    Of(fn(&str) -> Option<&'static Unit>, &'static str),
}

impl HeaderUnit {
    /// The unit of a quantity, named in the header or in each cell.
    pub(super) fn of<Q: Quantity>() -> Self {
        Self::Of(unit_of::<Q>, Q::UNITS[0].symbol)
    }
}

/// Must a column be there?
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Need {
    /// It must.
    Required,
    /// It may be left out.
    Optional,
}

/// A text as a table.
pub(super) struct Table<'t> {
    text: &'t str,
    delimiter: u8,
    /// For each declared column, where it stands in the file.
    columns: Vec<Option<Heading>>,
    declared: &'t [Column],
    records: Vec<csv::StringRecord>,
}

/// A column of the file: its index, and the unit of its name.
#[derive(Clone, Copy)]
struct Heading {
    index: usize,
    unit: Option<&'static Unit>,
}

/// One row of a table.
pub(super) struct Row<'t> {
    table: &'t Table<'t>,
    record: &'t csv::StringRecord,
}

impl<'t> Table<'t> {
    /// Reads a text that has these columns and no others.
    pub(super) fn read(text: &'t str, declared: &'t [Column]) -> Result<Self, TextError> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        if text.len() > LONGEST_TEXT {
            return Err(TextError::of_text(
                say!("reading-table-file-holds-bytes", bytes = text.len()),
                say!("reading-table-readings-file-at-most-bytes-wanted", bytes = LONGEST_TEXT),
            ));
        }
        let header_line = text.lines().find(|line| is_content(line)).ok_or_else(|| {
            TextError::of_text(
                say!("reading-table-file-holds-no-header").to_owned(),
                header_wanted(declared),
            )
        })?;
        let delimiter = delimiter_of(header_line);
        let mut reader = csv::ReaderBuilder::new()
            .delimiter(delimiter)
            .comment(Some(b'#'))
            .flexible(true)
            .trim(csv::Trim::All)
            .from_reader(text.as_bytes());
        let header = reader.headers().map_err(|error| csv_error(&error))?.clone();
        let mut table =
            Self { text, delimiter, columns: Vec::new(), declared, records: Vec::new() };
        table.columns = table.resolve_header(&header)?;
        for record in reader.records() {
            let record = record.map_err(|error| csv_error(&error))?;
            if record.iter().all(str::is_empty) {
                continue;
            }
            if table.records.len() == MOST_ROWS {
                let fits = say!("reading-table-at-most-rows-read", rows = MOST_ROWS);
                return Err(table.at(
                    (&record, 0),
                    say!("reading-table-one-row-more").to_owned(),
                    fits,
                ));
            }
            table.check_width(&header, &record)?;
            table.records.push(record);
        }
        Ok(table)
    }

    /// The rows, in the order of the file.
    pub(super) fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.records.iter().map(|record| Row { table: self, record })
    }

    /// Is this declared column in the file?
    pub(super) fn has(&self, name: &str) -> bool {
        self.column(name).is_some()
    }

    fn column(&self, name: &str) -> Option<Heading> {
        let declared = self.declared.iter().position(|column| column.name == name);
        debug_assert!(declared.is_some(), "column `{name}` is not declared");
        self.columns[declared?]
    }

    fn resolve_header(
        &self,
        header: &csv::StringRecord,
    ) -> Result<Vec<Option<Heading>>, TextError> {
        let mut columns = vec![None; self.declared.len()];
        for (index, cell) in header.iter().enumerate() {
            let (declared, unit) = self.match_header(header, index, cell)?;
            if columns[declared].replace(Heading { index, unit }).is_some() {
                let found = say!("reading-table-column-stands-twice", column = clip(cell));
                return Err(self.at(
                    (header, index),
                    found,
                    say!("reading-table-once-enough").to_owned(),
                ));
            }
        }
        let missing = self
            .declared
            .iter()
            .zip(&columns)
            .find(|(column, found)| column.need == Need::Required && found.is_none());
        match missing {
            Some((column, _)) => {
                let found = say!("reading-table-there-no-column", column = spelled(column));
                Err(self.at((header, 0), found, header_wanted(self.declared)))
            }
            None => Ok(columns),
        }
    }

    /// Which declared column a header cell names, and its unit.
    fn match_header(
        &self,
        header: &csv::StringRecord,
        index: usize,
        cell: &str,
    ) -> Result<(usize, Option<&'static Unit>), TextError> {
        let name = cell.to_lowercase();
        for (declared, column) in self.declared.iter().enumerate() {
            let Some(rest) = name.strip_prefix(column.name) else {
                continue;
            };
            match (&column.unit, rest.strip_prefix('_')) {
                (_, None) if rest.is_empty() => return Ok((declared, None)),
                (HeaderUnit::Of(unit_of, example), Some(symbol)) => match unit_of(symbol) {
                    Some(unit) => return Ok((declared, Some(unit))),
                    None => {
                        let found =
                            say!("reading-table-ends-in-no-unit-known-for", column = clip(cell));
                        let fits =
                            say!("reading-table-would-fit", column = column.name, unit = example);
                        return Err(self.at((header, index), found, fits));
                    }
                },
                (HeaderUnit::Of(..) | HeaderUnit::None, _) => {}
            }
        }
        let found = if cell.is_empty() {
            say!("reading-table-column-has-no-name").to_owned()
        } else {
            say!("reading-table-column-not-known-here", column = clip(cell))
        };
        Err(self.at((header, index), found, header_wanted(self.declared)))
    }

    fn check_width(
        &self,
        header: &csv::StringRecord,
        record: &csv::StringRecord,
    ) -> Result<(), TextError> {
        if record.len() == header.len() {
            return Ok(());
        }
        let found =
            say!("reading-table-cells-under-columns", cells = record.len(), columns = header.len());
        let fits = if self.delimiter == b',' && record.len() > header.len() {
            say!("reading-table-one-cell-column-wanted-decimal-comma")
        } else {
            say!("reading-table-one-cell-column-wanted")
        };
        Err(self.at((record, header.len().min(record.len() - 1)), found, fits.to_owned()))
    }

    /// An error at a cell.
    fn at(
        &self,
        (record, cell): (&csv::StringRecord, usize),
        found: impl Into<String>,
        fits: impl Into<String>,
    ) -> TextError {
        let line = record.position().map(|position| position.line() as usize);
        let column = line.map(|line| self.column_of(line, cell));
        TextError { line, column, found: found.into(), fits: fits.into() }
    }

    /// Column in characters at which a cell of a one-line record starts.
    fn column_of(&self, line: usize, cell: usize) -> usize {
        let text = self.text.lines().nth(line - 1).unwrap_or_default();
        let (mut quoted, mut cells) = (false, 0);
        for (index, c) in text.chars().enumerate() {
            if cells == cell && !c.is_whitespace() {
                return index + 1;
            }
            match c {
                '"' => quoted = !quoted,
                c if c == char::from(self.delimiter) && !quoted => cells += 1,
                _ => {}
            }
        }
        1
    }
}

impl Row<'_> {
    /// The line that it stands on, from 1.
    pub(super) fn line(&self) -> usize {
        self.record.position().map_or(0, |position| position.line() as usize)
    }

    /// A cell's text; empty where an optional column is not there.
    pub(super) fn text(&self, name: &str) -> &str {
        self.table
            .column(name)
            .and_then(|heading| self.record.get(heading.index))
            .unwrap_or_default()
    }

    /// The unit in a column's name.
    pub(super) fn header_unit(&self, name: &str) -> Option<&'static Unit> {
        self.table.column(name).and_then(|heading| heading.unit)
    }

    /// A quantity with its unit in the header or in the cell.
    pub(super) fn quantity<Q: Quantity>(&self, name: &str) -> Result<Q, TextError> {
        let unit = self.header_unit(name);
        let text = self.text(name);
        let read = match unit {
            Some(unit) => parse_in::<Q>(text, unit),
            None => parse::<Q>(text),
        };
        read.map_err(|UnitError { found, fits }| self.misfit(name, found, fits))
    }

    /// An error at a cell of this row.
    pub(super) fn misfit(
        &self,
        name: &str,
        found: impl Into<String>,
        fits: impl Into<String>,
    ) -> TextError {
        let cell = self.table.column(name).map_or(0, |heading| heading.index);
        self.table.at((self.record, cell), found, fits)
    }
}

fn is_content(line: &str) -> bool {
    !line.trim().is_empty() && !line.starts_with('#')
}

fn delimiter_of(header: &str) -> u8 {
    if header.contains(';') {
        b';'
    } else if header.contains('\t') && !header.contains(',') {
        b'\t'
    } else {
        b','
    }
}

fn spelled(column: &Column) -> String {
    match column.unit {
        HeaderUnit::None => format!("`{}`", column.name),
        HeaderUnit::Of(_, example) => {
            say!("reading-table-column-with-unit", column = column.name, unit = example)
        }
    }
}

fn header_wanted(declared: &[Column]) -> String {
    let named = |need: Need| {
        let columns = declared.iter().filter(move |column| column.need == need);
        columns.map(spelled).collect::<Vec<_>>().join(", ")
    };
    let optional = named(Need::Optional);
    let required = named(Need::Required);
    match (required.is_empty(), optional.is_empty()) {
        (_, true) => say!("reading-table-columns", required),
        (true, false) => say!("reading-table-there-may-be", optional),
        (false, false) => say!("reading-table-columns-there-may-be", required, optional),
    }
}

fn csv_error(error: &csv::Error) -> TextError {
    let line = error.position().map(|position| position.line() as usize);
    TextError {
        line,
        column: None,
        found: say!("reading-table-this-not-table-text").to_owned(),
        fits: say!("reading-table-csv-text-in-utf-8-wanted").to_owned(),
    }
}
