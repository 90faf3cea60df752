//! Where the store is, who is at the bench, and on which device.

use std::collections::VecDeque;
use std::io::{IsTerminal, Read};
use std::path::{Path, PathBuf};

use jiff::Timestamp;
use ringtrue_job::job::deed::Now;
use ringtrue_job::person::{self, Unlocked};
use ringtrue_store::{Access, Store, StoreError, Unfit};
use zeroize::Zeroizing;

use crate::curves::Curves;
use crate::files;
pub(super) use crate::moment::{day, moment, now, random};
use crate::problem::Problem;
use crate::refused;

/// Names the store, where `--store` does not.
const STORE: &str = "RINGTRUE_STORE";
/// Names the person, where `--person` does not.
const PERSON: &str = "RINGTRUE_PERSON";
/// Holds the passphrase, where nothing else gives it.
const PASSPHRASE: &str = "RINGTRUE_PASSPHRASE";
/// Holds a new person's passphrase, where nothing else gives it.
const NEW_PASSPHRASE: &str = "RINGTRUE_NEW_PASSPHRASE";
/// Names the device, where `--device` does not.
const DEVICE: &str = "RINGTRUE_DEVICE";
/// Most that is read for passphrases.
const LONGEST_PASSPHRASES: u64 = 16 << 10;

/// Which store.
#[derive(Debug, Clone, clap::Args)]
pub(super) struct StoreAt {
    /// The store; else RINGTRUE_STORE, else `ringtrue/record.db` in the folder for the user's data
    #[arg(long, value_name = "FILE")]
    store: Option<PathBuf>,
}

impl StoreAt {
    /// A store at a path.
    pub(super) fn path(&self) -> Result<PathBuf, Problem> {
        if let Some(path) = &self.store {
            return Ok(path.clone());
        }
        if let Some(path) = std::env::var_os(STORE).filter(|path| !path.is_empty()) {
            return Ok(path.into());
        }
        let home = data_folder().ok_or_else(|| {
            Problem::store(
                "there is no folder for the user's data",
                "name the store: `--store FILE`",
            )
        })?;
        Ok(home.join("ringtrue").join("record.db"))
    }

    /// The store's path, where it may be made: the folder for the user's data is made with it.
    pub(super) fn path_to_create(&self) -> Result<PathBuf, Problem> {
        let path = self.path()?;
        if self.store.is_none() {
            path.parent().map_or(Ok(()), files::make_folder)?;
        }
        Ok(path)
    }

    /// Opens the store.
    pub(super) fn open(&self, access: Access) -> Result<Store, Problem> {
        let path = match access {
            Access::Create => self.path_to_create()?,
            Access::Write | Access::Read => self.path()?,
        };
        Store::open(&path, access).map_err(|error| refused::store(error).in_file(&path))
    }

    /// Opens the store to be checked: a file that is there and can't be read as a store does not
    /// verify, whatever else may be the matter with it.
    pub(super) fn open_to_check(&self) -> Result<Result<Store, Unfit>, Problem> {
        let path = self.path()?;
        match Store::open(&path, Access::Read) {
            Ok(store) => Ok(Ok(store)),
            Err(error @ (StoreError::NotAStore(_) | StoreError::Damaged(_))) => {
                Ok(Err(Unfit::File(error.to_string())))
            }
            Err(error) => Err(refused::store(error).in_file(&path)),
        }
    }
}

/// The folder in which programs keep a user's data.
fn data_folder() -> Option<PathBuf> {
    let folder = |name: &str| std::env::var_os(name).filter(|v| !v.is_empty()).map(PathBuf::from);
    if cfg!(windows) {
        return folder("LOCALAPPDATA");
    }
    let home = folder("HOME")?;
    if cfg!(target_os = "macos") {
        return Some(home.join("Library/Application Support"));
    }
    let stated = folder("XDG_DATA_HOME").filter(|path| path.is_absolute());
    Some(stated.unwrap_or_else(|| home.join(".local/share")))
}

/// Who does it.
#[derive(Debug, Clone, clap::Args)]
pub(super) struct Who {
    /// Your name in the store; else RINGTRUE_PERSON
    #[arg(long, value_name = "NAME")]
    person: Option<String>,
    /// Read the passphrase from this file descriptor, one a line; else RINGTRUE_PASSPHRASE, else
    /// you are asked
    #[arg(long, value_name = "N")]
    passphrase_fd: Option<u32>,
    /// The device it is done on; else RINGTRUE_DEVICE, else the name of this machine
    #[arg(long, value_name = "NAME")]
    device: Option<String>,
}

/// Passphrases that were handed over, in their order.
pub(super) struct Passphrases {
    lines: Option<VecDeque<Zeroizing<String>>>,
}

/// A person at a device, whose passphrase was right.
pub(super) struct AtBench {
    pub(super) person: Unlocked,
    device: String,
    at: Timestamp,
}

impl AtBench {
    /// Who, when and where, as a deed wants it.
    pub(super) fn now(&self) -> Now<'_> {
        Now {
            at: self.at,
            person: &self.person,
            device: &self.device,
            program_version: env!("CARGO_PKG_VERSION"),
            curves: Curves::shared(),
        }
    }
}

impl Who {
    /// The person's name, where one is given.
    pub(super) fn name(&self) -> Option<String> {
        let given = self.person.clone().or_else(|| std::env::var(PERSON).ok());
        given.map(|name| name.trim().to_owned()).filter(|name| !name.is_empty())
    }

    /// The passphrases that are handed over.
    pub(super) fn passphrases(&self) -> Result<Passphrases, Problem> {
        let lines = self.passphrase_fd.map(from_descriptor).transpose()?;
        Ok(Passphrases { lines })
    }

    /// Opens the key of the person who is named.
    pub(super) fn unlock(&self, store: &Store) -> Result<AtBench, Problem> {
        self.unlock_with(store, &mut self.passphrases()?)
    }

    /// Opens the key of the person who is named, with the next passphrase.
    pub(super) fn unlock_with(
        &self,
        store: &Store,
        passphrases: &mut Passphrases,
    ) -> Result<AtBench, Problem> {
        let name = self
            .name()
            .ok_or_else(|| Problem::input("nobody is named", "say who you are: `--person NAME`"))?;
        let person = store.person(&name).map_err(refused::store)?;
        if let Some(retired) = person.retired {
            let what = format!("{name} is retired since {}", day(retired));
            return Err(Problem::input(what, "somebody else has to do it"));
        }
        let passphrase = passphrases.next(&format!("Passphrase of {name}"), PASSPHRASE)?;
        let person = person::unlock(&person, &passphrase).map_err(refused::person)?;
        Ok(AtBench { person, device: self.device(), at: now() })
    }

    fn device(&self) -> String {
        let named = self.device.clone().or_else(|| std::env::var(DEVICE).ok());
        let named = named.or_else(|| std::fs::read_to_string("/proc/sys/kernel/hostname").ok());
        let named = named.or_else(|| std::env::var("COMPUTERNAME").ok());
        let name: String =
            named.unwrap_or_default().trim().chars().filter(|c| !c.is_control()).take(80).collect();
        if name.is_empty() { "not named".to_owned() } else { name }
    }
}

impl Passphrases {
    /// The next one: from the descriptor, else the environment, else the person is asked.
    pub(super) fn next(&mut self, ask: &str, variable: &str) -> Result<Zeroizing<String>, Problem> {
        if let Some(lines) = &mut self.lines {
            return lines.pop_front().ok_or_else(|| {
                let what = format!("no line is left for the {}", lower_first(ask));
                Problem::input(what, "give one passphrase a line")
            });
        }
        if let Ok(passphrase) = std::env::var(variable) {
            return Ok(Zeroizing::new(passphrase));
        }
        asked(ask, variable)
    }

    /// A new person's passphrase; typed twice where it is typed.
    pub(super) fn new_one(&mut self, name: &str) -> Result<Zeroizing<String>, Problem> {
        let typed = self.lines.is_none() && std::env::var_os(NEW_PASSPHRASE).is_none();
        let ask = format!("New passphrase of {name}");
        let first = self.next(&ask, NEW_PASSPHRASE)?;
        if typed && *self.next(&format!("{ask}, again"), NEW_PASSPHRASE)? != *first {
            return Err(Problem::input("the two differ", "type the same one twice"));
        }
        Ok(first)
    }
}

fn asked(ask: &str, variable: &str) -> Result<Zeroizing<String>, Problem> {
    if !std::io::stdin().is_terminal() {
        let what = format!("there is nobody to ask for the {}", lower_first(ask));
        let next = format!("give it by `--passphrase-fd N` or in {variable}");
        return Err(Problem::input(what, next));
    }
    rpassword::prompt_password(format!("{ask}: ")).map(Zeroizing::new).map_err(|error| {
        Problem::input(format!("the passphrase can't be read ({error})"), "type it again")
    })
}

fn from_descriptor(number: u32) -> Result<VecDeque<Zeroizing<String>>, Problem> {
    let unreadable = |error: String| {
        let what = format!("file descriptor {number} can't be read ({error})");
        Problem::input(what, "open it for reading: `3< FILE`, `3<<< TEXT`")
    };
    let path = format!("/dev/fd/{number}");
    let mut text = Zeroizing::new(String::new());
    std::fs::File::open(Path::new(&path))
        .and_then(|file| file.take(LONGEST_PASSPHRASES).read_to_string(&mut text))
        .map_err(|error| unreadable(error.to_string()))?;
    Ok(text.lines().map(|line| Zeroizing::new(line.to_owned())).collect())
}

fn lower_first(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| first.to_lowercase().chain(letters).collect())
}
