//! What went wrong, for the person at the page or the program at the API.

use std::sync::Arc;

use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use ringtrue_store::StoreError;
use serde::Serialize;

use crate::problem::Problem;
use crate::refused;
use ringtrue_words::words;

/// What was wrong, what to do next, and the status that says so.
///
/// As a response it is empty: the guard of the route writes it as a page or as JSON.
#[derive(Debug, Clone, Serialize)]
pub(crate) struct Trouble {
    #[serde(skip)]
    pub(crate) status: StatusCode,
    /// A word for programs.
    pub(crate) problem: &'static str,
    pub(crate) what: String,
    pub(crate) do_next: String,
    /// Where the job stands, when it stands elsewhere than was expected.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) now: Option<Box<serde_json::Value>>,
    /// Seconds to wait.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) wait_seconds: Option<u64>,
}

impl Trouble {
    /// Trouble with this status.
    pub(crate) fn new(
        (status, problem): (StatusCode, &'static str),
        what: impl Into<String>,
        do_next: impl Into<String>,
    ) -> Self {
        let (what, do_next) = (what.into(), do_next.into());
        Self { status, problem, what, do_next, now: None, wait_seconds: None }
    }

    /// What was sent does not fit.
    pub(crate) fn input(what: impl Into<String>, do_next: impl Into<String>) -> Self {
        Self::new((StatusCode::UNPROCESSABLE_ENTITY, "does-not-fit"), what, do_next)
    }

    /// The request itself can't be read.
    pub(crate) fn request(what: impl Into<String>) -> Self {
        let next = words().say("trouble-request-next");
        Self::new((StatusCode::BAD_REQUEST, "not-readable"), what, next)
    }

    /// There is no such page.
    pub(crate) fn not_found() -> Self {
        let t = words();
        let said = (StatusCode::NOT_FOUND, "not-found");
        Self::new(said, t.say("trouble-not-found"), t.say("trouble-not-found-next"))
    }

    /// There is no such job.
    pub(crate) fn no_job(id: &str) -> Self {
        let t = words();
        let said = (StatusCode::NOT_FOUND, "not-found");
        Self::new(said, t.with("trouble-no-job", &[("id", id)]), t.say("trouble-no-job-next"))
    }

    /// The person's role does not allow it.
    pub(crate) fn forbidden(what: impl Into<String>, next: impl Into<String>) -> Self {
        Self::new((StatusCode::FORBIDDEN, "not-allowed"), what, next)
    }

    /// A fault of the program.
    pub(crate) fn fault() -> Self {
        let t = words();
        let said = (StatusCode::INTERNAL_SERVER_ERROR, "fault");
        Self::new(said, t.say("trouble-fault"), t.say("trouble-fault-next"))
    }
}

impl From<StoreError> for Trouble {
    fn from(error: StoreError) -> Self {
        let said = match &error {
            StoreError::NoJob(_) | StoreError::NoPerson(_) => (StatusCode::NOT_FOUND, "not-found"),
            StoreError::Overtaken { .. } => (StatusCode::CONFLICT, "overtaken"),
            StoreError::JobExists(_)
            | StoreError::PersonExists(_)
            | StoreError::NotFirst
            | StoreError::HasKeeper
            | StoreError::OtherHistory { .. }
            | StoreError::Exists(_) => (StatusCode::CONFLICT, "taken"),
            StoreError::OtherRequest(_) => (StatusCode::UNPROCESSABLE_ENTITY, "key-taken"),
            StoreError::Refused { .. } => (StatusCode::UNPROCESSABLE_ENTITY, "does-not-fit"),
            StoreError::Busy => (StatusCode::SERVICE_UNAVAILABLE, "busy"),
            StoreError::Full | StoreError::ReadOnly | StoreError::Disk(_) => {
                (StatusCode::SERVICE_UNAVAILABLE, "not-kept")
            }
            StoreError::Missing(_)
            | StoreError::CannotOpen { .. }
            | StoreError::NotAStore(_)
            | StoreError::Newer { .. }
            | StoreError::Damaged(_) => (StatusCode::INTERNAL_SERVER_ERROR, "store"),
        };
        Self::of(said, &refused::store(error))
    }
}

impl Trouble {
    /// The same words with this status.
    pub(crate) fn of(said: (StatusCode, &'static str), problem: &Problem) -> Self {
        Self::new(said, problem.what(), problem.do_next())
    }
}

impl From<Problem> for Trouble {
    fn from(problem: Problem) -> Self {
        Self::of((StatusCode::UNPROCESSABLE_ENTITY, "does-not-fit"), &problem)
    }
}

impl IntoResponse for Trouble {
    fn into_response(self) -> Response {
        let mut response = self.status.into_response();
        response.extensions_mut().insert(Arc::new(self));
        response
    }
}
