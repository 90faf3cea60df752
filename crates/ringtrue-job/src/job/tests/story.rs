//! The life of a job, step by step.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::agents;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::material;

use super::fixture::*;
use crate::SolveAnew;
use crate::digest::Digest;
use crate::event::{Corrected, Entry, FollowUp, FollowedUp, Meaning, Opened, Payload};
use crate::job::deed::{Deed, DeedError};
use crate::job::{Definitions, Job, Plan, Refusal, Standing, State, opening, recompute};

#[test]
fn a_job_goes_from_its_opening_to_its_follow_up() {
    let people = people();
    let mut bench = Bench::new(&people);
    assert_eq!(bench.job.state(), State::Open);
    assert_eq!(bench.plan.next(&bench.job).unwrap().place, &once("make-safe"));
    bench.through(&people);
    assert_eq!(bench.job.state(), State::Signed);
    assert!(bench.plan.next(&bench.job).is_none());
    let leak = FollowedUp {
        kind: FollowUp::Leak,
        hours: Some("1250 h".to_owned()),
        note: "weeps at half a".to_owned(),
        photos: Vec::new(),
    };
    bench.submit(&people.fitter, Deed::FollowUp(leak)).unwrap();
    assert_eq!(bench.job.state(), State::Signed);
    assert_eq!(Job::fold(&bench.log).unwrap(), bench.job);
    let again = recompute(&bench.plan, &bench.log, &SolveAnew).unwrap();
    assert!(again.len() >= 6 && again.iter().all(|one| one.same), "{again:?}");
}

#[test]
fn a_gate_that_does_not_conform_holds_until_it_is_measured_again() {
    let people = people();
    let mut bench = Bench::new(&people);
    bench.up_to_the_housings(&people);
    let place = on("height", Half::A);
    let cocked = bench.heights(COCKED);
    bench.record(&people.fitter, place.clone(), &[("heights", cocked)]).unwrap();
    assert_eq!(bench.verdict(&place), Some(Verdict::DoesNotConform));
    assert_eq!(bench.job.state(), State::Held);
    let next = bench.plan.next(&bench.job).unwrap();
    assert_eq!((next.place, next.standing), (&place, Standing::Held(Verdict::DoesNotConform)));
    // Nothing goes past it, and it can't be signed; the other half may go on.
    let sizes = bench.heights(SIZES);
    let refused = bench.record(&people.fitter, once("gap"), &[("sizes", sizes)]).unwrap_err();
    assert!(matches!(refused, DeedError::GateBefore { gate, .. } if gate == place));
    assert!(matches!(bench.submit(&people.fitter, Deed::Sign(None)), Err(DeedError::StillDue(_))));
    let level = bench.heights(LEVEL);
    bench.record(&people.fitter, on("height", Half::B), &[("heights", level.clone())]).unwrap();
    bench.record(&people.fitter, place.clone(), &[("heights", level)]).unwrap();
    assert_eq!(bench.verdict(&place), Some(Verdict::Conforms));
    assert_eq!(bench.job.state(), State::Open);
}

#[test]
fn an_engineer_may_override_and_a_new_measurement_asks_again() {
    let people = people();
    let mut bench = Bench::new(&people);
    bench.up_to_the_housings(&people);
    let place = on("height", Half::A);
    let cocked = bench.heights(COCKED);
    bench.record(&people.fitter, place.clone(), &[("heights", cocked.clone())]).unwrap();
    let over = |why: &str| Deed::Override { place: place.clone(), why: why.to_owned() };
    assert!(matches!(
        bench.submit(&people.checker, over("it has to go")),
        Err(DeedError::Refused(Refusal::Role { .. }))
    ));
    assert!(matches!(bench.submit(&people.engineer, over(" ")), Err(DeedError::Words(_))));
    bench.submit(&people.engineer, over("known housing, seen before")).unwrap();
    // The hold point still wants its signature.
    let standing = |bench: &Bench| {
        let all = bench.plan.standings(&bench.job);
        all.iter().find(|one| *one.place == place).unwrap().standing.clone()
    };
    assert_eq!(standing(&bench), Standing::Unsigned);
    bench.submit(&people.fitter, Deed::Sign(None)).unwrap();
    assert_eq!(standing(&bench), Standing::Overridden);
    // The override is for that verdict: one measured after it holds again.
    bench.record(&people.fitter, place.clone(), &[("heights", cocked)]).unwrap();
    assert_eq!(standing(&bench), Standing::Held(Verdict::DoesNotConform));
}

#[test]
fn a_correction_stands_after_what_it_corrects() {
    let people = people();
    let mut bench = Bench::new(&people);
    bench.up_to_the_housings(&people);
    let place = on("height", Half::A);
    let wrong = bench.heights(COCKED);
    bench.record(&people.fitter, place.clone(), &[("heights", wrong)]).unwrap();
    let event = bench.job.steps[&place].recorded[0];
    let level = bench.heights(LEVEL);
    let given = all(&[("heights", level)]);
    let correct = |why: &str, event: u64, given| {
        Deed::Correct(Corrected { event, why: why.to_owned(), given })
    };
    let before = bench.log.clone();
    bench.submit(&people.fitter, correct("read at the wrong face", event, given)).unwrap();
    assert_eq!(bench.verdict(&place), Some(Verdict::Conforms));
    assert_eq!(bench.log[..before.len()], before[..]);
    assert_eq!(bench.job.entry(event).unwrap().corrected_by, Some(before.len() as u64 + 1));
    // Once is enough; a verdict, a signature and an opening are not corrected.
    let twice = bench.submit(&people.fitter, correct("again", event, Vec::new()));
    assert!(matches!(twice, Err(DeedError::Refused(Refusal::AlreadyCorrected(..)))));
    for (event, kind) in [(1, "opened"), (before.len() as u64, "assessed")] {
        let refused = bench.submit(&people.fitter, correct("no", event, Vec::new())).unwrap_err();
        assert_eq!(refused, DeedError::Refused(Refusal::NotCorrectable(event, kind)));
    }
    let refused = bench.submit(&people.fitter, correct("no", 999, Vec::new())).unwrap_err();
    assert_eq!(refused, DeedError::Refused(Refusal::NoEvent(999)));
}

#[test]
fn a_correction_after_the_signature_asks_for_a_new_one() {
    let people = people();
    let mut bench = Bench::new(&people);
    bench.through(&people);
    let place = once("hand-over");
    let event = bench.job.steps[&place].recorded[0];
    let late = bench.record(&people.fitter, place, &[("to", Entry::Text("x".to_owned()))]);
    assert!(matches!(late, Err(DeedError::Refused(Refusal::Signed))));
    let given = all(&[("to", Entry::Text("the customer".to_owned()))]);
    let corrected = Corrected { event, why: "the wrong name".to_owned(), given };
    bench.submit(&people.fitter, Deed::Correct(corrected)).unwrap();
    assert_eq!(bench.job.state(), State::ChangedSinceSigned);
    bench.submit(&people.checker, Deed::Sign(None)).unwrap();
    assert_eq!(bench.job.state(), State::Signed);
    let Payload::Signed(signed) = &bench.log.last().unwrap().event.payload else { panic!() };
    assert_eq!(signed.meaning, Meaning::Job);
    assert_eq!(signed.covers, bench.log[bench.log.len() - 2].hash);
}

#[test]
fn the_second_person_is_not_the_first() {
    let people = people();
    let mut bench = Bench::new(&people);
    bench.record(&people.fitter, once("make-safe"), &[("locked", YES)]).unwrap();
    bench.record(&people.fitter, once("parts"), &[("looked", YES)]).unwrap();
    let place = on("housing", Half::A);
    let second = [("looked-too", Entry::SecondPerson)];
    bench.record(&people.fitter, place.clone(), &[("finish", ra("0.8 um", "0.1 um"))]).unwrap();
    let same = bench.record(&people.fitter, place.clone(), &second).unwrap_err();
    assert_eq!(same, DeedError::Refused(Refusal::SamePerson("Fitter One".to_owned())));
    // Nor under another name with the same key, nor under the same name with another key.
    let other_key = person("Fitter One", crate::person::Role::Checker);
    assert!(bench.record(&other_key, place.clone(), &second).is_err());
    let both = [("finish", ra("0.8 um", "0.1 um")), ("looked-too", Entry::SecondPerson)];
    assert!(bench.record(&people.checker, place.clone(), &both).is_err());
    bench.record(&people.checker, place.clone(), &second).unwrap();
    let wants = |bench: &Bench| {
        let all = bench.plan.standings(&bench.job);
        let here = all.iter().find(|one| *one.place == place).unwrap();
        matches!(here.standing, Standing::Wants(_))
    };
    assert!(!wants(&bench));
    // What they have not seen they have not looked at.
    bench.record(&people.fitter, place.clone(), &[("finish", ra("0.9 um", "0.1 um"))]).unwrap();
    assert!(wants(&bench));
}

#[test]
fn what_a_step_does_not_ask_for_is_refused() {
    let people = people();
    let mut bench = Bench::new(&people);
    let before = bench.job.clone();
    let fitter = &people.fitter;
    let mut refuse =
        |place, given: &[(&str, Entry)]| bench.record(fitter, place, given).unwrap_err();
    assert!(matches!(refuse(once("no-such"), &[]), DeedError::NoStep { .. }));
    assert!(matches!(refuse(on("make-safe", Half::A), &[]), DeedError::NoStep { .. }));
    assert!(matches!(refuse(once("make-safe"), &[]), DeedError::NothingGiven(_)));
    assert!(matches!(refuse(once("make-safe"), &[("x", YES)]), DeedError::NotAsked { .. }));
    let text = Entry::Text("yes".to_owned());
    assert!(matches!(refuse(once("make-safe"), &[("locked", text)]), DeedError::OtherKind { .. }));
    assert!(matches!(
        refuse(once("make-safe"), &[("locked", YES), ("locked", NO)]),
        DeedError::Refused(Refusal::GivenTwice(_))
    ));
    assert_eq!(bench.job, before);
    let keeper = bench.record(&people.keeper, once("make-safe"), &[("locked", YES)]);
    assert!(matches!(keeper, Err(DeedError::Refused(Refusal::Role { .. }))));
}

#[test]
fn a_value_is_read_with_its_unit_and_its_uncertainty() {
    let people = people();
    let mut bench = Bench::new(&people);
    bench.record(&people.fitter, once("make-safe"), &[("locked", YES)]).unwrap();
    bench.record(&people.fitter, once("parts"), &[("looked", YES)]).unwrap();
    let place = on("housing", Half::A);
    let mut give = |typed: &str, u: Option<&str>| {
        let value = crate::event::Value {
            typed: typed.to_owned(),
            uncertainty: u.map(str::to_owned),
            gauge: None,
        };
        bench.record(&people.fitter, place.clone(), &[("finish", Entry::Value(value))])?;
        Ok::<_, DeedError>(bench.verdict(&place).unwrap())
    };
    assert_eq!(give("0.8 um", Some("0.1 um")), Ok(Verdict::Conforms));
    assert_eq!(give("4.5 um", Some("0.1 um")), Ok(Verdict::DoesNotConform));
    assert_eq!(give("3.2 um", Some("0.1 um")), Ok(Verdict::NotProven));
    // What is not known is not proven.
    assert_eq!(give("0.8 um", None), Ok(Verdict::NotProven));
    assert!(matches!(give("0.8", None), Err(DeedError::Value { .. })));
    assert!(matches!(give("0.8 N", None), Err(DeedError::Value { .. })));
    assert!(matches!(give("0.8 um", Some("-0.1 um")), Err(DeedError::Value { .. })));
}

#[test]
fn a_verdict_that_its_inputs_do_not_give_is_told_with_the_version_that_drew_it() {
    let people = people();
    let mut bench = Bench::new(&people);
    bench.up_to_the_housings(&people);
    let place = on("height", Half::A);
    let cocked = bench.heights(COCKED);
    bench.record(&people.fitter, place, &[("heights", cocked)]).unwrap();
    // Somebody, or another program, wrote the verdict that was wished for.
    let last = bench.log.len() - 1;
    let mut event = bench.log[last].event.clone();
    let Payload::Assessed(assessed) = &mut event.payload else { panic!() };
    assessed.verdict = Verdict::Conforms;
    assessed.program_version = "0.0.9".to_owned();
    bench.log[last] = crate::record::link(event, &bench.log[last - 1].hash);
    let again = recompute(&bench.plan, &bench.log, &SolveAnew).unwrap();
    let (last, before) = again.split_last().unwrap();
    assert!(before.iter().all(|one| one.same));
    assert!(!last.same);
    assert_eq!((last.stored, last.now), (Verdict::Conforms, Some(Verdict::DoesNotConform)));
    assert_eq!(last.stored_by, "0.0.9");
}

#[test]
fn a_plan_needs_its_texts() {
    let people = people();
    let bench = Bench::new(&people);
    let opened = &bench.job.opened;
    for missing in [opened.joint, opened.procedure] {
        let mut documents = bench.documents.clone();
        documents.remove(&missing);
        assert!(Plan::of(opened, &documents).is_err());
        documents.insert(missing, "schema = 1".to_owned());
        assert!(Plan::of(opened, &documents).is_err());
    }
}

#[test]
fn everything_that_verdicts_rest_on_is_kept_as_text() {
    let people = people();
    let bench = Bench::new(&people);
    let (opened, documents) = opening(Definitions {
        joint: &bench.plan.joint,
        material_files: [None, None],
        procedure: "a procedure".to_owned(),
        program_version: VERSION,
    })
    .unwrap();
    let text = |digest: Option<Digest>| documents[&digest.unwrap()].as_str();
    let code = bench.plan.joint.a.load_ring.material();
    assert_eq!(Some(text(opened.material_a)), material::shipped_text(code));
    assert_eq!(text(opened.agents), agents::SHIPPED);
    assert!(text(Some(opened.joint)).contains("[half.a.seal.ring]"));
    // A later program that ships other figures judges on these.
    let changed = text(opened.material_a).replace("max = \"100 degC\"", "max = \"21 degC\"");
    let digest = Digest::of(changed.as_bytes());
    let mut documents = documents.clone();
    documents.insert(digest, changed);
    documents.insert(opened.procedure, bench.documents[&bench.job.opened.procedure].clone());
    let plan = Plan::of(&opened, &documents).unwrap();
    assert_eq!(plan.matching().unwrap().verdict(), bench.plan.matching().unwrap().verdict());
    let other = Opened { material_a: Some(digest), material_b: Some(digest), ..opened };
    let plan = Plan::of(&other, &documents).unwrap();
    assert_ne!(plan.matching().unwrap().verdict(), bench.plan.matching().unwrap().verdict());
}
