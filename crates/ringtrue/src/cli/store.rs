//! `ringtrue store backup|restore|check`

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::Subcommand;
use ringtrue_store::{Access, Store, Unfit, Verified};
use serde::Serialize;

use super::bench::StoreAt;
use super::{output, refused};
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Write a whole copy of the store, people and keys included
    Backup(Copy),
    /// Put a copy in the place of a store that is gone
    Restore(Copy),
    /// Look after the file: is what the database itself keeps sound, and does the record verify?
    Check(Check),
}

#[derive(Debug, clap::Args)]
struct Copy {
    /// The copy
    file: PathBuf,
    #[command(flatten)]
    store: StoreAt,
    /// Print one JSON object
    #[arg(long)]
    json: bool,
}

#[derive(Debug, clap::Args)]
struct Check {
    #[command(flatten)]
    store: StoreAt,
    /// Print one JSON object
    #[arg(long)]
    json: bool,
}

/// Where a copy went.
#[derive(Serialize)]
struct Copied {
    file: String,
    sound: bool,
    misfit: Option<String>,
}

/// What looking after the file found.
#[derive(Serialize)]
struct Sound {
    sound: bool,
    verified: Option<Verified>,
    misfit: Option<String>,
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    match &arguments.command {
        Command::Backup(arguments) => {
            let store = arguments.store.open(Access::Read)?;
            store.backup(&arguments.file).map_err(refused::store)?;
            copied(arguments.json, &arguments.file)
        }
        Command::Restore(arguments) => {
            let to = arguments.store.path()?;
            ringtrue_store::restore(&arguments.file, &to).map_err(refused::store)?;
            copied(arguments.json, &to)
        }
        Command::Check(arguments) => check(arguments),
    }
}

/// A copy is as good as what it was made from: a damaged one is said while an older is at hand.
fn copied(json: bool, path: &Path) -> Result<ExitCode, Problem> {
    let checked = Store::open(path, Access::Read).map_err(Unfit::Store);
    let misfit = checked.and_then(|store| store.verify_all()).err().map(|unfit| unfit.to_string());
    let (file, sound) = (path.display().to_string(), misfit.is_none());
    if json {
        output::json(&Copied { file, sound, misfit })?;
    } else {
        output::print(match &misfit {
            None => format!("copied to {file}; its record verifies"),
            Some(misfit) => {
                format!("copied to {file}, but it is not sound: {misfit}. Keep the older copies")
            }
        })?;
    }
    Ok(ExitCode::from(u8::from(!sound)))
}

fn check(arguments: &Check) -> Result<ExitCode, Problem> {
    let checked = arguments.store.open_to_check()?.and_then(|store| store.verify_all());
    let found = match checked {
        Ok(verified) => Sound { sound: true, verified: Some(verified), misfit: None },
        Err(Unfit::Store(error)) => return Err(refused::store(error)),
        Err(unfit) => Sound { sound: false, verified: None, misfit: Some(unfit.to_string()) },
    };
    if arguments.json {
        output::json(&found)?;
    } else {
        output::print(match &found.misfit {
            None => "the store is sound, and its record verifies".to_owned(),
            Some(misfit) => format!("not sound. {misfit}"),
        })?;
    }
    Ok(ExitCode::from(u8::from(!found.sound)))
}
