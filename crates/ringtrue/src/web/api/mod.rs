//! The JSON API: the same calls and permissions as the pages.

pub(crate) mod body;
pub(crate) mod events;
pub(crate) mod jobs;
pub(crate) mod openapi;
pub(crate) mod session;
pub(crate) mod stream;
