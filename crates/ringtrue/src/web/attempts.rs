//! Wrong passphrases, counted: whoever guesses has to wait.

use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

/// Wrong ones that cost nothing (common practice, no source).
const FREE: u32 = 5;
/// The first wait; each further wrong one doubles it.
const FIRST_WAIT: Duration = Duration::from_secs(5);
/// Longest wait, and how long a count is kept.
const LONGEST_WAIT: Duration = Duration::from_secs(15 * 60);
/// Most counts that are kept.
const MOST: usize = 10_000;

struct Count {
    wrong: u32,
    last: Instant,
}

/// The hash of whatever names a guesser: it may be long.
type Key = [u8; 32];

fn key_of(who: &str) -> Key {
    *blake3::hash(who.as_bytes()).as_bytes()
}

/// Counts of wrong passphrases, by whatever names a guesser.
#[derive(Default)]
pub(crate) struct Attempts {
    counts: Mutex<BTreeMap<Key, Count>>,
}

impl Attempts {
    /// How long these have to wait, if at all.
    pub(crate) fn wait(&self, whom: &[&str]) -> Option<Duration> {
        let counts = self.counts.lock().unwrap_or_else(PoisonError::into_inner);
        whom.iter().filter_map(|who| counts.get(&key_of(who))?.wait()).max()
    }

    /// One more wrong one.
    pub(crate) fn wrong(&self, whom: &[&str]) {
        let mut counts = self.counts.lock().unwrap_or_else(PoisonError::into_inner);
        counts.retain(|_, count| count.last.elapsed() < LONGEST_WAIT);
        for who in whom {
            let key = key_of(who);
            if counts.len() >= MOST && !counts.contains_key(&key) {
                // Whoever guesses under ever new names pushes out no name that is guessed at now.
                let oldest = counts.iter().min_by_key(|(_, count)| count.last).map(|(key, _)| *key);
                oldest.and_then(|oldest| counts.remove(&oldest));
            }
            let count = counts.entry(key).or_insert(Count { wrong: 0, last: Instant::now() });
            count.wrong = count.wrong.saturating_add(1);
            count.last = Instant::now();
        }
    }

    /// The right one: what was wrong before is forgotten.
    pub(crate) fn right(&self, whom: &[&str]) {
        let mut counts = self.counts.lock().unwrap_or_else(PoisonError::into_inner);
        for who in whom {
            counts.remove(&key_of(who));
        }
    }
}

impl Count {
    fn wait(&self) -> Option<Duration> {
        let over = self.wrong.checked_sub(FREE)?;
        let wait = FIRST_WAIT.saturating_mul(1 << over.min(16)).min(LONGEST_WAIT);
        wait.checked_sub(self.last.elapsed()).filter(|left| !left.is_zero())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn five_wrong_ones_are_free_and_then_it_takes_longer_and_longer() {
        let attempts = Attempts::default();
        for _ in 0..4 {
            attempts.wrong(&["Fay", "10.0.0.7"]);
        }
        assert_eq!(attempts.wait(&["Fay"]), None);
        attempts.wrong(&["Fay"]);
        let first = attempts.wait(&["Fay"]).unwrap();
        assert!(first > Duration::from_secs(4) && first <= Duration::from_secs(5));
        attempts.wrong(&["Fay"]);
        assert!(attempts.wait(&["Fay", "10.0.0.8"]).unwrap() > Duration::from_secs(9));
        assert_eq!(attempts.wait(&["Kim"]), None);
        attempts.right(&["Fay"]);
        assert_eq!(attempts.wait(&["Fay"]), None);
    }

    #[test]
    fn ever_new_names_take_no_more_room_and_push_out_nobody_who_waits() {
        let attempts = Attempts::default();
        for _ in 0..6 {
            attempts.wrong(&["10.0.0.7"]);
        }
        for number in 0..MOST {
            attempts.wrong(&[&format!("{number}{}", "x".repeat(1000)), "10.0.0.7"]);
        }
        assert_eq!(attempts.counts.lock().unwrap().len(), MOST);
        assert!(attempts.wait(&["10.0.0.7"]).is_some());
    }

    #[test]
    fn nobody_waits_longer_than_a_quarter_of_an_hour() {
        let attempts = Attempts::default();
        for _ in 0..100 {
            attempts.wrong(&["Fay"]);
        }
        assert!(attempts.wait(&["Fay"]).unwrap() <= LONGEST_WAIT);
    }
}
