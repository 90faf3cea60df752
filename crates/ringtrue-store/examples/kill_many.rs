//! Kills a program that records, so many times, and looks each time whether everything that it
//! acknowledged is there.
//!
//! `kill_many ROUNDS`

#![allow(clippy::print_stdout, clippy::unwrap_used, reason = "a test driver that reports")]

#[path = "../tests/it/fixture.rs"]
mod fixture;
mod recorder;

use std::time::Duration;

use fixture::Row;
use recorder::{Acknowledged, check, kill_once};

fn main() {
    let rounds: u64 = std::env::args().nth(1).and_then(|text| text.parse().ok()).unwrap_or(500);
    let folder = tempfile::tempdir().expect("a folder for the store");
    let path = folder.path().join("record.db");
    let mut row = Row(1);
    let mut all = Acknowledged::default();
    for _ in 0..rounds {
        kill_once(&path, Duration::from_millis(2 + row.next(60)), &mut all);
        check(&path, &all);
    }
    println!("killed {rounds} times; {} acknowledged events, all of them there", all.events());
}
