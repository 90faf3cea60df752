//! Checks as a job holds them: files, settings, gates, and judged again.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::procedure::{DecidedBy, LoadRingType, Procedure, shipped};
use ringtrue_seal::definition::{Kind, read, starter};

use super::fixture::*;
use crate::SolveAnew;
use crate::check::Check;
use crate::event::{Content, Entry, Payload, ReadingFile, Readings, Stated};
use crate::job::deed::{Deed, DeedError};
use crate::job::{AssessError, Job, Plan, assessments, recompute};
use crate::record::read_export;

/// The few steps, with a finish on each ramp and a leak test.
fn procedure() -> String {
    let finish = |name: &str| {
        format!(
            "  {{ name = \"{name}\", kind = \"reading-set\", ask = \"Finish\", \
             readings = \"roughness\" }},\n"
        )
    };
    let start = PROCEDURE.find("  { name = \"finish\"").unwrap();
    let end = PROCEDURE.find("  { name = \"looked-too\"").unwrap();
    let both = finish("housing-finish") + &finish("ring-finish");
    let text = format!("{}{both}{}", &PROCEDURE[..start], &PROCEDURE[end..]);
    text.replacen("decided_by = \"limits\"", "decided_by = \"roughness\"", 1)
        .replacen(
            "{ name = \"holds\", kind = \"tick\", ask = \"The pressure holds\" }",
            "{ name = \"test\", kind = \"reading-set\", ask = \"Test\", readings = \"leak-test\" }",
            1,
        )
        .replacen(
            "decided_by = \"evidence\", hold_point = \"leak-test\"",
            "decided_by = \"leak-test\", hold_point = \"leak-test\"",
            1,
        )
}

fn stated(pairs: &[(&str, &str)]) -> Vec<Stated> {
    let one = |(name, typed): &(&str, &str)| Stated {
        name: (*name).to_owned(),
        typed: (*typed).to_owned(),
    };
    pairs.iter().map(one).collect()
}

fn given(files: Vec<(&str, Content)>, settings: &[(&str, &str)]) -> Entry {
    let file = |(origin, content): (&str, Content)| ReadingFile { origin: origin.into(), content };
    Entry::Readings(Readings {
        files: files.into_iter().map(file).collect(),
        stated: stated(settings),
        gauge: None,
    })
}

fn values(um: &[f64]) -> Content {
    Content::Text(um.iter().fold("ra_um\n".to_owned(), |text, value| text + &format!("{value}\n")))
}

fn trace() -> Content {
    let x3p = include_bytes!("../../../../../examples/checks/ramp-trace.x3p");
    Content::Bytes(x3p.to_vec())
}

fn decay(pa_m3_per_s: f64) -> Content {
    let mut text = "seconds,pressure_kpa,temperature_degc\n".to_owned();
    for index in 0..40 {
        let seconds = 30.0 * f64::from(index);
        let kpa = 50.0 - pa_m3_per_s * seconds / 3.2e-3 * 1e-3;
        text += &format!("{seconds},{kpa:.4},20.00\n");
    }
    Content::Text(text)
}

const INSTRUMENT: [(&str, &str); 1] = [("uncertainty", "3 %")];
const TEST: [(&str, &str); 4] = [
    ("pressure", "gauge"),
    ("volume", "3.20 l"),
    ("limit", "0.001 Pa m3/s"),
    ("atmosphere", "101.3 kPa"),
];

/// Up to the leak test, the finish of half b's ring too rough at first.
fn walked(people: &People) -> Bench {
    let mut bench = Bench::by(people, &procedure());
    let fitter = &people.fitter;
    bench.record(fitter, once("make-safe"), &[("locked", YES)]).unwrap();
    bench.record(fitter, once("parts"), &[("looked", YES)]).unwrap();
    for half in Half::BOTH {
        let place = on("housing", half);
        let smooth = given(vec![("ramp.x3p", trace())], &INSTRUMENT);
        bench.record(fitter, place.clone(), &[("housing-finish", smooth)]).unwrap();
        assert_eq!(bench.verdict(&place), None, "one of two is there");
        if half == Half::B {
            let rough = given(vec![("ring.csv", values(&[4.1, 4.0, 4.3]))], &INSTRUMENT);
            bench.record(fitter, place.clone(), &[("ring-finish", rough)]).unwrap();
            assert_eq!(bench.verdict(&place), Some(Verdict::DoesNotConform));
        }
        let fine = given(vec![("ring.csv", values(&[1.1, 1.0, 1.3]))], &INSTRUMENT);
        bench.record(fitter, place.clone(), &[("ring-finish", fine)]).unwrap();
        assert_eq!(bench.verdict(&place), Some(Verdict::Conforms));
        let second = [("looked-too", Entry::SecondPerson)];
        bench.record(&people.checker, place, &second).unwrap();
        bench.submit(fitter, Deed::Sign(None)).unwrap();
    }
    for half in Half::BOTH {
        let heights = bench.heights(LEVEL);
        bench.record(fitter, on("height", half), &[("heights", heights)]).unwrap();
        bench.submit(fitter, Deed::Sign(None)).unwrap();
    }
    let sizes = bench.heights(SIZES);
    bench.record(fitter, once("gap"), &[("sizes", sizes)]).unwrap();
    bench.submit(fitter, Deed::Sign(None)).unwrap();
    bench.record(fitter, once("faces"), &[("clean", YES)]).unwrap();
    bench.submit(fitter, Deed::Sign(None)).unwrap();
    bench
}

#[test]
fn checks_are_gates_that_are_judged_again_from_what_was_typed() {
    let people = people();
    let mut bench = walked(&people);
    let leak = once("leak");
    let test = |rate: f64| given(vec![("test.csv", decay(rate))], &TEST);
    bench.record(&people.fitter, leak.clone(), &[("test", test(2e-3))]).unwrap();
    assert_eq!(bench.verdict(&leak), Some(Verdict::DoesNotConform));
    bench.record(&people.fitter, leak.clone(), &[("test", test(1e-4))]).unwrap();
    assert_eq!(bench.verdict(&leak), Some(Verdict::Conforms));
    let last = bench.log.last().unwrap().event.payload.clone();
    let Payload::Assessed(assessed) = last else { panic!() };
    assert_eq!(assessed.decided_by, DecidedBy::LeakTest);
    let outcome: serde_json::Value = serde_json::from_str(&assessed.outcome).unwrap();
    for key in ["leak_rate_pa_m3_per_s", "standard_uncertainty_pa_m3_per_s", "verdict"] {
        assert!(!outcome[key].is_null(), "{key}");
    }
    let again = recompute(&bench.plan, &bench.log, &SolveAnew).unwrap();
    assert!(again.len() >= 10 && again.iter().all(|one| one.same), "{again:?}");
    // For the report: what counts, once each.
    let judged = assessments(&bench.plan, (&bench.job, &bench.log), &SolveAnew).unwrap();
    let origins: Vec<&str> = judged.checks.iter().map(|one| one.origin.as_str()).collect();
    assert_eq!(origins.len(), 5, "{origins:?}");
    assert!(origins[0].starts_with("ramp.x3p, event "), "{origins:?}");
    assert_eq!(judged.checks[0].name, "housing-finish");
    // An export carries the trace's bytes and comes back as it was.
    let text = bench.export().text();
    assert!(text.contains("\"base64\"") && text.contains("\"form-2\""));
    assert_eq!(read_export(&text).unwrap().jobs["J-1"], bench.log);
}

#[test]
fn settings_that_do_not_fit_record_nothing() {
    let people = people();
    let mut bench = walked(&people);
    let before = bench.log.len();
    let cases: [(&[(&str, &str)], &str); 5] = [
        (&TEST[1..], "`pressure` is missing"),
        (&[("volume", "3 mm"), TEST[0], TEST[2]], "is a length"),
        (&[TEST[0], TEST[1], TEST[2], ("bubbles", "3")], "`bubbles` is stated"),
        (&[TEST[0], TEST[1], TEST[2], ("limit", "1 sccm")], "stated twice"),
        (&[TEST[0], TEST[1], TEST[2], ("colour", "red")], "no setting"),
    ];
    for (settings, said) in &cases {
        let entry = given(vec![("test.csv", decay(1e-4))], settings);
        let error = bench.record(&people.fitter, once("leak"), &[("test", entry)]).unwrap_err();
        assert!(matches!(error, DeedError::Assess(AssessError::Room(_))), "{error}");
        assert!(error.to_string().contains(said), "{error}");
    }
    let wrong = Content::Text("seconds,pressure_kpa\n0,50\n".to_owned());
    let entry = given(vec![("test.csv", wrong)], &TEST);
    let error = bench.record(&people.fitter, once("leak"), &[("test", entry)]).unwrap_err();
    let DeedError::Assess(AssessError::Text { origin, .. }) = error else { panic!("{error}") };
    assert_eq!(origin, "test.csv");
    // Readings that are judged by themselves take no settings.
    let entry = given(vec![("h.csv", Content::Text(LEVEL.to_owned()))], &INSTRUMENT);
    let error =
        bench.record(&people.fitter, on("height", Half::A), &[("heights", entry)]).unwrap_err();
    assert!(error.to_string().contains("judged by themselves"), "{error}");
    assert_eq!(bench.log.len(), before);
    let entry = given(vec![("test.csv", decay(1e-4))], &TEST[..3]);
    bench.record(&people.fitter, once("leak"), &[("test", entry)]).unwrap();
}

/// The few steps, with the toric chilled, and warm again before its height is read.
fn chilled_procedure() -> String {
    let step = |id: &str, stage: &str, (name, stated): (&str, &str)| {
        format!(
            "[[step]]\nid = \"{id}\"\nstage = \"{stage}\"\ntitle = \"Cold\"\nwhat = \"Chill it.\"\n\
             why = \"It is stiff otherwise.\"\nwhen = [\"chilling-allowed\"]\n\
             evidence = [{{ name = \"{name}\", kind = \"reading-set\", ask = \"Cold\", \
             readings = \"chilling\"{stated} }}]\ngate = {{ decided_by = \"chilling\" }}\n\n"
        )
    };
    let height = PROCEDURE.find("[[step]]\nid = \"height\"").unwrap();
    let (before, after) = PROCEDURE.split_at(height);
    let (chill, warm) = (
        step("chill-toric", "mount", ("cold", "")),
        step("re-warm", "level", ("warmed", ", stated = [\"since\"]")),
    );
    format!("{before}{chill}{warm}{after}")
}

/// Silicone, in an oil that every compound of it stands.
fn chilled_joint() -> String {
    let mut text = starter(Kind::Joint).to_owned();
    for (was, is) in [
        ("material = \"NBR\"", "material = \"VMQ\""),
        ("chilling = \"not-allowed\"", "chilling = \"allowed\""),
        ("oil = \"mineral-oil\"", "oil = \"water\""),
    ] {
        assert!(text.contains(was), "{was}");
        text = text.replace(was, is);
    }
    text
}

#[test]
fn a_chilled_toric_holds_the_job_until_it_is_warm_again() {
    let people = people();
    let mut bench = Bench::on(&people, &chilled_joint(), &chilled_procedure());
    bench.up_to_the_housings(&people);
    let cold =
        [("medium", "still-air"), ("cold", "-25 degC"), ("room", "22 degC"), ("humidity", "40 %")];
    let fitter = &people.fitter;
    let (chill, warm) = (on("chill-toric", Half::A), on("re-warm", Half::A));
    // Colder than the rubber takes without stiffening: it is not proven, and the gate holds.
    let mut colder = cold;
    colder[1].1 = "-60 degC";
    bench.record(fitter, chill.clone(), &[("cold", given(Vec::new(), &colder))]).unwrap();
    assert_eq!(bench.verdict(&chill), Some(Verdict::NotProven));
    bench.record(fitter, chill.clone(), &[("cold", given(Vec::new(), &cold))]).unwrap();
    assert_eq!(bench.verdict(&chill), Some(Verdict::Conforms));
    // Without the time that the step asks for it would say nothing of being warm.
    let before = bench.log.len();
    let untimed = [("warmed", given(Vec::new(), &cold))];
    let error = bench.record(fitter, warm.clone(), &untimed).unwrap_err();
    assert!(error.to_string().contains("`since` is missing"), "{error}");
    assert_eq!(bench.log.len(), before);
    let since = |time: &'static str| [&cold[..], &[("since", time)]].concat();
    let early = [("warmed", given(Vec::new(), &since("5 min")))];
    bench.record(fitter, warm.clone(), &early).unwrap();
    assert_eq!(bench.verdict(&warm), Some(Verdict::DoesNotConform));
    let before = bench.log.len();
    let heights = [("heights", bench.heights(LEVEL))];
    let error = bench.record(fitter, on("height", Half::A), &heights).unwrap_err();
    assert!(error.to_string().contains("re-warm"), "{error}");
    assert_eq!(bench.log.len(), before);
    let late = [("warmed", given(Vec::new(), &since("24 h")))];
    bench.record(fitter, warm.clone(), &late).unwrap();
    assert_eq!(bench.verdict(&warm), Some(Verdict::Conforms));
    bench.record(fitter, on("height", Half::A), &heights).unwrap();
    let again = recompute(&bench.plan, &bench.log, &SolveAnew).unwrap();
    assert!(again.len() >= 5 && again.iter().all(|one| one.same), "{again:?}");
}

/// In an oil that silicone does not stand, the job is held long before anything is chilled.
#[test]
fn a_silicone_toric_in_mineral_oil_is_held_at_the_parts() {
    let people = people();
    let joint = chilled_joint().replace("oil = \"water\"", "oil = \"mineral-oil\"");
    let mut bench = Bench::on(&people, &joint, &chilled_procedure());
    let fitter = &people.fitter;
    bench.record(fitter, once("make-safe"), &[("locked", YES)]).unwrap();
    bench.record(fitter, once("parts"), &[("looked", YES)]).unwrap();
    assert_eq!(bench.verdict(&once("parts")), Some(Verdict::DoesNotConform));
    let finish = [("finish", ra("0.8 um", "0.1 um"))];
    assert!(bench.record(fitter, on("housing", Half::A), &finish).is_err());
}

/// A whole job with chilled torics as form 2 wrote it: every kind of event and of evidence.
/// Whatever a later form holds, this text is read, comes out as it went in, and its verdicts stand.
#[test]
fn a_job_in_form_2_is_read_as_it_was_written() {
    let text = include_str!("../../../../ringtrue/tests/it/released/job-form-2.json");
    let events = ["opened", "recorded", "assessed", "corrected", "overridden", "signed"];
    let given = ["tick", "value", "readings", "photo", "text", "csv", "base64"];
    for word in events.iter().chain(&given).chain(&["followed-up"]) {
        assert!(text.contains(&format!("\"{word}\": ")), "{word}");
    }
    assert!(text.contains("\"second-person\"") && text.contains("\"typed\": \"still-air\""));
    let export = read_export(text).unwrap();
    assert!(export.text() == text);
    let log = export.jobs.values().next().unwrap();
    let job = Job::fold(log).unwrap();
    let plan = Plan::of(&job.opened, &export.documents).unwrap();
    let again = recompute(&plan, log, &SolveAnew).unwrap();
    assert!(again.len() > 30, "{}", again.len());
    for one in again {
        assert_eq!(one.now, Some(one.stored), "event {}", one.event);
    }
}

/// What the shipped procedures want stated are settings of the check that they name.
#[test]
fn the_shipped_procedures_ask_for_settings_that_there_are() {
    let mut found = 0;
    for text in LoadRingType::ALL.map(shipped) {
        let procedure: Procedure = read(text).unwrap();
        for asked in procedure.step.iter().flat_map(|step| &step.evidence) {
            for name in &asked.stated {
                let check = asked.readings.and_then(Check::of).unwrap();
                assert!(check.settings().iter().any(|one| one.name == name), "{name}");
                found += 1;
            }
        }
    }
    assert!(found >= 5, "{found}");
}
