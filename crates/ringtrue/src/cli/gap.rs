//! `ringtrue gap JOINT.toml` and `ringtrue gap CHAIN.csv --limits ...`

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use ringtrue_job::{Answer, Assessment, Evidence, evidence, judge, reading};
use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{Length, Quantity, System};
use ringtrue_seal::face_load::GapLoad;
use ringtrue_seal::gap_stack::{self, Input, Outcome, ShimOutcome};
use serde::Serialize;

use super::output::{length as shown, percent};
use super::{Shown, length_range, load, output};
use crate::curves::Curves;
use crate::files::{self, JointOnDisk};
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    /// A joint file (.toml), or a bare dimension chain (.csv) with columns
    /// name, sign, nominal_mm, upper_mm, lower_mm and, if you like, distribution
    file: PathBuf,
    /// Gap limits of a bare chain, or in place of the joint's: "2.0 mm..3.2 mm"
    #[arg(long, value_name = "FROM..TO", value_parser = length_range)]
    limits: Option<(Length, Length)>,
    /// Measured sizes (.csv) with columns name,value_mm,u_mm: each takes the place of a tolerance
    #[arg(long, value_name = "FILE")]
    measured: Option<PathBuf>,
    #[command(flatten)]
    shown: Shown,
}

/// The gap, and the face load that a joint with measured sizes runs at.
#[derive(Serialize)]
struct Answered<'a> {
    #[serde(flatten)]
    gap: &'a Assessment,
    #[serde(skip_serializing_if = "Option::is_none")]
    face_load_at_measured_gap: Option<GapLoad>,
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let path = &arguments.file;
    let (mut input, joint) = chain(path, arguments.limits)?;
    if let Some(measured) = &arguments.measured {
        put_measured(&mut input, measured)?;
    }
    let room = |error| Problem::room(error).in_file(path);
    let nominal = gap_stack::nominal(&input).map_err(room)?;
    let gap = judge(&Evidence::SealGap(input)).map_err(room)?;
    // Solving the load rings takes a second: only where the gap is that of real parts, and is one.
    let is_real = arguments.measured.is_some() && nominal.si() >= 0.0;
    let load = match joint.filter(|_| is_real) {
        Some(joint) => {
            let input = evidence::joint_load(&joint.joint, joint.materials(), nominal, None)
                .map_err(room)?;
            Some(load::assess(input, &Curves::kept(), path)?)
        }
        None => None,
    };
    let at_gap = load.as_ref().and_then(|load| load::outcome(load).joint.at_gap.nominal);
    let outcome = outcome(&gap);
    if arguments.shown.json {
        output::json(&Answered { gap: &gap, face_load_at_measured_gap: at_gap })?;
    } else {
        let system = arguments.shown.units.system();
        let mut text = text(outcome, system);
        if let Some(at_gap) = at_gap {
            let line = load::gap_line(&at_gap, system);
            let _ = write!(text, "\nFace load at the measured gap\n  {line}");
        }
        output::print(text)?;
    }
    Ok(arguments.shown.exit(outcome.verdict))
}

/// The gap's outcome of an assessment of a gap.
pub(super) fn outcome(assessment: &Assessment) -> &Outcome {
    let Answer::SealGap(outcome) = &assessment.answer else {
        unreachable!("a seal gap is answered by the seal gap's room")
    };
    outcome
}

/// The chain of a joint file, with the joint, or of a bare CSV.
fn chain(
    path: &Path,
    limits: Option<(Length, Length)>,
) -> Result<(Input, Option<JointOnDisk>), Problem> {
    let bare = path.extension().is_some_and(|extension| extension.eq_ignore_ascii_case("csv"));
    if bare {
        let links =
            reading::chain(&files::text(path)?).map_err(|error| Problem::text(path, error))?;
        let limits = limits.ok_or_else(|| {
            let next = "give the gap limits, such as --limits \"2.0 mm..3.2 mm\"";
            Problem::input("a bare chain holds no gap limits", next).in_file(path)
        })?;
        return Ok((evidence::bare_chain(links, limits), None));
    }
    let joint = files::joint(path)?;
    let input = evidence::joint_gap(&joint.joint, limits)
        .map_err(|error| Problem::room(error).in_file(path))?;
    Ok((input, Some(joint)))
}

/// Puts the sizes of a measured file in the place of tolerances.
pub(super) fn put_measured(input: &mut Input, path: &Path) -> Result<(), Problem> {
    let misfit = |error| Problem::text(path, error);
    let measured = reading::measured(&files::text(path)?).map_err(misfit)?;
    evidence::put_measured(input, &measured).map_err(misfit)
}

/// The gap as lines for a person.
pub(super) fn text(outcome: &Outcome, system: System) -> String {
    let mm = |value: f64| shown(value, None, system);
    let fine = |value: f64| shown(value, Some(outcome.standard_deviation_mm), system);
    let span = |low: f64, high: f64| format!("{} to {}", fine(low), fine(high));
    let mut text = format!(
        "Seal gap: {}\n  inside its limits in {} of joints\n",
        outcome.verdict,
        percent(1.0 - outcome.outside_limit_fraction)
    );
    let rows = [
        ("limits", format!("{} to {}", mm(outcome.limit_min_mm), mm(outcome.limit_max_mm))),
        ("nominal", fine(outcome.nominal_gap_mm)),
        ("worst case", span(outcome.worst_min_mm, outcome.worst_max_mm)),
        ("root-sum-square", span(outcome.rss_min_mm, outcome.rss_max_mm)),
        ("99.73 % of joints", span(outcome.sampled_p0_135_mm, outcome.sampled_p99_865_mm)),
        ("centring shim", fine(outcome.shim_mm)),
    ];
    for (name, value) in rows {
        let _ = writeln!(text, "  {name:<18}{value}");
    }
    text.push_str("Share of the variance\n");
    for link in &outcome.links {
        let how = if link.measured { ", measured" } else { "" };
        let _ = writeln!(text, "  {:<18}{}{how}", percent(link.share), link.name);
    }
    if let Some(best) = outcome.shims_on_hand.first() {
        text.push_str(&match outcome.verdict {
            Verdict::Conforms => "Shims on hand: none is needed\n".to_owned(),
            Verdict::NotProven | Verdict::DoesNotConform => shim_text(best, system),
        });
    }
    text.trim_end().to_owned()
}

fn shim_text(best: &ShimOutcome, system: System) -> String {
    let pieces: Vec<String> =
        best.pieces_mm.iter().map(|piece| shown(*piece, None, system)).collect();
    format!(
        "Shims on hand: {} gives {} on average, inside in {} of joints: {}\n",
        pieces.join(" + "),
        shown(best.mean_gap_mm, None, system),
        percent(1.0 - best.outside_limit_fraction),
        best.verdict
    )
}
