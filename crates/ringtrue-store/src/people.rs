//! People of the shop.

use jiff::Timestamp;
use ringtrue_job::digest::PublicKey;
use ringtrue_job::person::{Cost, Person, Role, SealedKey};
use ringtrue_words::say;
use rusqlite::{Connection, Row, Transaction, params};

use crate::problem::StoreError;
use crate::store::Store;

impl Store {
    /// Everybody, by name.
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn people(&self) -> Result<Vec<Person>, StoreError> {
        let mut query = self.connection.prepare_cached(
            "SELECT name, role, key, added_at, retired_at, salt, nonce, locked,
                    memory_kib, passes, lanes
             FROM person ORDER BY name",
        )?;
        let mut rows = query.query([])?;
        let mut people = Vec::new();
        while let Some(row) = rows.next()? {
            people.push(person(row)?);
        }
        Ok(people)
    }

    /// The person with this name.
    ///
    /// # Errors
    /// [`StoreError::NoPerson`]
    pub fn person(&self, name: &str) -> Result<Person, StoreError> {
        let found = self.people()?.into_iter().find(|person| person.name == name);
        found.ok_or_else(|| StoreError::NoPerson(name.to_owned()))
    }

    /// Adds a person. A name stays taken for good: records name people by it.
    ///
    /// # Errors
    /// [`StoreError::PersonExists`]
    pub fn add_person(&mut self, person: &Person) -> Result<(), StoreError> {
        let tx = self.begin()?;
        insert(&tx, person)?;
        tx.commit()?;
        Ok(())
    }

    /// Adds a person to a store that holds nobody: of two who come at once one is the first.
    ///
    /// # Errors
    /// [`StoreError::NotFirst`]
    pub fn add_first_person(&mut self, person: &Person) -> Result<(), StoreError> {
        let tx = self.begin()?;
        if has_people(&tx)? {
            return Err(StoreError::NotFirst);
        }
        insert(&tx, person)?;
        tx.commit()?;
        Ok(())
    }

    /// Adds a person to a store that nobody keeps: as soon as there is a keeper, it is the keeper's
    /// to do.
    ///
    /// # Errors
    /// [`StoreError::HasKeeper`], and those of [`Self::add_person`].
    pub fn add_person_unkept(&mut self, person: &Person) -> Result<(), StoreError> {
        let tx = self.begin()?;
        let kept = "SELECT EXISTS (SELECT 1 FROM person WHERE role = ?1 AND retired_at IS NULL)";
        if tx.query_row(kept, [Role::Keeper.name()], |row| row.get(0))? {
            return Err(StoreError::HasKeeper);
        }
        insert(&tx, person)?;
        tx.commit()?;
        Ok(())
    }

    /// Does anybody work here?
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn has_people(&self) -> Result<bool, StoreError> {
        has_people(&self.connection)
    }

    /// Does anybody keep who works here?
    ///
    /// # Errors
    /// [`StoreError`]
    pub fn has_keeper(&self) -> Result<bool, StoreError> {
        let mut query = self.connection.prepare_cached(
            "SELECT EXISTS (SELECT 1 FROM person WHERE role = ?1 AND retired_at IS NULL)",
        )?;
        Ok(query.query_row([Role::Keeper.name()], |row| row.get(0))?)
    }

    /// From now on the person records nothing more; what was recorded stands.
    ///
    /// # Errors
    /// [`StoreError::NoPerson`] when nobody of this name is there, or retired already.
    pub fn retire_person(&mut self, name: &str, at: Timestamp) -> Result<(), StoreError> {
        let tx = self.begin()?;
        let retired = tx.execute(
            "UPDATE person SET retired_at = ?2 WHERE name = ?1 AND retired_at IS NULL",
            params![name, at.to_string()],
        )?;
        if retired == 0 {
            return Err(StoreError::NoPerson(name.to_owned()));
        }
        tx.commit()?;
        Ok(())
    }
}

fn has_people(connection: &Connection) -> Result<bool, StoreError> {
    let mut query = connection.prepare_cached("SELECT EXISTS (SELECT 1 FROM person)")?;
    Ok(query.query_row([], |row| row.get(0))?)
}

fn insert(tx: &Transaction<'_>, person: &Person) -> Result<(), StoreError> {
    let sealed = person
        .sealed
        .as_ref()
        .ok_or_else(|| StoreError::Damaged(say!("store-person-without-key", name = person.name)))?;
    let added = tx.execute(
        "INSERT INTO person (name, role, key, added_at, salt, nonce, locked,
                             memory_kib, passes, lanes)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10) ON CONFLICT DO NOTHING",
        params![
            person.name,
            person.role.name(),
            person.key.0,
            person.added.to_string(),
            sealed.salt,
            sealed.nonce,
            sealed.locked,
            sealed.cost.memory_kib,
            sealed.cost.passes,
            sealed.cost.lanes,
        ],
    )?;
    if added == 0 {
        return Err(StoreError::PersonExists(person.name.clone()));
    }
    Ok(())
}

fn person(row: &Row<'_>) -> Result<Person, StoreError> {
    let name: String = row.get(0)?;
    let damaged = || StoreError::Damaged(say!("store-person-unread", name));
    let at = |text: String| text.parse::<Timestamp>().map_err(|_| damaged());
    let role = Role::named(&row.get::<_, String>(1)?).ok_or_else(damaged)?;
    let retired = row.get::<_, Option<String>>(4)?.map(at).transpose()?;
    Ok(Person {
        role,
        key: PublicKey(row.get(2)?),
        added: at(row.get(3)?)?,
        retired,
        sealed: Some(SealedKey {
            salt: row.get(5)?,
            nonce: row.get(6)?,
            locked: row.get(7)?,
            cost: Cost { memory_kib: row.get(8)?, passes: row.get(9)?, lanes: row.get(10)? },
        }),
        name,
    })
}
