//! A JSON body, and what is said of one that does not fit.

use axum::extract::{FromRequest, Request};
use axum::http::StatusCode;
use axum::http::header::CONTENT_TYPE;
use ringtrue_job::digest::Digest;
use serde::de::DeserializeOwned;

use crate::web::Shared;
use crate::web::body;
use crate::web::trouble::Trouble;
use ringtrue_words::words;

/// A JSON body, and the hash of what is asked: the path and the body's bytes.
pub(crate) struct Body<T> {
    pub(crate) value: T,
    pub(crate) hash: Digest,
}

impl<T: DeserializeOwned> FromRequest<Shared> for Body<T> {
    type Rejection = Trouble;

    async fn from_request(request: Request, _: &Shared) -> Result<Self, Trouble> {
        let kind = request.headers().get(CONTENT_TYPE).and_then(|kind| kind.to_str().ok());
        if !kind.is_some_and(|kind| kind.starts_with("application/json")) {
            let t = words();
            let said = (StatusCode::UNSUPPORTED_MEDIA_TYPE, "other-type");
            return Err(Trouble::new(said, t.say("trouble-no-json"), t.say("trouble-json-next")));
        }
        let path = request.uri().path().to_owned();
        let bytes = body::read(request).await?;
        let value = serde_json::from_slice(&bytes).map_err(|error| {
            let next = words().say("trouble-json-next");
            Trouble::new((StatusCode::BAD_REQUEST, "not-readable"), error.to_string(), next)
        })?;
        let hash = Digest::of(&[path.as_bytes(), &Digest::of(&bytes).0].concat());
        Ok(Self { value, hash })
    }
}
