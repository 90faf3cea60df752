//! `ringtrue finish TRACE.csv|FILE.x3p... --limit "Ra 0.8 um"`

use std::fmt::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use ringtrue_job::check::{Check, Parts};
use ringtrue_metrology::units::{decimals_for, fixed};
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::roughness::{CutOffBasis, Ends, Outcome, Rule};

use super::checks::{self, Of, Plainly, Settings};
use super::output::percent;
use crate::files;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
#[command(group = clap::ArgGroup::new("basis").required(true).multiple(true)
    .args(["seal", "limit"]))]
pub(crate) struct Arguments {
    /// Traces of one ramp: .x3p, or .csv with z_um and x_mm; or values (.csv) under ra_um, rq_um,
    /// rz_um or rt_um
    #[arg(required = true)]
    files: Vec<PathBuf>,
    /// The seal file, which may limit Ra of its ramps
    #[arg(long, value_name = "FILE")]
    seal: Option<PathBuf>,
    #[command(flatten)]
    settings: Settings<Roughness>,
    #[command(flatten)]
    handed_out: Plainly,
}

#[derive(Debug)]
struct Roughness;

impl Of for Roughness {
    const CHECK: Check = Check::Roughness;
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let seal = arguments.seal.as_deref().map(files::definition::<Seal>).transpose()?;
    let parts = seal.as_ref().map_or(Parts::Unknown, |seal| Parts::Half(seal, None));
    let given = (&arguments.files[..], &arguments.settings.stated[..]);
    let assessment = checks::assess(Roughness::CHECK, given, (None, parts))?;
    let plainly = &arguments.handed_out;
    checks::hand_out(&assessment, plainly.svg.as_deref(), &plainly.shown())
}

/// The finish as lines for a person.
pub(super) fn text(outcome: &Outcome) -> String {
    let symbol = outcome.parameter.symbol();
    let u = outcome.standard_uncertainty_um;
    let um = |value: f64| format!("{} um", fixed(value, decimals_for(u, 3)));
    let mut text = format!("Ramp finish: {}\n", outcome.verdict);
    let mut row = |name: &str, value: String| {
        let _ = writeln!(text, "  {name:<18}{value}");
    };
    let known = u.map_or(String::new(), |u| format!(" (u {})", um(u)));
    let mut value = format!("{}{known}{}", um(outcome.value_um), limits(outcome));
    let _ = write!(value, ": {}", outcome.verdict_value);
    if let Some(probability) = outcome.probability_conforms {
        let _ = write!(value, ", within it with probability {}", percent(probability));
    }
    row(symbol, value);
    row("rule", rule(outcome));
    row("scatter", scatter(outcome));
    let others = [
        ("Ra", outcome.ra_um),
        ("Rq", outcome.rq_um),
        ("Rz", outcome.rz_um),
        ("Rt", outcome.rt_um),
    ];
    for (name, value) in others {
        if let Some(value) = value.filter(|_| name != symbol) {
            row(name, um(value));
        }
    }
    if let Some((rsk, rku)) = outcome.rsk.zip(outcome.rku) {
        row("Rsk, Rku", format!("{}, {}", fixed(rsk, 2), fixed(rku, 2)));
    }
    row("settings", settings(outcome));
    for (index, action) in outcome.actions.iter().enumerate() {
        if index == 0 {
            text.push_str("What to do\n");
        }
        let _ = writeln!(text, "  {}. {action}", index + 1);
    }
    text.trim_end().to_owned()
}

fn limits(outcome: &Outcome) -> String {
    match (outcome.limit_min_um, outcome.limit_max_um) {
        (None, None) => String::new(),
        (None, Some(max)) => format!(", limit {max} um"),
        (Some(min), None) => format!(", at least {min} um"),
        (Some(min), Some(max)) => format!(", limits {min} um to {max} um"),
    }
}

fn rule(outcome: &Outcome) -> String {
    let name = match outcome.rule {
        Rule::SixteenPercent => "16 %",
        Rule::Max => "max",
    };
    format!(
        "{name}: {} of {} values outside, {} allowed: {}",
        outcome.values_outside,
        outcome.values,
        outcome.values_allowed_outside,
        outcome.verdict_rule
    )
}

fn scatter(outcome: &Outcome) -> String {
    let of = &outcome.statistics;
    let um = |value: f64| fixed(value, decimals_for(outcome.standard_uncertainty_um, 3));
    let spread = format!("{} to {} um", um(of.min_um), um(of.max_um));
    match of.standard_deviation_um {
        Some(s) => {
            format!("{spread}, standard deviation {} um", fixed(s, decimals_for(Some(s), 3)))
        }
        None => spread,
    }
}

fn settings(outcome: &Outcome) -> String {
    let mut text = outcome.edition.to_owned();
    if let Some(cut_off) = outcome.cut_off_mm {
        let why = match outcome.cut_off_basis {
            CutOffBasis::Table => "by the table",
            CutOffBasis::BesideTable => "the table's nearest row",
            CutOffBasis::Feed => "by the feed",
            CutOffBasis::Given => "as given",
            CutOffBasis::TraceTooShort => "the longest that the trace allows",
            CutOffBasis::None => "",
        };
        let _ = write!(text, ", cut-off {cut_off} mm ({why})");
    }
    if let Some(length) = outcome.evaluation_length_mm {
        let count = outcome.sampling_lengths.len();
        let _ = write!(text, ", {count} sampling lengths, {} mm evaluated", fixed(length, 2));
    }
    match outcome.ends {
        Ends::LeftOut => text.push_str(", ends left out"),
        Ends::WeightsRenormalised => text.push_str(", ends kept"),
        Ends::None => {}
    }
    text
}
