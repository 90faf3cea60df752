//! `ringtrue seat SEAL.toml`

use std::fmt::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use ringtrue_job::check::{Check, Parts};
use ringtrue_metrology::units::{System, fixed, force_text};
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::seating::{Edges, Outcome, PastLip, Push, Seated, Surface};

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
    let mut text = wrapped("Caution: ", ringtrue_report::seating_caution());
    let _ = write!(text, "\nSeating: {}", outcome.verdict);
    let mut rows = match &outcome.load_ring {
        Seated::Toric(past) => on_the_ring(past, system),
        Seated::ConicalWasher(edges) => edges_down(edges, system),
    };
    if let (Some(push), Some(method)) = (outcome.push_force_n, outcome.method) {
        let way = match &outcome.load_ring {
            Seated::Toric(past) => past.way.words(),
            Seated::ConicalWasher(_) => "when its edges sit",
        };
        let u = outcome.standard_uncertainty_n;
        let push = force_text(push, u, system);
        let u = u.map_or_else(String::new, |n| format!(" (u {})", force_text(n, u, system)));
        let surface = outcome.surface.word();
        rows.push(("so", format!("{push}{u}, {way}, {surface}")));
        rows.push(("how", method.words().to_owned()));
    }
    if let Some(parts) = outcome.standard_uncertainty_parts_n {
        let mu = &outcome.friction_standard_uncertainty;
        let [modulus, by_friction, mesh] = [parts.modulus, parts.friction, parts.mesh]
            .map(|newton| force_text(newton, outcome.standard_uncertainty_n, system));
        let said = format!(
            "modulus {modulus}, friction {by_friction} (u {}: {}), mesh {mesh}",
            fixed(mu.value, 3),
            mu.origin
        );
        rows.push(("u is made of", said));
    }
    rows.push(("largest stretch", fixed(outcome.max_principal_stretch, 2)));
    for (name, value) in rows {
        let _ = write!(text, "\n  {name:<22}{value}");
    }
    for finding in &outcome.findings {
        let (found, fits) = (&finding.found, &finding.fits);
        let _ = write!(text, "\n  {}: {found}; {fits}: {}", finding.what, finding.verdict);
    }
    for remark in &outcome.remarks {
        let _ = write!(text, "\n{}", wrapped("", remark));
    }
    text
}

fn on_the_ring(past: &PastLip, system: System) -> Vec<(&'static str, String)> {
    let (free, thin) = (past.free_section_mm, past.section_mm);
    let section = length(thin, None, system);
    let mut rows = vec![
        ("stretch on the ring", format!("{} %", fixed(past.stretch_percent, 2))),
        ("section on the ring", format!("{section} of {} free", length(free, None, system))),
    ];
    if let Some(interference) = past.interference_mm {
        let said = length(interference, None, system);
        rows.push(("interference", format!("{said} on the lip's diameter")));
    }
    for push in &past.pushes {
        let name = match push.surface {
            Surface::Dry => "push, dry",
            Surface::Wetted => "push, wetted",
        };
        rows.push((name, pushes(push, system)));
    }
    rows
}

fn edges_down(edges: &Edges, system: System) -> Vec<(&'static str, String)> {
    let long = |mm: f64| length(mm, None, system);
    let mut rows = vec![("just touching at", long(edges.free_height_mm))];
    if let Some(measured) = edges.measured_washer_height_mm {
        let drawn = long(edges.drawn_washer_height_mm);
        rows.push(("washer, measured", format!("{} ({drawn} drawn)", long(measured))));
    }
    if let Some(rests) = edges.rests_at_height_mm {
        rows.push(("under its ring", format!("{}, the ring on top", long(rests))));
    }
    let (sits, down) = (long(edges.sits_at_height_mm), &edges.pressed_down);
    let by = format!("{sits}, pressed down by {} ({})", long(down.value), down.origin);
    rows.push(("edges sit at", by));
    for pressed in &edges.pressed {
        let name = match pressed.surface {
            Surface::Dry => "force, dry",
            Surface::Wetted => "force, wetted",
        };
        let said = pressed.force_n.map_or("not computed".to_owned(), |n| force(n, system));
        rows.push((name, format!("{said} (friction {})", fixed(pressed.friction, 2))));
    }
    if let Some(held) = edges.held_force_n {
        let said = format!("{}, where shoulder and bore let no edge slide", force(held, system));
        rows.push(("force, edges held", said));
    }
    if let Some(formula) = edges.disc_spring_n {
        rows.push((
            "disc-spring formula",
            format!("{} (EN 16984, no friction)", force(formula, system)),
        ));
    }
    rows
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
    force_text(newton, None, system)
}
