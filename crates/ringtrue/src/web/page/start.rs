//! A new job from a joint file and the files that it names.

use std::collections::BTreeMap;

use askama::Template;
use axum::extract::State;
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Response};
use ringtrue_job::digest::Digest;
use ringtrue_seal::definition::Kind;
use ringtrue_store::Edition;

use super::Shown;
use super::frame::Frame;
use crate::web::Shared;
use crate::web::fields::{Fields, Form, Upload};
use crate::web::session::Visitor;
use crate::web::start::{self, Sent};
use crate::web::trouble::Trouble;
use ringtrue_words::words;

#[derive(Template)]
#[template(path = "start.html")]
struct Start {
    frame: Frame,
    wrong: Option<Trouble>,
    procedures: Procedures,
    key: String,
}

/// Procedures of the library, and which one was chosen.
pub(crate) struct Procedures {
    /// Hash and name of each.
    pub(crate) all: Vec<(String, String)>,
    chosen: String,
}

impl Procedures {
    pub(crate) fn of(editions: &[Edition], fields: &Fields) -> Self {
        let all = editions.iter().filter(|edition| edition.kind == Kind::Procedure.name());
        Self {
            all: all.map(|one| (one.document.to_string(), one.name.clone())).collect(),
            chosen: fields.text(PROCEDURE).to_owned(),
        }
    }

    /// The text of the one that was chosen; `None` for the one that ships for the load ring.
    pub(crate) fn text(fields: &Fields, editions: &[Edition]) -> Option<String> {
        let chosen = fields.some(PROCEDURE)?;
        let of_kind = |edition: &&Edition| {
            edition.kind == Kind::Procedure.name() && edition.document.to_string() == chosen
        };
        editions.iter().find(of_kind).map(|edition| edition.text.clone())
    }

    pub(crate) fn is_chosen(&self, hash: &str) -> bool {
        self.chosen == hash
    }
}

/// The field that names a procedure of the library.
const PROCEDURE: &str = "procedure-from";

pub(crate) async fn page(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
) -> Result<Response, Trouble> {
    let typed = (&Fields::default(), None);
    Ok(Shown(start_page(&shared, (&visitor, &headers), typed).await?).into_response())
}

async fn start_page(
    shared: &Shared,
    (visitor, headers): (&Visitor, &HeaderMap),
    (fields, wrong): (&Fields, Option<Trouble>),
) -> Result<Start, Trouble> {
    let editions = shared.stores.run(|store| Ok(store.library()?)).await?;
    Ok(Start {
        frame: Frame::of(shared, Some(visitor), headers).at("/jobs/new"),
        procedures: Procedures::of(&editions, fields),
        wrong,
        key: super::form_key(),
    })
}

pub(crate) async fn post(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    Form(fields): Form,
) -> Result<Response, Trouble> {
    let editions = shared.stores.run(|store| Ok(store.library()?)).await?;
    match start::from_form(&shared, &visitor, &fields, sent(&fields, &editions)).await {
        Ok(there) => Ok(there),
        Err(wrong) => {
            let status = wrong.status;
            let page = start_page(&shared, (&visitor, &headers), (&fields, Some(wrong))).await?;
            Ok((status, Shown(page)).into_response())
        }
    }
}

fn sent(fields: &Fields, editions: &[Edition]) -> Result<(Sent, Digest), Trouble> {
    let t = words();
    let joint = fields
        .file("joint")
        .ok_or_else(|| Trouble::input(t.say("start-no-joint"), t.say("start-no-joint-next")))?;
    let mut files = BTreeMap::new();
    let mut bytes = Vec::new();
    for file in fields.files("files") {
        files.insert(file.name.clone(), text(file)?);
        bytes.extend_from_slice(&file.content);
    }
    // A file that is sent goes before one of the library.
    let procedure = fields.file("procedure").map(text).transpose()?;
    let procedure = procedure.or_else(|| Procedures::text(fields, editions));
    bytes.extend_from_slice(&joint.content);
    bytes.extend_from_slice(procedure.as_deref().unwrap_or_default().as_bytes());
    Ok((Sent { joint: text(joint)?, files, procedure }, Digest::of(&bytes)))
}

/// The text of an uploaded definition.
pub(crate) fn text(file: &Upload) -> Result<String, Trouble> {
    String::from_utf8(file.content.to_vec()).map_err(|_| {
        let t = words();
        let what = t.with("trouble-no-text", &[("file", file.name.as_str())]);
        Trouble::input(what, t.say("trouble-no-text-next"))
    })
}
