//! `ringtrue store backup|restore|check`

use std::path::PathBuf;
use std::process::ExitCode;

use clap::Subcommand;
use ringtrue_store::{Access, Unfit};

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
}

#[derive(Debug, clap::Args)]
struct Check {
    #[command(flatten)]
    store: StoreAt,
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    match &arguments.command {
        Command::Backup(arguments) => {
            let store = arguments.store.open(Access::Read)?;
            store.backup(&arguments.file).map_err(refused::store)?;
            output::print(format_args!("copied to {}", arguments.file.display()))?;
        }
        Command::Restore(arguments) => {
            let to = arguments.store.path()?;
            ringtrue_store::restore(&arguments.file, &to).map_err(refused::store)?;
            output::print(format_args!("restored to {}", to.display()))?;
        }
        Command::Check(arguments) => return check(arguments),
    }
    Ok(ExitCode::SUCCESS)
}

fn check(arguments: &Check) -> Result<ExitCode, Problem> {
    match arguments.store.open(Access::Read)?.verify_all() {
        Ok(verified) => {
            output::print(format_args!(
                "sound: {} jobs, {} events, {} signatures",
                verified.jobs, verified.events, verified.signatures
            ))?;
            Ok(ExitCode::SUCCESS)
        }
        Err(Unfit::Store(error)) => Err(refused::store(error)),
        Err(unfit) => {
            output::print(format_args!("not sound. {unfit}"))?;
            Ok(ExitCode::from(1))
        }
    }
}
