//! Opening a store, reading jobs from it, and appending to them.

use std::path::{Path, PathBuf};
use std::time::Duration;

use ringtrue_job::digest::Digest;
use ringtrue_job::event::Event;
use ringtrue_job::job::{Documents, Job};
use ringtrue_job::record::{self, Link};
use ringtrue_words::say;
use rusqlite::{
    Connection, ErrorCode, OpenFlags, OptionalExtension, Row, Transaction, TransactionBehavior,
    params,
};
use tempfile::TempPath;

use crate::listing::to_search;
use crate::problem::StoreError;
use crate::schema;

/// How long another program's transaction is waited for.
const PATIENCE: Duration = Duration::from_secs(5);

/// A store that is open.
#[derive(Debug)]
pub struct Store {
    pub(crate) connection: Connection,
    path: PathBuf,
    /// What is read in the place of an old store that can't be brought up to date where it is.
    _copy: Option<TempPath>,
}

/// What a store is opened for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Access {
    /// To read and write; made where it is not there.
    Create,
    /// To read and write; it must be there.
    Write,
    /// To read; it must be there.
    Read,
}

/// One line of the list of jobs.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct JobLine {
    /// Its id.
    pub id: String,
    /// Name of the joint.
    pub title: String,
    /// How far it has come.
    pub state: String,
    /// When it was opened, UTC.
    pub opened_at: String,
    /// When something was last recorded, UTC.
    pub last_at: String,
    /// Number of events.
    pub events: u64,
    /// Hash of the last event.
    pub last_hash: Digest,
}

/// What is kept beside the events of a deed.
#[derive(Debug, Clone, Copy, Default)]
pub struct Attached<'a> {
    /// Definition texts that the events name.
    pub documents: &'a [String],
    /// Contents of the files that the events name.
    pub files: &'a [Vec<u8>],
}

impl Store {
    /// Opens a store.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn open(path: &Path, access: Access) -> Result<Self, StoreError> {
        let there = path.exists();
        if !there && access != Access::Create {
            return Err(StoreError::Missing(path.to_owned()));
        }
        if path.is_dir() {
            return Err(StoreError::cannot_open(path, "it is a folder"));
        }
        let mut connection = match access {
            Access::Create | Access::Write => connect(path, access)?,
            Access::Read => connect_to_read(path)?,
        };
        let version = schema::version(&connection)?;
        let empty = version.is_none() && is_empty(&connection)?;
        match version {
            None if !empty || access != Access::Create => {
                return Err(StoreError::NotAStore(path.to_owned()));
            }
            Some(found) if found > schema::NEWEST => {
                return Err(StoreError::Newer { found, newest: schema::NEWEST });
            }
            Some(schema::NEWEST) => {}
            Some(_) | None => match brought_up(&mut connection) {
                // To be read it need not stay as it is made.
                Err(StoreError::ReadOnly | StoreError::Full) if access == Access::Read => {
                    drop(connection);
                    return Self::of_copy(path);
                }
                brought => brought?,
            },
        }
        Ok(Self { connection, path: path.to_owned(), _copy: None })
    }

    /// An old store in a place that can't be written, read as the newest version.
    fn of_copy(path: &Path) -> Result<Self, StoreError> {
        let failed = |error: std::io::Error| StoreError::Disk(error.to_string());
        let mut copy = tempfile::NamedTempFile::new().map_err(failed)?;
        let copied =
            std::fs::File::open(path).and_then(|mut old| std::io::copy(&mut old, &mut copy));
        copied.map_err(failed)?;
        let copy = copy.into_temp_path();
        let Self { connection, .. } = Self::open(&copy, Access::Write)?;
        Ok(Self { connection, path: path.to_owned(), _copy: Some(copy) })
    }

    /// From now on no write of this connection brings what was written lately from the log beside
    /// the file into it, which takes a while now and then: [`Self::fold_in`] does. What is written
    /// is on the disk before it is acknowledged, as always.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn fold_in_apart(&self) -> Result<(), StoreError> {
        self.connection.pragma_update(None, "wal_autocheckpoint", 0)?;
        Ok(())
    }

    /// Brings what was written lately from the log beside the file into it, as far as nobody is
    /// reading there; nobody is kept waiting.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn fold_in(&self) -> Result<(), StoreError> {
        self.connection.query_row("PRAGMA wal_checkpoint(PASSIVE)", [], |_| Ok(()))?;
        Ok(())
    }

    /// Where it is.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// All jobs, the one with the latest event first.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn list(&self) -> Result<Vec<JobLine>, StoreError> {
        let mut query = self.connection.prepare_cached(
            "SELECT id, title, state, opened_at, last_at, events, last_hash FROM job
             ORDER BY last_at DESC, number DESC",
        )?;
        let lines = query.query_map([], line)?;
        Ok(lines.collect::<Result<_, _>>()?)
    }

    /// The events of a job, in their order, as they are stored.
    ///
    /// # Errors
    /// [`StoreError::NoJob`]; [`StoreError::Damaged`] when an event can't be read.
    pub fn log(&self, job: &str) -> Result<Vec<Link>, StoreError> {
        let number = self.number(job)?.ok_or_else(|| StoreError::NoJob(job.to_owned()))?;
        let mut query = self.connection.prepare_cached(
            "SELECT sequence, hash, bytes FROM event WHERE job = ?1 ORDER BY sequence",
        )?;
        let mut rows = query.query([number])?;
        let mut log = Vec::new();
        while let Some(row) = rows.next()? {
            let sequence: i64 = row.get(0)?;
            let bytes: Vec<u8> = row.get(2)?;
            let event = record::read(&bytes).ok_or_else(|| unreadable(job, sequence))?;
            log.push(Link { event, bytes, hash: Digest(row.get(1)?) });
        }
        Ok(log)
    }

    /// The texts that events name.
    ///
    /// # Errors
    /// [`StoreError`]; a text that is not there is left out.
    pub fn documents(&self, log: &[Link]) -> Result<Documents, StoreError> {
        let mut query =
            self.connection.prepare_cached("SELECT text FROM document WHERE hash = ?1")?;
        let mut found = Documents::new();
        for hash in log.iter().flat_map(|link| link.event.documents()) {
            if found.contains_key(&hash) {
                continue;
            }
            if let Some(text) = query.query_row([hash.0], |row| row.get(0)).optional()? {
                found.insert(hash, text);
            }
        }
        Ok(found)
    }

    /// Content of a file.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn file(&self, hash: &Digest) -> Result<Option<Vec<u8>>, StoreError> {
        let mut query =
            self.connection.prepare_cached("SELECT content FROM attachment WHERE hash = ?1")?;
        Ok(query.query_row([hash.0], |row| row.get(0)).optional()?)
    }

    /// Appends events to a job that has `expected` events, in one transaction with what they name;
    /// `job` is the job as they leave it. With `expected` 0 the job is new.
    ///
    /// # Errors
    /// [`StoreError`]; nothing was written. [`StoreError::Overtaken`] when the job has another
    /// number of events by now.
    pub fn append(
        &mut self,
        (job, expected): (&Job, u64),
        links: &[Link],
        attached: Attached<'_>,
    ) -> Result<(), StoreError> {
        let tx = self.begin()?;
        keep(&tx, attached)?;
        write(&tx, (job, expected), links)?;
        tx.commit()?;
        Ok(())
    }

    pub(crate) fn begin(&mut self) -> Result<Transaction<'_>, StoreError> {
        // The lock is taken at once, so that nothing changes between reading and writing.
        Ok(self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?)
    }

    fn number(&self, job: &str) -> Result<Option<i64>, StoreError> {
        let mut query = self.connection.prepare_cached("SELECT number FROM job WHERE id = ?1")?;
        Ok(query.query_row([job], |row| row.get(0)).optional()?)
    }
}

/// A row of `id, title, state, opened_at, last_at, events, last_hash`.
pub(crate) fn line(row: &Row<'_>) -> rusqlite::Result<JobLine> {
    Ok(JobLine {
        id: row.get(0)?,
        title: row.get(1)?,
        state: row.get(2)?,
        opened_at: row.get(3)?,
        last_at: row.get(4)?,
        events: row.get::<_, i64>(5)?.unsigned_abs(),
        last_hash: Digest(row.get(6)?),
    })
}

/// Keeps texts and files under their hashes; what is there already stays.
pub(crate) fn keep(tx: &Transaction<'_>, attached: Attached<'_>) -> Result<(), StoreError> {
    let mut text = tx.prepare_cached(
        "INSERT INTO document (hash, text) VALUES (?1, ?2) ON CONFLICT DO NOTHING",
    )?;
    for document in attached.documents {
        text.execute(params![Digest::of(document.as_bytes()).0, document])?;
    }
    let mut file = tx.prepare_cached(
        "INSERT INTO attachment (hash, content) VALUES (?1, ?2) ON CONFLICT DO NOTHING",
    )?;
    for content in attached.files {
        file.execute(params![Digest::of(content).0, content])?;
    }
    Ok(())
}

/// Writes events behind the `expected` ones that are there.
pub(crate) fn write(
    tx: &Transaction<'_>,
    (job, expected): (&Job, u64),
    links: &[Link],
) -> Result<(), StoreError> {
    let overtaken = |found: u64| StoreError::Overtaken { job: job.id.clone(), expected, found };
    let head: Option<(i64, i64)> = tx
        .prepare_cached("SELECT number, events FROM job WHERE id = ?1")?
        .query_row([&job.id], |row| Ok((row.get(0)?, row.get(1)?)))
        .optional()?;
    let number = match head {
        Some(_) if expected == 0 => return Err(StoreError::JobExists(job.id.clone())),
        Some((number, events)) if events.unsigned_abs() == expected => number,
        Some((_, events)) => return Err(overtaken(events.unsigned_abs())),
        None if expected == 0 => insert_job(tx, job)?,
        None => return Err(StoreError::NoJob(job.id.clone())),
    };
    let mut insert = tx
        .prepare_cached("INSERT INTO event (job, sequence, hash, bytes) VALUES (?1, ?2, ?3, ?4)")?;
    for (offset, Link { event, bytes, hash }) in links.iter().enumerate() {
        let sequence = expected + 1 + offset as u64;
        assert!(follows(event, job, sequence), "an event is written where it belongs");
        insert.execute(params![number, as_stored(sequence), hash.0, bytes])?;
    }
    tx.prepare_cached(
        "UPDATE job SET state = ?2, last_at = ?3, events = ?4, last_hash = ?5, folded = ?6
         WHERE number = ?1",
    )?
    .execute(params![
        number,
        job.state().words(),
        last_at(job),
        as_stored(job.events()),
        job.last_hash.0,
        to_search(&job.id, &job.opened.title)
    ])?;
    Ok(())
}

fn follows(event: &Event, job: &Job, sequence: u64) -> bool {
    event.job == job.id && event.sequence == sequence
}

fn insert_job(tx: &Transaction<'_>, job: &Job) -> Result<i64, StoreError> {
    tx.prepare_cached(
        "INSERT INTO job (id, title, state, opened_at, last_at, events, last_hash)
         VALUES (?1, ?2, '', ?3, ?3, 0, x'') RETURNING number",
    )?
    .query_row(params![job.id, job.opened.title, job.opened_at.to_string()], |row| row.get(0))
    .map_err(StoreError::from)
}

fn last_at(job: &Job) -> String {
    job.log.last().map_or(job.opened_at, |entry| entry.at).to_string()
}

/// SQLite counts to 2^63; no log comes near it.
fn as_stored(number: u64) -> i64 {
    i64::try_from(number).unwrap_or(i64::MAX)
}

pub(crate) fn unreadable(job: &str, sequence: i64) -> StoreError {
    StoreError::Damaged(say!("store-event-unread", event = sequence, job))
}

/// A log that another program left behind is folded in by whoever opens for writing, as reading
/// does too where it may; where the place can't be written, the file is read as it is.
fn connect_to_read(path: &Path) -> Result<Connection, StoreError> {
    // Only a read from a table touches the log.
    let tried = connect(path, Access::Read).and_then(|connection| {
        is_empty(&connection)?;
        Ok(connection)
    });
    match tried {
        Err(StoreError::ReadOnly | StoreError::Disk(_) | StoreError::CannotOpen { .. }) => {
            immutable(path)
        }
        other => other,
    }
}

/// Makes the file of a new store so that nobody else reads the keys in it, where the system knows
/// owners. What keeps it from being made, opening it says.
fn for_owner_alone(path: &Path) {
    let mut new = std::fs::OpenOptions::new();
    new.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut new, 0o600);
    let _ = new.open(path);
}

fn connect(path: &Path, access: Access) -> Result<Connection, StoreError> {
    let mut flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    if access == Access::Create {
        flags |= OpenFlags::SQLITE_OPEN_CREATE;
        for_owner_alone(path);
    }
    let connection = Connection::open_with_flags(path, flags)
        .map_err(|error| StoreError::cannot_open(path, error))?;
    let prepared = connection
        .busy_timeout(PATIENCE)
        .and_then(|()| connection.pragma_update(None, "synchronous", "FULL"))
        .and_then(|()| connection.pragma_update(None, "foreign_keys", "ON"));
    match prepared {
        Ok(()) => Ok(connection),
        Err(error) if error.sqlite_error_code() == Some(ErrorCode::NotADatabase) => {
            Err(StoreError::NotAStore(path.to_owned()))
        }
        Err(error) => Err(error.into()),
    }
}

/// Opens a file that can't be written, as it is.
fn immutable(path: &Path) -> Result<Connection, StoreError> {
    let mut log = path.as_os_str().to_owned();
    log.push("-wal");
    if Path::new(&log).exists() {
        return Err(StoreError::ReadOnly);
    }
    let flags = OpenFlags::SQLITE_OPEN_READ_ONLY
        | OpenFlags::SQLITE_OPEN_NO_MUTEX
        | OpenFlags::SQLITE_OPEN_URI;
    let escaped: String = path
        .to_string_lossy()
        .chars()
        .map(|c| match c {
            '%' | '?' | '#' => format!("%{:02X}", u32::from(c)),
            c => c.to_string(),
        })
        .collect();
    Connection::open_with_flags(format!("file:{escaped}?immutable=1"), flags)
        .map_err(|error| StoreError::cannot_open(path, error))
}

fn brought_up(connection: &mut Connection) -> Result<(), StoreError> {
    connection.pragma_update(None, "journal_mode", "WAL")?;
    schema::migrate(connection)
}

fn is_empty(connection: &Connection) -> Result<bool, StoreError> {
    let tables: i64 =
        connection.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))?;
    Ok(tables == 0)
}
