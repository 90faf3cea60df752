//! `ringtrue schema KIND`

use std::process::ExitCode;

use ringtrue_seal::definition;

use super::{KindName, kind, output};
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    /// seal, joint, gauge, material, procedure or squeeze
    #[arg(value_parser = kind)]
    kind: KindName,
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    output::json(&definition::schema(arguments.kind.0))?;
    Ok(ExitCode::SUCCESS)
}
