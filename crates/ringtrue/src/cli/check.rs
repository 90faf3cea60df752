//! `ringtrue check FILE...`

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use ringtrue_job::{Answer, Assessment, Evidence, judge};
use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::definition::joint::JointFile;
use ringtrue_seal::definition::material::Material;
use ringtrue_seal::definition::procedure::Procedure;
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::definition::{self, Kind};
use ringtrue_seal::matching::{Input, JointInput, Outcome, SealInput};
use ringtrue_seal::squeeze::SqueezeFile;
use serde::Serialize;

use super::{gate, output};
use crate::files::{self, JointOnDisk};
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    /// Definition files of any kind
    #[arg(required = true)]
    files: Vec<PathBuf>,
    /// Print one JSON object
    #[arg(long)]
    json: bool,
    /// Exit with 1 unless every verdict is `conforms`
    #[arg(long)]
    gate: bool,
}

/// One file and what was found of it.
#[derive(Serialize)]
struct Checked {
    file: String,
    kind: &'static str,
    #[serde(flatten)]
    assessment: Assessment,
}

#[derive(Serialize)]
struct All {
    files: Vec<Checked>,
    verdict: Verdict,
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let files =
        arguments.files.iter().map(|path| check(path)).collect::<Result<Vec<_>, Problem>>()?;
    let verdict = files.iter().map(|file| file.assessment.verdict()).max();
    let verdict = verdict.unwrap_or(Verdict::Conforms);
    if arguments.json {
        output::json(&All { files, verdict })?;
    } else {
        let texts: Vec<String> = files
            .iter()
            .map(|file| format!("{} ({})\n{}", file.file, file.kind, text(&file.assessment)))
            .collect();
        output::print(texts.join("\n"))?;
    }
    Ok(gate(arguments.gate, verdict))
}

fn check(path: &Path) -> Result<Checked, Problem> {
    let text = files::text(path)?;
    let kind = definition::kind_of(&text).map_err(|error| Problem::text(path, error))?;
    let input = match kind {
        Kind::Seal => {
            let seal: Seal = files::parse(path, &text)?;
            let material = files::material_of(&seal, path)?;
            Input::Seal(Box::new(SealInput { seal, material }))
        }
        Kind::Joint => {
            let file: JointFile = files::parse(path, &text)?;
            joint_input(files::assemble(path, file)?)
        }
        Kind::Gauge => Input::Gauge {
            gauge: files::parse(path, &text)?,
            today: jiff::tz::TimeZone::UTC.to_datetime(jiff::Timestamp::now()).date(),
        },
        Kind::Material => Input::Material(Box::new(files::parse::<Material>(path, &text)?)),
        Kind::Procedure => Input::Procedure(Box::new(files::parse::<Procedure>(path, &text)?)),
        Kind::Squeeze => files::parse::<SqueezeFile>(path, &text).map(|_| Input::Alone)?,
    };
    let assessment = assess(input, path)?;
    Ok(Checked { file: path.display().to_string(), kind: kind.name(), assessment })
}

/// Compares the parts of a joint.
pub(super) fn assess_joint(joint: JointOnDisk, path: &Path) -> Result<Assessment, Problem> {
    assess(joint_input(joint), path)
}

fn joint_input(joint: JointOnDisk) -> Input {
    let JointOnDisk { joint, material_a, material_b, .. } = joint;
    Input::Joint(Box::new(JointInput { joint, material_a, material_b }))
}

fn assess(input: Input, path: &Path) -> Result<Assessment, Problem> {
    judge(&Evidence::Matching(input)).map_err(|error| Problem::room(error).in_file(path))
}

/// The comparison's outcome of an assessment of parts.
pub(super) fn outcome(assessment: &Assessment) -> &Outcome {
    let Answer::Matching(outcome) = &assessment.answer else {
        unreachable!("parts are answered by the parts' room")
    };
    outcome
}

/// The findings as lines for a person: what does not conform first.
fn text(assessment: &Assessment) -> String {
    let outcome = outcome(assessment);
    let mut text = format!("Parts that belong together: {}\n", outcome.verdict);
    let mut findings: Vec<_> = outcome.findings.iter().collect();
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.verdict));
    for finding in findings {
        let half = finding.half.map_or(String::new(), |half| format!("half {}, ", half.name()));
        let _ = writeln!(text, "  {}: {half}{}", finding.verdict, finding.what);
        let _ = writeln!(text, "      {}", finding.found);
        if finding.verdict != Verdict::Conforms {
            let _ = writeln!(text, "      {}", finding.fits);
        }
    }
    text
}
