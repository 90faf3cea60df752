//! Requests that may come twice are done once: the answer is kept with what was done.

use jiff::Timestamp;
use ringtrue_job::digest::Digest;
use ringtrue_job::job::Job;
use ringtrue_job::record::Link;
use rusqlite::{OptionalExtension, Transaction, params};

use crate::problem::StoreError;
use crate::store::{Attached, Store, keep, write};

/// Longest key that a request may carry.
pub const LONGEST_KEY: usize = 200;

/// A request that is to be done once.
#[derive(Debug, Clone, Copy)]
pub struct Once<'o> {
    /// Who asks: a key is theirs alone.
    pub person: &'o str,
    /// The key that they gave it.
    pub key: &'o str,
    /// Hash of what is asked.
    pub request: Digest,
    /// What is answered when it is done.
    pub answer: &'o str,
    /// When.
    pub at: Timestamp,
}

impl Store {
    /// What was answered to this person's request with this key; `None` where it is new.
    ///
    /// # Errors
    /// [`StoreError::OtherRequest`] when the key stood for something else.
    pub fn answer(
        &self,
        (person, key): (&str, &str),
        request: &Digest,
    ) -> Result<Option<String>, StoreError> {
        let found: Option<([u8; 32], String)> = self
            .connection
            .prepare_cached("SELECT request, answer FROM answered WHERE person = ?1 AND key = ?2")?
            .query_row([person, key], |row| Ok((row.get(0)?, row.get(1)?)))
            .optional()?;
        match found {
            Some((asked, _)) if asked != request.0 => Err(StoreError::OtherRequest(key.to_owned())),
            Some((_, answer)) => Ok(Some(answer)),
            None => Ok(None),
        }
    }

    /// [`Self::append`] with the answer kept in the same transaction.
    ///
    /// # Errors
    /// As [`Self::append`]; [`StoreError::OtherRequest`] when the key is taken.
    pub fn append_once(
        &mut self,
        (job, expected): (&Job, u64),
        links: &[Link],
        (attached, once): (Attached<'_>, Once<'_>),
    ) -> Result<(), StoreError> {
        let tx = self.begin()?;
        keep(&tx, attached)?;
        write(&tx, (job, expected), links)?;
        answered(&tx, once)?;
        tx.commit()?;
        Ok(())
    }
}

fn answered(tx: &Transaction<'_>, once: Once<'_>) -> Result<(), StoreError> {
    let kept = tx
        .prepare_cached(
            "INSERT INTO answered (person, key, request, answer, at)
             VALUES (?1, ?2, ?3, ?4, ?5) ON CONFLICT DO NOTHING",
        )?
        .execute(params![
            once.person,
            once.key,
            once.request.0,
            once.answer,
            once.at.to_string()
        ])?;
    if kept == 0 { Err(StoreError::OtherRequest(once.key.to_owned())) } else { Ok(()) }
}
