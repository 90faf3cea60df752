//! `/api/jobs/{id}/stream`: a job's events as they are recorded, by whomever.

use std::convert::Infallible;
use std::sync::Arc;
use std::time::Duration;

use axum::extract::{Path, State};
use axum::http::{HeaderMap, StatusCode};
use axum::response::sse::{Event, KeepAlive, Sse};
use futures_util::stream::{self, Stream};
use tokio::sync::{broadcast, watch};

use crate::web::Shared;
use crate::web::act::EventLine;
use crate::web::cookie;
use crate::web::fields::Asked;
use crate::web::live::News;
use crate::web::session::{Found, Touch};
use crate::web::trouble::Trouble;
use ringtrue_words::words;

/// A comment now and then keeps the line open, and shows when it is cut.
const KEEP_ALIVE: Duration = Duration::from_secs(5);

/// One page that listens.
struct Listener {
    shared: Shared,
    token: String,
    job: String,
    /// Number of the last event that was sent.
    sent: u64,
    told: broadcast::Receiver<News>,
    closed: watch::Receiver<bool>,
    waiting: std::collections::VecDeque<Event>,
}

/// Each event is sent with its number as id: after a broken line the browser names the last one.
pub(crate) async fn of_job(
    State(shared): State<Shared>,
    Path(job): Path<String>,
    headers: HeaderMap,
    Asked(asked): Asked,
) -> Result<Sse<impl Stream<Item = Result<Event, Infallible>>>, Trouble> {
    let kept = shared.stores.kept(&job).await?;
    let last = headers.get("last-event-id").and_then(|id| id.to_str().ok());
    let last = last.or_else(|| asked.some("after")).and_then(|id| id.parse().ok());
    let Some((told, closed)) = shared.live.listen() else {
        let t = words();
        let said = (StatusCode::SERVICE_UNAVAILABLE, "busy");
        return Err(Trouble::new(said, t.say("trouble-listeners"), t.say("trouble-busy-next")));
    };
    let token = cookie::read(&headers, shared.wire.session_cookie()).unwrap_or_default();
    let mut listener = Listener {
        token: token.to_owned(),
        shared: Arc::clone(&shared),
        job,
        sent: last.unwrap_or(kept.job.events()),
        told,
        closed,
        waiting: std::collections::VecDeque::new(),
    };
    // What was missed while the line was cut.
    listener.look().await;
    let events = stream::unfold(listener, |mut listener| async move {
        listener.next().await.map(|event| (Ok(event), listener))
    });
    Ok(Sse::new(events).keep_alive(KeepAlive::new().interval(KEEP_ALIVE)))
}

impl Listener {
    async fn next(&mut self) -> Option<Event> {
        loop {
            if let Some(event) = self.waiting.pop_front() {
                return Some(event);
            }
            if *self.closed.borrow() {
                return None;
            }
            let job = tokio::select! {
                told = self.told.recv() => told,
                _ = self.closed.changed() => return None,
                () = tokio::time::sleep(KEEP_ALIVE) => {
                    // A session that locked or ended hears nothing more.
                    let found = self.shared.sessions.find(&self.token, Touch::Page);
                    if matches!(found, Found::Open(_)) { continue } else { return None }
                }
            };
            match job {
                Ok(news) if news.as_ref().is_none_or(|job| *job == self.job) => self.look().await,
                Ok(_) => {}
                Err(broadcast::error::RecvError::Lagged(_)) => self.look().await,
                Err(broadcast::error::RecvError::Closed) => return None,
            }
        }
    }

    /// Queues the events behind the last one that was sent.
    async fn look(&mut self) {
        let Ok(kept) = self.shared.stores.kept(&self.job).await else { return };
        for link in kept.log.iter().filter(|link| link.event.sequence > self.sent) {
            let line = EventLine::of_kept(&kept, link);
            let event = Event::default().event("recorded").id(line.event.to_string());
            if let Ok(event) = event.json_data(&line) {
                self.waiting.push_back(event);
            }
        }
        self.sent = self.sent.max(kept.job.events());
    }
}
