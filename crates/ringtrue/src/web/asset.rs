//! Files that ship inside the program: styles, scripts, type.

use axum::extract::Path;
use axum::http::HeaderMap;
use axum::http::StatusCode;
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE, ETAG, IF_NONE_MATCH};
use axum::response::{IntoResponse, Response};
use include_dir::{Dir, include_dir};
use ringtrue_report::{Face, TYPE_LICENCE, type_face};

use super::trouble::Trouble;

static ASSETS: Dir<'static> = include_dir!("$CARGO_MANIFEST_DIR/assets");
/// The folder of the files that are sent; language files and sources are not.
const SENT: &str = "web";

fn content(name: &str) -> Option<&'static [u8]> {
    match name {
        "ringtrue-sans-regular.ttf" => Some(type_face(Face::Regular)),
        "ringtrue-sans-bold.ttf" => Some(type_face(Face::Bold)),
        "ringtrue-sans-licence.txt" => Some(TYPE_LICENCE.as_bytes()),
        name => ASSETS.get_file(format!("{SENT}/{name}")).map(|file| file.contents()),
    }
}

fn media_type(name: &str) -> &'static str {
    match name.rsplit('.').next() {
        Some("css") => "text/css; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("svg") => "image/svg+xml",
        Some("ttf") => "font/ttf",
        Some("webmanifest") => "application/manifest+json",
        Some("txt") => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

/// Sends one of them. The name is looked up in a list; it is no path.
pub(crate) async fn send(
    Path(name): Path<String>,
    headers: HeaderMap,
) -> Result<Response, Trouble> {
    let content = content(&name).ok_or_else(Trouble::not_found)?;
    let tag = format!("\"{}\"", &blake3::hash(content).to_hex()[..16]);
    let cached = [(ETAG, tag.clone()), (CACHE_CONTROL, "no-cache".to_owned())];
    if headers.get(IF_NONE_MATCH).is_some_and(|known| known.as_bytes() == tag.as_bytes()) {
        return Ok((StatusCode::NOT_MODIFIED, cached).into_response());
    }
    Ok((cached, [(CONTENT_TYPE, media_type(&name))], content).into_response())
}
