//! What takes the toric into its housing, as a gate of the job.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::RoomError;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::procedure::DecidedBy;
use ringtrue_seal::face_load::{HalfCurve, HalfProblem};
use ringtrue_seal::seating::{Fate, PassagePoint, Passed, Passing};
use ringtrue_seal::section::Picture;

use super::fixture::*;
use crate::Curves;
use crate::check::going_along;
use crate::event::{Entry, Payload, Place, Readings, Recorded, Stated};
use crate::job::deed::{self, Deed, DeedError, Now};
use crate::job::{assessments, checks_at, look_ahead, recompute};

/// What becomes of a section, made up in the place of finite elements.
#[derive(Debug, Clone, Copy)]
enum Way {
    /// It slides past, with a push times this.
    Slides(f64),
    /// It folds.
    Folds,
    /// It can't be set up.
    Fails,
}

impl Curves for Way {
    fn of(&self, _: &[HalfProblem]) -> Vec<Result<HalfCurve, RoomError>> {
        unreachable!("no step of these asks for a load")
    }

    fn past(&self, problems: &[Passing]) -> Vec<Result<Passed, RoomError>> {
        problems.iter().map(|problem| self.one(problem)).collect()
    }
}

impl Way {
    fn one(self, problem: &Passing) -> Result<Passed, RoomError> {
        let (factor, shares, fate) = match self {
            Self::Slides(factor) => (factor, [0.0, 1.0, 0.2], Fate::SlidesPast),
            Self::Folds => (1.0, [0.0, 0.5, 1.0], Fate::Folds),
            Self::Fails => {
                let found = "a lip without a nose".to_owned();
                return Err(RoomError::Input { found, fits: "one that has it".to_owned() });
            }
        };
        // The coarser mesh gives a tenth less or so.
        let most = factor * problem.friction * (0.5 + problem.edges / 400.0);
        let point = |(step, share): (usize, f64)| PassagePoint {
            travel_mm: step as f64,
            push_n_per_mm: share * most,
            max_principal_stretch: 1.5,
            roll_deg: 0.0,
        };
        Ok(Passed {
            friction: problem.friction,
            points: shares.into_iter().enumerate().map(point).collect(),
            peak: (fate == Fate::SlidesPast).then_some(1),
            fate,
            stopped: None,
            picture: Picture::default(),
        })
    }
}

fn procedure() -> String {
    let (before, after) = PROCEDURE.split_once("[[step]]\nid = \"height\"").unwrap();
    let step = "[[step]]\nid = \"plan\"\nstage = \"mount\"\ntitle = \"Plan\"\nwhat = \"Read it.\"\n\
                why = \"It folds otherwise.\"\n\
                evidence = [{ name = \"as-in-file\", kind = \"tick\", ask = \"So\" },\n\
                { name = \"seating\", kind = \"reading-set\", ask = \"Friction\", \
                readings = \"seating\" }]\n\
                gate = { decided_by = \"seating\" }\n\n";
    format!("{before}{step}[[step]]\nid = \"height\"{after}")
}

fn friction(settings: &[(&str, &str)]) -> Entry {
    let one = |(name, typed): &(&str, &str)| Stated {
        name: (*name).to_owned(),
        typed: (*typed).to_owned(),
    };
    let stated = settings.iter().map(one).collect();
    Entry::Readings(Readings { files: Vec::new(), stated, gauge: None })
}

fn ready(people: &People) -> Bench {
    let mut bench = Bench::by(people, &procedure());
    bench.up_to_the_housings(people);
    bench
}

fn record(
    bench: &mut Bench,
    people: &People,
    way: Way,
    (place, entry): (&Place, Entry),
) -> Result<(), DeedError> {
    let second = i64::try_from(bench.log.len()).unwrap();
    let now = Now { curves: &way, ..now(&people.fitter, second) };
    let given = all(&[("as-in-file", YES), ("seating", entry)]);
    let deed = Deed::Record(Recorded { place: place.clone(), given });
    let (job, links) = deed::submit(&bench.job, &bench.plan, deed, &now)?;
    bench.job = job;
    bench.log.extend(links);
    Ok(())
}

#[test]
fn the_seating_is_a_verdict_of_the_record_and_the_same_within_its_band() {
    let people = people();
    let mut bench = ready(&people);
    let slides = Way::Slides(1.0);
    for half in Half::BOTH {
        let place = on("plan", half);
        record(&mut bench, &people, slides, (&place, friction(&[]))).unwrap();
        assert_eq!(bench.verdict(&place), Some(Verdict::Conforms));
    }
    let last = bench.log.last().unwrap().event.payload.clone();
    let Payload::Assessed(assessed) = last else { panic!("{last:?}") };
    assert_eq!(assessed.decided_by, DecidedBy::Seating);
    let outcome: serde_json::Value = serde_json::from_str(&assessed.outcome).unwrap();
    for key in ["push_force_n", "standard_uncertainty_n", "method", "interference_mm"] {
        assert!(!outcome[key].is_null(), "{key}");
    }
    let again = |way: Way| {
        let all = recompute(&bench.plan, &bench.log, &way).unwrap();
        all.into_iter().filter(|one| !one.same).count()
    };
    assert_eq!(again(slides), 0);
    let band = outcome["error_band_percent"].as_f64().unwrap() / 100.0;
    assert_eq!(again(Way::Slides(1.0 + 0.4 * band)), 0);
    assert_eq!(again(Way::Slides(1.0 + 2.0 * band)), 2);
    assert_eq!(again(Way::Folds), 2);
    // For the report both, and for its page the one; where it came from says the event.
    let judged = assessments(&bench.plan, (&bench.job, &bench.log), &slides).unwrap();
    assert_eq!(judged.checks.len(), 2);
    assert!(judged.checks[0].origin.starts_with("the joint's definition, event "));
    let here = on("plan", Half::B);
    let one = checks_at(&bench.plan, (&bench.job, &bench.log, &here), &slides).unwrap();
    assert_eq!((one.len(), &one[0].place), (1, &here));
    // Where nothing is solved, as for the page of another step, it is left out.
    let judged = assessments(&bench.plan, (&bench.job, &bench.log), &Way::Fails).unwrap();
    assert!(judged.checks.is_empty());
}

#[test]
fn a_toric_that_folds_holds_the_job_until_somebody_decides() {
    let people = people();
    let mut bench = ready(&people);
    let place = on("plan", Half::A);
    record(&mut bench, &people, Way::Folds, (&place, friction(&[]))).unwrap();
    assert_eq!(bench.verdict(&place), Some(Verdict::NotProven));
    let heights = [("heights", bench.heights(LEVEL))];
    assert!(bench.record(&people.fitter, on("height", Half::A), &heights).is_err());
    let why = "pushed past on the bench this morning".to_owned();
    let passed = Deed::Override { place: place.clone(), why };
    bench.submit(&people.engineer, passed).unwrap();
    bench.record(&people.fitter, on("height", Half::A), &heights).unwrap();
}

/// The definitions of a job stand: a seating that can't be worked out must not shut it for good.
#[test]
fn a_seating_that_can_not_be_worked_out_is_not_proven() {
    let people = people();
    let mut bench = ready(&people);
    let place = on("plan", Half::A);
    record(&mut bench, &people, Way::Fails, (&place, friction(&[]))).unwrap();
    assert_eq!(bench.verdict(&place), Some(Verdict::NotProven));
    let last = &bench.job.steps[&place].assessments[0];
    assert!(last.summary.contains("a lip without a nose"), "{}", last.summary);
    assert_eq!(last.rests_on, [last.sequence - 1]);
}

#[test]
fn a_friction_that_cannot_be_records_nothing() {
    let people = people();
    let mut bench = ready(&people);
    let before = bench.log.len();
    for wrong in ["-0.1", "9", "slippery", "0.3 mm"] {
        let entry = friction(&[("wet", wrong)]);
        let place = on("plan", Half::A);
        assert!(record(&mut bench, &people, Way::Folds, (&place, entry)).is_err(), "{wrong}");
    }
    assert_eq!(bench.log.len(), before);
}

#[test]
fn what_needs_nothing_goes_along_once() {
    let people = people();
    let bench = ready(&people);
    let step = bench.plan.step(&on("plan", Half::A)).unwrap();
    let along = |there: &str| {
        going_along(step, |name| name == there).map(|asked| asked.name.as_str()).collect::<Vec<_>>()
    };
    assert_eq!(along("as-in-file"), ["seating"]);
    assert!(along("seating").is_empty());
    let leak = bench.plan.step(&once("leak")).unwrap();
    assert_eq!(going_along(leak, |_| false).count(), 0);
}

/// What is asked for, in the order in which it is.
#[derive(Debug, Default)]
struct Noted(std::cell::RefCell<Vec<Passing>>);

impl Curves for Noted {
    fn of(&self, _: &[HalfProblem]) -> Vec<Result<HalfCurve, RoomError>> {
        unreachable!("no step of these asks for a load")
    }

    fn past(&self, problems: &[Passing]) -> Vec<Result<Passed, RoomError>> {
        self.0.borrow_mut().extend(problems);
        Way::Slides(1.0).past(problems)
    }
}

/// What is asked for ahead is what the record asks for then.
#[test]
fn looking_ahead_asks_for_what_the_record_is_judged_on() {
    let people = people();
    let mut bench = ready(&people);
    let place = on("plan", Half::A);
    let ahead = |bench: &Bench, place: &Place| {
        let noted = Noted::default();
        look_ahead(&bench.plan, (&bench.job, place), &noted);
        noted.0.into_inner()
    };
    let first = ahead(&bench, &place);
    assert!(first.len() > 2 && first.iter().any(|way| way.friction == 0.3), "{first:?}");
    let slides = Way::Slides(1.0);
    record(&mut bench, &people, slides, (&place, friction(&[("wet", "0.25")]))).unwrap();
    // Recorded again, it is judged with what counts now.
    let again = ahead(&bench, &place);
    assert!(again.iter().any(|way| way.friction == 0.25), "{again:?}");
    let noted = Noted::default();
    recompute(&bench.plan, &bench.log, &noted).unwrap();
    assert_eq!(noted.0.into_inner(), again);
    assert!(ahead(&bench, &once("leak")).is_empty());
}
