//! `ringtrue checkpoint`: a signed head over everything that the store holds, to be kept elsewhere.

use std::path::PathBuf;
use std::process::ExitCode;

use ringtrue_job::person::Role;
use ringtrue_store::{Access, Checkpoint};

use super::bench::{StoreAt, Who};
use super::{output, refused};
use crate::files;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    /// Write it to this file; else it is printed
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
    #[command(flatten)]
    who: Who,
    #[command(flatten)]
    store: StoreAt,
    /// Print the checkpoint, which is JSON, also where it goes to a file
    #[arg(long)]
    json: bool,
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let mut store = arguments.store.open(Access::Write)?;
    let bench = arguments.who.unlock(&store)?;
    let now = bench.now();
    let author = now.person.author();
    if author.role != Role::Keeper {
        let what = format!("{} is {} here", author.name, author.role.name());
        return Err(Problem::input(what, "a checkpoint is signed by a keeper"));
    }
    let head = store.tree_head().map_err(refused::store)?;
    let checkpoint = Checkpoint::sign(head, now.at, now.person);
    store.keep_checkpoint(&checkpoint).map_err(refused::store)?;
    let text = checkpoint.text();
    match &arguments.output {
        Some(path) => {
            files::write(path, text.as_bytes())?;
            if arguments.json {
                output::print(text.trim_end())?;
            } else {
                output::print(format_args!("{head}\n  keep {} elsewhere", path.display()))?;
            }
        }
        None => output::print(text.trim_end())?,
    }
    Ok(ExitCode::SUCCESS)
}
