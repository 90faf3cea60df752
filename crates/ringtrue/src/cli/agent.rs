//! `ringtrue agent NAME --material CODE [--bay ... --air-changes ... --amount ...]`

use std::fmt::Write;
use std::path::Path;
use std::process::ExitCode;

use ringtrue_job::{Answer, Evidence, evidence, judge};
use ringtrue_metrology::units::{System, Temperature, Volume, clip, fixed, parse_number};
use ringtrue_seal::agents::{Agent, CAUTION, Input, Outcome, Use, Vapour, named, nearest, shipped};
use ringtrue_seal::definition::material::Material;

use super::output::{temperature, wrapped};
use super::{Shown, output, quantity};
use crate::files;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    /// A generic substance, such as isopropyl-alcohol
    #[arg(value_parser = agent)]
    name: &'static Agent,
    /// ISO 1629 code of a shipped material, or a material file (.toml)
    #[arg(long, value_name = "CODE|FILE")]
    material: String,
    /// Volume of the bay, such as "60 m3"
    #[arg(long, value_name = "VOLUME", value_parser = quantity::<Volume>,
          requires_all = ["air_changes", "amount"])]
    bay: Option<Volume>,
    /// Air changes an hour
    #[arg(long, value_name = "NUMBER", value_parser = number, requires = "bay")]
    air_changes: Option<f64>,
    /// Liquid that is used, all of which evaporates, such as "30 ml"
    #[arg(long, value_name = "VOLUME", value_parser = quantity::<Volume>, requires = "bay")]
    amount: Option<Volume>,
    /// Temperature of the shop
    #[arg(long, value_name = "TEMPERATURE", value_parser = quantity::<Temperature>,
          default_value = "20 degC")]
    room: Temperature,
    #[command(flatten)]
    shown: Shown,
}

fn agent(name: &str) -> Result<&'static Agent, String> {
    named(name).ok_or_else(|| {
        let hint = nearest(name).map_or(String::new(), |near| format!("did you mean `{near}`? "));
        let names: Vec<&str> = shipped().iter().map(|agent| agent.name.as_str()).collect();
        format!("`{}` is no agent known here; {hint}known are {}", clip(name), names.join(", "))
    })
}

fn number(text: &str) -> Result<f64, String> {
    parse_number(text).map_err(|error| error.to_string())
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let material = if arguments.material.ends_with(".toml") {
        files::definition::<Material>(Path::new(&arguments.material))?
    } else {
        evidence::material_of(&arguments.material).map_err(Problem::room)?
    };
    let used = arguments.bay.zip(arguments.air_changes).zip(arguments.amount);
    let use_in =
        used.map(|((bay, air_changes_per_hour), amount)| Use { bay, air_changes_per_hour, amount });
    let input = Input { agent: arguments.name, material, room: arguments.room, use_in };
    let assessment = judge(&Evidence::Agents(input)).map_err(Problem::room)?;
    let Answer::Agents(outcome) = &assessment.answer else {
        unreachable!("an agent is answered by the agents' room")
    };
    if arguments.shown.json {
        output::json(&assessment)?;
    } else {
        output::print(text(outcome, arguments.shown.units.system()))?;
    }
    Ok(arguments.shown.exit(outcome.verdict))
}

/// An agent as lines for a person.
pub(super) fn text(outcome: &Outcome, system: System) -> String {
    let mut text = wrapped("Caution: ", CAUTION);
    let _ =
        writeln!(text, "{} on a toric of {}: {}", outcome.what, outcome.material, outcome.verdict);
    if let Some(reason) = &outcome.refused_for_toric {
        text.push_str(&wrapped("  Refused for the toric: ", reason));
    }
    for finding in &outcome.findings {
        let sources = finding.sources.join("; ");
        let source = if sources.is_empty() { String::new() } else { format!(" [{sources}]") };
        let line = format!("{}: {}; {}{source}", finding.verdict, finding.found, finding.fits);
        text.push_str(&wrapped(&format!("  {}: ", finding.what), &line));
    }
    let immersion = &outcome.immersion;
    let beside = format!("{}: {} (beside the verdict)", immersion.verdict, immersion.found);
    text.push_str(&wrapped("  long immersion: ", &beside));
    let mut row = |name: &str, value: String| {
        let _ = writeln!(text, "  {name:<18}{value}");
    };
    row("evaporation", outcome.evaporation.words().to_owned());
    if let Some((flash, lit)) = outcome.flash_point_degc.zip(outcome.ignitable_at_room) {
        let words = if lit {
            "at or below this shop's temperature: a wet wipe can be lit"
        } else {
            "above this shop's temperature; a warm part lights it too"
        };
        row("flash point", format!("{}, {words}", temperature(flash, system)));
    }
    if let Some(percent) = outcome.lower_explosive_limit_percent {
        let over = outcome.saturated_times_lower_explosive_limit.map_or(String::new(), |times| {
            format!("; over a wet wipe {} times that", fixed(times, 1))
        });
        row("explosive from", format!("{} % in air{over}", fixed(percent, 2)));
    }
    if let Some(heavy) = outcome.vapour_over_air {
        row("vapour", format!("{} times as heavy as air: it lies at the floor", fixed(heavy, 1)));
    }
    if let Some(vapour) = outcome.vapour.as_ref().filter(|vapour| vapour.vapour_l > 0.0) {
        for (name, value) in in_bay(vapour) {
            row(name, value);
        }
    }
    row("throw away", outcome.disposal.to_owned());
    text.push_str("Figures\n");
    for figure in &outcome.figures {
        text.push_str(&wrapped(
            "  ",
            &format!("{}: {} ({})", figure.what, figure.value, figure.source),
        ));
    }
    text.trim_end().to_owned()
}

fn in_bay(vapour: &Vapour) -> Vec<(&'static str, String)> {
    let mut rows = vec![(
        "in the bay",
        format!(
            "{} l of vapour; {} ppm at once, {} ppm over 15 min, {} ppm over 8 h",
            fixed(vapour.vapour_l, 1),
            fixed(vapour.concentration_ppm, 0),
            fixed(vapour.fifteen_minute_mean_ppm, 0),
            fixed(vapour.eight_hour_mean_ppm, 0)
        ),
    )];
    if let Some(air) = vapour.air_to_25_percent_of_lower_explosive_limit_m3 {
        rows.push(("air at least", format!("{} m3 for 25 % of that limit", fixed(air, 1))));
    }
    if let Some(air) = vapour.ventilation_to_exposure_limit_m3_per_h {
        rows.push(("ventilation", format!("{} m3/h if as much is used every hour", fixed(air, 0))));
    }
    rows
}
