//! Events as the first form wrote them down. It is only read: new events are written in the newest
//! form, and what stands in this one keeps its bytes and its hash.
//!
//! The canonical bytes of an event are one byte with the number of the form, then its fields in the
//! order of their declaration in the postcard wire format, version 1: lengths and numbers as
//! varints of seven bits a byte, text as length and UTF-8, an option as 0 or 1 and its content, a
//! variant as its number, hashes, keys and signatures as their bytes. There are no floating-point
//! numbers: what was measured stands as it was typed.
//!
//! A form that was released is never changed. A new one gets a module of its own, a number of its
//! own, and a way from here to the living types.

use jiff::Timestamp;
use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::procedure::DecidedBy;
use serde::{Deserialize, Serialize};

use crate::digest::{Digest, PublicKey, SignatureBytes};
use crate::event::{self, Entry, FollowUp, Meaning, Payload};
use crate::person::Role;

/// The number of the form.
pub(super) const FORM: u8 = 1;

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Event {
    pub(super) job: String,
    pub(super) sequence: u64,
    /// RFC 3339, UTC.
    pub(super) at: String,
    pub(super) person: Author,
    pub(super) device: String,
    #[serde(rename = "event")]
    pub(super) payload: EventPayload,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Author {
    pub(super) name: String,
    pub(super) role: String,
    pub(super) key: PublicKey,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub(super) enum EventPayload {
    Opened {
        title: String,
        joint: Digest,
        material_a: Option<Digest>,
        material_b: Option<Digest>,
        procedure: Digest,
        program_version: String,
    },
    Recorded {
        place: Place,
        given: Vec<Given>,
    },
    Assessed {
        place: Place,
        decided_by: DecidedByWord,
        rests_on: Vec<u64>,
        verdict: VerdictWord,
        summary: String,
        outcome: String,
        program_version: String,
    },
    Corrected {
        event: u64,
        why: String,
        given: Vec<Given>,
    },
    Overridden {
        place: Place,
        assessment: u64,
        why: String,
    },
    Signed {
        /// The hold point; none where the whole job is signed.
        hold_point: Option<Place>,
        covers: Digest,
        signature: SignatureBytes,
    },
    FollowedUp {
        kind: String,
        hours: Option<String>,
        note: String,
        photos: Vec<Photo>,
    },
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Place {
    step: String,
    half: Option<HalfWord>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Given {
    name: String,
    entry: GivenEntry,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub(super) enum GivenEntry {
    Tick(bool),
    Value { typed: String, standard_uncertainty: Option<String>, gauge: Option<Digest> },
    Readings { csv: String, origin: String, gauge: Option<Digest> },
    Photo(Photo),
    Text(String),
    SecondPerson,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Photo {
    name: String,
    media_type: String,
    content: Digest,
    length: u64,
}

/// Words of closed sets: in text the word, in bytes its number.
macro_rules! words {
    ($name:ident of $living:ty { $($word:literal $variant:ident = $value:path,)+ }) => {
        #[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
        pub(super) enum $name {
            $(#[serde(rename = $word)] $variant,)+
        }

        impl From<$living> for $name {
            fn from(living: $living) -> Self {
                match living { $($value => Self::$variant,)+ }
            }
        }

        impl From<$name> for $living {
            fn from(word: $name) -> Self {
                match word { $($name::$variant => $value,)+ }
            }
        }
    };
}

words!(HalfWord of Half { "a" A = Half::A, "b" B = Half::B, });
words!(VerdictWord of Verdict {
    "conforms" Conforms = Verdict::Conforms,
    "not-proven" NotProven = Verdict::NotProven,
    "does-not-conform" DoesNotConform = Verdict::DoesNotConform,
});
/// What decided, as far as this form knows.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum DecidedByWord {
    Matching,
    AssembledHeight,
    SealGap,
    Limits,
    Evidence,
}

impl From<DecidedByWord> for DecidedBy {
    fn from(word: DecidedByWord) -> Self {
        match word {
            DecidedByWord::Matching => Self::Matching,
            DecidedByWord::AssembledHeight => Self::AssembledHeight,
            DecidedByWord::SealGap => Self::SealGap,
            DecidedByWord::Limits => Self::Limits,
            DecidedByWord::Evidence => Self::Evidence,
        }
    }
}

impl Event {
    /// The living event; `None` names nothing that a program of this form has written.
    pub(super) fn living(self) -> Option<event::Event> {
        Some(event::Event {
            job: self.job,
            sequence: self.sequence,
            at: moment(&self.at)?,
            author: self.person.living()?,
            device: self.device,
            payload: self.payload.living()?,
        })
    }
}

/// A moment, where it is written as it would be.
pub(super) fn moment(text: &str) -> Option<Timestamp> {
    let at: Timestamp = text.parse().ok()?;
    (at.to_string() == text).then_some(at)
}

impl Author {
    pub(super) fn of(author: &event::Author) -> Self {
        let role = author.role.name().to_owned();
        Self { name: author.name.clone(), role, key: author.key }
    }

    pub(super) fn living(self) -> Option<event::Author> {
        let role = Role::named(&self.role)?;
        Some(event::Author { name: self.name, role, key: self.key })
    }
}

impl EventPayload {
    fn living(self) -> Option<Payload> {
        Some(match self {
            Self::Opened { title, joint, material_a, material_b, procedure, program_version } => {
                Payload::Opened(event::Opened {
                    title,
                    joint,
                    material_a,
                    material_b,
                    procedure,
                    agents: None,
                    program_version,
                })
            }
            Self::Recorded { place, given } => Payload::Recorded(event::Recorded {
                place: place.living(),
                given: all(given, Given::living),
            }),
            Self::Assessed {
                place,
                decided_by,
                rests_on,
                verdict,
                summary,
                outcome,
                program_version,
            } => Payload::Assessed(event::Assessed {
                place: place.living(),
                decided_by: decided_by.into(),
                rests_on,
                verdict: verdict.into(),
                summary,
                outcome,
                program_version,
            }),
            Self::Corrected { event, why, given } => Payload::Corrected(event::Corrected {
                event,
                why,
                given: all(given, Given::living),
            }),
            Self::Overridden { place, assessment, why } => {
                Payload::Overridden(event::Overridden { place: place.living(), assessment, why })
            }
            Self::Signed { hold_point, covers, signature } => {
                let meaning =
                    hold_point.map_or(Meaning::Job, |place| Meaning::HoldPoint(place.living()));
                Payload::Signed(event::Signed { meaning, covers, signature })
            }
            Self::FollowedUp { kind, hours, note, photos } => {
                Payload::FollowedUp(event::FollowedUp {
                    kind: FollowUp::named(&kind)?,
                    hours,
                    note,
                    photos: all(photos, Photo::living),
                })
            }
        })
    }
}

impl Place {
    pub(super) fn of(place: event::Place) -> Self {
        Self { step: place.step, half: place.half.map(HalfWord::from) }
    }

    pub(super) fn living(self) -> event::Place {
        event::Place { step: self.step, half: self.half.map(Half::from) }
    }
}

impl Given {
    fn living(self) -> event::Given {
        let entry = match self.entry {
            GivenEntry::Tick(true) => Entry::Tick(event::Answer::Yes),
            GivenEntry::Tick(false) => Entry::Tick(event::Answer::No),
            GivenEntry::Value { typed, standard_uncertainty, gauge } => {
                Entry::Value(event::Value { typed, uncertainty: standard_uncertainty, gauge })
            }
            GivenEntry::Readings { csv, origin, gauge } => {
                Entry::Readings(event::Readings::of_text(csv, origin, gauge))
            }
            GivenEntry::Photo(photo) => Entry::Photo(photo.living()),
            GivenEntry::Text(text) => Entry::Text(text),
            GivenEntry::SecondPerson => Entry::SecondPerson,
        };
        event::Given { name: self.name, entry }
    }
}

impl Photo {
    pub(super) fn of(photo: event::Photo) -> Self {
        let event::Photo { name, media_type, content, length } = photo;
        Self { name, media_type, content, length }
    }

    pub(super) fn living(self) -> event::Photo {
        let Self { name, media_type, content, length } = self;
        event::Photo { name, media_type, content, length }
    }
}

pub(super) fn all<A, B>(items: Vec<A>, to: impl Fn(A) -> B) -> Vec<B> {
    items.into_iter().map(to).collect()
}
