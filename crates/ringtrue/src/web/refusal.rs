//! What a deed is refused for, with the way on that the pages have: the words of what was wrong are
//! the record's own.

use axum::http::StatusCode;
use ringtrue_job::event::Place;
use ringtrue_job::job::deed::DeedError;
use ringtrue_job::job::{AssessError, Plan, Refusal, Standing};

use super::deed::typed;
use super::trouble::Trouble;
use crate::problem::Problem;
use ringtrue_words::words;

const DOES_NOT_FIT: (StatusCode, &str) = (StatusCode::UNPROCESSABLE_ENTITY, "does-not-fit");

/// A deed that was refused; nothing was recorded. Steps and evidence are named as on their pages.
pub(crate) fn deed(error: DeedError, plan: &Plan, at: Option<&Place>) -> Trouble {
    let t = words();
    let step = at.and_then(|place| plan.step(place));
    let ask = |name: &str| match step.and_then(|step| step.evidence(name)) {
        Some(asked) => format!("\u{201c}{}\u{201d}", asked.ask),
        None => format!("`{name}`"),
    };
    let what = said(&error, plan);
    let next = match error {
        DeedError::Refused(refusal) => return refused(&refusal),
        // What was typed has no file: the line is that of the readings, below their header.
        DeedError::Assess(AssessError::Text { origin, error }) if origin == typed() => {
            let line = error.line.map(|line| line.saturating_sub(1)).filter(|line| *line > 0);
            let what = match line {
                Some(n) => {
                    let values = [("n", n.to_string()), ("found", error.found)];
                    t.with("refused-typed-line", &values)
                }
                None => sentence(&error.found),
            };
            return Trouble::input(what, error.fits);
        }
        DeedError::Assess(AssessError::Text { origin, error }) => {
            return Problem::text(std::path::Path::new(&origin), error).into();
        }
        DeedError::Assess(AssessError::Value { found, fits, name }) => {
            return Trouble::input(format!("{}: {found}", ask(&name)), fits);
        }
        DeedError::Assess(AssessError::Room(error)) => return Problem::room(error).into(),
        DeedError::Value { error, name } => {
            return Trouble::input(format!("{}: {}", ask(&name), error.found), error.fits);
        }
        DeedError::Plan(_) => t.say("refused-plan"),
        DeedError::NoStep { near, .. } => {
            t.with("trouble-would-fit", &[("fits", near.join(", ").as_str())])
        }
        DeedError::GateBefore { gate, standing, .. } => way_on(&standing, (plan, &gate)),
        DeedError::NotAsked { asked, .. } => {
            t.with("trouble-would-fit", &[("fits", asked.join(", ").as_str())])
        }
        DeedError::OtherKind { .. } => t.say("refused-other-kind"),
        DeedError::NothingGiven(_) => t.say("refused-nothing-given"),
        DeedError::Words(_) | DeedError::Unprintable(_) => t.say("refused-words"),
        DeedError::EmptyFile(_) => t.say("refused-empty-file"),
        DeedError::NotJudged(_) => t.say("refused-not-judged"),
        DeedError::StillDue(_) => t.say("refused-still-due"),
        DeedError::NotWaiting(_) => t.say("refused-not-waiting"),
    };
    Trouble::new(DOES_NOT_FIT, sentence(&what), next)
}

/// What was wrong, where a step is named by its title.
fn said(error: &DeedError, plan: &Plan) -> String {
    let t = words();
    let of_step = |key: &str, place: &Place| t.with(key, &[("step", title(plan, place))]);
    match error {
        DeedError::GateBefore { gate, place, .. } => t.with(
            "refused-gate-before",
            &[("gate", title(plan, gate)), ("step", title(plan, place))],
        ),
        DeedError::NothingGiven(place) => of_step("refused-nothing-for", place),
        DeedError::NotJudged(place) => of_step("refused-not-judged-at", place),
        DeedError::StillDue(place) => of_step("refused-not-done", place),
        DeedError::NotWaiting(place) => of_step("refused-not-waiting-at", place),
        DeedError::Refused(_)
        | DeedError::Plan(_)
        | DeedError::Assess(_)
        | DeedError::NoStep { .. }
        | DeedError::NotAsked { .. }
        | DeedError::OtherKind { .. }
        | DeedError::Value { .. }
        | DeedError::Words(_)
        | DeedError::Unprintable(_)
        | DeedError::EmptyFile(_) => error.to_string(),
    }
}

/// A step as its page has it: its title, and the half.
pub(crate) fn title(plan: &Plan, place: &Place) -> String {
    let Some(step) = plan.step(place) else { return place.to_string() };
    match place.half {
        Some(half) => {
            let half = words().with("half", &[("half", half.name())]);
            format!("{}, {half}", step.title)
        }
        None => step.title.clone(),
    }
}

/// What can be done about a step that is not done.
pub(crate) fn way_on(standing: &Standing, (plan, gate): (&Plan, &Place)) -> String {
    let t = words();
    match standing {
        Standing::Done | Standing::Overridden => t.say("way-on"),
        Standing::Wants(names) if names.is_empty() => t.say("way-on-due"),
        Standing::Wants(names) => {
            let evidence = plan.step(gate).map_or(&[][..], |step| &step.evidence);
            let ask = |name: &String| {
                let asked = evidence.iter().find(|asked| asked.name == *name);
                format!("\u{201c}{}\u{201d}", asked.map_or(name, |asked| &asked.ask))
            };
            let names: Vec<String> = names.iter().map(ask).collect();
            t.with("way-on-wants", &[("names", names.join(", "))])
        }
        Standing::Held(verdict) => t.with("way-on-held", &[("verdict", verdict.words())]),
        Standing::Unsigned => t.say("way-on-unsigned"),
    }
}

fn refused(refusal: &Refusal) -> Trouble {
    let t = words();
    let key = match refusal {
        Refusal::Role { .. } => {
            let said = (StatusCode::FORBIDDEN, "not-allowed");
            return Trouble::new(said, sentence(&refusal.to_string()), t.say("refused-role"));
        }
        Refusal::Opening | Refusal::OtherJob(_) | Refusal::Sequence(..) | Refusal::Covers => {
            "trouble-overtaken-next"
        }
        Refusal::GivenTwice(_) => "refused-twice",
        Refusal::NoEvent(_) => "refused-no-event",
        Refusal::NotCorrectable(..) => "refused-not-correctable",
        Refusal::AlreadyCorrected(..) => "refused-already-corrected",
        Refusal::NoEvidence(_) => "refused-no-evidence",
        Refusal::NotTheLastVerdict(..) | Refusal::Conforms(_) => "refused-last-verdict",
        Refusal::NoReason => "refused-no-reason",
        Refusal::SamePerson(_) => "refused-same-person",
        Refusal::NothingToSee => "refused-nothing-to-see",
        Refusal::Signed => "refused-signed",
        Refusal::NotSigned => "refused-not-signed",
    };
    Trouble::new(DOES_NOT_FIT, sentence(&refusal.to_string()), t.say(key))
}

/// A capital at its head and a full stop at its end.
fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(char::to_uppercase);
    let mut text: String = first.into_iter().flatten().chain(letters).collect();
    if !text.ends_with('.') {
        text.push('.');
    }
    text
}
