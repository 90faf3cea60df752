//! The store's tables, and how an older store becomes the newest.

use ringtrue_words::say;
use rusqlite::{Connection, TransactionBehavior};

use crate::listing;
use crate::problem::StoreError;

/// Marks a file as a store: `RTru`.
pub(crate) const APPLICATION_ID: i64 = 0x5254_7275;

/// Each step from one version to the next; released ones are never changed.
pub const MIGRATIONS: &[&str] = &[
    include_str!("../migrations/0001_record.sql"),
    include_str!("../migrations/0002_checkpoint.sql"),
    include_str!("../migrations/0003_bench.sql"),
    include_str!("../migrations/0004_search.sql"),
];

/// What SQL alone does not know is written behind these steps, in the same transaction.
const FILLED: &[(&str, Fill)] =
    &[(include_str!("../migrations/0004_search.sql"), listing::fold_all)];

type Fill = fn(&Connection) -> Result<(), StoreError>;

/// The version that this program writes.
pub const NEWEST: i64 = MIGRATIONS.len() as i64;

/// Version of a store; `None` for a file that is none.
pub(crate) fn version(connection: &Connection) -> Result<Option<i64>, StoreError> {
    let number = |name: &str| connection.pragma_query_value(None, name, |row| row.get::<_, i64>(0));
    let id = number("application_id")?;
    let version = number("user_version")?;
    Ok((id == APPLICATION_ID).then_some(version))
}

/// Brings a store, or an empty file, to the newest version in one transaction.
pub(crate) fn migrate(connection: &mut Connection) -> Result<(), StoreError> {
    let tx = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    // Read again under the lock: another program may have done it meanwhile.
    let from = version(&tx)?.unwrap_or(0);
    if from > NEWEST {
        return Err(StoreError::Newer { found: from, newest: NEWEST });
    }
    let done = usize::try_from(from)
        .map_err(|_| StoreError::Damaged(say!("store-no-such-version", version = from)))?;
    for migration in &MIGRATIONS[done..] {
        tx.execute_batch(migration)?;
        if let Some((_, fill)) = FILLED.iter().find(|(filled, _)| filled == migration) {
            fill(&tx)?;
        }
    }
    tx.pragma_update(None, "application_id", APPLICATION_ID)?;
    tx.pragma_update(None, "user_version", NEWEST)?;
    tx.commit()?;
    Ok(())
}
