//! The record: an append-only log of events, each chained to the one before it.
//!
//! The hash of an event is BLAKE3 over `ringtrue event` and a zero byte, the hash of the event
//! before it (32 zero bytes before the first) and its own canonical bytes. A signature is Ed25519
//! over `ringtrue signature` and a zero byte, the job's id, what it is given for, and the hash that
//! it covers. Nothing here reads a file or a clock.

mod export;
mod wire;
mod wire_two;

use ringtrue_seal::definition::joint::Half;
use serde::{Deserialize, Serialize};

pub use export::{Attachment, Export, ExportError, JobLog, read_export};

use crate::digest::Digest;
use crate::event::{Author, Event, Meaning, Payload};
use crate::person;

/// Longest canonical bytes of one event: readings of a ring are a few hundred.
pub const LONGEST_EVENT: usize = 4 << 20;

/// An event as it stands in the log.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Link {
    /// The event.
    pub event: Event,
    /// Its canonical bytes, as they were written.
    pub bytes: Vec<u8>,
    /// Its hash, the one before it taken in.
    pub hash: Digest,
}

/// Writes an event down behind the one with this hash.
#[must_use]
pub fn link(event: Event, before: &Digest) -> Link {
    let bytes = canonical(&event);
    let hash = hash(&bytes, before);
    Link { event, bytes, hash }
}

/// Canonical bytes of an event, in the newest form.
#[must_use]
pub fn canonical(event: &Event) -> Vec<u8> {
    Form::of(event).written()
}

/// An event as a form writes it down.
#[derive(Serialize, Deserialize)]
enum Form {
    #[serde(rename = "form-1")]
    One(wire::Event),
    #[serde(rename = "form-2")]
    Two(wire_two::Event),
}

impl Form {
    /// An event in the newest form.
    fn of(event: &Event) -> Self {
        Self::Two(wire_two::Event::of(event))
    }

    /// What canonical bytes hold; `None` where they hold no event of a known form.
    fn read(bytes: &[u8]) -> Option<Self> {
        match bytes.split_first()? {
            (&wire::FORM, rest) => whole(rest).map(Self::One),
            (&wire_two::FORM, rest) => whole(rest).map(Self::Two),
            _ => None,
        }
    }

    /// The canonical bytes.
    fn written(&self) -> Vec<u8> {
        let bytes = match self {
            Self::One(event) => postcard::to_extend(event, vec![wire::FORM]),
            Self::Two(event) => postcard::to_extend(event, vec![wire_two::FORM]),
        };
        bytes.expect("a vector takes any length, and no form holds a type that postcard refuses")
    }

    fn living(self) -> Option<Event> {
        match self {
            Self::One(event) => event.living(),
            Self::Two(event) => event.living(),
        }
    }
}

/// A value that takes all of the bytes.
fn whole<'b, T: Deserialize<'b>>(bytes: &'b [u8]) -> Option<T> {
    match postcard::take_from_bytes(bytes) {
        Ok((value, [])) => Some(value),
        Ok(_) | Err(_) => None,
    }
}

/// The event that canonical bytes of any form hold; `None` where they hold none.
#[must_use]
pub fn read(bytes: &[u8]) -> Option<Event> {
    Form::read(bytes)?.living()
}

/// Hash of an event's canonical bytes behind the event with the hash `before`.
#[must_use]
pub fn hash(bytes: &[u8], before: &Digest) -> Digest {
    let mut hasher = blake3::Hasher::new();
    hasher.update(b"ringtrue event\0");
    hasher.update(&before.0);
    hasher.update(bytes);
    Digest(*hasher.finalize().as_bytes())
}

/// What a signature signs.
#[must_use]
pub fn signed_message(job: &str, meaning: &Meaning, covers: &Digest) -> Vec<u8> {
    let mut message = b"ringtrue signature\0".to_vec();
    let mut text = |text: &str| {
        message.extend((text.len() as u64).to_le_bytes());
        message.extend(text.as_bytes());
    };
    text(job);
    match meaning {
        Meaning::Job => text("job"),
        Meaning::HoldPoint(place) => {
            text("hold-point");
            text(&place.step);
            text(place.half.map_or("", Half::name));
        }
    }
    message.extend(covers.0);
    message
}

/// The first thing of a log that does not fit.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("job {job}, event {event}: {what}")]
pub struct Misfit {
    /// The job, as far as it is known.
    pub job: String,
    /// The event's place in the log, from 1.
    pub event: u64,
    /// What does not fit.
    pub what: MisfitKind,
}

/// Ways in which a log does not fit.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum MisfitKind {
    /// Content, predecessor or hash was changed.
    #[error("its hash is not that of its content and the event before it")]
    Hash,
    /// The bytes are no event.
    #[error("its bytes are no event that this program can read")]
    Unreadable,
    /// It names another job.
    #[error("it belongs to job {0}")]
    Job(String),
    /// Its number is not the next one.
    #[error("it is numbered {0}")]
    Sequence(u64),
    /// A log starts with its opening, and has but one.
    #[error("a log starts with its opening and has but one")]
    Opening,
    /// A signature covers the hash of the event before it.
    #[error("the signature covers another history than the one before it")]
    Covers,
    /// The signature is not that of the key.
    #[error("the signature is not that of {0}")]
    Signature(String),
    /// The log does not end where its head says.
    #[error("the log ends here, and its head says {0} events")]
    End(u64),
    /// The last hash is not that of the head.
    #[error("the last hash is not the one of the head")]
    LastHash,
    /// A text that it names is missing or was changed.
    #[error("the text {0} that it names is missing or was changed")]
    Document(Digest),
    /// A file that it names is missing or was changed.
    #[error("the file {0} that it names is missing or was changed")]
    Attachment(Digest),
    /// The event could not have been written in this state of the job.
    #[error("it can't follow what stands before it: {0}")]
    Refused(String),
    /// The verdict that is stored is not the one that its inputs give.
    #[error("its inputs give another outcome with the same program version")]
    Verdict,
    /// The person in the event is registered with another key.
    #[error("{0} has another key in this store")]
    Key(String),
}

/// A log while it is checked, event by event.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chain {
    job: Option<String>,
    sequence: u64,
    last: Digest,
    signers: Vec<Author>,
}

impl Default for Chain {
    fn default() -> Self {
        Self { job: None, sequence: 0, last: Digest::NONE, signers: Vec::new() }
    }
}

impl Chain {
    /// Number of events that fit so far.
    #[must_use]
    pub fn events(&self) -> u64 {
        self.sequence
    }

    /// Hash of the last event that fits.
    #[must_use]
    pub fn last(&self) -> Digest {
        self.last
    }

    /// Number of signatures that fit so far.
    #[must_use]
    pub fn signatures(&self) -> u64 {
        self.signers.len() as u64
    }

    /// Who gave them, in their order.
    #[must_use]
    pub fn signers(&self) -> &[Author] {
        &self.signers
    }

    /// Checks the next event: hash, number, job, and the signature where it is one.
    ///
    /// # Errors
    /// [`Misfit`]; the chain stands where it stood.
    pub fn check(&mut self, bytes: &[u8], stated: &Digest) -> Result<Event, Misfit> {
        let fail = |what: MisfitKind| Misfit {
            job: self.job.clone().unwrap_or_default(),
            event: self.sequence + 1,
            what,
        };
        if bytes.len() > LONGEST_EVENT || hash(bytes, &self.last) != *stated {
            return Err(fail(MisfitKind::Hash));
        }
        let event = read(bytes).ok_or_else(|| fail(MisfitKind::Unreadable))?;
        if self.job.as_ref().is_some_and(|job| *job != event.job) {
            return Err(fail(MisfitKind::Job(event.job)));
        }
        if event.sequence != self.sequence + 1 {
            return Err(fail(MisfitKind::Sequence(event.sequence)));
        }
        if matches!(event.payload, Payload::Opened(_)) != (self.sequence == 0) {
            return Err(fail(MisfitKind::Opening));
        }
        if let Payload::Signed(signed) = &event.payload {
            if signed.covers != self.last {
                return Err(fail(MisfitKind::Covers));
            }
            let message = signed_message(&event.job, &signed.meaning, &signed.covers);
            if !person::is_signed(&message, &event.author.key, &signed.signature) {
                return Err(fail(MisfitKind::Signature(event.author.name)));
            }
            self.signers.push(event.author.clone());
        }
        if self.job.is_none() {
            self.job = Some(event.job.clone());
        }
        self.sequence += 1;
        self.last = *stated;
        Ok(event)
    }

    /// Checks that the log ends where its head says.
    ///
    /// # Errors
    /// [`Misfit`] at the last event.
    pub fn ends(&self, events: u64, last: &Digest) -> Result<(), Misfit> {
        let fail = |what: MisfitKind| {
            Err(Misfit { job: self.job.clone().unwrap_or_default(), event: self.sequence, what })
        };
        if self.sequence != events {
            return fail(MisfitKind::End(events));
        }
        if self.last != *last {
            return fail(MisfitKind::LastHash);
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests;
