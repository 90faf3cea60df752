//! `ringtrue job report ID -o FILE.pdf`

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use ringtrue_job::evidence;
use ringtrue_job::job::{JobAssessments, assessments};
use ringtrue_report::{Halves, HeightTry, InputFile, JobRecord, JointReport};
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::gap_stack;
use ringtrue_store::Access;
use serde::Serialize;

use super::Kept;
use crate::cli::bench::{self, StoreAt};
use crate::cli::{Units, check, gap, height, load, output, refused};
use crate::curves::Curves;
use crate::files;
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

#[derive(Serialize)]
struct Written {
    job: String,
    pdf: String,
    events: u64,
    last_hash: String,
    checkpoint: String,
}

pub(super) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let store = arguments.store.open(Access::Read)?;
    let kept = Kept::of(&store, &arguments.id)?;
    let export = store.export([arguments.id.as_str()]).map_err(refused::store)?.text();
    let head = store.tree_head().map_err(refused::store)?;
    let record = JobRecord {
        job: &kept.job,
        log: &kept.log,
        export: &export,
        checkpoint: (head.size, head.root),
    };
    let document = document(&kept, arguments.units, &record)?;
    let bytes = ringtrue_report::pdf(&document).map_err(|error| {
        let next = "this is a fault of the program: please report it";
        Problem::not_completed(error.to_string(), next)
    })?;
    let path =
        arguments.output.clone().unwrap_or_else(|| PathBuf::from(format!("{}.pdf", arguments.id)));
    files::write(&path, &bytes)?;
    let written = Written {
        job: kept.job.id.clone(),
        pdf: path.display().to_string(),
        events: kept.job.events(),
        last_hash: kept.job.last_hash.to_string(),
        checkpoint: head.to_string(),
    };
    if arguments.json {
        output::json(&written)?;
    } else {
        output::print(format_args!("{}\n  checkpoint {}", written.pdf, written.checkpoint))?;
    }
    Ok(ExitCode::SUCCESS)
}

/// The report, judged from what the record holds.
fn document(
    kept: &Kept,
    units: Units,
    record: &JobRecord<'_>,
) -> Result<ringtrue_report::Document, Problem> {
    let judged = assessments(&kept.plan, &kept.job).map_err(refused::assess)?;
    let joint = &kept.plan.joint;
    let tries = |half: Half| -> Vec<HeightTry<'_>> {
        let of_half = judged.heights.iter().filter(|one| one.half == half);
        of_half
            .map(|one| HeightTry { file: &one.origin, outcome: height::outcome(&one.assessment) })
            .collect()
    };
    let (a, b) = (tries(Half::A), tries(Half::B));
    // The face load is not part of the record: it is computed for the page.
    let load = face_load(kept, &judged);
    let gauge = judged.heights.iter().rev().find_map(|one| kept.plan.gauge(&one.gauge?));
    let inputs: Vec<(String, String)> = inputs(kept, &judged);
    let inputs: Vec<InputFile<'_>> =
        inputs.iter().map(|(role, name)| InputFile { role, name }).collect();
    let report = JointReport {
        joint,
        matching: check::outcome(&judged.matching),
        heights: Halves { a: &a, b: &b },
        gap: gap::outcome(&judged.gap),
        load: load.as_ref().map(load::outcome),
        further: &[],
        gauge,
        inputs: &inputs,
        system: units.system(),
        made: bench::now(),
        program_version: judged.gap.program_version,
    };
    Ok(ringtrue_report::job_document(&report, record))
}

fn face_load(kept: &Kept, judged: &JobAssessments) -> Option<ringtrue_job::Assessment> {
    let nominal = gap_stack::nominal(&judged.chain).ok()?;
    let input = evidence::joint_load(&kept.plan.joint, nominal, None).ok()?;
    load::assess(input, &Curves::kept(), Path::new(&kept.job.id)).ok()
}

/// What the report rests on: the texts kept with the job, by their hashes.
fn inputs(kept: &Kept, judged: &JobAssessments) -> Vec<(String, String)> {
    let opened = &kept.job.opened;
    let mut inputs = vec![
        ("joint".to_owned(), opened.joint.to_string()),
        ("procedure".to_owned(), opened.procedure.to_string()),
    ];
    let materials = [("a", opened.material_a), ("b", opened.material_b)];
    for (half, material) in materials {
        inputs.extend(material.map(|hash| (format!("material, half {half}"), hash.to_string())));
    }
    for one in &judged.heights {
        inputs.push((format!("readings, half {}", one.half.name()), one.origin.clone()));
    }
    inputs
}
