//! Jobs as a page lists them, and what was appended lately: by query, without folding a log.

use ringtrue_job::job::State;
use rusqlite::{OptionalExtension, params};

use crate::problem::StoreError;
use crate::store::{JobLine, Store, line};

/// Which jobs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Which {
    /// Work goes on.
    Open,
    /// A gate holds them.
    Held,
    /// Signed as a whole, changed since or not.
    Done,
    /// All.
    All,
}

/// What a list is to hold.
#[derive(Debug, Clone, Copy)]
pub struct Listing<'l> {
    /// Which jobs.
    pub which: Which,
    /// Letters that id or title hold; empty for all.
    pub search: &'l str,
    /// Lines that were shown before.
    pub skip: u32,
    /// Most lines.
    pub most: u32,
}

/// One page of a list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Page {
    /// Its lines, the job with the latest event first.
    pub lines: Vec<JobLine>,
    /// Are there more behind them?
    pub more: bool,
}

/// How many jobs there are of each sort.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Counts {
    /// Open ones.
    pub open: u64,
    /// Held ones.
    pub held: u64,
    /// Signed ones.
    pub done: u64,
}

/// What was appended after a position.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct News {
    /// The newest position.
    pub position: i64,
    /// Ids of the jobs that went on, each once.
    pub jobs: Vec<String>,
}

impl Which {
    /// The words of the states, as they are stored.
    fn states(self) -> [&'static str; 2] {
        match self {
            Self::Open => [State::Open.words(); 2],
            Self::Held => [State::Held.words(); 2],
            Self::Done | Self::All => [State::Signed.words(), State::ChangedSinceSigned.words()],
        }
    }
}

impl Store {
    /// One page of the list of jobs.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn page(&self, listing: Listing<'_>) -> Result<Page, StoreError> {
        let mut query = self.connection.prepare_cached(
            "SELECT id, title, state, opened_at, last_at, events, last_hash FROM job
             WHERE (?1 OR state IN (?2, ?3))
               AND (?4 = '' OR instr(lower(id), ?4) OR instr(lower(title), ?4))
             ORDER BY last_at DESC, number DESC LIMIT ?5 OFFSET ?6",
        )?;
        let [one, other] = listing.which.states();
        let all = listing.which == Which::All;
        let search = listing.search.trim().to_lowercase();
        let most = listing.most.saturating_add(1);
        let values = params![all, one, other, search, most, listing.skip];
        let mut lines =
            query.query_map(values, line)?.collect::<Result<Vec<JobLine>, rusqlite::Error>>()?;
        let more = lines.len() > listing.most as usize;
        lines.truncate(listing.most as usize);
        Ok(Page { lines, more })
    }

    /// How many jobs there are of each sort.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn counts(&self) -> Result<Counts, StoreError> {
        let mut query =
            self.connection.prepare_cached("SELECT state, count(*) FROM job GROUP BY state")?;
        let mut rows = query.query([])?;
        let mut counts = Counts::default();
        while let Some(row) = rows.next()? {
            let state: String = row.get(0)?;
            let number = row.get::<_, i64>(1)?.unsigned_abs();
            if Which::Open.states().contains(&state.as_str()) {
                counts.open += number;
            } else if Which::Held.states().contains(&state.as_str()) {
                counts.held += number;
            } else {
                counts.done += number;
            }
        }
        Ok(counts)
    }

    /// One job as a list shows it; `None` where there is none.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn line(&self, job: &str) -> Result<Option<JobLine>, StoreError> {
        let mut query = self.connection.prepare_cached(
            "SELECT id, title, state, opened_at, last_at, events, last_hash FROM job
             WHERE id = ?1",
        )?;
        Ok(query.query_row([job], line).optional()?)
    }

    /// What was appended after a position, by whichever program; from nothing on, the newest
    /// position alone.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn news(&self, after: Option<i64>) -> Result<News, StoreError> {
        let position: i64 = self
            .connection
            .prepare_cached("SELECT coalesce(max(position), 0) FROM event")?
            .query_row([], |row| row.get(0))?;
        let Some(after) = after.filter(|after| *after < position) else {
            return Ok(News { position, jobs: Vec::new() });
        };
        let mut query = self.connection.prepare_cached(
            "SELECT DISTINCT job.id FROM event JOIN job ON job.number = event.job
             WHERE event.position > ?1 AND event.position <= ?2",
        )?;
        let jobs = query.query_map([after, position], |row| row.get(0))?;
        Ok(News { position, jobs: jobs.collect::<Result<_, _>>()? })
    }
}
