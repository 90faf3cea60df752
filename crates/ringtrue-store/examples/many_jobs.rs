//! Makes a store of many jobs and says how long listing, showing and verifying take.
//!
//! `many_jobs JOBS EVENTS STORE`

#![allow(clippy::unwrap_used, reason = "it drives a test and stops at what is wrong")]
#![allow(clippy::print_stdout, reason = "it reports")]

#[path = "../tests/it/fixture.rs"]
mod fixture;

use std::path::Path;
use std::time::{Duration, Instant};

use ringtrue_job::event::Payload;
use ringtrue_job::job::Job;
use ringtrue_job::person::is_signed;
use ringtrue_job::record::{self, Export, Link};
use ringtrue_store::{Access, Store};

fn main() {
    let mut arguments = std::env::args().skip(1);
    let mut number = || arguments.next().and_then(|text| text.parse::<usize>().ok());
    let (jobs, events) = (number().unwrap_or(10_000), number().unwrap_or(60));
    let path = arguments.next().expect("the store is named");
    let path = Path::new(&path);
    let export = fixture::many(jobs, events);
    let (made, _) = timed(|| {
        let mut store = Store::open(path, Access::Create).expect("a new store");
        store.import(&export).expect("it is taken in");
    });
    println!("{jobs} jobs of {events} events, written in {made:?}");
    let store = Store::open(path, Access::Read).expect("it opens");
    let (first, _) = timed(|| store.list().expect("a list").len());
    let (again, _) = timed(|| store.list().expect("a list").len());
    println!("list   {first:?}, again {again:?}");
    let (shown, _) = timed(|| {
        let log = store.log("J-00042").expect("a log");
        Job::fold(&log).expect("it adds up").events()
    });
    println!("log and fold of one job   {shown:?}");
    let (checked, done) = timed(|| store.verify_all().expect("it verifies"));
    let sound = timed(|| store.file_is_sound().expect("it is sound")).0;
    let rate = done.events as f64 / checked.as_secs_f64();
    println!("verify {checked:?}: {rate:.0} events/s, of it {sound:?} in the database's own check");
    parts(&export);
    let head = timed(|| store.tree_head().expect("a head")).0;
    println!("checkpoint {head:?}");
}

/// Where the time of verifying goes, on the same events in memory.
fn parts(export: &Export) {
    let log = || export.jobs.values().flatten();
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
    println!("  hashing {hashed:?}, reading {read:?}, {} signatures {:?}", signed.1, signed.0);
}

fn timed<T>(work: impl FnOnce() -> T) -> (Duration, T) {
    let start = Instant::now();
    let done = work();
    (start.elapsed(), done)
}
