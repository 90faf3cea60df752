//! Who is signed in. A session holds the opened key, and loses it when nobody touches it.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use ringtrue_job::Curves;
use ringtrue_job::job::deed::Now;
use ringtrue_job::person::{Role, Unlocked};

use crate::moment::{now, random};
use crate::problem::Problem;
use crate::web::permission::Call;

/// Longest that a session lives, touched or not: a shift.
const LONGEST: Duration = Duration::from_secs(12 * 3600);
/// Most sessions side by side.
const MOST: usize = 1000;

/// A token that only its holder knows; the table keeps its hash.
type Key = [u8; 32];

/// Somebody who is signed in and whose key is open.
#[derive(Debug, Clone)]
pub(crate) struct Visitor {
    pub(crate) name: String,
    pub(crate) role: Role,
    /// What forms and writes carry.
    pub(crate) csrf: String,
    pub(crate) device: String,
    /// Who works here is for them to say: a keeper, or anybody while there is none.
    pub(crate) keeps_people: bool,
    key: Arc<Unlocked>,
}

impl Visitor {
    /// Who, when and where, as a deed wants it.
    pub(crate) fn now<'n>(&'n self, curves: &'n dyn Curves) -> Now<'n> {
        Now {
            at: now(),
            person: &self.key,
            device: &self.device,
            program_version: env!("CARGO_PKG_VERSION"),
            curves,
        }
    }
}

/// What a token stands for.
#[derive(Debug)]
pub(crate) enum Found {
    /// Nothing.
    Nobody,
    /// A session that was not touched for too long: name, and what its forms carry.
    Locked { name: String, csrf: String },
    /// A session.
    Open(Visitor),
}

/// Does a request show that somebody is there?
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Touch {
    /// A person did it.
    Hand,
    /// The page did it by itself.
    Page,
}

struct Session {
    name: String,
    role: Role,
    key: Option<Arc<Unlocked>>,
    csrf: String,
    device: String,
    begun: Instant,
    touched: Instant,
}

/// All sessions.
pub(crate) struct Sessions {
    by_key: Mutex<BTreeMap<Key, Session>>,
    idle: Duration,
}

impl Sessions {
    /// No sessions; each locks after `idle`.
    pub(crate) fn new(idle: Duration) -> Self {
        Self { by_key: Mutex::default(), idle }
    }

    /// Seconds until an untouched session locks.
    pub(crate) fn idle_seconds(&self) -> u64 {
        self.idle.as_secs()
    }

    /// Begins a session and gives its token.
    pub(crate) fn begin(&self, unlocked: Unlocked, device: &str) -> Result<String, Problem> {
        let token = hex(random::<32>()?.as_slice());
        let author = unlocked.author();
        let begun = Instant::now();
        let session = Session {
            name: author.name.clone(),
            role: author.role,
            csrf: hex(random::<32>()?.as_slice()),
            device: device_name(device),
            key: Some(Arc::new(unlocked)),
            begun,
            touched: begun,
        };
        let mut sessions = self.sessions();
        while sessions.len() >= MOST {
            let oldest = sessions.iter().min_by_key(|(_, session)| session.touched);
            let Some(oldest) = oldest.map(|(key, _)| *key) else { break };
            sessions.remove(&oldest);
        }
        sessions.insert(key_of(&token), session);
        Ok(token)
    }

    /// What a token stands for now.
    pub(crate) fn find(&self, token: &str, touch: Touch) -> Found {
        let mut sessions = self.sessions();
        self.sweep(&mut sessions);
        let Some(session) = sessions.get_mut(&key_of(token)) else { return Found::Nobody };
        let Some(key) = session.key.clone() else {
            return Found::Locked { name: session.name.clone(), csrf: session.csrf.clone() };
        };
        if touch == Touch::Hand {
            session.touched = Instant::now();
        }
        Found::Open(Visitor {
            name: session.name.clone(),
            role: session.role,
            csrf: session.csrf.clone(),
            device: session.device.clone(),
            keeps_people: Call::KeepPeople.is_allowed(session.role),
            key,
        })
    }

    /// Opens a locked session again; the same person only.
    pub(crate) fn unlock(&self, token: &str, unlocked: Unlocked) {
        let mut sessions = self.sessions();
        if let Some(session) = sessions.get_mut(&key_of(token))
            && session.name == unlocked.author().name
        {
            session.role = unlocked.author().role;
            session.key = Some(Arc::new(unlocked));
            session.touched = Instant::now();
        }
    }

    /// Locks a session at once.
    pub(crate) fn lock(&self, token: &str) {
        if let Some(session) = self.sessions().get_mut(&key_of(token)) {
            session.key = None;
        }
    }

    /// Ends a session.
    pub(crate) fn end(&self, token: &str) {
        self.sessions().remove(&key_of(token));
    }

    /// Ends all sessions of a person.
    pub(crate) fn end_all_of(&self, name: &str) {
        self.sessions().retain(|_, session| session.name != name);
    }

    /// Drops keys that nobody touched, and sessions that are over.
    pub(crate) fn tidy(&self) {
        self.sweep(&mut self.sessions());
    }

    fn sweep(&self, sessions: &mut BTreeMap<Key, Session>) {
        let now = Instant::now();
        sessions.retain(|_, session| now.duration_since(session.begun) < LONGEST);
        for session in sessions.values_mut() {
            if now.duration_since(session.touched) >= self.idle {
                session.key = None;
            }
        }
    }

    fn sessions(&self) -> MutexGuard<'_, BTreeMap<Key, Session>> {
        // Nothing is left half-done under the lock.
        self.by_key.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

fn key_of(token: &str) -> Key {
    *blake3::hash(token.as_bytes()).as_bytes()
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// A device's name as it may stand in a record.
fn device_name(given: &str) -> String {
    let name: String = given.trim().chars().filter(|c| !c.is_control()).take(80).collect();
    if name.is_empty() { "not named".to_owned() } else { name }
}
