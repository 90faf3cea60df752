//! The store for many requests at once: calls run beside the requests, on connections that are
//! kept open.

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

use ringtrue_store::{Access, Store, StoreError};

use super::trouble::Trouble;
use crate::kept::Kept;
use crate::recent::Recent;

/// Most connections that wait for work.
const MOST_IDLE: usize = 8;
/// Most jobs that are kept folded.
const MOST_FOLDED: usize = 64;

/// A store's connections, and the jobs that were read lately.
pub(crate) struct Stores {
    path: PathBuf,
    idle: Mutex<Vec<Store>>,
    folded: Mutex<Recent<String, Arc<Kept>>>,
    /// Whose turn it is to write.
    turn: Arc<tokio::sync::Mutex<()>>,
    /// Was anything written that is not in the file itself yet?
    written: AtomicBool,
}

impl Stores {
    /// The store at a path, made where it is not there.
    pub(crate) fn open(path: &Path) -> Result<Self, StoreError> {
        let first = Store::open(path, Access::Create)?;
        first.fold_in_apart()?;
        Ok(Self {
            path: path.to_owned(),
            idle: Mutex::new(vec![first]),
            folded: Mutex::new(Recent::new(MOST_FOLDED)),
            turn: Arc::default(),
            written: AtomicBool::new(true),
        })
    }

    /// Calls the store beside the requests.
    pub(crate) async fn run<T: Send + 'static>(
        self: &Arc<Self>,
        call: impl FnOnce(&mut Store) -> Result<T, Trouble> + Send + 'static,
    ) -> Result<T, Trouble> {
        let stores = Arc::clone(self);
        let task = tokio::task::spawn_blocking(move || stores.here(call));
        task.await.unwrap_or_else(|_| Err(Trouble::fault()))
    }

    /// The same for a call that writes. Writers stand in line here, where each is woken at once
    /// when it is its turn; within SQLite they would look again and again, ever more seldom. Work
    /// that takes long is done before, by [`Self::run`].
    pub(crate) async fn write<T: Send + 'static>(
        self: &Arc<Self>,
        call: impl FnOnce(&mut Store) -> Result<T, Trouble> + Send + 'static,
    ) -> Result<T, Trouble> {
        let turn = Arc::clone(&self.turn).lock_owned().await;
        let stores = Arc::clone(self);
        self.run(move |store| {
            // The turn ends with the write, even where nobody waits for its answer any more.
            let _turn = turn;
            stores.written.store(true, Ordering::Relaxed);
            call(store)
        })
        .await
    }

    /// Brings what was written into the file itself; no writer waits for it.
    pub(crate) async fn fold_in(self: &Arc<Self>) {
        if self.written.swap(false, Ordering::Relaxed) {
            let folded = self.run(|store| Ok(store.fold_in()?)).await;
            if folded.is_err() {
                self.written.store(true, Ordering::Relaxed);
            }
        }
    }

    /// Calls the store on this thread.
    pub(crate) fn here<T>(
        &self,
        call: impl FnOnce(&mut Store) -> Result<T, Trouble>,
    ) -> Result<T, Trouble> {
        let waiting = self.idle.lock().unwrap_or_else(PoisonError::into_inner).pop();
        let mut store = match waiting {
            Some(store) => store,
            None => {
                let store = Store::open(&self.path, Access::Write)?;
                store.fold_in_apart()?;
                store
            }
        };
        let answer = call(&mut store);
        let mut idle = self.idle.lock().unwrap_or_else(PoisonError::into_inner);
        if idle.len() < MOST_IDLE {
            idle.push(store);
        }
        answer
    }

    /// A job as it stands, folded once for all who ask while it stays as it is.
    pub(crate) async fn kept(self: &Arc<Self>, id: &str) -> Result<Arc<Kept>, Trouble> {
        let (stores, id) = (Arc::clone(self), id.to_owned());
        self.run(move |store| stores.kept_here(store, &id)).await
    }

    /// The same, on this thread.
    pub(crate) fn kept_here(&self, store: &Store, id: &str) -> Result<Arc<Kept>, Trouble> {
        let line = store.line(id)?.ok_or_else(|| Trouble::no_job(id))?;
        let folded = self.folded.lock().unwrap_or_else(PoisonError::into_inner).get(&id.to_owned());
        if let Some(kept) = folded.filter(|kept| kept.job.last_hash == line.last_hash) {
            return Ok(kept);
        }
        let kept = Arc::new(Kept::of(store, id)?);
        let mut folded = self.folded.lock().unwrap_or_else(PoisonError::into_inner);
        folded.keep(id.to_owned(), Arc::clone(&kept));
        Ok(kept)
    }
}
