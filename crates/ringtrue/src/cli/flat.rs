//! `ringtrue flat READINGS.csv`, or without a file from one bend or closed bands

use std::fmt::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use clap::ValueEnum;
use ringtrue_job::{Answer, Assessment, Evidence, judge, reading};
use ringtrue_metrology::conformity::Levels;
use ringtrue_metrology::units::{
    Angle, Length, System, UnitError, decimals_for, fixed, parse_number,
};
use ringtrue_report::{Further, check_drawings};
use ringtrue_seal::flatness::{
    Bend, BendAmount, FlatnessLimit, Input, LightSource, Outcome, Pressed, ReadingUncertainty,
    Seen, Shape,
};

use super::output::percent;
use super::{angle, length, output};
use crate::files;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
#[command(group = clap::ArgGroup::new("seen").required(true).multiple(false)
    .args(["readings", "bend", "closed"]))]
pub(crate) struct Arguments {
    /// Readings (.csv): angle_deg with bend_mm and spacing_mm, or bands (signed bends), or order
    /// (band orders round a narrow ring)
    readings: Option<PathBuf>,
    /// One bend; positive where the band's ends bend towards the line of contact
    #[arg(long, value_name = "LENGTH", value_parser = length, requires = "spacing")]
    bend: Option<Length>,
    /// Spacing of the bands
    #[arg(long, value_name = "LENGTH", value_parser = length, requires = "bend")]
    spacing: Option<Length>,
    /// Number of closed bands from the middle to the edge
    #[arg(long, value_name = "NUMBER", value_parser = number)]
    closed: Option<f64>,
    /// Where closed bands moved when the edge was pressed
    #[arg(long, value_enum, value_name = "WAY", requires = "closed")]
    pressed: Option<PressedName>,
    /// The light
    #[arg(long, value_enum, default_value = "helium")]
    source: SourceName,
    /// Its wavelength, in place of a named light
    #[arg(long, value_name = "LENGTH", value_parser = length)]
    wavelength: Option<Length>,
    /// Angle of view from the normal
    #[arg(long, value_name = "ANGLE", value_parser = angle, default_value = "0 deg")]
    view: Angle,
    /// Largest flatness deviation: "2 bands" or "0.6 um"
    #[arg(long, value_name = "BANDS or LENGTH", value_parser = limit)]
    limit: Option<FlatnessLimit>,
    /// Standard uncertainty of one reading: "0.1 bands", or of a measured bend "0.5 mm"
    #[arg(long, value_name = "BANDS or LENGTH", value_parser = uncertainty)]
    uncertainty: Option<ReadingUncertainty>,
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
enum SourceName {
    Helium,
    Sodium,
    MercuryGreen,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum PressedName {
    Towards,
    Away,
}

fn limit(text: &str) -> Result<FlatnessLimit, UnitError> {
    reading::flatness_limit(text)
}

fn uncertainty(text: &str) -> Result<ReadingUncertainty, UnitError> {
    reading::band_uncertainty(text)
}

fn number(text: &str) -> Result<f64, UnitError> {
    parse_number(text)
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let input = Input {
        seen: seen(arguments)?,
        source: match (arguments.wavelength, arguments.source) {
            (Some(wavelength), _) => LightSource::Wavelength(wavelength),
            (None, SourceName::Helium) => LightSource::Helium,
            (None, SourceName::Sodium) => LightSource::Sodium,
            (None, SourceName::MercuryGreen) => LightSource::MercuryGreen,
        },
        view: arguments.view,
        limit: arguments.limit,
        uncertainty: arguments.uncertainty.unwrap_or(ReadingUncertainty::Unknown),
        levels: Levels::DEFAULT,
    };
    let assessment = judge(&Evidence::Flatness(input)).map_err(|error| {
        let problem = Problem::room(error);
        match &arguments.readings {
            Some(path) => problem.in_file(path),
            None => problem,
        }
    })?;
    let outcome = outcome(&assessment);
    if let Some(folder) = &arguments.svg {
        files::write_drawings(
            folder,
            &check_drawings(&Further::Flatness(outcome), System::Millimetre),
        )?;
    }
    if arguments.json {
        output::json(&assessment)?;
    } else {
        output::print(text(outcome))?;
    }
    Ok(super::gate(arguments.gate, outcome.verdict))
}

fn seen(arguments: &Arguments) -> Result<Seen, Problem> {
    if let Some(path) = &arguments.readings {
        return reading::bands(&files::text(path)?).map_err(|error| Problem::text(path, error));
    }
    match (arguments.bend, arguments.spacing, arguments.closed) {
        (Some(bend), Some(spacing), _) => {
            let amount = BendAmount::Measured { bend, spacing };
            Ok(Seen::Bends(vec![Bend { azimuth: Angle::default(), amount }]))
        }
        (_, _, Some(bands)) => Ok(Seen::Closed {
            bands,
            pressed: match arguments.pressed {
                Some(PressedName::Towards) => Pressed::TowardsPressure,
                Some(PressedName::Away) => Pressed::AwayFromPressure,
                None => Pressed::NotTried,
            },
        }),
        _ => Err(Problem::input("nothing was read", "give a file, a bend or closed bands")),
    }
}

fn outcome(assessment: &Assessment) -> &Outcome {
    let Answer::Flatness(outcome) = &assessment.answer else {
        unreachable!("bands are answered by the flatness's room")
    };
    outcome
}

/// The flatness as lines for a person.
fn text(outcome: &Outcome) -> String {
    let bands = |value: f64| {
        format!("{} bands", fixed(value, decimals_for(outcome.standard_uncertainty_bands, 2)))
    };
    let um = |value: f64| {
        format!("{} um", fixed(value, decimals_for(outcome.standard_uncertainty_um, 3)))
    };
    let mut text = format!("Face flatness: {}\n", outcome.verdict);
    let mut row = |name: &str, value: String| {
        let _ = writeln!(text, "  {name:<18}{value}");
    };
    let mut flatness = format!("{} = {}", bands(outcome.flatness_bands), um(outcome.flatness_um));
    if let Some((u, um_u)) = outcome.standard_uncertainty_bands.zip(outcome.standard_uncertainty_um)
    {
        let _ = write!(flatness, " (u {} = {})", bands(u), um(um_u));
    }
    if let Some((limit, limit_um)) = outcome.limit_bands.zip(outcome.limit_um) {
        let limit = format!("{} bands = {} um", fixed(limit, 2), fixed(limit_um, 3));
        let _ = write!(flatness, ", limit {limit}: {}", outcome.verdict);
    }
    if let Some(probability) = outcome.probability_conforms {
        let _ = write!(flatness, ", within it with probability {}", percent(probability));
    }
    row("flatness", flatness);
    row("shape", shape(outcome));
    if let Some(mean) = outcome.mean_bend_bands {
        row("mean bend", bands(mean));
    }
    if let Some((second, crest)) =
        outcome.second_harmonic_bands.zip(outcome.second_harmonic_crest_deg)
    {
        row("second harmonic", format!("{}, crest at {} deg", bands(second), fixed(crest, 0)));
    }
    let wavelength = fixed(outcome.wavelength_nm, 1);
    let light = format!("{}, {wavelength} nm", outcome.source);
    row("light", format!("{light}, one band {} um", fixed(outcome.band_um, 4)));
    for (index, action) in outcome.actions.iter().enumerate() {
        if index == 0 {
            text.push_str("What to do\n");
        }
        let _ = writeln!(text, "  {}. {action}", index + 1);
    }
    text.trim_end().to_owned()
}

fn shape(outcome: &Outcome) -> String {
    let name = match outcome.shape {
        Shape::Crown => "crown, high in the middle",
        Shape::Dish => "dish, low in the middle",
        Shape::Saddle => "saddle, high along one azimuth and low along another",
        Shape::Flat => "flat: straight bands",
        Shape::CrownOrDish => "crown or dish: closed bands do not tell",
        Shape::Wavy => "wavy round the ring",
    };
    let told = if outcome.shape_resolved { "" } else { " (not told from chance)" };
    format!("{name}{told}")
}
