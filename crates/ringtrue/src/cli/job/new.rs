//! `ringtrue job new JOINT.toml`

use std::path::PathBuf;
use std::process::ExitCode;

use ringtrue_job::procedure::shipped_for;
use ringtrue_seal::definition::joint::Half;
use ringtrue_store::{Access, Attached};

use crate::cli::bench::{StoreAt, Who};
use crate::cli::refused;
use crate::files::{self, JointOnDisk};
use crate::opening::{self, Opening, Parts, suits};
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(super) struct Arguments {
    /// The joint file
    joint: PathBuf,
    /// The procedure file; else the one that ships for its load ring
    #[arg(long, value_name = "FILE")]
    procedure: Option<PathBuf>,
    #[command(flatten)]
    who: Who,
    #[command(flatten)]
    store: StoreAt,
    /// Print one JSON object
    #[arg(long)]
    json: bool,
}

pub(super) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let on_disk = files::joint(&arguments.joint)?;
    let procedure = match &arguments.procedure {
        Some(path) => {
            let text = files::text(path)?;
            suits(&files::parse(path, &text)?, &on_disk.joint).map_err(|p| p.in_file(path))?;
            text
        }
        None => {
            let text = shipped_for(&on_disk.joint).to_owned();
            suits(&files::parse(&arguments.joint, &text)?, &on_disk.joint)?;
            text
        }
    };
    let materials = [material_text(&on_disk, Half::A)?, material_text(&on_disk, Half::B)?];
    let mut store = arguments.store.open(Access::Write)?;
    let bench = arguments.who.unlock(&store)?;
    let parts = Parts { joint: &on_disk.joint, materials, procedure };
    let Opening { job, link, plan, documents } = opening::open(parts, &bench.now())?;
    let attached = Attached { documents: &documents, files: &[] };
    store.append((&job, 0), std::slice::from_ref(&link), attached).map_err(refused::store)?;
    super::done(arguments.json, &job, (&plan, &[link]))
}

fn material_text(on_disk: &JointOnDisk, half: Half) -> Result<Option<String>, Problem> {
    let seal = on_disk.joint.seal(half);
    let path =
        seal.load_ring.material_file().map(|written| files::beside(on_disk.home(half), written));
    path.map(|path| files::text(&path)).transpose()
}
