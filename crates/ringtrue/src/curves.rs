//! What finite elements gave, kept on disk, so that an unchanged half is not solved twice: load
//! curves, and ways of torics past their lips.
//!
//! A curve's name is the hash of its problem and of the solver's version. Its file starts with the
//! hash of what follows: a damaged one is noticed and solved again. Losing the folder loses nothing
//! but time.

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};

use ringtrue_seal::RoomError;
use ringtrue_seal::face_load::{HalfCurve, HalfProblem};
use ringtrue_seal::seating::{Fate, Passed, Passing};
use ringtrue_seal::section::SOLVER_VERSION;
use ringtrue_words::in_english;
use serde::Serialize;
use serde::de::DeserializeOwned;

/// What is solved once and kept.
trait Problem: Serialize + Sync {
    type Solved: Serialize + DeserializeOwned + Send;

    fn solve(&self) -> Result<Self::Solved, RoomError>;

    /// Did it come to its end? A run that stopped early may go further another day: it is not kept.
    fn is_whole(solved: &Self::Solved) -> bool;
}

impl Problem for HalfProblem {
    type Solved = HalfCurve;

    fn solve(&self) -> Result<HalfCurve, RoomError> {
        Self::solve(self)
    }

    fn is_whole(solved: &HalfCurve) -> bool {
        solved.complete
    }
}

impl Problem for Passing {
    type Solved = Passed;

    fn solve(&self) -> Result<Passed, RoomError> {
        Self::solve(self)
    }

    fn is_whole(solved: &Passed) -> bool {
        match solved.fate {
            Fate::SlidesPast | Fate::Folds => true,
            Fate::NotComputed => false,
        }
    }
}

/// Where solved curves are kept.
#[derive(Debug, Clone)]
pub(crate) struct Curves {
    folder: Option<PathBuf>,
}

impl Curves {
    /// In the person's cache folder.
    pub(crate) fn kept() -> Self {
        Self { folder: cache_folder().map(|cache| cache.join("ringtrue").join("curves")) }
    }

    /// The same, for whoever needs it for as long as the program runs.
    pub(crate) fn shared() -> &'static Self {
        static SHARED: std::sync::LazyLock<Curves> = std::sync::LazyLock::new(Curves::kept);
        &SHARED
    }

    /// Nowhere: every curve is solved.
    pub(crate) fn not_kept() -> Self {
        Self { folder: None }
    }

    /// The curves of the problems; `tell` is told how many are there each time that one is.
    pub(crate) fn of_telling(
        &self,
        problems: &[HalfProblem],
        tell: &(dyn Fn(usize) + Sync),
    ) -> Vec<Result<HalfCurve, RoomError>> {
        self.all(problems, tell)
    }

    /// From disk where they are, else solved, each on a thread of its own.
    fn all<P: Problem>(
        &self,
        problems: &[P],
        tell: &(dyn Fn(usize) + Sync),
    ) -> Vec<Result<P::Solved, RoomError>> {
        let solved = AtomicUsize::new(0);
        let one = |problem| {
            let answer = self.one(problem);
            tell(solved.fetch_add(1, Ordering::Relaxed) + 1);
            answer
        };
        let one = &one;
        std::thread::scope(|scope| {
            let running: Vec<_> =
                problems.iter().map(|problem| scope.spawn(move || one(problem))).collect();
            running
                .into_iter()
                .map(|thread| {
                    thread.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic))
                })
                .collect()
        })
    }

    fn one<P: Problem>(&self, problem: &P) -> Result<P::Solved, RoomError> {
        let path = self.folder.as_deref().and_then(|folder| path_of(folder, problem));
        if let Some(known) = path.as_deref().and_then(read) {
            return Ok(known);
        }
        // Whoever reads it later may speak another language, or judge for a record.
        let solved = in_english(|| problem.solve())?;
        if let Some(path) = path.filter(|_| P::is_whole(&solved)) {
            keep(&path, &solved);
        }
        Ok(solved)
    }
}

impl ringtrue_job::Curves for Curves {
    fn of(&self, problems: &[HalfProblem]) -> Vec<Result<HalfCurve, RoomError>> {
        self.all(problems, &|_| ())
    }

    fn past(&self, problems: &[Passing]) -> Vec<Result<Passed, RoomError>> {
        self.all(problems, &|_| ())
    }
}

fn path_of(folder: &Path, problem: &impl Serialize) -> Option<PathBuf> {
    let text = serde_json::to_string(problem).ok()?;
    let name = blake3::hash(format!("{SOLVER_VERSION}\n{text}").as_bytes()).to_hex();
    Some(folder.join(format!("{name}.json")))
}

fn read<T: DeserializeOwned>(path: &Path) -> Option<T> {
    let text = std::fs::read_to_string(path).ok()?;
    let (hash, body) = text.split_once('\n')?;
    (hash == blake3::hash(body.as_bytes()).to_hex().as_str())
        .then(|| serde_json::from_str(body).ok())
        .flatten()
}

/// Keeps what was solved; a folder that can't be written only costs time later.
fn keep(path: &Path, solved: &impl Serialize) {
    let Ok(body) = serde_json::to_string(solved) else { return };
    let text = format!("{}\n{body}", blake3::hash(body.as_bytes()).to_hex());
    let made = path.parent().is_some_and(|folder| std::fs::create_dir_all(folder).is_ok());
    if made {
        // The file is whole or not there; what went wrong is of no consequence.
        let _ = crate::files::write(path, text.as_bytes());
    }
}

/// The cache folder of the platform.
fn cache_folder() -> Option<PathBuf> {
    let named = |variable: &str| std::env::var_os(variable).map(PathBuf::from);
    named("XDG_CACHE_HOME")
        .or_else(|| named("LOCALAPPDATA"))
        .filter(|folder| folder.is_absolute())
        .or_else(|| std::env::home_dir().map(|home| home.join(".cache")))
}
