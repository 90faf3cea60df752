//! Why a store could not be used.

use std::path::{Path, PathBuf};

use ringtrue_words::say;
use rusqlite::ErrorCode;

/// Why a store could not be used. Nothing was half-written.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum StoreError {
    /// There is no file.
    #[error("{}", say!("store-missing", path = .0.display().to_string()))]
    Missing(PathBuf),
    /// The file can't be opened.
    #[error("{}", say!("store-cannot-open", path = .path.display().to_string(), why = .why))]
    CannotOpen {
        /// The file.
        path: PathBuf,
        /// Why.
        why: String,
    },
    /// The file is something else.
    #[error("{}", say!("store-not-a-store", path = .0.display().to_string()))]
    NotAStore(PathBuf),
    /// A newer program wrote it.
    #[error("{}", say!("store-newer", found = .found, newest = .newest))]
    Newer {
        /// Its version.
        found: i64,
        /// The newest that is read.
        newest: i64,
    },
    /// Another program holds it.
    #[error("{}", say!("store-busy"))]
    Busy,
    /// No room is left.
    #[error("{}", say!("store-full"))]
    Full,
    /// It may not be written.
    #[error("{}", say!("store-read-only"))]
    ReadOnly,
    /// The disk fails.
    #[error("{}", say!("store-disk", why = .0))]
    Disk(String),
    /// The file is damaged.
    #[error("{}", say!("store-damaged", why = .0))]
    Damaged(String),
    /// Somebody else appended first.
    #[error("{}", say!("store-overtaken", job = .job, found = .found, expected = .expected))]
    Overtaken {
        /// The job.
        job: String,
        /// Events that were expected.
        expected: u64,
        /// Events that are there.
        found: u64,
    },
    /// There is no such job.
    #[error("{}", say!("store-no-job", job = .0))]
    NoJob(String),
    /// There is such a job already.
    #[error("{}", say!("store-job-exists", job = .0))]
    JobExists(String),
    /// There is such a person already.
    #[error("{}", say!("store-person-exists", name = .0))]
    PersonExists(String),
    /// Somebody was to be the first, and is not.
    #[error("{}", say!("store-not-first"))]
    NotFirst,
    /// Somebody was to be added while there was no keeper, and there is one.
    #[error("{}", say!("store-has-keeper"))]
    HasKeeper,
    /// There is no such person.
    #[error("{}", say!("store-no-person", name = .0))]
    NoPerson(String),
    /// A log to be taken in tells another history than the one that is here.
    #[error("{}", say!("store-other-history", job = .job, event = .event))]
    OtherHistory {
        /// The job.
        job: String,
        /// The first event that differs.
        event: u64,
    },
    /// A job to be taken in does not add up.
    #[error("{}", say!("store-refused", job = .job, event = .event, why = .why))]
    Refused {
        /// The job.
        job: String,
        /// The event.
        event: u64,
        /// Why.
        why: String,
    },
    /// A key that stands for one request came with another.
    #[error("{}", say!("store-other-request", key = .0))]
    OtherRequest(String),
    /// A file stands where one is to be written.
    #[error("{}", say!("store-exists", path = .0.display().to_string()))]
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
