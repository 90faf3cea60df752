//! `ringtrue job report ID -o FILE.pdf`

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use ringtrue_store::{Access, Store};
use serde::Serialize;

use super::Kept;
use crate::cli::bench::StoreAt;
use crate::cli::{Units, output};
use crate::curves::Curves;
use crate::files;
use crate::paper;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(super) struct Arguments {
    /// The job's id
    id: String,
    /// The PDF to write; else ID.pdf
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
    /// Units of the report
    #[arg(long, value_enum, default_value = "mm")]
    units: Units,
    #[command(flatten)]
    store: StoreAt,
    /// Print one JSON object
    #[arg(long)]
    json: bool,
}

/// A PDF that was written.
#[derive(Serialize)]
pub(in crate::cli) struct Written {
    job: String,
    pdf: String,
    pub(in crate::cli) events: u64,
    last_hash: String,
    checkpoint: String,
}

pub(super) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let store = arguments.store.open(Access::Read)?;
    let path =
        arguments.output.clone().unwrap_or_else(|| PathBuf::from(format!("{}.pdf", arguments.id)));
    let written = write(&store, &arguments.id, (&path, arguments.units))?;
    if arguments.json {
        output::json(&written)?;
    } else {
        output::print(format_args!("{}\n  checkpoint {}", written.pdf, written.checkpoint))?;
    }
    Ok(ExitCode::SUCCESS)
}

/// Writes the PDF of a job.
pub(in crate::cli) fn write(
    store: &Store,
    id: &str,
    (path, units): (&Path, Units),
) -> Result<Written, Problem> {
    let kept = Kept::of(store, id)?;
    let (bytes, head) = paper::pdf(store, &kept, (units.system(), Curves::shared()))?;
    files::write(path, &bytes)?;
    Ok(Written {
        job: kept.job.id.clone(),
        pdf: path.display().to_string(),
        events: kept.job.events(),
        last_hash: kept.job.last_hash.to_string(),
        checkpoint: head.to_string(),
    })
}
