//! `ringtrue align READINGS.csv`

use std::fmt::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use ringtrue_job::check::{Check, Parts};
use ringtrue_metrology::units::{System, decimals_for, fixed};
use ringtrue_seal::alignment::{
    Action, AngleLimitBasis, Deed, EdgeBasis, Outcome, Reference, Sweep,
};
use ringtrue_seal::definition::gauge::Gauge;
use ringtrue_seal::definition::seal::Seal;

use super::Shown;
use super::checks::{self, Of, Settings};
use super::output::{length as shown, percent, uncertainty};
use crate::files;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    /// Readings (.csv): surface (rim, bore or face), angle_deg (counter-clockwise facing half b,
    /// the same marks for both), reading_mm or reading_in; and housing (a or b), sag and diameter
    /// where you like
    readings: PathBuf,
    /// The joint file: limits, and the geometry that limits a tip
    #[arg(long, value_name = "FILE", conflicts_with = "seal")]
    joint: Option<PathBuf>,
    /// A seal file in its place; the other half is taken as the same
    #[arg(long, value_name = "FILE")]
    seal: Option<PathBuf>,
    /// The gauge file of the indicator
    #[arg(long, value_name = "FILE", conflicts_with = "uncertainty")]
    gauge: Option<PathBuf>,
    #[command(flatten)]
    settings: Settings<Alignment>,
    /// Write the drawing as SVG into this folder
    #[arg(long, value_name = "DIR")]
    svg: Option<PathBuf>,
    #[command(flatten)]
    shown: Shown,
}

#[derive(Debug)]
struct Alignment;

impl Of for Alignment {
    const CHECK: Check = Check::Alignment;
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let joint = arguments.joint.as_deref().map(files::joint).transpose()?;
    let seal = arguments.seal.as_deref().map(files::definition::<Seal>).transpose()?;
    let gauge = arguments.gauge.as_deref().map(files::definition::<Gauge>).transpose()?;
    let parts = match (&joint, &seal) {
        (Some(on_disk), _) => Parts::Joint(&on_disk.joint, [None; 2]),
        (None, Some(seal)) => Parts::Half(seal, None),
        (None, None) => Parts::Unknown,
    };
    let files = [arguments.readings.clone()];
    let given = (&files[..], &arguments.settings.stated[..]);
    let assessment = checks::assess(Alignment::CHECK, given, (gauge.as_ref(), parts))?;
    checks::hand_out(&assessment, arguments.svg.as_deref(), &arguments.shown)
}

/// The sweeps as lines for a person.
pub(super) fn text(outcome: &Outcome, system: System) -> String {
    let relative = match outcome.relative_to {
        Reference::OtherHalf => "to the other half",
        Reference::IndicatorAxis => "to the axis that the indicator turns on",
    };
    let mut text = format!("Alignment: {}\n", outcome.verdict);
    let _ = writeln!(text, "  half {} relative {relative}", outcome.of_half.name());
    let mut row = |name: &str, value: String| {
        let _ = writeln!(text, "  {name:<18}{value}");
    };
    if let Some(line) = eccentricity(outcome, system) {
        row("eccentricity", line);
    }
    if let Some(zone) = outcome.coaxiality_zone_mm {
        let u = outcome.eccentricity_standard_uncertainty_mm.map(|u| 2.0 * u);
        row("ISO 1101 zone", format!("diameter {}", shown(zone, u, system)));
    }
    if let Some(line) = angle_line(outcome) {
        row("angle", line);
    }
    let left = [
        ("out of round", outcome.out_of_round_mm, outcome.out_of_round_standard_uncertainty_mm),
        ("out of flat", outcome.out_of_flat_mm, None),
    ];
    for (name, left, u) in left {
        if let Some(left) = left {
            row(name, shown(left, u, system) + &uncertainty(u, system));
        }
    }
    if let Some(line) = tip(outcome) {
        row("tip limit", line);
    }
    for sweep in &outcome.sweeps {
        row(
            &format!("{} of half {}", sweep.surface.name(), sweep.half.name()),
            wave(sweep, system),
        );
    }
    for (index, action) in outcome.actions.iter().enumerate() {
        if index == 0 {
            text.push_str("What to do\n");
        }
        let _ = writeln!(text, "  {}. {}", index + 1, action_text(action, system));
    }
    text.trim_end().to_owned()
}

fn eccentricity(outcome: &Outcome, system: System) -> Option<String> {
    let u = outcome.eccentricity_standard_uncertainty_mm;
    let mut line = shown(outcome.eccentricity_mm?, u, system) + &uncertainty(u, system);
    let direction_u = outcome.eccentricity_direction_standard_uncertainty_deg;
    line.push_str(&towards("towards", outcome.eccentricity_direction_deg, direction_u));
    if let (Some(limit), Some(verdict)) =
        (outcome.eccentricity_limit_mm, outcome.verdict_eccentricity)
    {
        let _ = write!(line, ", limit {}: {verdict}", shown(limit, None, system));
    }
    if let Some(probability) = outcome.probability_eccentricity_conforms {
        let _ = write!(line, ", within it with probability {}", percent(probability));
    }
    Some(line)
}

fn angle_line(outcome: &Outcome) -> Option<String> {
    let u = outcome.angle_standard_uncertainty_mrad;
    let mrad = |value: f64| format!("{} mrad", fixed(value, decimals_for(u, 2)));
    let mut line = mrad(outcome.angle_mrad?);
    if let Some(u) = u {
        let _ = write!(line, " (u {})", mrad(u));
    }
    let direction_u = outcome.angle_direction_standard_uncertainty_deg;
    line.push_str(&towards("faces nearest at", outcome.angle_direction_deg, direction_u));
    if let (Some(limit), Some(verdict)) = (outcome.angle_limit_mrad, outcome.verdict_angle) {
        let basis = match outcome.angle_limit_basis {
            Some(AngleLimitBasis::Geometry) => " by the geometry",
            Some(AngleLimitBasis::Stated) | None => "",
        };
        let _ = write!(line, ", limit {} mrad{basis}: {verdict}", fixed(limit, 2));
    }
    if let Some(probability) = outcome.probability_angle_conforms {
        let _ = write!(line, ", within it with probability {}", percent(probability));
    }
    Some(line)
}

fn towards(words: &str, angle: Option<f64>, u: Option<f64>) -> String {
    match (angle, u) {
        (Some(angle), Some(u)) => {
            format!(", {words} {} deg (u {} deg)", fixed(angle, 0), fixed(u, 0))
        }
        (Some(_), None) => ", its direction is not resolved".to_owned(),
        (None, _) => String::new(),
    }
}

fn tip(outcome: &Outcome) -> Option<String> {
    let tips = outcome.tip_limits.as_ref()?;
    let each = [
        ("housing edge touches at", tips.edge_deg),
        ("load ring leaves its seat at", Some(tips.lift_deg)),
        ("toric runs off below at", tips.bottom_deg),
    ];
    let parts: Vec<String> = each
        .into_iter()
        .filter_map(|(name, deg)| deg.map(|deg| format!("{name} {} deg", fixed(deg, 2))))
        .collect();
    let note = match (tips.edge_basis, tips.edge_deg) {
        (EdgeBasis::InnermostEdge, Some(_)) => {
            "; the housing face's diameter is not stated, and a wide face allows less"
        }
        (EdgeBasis::InnermostEdge, None) | (EdgeBasis::Stated, _) => "",
    };
    Some(format!("{} deg ({}{note})", fixed(tips.smallest_deg, 2), parts.join(", ")))
}

fn wave(sweep: &Sweep, system: System) -> String {
    let mut line = format!(
        "first wave {} towards {} deg, {} left",
        shown(sweep.first_mm, Some(0.01), system),
        fixed(sweep.first_direction_deg, 0),
        shown(sweep.left_mm, sweep.left_standard_uncertainty_mm, system)
    );
    if sweep.out_of_form {
        line.push_str(", more than the readings' uncertainty");
    }
    line
}

fn action_text(action: &Action, system: System) -> String {
    let half = action.half.map_or(String::new(), |half| format!(" half {}", half.name()));
    let at = action.angle_deg.map(|angle| format!("{} deg", fixed(angle, 0)));
    let by = action.amount_mm.map(|mm| format!(" by {}", shown(mm, None, system)));
    let (at, by) = (at.unwrap_or_default(), by.unwrap_or_default());
    let what = match action.deed {
        Deed::Move => format!("Move{half}{by} towards {at}"),
        Deed::OpenGap => format!("Open the gap at {at}{by}, at{half}"),
        Deed::MeasureAgain if at.is_empty() => format!("Measure{half} again"),
        Deed::MeasureAgain => format!("Measure{half} again at {at}"),
        Deed::LookAtSurface => format!("Look at the surface of{half}"),
    };
    format!("{what}. {}", action.why)
}
