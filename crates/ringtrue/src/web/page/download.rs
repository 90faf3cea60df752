//! Files of a job: its PDF, its export, its photos.

use std::sync::Arc;

use axum::extract::{Path, State};
use axum::http::header::{CACHE_CONTROL, CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::http::{HeaderMap, HeaderValue};
use axum::response::{IntoResponse, Response};
use ringtrue_job::Curves;
use ringtrue_job::digest::Digest;
use ringtrue_store::Store;
use tokio::sync::Semaphore;

use super::frame::Frame;
use crate::paper;
use crate::photo::media_type;
use crate::web::Shared;
use crate::web::compute;
use crate::web::session::Visitor;
use crate::web::trouble::Trouble;

/// Photos and pages of one report at a time: each takes its share of the memory.
static ONE_REPORT: Semaphore = Semaphore::const_new(1);

/// The job's report.
pub(crate) async fn pdf(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    Path(id): Path<String>,
) -> Result<Response, Trouble> {
    let units = Frame::of(&shared, Some(&visitor), &headers).units;
    let (stores, job) = (Arc::clone(&shared.stores), id.clone());
    let made = move |store: &mut Store, curves: &dyn Curves| {
        let kept = stores.kept_here(store, &job)?;
        Ok(paper::pdf(store, &kept, (units, curves))?.0)
    };
    let _turn = ONE_REPORT.acquire().await.map_err(|_| Trouble::fault())?;
    let bytes = compute::solved(&shared, None, made).await?;
    Ok(file(("application/pdf", &format!("{id}.pdf")), bytes))
}

/// The job with all that belongs to it, as the command line exports it.
pub(crate) async fn export(
    State(shared): State<Shared>,
    Path(id): Path<String>,
) -> Result<Response, Trouble> {
    let job = id.clone();
    let text = shared.stores.run(move |store| Ok(store.export([job.as_str()])?.text())).await?;
    Ok(file(("application/json", &format!("{id}.json")), text.into_bytes()))
}

/// A photo that the job names.
pub(crate) async fn photo(
    State(shared): State<Shared>,
    Path((id, hash)): Path<(String, String)>,
) -> Result<Response, Trouble> {
    let hash = Digest::from_hex(&hash).ok_or_else(Trouble::not_found)?;
    let kept = shared.stores.kept(&id).await?;
    let named = kept.log.iter().flat_map(|link| link.event.photos());
    let photo = named.into_iter().find(|photo| photo.content == hash);
    let name = photo.ok_or_else(Trouble::not_found)?.name.clone();
    let content = shared.stores.run(move |store| Ok(store.file(&hash)?)).await?;
    let content = content.ok_or_else(Trouble::not_found)?;
    // What a file says of itself is not believed: pictures are shown, the rest is saved.
    let kind = media_type(&content);
    let mut response = file((kind, &name), content);
    let headers = response.headers_mut();
    if kind.starts_with("image/") {
        headers.insert(CONTENT_DISPOSITION, HeaderValue::from_static("inline"));
    }
    let forever = HeaderValue::from_static("private, max-age=31536000, immutable");
    headers.insert(CACHE_CONTROL, forever);
    Ok(response)
}

/// A file to save, under a name of plain letters.
pub(crate) fn file((kind, name): (&'static str, &str), content: Vec<u8>) -> Response {
    let plain = |c: char| if c.is_ascii_alphanumeric() || "-_.".contains(c) { c } else { '_' };
    let name: String = name.chars().map(plain).collect();
    let disposition = HeaderValue::from_str(&format!("attachment; filename=\"{name}\""))
        .unwrap_or(HeaderValue::from_static("attachment"));
    let headers =
        [(CONTENT_TYPE, HeaderValue::from_static(kind)), (CONTENT_DISPOSITION, disposition)];
    (headers, content).into_response()
}
