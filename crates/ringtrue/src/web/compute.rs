//! Face loads that take seconds to solve: one after the other, beside the requests, each once.

use std::sync::mpsc::{Receiver, SyncSender, sync_channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Instant;

use ringtrue_job::{Answer, Assessment, judge_load};
use ringtrue_seal::RoomError;
use ringtrue_seal::face_load::{Input, Outcome};
use tokio::sync::watch;

use super::recent::Recent;
use crate::curves::Curves;

/// Most that wait; more are asked to come back.
const MOST_WAITING: usize = 16;
/// Most answers that are kept: each holds the sections of both halves at every step.
const MOST_KEPT: usize = 16;

/// How far one is.
#[derive(Debug, Clone)]
pub(crate) enum Progress {
    /// Others are before it.
    Waiting,
    /// Halves solved, and how many there are; since when.
    Solving { solved: usize, of: usize, since: Instant },
    /// Solved, or why it can't be.
    Done(Result<Arc<Solved>, RoomError>),
}

/// A solved load.
#[derive(Debug)]
pub(crate) struct Solved(Assessment);

impl Solved {
    /// The loads.
    pub(crate) fn outcome(&self) -> &Outcome {
        let Answer::FaceLoad(outcome) = &self.0.answer else {
            unreachable!("loads are answered by the loads' room")
        };
        outcome
    }
}

/// Too many wait.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Busy;

type Key = [u8; 32];

struct Work {
    input: Input,
    told: watch::Sender<Progress>,
}

/// The queue, and what it has answered.
pub(crate) struct Compute {
    queue: SyncSender<Work>,
    known: Mutex<Recent<Key, watch::Receiver<Progress>>>,
}

impl Compute {
    /// Starts the thread that solves.
    pub(crate) fn start() -> std::io::Result<Self> {
        let (queue, waiting) = sync_channel(MOST_WAITING);
        let named = std::thread::Builder::new().name("solver".to_owned());
        named.spawn(move || solve_all(&waiting))?;
        Ok(Self { queue, known: Mutex::new(Recent::new(MOST_KEPT)) })
    }

    /// Asks for a load; one that was asked for before is not solved again.
    ///
    /// # Errors
    /// [`Busy`]
    pub(crate) fn ask(&self, input: Input) -> Result<watch::Receiver<Progress>, Busy> {
        let key = *blake3::hash(format!("{input:?}").as_bytes()).as_bytes();
        let mut known = self.known.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(progress) = known.get(&key) {
            return Ok(progress);
        }
        let (told, progress) = watch::channel(Progress::Waiting);
        self.queue.try_send(Work { input, told }).map_err(|_| Busy)?;
        known.keep(key, progress.clone());
        Ok(progress)
    }
}

fn solve_all(waiting: &Receiver<Work>) {
    let curves = Curves::kept();
    while let Ok(Work { input, told }) = waiting.recv() {
        let since = Instant::now();
        let assessed = judge_load(&input, &mut |problems| {
            let of = problems.len();
            let tell = |solved| drop(told.send(Progress::Solving { solved, of, since }));
            tell(0);
            curves.of_telling(problems, &tell)
        });
        // Whoever asked may have gone: the answer is kept for the next one.
        told.send_replace(Progress::Done(assessed.map(|assessed| Arc::new(Solved(assessed)))));
    }
}
