//! What takes seconds to solve: one after the other, beside the requests, each once.

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::mpsc::{Receiver, SyncSender, TrySendError, sync_channel};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use ringtrue_job::digest::Digest;
use ringtrue_job::{Answer, Assessment, Curves as Solver, judge_load};
use ringtrue_seal::RoomError;
use ringtrue_seal::face_load::{Input, Outcome};
use ringtrue_store::Store;
use tokio::sync::watch;

use super::Shared;
use super::trouble::Trouble;
use crate::curves::{self, Curves, Wanted};
use crate::recent::Recent;

/// Most that wait; more are asked to come back.
const MOST_WAITING: usize = 16;
/// Most answers that are kept: each holds the sections of both halves at every step.
const MOST_KEPT: usize = 16;
/// Most that are begun before anybody waits for them.
const MOST_AHEAD: usize = 4;
/// How often a request that waits looks whether there is room for it.
const LOOK_AGAIN: Duration = Duration::from_millis(200);
/// How often a request may find that it wants more than it waited for.
const ROUNDS: usize = 4;

/// How far one is.
#[derive(Debug, Clone)]
pub(crate) enum Progress<T> {
    /// Others are before it.
    Waiting,
    /// Parts solved, and how many there are; since when.
    Solving { solved: usize, of: usize, since: Instant },
    /// What came of it.
    Done(T),
}

impl<T> Progress<T> {
    /// Is it there?
    pub(crate) fn is_done(&self) -> bool {
        match self {
            Self::Done(_) => true,
            Self::Waiting | Self::Solving { .. } => false,
        }
    }
}

/// A face load, or why it can't be solved.
pub(crate) type Load = Result<Arc<Solved>, RoomError>;

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

/// What an answer from before is worth.
#[derive(Clone, Copy)]
enum Before {
    /// It is the answer.
    Counts,
    /// Whoever asks looked for it in vain.
    IsLost,
}

/// What is kept of those that were asked for.
type Asked<T> = Mutex<Recent<Digest, watch::Receiver<Progress<T>>>>;

enum Work {
    Load(Input, watch::Sender<Progress<Load>>),
    Wanted(Wanted, watch::Sender<Progress<()>>),
}

/// Who waits for a save: a person, and the key of what was sent.
type Save = (String, String);

/// The queue, and what it has answered.
pub(crate) struct Compute {
    queue: SyncSender<Work>,
    loads: Asked<Load>,
    wanted: Asked<()>,
    /// What requests wait for before they are saved.
    saves: Mutex<BTreeMap<Save, watch::Receiver<Progress<()>>>>,
}

impl Compute {
    /// Starts the thread that solves.
    pub(crate) fn start() -> std::io::Result<Self> {
        let (compute, waiting) = Self::queued();
        let named = std::thread::Builder::new().name("solver".to_owned());
        named.spawn(move || solve_all(&waiting))?;
        Ok(compute)
    }

    /// The queue, and its end that the solver takes from.
    fn queued() -> (Self, Receiver<Work>) {
        let (queue, waiting) = sync_channel(MOST_WAITING);
        let (loads, wanted) = (Recent::new(MOST_KEPT), Recent::new(MOST_KEPT));
        let compute = Self {
            queue,
            loads: Mutex::new(loads),
            wanted: Mutex::new(wanted),
            saves: Mutex::default(),
        };
        (compute, waiting)
    }

    /// Asks for a load; one that was asked for before is not solved again.
    ///
    /// # Errors
    /// [`Busy`]
    pub(crate) fn load(&self, input: Input) -> Result<watch::Receiver<Progress<Load>>, Busy> {
        let key = Digest::of(format!("{input:?}").as_bytes());
        self.ask((&self.loads, key, Before::Counts), |told| Work::Load(input, told))
    }

    /// Asks for what is wanted of the solver and not there, all of it together. What was solved
    /// before is solved anew: it was lost since.
    ///
    /// # Errors
    /// [`Busy`]
    pub(crate) fn solve(&self, wanted: Wanted) -> Result<watch::Receiver<Progress<()>>, Busy> {
        self.ask((&self.wanted, wanted.hash(), Before::IsLost), |told| Work::Wanted(wanted, told))
    }

    /// Begins with what may be wanted next, unless much is waited for already.
    pub(crate) fn begin(&self, wanted: Wanted) {
        let waiting = held(&self.wanted).values().filter(|one| !one.borrow().is_done()).count();
        if waiting < MOST_AHEAD {
            let key = wanted.hash();
            // Full means that it is solved once it is asked for.
            drop(self.ask((&self.wanted, key, Before::Counts), |told| Work::Wanted(wanted, told)));
        }
    }

    fn ask<T>(
        &self,
        (asked, key, before): (&Asked<T>, Digest, Before),
        work: impl FnOnce(watch::Sender<Progress<T>>) -> Work,
    ) -> Result<watch::Receiver<Progress<T>>, Busy> {
        let mut asked = held(asked);
        let counts = |progress: &watch::Receiver<Progress<T>>| match before {
            Before::Counts => true,
            Before::IsLost => !progress.borrow().is_done(),
        };
        if let Some(progress) = asked.get(&key).filter(counts) {
            return Ok(progress);
        }
        let (told, progress) = watch::channel(Progress::Waiting);
        match self.queue.try_send(work(told)) {
            Ok(()) => asked.keep(key, progress.clone()),
            Err(TrySendError::Full(_)) => return Err(Busy),
            // The solver is gone, and with it whoever would tell: nobody waits for that.
            Err(TrySendError::Disconnected(_)) => {}
        }
        Ok(progress)
    }

    /// How far that is which a person's save waits for, or which a page named by its hash.
    pub(crate) fn named(&self, person: &str, name: &str) -> Option<watch::Receiver<Progress<()>>> {
        let save = (person.to_owned(), name.to_owned());
        let waits = held(&self.saves).get(&save).cloned();
        let by_hash = || held(&self.wanted).get(&Digest::from_hex(name)?);
        waits.or_else(by_hash)
    }

    /// Waits until all of it is there.
    async fn wait(&self, wanted: &Wanted, save: Option<&Save>) {
        let mut progress = loop {
            match self.solve(wanted.clone()) {
                Ok(progress) => break progress,
                Err(Busy) => tokio::time::sleep(LOOK_AGAIN).await,
            }
        };
        let _waits = save.map(|save| Waits::of(self, save, progress.clone()));
        // A solver that is gone ends the wait, too: it is solved where it is asked for then.
        drop(progress.wait_for(Progress::is_done).await);
    }
}

/// A save that waits, for as long as it does.
struct Waits<'c> {
    compute: &'c Compute,
    save: &'c Save,
    progress: watch::Receiver<Progress<()>>,
}

impl<'c> Waits<'c> {
    fn of(compute: &'c Compute, save: &'c Save, progress: watch::Receiver<Progress<()>>) -> Self {
        held(&compute.saves).insert(save.clone(), progress.clone());
        Self { compute, save, progress }
    }
}

impl Drop for Waits<'_> {
    fn drop(&mut self) {
        let mut saves = held(&self.compute.saves);
        // The same save, sent again meanwhile, waits by itself.
        if saves.get(self.save).is_some_and(|waits| waits.same_channel(&self.progress)) {
            saves.remove(self.save);
        }
    }
}

/// Calls the store with a solver that solves nothing: what the call wants besides what is known is
/// solved beside the requests, and then it is called anew. `save` is whose save waits for it.
pub(crate) async fn solved<T: Send + 'static>(
    shared: &Shared,
    save: Option<Save>,
    call: impl Fn(&mut Store, &dyn Solver) -> Result<T, Trouble> + Send + Sync + 'static,
) -> Result<T, Trouble> {
    let call = Arc::new(call);
    for _ in 0..ROUNDS {
        let (again, known) = (Arc::clone(&call), Arc::new(curves::Asked::shared()));
        let with = Arc::clone(&known);
        let answer = shared.stores.run(move |store| again(store, &*with)).await;
        let wanted = known.wanted();
        if wanted.is_empty() {
            return answer;
        }
        shared.compute.wait(&wanted, save.as_ref()).await;
    }
    shared.stores.run(move |store| call(store, Curves::shared())).await
}

fn held<T>(lock: &Mutex<T>) -> MutexGuard<'_, T> {
    // Nothing is left half-done under the lock.
    lock.lock().unwrap_or_else(PoisonError::into_inner)
}

fn solve_all(waiting: &Receiver<Work>) {
    while let Ok(work) = waiting.recv() {
        // Whoever asked may have gone: the answer is kept for the next one. What breaks takes its
        // own sender along, and with it the hope of those who wait, but not the solver.
        drop(catch_unwind(AssertUnwindSafe(|| solve_one(work))));
    }
}

fn solve_one(work: Work) {
    let (curves, since) = (Curves::shared(), Instant::now());
    match work {
        Work::Load(input, told) => {
            let assessed = judge_load(&input, &mut |problems| {
                let of = problems.len();
                let tell = |solved| drop(told.send(Progress::Solving { solved, of, since }));
                tell(0);
                curves.of_telling(problems, &tell)
            });
            let solved = assessed.map(|assessed| Arc::new(Solved(assessed)));
            told.send_replace(Progress::Done(solved));
        }
        Work::Wanted(wanted, told) => {
            let of = wanted.number();
            let tell = |solved| drop(told.send(Progress::Solving { solved, of, since }));
            tell(0);
            wanted.solve(curves, &tell);
            told.send_replace(Progress::Done(()));
        }
    }
}

#[cfg(test)]
mod tests {
    use ringtrue_seal::seating::{Passage, Passing};

    use super::*;

    /// A way that is refused at once: its sizes can't be.
    fn way(friction: f64) -> Wanted {
        let passage = Passage {
            section_mm: 0.0,
            mean_radius_mm: 0.0,
            hoop_stretch: 1.0,
            ramp_deg: 15.0,
            nose_radius_mm: 1.0,
            overlap_mm: 1.0,
        };
        let asked = curves::Asked::nothing();
        drop(asked.past(&[Passing { passage, friction, edges: 8.0 }]));
        asked.wanted()
    }

    #[test]
    fn what_is_asked_for_twice_is_solved_once() {
        let (compute, waiting) = Compute::queued();
        compute.begin(way(0.3));
        let ahead = held(&compute.wanted).get(&way(0.3).hash()).unwrap();
        assert!(ahead.same_channel(&compute.solve(way(0.3)).unwrap()), "asked for, not solved");
        assert!(!ahead.same_channel(&compute.solve(way(0.4)).unwrap()));
        assert_eq!(waiting.try_iter().map(solve_one).count(), 2);
        assert!(ahead.borrow().is_done());
        compute.begin(way(0.3));
        assert_eq!(waiting.try_iter().count(), 0, "nobody begins with what is solved");
        // What was solved and is looked for in vain is solved anew.
        assert!(!ahead.same_channel(&compute.solve(way(0.3)).unwrap()));
        assert_eq!(waiting.try_iter().count(), 1);
    }

    /// The solver is the test's own hand here: with a thread of its own it could be done before
    /// anybody looks.
    #[tokio::test]
    async fn a_save_is_named_for_as_long_as_it_waits() {
        let (compute, waiting) = Compute::queued();
        let save = ("Fay".to_owned(), "round 1".to_owned());
        let wanted = way(0.5);
        let name = wanted.hash().to_string();
        assert!(compute.named("Fay", "round 1").is_none() && compute.named("Fay", &name).is_none());
        let solver = async {
            assert!(!compute.named("Fay", "round 1").unwrap().borrow().is_done());
            assert!(compute.named("Cam", "round 1").is_none(), "another's save");
            assert!(compute.named("Cam", &name).is_some(), "a page's hash is anybody's");
            assert_eq!(waiting.try_iter().map(solve_one).count(), 1);
        };
        tokio::join!(biased; compute.wait(&wanted, Some(&save)), solver);
        assert!(compute.named("Fay", "round 1").is_none());
        assert!(compute.named("Fay", &name).unwrap().borrow().is_done());
    }

    #[tokio::test]
    async fn the_solver_solves_what_is_asked_for() {
        let compute = Compute::start().unwrap();
        let mut done = compute.solve(way(0.6)).unwrap();
        done.wait_for(Progress::is_done).await.unwrap();
    }
}
