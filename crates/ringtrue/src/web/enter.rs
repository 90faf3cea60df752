//! Passphrases at the pages: the first person, signing in, unlocking; guesses have to wait.

use std::net::IpAddr;

use axum::http::StatusCode;
use jiff::Timestamp;
use ringtrue_job::digest::PublicKey;
use ringtrue_job::person::{self, Cost, Drawn, Person, PersonError, Role, SealedKey, Unlocked};
use ringtrue_store::{Store, StoreError};
use zeroize::Zeroizing;

use super::Shared;
use super::fields::Fields;
use super::session::{Found, Touch};
use super::trouble::Trouble;
use crate::moment::{now, random};
use crate::refused;
use ringtrue_words::words;

/// Somebody's name and passphrase, and where they were typed.
#[derive(Clone, Copy)]
pub(crate) struct Tried<'t> {
    pub(crate) name: &'t str,
    pub(crate) passphrase: &'t str,
    /// The tablet's address, or beside whom.
    pub(crate) whence: &'t str,
}

/// Opens a person's key. What is wrong is not told apart: name, passphrase, or retired.
pub(crate) async fn unlock(shared: &Shared, tried: Tried<'_>) -> Result<Unlocked, Trouble> {
    let t = words();
    let whom = [tried.name, tried.whence];
    may_try(shared, &whom)?;
    let _permit = shared.at_the_lock.acquire().await.map_err(|_| Trouble::fault())?;
    // Of many at once, those behind the fifth wrong one wait like those who come later.
    may_try(shared, &whom)?;
    let (name, passphrase) = (tried.name.to_owned(), Zeroizing::new(tried.passphrase.to_owned()));
    let opened = shared
        .stores
        .run(move |store| {
            let found = store.people()?.into_iter().find(|person| person.name == name);
            let known = found.filter(|person| person.retired.is_none());
            // Nobody takes as long as somebody.
            let person = known.unwrap_or_else(nobody);
            Ok(person::unlock(&person, &passphrase))
        })
        .await?;
    match opened {
        Ok(unlocked) => {
            shared.attempts.right(&whom);
            Ok(unlocked)
        }
        Err(PersonError::Damaged(name) | PersonError::NoKey(name)) if !name.is_empty() => {
            Err(refused::person(PersonError::Damaged(name)).into())
        }
        Err(_) => {
            shared.attempts.wrong(&whom);
            let said = (StatusCode::UNAUTHORIZED, "not-signed-in");
            Err(Trouble::new(said, t.say("enter-wrong"), t.say("enter-wrong-next")))
        }
    }
}

/// Whoever guessed too often has to wait.
fn may_try(shared: &Shared, whom: &[&str]) -> Result<(), Trouble> {
    let Some(wait) = shared.attempts.wait(whom) else { return Ok(()) };
    let t = words();
    let seconds = wait.as_secs() + 1;
    let said = (StatusCode::TOO_MANY_REQUESTS, "wait");
    let next = t.count("enter-wait-next", seconds);
    let trouble = Trouble::new(said, t.say("enter-wait"), next);
    Err(Trouble { wait_seconds: Some(seconds), ..trouble })
}

/// An entry that no passphrase opens.
fn nobody() -> Person {
    let sealed =
        SealedKey { salt: [0; 16], nonce: [0; 24], locked: vec![0; 48], cost: Cost::RFC_9106 };
    Person {
        name: String::new(),
        role: Role::Fitter,
        key: PublicKey([0; 32]),
        sealed: Some(sealed),
        added: Timestamp::UNIX_EPOCH,
        retired: None,
    }
}

/// Opens a locked session again.
pub(crate) async fn unlock_again(
    shared: &Shared,
    token: &str,
    (passphrase, peer): (&str, IpAddr),
) -> Result<(), Trouble> {
    let name = match shared.sessions.find(token, Touch::Page) {
        Found::Locked { name, .. } => name,
        Found::Open(visitor) => visitor.name,
        Found::Nobody => {
            let t = words();
            let said = (StatusCode::UNAUTHORIZED, "session-over");
            let next = t.say("trouble-not-signed-in-next");
            return Err(Trouble::new(said, t.say("trouble-not-signed-in"), next));
        }
    };
    let unlocked =
        unlock(shared, Tried { name: &name, passphrase, whence: &peer.to_string() }).await?;
    shared.sessions.unlock(token, unlocked);
    Ok(())
}

/// Who is added.
#[derive(Clone, Copy)]
pub(crate) enum Added {
    /// The first of all, a keeper.
    First,
    /// One more, by a keeper.
    Another(Role),
    /// One more, by somebody else while there is no keeper.
    Unkept(Role),
}

/// Adds a person whose passphrase was typed twice, and opens their key.
pub(crate) async fn add_person(
    shared: &Shared,
    fields: &Fields,
    added: Added,
) -> Result<Unlocked, Trouble> {
    let t = words();
    let passphrase = Zeroizing::new(fields.text("passphrase").to_owned());
    if *passphrase != *fields.text("passphrase-again") {
        return Err(Trouble::input(t.say("enter-differ"), t.say("enter-differ-next")));
    }
    let name = fields.text("name").to_owned();
    let role = match added {
        Added::First => Role::Keeper,
        Added::Another(role) | Added::Unkept(role) => role,
    };
    let permit = shared.at_the_lock.acquire().await.map_err(|_| Trouble::fault())?;
    let (person, unlocked) = shared
        .stores
        .run(move |store| {
            if matches!(added, Added::First) && store.has_people()? {
                return Err(not_first());
            }
            let drawn = Drawn { secret: random()?, salt: *random()?, nonce: *random()? };
            let person = person::enrol((&name, role), &passphrase, &drawn, (Cost::RFC_9106, now()))
                .map_err(refused::person)?;
            let unlocked = person::unlock(&person, &passphrase).map_err(refused::person)?;
            Ok((person, unlocked))
        })
        .await?;
    drop(permit);
    let write = move |store: &mut Store| match added {
        Added::First => store.add_first_person(&person),
        Added::Another(_) => store.add_person(&person),
        Added::Unkept(_) => store.add_person_unkept(&person),
    };
    let written = shared.stores.write(move |store| Ok(write(store))).await?;
    match written {
        Ok(()) => Ok(unlocked),
        Err(StoreError::NotFirst) => Err(not_first()),
        Err(error) => Err(error.into()),
    }
}

fn not_first() -> Trouble {
    let t = words();
    let said = (StatusCode::CONFLICT, "taken");
    Trouble::new(said, t.say("first-taken"), t.say("first-taken-next"))
}
