//! What a person does on a job, whichever door it came through: read, judged, appended once.

use std::sync::Arc;

use axum::http::StatusCode;
use jiff::Timestamp;
use ringtrue_job::Curves;
use ringtrue_job::digest::Digest;
use ringtrue_job::event::{Detail, Place};
use ringtrue_job::job::deed::{self, Deed, Now};
use ringtrue_job::job::{Job, Plan};
use ringtrue_job::person::Unlocked;
use ringtrue_job::record::Link;
use ringtrue_store::{Attached, Once, Store, StoreError};
use serde::Serialize;

use super::Shared;
use super::compute;
use super::deed::{Desk, SentDeed};
use super::permission::Call;
use super::refusal;
use super::said;
use super::session::Visitor;
use super::trouble::Trouble;
use crate::kept::Kept;
use ringtrue_words::words;

/// What is to be done.
pub(crate) struct Act {
    pub(crate) job: String,
    /// Events that the sender knew of; `None` where it does not matter.
    pub(crate) expected: Option<u64>,
    /// The key by which a repeat is known, and the hash of what was sent.
    pub(crate) once: Option<(String, Digest)>,
    /// Another person than the one who is signed in.
    pub(crate) by: Option<Unlocked>,
    pub(crate) deed: SentDeed,
}

/// What is kept beside the events of a deed.
#[derive(Debug, Default)]
pub(crate) struct Brought {
    pub(crate) documents: Vec<String>,
    pub(crate) files: Vec<Vec<u8>>,
}

/// What a deed left behind, as it is answered.
#[derive(Debug, Serialize)]
pub(crate) struct Done {
    pub(crate) job: String,
    pub(crate) state: &'static str,
    /// Number of events that the job has now: what is expected next.
    pub(crate) expected: u64,
    pub(crate) events: Vec<EventLine>,
    pub(crate) last_hash: String,
}

/// An event in short.
#[derive(Debug, Clone, Serialize)]
pub(crate) struct EventLine {
    pub(crate) event: u64,
    pub(crate) kind: &'static str,
    pub(crate) at: String,
    pub(crate) person: String,
    pub(crate) role: &'static str,
    pub(crate) device: String,
    pub(crate) step: Option<String>,
    pub(crate) half: Option<&'static str>,
    pub(crate) corrected_by: Option<u64>,
    pub(crate) says: String,
}

impl EventLine {
    /// An event of a job, with what came of it later.
    pub(crate) fn of((plan, job): (Option<&Plan>, &Job), link: &Link) -> Self {
        let event = &link.event;
        let entry = job.entry(event.sequence);
        let place = entry.and_then(|entry| entry.place.as_ref());
        Self {
            event: event.sequence,
            kind: event.payload.kind(),
            at: event.at.to_string(),
            person: event.author.name.clone(),
            role: event.author.role.name(),
            device: event.device.clone(),
            step: place.map(|place| place.step.clone()),
            half: place.and_then(|place| place.half).map(|half| half.name()),
            corrected_by: entry.and_then(|entry| entry.corrected_by),
            says: said::event(plan.zip(place), event, Detail::Short),
        }
    }

    /// An event of a job as a store has it.
    pub(crate) fn of_kept(kept: &Kept, link: &Link) -> Self {
        Self::of((Some(&kept.plan), &kept.job), link)
    }
}

/// Does it, and gives the answer as it is kept for a repeat.
pub(crate) async fn act(shared: &Shared, visitor: &Visitor, act: Act) -> Result<String, Trouble> {
    let (visitor, stores) = (visitor.clone(), shared.stores.clone());
    let save = act.once.as_ref().map(|(key, _)| (visitor.name.clone(), key.clone()));
    let judged = move |store: &mut Store, curves: &dyn Curves| {
        if let Some(answer) = answered(store, &visitor.name, act.once.as_ref())? {
            return Ok(Judged::Before(answer));
        }
        let kept = stores.kept_here(store, &act.job)?;
        let write = judged((store, curves), &kept, (&visitor, &act))?;
        Ok(Judged::Now(Box::new(write)))
    };
    let shared = Arc::clone(shared);
    // Whoever sent it may go while it is worked out: it is recorded all the same.
    let recorded = tokio::spawn(async move {
        compute::solved(&shared, save, judged).await?.written(&shared).await
    });
    recorded.await.map_err(|_| Trouble::fault())?
}

/// What was sent, once it is judged.
pub(crate) enum Judged {
    /// It was done before: its answer.
    Before(String),
    /// It is to be written.
    Now(Box<Write>),
}

impl Judged {
    /// Writes what is to be written, and gives the answer.
    pub(crate) async fn written(self, shared: &Shared) -> Result<String, Trouble> {
        match self {
            Self::Before(answer) => Ok(answer),
            Self::Now(write) => shared.stores.write(move |store| write.append(store)).await,
        }
    }
}

/// What is to be written, whole, with its answer.
pub(crate) struct Write {
    /// The job as it will stand.
    pub(crate) job: Job,
    /// Events that it has before.
    pub(crate) here: u64,
    pub(crate) links: Vec<Link>,
    /// The same as they are answered.
    pub(crate) lines: Vec<EventLine>,
    pub(crate) brought: Brought,
    pub(crate) person: String,
    pub(crate) once: Option<(String, Digest)>,
    pub(crate) at: Timestamp,
}

/// What was answered to the same request before.
pub(crate) fn answered(
    store: &Store,
    person: &str,
    once: Option<&(String, Digest)>,
) -> Result<Option<String>, StoreError> {
    let Some((key, request)) = once else { return Ok(None) };
    store.answer((person, key), request)
}

impl Write {
    /// Appends it and gives the answer, which is kept for a repeat in the same transaction.
    pub(crate) fn append(&self, store: &mut Store) -> Result<String, Trouble> {
        let Self { job, here, links, lines, brought, person, once, at } = self;
        let answer = serde_json::to_string(&Done {
            job: job.id.clone(),
            state: job.state().words(),
            expected: job.events(),
            events: lines.clone(),
            last_hash: job.last_hash.to_string(),
        })
        .map_err(|_| Trouble::fault())?;
        let attached = Attached { documents: &brought.documents, files: &brought.files };
        let appended = match once {
            Some((key, request)) => {
                let once = Once { person, key, request: *request, answer: &answer, at: *at };
                store.append_once((job, *here), links, (attached, once))
            }
            None => store.append((job, *here), links, attached),
        };
        let Err(error) = appended else { return Ok(answer) };
        // The same request may have come twice at once: it was done, and both are told so.
        if let Some(answer) = answered(store, person, once.as_ref())? {
            return Ok(answer);
        }
        if matches!(error, StoreError::Overtaken { .. }) {
            return Err(overtaken(&Kept::of(store, &job.id)?, *here));
        }
        Err(error.into())
    }
}

fn judged(
    (store, curves): (&Store, &dyn Curves),
    kept: &Kept,
    (visitor, act): (&Visitor, &Act),
) -> Result<Write, Trouble> {
    let here = kept.job.events();
    if let Some(expected) = act.expected.filter(|expected| *expected != here) {
        return Err(overtaken(kept, expected));
    }
    let mut brought = Brought::default();
    let (deed, plan) = made(&act.deed, &mut Desk { store, kept, brought: &mut brought })?;
    let mut now = visitor.now(curves);
    if let Some(by) = &act.by {
        now = Now { person: by, ..now };
    }
    let call = call_of(&deed, act.by.is_some());
    if !call.is_allowed(now.person.author().role) {
        return Err(wrong_role(call, &now));
    }
    let at = place_of(&kept.job, &deed);
    let (job, links) = deed::submit(&kept.job, &plan, deed, &now)
        .map_err(|error| refusal::deed(error, &plan, at.as_ref()))?;
    let lines = links.iter().map(|link| EventLine::of((Some(&plan), &job), link)).collect();
    let (person, once, at) = (visitor.name.clone(), act.once.clone(), now.at);
    Ok(Write { job, here, links, lines, brought, person, once, at })
}

/// A deed, and the plan with the gauges that it brings along.
fn made(sent: &SentDeed, desk: &mut Desk<'_>) -> Result<(Deed, Plan), Trouble> {
    let deed = sent.clone().deed(desk)?;
    let mut plan = desk.kept.plan.clone();
    for text in &desk.brought.documents {
        plan.know_gauge(text).map_err(|error| Trouble::input(error.found, error.fits))?;
    }
    Ok((deed, plan))
}

/// The job as it would stand after a deed. Nothing is recorded.
pub(crate) fn would_be(
    (store, curves): (&Store, &dyn Curves),
    kept: &Kept,
    (visitor, sent): (&Visitor, &SentDeed),
) -> Result<Kept, Trouble> {
    let mut brought = Brought::default();
    let (deed, plan) = made(sent, &mut Desk { store, kept, brought: &mut brought })?;
    let at = place_of(&kept.job, &deed);
    let (job, links) = deed::submit(&kept.job, &plan, deed, &visitor.now(curves))
        .map_err(|error| refusal::deed(error, &plan, at.as_ref()))?;
    let log = kept.log.iter().cloned().chain(links).collect();
    Ok(Kept { job, log, plan })
}

/// The step that a deed is done at, where it names one.
fn place_of(job: &Job, deed: &Deed) -> Option<Place> {
    match deed {
        Deed::Record(it) => Some(it.place.clone()),
        Deed::Correct(it) => job.entry(it.event).and_then(|entry| entry.place.clone()),
        Deed::Override { place, .. } => Some(place.clone()),
        Deed::Sign(place) => place.clone(),
        Deed::FollowUp(_) => None,
    }
}

/// Which call a deed is.
fn call_of(deed: &Deed, by_another: bool) -> Call {
    match deed {
        Deed::Record(_) if by_another => Call::Confirm,
        Deed::Record(_) => Call::Record,
        Deed::Correct(_) => Call::Correct,
        Deed::Override { .. } => Call::Override,
        Deed::Sign(_) => Call::Sign,
        Deed::FollowUp(_) => Call::FollowUp,
    }
}

fn wrong_role(call: Call, now: &Now<'_>) -> Trouble {
    let author = now.person.author();
    let t = words();
    let roles: Vec<String> = call.roles().iter().map(|role| t.of("role-", role)).collect();
    let role = t.of("role-", author.role.name());
    let what = t.with("trouble-role", &[("name", &author.name), ("role", &role)]);
    Trouble::forbidden(what, t.with("trouble-role-next", &[("roles", roles.join(", "))]))
}

/// Somebody else recorded meanwhile: nothing was written, and this is what they did.
fn overtaken(kept: &Kept, expected: u64) -> Trouble {
    let t = words();
    let newer = kept.log.iter().filter(|link| link.event.sequence > expected);
    let lines: Vec<EventLine> = newer.map(|link| EventLine::of_kept(kept, link)).collect();
    let said = (StatusCode::CONFLICT, "overtaken");
    let now = serde_json::json!({
        "expected": kept.job.events(),
        "state": kept.job.state().words(),
        "events": lines,
    });
    let trouble = Trouble::new(said, t.say("trouble-overtaken"), t.say("trouble-overtaken-next"));
    Trouble { now: Some(Box::new(now)), ..trouble }
}
