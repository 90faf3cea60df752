//! All that the template can reach: itself, the data, the shipped type.

use std::sync::LazyLock;

use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt};

use super::ReportError;
use crate::document::{Attached, PagePhoto};

const TEMPLATE: &str = include_str!("report.typ");
pub(super) const REGULAR: &[u8] = include_bytes!("../../assets/ringtrue-sans-regular.ttf");
pub(super) const BOLD: &[u8] = include_bytes!("../../assets/ringtrue-sans-bold.ttf");

static FONTS: LazyLock<Vec<Font>> = LazyLock::new(|| {
    [REGULAR, BOLD].into_iter().filter_map(|data| Font::new(Bytes::new(data), 0)).collect()
});
static BOOK: LazyLock<LazyHash<FontBook>> =
    LazyLock::new(|| LazyHash::new(FontBook::from_fonts(FONTS.iter())));
static LIBRARY: LazyLock<LazyHash<Library>> = LazyLock::new(|| LazyHash::new(Library::default()));

/// The shipped type, regular and bold.
pub(super) fn fonts() -> Result<&'static [Font], ReportError> {
    match FONTS.len() {
        2 => Ok(&FONTS),
        _ => Err(ReportError::Type),
    }
}

/// Does every face hold this letter?
pub(super) fn has(fonts: &[Font], letter: char) -> bool {
    fonts.iter().all(|font| font.info().coverage.contains(u32::from(letter)))
}

/// One document to set.
pub(super) struct World {
    fonts: &'static [Font],
    template: Source,
    /// The data, and what is attached.
    files: Vec<(FileId, Bytes)>,
}

impl World {
    pub(super) fn new(
        fonts: &'static [Font],
        data: Vec<u8>,
        (attached, photos): (&[Attached], &[PagePhoto]),
    ) -> Result<Self, ReportError> {
        let id = |name: &str| {
            VirtualPath::new(name)
                .map(|path| RootedPath::new(VirtualRoot::Project, path).intern())
                .map_err(|error| ReportError::Setting(error.to_string()))
        };
        let mut files = vec![(id("/report.json")?, Bytes::new(data))];
        for file in attached {
            files.push((id(&format!("/{}", file.name))?, Bytes::new(file.content.clone())));
        }
        for photo in photos {
            files.push((id(&format!("/{}", photo.name))?, Bytes::new(photo.content.clone())));
        }
        let template = Source::new(id("/report.typ")?, TEMPLATE.to_owned());
        Ok(Self { fonts, template, files })
    }
}

impl typst::World for World {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &BOOK
    }

    fn main(&self) -> FileId {
        self.template.id()
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        if id == self.template.id() { Ok(self.template.clone()) } else { Err(denied(id)) }
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        let file = self.files.iter().find(|(named, _)| *named == id);
        file.map(|(_, content)| content.clone()).ok_or_else(|| denied(id))
    }

    fn font(&self, index: usize) -> Option<Font> {
        self.fonts.get(index).cloned()
    }

    /// There is no clock here.
    fn today(&self, _offset: Option<Duration>) -> Option<Datetime> {
        None
    }
}

fn denied(_: FileId) -> FileError {
    FileError::AccessDenied
}
