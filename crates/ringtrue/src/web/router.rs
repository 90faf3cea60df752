//! Every route with what it asks for, in one table; and the guard that stands before each.

use std::convert::Infallible;
use std::sync::Arc;
use std::time::Instant;

use axum::extract::{DefaultBodyLimit, Request, State};
use axum::http::header::{
    CACHE_CONTROL, CONTENT_SECURITY_POLICY, CONTENT_TYPE, HOST, HeaderName, LOCATION, ORIGIN,
    REFERRER_POLICY, RETRY_AFTER, X_CONTENT_TYPE_OPTIONS, X_FRAME_OPTIONS,
};
use axum::http::{HeaderMap, HeaderValue, Method, StatusCode};
use axum::middleware::{self, Next};
use axum::response::{IntoResponse, Response};
use axum::routing::{MethodRouter, get, post};
use axum::{Json, Router};

use super::body::{self, FORM, SMALL, UPLOAD};
use super::cookie::Wire;
use super::fields::{foreign, is_same};
use super::page::{self, frame::Frame};
use super::permission::Call;
use super::session::{Found, Touch, Visitor};
use super::trouble::Trouble;
use super::{Shared, api, asset, cookie};
use ringtrue_words::words;

/// What answers at a route.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Door {
    /// A page for a person.
    Page,
    /// JSON for a program, or for a page's script.
    Api,
    /// JSON that a page asks for by itself: nobody has touched anything.
    Poll,
}

/// A method and a path.
pub(crate) struct Route {
    pub(crate) method: Verb,
    pub(crate) path: &'static str,
    pub(crate) call: Call,
    pub(crate) door: Door,
    pub(crate) largest: usize,
    handler: fn() -> MethodRouter<Shared>,
}

/// The methods in use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Verb {
    /// Reads.
    Get,
    /// Writes.
    Post,
}

const fn read(
    (door, path): (Door, &'static str),
    call: Call,
    handler: fn() -> MethodRouter<Shared>,
) -> Route {
    Route { method: Verb::Get, path, call, door, largest: FORM, handler }
}

const fn write(
    (door, path): (Door, &'static str),
    call: Call,
    handler: fn() -> MethodRouter<Shared>,
) -> Route {
    Route { method: Verb::Post, path, call, door, largest: FORM, handler }
}

impl Route {
    /// Nobody need be signed in, so little is taken.
    const fn small(self) -> Self {
        Self { largest: SMALL, ..self }
    }

    const fn upload(self) -> Self {
        Self { largest: UPLOAD, ..self }
    }
}

use Door::{Api, Page, Poll};

/// All routes.
pub(crate) static ROUTES: &[Route] = &[
    read((Page, "/"), Call::Look, || get(page::jobs::home)),
    read((Page, "/first"), Call::Anybody, || get(page::enter::first)),
    write((Page, "/first"), Call::Anybody, || post(page::enter::make_first)).small(),
    read((Page, "/sign-in"), Call::Anybody, || get(page::enter::sign_in)),
    write((Page, "/sign-in"), Call::Anybody, || post(page::enter::signed_in)).small(),
    read((Page, "/unlock"), Call::Anybody, || get(page::enter::unlock)),
    write((Page, "/unlock"), Call::Anybody, || post(page::enter::unlocked)).small(),
    write((Page, "/lock"), Call::Look, || post(page::enter::lock)),
    write((Page, "/sign-out"), Call::Look, || post(page::enter::sign_out)),
    write((Page, "/look"), Call::Look, || post(page::enter::look)),
    read((Page, "/jobs"), Call::Look, || get(page::jobs::list)),
    read((Page, "/jobs/new"), Call::OpenJob, || get(page::start::page)),
    write((Page, "/jobs/new"), Call::OpenJob, || post(page::start::post)).upload(),
    read((Page, "/library"), Call::Look, || get(page::library::page)),
    write((Page, "/library"), Call::BringIn, || post(page::library::bring_in)).upload(),
    read((Page, "/library/{hash}"), Call::Look, || get(page::library::one)),
    read((Page, "/library/{hash}/file"), Call::Look, || get(page::library::download)),
    read((Page, "/jobs/build"), Call::OpenJob, || get(page::build::page)),
    write((Page, "/jobs/build"), Call::OpenJob, || post(page::build::post)),
    read((Page, "/people"), Call::KeepPeople, || get(page::people::page)),
    write((Page, "/people"), Call::KeepPeople, || post(page::people::add)),
    write((Page, "/people/retire"), Call::KeepPeople, || post(page::people::retire)),
    read((Page, "/jobs/{id}/history"), Call::Look, || get(page::history::page)),
    read((Page, "/jobs/{id}/events/{event}/correct"), Call::Correct, || {
        get(page::history::correct)
    }),
    write((Page, "/jobs/{id}/events/{event}/correct"), Call::Correct, || post(page::history::post))
        .upload(),
    read((Page, "/jobs/{id}/sign"), Call::Look, || get(page::sign::page)),
    write((Page, "/jobs/{id}/sign"), Call::Sign, || post(page::sign::post)).upload(),
    read((Page, "/jobs/{id}/section"), Call::Look, || get(page::section::page)),
    read((Page, "/jobs/{id}/try"), Call::Look, || get(page::section::try_a_change)),
    read((Poll, "/api/jobs/{id}/section"), Call::Look, || get(page::section::json)),
    read((Poll, "/api/jobs/{id}/section/progress"), Call::Look, || get(page::section::progress)),
    read((Poll, "/api/jobs/{id}/solving/{name}"), Call::Look, || get(page::solving::named)),
    read((Page, "/jobs/{id}/report.pdf"), Call::Look, || get(page::download::pdf)),
    read((Page, "/jobs/{id}/record.json"), Call::Look, || get(page::download::export)),
    read((Page, "/jobs/{id}/files/{hash}"), Call::Look, || get(page::download::photo)),
    read((Page, "/jobs/{id}"), Call::Look, || get(page::job::overview)),
    read((Page, "/jobs/{id}/steps/{step}"), Call::Look, || get(page::step::of_joint)),
    read((Page, "/jobs/{id}/steps/{step}/{half}"), Call::Look, || get(page::step::of_half)),
    write((Page, "/jobs/{id}/steps/{step}"), Call::Work, || post(page::step::post_of_joint))
        .upload(),
    write((Page, "/jobs/{id}/steps/{step}/{half}"), Call::Work, || post(page::step::post_of_half))
        .upload(),
    read((Api, "/api/openapi.json"), Call::Anybody, || get(api::openapi::document)),
    write((Api, "/api/session"), Call::Anybody, || post(api::session::begin)).small(),
    write((Api, "/api/session/unlock"), Call::Anybody, || post(api::session::unlock)).small(),
    read((Poll, "/api/jobs"), Call::Look, || get(api::jobs::list)),
    write((Api, "/api/jobs"), Call::OpenJob, || post(api::jobs::open)).upload(),
    read((Poll, "/api/jobs/{id}"), Call::Look, || get(api::jobs::one)),
    write((Api, "/api/joints/draw"), Call::OpenJob, || post(page::build::draw)),
    write((Api, "/api/jobs/{id}/events"), Call::Work, || post(api::events::post)).upload(),
    write((Api, "/api/jobs/{id}/assess"), Call::Work, || post(page::assess::post)).upload(),
    read((Poll, "/api/jobs/{id}/stream"), Call::Look, || get(api::stream::of_job)),
    read((Poll, "/assets/{name}"), Call::Anybody, || get(asset::send)),
];

/// The router over all routes.
pub(crate) fn router(shared: &Shared) -> Router {
    let mut router = Router::new();
    for route in ROUTES {
        let guarded = (route.handler)()
            .layer::<_, Infallible>(middleware::from_fn_with_state(
                (Arc::clone(shared), route),
                guard,
            ))
            .layer::<_, Infallible>(DefaultBodyLimit::max(route.largest));
        router = router.route(route.path, guarded);
    }
    router
        .fallback(nowhere)
        .method_not_allowed_fallback(other_method)
        .layer(middleware::from_fn_with_state(Arc::clone(shared), outermost))
        .with_state(Arc::clone(shared))
}

async fn nowhere(State(shared): State<Shared>, headers: HeaderMap, request: Request) -> Response {
    let door = door_of(request.uri().path());
    let visitor = signed_in(&shared, &headers);
    shown(&Trouble::not_found(), door, &Frame::of(&shared, visitor.as_ref(), &headers))
}

async fn other_method(
    State(shared): State<Shared>,
    headers: HeaderMap,
    request: Request,
) -> Response {
    let t = words();
    let trouble = Trouble::new(
        (StatusCode::METHOD_NOT_ALLOWED, "other-method"),
        t.say("trouble-method"),
        t.say("trouble-not-found-next"),
    );
    let visitor = signed_in(&shared, &headers);
    let frame = Frame::of(&shared, visitor.as_ref(), &headers);
    shown(&trouble, door_of(request.uri().path()), &frame)
}

/// Who is signed in, for what stands around a page of trouble. It keeps no session awake.
fn signed_in(shared: &Shared, headers: &HeaderMap) -> Option<Visitor> {
    let token = cookie::read(headers, shared.wire.session_cookie()).unwrap_or_default();
    match shared.sessions.find(token, Touch::Page) {
        Found::Open(visitor) => Some(visitor),
        Found::Locked { .. } | Found::Nobody => None,
    }
}

fn door_of(path: &str) -> Door {
    if path.starts_with("/api/") { Api } else { Page }
}

/// Before a route: is somebody signed in, and may they?
async fn guard(
    State((shared, route)): State<(Shared, &'static Route)>,
    mut request: Request,
    next: Next,
) -> Response {
    let begun = Instant::now();
    let headers = request.headers().clone();
    let here = request.uri().path_and_query().map_or("/", |p| p.as_str()).to_owned();
    let visitor = match admitted(&shared, route, (&headers, &here)).await {
        Ok(visitor) => visitor,
        Err(refused) => {
            body::discard(&headers, request.into_body().into_data_stream());
            return match refused {
                Refused::Elsewhere(to) => see_other(&to),
                Refused::Trouble(trouble) => {
                    let visitor = signed_in(&shared, &headers);
                    let frame = Frame::of(&shared, visitor.as_ref(), &headers);
                    shown(&trouble, route.door, &frame)
                }
            };
        }
    };
    if let Some(visitor) = &visitor {
        request.extensions_mut().insert(visitor.clone());
    }
    let response = answered(route, request, next).await;
    let mut response = match trouble_of(&response) {
        Some(trouble) => {
            let mut frame = Frame::of(&shared, visitor.as_ref(), &headers);
            page_of_write(&here).clone_into(&mut frame.back);
            shown(&trouble, route.door, &frame)
        }
        None => response,
    };
    // To whoever is signed in: how long a passphrase took is nobody's business.
    if visitor.is_some() && route.call != Call::Anybody {
        let took = format!("total;dur={:.2}", begun.elapsed().as_secs_f64() * 1e3);
        if let Ok(took) = HeaderValue::from_str(&took) {
            response.headers_mut().insert("server-timing", took);
        }
    }
    response
}

/// The route's answer, once the whole body of a write is there.
async fn answered(route: &Route, mut request: Request, next: Next) -> Response {
    if route.method == Verb::Post {
        request = match body::whole(request, route.largest).await {
            Ok(request) => request,
            Err(trouble) => return trouble.into_response(),
        };
    }
    next.run(request).await
}

/// The trouble that an answer stands for, where it does.
fn trouble_of(response: &Response) -> Option<Arc<Trouble>> {
    let known = response.extensions().get::<Arc<Trouble>>().cloned();
    // A part of the address that can't be read, as a number that is none: no such page.
    let plain = || {
        let kind = response.headers().get(CONTENT_TYPE);
        response.status().is_client_error() && kind.is_some_and(|kind| kind == PLAIN)
    };
    known.or_else(|| plain().then(|| Arc::new(Trouble::not_found())))
}

/// How the library words what it refuses by itself; the bench's own answers are never of that type.
const PLAIN: &str = "text/plain; charset=utf-8";

/// Why a request does not reach its route.
enum Refused {
    /// A person is sent to another page first.
    Elsewhere(String),
    Trouble(Trouble),
}

async fn admitted(
    shared: &Shared,
    route: &Route,
    (headers, here): (&HeaderMap, &str),
) -> Result<Option<Visitor>, Refused> {
    if route.method == Verb::Post && !is_from_here(headers) {
        return Err(Refused::Trouble(foreign()));
    }
    let touch = if route.door == Poll { Touch::Page } else { Touch::Hand };
    let token = cookie::read(headers, shared.wire.session_cookie()).unwrap_or_default();
    let mut visitor = match (shared.sessions.find(token, touch), route.call) {
        (Found::Open(visitor), _) => visitor,
        (Found::Locked { .. } | Found::Nobody, Call::Anybody) => return Ok(None),
        (Found::Locked { .. }, _) => return Err(outside(route, here, Outside::Locked)),
        (Found::Nobody, _) => {
            let nobody = !shared.stores.run(|store| Ok(store.has_people()?)).await.unwrap_or(true);
            let outside_as = if nobody { Outside::First } else { Outside::Nobody };
            return Err(outside(route, here, outside_as));
        }
    };
    // A page says whether people are kept from here; nothing else asks for it.
    if route.door == Page && !visitor.keeps_people {
        let has_keeper = shared.stores.run(|store| Ok(store.has_keeper()?)).await.unwrap_or(true);
        visitor.keeps_people = !has_keeper;
    }
    let is_allowed = if visitor.keeps_people {
        route.call.is_allowed_without_keeper(visitor.role)
    } else {
        route.call.is_allowed(visitor.role)
    };
    if !is_allowed {
        return Err(Refused::Trouble(wrong_role(route.call, &visitor)));
    }
    let carried = headers.get("x-csrf-token").and_then(|token| token.to_str().ok());
    let write = route.door != Page && route.method == Verb::Post && route.call != Call::Anybody;
    if write && !is_same(&visitor.csrf, carried.unwrap_or_default()) {
        return Err(Refused::Trouble(foreign()));
    }
    Ok(Some(visitor))
}

/// The role does not allow the call.
pub(crate) fn wrong_role(call: Call, visitor: &Visitor) -> Trouble {
    let t = words();
    let roles: Vec<String> = call.roles().iter().map(|role| t.of("role-", role)).collect();
    let role = t.of("role-", visitor.role.name());
    let what = t.with("trouble-role", &[("name", &visitor.name), ("role", &role)]);
    Trouble::forbidden(what, t.with("trouble-role-next", &[("roles", roles.join(", "))]))
}

/// Why somebody is not inside.
#[derive(Clone, Copy)]
enum Outside {
    First,
    Nobody,
    Locked,
}

fn outside(route: &Route, here: &str, why: Outside) -> Refused {
    let (page, problem, said) = match why {
        Outside::First => ("/first", "not-signed-in", "trouble-first"),
        Outside::Nobody => ("/sign-in", "not-signed-in", "trouble-not-signed-in"),
        Outside::Locked => ("/unlock", "locked", "trouble-locked"),
    };
    if route.door == Page {
        // After a write the person comes back to the page, not to the write.
        let back = if route.method == Verb::Get { here } else { page_of_write(here) };
        let back: String = form_urlencoded::byte_serialize(back.as_bytes()).collect();
        return Refused::Elsewhere(format!("{page}?next={back}"));
    }
    let t = words();
    let said = (StatusCode::UNAUTHORIZED, problem, t.say(said));
    Refused::Trouble(Trouble::new((said.0, said.1), said.2, t.say("trouble-not-signed-in-next")))
}

/// The page on which a write's form stands: forms post to their own page's address, or below the
/// job.
fn page_of_write(here: &str) -> &str {
    let is_page = |path: &str| {
        ROUTES
            .iter()
            .any(|route| route.method == Verb::Get && route.path.split('/').eq_by_segment(path))
    };
    if is_page(here) { here } else { "/jobs" }
}

trait Segments {
    fn eq_by_segment(self, path: &str) -> bool;
}

impl<'p, I: Iterator<Item = &'p str>> Segments for I {
    fn eq_by_segment(self, path: &str) -> bool {
        let mut theirs = path.split('/');
        let mut ours = self;
        loop {
            match (ours.next(), theirs.next()) {
                (None, None) => return true,
                (Some(our), Some(their)) if our.starts_with('{') || our == their => {}
                (_, _) => return false,
            }
        }
    }
}

/// Did this write start on one of our own pages, or at a program that is no browser?
fn is_from_here(headers: &HeaderMap) -> bool {
    let text = |name: &HeaderName| headers.get(name).and_then(|value| value.to_str().ok());
    if let Some(site) = headers.get("sec-fetch-site") {
        return site == "same-origin" || site == "none";
    }
    match (text(&ORIGIN), text(&HOST)) {
        (None, _) => true,
        (Some(origin), Some(host)) => {
            origin.split_once("://").is_some_and(|(_, origin)| origin == host)
        }
        (Some(_), None) => false,
    }
}

/// A page, or JSON, that says what is wrong.
fn shown(trouble: &Trouble, door: Door, frame: &Frame) -> Response {
    let mut response = match door {
        Page => page::trouble(trouble, frame),
        Api | Poll => (trouble.status, Json(trouble)).into_response(),
    };
    if let Some(wait) = trouble.wait_seconds {
        response.headers_mut().insert(RETRY_AFTER, HeaderValue::from(wait));
    }
    response
}

/// Sends a person to another page.
pub(crate) fn see_other(to: &str) -> Response {
    let to = HeaderValue::from_str(to).unwrap_or(HeaderValue::from_static("/jobs"));
    (StatusCode::SEE_OTHER, [(LOCATION, to)]).into_response()
}

/// Around everything: is it meant for us, and what no answer goes without.
async fn outermost(State(shared): State<Shared>, request: Request, next: Next) -> Response {
    let mut response = if shared.answers_to(request.headers()) {
        let method = request.method().clone();
        let mut response = next.run(request).await;
        if method == Method::HEAD {
            *response.body_mut() = axum::body::Body::empty();
        }
        response
    } else {
        StatusCode::MISDIRECTED_REQUEST.into_response()
    };
    let headers = response.headers_mut();
    let always = [
        (CONTENT_SECURITY_POLICY, SOURCES),
        (X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (X_FRAME_OPTIONS, "DENY"),
        (REFERRER_POLICY, "no-referrer"),
        (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
        (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
        (HeaderName::from_static("permissions-policy"), "camera=(self), microphone=()"),
    ];
    for (name, value) in always {
        headers.insert(name, HeaderValue::from_static(value));
    }
    if shared.wire == Wire::Tls {
        let name = HeaderName::from_static("strict-transport-security");
        headers.insert(name, HeaderValue::from_static("max-age=31536000"));
    }
    headers.entry(CACHE_CONTROL).or_insert(HeaderValue::from_static("no-store"));
    response
}

/// Nothing but our own files; no script and no style inside a page.
const SOURCES: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' \
                       blob:; font-src 'self'; connect-src 'self'; manifest-src 'self'; \
                       worker-src 'self'; form-action 'self'; base-uri 'none'; \
                       frame-ancestors 'none'";

#[cfg(test)]
mod tests;
