//! The first person, signing in and out, unlocking, and how pages look.

use std::net::SocketAddr;

use askama::Template;
use axum::extract::{ConnectInfo, State};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Response};

use super::Shown;
use super::frame::{DEVICE, Frame, THEME, Theme, UNITS, units_named};
use crate::web::Shared;
use crate::web::cookie::{self, Kept};
use crate::web::enter::{self, Added, Tried};
use crate::web::fields::{Asked, Fields, Form, OpenForm};
use crate::web::router::see_other;
use crate::web::session::{Found, Touch};
use crate::web::trouble::Trouble;
use ringtrue_words::words;

/// The page that makes the first person.
#[derive(Template)]
#[template(path = "first.html")]
struct First {
    frame: Frame,
    wrong: Option<Trouble>,
    name: String,
}

/// The page on which somebody says who they are.
#[derive(Template)]
#[template(path = "sign-in.html")]
struct SignIn {
    frame: Frame,
    wrong: Option<Trouble>,
    name: String,
    device: String,
    next: String,
}

/// The page on which a session that was locked is opened again.
#[derive(Template)]
#[template(path = "unlock.html")]
struct Unlock {
    frame: Frame,
    wrong: Option<Trouble>,
    name: String,
    next: String,
}

pub(crate) async fn first(
    State(shared): State<Shared>,
    headers: HeaderMap,
) -> Result<Response, Trouble> {
    if shared.stores.run(|store| Ok(store.has_people()?)).await? {
        return Ok(see_other("/sign-in"));
    }
    let frame = Frame::of(&shared, None, &headers);
    Ok(Shown(First { frame, wrong: None, name: String::new() }).into_response())
}

pub(crate) async fn make_first(
    State(shared): State<Shared>,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    headers: HeaderMap,
    OpenForm(fields): OpenForm,
) -> Result<Response, Trouble> {
    let t = words();
    // The bench's own address is this machine's, too.
    if !peer.ip().is_loopback() && peer.ip() != shared.address {
        let (what, next) = (t.say("first-elsewhere"), t.say("first-elsewhere-next"));
        return Err(Trouble::forbidden(what, next));
    }
    match enter::add_person(&shared, &fields, Added::First).await {
        Ok(unlocked) => begin(&shared, unlocked, (&fields, "/people")),
        Err(trouble) => {
            let status = trouble.status;
            let frame = Frame::of(&shared, None, &headers);
            let name = fields.text("name").to_owned();
            Ok((status, Shown(First { frame, wrong: Some(trouble), name })).into_response())
        }
    }
}

pub(crate) async fn sign_in(
    State(shared): State<Shared>,
    headers: HeaderMap,
    Asked(asked): Asked,
) -> Result<Response, Trouble> {
    if !shared.stores.run(|store| Ok(store.has_people()?)).await? {
        return Ok(see_other("/first"));
    }
    let page = SignIn {
        frame: Frame::of(&shared, None, &headers),
        wrong: None,
        name: String::new(),
        device: cookie::read_text(&headers, DEVICE).unwrap_or_default(),
        next: local(asked.text("next")).to_owned(),
    };
    Ok(Shown(page).into_response())
}

pub(crate) async fn signed_in(
    State(shared): State<Shared>,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    headers: HeaderMap,
    OpenForm(fields): OpenForm,
) -> Result<Response, Trouble> {
    let whence = peer.ip().to_string();
    let tried = Tried {
        name: fields.text("name").trim(),
        passphrase: fields.text("passphrase"),
        whence: &whence,
    };
    match enter::unlock(&shared, tried).await {
        Ok(unlocked) => begin(&shared, unlocked, (&fields, "/jobs")),
        Err(trouble) => {
            let status = trouble.status;
            let page = SignIn {
                frame: Frame::of(&shared, None, &headers),
                wrong: Some(trouble),
                name: fields.text("name").to_owned(),
                device: fields.text("device").to_owned(),
                next: local(fields.text("next")).to_owned(),
            };
            Ok((status, Shown(page)).into_response())
        }
    }
}

/// Begins a session and goes where the person wanted to go.
fn begin(
    shared: &Shared,
    unlocked: ringtrue_job::person::Unlocked,
    (fields, otherwise): (&Fields, &str),
) -> Result<Response, Trouble> {
    let device = fields.text("device").trim();
    let token = shared.sessions.begin(unlocked, device)?;
    let next = fields.some("next").map_or(otherwise, local);
    let mut response = see_other(next);
    let headers = response.headers_mut();
    let wire = shared.wire;
    cookie::set(headers, (wire.session_cookie(), &token), Kept::Secret, wire);
    if !device.is_empty() {
        cookie::set(headers, (DEVICE, device), Kept::Choice, wire);
    }
    Ok(response)
}

pub(crate) async fn unlock(
    State(shared): State<Shared>,
    headers: HeaderMap,
    Asked(asked): Asked,
) -> Result<Response, Trouble> {
    let next = local(asked.text("next"));
    let token = cookie::read(&headers, shared.wire.session_cookie()).unwrap_or_default();
    match shared.sessions.find(token, Touch::Page) {
        Found::Nobody => Ok(see_other("/sign-in")),
        Found::Open(_) => Ok(see_other(next)),
        Found::Locked { name, csrf } => {
            let frame = Frame { csrf, ..Frame::of(&shared, None, &headers) };
            let next = next.to_owned();
            Ok(Shown(Unlock { frame, wrong: None, name, next }).into_response())
        }
    }
}

pub(crate) async fn unlocked(
    State(shared): State<Shared>,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    headers: HeaderMap,
    OpenForm(fields): OpenForm,
) -> Result<Response, Trouble> {
    let next = local(fields.text("next")).to_owned();
    let token = cookie::read(&headers, shared.wire.session_cookie()).unwrap_or_default();
    let passphrase = fields.text("passphrase");
    match enter::unlock_again(&shared, token, (passphrase, peer.ip())).await {
        Ok(()) => Ok(see_other(&next)),
        Err(trouble) => match shared.sessions.find(token, Touch::Page) {
            Found::Locked { name, csrf } => {
                let frame = Frame { csrf, ..Frame::of(&shared, None, &headers) };
                let status = trouble.status;
                let wrong = not_theirs(trouble, &name);
                let page = Unlock { frame, wrong: Some(wrong), name, next };
                Ok((status, Shown(page)).into_response())
            }
            Found::Nobody | Found::Open(_) => Ok(see_other("/sign-in")),
        },
    }
}

/// A wrong passphrase, where the name stands already.
fn not_theirs(trouble: Trouble, name: &str) -> Trouble {
    if trouble.status != StatusCode::UNAUTHORIZED {
        return trouble;
    }
    let t = words();
    let (what, do_next) = (t.with("unlock-wrong", &[("name", name)]), t.say("unlock-wrong-next"));
    Trouble { what, do_next, ..trouble }
}

pub(crate) async fn lock(
    State(shared): State<Shared>,
    headers: HeaderMap,
    Form(fields): Form,
) -> Response {
    let token = cookie::read(&headers, shared.wire.session_cookie()).unwrap_or_default();
    shared.sessions.lock(token);
    let next = local(fields.text("next"));
    let next: String = form_urlencoded::byte_serialize(next.as_bytes()).collect();
    see_other(&format!("/unlock?next={next}"))
}

pub(crate) async fn sign_out(
    State(shared): State<Shared>,
    headers: HeaderMap,
    Form(_): Form,
) -> Response {
    let wire = shared.wire;
    let token = cookie::read(&headers, wire.session_cookie()).unwrap_or_default();
    shared.sessions.end(token);
    let mut response = see_other("/sign-in");
    cookie::set(response.headers_mut(), (wire.session_cookie(), ""), Kept::Not, wire);
    response
}

/// Theme and units, which the tablet keeps.
pub(crate) async fn look(State(shared): State<Shared>, Form(fields): Form) -> Response {
    let mut response = see_other(local(fields.text("next")));
    let headers = response.headers_mut();
    if let Some(theme) = Theme::named(fields.text("theme")) {
        cookie::set(headers, (THEME, theme.name()), Kept::Choice, shared.wire);
    }
    if let Some(units) = units_named(fields.text("units")) {
        let name = super::frame::units_name(units);
        cookie::set(headers, (UNITS, name), Kept::Choice, shared.wire);
    }
    response
}

/// An address of this bench; anything else becomes the list of jobs.
fn local(next: &str) -> &str {
    let plain = next.starts_with('/')
        && !next.starts_with("//")
        && !next.contains('\\')
        && next.chars().all(|c| c.is_ascii_graphic());
    if plain { next } else { "/jobs" }
}

#[cfg(test)]
mod tests {
    use super::local;

    #[test]
    fn nobody_is_sent_off_the_bench() {
        assert_eq!(local("/jobs/1?x=2"), "/jobs/1?x=2");
        for elsewhere in ["//evil.example", "https://evil.example", "/\\evil", "", "/a\nb"] {
            assert_eq!(local(elsewhere), "/jobs", "{elsewhere}");
        }
    }
}
