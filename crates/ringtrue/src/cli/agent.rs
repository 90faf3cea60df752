//! `ringtrue agent NAME --material CODE [--bay ... --air-changes ... --amount ...]`

use std::fmt::Write;
use std::path::Path;
use std::process::ExitCode;

use clap::Arg;
use ringtrue_job::check::{Check, Parts, Setting};
use ringtrue_job::evidence;
use ringtrue_metrology::units::{System, duration_text, fixed};
use ringtrue_seal::agents::{Outcome, Vapour, caution};
use ringtrue_seal::definition::material::Material;

use super::Shown;
use super::checks::{self, Of, Settings};
use super::output::{temperature, wrapped};
use crate::files;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    #[command(flatten)]
    settings: Settings<Agents>,
    /// ISO 1629 code of a shipped material, or a material file (.toml)
    #[arg(long, value_name = "CODE|FILE")]
    material: String,
    #[command(flatten)]
    shown: Shown,
}

#[derive(Debug)]
struct Agents;

impl Of for Agents {
    const CHECK: Check = Check::Agents;

    /// The agent itself comes first, without a name before it.
    fn argument(setting: &'static Setting) -> Arg {
        let option = checks::option(setting);
        if setting.name == "agent" { option.long(None).required(true) } else { option }
    }
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let material = material(&arguments.material)?;
    let (stated, parts) = (&arguments.settings.stated[..], Parts::Material(&material));
    let assessment = checks::assess(Agents::CHECK, (&[], stated), (None, parts))?;
    checks::hand_out(&assessment, None, &arguments.shown)
}

/// A shipped material by its code, or a material file.
pub(super) fn material(named: &str) -> Result<Material, Problem> {
    if named.ends_with(".toml") {
        files::material(Path::new(named))
    } else {
        evidence::material_of(named).map_err(Problem::room)
    }
}

/// An agent as lines for a person.
pub(super) fn text(outcome: &Outcome, system: System) -> String {
    let mut text = wrapped("Caution: ", caution());
    let _ = writeln!(
        text,
        "{} on a load ring of {}: {}",
        outcome.what, outcome.material, outcome.verdict
    );
    if let Some(reason) = &outcome.refused_for_toric {
        text.push_str(&wrapped("  Refused for the load ring: ", reason));
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
    if let Some(drying) = &outcome.drying {
        let (likely, by) = (duration_text(drying.median_s), duration_text(drying.dry_by_s));
        row(
            "behind load ring",
            format!("as likely as not gone after {likely}, almost surely after {by}"),
        );
    }
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
    if let Some(vapour) = &outcome.vapour {
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
