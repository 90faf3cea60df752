//! The list of jobs.

use askama::Template;
use axum::extract::State;
use axum::http::HeaderMap;
use axum::response::Response;
use ringtrue_store::{JobLine, Listing, Which};

use super::Shown;
use super::frame::Frame;
use crate::web::Shared;
use crate::web::fields::Asked;
use crate::web::router::see_other;
use crate::web::session::Visitor;
use crate::web::trouble::Trouble;

/// Jobs on one page.
pub(crate) const A_PAGE: u32 = 50;

#[derive(Template)]
#[template(path = "jobs.html")]
pub(crate) struct Jobs {
    frame: Frame,
    lines: Vec<JobLine>,
    /// Which, and how many of them.
    tabs: [(&'static str, u64); 3],
    which: &'static str,
    search: String,
    page: u32,
    more: bool,
    may_open: bool,
}

/// Which jobs, by the word in an address.
pub(crate) fn which(word: &str) -> Option<(Which, &'static str)> {
    Some(match word {
        "open" => (Which::Open, "open"),
        "held" => (Which::Held, "held"),
        "done" => (Which::Done, "done"),
        "all" => (Which::All, "all"),
        _ => return None,
    })
}

pub(crate) async fn home() -> Response {
    see_other("/jobs")
}

pub(crate) async fn list(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    Asked(asked): Asked,
) -> Result<Shown<Jobs>, Trouble> {
    let search = asked.text("search").trim().to_owned();
    // A search looks everywhere, until told otherwise.
    let word = asked.some("which").unwrap_or(if search.is_empty() { "open" } else { "all" });
    let asked_for = which(word).unwrap_or((Which::Open, "open"));
    // Where nothing is open, what is held is what there is to do.
    let falls_back = asked.some("which").is_none() && search.is_empty();
    let page = asked.text("page").parse::<u32>().unwrap_or(0).min(1_000_000);
    let wanted = search.clone();
    let (found, counts, word) = shared
        .stores
        .run(move |store| {
            let skip = page.saturating_mul(A_PAGE);
            let counts = store.counts()?;
            let only_held = falls_back && counts.open == 0 && counts.held > 0;
            let (which, word) = if only_held { (Which::Held, "held") } else { asked_for };
            let listing = Listing { which, search: &wanted, skip, most: A_PAGE };
            Ok((store.page(listing)?, counts, word))
        })
        .await?;
    Ok(Shown(Jobs {
        frame: Frame::of(&shared, Some(&visitor), &headers),
        lines: found.lines,
        tabs: [("open", counts.open), ("held", counts.held), ("done", counts.done)],
        which: word,
        search,
        page,
        more: found.more,
        may_open: crate::web::permission::Call::OpenJob.is_allowed(visitor.role),
    }))
}
