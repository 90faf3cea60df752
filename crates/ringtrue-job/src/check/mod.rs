//! The checks between cleaning and closing, as they are given: readings files, settings as they
//! were typed, and the parts that they are made on.
//!
//! There is one way from there to a room's input: the single commands, the record of a job and
//! `job verify --recompute` all go it.

mod agents;
mod alignment;
mod chilling;
mod closing;
mod flatness;
mod leak_test;
mod roughness;
mod seating;
mod setting;

pub(crate) use setting::wanted;
pub use setting::{Read, Setting};

use ringtrue_metrology::conformity::Levels;
use ringtrue_seal::RoomError;
use ringtrue_seal::agents::Agent;
use ringtrue_seal::chilling::Seat;
use ringtrue_seal::definition::TextError;
use ringtrue_seal::definition::gauge::Gauge;
use ringtrue_seal::definition::joint::{Half, Joint};
use ringtrue_seal::definition::material::Material;
use ringtrue_seal::definition::procedure::{Evidence as Asked, Need, ReadingSet, Step};
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::geometry::FreeToric;
use ringtrue_words::say;

use crate::event::{Content, ReadingFile, Stated};
use crate::reading::SURFACES;
use crate::{Evidence, Question};

/// A check that is made on readings and settings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Check {
    /// Sweeps of the housings.
    Alignment,
    /// Traces or values of a ramp's finish.
    Roughness,
    /// Light bands on a lapped face.
    Flatness,
    /// What takes a load ring into its housing.
    Seating,
    /// A toric chilled and warmed.
    Chilling,
    /// A leak test.
    LeakTest,
    /// A cleaning or wetting agent.
    Agents,
    /// Feeler readings round the closed joint, and its bolts.
    Closing,
}

impl Check {
    /// All of them.
    pub const ALL: [Self; 8] = [
        Self::Alignment,
        Self::Roughness,
        Self::Flatness,
        Self::Seating,
        Self::Chilling,
        Self::LeakTest,
        Self::Agents,
        Self::Closing,
    ];

    /// The check that a reading set of a procedure is given for; `None` for the two that are
    /// judged on readings alone.
    #[must_use]
    pub fn of(set: ReadingSet) -> Option<Self> {
        match set {
            ReadingSet::AssembledHeight | ReadingSet::SealGap => None,
            ReadingSet::Alignment => Some(Self::Alignment),
            ReadingSet::Roughness => Some(Self::Roughness),
            ReadingSet::Flatness => Some(Self::Flatness),
            ReadingSet::Seating => Some(Self::Seating),
            ReadingSet::Chilling => Some(Self::Chilling),
            ReadingSet::LeakTest => Some(Self::LeakTest),
            ReadingSet::Agents => Some(Self::Agents),
            ReadingSet::Closing => Some(Self::Closing),
        }
    }

    /// The check with this name: `leak-test`.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|check| check.name() == name)
    }

    /// Its name, as procedures have it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Alignment => ReadingSet::Alignment,
            Self::Roughness => ReadingSet::Roughness,
            Self::Flatness => ReadingSet::Flatness,
            Self::Seating => ReadingSet::Seating,
            Self::Chilling => ReadingSet::Chilling,
            Self::LeakTest => ReadingSet::LeakTest,
            Self::Agents => ReadingSet::Agents,
            Self::Closing => ReadingSet::Closing,
        }
        .name()
    }

    /// Its question.
    #[must_use]
    pub fn question(self) -> Question {
        match self {
            Self::Alignment => Question::Alignment,
            Self::Roughness => Question::Roughness,
            Self::Flatness => Question::Flatness,
            Self::Seating => Question::Seating,
            Self::Chilling => Question::Chilling,
            Self::LeakTest => Question::LeakTest,
            Self::Agents => Question::Agents,
            Self::Closing => Question::Closing,
        }
    }

    /// What may be stated beside its readings.
    #[must_use]
    pub fn settings(self) -> &'static [Setting] {
        match self {
            Self::Alignment => alignment::SETTINGS,
            Self::Roughness => roughness::SETTINGS,
            Self::Flatness => flatness::SETTINGS,
            Self::Seating => seating::SETTINGS,
            Self::Chilling => chilling::SETTINGS,
            Self::LeakTest => leak_test::SETTINGS,
            Self::Agents => agents::SETTINGS,
            Self::Closing => closing::SETTINGS,
        }
    }

    /// The header that typed rows stand under; empty where the check has no readings.
    #[must_use]
    pub fn row_header(self) -> &'static str {
        match self {
            Self::Alignment => "surface,angle,reading",
            Self::Roughness => "ra",
            Self::Flatness => "angle,bend,spacing",
            Self::LeakTest => "time,pressure,temperature",
            Self::Closing => "angle,gap",
            Self::Seating | Self::Chilling | Self::Agents => "",
        }
    }

    /// The words that a column of its readings takes; empty where numbers are typed.
    #[must_use]
    pub fn words_of(self, column: &str) -> Vec<&'static str> {
        match (self, column) {
            (Self::Alignment, "surface") => SURFACES.map(|(word, _)| word).to_vec(),
            (_, _) => Vec::new(),
        }
    }

    /// Are its readings taken with a gauge of the gauge files, whose uncertainty counts?
    #[must_use]
    pub fn takes_gauge(self) -> bool {
        match self {
            Self::Alignment | Self::Closing => true,
            Self::Roughness
            | Self::Flatness
            | Self::Seating
            | Self::Chilling
            | Self::LeakTest
            | Self::Agents => false,
        }
    }

    /// Can it be made with nothing given? Then doing the step is all that its evidence takes.
    #[must_use]
    pub fn needs_nothing(self) -> bool {
        match self {
            Self::Seating => true,
            Self::Alignment
            | Self::Roughness
            | Self::Flatness
            | Self::Chilling
            | Self::LeakTest
            | Self::Agents
            | Self::Closing => false,
        }
    }

    /// Is this setting one that a check on these seals can take? The others are not asked for.
    #[must_use]
    pub fn takes(self, setting: &Setting, seals: &[&Seal]) -> bool {
        match self {
            Self::Seating => seating::takes(setting.name, seals),
            Self::Alignment
            | Self::Roughness
            | Self::Flatness
            | Self::Chilling
            | Self::LeakTest
            | Self::Agents
            | Self::Closing => true,
        }
    }

    /// What the readings and settings of a check come to.
    ///
    /// # Errors
    /// [`CheckError`]: what can't be read, what is missing and what does not go together.
    pub fn evidence(self, made: &Made<'_>) -> Result<Evidence, CheckError> {
        match self {
            Self::Alignment => alignment::evidence(made).map(Evidence::Alignment),
            Self::Roughness => roughness::evidence(made).map(Evidence::Roughness),
            Self::Flatness => flatness::evidence(made).map(Evidence::Flatness),
            Self::Seating => {
                seating::evidence(made).map(|input| Evidence::Seating(Box::new(input)))
            }
            Self::Chilling => chilling::evidence(made).map(Evidence::Chilling),
            Self::LeakTest => leak_test::evidence(made).map(Evidence::LeakTest),
            Self::Agents => agents::evidence(made).map(Evidence::Agents),
            Self::Closing => closing::evidence(made).map(Evidence::Closing),
        }
    }
}

/// Sets of readings that go along with whatever else is given at a step, where nothing is given for
/// them: those of checks that need nothing.
pub fn going_along(step: &Step, is_given: impl Fn(&str) -> bool) -> impl Iterator<Item = &Asked> {
    step.evidence.iter().filter(move |asked| {
        let check = asked.readings.and_then(Check::of);
        asked.need == Need::Always
            && check.is_some_and(Check::needs_nothing)
            && !is_given(&asked.name)
    })
}

/// What a check was made with.
#[derive(Debug, Clone, Copy)]
pub struct Made<'m> {
    /// Readings files.
    pub files: &'m [ReadingFile],
    /// Settings, as typed.
    pub stated: &'m [Stated],
    /// The gauge.
    pub gauge: Option<&'m Gauge>,
    /// What it was made on.
    pub parts: Parts<'m>,
    /// Agents with their figures: the shipped ones, or those kept with a job.
    pub agents: &'m [Agent],
}

/// What a check is made on.
#[derive(Debug, Clone, Copy)]
pub enum Parts<'m> {
    /// Both halves, each with the material file that its seal names.
    Joint(&'m Joint, [Option<&'m Material>; 2]),
    /// One half, with the material file that its seal names.
    Half(&'m Seal, Option<&'m Material>),
    /// A toric of which only sizes, material and seat are known.
    Toric(FreeToric, &'m Material, Option<Seat>),
    /// A material alone.
    Material(&'m Material),
    /// Not known.
    Unknown,
}

/// Why a check can't be judged.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum CheckError {
    /// A file that can't be read.
    #[error("{origin}: {error}")]
    Text {
        /// Where it came from.
        origin: String,
        /// What does not fit.
        error: TextError,
    },
    /// What is stated, or what the room refuses.
    #[error(transparent)]
    Room(#[from] RoomError),
}

/// What was found and what would fit.
fn refuse(found: impl Into<String>, fits: impl Into<String>) -> RoomError {
    RoomError::Input { found: found.into(), fits: fits.into() }
}

impl<'m> Parts<'m> {
    /// The seals: none, one or both.
    fn seals(self) -> Vec<&'m Seal> {
        match self {
            Self::Joint(joint, _) => Half::BOTH.map(|half| joint.seal(half)).to_vec(),
            Self::Half(seal, _) => vec![seal],
            Self::Toric(..) | Self::Material(_) | Self::Unknown => Vec::new(),
        }
    }

    /// Probabilities at which verdicts are drawn.
    fn levels(self) -> Levels {
        match self {
            Self::Joint(joint, _) => joint.levels(),
            Self::Half(seal, _) => seal.levels(),
            Self::Toric(..) | Self::Material(_) | Self::Unknown => Levels::DEFAULT,
        }
    }
}

impl<'m> Made<'m> {
    /// The one text of readings, with its origin; `None` where there is no file.
    fn text(&self) -> Result<Option<(&'m str, &'m str)>, CheckError> {
        match self.files {
            [] => Ok(None),
            [ReadingFile { origin, content: Content::Text(text) }] => Ok(Some((origin, text))),
            [ReadingFile { origin, content: Content::Bytes(_) }] => {
                Err(refuse(say!("check-no-text", file = origin), say!("check-csv-file-wanted"))
                    .into())
            }
            files => {
                let found = say!("check-files-given", files = files.len());
                Err(refuse(found, say!("check-one-file-readings-wanted")).into())
            }
        }
    }

    /// The one text of readings, read; refused where there is none.
    fn read<T>(&self, read: impl Fn(&str) -> Result<T, TextError>) -> Result<T, CheckError> {
        let (origin, text) = self.text()?.ok_or_else(|| {
            refuse(say!("check-no-readings-given"), say!("check-name-file-readings-csv"))
        })?;
        read(text).map_err(|error| CheckError::Text { origin: origin.to_owned(), error })
    }

    /// Refuses files where a check has none.
    fn no_files(&self, why: &str) -> Result<(), RoomError> {
        if self.files.is_empty() {
            Ok(())
        } else {
            Err(refuse(say!("check-readings-file-given"), why))
        }
    }
}
