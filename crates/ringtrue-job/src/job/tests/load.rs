//! The face load as a gate of the job.

use std::cell::RefCell;

use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::RoomError;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::face_load::{HalfCurve, HalfProblem};
use ringtrue_seal::seating::{Passed, Passing};

use super::fixture::*;
use crate::Curves;
use crate::event::{Payload, Place, Recorded};
use crate::job::deed::{self, Deed, Now};
use crate::job::{Standing, assessments, recompute};

/// Curves solved once, their forces multiplied by a factor.
#[derive(Debug)]
struct Kept<'k> {
    solved: &'k RefCell<Vec<(HalfProblem, HalfCurve)>>,
    factor: f64,
}

impl Curves for Kept<'_> {
    fn of(&self, problems: &[HalfProblem]) -> Vec<Result<HalfCurve, RoomError>> {
        let one = |problem: &HalfProblem| {
            let mut solved = self.solved.borrow_mut();
            let known = solved.iter().find(|(known, _)| known == problem);
            let mut curve = match known {
                Some((_, curve)) => curve.clone(),
                None => {
                    let curve = problem.solve()?;
                    solved.push((problem.clone(), curve.clone()));
                    curve
                }
            };
            curve.points.iter_mut().for_each(|point| point.force_n *= self.factor);
            Ok(curve)
        };
        problems.iter().map(one).collect()
    }

    fn past(&self, _: &[Passing]) -> Vec<Result<Passed, RoomError>> {
        unreachable!("no step of these asks for a seating")
    }
}

fn procedure() -> String {
    let (before, after) = PROCEDURE.split_once("[[step]]\nid = \"faces\"").unwrap();
    let step = "[[step]]\nid = \"load\"\nstage = \"close\"\ntitle = \"Load\"\nwhat = \"Read it.\"\n\
                why = \"It decides how long the joint runs.\"\nwhen = [\"face-load-limited\"]\n\
                evidence = [{ name = \"read\", kind = \"tick\", ask = \"Read\" }]\n\
                gate = { decided_by = \"face-load\" }\n\n";
    format!("{before}{step}[[step]]\nid = \"faces\"{after}")
}

fn record(
    bench: &mut Bench,
    people: &People,
    curves: &dyn Curves,
    (place, given): (&Place, &[(&str, crate::event::Entry)]),
) {
    let now = Now { curves, ..now(&people.fitter, i64::try_from(bench.log.len()).unwrap()) };
    let deed = Deed::Record(Recorded { place: place.clone(), given: all(given) });
    let (job, links) = deed::submit(&bench.job, &bench.plan, deed, &now).unwrap();
    bench.job = job;
    bench.log.extend(links);
}

fn loads(bench: &Bench) -> Vec<(u64, Verdict, Vec<u64>)> {
    let of = |link: &crate::record::Link| {
        let Payload::Assessed(it) = &link.event.payload else { return None };
        let found = (link.event.sequence, it.verdict, it.rests_on.clone());
        (it.decided_by.name() == "face-load").then_some(found)
    };
    bench.log.iter().filter_map(of).collect()
}

#[test]
fn the_face_load_is_a_verdict_of_the_record_and_rests_on_the_measured_sizes() {
    let people = people();
    let mut bench = Bench::by(&people, &procedure());
    bench.up_to_the_housings(&people);
    for half in Half::BOTH {
        let heights = bench.heights(LEVEL);
        bench.record(&people.fitter, on("height", half), &[("heights", heights)]).unwrap();
        bench.submit(&people.fitter, Deed::Sign(None)).unwrap();
    }
    let solved = RefCell::new(Vec::new());
    let kept = |factor| Kept { solved: &solved, factor };
    let gap = once("gap");
    let sizes = [("sizes", bench.heights(SIZES))];
    record(&mut bench, &people, &kept(1.0), (&gap, &sizes));
    let sized = bench.log.len() as u64 - 1;
    bench.submit(&people.fitter, Deed::Sign(None)).unwrap();
    assert!(loads(&bench).is_empty(), "nobody came to that step yet");
    record(&mut bench, &people, &kept(1.0), (&once("load"), &[("read", YES)]));
    let [(event, verdict, rests_on)] = loads(&bench)[..].to_vec().try_into().unwrap();
    assert_eq!(rests_on, [sized]);
    // The gate goes by what the verdict says.
    let standing = |bench: &Bench| {
        let all = bench.plan.standings(&bench.job);
        all.into_iter().find(|one| one.place.step == "load").unwrap().standing
    };
    match verdict {
        Verdict::Conforms => assert_eq!(standing(&bench), Standing::Done),
        Verdict::NotProven | Verdict::DoesNotConform => {
            assert_eq!(standing(&bench), Standing::Held(verdict));
        }
    }
    // The page draws what the record holds.
    let judged = assessments(&bench.plan, (&bench.job, &bench.log), &kept(1.0)).unwrap();
    let load = judged.load.unwrap();
    assert!(load.same && load.event == event && load.assessment.verdict() == verdict);
    // Measured again, the sizes ask for the load again.
    let other = SIZES.replace("62.00", "62.02");
    let sizes = [("sizes", bench.heights(&other))];
    record(&mut bench, &people, &kept(1.0), (&gap, &sizes));
    assert_eq!(loads(&bench).len(), 2);
    assert_eq!(loads(&bench)[1].2, [bench.log.len() as u64 - 2]);
    // Within the error band of the computation it is the same; beyond, it is not.
    let again = |factor: f64| {
        let all = recompute(&bench.plan, &bench.log, &kept(factor)).unwrap();
        all.into_iter().filter(|one| !one.same).map(|one| one.event).collect::<Vec<_>>()
    };
    assert!(again(1.0).is_empty());
    let band = solved.borrow()[0].1.error_band_percent.unwrap() / 100.0;
    assert!(again(1.0 + 0.4 * band).is_empty());
    let both: Vec<u64> = loads(&bench).iter().map(|(event, ..)| *event).collect();
    assert_eq!(again(1.0 + 2.0 * band), both);
}

#[test]
fn a_load_that_can_not_be_worked_out_is_not_proven() {
    #[derive(Debug)]
    struct Fails;
    impl Curves for Fails {
        fn of(&self, problems: &[HalfProblem]) -> Vec<Result<HalfCurve, RoomError>> {
            let fails = |_: &HalfProblem| {
                let found = "a ring without ramps".to_owned();
                Err(RoomError::Input { found, fits: "one that has them".to_owned() })
            };
            problems.iter().map(fails).collect()
        }

        fn past(&self, _: &[Passing]) -> Vec<Result<Passed, RoomError>> {
            unreachable!("no step of these asks for a seating")
        }
    }
    let people = people();
    let mut bench = Bench::by(&people, &procedure());
    bench.up_to_the_housings(&people);
    for half in Half::BOTH {
        let heights = bench.heights(LEVEL);
        bench.record(&people.fitter, on("height", half), &[("heights", heights)]).unwrap();
        bench.submit(&people.fitter, Deed::Sign(None)).unwrap();
    }
    let sizes = [("sizes", bench.heights(SIZES))];
    record(&mut bench, &people, &Fails, (&once("gap"), &sizes));
    bench.submit(&people.fitter, Deed::Sign(None)).unwrap();
    record(&mut bench, &people, &Fails, (&once("load"), &[("read", YES)]));
    assert_eq!(bench.verdict(&once("load")), Some(Verdict::NotProven));
    assert!(recompute(&bench.plan, &bench.log, &Fails).unwrap().iter().all(|one| one.same));
    let judged = assessments(&bench.plan, (&bench.job, &bench.log), &Fails).unwrap();
    assert!(judged.load.is_none());
}
