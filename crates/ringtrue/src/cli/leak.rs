//! `ringtrue leak READINGS.csv --volume ... --limit ...`, and bubbles and soaks

use std::fmt::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use ringtrue_job::check::{Check, Parts};
use ringtrue_metrology::units::{duration_text, fixed, significant};
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::leak_test::{Method, Outcome, caution};

use super::Shown;
use super::checks::{self, Of, Settings};
use super::output::{percent, wrapped};
use crate::files;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
#[command(group = clap::ArgGroup::new("evidence").required(true)
          .args(["readings", "bubbles", "soak"]))]
pub(crate) struct Arguments {
    /// Readings (.csv): seconds (or time with a unit), pressure_kpa, temperature_degc
    readings: Option<PathBuf>,
    /// The seal file: its pressure limit and the levels of verdicts
    #[arg(long, value_name = "FILE", requires = "readings")]
    seal: Option<PathBuf>,
    #[command(flatten)]
    settings: Settings<LeakTest>,
    /// Write the drawing as SVG into this folder
    #[arg(long, value_name = "DIR")]
    svg: Option<PathBuf>,
    #[command(flatten)]
    shown: Shown,
}

#[derive(Debug)]
struct LeakTest;

impl Of for LeakTest {
    const CHECK: Check = Check::LeakTest;
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let seal = arguments.seal.as_deref().map(files::definition::<Seal>).transpose()?;
    let parts = seal.as_ref().map_or(Parts::Unknown, |seal| Parts::Half(seal, None));
    let given = (arguments.readings.as_slice(), &arguments.settings.stated[..]);
    let assessment = checks::assess(LeakTest::CHECK, given, (None, parts))?;
    checks::hand_out(&assessment, arguments.svg.as_deref(), &arguments.shown)
}

/// The leak test as lines for a person.
pub(super) fn text(outcome: &Outcome) -> String {
    let mut text = String::new();
    if outcome.method != Method::Soak {
        text.push_str(&wrapped("Caution: ", caution()));
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
