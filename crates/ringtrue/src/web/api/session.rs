//! Signing in by a program or a page's script.

use std::net::SocketAddr;

use axum::Json;
use axum::extract::{ConnectInfo, State};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Response};
use serde::{Deserialize, Serialize};
use zeroize::Zeroizing;

use super::body::Body;
use crate::web::Shared;
use crate::web::cookie::{self, Kept};
use crate::web::enter::{self, Tried};
use crate::web::session::{Found, Touch};
use crate::web::trouble::Trouble;

/// Somebody who signs in.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct SignIn {
    name: String,
    passphrase: Zeroizing<String>,
    #[serde(default)]
    device: String,
}

/// Somebody who is back.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Unlock {
    passphrase: Zeroizing<String>,
}

/// Who is signed in, and what writes have to carry.
#[derive(Serialize)]
struct SignedIn {
    name: String,
    role: &'static str,
    csrf_token: String,
    locks_after_seconds: u64,
}

pub(crate) async fn begin(
    State(shared): State<Shared>,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    Body { value, .. }: Body<SignIn>,
) -> Result<Response, Trouble> {
    let peer = peer.ip().to_string();
    let tried = Tried { name: value.name.trim(), passphrase: &value.passphrase, whence: &peer };
    let unlocked = enter::unlock(&shared, tried).await?;
    let token = shared.sessions.begin(unlocked, &value.device)?;
    let mut response = signed_in(&shared, &token)?;
    let wire = shared.wire;
    let cookie = (wire.session_cookie(), token.as_str());
    cookie::set(response.headers_mut(), cookie, Kept::Secret, wire);
    Ok(response)
}

pub(crate) async fn unlock(
    State(shared): State<Shared>,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    headers: HeaderMap,
    Body { value, .. }: Body<Unlock>,
) -> Result<Response, Trouble> {
    let token = cookie::read(&headers, shared.wire.session_cookie()).unwrap_or_default();
    enter::unlock_again(&shared, token, (&value.passphrase, peer.ip())).await?;
    signed_in(&shared, token)
}

fn signed_in(shared: &Shared, token: &str) -> Result<Response, Trouble> {
    let Found::Open(visitor) = shared.sessions.find(token, Touch::Hand) else {
        return Err(Trouble::fault());
    };
    let body = SignedIn {
        name: visitor.name,
        role: visitor.role.name(),
        csrf_token: visitor.csrf,
        locks_after_seconds: shared.sessions.idle_seconds(),
    };
    Ok((StatusCode::OK, Json(body)).into_response())
}
