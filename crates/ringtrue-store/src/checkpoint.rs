//! Checkpoints: the head of a Merkle tree over all events, in the order in which they were written,
//! signed by a keeper.
//!
//! The tree is that of RFC 9162, section 2.1, with SHA-256: a leaf is the 32 bytes of an event's
//! hash.
//! Whoever keeps an older head can tell whether what it covered is still what the store holds.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::str::FromStr;

use ct_merkle::mem_backed_tree::MemoryBackedTree;
use jiff::Timestamp;
use ringtrue_job::digest::{Digest, PublicKey, SignatureBytes};
use ringtrue_job::person::{Unlocked, is_signed};
use rusqlite::params;
use serde::{Deserialize, Serialize};
use sha2::Sha256;

use crate::problem::StoreError;
use crate::store::Store;

/// First value of a checkpoint.
const SCHEMA: &str = "ringtrue/checkpoint/1";

/// The head of the tree over a store's first events: `1204:9f86d0...`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TreeHead {
    /// Number of events.
    pub size: u64,
    /// The tree's root, SHA-256.
    pub root: Digest,
}

/// A tree head that a person signed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Checkpoint {
    /// The head.
    pub head: TreeHead,
    /// When, UTC.
    pub at: Timestamp,
    /// Who.
    pub person: String,
    /// Their key.
    pub key: PublicKey,
    /// Their signature.
    pub signature: SignatureBytes,
}

/// What a store is compared with: a signed checkpoint, or a bare head as a PDF has it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Against {
    /// A bare head.
    Head(TreeHead),
    /// A signed one.
    Signed(Checkpoint),
}

/// Why a text is no checkpoint that holds.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum CheckpointError {
    /// The text is none.
    #[error("this is no checkpoint: {0}")]
    Text(String),
    /// The signature is not that of its key.
    #[error("the checkpoint's signature is not that of {0}")]
    Signature(String),
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    schema: String,
    tree_size: u64,
    root_hash: Digest,
    at: Timestamp,
    person: String,
    key: PublicKey,
    signature: SignatureBytes,
}

impl fmt::Display for TreeHead {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.size, self.root)
    }
}

impl FromStr for TreeHead {
    type Err = CheckpointError;

    fn from_str(text: &str) -> Result<Self, CheckpointError> {
        let wanted = || {
            CheckpointError::Text(
                "`SIZE:ROOT` is wanted, a number and 64 hexadecimal digits".into(),
            )
        };
        // A head may have been copied from paper, with blanks and line ends in it.
        let text: String = text.split_whitespace().collect();
        let (size, root) = text.split_once(':').ok_or_else(wanted)?;
        let root = Digest::from_hex(&root.to_lowercase()).ok_or_else(wanted)?;
        Ok(Self { size: size.parse().map_err(|_| wanted())?, root })
    }
}

impl Checkpoint {
    /// A head, signed.
    #[must_use]
    pub fn sign(head: TreeHead, at: Timestamp, person: &Unlocked) -> Self {
        let author = person.author();
        let signature = person.sign(&message(head, at, &author.name));
        Self { head, at, person: author.name.clone(), key: author.key, signature }
    }

    /// As text.
    #[must_use]
    pub fn text(&self) -> String {
        let file = File {
            schema: SCHEMA.to_owned(),
            tree_size: self.head.size,
            root_hash: self.head.root,
            at: self.at,
            person: self.person.clone(),
            key: self.key,
            signature: self.signature,
        };
        let text = serde_json::to_string_pretty(&file);
        text.expect("a checkpoint holds texts and a number, which JSON all has") + "\n"
    }

    /// Reads a checkpoint and checks its signature.
    ///
    /// # Errors
    /// [`CheckpointError`]
    pub fn read(text: &str) -> Result<Self, CheckpointError> {
        let file: File =
            serde_json::from_str(text).map_err(|error| CheckpointError::Text(error.to_string()))?;
        if file.schema != SCHEMA {
            return Err(CheckpointError::Text(format!("it says `{}`", file.schema)));
        }
        let head = TreeHead { size: file.tree_size, root: file.root_hash };
        if !is_signed(&message(head, file.at, &file.person), &file.key, &file.signature) {
            return Err(CheckpointError::Signature(file.person));
        }
        let File { at, person, key, signature, .. } = file;
        Ok(Self { head, at, person, key, signature })
    }
}

impl Against {
    /// A signed checkpoint's text, or a bare head.
    ///
    /// # Errors
    /// [`CheckpointError`]
    pub fn read(text: &str) -> Result<Self, CheckpointError> {
        if text.trim_start().starts_with('{') {
            Checkpoint::read(text).map(Self::Signed)
        } else {
            text.parse().map(Self::Head)
        }
    }

    /// The head.
    #[must_use]
    pub fn head(&self) -> TreeHead {
        match self {
            Self::Head(head) => *head,
            Self::Signed(checkpoint) => checkpoint.head,
        }
    }
}

pub(crate) fn head(tree: &MemoryBackedTree<Sha256, Vec<u8>>) -> TreeHead {
    let mut root = [0; 32];
    root.copy_from_slice(tree.root().as_bytes());
    TreeHead { size: tree.len(), root: Digest(root) }
}

fn message(head: TreeHead, at: Timestamp, person: &str) -> Vec<u8> {
    let mut message = b"ringtrue checkpoint\0".to_vec();
    message.extend(head.size.to_le_bytes());
    message.extend(head.root.0);
    for text in [at.to_string().as_str(), person] {
        message.extend((text.len() as u64).to_le_bytes());
        message.extend(text.as_bytes());
    }
    message
}

impl Store {
    /// The head of the tree over all events.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn tree_head(&self) -> Result<TreeHead, StoreError> {
        Ok(self.tree_heads(&BTreeSet::new())?.1)
    }

    /// Heads over the first events, by their number, in one pass over all of them; numbers that
    /// the store does not reach are left out. Then the head over all events.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn tree_heads(
        &self,
        sizes: &BTreeSet<u64>,
    ) -> Result<(BTreeMap<u64, TreeHead>, TreeHead), StoreError> {
        let mut query =
            self.connection.prepare_cached("SELECT hash FROM event ORDER BY position")?;
        let mut rows = query.query([])?;
        let mut tree = MemoryBackedTree::<Sha256, Vec<u8>>::new();
        let mut heads = BTreeMap::new();
        loop {
            if sizes.contains(&tree.len()) {
                heads.insert(tree.len(), head(&tree));
            }
            match rows.next()? {
                Some(row) => tree.push(row.get::<_, [u8; 32]>(0)?.to_vec()),
                None => return Ok((heads, head(&tree))),
            }
        }
    }

    /// Keeps a checkpoint that was handed out.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn keep_checkpoint(&mut self, checkpoint: &Checkpoint) -> Result<(), StoreError> {
        let size = i64::try_from(checkpoint.head.size).unwrap_or(i64::MAX);
        let tx = self.begin()?;
        tx.execute(
            "INSERT INTO checkpoint (tree_size, text) VALUES (?1, ?2)",
            params![size, checkpoint.text()],
        )?;
        tx.commit()?;
        Ok(())
    }

    /// Checkpoints that were handed out, in their order.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn checkpoints(&self) -> Result<Vec<String>, StoreError> {
        let mut query =
            self.connection.prepare_cached("SELECT text FROM checkpoint ORDER BY number")?;
        let texts = query.query_map([], |row| row.get(0))?;
        Ok(texts.collect::<Result<_, _>>()?)
    }
}
