//! What finite elements gave, kept on disk, so that an unchanged half is not solved twice: load
//! curves, and ways of torics past their lips.
//!
//! A curve's name is the hash of its problem and of the solver's version. Its file starts with the
//! hash of what follows: a damaged one is noticed and solved again. Losing the folder loses nothing
//! but time.

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, MutexGuard, PoisonError};

use ringtrue_job::digest::Digest;
use ringtrue_seal::RoomError;
use ringtrue_seal::face_load::{HalfCurve, HalfProblem};
use ringtrue_seal::seating::{Fate, Passed, Passing};
use ringtrue_seal::section::SOLVER_VERSION;
use ringtrue_words::in_english;
use serde::Serialize;
use serde::de::DeserializeOwned;

use crate::recent::Recent;

/// Most answers of each kind that are kept in memory: those that the disk does not keep.
const MOST_APART: usize = 8;

/// What is solved once and kept.
trait Problem: Serialize + Clone + PartialEq + Sync {
    type Solved: Serialize + DeserializeOwned + Clone + Send;

    fn solve(&self) -> Result<Self::Solved, RoomError>;

    /// Did it come to its end? A run that stopped early may go further with another program: it is
    /// kept for as long as this one runs.
    fn is_whole(solved: &Self::Solved) -> bool;

    /// Its kind among what the disk does not keep.
    fn apart(apart: &Apart) -> &Mutex<Recent<String, Answer<Self>>>;

    /// Its kind among what is wanted.
    fn among(wanted: &mut Wanted) -> &mut Vec<Self>;
}

/// What solving came to.
type Answer<P> = Result<<P as Problem>::Solved, RoomError>;

/// Answers that the disk does not keep, by the name of their problem.
#[derive(Debug)]
struct Apart {
    halves: Mutex<Recent<String, Answer<HalfProblem>>>,
    ways: Mutex<Recent<String, Answer<Passing>>>,
}

impl Problem for HalfProblem {
    type Solved = HalfCurve;

    fn solve(&self) -> Result<HalfCurve, RoomError> {
        Self::solve(self)
    }

    fn is_whole(solved: &HalfCurve) -> bool {
        solved.complete
    }

    fn apart(apart: &Apart) -> &Mutex<Recent<String, Answer<Self>>> {
        &apart.halves
    }

    fn among(wanted: &mut Wanted) -> &mut Vec<Self> {
        &mut wanted.halves
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

    fn apart(apart: &Apart) -> &Mutex<Recent<String, Answer<Self>>> {
        &apart.ways
    }

    fn among(wanted: &mut Wanted) -> &mut Vec<Self> {
        &mut wanted.ways
    }
}

/// Where solved curves are kept.
#[derive(Debug)]
pub(crate) struct Curves {
    folder: Option<PathBuf>,
    apart: Apart,
}

impl Curves {
    /// In the person's cache folder.
    pub(crate) fn kept() -> Self {
        Self::at(cache_folder().map(|cache| cache.join("ringtrue").join("curves")), MOST_APART)
    }

    fn at(folder: Option<PathBuf>, most_apart: usize) -> Self {
        let (halves, ways) = (Recent::new(most_apart), Recent::new(most_apart));
        Self { folder, apart: Apart { halves: Mutex::new(halves), ways: Mutex::new(ways) } }
    }

    /// The same, for whoever needs it for as long as the program runs.
    pub(crate) fn shared() -> &'static Self {
        static SHARED: std::sync::LazyLock<Curves> = std::sync::LazyLock::new(Curves::kept);
        &SHARED
    }

    /// Nowhere: every curve is solved.
    pub(crate) fn not_kept() -> Self {
        Self::at(None, 0)
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

    fn one<P: Problem>(&self, problem: &P) -> Answer<P> {
        let name = name_of(problem);
        if let Some(known) = name.as_deref().and_then(|name| self.known::<P>(name)) {
            return known;
        }
        // Whoever reads it later may speak another language, or judge for a record.
        let answer = in_english(|| problem.solve());
        if let Some(name) = name {
            let path = self.path_of(&name);
            let whole = answer.as_ref().ok().filter(|solved| P::is_whole(solved));
            let is_kept = path.zip(whole).is_some_and(|(path, solved)| keep(&path, solved));
            if !is_kept {
                held(P::apart(&self.apart)).keep(name, answer.clone());
            }
        }
        answer
    }

    /// What is known of the problem with this name.
    fn known<P: Problem>(&self, name: &str) -> Option<Answer<P>> {
        let kept = self.path_of(name).as_deref().and_then(read);
        kept.map(Ok).or_else(|| held(P::apart(&self.apart)).get(&name.to_owned()))
    }

    fn path_of(&self, name: &str) -> Option<PathBuf> {
        Some(self.folder.as_deref()?.join(format!("{name}.json")))
    }
}

/// Nothing is left half-done under the lock.
fn held<T>(lock: &Mutex<T>) -> MutexGuard<'_, T> {
    lock.lock().unwrap_or_else(PoisonError::into_inner)
}

impl ringtrue_job::Curves for Curves {
    fn of(&self, problems: &[HalfProblem]) -> Vec<Result<HalfCurve, RoomError>> {
        self.all(problems, &|_| ())
    }

    fn past(&self, problems: &[Passing]) -> Vec<Result<Passed, RoomError>> {
        self.all(problems, &|_| ())
    }
}

/// Problems that were asked for.
#[derive(Debug, Clone, Default)]
pub(crate) struct Wanted {
    halves: Vec<HalfProblem>,
    ways: Vec<Passing>,
}

impl Wanted {
    /// Is there none?
    pub(crate) fn is_empty(&self) -> bool {
        self.number() == 0
    }

    /// How many there are.
    pub(crate) fn number(&self) -> usize {
        self.halves.len() + self.ways.len()
    }

    /// What tells them from others.
    pub(crate) fn hash(&self) -> Digest {
        let halves = self.halves.iter().filter_map(name_of);
        let names: Vec<String> = halves.chain(self.ways.iter().filter_map(name_of)).collect();
        Digest::of(names.join("\n").as_bytes())
    }

    /// Solves what is not known; `tell` is told how many are there each time that one is.
    pub(crate) fn solve(&self, curves: &Curves, tell: &(dyn Fn(usize) + Sync)) {
        drop(curves.all(&self.halves, tell));
        drop(curves.all(&self.ways, &|solved| tell(self.halves.len() + solved)));
    }
}

/// Solves nothing: gives what is known, and keeps in mind what is not.
#[derive(Debug)]
pub(crate) struct Asked {
    /// Where it is looked up; nowhere where all that is asked for is to be told.
    known: Option<&'static Curves>,
    wanted: Mutex<Wanted>,
}

impl Asked {
    /// With what is known of the curves that all share.
    pub(crate) fn shared() -> Self {
        Self { known: Some(Curves::shared()), wanted: Mutex::default() }
    }

    /// With nothing known: whatever is asked for is wanted.
    pub(crate) fn nothing() -> Self {
        Self { known: None, wanted: Mutex::default() }
    }

    /// What was asked for and is not known, each once.
    pub(crate) fn wanted(&self) -> Wanted {
        held(&self.wanted).clone()
    }

    fn all<P: Problem>(&self, problems: &[P]) -> Vec<Answer<P>> {
        problems.iter().map(|problem| self.one(problem)).collect()
    }

    fn one<P: Problem>(&self, problem: &P) -> Answer<P> {
        let known = self.known.zip(name_of(problem));
        if let Some(answer) = known.and_then(|(curves, name)| curves.known::<P>(&name)) {
            return answer;
        }
        let mut wanted = held(&self.wanted);
        let list = P::among(&mut wanted);
        if !list.contains(problem) {
            list.push(problem.clone());
        }
        Err(RoomError::Input {
            found: "what takes finite elements is not solved yet".to_owned(),
            fits: "ask for it once more".to_owned(),
        })
    }
}

impl ringtrue_job::Curves for Asked {
    fn of(&self, problems: &[HalfProblem]) -> Vec<Result<HalfCurve, RoomError>> {
        self.all(problems)
    }

    fn past(&self, problems: &[Passing]) -> Vec<Result<Passed, RoomError>> {
        self.all(problems)
    }
}

/// What a problem is kept by.
fn name_of(problem: &impl Serialize) -> Option<String> {
    let text = serde_json::to_string(problem).ok()?;
    Some(blake3::hash(format!("{SOLVER_VERSION}\n{text}").as_bytes()).to_hex().to_string())
}

fn read<T: DeserializeOwned>(path: &Path) -> Option<T> {
    // A pipe in its place would be waited for.
    let text = path.is_file().then(|| std::fs::read_to_string(path).ok()).flatten()?;
    let (hash, body) = text.split_once('\n')?;
    (hash == blake3::hash(body.as_bytes()).to_hex().as_str())
        .then(|| serde_json::from_str(body).ok())
        .flatten()
}

/// Keeps what was solved, and says whether it could: the file is whole or not there.
fn keep(path: &Path, solved: &impl Serialize) -> bool {
    let Ok(body) = serde_json::to_string(solved) else { return false };
    let text = format!("{}\n{body}", blake3::hash(body.as_bytes()).to_hex());
    let made = path.parent().is_some_and(|folder| std::fs::create_dir_all(folder).is_ok());
    made && crate::files::write(path, text.as_bytes()).is_ok()
}

/// The cache folder of the platform.
fn cache_folder() -> Option<PathBuf> {
    let named = |variable: &str| std::env::var_os(variable).map(PathBuf::from);
    named("XDG_CACHE_HOME")
        .or_else(|| named("LOCALAPPDATA"))
        .filter(|folder| folder.is_absolute())
        .or_else(|| std::env::home_dir().map(|home| home.join(".cache")))
}

#[cfg(test)]
mod tests {
    use std::path::Path;
    use std::sync::Mutex;
    use std::sync::atomic::{AtomicUsize, Ordering};

    use serde::Serialize;

    use super::*;

    static SOLVED: AtomicUsize = AtomicUsize::new(0);

    /// A problem that takes no time.
    #[derive(Serialize, Clone, PartialEq)]
    struct Easy {
        is_whole: bool,
    }

    type Shelf = Mutex<Recent<String, Answer<Easy>>>;
    static SHELF: std::sync::LazyLock<Shelf> =
        std::sync::LazyLock::new(|| Mutex::new(Recent::new(2)));

    impl Problem for Easy {
        type Solved = bool;

        fn solve(&self) -> Result<bool, RoomError> {
            SOLVED.fetch_add(1, Ordering::Relaxed);
            Ok(self.is_whole)
        }

        fn is_whole(solved: &bool) -> bool {
            *solved
        }

        fn apart(_: &Apart) -> &Shelf {
            &SHELF
        }

        fn among(_: &mut Wanted) -> &mut Vec<Self> {
            unreachable!("nothing is wanted here")
        }
    }

    /// On disk where it can be kept there, else in memory: solved once either way.
    #[test]
    fn what_the_disk_does_not_keep_is_kept_in_memory() {
        let folder = tempfile::tempdir().unwrap();
        let there = || folder.path().to_owned();
        let nowhere = Path::new("/dev/null/nowhere").to_owned();
        for (at, is_whole) in [(there(), true), (there(), false), (nowhere, true)] {
            let curves = Curves::at(Some(at), 8);
            let before = SOLVED.load(Ordering::Relaxed);
            let twice = [0, 1].map(|_| curves.one(&Easy { is_whole }).unwrap());
            assert_eq!(twice, [is_whole; 2]);
            assert_eq!(SOLVED.load(Ordering::Relaxed) - before, 1);
            assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1);
        }
    }
}
