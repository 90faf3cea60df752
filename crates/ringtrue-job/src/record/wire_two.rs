//! Events as they are written down now: form 2.
//!
//! It differs from the first form where readings are given, which may be several files with
//! settings beside them; what decides a gate stands as its word; and a job names the list of agents
//! that its verdicts rest on. The canonical bytes are written as the first form's are.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use ringtrue_seal::definition::procedure::DecidedBy;
use serde::de::{Deserializer, Error};
use serde::{Deserialize, Serialize, Serializer};

use super::wire::{Author, Photo, Place, VerdictWord, all, moment};
use crate::digest::{Digest, SignatureBytes};
use crate::event::{self, Entry, FollowUp, Meaning, Payload};

/// The number of the form.
pub(super) const FORM: u8 = 2;

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Event {
    job: String,
    sequence: u64,
    /// RFC 3339, UTC.
    at: String,
    person: Author,
    device: String,
    #[serde(rename = "event")]
    payload: EventPayload,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
enum EventPayload {
    Opened {
        title: String,
        joint: Digest,
        material_a: Option<Digest>,
        material_b: Option<Digest>,
        procedure: Digest,
        agents: Option<Digest>,
        program_version: String,
    },
    Recorded {
        place: Place,
        given: Vec<Given>,
    },
    Assessed {
        place: Place,
        /// Its word in procedures: a new kind of gate needs no new form.
        decided_by: String,
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
struct Given {
    name: String,
    entry: GivenEntry,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
enum GivenEntry {
    Tick(bool),
    Value { typed: String, standard_uncertainty: Option<String>, gauge: Option<Digest> },
    Readings { files: Vec<ReadingFile>, stated: Vec<Stated>, gauge: Option<Digest> },
    Photo(Photo),
    Text(String),
    SecondPerson,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct ReadingFile {
    origin: String,
    content: Content,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
enum Content {
    Csv(String),
    Base64(Bytes),
}

/// Bytes: in text as base64, in canonical bytes as they are.
#[derive(Debug, Clone, PartialEq)]
struct Bytes(Vec<u8>);

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Stated {
    name: String,
    typed: String,
}

impl Serialize for Bytes {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        if serializer.is_human_readable() {
            serializer.serialize_str(&STANDARD.encode(&self.0))
        } else {
            serializer.serialize_bytes(&self.0)
        }
    }
}

impl<'de> Deserialize<'de> for Bytes {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        if deserializer.is_human_readable() {
            let text = std::borrow::Cow::<str>::deserialize(deserializer)?;
            STANDARD.decode(text.as_bytes()).map(Self).map_err(D::Error::custom)
        } else {
            Vec::<u8>::deserialize(deserializer).map(Self)
        }
    }
}

impl Event {
    pub(super) fn of(event: &event::Event) -> Self {
        Self {
            job: event.job.clone(),
            sequence: event.sequence,
            at: event.at.to_string(),
            person: Author::of(&event.author),
            device: event.device.clone(),
            payload: EventPayload::of(&event.payload),
        }
    }

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

impl EventPayload {
    fn of(payload: &Payload) -> Self {
        match payload.clone() {
            Payload::Opened(it) => Self::Opened {
                title: it.title,
                joint: it.joint,
                material_a: it.material_a,
                material_b: it.material_b,
                procedure: it.procedure,
                agents: it.agents,
                program_version: it.program_version,
            },
            Payload::Recorded(it) => {
                Self::Recorded { place: Place::of(it.place), given: all(it.given, Given::of) }
            }
            Payload::Assessed(it) => Self::Assessed {
                place: Place::of(it.place),
                decided_by: it.decided_by.name().to_owned(),
                rests_on: it.rests_on,
                verdict: it.verdict.into(),
                summary: it.summary,
                outcome: it.outcome,
                program_version: it.program_version,
            },
            Payload::Corrected(it) => {
                Self::Corrected { event: it.event, why: it.why, given: all(it.given, Given::of) }
            }
            Payload::Overridden(it) => Self::Overridden {
                place: Place::of(it.place),
                assessment: it.assessment,
                why: it.why,
            },
            Payload::Signed(it) => Self::Signed {
                hold_point: match it.meaning {
                    Meaning::HoldPoint(place) => Some(Place::of(place)),
                    Meaning::Job => None,
                },
                covers: it.covers,
                signature: it.signature,
            },
            Payload::FollowedUp(it) => Self::FollowedUp {
                kind: it.kind.name().to_owned(),
                hours: it.hours,
                note: it.note,
                photos: all(it.photos, Photo::of),
            },
        }
    }

    fn living(self) -> Option<Payload> {
        Some(match self {
            Self::Opened {
                title,
                joint,
                material_a,
                material_b,
                procedure,
                agents,
                program_version,
            } => Payload::Opened(event::Opened {
                title,
                joint,
                material_a,
                material_b,
                procedure,
                agents,
                program_version,
            }),
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
                decided_by: DecidedBy::ALL.into_iter().find(|by| by.name() == decided_by)?,
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

impl Given {
    fn of(given: event::Given) -> Self {
        let entry = match given.entry {
            Entry::Tick(event::Answer::Yes) => GivenEntry::Tick(true),
            Entry::Tick(event::Answer::No) => GivenEntry::Tick(false),
            Entry::Value(event::Value { typed, uncertainty, gauge }) => {
                GivenEntry::Value { typed, standard_uncertainty: uncertainty, gauge }
            }
            Entry::Readings(event::Readings { files, stated, gauge }) => GivenEntry::Readings {
                files: all(files, ReadingFile::of),
                stated: all(stated, |event::Stated { name, typed }| Stated { name, typed }),
                gauge,
            },
            Entry::Photo(photo) => GivenEntry::Photo(Photo::of(photo)),
            Entry::Text(text) => GivenEntry::Text(text),
            Entry::SecondPerson => GivenEntry::SecondPerson,
        };
        Self { name: given.name, entry }
    }

    fn living(self) -> event::Given {
        let entry = match self.entry {
            GivenEntry::Tick(true) => Entry::Tick(event::Answer::Yes),
            GivenEntry::Tick(false) => Entry::Tick(event::Answer::No),
            GivenEntry::Value { typed, standard_uncertainty, gauge } => {
                Entry::Value(event::Value { typed, uncertainty: standard_uncertainty, gauge })
            }
            GivenEntry::Readings { files, stated, gauge } => Entry::Readings(event::Readings {
                files: all(files, ReadingFile::living),
                stated: all(stated, |Stated { name, typed }| event::Stated { name, typed }),
                gauge,
            }),
            GivenEntry::Photo(photo) => Entry::Photo(photo.living()),
            GivenEntry::Text(text) => Entry::Text(text),
            GivenEntry::SecondPerson => Entry::SecondPerson,
        };
        event::Given { name: self.name, entry }
    }
}

impl ReadingFile {
    fn of(file: event::ReadingFile) -> Self {
        let content = match file.content {
            event::Content::Text(text) => Content::Csv(text),
            event::Content::Bytes(bytes) => Content::Base64(Bytes(bytes)),
        };
        Self { origin: file.origin, content }
    }

    fn living(self) -> event::ReadingFile {
        let content = match self.content {
            Content::Csv(text) => event::Content::Text(text),
            Content::Base64(Bytes(bytes)) => event::Content::Bytes(bytes),
        };
        event::ReadingFile { origin: self.origin, content }
    }
}
