//! The document as PDF. The only place that names the typesetting library.
//!
//! The template is part of the program; the document reaches it as data, never as markup, so that
//! a name with `#` or `$` in it stays a name. Nothing but template, data and the shipped type can
//! be read from inside.

mod attached;
mod whole;
mod world;

pub use attached::{AttachmentError, attachment};
pub use whole::{FileChanged, file_is_whole};

use ringtrue_metrology::conformity::Verdict;
use ringtrue_words::{say, words};
use serde_json::{Value, json};
use typst::diag::{SourceDiagnostic, Warned};
use typst::foundations::{Datetime, Smart};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards, Timestamp};

use crate::document::Document;
use crate::figure::mark;
use world::World;

/// The faces of the shipped type.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Face {
    /// Words.
    Regular,
    /// The number that counts.
    Bold,
}

/// The shipped type as a TrueType file; its licence is [`TYPE_LICENCE`].
#[must_use]
pub fn type_face(face: Face) -> &'static [u8] {
    match face {
        Face::Regular => world::REGULAR,
        Face::Bold => world::BOLD,
    }
}

/// The licence of the shipped type, which goes with it.
pub const TYPE_LICENCE: &str = include_str!("../../assets/OFL.txt");

/// Why there is no PDF.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ReportError {
    /// The shipped type can't be read.
    #[error("{}", say!("report-type-not-read"))]
    Type,
    /// The document can't be set; a fault of the program, not of its user.
    #[error("{}", say!("report-not-set", why = .0))]
    Setting(String),
}

/// Sets a document as a PDF: tagged, PDF/A-2a and PDF/UA-1, with its type embedded.
///
/// The same document gives the same bytes.
///
/// # Errors
/// [`ReportError`], none of which a document made by [`crate::document`] should meet.
pub fn pdf(document: &Document) -> Result<Vec<u8>, ReportError> {
    let pages = pages(document)?;
    let pdf = typst_pdf::pdf(&pages, &options(document)?).map_err(|errors| failure(&errors));
    // The library keeps what it laid out for the next time; a long-lived server must not grow.
    comemo::evict(0);
    if document.attached.is_empty() { pdf } else { whole::marked(pdf?) }
}

fn pages(document: &Document) -> Result<PagedDocument, ReportError> {
    let fonts = world::fonts()?;
    let mut data =
        serde_json::to_value(document).map_err(|e| ReportError::Setting(e.to_string()))?;
    if say!("decimal-sign") != "." {
        localized(&mut data);
    }
    legible(&mut data, &|letter| world::has(fonts, letter));
    let all = [Verdict::Conforms, Verdict::NotProven, Verdict::DoesNotConform];
    let marks: serde_json::Map<String, Value> =
        all.iter().map(|verdict| (key(*verdict), json!(mark::drawing(*verdict)))).collect();
    let mut verdicts: Value = all.iter().map(|verdict| (key(*verdict), verdict.words())).collect();
    let mut said = template_words();
    for words in [&mut verdicts, &mut said] {
        legible(words, &|letter| world::has(fonts, letter));
    }
    let data = json!({
        "document": data,
        "marks": marks,
        "verdicts": verdicts,
        "words": said,
        "language": language(),
    });
    let files = (document.attached.as_slice(), document.photos.as_slice());
    let world = World::new(fonts, data.to_string().into_bytes(), files)?;
    let Warned { output, warnings: _ } = typst::compile::<PagedDocument>(&world);
    output.map_err(|errors| failure(&errors))
}

/// What the template says of its own; names in braces stand for what it knows only while it sets.
fn template_words() -> Value {
    json!({
        "page": say!("report-page", page = "{page}", pages = "{pages}"),
        "caution": say!("report-caution"),
        "corrected": say!("report-corrected", event = "{event}"),
        "correction": say!("report-correction"),
        "overridden": say!("report-overridden"),
        "cautions": say!("report-cautions", cautions = "{cautions}"),
        "to-do": say!("report-what-to-do"),
        "nothing-to-do": say!("report-nothing-to-do"),
    })
}

/// The language without its region, as the typesetting library takes it: two or three letters.
fn language() -> &'static str {
    let language = words().language().split('-').next();
    language.filter(|letters| matches!(letters.len(), 2..=3)).unwrap_or("en")
}

fn key(verdict: Verdict) -> String {
    json!(verdict).as_str().unwrap_or_default().to_owned()
}

fn failure(errors: &[SourceDiagnostic]) -> ReportError {
    let told: Vec<String> = errors.iter().map(|error| error.message.to_string()).collect();
    ReportError::Setting(told.join("; "))
}

fn options(document: &Document) -> Result<PdfOptions, ReportError> {
    // Only the third part allows any file to be attached.
    let archive = match document.attached.as_slice() {
        [] => PdfStandard::A_2a,
        [..] => PdfStandard::A_3a,
    };
    let standards = PdfStandards::new(&[archive, PdfStandard::Ua_1])
        .map_err(|error| ReportError::Setting(error.message().to_string()))?;
    let made = document.made.to_zoned_datetime(jiff::tz::TimeZone::UTC);
    let part = |value: i8| u8::try_from(value).unwrap_or(0);
    let timestamp = Datetime::from_ymd_hms(
        i32::from(made.year()),
        part(made.month()),
        part(made.day()),
        part(made.hour()),
        part(made.minute()),
        part(made.second()),
    );
    Ok(PdfOptions {
        // Title, author and moment tell one report from another.
        ident: Smart::Custom(format!("{} {}", document.title, document.made)),
        creator: Smart::Custom(Some(document.program.clone())),
        timestamp: timestamp.map(Timestamp::new_utc),
        standards,
        ..PdfOptions::default()
    })
}

/// Longest run of letters without a space that is kept whole: a line of the narrowest column.
const LONGEST_WORD: usize = 22;

/// Numbers as the language writes them, in sentences, values and drawings. Names stay.
fn localized(value: &mut Value) {
    match value {
        Value::String(text) => *text = words().prose(&*text),
        Value::Array(items) => items.iter_mut().for_each(localized),
        Value::Object(fields) => {
            for (key, field) in fields {
                match (&mut *field, key.as_str()) {
                    (_, "name" | "attached" | "made" | "program") => {}
                    (Value::String(svg), "svg") => *svg = words().drawing(&*svg),
                    _ => localized(field),
                }
            }
        }
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

/// Puts the number of a letter in the place of one that the shipped type does not hold, so that
/// nothing is lost and no empty box is printed; lets very long words break.
fn legible(value: &mut Value, has: &impl Fn(char) -> bool) {
    match value {
        Value::String(text) => *text = breakable(&spelled(text, has)),
        Value::Array(items) => items.iter_mut().for_each(|item| legible(item, has)),
        Value::Object(fields) => {
            for (key, field) in fields {
                // A drawing's text is markup already and sets its own lines.
                if let (Value::String(svg), "svg") = (&mut *field, key.as_str()) {
                    *svg = spelled(svg, has);
                } else {
                    legible(field, has);
                }
            }
        }
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

fn spelled(text: &str, has: &impl Fn(char) -> bool) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '\n' | '\r' | '\t' => out.push(' '),
            letter if letter.is_control() => {}
            letter if has(letter) => out.push(letter),
            letter => out.push_str(&format!("[U+{:04X}]", u32::from(letter))),
        }
    }
    out
}

fn breakable(text: &str) -> String {
    const ZERO_WIDTH_SPACE: char = '\u{200b}';
    let mut out = String::with_capacity(text.len());
    let mut run = 0;
    for letter in text.chars() {
        run = if letter.is_whitespace() { 0 } else { run + 1 };
        if run > LONGEST_WORD {
            out.push(ZERO_WIDTH_SPACE);
            run = 1;
        }
        out.push(letter);
    }
    out
}

#[cfg(test)]
mod tests;
