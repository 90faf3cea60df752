//! A request's body, whole, and no larger and no slower than its route allows.

use std::time::Duration;

use axum::body::{Body, BodyDataStream, Bytes};
use axum::extract::{FromRequest, Request};
use axum::http::header::{CONTENT_LENGTH, EXPECT};
use axum::http::{HeaderMap, StatusCode};
use futures_util::StreamExt;

use super::trouble::Trouble;
use ringtrue_words::words;

/// Longest form of somebody who is not signed in.
pub(super) const SMALL: usize = 16 << 10;
/// Largest form without files.
pub(super) const FORM: usize = 256 << 10;
/// Largest upload: a few photos of a tablet, or a definition with all that it names.
pub(super) const UPLOAD: usize = 24 << 20;

/// Time that any body has.
const ANY: Duration = Duration::from_secs(15);
/// Most bytes that are taken of what is refused.
const DISCARDED: usize = 64 << 20;
/// Bytes a second of the slowest wireless that is waited for beyond that (common practice, no
/// source).
const SLOWEST: u64 = 64 << 10;

/// The same request with its whole body, no larger than that.
pub(super) async fn whole(request: Request, largest: usize) -> Result<Request, Trouble> {
    let (parts, body) = request.into_parts();
    let stated = parts.headers.get(CONTENT_LENGTH);
    let stated = stated.and_then(|length| length.to_str().ok()?.parse::<u64>().ok());
    let most = largest as u64;
    let time = ANY + Duration::from_secs(stated.unwrap_or(most).min(most) / SLOWEST);
    let mut pieces = body.into_data_stream();
    let read = if stated.is_some_and(|length| length > most) {
        Err(too_large())
    } else {
        let read = tokio::time::timeout(time, joined(&mut pieces, largest)).await;
        read.unwrap_or_else(|_| Err(too_slow()))
    };
    match read {
        Ok(bytes) => Ok(Request::from_parts(parts, Body::from(bytes))),
        Err(trouble) => {
            if trouble.status == StatusCode::PAYLOAD_TOO_LARGE {
                discard(&parts.headers, pieces);
            }
            Err(trouble)
        }
    }
}

async fn joined(pieces: &mut BodyDataStream, largest: usize) -> Result<Vec<u8>, Trouble> {
    let mut bytes = Vec::new();
    while let Some(piece) = pieces.next().await {
        let piece = piece.map_err(|error| Trouble::request(error.to_string()))?;
        if bytes.len() + piece.len() > largest {
            return Err(too_large());
        }
        bytes.extend_from_slice(&piece);
    }
    Ok(bytes)
}

/// Takes what is still sent and drops it, for a short while. A line that is closed while a browser
/// still sends looks broken to it: it would never read the answer, which is on its way meanwhile.
pub(super) fn discard(headers: &HeaderMap, mut rest: BodyDataStream) {
    if headers.contains_key(EXPECT) {
        // Whoever asks first has not sent anything.
        return;
    }
    tokio::spawn(async move {
        let mut left = DISCARDED;
        let all = async {
            while let Some(Ok(piece)) = rest.next().await {
                left = left.saturating_sub(piece.len());
                if left == 0 {
                    break;
                }
            }
        };
        // Late or not: the answer is given.
        let _ = tokio::time::timeout(ANY, all).await;
    });
}

/// The bytes of a request's body, which is whole by now.
pub(super) async fn read(request: Request) -> Result<Bytes, Trouble> {
    Bytes::from_request(request, &()).await.map_err(|error| Trouble::request(error.body_text()))
}

pub(super) fn too_large() -> Trouble {
    let t = words();
    let said = (StatusCode::PAYLOAD_TOO_LARGE, "too-large");
    Trouble::new(said, t.say("trouble-too-large"), t.say("trouble-too-large-next"))
}

fn too_slow() -> Trouble {
    let t = words();
    let said = (StatusCode::REQUEST_TIMEOUT, "too-slow");
    Trouble::new(said, t.say("trouble-too-slow"), t.say("trouble-too-slow-next"))
}
