//! Jobs out of a store and into one.

use ringtrue_job::job::Job;
use ringtrue_job::record::{Attachment, Export};
use ringtrue_words::say;

use crate::problem::StoreError;
use crate::store::{Attached, Store, keep, write};

/// What taking an export in did.
#[derive(Debug, Clone, Default, PartialEq, Eq, serde::Serialize)]
pub struct Imported {
    /// Jobs that were not here.
    pub new: Vec<String>,
    /// Jobs that were here with fewer events.
    pub continued: Vec<String>,
    /// Jobs that were here as they are.
    pub same: Vec<String>,
}

impl Store {
    /// Some jobs with everything that they name.
    ///
    /// # Errors
    /// [`StoreError`]; [`StoreError::Damaged`] when something that they name is not there.
    pub fn export<'j>(
        &self,
        jobs: impl IntoIterator<Item = &'j str>,
    ) -> Result<Export, StoreError> {
        let mut export = Export::default();
        for job in jobs {
            let log = self.log(job)?;
            export.documents.append(&mut self.documents(&log)?);
            for photo in log.iter().flat_map(|link| link.event.photos()) {
                if export.attachments.contains_key(&photo.content) {
                    continue;
                }
                let content = self.file(&photo.content)?.ok_or_else(|| {
                    StoreError::Damaged(say!(
                        "store-file-missing",
                        file = photo.content.to_string()
                    ))
                })?;
                export.attachments.insert(photo.content, Attachment(content));
            }
            export.jobs.insert(job.to_owned(), log);
        }
        Ok(export)
    }

    /// All jobs with everything that they name.
    ///
    /// # Errors
    /// As [`Self::export`].
    pub fn export_all(&self) -> Result<Export, StoreError> {
        let ids = {
            let mut query = self.connection.prepare_cached("SELECT id FROM job ORDER BY id")?;
            let ids = query.query_map([], |row| row.get::<_, String>(0))?;
            ids.collect::<Result<Vec<_>, _>>()?
        };
        self.export(ids.iter().map(String::as_str))
    }

    /// Takes an export in, all of it or nothing. A job that is here already must tell the same
    /// history as far as both go; the longer one stands.
    ///
    /// # Errors
    /// [`StoreError::OtherHistory`] and [`StoreError::Refused`]; nothing was written.
    pub fn import(&mut self, export: &Export) -> Result<Imported, StoreError> {
        let mut done = Imported::default();
        let mut to_write = Vec::new();
        for (id, log) in &export.jobs {
            let refused =
                |(event, why): (u64, String)| StoreError::Refused { job: id.clone(), event, why };
            let job = Job::fold(log).map_err(|(event, why)| refused((event, why.to_string())))?;
            let here = match self.log(id) {
                Ok(here) => here,
                Err(StoreError::NoJob(_)) => Vec::new(),
                Err(error) => return Err(error),
            };
            let differs = here.iter().zip(log).position(|(a, b)| a.hash != b.hash);
            if let Some(index) = differs {
                return Err(StoreError::OtherHistory { job: id.clone(), event: index as u64 + 1 });
            }
            match here.len() {
                0 => done.new.push(id.clone()),
                n if n < log.len() => done.continued.push(id.clone()),
                _ => {
                    done.same.push(id.clone());
                    continue;
                }
            }
            to_write.push((job, here.len(), log));
        }
        let documents: Vec<String> = export.documents.values().cloned().collect();
        let files: Vec<Vec<u8>> = export.attachments.values().map(|file| file.0.clone()).collect();
        let tx = self.begin()?;
        keep(&tx, Attached { documents: &documents, files: &files })?;
        for (job, here, log) in &to_write {
            write(&tx, (job, *here as u64), &log[*here..])?;
        }
        tx.commit()?;
        Ok(done)
    }
}
