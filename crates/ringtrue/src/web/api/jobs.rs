//! `/api/jobs` and `/api/jobs/{id}`

use axum::Json;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::http::header::{CONTENT_TYPE, LOCATION};
use axum::response::{IntoResponse, Response};
use ringtrue_store::{JobLine, Listing};
use serde::{Deserialize, Serialize};

use super::body::Body;
use crate::kept::Kept;
use crate::web::Shared;
use crate::web::act::EventLine;
use crate::web::fields::Asked;
use crate::web::page::job::standing_key;
use crate::web::page::jobs::which;
use crate::web::session::Visitor;
use crate::web::start::{self, Sent};
use crate::web::trouble::Trouble;

/// Most jobs in one answer.
const MOST: u32 = 200;

#[derive(Serialize)]
pub(crate) struct Jobs {
    jobs: Vec<JobLine>,
    more: bool,
}

pub(crate) async fn list(
    State(shared): State<Shared>,
    Asked(asked): Asked,
) -> Result<Json<Jobs>, Trouble> {
    let given = |name: &str| asked.all(name).first().copied();
    let (which, _) = which(given("which").unwrap_or("all"))
        .ok_or_else(|| Trouble::request("`which` is one of open, held, done, all"))?;
    let search = asked.text("search").to_owned();
    let number = |name: &str, (otherwise, largest): (u32, u32)| match given(name) {
        Some(text) => {
            text.parse::<u32>().ok().filter(|number| *number <= largest).ok_or_else(|| {
                let what = format!("`{name}` is a whole number from 0 to {largest}");
                Trouble::request(what)
            })
        }
        None => Ok(otherwise),
    };
    let (skip, most) = (number("skip", (0, u32::MAX))?, number("most", (MOST, MOST))?);
    let page = shared
        .stores
        .run(move |store| Ok(store.page(Listing { which, search: &search, skip, most })?))
        .await?;
    Ok(Json(Jobs { jobs: page.lines, more: page.more }))
}

/// A job, its steps and its events.
#[derive(Serialize)]
pub(crate) struct One {
    job: String,
    title: String,
    state: &'static str,
    /// Number of events: what a write expects.
    expected: u64,
    last_hash: String,
    steps: Vec<StepLine>,
    events: Vec<EventLine>,
}

#[derive(Serialize)]
struct StepLine {
    step: String,
    half: Option<&'static str>,
    title: String,
    stage: &'static str,
    standing: &'static str,
}

pub(crate) async fn one(
    State(shared): State<Shared>,
    Path(id): Path<String>,
) -> Result<Json<One>, Trouble> {
    let kept = shared.stores.kept(&id).await?;
    Ok(Json(of(&kept)))
}

fn of(kept: &Kept) -> One {
    let steps = kept.plan.standings(&kept.job);
    One {
        job: kept.job.id.clone(),
        title: kept.job.opened.title.clone(),
        state: kept.job.state().words(),
        expected: kept.job.events(),
        last_hash: kept.job.last_hash.to_string(),
        steps: steps
            .iter()
            .map(|one| StepLine {
                step: one.place.step.clone(),
                half: one.place.half.map(|half| half.name()),
                title: one.step.title.clone(),
                stage: one.step.stage.name(),
                standing: standing_key(&one.standing),
            })
            .collect(),
        events: kept.log.iter().map(|link| EventLine::of_kept(kept, link)).collect(),
    }
}

/// A joint to open a job for: the text of its file, and of the files that it names.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct New {
    joint: String,
    #[serde(default)]
    files: std::collections::BTreeMap<String, String>,
    #[serde(default)]
    procedure: Option<String>,
}

pub(crate) async fn open(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: axum::http::HeaderMap,
    Body { value, hash }: Body<New>,
) -> Result<Response, Trouble> {
    let once = super::events::key(&headers)?.map(|key| (key, hash));
    let sent = Sent { joint: value.joint, files: value.files, procedure: value.procedure };
    let (id, answer) = start::start(&shared, &visitor, (sent, once)).await?;
    let kind = (CONTENT_TYPE, "application/json".to_owned());
    let place = (LOCATION, format!("/api/jobs/{id}"));
    Ok((StatusCode::CREATED, [kind, place], answer).into_response())
}
