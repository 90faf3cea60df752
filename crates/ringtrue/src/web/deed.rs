//! Deeds as they are sent, by a program or by a page's form, made into what the record knows.

use std::collections::BTreeMap;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use ringtrue_job::digest::Digest;
use ringtrue_job::event::{
    Answer, Content as Kept, Corrected, Entry, FollowUp, FollowedUp, Given, Place, ReadingFile,
    Readings, Recorded, Stated, Value,
};
use ringtrue_job::job::deed::Deed;
use ringtrue_seal::definition::Kind;
use ringtrue_seal::definition::joint::Half;
use ringtrue_store::Store;
use serde::{Deserialize, Deserializer};
use zeroize::Zeroizing;

use super::Shared;
use super::act::Brought;
use super::enter::{self, Tried};
use super::session::Visitor;
use super::trouble::Trouble;
use crate::kept;
use crate::photo::photo;
use ringtrue_job::person::Unlocked;
use ringtrue_words::{say, words};

/// A write on a job.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Sent {
    /// Events that the sender knows of.
    pub(crate) expected: u64,
    /// Another person than the one who is signed in, who types their own passphrase.
    #[serde(default)]
    pub(crate) by: Option<Another>,
    pub(crate) deed: SentDeed,
}

/// Another person at the same tablet.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Another {
    pub(crate) name: String,
    pub(crate) passphrase: Zeroizing<String>,
}

/// What is done.
#[derive(Debug, Clone, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case", deny_unknown_fields)]
pub(crate) enum SentDeed {
    /// Records evidence at a step.
    Record { step: String, half: Option<Half>, given: Vec<SentGiven> },
    /// Says that an earlier event was wrong, and what is right.
    Correct {
        event: u64,
        why: String,
        #[serde(default)]
        given: Vec<SentGiven>,
    },
    /// Passes a gate that holds.
    Override { step: String, half: Option<Half>, why: String },
    /// Signs a hold point, or what waits first, or the whole job.
    Sign {
        #[serde(default)]
        step: Option<String>,
        half: Option<Half>,
    },
    /// Says what became known later.
    FollowUp {
        about: String,
        #[serde(default)]
        hours: Option<String>,
        #[serde(default)]
        note: String,
        #[serde(default)]
        photos: Vec<SentPhoto>,
    },
}

/// A piece of evidence.
#[derive(Debug, Clone, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case", deny_unknown_fields)]
pub(crate) enum SentGiven {
    /// Seen and done, or not.
    Tick { name: String, answer: YesNo },
    /// A value with its unit.
    Value {
        name: String,
        typed: String,
        #[serde(default)]
        uncertainty: Option<String>,
        #[serde(default)]
        gauge: Option<Digest>,
    },
    /// Readings, and what is stated beside them.
    ReadingSet {
        name: String,
        #[serde(default)]
        files: Vec<SentFile>,
        #[serde(default)]
        stated: BTreeMap<String, String>,
        #[serde(default)]
        gauge: Option<Digest>,
    },
    /// A photo.
    Photo { name: String, file: String, content: Content },
    /// A few words.
    Text { name: String, text: String },
    /// A second person has looked.
    SecondPerson { name: String },
}

impl SentGiven {
    /// Its name within the step.
    pub(crate) fn name(&self) -> &str {
        match self {
            Self::Tick { name, .. }
            | Self::Value { name, .. }
            | Self::ReadingSet { name, .. }
            | Self::Photo { name, .. }
            | Self::Text { name, .. }
            | Self::SecondPerson { name } => name,
        }
    }
}

/// A file of readings: its text, or its bytes.
#[derive(Debug, Clone, Deserialize)]
#[serde(untagged, deny_unknown_fields)]
pub(crate) enum SentFile {
    Text {
        #[serde(default = "typed")]
        origin: String,
        text: String,
    },
    Bytes {
        #[serde(default = "typed")]
        origin: String,
        content: Content,
    },
}

impl SentFile {
    fn read(self) -> ReadingFile {
        match self {
            Self::Text { origin, text } => ReadingFile { origin, content: Kept::Text(text) },
            Self::Bytes { origin, content } => {
                ReadingFile { origin, content: Kept::Bytes(content.0) }
            }
        }
    }
}

/// A photo by itself.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct SentPhoto {
    pub(crate) file: String,
    pub(crate) content: Content,
}

/// A tick's answer.
#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(crate) enum YesNo {
    Yes,
    No,
}

/// Bytes, base64 in JSON.
#[derive(Clone)]
pub(crate) struct Content(pub(crate) Vec<u8>);

/// The hash stands for the bytes.
impl std::fmt::Debug for Content {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", Digest::of(&self.0))
    }
}

impl<'de> Deserialize<'de> for Content {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        STANDARD
            .decode(text)
            .map(Self)
            .map_err(|_| serde::de::Error::custom(say!("trouble-no-base64")))
    }
}

/// Where readings come from that no file held.
pub(crate) fn typed() -> String {
    "typed".to_owned()
}

impl Another {
    /// Opens their key.
    pub(crate) async fn unlock(
        &self,
        shared: &Shared,
        visitor: &Visitor,
    ) -> Result<Unlocked, Trouble> {
        let whence = format!("beside {}", visitor.name);
        let tried = Tried { name: self.name.trim(), passphrase: &self.passphrase, whence: &whence };
        enter::unlock(shared, tried).await.map_err(|trouble| {
            // The session itself is fine: nobody has to sign in again.
            let status = match trouble.status {
                axum::http::StatusCode::UNAUTHORIZED => axum::http::StatusCode::FORBIDDEN,
                other => other,
            };
            Trouble { status, ..trouble }
        })
    }
}

/// A job at hand, the store it is in, and what is brought along.
pub(crate) struct Desk<'d> {
    pub(crate) store: &'d Store,
    pub(crate) kept: &'d kept::Kept,
    pub(crate) brought: &'d mut Brought,
}

impl SentDeed {
    /// The deed as the record knows it.
    pub(crate) fn deed(self, desk: &mut Desk<'_>) -> Result<Deed, Trouble> {
        Ok(match self {
            Self::Record { step, half, given } => {
                let given = all(given, desk)?;
                Deed::Record(Recorded { place: Place { step, half }, given })
            }
            Self::Correct { event, why, given } => {
                Deed::Correct(Corrected { event, why, given: all(given, desk)? })
            }
            Self::Override { step, half, why } => {
                Deed::Override { place: Place { step, half }, why }
            }
            Self::Sign { step, half } => Deed::Sign(step.map(|step| Place { step, half })),
            Self::FollowUp { about, hours, note, photos } => {
                let kind = FollowUp::named(&about).ok_or_else(|| {
                    let kinds = FollowUp::ALL.map(FollowUp::name).join(", ");
                    let t = words();
                    let what = t.with("trouble-follow-up", &[("about", &about)]);
                    Trouble::input(what, t.with("trouble-would-fit", &[("fits", &kinds)]))
                })?;
                let photos = photos
                    .into_iter()
                    .map(|sent| Ok(photo(&sent.file, sent.content.0, &mut desk.brought.files)?))
                    .collect::<Result<_, Trouble>>()?;
                Deed::FollowUp(FollowedUp { kind, hours, note, photos })
            }
        })
    }
}

fn all(given: Vec<SentGiven>, desk: &mut Desk<'_>) -> Result<Vec<Given>, Trouble> {
    given.into_iter().map(|one| self::given(one, desk)).collect()
}

fn given(given: SentGiven, desk: &mut Desk<'_>) -> Result<Given, Trouble> {
    let (name, entry) = match given {
        SentGiven::Tick { name, answer: YesNo::Yes } => (name, Entry::Tick(Answer::Yes)),
        SentGiven::Tick { name, answer: YesNo::No } => (name, Entry::Tick(Answer::No)),
        SentGiven::Value { name, typed, uncertainty, gauge } => {
            let gauge = gauge.map(|gauge| known_gauge(gauge, desk)).transpose()?;
            (name, Entry::Value(Value { typed, uncertainty, gauge }))
        }
        SentGiven::ReadingSet { name, files, stated, gauge } => {
            let gauge = gauge.map(|gauge| known_gauge(gauge, desk)).transpose()?;
            let files = files.into_iter().map(SentFile::read).collect();
            let stated = stated.into_iter().map(|(name, typed)| Stated { name, typed }).collect();
            (name, Entry::Readings(Readings { files, stated, gauge }))
        }
        SentGiven::Photo { name, file, content } => {
            (name, Entry::Photo(photo(&file, content.0, &mut desk.brought.files)?))
        }
        SentGiven::Text { name, text } => (name, Entry::Text(text)),
        SentGiven::SecondPerson { name } => (name, Entry::SecondPerson),
    };
    Ok(Given { name, entry })
}

/// A gauge that the job knows, or that the library holds and the job is to know.
fn known_gauge(gauge: Digest, desk: &mut Desk<'_>) -> Result<Digest, Trouble> {
    if desk.kept.plan.gauge(&gauge).is_some() {
        return Ok(gauge);
    }
    let library = desk.store.library()?;
    let found = library
        .into_iter()
        .find(|edition| edition.kind == Kind::Gauge.name() && edition.document == gauge);
    let Some(edition) = found else {
        let t = words();
        let what = t.with("trouble-gauge", &[("gauge", &gauge.to_string())]);
        return Err(Trouble::input(what, t.say("trouble-gauge-next")));
    };
    desk.brought.documents.push(edition.text);
    Ok(gauge)
}
