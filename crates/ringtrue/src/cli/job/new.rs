//! `ringtrue job new JOINT.toml`

use std::path::PathBuf;
use std::process::ExitCode;

use jiff::Timestamp;
use ringtrue_job::digest::Digest;
use ringtrue_job::event::Opened;
use ringtrue_job::job::deed;
use ringtrue_job::job::{Documents, Plan, whole_joint};
use ringtrue_job::procedure::{half_of_other_type, shipped_for};
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::procedure::Procedure;
use ringtrue_seal::definition::seal::Seal;
use ringtrue_store::{Access, Attached};

use crate::cli::bench::{StoreAt, Who, random};
use crate::cli::refused;
use crate::files::{self, JointOnDisk};
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
            suits(&files::parse(path, &text)?, &on_disk).map_err(|p| p.in_file(path))?;
            text
        }
        None => {
            let text = shipped_for(&on_disk.joint).to_owned();
            suits(&files::parse(&arguments.joint, &text)?, &on_disk)?;
            text
        }
    };
    let (opened, documents) = definitions(&on_disk, procedure)?;
    let mut store = arguments.store.open(Access::Write)?;
    let bench = arguments.who.unlock(&store)?;
    let now = bench.now();
    let id = new_id(now.at)?;
    let plan = Plan::of(&opened, &documents).map_err(refused::plan)?;
    let (job, link) = deed::open(&id, opened, &documents, &now).map_err(refused::deed)?;
    let texts: Vec<String> = documents.into_values().collect();
    let attached = Attached { documents: &texts, files: &[] };
    store.append((&job, 0), std::slice::from_ref(&link), attached).map_err(refused::store)?;
    super::done(arguments.json, &job, (&plan, &[link]))
}

/// Is the procedure for the load ring that the joint has?
fn suits(procedure: &Procedure, on_disk: &JointOnDisk) -> Result<(), Problem> {
    let Some(half) = half_of_other_type(procedure, &on_disk.joint) else { return Ok(()) };
    let what = format!(
        "procedure `{}` is for a {}, and half {} has another load ring",
        procedure.name,
        procedure.load_ring.name(),
        half.name()
    );
    Err(Problem::input(what, "name a procedure that is for it: `--procedure FILE`"))
}

/// The texts that a job is kept with, by their hashes.
fn definitions(on_disk: &JointOnDisk, procedure: String) -> Result<(Opened, Documents), Problem> {
    let mut documents = Documents::new();
    let mut keep = |text: String| {
        let digest = Digest::of(text.as_bytes());
        documents.insert(digest, text);
        digest
    };
    let joint = whole_joint(&on_disk.joint).map_err(refused::plan)?;
    let material = |half: Half| -> Result<Option<String>, Problem> {
        let (seal, home) = (on_disk.joint.seal(half), on_disk.home(half));
        material_text(seal, home)
    };
    let (material_a, material_b) = (material(Half::A)?, material(Half::B)?);
    let opened = Opened {
        title: on_disk.joint.file.name.clone(),
        joint: keep(joint),
        material_a: material_a.map(&mut keep),
        material_b: material_b.map(&mut keep),
        procedure: keep(procedure),
        program_version: env!("CARGO_PKG_VERSION").to_owned(),
    };
    Ok((opened, documents))
}

fn material_text(seal: &Seal, home: &std::path::Path) -> Result<Option<String>, Problem> {
    let path = seal.load_ring.material_file().map(|written| files::beside(home, written));
    path.map(|path| files::text(&path)).transpose()
}

/// The day and four letters that are not read for one another.
fn new_id(at: Timestamp) -> Result<String, Problem> {
    const LETTERS: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";
    let letters: String =
        random::<5>()?.iter().map(|byte| char::from(LETTERS[usize::from(byte % 32)])).collect();
    Ok(format!("{}-{letters}", at.strftime("%Y%m%d")))
}
