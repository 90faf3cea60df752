//! `ringtrue chill (SEAL.toml | --section ... --inside-diameter ... --material ...)`

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use ringtrue_job::Assessment;
use ringtrue_job::check::{Check, Parts};
use ringtrue_metrology::units::{Angle, Length, Mass, System, duration_text};
use ringtrue_seal::chilling::{Course, Moisture, Outcome, Seat};
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::geometry::FreeToric;

use super::checks::{self, Of, Settings};
use super::output::{duration_u, length, percent, temperature, uncertainty, wrapped};
use super::{Shown, agent, quantity};
use crate::files;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
#[command(group = clap::ArgGroup::new("toric").required(true).args(["seal", "section"]))]
pub(crate) struct Arguments {
    /// A seal file with a toric: its sizes, material and ring
    seal: Option<PathBuf>,
    /// Section diameter of the free toric, without a seal file
    #[arg(long, value_name = "LENGTH", value_parser = quantity::<Length>,
          requires_all = ["inside_diameter", "material"])]
    section: Option<Length>,
    /// Free inside diameter of the toric
    #[arg(long, value_name = "LENGTH", value_parser = quantity::<Length>, requires = "section")]
    inside_diameter: Option<Length>,
    /// ISO 1629 code of a shipped material, or a material file (.toml)
    #[arg(long, value_name = "CODE|FILE", requires = "section")]
    material: Option<String>,
    /// Diameter of the ring's ramp where the mounted toric touches it
    #[arg(long, value_name = "LENGTH", value_parser = quantity::<Length>, requires = "section")]
    seat_diameter: Option<Length>,
    /// Angle of that ramp to the axis
    #[arg(long, value_name = "ANGLE", value_parser = quantity::<Angle>, requires = "seat_diameter")]
    ramp_angle: Option<Angle>,
    /// Mass of the ring
    #[arg(long, value_name = "MASS", value_parser = quantity::<Mass>, requires = "seat_diameter")]
    ring_mass: Option<Mass>,
    #[command(flatten)]
    settings: Settings<Chilling>,
    /// Write the drawing as SVG into this folder
    #[arg(long, value_name = "DIR")]
    svg: Option<PathBuf>,
    #[command(flatten)]
    shown: Shown,
}

#[derive(Debug)]
struct Chilling;

impl Of for Chilling {
    const CHECK: Check = Check::Chilling;
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let assessment = match &arguments.seal {
        Some(path) => of_seal(path, arguments).map_err(|problem| problem.in_file(path))?,
        None => of_sizes(arguments)?,
    };
    checks::hand_out(&assessment, arguments.svg.as_deref(), &arguments.shown)
}

fn of_seal(path: &Path, arguments: &Arguments) -> Result<Assessment, Problem> {
    let seal = files::definition::<Seal>(path)?;
    let material = files::material_of(&seal, path)?;
    let parts = Parts::Half(&seal, material.as_ref());
    checks::assess(Chilling::CHECK, (&[], &arguments.settings.stated), (None, parts))
}

fn of_sizes(arguments: &Arguments) -> Result<Assessment, Problem> {
    let (Some(section_diameter), Some(inside_diameter), Some(material)) =
        (arguments.section, arguments.inside_diameter, &arguments.material)
    else {
        let next = "give --section, --inside-diameter and --material, or a seal file";
        return Err(Problem::input("the toric is not described", next));
    };
    let material = agent::material(material)?;
    let toric = FreeToric { inside_diameter, section_diameter };
    let seat = arguments.seat_diameter.map(|diameter| Seat {
        diameter,
        ramp_angle: arguments.ramp_angle.unwrap_or_default(),
        ring_mass: arguments.ring_mass,
    });
    let parts = Parts::Toric(toric, &material, seat);
    checks::assess(Chilling::CHECK, (&[], &arguments.settings.stated), (None, parts))
}

/// What stands before the step.
const CAUTION: &str = "Deep cold burns skin on touch: insulating gloves and eye shield. Dry ice \
    and cold gases drive out the air: never in a closed room, car or sealed box. The seal maker's \
    instruction and the safety data sheet of a cold liquid stand before this page.";

/// Chilling as lines for a person.
pub(super) fn text(outcome: &Outcome, system: System) -> String {
    let mut text = wrapped("Caution: ", CAUTION);
    let _ = writeln!(text, "Chilling: {}", outcome.verdict);
    for finding in &outcome.findings {
        let line = format!("{}: {}; {}", finding.verdict, finding.found, finding.fits);
        text.push_str(&wrapped(&format!("  {}: ", finding.what), &line));
    }
    text.push_str(&course("Toric alone", &outcome.free, system));
    let _ = writeln!(
        text,
        "  {:<24}{} (u {:.1} K)",
        "mean after 5 min",
        temperature(outcome.mean_temperature_degc_after_5_min, system),
        outcome.mean_temperature_standard_uncertainty_k
    );
    let on_ring = if outcome.ring_assumed {
        "Toric on a ring of two to five times its volume, unstretched: no ring was given"
    } else {
        "Toric on its ring"
    };
    text.push_str(&course(on_ring, &outcome.mounted, system));
    if let Some(lip) = outcome.lip {
        let _ = writeln!(
            text,
            "  {:<24}{} in the room, {} cold through",
            "wider than the lip by",
            length(lip.interference_mm, None, system),
            length(lip.interference_cold_mm, None, system)
        );
    }
    text.push_str(&moisture(outcome, system));
    let rule = &outcome.shop_rule;
    let line = format!(
        "{} ({}). Here 5 min reach {} of the contraction alone, {} on the ring.",
        rule.words,
        rule.source,
        percent(rule.share_free),
        percent(rule.share_mounted)
    );
    text.push_str(&wrapped("Shop rule: ", &line));
    text.push_str("Do not close the joint before core and ring are within 2 K of the room.\n");
    text.push_str("Ranges behind the uncertainty\n");
    for figure in &outcome.figures {
        let unit = if figure.unit == "-" { "" } else { figure.unit };
        let range = format!("{} to {} {unit}", figure.low, figure.high);
        let line = format!("{}: {} ({})", figure.what, range.trim_end(), figure.source);
        text.push_str(&wrapped("  ", &line));
    }
    text.trim_end().to_owned()
}

fn course(title: &str, course: &Course, system: System) -> String {
    let u = course.contraction_standard_uncertainty_mm;
    let contraction = length(course.contraction_mm, Some(u), system);
    let rows = [
        ("contraction at the lip", contraction + &uncertainty(Some(u), system)),
        (
            "95 % of it after",
            duration_u(
                course.time_to_95_percent_s,
                course.time_to_95_percent_standard_uncertainty_s,
            ),
        ),
        (
            "half of it lost after",
            duration_u(course.working_time_s, course.working_time_standard_uncertainty_s),
        ),
        (
            "warm again after",
            duration_u(course.rewarm_time_s, course.rewarm_time_standard_uncertainty_s),
        ),
    ];
    let mut text = format!("{title}\n");
    for (name, value) in rows {
        let _ = writeln!(text, "  {name:<24}{value}");
    }
    if let Some(frost) = course.frost_until_s {
        let _ = writeln!(text, "  {:<24}{}", "frost melts after", duration_text(frost));
    }
    if let Some(dew) = course.dew_until_s {
        let _ = writeln!(text, "  {:<24}{} and more", "takes up water for", duration_text(dew));
    }
    text
}

fn moisture(outcome: &Outcome, system: System) -> String {
    let point = match outcome.dew_point_degc {
        Some(point) => format!("dew point {}", temperature(point, system)),
        None => "no water in the air".to_owned(),
    };
    let words = match outcome.moisture {
        Moisture::Dry => "it stays dry",
        Moisture::Marginal => "within a kelvin of the dew point: it may be wet",
        Moisture::Dew => "dew forms on it in the room",
        Moisture::Frost => "frost forms on it in the room and melts to water",
    };
    let wet = match outcome.moisture {
        Moisture::Dry => "",
        Moisture::Marginal | Moisture::Dew | Moisture::Frost => {
            ". Chill it in a closed bag; wipe toric and ramps dry before they meet"
        }
    };
    wrapped("Water: ", &format!("{words} ({point}){wet}."))
}
