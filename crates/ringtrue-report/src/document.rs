//! A report as data: what is said, in which order, with which drawings. It knows no page size in
//! mm, no type library and no file.

use jiff::Timestamp;
use ringtrue_metrology::conformity::Verdict;
use serde::Serialize;

use crate::figure::Drawing;

/// A whole report.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Document {
    /// Name of the report, for the reader's window and its list of files.
    pub title: String,
    /// Who stands behind it: the shop, where the joint names one.
    pub author: Option<String>,
    /// When it was made.
    pub made: Timestamp,
    /// The program that made it.
    pub program: String,
    /// The paper it is laid out for.
    pub paper: Paper,
    /// Page 1: verdicts.
    pub cover: Cover,
    /// Evidence.
    pub sections: Vec<Section>,
    /// Stands on each page: what this report is, or is not.
    pub notice: String,
    /// Files that are attached to the PDF.
    pub attached: Vec<Attached>,
    /// Photos that stand on its pages, by the names that its blocks give them.
    #[serde(skip)]
    pub photos: Vec<PagePhoto>,
}

/// A photo on the pages.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PagePhoto {
    /// Its name within the document.
    pub name: String,
    /// JPEG.
    pub content: Vec<u8>,
}

/// A file that is attached to the PDF.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Attached {
    /// Its name.
    pub name: String,
    /// Its type.
    pub media_type: String,
    /// What it is, for the reader's list of files.
    pub description: String,
    /// Its content; it does not pass through the template.
    #[serde(skip)]
    pub content: Vec<u8>,
}

/// Paper that a report is printed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Paper {
    /// ISO 216 A4, 210 mm by 297 mm.
    A4,
    /// 8.5 in by 11 in.
    UsLetter,
}

/// The first page.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Cover {
    /// What kind of report this is.
    pub kind: String,
    /// Name of the joint.
    pub name: String,
    /// Shop, machine, day: each a word and what it is.
    pub facts: Vec<(String, String)>,
    /// The worse of all verdicts.
    pub verdict: Verdict,
    /// The same as a sentence.
    pub sentence: String,
    /// Why, in one or two sentences.
    pub because: String,
    /// Pictures at the head: each half from above.
    pub pictures: Vec<Drawing>,
    /// Both halves in section, beside what to do.
    pub joint: Option<Drawing>,
    /// One line a question and half.
    pub lines: Vec<VerdictLine>,
    /// What to do, the first thing first.
    pub to_do: Vec<String>,
    /// Stands before the first thing to do.
    pub caution: Option<String>,
}

/// A verdict with what it rests on.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct VerdictLine {
    /// The verdict.
    pub verdict: Verdict,
    /// The question: `Half a, height round the ring`.
    pub question: String,
    /// The verdict as a sentence.
    pub sentence: String,
    /// The value with its uncertainty.
    pub value: String,
    /// The limit, or why there is none.
    pub limit: String,
    /// Value and limit on a scale.
    pub scale: Option<Drawing>,
}

/// One chapter of the evidence.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Section {
    /// Its heading.
    pub title: String,
    /// Does it start on a page of its own, or follow the one before?
    pub start: Start,
    /// What it says.
    pub blocks: Vec<Block>,
}

/// Where a section starts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Start {
    /// On a page of its own.
    NewPage,
    /// Below the one before it.
    Below,
}

/// A piece of a section.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "kind", content = "of", rename_all = "kebab-case")]
pub enum Block {
    /// A verdict in a line of its own.
    Verdict(VerdictLine),
    /// A heading below the section's.
    Heading(String),
    /// A paragraph.
    Text(String),
    /// A paragraph of small print.
    Small(String),
    /// A list, one entry a line.
    List(Vec<String>),
    /// A caution, before the step that it belongs to.
    Caution(String),
    /// Drawings side by side in columns; each column from top to bottom.
    Drawings(Vec<Vec<Drawing>>),
    /// Tables side by side.
    Tables(Vec<Table>),
    /// A drawing, and a table on its right.
    Beside(Box<(Drawing, Table)>),
    /// Small print in two columns, one paragraph each.
    Columns(Vec<String>),
    /// Steps of a job, each with what was recorded at it.
    Steps(Vec<StepRecord>),
    /// Photos with what they show, two in a row.
    Photos(Vec<PhotoPrint>),
}

/// A step of a job with what was recorded at it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StepRecord {
    /// Its title.
    pub title: String,
    /// Which half, where it is done on each; else empty.
    pub whose: String,
    /// How far it is, in words: `done`, `OVERRIDDEN`, `not done`.
    pub standing: String,
    /// The same, for how it stands out.
    pub stands: Stands,
    /// Which cautions stood before it, in short.
    pub cautions: Vec<String>,
    /// What happened, in order.
    pub entries: Vec<StepEntry>,
}

/// How far a step is, and how that stands out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stands {
    /// Done.
    Done,
    /// Done over a verdict against it.
    Overridden,
    /// Not done.
    Open,
}

/// One event at a step.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StepEntry {
    /// The event's number.
    pub event: u64,
    /// What was recorded or said, a paragraph each.
    pub says: Vec<String>,
    /// Who, and when.
    pub who: String,
    /// What kind of entry it is.
    pub mark: EntryMark,
}

/// What kind of entry it is, and how it stands out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(tag = "kind", content = "of", rename_all = "kebab-case")]
pub enum EntryMark {
    /// Evidence that counts.
    Evidence,
    /// What no longer counts; the correction's number.
    Corrected(u64),
    /// A correction of an earlier event.
    Correction,
    /// A verdict.
    Verdict(Verdict),
    /// A decision over a verdict.
    Override,
    /// A signature.
    Signature,
}

/// A photo as it stands on a page.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PhotoPrint {
    /// Its name within the document.
    pub name: String,
    /// What it shows, for a reader who does not see it.
    pub alt: String,
    /// What stands below it, a line each.
    pub caption: Vec<String>,
    /// Width on the page, mm.
    pub width_mm: f64,
}

/// A table.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Table {
    /// What a column is, with its unit and the way it is set.
    pub columns: Vec<Column>,
    /// Its rows, each with a cell a column.
    pub rows: Vec<Vec<Cell>>,
    /// How close its rows stand.
    pub rows_stand: Rows,
}

/// How close the rows of a table stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Rows {
    /// To be read at the bench.
    Open,
    /// Many rows on one page, to be looked up.
    Close,
}

/// A column of a table.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Column {
    /// Its heading.
    pub head: String,
    /// How its cells are set.
    pub set: Set,
}

/// How a column is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Set {
    /// Words of one or two lines, as wide as they are.
    Words,
    /// Longer words, sharing what width is left.
    Prose,
    /// Numbers, on the right.
    Numbers,
}

/// A cell of a table.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(tag = "kind", content = "of", rename_all = "kebab-case")]
pub enum Cell {
    /// Words or a number.
    Text(String),
    /// A verdict: its mark and its words.
    Verdict(Verdict),
}

impl Cell {
    /// A cell of words.
    pub(crate) fn text(text: impl Into<String>) -> Self {
        Self::Text(text.into())
    }
}

impl Table {
    /// A table with these columns.
    pub(crate) fn new<const N: usize>(columns: [(&str, Set); N]) -> Self {
        let columns =
            columns.into_iter().map(|(head, set)| Column { head: head.to_owned(), set }).collect();
        Self { columns, rows: Vec::new(), rows_stand: Rows::Open }
    }

    /// The table with its rows close together.
    pub(crate) fn close(self) -> Self {
        Self { rows_stand: Rows::Close, ..self }
    }

    /// Adds a row.
    pub(crate) fn row<const N: usize>(&mut self, cells: [Cell; N]) {
        debug_assert_eq!(N, self.columns.len(), "a cell a column");
        self.rows.push(cells.into());
    }

    /// The table as one, or as two halves side by side where it is long and narrow.
    pub(crate) fn beside(self) -> Block {
        const LONG: usize = 14;
        if self.rows.len() <= LONG {
            return Block::Tables(vec![self]);
        }
        let half = self.rows.len().div_ceil(2);
        let (first, second) = self.rows.split_at(half);
        let part = |rows: &[Vec<Cell>]| Self {
            columns: self.columns.clone(),
            rows: rows.to_vec(),
            rows_stand: self.rows_stand,
        };
        Block::Tables(vec![part(first), part(second)])
    }
}

/// Sentences one after another.
pub(crate) fn paragraph(sentences: impl IntoIterator<Item = String>) -> String {
    sentences.into_iter().collect::<Vec<_>>().join(" ")
}

/// All drawings of a report, in the order of their appearance; each name occurs once.
#[must_use]
pub fn drawings(document: &Document) -> Vec<Drawing> {
    let mut all: Vec<Drawing> = document.cover.pictures.clone();
    all.extend(document.cover.joint.clone());
    all.extend(document.cover.lines.iter().filter_map(|line| line.scale.clone()));
    for block in document.sections.iter().flat_map(|section| &section.blocks) {
        match block {
            Block::Drawings(columns) => all.extend(columns.iter().flatten().cloned()),
            Block::Verdict(line) => all.extend(line.scale.clone()),
            Block::Beside(both) => all.push(both.0.clone()),
            Block::Heading(_)
            | Block::Text(_)
            | Block::Small(_)
            | Block::List(_)
            | Block::Caution(_)
            | Block::Tables(_)
            | Block::Columns(_)
            | Block::Steps(_)
            | Block::Photos(_) => {}
        }
    }
    let mut seen = std::collections::BTreeSet::new();
    all.retain(|drawing| seen.insert(drawing.name.clone()));
    all
}
