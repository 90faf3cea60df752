//! `ringtrue new KIND`

use std::process::ExitCode;

use ringtrue_seal::definition;
use ringtrue_seal::definition::procedure::LoadRingType;

use super::{KindName, kind, output};
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    /// seal, joint, gauge, material, procedure or squeeze
    #[arg(value_parser = kind)]
    kind: KindName,
    /// With `seal` or `procedure`: the load ring that it is for, toric or conical-washer
    #[arg(long, value_name = "TYPE", value_parser = load_ring)]
    load_ring: Option<LoadRingType>,
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let kind = arguments.kind.0;
    let text = match arguments.load_ring {
        None => definition::starter(kind),
        Some(load_ring) => definition::starter_with(kind, load_ring).ok_or_else(|| {
            let what = format!("a {} file is not chosen by its load ring", kind.name());
            Problem::input(what, "leave `--load-ring` out")
        })?,
    };
    output::print(text.trim_end())?;
    Ok(ExitCode::SUCCESS)
}

fn load_ring(name: &str) -> Result<LoadRingType, String> {
    LoadRingType::ALL.into_iter().find(|kind| kind.name() == name).ok_or_else(|| {
        let names = LoadRingType::ALL.map(LoadRingType::name).join(" and ");
        format!("the load rings are {names}")
    })
}
