//! A JSON body, and what is said of one that does not fit.

use axum::body::Bytes;
use axum::extract::{FromRequest, Request};
use axum::http::StatusCode;
use axum::http::header::CONTENT_TYPE;
use ringtrue_job::digest::Digest;
use serde::de::DeserializeOwned;

use crate::web::Shared;
use crate::web::fields::too_large;
use crate::web::trouble::Trouble;
use crate::web::words::english;

/// A JSON body, and the hash of its bytes.
pub(crate) struct Body<T> {
    pub(crate) value: T,
    pub(crate) hash: Digest,
}

impl<T: DeserializeOwned> FromRequest<Shared> for Body<T> {
    type Rejection = Trouble;

    async fn from_request(request: Request, shared: &Shared) -> Result<Self, Trouble> {
        let kind = request.headers().get(CONTENT_TYPE).and_then(|kind| kind.to_str().ok());
        if !kind.is_some_and(|kind| kind.starts_with("application/json")) {
            let t = english();
            let said = (StatusCode::UNSUPPORTED_MEDIA_TYPE, "other-type");
            return Err(Trouble::new(said, t.say("trouble-no-json"), t.say("trouble-json-next")));
        }
        let bytes =
            Bytes::from_request(request, shared).await.map_err(|error| match error.status() {
                StatusCode::PAYLOAD_TOO_LARGE => too_large(),
                _ => Trouble::request(error.body_text()),
            })?;
        let value = serde_json::from_slice(&bytes).map_err(|error| {
            let next = english().say("trouble-json-next");
            Trouble::new((StatusCode::BAD_REQUEST, "not-readable"), error.to_string(), next)
        })?;
        Ok(Self { value, hash: Digest::of(&bytes) })
    }
}
