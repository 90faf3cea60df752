//! `ringtrue chill (SEAL.toml | --section ... --inside-diameter ... --material ...)`

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::ValueEnum;
use ringtrue_job::evidence::{self, Cold};
use ringtrue_job::{Answer, Evidence, judge};
use ringtrue_metrology::units::{
    Angle, Fraction, HeatTransferCoefficient, Length, Mass, System, Temperature, Velocity,
    duration_text,
};
use ringtrue_report::{Further, check_drawings};
use ringtrue_seal::chilling::{Course, Input, Medium, Moisture, Outcome, Seat};
use ringtrue_seal::definition::material::Material;
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::geometry::FreeToric;

use super::output::{duration_u, length, percent, temperature, uncertainty, wrapped};
use super::{Shown, output, quantity};
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
    /// What it is cooled in
    #[arg(long, value_enum)]
    medium: MediumName,
    /// Temperature of the medium
    #[arg(long, value_name = "TEMPERATURE", value_parser = quantity::<Temperature>)]
    cold: Temperature,
    /// Temperature of the room
    #[arg(long, value_name = "TEMPERATURE", value_parser = quantity::<Temperature>)]
    room: Temperature,
    /// Relative humidity of the room's air
    #[arg(long, value_name = "SHARE", value_parser = quantity::<Fraction>)]
    humidity: Fraction,
    /// Speed of moving air at the toric
    #[arg(long, value_name = "SPEED", value_parser = quantity::<Velocity>)]
    air_speed: Option<Velocity>,
    /// Heat transfer coefficient in the medium, in place of the computed one
    #[arg(long, value_name = "COEFFICIENT", value_parser = quantity::<HeatTransferCoefficient>)]
    coefficient: Option<HeatTransferCoefficient>,
    /// Heat transfer coefficient in the room's air, in place of the computed one
    #[arg(long, value_name = "COEFFICIENT", value_parser = quantity::<HeatTransferCoefficient>)]
    room_coefficient: Option<HeatTransferCoefficient>,
    /// Write the drawing as SVG into this folder
    #[arg(long, value_name = "DIR")]
    svg: Option<PathBuf>,
    #[command(flatten)]
    shown: Shown,
}

/// What a toric is cooled in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum MediumName {
    /// A closed freezer without a fan
    StillAir,
    /// Air that a fan moves
    MovingAir,
    /// A stirred cold liquid that the rubber stands
    Liquid,
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let cold = cold(arguments)?;
    let (input, file) = match &arguments.seal {
        Some(path) => (of_seal(path, cold)?, Some(path)),
        None => (of_sizes(arguments, cold)?, None),
    };
    let placed = |problem: Problem| match file {
        Some(path) => problem.in_file(path),
        None => problem,
    };
    let assessment = judge(&Evidence::Chilling(input)).map_err(|e| placed(Problem::room(e)))?;
    let Answer::Chilling(outcome) = &assessment.answer else {
        unreachable!("chilling is answered by the chilling room")
    };
    if let Some(folder) = &arguments.svg {
        files::write_drawings(
            folder,
            &check_drawings(&Further::Chilling(outcome), arguments.shown.units.system()),
        )?;
    }
    if arguments.shown.json {
        output::json(&assessment)?;
    } else {
        output::print(text(outcome, arguments.shown.units.system()))?;
    }
    Ok(arguments.shown.exit(outcome.verdict))
}

fn cold(arguments: &Arguments) -> Result<Cold, Problem> {
    let medium = match (arguments.medium, arguments.air_speed) {
        (MediumName::StillAir, None) => Medium::StillAir,
        (MediumName::Liquid, None) => Medium::Liquid,
        (MediumName::MovingAir, speed) => Medium::MovingAir { speed },
        (MediumName::StillAir | MediumName::Liquid, Some(_)) => {
            let next = "leave --air-speed out, or say --medium moving-air";
            return Err(Problem::input("only moving air has an air speed", next));
        }
    };
    Ok(Cold {
        medium,
        coefficient: arguments.coefficient,
        room_coefficient: arguments.room_coefficient,
        cold: arguments.cold,
        room: arguments.room,
        humidity: arguments.humidity,
    })
}

fn of_seal(path: &Path, cold: Cold) -> Result<Input, Problem> {
    let seal = files::definition::<Seal>(path)?;
    let material = files::material_of(&seal, path)?;
    evidence::chilled_seal(&seal, material, cold)
        .map_err(|error| Problem::room(error).in_file(path))
}

fn of_sizes(arguments: &Arguments, cold: Cold) -> Result<Input, Problem> {
    let (Some(section_diameter), Some(inside_diameter), Some(material)) =
        (arguments.section, arguments.inside_diameter, &arguments.material)
    else {
        let next = "give --section, --inside-diameter and --material, or a seal file";
        return Err(Problem::input("the toric is not described", next));
    };
    let material = if material.ends_with(".toml") {
        files::definition::<Material>(Path::new(material))?
    } else {
        evidence::material_of(material).map_err(Problem::room)?
    };
    let toric = FreeToric { inside_diameter, section_diameter };
    let mut input = evidence::chilled_toric(toric, material, cold);
    input.seat = arguments.seat_diameter.map(|diameter| Seat {
        diameter,
        ramp_angle: arguments.ramp_angle.unwrap_or_default(),
        ring_mass: arguments.ring_mass,
    });
    Ok(input)
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
