//! Jobs, people and stores to try things on; the examples use it too.

#![allow(dead_code, reason = "tests and examples each use a part of it")]
#![allow(unreachable_pub, reason = "tests and examples include it as a module")]

use std::path::Path;

use jiff::Timestamp;
use ringtrue_job::digest::Digest;
use ringtrue_job::event::{
    Answer, Assessed, Entry, Event, FollowUp, FollowedUp, Given, Meaning, Opened, Payload, Photo,
    Place, Recorded, Signed,
};
use ringtrue_job::job::Job;
use ringtrue_job::person::{Cost, Drawn, Person, Role, Unlocked, enrol, unlock};
use ringtrue_job::procedure::DecidedBy;
use ringtrue_job::record::{self, Attachment, Export, Link};
use ringtrue_metrology::conformity::Verdict;
use ringtrue_store::{Access, Attached, Store};
use zeroize::Zeroizing;

pub const PASSPHRASE: &str = "a long enough phrase";
pub const PHOTO: &[u8] = b"\x89PNG not really";

/// A person with a key that their name decides; argon2id at the least that it takes.
pub fn person(name: &str, role: Role) -> (Person, Unlocked) {
    let secret = Zeroizing::new(*blake3::hash(name.as_bytes()).as_bytes());
    let drawn = Drawn { secret, salt: [1; 16], nonce: [2; 24] };
    let cost = Cost { memory_kib: 8, passes: 1, lanes: 1 };
    let person = enrol((name, role), PASSPHRASE, &drawn, (cost, at(0))).unwrap();
    let unlocked = unlock(&person, PASSPHRASE).unwrap();
    (person, unlocked)
}

pub fn at(second: u64) -> Timestamp {
    Timestamp::from_second(1_764_000_000 + i64::try_from(second).unwrap()).unwrap()
}

/// A job that is written event by event.
pub struct Writer {
    pub job: Job,
    pub log: Vec<Link>,
}

/// The texts that every job here names.
pub fn documents() -> Vec<String> {
    vec!["a joint".to_owned(), "a procedure".to_owned()]
}

impl Writer {
    pub fn open(id: &str, who: &Unlocked) -> Self {
        Self::titled((id, &format!("joint of {id}")), who)
    }

    pub fn titled((id, title): (&str, &str), who: &Unlocked) -> Self {
        let opened = Opened {
            title: title.to_owned(),
            joint: Digest::of(b"a joint"),
            material_a: None,
            material_b: None,
            procedure: Digest::of(b"a procedure"),
            agents: None,
            program_version: "0.1.0".to_owned(),
        };
        let link = record::link(event((id, 1), who, Payload::Opened(opened)), &Digest::NONE);
        Self { job: Job::open(&link.event, link.hash).unwrap(), log: vec![link] }
    }

    pub fn add(&mut self, who: &Unlocked, payload: Payload) -> &Link {
        let sequence = self.job.events() + 1;
        let link = record::link(event((&self.job.id, sequence), who, payload), &self.job.last_hash);
        self.job.apply(&link.event, link.hash).unwrap();
        self.log.push(link);
        &self.log[self.log.len() - 1]
    }

    pub fn sign(&mut self, who: &Unlocked) {
        let covers = self.job.last_hash;
        let message = record::signed_message(&self.job.id, &Meaning::Job, &covers);
        let signature = who.sign(&message);
        self.add(who, Payload::Signed(Signed { meaning: Meaning::Job, covers, signature }));
    }

    /// A job of so many events: evidence, verdicts, and a signature at the end.
    pub fn filled(id: &str, events: usize, who: &Unlocked) -> Self {
        let mut writer = Self::open(id, who);
        while writer.log.len() + 1 < events {
            let number = writer.log.len();
            writer.add(who, if number % 5 == 4 { assessed(number) } else { recorded(number) });
        }
        writer.sign(who);
        writer
    }
}

fn event((job, sequence): (&str, u64), who: &Unlocked, payload: Payload) -> Event {
    Event {
        job: job.to_owned(),
        sequence,
        at: at(sequence),
        author: who.author().clone(),
        device: "bench 3".to_owned(),
        payload,
    }
}

fn place(number: usize) -> Place {
    Place { step: format!("step-{}", number % 7), half: None }
}

/// A tick and a few words.
pub fn recorded(number: usize) -> Payload {
    let given = |name: &str, entry| Given { name: name.to_owned(), entry };
    let words = format!("read {number} at the face, wiped and read again");
    Payload::Recorded(Recorded {
        place: place(number),
        given: vec![given("seen", Entry::Tick(Answer::Yes)), given("words", Entry::Text(words))],
    })
}

pub fn photographed() -> Payload {
    let photo = Photo {
        name: "a.png".to_owned(),
        media_type: "image/png".to_owned(),
        content: Digest::of(PHOTO),
        length: PHOTO.len() as u64,
    };
    let given = vec![Given { name: "photo".to_owned(), entry: Entry::Photo(photo) }];
    Payload::Recorded(Recorded { place: place(0), given })
}

pub fn assessed(number: usize) -> Payload {
    Payload::Assessed(Assessed {
        place: place(number),
        decided_by: DecidedBy::Evidence,
        rests_on: vec![number as u64],
        verdict: Verdict::Conforms,
        summary: "What was to be seen and done: conforms".to_owned(),
        outcome: r#"{"question":"evidence","answered_no":[],"verdict":"conforms"}"#.to_owned(),
        program_version: "0.1.0".to_owned(),
    })
}

pub fn followed_up() -> Payload {
    let (hours, note) = (Some("50 h".to_owned()), "dry".to_owned());
    Payload::FollowedUp(FollowedUp { kind: FollowUp::Hours, hours, note, photos: Vec::new() })
}

/// A store with a few signed jobs, two people, a photo and a checkpoint.
pub fn small_store(path: &Path) -> Store {
    let (anna, key) = person("Anna Fitter", Role::Fitter);
    let (keeper, keeps) = person("Karl Keeper", Role::Keeper);
    let mut store = Store::open(path, Access::Create).unwrap();
    store.add_person(&anna).unwrap();
    store.add_person(&keeper).unwrap();
    for (id, events) in [("J-1", 12), ("J-2", 30), ("J-3", 7)] {
        let mut writer = Writer::filled(id, events, &key);
        writer.log.truncate(1);
        writer.job = Job::fold(&writer.log).unwrap();
        writer.add(&key, photographed());
        while writer.log.len() + 1 < events {
            writer.add(&key, recorded(writer.log.len()));
        }
        writer.sign(&key);
        let files = [PHOTO.to_vec()];
        let attached = Attached { documents: &documents(), files: &files };
        store.append((&writer.job, 0), &writer.log, attached).unwrap();
    }
    let head = store.tree_head().unwrap();
    store.keep_checkpoint(&ringtrue_store::Checkpoint::sign(head, at(99), &keeps)).unwrap();
    store
}

/// A store as a program of version 3 left it.
pub fn as_version_three(path: &Path) {
    let store = rusqlite::Connection::open(path).unwrap();
    store
        .execute_batch(
            "DROP INDEX job_to_search; DROP INDEX job_by_state; ALTER TABLE job DROP COLUMN folded;
             CREATE INDEX job_by_last ON job (last_at DESC, number DESC);
             PRAGMA user_version = 3;",
        )
        .unwrap();
}

/// Many jobs as one export.
pub fn many(jobs: usize, events: usize) -> Export {
    let (_, key) = person("Anna Fitter", Role::Fitter);
    let mut export = Export::default();
    for text in documents() {
        export.documents.insert(Digest::of(text.as_bytes()), text);
    }
    for number in 0..jobs {
        let id = format!("J-{number:05}");
        export.jobs.insert(id.clone(), Writer::filled(&id, events, &key).log);
    }
    export
}

/// The photo, as an export keeps it.
pub fn photo() -> (Digest, Attachment) {
    (Digest::of(PHOTO), Attachment(PHOTO.to_vec()))
}

/// A small generator of numbers: the same row for the same seed.
pub struct Row(pub u64);

impl Row {
    pub fn next(&mut self, below: u64) -> u64 {
        // Knuth's multiplier for 64 bits.
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % below
    }
}
