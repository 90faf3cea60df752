//! Solved curves kept on disk, so that an unchanged half is not solved twice.
//!
//! A curve's name is the hash of its problem and of the solver's version. Its file starts with the
//! hash of what follows: a damaged one is noticed and solved again. Losing the folder loses nothing
//! but time.

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};

use ringtrue_seal::RoomError;
use ringtrue_seal::face_load::{HalfCurve, HalfProblem};
use ringtrue_seal::section::SOLVER_VERSION;

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
        let solved = AtomicUsize::new(0);
        let one = |problem| {
            let curve = self.one(problem);
            tell(solved.fetch_add(1, Ordering::Relaxed) + 1);
            curve
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

    fn one(&self, problem: &HalfProblem) -> Result<HalfCurve, RoomError> {
        let path = self.folder.as_deref().and_then(|folder| path_of(folder, problem));
        if let Some(curve) = path.as_deref().and_then(read) {
            return Ok(curve);
        }
        let curve = problem.solve()?;
        // A run that stopped early may go further another day: it is not kept.
        if let Some(path) = path.filter(|_| curve.complete) {
            keep(&path, &curve);
        }
        Ok(curve)
    }
}

impl ringtrue_job::Curves for Curves {
    /// The curves of the problems: from disk where they are, else solved, each on a thread of its
    /// own.
    fn of(&self, problems: &[HalfProblem]) -> Vec<Result<HalfCurve, RoomError>> {
        self.of_telling(problems, &|_| ())
    }
}

fn path_of(folder: &Path, problem: &HalfProblem) -> Option<PathBuf> {
    let text = serde_json::to_string(problem).ok()?;
    let name = blake3::hash(format!("{SOLVER_VERSION}\n{text}").as_bytes()).to_hex();
    Some(folder.join(format!("{name}.json")))
}

fn read(path: &Path) -> Option<HalfCurve> {
    let text = std::fs::read_to_string(path).ok()?;
    let (hash, body) = text.split_once('\n')?;
    (hash == blake3::hash(body.as_bytes()).to_hex().as_str())
        .then(|| serde_json::from_str(body).ok())
        .flatten()
}

/// Keeps a curve; a folder that can't be written only costs time later.
fn keep(path: &Path, curve: &HalfCurve) {
    let Ok(body) = serde_json::to_string(curve) else { return };
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
