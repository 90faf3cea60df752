//! `ringtrue height READINGS.csv`

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::ArgGroup;
use ringtrue_job::evidence::{self, HeightBasis};
use ringtrue_job::{Answer, Assessment, Evidence, judge, reading};
use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{Length, System, fixed};
use ringtrue_seal::assembled_height::{Action, Deed, Outcome};
use ringtrue_seal::definition::gauge::Gauge;
use ringtrue_seal::definition::seal::Seal;

use super::output::{length as shown, percent, uncertainty};
use super::{Shown, length, output};
use crate::files;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
#[command(group = ArgGroup::new("basis").required(true).multiple(true).args(["seal", "limit"]))]
pub(crate) struct Arguments {
    /// Readings (.csv): angle_deg (counter-clockwise facing the lapped face, 0 at the paint mark),
    /// height_mm or height_in, and round where a place is read more than once
    readings: PathBuf,
    /// The seal file: limits, measuring diameter, load ring
    #[arg(long, value_name = "FILE")]
    seal: Option<PathBuf>,
    /// Largest range round the ring, in place of the seal's
    #[arg(long, value_name = "LENGTH", value_parser = length)]
    limit: Option<Length>,
    /// Diameter of the circle on which the heights are read, in place of the seal's
    #[arg(long, value_name = "LENGTH", value_parser = length)]
    diameter: Option<Length>,
    /// The gauge file
    #[arg(long, value_name = "FILE", conflicts_with = "uncertainty")]
    gauge: Option<PathBuf>,
    /// Standard uncertainty of one reading, the part that differs from reading to reading
    #[arg(long, value_name = "LENGTH", value_parser = length)]
    uncertainty: Option<Length>,
    #[command(flatten)]
    shown: Shown,
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let seal: Option<Seal> =
        arguments.seal.as_deref().map(files::definition::<Seal>).transpose()?;
    let gauge = arguments.gauge.as_deref().map(files::definition::<Gauge>).transpose()?;
    let basis = HeightBasis {
        seal: seal.as_ref(),
        range_limit: arguments.limit,
        measuring_diameter: arguments.diameter,
        gauge: gauge.as_ref(),
        stated_uncertainty: arguments.uncertainty,
        this_try: None,
    };
    let assessment = assess(&arguments.readings, basis)?;
    let outcome = outcome(&assessment);
    if arguments.shown.json {
        output::json(&assessment)?;
    } else {
        output::print(text(outcome, arguments.shown.units.system()))?;
    }
    Ok(arguments.shown.exit(outcome.verdict))
}

/// Reads a file of heights and judges it.
pub(super) fn assess(path: &Path, basis: HeightBasis<'_>) -> Result<Assessment, Problem> {
    let readings =
        reading::heights(&files::text(path)?).map_err(|error| Problem::text(path, error))?;
    let input = evidence::heights(readings, basis);
    judge(&Evidence::AssembledHeight(input)).map_err(|error| Problem::room(error).in_file(path))
}

/// The heights' outcome of an assessment of heights.
pub(super) fn outcome(assessment: &Assessment) -> &Outcome {
    let Answer::AssembledHeight(outcome) = &assessment.answer else {
        unreachable!("heights are answered by the heights' room")
    };
    outcome
}

/// The heights as lines for a person.
pub(super) fn text(outcome: &Outcome, system: System) -> String {
    let mut text = format!("Assembled height: {}\n", outcome.verdict);
    let mut row = |name: &str, value: String| {
        let _ = writeln!(text, "  {name:<18}{value}");
    };
    row("range", range(outcome, system));
    let mean_u = outcome.mean_height_standard_uncertainty_mm;
    let mean = shown(outcome.mean_height_mm, mean_u, system);
    let mean = format!("{mean}{}", uncertainty(mean_u, system));
    row("mean height", mean + &mean_limits(outcome, system));
    row("tilt", tilt(outcome, system));
    if let Some(second) = outcome.second_harmonic_mm {
        let u = outcome.second_harmonic_standard_uncertainty_mm;
        row("second harmonic", shown(second, u, system) + &uncertainty(u, system));
    }
    if !outcome.suspects.is_empty() {
        let places: Vec<String> =
            outcome.suspects.iter().map(|angle| format!("{} deg", fixed(*angle, 0))).collect();
        row("bulge or twist?", format!("at {}", places.join(", ")));
    }
    for (index, action) in outcome.actions.iter().enumerate() {
        if index == 0 {
            text.push_str("What to do\n");
        }
        let _ = writeln!(text, "  {}. {}", index + 1, action_text(action, system));
    }
    text.trim_end().to_owned()
}

fn range(outcome: &Outcome, system: System) -> String {
    let u = outcome.range_standard_uncertainty_mm;
    let mut text = shown(outcome.range_mm, u, system) + &uncertainty(u, system);
    if let (Some(limit), Some(verdict)) = (outcome.range_limit_mm, outcome.verdict_range) {
        let _ = write!(text, ", limit {}: {verdict}", shown(limit, None, system));
    }
    if let Some(probability) = outcome.probability_conforms {
        let _ = write!(text, ", within it with probability {}", percent(probability));
    }
    text
}

fn mean_limits(outcome: &Outcome, system: System) -> String {
    let verdict = |verdict: Option<Verdict>| verdict.map_or(String::new(), |v| format!(": {v}"));
    let limits = match (outcome.mean_height_min_mm, outcome.mean_height_max_mm) {
        (None, None) => return String::new(),
        (Some(low), None) => format!("at least {}", shown(low, None, system)),
        (None, Some(high)) => format!("at most {}", shown(high, None, system)),
        (Some(low), Some(high)) => {
            format!("{} to {}", shown(low, None, system), shown(high, None, system))
        }
    };
    format!(", limits {limits}{}", verdict(outcome.verdict_mean_height))
}

fn tilt(outcome: &Outcome, system: System) -> String {
    let u = outcome.tilt_standard_uncertainty_mm;
    let mut text = shown(outcome.tilt_mm, u, system) + &uncertainty(u, system);
    if let Some(degrees) = outcome.tilt_deg {
        let _ = write!(text, ", {} deg", fixed(degrees, 3));
    }
    match outcome.high_side_standard_uncertainty_deg {
        Some(u) => {
            let side = fixed(outcome.high_side_deg, 0);
            let _ = write!(text, ", highest at {side} deg (u {} deg)", fixed(u, 0));
        }
        None => text.push_str(", its direction is not resolved"),
    }
    text
}

/// One thing to do, as a sentence.
pub(super) fn action_text(action: &Action, system: System) -> String {
    let deed = match action.deed {
        Deed::Press => "Press down",
        Deed::Lift => "Lift",
        Deed::MeasureAgain => "Measure again",
        Deed::TakeOut => "Take it out",
    };
    let at = match (action.angle_deg, action.deed) {
        (Some(angle), _) => format!(" at {} deg", fixed(angle, 0)),
        (None, Deed::Press | Deed::Lift) => " all round".to_owned(),
        (None, Deed::MeasureAgain | Deed::TakeOut) => String::new(),
    };
    let by = action
        .amount_mm
        .map_or(String::new(), |mm| format!(" by about {}", shown(mm, None, system)));
    format!("{deed}{at}{by}. {}", action.why)
}
