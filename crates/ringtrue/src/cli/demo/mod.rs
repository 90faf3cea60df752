//! `ringtrue demo`: the shipped examples, through the same code as real work.

mod whole_job;

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use include_dir::{Dir, include_dir};

use super::{HalfFile, Units, half_file, output, report};
use crate::files;
use crate::problem::Problem;

/// The examples; they ship inside the program.
static EXAMPLES: Dir<'static> = include_dir!("$CARGO_MANIFEST_DIR/../../examples");

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    /// Folder for inputs and reports
    #[arg(long, value_name = "DIR", default_value = "demo-out")]
    out: PathBuf,
}

/// One example: its folder, and what a person would name on the command line.
struct Example {
    folder: &'static str,
    story: &'static str,
    readings: &'static [&'static str],
    gauge: &'static str,
    measured: Option<&'static str>,
    units: Units,
}

const SHIPPED: [Example; 2] = [
    Example {
        folder: "final-drive",
        story: "Final drive with torics: half a seated well; half b cocked, corrected, read again",
        readings: &["a=heights-a.csv", "b=heights-b-try-1.csv", "b=heights-b-try-2.csv"],
        gauge: "depth-gauge.toml",
        measured: Some("measured.csv"),
        units: Units::Mm,
    },
    Example {
        folder: "mixer-shaft",
        story: "Mixer shaft with conical washers, in inches, read with a caliper",
        readings: &["a=heights-a.csv", "b=heights-b.csv"],
        gauge: "caliper.toml",
        measured: None,
        units: Units::Inch,
    },
];

/// Readings of the checks between cleaning and closing.
const CHECKS: &str = "checks";

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    for example in &SHIPPED {
        let folder = arguments.out.join(example.folder);
        unpack(example.folder, &folder)?;
        output::print(example.story)?;
        report::write(&command(example, &folder))?;
        output::print(format_args!("  {:<28}{}\n", "Input files", folder.display()))?;
    }
    output::print("The whole job on the final drive, by two people, recorded, signed and checked")?;
    unpack(CHECKS, &arguments.out.join(CHECKS))?;
    whole_job::run(&arguments.out, SHIPPED[0].folder)?;
    Ok(ExitCode::SUCCESS)
}

/// Writes the example's files, as they ship.
fn unpack(name: &str, folder: &Path) -> Result<(), Problem> {
    files::make_folder(folder)?;
    let shipped = EXAMPLES.get_dir(name);
    let shipped = shipped.expect("the folder is named beside the examples that are built in");
    for file in shipped.files() {
        let name = file.path().file_name().unwrap_or(file.path().as_os_str());
        files::write(&folder.join(name), file.contents())?;
    }
    Ok(())
}

/// The `report` command that a person would type.
fn command(example: &Example, folder: &Path) -> report::Arguments {
    let in_folder = |readings: &&str| {
        let HalfFile { half, path } =
            half_file(readings).expect("each shipped example names half and file");
        HalfFile { half, path: folder.join(path) }
    };
    report::Arguments {
        joint: folder.join("joint.toml"),
        readings: example.readings.iter().map(in_folder).collect(),
        gauge: Some(folder.join(example.gauge)),
        measured: example.measured.map(|name| folder.join(name)),
        output: folder.join(format!("{}.pdf", example.folder)),
        svg: Some(folder.join("drawings")),
        units: example.units,
        gate: false,
    }
}
