//! Random sequences of events against a model that knows the rules in their plainest form.

use proptest::prelude::*;
use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::procedure::DecidedBy;

use super::fixture::{Bench, People, all, at, people};
use crate::digest::Digest;
use crate::event::{
    Answer, Assessed, Corrected, Entry, Event, FollowUp, FollowedUp, Meaning, Overridden, Payload,
    Photo, Place, Recorded, Signed, Value,
};
use crate::job::{Job, State};
use crate::person::Unlocked;
use crate::record::{self, Chain, read_export};

/// One thing that somebody tries.
#[derive(Debug, Clone)]
struct Try {
    who: usize,
    step: usize,
    half: Option<Half>,
    what: What,
    /// Some are numbered wrongly, or name another job.
    slip: Slip,
}

#[derive(Debug, Clone)]
enum What {
    Record(Vec<usize>),
    Assess(Verdict, u64),
    Correct(u64, Vec<usize>),
    Override(u64),
    Sign(bool),
    SignOther,
    FollowUp,
    Open,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Slip {
    None,
    Number,
    Job,
}

fn tries() -> impl Strategy<Value = Vec<Try>> {
    let names = || prop::collection::vec(0usize..5, 0..3);
    let what = prop_oneof![
        6 => names().prop_map(What::Record),
        3 => (prop_oneof![
            Just(Verdict::Conforms), Just(Verdict::NotProven), Just(Verdict::DoesNotConform)
        ], 0u64..12).prop_map(|(verdict, on)| What::Assess(verdict, on)),
        3 => (0u64..12, names()).prop_map(|(event, names)| What::Correct(event, names)),
        2 => (0u64..12).prop_map(What::Override),
        2 => any::<bool>().prop_map(What::Sign),
        1 => Just(What::SignOther),
        2 => Just(What::FollowUp),
        1 => Just(What::Open),
    ];
    let half = prop_oneof![Just(None), Just(Some(Half::A)), Just(Some(Half::B))];
    let slip = prop_oneof![12 => Just(Slip::None), 1 => Just(Slip::Number), 1 => Just(Slip::Job)];
    let one = (0usize..4, 0usize..2, half, what, slip)
        .prop_map(|(who, step, half, what, slip)| Try { who, step, half, what, slip });
    prop::collection::vec(one, 0..24)
}

/// What the model keeps of each event that was taken: its kind, its place, whether it still counts.
#[derive(Debug, Default)]
struct Model {
    events: Vec<(&'static str, Option<Place>, bool)>,
    signed: bool,
}

fn entries(names: &[usize]) -> Vec<(&'static str, Entry)> {
    let entry = |name: &usize| match name {
        0 => ("tick", Entry::Tick(Answer::Yes)),
        1 => ("text", Entry::Text("said".to_owned())),
        2 => {
            let typed = "1 mm".to_owned();
            ("value", Entry::Value(Value { typed, uncertainty: None, gauge: None }))
        }
        3 => {
            let (name, media_type) = ("a.jpg".to_owned(), "image/jpeg".to_owned());
            let content = Digest::of(b"a photo");
            ("photo", Entry::Photo(Photo { name, media_type, content, length: 7 }))
        }
        _ => ("second", Entry::SecondPerson),
    };
    names.iter().map(entry).collect()
}

fn event(one: &Try, job: &Job, who: &[&Unlocked]) -> Event {
    let place = Place { step: ["one", "two"][one.step].to_owned(), half: one.half };
    let person = who[one.who];
    let sign = |meaning: Meaning, covers: Digest| {
        let message = record::signed_message(&job.id, &meaning, &covers);
        Payload::Signed(Signed { meaning, covers, signature: person.sign(&message) })
    };
    let payload = match &one.what {
        What::Record(names) => Payload::Recorded(Recorded { place, given: all(&entries(names)) }),
        What::Assess(verdict, on) => Payload::Assessed(Assessed {
            place,
            decided_by: DecidedBy::Evidence,
            rests_on: vec![*on],
            verdict: *verdict,
            summary: "judged".to_owned(),
            outcome: "{}".to_owned(),
            program_version: "0.1.0".to_owned(),
        }),
        What::Correct(event, names) => Payload::Corrected(Corrected {
            event: *event,
            why: "misread".to_owned(),
            given: all(&entries(names)),
        }),
        What::Override(assessment) => Payload::Overridden(Overridden {
            place,
            assessment: *assessment,
            why: "decided".to_owned(),
        }),
        What::Sign(true) => sign(Meaning::Job, job.last_hash),
        What::Sign(false) => sign(Meaning::HoldPoint(place), job.last_hash),
        What::SignOther => sign(Meaning::Job, Digest::of(b"another history")),
        What::FollowUp => Payload::FollowedUp(FollowedUp {
            kind: FollowUp::StillRunning,
            hours: None,
            note: String::new(),
            photos: Vec::new(),
        }),
        What::Open => Payload::Opened(job.opened.clone()),
    };
    Event {
        job: if one.slip == Slip::Job { "J-2".to_owned() } else { job.id.clone() },
        sequence: job.events() + 1 + u64::from(one.slip == Slip::Number),
        at: at(i64::try_from(job.events()).unwrap()),
        author: person.author().clone(),
        device: "bench".to_owned(),
        payload,
    }
}

impl Model {
    fn entry(&self, event: u64) -> Option<&(&'static str, Option<Place>, bool)> {
        self.events.get(usize::try_from(event.checked_sub(1)?).unwrap())
    }

    /// Must this be refused, by rules that are plain without the fold's own state?
    fn must_refuse(&self, one: &Try, event: &Event) -> bool {
        let keeper = one.who == 3;
        let next = self.events.len() as u64 + 1;
        keeper
            || one.slip != Slip::None
            || match &event.payload {
                Payload::Opened(_) => true,
                Payload::Recorded(_) => self.signed,
                Payload::Assessed(it) => it.rests_on.iter().any(|seen| *seen >= next),
                Payload::Corrected(it) => match self.entry(it.event) {
                    None => true,
                    Some((_, _, false)) => true,
                    Some((kind, ..)) => {
                        !matches!(*kind, "recorded" | "corrected" | "overridden" | "followed-up")
                    }
                },
                Payload::Overridden(it) => {
                    one.who != 2 || self.entry(it.assessment).is_none_or(|e| e.0 != "assessed")
                }
                Payload::Signed(_) => matches!(one.what, What::SignOther),
                Payload::FollowedUp(_) => !self.signed,
            }
    }

    fn take(&mut self, event: &Event) {
        let place = match &event.payload {
            Payload::Recorded(it) => Some(it.place.clone()),
            Payload::Corrected(it) => {
                let index = usize::try_from(it.event - 1).unwrap();
                self.events[index].2 = false;
                self.events[index].1.clone()
            }
            Payload::Opened(_)
            | Payload::Assessed(_)
            | Payload::Overridden(_)
            | Payload::Signed(_)
            | Payload::FollowedUp(_) => None,
        };
        if matches!(&event.payload, Payload::Signed(it) if it.meaning == Meaning::Job) {
            self.signed = true;
        }
        self.events.push((event.payload.kind(), place, true));
    }

    /// Numbers of the events whose evidence still counts at a place.
    fn recorded(&self, place: &Place) -> Vec<u64> {
        let counts = |(kind, at, counts): &(&str, Option<Place>, bool)| {
            *counts && matches!(*kind, "recorded" | "corrected") && at.as_ref() == Some(place)
        };
        (1u64..).zip(&self.events).filter(|(_, e)| counts(e)).map(|(n, _)| n).collect()
    }
}

/// A job whose definitions are short texts: a fold does not read them.
fn opened(people: &People) -> Bench {
    let mut bench = Bench::new(people);
    bench.documents.clear();
    for text in ["joint", "procedure"] {
        bench.documents.insert(Digest::of(text.as_bytes()), text.to_owned());
    }
    let mut event = bench.log[0].event.clone();
    let Payload::Opened(opened) = &mut event.payload else { panic!() };
    opened.joint = Digest::of(b"joint");
    opened.procedure = Digest::of(b"procedure");
    let link = record::link(event, &Digest::NONE);
    bench.job = Job::open(&link.event, link.hash).unwrap();
    bench.log = vec![link];
    bench
}

fn run(tries: &[Try], people: &People, opened: &Bench) {
    let who = [&people.fitter, &people.checker, &people.engineer, &people.keeper];
    let mut bench = opened.clone();
    let mut model = Model::default();
    model.take(&bench.log[0].event.clone());
    for one in tries {
        let event = event(one, &bench.job, &who);
        let link = record::link(event, &bench.job.last_hash);
        let before = bench.job.clone();
        match bench.job.apply(&link.event, link.hash) {
            Ok(()) => {
                assert!(!model.must_refuse(one, &link.event), "taken: {one:?}");
                model.take(&link.event);
                bench.log.push(link);
            }
            Err(_) => assert_eq!(bench.job, before, "a refused event changed something"),
        }
    }
    assert_eq!(bench.job.events(), model.events.len() as u64);
    assert_eq!(Job::fold(&bench.log).as_ref(), Ok(&bench.job));
    let signed = matches!(bench.job.state(), State::Signed | State::ChangedSinceSigned);
    assert_eq!(signed, model.signed);
    for (place, step) in &bench.job.steps {
        let with_evidence = |number: &&u64| {
            let link = &bench.log[usize::try_from(**number - 1).unwrap()];
            !matches!(&link.event.payload, Payload::Corrected(it) if it.given.is_empty())
        };
        let expected: Vec<u64> =
            model.recorded(place).iter().filter(with_evidence).copied().collect();
        assert_eq!(step.recorded, expected, "{place}");
    }
    let mut chain = Chain::default();
    for link in &bench.log {
        assert_eq!(record::read(&link.bytes).as_ref(), Some(&link.event));
        chain.check(&link.bytes, &link.hash).unwrap();
    }
    let text = bench.export().text();
    let again = read_export(&text).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(again.text(), text);
}

#[test]
fn random_sequences_of_events_never_break_the_fold() {
    let people = people();
    let opened = opened(&people);
    let config =
        ProptestConfig { cases: 10_000, failure_persistence: None, ..ProptestConfig::default() };
    let mut runner = proptest::test_runner::TestRunner::new_with_rng(
        config,
        proptest::test_runner::TestRng::deterministic_rng(
            proptest::test_runner::RngAlgorithm::ChaCha,
        ),
    );
    runner
        .run(&tries(), |tries| {
            run(&tries, &people, &opened);
            Ok(())
        })
        .unwrap();
}
