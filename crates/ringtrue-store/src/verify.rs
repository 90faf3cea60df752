//! Checking everything that a store holds.

use std::collections::BTreeMap;

use ringtrue_job::digest::{Digest, PublicKey};
use ringtrue_job::event::{Event, Payload};
use ringtrue_job::job::State;
use ringtrue_job::record::{Chain, Misfit, MisfitKind};

use crate::checkpoint::{Against, Checkpoint, CheckpointError, TreeHead};
use crate::listing::to_search;
use crate::problem::StoreError;
use crate::store::Store;

/// What was checked, and fits.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct Verified {
    /// Jobs.
    pub jobs: u64,
    /// Events.
    pub events: u64,
    /// Signatures.
    pub signatures: u64,
    /// Who gave them: each name, key and number once.
    pub signers: Vec<Signer>,
}

/// Somebody who signed, and how often.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
pub struct Signer {
    /// Name.
    pub name: String,
    /// Public key: whoever checks compares it with the one they know.
    pub key: PublicKey,
    /// Number of signatures.
    pub signatures: u64,
}

impl Verified {
    /// What was checked of some logs.
    #[must_use]
    pub fn of<'c>(chains: impl IntoIterator<Item = &'c Chain>) -> Self {
        let (mut jobs, mut events, mut signatures) = (0, 0, 0);
        let mut signers: BTreeMap<(&str, PublicKey), u64> = BTreeMap::new();
        for chain in chains {
            jobs += 1;
            events += chain.events();
            signatures += chain.signatures();
            for signer in chain.signers() {
                *signers.entry((&signer.name, signer.key)).or_default() += 1;
            }
        }
        let signers = signers.into_iter().map(|((name, key), signatures)| Signer {
            name: name.to_owned(),
            key,
            signatures,
        });
        Self { jobs, events, signatures, signers: signers.collect() }
    }
}

/// What does not fit, or why it can't be told.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Unfit {
    /// An event.
    #[error(transparent)]
    Misfit(Misfit),
    /// The file itself.
    #[error("the store is damaged: {0}")]
    File(String),
    /// A job's head.
    #[error("the head of job {0} does not fit its events")]
    Head(String),
    /// A checkpoint that can't be trusted.
    #[error(transparent)]
    Checkpoint(CheckpointError),
    /// The store holds another history than the one a checkpoint covered.
    #[error("the checkpoint over {} events is not that of this store: its history was changed",
        .0.size)]
    OtherHistory(TreeHead),
    /// The store has fewer events than a checkpoint covered.
    #[error("the checkpoint covers {covered} events, and the store has {found}: some are missing")]
    Shorter {
        /// Events that the checkpoint covers.
        covered: u64,
        /// Events that are here.
        found: u64,
    },
    /// The store could not be used.
    #[error(transparent)]
    Store(StoreError),
}

impl From<Misfit> for Unfit {
    fn from(misfit: Misfit) -> Self {
        Self::Misfit(misfit)
    }
}

impl From<CheckpointError> for Unfit {
    fn from(error: CheckpointError) -> Self {
        Self::Checkpoint(error)
    }
}

impl From<StoreError> for Unfit {
    fn from(error: StoreError) -> Self {
        if let StoreError::Damaged(what) = error { Self::File(what) } else { Self::Store(error) }
    }
}

impl From<rusqlite::Error> for Unfit {
    fn from(error: rusqlite::Error) -> Self {
        StoreError::from(error).into()
    }
}

/// A job's head as it is stored.
struct Head {
    id: String,
    title: String,
    state: String,
    opened_at: String,
    last_at: String,
    folded: String,
    events: u64,
    last_hash: Digest,
}

impl Store {
    /// Checks the file, every hash, link and signature, and every text and file that is named.
    ///
    /// # Errors
    /// [`Unfit`]: the first event, in the order in which they were written, that does not fit;
    /// then what is wrong besides events.
    pub fn verify_all(&self) -> Result<Verified, Unfit> {
        let heads = self.heads()?;
        let done = self.check(
            "SELECT job, sequence, hash, bytes FROM event WHERE ?1 IS NULL ORDER BY position",
            (None, &heads),
        )?;
        self.file_is_sound()?;
        let handed_out = self.checkpoints()?;
        let handed_out = handed_out.iter().map(|text| Checkpoint::read(text));
        let handed_out = handed_out.collect::<Result<Vec<_>, _>>()?;
        let keys = self.keys()?;
        let other = |kept: &&Checkpoint| keys.get(&kept.person).is_some_and(|key| *key != kept.key);
        if let Some(forged) = handed_out.iter().find(other) {
            return Err(CheckpointError::Signature(forged.person.clone()).into());
        }
        self.stands(&handed_out.iter().map(|kept| kept.head).collect::<Vec<_>>())?;
        Ok(done)
    }

    /// Checks one job, and what it names.
    ///
    /// # Errors
    /// [`Unfit`]: the first event that does not fit.
    pub fn verify_job(&self, job: &str) -> Result<Verified, Unfit> {
        let mut heads = self.heads()?;
        heads.retain(|_, head| head.id == job);
        let number = heads.keys().next().copied();
        let number = number.ok_or_else(|| Unfit::Store(StoreError::NoJob(job.to_owned())))?;
        self.check(
            "SELECT job, sequence, hash, bytes FROM event WHERE job = ?1 ORDER BY sequence",
            (Some(number), &heads),
        )
    }

    /// Checks the events that a query gives, and that the logs end where their heads say.
    fn check(
        &self,
        select: &str,
        (job, heads): (Option<i64>, &BTreeMap<i64, Head>),
    ) -> Result<Verified, Unfit> {
        let keys = self.keys()?;
        let mut kept = Kept { store: self, seen: BTreeMap::new() };
        let mut chains: BTreeMap<i64, Chain> = BTreeMap::new();
        let mut query = self.connection.prepare_cached(select)?;
        let mut rows = query.query([job])?;
        while let Some(row) = rows.next()? {
            let number: i64 = row.get(0)?;
            let bytes = row.get_ref(3)?.as_blob().map_err(|e| Unfit::File(e.to_string()))?;
            let head = heads.get(&number).ok_or_else(|| Unfit::Head(format!("no. {number}")))?;
            let chain = chains.entry(number).or_default();
            let event = chain
                .check(bytes, &Digest(row.get(2)?))
                .map_err(|misfit| Misfit { job: head.id.clone(), ..misfit })?;
            belongs(&event, head, row.get(1)?)?;
            says(&event, head)?;
            kept.named_by(&event)?;
            known(&event, &keys)?;
        }
        for (number, head) in heads {
            let chain = chains.get(number).ok_or_else(|| Unfit::Head(head.id.clone()))?;
            chain.ends(head.events, &head.last_hash)?;
        }
        Ok(Verified::of(chains.values()))
    }

    /// Compares the store with a checkpoint that was kept elsewhere.
    ///
    /// # Errors
    /// [`Unfit::OtherHistory`] and [`Unfit::Shorter`].
    pub fn compare(&self, against: &Against) -> Result<(), Unfit> {
        self.stands(&[against.head()])
    }

    /// Is the history that these heads covered still the one that is here?
    fn stands(&self, stated: &[TreeHead]) -> Result<(), Unfit> {
        if stated.is_empty() {
            return Ok(());
        }
        let sizes = stated.iter().map(|head| head.size).collect();
        let (heads, whole) = self.tree_heads(&sizes)?;
        for stated in stated {
            match heads.get(&stated.size) {
                Some(head) if head == stated => {}
                Some(_) => return Err(Unfit::OtherHistory(*stated)),
                None => {
                    return Err(Unfit::Shorter { covered: stated.size, found: whole.size });
                }
            }
        }
        Ok(())
    }

    /// Is what SQLite itself keeps sound: pages, order, indexes?
    ///
    /// # Errors
    /// [`Unfit::File`]
    pub fn file_is_sound(&self) -> Result<(), Unfit> {
        let said: String =
            self.connection.query_row("PRAGMA integrity_check(1)", [], |row| row.get(0))?;
        if said == "ok" { Ok(()) } else { Err(Unfit::File(said)) }
    }

    /// Keys of the people who are registered here.
    fn keys(&self) -> Result<BTreeMap<String, PublicKey>, Unfit> {
        Ok(self.people()?.into_iter().map(|person| (person.name, person.key)).collect())
    }

    fn heads(&self) -> Result<BTreeMap<i64, Head>, Unfit> {
        let mut query = self.connection.prepare_cached(
            "SELECT number, id, events, last_hash, title, state, opened_at, last_at, folded
             FROM job",
        )?;
        let heads = query.query_map([], |row| {
            let head = Head {
                id: row.get(1)?,
                events: row.get::<_, i64>(2)?.unsigned_abs(),
                last_hash: Digest(row.get(3)?),
                title: row.get(4)?,
                state: row.get(5)?,
                opened_at: row.get(6)?,
                last_at: row.get(7)?,
                folded: row.get(8)?,
            };
            Ok((row.get(0)?, head))
        })?;
        Ok(heads.collect::<Result<_, _>>()?)
    }
}

/// Texts and files of a store, each looked at once.
struct Kept<'s> {
    store: &'s Store,
    seen: BTreeMap<Digest, Option<u64>>,
}

impl Kept<'_> {
    /// Are the texts and files that an event names here, and as they were?
    fn named_by(&mut self, event: &Event) -> Result<(), Unfit> {
        let fail = |what: MisfitKind| {
            Err(Misfit { job: event.job.clone(), event: event.sequence, what }.into())
        };
        for hash in event.documents() {
            if self.length(&hash, "SELECT text FROM document WHERE hash = ?1")?.is_none() {
                return fail(MisfitKind::Document(hash));
            }
        }
        for photo in event.photos() {
            let hash = photo.content;
            let length = self.length(&hash, "SELECT content FROM attachment WHERE hash = ?1")?;
            if length != Some(photo.length) {
                return fail(MisfitKind::Attachment(hash));
            }
        }
        Ok(())
    }

    /// Length of what is kept under a hash; `None` where it is not there or was changed.
    fn length(&mut self, hash: &Digest, select: &str) -> Result<Option<u64>, Unfit> {
        if let Some(length) = self.seen.get(hash) {
            return Ok(*length);
        }
        let mut query = self.store.connection.prepare_cached(select)?;
        let mut rows = query.query([hash.0])?;
        let length = match rows.next()? {
            Some(row) => {
                let content = row.get_ref(0)?;
                let content = content.as_bytes().map_err(|e| Unfit::File(e.to_string()))?;
                (Digest::of(content) == *hash).then_some(content.len() as u64)
            }
            None => None,
        };
        self.seen.insert(*hash, length);
        Ok(length)
    }
}

/// Is the event in the row and the job that it names itself?
fn belongs(event: &Event, head: &Head, sequence: i64) -> Result<(), Misfit> {
    let fail = |what: MisfitKind| Err(Misfit { job: head.id.clone(), event: event.sequence, what });
    if event.job != head.id {
        return fail(MisfitKind::Job(event.job.clone()));
    }
    if i64::try_from(event.sequence) != Ok(sequence) {
        return fail(MisfitKind::Sequence(sequence.unsigned_abs()));
    }
    Ok(())
}

/// Does the job's head say what its first and its last event say?
fn says(event: &Event, head: &Head) -> Result<(), Unfit> {
    let fits = match &event.payload {
        Payload::Opened(opened) => {
            let state = [State::Open, State::Held, State::Signed, State::ChangedSinceSigned]
                .into_iter()
                .any(|state| state.words() == head.state);
            // An older program that wrote last left it empty.
            let found = head.folded.is_empty() || head.folded == to_search(&head.id, &head.title);
            let opening = opened.title == head.title && event.at.to_string() == head.opened_at;
            state && opening && found
        }
        Payload::Recorded(_)
        | Payload::Assessed(_)
        | Payload::Corrected(_)
        | Payload::Overridden(_)
        | Payload::Signed(_)
        | Payload::FollowedUp(_) => true,
    };
    let last = event.sequence != head.events || event.at.to_string() == head.last_at;
    if fits && last { Ok(()) } else { Err(Unfit::Head(head.id.clone())) }
}

/// A person who is registered here has one key.
fn known(event: &Event, keys: &BTreeMap<String, PublicKey>) -> Result<(), Misfit> {
    match keys.get(&event.author.name) {
        Some(key) if *key != event.author.key => {
            let what = MisfitKind::Key(event.author.name.clone());
            Err(Misfit { job: event.job.clone(), event: event.sequence, what })
        }
        Some(_) | None => Ok(()),
    }
}
