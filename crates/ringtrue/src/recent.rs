//! Things that are dear to make, kept while they are asked for: the one not asked for the longest
//! goes first.

use std::collections::BTreeMap;

/// At most so many values by key.
#[derive(Debug)]
pub(crate) struct Recent<K, V> {
    most: usize,
    asked: u64,
    by_key: BTreeMap<K, (u64, V)>,
}

impl<K: Ord + Clone, V: Clone> Recent<K, V> {
    /// Nothing; later at most `most`.
    pub(crate) fn new(most: usize) -> Self {
        Self { most, asked: 0, by_key: BTreeMap::new() }
    }

    /// The value of a key, which is now the latest.
    pub(crate) fn get(&mut self, key: &K) -> Option<V> {
        self.asked += 1;
        let (asked, value) = self.by_key.get_mut(key)?;
        *asked = self.asked;
        Some(value.clone())
    }

    /// All that is kept.
    pub(crate) fn values(&self) -> impl Iterator<Item = &V> {
        self.by_key.values().map(|(_, value)| value)
    }

    /// Keeps a value.
    pub(crate) fn keep(&mut self, key: K, value: V) {
        self.asked += 1;
        self.by_key.insert(key, (self.asked, value));
        while self.by_key.len() > self.most {
            let oldest = self.by_key.iter().min_by_key(|(_, (asked, _))| *asked);
            let Some(oldest) = oldest.map(|(key, _)| key.clone()) else { break };
            self.by_key.remove(&oldest);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_not_asked_for_the_longest_goes_first() {
        let mut recent = Recent::new(2);
        recent.keep("a", 1);
        recent.keep("b", 2);
        assert_eq!(recent.get(&"a"), Some(1));
        recent.keep("c", 3);
        assert_eq!(
            (recent.get(&"a"), recent.get(&"b"), recent.get(&"c")),
            (Some(1), None, Some(3))
        );
        recent.keep("c", 4);
        assert_eq!((recent.get(&"a"), recent.get(&"c")), (Some(1), Some(4)));
    }
}
