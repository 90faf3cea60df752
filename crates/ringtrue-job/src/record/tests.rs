//! What a log finds when it was changed.

use crate::digest::{Digest, SignatureBytes};
use crate::event::Payload;
use crate::job::tests::fixture::{Bench, people};
use crate::record::{
    self, Chain, ExportError, Link, MisfitKind, link, read_export, wire, wire_two,
};

fn signed_job() -> Bench {
    let people = people();
    let mut bench = Bench::new(&people);
    bench.through(&people);
    bench
}

fn check(log: &[Link]) -> Result<(), (u64, MisfitKind)> {
    let mut chain = Chain::default();
    for link in log {
        chain.check(&link.bytes, &link.hash).map_err(|misfit| (misfit.event, misfit.what))?;
    }
    let last = log.last().map_or(Digest::NONE, |link| link.hash);
    chain.ends(log.len() as u64, &last).map_err(|misfit| (misfit.event, misfit.what))
}

#[test]
fn any_changed_byte_of_an_event_is_found_at_that_event() {
    let log = signed_job().log;
    assert_eq!(check(&log), Ok(()));
    for index in [0, 2, log.len() - 1] {
        for at in 0..log[index].bytes.len() {
            let mut changed = log.clone();
            changed[index].bytes[at] ^= 1 << (at % 8);
            assert_eq!(check(&changed), Err((index as u64 + 1, MisfitKind::Hash)));
        }
        let mut changed = log.clone();
        changed[index].hash.0[5] ^= 1;
        assert_eq!(check(&changed), Err((index as u64 + 1, MisfitKind::Hash)));
    }
}

#[test]
fn dropped_doubled_and_swapped_events_are_found() {
    let bench = signed_job();
    let text = bench.export().text();
    let whole = read_export(&text).unwrap();
    let find = |change: &dyn Fn(&mut Vec<Link>), event: u64| {
        let mut changed = whole.clone();
        change(changed.jobs.get_mut("J-1").unwrap());
        // The head says what it always said: somebody took an event out of the list.
        let mut text = changed.text();
        let (head, old) = (head_of(&text), head_of(&whole.text()));
        text = text.replacen(&head, &old, 1);
        let error = read_export(&text).unwrap_err();
        let ExportError::Misfit(misfit) = error else { panic!("{error}") };
        assert_eq!(misfit.event, event, "{misfit}");
    };
    let last = bench.log.len() - 1;
    for index in 0..last {
        find(&|log| drop(log.remove(index)), index as u64 + 1);
        find(&|log| log.insert(index, log[index].clone()), index as u64 + 2);
        find(&|log| log.swap(index, index + 1), index as u64 + 1);
    }
    find(&|log| drop(log.pop()), last as u64);
}

/// The lines of an export that say how many events a job has and which is the last.
fn head_of(text: &str) -> String {
    let from = text.find("\"events\":").unwrap();
    let to = text.find("\"log\":").unwrap();
    text[from..to].to_owned()
}

#[test]
fn a_forged_signature_is_found() {
    let mut log = signed_job().log;
    let last = log.len() - 1;
    let before = log[last - 1].hash;
    let mut event = log[last].event.clone();
    let Payload::Signed(signed) = &mut event.payload else { panic!() };
    let mut forged = signed.signature.0;
    forged[3] ^= 4;
    signed.signature = SignatureBytes(forged);
    // The forger has the chain right: only the signature tells.
    log[last] = link(event, &before);
    let name = "Fitter One".to_owned();
    assert_eq!(check(&log), Err((last as u64 + 1, MisfitKind::Signature(name))));
}

#[test]
fn a_history_rewritten_before_a_signature_is_found() {
    let mut log = signed_job().log;
    let mut event = log[1].event.clone();
    event.device = "another bench".to_owned();
    log[1] = link(event, &log[0].hash);
    for index in 2..log.len() {
        log[index] = link(log[index].event.clone(), &log[index - 1].hash);
    }
    let first_signature =
        log.iter().position(|link| matches!(link.event.payload, Payload::Signed(_))).unwrap();
    assert_eq!(check(&log), Err((first_signature as u64 + 1, MisfitKind::Covers)));
}

#[test]
fn any_changed_byte_of_an_export_is_found() {
    let people = people();
    let mut bench = Bench::new(&people);
    bench.up_to_the_housings(&people);
    let text = bench.export().text();
    assert!(read_export(&text).is_ok());
    let mut bytes = text.clone().into_bytes();
    for at in 0..bytes.len() {
        let kept = bytes[at];
        bytes[at] ^= 1 << (at % 7);
        let found = match std::str::from_utf8(&bytes) {
            Ok(changed) => read_export(changed).is_err(),
            Err(_) => true,
        };
        assert!(found, "byte {at} of {}: {:?}", bytes.len(), char::from(kept));
        bytes[at] = kept;
    }
}

#[test]
fn bytes_that_are_no_event_are_refused() {
    let log = signed_job().log;
    let bytes = &log[1].bytes;
    assert!(record::read(bytes).is_some());
    for end in 0..bytes.len() {
        assert_eq!(record::read(&bytes[..end]), None);
    }
    let mut more = bytes.clone();
    more.push(0);
    assert_eq!(record::read(&more), None);
    // A form that does not exist yet.
    more = bytes.clone();
    more[0] = 3;
    assert_eq!(record::read(&more), None);
}

/// The words of a closed set in the order of their numbers, as reading a word that is none tells
/// them.
fn words<T: serde::de::DeserializeOwned>() -> String {
    let Err(error) = serde_json::from_str::<T>("\"?\"") else { panic!() };
    let error = error.to_string();
    let known: Vec<&str> = error.split('`').skip(3).step_by(2).collect();
    known.join(", ")
}

#[test]
fn the_handbook_tells_the_bytes_that_are_written() {
    let handbook = include_str!("../../../../docs/handbook/record.md");
    let told = handbook.split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(record::canonical(&signed_job().log[0].event)[0], wire_two::FORM);
    for sentence in [
        format!("Canonical bytes, form {0}: a byte {0}, then the fields", wire::FORM),
        format!("Form {0}, which is written now, begins with a byte {0}", wire_two::FORM),
        format!("Variants: {};", words::<wire::EventPayload>()),
        format!("entries: {};", words::<wire::GivenEntry>()),
        format!("halves {};", words::<wire::HalfWord>()),
        format!("verdicts {};", words::<wire::VerdictWord>()),
        format!("decided by {}.", words::<wire::DecidedByWord>()),
    ] {
        assert!(told.contains(&sentence), "the handbook does not say `{sentence}`");
    }
}
