//! One step: what, why, what to take care of, what is recorded, and the verdict.

use std::sync::Arc;

use askama::Template;
use axum::extract::{Path, State};
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Response};
use ringtrue_job::digest::Digest;
use ringtrue_job::event::{Payload, Place, summary_at};
use ringtrue_job::job::{Standing, StepState, look_ahead};
use ringtrue_metrology::conformity::Verdict;
use ringtrue_report::{Block, Cell, Section};
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::procedure::{DecidedBy, Step};
use ringtrue_words::words;

use super::Shown;
use super::evidence::{Asked, GaugeLine, RecordedLine, gauges, recorded};
use super::frame::{Frame, units_named, units_of};
use super::job::{Head, NextThing, href, standing_key};
use super::{ask_back, step_form};
use crate::curves;
use crate::kept::Kept;
use crate::web::Shared;
use crate::web::act::{self, Act};
use crate::web::compute::Compute;
use crate::web::deed::{Another, SentDeed, SentGiven};
use crate::web::fields::{Asked as Query, Fields, Form};
use crate::web::permission::Call;
use crate::web::refusal;
use crate::web::router::see_other;
use crate::web::session::Visitor;
use crate::web::trouble::Trouble;

#[derive(Template)]
#[template(path = "step.html")]
pub(crate) struct StepPage {
    frame: Frame,
    head: Head,
    href: String,
    step: String,
    half: Option<&'static str>,
    title: String,
    stage: &'static str,
    what: String,
    why: String,
    cautions: Vec<String>,
    asked: Vec<Asked>,
    /// What counts now of what the step asks for.
    recorded: Vec<RecordedLine>,
    second: Option<Asked>,
    gauges: Vec<GaugeLine>,
    wants_gauge: bool,
    gauge_typed: String,
    /// Is something typed that is not saved?
    is_typed: bool,
    standing: &'static str,
    is_done: bool,
    /// The gate that comes before it and is not passed.
    held_back: Option<HeldBack>,
    /// What is still wanted of it, where something is recorded already.
    still_wanted: String,
    verdict: Option<Judged>,
    /// What the report says of it.
    sections: Arc<Vec<Section>>,
    /// What is solved before the report can say anything: its name.
    solving: Option<Digest>,
    /// May a save wait for something to be solved?
    solves: bool,
    next: NextThing,
    /// Where the next thing is another one than this step.
    goes_on: bool,
    may_work: bool,
    may_override: bool,
    key: String,
    wrong: Option<Trouble>,
    why_override: String,
    second_name: String,
}

/// A verdict, its mark and its sentence.
pub(crate) struct Judged {
    pub(crate) word: &'static str,
    /// For styles and scripts: `not-proven`.
    pub(crate) name: &'static str,
    pub(crate) mark: String,
    pub(crate) summary: String,
    /// Who passed it over, and why.
    pub(crate) overridden: Option<String>,
}

/// A gate that keeps a step back.
struct HeldBack {
    href: String,
    gate: String,
    /// What can be done about it.
    way_on: String,
}

impl HeldBack {
    fn of(kept: &Kept, place: &Place) -> Option<Self> {
        let gate = kept.plan.gate_before(&kept.job, place)?;
        Some(Self {
            href: href(&kept.job.id, gate.place),
            gate: refusal::title(&kept.plan, gate.place),
            way_on: refusal::way_on(&gate.standing, (&kept.plan, gate.place)),
        })
    }
}

impl Judged {
    pub(crate) fn of(verdict: Verdict, summary: String) -> Self {
        let mark = ringtrue_report::verdict_mark(verdict).svg;
        Self { word: verdict.words(), name: verdict.name(), mark, summary, overridden: None }
    }
}

/// What was typed, and what was wrong with it.
#[derive(Default)]
struct Typed {
    fields: Fields,
    wrong: Option<Trouble>,
}

pub(crate) async fn of_joint(
    State(shared): State<Shared>,
    visitor: Visitor,
    (headers, Query(asked)): (HeaderMap, Query),
    Path((id, step)): Path<(String, String)>,
) -> Result<Shown<StepPage>, Trouble> {
    let typed = Typed { fields: asked, wrong: None };
    page(&shared, (&visitor, &headers), (id, Place { step, half: None }), typed).await
}

pub(crate) async fn of_half(
    State(shared): State<Shared>,
    visitor: Visitor,
    (headers, Query(asked)): (HeaderMap, Query),
    Path((id, step, half)): Path<(String, String, String)>,
) -> Result<Shown<StepPage>, Trouble> {
    let typed = Typed { fields: asked, wrong: None };
    page(&shared, (&visitor, &headers), (id, at_half(step, &half)?), typed).await
}

fn at_half(step: String, half: &str) -> Result<Place, Trouble> {
    let half = Half::BOTH.into_iter().find(|known| known.name() == half);
    Ok(Place { step, half: Some(half.ok_or_else(Trouble::not_found)?) })
}

async fn page(
    shared: &Shared,
    (visitor, headers): (&Visitor, &HeaderMap),
    (id, place): (String, Place),
    typed: Typed,
) -> Result<Shown<StepPage>, Trouble> {
    let frame = Frame::of(shared, Some(visitor), headers).at(href(&id, &place));
    // What was typed beside one unit is shown beside the same one again.
    let frame = match units_named(typed.fields.text("units")) {
        Some(units) => Frame { units, ..frame },
        None => frame,
    };
    let (bench, at, units) = (Arc::clone(shared), place.clone(), frame.units);
    let may_record = Call::Record.is_allowed(visitor.role);
    let (kept, editions, sections, ahead) = shared
        .stores
        .run(move |store| {
            let kept = bench.stores.kept_here(store, &id)?;
            let known = curves::Asked::shared();
            let sections = bench.shown.sections(&kept, &at, (units, &known));
            let ahead = Ahead::of((&bench.compute, may_record), (&kept, &at), &known);
            Ok((kept, store.library()?, sections, ahead))
        })
        .await?;
    let gauges = gauges(&kept, &editions);
    let work = Work { place: &place, gauges, sections, ahead, visitor };
    of_place(&kept, work, (frame, typed)).map(Shown).ok_or_else(Trouble::not_found)
}

/// Where, with what, by whom.
struct Work<'w> {
    place: &'w Place,
    gauges: Vec<GaugeLine>,
    sections: Arc<Vec<Section>>,
    ahead: Ahead,
    visitor: &'w Visitor,
}

/// What is solved while a page is looked at.
struct Ahead {
    /// What its report waits for.
    solving: Option<Digest>,
    /// Is a record here judged on something that is solved?
    solves: bool,
}

impl Ahead {
    /// Begins with what the page lacks and with what a record at this place will be judged on.
    /// Where many wait already, it is solved when it is asked for.
    fn of(
        (compute, may_record): (&Compute, bool),
        (kept, place): (&Kept, &Place),
        known: &curves::Asked,
    ) -> Self {
        let lacking = known.wanted();
        let next = curves::Asked::nothing();
        if kept.job.signed_at().is_none() {
            look_ahead(&kept.plan, (&kept.job, place), &next);
        }
        let next = next.wanted();
        let ahead = Self {
            solving: (!lacking.is_empty()).then(|| lacking.hash()),
            solves: !next.is_empty(),
        };
        if ahead.solving.is_some() {
            // Where many wait already, it is solved when the page looks again.
            drop(compute.solve(lacking));
        }
        if ahead.solves && may_record {
            compute.begin(next);
        }
        ahead
    }
}

fn of_place(kept: &Kept, work: Work<'_>, (frame, typed): (Frame, Typed)) -> Option<StepPage> {
    let place = work.place;
    let step = kept.plan.step(place)?;
    let state = kept.job.steps.get(place);
    let standings = kept.plan.standings(&kept.job);
    let standing = standings.into_iter().find(|one| one.place == place)?.standing;
    let verdict = state.and_then(StepState::verdict).map(|last| {
        let judged = Judged::of(last.verdict, summary_at(&last.summary, step));
        Judged { overridden: state.and_then(|state| overridden(kept, state)), ..judged }
    });
    let role = work.visitor.role;
    let next = NextThing::of(kept);
    let href = href(&kept.job.id, place);
    let goes_on = next.href() != Some(href.as_str());
    let mut asked: Vec<Asked> = step
        .evidence
        .iter()
        .map(|asked| Asked::of(asked, (kept, place), (&typed.fields, frame.units)))
        .collect();
    let second = asked.iter().position(|one| one.kind == "second-person");
    let second = second.map(|at| asked.remove(at));
    let wants_gauge = asked.iter().any(|one| one.takes_gauge);
    Some(StepPage {
        head: Head::of(kept),
        step: step.id.clone(),
        half: place.half.map(Half::name),
        title: step.title.clone(),
        stage: step.stage.name(),
        what: step.what.clone(),
        why: step.why.clone(),
        cautions: kept.plan.procedure.cautions(step).into_iter().map(str::to_owned).collect(),
        asked,
        recorded: recorded(step, (kept, place)),
        second,
        gauges: work.gauges,
        wants_gauge,
        gauge_typed: typed.fields.text("gauge").to_owned(),
        // A form that was sent carries its key.
        is_typed: typed.fields.some("key").is_some(),
        standing: standing_key(&standing),
        held_back: HeldBack::of(kept, place),
        still_wanted: still_wanted((step, state), &standing),
        is_done: standing.is_done() || standing == Standing::Unsigned,
        verdict,
        sections: work.sections,
        solving: work.ahead.solving,
        solves: work.ahead.solves,
        next,
        goes_on,
        may_work: Call::Record.is_allowed(role) && kept.job.signed_at().is_none(),
        may_override: Call::Override.is_allowed(role) && matches!(standing, Standing::Held(_)),
        key: super::form_key(),
        wrong: typed.wrong,
        why_override: typed.fields.text("why").to_owned(),
        second_name: typed.fields.text("second-name").to_owned(),
        frame,
        href,
    })
}

/// Whose decision passed over a step's last verdict, and why.
fn overridden(kept: &Kept, state: &StepState) -> Option<String> {
    let number = state.overridden()?;
    let event = kept.log.iter().map(|link| &link.event).find(|event| event.sequence == number)?;
    let Payload::Overridden(decision) = &event.payload else { return None };
    let t = words();
    let at = t.moment(event.at);
    let values = [("name", &event.author.name), ("at", &at), ("why", &decision.why)];
    Some(t.with("overridden-by", &values))
}

/// What a step still wants once something is recorded of it, each by what it asks.
fn still_wanted((step, state): (&Step, Option<&StepState>), standing: &Standing) -> String {
    let begun = state.is_some_and(|state| !state.recorded.is_empty());
    let Standing::Wants(names) = standing else { return String::new() };
    let asks = names.iter().filter_map(|name| step.evidence(name));
    let asks: Vec<String> = asks.map(|one| format!("\u{201c}{}\u{201d}", one.ask)).collect();
    if begun && !asks.is_empty() { asks.join(", ") } else { String::new() }
}

pub(crate) async fn post_of_joint(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    (Path((id, step)), Form(fields)): (Path<(String, String)>, Form),
) -> Result<Response, Trouble> {
    post(&shared, (&visitor, &headers), (id, Place { step, half: None }), fields).await
}

pub(crate) async fn post_of_half(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    (Path((id, step, half)), Form(fields)): (Path<(String, String, String)>, Form),
) -> Result<Response, Trouble> {
    post(&shared, (&visitor, &headers), (id, at_half(step, &half)?), fields).await
}

async fn post(
    shared: &Shared,
    (visitor, headers): (&Visitor, &HeaderMap),
    (id, place): (String, Place),
    fields: Fields,
) -> Result<Response, Trouble> {
    let fields = match fields.laid_out() {
        Ok(fields) => {
            let typed = Typed { fields, wrong: None };
            return Ok(page(shared, (visitor, headers), (id, place), typed).await?.into_response());
        }
        Err(fields) => fields,
    };
    let done = done(shared, visitor, (&id, &place), &fields).await;
    match done {
        Ok(to) => Ok(see_other(&to)),
        Err(wrong) if wrong.status.is_server_error() => Err(wrong),
        Err(wrong) => {
            let status = wrong.status;
            let typed = Typed { fields, wrong: Some(wrong) };
            let page = page(shared, (visitor, headers), (id, place), typed).await?;
            Ok((status, page).into_response())
        }
    }
}

/// Does what the form asks for, and says which page comes next.
async fn done(
    shared: &Shared,
    visitor: &Visitor,
    (id, place): (&str, &Place),
    fields: &Fields,
) -> Result<String, Trouble> {
    let kept = shared.stores.kept(id).await?;
    let step = kept.plan.step(place).ok_or_else(Trouble::not_found)?;
    let (step_id, half) = (place.step.clone(), place.half);
    let mut by = None;
    let deed = match fields.text("deed") {
        "second" => {
            let passphrase = fields.text("second-passphrase").to_owned().into();
            let another = Another { name: fields.text("second-name").to_owned(), passphrase };
            by = Some(another.unlock(shared, visitor).await?);
            let name = fields.text("second").to_owned();
            let given = vec![SentGiven::SecondPerson { name }];
            SentDeed::Record { step: step_id, half, given }
        }
        "override" => {
            SentDeed::Override { step: step_id, half, why: fields.text("why").to_owned() }
        }
        "sign" => SentDeed::Sign { step: Some(step_id), half },
        _ => {
            let units = units_of(fields);
            let given = step_form::given(step, fields, units)?;
            ask_back::asked(step, (&kept, place), (fields, units))?;
            SentDeed::Record { step: step_id, half, given }
        }
    };
    let expected = fields.text("expected").parse().ok();
    let once = fields.some("key").map(|key| {
        let asked = Digest::of(format!("{id} {deed:?}").as_bytes());
        (key.to_owned(), asked)
    });
    act::act(shared, visitor, Act { job: id.to_owned(), expected, once, by, deed }).await?;
    let now = shared.stores.kept(id).await?;
    // A verdict on values is shown before the work goes on.
    let shows = step.gate.is_some_and(|gate| gate.decided_by != DecidedBy::Evidence);
    let stays = shows || !is_done(&now, place);
    Ok(match NextThing::of(&now) {
        NextThing::Step { href, .. } if !stays => href,
        NextThing::Step { .. } | NextThing::Sign | NextThing::Nothing => href(id, place),
    })
}

fn is_done(kept: &Kept, place: &Place) -> bool {
    let standings = kept.plan.standings(&kept.job);
    standings.iter().any(|one| one.place == place && one.standing.is_done())
}
