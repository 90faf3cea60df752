//! How far that is which is being solved, told as it goes on.

use std::convert::Infallible;
use std::time::Duration;

use axum::extract::{Path, State};
use axum::response::sse::{Event, KeepAlive, Sse};
use axum::response::{IntoResponse, Response};
use futures_util::stream::{self, Stream};
use ringtrue_job::digest::Digest;
use tokio::sync::watch;

use super::section::Told;
use crate::web::Shared;
use crate::web::compute::Progress;
use crate::web::session::Visitor;
use crate::web::trouble::Trouble;

/// How often a stream says how far it is.
const EVERY: Duration = Duration::from_millis(500);
/// How long a page whose wait nobody knows of is left before it looks again.
const LOOK_AGAIN: Duration = Duration::from_secs(3);
/// After how long a page asks again whether its save waits for something.
const AGAIN: Duration = Duration::from_millis(700);

/// `progress` events, then one `done`.
pub(super) fn told<T: Clone + Send + Sync + 'static>(
    progress: watch::Receiver<Progress<T>>,
    say: fn(&Progress<T>) -> Told<'static>,
) -> Sse<impl Stream<Item = Result<Event, Infallible>>> {
    let events = stream::unfold(Some(progress), move |progress| async move {
        let mut progress = progress?;
        let gone = matches!(tokio::time::timeout(EVERY, progress.changed()).await, Ok(Err(_)));
        let now = progress.borrow().clone();
        let done = gone || now.is_done();
        let name = if done { "done" } else { "progress" };
        let event = Event::default().event(name).json_data(say(&now));
        let event = event.unwrap_or_else(|_| Event::default().event(name));
        Some((Ok(event), (!done).then_some(progress)))
    });
    Sse::new(events).keep_alive(KeepAlive::default())
}

/// How far that is which a save waits for, by the key that it was sent with, or what a page waits
/// for, by its hash. A save may not have come yet, or wait for nothing: it is asked for once more.
pub(crate) async fn named(
    State(shared): State<Shared>,
    visitor: Visitor,
    Path((id, name)): Path<(String, String)>,
) -> Result<Response, Trouble> {
    shared.stores.kept(&id).await?;
    if let Some(progress) = shared.compute.named(&visitor.name, &name) {
        return Ok(told(progress, on_the_way).into_response());
    }
    let one = stream::once(async move {
        let event = if Digest::from_hex(&name).is_some() {
            tokio::time::sleep(LOOK_AGAIN).await;
            Event::default().event("done").data("{}")
        } else {
            Event::default().event("nothing").data("{}").retry(AGAIN)
        };
        Ok::<_, Infallible>(event)
    });
    Ok(Sse::new(one).into_response())
}

fn on_the_way(progress: &Progress<()>) -> Told<'static> {
    match progress {
        // Of nothing yet: others are before it.
        Progress::Waiting => Told::Solving { solved: 0, of: 0, seconds: 0 },
        Progress::Solving { solved, of, since } => {
            Told::Solving { solved: *solved, of: *of, seconds: since.elapsed().as_secs() }
        }
        Progress::Done(()) => Told::Solving { solved: 1, of: 1, seconds: 0 },
    }
}
