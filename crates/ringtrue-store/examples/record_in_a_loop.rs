//! Records events in a store, one after another, and prints each once it is acknowledged; ends with
//! code 4 when the store can't take any more. Tests kill it.
//!
//! `record_in_a_loop STORE`, or `record_in_a_loop STORE list` to read only

#![allow(clippy::unwrap_used, reason = "it drives a test and stops at what is wrong")]
#![allow(clippy::print_stdout, clippy::print_stderr, reason = "it speaks to the test")]

#[path = "../tests/it/fixture.rs"]
mod fixture;

use std::io::Write;
use std::path::Path;
use std::process::ExitCode;

use ringtrue_job::job::Job;
use ringtrue_job::person::Role;
use ringtrue_store::{Access, Attached, Store, StoreError};

use fixture::{Writer, documents, person, recorded};

const JOBS: usize = 3;

fn main() -> ExitCode {
    let path = std::env::args().nth(1).expect("the store is named");
    if std::env::args().nth(2).is_some() {
        return match Store::open(Path::new(&path), Access::Read).and_then(|store| store.list()) {
            Ok(jobs) => {
                println!("{} jobs", jobs.len());
                ExitCode::SUCCESS
            }
            Err(error) => {
                eprintln!("{error}");
                ExitCode::from(4)
            }
        };
    }
    match record(Path::new(&path)) {
        Ok(never) => match never {},
        Err(error) => {
            eprintln!("{error}");
            ExitCode::from(4)
        }
    }
}

fn record(path: &Path) -> Result<std::convert::Infallible, StoreError> {
    let (_, key) = person("Anna Fitter", Role::Fitter);
    let mut store = Store::open(path, Access::Create)?;
    let texts = documents();
    let attached = Attached { documents: &texts, files: &[] };
    let mut writers = Vec::new();
    for number in 0..JOBS {
        let id = format!("J-{number}");
        match store.log(&id) {
            Ok(log) => {
                let job = Job::fold(&log).expect("what was recorded adds up");
                writers.push(Writer { job, log });
            }
            Err(StoreError::NoJob(_)) => {
                let writer = Writer::open(&id, &key);
                store.append((&writer.job, 0), &writer.log, attached)?;
                acknowledge(&writer);
                writers.push(writer);
            }
            Err(error) => return Err(error),
        }
    }
    for number in 0.. {
        let writer = &mut writers[number % JOBS];
        let before = writer.job.events();
        writer.add(&key, recorded(number));
        let new = &writer.log[writer.log.len() - 1..];
        store.append((&writer.job, before), new, Attached::default())?;
        acknowledge(writer);
    }
    unreachable!("numbers do not end")
}

fn acknowledge(writer: &Writer) {
    let mut out = std::io::stdout().lock();
    let line = format!("{} {} {}\n", writer.job.id, writer.job.events(), writer.job.last_hash);
    // A test that went away asks for nothing more.
    let _ = out.write_all(line.as_bytes()).and_then(|()| out.flush());
}
