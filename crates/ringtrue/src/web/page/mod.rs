//! The pages. Each module makes a template's values and nothing else.

pub(crate) mod ask_back;
pub(crate) mod assess;
pub(crate) mod build;
pub(crate) mod download;
pub(crate) mod enter;
pub(crate) mod evidence;
pub(crate) mod frame;
pub(crate) mod history;
pub(crate) mod job;
pub(crate) mod jobs;
pub(crate) mod judged;
pub(crate) mod known;
pub(crate) mod library;
pub(crate) mod people;
pub(crate) mod section;
pub(crate) mod sign;
pub(crate) mod solving;
pub(crate) mod start;
pub(crate) mod step;
pub(crate) mod step_form;
pub(crate) mod trial;

use askama::Template;
use axum::http::StatusCode;
use axum::response::{Html, IntoResponse, Response};

use super::trouble::Trouble;
use frame::Frame;

/// A template as a response.
pub(crate) struct Shown<T>(pub(crate) T);

impl<T: Template> IntoResponse for Shown<T> {
    fn into_response(self) -> Response {
        match self.0.render() {
            Ok(text) => Html(text).into_response(),
            Err(_) => Trouble::fault().into_response(),
        }
    }
}

/// What went wrong, as a page.
#[derive(Template)]
#[template(path = "trouble.html")]
struct TroublePage<'t> {
    frame: &'t Frame,
    trouble: &'t Trouble,
}

pub(crate) fn trouble(trouble: &Trouble, frame: &Frame) -> Response {
    let page = TroublePage { frame, trouble }.render();
    let text = page.unwrap_or_else(|_| trouble.what.clone());
    let status = if trouble.status.is_success() { StatusCode::OK } else { trouble.status };
    (status, Html(text)).into_response()
}

/// A key for a form: sent twice, it is done once.
pub(crate) fn form_key() -> String {
    crate::moment::random::<16>()
        .map(|bytes| bytes.iter().map(|byte| format!("{byte:02x}")).collect())
        .unwrap_or_default()
}
