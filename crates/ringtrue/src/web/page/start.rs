//! A new job from a joint file and the files that it names.

use std::collections::BTreeMap;

use askama::Template;
use axum::extract::State;
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Response};
use ringtrue_job::digest::Digest;

use super::Shown;
use super::frame::Frame;
use crate::web::Shared;
use crate::web::fields::{Fields, Form, Upload};
use crate::web::session::Visitor;
use crate::web::start::{self, Sent};
use crate::web::trouble::Trouble;
use crate::web::words::english;

#[derive(Template)]
#[template(path = "start.html")]
struct Start {
    frame: Frame,
    wrong: Option<Trouble>,
    key: String,
}

pub(crate) async fn page(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
) -> Response {
    let frame = Frame::of(&shared, Some(&visitor), &headers).at("/jobs/new");
    Shown(Start { frame, wrong: None, key: super::form_key() }).into_response()
}

pub(crate) async fn post(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    Form(fields): Form,
) -> Result<Response, Trouble> {
    match start::from_form(&shared, &visitor, &fields, sent(&fields)).await {
        Ok(there) => Ok(there),
        Err(wrong) => {
            let frame = Frame::of(&shared, Some(&visitor), &headers).at("/jobs/new");
            let status = wrong.status;
            let page = Start { frame, wrong: Some(wrong), key: super::form_key() };
            Ok((status, Shown(page)).into_response())
        }
    }
}

fn sent(fields: &Fields) -> Result<(Sent, Digest), Trouble> {
    let t = english();
    let joint = fields
        .file("joint")
        .ok_or_else(|| Trouble::input(t.say("start-no-joint"), t.say("start-no-joint-next")))?;
    let mut files = BTreeMap::new();
    let mut bytes = Vec::new();
    for file in fields.files("files") {
        files.insert(file.name.clone(), text(file)?);
        bytes.extend_from_slice(&file.content);
    }
    let procedure = fields.file("procedure").map(text).transpose()?;
    bytes.extend_from_slice(&joint.content);
    bytes.extend_from_slice(procedure.as_deref().unwrap_or_default().as_bytes());
    Ok((Sent { joint: text(joint)?, files, procedure }, Digest::of(&bytes)))
}

/// The text of an uploaded definition.
pub(crate) fn text(file: &Upload) -> Result<String, Trouble> {
    String::from_utf8(file.content.to_vec()).map_err(|_| {
        let t = english();
        let what = t.with("trouble-no-text", &[("file", file.name.as_str())]);
        Trouble::input(what, t.say("trouble-no-text-next"))
    })
}
