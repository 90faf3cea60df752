//! `/api/openapi.json`: the API's description.

use axum::http::header::CONTENT_TYPE;
use axum::response::{IntoResponse, Response};

/// OpenAPI 3.1; a test compares it with the routes.
const DOCUMENT: &str = include_str!("../../../assets/openapi.json");

pub(crate) async fn document() -> Response {
    ([(CONTENT_TYPE, "application/json")], DOCUMENT).into_response()
}
