//! Killing a program that records, and looking after what it left.

#![allow(dead_code, reason = "the test and the example each use a part of it")]
#![allow(unreachable_pub, reason = "the test and the example include it as a module")]

use std::collections::BTreeMap;
use std::io::Read;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Duration;

use ringtrue_store::{Access, Store};

/// For each job the last event that was acknowledged, and its hash.
#[derive(Debug, Default)]
pub struct Acknowledged(BTreeMap<String, (u64, String)>);

impl Acknowledged {
    /// Lines as the recorder prints them: job, event, hash. A line that was cut is none.
    pub fn take(&mut self, printed: &str) {
        let whole = printed.rsplit_once('\n').map_or("", |(whole, _)| whole);
        for line in whole.lines() {
            let mut words = line.split(' ');
            let (Some(job), Some(event), Some(hash)) = (words.next(), words.next(), words.next())
            else {
                continue;
            };
            self.0.insert(job.to_owned(), (event.parse().expect("a number"), hash.to_owned()));
        }
    }

    pub fn events(&self) -> u64 {
        self.0.values().map(|(event, _)| event).sum()
    }
}

/// The recorder, built beside the tests.
pub fn command(store: &Path) -> Command {
    let own = std::env::current_exe().expect("a program knows where it is");
    let folder = own.ancestors().find(|folder| folder.join("examples").is_dir());
    let program: PathBuf = folder
        .expect("examples are built beside the tests")
        .join("examples")
        .join("record_in_a_loop");
    assert!(program.exists(), "{} is not built: `cargo test` builds it", program.display());
    let mut command = Command::new(program);
    command.arg(store);
    command
}

/// Lets it record for a while and kills it where it stands.
pub fn kill_once(store: &Path, after: Duration, all: &mut Acknowledged) {
    let mut child = command(store)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("the recorder starts");
    std::thread::sleep(after);
    child.kill().expect("the recorder is ours to kill");
    let mut printed = String::new();
    let mut pipe = child.stdout.take().expect("its output is piped");
    pipe.read_to_string(&mut printed).expect("it prints text");
    child.wait().expect("it ended");
    all.take(&printed);
}

/// Everything acknowledged is there, and the store verifies.
pub fn check(path: &Path, all: &Acknowledged) {
    if !path.exists() {
        assert!(all.0.is_empty(), "the store is gone");
        return;
    }
    let store = match Store::open(path, Access::Read) {
        Ok(store) => store,
        // Killed before it was made a store, with nothing acknowledged.
        Err(error) => {
            assert!(all.0.is_empty(), "{error}");
            return;
        }
    };
    store.verify_all().unwrap_or_else(|unfit| panic!("{unfit}"));
    for (job, (event, hash)) in &all.0 {
        let log = store.log(job).unwrap_or_else(|error| panic!("{error}"));
        let index = usize::try_from(event - 1).expect("a small number");
        let link = log.get(index).unwrap_or_else(|| panic!("event {event} of {job} is gone"));
        assert_eq!(link.hash.to_string(), *hash, "event {event} of {job}");
    }
}
