//! Whole jobs as one JSON text: logs, the texts that they name, and the files.
//!
//! One content has one text: what is read must be what would be written, byte by byte, so that a
//! change anywhere is found, also where it means nothing.

use std::collections::{BTreeMap, BTreeSet};

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde::{Deserialize, Serialize};

use super::{Chain, Form, Link, Misfit, MisfitKind};
use crate::digest::Digest;
use crate::event::Event;

/// First value of an export.
const SCHEMA: &str = "ringtrue/record/1";

/// Jobs with everything that they name.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Export {
    /// The jobs, by id.
    pub jobs: BTreeMap<String, JobLog>,
    /// Definition texts by their hash.
    pub documents: BTreeMap<Digest, String>,
    /// Files by their hash.
    pub attachments: BTreeMap<Digest, Attachment>,
}

/// Content of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Attachment(pub Vec<u8>);

/// The events of one job, in their order.
pub type JobLog = Vec<Link>;

/// Why a text is no export that fits.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ExportError {
    /// The text is no export at all.
    #[error("line {line}, column {column}: {what}")]
    Text {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// What is wrong.
        what: String,
    },
    /// It is an export of another version.
    #[error("the export says `{0}`; `ringtrue/record/1` is read here")]
    Schema(String),
    /// It holds the right things, but not as they are written.
    #[error("line {0}: the text is not as it is written by this program")]
    NotAsWritten(usize),
    /// A text or file does not have the hash that it is kept under, or nothing names it.
    #[error("the content kept as {0} was changed, or nothing names it")]
    Content(Digest),
    /// An event does not fit.
    #[error(transparent)]
    Misfit(#[from] Misfit),
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    schema: String,
    jobs: Vec<JobFile>,
    documents: Vec<DocumentFile>,
    attachments: Vec<AttachmentFile>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct JobFile {
    job: String,
    events: u64,
    last_hash: Digest,
    log: Vec<LogEntry>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct LogEntry {
    hash: Digest,
    /// In the form in which it was written; its hash is over the canonical bytes of that form.
    written: Form,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct DocumentFile {
    hash: Digest,
    text: String,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct AttachmentFile {
    hash: Digest,
    base64: String,
}

impl Export {
    /// The export as JSON; the same jobs give the same bytes.
    #[must_use]
    pub fn text(&self) -> String {
        let jobs = self.jobs.iter().map(|(job, log)| JobFile {
            job: job.clone(),
            events: log.len() as u64,
            last_hash: log.last().map_or(Digest::NONE, |link| link.hash),
            log: log.iter().map(LogEntry::of).collect(),
        });
        let documents = self
            .documents
            .iter()
            .map(|(hash, text)| DocumentFile { hash: *hash, text: text.clone() });
        let attachments = self.attachments.iter().map(|(hash, attachment)| AttachmentFile {
            hash: *hash,
            base64: STANDARD.encode(&attachment.0),
        });
        File {
            schema: SCHEMA.to_owned(),
            jobs: jobs.collect(),
            documents: documents.collect(),
            attachments: attachments.collect(),
        }
        .text()
    }

    /// Checks every hash, link, signature, text and file.
    ///
    /// # Errors
    /// The first event, in the order of jobs and events, that does not fit.
    pub fn verify(&self) -> Result<Vec<Chain>, ExportError> {
        let mut named = BTreeSet::new();
        let mut chains = Vec::new();
        for (job, log) in &self.jobs {
            let mut chain = Chain::default();
            for link in log {
                let event = chain.check(&link.bytes, &link.hash)?;
                if event.job != *job {
                    let what = MisfitKind::Job(event.job);
                    return Err(
                        Misfit { job: job.clone(), event: link.event.sequence, what }.into()
                    );
                }
                self.names(&event, &mut named)?;
            }
            if log.is_empty() {
                let what = MisfitKind::Opening;
                return Err(Misfit { job: job.clone(), event: 0, what }.into());
            }
            chains.push(chain);
        }
        let kept = self.documents.keys().chain(self.attachments.keys());
        match kept.into_iter().find(|hash| !named.contains(*hash)) {
            Some(hash) => Err(ExportError::Content(*hash)),
            None => Ok(chains),
        }
    }

    /// Checks that what an event names is here, and as it was.
    fn names(&self, event: &Event, named: &mut BTreeSet<Digest>) -> Result<(), Misfit> {
        let fail =
            |what: MisfitKind| Misfit { job: event.job.clone(), event: event.sequence, what };
        for hash in event.documents() {
            let text = self.documents.get(&hash);
            let new = named.insert(hash);
            if text.is_none_or(|text| new && Digest::of(text.as_bytes()) != hash) {
                return Err(fail(MisfitKind::Document(hash)));
            }
        }
        for photo in event.photos() {
            let hash = photo.content;
            let content = self.attachments.get(&hash).map(|attachment| &attachment.0);
            let new = named.insert(hash);
            let changed = |content: &Vec<u8>| {
                content.len() as u64 != photo.length || new && Digest::of(content) != hash
            };
            if content.is_none_or(changed) {
                return Err(fail(MisfitKind::Attachment(hash)));
            }
        }
        Ok(())
    }
}

/// Reads an export and checks all of it.
///
/// # Errors
/// [`ExportError`]: the first thing that does not fit, events before the rest of the text.
pub fn read_export(text: &str) -> Result<Export, ExportError> {
    let file: File = serde_json::from_str(text).map_err(|error| ExportError::Text {
        line: error.line(),
        column: error.column(),
        what: error.to_string(),
    })?;
    if file.schema != SCHEMA {
        return Err(ExportError::Schema(file.schema));
    }
    let mut export = Export::default();
    for document in &file.documents {
        export.documents.insert(document.hash, document.text.clone());
    }
    for attachment in &file.attachments {
        let content = STANDARD
            .decode(&attachment.base64)
            .map_err(|_| ExportError::Content(attachment.hash))?;
        export.attachments.insert(attachment.hash, Attachment(content));
    }
    let mut ends = Vec::new();
    for job in &file.jobs {
        let log = job.log.iter().enumerate().map(|(index, entry)| {
            let what = MisfitKind::Unreadable;
            let unreadable = Misfit { job: job.job.clone(), event: index as u64 + 1, what };
            entry.link().ok_or(unreadable)
        });
        export.jobs.insert(job.job.clone(), log.collect::<Result<_, _>>()?);
        ends.push((job.events, job.last_hash));
    }
    let chains = export.verify()?;
    // A job that stands twice, or out of order, shows below as a text that is not as written.
    for (chain, (events, last)) in chains.iter().zip(&ends) {
        chain.ends(*events, last)?;
    }
    let again = file.text();
    let as_written = again == text && export.text() == text;
    if as_written { Ok(export) } else { Err(ExportError::NotAsWritten(differs(&again, text))) }
}

/// The line on which two texts differ first.
fn differs(a: &str, b: &str) -> usize {
    let same = a.bytes().zip(b.bytes()).take_while(|(a, b)| a == b).count();
    b.as_bytes()[..same].iter().filter(|byte| **byte == b'\n').count() + 1
}

impl File {
    fn text(&self) -> String {
        let mut text = serde_json::to_string_pretty(self)
            .expect("the export holds texts, numbers and lists, which JSON all has");
        text.push('\n');
        text
    }
}

impl LogEntry {
    fn of(link: &Link) -> Self {
        // Bytes that are no event are found when the chain is checked.
        let written = Form::read(&link.bytes).unwrap_or_else(|| Form::of(&link.event));
        Self { hash: link.hash, written }
    }

    fn link(&self) -> Option<Link> {
        let bytes = self.written.written();
        Some(Link { event: super::read(&bytes)?, bytes, hash: self.hash })
    }
}
