//! Files out of a PDF.

use std::sync::Arc;

use hayro_syntax::Pdf;
use hayro_syntax::object::dict::keys;
use hayro_syntax::object::{Dict, Object, Stream, String as PdfString};

/// Why a file can't be taken out of a PDF.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum AttachmentError {
    /// The bytes are no PDF.
    #[error("this PDF can't be read")]
    NotRead,
    /// It holds no such file.
    #[error("no file `{0}` is attached to this PDF")]
    None(String),
}

/// The content of a file that is attached to a PDF under a name.
///
/// # Errors
/// [`AttachmentError`]
pub fn attachment(pdf: &[u8], name: &str) -> Result<Vec<u8>, AttachmentError> {
    let pdf = Pdf::new(Arc::new(pdf.to_vec())).map_err(|_| AttachmentError::NotRead)?;
    let named = |dict: &Dict<'_>| {
        let is = |key: &[u8]| {
            dict.get::<PdfString<'_>>(key).is_some_and(|text| text.as_bytes() == name.as_bytes())
        };
        is(keys::F) || is(keys::UF)
    };
    for object in pdf.objects() {
        let Object::Dict(dict) = object else { continue };
        let Some(files) = dict.get::<Dict<'_>>(keys::EF) else { continue };
        if !named(&dict) {
            continue;
        }
        let stream = files.get::<Stream<'_>>(keys::F).or_else(|| files.get(keys::UF));
        let content = stream.and_then(|stream| stream.decoded().ok().map(|data| data.into_owned()));
        return content.ok_or(AttachmentError::NotRead);
    }
    Err(AttachmentError::None(name.to_owned()))
}
