//! Why a store could not be used.

use std::path::{Path, PathBuf};

use rusqlite::ErrorCode;

/// Why a store could not be used. Nothing was half-written.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum StoreError {
    /// There is no file.
    #[error("there is no store at {}", .0.display())]
    Missing(PathBuf),
    /// The file can't be opened.
    #[error("the store {} can't be opened ({why})", .path.display())]
    CannotOpen {
        /// The file.
        path: PathBuf,
        /// Why.
        why: String,
    },
    /// The file is something else.
    #[error("{} is no store of ringtrue", .0.display())]
    NotAStore(PathBuf),
    /// A newer program wrote it.
    #[error("the store has version {found}, and this program reads up to {newest}")]
    Newer {
        /// Its version.
        found: i64,
        /// The newest that is read.
        newest: i64,
    },
    /// Another program holds it.
    #[error("another program is writing to the store")]
    Busy,
    /// No room is left.
    #[error("the disk is full")]
    Full,
    /// It may not be written.
    #[error("the store may not be written")]
    ReadOnly,
    /// The disk fails.
    #[error("the disk can't be read or written ({0})")]
    Disk(String),
    /// The file is damaged.
    #[error("the store is damaged ({0})")]
    Damaged(String),
    /// Somebody else appended first.
    #[error("job {job} has {found} events and not {expected}: somebody else recorded meanwhile")]
    Overtaken {
        /// The job.
        job: String,
        /// Events that were expected.
        expected: u64,
        /// Events that are there.
        found: u64,
    },
    /// There is no such job.
    #[error("there is no job {0}")]
    NoJob(String),
    /// There is such a job already.
    #[error("there is a job {0} already")]
    JobExists(String),
    /// There is such a person already.
    #[error("there is a person named {0} already")]
    PersonExists(String),
    /// Somebody was to be the first, and is not.
    #[error("there are people in this store already")]
    NotFirst,
    /// There is no such person.
    #[error("there is no person named {0}")]
    NoPerson(String),
    /// A log to be taken in tells another history than the one that is here.
    #[error("job {job} is here with another history from event {event} on")]
    OtherHistory {
        /// The job.
        job: String,
        /// The first event that differs.
        event: u64,
    },
    /// A job to be taken in does not add up.
    #[error("job {job}, event {event}: {why}")]
    Refused {
        /// The job.
        job: String,
        /// The event.
        event: u64,
        /// Why.
        why: String,
    },
    /// A key that stands for one request came with another.
    #[error("the key `{0}` stands for another request")]
    OtherRequest(String),
    /// A file stands where one is to be written.
    #[error("{} is there already", .0.display())]
    Exists(PathBuf),
}

impl StoreError {
    pub(crate) fn cannot_open(path: &Path, why: impl ToString) -> Self {
        Self::CannotOpen { path: path.to_owned(), why: why.to_string() }
    }
}

impl From<rusqlite::Error> for StoreError {
    fn from(error: rusqlite::Error) -> Self {
        let said = error.to_string();
        match error.sqlite_error_code() {
            Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => Self::Busy,
            Some(ErrorCode::DiskFull) => Self::Full,
            Some(ErrorCode::ReadOnly | ErrorCode::PermissionDenied) => Self::ReadOnly,
            Some(ErrorCode::SystemIoFailure | ErrorCode::CannotOpen) => Self::Disk(said),
            _ => Self::Damaged(said),
        }
    }
}
