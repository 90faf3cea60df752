//! What a person does, turned into events. Whatever is refused changes nothing.

use jiff::Timestamp;
use ringtrue_metrology::units::{Time, UnitError, parse};
use ringtrue_seal::definition::procedure::{EvidenceKind, Need, Step};
use ringtrue_words::say;

use super::assess::{self, AssessError, Ground};
use super::load;
use super::plan::{Documents, Plan, PlanError, Standing, StepStanding};
use super::{Job, Refusal};
use crate::Curves;
use crate::event::{
    Corrected, Entry, Event, FollowedUp, Given, Meaning, Opened, Overridden, Payload, Place,
    Recorded, Signed,
};
use crate::person::Unlocked;
use crate::record::{self, Link};

/// Longest text of a person: a reason, a note.
pub const LONGEST_WORDS: usize = 10_000;

/// What a person does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Deed {
    /// Records evidence at a step.
    Record(Recorded),
    /// Corrects an earlier event.
    Correct(Corrected),
    /// Passes a gate that holds.
    Override {
        /// The gate's step.
        place: Place,
        /// Why.
        why: String,
    },
    /// Signs: the hold point named, else the first that waits, else the whole job.
    Sign(Option<Place>),
    /// Says what became known later.
    FollowUp(FollowedUp),
}

/// Who does it, when and where.
#[derive(Debug, Clone, Copy)]
pub struct Now<'n> {
    /// When.
    pub at: Timestamp,
    /// The person, whose passphrase was right.
    pub person: &'n Unlocked,
    /// The device.
    pub device: &'n str,
    /// The program.
    pub program_version: &'n str,
    /// Who solves the curves of load rings.
    pub curves: &'n dyn Curves,
}

/// Why a deed is refused.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum DeedError {
    /// The job's state does not allow it.
    #[error(transparent)]
    Refused(#[from] Refusal),
    /// The definitions can't be used.
    #[error(transparent)]
    Plan(#[from] PlanError),
    /// A gate can't be judged on what is given.
    #[error(transparent)]
    Assess(#[from] AssessError),
    /// The procedure has no such step for this joint.
    #[error("{}", say!("refusal-no-step", place = .place.to_string()))]
    NoStep {
        /// What was named.
        place: Place,
        /// Ids that are due, a half's with its half.
        near: Vec<String>,
    },
    /// An earlier gate is not passed.
    #[error(
        "{}",
        say!(
            "refusal-gate-before",
            gate = .gate.to_string(), place = .place.to_string()
        )
    )]
    GateBefore {
        /// The gate.
        gate: Place,
        /// How far it is.
        standing: Standing,
        /// The step that waits.
        place: Place,
    },
    /// The step does not ask for this.
    #[error("{}", say!("refusal-not-asked", place = .place.to_string(), name = .name))]
    NotAsked {
        /// The step.
        place: Place,
        /// What was given.
        name: String,
        /// What it asks for.
        asked: Vec<String>,
    },
    /// Another kind of evidence is asked for.
    #[error(
        "{}",
        say!(
            "refusal-other-kind",
            name = .name, place = .place.to_string(), kind = kind_words(*.wanted)
        )
    )]
    OtherKind {
        /// The step.
        place: Place,
        /// The evidence.
        name: String,
        /// What is asked for.
        wanted: EvidenceKind,
    },
    /// The step asks for something, and nothing is given.
    #[error("{}", say!("refusal-nothing-given", place = .0.to_string()))]
    NothingGiven(Place),
    /// A value can't be read.
    #[error("`{name}`: {}", .error.found)]
    Value {
        /// The evidence.
        name: String,
        /// What does not fit.
        error: UnitError,
    },
    /// A text is empty or too long.
    #[error("{}", say!("refusal-words", name = .0, most = LONGEST_WORDS))]
    Words(String),
    /// A text holds what can't be printed.
    #[error("{}", say!("refusal-unprintable", name = .0))]
    Unprintable(String),
    /// A photo or another file holds nothing.
    #[error("{}", say!("refusal-empty-file", name = .0))]
    EmptyFile(String),
    /// No gate of this step was judged.
    #[error("{}", say!("refusal-not-judged", place = .0.to_string()))]
    NotJudged(Place),
    /// There is something to do before the job can be signed.
    #[error("{}", say!("refusal-still-due", place = .0.to_string()))]
    StillDue(Place),
    /// The hold point does not wait for a signature.
    #[error("{}", say!("refusal-not-waiting", place = .0.to_string()))]
    NotWaiting(Place),
}

/// A kind of evidence, in words.
#[must_use]
pub fn kind_words(kind: EvidenceKind) -> &'static str {
    match kind {
        EvidenceKind::Tick => say!("job-a-tick"),
        EvidenceKind::Value => say!("job-a-value"),
        EvidenceKind::ReadingSet => say!("job-set-readings"),
        EvidenceKind::Photo => say!("job-a-photo"),
        EvidenceKind::Text => say!("job-a-text"),
        EvidenceKind::SecondPerson => say!("job-second-person"),
    }
}

/// Opens a job.
///
/// # Errors
/// [`DeedError`] when the definitions can't be used or the person may not.
pub fn open(
    id: &str,
    opened: Opened,
    documents: &Documents,
    now: &Now<'_>,
) -> Result<(Job, Link), DeedError> {
    Plan::of(&opened, documents)?;
    let event = Event {
        job: id.to_owned(),
        sequence: 1,
        at: now.at,
        author: now.person.author().clone(),
        device: now.device.to_owned(),
        payload: Payload::Opened(opened),
    };
    let link = record::link(event, &crate::digest::Digest::NONE);
    Ok((Job::open(&link.event, link.hash)?, link))
}

/// What a deed makes of a job: the job after it, and the events to append.
///
/// # Errors
/// [`DeedError`]
pub fn submit(
    job: &Job,
    plan: &Plan,
    deed: Deed,
    now: &Now<'_>,
) -> Result<(Job, Vec<Link>), DeedError> {
    let mut log = Log { job: job.clone(), links: Vec::new(), now };
    match deed {
        Deed::Record(recorded) => record_at(&mut log, plan, recorded)?,
        Deed::Correct(corrected) => correct(&mut log, plan, corrected)?,
        Deed::Override { place, why } => {
            words("why", &why)?;
            let step = step_of(plan, &place)?;
            let last = job.steps.get(&place).and_then(|state| state.verdict());
            let assessment = match (last, step.gate) {
                (Some(last), Some(_)) => last.sequence,
                (_, _) => return Err(DeedError::NotJudged(place)),
            };
            log.append(Payload::Overridden(Overridden { place, assessment, why }))?;
        }
        Deed::Sign(place) => {
            let meaning = meaning(job, plan, place)?;
            log.sign(meaning)?;
        }
        Deed::FollowUp(followed) => {
            if let Some(hours) = &followed.hours {
                parse::<Time>(hours)
                    .map_err(|error| DeedError::Value { name: "hours".to_owned(), error })?;
            }
            if !followed.note.is_empty() {
                words("note", &followed.note)?;
            }
            log.append(Payload::FollowedUp(followed))?;
        }
    }
    Ok((log.job, log.links))
}

/// A job to which events are appended.
struct Log<'n> {
    job: Job,
    links: Vec<Link>,
    now: &'n Now<'n>,
}

impl Log<'_> {
    fn append(&mut self, payload: Payload) -> Result<(), Refusal> {
        let event = Event {
            job: self.job.id.clone(),
            sequence: self.job.events() + 1,
            at: self.now.at,
            author: self.now.person.author().clone(),
            device: self.now.device.to_owned(),
            payload,
        };
        let link = record::link(event, &self.job.last_hash);
        self.job.apply(&link.event, link.hash)?;
        self.links.push(link);
        Ok(())
    }

    fn sign(&mut self, meaning: Meaning) -> Result<(), Refusal> {
        let covers = self.job.last_hash;
        let message = record::signed_message(&self.job.id, &meaning, &covers);
        let signature = self.now.person.sign(&message);
        self.append(Payload::Signed(Signed { meaning, covers, signature }))
    }

    /// Judges the gate of a step, where what decides is there, and again what rests on it.
    fn judge(&mut self, plan: &Plan, place: &Place) -> Result<(), DeedError> {
        self.judge_one(plan, place)?;
        for resting in load::resting_on(plan, &self.job, place) {
            self.judge_one(plan, &resting)?;
        }
        Ok(())
    }

    fn judge_one(&mut self, plan: &Plan, place: &Place) -> Result<(), DeedError> {
        let (Some(step), true) = (plan.step(place), self.job.steps.contains_key(place)) else {
            return Ok(());
        };
        let Some(gate) = step.gate else { return Ok(()) };
        let ground = Ground { plan, job: &self.job, curves: self.now.curves };
        if let Some(judged) = assess::assess(ground, (place, step))? {
            let version = self.now.program_version;
            self.append(assess::payload(judged, (place, gate.decided_by), version))?;
        }
        Ok(())
    }
}

fn record_at(log: &mut Log<'_>, plan: &Plan, recorded: Recorded) -> Result<(), DeedError> {
    let place = recorded.place.clone();
    let step = step_of(plan, &place)?;
    if let Some(gate) = plan.gate_before(&log.job, &place) {
        let StepStanding { place: gate, standing, .. } = gate;
        return Err(DeedError::GateBefore { gate: gate.clone(), standing, place });
    }
    let asks = step.evidence.iter().any(|asked| asked.need == Need::Always);
    if recorded.given.is_empty() && asks {
        return Err(DeedError::NothingGiven(place));
    }
    check_given(plan, (&place, step), &recorded.given)?;
    log.append(Payload::Recorded(recorded))?;
    log.judge(plan, &place)
}

fn correct(log: &mut Log<'_>, plan: &Plan, corrected: Corrected) -> Result<(), DeedError> {
    words("why", &corrected.why)?;
    let place = log.job.entry(corrected.event).and_then(|entry| entry.place.clone());
    if let Some(place) = &place {
        let step = step_of(plan, place)?;
        check_given(plan, (place, step), &corrected.given)?;
    }
    let replaced = log.job.entry(corrected.event).map(|entry| entry.kind);
    log.append(Payload::Corrected(corrected))?;
    match place {
        // An override that is withdrawn leaves the verdict as it was.
        Some(place) if replaced != Some("overridden") => log.judge(plan, &place),
        Some(_) | None => Ok(()),
    }
}

fn step_of<'p>(plan: &'p Plan, place: &Place) -> Result<&'p Step, DeedError> {
    plan.step(place).ok_or_else(|| DeedError::NoStep {
        place: place.clone(),
        near: plan.due().iter().map(ToString::to_string).collect(),
    })
}

/// Is this what the step asks for, and can it be read?
fn check_given(
    plan: &Plan,
    (place, step): (&Place, &Step),
    given: &[Given],
) -> Result<(), DeedError> {
    for Given { name, entry } in given {
        let asked = step.evidence(name).ok_or_else(|| DeedError::NotAsked {
            place: place.clone(),
            name: name.clone(),
            asked: step.evidence.iter().map(|asked| asked.name.clone()).collect(),
        })?;
        if kind_of(entry) != asked.kind {
            let (place, name) = (place.clone(), name.clone());
            return Err(DeedError::OtherKind { place, name, wanted: asked.kind });
        }
        match entry {
            Entry::Value(value) => {
                let quantity = asked.quantity.or(asked.limit.map(|limit| limit.quantity()));
                let Some(quantity) = quantity else { continue };
                let gauge = value.gauge.and_then(|gauge| plan.gauge(&gauge));
                quantity
                    .read_si(&value.typed)
                    .and_then(|_| super::limits::uncertainty(quantity, value, gauge))
                    .map_err(|error| DeedError::Value { name: name.clone(), error })?;
            }
            Entry::Readings(readings) => {
                assess::can_be_read(plan, place, (asked, readings))?;
            }
            Entry::Text(text) => words(name, text)?,
            Entry::Photo(photo) if photo.length == 0 => {
                return Err(DeedError::EmptyFile(name.clone()));
            }
            Entry::Tick(_) | Entry::Photo(_) | Entry::SecondPerson => {}
        }
    }
    Ok(())
}

fn kind_of(entry: &Entry) -> EvidenceKind {
    match entry {
        Entry::Tick(_) => EvidenceKind::Tick,
        Entry::Value(_) => EvidenceKind::Value,
        Entry::Readings(_) => EvidenceKind::ReadingSet,
        Entry::Photo(_) => EvidenceKind::Photo,
        Entry::Text(_) => EvidenceKind::Text,
        Entry::SecondPerson => EvidenceKind::SecondPerson,
    }
}

fn words(name: &str, text: &str) -> Result<(), DeedError> {
    let length = text.chars().count();
    if text.trim().is_empty() || length > LONGEST_WORDS {
        return Err(DeedError::Words(name.to_owned()));
    }
    // Who reads it in a terminal would have it cleared or painted over.
    if text.contains(|c: char| c.is_control() && !matches!(c, '\n' | '\r' | '\t')) {
        return Err(DeedError::Unprintable(name.to_owned()));
    }
    Ok(())
}

/// What a signature is given for now.
fn meaning(job: &Job, plan: &Plan, place: Option<Place>) -> Result<Meaning, DeedError> {
    let standings = plan.standings(job);
    let waits = |one: &StepStanding<'_>| one.standing == Standing::Unsigned;
    if let Some(place) = place {
        let waiting = standings.iter().any(|one| *one.place == place && waits(one));
        return if waiting {
            Ok(Meaning::HoldPoint(place))
        } else {
            Err(DeedError::NotWaiting(place))
        };
    }
    if let Some(waiting) = standings.iter().find(|one| waits(one)) {
        return Ok(Meaning::HoldPoint(waiting.place.clone()));
    }
    match standings.iter().find(|one| !one.standing.is_done()) {
        Some(open) => Err(DeedError::StillDue(open.place.clone())),
        None => Ok(Meaning::Job),
    }
}
