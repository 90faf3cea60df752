//! What happens to a job, as living types. How events are written down is `record`'s business.

mod words;

use jiff::Timestamp;
use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::procedure::DecidedBy;
use ringtrue_words::say;

use crate::digest::{Digest, PublicKey, SignatureBytes};
use crate::person::Role;

pub(crate) use words::BETWEEN;
pub use words::{Detail, summary_at};

/// One thing that happened, and who says so.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Event {
    /// The job it belongs to.
    pub job: String,
    /// Its place in the job, from 1.
    pub sequence: u64,
    /// When, UTC.
    pub at: Timestamp,
    /// Who.
    pub author: Author,
    /// On which device.
    pub device: String,
    /// What.
    pub payload: Payload,
}

/// A person as an event names them: what they were at that moment.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Author {
    /// Name.
    pub name: String,
    /// Role.
    pub role: Role,
    /// Public key.
    pub key: PublicKey,
}

impl Author {
    /// Are these two one person? One key is one person, and so is one name.
    #[must_use]
    pub fn is(&self, other: &Self) -> bool {
        self.key == other.key || self.name == other.name
    }
}

/// What happened.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Payload {
    /// The job was opened.
    Opened(Opened),
    /// Evidence was recorded at a step.
    Recorded(Recorded),
    /// A gate was judged.
    Assessed(Assessed),
    /// An earlier event no longer counts.
    Corrected(Corrected),
    /// A gate that holds was passed by an engineer's decision.
    Overridden(Overridden),
    /// Somebody signed.
    Signed(Signed),
    /// Something became known after the job.
    FollowedUp(FollowedUp),
}

impl Payload {
    /// The kind, as records name it.
    #[must_use]
    pub fn kind(&self) -> &'static str {
        match self {
            Self::Opened(_) => "opened",
            Self::Recorded(_) => "recorded",
            Self::Assessed(_) => "assessed",
            Self::Corrected(_) => "corrected",
            Self::Overridden(_) => "overridden",
            Self::Signed(_) => "signed",
            Self::FollowedUp(_) => "followed-up",
        }
    }
}

/// What a job is about. The texts are kept beside the events by their content hash.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Opened {
    /// Name of the joint.
    pub title: String,
    /// The joint file with its seals inline.
    pub joint: Digest,
    /// The figures of half a's material: the file that its seal names, or the shipped one of that
    /// code. None where it is steel, or nothing is known of it.
    pub material_a: Option<Digest>,
    /// The same of half b.
    pub material_b: Option<Digest>,
    /// The procedure file.
    pub procedure: Digest,
    /// The list of agents with their figures; none in jobs of the first form.
    pub agents: Option<Digest>,
    /// The program that opened the job.
    pub program_version: String,
}

/// A step, and the half where it has one.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// The step's id.
    pub step: String,
    /// The half.
    pub half: Option<Half>,
}

impl std::fmt::Display for Place {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self.half {
            Some(half) => {
                f.write_str(&say!("job-step-on-half", step = self.step, half = half.name()))
            }
            None => f.write_str(&self.step),
        }
    }
}

/// Evidence recorded at a step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Recorded {
    /// Where.
    pub place: Place,
    /// What; at least one.
    pub given: Vec<Given>,
}

/// One piece of evidence, by the name that the procedure gives it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Given {
    /// Its name within the step.
    pub name: String,
    /// What was given.
    pub entry: Entry,
}

/// What was given as evidence, as it was typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Entry {
    /// Seen and done, or not.
    Tick(Answer),
    /// One measured value.
    Value(Value),
    /// A set of readings.
    Readings(Readings),
    /// A photo or another file, kept beside the events by its content hash.
    Photo(Photo),
    /// A few words.
    Text(String),
    /// Another person looked, and says so.
    SecondPerson,
}

/// A tick's answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Answer {
    /// Yes.
    Yes,
    /// No.
    No,
}

/// A value as typed, with its unit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Value {
    /// The value: `0.35 um`.
    pub typed: String,
    /// Its standard uncertainty, where it was stated.
    pub uncertainty: Option<String>,
    /// The gauge file.
    pub gauge: Option<Digest>,
}

/// Readings as typed, and what was stated beside them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Readings {
    /// Files or typed rows, whole; none where a check is made on what is stated alone.
    pub files: Vec<ReadingFile>,
    /// Settings of the check, each once.
    pub stated: Vec<Stated>,
    /// The gauge file.
    pub gauge: Option<Digest>,
}

/// One file of readings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadingFile {
    /// Where it came from: a file's name, or `typed`.
    pub origin: String,
    /// What it holds.
    pub content: Content,
}

/// Content of a readings file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Content {
    /// A CSV text.
    Text(String),
    /// A file of another form, such as a trace in X3P.
    Bytes(Vec<u8>),
}

/// A setting of a check as it was typed: `volume`, `3.20 l`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stated {
    /// Its name.
    pub name: String,
    /// What was typed.
    pub typed: String,
}

impl Readings {
    /// One text of readings, with nothing stated beside it.
    #[must_use]
    pub fn of_text(text: String, origin: String, gauge: Option<Digest>) -> Self {
        let files = vec![ReadingFile { origin, content: Content::Text(text) }];
        Self { files, stated: Vec::new(), gauge }
    }

    /// Where they came from, in one line.
    #[must_use]
    pub fn origin(&self) -> String {
        match self.files.as_slice() {
            [] if self.stated.is_empty() => say!("job-readings-from-definition").to_owned(),
            [] => say!("job-readings-as-stated").to_owned(),
            files => files.iter().map(|file| file.origin.as_str()).collect::<Vec<_>>().join(", "),
        }
    }

    /// The text, where they are one text with nothing stated beside it.
    #[must_use]
    pub fn text(&self) -> Option<&str> {
        match (self.files.as_slice(), self.stated.as_slice()) {
            ([ReadingFile { content: Content::Text(text), .. }], []) => Some(text),
            (_, _) => None,
        }
    }
}

/// A file kept beside the events.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Photo {
    /// Its name.
    pub name: String,
    /// Its type: `image/jpeg`.
    pub media_type: String,
    /// Hash of its content.
    pub content: Digest,
    /// Its length in bytes.
    pub length: u64,
}

/// A gate's verdict and what it rests on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Assessed {
    /// The gate's step.
    pub place: Place,
    /// What decided.
    pub decided_by: DecidedBy,
    /// Sequence numbers of the events that it rests on.
    pub rests_on: Vec<u64>,
    /// The verdict.
    pub verdict: Verdict,
    /// One sentence.
    pub summary: String,
    /// The whole outcome as JSON: values, uncertainties, limits, verdicts, sources.
    pub outcome: String,
    /// The program that judged.
    pub program_version: String,
}

/// An earlier event no longer counts; another may stand in its place. Nothing is overwritten.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Corrected {
    /// The event's sequence number.
    pub event: u64,
    /// Why.
    pub why: String,
    /// What stands in the place of its evidence; empty where nothing does.
    pub given: Vec<Given>,
}

/// A gate is passed though it holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Overridden {
    /// The gate's step.
    pub place: Place,
    /// Sequence number of the verdict that is overridden.
    pub assessment: u64,
    /// Why.
    pub why: String,
}

/// A signature.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Signed {
    /// What it is given for.
    pub meaning: Meaning,
    /// The hash of the event before it: it covers everything up to there.
    pub covers: Digest,
    /// The signature.
    pub signature: SignatureBytes,
}

/// What a signature is given for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Meaning {
    /// A hold point is passed.
    HoldPoint(Place),
    /// The whole job.
    Job,
}

/// What became known after the job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FollowedUp {
    /// What.
    pub kind: FollowUp,
    /// Running time as typed: `1250 h`.
    pub hours: Option<String>,
    /// In words.
    pub note: String,
    /// Photos and files.
    pub photos: Vec<Photo>,
}

/// Kinds of follow-up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FollowUp {
    /// Running hours were read.
    Hours,
    /// It leaks.
    Leak,
    /// It was taken out.
    Removal,
    /// It runs, and nothing else is to say.
    StillRunning,
}

impl FollowUp {
    /// All kinds.
    pub const ALL: [Self; 4] = [Self::Hours, Self::Leak, Self::Removal, Self::StillRunning];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Hours => "hours",
            Self::Leak => "leak",
            Self::Removal => "removal",
            Self::StillRunning => "still-running",
        }
    }

    /// The kind with this name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.name() == name)
    }
}

impl Event {
    /// Hashes of the texts that it names.
    #[must_use]
    pub fn documents(&self) -> Vec<Digest> {
        match &self.payload {
            Payload::Opened(opened) => [Some(opened.joint), Some(opened.procedure)]
                .into_iter()
                .chain([opened.material_a, opened.material_b, opened.agents])
                .flatten()
                .collect(),
            Payload::Recorded(Recorded { given, .. })
            | Payload::Corrected(Corrected { given, .. }) => {
                given.iter().filter_map(|given| given.entry.gauge()).collect()
            }
            Payload::Assessed(_)
            | Payload::Overridden(_)
            | Payload::Signed(_)
            | Payload::FollowedUp(_) => Vec::new(),
        }
    }

    /// The files that it names.
    #[must_use]
    pub fn photos(&self) -> Vec<&Photo> {
        match &self.payload {
            Payload::Recorded(Recorded { given, .. })
            | Payload::Corrected(Corrected { given, .. }) => {
                given.iter().filter_map(|given| given.entry.photo()).collect()
            }
            Payload::FollowedUp(followed) => followed.photos.iter().collect(),
            Payload::Opened(_)
            | Payload::Assessed(_)
            | Payload::Overridden(_)
            | Payload::Signed(_) => Vec::new(),
        }
    }
}

impl Entry {
    /// The gauge it was measured with.
    #[must_use]
    pub fn gauge(&self) -> Option<Digest> {
        match self {
            Self::Value(value) => value.gauge,
            Self::Readings(readings) => readings.gauge,
            Self::Tick(_) | Self::Photo(_) | Self::Text(_) | Self::SecondPerson => None,
        }
    }

    /// The file, where it is one.
    #[must_use]
    pub fn photo(&self) -> Option<&Photo> {
        match self {
            Self::Photo(photo) => Some(photo),
            Self::Tick(_)
            | Self::Value(_)
            | Self::Readings(_)
            | Self::Text(_)
            | Self::SecondPerson => None,
        }
    }
}
