//! Roughness: the filter, the parameters, the tables and the rule.

use std::f64::consts::TAU;

use ringtrue_metrology::profile::parameters::{self, Heights};
use ringtrue_metrology::profile::settings::{By, Edition, setting};
use ringtrue_metrology::profile::{self, filter};

use crate::roughness::Rule;
use crate::validation::ValidationError;
use crate::validation::inputs::{Inputs, Quantities};

/// How a value enters a table.
type Entry = fn(f64) -> By;

/// Points to a made-up profile: a multiple of what each shape needs.
const POINTS: u32 = 40_000;

/// A textbook wave over whole periods.
pub(super) fn shape(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let profile: Vec<f64> = match inputs.text("shape")? {
        "pulse" => {
            let height = inputs.number("height")?;
            let high = f64::from(POINTS) * inputs.number("fraction_high")?;
            (0..POINTS).map(|i| if f64::from(i) < high { height } else { 0.0 }).collect()
        }
        wave => {
            let amplitude = inputs.number("amplitude")?;
            let of: fn(f64) -> f64 = match wave {
                "sine" => |x| libm::sin(TAU * x),
                "triangle" => |x| 1.0 - 4.0 * (x - 0.5).abs(),
                "square" => |x| if x < 0.5 { 1.0 } else { -1.0 },
                other => return Err(inputs.wrong(format!("no shape `{other}`"))),
            };
            // Four periods, read in the middle of each step.
            let x = |i: u32| (4.0 * (f64::from(i) + 0.5) / f64::from(POINTS)) % 1.0;
            (0..POINTS).map(|i| amplitude * of(x(i))).collect()
        }
    };
    let evaluated = parameters::evaluate(&profile, 1).map_err(|e| inputs.refused(e))?;
    Ok(over(Quantities::default(), &evaluated.whole))
}

/// Constants of the Gaussian filter.
pub(super) fn gaussian(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let cut_off = inputs.number("lambda_c_mm")?;
    Ok(Quantities::default()
        .one("alpha", filter::alpha())
        .one("s_at_0_per_mm", filter::weight(0.0, cut_off))
        .one("s_at_half_cutoff_per_mm", filter::weight(cut_off / 2.0, cut_off))
        .one("transmission_at_cutoff", filter::transmission(cut_off, cut_off)))
}

/// Weight within a window, and what passes of waves, by cut-offs.
pub(super) fn gaussian_shares(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let mut given = Quantities::default();
    if inputs.given("Lc") {
        let kept = inputs.numbers("Lc")?.into_iter().map(filter::weight_within).collect();
        given = given.list("kept", kept);
    }
    if inputs.given("lambda_over_lambda_c") {
        let passes = inputs.numbers("lambda_over_lambda_c")?;
        let passes: Vec<f64> =
            passes.into_iter().map(|ratio| filter::transmission(ratio, 1.0)).collect();
        given = given
            .list("roughness_transmission", passes.iter().map(|share| 1.0 - share).collect())
            .list("waviness_transmission", passes);
    }
    Ok(given)
}

/// Cut-off and evaluation length by a standard's table.
pub(super) fn cut_offs(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let edition = match inputs.text("edition")? {
        "ISO 4288" => Edition::Iso4287,
        "ISO 21920-3" => Edition::Iso21920,
        other => return Err(inputs.wrong(format!("no edition `{other}`"))),
    };
    let keys: [(&str, Entry); 3] = [("Ra_um", By::Ra), ("Rz_um", By::Rz), ("RSm_mm", By::Spacing)];
    let (key, by) = keys
        .into_iter()
        .find(|(key, _)| inputs.given(key))
        .ok_or_else(|| inputs.wrong("one of Ra_um, Rz_um and RSm_mm is needed"))?;
    let rows: Vec<_> =
        inputs.numbers(key)?.into_iter().map(|value| setting(edition, by(value))).collect();
    Ok(Quantities::default()
        .list("lambda_c_mm", rows.iter().map(|row| row.cut_off_mm).collect())
        .list("evaluation_mm", rows.iter().map(|row| row.evaluation_length_mm).collect()))
}

/// A profile from a table: levelled and filtered, or as it is.
pub(super) fn traced(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    inputs.ignore("ends");
    let table = inputs.table("data")?;
    let heights =
        table.get("z_um").ok_or_else(|| inputs.wrong("the table has no column `z_um`"))?;
    let sections = inputs.count("sections")? as usize;
    let step = inputs.number("step_um")?;
    let roughness = match inputs.optional_number("lambda_c_um")? {
        None => heights.clone(),
        Some(cut_off) => {
            let level = profile::level(heights).map_err(|e| inputs.refused(e))?;
            let mean = filter::mean_line(&level, step, cut_off).map_err(|e| inputs.refused(e))?;
            let (first, end) = (inputs.count("first_index")?, inputs.count("end_index")?);
            let rough: Vec<f64> = level.iter().zip(&mean).map(|(z, w)| z - w).collect();
            let part = rough.get(first as usize..end as usize);
            part.ok_or_else(|| inputs.wrong("the evaluation lies outside the trace"))?.to_vec()
        }
    };
    let evaluated = parameters::evaluate(&roughness, sections).map_err(|e| inputs.refused(e))?;
    Ok(over(Quantities::default(), &evaluated.whole)
        .one("Rz", evaluated.rz())
        .one("Rp", evaluated.mean(|section| section.rp))
        .one("Rv", evaluated.mean(|section| section.rv)))
}

/// A sine on a slope.
pub(super) fn level(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let (points, length) = (inputs.count("points")?, inputs.number("length_mm")?);
    let (slope, amplitude) = (inputs.number("slope_um_per_mm")?, inputs.number("amplitude")?);
    let wavelength = inputs.number("wavelength_mm")?;
    let step = length / f64::from(points.max(2) - 1);
    let height = |i: u32| {
        let x = f64::from(i) * step;
        slope * x + amplitude * libm::sin(TAU * x / wavelength)
    };
    let heights: Vec<f64> = (0..points).map(height).collect();
    let line = profile::line(&heights).map_err(|e| inputs.refused(e))?;
    let level = profile::level(&heights).map_err(|e| inputs.refused(e))?;
    Ok(Quantities::default()
        .one("fitted_slope", line.slope / step)
        .one("Ra", parameters::heights(&level).ra))
}

/// Does the rule take these many values over the limit? 1 for yes.
pub(super) fn rule(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let over = inputs.numbers("values_over_limit")?;
    let of = inputs.numbers("n")?;
    let rules = inputs.texts("rule")?;
    if over.len() != of.len() || of.len() != rules.len() {
        return Err(inputs.wrong("values_over_limit, n and rule must be of one length"));
    }
    let accepted = over.iter().zip(&of).zip(rules).map(|((over, n), rule)| {
        let rule = match rule {
            "16" => Rule::SixteenPercent,
            "max" => Rule::Max,
            other => return Err(inputs.wrong(format!("no rule `{other}`"))),
        };
        Ok(f64::from(u8::from(*over <= rule.allowed(*n as usize) as f64)))
    });
    Ok(Quantities::default().list("accept", accepted.collect::<Result<_, _>>()?))
}

fn over(given: Quantities, heights: &Heights) -> Quantities {
    let given = given.one("Ra", heights.ra).one("Rq", heights.rq).one("Rt", heights.rt);
    let moments = [("Rsk", heights.rsk), ("Rku", heights.rku)];
    moments.into_iter().fold(given, |given, (name, value)| match value {
        Some(value) => given.one(name, value),
        None => given,
    })
}
