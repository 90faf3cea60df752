//! `ringtrue fit MATERIAL.toml`, or `ringtrue fit --uniaxial FILE ... --law ogden --terms 3`

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use ringtrue_job::{Evidence, judge};
use ringtrue_metrology::units::{Fraction, Given, Quantity, fixed, significant};
use ringtrue_report::{Further, check_drawings};
use ringtrue_seal::definition::Number;
use ringtrue_seal::definition::stiffness::{Law, Stiffness, StretchTest, TestMode, terms_fit};
use ringtrue_seal::rubber_law::{Input, Outcome};

use super::checks::{self, Plainly};
use super::output::{percent, wrapped};
use crate::files;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
#[command(group = clap::ArgGroup::new("tests").required(true).multiple(true)
          .args(["file", "uniaxial", "equibiaxial", "planar"]))]
pub(crate) struct Arguments {
    /// A material file with `[stiffness]`: its law and tests
    #[arg(conflicts_with_all = ["uniaxial", "equibiaxial", "planar", "law"])]
    file: Option<PathBuf>,
    /// Tension or compression one way (.csv): stretch and stress_MPa; may be given more than once
    #[arg(long, value_name = "FILE")]
    uniaxial: Vec<PathBuf>,
    /// Stretched two ways alike (.csv)
    #[arg(long, value_name = "FILE")]
    equibiaxial: Vec<PathBuf>,
    /// A wide strip that can't grow narrower (.csv)
    #[arg(long, value_name = "FILE")]
    planar: Vec<PathBuf>,
    /// The law: neo-hooke, mooney-rivlin, yeoh or ogden
    #[arg(long, value_name = "LAW", value_parser = law, default_value = "yeoh")]
    law: Law,
    /// Terms of Ogden's law, 1 to 4
    #[arg(long, value_name = "COUNT", conflicts_with = "file")]
    terms: Option<u32>,
    /// Leave out points beyond this stretch, and below its inverse
    #[arg(long, value_name = "STRETCH", conflicts_with = "file")]
    largest_stretch: Option<f64>,
    /// Standard uncertainty between batches, such as 10%
    #[arg(long, value_name = "SHARE", value_parser = share, conflicts_with = "file")]
    batch: Option<Given<Fraction>>,
    /// Write the plot, and the material with its points in it, into this folder
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
    #[command(flatten)]
    plainly: Plainly,
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let input = match &arguments.file {
        Some(path) => of_material(path)?,
        None => of_files(arguments)?,
    };
    let assessment = judge(&Evidence::RubberLaw(input)).map_err(|error| {
        let problem = Problem::room(error);
        match &arguments.file {
            Some(path) => problem.in_file(path),
            None => problem,
        }
    })?;
    if let Some(folder) = &arguments.out {
        if let Some(further) = Further::of(&assessment.answer) {
            let system = arguments.plainly.shown().units.system();
            files::write_drawings(folder, &check_drawings(&further, system))?;
        }
        if let Some(path) = &arguments.file {
            let whole = files::whole_material(path)?;
            files::write(&folder.join("material.toml"), whole.as_bytes())?;
        }
    }
    checks::hand_out(&assessment, arguments.plainly.svg.as_deref(), &arguments.plainly.shown())
}

fn of_material(path: &Path) -> Result<Input, Problem> {
    let material = files::material(path)?;
    let stiffness = material.stiffness.ok_or_else(|| {
        let next = "add `[stiffness]`: a law and its tests; `ringtrue new material` shows one";
        Problem::input("this material has no stretch tests", next).in_file(path)
    })?;
    Ok(Input { name: material.name, stiffness })
}

fn of_files(arguments: &Arguments) -> Result<Input, Problem> {
    terms_fit(arguments.law, arguments.terms)
        .map_err(|misfit| Problem::input(misfit.found, misfit.fits))?;
    if arguments.largest_stretch.is_some_and(|most| most.is_nan() || most <= 1.0) {
        return Err(Problem::input("the largest stretch is not above 1", "such as 2"));
    }
    let mut tests = Vec::new();
    let mut names = Vec::new();
    for (mode, paths) in [
        (TestMode::Uniaxial, &arguments.uniaxial),
        (TestMode::Equibiaxial, &arguments.equibiaxial),
        (TestMode::Planar, &arguments.planar),
    ] {
        for path in paths {
            let points = files::stretch_test(path)?;
            let points_mpa = points.into_iter().map(|point| point.map(Number)).collect();
            tests.push(StretchTest { mode, file: None, points_mpa });
            names.push(path.display().to_string());
        }
    }
    let source = names.join(", ");
    let stiffness = Stiffness {
        law: arguments.law,
        terms: arguments.terms,
        largest_stretch: arguments.largest_stretch.map(Number),
        batch_standard_uncertainty: arguments.batch.clone(),
        source: source.clone(),
        tests,
    };
    Ok(Input { name: source, stiffness })
}

fn law(word: &str) -> Result<Law, String> {
    Law::ALL.into_iter().find(|law| law.word() == word).ok_or_else(|| {
        let words = Law::ALL.map(Law::word);
        format!("the laws are {}", words.join(", "))
    })
}

fn share(text: &str) -> Result<Given<Fraction>, String> {
    let given = Given::<Fraction>::new(text).map_err(|error| error.to_string())?;
    let within = (0.0..1.0).contains(&given.value().si());
    if within { Ok(given) } else { Err("0 % to below 100 % fits".to_owned()) }
}

/// The law as lines for a person.
pub(super) fn text(outcome: &Outcome) -> String {
    let mut text = format!("Rubber law of {}: {}\n", outcome.name, outcome.verdict);
    let mut row = |name: &str, value: String| {
        let _ = writeln!(text, "  {name:<22}{value}");
    };
    row("law", outcome.law.word().to_owned());
    for constant in &outcome.constants {
        let (value, u) = (constant.value, constant.standard_uncertainty);
        let unit = constant.unit;
        let value = format!("{} {unit}", significant(value, 5));
        row(&constant.name, format!("{} (u {})", value.trim_end(), significant(u, 2)));
    }
    row("Young's modulus", format!("{} MPa at zero strain", significant(outcome.young_mpa, 4)));
    for test in &outcome.tests {
        let rms = fixed(test.rms_mpa, 4);
        row(test.mode.word(), format!("{} points, off by {rms} MPa rms", test.points.len()));
    }
    row("off by", format!("{} MPa rms over all", fixed(outcome.rms_mpa, 4)));
    let u = percent(outcome.relative_standard_uncertainty);
    row("stress known to", format!("{u}, where a load ring works (standard uncertainty)"));
    row("stability", outcome.stable.found.clone());
    row("holds", outcome.holds());
    for remark in &outcome.remarks {
        text.push_str(&wrapped("  ", remark));
    }
    text.trim_end().to_owned()
}
