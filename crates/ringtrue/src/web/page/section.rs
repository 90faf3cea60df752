//! The computed load ring as the joint closes, and what a change would do to the face load.

use std::convert::Infallible;
use std::time::Duration;

use askama::Template;
use axum::Json;
use axum::extract::{Path, State};
use axum::http::{HeaderMap, StatusCode};
use axum::response::sse::{Event, Sse};
use axum::response::{IntoResponse, Response};
use futures_util::stream::Stream;
use ringtrue_job::evidence;
use ringtrue_metrology::units::{Length, Quantity, System};
use ringtrue_report::{
    ClosingFrame, Drawing, FrameWords, closing, closing_drawing, frame_words, gap_words,
    load_compared, load_over_gap,
};
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::face_load::{Input, Outcome};
use ringtrue_seal::gap_stack;
use serde::Serialize;
use tokio::sync::watch;

use super::frame::{Frame, units_of};
use super::job::Head;
use super::step::Judged;
use super::trial::{self, Trial};
use super::{Shown, solving};
use crate::kept::Kept;
use crate::problem::Problem;
use crate::web::Shared;
use crate::web::compute::{Busy, Load, Progress};
use crate::web::fields::Asked;
use crate::web::session::Visitor;
use crate::web::trouble::Trouble;
use ringtrue_words::words;

/// What a person does not notice: a cached curve is back before.
const A_MOMENT: Duration = Duration::from_millis(80);

#[derive(Template)]
#[template(path = "section.html")]
struct Section {
    frame: Frame,
    head: Head,
    state: Shows,
    at: usize,
}

/// What a page of loads shows.
enum Shows {
    /// Not there yet: halves solved, of how many, seconds so far.
    Solving { solved: usize, of: usize, seconds: u64 },
    /// There.
    Done(Box<Drawn>),
}

/// A solved joint at one gap.
struct Drawn {
    verdict: Judged,
    frames: Vec<ClosingFrame>,
    /// What the frame that is shown says, the gap that measured sizes make, and the feelers' mean.
    words: Option<FrameWords>,
    measured: Option<String>,
    feelers: Option<String>,
    halves: Vec<Drawing>,
    curve: Option<Drawing>,
    remarks: Vec<String>,
}

#[derive(Template)]
#[template(path = "try.html")]
struct Try {
    frame: Frame,
    head: Head,
    trial: Trial,
    wrong: Option<Trouble>,
    state: Option<Shows>,
    compared: Option<Drawing>,
    rows: Vec<trial::Row>,
}

/// The load of a job's joint at its nominal gap.
pub(super) fn of_job(kept: &Kept) -> Result<Input, Trouble> {
    let room = |error| Trouble::from(Problem::room(error));
    let chain = evidence::joint_gap(&kept.plan.joint, None).map_err(room)?;
    let nominal = gap_stack::nominal(&chain).map_err(room)?;
    evidence::joint_load(&kept.plan.joint, kept.plan.materials(), nominal, None).map_err(room)
}

fn ask(shared: &Shared, input: Input) -> Result<watch::Receiver<Progress<Load>>, Trouble> {
    shared.compute.load(input).map_err(|Busy| {
        let t = words();
        let said = (StatusCode::SERVICE_UNAVAILABLE, "busy");
        Trouble::new(said, t.say("section-busy"), t.say("trouble-busy-next"))
    })
}

/// How far it is, once a cached one has had the time to come back.
async fn soon(mut progress: watch::Receiver<Progress<Load>>) -> Progress<Load> {
    let done = progress.wait_for(Progress::is_done);
    // Late or not: what is there now is told.
    drop(tokio::time::timeout(A_MOMENT, done).await);
    progress.borrow().clone()
}

/// Draws beside the requests.
async fn beside<T: Send + 'static>(
    draw: impl FnOnce() -> Result<T, Trouble> + Send + 'static,
) -> Result<T, Trouble> {
    tokio::task::spawn_blocking(draw).await.unwrap_or_else(|_| Err(Trouble::fault()))
}

/// What is shown of a solved joint.
#[derive(Debug, Clone, Copy)]
struct View {
    /// Which frame.
    at: usize,
    /// The gap that measured sizes make.
    measured: Option<Length>,
    /// The mean gap of the feelers round the closed joint.
    feelers: Option<Length>,
    system: System,
}

fn state(progress: Progress<Load>, view: View) -> Result<Shows, Trouble> {
    let solved = match progress {
        Progress::Waiting => return Ok(Shows::Solving { solved: 0, of: 2, seconds: 0 }),
        Progress::Solving { solved, of, since } => {
            return Ok(Shows::Solving { solved, of, seconds: since.elapsed().as_secs() });
        }
        Progress::Done(done) => done.map_err(|error| Trouble::from(Problem::room(error)))?,
    };
    Ok(Shows::Done(Box::new(drawn(solved.outcome(), view))))
}

fn drawn(outcome: &Outcome, view: View) -> Drawn {
    let system = view.system;
    let frames = closing(outcome);
    let frame = frames.get(view.at.min(frames.len().saturating_sub(1)));
    let gap = frame.map(|frame| frame.gap_mm);
    let [measured_mm, feelers_mm] =
        [view.measured, view.feelers].map(|gap| gap.map(|gap| gap.si() * 1e3));
    let both = [measured_mm, feelers_mm];
    let half = |half| closing_drawing(outcome, half, gap?, system);
    Drawn {
        verdict: Judged::of(outcome.verdict, words().say("section-verdict")),
        halves: Half::BOTH.into_iter().filter_map(half).collect(),
        curve: gap.and_then(|gap| load_over_gap(outcome, gap, both, system)),
        remarks: outcome.remarks.clone(),
        words: frame.map(|frame| frame_words(frame, system)),
        measured: measured_mm.map(|gap| gap_words(gap, system)),
        feelers: feelers_mm.map(|gap| gap_words(gap, system)),
        frames,
    }
}

pub(crate) async fn page(
    State(shared): State<Shared>,
    visitor: Visitor,
    (headers, Asked(asked)): (HeaderMap, Asked),
    Path(id): Path<String>,
) -> Result<Response, Trouble> {
    let kept = shared.stores.kept(&id).await?;
    let frame = Frame::of(&shared, Some(&visitor), &headers).at(format!("/jobs/{id}/section"));
    let progress = soon(ask(&shared, of_job(&kept)?)?).await;
    let at = asked.text("frame").parse().unwrap_or(usize::MAX);
    let (measured, feelers) = (kept.plan.measured_gap(&kept.job), kept.plan.feeler_gap(&kept.job));
    let view = View { at, measured, feelers, system: frame.units };
    let state = beside(move || state(progress, view)).await?;
    let at = match &state {
        Shows::Done(drawn) => at.min(drawn.frames.len().saturating_sub(1)),
        Shows::Solving { .. } => 0,
    };
    Ok(Shown(Section { head: Head::of(&kept), state, at, frame }).into_response())
}

/// What programs are told of a section.
#[derive(Serialize)]
#[serde(tag = "state", rename_all = "kebab-case")]
pub(super) enum Told<'o> {
    Solving { solved: usize, of: usize, seconds: u64 },
    Done { frames: Vec<ClosingFrame>, loads: &'o Outcome },
    Failed { what: String, do_next: String },
}

pub(crate) async fn json(
    State(shared): State<Shared>,
    Path(id): Path<String>,
) -> Result<Response, Trouble> {
    let kept = shared.stores.kept(&id).await?;
    let progress = soon(ask(&shared, of_job(&kept)?)?).await;
    Ok(if let Progress::Done(Ok(solved)) = &progress {
        let loads = solved.outcome();
        Json(Told::Done { frames: closing(loads), loads }).into_response()
    } else {
        (StatusCode::ACCEPTED, Json(on_the_way(&progress))).into_response()
    })
}

/// What is told of one that is not there; of one that is, that it is.
fn on_the_way(progress: &Progress<Load>) -> Told<'static> {
    match progress {
        Progress::Waiting => Told::Solving { solved: 0, of: 2, seconds: 0 },
        Progress::Solving { solved, of, since } => {
            Told::Solving { solved: *solved, of: *of, seconds: since.elapsed().as_secs() }
        }
        Progress::Done(Ok(_)) => Told::Solving { solved: 2, of: 2, seconds: 0 },
        Progress::Done(Err(error)) => {
            let problem = Problem::room(error.clone());
            Told::Failed { what: problem.what(), do_next: problem.do_next() }
        }
    }
}

/// How far it is, until it is there: `progress` events, then one `done`.
pub(crate) async fn progress(
    State(shared): State<Shared>,
    Path(id): Path<String>,
) -> Result<Sse<impl Stream<Item = Result<Event, Infallible>>>, Trouble> {
    let kept = shared.stores.kept(&id).await?;
    Ok(solving::told(ask(&shared, of_job(&kept)?)?, on_the_way))
}

pub(crate) async fn try_a_change(
    State(shared): State<Shared>,
    visitor: Visitor,
    (headers, Asked(asked)): (HeaderMap, Asked),
    Path(id): Path<String>,
) -> Result<Response, Trouble> {
    let kept = shared.stores.kept(&id).await?;
    let frame = Frame::of(&shared, Some(&visitor), &headers).at(format!("/jobs/{id}/try"));
    // Bare numbers are in the units that the form showed.
    let system = if asked.some("units").is_some() { units_of(&asked) } else { frame.units };
    let trial = Trial::of(&kept, &asked, system);
    let frame = Frame { units: system, ..frame };
    let mut page = Try {
        head: Head::of(&kept),
        trial,
        wrong: None,
        state: None,
        compared: None,
        rows: Vec::new(),
        frame,
    };
    if page.trial.is_empty() {
        return Ok(Shown(page).into_response());
    }
    let input = match page.trial.input(&kept) {
        Ok(input) => input,
        Err(wrong) => {
            let status = wrong.status;
            page.wrong = Some(wrong);
            return Ok((status, Shown(page)).into_response());
        }
    };
    let (own, changed) = (ask(&shared, of_job(&kept)?)?, ask(&shared, input)?);
    match (soon(own).await, soon(changed).await) {
        (Progress::Done(Ok(own)), Progress::Done(Ok(changed))) => {
            let both = [own.outcome(), changed.outcome()];
            page.compared = load_compared(both, page.frame.units);
            page.rows = trial::rows(both, page.frame.units);
        }
        (Progress::Done(Err(error)), _) | (_, Progress::Done(Err(error))) => {
            page.wrong = Some(Problem::room(error).into());
        }
        (own, changed) => {
            let late = if matches!(own, Progress::Done(_)) { changed } else { own };
            let view = View { at: 0, measured: None, feelers: None, system: page.frame.units };
            page.state = Some(state(late, view)?);
        }
    }
    Ok(Shown(page).into_response())
}
