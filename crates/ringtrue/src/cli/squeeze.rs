//! `ringtrue squeeze PROBLEM.toml`

use std::fmt::Write;
use std::path::PathBuf;
use std::process::ExitCode;
use std::time::Instant;

use ringtrue_metrology::units::{System, fixed};
use ringtrue_seal::section::SolvedSection;
use ringtrue_seal::squeeze::{self, SqueezeFile};
use serde::Serialize;

use super::output;
use crate::files;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    /// The problem file; `ringtrue new squeeze` prints one
    file: PathBuf,
    /// Print one JSON object
    #[arg(long)]
    json: bool,
    /// Write the section at six stages into this folder
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
}

#[derive(Serialize)]
struct Timed<'s> {
    #[serde(flatten)]
    section: &'s SolvedSection,
    seconds: f64,
    sources: Vec<String>,
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let path = &arguments.file;
    let file: SqueezeFile = files::definition(path)?;
    let started = Instant::now();
    let section = squeeze::solve(&file).map_err(|error| Problem::room(error).in_file(path))?;
    let seconds = started.elapsed().as_secs_f64();
    if let Some(folder) = &arguments.out {
        files::make_folder(folder)?;
        for drawing in ringtrue_report::section_drawings(&file, &section, System::Millimetre) {
            files::write(&folder.join(format!("{}.svg", drawing.name)), drawing.svg.as_bytes())?;
        }
    }
    if arguments.json {
        let sources = squeeze::SOURCES.iter().map(ToString::to_string).collect();
        output::json(&Timed { section: &section, seconds, sources })?;
    } else {
        output::print(text(&section))?;
    }
    match section.stopped {
        None => Ok(ExitCode::SUCCESS),
        Some(stopped) => {
            let next = "the steps up to there stand; check walls, motion and material";
            Err(Problem::not_completed(stopped.words(), next).in_file(path))
        }
    }
}

/// Force, roll and stretch by step, as lines for a person.
fn text(section: &SolvedSection) -> String {
    let names: Vec<&String> =
        section.steps.first().map(|step| step.walls.keys().collect()).unwrap_or_default();
    let mut text = format!("{:>10}", "travel mm");
    for name in &names {
        let _ = write!(text, "{:>16}{:>10}", format!("{name} N/mm"), "peak MPa");
    }
    let _ = writeln!(text, "{:>10}{:>9}", "roll deg", "stretch");
    for step in &section.steps {
        let _ = write!(text, "{:>10}", fixed(step.travel_mm, 3));
        for wall in step.walls.values() {
            let (normal, peak) = (fixed(wall.normal_n_per_mm, 4), fixed(wall.peak_mpa, 3));
            let _ = write!(text, "{normal:>16}{peak:>10}");
        }
        let (roll, stretch) = (fixed(step.roll_deg, 2), fixed(step.max_principal_stretch, 3));
        let _ = writeln!(text, "{roll:>10}{stretch:>9}");
    }
    let band = section
        .error_band_percent
        .map_or(String::new(), |band| format!(", forces within {} %", fixed(band, 2)));
    let _ = write!(
        text,
        "{} nodes, {} elements, {} Newton iterations{band}",
        section.nodes, section.elements, section.newton_iterations
    );
    text
}
