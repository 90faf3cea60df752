//! Jobs as a page lists them, and what was appended lately: by query, without folding a log.

use ringtrue_job::job::State;
use rusqlite::{Connection, OptionalExtension, params};

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

/// Which jobs is found in the index alone; then these few are looked at.
const PAGE: &str = "
    SELECT id, title, state, opened_at, last_at, events, last_hash FROM job
    WHERE number IN (
        SELECT number FROM job
        WHERE (?1 OR state IN (?2, ?3)) AND (?4 = '' OR instr(folded, ?4))
        ORDER BY last_at DESC, number DESC LIMIT ?5 OFFSET ?6)
    ORDER BY last_at DESC, number DESC";

const COUNTS: &str = "SELECT state, count(*) FROM job GROUP BY state";

/// Letters as they are looked for: without case, in any script.
fn folded(text: &str) -> String {
    text.to_lowercase()
}

/// What is searched of a job.
pub(crate) fn to_search(id: &str, title: &str) -> String {
    folded(&format!("{id}\n{title}"))
}

/// Writes it for every job.
pub(crate) fn fold_all(connection: &Connection) -> Result<(), StoreError> {
    let mut jobs = connection.prepare("SELECT number, id, title FROM job")?;
    let mut write = connection.prepare("UPDATE job SET folded = ?2 WHERE number = ?1")?;
    let mut rows = jobs.query([])?;
    let mut all = Vec::new();
    while let Some(row) = rows.next()? {
        let (id, title): (String, String) = (row.get(1)?, row.get(2)?);
        all.push((row.get::<_, i64>(0)?, to_search(&id, &title)));
    }
    drop(rows);
    for (number, folded) in all {
        write.execute(params![number, folded])?;
    }
    Ok(())
}

impl Store {
    /// One page of the list of jobs.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn page(&self, listing: Listing<'_>) -> Result<Page, StoreError> {
        let mut query = self.connection.prepare_cached(PAGE)?;
        let [one, other] = listing.which.states();
        let all = listing.which == Which::All;
        let search = folded(listing.search.trim());
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
        let mut query = self.connection.prepare_cached(COUNTS)?;
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

#[cfg(test)]
mod tests {
    use rusqlite::Connection;

    use super::{COUNTS, PAGE, fold_all};
    use crate::schema::MIGRATIONS;

    #[test]
    fn lists_and_counts_are_found_in_an_index_alone() {
        let connection = Connection::open_in_memory().unwrap();
        MIGRATIONS.iter().for_each(|step| connection.execute_batch(step).unwrap());
        let plan = |query: &str| -> Vec<String> {
            let mut plan = connection.prepare(&format!("EXPLAIN QUERY PLAN {query}")).unwrap();
            let count = plan.parameter_count();
            let none =
                rusqlite::params_from_iter(std::iter::repeat_n(rusqlite::types::Null, count));
            let lines = plan.query_map(none, |row| row.get(3)).unwrap();
            lines.collect::<Result<_, _>>().unwrap()
        };
        let page = plan(PAGE);
        assert!(page.iter().any(|step| step.contains("COVERING INDEX job_to_search")), "{page:?}");
        assert!(!page.iter().any(|step| step == "SCAN job"), "{page:?}");
        let counts = plan(COUNTS);
        assert!(counts[0].contains("COVERING INDEX job_by_state"), "{counts:?}");
    }

    #[test]
    fn every_job_is_folded() {
        let connection = Connection::open_in_memory().unwrap();
        MIGRATIONS.iter().for_each(|step| connection.execute_batch(step).unwrap());
        let insert = "INSERT INTO job (id, title, state, opened_at, last_at, events, last_hash)
                      VALUES (?1, 'ÖLPUMPE Links', '', '', '', 0, x'')";
        for number in 0..3 {
            connection.execute(insert, [format!("J-{number}")]).unwrap();
        }
        fold_all(&connection).unwrap();
        let folded = "SELECT count(*) FROM job WHERE folded = lower(id) || char(10) || ?1";
        let count: i64 = connection.query_row(folded, ["ölpumpe links"], |row| row.get(0)).unwrap();
        assert_eq!(count, 3);
    }
}
