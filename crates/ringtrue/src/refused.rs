//! What store, job and people refuse, as problems for the person.

use ringtrue_job::job::deed::DeedError;
use ringtrue_job::job::{AssessError, PlanError, Refusal, Standing};
use ringtrue_job::person::{PersonError, SHORTEST_PASSPHRASE};
use ringtrue_store::StoreError;
use ringtrue_words::say;

use crate::problem::Problem;

/// The store could not be used, or holds something else than was asked for.
pub(crate) fn store(error: StoreError) -> Problem {
    let what = error.to_string();
    match error {
        StoreError::Missing(_) => {
            Problem::store(what, say!("refusal-name-store-that-meant-person-add"))
        }
        StoreError::CannotOpen { .. } => {
            Problem::store(what, say!("refusal-check-path-who-may-read"))
        }
        StoreError::NotAStore(_) => {
            Problem::store(what, say!("refusal-name-store-or-path-that-free"))
        }
        StoreError::Newer { .. } => Problem::store(what, say!("refusal-use-newer-program")),
        StoreError::Busy => {
            Problem::store(what, say!("refusal-nothing-was-written-wait-until-done"))
        }
        StoreError::Full => Problem::store(what, say!("refusal-nothing-was-written-make-room-try")),
        StoreError::ReadOnly => {
            Problem::store(what, say!("refusal-nothing-was-written-give-yourself-leave"))
        }
        StoreError::Disk(_) => {
            Problem::store(what, say!("refusal-nothing-was-written-look-after-disk"))
        }
        StoreError::Damaged(_) => Problem::store(what, say!("refusal-keep-file-as-go-on-from")),
        StoreError::Overtaken { .. } => {
            Problem::store(what, say!("refusal-nothing-was-written-look-at-job"))
        }
        StoreError::NoJob(_) => Problem::input(what, say!("refusal-ringtrue-job-list-names-jobs")),
        StoreError::JobExists(_) => Problem::input(what, say!("refusal-try-again")),
        StoreError::PersonExists(_) => {
            Problem::input(what, say!("refusal-name-stands-for-one-person-for"))
        }
        StoreError::NotFirst | StoreError::HasKeeper => {
            Problem::input(what, say!("refusal-ask-keeper-add-you"))
        }
        StoreError::NoPerson(_) => {
            Problem::input(what, say!("refusal-ringtrue-person-list-names-people"))
        }
        StoreError::OtherHistory { .. } | StoreError::Refused { .. } => {
            Problem::input(what, say!("refusal-nothing-was-taken-in-find-out"))
        }
        StoreError::OtherRequest(_) => {
            Problem::input(what, say!("refusal-give-each-request-key-own"))
        }
        StoreError::Exists(_) => {
            Problem::input(what, say!("refusal-nothing-overwritten-name-another-file"))
        }
    }
}

/// A person's key could not be used.
pub(crate) fn person(error: PersonError) -> Problem {
    let next = match &error {
        PersonError::Name(_) => say!("refusal-name-1-80-printable-characters-wanted").to_owned(),
        PersonError::ShortPassphrase(_) => {
            say!("refusal-at-least-characters-wanted-four-words", characters = SHORTEST_PASSPHRASE)
        }
        PersonError::Passphrase(_) => say!("refusal-type-again-nobody-can-look-up").to_owned(),
        PersonError::NoKey(_) => say!("refusal-use-store-in-which-person-was").to_owned(),
        PersonError::Damaged(_) => say!("refusal-go-on-from-last-backup-store").to_owned(),
    };
    Problem::input(error.to_string(), next)
}

/// A deed was refused; nothing was recorded.
pub(crate) fn deed(error: DeedError) -> Problem {
    match error {
        DeedError::Refused(refusal) => refused(&refusal),
        DeedError::Plan(error) => plan(error),
        DeedError::Assess(error) => assess(error),
        DeedError::Value { name, error } => {
            Problem::input(format!("`{name}`: {}", error.found), error.fits)
        }
        DeedError::NoStep { ref near, .. } => {
            let next = say!("refusal-steps-this-job", steps = near.join(", "));
            Problem::input(error.to_string(), next)
        }
        DeedError::GateBefore { ref standing, .. } => {
            Problem::input(error.to_string(), way_on(standing))
        }
        DeedError::NotAsked { ref asked, .. } => {
            let next = match asked.as_slice() {
                [] => say!("refusal-asks-for-nothing-record-without-evidence").to_owned(),
                names => say!("refusal-asks-for", names = names.join(", ")),
            };
            Problem::input(error.to_string(), next)
        }
        DeedError::OtherKind { .. } => {
            Problem::input(error.to_string(), say!("refusal-give-as-that-kind"))
        }
        DeedError::NothingGiven(_) => {
            Problem::input(error.to_string(), say!("refusal-ringtrue-job-next-says-what-wanted"))
        }
        DeedError::Words(_) | DeedError::Unprintable(_) => {
            Problem::input(error.to_string(), say!("refusal-say-in-few-words"))
        }
        DeedError::EmptyFile(_) => {
            Problem::input(error.to_string(), say!("refusal-name-file-that-holds-it"))
        }
        DeedError::NotJudged(_) => {
            Problem::input(error.to_string(), say!("refusal-override-for-gate-that-holds"))
        }
        DeedError::StillDue(_) => {
            Problem::input(error.to_string(), say!("refusal-ringtrue-job-next-says-what-lacks"))
        }
        DeedError::NotWaiting(_) => {
            Problem::input(error.to_string(), say!("refusal-hold-point-signed-when-gate-passed"))
        }
    }
}

/// What can be done about a step that is not done.
pub(crate) fn way_on(standing: &Standing) -> String {
    match standing {
        Standing::Done | Standing::Overridden => say!("refusal-go-on").to_owned(),
        Standing::Wants(names) if names.is_empty() => {
            say!("refusal-record-that-step-first").to_owned()
        }
        Standing::Wants(names) => {
            say!("refusal-record-that-step-first-wants", names = names.join(", "))
        }
        Standing::Held(verdict) => {
            say!("refusal-verdict-measure-again-job-record-correct", verdict = verdict.to_string())
        }
        Standing::Unsigned => say!("refusal-sign-hold-point-ringtrue-job-sign").to_owned(),
    }
}

/// The definitions kept with a job can't be used.
pub(crate) fn plan(error: PlanError) -> Problem {
    let next = say!("refusal-ringtrue-job-verify-says-whether-record");
    Problem::input(error.to_string(), next)
}

/// What is recorded can't be judged.
pub(crate) fn assess(error: AssessError) -> Problem {
    match error {
        AssessError::Text { origin, error } => Problem::text(std::path::Path::new(&origin), error),
        AssessError::Value { name, found, fits } => {
            Problem::input(format!("`{name}`: {found}"), fits)
        }
        AssessError::Room(error) => Problem::room(error),
    }
}

fn refused(refusal: &Refusal) -> Problem {
    let next = match refusal {
        Refusal::Opening | Refusal::OtherJob(_) | Refusal::Sequence(..) | Refusal::Covers => {
            say!("refusal-somebody-else-recorded-meanwhile-look-at")
        }
        Refusal::Role { .. } => say!("refusal-somebody-with-that-role-has-do"),
        Refusal::GivenTwice(_) => say!("refusal-give-each-evidence-once"),
        Refusal::NoEvent(_) => say!("refusal-ringtrue-job-show-numbers-events"),
        Refusal::NotCorrectable(..) => {
            say!("refusal-what-corrected-record-correction-override-or")
        }
        Refusal::AlreadyCorrected(..) => say!("refusal-correct-later-event-if-that-wrong"),
        Refusal::NoEvidence(_) => say!("refusal-correct-without-new-evidence-record-what"),
        Refusal::NotTheLastVerdict(..) | Refusal::Conforms(_) => {
            say!("refusal-look-at-jobs-last-verdicts")
        }
        Refusal::NoReason => say!("refusal-say-why-why-text"),
        Refusal::SamePerson(_) => say!("refusal-another-person-has-look"),
        Refusal::NothingToSee => say!("refusal-record-work-first"),
        Refusal::Signed => say!("refusal-job-correct-job-follow-up-come"),
        Refusal::NotSigned => say!("refusal-sign-job-first-ringtrue-job-sign"),
    };
    Problem::input(refusal.to_string(), next)
}
