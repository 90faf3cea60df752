//! What goes into a record is English, whatever the bench speaks.

use ringtrue_seal::definition::TextError;
use ringtrue_seal::definition::joint::Half;
use ringtrue_words::{Words, speaking};

use super::fixture::*;
use crate::event::{Detail, FollowUp, FollowedUp, Payload};
use crate::job::deed::Deed;
use crate::job::{PlanError, Refusal, recompute};
use crate::{Question, SolveAnew};

/// A language that says otherwise what verdicts, limits and refusals say.
const OTHER: &str = "language-tag = pl\n\
    question-assembled-height = Wysoko\u{15b}\u{107}\n\
    question-seal-gap = Szczelina\n\
    question-parts-that-belong-together = Cz\u{119}\u{15b}ci\n\
    job-values-against-their-limits = Warto\u{15b}ci: { $verdict }\n\
    job-what-was-be-seen-done = Widziane: { $verdict }\n\
    job-limit-of-half = po\u{142}owa { $half }: { $limit }\n\
    evidence-chain-has-no-link = nie ma { $link }\n\
    refusal-gate-before = najpierw { $gate }\n";

#[test]
fn a_record_is_english_and_a_refusal_is_not() {
    let people = people();
    let through = || {
        let mut bench = Bench::new(&people);
        bench.through(&people);
        bench
    };
    let english = through();
    let other: &'static Words = Box::leak(Box::new(Words::of_file(OTHER).unwrap()));
    speaking(other, || {
        let spoken = through();
        let judged = |payload: &Payload| matches!(payload, Payload::Assessed(_));
        let verdicts = spoken.log.iter().filter(|link| judged(&link.event.payload)).count();
        assert!(verdicts >= 6, "{verdicts}");
        for (spoken, english) in spoken.log.iter().zip(&english.log) {
            assert_eq!(spoken.bytes, english.bytes);
        }
        assert_eq!(spoken.log.len(), english.log.len());
        let again = recompute(&spoken.plan, &spoken.log, &SolveAnew).unwrap();
        assert!(again.iter().all(|one| one.same), "{again:?}");
        // What is shown and what is refused follow the bench.
        assert_eq!(Question::SealGap.title(), "Szczelina");
        let mut bench = Bench::new(&people);
        bench.up_to_the_housings(&people);
        let mut sizes = |text: &str| {
            let sizes = bench.heights(text);
            let given = [("sizes", sizes)];
            bench.record(&people.fitter, once("gap"), &given).unwrap_err().to_string()
        };
        assert_eq!(sizes(SIZES), "najpierw height (half a)");
        for half in Half::BOTH {
            let heights = bench.heights(LEVEL);
            bench.record(&people.fitter, on("height", half), &[("heights", heights)]).unwrap();
            bench.submit(&people.fitter, Deed::Sign(None)).unwrap();
        }
        let mut sizes = |text: &str| {
            let sizes = bench.heights(text);
            let given = [("sizes", sizes)];
            bench.record(&people.fitter, once("gap"), &given).unwrap_err().to_string()
        };
        let refused = sizes("name,value_mm,u_mm\nno link,62.00,0.005\n");
        assert!(refused.contains("nie ma no link"), "{refused}");
    });
}

/// A word by which a sentence chooses its form is one that the sentence knows.
#[test]
fn sentences_know_each_kind_that_they_tell_apart() {
    for kind in FollowUp::ALL {
        for hours in [None, Some("1250 h".to_owned())] {
            let at = hours.as_ref().map_or(String::new(), |hours| format!(" at {hours}"));
            // Running hours need no name of their own beside their number.
            let kind_said = match (kind, &hours) {
                (FollowUp::Hours, Some(_)) => String::new(),
                (_, _) => format!(", {}", kind.name()),
            };
            let follow_up =
                FollowedUp { kind, hours, note: "weeps".to_owned(), photos: Vec::new() };
            let said = Payload::FollowedUp(follow_up).words(Detail::Short);
            assert_eq!(said, format!("follow-up{kind_said}{at}: weeps"));
        }
    }
    for kind in ["opened", "recorded", "assessed", "corrected", "overridden", "signed"] {
        let said = Refusal::NotCorrectable(3, kind).to_string();
        let why = "which is not corrected by an event of its own";
        assert_eq!(said, format!("event 3 is {kind}, {why}"));
    }
    for kind in ["joint", "material", "procedure", "gauge"] {
        let said = PlanError::Missing(kind).to_string();
        assert_eq!(said, format!("the {kind} that the job names is not kept with it"));
        let error = TextError::of_text("`x` is unknown", "y would fit");
        let said = PlanError::Text { kind, error: error.clone() }.to_string();
        assert_eq!(said, format!("the {kind} kept with the job can't be read: {error}"));
    }
    let agents = PlanError::Missing("agents").to_string();
    assert_eq!(agents, "the list of agents that the job names is not kept with it");
}
