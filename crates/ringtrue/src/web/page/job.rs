//! One job: its stages and steps, and what comes next.

use askama::Template;
use axum::extract::{Path, State};
use axum::http::HeaderMap;
use ringtrue_job::event::Place;
use ringtrue_job::job::{Standing, StepStanding};
use ringtrue_seal::definition::procedure::Stage;

use super::Shown;
use super::frame::Frame;
use crate::kept::Kept;
use crate::web::Shared;
use crate::web::session::Visitor;
use crate::web::trouble::Trouble;

/// What stands at the head of every page of a job.
pub(crate) struct Head {
    pub(crate) id: String,
    pub(crate) title: String,
    pub(crate) state: &'static str,
    pub(crate) events: u64,
    pub(crate) done: usize,
    pub(crate) due: usize,
}

/// A step in a list.
pub(crate) struct StepLine {
    pub(crate) title: String,
    pub(crate) href: String,
    pub(crate) standing: &'static str,
    pub(crate) is_next: bool,
}

/// The steps of a stage, of one half where it is done on each.
pub(crate) struct StageLine {
    pub(crate) stage: &'static str,
    pub(crate) half: Option<&'static str>,
    pub(crate) done: usize,
    pub(crate) steps: Vec<StepLine>,
    pub(crate) is_next: bool,
}

#[derive(Template)]
#[template(path = "job.html")]
pub(crate) struct Overview {
    frame: Frame,
    head: Head,
    stages: Vec<StageLine>,
    next: NextThing,
}

/// The one thing to do next with a job.
pub(crate) enum NextThing {
    /// A step: its page, its title, its half, and how it stands.
    Step { href: String, title: String, half: Option<&'static str>, standing: &'static str },
    /// The signature on the whole.
    Sign,
    /// Nothing: it is signed.
    Nothing,
}

impl NextThing {
    /// What is next on this job.
    pub(crate) fn of(kept: &Kept) -> Self {
        match kept.plan.next(&kept.job) {
            Some(next) => Self::Step {
                href: href(&kept.job.id, next.place),
                title: next.step.title.clone(),
                half: next.place.half.map(|half| half.name()),
                standing: standing_key(&next.standing),
            },
            None if kept.job.signed_at().is_none() => Self::Sign,
            None => Self::Nothing,
        }
    }
}

impl NextThing {
    /// The page of the step, where it is one.
    pub(crate) fn href(&self) -> Option<&str> {
        match self {
            Self::Step { href, .. } => Some(href),
            Self::Sign | Self::Nothing => None,
        }
    }
}

impl Head {
    pub(crate) fn of(kept: &Kept) -> Self {
        let standings = kept.plan.standings(&kept.job);
        Self {
            id: kept.job.id.clone(),
            title: kept.job.opened.title.clone(),
            state: kept.job.state().words(),
            events: kept.job.events(),
            done: standings.iter().filter(|one| one.standing.is_done()).count(),
            due: standings.len(),
        }
    }
}

/// The address of a step's page.
pub(crate) fn href(id: &str, place: &Place) -> String {
    match place.half {
        Some(half) => format!("/jobs/{id}/steps/{}/{}", place.step, half.name()),
        None => format!("/jobs/{id}/steps/{}", place.step),
    }
}

/// The key of the words for how a step stands; its shape in lists goes by it too.
pub(crate) fn standing_key(standing: &Standing) -> &'static str {
    match standing {
        Standing::Done => "done",
        Standing::Overridden => "overridden",
        Standing::Wants(_) => "due",
        Standing::Held(_) => "held",
        Standing::Unsigned => "unsigned",
    }
}

fn stages(kept: &Kept) -> Vec<StageLine> {
    let next = kept.plan.next(&kept.job).map(|next| next.place.clone());
    let mut lines: Vec<(Stage, StageLine)> = Vec::new();
    for StepStanding { place, step, standing } in kept.plan.standings(&kept.job) {
        let half = place.half.map(|half| half.name());
        let is_next = next.as_ref() == Some(place);
        let line = StepLine {
            title: step.title.clone(),
            href: href(&kept.job.id, place),
            standing: standing_key(&standing),
            is_next,
        };
        match lines.last_mut() {
            Some((stage, last)) if *stage == step.stage && last.half == half => {
                last.done += usize::from(standing.is_done());
                last.is_next |= is_next;
                last.steps.push(line);
            }
            Some(_) | None => {
                let done = usize::from(standing.is_done());
                let stage = step.stage.name();
                lines.push((
                    step.stage,
                    StageLine { stage, half, done, steps: vec![line], is_next },
                ));
            }
        }
    }
    lines.into_iter().map(|(_, line)| line).collect()
}

pub(crate) async fn overview(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    Path(id): Path<String>,
) -> Result<Shown<Overview>, Trouble> {
    let kept = shared.stores.kept(&id).await?;
    Ok(Shown(Overview {
        frame: Frame::of(&shared, Some(&visitor), &headers),
        head: Head::of(&kept),
        stages: stages(&kept),
        next: NextThing::of(&kept),
    }))
}
