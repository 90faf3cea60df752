//! `ringtrue leak READINGS.csv --volume ... --limit ...`, and bubbles and soaks

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::ValueEnum;
use ringtrue_job::evidence::{self, LeakBasis};
use ringtrue_job::{Answer, Evidence, judge, reading};
use ringtrue_metrology::conformity::Levels;
use ringtrue_metrology::units::{
    Given, LeakRate, Length, Pressure, Quantity, TemperatureDifference, Time, UnitError, Volume,
    duration_text, fixed, significant,
};
use ringtrue_report::{Further, check_drawings};
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::leak_test::{
    BubbleMethod, Bubbles, CAUTION, Input, Method, Outcome, Pressures, Soak, Trace,
};

use super::output::{percent, wrapped};
use super::{Shown, output, quantity};
use crate::files;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
#[command(group = clap::ArgGroup::new("evidence").required(true)
          .args(["readings", "bubbles", "soak"]))]
pub(crate) struct Arguments {
    /// Readings (.csv): seconds (or time with a unit), pressure_kpa, temperature_degc
    #[arg(requires_all = ["pressure", "volume", "limit"])]
    readings: Option<PathBuf>,
    /// What the pressures are measured from
    #[arg(long, value_enum, requires = "readings")]
    pressure: Option<PressureName>,
    /// Volume of the test space, such as "3.2 l"
    #[arg(long, value_name = "VOLUME", value_parser = given::<Volume>, requires = "readings")]
    volume: Option<Given<Volume>>,
    /// Standard uncertainty of that volume; its last digit where it is left out
    #[arg(long, value_name = "VOLUME", value_parser = quantity::<Volume>, requires = "readings")]
    volume_uncertainty: Option<Volume>,
    /// Largest leak rate that conforms, such as "0.001 Pa m3/s" or "0.5 sccm"
    #[arg(long, value_name = "RATE", value_parser = quantity::<LeakRate>)]
    limit: Option<LeakRate>,
    /// The atmosphere, read on a barometer that is not reduced to sea level
    #[arg(long, value_name = "PRESSURE", value_parser = quantity::<Pressure>)]
    #[arg(requires = "readings")]
    atmosphere: Option<Pressure>,
    /// Resolution of the pressure gauge; the last digit written down where it is left out
    #[arg(long, value_name = "PRESSURE", value_parser = quantity::<Pressure>)]
    #[arg(requires = "readings")]
    pressure_resolution: Option<Pressure>,
    /// Resolution of the thermometer; the last digit written down where it is left out
    #[arg(long, value_name = "DIFFERENCE", requires = "readings",
          value_parser = quantity::<TemperatureDifference>)]
    temperature_resolution: Option<TemperatureDifference>,
    /// Standard uncertainty of how well the thermometer follows the gas
    #[arg(long, value_name = "DIFFERENCE", requires = "readings",
          value_parser = quantity::<TemperatureDifference>)]
    temperature_uncertainty: Option<TemperatureDifference>,
    /// Volume by which the load rings may still give while the test runs
    #[arg(long, value_name = "VOLUME", value_parser = quantity::<Volume>, requires = "readings")]
    give: Option<Volume>,
    /// The seal file: its pressure limit and the levels of verdicts
    #[arg(long, value_name = "FILE", requires = "readings")]
    seal: Option<PathBuf>,
    /// Bubbles that were counted, 0 for none
    #[arg(long, value_name = "COUNT", requires_all = ["by", "over", "limit"])]
    bubbles: Option<u32>,
    /// How the bubbles were looked for
    #[arg(long, value_enum, requires = "bubbles")]
    by: Option<BubbleName>,
    /// Diameter of the bubbles; 2 to 4 mm where it is left out
    #[arg(long, value_name = "LENGTH", value_parser = quantity::<Length>, requires = "bubbles")]
    bubble_diameter: Option<Length>,
    /// What a soak with oil showed
    #[arg(long, value_enum, requires = "over", conflicts_with = "limit")]
    soak: Option<SoakName>,
    /// How long bubbles were counted, or a soak was left
    #[arg(long, value_name = "TIME", value_parser = quantity::<Time>, conflicts_with = "readings")]
    over: Option<Time>,
    /// How long the shop asks for a soak to stay dry
    #[arg(long, value_name = "TIME", value_parser = quantity::<Time>, requires = "soak")]
    wanted: Option<Time>,
    /// Write the drawing as SVG into this folder
    #[arg(long, value_name = "DIR")]
    svg: Option<PathBuf>,
    #[command(flatten)]
    shown: Shown,
}

/// What pressures are measured from.
#[derive(Debug, Clone, Copy, ValueEnum)]
enum PressureName {
    /// Over the atmosphere
    Gauge,
    /// Over nothing
    Absolute,
}

/// How bubbles are looked for.
#[derive(Debug, Clone, Copy, ValueEnum)]
enum BubbleName {
    /// The part under water
    Immersion,
    /// A film of bubble liquid on the joint
    Film,
}

/// What a soak showed.
#[derive(Debug, Clone, Copy, ValueEnum)]
enum SoakName {
    /// No wet trace
    Dry,
    /// A wet trace
    Wet,
}

fn given<Q: Quantity>(text: &str) -> Result<Given<Q>, UnitError> {
    Given::new(text)
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let (input, file) = match &arguments.readings {
        Some(path) => (of_readings(path, arguments)?, Some(path)),
        None => (seen(arguments)?, None),
    };
    let assessment = judge(&Evidence::LeakTest(input)).map_err(|error| {
        let problem = Problem::room(error);
        match file {
            Some(path) => problem.in_file(path),
            None => problem,
        }
    })?;
    let Answer::LeakTest(outcome) = &assessment.answer else {
        unreachable!("a leak test is answered by the leak test's room")
    };
    if let Some(folder) = &arguments.svg {
        files::write_drawings(
            folder,
            &check_drawings(&Further::LeakTest(outcome), arguments.shown.units.system()),
        )?;
    }
    if arguments.shown.json {
        output::json(&assessment)?;
    } else {
        output::print(text(outcome))?;
    }
    Ok(arguments.shown.exit(outcome.verdict))
}

/// What clap has made sure of, said again where it would fail.
fn wanted(option: &str) -> Problem {
    Problem::input(format!("{option} is missing"), format!("give {option} as well"))
}

fn of_readings(path: &Path, arguments: &Arguments) -> Result<Input, Problem> {
    let seal = arguments.seal.as_deref().map(files::definition::<Seal>).transpose()?;
    let pressures = match arguments.pressure.ok_or_else(|| wanted("--pressure"))? {
        PressureName::Gauge => Pressures::Gauge,
        PressureName::Absolute => Pressures::Absolute,
    };
    let basis = LeakBasis {
        pressures,
        atmosphere: arguments.atmosphere,
        volume: arguments.volume.as_ref().ok_or_else(|| wanted("--volume"))?,
        volume_uncertainty: arguments.volume_uncertainty,
        limit: arguments.limit.ok_or_else(|| wanted("--limit"))?,
        pressure_resolution: arguments.pressure_resolution,
        temperature_resolution: arguments.temperature_resolution,
        temperature_uncertainty: arguments.temperature_uncertainty,
        give: arguments.give,
        seal: seal.as_ref(),
    };
    let read = reading::leak(&files::text(path)?).map_err(|error| Problem::text(path, error))?;
    Ok(evidence::leak_test(read, &basis))
}

fn seen(arguments: &Arguments) -> Result<Input, Problem> {
    let over = arguments.over.ok_or_else(|| wanted("--over"))?;
    if let Some(soak) = arguments.soak {
        let seen = match soak {
            SoakName::Dry => Trace::Dry,
            SoakName::Wet => Trace::Wet,
        };
        return Ok(Input::Soak(Soak { seen, over, wanted: arguments.wanted }));
    }
    let by = match arguments.by.ok_or_else(|| wanted("--by"))? {
        BubbleName::Immersion => BubbleMethod::Immersion,
        BubbleName::Film => BubbleMethod::Film,
    };
    Ok(Input::Bubbles(Bubbles {
        by,
        count: arguments.bubbles.ok_or_else(|| wanted("--bubbles"))?,
        over,
        diameter: arguments.bubble_diameter,
        limit: arguments.limit.ok_or_else(|| wanted("--limit"))?,
        levels: Levels::DEFAULT,
    }))
}

/// The leak test as lines for a person.
pub(super) fn text(outcome: &Outcome) -> String {
    let mut text = String::new();
    if outcome.method != Method::Soak {
        text.push_str(&wrapped("Caution: ", CAUTION));
    }
    let energy = outcome.stored_energy_j.zip(outcome.largest_pressure_difference_kpa);
    if let Some((energy, difference)) = energy {
        let _ = writeln!(
            text,
            "Stored energy: {} J at {} kPa over the atmosphere",
            three(energy),
            fixed(difference, 1)
        );
    }
    let what = match outcome.method {
        Method::PressureChange => "Leak test, pressure change",
        Method::BubbleImmersion => "Leak test, bubbles under water",
        Method::BubbleFilm => "Leak test, bubbles in a film",
        Method::Soak => "Soak",
    };
    let _ = writeln!(text, "{what}: {}", outcome.verdict);
    let mut row = |name: &str, value: String| {
        let _ = writeln!(text, "  {name:<18}{value}");
    };
    for (name, value) in rates(outcome) {
        row(name, value);
    }
    if let Some(settling) = outcome.settling_s {
        row("settling", format!("first {} left out", duration_text(settling)));
    }
    row("watched for", duration_text(outcome.watched_s));
    if let Some(give) = outcome.give_that_hides_the_limit_ml {
        let words = "of give while the line is fitted hides a leak as large as the limit";
        row("rubber", format!("{} ml {words}", three(give)));
    }
    if !outcome.contributions.is_empty() {
        text.push_str("Where the uncertainty comes from\n");
    }
    for part in &outcome.contributions {
        let u = part.standard_uncertainty_pa_m3_per_s;
        let _ = writeln!(text, "  {:<28}{} Pa m3/s", part.what, three(u));
    }
    for note in &outcome.notes {
        text.push_str(&wrapped("- ", note.words()));
    }
    text.trim_end().to_owned()
}

fn rates(outcome: &Outcome) -> Vec<(&'static str, String)> {
    let mut rows = Vec::new();
    if let Some(rate) = outcome.leak_rate_pa_m3_per_s {
        let u = outcome
            .standard_uncertainty_pa_m3_per_s
            .map_or(String::new(), |u| format!(" (u {} Pa m3/s)", three(u)));
        let at = outcome
            .reference_temperature_degc
            .map_or(String::new(), |degc| format!(" at {} degC", fixed(degc, 1)));
        rows.push(("leak rate", format!("{} Pa m3/s{at}{u}", three(rate))));
    }
    let sccm = outcome.leak_rate_sccm_0_degc.zip(outcome.leak_rate_sccm_20_degc);
    if let Some((mbar, (zero, twenty))) = outcome.leak_rate_mbar_l_per_s.zip(sccm) {
        rows.push((
            "that is",
            format!(
                "{} mbar l/s, {} sccm (0 degC), {} sccm (20 degC)",
                three(mbar),
                three(zero),
                three(twenty)
            ),
        ));
    }
    if let Some(limit) = outcome.limit_pa_m3_per_s {
        let within = outcome
            .probability_conforms
            .map_or(String::new(), |p| format!(", within it with probability {}", percent(p)));
        rows.push(("limit", format!("{} Pa m3/s{within}", three(limit))));
    }
    if let Some(seen) = outcome.detectable_leak_pa_m3_per_s {
        rows.push(("could have seen", format!("{} Pa m3/s", three(seen))));
    }
    rows
}

/// Three significant digits.
fn three(value: f64) -> String {
    significant(value, 3)
}
