//! Killed while recording, no room left, somebody else at it.

use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

use ringtrue_store::{Access, MIGRATIONS, NEWEST, Store, StoreError};

use crate::fixture::{Row, as_version_three, many, small_store};

#[path = "../../examples/recorder/mod.rs"]
mod recorder;

use recorder::{Acknowledged, check, command, kill_once};

/// How often the recorder is killed.
const KILLS: u64 = 500;
/// Longest that it records before, milliseconds; it is up and has written after a few.
const LONGEST: u64 = 40;

#[test]
fn what_was_acknowledged_survives_being_killed() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    let mut row = Row(7);
    let mut all = Acknowledged::default();
    for _ in 0..KILLS {
        kill_once(&path, Duration::from_millis(2 + row.next(LONGEST)), &mut all);
        check(&path, &all);
    }
    // Most rounds get to write something.
    assert!(all.events() > KILLS / 2, "{} events in {KILLS} rounds", all.events());
}

/// A store of version 3 with many jobs.
fn old_store(path: &Path, jobs: usize) -> String {
    let mut store = Store::open(path, Access::Create).unwrap();
    store.import(&many(jobs, 2)).unwrap();
    let text = store.export_all().unwrap().text();
    drop(store);
    as_version_three(path);
    text
}

fn version_of(path: &Path) -> i64 {
    let store = rusqlite::Connection::open(path).unwrap();
    store.pragma_query_value(None, "user_version", |row| row.get(0)).unwrap()
}

#[test]
fn a_store_whose_bringing_up_broke_off_is_the_old_one_and_is_brought_up_again() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    let text = old_store(&path, 400);
    let half = rusqlite::Connection::open(&path).unwrap();
    // Little room in memory: what is not committed is written to the log all the same.
    half.execute_batch("PRAGMA journal_mode = WAL; PRAGMA cache_size = 10; BEGIN IMMEDIATE")
        .unwrap();
    half.execute_batch(MIGRATIONS[3]).unwrap();
    half.execute_batch("UPDATE job SET folded = 'half'; PRAGMA user_version = 4").unwrap();
    // The power goes: what is on the disk now is all that there is.
    let cut = folder.path().join("cut.db");
    std::fs::copy(&path, &cut).unwrap();
    let log = std::fs::read(folder.path().join("record.db-wal")).unwrap();
    assert!(log.len() > 20_000, "{} bytes of the half-done work are on the disk", log.len());
    for share in [1, 2, 3, 4] {
        // A log that was cut itself holds no more.
        std::fs::write(folder.path().join("cut.db-wal"), &log[..log.len() * share / 4]).unwrap();
        let store = Store::open(&cut, Access::Write).unwrap();
        assert_eq!(store.export_all().unwrap().text(), text);
        store.verify_all().unwrap();
        drop(store);
        assert_eq!(version_of(&cut), NEWEST);
        std::fs::copy(&path, &cut).unwrap();
    }
    drop(half);
    assert_eq!(version_of(&path), 3);
}

#[test]
fn a_store_killed_while_it_is_brought_up_is_whole_and_loses_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let old = folder.path().join("old.db");
    let text = old_store(&old, 1500);
    let path = folder.path().join("record.db");
    // Copied anew, opened by a program that is killed so late: was it brought up by then?
    let brought_up_after = |micros: u64| {
        for beside in ["record.db-wal", "record.db-shm"] {
            let _ = std::fs::remove_file(folder.path().join(beside));
        }
        std::fs::copy(&old, &path).unwrap();
        let mut all = Acknowledged::default();
        kill_once(&path, Duration::from_micros(micros), &mut all);
        let version = version_of(&path);
        assert!(version == 3 || version == NEWEST, "{version}");
        let store = Store::open(&path, Access::Read).unwrap();
        assert!(store.list().unwrap().len() >= 1500);
        drop(store);
        check(&path, &all);
        version == NEWEST
    };
    let (mut before, mut after) = (0, 1000);
    while !brought_up_after(after) {
        (before, after) = (after, 2 * after);
        assert!(after < 60_000_000, "it is never brought up");
    }
    // Closer and closer to the moment.
    for _ in 0..10 {
        let between = u64::midpoint(before, after);
        if brought_up_after(between) { after = between } else { before = between }
    }
    assert_eq!(version_of(&old), 3);
    assert_eq!(Store::open(&old, Access::Read).unwrap().export_all().unwrap().text(), text);
}

/// Runs the recorder until it stops by itself for want of room.
fn until_full(command: &mut Command, path: &Path) -> String {
    let output = command.output().unwrap();
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(4), "{said}");
    let mut all = Acknowledged::default();
    all.take(&String::from_utf8(output.stdout).unwrap());
    assert!(all.events() > 10, "{} events before it was full", all.events());
    check(path, &all);
    said
}

/// Sizes of small disks, KiB: each ends the recorder at another place of its work. The smallest has
/// room for the empty tables, their log and some events.
const SMALL: [u32; 6] = [360, 393, 427, 460, 494, 560];

/// A disk of a size of its own, taken away again at the end.
struct SmallDisk<'d> {
    room: &'d Path,
}

impl<'d> SmallDisk<'d> {
    /// `None` where there is no leave to mount one.
    fn mount(room: &'d Path, kib: u32) -> Option<Self> {
        let size = format!("size={kib}k");
        let mut mount = Command::new("mount");
        mount.args(["-t", "tmpfs", "-o", &size, "none"]).arg(room);
        let mounted = mount.output().is_ok_and(|output| output.status.success());
        mounted.then_some(Self { room })
    }
}

impl Drop for SmallDisk<'_> {
    fn drop(&mut self) {
        let unmounted = Command::new("umount").arg(self.room).status();
        assert!(unmounted.is_ok_and(|status| status.success()), "{}", self.room.display());
    }
}

#[test]
fn a_full_disk_is_said_and_nothing_is_half_written() {
    for kib in SMALL {
        let folder = tempfile::tempdir().unwrap();
        let room = folder.path().join("room");
        std::fs::create_dir(&room).unwrap();
        let path = room.join("record.db");
        match SmallDisk::mount(&room, kib) {
            Some(disk) => {
                let said = until_full(&mut command(&path), &path);
                assert!(said.contains(&StoreError::Full.to_string()), "{kib} KiB: {said}");
                // Nothing can be recorded, and everything can be read.
                let again = command(&path).output().unwrap();
                assert_eq!(again.status.code(), Some(4), "{again:?}");
                drop(disk);
            }
            None => {
                // Without leave to mount, a limit on the file's size stands for the small disk.
                eprintln!("no leave to mount a disk of {kib} KiB: a file of that size is the most");
                let said = until_full(&mut limited(&path, kib), &path);
                assert!(said.contains("disk"), "{kib} KiB: {said}");
            }
        }
    }
}

/// The recorder with files of at most so many KiB: a write beyond fails.
fn limited(path: &Path, kib: u32) -> Command {
    let recorder = command(path);
    let mut shell = Command::new("bash");
    let script = format!("trap '' XFSZ; ulimit -f {kib}; exec \"$0\" \"$@\"");
    shell.args(["-c", &script]).arg(recorder.get_program()).args(recorder.get_args());
    shell
}

#[test]
fn a_write_that_fails_is_said_and_nothing_is_half_written() {
    for kib in SMALL {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("record.db");
        let said = until_full(&mut limited(&path, kib), &path);
        assert!(said.contains("disk"), "{kib} KiB: {said}");
    }
}

/// A folder that may be read and not written: by nobody where the tests run as root, whom nothing
/// stops.
#[test]
fn a_store_that_may_not_be_written_is_read_and_said() {
    use std::os::unix::fs::PermissionsExt;
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    drop(small_store(&path));
    let recorder = command(&path);
    let program = folder.path().join("recorder");
    std::fs::copy(recorder.get_program(), &program).unwrap();
    let mode = |path: &Path, mode| {
        std::fs::set_permissions(path, std::fs::Permissions::from_mode(mode)).unwrap();
    };
    mode(&path, 0o444);
    mode(folder.path(), 0o555);
    let root = Command::new("id").arg("-u").output().unwrap().stdout == b"0\n";
    let mut run = if root {
        let mut run = Command::new("setpriv");
        run.args(["--reuid=65534", "--regid=65534", "--clear-groups"]).arg(&program);
        run
    } else {
        Command::new(&program)
    };
    let output = run.arg(&path).output().unwrap();
    let read = run.arg("list").output().unwrap();
    mode(folder.path(), 0o755);
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(4), "{said}");
    assert!(said.contains(&StoreError::ReadOnly.to_string()), "{said}");
    assert_eq!(String::from_utf8_lossy(&read.stdout), "3 jobs\n", "{read:?}");
    // An old one is read, too, and stays as it is.
    as_version_three(&path);
    let bytes = std::fs::read(&path).unwrap();
    mode(folder.path(), 0o555);
    let read = run.output().unwrap();
    mode(folder.path(), 0o755);
    assert_eq!(String::from_utf8_lossy(&read.stdout), "3 jobs\n", "{read:?}");
    assert_eq!(std::fs::read(&path).unwrap(), bytes);
}

#[test]
fn a_store_that_somebody_holds_is_waited_for_and_then_said() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    let mut store = small_store(&path);
    let holder = rusqlite::Connection::open(&path).unwrap();
    holder.execute_batch("BEGIN IMMEDIATE").unwrap();
    // Reading goes on meanwhile.
    assert_eq!(Store::open(&path, Access::Read).unwrap().list().unwrap().len(), 3);
    let start = Instant::now();
    let refused = store.retire_person("Anna Fitter", crate::fixture::at(1)).unwrap_err();
    assert_eq!(refused, StoreError::Busy);
    assert!(start.elapsed() >= Duration::from_secs(4), "{:?}", start.elapsed());
    holder.execute_batch("ROLLBACK").unwrap();
    store.retire_person("Anna Fitter", crate::fixture::at(1)).unwrap();
}

#[test]
fn an_event_is_neither_changed_nor_deleted_by_a_slip() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    drop(small_store(&path));
    let connection = rusqlite::Connection::open(&path).unwrap();
    for slip in [
        "UPDATE event SET bytes = x'00' WHERE position = 3",
        "DELETE FROM event WHERE position = 3",
        "UPDATE document SET text = ''",
        "UPDATE attachment SET content = x''",
    ] {
        assert!(connection.execute(slip, []).is_err(), "{slip}");
    }
}
