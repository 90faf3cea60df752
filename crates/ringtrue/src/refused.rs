//! What store, job and people refuse, as problems for the person.

use ringtrue_job::job::deed::DeedError;
use ringtrue_job::job::{AssessError, PlanError, Refusal, Standing};
use ringtrue_job::person::{PersonError, SHORTEST_PASSPHRASE};
use ringtrue_store::StoreError;

use crate::problem::Problem;

/// The store could not be used, or holds something else than was asked for.
pub(crate) fn store(error: StoreError) -> Problem {
    let what = error.to_string();
    match error {
        StoreError::Missing(_) => Problem::store(
            what,
            "name the store that is meant; `person add` makes one where there is none",
        ),
        StoreError::CannotOpen { .. } => Problem::store(what, "check the path and who may read it"),
        StoreError::NotAStore(_) => Problem::store(what, "name a store, or a path that is free"),
        StoreError::Newer { .. } => Problem::store(what, "use the newer program"),
        StoreError::Busy => {
            Problem::store(what, "nothing was written; wait until it is done and try again")
        }
        StoreError::Full => Problem::store(what, "nothing was written; make room and try again"),
        StoreError::ReadOnly => {
            Problem::store(what, "nothing was written; give yourself leave to write it")
        }
        StoreError::Disk(_) => {
            Problem::store(what, "nothing was written; look after the disk and try again")
        }
        StoreError::Damaged(_) => Problem::store(
            what,
            "keep the file as it is, and go on from the last backup: `ringtrue store restore`",
        ),
        StoreError::Overtaken { .. } => {
            Problem::store(what, "nothing was written; look at the job and do it again")
        }
        StoreError::NoJob(_) => Problem::input(what, "`ringtrue job list` names the jobs"),
        StoreError::JobExists(_) => Problem::input(what, "try again"),
        StoreError::PersonExists(_) => {
            Problem::input(what, "a name stands for one person for good: choose another")
        }
        StoreError::NotFirst => Problem::input(what, "ask the keeper to add you"),
        StoreError::NoPerson(_) => Problem::input(what, "`ringtrue person list` names the people"),
        StoreError::OtherHistory { .. } | StoreError::Refused { .. } => {
            Problem::input(what, "nothing was taken in; find out which of the two was changed")
        }
        StoreError::OtherRequest(_) => Problem::input(what, "give each request a key of its own"),
        StoreError::Exists(_) => Problem::input(what, "nothing is overwritten: name another file"),
    }
}

/// A person's key could not be used.
pub(crate) fn person(error: PersonError) -> Problem {
    let next = match &error {
        PersonError::Name(_) => "a name of 1 to 80 printable characters is wanted".to_owned(),
        PersonError::ShortPassphrase(_) => {
            format!("at least {SHORTEST_PASSPHRASE} characters are wanted; four words are good")
        }
        PersonError::Passphrase(_) => "type it again; nobody can look it up".to_owned(),
        PersonError::NoKey(_) => "use the store in which the person was added".to_owned(),
        PersonError::Damaged(_) => "go on from the last backup of the store".to_owned(),
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
            let next = format!("the steps of this job are {}", near.join(", "));
            Problem::input(error.to_string(), next)
        }
        DeedError::GateBefore { ref standing, .. } => {
            Problem::input(error.to_string(), way_on(standing))
        }
        DeedError::NotAsked { ref asked, .. } => {
            let next = match asked.as_slice() {
                [] => "it asks for nothing: record it without evidence".to_owned(),
                names => format!("it asks for {}", names.join(", ")),
            };
            Problem::input(error.to_string(), next)
        }
        DeedError::OtherKind { .. } => Problem::input(error.to_string(), "give it as that kind"),
        DeedError::NothingGiven(_) => {
            Problem::input(error.to_string(), "`ringtrue job next` says what is wanted")
        }
        DeedError::Words(_) => Problem::input(error.to_string(), "say it in a few words"),
        DeedError::NotJudged(_) => {
            Problem::input(error.to_string(), "an override is for a gate that holds")
        }
        DeedError::StillDue(_) => {
            Problem::input(error.to_string(), "`ringtrue job next` says what it lacks")
        }
        DeedError::NotWaiting(_) => {
            Problem::input(error.to_string(), "a hold point is signed when its gate is passed")
        }
    }
}

/// What can be done about a step that is not done.
pub(crate) fn way_on(standing: &Standing) -> String {
    match standing {
        Standing::Done | Standing::Overridden => "go on".to_owned(),
        Standing::Wants(names) if names.is_empty() => "record that step first".to_owned(),
        Standing::Wants(names) => format!("record that step first; it wants {}", names.join(", ")),
        Standing::Held(verdict) => format!(
            "its verdict is `{verdict}`: measure again (`job record`), correct what was misread \
             (`job correct`), or have an engineer decide (`job override`)"
        ),
        Standing::Unsigned => "sign its hold point: `ringtrue job sign`".to_owned(),
    }
}

/// The definitions kept with a job can't be used.
pub(crate) fn plan(error: PlanError) -> Problem {
    let next = "`ringtrue job verify` says whether the record is whole";
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
            "somebody else recorded meanwhile: look at the job and do it again"
        }
        Refusal::Role { .. } => "somebody with that role has to do it",
        Refusal::GivenTwice(_) => "give each evidence once",
        Refusal::NoEvent(_) => "`ringtrue job show` numbers the events",
        Refusal::NotCorrectable(..) => {
            "what is corrected is a record, a correction, an override or a follow-up"
        }
        Refusal::AlreadyCorrected(..) => "correct the later event, if that is wrong too",
        Refusal::NoEvidence(_) => "correct it without new evidence, and record what is right",
        Refusal::NotTheLastVerdict(..) | Refusal::Conforms(_) => "look at the job's last verdicts",
        Refusal::NoReason => "say why: `--why TEXT`",
        Refusal::SamePerson(_) => "another person has to look",
        Refusal::NothingToSee => "record the work first",
        Refusal::Signed => "`job correct` and `job follow-up` come after a signature",
        Refusal::NotSigned => "sign the job first: `ringtrue job sign`",
    };
    Problem::input(refusal.to_string(), next)
}
