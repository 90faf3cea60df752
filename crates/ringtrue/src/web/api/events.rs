//! `/api/jobs/{id}/events`: what a person does on a job.

use axum::extract::{Path, State};
use axum::http::header::CONTENT_TYPE;
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Response};
use ringtrue_store::LONGEST_KEY;

use super::body::Body;
use crate::web::Shared;
use crate::web::act::{self, Act};
use crate::web::deed::Sent;
use crate::web::session::Visitor;
use crate::web::trouble::Trouble;
use ringtrue_words::words;

pub(crate) async fn post(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    (Path(job), Body { value, hash }): (Path<String>, Body<Sent>),
) -> Result<Response, Trouble> {
    let Sent { expected, by, deed } = value;
    let by = match by {
        Some(another) => Some(another.unlock(&shared, &visitor).await?),
        None => None,
    };
    let once = key(&headers)?.map(|key| (key, hash));
    let done = Act { job, expected: Some(expected), once, by, deed };
    let answer = act::act(&shared, &visitor, done).await?;
    Ok((StatusCode::CREATED, [(CONTENT_TYPE, "application/json")], answer).into_response())
}

/// The key by which a repeat is known.
pub(crate) fn key(headers: &HeaderMap) -> Result<Option<String>, Trouble> {
    let Some(key) = headers.get("idempotency-key") else { return Ok(None) };
    let key = key.to_str().ok().map(str::trim).unwrap_or_default();
    if key.is_empty() || key.len() > LONGEST_KEY {
        return Err(Trouble::request(words().say("trouble-key")));
    }
    Ok(Some(key.to_owned()))
}
