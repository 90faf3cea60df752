//! A job: what its events add up to.
//!
//! [`Job`] is a fold of the log and needs nothing else: an event that can't follow what stands
//! before it is refused and changes nothing. [`Plan`] adds the definitions: which steps are due,
//! what each still lacks, which gate holds. [`deed`] turns what a person does into events.

mod ahead;
mod assess;
mod assessments;
pub mod deed;
mod limits;
mod load;
mod opening;
mod plan;
mod recompute;
mod seating;
mod step;

use std::collections::BTreeMap;

use jiff::Timestamp;
use ringtrue_metrology::conformity::Verdict;
use ringtrue_words::{say, words};

pub use ahead::look_ahead;
pub use assess::AssessError;
pub use assessments::{JobAssessments, JudgedCheck, JudgedLoad, JudgedTry, assessments, checks_at};
pub use opening::{Definitions, opening};
pub use plan::{Documents, Plan, PlanError, Standing, StepStanding, whole_joint};
pub use recompute::{Recomputed, recompute};
pub use step::{AssessedAt, GivenAt, StepState};

use crate::digest::Digest;
use crate::event::{Author, Event, FollowedUp, Meaning, Opened, Payload, Place};
use crate::person::Role;
use crate::record::Link;

/// State of a job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Job {
    /// Its id.
    pub id: String,
    /// What it is about.
    pub opened: Opened,
    /// When it was opened.
    pub opened_at: Timestamp,
    /// Its events in short, in their order.
    pub log: Vec<Entry>,
    /// Hash of its last event.
    pub last_hash: Digest,
    /// What was recorded at each step.
    pub steps: BTreeMap<Place, StepState>,
    /// Signatures, in their order.
    pub signatures: Vec<SignedAt>,
    /// What became known after the job.
    pub follow_ups: Vec<(u64, FollowedUp)>,
}

/// An event in short.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// When.
    pub at: Timestamp,
    /// Who.
    pub author: Author,
    /// Its kind, as records name it.
    pub kind: &'static str,
    /// Where, where it has a place.
    pub place: Option<Place>,
    /// The correction by which it no longer counts.
    pub corrected_by: Option<u64>,
}

/// A signature on the job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SignedAt {
    /// The event's number.
    pub sequence: u64,
    /// When.
    pub at: Timestamp,
    /// Who.
    pub author: Author,
    /// What for.
    pub meaning: Meaning,
    /// The hash that it covers.
    pub covers: Digest,
}

/// Why an event can't follow what stands before it.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Refusal {
    /// The log does not start with an opening, or has two.
    #[error("{}", say!("refusal-opening"))]
    Opening,
    /// It belongs to another job.
    #[error("{}", say!("refusal-other-job", job = .0))]
    OtherJob(String),
    /// Its number is not the next one.
    #[error("{}", say!("refusal-sequence", number = .0, next = .1))]
    Sequence(u64, u64),
    /// The author's role does not allow it.
    #[error(
        "{}",
        say!(
            "refusal-role",
            name = .name,
            role = words().of("role-", .role.name()),
            wanted = .wanted
        )
    )]
    Role {
        /// Who.
        name: String,
        /// As what.
        role: Role,
        /// Who may.
        wanted: &'static str,
    },
    /// One name stands twice.
    #[error("{}", say!("refusal-given-twice", name = .0))]
    GivenTwice(String),
    /// There is no such event.
    #[error("{}", say!("refusal-no-event", event = .0))]
    NoEvent(u64),
    /// An event of this kind is not corrected.
    #[error("{}", say!("refusal-not-correctable", event = .0, kind = .1))]
    NotCorrectable(u64, &'static str),
    /// It was corrected already.
    #[error("{}", say!("refusal-already-corrected", event = .0, by = .1))]
    AlreadyCorrected(u64, u64),
    /// Evidence in the place of something that holds none.
    #[error("{}", say!("refusal-no-evidence", event = .0))]
    NoEvidence(u64),
    /// The verdict is not the last one of that gate.
    #[error("{}", say!("refusal-not-the-last-verdict", event = .0, place = .1.to_string()))]
    NotTheLastVerdict(u64, Place),
    /// The gate conforms.
    #[error("{}", say!("refusal-conforms", gate = .0.to_string()))]
    Conforms(Place),
    /// No reason was given.
    #[error("{}", say!("refusal-no-reason"))]
    NoReason,
    /// The signature covers another history.
    #[error("{}", say!("refusal-covers"))]
    Covers,
    /// The second person is the first.
    #[error("{}", say!("refusal-same-person", name = .0))]
    SamePerson(String),
    /// There is nothing yet that a second person could look at.
    #[error("{}", say!("refusal-nothing-to-see"))]
    NothingToSee,
    /// The job is signed.
    #[error("{}", say!("refusal-signed"))]
    Signed,
    /// The job is not signed.
    #[error("{}", say!("refusal-not-signed"))]
    NotSigned,
}

/// How far a job has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// Work goes on.
    Open,
    /// A gate holds it.
    Held,
    /// Signed as a whole.
    Signed,
    /// Signed as a whole, and changed since.
    ChangedSinceSigned,
}

impl State {
    /// In words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::Held => "held",
            Self::Signed => "signed",
            Self::ChangedSinceSigned => "changed since signed",
        }
    }
}

impl Job {
    /// A job from its first event.
    ///
    /// # Errors
    /// [`Refusal`] when it is no opening.
    pub fn open(event: &Event, hash: Digest) -> Result<Self, Refusal> {
        let Payload::Opened(opened) = &event.payload else { return Err(Refusal::Opening) };
        if event.sequence != 1 {
            return Err(Refusal::Sequence(event.sequence, 1));
        }
        works(&event.author)?;
        Ok(Self {
            id: event.job.clone(),
            opened: opened.clone(),
            opened_at: event.at,
            log: vec![Entry::of(event)],
            last_hash: hash,
            steps: BTreeMap::new(),
            signatures: Vec::new(),
            follow_ups: Vec::new(),
        })
    }

    /// A job from its whole log.
    ///
    /// # Errors
    /// The number of the first event that is refused, and why.
    pub fn fold(log: &[Link]) -> Result<Self, (u64, Refusal)> {
        let (first, rest) = log.split_first().ok_or((0, Refusal::Opening))?;
        let mut job = Self::open(&first.event, first.hash).map_err(|refusal| (1, refusal))?;
        for link in rest {
            job.apply(&link.event, link.hash).map_err(|refusal| (link.event.sequence, refusal))?;
        }
        Ok(job)
    }

    /// Number of events.
    #[must_use]
    pub fn events(&self) -> u64 {
        self.log.len() as u64
    }

    /// Takes the next event in.
    ///
    /// # Errors
    /// [`Refusal`]; the job is as it was.
    pub fn apply(&mut self, event: &Event, hash: Digest) -> Result<(), Refusal> {
        self.fits(event)?;
        match &event.payload {
            Payload::Opened(_) => {}
            Payload::Recorded(recorded) => {
                self.steps.entry(recorded.place.clone()).or_default().give(event, &recorded.given);
            }
            Payload::Assessed(assessed) => {
                let step = self.steps.entry(assessed.place.clone()).or_default();
                step.assessments.push(AssessedAt::of(event.sequence, assessed));
            }
            Payload::Corrected(corrected) => {
                let place = self.entry(corrected.event).and_then(|entry| entry.place.clone());
                if let Some(entry) = self.log.get_mut(corrected.event as usize - 1) {
                    entry.corrected_by = Some(event.sequence);
                }
                if let Some(step) = place.and_then(|place| self.steps.get_mut(&place)) {
                    step.withdraw(corrected.event);
                    if !corrected.given.is_empty() {
                        step.give(event, &corrected.given);
                    }
                }
                self.follow_ups.retain(|(sequence, _)| *sequence != corrected.event);
            }
            Payload::Overridden(overridden) => {
                let step = self.steps.entry(overridden.place.clone()).or_default();
                step.overrides.push((event.sequence, overridden.assessment));
            }
            Payload::Signed(signed) => self.signatures.push(SignedAt {
                sequence: event.sequence,
                at: event.at,
                author: event.author.clone(),
                meaning: signed.meaning.clone(),
                covers: signed.covers,
            }),
            Payload::FollowedUp(followed) => {
                self.follow_ups.push((event.sequence, followed.clone()));
            }
        }
        let place = self.place_of(event);
        self.log.push(Entry { place, ..Entry::of(event) });
        self.last_hash = hash;
        Ok(())
    }

    /// The event with this number, in short.
    #[must_use]
    pub fn entry(&self, sequence: u64) -> Option<&Entry> {
        self.log.get(usize::try_from(sequence.checked_sub(1)?).ok()?)
    }

    /// How far it has come.
    #[must_use]
    pub fn state(&self) -> State {
        match self.signed_at() {
            Some(sequence) if self.changed_after(sequence) => State::ChangedSinceSigned,
            Some(_) => State::Signed,
            None if self.steps.values().any(StepState::holds) => State::Held,
            None => State::Open,
        }
    }

    /// Number of the last signature on the whole job.
    #[must_use]
    pub fn signed_at(&self) -> Option<u64> {
        let of_job = |signed: &&SignedAt| signed.meaning == Meaning::Job;
        self.signatures.iter().rev().find(of_job).map(|signed| signed.sequence)
    }

    fn changed_after(&self, sequence: u64) -> bool {
        self.log[sequence as usize..].iter().any(|entry| match entry.kind {
            "signed" | "followed-up" => false,
            "corrected" => entry.place.is_some(),
            _ => true,
        })
    }

    /// Where an event belongs: its own place, or that of the event it corrects.
    fn place_of(&self, event: &Event) -> Option<Place> {
        match &event.payload {
            Payload::Recorded(it) => Some(it.place.clone()),
            Payload::Assessed(it) => Some(it.place.clone()),
            Payload::Overridden(it) => Some(it.place.clone()),
            Payload::Corrected(it) => self.entry(it.event).and_then(|entry| entry.place.clone()),
            Payload::Signed(it) => match &it.meaning {
                Meaning::HoldPoint(place) => Some(place.clone()),
                Meaning::Job => None,
            },
            Payload::Opened(_) | Payload::FollowedUp(_) => None,
        }
    }

    /// May this event come next?
    fn fits(&self, event: &Event) -> Result<(), Refusal> {
        if event.job != self.id {
            return Err(Refusal::OtherJob(event.job.clone()));
        }
        let next = self.events() + 1;
        if event.sequence != next {
            return Err(Refusal::Sequence(event.sequence, next));
        }
        works(&event.author)?;
        match &event.payload {
            Payload::Opened(_) => Err(Refusal::Opening),
            Payload::Recorded(it) => {
                if self.signed_at().is_some() {
                    return Err(Refusal::Signed);
                }
                self.may_give(event, &it.place, &it.given)
            }
            Payload::Assessed(it) => match it.rests_on.iter().find(|seen| **seen >= next) {
                Some(seen) => Err(Refusal::NoEvent(*seen)),
                None => Ok(()),
            },
            Payload::Corrected(it) => self.may_correct(event, it),
            Payload::Overridden(it) => {
                if !event.author.role.overrides() {
                    return Err(wrong_role(&event.author, say!("refusal-role-engineer")));
                }
                if it.why.trim().is_empty() {
                    return Err(Refusal::NoReason);
                }
                let last = self.steps.get(&it.place).and_then(|step| step.assessments.last());
                match last {
                    Some(last) if last.sequence != it.assessment => {
                        Err(Refusal::NotTheLastVerdict(it.assessment, it.place.clone()))
                    }
                    Some(last) if last.verdict == Verdict::Conforms => {
                        Err(Refusal::Conforms(it.place.clone()))
                    }
                    Some(_) => Ok(()),
                    None => Err(Refusal::NotTheLastVerdict(it.assessment, it.place.clone())),
                }
            }
            Payload::Signed(it) if it.covers != self.last_hash => Err(Refusal::Covers),
            Payload::Signed(_) => Ok(()),
            Payload::FollowedUp(_) if self.signed_at().is_none() => Err(Refusal::NotSigned),
            Payload::FollowedUp(_) => Ok(()),
        }
    }

    fn may_correct(&self, event: &Event, it: &crate::event::Corrected) -> Result<(), Refusal> {
        if it.why.trim().is_empty() {
            return Err(Refusal::NoReason);
        }
        let Some(entry) = self.entry(it.event) else { return Err(Refusal::NoEvent(it.event)) };
        if let Some(by) = entry.corrected_by {
            return Err(Refusal::AlreadyCorrected(it.event, by));
        }
        let holds_evidence = matches!(entry.kind, "recorded" | "corrected");
        if !holds_evidence && !matches!(entry.kind, "overridden" | "followed-up") {
            return Err(Refusal::NotCorrectable(it.event, entry.kind));
        }
        match &entry.place {
            _ if it.given.is_empty() => Ok(()),
            Some(place) if holds_evidence => self.may_give(event, place, &it.given),
            Some(_) | None => Err(Refusal::NoEvidence(it.event)),
        }
    }

    /// May this author give this evidence at this step?
    fn may_give(
        &self,
        event: &Event,
        place: &Place,
        given: &[crate::event::Given],
    ) -> Result<(), Refusal> {
        use crate::event::Entry as Given;
        for (index, one) in given.iter().enumerate() {
            if given[..index].iter().any(|earlier| earlier.name == one.name) {
                return Err(Refusal::GivenTwice(one.name.clone()));
            }
        }
        let second = given.iter().any(|one| matches!(one.entry, Given::SecondPerson));
        if !second {
            return Ok(());
        }
        let same = || Err(Refusal::SamePerson(event.author.name.clone()));
        if given.iter().any(|one| !matches!(one.entry, Given::SecondPerson)) {
            return same();
        }
        let mut first: Vec<&Author> =
            self.steps.get(place).map(StepState::first_persons).unwrap_or_default();
        if first.is_empty() {
            // A step that asks for nothing else: the one who worked last before it is the first.
            let worked =
                |entry: &&Entry| entry.kind == "recorded" && entry.place.as_ref() != Some(place);
            first.extend(self.log.iter().rev().find(worked).map(|entry| &entry.author));
        }
        if first.is_empty() {
            return Err(Refusal::NothingToSee);
        }
        if first.iter().any(|first| first.is(&event.author)) { same() } else { Ok(()) }
    }
}

impl Entry {
    fn of(event: &Event) -> Self {
        Self {
            at: event.at,
            author: event.author.clone(),
            kind: event.payload.kind(),
            place: None,
            corrected_by: None,
        }
    }
}

fn works(author: &Author) -> Result<(), Refusal> {
    if author.role.works() {
        Ok(())
    } else {
        Err(wrong_role(author, say!("refusal-role-who-works")))
    }
}

fn wrong_role(author: &Author, wanted: &'static str) -> Refusal {
    Refusal::Role { name: author.name.clone(), role: author.role, wanted }
}

#[cfg(test)]
pub(crate) mod tests;
