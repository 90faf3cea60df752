//! `ringtrue job new JOINT.toml`

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use ringtrue_job::job::deed::Now;
use ringtrue_job::procedure::shipped_for;
use ringtrue_seal::definition::joint::Half;
use ringtrue_store::{Access, Attached, Store};

use crate::cli::bench::{StoreAt, Who};
use crate::cli::refused;
use crate::files::{self, JointOnDisk};
use crate::kept::Kept;
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
    let parts = parts(&arguments.joint, (&on_disk, arguments.procedure.as_deref()))?;
    let mut store = arguments.store.open(Access::Write)?;
    let bench = arguments.who.unlock(&store)?;
    let kept = open(&mut store, parts, &bench.now())?;
    super::done(arguments.json, &kept.job, (&kept.plan, &kept.log))
}

/// What a job on a joint file is opened with.
pub(in crate::cli) fn parts<'d>(
    path: &Path,
    (on_disk, procedure): (&'d JointOnDisk, Option<&Path>),
) -> Result<Parts<'d>, Problem> {
    let joint = &on_disk.joint;
    let (from, procedure) = match procedure {
        Some(path) => (path, files::text(path)?),
        None => (path, shipped_for(joint).to_owned()),
    };
    suits(&files::parse(from, &procedure)?, joint).map_err(|problem| problem.in_file(from))?;
    let materials = [material_text(on_disk, Half::A)?, material_text(on_disk, Half::B)?];
    Ok(Parts { joint, materials, procedure })
}

/// Opens a job in a store.
pub(in crate::cli) fn open(
    store: &mut Store,
    parts: Parts<'_>,
    now: &Now<'_>,
) -> Result<Kept, Problem> {
    let Opening { job, link, plan, documents } = opening::open(parts, now)?;
    let attached = Attached { documents: &documents, files: &[] };
    store.append((&job, 0), std::slice::from_ref(&link), attached).map_err(refused::store)?;
    Ok(Kept { job, log: vec![link], plan })
}

fn material_text(on_disk: &JointOnDisk, half: Half) -> Result<Option<String>, Problem> {
    let seal = on_disk.joint.seal(half);
    let path =
        seal.load_ring.material_file().map(|written| files::beside(on_disk.home(half), written));
    path.map(|path| files::whole_material(&path)).transpose()
}
