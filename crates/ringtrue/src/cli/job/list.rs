//! `ringtrue job list`

use std::fmt::Write;
use std::process::ExitCode;

use ringtrue_store::{Access, JobLine};
use serde::Serialize;

use crate::cli::bench::StoreAt;
use crate::cli::{output, refused};
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(super) struct Arguments {
    #[command(flatten)]
    store: StoreAt,
    /// Print one JSON object
    #[arg(long)]
    json: bool,
}

#[derive(Serialize)]
struct Jobs {
    jobs: Vec<JobLine>,
}

pub(super) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let jobs = arguments.store.open(Access::Read)?.list().map_err(refused::store)?;
    if arguments.json {
        output::json(&Jobs { jobs })?;
        return Ok(ExitCode::SUCCESS);
    }
    let mut text = String::new();
    for job in &jobs {
        let _ = writeln!(
            text,
            "{}  {:<22}{}  {:>4} events  {}",
            job.id,
            job.state,
            job.last_at.get(..10).unwrap_or_default(),
            job.events,
            job.title
        );
    }
    output::print(if text.is_empty() { "no jobs yet" } else { text.trim_end() })?;
    Ok(ExitCode::SUCCESS)
}
