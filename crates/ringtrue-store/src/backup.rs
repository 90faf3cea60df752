//! Copies of a whole store.

use std::path::Path;

use crate::problem::StoreError;
use crate::store::{Access, Store};

impl Store {
    /// Writes a whole and tidy copy of the store, people and keys included, to a file that is not
    /// there yet.
    ///
    /// # Errors
    /// [`StoreError::Exists`], and what a full or failing disk gives; no half copy stays.
    pub fn backup(&self, to: &Path) -> Result<(), StoreError> {
        if to.exists() {
            return Err(StoreError::Exists(to.to_owned()));
        }
        let unwritable = |error: std::io::Error| StoreError::Disk(error.to_string());
        let folder = match to.parent() {
            Some(folder) if folder != Path::new("") => folder,
            _ => Path::new("."),
        };
        // Beside its place and then into it, so that the name never stands for half a copy.
        let room = tempfile::tempdir_in(folder).map_err(unwritable)?;
        let half = room.path().join("copy");
        let name =
            half.to_str().ok_or_else(|| StoreError::cannot_open(to, "its path is not text"))?;
        self.connection.execute("VACUUM INTO ?1", [name])?;
        let copy = std::fs::File::open(&half).map_err(unwritable)?;
        // The keys of people are in it.
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            let owner = std::fs::Permissions::from_mode(0o600);
            copy.set_permissions(owner).map_err(unwritable)?;
        }
        copy.sync_all().map_err(unwritable)?;
        place(&half, to)
    }
}

/// Puts a copy in the place of a store that is not there.
///
/// # Errors
/// [`StoreError::Exists`] when a store is there; what opening the copy gives.
pub fn restore(copy: &Path, to: &Path) -> Result<(), StoreError> {
    if to.exists() {
        return Err(StoreError::Exists(to.to_owned()));
    }
    Store::open(copy, Access::Read)?.backup(to)
}

/// Gives a finished file its name, unless the name was taken meanwhile.
fn place(file: &Path, to: &Path) -> Result<(), StoreError> {
    std::fs::hard_link(file, to).or_else(|error| {
        if error.kind() == std::io::ErrorKind::AlreadyExists {
            return Err(StoreError::Exists(to.to_owned()));
        }
        // Not every file system has links.
        std::fs::rename(file, to).map_err(|error| StoreError::Disk(error.to_string()))
    })
}
