//! `ringtrue flat READINGS.csv`, or without a file from one bend or closed bands

use std::fmt::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use ringtrue_job::check::{Check, Parts};
use ringtrue_metrology::units::{decimals_for, fixed};
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::flatness::{Outcome, Shape};

use super::checks::{self, Of, Plainly, Settings};
use super::output::percent;
use crate::files;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
#[command(group = clap::ArgGroup::new("seen").required(true).multiple(false)
    .args(["readings", "bend", "closed"]))]
pub(crate) struct Arguments {
    /// Readings (.csv): angle_deg with bend_mm and spacing_mm, or bands (signed bends), or order
    /// (band orders round a narrow ring)
    readings: Option<PathBuf>,
    /// The seal file, which may limit the flatness of its face
    #[arg(long, value_name = "FILE")]
    seal: Option<PathBuf>,
    #[command(flatten)]
    settings: Settings<Flatness>,
    #[command(flatten)]
    handed_out: Plainly,
}

#[derive(Debug)]
struct Flatness;

impl Of for Flatness {
    const CHECK: Check = Check::Flatness;
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let seal = arguments.seal.as_deref().map(files::definition::<Seal>).transpose()?;
    let parts = seal.as_ref().map_or(Parts::Unknown, |seal| Parts::Half(seal, None));
    let given = (arguments.readings.as_slice(), &arguments.settings.stated[..]);
    let assessment = checks::assess(Flatness::CHECK, given, (None, parts))?;
    let plainly = &arguments.handed_out;
    checks::hand_out(&assessment, plainly.svg.as_deref(), &plainly.shown())
}

/// The flatness as lines for a person.
pub(super) fn text(outcome: &Outcome) -> String {
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
