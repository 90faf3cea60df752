//! `ringtrue load JOINT.toml|SEAL.toml`

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use ringtrue_job::{Answer, Assessment, Curves as _, evidence, judge_load};
use ringtrue_metrology::units::{System, fixed};
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::definition::{self, Kind};
use ringtrue_seal::face_load::{GapLoad, HalfOutcome, Input, Outcome};
use ringtrue_seal::gap_stack;

use super::output::{length as shown, line_load};
use super::{Shown, friction, output};
use crate::curves::Curves;
use crate::files;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    /// A joint file, or a seal file: a seal is taken closed against its like
    file: PathBuf,
    /// Friction on both sides: a coefficient, or no-slip, in the place of which steel slides with
    /// 0.15
    #[arg(long, value_name = "COEFFICIENT", default_value = "no-slip", value_parser = friction)]
    friction: super::Friction,
    /// Solve again, and keep nothing
    #[arg(long)]
    fresh: bool,
    /// Write the section at six stages and the load curve into this folder
    #[arg(long, value_name = "DIR")]
    svg: Option<PathBuf>,
    #[command(flatten)]
    shown: Shown,
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let path = &arguments.file;
    let input = input(path, arguments.friction.0)?;
    let curves = if arguments.fresh { Curves::not_kept() } else { Curves::kept() };
    let assessment = assess(input, &curves, path)?;
    let outcome = outcome(&assessment);
    let system = arguments.shown.units.system();
    if let Some(folder) = &arguments.svg {
        files::make_folder(folder)?;
        for drawing in ringtrue_report::load_drawings(outcome, system) {
            files::write(&folder.join(format!("{}.svg", drawing.name)), drawing.svg.as_bytes())?;
        }
    }
    if arguments.shown.json {
        output::json(&assessment)?;
    } else {
        output::print(text(outcome, system))?;
    }
    if !outcome.complete {
        let what =
            format!("the load curve was not solved to its end: {}", outcome.remarks.join("; "));
        return Err(Problem::not_completed(what, "no verdict is drawn; check the seal's sizes"));
    }
    Ok(arguments.shown.exit(outcome.verdict))
}

/// The loads of a joint's halves at a nominal gap.
pub(super) fn assess(input: Input, curves: &Curves, path: &Path) -> Result<Assessment, Problem> {
    judge_load(&input, &mut |problems| curves.of(problems))
        .map_err(|error| Problem::room(error).in_file(path))
}

fn input(path: &Path, friction: Option<f64>) -> Result<Input, Problem> {
    let text = files::text(path)?;
    let room = |error| Problem::room(error).in_file(path);
    match definition::kind_of(&text).map_err(|error| Problem::text(path, error))? {
        Kind::Seal => {
            let seal: Seal = files::parse(path, &text)?;
            let material = files::material_of(&seal, path)?;
            evidence::seal_load(&seal, material.as_ref(), friction).map_err(room)
        }
        Kind::Joint => {
            let on_disk = files::assemble(path, files::parse(path, &text)?)?;
            let joint = &on_disk.joint;
            let chain = evidence::joint_gap(joint, None).map_err(room)?;
            let nominal = gap_stack::nominal(&chain).map_err(room)?;
            evidence::joint_load(joint, on_disk.materials(), nominal, friction).map_err(room)
        }
        kind @ (Kind::Gauge | Kind::Material | Kind::Procedure | Kind::Squeeze) => {
            let what = format!("this is a {} file", kind.name());
            Err(Problem::input(what, "a joint or seal file is wanted here").in_file(path))
        }
    }
}

/// The loads' outcome of an assessment of loads.
pub(super) fn outcome(assessment: &Assessment) -> &Outcome {
    let Answer::FaceLoad(outcome) = &assessment.answer else {
        unreachable!("loads are answered by the loads' room")
    };
    outcome
}

/// The loads as lines for a person.
pub(super) fn text(outcome: &Outcome, system: System) -> String {
    let mut text = format!("Face load: {}\n", outcome.verdict);
    let joint = &outcome.joint;
    if joint.alike {
        text.push_str("  one seal, taken closed against its like\n");
    }
    for (name, load) in [
        ("smallest gap", joint.at_gap.min),
        ("nominal gap", joint.at_gap.nominal),
        ("largest gap", joint.at_gap.max),
    ] {
        let line = load.map_or("not reached".to_owned(), |load| gap_line(&load, system));
        let _ = writeln!(text, "  {name:<20}{line}");
    }
    let limit =
        |limit: Option<f64>| limit.map_or("none".to_owned(), |x| line_load(x, None, system));
    let (low, high) = (limit(joint.face_load_min_n_per_mm), limit(joint.face_load_max_n_per_mm));
    let _ = writeln!(text, "  {:<20}{low} to {high}", "limits");
    let band = shown(joint.band_mean_diameter_mm, None, system);
    let _ = writeln!(text, "  {:<20}at the contact band's mean diameter, {band}", "stated");
    if let Some(force) = outcome.closing_force_n {
        let force = closing_force(force, system);
        let _ = writeln!(
            text,
            "  {:<20}{force} at the nominal gap, from bolts or a press",
            "closing force"
        );
    }
    for half in &outcome.halves {
        text.push_str(&half_text(half, system));
    }
    text.push_str(
        "Caution: the load rings push the halves apart. Draw them together and let them go evenly, \
         with\nlong bolts or a press rated for it; keep hands from between the halves.\n",
    );
    for remark in &outcome.remarks {
        let _ = writeln!(text, "{remark}");
    }
    text.trim_end().to_owned()
}

fn half_text(half: &HalfOutcome, system: System) -> String {
    let mut text = format!("Half {}\n", half.half.name());
    let mut row = |name: &str, value: String| {
        let _ = writeln!(text, "  {name:<20}{value}");
    };
    row("free height", shown(half.free_height_mm, None, system));
    if let Some(height) = half.height_at_nominal_gap_mm {
        row("height when closed", shown(height, None, system));
    }
    if let Some(modulus) = &half.modulus {
        let percent = fixed(100.0 * modulus.relative_standard_uncertainty, 0);
        row("modulus", format!("{} MPa (u {percent} %)", fixed(modulus.young_mpa, 2)));
    }
    row("largest roll", format!("{} deg", fixed(half.largest_roll_deg, 0)));
    row("largest stretch", fixed(half.largest_stretch, 2));
    if let Some(stretch) = &half.stretch_at_break {
        let [least, most] = stretch.elongation_at_break_percent.map(|x| fixed(x, 0));
        let share = fixed(100.0 * stretch.share, 0);
        let breaks = if least == most { least } else { format!("{least} to {most}") };
        let verdict = stretch.finding.verdict;
        let value = format!(
            "{} at most, {share} % of the least elongation at break ({breaks} %): {verdict}",
            fixed(stretch.max_principal_stretch, 2)
        );
        row("against break", value);
        row("", format!("[{}]", stretch.finding.sources.join("; ")));
    }
    if let Some(finding) = &half.stress_at_yield {
        row("against yield", format!("{}; {}: {}", finding.found, finding.fits, finding.verdict));
    }
    if let Some(travel) = half.slides_from_travel_mm {
        row("slides from", format!("a travel of {}", shown(travel, None, system)));
    }
    if let Some(slip) = half.slip_friction {
        row("rolls above", format!("a friction coefficient of {} all round", fixed(slip, 3)));
    }
    if let Some(clearance) = half.lip_clearance_mm {
        row("clear of the lip", shown(clearance, None, system));
    }
    text
}

/// The load at a gap, on one line.
pub(super) fn gap_line(load: &GapLoad, system: System) -> String {
    let u = load.standard_uncertainty_n_per_mm;
    format!(
        "{}: {} (u {}), {} MPa on the band",
        shown(load.gap_mm, None, system),
        line_load(load.face_load_n_per_mm, Some(u), system),
        line_load(u, Some(u), system),
        fixed(load.face_pressure_mpa, 2),
    )
}

pub(super) fn closing_force(newton: f64, system: System) -> String {
    // Three digits are more than the modulus leaves known.
    format!("{} {}", fixed(system.force_from_n(newton), 0), system.force_symbol())
}
