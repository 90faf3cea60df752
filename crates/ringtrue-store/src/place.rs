//! A job's place in the tree over its store's events: what lets a PDF by itself be compared with a
//! checkpoint.
//!
//! It holds the proof that the job's last event is a leaf of the tree (RFC 9162, section 2.1.3),
//! and, for the checkpoints that were signed before, the proofs that each covered the beginning of
//! that tree (section 2.1.4).

use std::collections::BTreeSet;

use ct_merkle::mem_backed_tree::MemoryBackedTree;
use ct_merkle::{ConsistencyProof, InclusionProof, RootHash};
use ringtrue_job::digest::Digest;
use ringtrue_words::say;
use serde::{Deserialize, Serialize};
use sha2::Sha256;

use crate::checkpoint::{Against, Checkpoint, TreeHead, head};
use crate::problem::StoreError;
use crate::store::Store;

/// First value of the text.
const SCHEMA: &str = "ringtrue/place/1";
/// Most signed checkpoints that are told, the last ones.
const MOST_EARLIER: usize = 256;

/// A job's place in a tree, proven.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Place {
    schema: String,
    tree_size: u64,
    root_hash: Digest,
    /// Leaf of the job's last event, from 0.
    leaf: u64,
    inclusion: Vec<Digest>,
    earlier: Vec<Earlier>,
}

/// A signed head whose tree is the beginning of this one.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Earlier {
    tree_size: u64,
    root_hash: Digest,
    consistency: Vec<Digest>,
}

/// Why a place does not stand, or can't be compared.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PlaceError {
    /// The text is none.
    #[error("the job's place in its store can't be read: {0}")]
    Text(String),
    /// The proof does not hold for the job's last event.
    #[error("the job's last event is not the one whose place in its store is proven")]
    Inclusion,
    /// A signed head is not the beginning of the tree.
    #[error("the tree of the store does not begin with the checkpoint over {0} events")]
    Consistency(u64),
    /// The checkpoint is another one.
    #[error("the checkpoint over {} events is not that of this job's store: its history was \
        changed", .0.size)]
    OtherHistory(TreeHead),
    /// There is no place to compare.
    #[error(
        "an export by itself has no place in its store's tree, to be compared with a \
        checkpoint over {0} events"
    )]
    Without(u64),
    /// The place says nothing about that many events.
    #[error("the PDF can't be compared with a checkpoint over {size} events: it was made at \
        {tree_size}, and holds proofs for {}", told(.known))]
    NotComparable {
        /// Events that the checkpoint covers.
        size: u64,
        /// Events when the PDF was made.
        tree_size: u64,
        /// Sizes for which there is a proof.
        known: Vec<u64>,
    },
}

fn told(sizes: &[u64]) -> String {
    let sizes: Vec<String> = sizes.iter().map(u64::to_string).collect();
    if sizes.is_empty() { "no earlier one".to_owned() } else { sizes.join(", ") }
}

impl Store {
    /// The place of a job's last event, with proofs for the checkpoints that were signed before.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn place(&self, job: &str) -> Result<Place, StoreError> {
        let damaged = || StoreError::Damaged(say!("store-last-event-missing", job));
        let last = self.log(job)?.last().map(|link| link.hash).ok_or_else(damaged)?;
        let mut tree = MemoryBackedTree::<Sha256, Vec<u8>>::new();
        let mut query =
            self.connection.prepare_cached("SELECT hash FROM event ORDER BY position")?;
        let mut rows = query.query([])?;
        let mut leaf = None;
        while let Some(row) = rows.next()? {
            let hash: [u8; 32] = row.get(0)?;
            if hash == last.0 {
                leaf = Some(tree.len());
            }
            tree.push(hash.to_vec());
        }
        let leaf = leaf.ok_or_else(damaged)?;
        let TreeHead { size, root } = head(&tree);
        let mut signed: Vec<TreeHead> = self
            .checkpoints()?
            .iter()
            .filter_map(|text| Checkpoint::read(text).ok())
            .map(|checkpoint| checkpoint.head)
            .filter(|head| head.size > 0 && head.size < size)
            .collect();
        let mut seen = BTreeSet::new();
        signed.retain(|head| seen.insert(head.size));
        let first = signed.len().saturating_sub(MOST_EARLIER);
        let earlier = signed[first..].iter().map(|earlier| Earlier {
            tree_size: earlier.size,
            root_hash: earlier.root,
            consistency: digests(tree.prove_consistency(index(size - earlier.size)).as_bytes()),
        });
        Ok(Place {
            schema: SCHEMA.to_owned(),
            tree_size: size,
            root_hash: root,
            leaf,
            inclusion: digests(tree.prove_inclusion(index(leaf)).as_bytes()),
            earlier: earlier.collect(),
        })
    }
}

impl Place {
    /// As text.
    #[must_use]
    pub fn text(&self) -> String {
        let text = serde_json::to_string_pretty(self);
        text.expect("a place holds texts and numbers, which JSON all has") + "\n"
    }

    /// Reads a text.
    ///
    /// # Errors
    /// [`PlaceError::Text`]
    pub fn read(text: &str) -> Result<Self, PlaceError> {
        let place: Self =
            serde_json::from_str(text).map_err(|error| PlaceError::Text(error.to_string()))?;
        if place.schema != SCHEMA {
            return Err(PlaceError::Text(format!("it says `{}`", place.schema)));
        }
        Ok(place)
    }

    /// Does the proof hold for a job's last hash, and each signed head for the tree?
    ///
    /// # Errors
    /// [`PlaceError`]
    pub fn stands(&self, last: &Digest) -> Result<(), PlaceError> {
        let root = root(self.tree_size, &self.root_hash);
        let proof = InclusionProof::<Sha256>::try_from_bytes(bytes(&self.inclusion))
            .map_err(|_| PlaceError::Inclusion)?;
        root.verify_inclusion(&last.0.to_vec(), self.leaf, &proof)
            .map_err(|_| PlaceError::Inclusion)?;
        for earlier in &self.earlier {
            let fails = |_| PlaceError::Consistency(earlier.tree_size);
            let proof = ConsistencyProof::<Sha256>::try_from_bytes(bytes(&earlier.consistency))
                .map_err(fails)?;
            let old = self::root(earlier.tree_size, &earlier.root_hash);
            root.verify_consistency(&old, &proof).map_err(fails)?;
        }
        Ok(())
    }

    /// Is this checkpoint that of the tree in which the job stands, or of its beginning?
    ///
    /// # Errors
    /// [`PlaceError::OtherHistory`] and [`PlaceError::NotComparable`].
    pub fn compare(&self, against: &Against) -> Result<(), PlaceError> {
        let stated = against.head();
        let own = TreeHead { size: self.tree_size, root: self.root_hash };
        let heads = self
            .earlier
            .iter()
            .map(|earlier| TreeHead { size: earlier.tree_size, root: earlier.root_hash });
        match heads.chain([own]).find(|head| head.size == stated.size) {
            Some(head) if head == stated => Ok(()),
            Some(_) => Err(PlaceError::OtherHistory(stated)),
            None => Err(PlaceError::NotComparable {
                size: stated.size,
                tree_size: self.tree_size,
                known: self.earlier.iter().map(|earlier| earlier.tree_size).collect(),
            }),
        }
    }
}

fn root(size: u64, hash: &Digest) -> RootHash<Sha256> {
    RootHash::new(hash.0.into(), size)
}

fn digests(bytes: &[u8]) -> Vec<Digest> {
    let (parts, _) = bytes.as_chunks::<32>();
    parts.iter().copied().map(Digest).collect()
}

fn bytes(digests: &[Digest]) -> Vec<u8> {
    digests.iter().flat_map(|digest| digest.0).collect()
}

/// A number of leaves that are in memory.
fn index(leaves: u64) -> usize {
    usize::try_from(leaves).expect("the leaves of the tree are in memory")
}
