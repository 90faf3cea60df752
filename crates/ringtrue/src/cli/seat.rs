//! `ringtrue seat SEAL.toml`

use std::fmt::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use ringtrue_job::check::{Check, Parts};
use ringtrue_metrology::units::{System, fixed};
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::seating::{Outcome, Push};

use super::Shown;
use super::checks::{self, Of, Settings};
use super::output::{length, wrapped};
use crate::files;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    /// A seal file
    seal: PathBuf,
    #[command(flatten)]
    settings: Settings<Seating>,
    /// Write the drawing as SVG into this folder
    #[arg(long, value_name = "DIR")]
    svg: Option<PathBuf>,
    #[command(flatten)]
    shown: Shown,
}

#[derive(Debug)]
struct Seating;

impl Of for Seating {
    const CHECK: Check = Check::Seating;
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let path = &arguments.seal;
    let seal = files::definition::<Seal>(path)?;
    let material = files::material_of(&seal, path)?;
    let parts = Parts::Half(&seal, material.as_ref());
    let given = (&[][..], &arguments.settings.stated[..]);
    let assessment = checks::assess(Seating::CHECK, given, (None, parts))
        .map_err(|problem| problem.in_file(path))?;
    checks::hand_out(&assessment, arguments.svg.as_deref(), &arguments.shown)
}

/// The seating as lines for a person.
pub(super) fn text(outcome: &Outcome, system: System) -> String {
    let caution = ringtrue_report::SEATING_CAUTION;
    let mut text = wrapped("Caution: ", caution);
    let _ = write!(text, "\nSeating: {}", outcome.verdict);
    let mut row = |name: &str, value: String| {
        let _ = write!(text, "\n  {name:<22}{value}");
    };
    row("stretch on the ring", format!("{} %", fixed(outcome.stretch_percent, 2)));
    let (free, thin) = (outcome.free_section_mm, outcome.section_mm);
    let section = length(thin, None, system);
    row("section on the ring", format!("{section} of {} free", length(free, None, system)));
    if let Some(interference) = outcome.interference_mm {
        let said = length(interference, None, system);
        row("interference", format!("{said} on the lip's diameter"));
    }
    for push in &outcome.pushes {
        row(&format!("push, {}", push.surface.word()), pushes(push, system));
    }
    if let (Some(push), Some(method)) = (outcome.push_force_n, outcome.method) {
        let (way, surface) = (outcome.way.words(), outcome.surface.word());
        let u = outcome.standard_uncertainty_n;
        let u = u.map_or_else(String::new, |u| format!(" (u {})", force(u, system)));
        row("so", format!("{}{u}, {way}, {surface}", force(push, system)));
        row("how", method.words().to_owned());
    }
    row("largest stretch", fixed(outcome.max_principal_stretch, 2));
    for finding in &outcome.findings {
        let (found, fits) = (&finding.found, &finding.fits);
        let _ = write!(text, "\n  {}: {found}; {fits}: {}", finding.what, finding.verdict);
    }
    for remark in &outcome.remarks {
        let _ = write!(text, "\n{}", wrapped("", remark));
    }
    text
}

fn pushes(push: &Push, system: System) -> String {
    let friction = fixed(push.friction, 2);
    match (push.all_round_n, push.one_side_n) {
        (Some(all_round), Some(one_side)) => format!(
            "{} all round, {} at one side (friction {friction})",
            force(all_round, system),
            force(one_side, system),
        ),
        (None, _) | (_, None) => format!("{} (friction {friction})", push.fate.words()),
    }
}

fn force(newton: f64, system: System) -> String {
    format!("{} {}", fixed(system.force_from_n(newton), 0), system.force_symbol())
}
