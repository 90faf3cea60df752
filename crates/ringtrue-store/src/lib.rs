//! Records of jobs in one file: SQLite with a write-ahead log and full synchronisation.
//!
//! [`Store::append`] writes a deed's events in one transaction or not at all; what it has returned
//! from is on the disk. The file is one file again once the last program that uses it has closed
//! it. Nothing here decides what may be recorded: `ringtrue_job::job` does.

mod backup;
mod checkpoint;
mod export;
mod library;
mod listing;
mod once;
mod people;
mod place;
mod problem;
mod schema;
mod store;
mod verify;

pub use backup::restore;
pub use checkpoint::{Against, Checkpoint, CheckpointError, TreeHead};
pub use export::Imported;
pub use library::Edition;
pub use listing::{Counts, Listing, News, Page, Which};
pub use once::{LONGEST_KEY, Once};
pub use place::{Place, PlaceError};
pub use problem::StoreError;
pub use schema::{MIGRATIONS, NEWEST};
pub use store::{Access, Attached, JobLine, Store};
pub use verify::{Signer, Unfit, Verified};
