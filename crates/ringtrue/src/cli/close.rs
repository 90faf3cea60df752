//! `ringtrue close JOINT.toml [--feeler READINGS.csv] [--bolts N]`

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use ringtrue_job::check::{Check, Parts};
use ringtrue_job::{Answer, Evidence, evidence};
use ringtrue_metrology::units::{System, fixed};
use ringtrue_seal::closing::{Extreme, GapRound, Load, Outcome, PullDown, caution};
use ringtrue_seal::definition::gauge::Gauge;
use ringtrue_seal::gap_stack;

use super::checks::{self, Of, Settings};
use super::output::{length, line_load, percent, uncertainty, wrapped};
use super::{Shown, load};
use crate::curves::Curves;
use crate::files::{self, JointOnDisk};
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    /// The joint file: gap limits, and the load rings that give the closing force
    joint: PathBuf,
    /// Feeler readings round the closed joint (.csv): angle_deg (counter-clockwise facing half b)
    /// and gap_mm or gap_in
    #[arg(long, value_name = "FILE")]
    feeler: Option<PathBuf>,
    /// The gauge file of the feelers
    #[arg(long, value_name = "FILE", conflicts_with = "uncertainty")]
    gauge: Option<PathBuf>,
    #[command(flatten)]
    settings: Settings<Closing>,
    /// Leave closing force and face load out: nothing is solved
    #[arg(long)]
    without_load: bool,
    /// Write the drawing as SVG into this folder
    #[arg(long, value_name = "DIR")]
    svg: Option<PathBuf>,
    #[command(flatten)]
    shown: Shown,
}

#[derive(Debug)]
struct Closing;

impl Of for Closing {
    const CHECK: Check = Check::Closing;
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let on_disk = files::joint(&arguments.joint)?;
    let gauge = arguments.gauge.as_deref().map(files::definition::<Gauge>).transpose()?;
    let parts = Parts::Joint(&on_disk.joint, [None; 2]);
    let given = (arguments.feeler.as_slice(), &arguments.settings.stated[..]);
    let mut made = checks::evidence(Closing::CHECK, given, (gauge.as_ref(), parts))?;
    let file = given.0.first().unwrap_or(&arguments.joint);
    if !arguments.without_load {
        if arguments.feeler.is_some() || !given.1.is_empty() {
            // What is refused is refused before anything is solved.
            checks::judged(&made, file)?;
        }
        let load = curve(&on_disk, &arguments.joint)?;
        if let Evidence::Closing(input) = &mut made {
            input.load = Some(load);
        }
    }
    let assessment = checks::judged(&made, file)?;
    checks::hand_out(&assessment, arguments.svg.as_deref(), &arguments.shown)
}

/// The load curve of a joint, kept or solved.
pub(super) fn curve(on_disk: &JointOnDisk, path: &Path) -> Result<Load, Problem> {
    let joint = &on_disk.joint;
    let room = |error| Problem::room(error).in_file(path);
    let chain = evidence::joint_gap(joint, None).map_err(room)?;
    let nominal = gap_stack::nominal(&chain).map_err(room)?;
    let input = evidence::joint_load(joint, on_disk.materials(), nominal, None).map_err(room)?;
    let assessment = load::assess(input, &Curves::kept(), path)?;
    let Answer::FaceLoad(outcome) = &assessment.answer else {
        unreachable!("loads are answered by the loads' room")
    };
    Ok(Load::of(&outcome.joint))
}

/// The closing as lines for a person.
pub(super) fn text(outcome: &Outcome, system: System) -> String {
    let mut text = wrapped("Caution: ", caution());
    if let Some(pull) = &outcome.pull_down {
        text.push_str(&pull_down(pull, system));
    }
    if !outcome.closing_force.is_empty() {
        text.push_str("Closing force over the gap\n");
        let points = &outcome.closing_force;
        // Some ten of them are enough for a person; the JSON has all.
        let every = points.len().div_ceil(10).max(1);
        for point in points.iter().rev().step_by(every).collect::<Vec<_>>().into_iter().rev() {
            let gap = length(point.gap_mm, None, system);
            let load = line_load(point.face_load_n_per_mm, None, system);
            let force = load::closing_force(point.force_n, system);
            let _ = writeln!(text, "  {gap:<12}{load:<14}{force}");
        }
    }
    if let Some(gap) = &outcome.gap {
        let _ = writeln!(text, "Gap of the closed joint: {}", outcome.verdict);
        text.push_str(&round(gap, outcome, system));
    }
    for (index, action) in outcome.actions.iter().enumerate() {
        if index == 0 {
            text.push_str("What to do\n");
        }
        text.push_str(&wrapped(&format!("  {}. ", index + 1), action));
    }
    text.trim_end().to_owned()
}

fn pull_down(pull: &PullDown, system: System) -> String {
    let order: Vec<String> = pull.order.iter().map(ToString::to_string).collect();
    let mut text = format!("Pull-down order ({})\n", pull.source);
    text.push_str(&wrapped("  ", &order.join(" ")));
    for step in &pull.steps {
        let gap = step.gap_mm.map_or(String::new(), |gap| {
            format!(", to a gap of {} all round", length(gap, None, system))
        });
        let force = step.force_per_bolt_n.map_or(String::new(), |force| {
            format!("; each bolt then carries {}", load::closing_force(force, system))
        });
        let share = fixed(step.share_percent, 0);
        let _ = writeln!(text, "  step {}: {share} % of the way{gap}{force}", step.step);
    }
    text
}

fn round(gap: &GapRound, outcome: &Outcome, system: System) -> String {
    let mut text = String::new();
    let mut row = |name: &str, value: String| {
        let _ = writeln!(text, "  {name:<18}{value}");
    };
    let u = gap.mean_standard_uncertainty_mm;
    row("mean", length(gap.mean_mm, u, system) + &uncertainty(u, system));
    row("narrowest", extreme(&gap.narrowest, system));
    row("widest", extreme(&gap.widest, system));
    let u = gap.out_of_parallel_standard_uncertainty_mm;
    let mut parallel = length(gap.out_of_parallel_mm, u, system) + &uncertainty(u, system);
    match gap.direction_standard_uncertainty_deg {
        Some(u) => {
            let at = fixed(gap.widest.angle_deg, 0);
            let _ = write!(parallel, ", widest at {at} deg (u {} deg)", fixed(u, 0));
        }
        None => parallel.push_str(", its direction is not resolved"),
    }
    row("out of parallel", parallel);
    if let Some(mrad) = gap.tilt_mrad {
        let u = gap
            .tilt_standard_uncertainty_mrad
            .map_or(String::new(), |u| format!(" (u {} mrad)", fixed(u, 2)));
        row("tilt", format!("{} mrad{u}", fixed(mrad, 2)));
    }
    let limit = |limit: Option<f64>| limit.map_or("none".to_owned(), |x| length(x, None, system));
    let (min, max) = (limit(outcome.gap_limit_min_mm), limit(outcome.gap_limit_max_mm));
    let within = gap
        .probability_conforms
        .map_or(String::new(), |p| format!(", within them with probability {}", percent(p)));
    row("limits", format!("{min} to {max}{within}"));
    text
}

fn extreme(one: &Extreme, system: System) -> String {
    let u = one.standard_uncertainty_mm;
    let gap = length(one.gap_mm, u, system) + &uncertainty(u, system);
    let at = fixed(one.angle_deg, 0);
    let load = one.face_load_n_per_mm.map_or(String::new(), |load| {
        let u = one.face_load_standard_uncertainty_n_per_mm;
        let known = u.map_or(String::new(), |u| format!(" (u {})", line_load(u, Some(u), system)));
        format!(", face load {}{known}", line_load(load, u, system))
    });
    format!("{gap} at {at} deg{load}")
}
