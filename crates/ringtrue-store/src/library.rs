//! The shop's library: definitions by kind and name, each in all its editions.

use jiff::Timestamp;
use ringtrue_job::digest::Digest;
use rusqlite::{OptionalExtension, Row, params};

use crate::problem::StoreError;
use crate::store::{Attached, Store, keep};

/// One edition of a definition.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edition {
    /// Kind of definition: `seal`, `gauge`.
    pub kind: String,
    /// Its name.
    pub name: String,
    /// Its file.
    pub text: String,
    /// Hash of the file.
    pub document: Digest,
    /// Who brought it in.
    pub brought_by: String,
    /// When, UTC.
    pub brought_at: String,
}

const EDITIONS: &str = "SELECT library.kind, library.name, document.text, library.document,
                               library.brought_by, library.brought_at
                        FROM library JOIN document ON document.hash = library.document";

impl Store {
    /// The newest edition of each definition, by kind and name.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn library(&self) -> Result<Vec<Edition>, StoreError> {
        let mut query = self.connection.prepare_cached(&format!(
            "{EDITIONS}
             WHERE library.number IN (SELECT max(number) FROM library GROUP BY kind, name)
             ORDER BY library.kind, library.name"
        ))?;
        let editions = query.query_map([], edition)?;
        Ok(editions.collect::<Result<_, _>>()?)
    }

    /// All editions of one definition, the newest first.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn editions(&self, kind: &str, name: &str) -> Result<Vec<Edition>, StoreError> {
        let mut query = self.connection.prepare_cached(&format!(
            "{EDITIONS} WHERE library.kind = ?1 AND library.name = ?2 ORDER BY library.number DESC"
        ))?;
        let editions = query.query_map([kind, name], edition)?;
        Ok(editions.collect::<Result<_, _>>()?)
    }

    /// The edition whose file has this hash.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn edition(&self, document: &Digest) -> Result<Option<Edition>, StoreError> {
        let mut query = self
            .connection
            .prepare_cached(&format!("{EDITIONS} WHERE library.document = ?1 LIMIT 1"))?;
        Ok(query.query_row([document.0], edition).optional()?)
    }

    /// Brings an edition in, behind those that are there.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn bring_in(
        &mut self,
        (kind, name): (&str, &str),
        text: &str,
        (by, at): (&str, Timestamp),
    ) -> Result<Digest, StoreError> {
        let hash = Digest::of(text.as_bytes());
        let tx = self.begin()?;
        keep(&tx, Attached { documents: &[text.to_owned()], files: &[] })?;
        tx.execute(
            "INSERT INTO library (kind, name, document, brought_by, brought_at)
             VALUES (?1, ?2, ?3, ?4, ?5)",
            params![kind, name, hash.0, by, at.to_string()],
        )?;
        tx.commit()?;
        Ok(hash)
    }
}

fn edition(row: &Row<'_>) -> rusqlite::Result<Edition> {
    Ok(Edition {
        kind: row.get(0)?,
        name: row.get(1)?,
        text: row.get(2)?,
        document: Digest(row.get(3)?),
        brought_by: row.get(4)?,
        brought_at: row.get(5)?,
    })
}
