//! What was recorded lately, on any tablet or by any program, told to whoever has the job open.

use std::time::Duration;

use tokio::sync::{broadcast, watch};

use super::Shared;

/// How often the store is asked: the other tablet is to see it within a second.
const EVERY: Duration = Duration::from_millis(400);
/// Most pages that listen at once.
pub(crate) const MOST_LISTENERS: usize = 400;
/// News that a slow listener may be behind before it looks for itself.
const BEHIND: usize = 64;
/// How often sessions are looked over.
const TIDY_EVERY: u32 = 25;
/// How often what was written is brought into the store's file.
const FOLD_IN_EVERY: u32 = 5;

/// The id of a job that went on; `None` where it may have been any.
pub(crate) type News = Option<String>;

/// Listeners and what they are told.
pub(crate) struct Live {
    told: broadcast::Sender<News>,
    closed: watch::Sender<bool>,
}

impl Default for Live {
    fn default() -> Self {
        Self { told: broadcast::Sender::new(BEHIND), closed: watch::Sender::new(false) }
    }
}

impl Live {
    /// Listens; `None` where too many do.
    pub(crate) fn listen(&self) -> Option<(broadcast::Receiver<News>, watch::Receiver<bool>)> {
        (self.told.receiver_count() < MOST_LISTENERS)
            .then(|| (self.told.subscribe(), self.closed.subscribe()))
    }

    /// Ends all streams, so that the program can end.
    pub(crate) fn close(&self) {
        self.closed.send_replace(true);
    }

    fn tell(&self, news: News) {
        // Nobody listening is no trouble.
        let _ = self.told.send(news);
    }
}

/// Asks the store for news as long as the bench runs, and lets sessions lock.
pub(crate) async fn watch(shared: Shared) {
    let mut seen = None;
    let mut ticks = 0u32;
    loop {
        tokio::time::sleep(EVERY).await;
        ticks = ticks.wrapping_add(1);
        if ticks.is_multiple_of(TIDY_EVERY) {
            shared.sessions.tidy();
        }
        if ticks.is_multiple_of(FOLD_IN_EVERY) {
            shared.stores.fold_in().await;
        }
        if shared.live.told.receiver_count() == 0 {
            seen = None;
            continue;
        }
        let after = seen;
        if let Ok(news) = shared.stores.run(move |store| Ok(store.news(after)?)).await {
            seen = Some(news.position);
            if after.is_none() {
                // What was recorded since the first listener came stands before this position.
                shared.live.tell(None);
            }
            news.jobs.into_iter().for_each(|job| shared.live.tell(Some(job)));
        }
    }
}
