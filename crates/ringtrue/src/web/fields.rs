//! Fields of an address or of a posted form, files among them.

use axum::body::Bytes;
use axum::extract::multipart::{Multipart, MultipartError};
use axum::extract::{FromRequest, FromRequestParts, Request};
use axum::http::StatusCode;
use axum::http::header::CONTENT_TYPE;
use axum::http::request::Parts;
use zeroize::Zeroize;

use super::Shared;
use super::body;
use super::session::Visitor;
use super::trouble::Trouble;
use ringtrue_words::words;

/// Most fields of a form, and files among them.
const MOST_FIELDS: usize = 2000;
/// Name of the field that shows that a form came from one of our pages.
pub(crate) const CSRF: &str = "csrf";

/// Fields by name, in the order in which they came.
#[derive(Debug, Default)]
pub(crate) struct Fields {
    texts: Vec<(String, String)>,
    files: Vec<Upload>,
}

/// An uploaded file. Its name is never used as a path.
#[derive(Debug, Clone)]
pub(crate) struct Upload {
    pub(crate) field: String,
    pub(crate) name: String,
    pub(crate) content: Bytes,
}

impl Fields {
    /// Fields of an address.
    pub(crate) fn of_query(query: Option<&str>) -> Self {
        Self::of_text(query.unwrap_or_default().as_bytes())
    }

    fn of_text(text: &[u8]) -> Self {
        let texts = form_urlencoded::parse(text).into_owned().take(MOST_FIELDS).collect();
        Self { texts, files: Vec::new() }
    }

    /// The text of a field; empty where it is not there.
    pub(crate) fn text(&self, name: &str) -> &str {
        self.texts.iter().find(|(known, _)| known == name).map_or("", |(_, text)| text)
    }

    /// The texts of all fields with this name.
    pub(crate) fn all(&self, name: &str) -> Vec<&str> {
        let named = self.texts.iter().filter(|(known, _)| known == name);
        named.map(|(_, text)| text.as_str()).collect()
    }

    /// The text of a field without blanks around it, where there is any.
    pub(crate) fn some(&self, name: &str) -> Option<&str> {
        Some(self.text(name).trim()).filter(|text| !text.is_empty())
    }

    /// The same fields laid out otherwise, where a button asks for that: `lay-out` names a field
    /// and what it is to hold.
    pub(crate) fn laid_out(mut self) -> Result<Self, Self> {
        let wanted = self.some("lay-out").and_then(|wanted| wanted.split_once('='));
        let Some((name, value)) = wanted.map(|(name, value)| (name.to_owned(), value.to_owned()))
        else {
            return Err(self);
        };
        self.texts.retain(|(known, _)| *known != name && known != "lay-out");
        self.texts.push((name, value));
        Ok(self)
    }

    /// The file of a field, where one was chosen.
    pub(crate) fn file(&self, name: &str) -> Option<&Upload> {
        self.files.iter().find(|file| file.field == name && !file.content.is_empty())
    }

    /// All files of a field.
    pub(crate) fn files<'f>(&'f self, name: &'f str) -> impl Iterator<Item = &'f Upload> {
        self.files.iter().filter(move |file| file.field == name && !file.content.is_empty())
    }

    async fn of_parts(mut parts: Multipart) -> Result<Self, Trouble> {
        let mut fields = Self::default();
        while let Some(part) = parts.next_field().await.map_err(|e| unreadable(&e))? {
            let name = part.name().unwrap_or_default().to_owned();
            if fields.texts.len() + fields.files.len() >= MOST_FIELDS {
                return Err(Trouble::request(words().say("trouble-too-many-fields")));
            }
            match part.file_name().map(last_part) {
                Some(file) => {
                    let content = part.bytes().await.map_err(|e| unreadable(&e))?;
                    fields.files.push(Upload { field: name, name: file, content });
                }
                None => {
                    let text = part.text().await.map_err(|e| unreadable(&e))?;
                    fields.texts.push((name, text));
                }
            }
        }
        Ok(fields)
    }
}

impl Drop for Fields {
    fn drop(&mut self) {
        // A passphrase may be among them.
        self.texts.iter_mut().for_each(|(_, text)| text.zeroize());
    }
}

/// The last part of a name that a browser gave, as a label.
fn last_part(name: &str) -> String {
    let last = name.rsplit(['/', '\\']).next().unwrap_or_default();
    last.chars().filter(|c| !c.is_control()).take(120).collect()
}

fn unreadable(error: &MultipartError) -> Trouble {
    match error.status() {
        StatusCode::PAYLOAD_TOO_LARGE => body::too_large(),
        _ => Trouble::request(error.body_text()),
    }
}

/// Fields of the address.
pub(crate) struct Asked(pub(crate) Fields);

impl FromRequestParts<Shared> for Asked {
    type Rejection = Trouble;

    async fn from_request_parts(parts: &mut Parts, _: &Shared) -> Result<Self, Trouble> {
        Ok(Self(Fields::of_query(parts.uri.query())))
    }
}

/// Fields of a form that nobody needs to be signed in for.
pub(crate) struct OpenForm(pub(crate) Fields);

impl FromRequest<Shared> for OpenForm {
    type Rejection = Trouble;

    async fn from_request(request: Request, shared: &Shared) -> Result<Self, Trouble> {
        let kind = request.headers().get(CONTENT_TYPE).and_then(|kind| kind.to_str().ok());
        let kind = kind.unwrap_or_default().to_owned();
        if kind.starts_with("multipart/form-data") {
            let parts = Multipart::from_request(request, shared)
                .await
                .map_err(|error| Trouble::request(error.body_text()))?;
            return Fields::of_parts(parts).await.map(Self);
        }
        if !kind.starts_with("application/x-www-form-urlencoded") {
            return Err(Trouble::new(
                (StatusCode::UNSUPPORTED_MEDIA_TYPE, "other-type"),
                words().say("trouble-no-form"),
                words().say("trouble-request-next"),
            ));
        }
        Ok(Self(Fields::of_text(&body::read(request).await?)))
    }
}

/// Fields of a form from one of the pages of this session.
pub(crate) struct Form(pub(crate) Fields);

impl FromRequest<Shared> for Form {
    type Rejection = Trouble;

    async fn from_request(request: Request, shared: &Shared) -> Result<Self, Trouble> {
        let csrf = request.extensions().get::<Visitor>().map(|visitor| visitor.csrf.clone());
        let OpenForm(fields) = OpenForm::from_request(request, shared).await?;
        if csrf.is_some_and(|csrf| is_same(&csrf, fields.text(CSRF))) {
            Ok(Self(fields))
        } else {
            Err(foreign())
        }
    }
}

/// A write that did not come from one of our pages.
pub(crate) fn foreign() -> Trouble {
    let t = words();
    let said = (StatusCode::FORBIDDEN, "not-from-here");
    Trouble::new(said, t.say("trouble-foreign"), t.say("trouble-foreign-next"))
}

/// Are two tokens the same? Compared by hash: how long it takes says nothing.
pub(crate) fn is_same(one: &str, other: &str) -> bool {
    blake3::hash(one.as_bytes()) == blake3::hash(other.as_bytes())
}

impl FromRequestParts<Shared> for Visitor {
    type Rejection = Trouble;

    async fn from_request_parts(parts: &mut Parts, _: &Shared) -> Result<Self, Trouble> {
        // The guard of the route has put it there.
        parts.extensions.get::<Self>().cloned().ok_or_else(Trouble::fault)
    }
}
