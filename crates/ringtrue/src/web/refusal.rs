//! What a deed is refused for, with the way on that the pages have: the words of what was wrong are
//! the record's own.

use axum::http::StatusCode;
use ringtrue_job::job::deed::DeedError;
use ringtrue_job::job::{AssessError, Refusal, Standing};

use super::trouble::Trouble;
use super::words::english;
use crate::problem::Problem;

const DOES_NOT_FIT: (StatusCode, &str) = (StatusCode::UNPROCESSABLE_ENTITY, "does-not-fit");

/// A deed that was refused; nothing was recorded.
pub(crate) fn deed(error: DeedError) -> Trouble {
    let t = english();
    let what = error.to_string();
    let next = match error {
        DeedError::Refused(refusal) => return refused(&refusal),
        DeedError::Assess(AssessError::Text { origin, error }) => {
            return Problem::text(std::path::Path::new(&origin), error).into();
        }
        DeedError::Assess(AssessError::Value { found, fits, name }) => {
            return Trouble::input(format!("`{name}`: {found}"), fits);
        }
        DeedError::Assess(AssessError::Room(error)) => return Problem::room(error).into(),
        DeedError::Value { error, .. } => error.fits,
        DeedError::Plan(_) => t.say("refused-plan"),
        DeedError::NoStep { near, .. } => {
            t.with("trouble-would-fit", &[("fits", near.join(", ").as_str())])
        }
        DeedError::GateBefore { standing, .. } => way_on(&standing),
        DeedError::NotAsked { asked, .. } => {
            t.with("trouble-would-fit", &[("fits", asked.join(", ").as_str())])
        }
        DeedError::OtherKind { .. } => t.say("refused-other-kind"),
        DeedError::NothingGiven(_) => t.say("refused-nothing-given"),
        DeedError::Words(_) => t.say("refused-words"),
        DeedError::NotJudged(_) => t.say("refused-not-judged"),
        DeedError::StillDue(_) => t.say("refused-still-due"),
        DeedError::NotWaiting(_) => t.say("refused-not-waiting"),
    };
    Trouble::new(DOES_NOT_FIT, sentence(&what), next)
}

/// What can be done about a step that is not done.
fn way_on(standing: &Standing) -> String {
    let t = english();
    match standing {
        Standing::Done | Standing::Overridden => t.say("way-on"),
        Standing::Wants(names) if names.is_empty() => t.say("way-on-due"),
        Standing::Wants(names) => t.with("way-on-wants", &[("names", names.join(", ").as_str())]),
        Standing::Held(verdict) => t.with("way-on-held", &[("verdict", verdict.words())]),
        Standing::Unsigned => t.say("way-on-unsigned"),
    }
}

fn refused(refusal: &Refusal) -> Trouble {
    let t = english();
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
