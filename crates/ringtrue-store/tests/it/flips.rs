//! A changed byte anywhere in a store: it does not verify, or what it says is the same.

use std::path::Path;

use ringtrue_store::{Access, Store};

use crate::fixture::{Row, small_store};

const FLIPS: u64 = 2_000;

/// Does it verify? And what does it say, if it can be read at all?
fn look(path: &Path) -> (bool, Option<String>) {
    let Ok(store) = Store::open(path, Access::Read) else { return (false, None) };
    let verified = store.verify_all().is_ok();
    (verified, store.export_all().ok().map(|export| export.text()))
}

#[test]
fn a_changed_byte_of_a_store_is_found_or_changes_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    let text = small_store(&path).export_all().unwrap().text();
    let whole = std::fs::read(&path).unwrap();
    let changed = folder.path().join("changed.db");
    let mut row = Row(20_261_125);
    let mut found = 0;
    for _ in 0..FLIPS {
        let mut bytes = whole.clone();
        let at = usize::try_from(row.next(whole.len() as u64)).unwrap();
        bytes[at] ^= u8::try_from(1 + row.next(255)).unwrap();
        std::fs::write(&changed, &bytes).unwrap();
        let (verified, said) = look(&changed);
        let same = said.as_ref() == Some(&text);
        let around = &whole[at.saturating_sub(16)..(at + 16).min(whole.len())];
        let around = String::from_utf8_lossy(around);
        let said = said.as_ref().and_then(|said| said.get(..80));
        assert!(!verified || same, "byte {at} in {around:?}: it verifies and says {said:?}");
        found += u64::from(!verified);
        for ending in ["", "-wal", "-shm", "-journal"] {
            let _ = std::fs::remove_file(folder.path().join(format!("changed.db{ending}")));
        }
    }
    // A good part of a store is content, the rest room; if hardly any flip were found, nothing
    // would be looked at.
    assert!(found > FLIPS / 8, "only {found} of {FLIPS} changes were found");
}

#[test]
fn a_store_cut_short_does_not_verify() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    drop(small_store(&path));
    let whole = std::fs::read(&path).unwrap();
    for pages in 0..whole.len() / 4096 {
        std::fs::write(&path, &whole[..pages * 4096]).unwrap();
        assert!(!look(&path).0, "{pages} pages");
    }
}

/// Somebody who holds the file takes events out of a job, doubles them or swaps them, and puts the
/// numbers right; the head says how many there are.
#[test]
fn dropped_doubled_and_swapped_events_of_a_store_are_found() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    drop(small_store(&path));
    let whole = std::fs::read(&path).unwrap();
    let changed = folder.path().join("changed.db");
    let drop_it = "DELETE FROM event WHERE position = ?1;
        UPDATE event SET sequence = sequence - 1 WHERE position > ?1 AND job =
            (SELECT job FROM event WHERE position = ?1 - 1);
        UPDATE job SET events = (SELECT count(*) FROM event WHERE job = number),
            last_hash = (SELECT hash FROM event WHERE job = number ORDER BY sequence DESC)";
    let double = "UPDATE event SET bytes = (SELECT bytes FROM event WHERE position = ?1),
        hash = (SELECT hash FROM event WHERE position = ?1) WHERE position = ?1 + 1";
    let swap = "UPDATE event SET bytes = (SELECT bytes FROM event AS other WHERE
            other.position = 2 * ?1 + 1 - event.position),
        hash = (SELECT hash FROM event AS other WHERE
            other.position = 2 * ?1 + 1 - event.position) WHERE position IN (?1, ?1 + 1)";
    for position in 1..=48 {
        for (what, sql) in [("dropped", drop_it), ("doubled", double), ("swapped", swap)] {
            std::fs::write(&changed, &whole).unwrap();
            let connection = rusqlite::Connection::open(&changed).unwrap();
            connection
                .execute_batch(
                    "PRAGMA foreign_keys = OFF; DROP TRIGGER event_is_not_changed;
                     DROP TRIGGER event_is_not_deleted; PRAGMA ignore_check_constraints = ON",
                )
                .unwrap();
            let sql = sql.replace("?1", &position.to_string());
            connection.execute_batch(&sql).unwrap();
            drop(connection);
            let (verified, _) = look(&changed);
            assert!(!verified, "event at {position} {what}");
            for ending in ["", "-wal", "-shm"] {
                let _ = std::fs::remove_file(folder.path().join(format!("changed.db{ending}")));
            }
        }
    }
}
