//! `ringtrue finish TRACE.csv|FILE.x3p... --limit "Ra 0.8 um"`

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::ValueEnum;
use ringtrue_job::evidence::{self, FinishBasis};
use ringtrue_job::reading::{self, Finish, FinishLimit};
use ringtrue_job::{Answer, Assessment, Evidence, judge};
use ringtrue_metrology::units::{Length, System, UnitError, decimals_for, fixed};
use ringtrue_report::{Further, check_drawings};
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::roughness::{
    CutOff, CutOffBasis, Edition, Ends, InstrumentUncertainty, Outcome, Rule,
};

use super::output::percent;
use super::{length, output};
use crate::files;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
#[command(group = clap::ArgGroup::new("basis").required(true).multiple(true)
    .args(["seal", "limit"]))]
#[command(group = clap::ArgGroup::new("filter").multiple(false)
    .args(["cut_off", "feed", "filtered"]))]
pub(crate) struct Arguments {
    /// Traces of one ramp: .x3p, or .csv with z_um and x_mm; or values (.csv) under ra_um, rq_um,
    /// rz_um or rt_um
    #[arg(required = true)]
    files: Vec<PathBuf>,
    /// The limit as the drawing writes it: "Ra 0.8 um", "Rz max 6.3 um", "Ra 0.4 um..3.2 um"
    #[arg(long, value_name = "LIMIT", value_parser = limit)]
    limit: Option<FinishLimit>,
    /// The seal file, which may limit Ra of its ramps
    #[arg(long, value_name = "FILE")]
    seal: Option<PathBuf>,
    /// By which standards: ISO 4287 and 4288, or ISO 21920
    #[arg(long, value_enum, default_value = "iso-4287")]
    edition: EditionName,
    /// How many values may break the limit; the edition's own rule where it is left out
    #[arg(long, value_enum)]
    rule: Option<RuleName>,
    /// Cut-off of the filter, in place of the table's
    #[arg(long, value_name = "LENGTH", value_parser = length)]
    cut_off: Option<Length>,
    /// Feed of a turned surface: the cut-off by the table of periodic profiles
    #[arg(long, value_name = "LENGTH", value_parser = length)]
    feed: Option<Length>,
    /// The trace is a roughness profile already: no filter
    #[arg(long)]
    filtered: bool,
    /// Distance from point to point, where the file has no column x
    #[arg(long, value_name = "LENGTH", value_parser = length)]
    step: Option<Length>,
    /// Standard uncertainty of the instrument: "3 %" of the value, or "0.02 um"
    #[arg(long, value_name = "SHARE or LENGTH", value_parser = uncertainty)]
    uncertainty: Option<InstrumentUncertainty>,
    /// Write the drawing as SVG into this folder
    #[arg(long, value_name = "DIR")]
    svg: Option<PathBuf>,
    /// Print one JSON object
    #[arg(long)]
    json: bool,
    /// Exit with 1 unless the verdict is `conforms`
    #[arg(long)]
    gate: bool,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum EditionName {
    #[value(name = "iso-4287")]
    Iso4287,
    #[value(name = "iso-21920")]
    Iso21920,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum RuleName {
    #[value(name = "16-percent")]
    SixteenPercent,
    Max,
}

fn limit(text: &str) -> Result<FinishLimit, UnitError> {
    reading::finish_limit(text)
}

fn uncertainty(text: &str) -> Result<InstrumentUncertainty, UnitError> {
    reading::instrument_uncertainty(text)
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let seal = arguments.seal.as_deref().map(files::definition::<Seal>).transpose()?;
    let read = arguments
        .files
        .iter()
        .map(|path| read(path, arguments.step))
        .collect::<Result<Vec<_>, Problem>>()?;
    let basis = FinishBasis {
        limit: arguments.limit,
        seal: seal.as_ref(),
        rule: arguments.rule.map(|rule| match rule {
            RuleName::SixteenPercent => Rule::SixteenPercent,
            RuleName::Max => Rule::Max,
        }),
        edition: match arguments.edition {
            EditionName::Iso4287 => Edition::Iso4287,
            EditionName::Iso21920 => Edition::Iso21920,
        },
        cut_off: cut_off(arguments),
        uncertainty: arguments.uncertainty.unwrap_or(InstrumentUncertainty::Unknown),
    };
    let first = arguments.files.first().map_or(Path::new(""), PathBuf::as_path);
    let assessment = evidence::finish(read, basis)
        .and_then(|input| judge(&Evidence::Roughness(input)))
        .map_err(|error| Problem::room(error).in_file(first))?;
    let outcome = outcome(&assessment);
    if let Some(folder) = &arguments.svg {
        files::write_drawings(
            folder,
            &check_drawings(&Further::Roughness(outcome), System::Millimetre),
        )?;
    }
    if arguments.json {
        output::json(&assessment)?;
    } else {
        output::print(text(outcome))?;
    }
    Ok(super::gate(arguments.gate, outcome.verdict))
}

fn cut_off(arguments: &Arguments) -> CutOff {
    match (arguments.cut_off, arguments.feed) {
        (Some(length), _) => CutOff::Given(length),
        (None, Some(feed)) => CutOff::ByFeed(feed),
        (None, None) if arguments.filtered => CutOff::AlreadyFiltered,
        (None, None) => CutOff::ByTable,
    }
}

/// A trace or values, told apart by the file's own first bytes.
fn read(path: &Path, step: Option<Length>) -> Result<Finish, Problem> {
    let bytes = files::bytes(path)?;
    let named = path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("x3p"));
    if named || reading::looks_like_x3p(&bytes) {
        return reading::x3p(&bytes).map(Finish::Trace).map_err(|error| Problem::text(path, error));
    }
    reading::finish(&files::utf8(path, bytes)?, step).map_err(|error| Problem::text(path, error))
}

fn outcome(assessment: &Assessment) -> &Outcome {
    let Answer::Roughness(outcome) = &assessment.answer else {
        unreachable!("a finish is answered by the finish's room")
    };
    outcome
}

/// The finish as lines for a person.
fn text(outcome: &Outcome) -> String {
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
