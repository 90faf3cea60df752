//! Everything that happened on a job, and correcting what was wrong.

use std::sync::Arc;

use askama::Template;
use axum::extract::{Path, State};
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Response};
use ringtrue_job::digest::Digest;
use ringtrue_job::event::{Detail, Event, Place};

use super::Shown;
use super::evidence::{Asked, GaugeLine, gauges};
use super::frame::{Frame, units_of};
use super::job::Head;
use super::{ask_back, step_form};
use crate::kept::Kept;
use crate::web::Shared;
use crate::web::act::{self, Act};
use crate::web::deed::SentDeed;
use crate::web::fields::{Fields, Form};
use crate::web::permission::Call;
use crate::web::router::see_other;
use crate::web::said;
use crate::web::session::Visitor;
use crate::web::trouble::Trouble;

#[derive(Template)]
#[template(path = "history.html")]
pub(crate) struct History {
    frame: Frame,
    head: Head,
    events: Vec<Line>,
    last_hash: String,
    may_correct: bool,
}

/// One event, with all that it says.
pub(crate) struct Line {
    pub(crate) number: u64,
    pub(crate) kind: &'static str,
    pub(crate) at: String,
    pub(crate) local: String,
    pub(crate) person: String,
    pub(crate) role: &'static str,
    pub(crate) device: String,
    pub(crate) says: String,
    pub(crate) gauges: Vec<String>,
    pub(crate) photos: Vec<(String, String)>,
    pub(crate) corrected_by: Option<u64>,
    pub(crate) can_be_corrected: bool,
}

impl Line {
    fn of(kept: &Kept, event: &Event, frame: &Frame) -> Self {
        let corrected_by = kept.job.entry(event.sequence).and_then(|entry| entry.corrected_by);
        let kind = event.payload.kind();
        let correctable = matches!(kind, "recorded" | "corrected" | "overridden" | "followed-up");
        let gauge = |hash| kept.plan.gauge(hash).map(|gauge| gauge.name.clone());
        Self {
            number: event.sequence,
            kind,
            at: event.at.to_string(),
            local: frame.t.moment(event.at),
            person: event.author.name.clone(),
            role: event.author.role.name(),
            device: event.device.clone(),
            says: says(kept, event, frame),
            gauges: event.documents().iter().filter_map(gauge).collect(),
            photos: event
                .photos()
                .into_iter()
                .map(|photo| (photo.name.clone(), photo.content.to_string()))
                .collect(),
            corrected_by,
            can_be_corrected: correctable && corrected_by.is_none(),
        }
    }
}

fn says(kept: &Kept, event: &Event, frame: &Frame) -> String {
    let place = kept.job.entry(event.sequence).and_then(|entry| entry.place.as_ref());
    let words = said::event(place.map(|place| (&kept.plan, place)), event, Detail::Full);
    if event.payload.kind() == "assessed" { frame.t.prose(words) } else { words }
}

pub(crate) async fn page(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    Path(id): Path<String>,
) -> Result<Shown<History>, Trouble> {
    let kept = shared.stores.kept(&id).await?;
    let frame = Frame::of(&shared, Some(&visitor), &headers).at(format!("/jobs/{id}/history"));
    let events = kept.log.iter().rev().map(|link| Line::of(&kept, &link.event, &frame)).collect();
    Ok(Shown(History {
        head: Head::of(&kept),
        events,
        last_hash: kept.job.last_hash.to_string(),
        may_correct: Call::Correct.is_allowed(visitor.role),
        frame,
    }))
}

#[derive(Template)]
#[template(path = "correct.html")]
pub(crate) struct Correct {
    frame: Frame,
    head: Head,
    line: Line,
    asked: Vec<Asked>,
    gauges: Vec<GaugeLine>,
    wants_gauge: bool,
    gauge_typed: String,
    is_typed: bool,
    key: String,
    why: String,
    wrong: Option<Trouble>,
}

pub(crate) async fn correct(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    Path((id, event)): Path<(String, u64)>,
) -> Result<Shown<Correct>, Trouble> {
    let typed = (Fields::default(), None);
    correct_page(&shared, (&visitor, &headers), (id, event), typed).await.map(Shown)
}

async fn correct_page(
    shared: &Shared,
    (visitor, headers): (&Visitor, &HeaderMap),
    (id, event): (String, u64),
    (typed, wrong): (Fields, Option<Trouble>),
) -> Result<Correct, Trouble> {
    let stores = Arc::clone(&shared.stores);
    let (kept, editions) = shared
        .stores
        .run(move |store| Ok((stores.kept_here(store, &id)?, store.library()?)))
        .await?;
    let here = format!("/jobs/{}/events/{event}/correct", kept.job.id);
    let frame = Frame::of(shared, Some(visitor), headers).at(here);
    let link = kept.log.iter().find(|link| link.event.sequence == event);
    let link = link.ok_or_else(Trouble::not_found)?;
    let line = Line::of(&kept, &link.event, &frame);
    let mut asked = Vec::new();
    if matches!(line.kind, "recorded" | "corrected")
        && let Some(place) = place_of(&kept, event)
        && let Some(step) = kept.plan.step(place)
    {
        let all = step.evidence.iter();
        asked.extend(
            all.map(|one| Asked::of(one, (&kept, place), (&typed, frame.units)))
                .filter(|one| one.kind != "second-person"),
        );
    }
    Ok(Correct {
        head: Head::of(&kept),
        line,
        wants_gauge: asked.iter().any(|one| one.takes_gauge),
        asked,
        gauges: gauges(&kept, &editions),
        gauge_typed: typed.text("gauge").to_owned(),
        is_typed: typed.some("key").is_some(),
        key: super::form_key(),
        why: typed.text("why").to_owned(),
        wrong,
        frame,
    })
}

fn place_of(kept: &Kept, event: u64) -> Option<&Place> {
    kept.job.entry(event).and_then(|entry| entry.place.as_ref())
}

pub(crate) async fn post(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    (Path((id, event)), Form(fields)): (Path<(String, u64)>, Form),
) -> Result<Response, Trouble> {
    let fields = match fields.laid_out() {
        Ok(fields) => {
            let typed = (fields, None);
            let page = correct_page(&shared, (&visitor, &headers), (id, event), typed).await?;
            return Ok(Shown(page).into_response());
        }
        Err(fields) => fields,
    };
    match corrected(&shared, &visitor, (&id, event), &fields).await {
        Ok(to) => Ok(see_other(&to)),
        Err(wrong) if wrong.status.is_server_error() => Err(wrong),
        Err(wrong) => {
            let status = wrong.status;
            let typed = (fields, Some(wrong));
            let page = correct_page(&shared, (&visitor, &headers), (id, event), typed).await?;
            Ok((status, Shown(page)).into_response())
        }
    }
}

async fn corrected(
    shared: &Shared,
    visitor: &Visitor,
    (id, event): (&str, u64),
    fields: &Fields,
) -> Result<String, Trouble> {
    let kept = shared.stores.kept(id).await?;
    let place = place_of(&kept, event);
    let given = match place.and_then(|place| Some((kept.plan.step(place)?, place))) {
        Some((step, place)) => {
            let units = units_of(fields);
            let given = step_form::given(step, fields, units)?;
            ask_back::asked(step, (&kept, place), (fields, units))?;
            given
        }
        None => Vec::new(),
    };
    let deed = SentDeed::Correct { event, why: fields.text("why").to_owned(), given };
    let asked = Digest::of(format!("{id} {deed:?}").as_bytes());
    let once = fields.some("key").map(|key| (key.to_owned(), asked));
    let expected = fields.text("expected").parse().ok();
    let act = Act { job: id.to_owned(), expected, once, by: None, deed };
    act::act(shared, visitor, act).await?;
    Ok(match place {
        Some(place) => super::job::href(id, place),
        None => format!("/jobs/{id}/history"),
    })
}
