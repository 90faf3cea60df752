//! Makes a store of many jobs after the pattern of a real one, and says how long listing, showing
//! and verifying take.
//!
//! `many_jobs JOBS EVENTS STORE EXPORT`: the export holds the job that is the pattern.

#![allow(clippy::unwrap_used, reason = "it drives a test and stops at what is wrong")]
#![allow(clippy::print_stdout, reason = "it reports")]

#[path = "../tests/it/fixture.rs"]
mod fixture;

use std::collections::BTreeMap;
use std::path::Path;
use std::time::{Duration, Instant};

use ringtrue_job::digest::Digest;
use ringtrue_job::event::Payload;
use ringtrue_job::job::{Job, Plan};
use ringtrue_job::person::{Unlocked, is_signed};
use ringtrue_job::record::{self, Export, Link, read_export};
use ringtrue_store::{Access, Store};

/// Jobs that are taken in at a time.
const BATCH: usize = 250;

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [jobs, events, path, export] = arguments.as_slice() else {
        panic!("many_jobs JOBS EVENTS STORE EXPORT")
    };
    let (jobs, events): (usize, usize) = (jobs.parse().unwrap(), events.parse().unwrap());
    let pattern = read_export(&std::fs::read_to_string(export).unwrap()).unwrap();
    let path = Path::new(path);
    let (made, ()) = timed(|| make(path, &pattern, (jobs, events)));
    let size = std::fs::metadata(path).unwrap().len() >> 20;
    println!("{jobs} jobs of {events} events, {size} MiB, written in {made:?}");
    let store = Store::open(path, Access::Read).expect("it opens");
    let listed = best(|| store.list().expect("a list").len());
    println!("list of all jobs          {listed:?}");
    let id = format!("J-{:05}", jobs / 2);
    let read = best(|| {
        let log = store.log(&id).expect("a log");
        Job::fold(&log).expect("it adds up").events()
    });
    let shown = best(|| {
        let log = store.log(&id).expect("a log");
        let job = Job::fold(&log).expect("it adds up");
        let documents = store.documents(&log).expect("its texts");
        Plan::of(&job.opened, &documents).expect("a plan").standings(&job).len()
    });
    println!("one job: log and fold     {read:?}");
    println!("with its definitions      {shown:?}");
    let (checked, done) = timed(|| store.verify_all().expect("it verifies"));
    let sound = timed(|| store.file_is_sound().expect("it is sound")).0;
    let rate = done.events as f64 / checked.as_secs_f64();
    println!("verify {checked:?}: {rate:.0} events/s, of it {sound:?} in the database's own check");
    parts(&store, jobs);
    let head = timed(|| store.tree_head().expect("a head")).0;
    println!("checkpoint {head:?}");
}

/// Writes the jobs: each the first events of the pattern, under an id and with signatures of its
/// own.
fn make(path: &Path, pattern: &Export, (jobs, events): (usize, usize)) {
    let log = pattern.jobs.values().next().expect("the export holds a job");
    let log = &log[..events.min(log.len())];
    let mut people = BTreeMap::new();
    for link in log {
        let author = &link.event.author;
        people
            .entry(author.name.clone())
            .or_insert_with(|| fixture::person(&author.name, author.role).1);
    }
    let mut store = Store::open(path, Access::Create).expect("a new store");
    let mut named: Export = Export::default();
    for link in log {
        for hash in link.event.documents() {
            named.documents.insert(hash, pattern.documents[&hash].clone());
        }
        for photo in link.event.photos() {
            let content = pattern.attachments[&photo.content].clone();
            named.attachments.insert(photo.content, content);
        }
    }
    for first in (0..jobs).step_by(BATCH) {
        let mut export = named.clone();
        for number in first..jobs.min(first + BATCH) {
            let id = format!("J-{number:05}");
            export.jobs.insert(id.clone(), after(log, &id, &people));
        }
        store.import(&export).expect("it is taken in");
    }
}

/// The same events under another id.
fn after(log: &[Link], id: &str, people: &BTreeMap<String, Unlocked>) -> Vec<Link> {
    let mut last = Digest::NONE;
    let again = |link: &Link| {
        let mut event = link.event.clone();
        let person = &people[&event.author.name];
        event.job = id.to_owned();
        event.author = person.author().clone();
        if let Payload::Signed(signed) = &mut event.payload {
            signed.covers = last;
            let message = record::signed_message(id, &signed.meaning, &last);
            signed.signature = person.sign(&message);
        }
        let link = record::link(event, &last);
        last = link.hash;
        link
    };
    log.iter().map(again).collect()
}

/// Where the time of verifying goes, on the events of every hundredth job in memory.
fn parts(store: &Store, jobs: usize) {
    let some = (0..jobs).step_by(100).map(|number| store.log(&format!("J-{number:05}")).unwrap());
    let logs: Vec<Vec<Link>> = some.collect();
    let log = || logs.iter().flatten();
    let hashed = timed(|| log().map(|link| record::hash(&link.bytes, &link.hash).0[0]).max()).0;
    let read = timed(|| log().filter_map(|link| record::read(&link.bytes)).count()).0;
    let signed = timed(|| {
        let each = |link: &Link| {
            let Payload::Signed(signed) = &link.event.payload else { return false };
            let message = record::signed_message(&link.event.job, &signed.meaning, &signed.covers);
            is_signed(&message, &link.event.author.key, &signed.signature)
        };
        log().filter(|link| each(link)).count()
    });
    let bytes: usize = log().map(|link| link.bytes.len()).sum();
    let count = log().count();
    println!(
        "  of every hundredth job ({count} events, {} bytes each): hashing {hashed:?}, reading \
         {read:?}, {} signatures {:?}",
        bytes / count.max(1),
        signed.1,
        signed.0
    );
}

fn timed<T>(work: impl FnOnce() -> T) -> (Duration, T) {
    let start = Instant::now();
    let done = work();
    (start.elapsed(), done)
}

/// The shortest of a few runs, the first left out: what a person waits for the second time.
fn best<T>(work: impl Fn() -> T) -> Duration {
    drop(work());
    let runs = (0..7).map(|_| timed(&work).0);
    runs.min().unwrap_or_default()
}
