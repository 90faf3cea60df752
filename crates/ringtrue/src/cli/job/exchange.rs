//! `ringtrue job export` and `ringtrue job import`

use std::path::PathBuf;
use std::process::ExitCode;

use ringtrue_job::record::read_export;
use ringtrue_store::Access;

use super::verify;
use crate::cli::bench::StoreAt;
use crate::cli::{output, refused};
use crate::files;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
#[command(group = clap::ArgGroup::new("which").required(true).args(["ids", "all"]))]
pub(super) struct Export {
    /// Ids of the jobs
    ids: Vec<String>,
    /// All jobs
    #[arg(long)]
    all: bool,
    /// Write it to this file; else it is printed
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
    #[command(flatten)]
    store: StoreAt,
}

#[derive(Debug, clap::Args)]
pub(super) struct Import {
    /// An export (.json), or a job's PDF
    file: PathBuf,
    #[command(flatten)]
    store: StoreAt,
    /// Print one JSON object
    #[arg(long)]
    json: bool,
}

pub(super) fn export(arguments: &Export) -> Result<ExitCode, Problem> {
    let store = arguments.store.open(Access::Read)?;
    let export = if arguments.all {
        store.export_all()
    } else {
        store.export(arguments.ids.iter().map(String::as_str))
    };
    let text = export.map_err(refused::store)?.text();
    match &arguments.output {
        Some(path) => files::write(path, text.as_bytes())?,
        None => output::print(text.trim_end())?,
    }
    Ok(ExitCode::SUCCESS)
}

pub(super) fn import(arguments: &Import) -> Result<ExitCode, Problem> {
    let given = verify::export_text(&arguments.file)?;
    let refused = |said: String| {
        let next = "nothing was taken in: name an export or a job's PDF, as it was written";
        Problem::input(said, next).in_file(&arguments.file)
    };
    if let Some(said) = given.around {
        return Err(refused(said));
    }
    let export = read_export(&given.text).map_err(|error| refused(error.to_string()))?;
    let mut store = arguments.store.open(Access::Create)?;
    let done = store.import(&export).map_err(refused::store)?;
    if arguments.json {
        output::json(&done)?;
    } else {
        output::print(format_args!(
            "{} new, {} continued, {} already here",
            done.new.len(),
            done.continued.len(),
            done.same.len()
        ))?;
    }
    Ok(ExitCode::SUCCESS)
}
