//! Steel conical washers: other codes' curves, the formula, and the table of the standard.

use ringtrue_fem::fields::StepResult;
use ringtrue_fem::reference::{DISC, DiscSection, DiscSize, disc_spring};
use ringtrue_fem::{Problem, Run};

use super::solved::{Expected, at_fraction, point, single};
use super::table::Data;
use super::{Series, Study, ValidationError, beside, linear, logarithmic};
use crate::face_load::disc_spring::DiscSpring;
use crate::validation::Status;
use crate::validation::case;
use crate::validation::inputs::Inputs;

const FORMULA: &str = "J. O. Almen, A. Laszlo, Trans. ASME 58 (1936) 305, with K1 of EN 16984";
/// The load at a sharp corner sinks in with a weak, logarithmic dependence on the mesh.
const OURS_PERCENT: f64 = 0.2;

/// Total force of a step, N.
fn total(problem: &Problem, step: &StepResult) -> f64 {
    let radius = problem.section.mean_radius.unwrap_or(0.0);
    -step.walls[1].force_z_n_per_mm * std::f64::consts::TAU * radius
}

fn formula(size: DiscSize) -> DiscSpring {
    DiscSpring {
        outside_diameter_mm: size.outside,
        inside_diameter_mm: size.inside,
        thickness_mm: size.thickness,
        cone_height_mm: size.cone,
        young_mpa: 206e3,
        poisson: 0.3,
    }
}

fn pressed_flat(
    data: &Data<'_>,
    (section, file): (DiscSection, &str),
    title: &str,
) -> Result<Study, ValidationError> {
    let problem = disc_spring(section, DISC);
    let run: Run = single(data, &problem, Some(1.0))?;
    let mut points = Vec::new();
    for row in data.rows(file)? {
        let (at, value) = (row.number("s_mm")?, row.number("force_N")?);
        let step = at_fraction(data, &run, at / DISC.cone)?;
        let theirs = 0.01 * row.number("err_pct")? * value;
        points.push(point(Expected { at, value, theirs }, total(&problem, step), OURS_PERCENT));
    }
    let spring = formula(DISC);
    let places = (0..=28).map(|k| DISC.cone * f64::from(k) / 28.0);
    let closed = places.map(|s| [s, spring.force_n(s)]).collect();
    Ok(Study {
        name: data.study.to_owned(),
        title: title.to_owned(),
        about: format!(
            "De 125, Di 64, t 5, h0 3.5 mm, E 206 GPa, nu 0.3, loaded at its diagonal corner \
             circles. Their band 0.2 %, ours {OURS_PERCENT} % (a sharp corner sinks in with a \
             weak dependence on the mesh). The formula is beside it: 1/(1 - nu^2) is 8 to 9 % too \
             stiff for a ring, and the shorter lever arm of the turned section gives half of that \
             back."
        ),
        x: linear("deflection", "mm"),
        y: linear("force", "N"),
        series: vec![
            Series {
                name: "computed".to_owned(),
                source: format!("CalculiX 2.20, CAX8R, 96 x 16: reference/mechanics/{file}"),
                status: Status::Recomputed,
                line: run.steps.iter().map(|s| [s.travel_mm, total(&problem, s)]).collect(),
                points,
            },
            beside("formula", FORMULA, closed),
        ],
    })
}

pub(super) fn turned(data: &Data<'_>) -> Result<Study, ValidationError> {
    let title = "Disc spring: the rectangle turned by the cone angle";
    pressed_flat(data, (DiscSection::Turned, "disc_spring_rectangular.csv"), title)
}

pub(super) fn upright_ends(data: &Data<'_>) -> Result<Study, ValidationError> {
    let title = "Disc spring: the parallelogram with upright ends";
    pressed_flat(data, (DiscSection::UprightEnds, "disc_spring_vertical_ends.csv"), title)
}

/// A row of the series table.
struct Listed {
    size: DiscSize,
    share: f64,
    force: f64,
    source: String,
}

pub(super) fn series_table(data: &Data<'_>) -> Result<Study, ValidationError> {
    /// The formula exceeds the finite elements by 3.3 to 4.9 % for this section: see the curves.
    const EXCESS: f64 = 0.959;
    const EXCESS_BAND: f64 = 0.008;
    let mut rows = listed(data)?;
    rows.sort_by(|a, b| a.force.total_cmp(&b.force));
    let (mut by_formula, mut by_elements) = (Vec::new(), Vec::new());
    let rounding = 0.005;
    for row in &rows {
        let table = row.force;
        let computed = formula(row.size).force_n(row.share * row.size.cone);
        let expected = Expected { at: table, value: table, theirs: rounding * table };
        by_formula.push(point(expected, computed, 0.0));
        // Every third: they differ in size only.
        if by_formula.len() % 3 == 1 {
            let mut problem = disc_spring(DiscSection::Turned, row.size);
            problem.steps = 8;
            let run = single(data, &problem, Some(row.size.thickness / 5.0))?;
            let step = at_fraction(data, &run, row.share)?;
            let theirs = (rounding + EXCESS_BAND) * table;
            let expected = Expected { at: table, value: EXCESS * table, theirs };
            by_elements.push(point(expected, total(&problem, step), OURS_PERCENT));
        }
    }
    let line = |points: &[super::Point]| points.iter().map(|p| [p.at, p.computed]).collect();
    let source = rows.first().map_or(String::new(), |row| row.source.clone());
    let series = |name: &str, points: Vec<super::Point>| Series {
        name: name.to_owned(),
        source: source.clone(),
        status: Status::Published,
        line: line(&points),
        points,
    };
    Ok(Study {
        name: data.study.to_owned(),
        title: "Disc springs of the series table at three quarters of their cone".to_owned(),
        about:
            "The formula meets the table within its three figures (0.5 %). The finite elements, \
                solved for every third row, lie 3.3 to 4.9 % below it, the formula's known excess \
                for this section; the points have that taken off, with 0.8 % for its range."
                .to_owned(),
        x: logarithmic("force of the table", "N"),
        y: logarithmic("force", "N"),
        series: vec![series("formula", by_formula), series("elements", by_elements)],
    })
}

fn listed(data: &Data<'_>) -> Result<Vec<Listed>, ValidationError> {
    let text = data.file("cases/face_load/din_en_16983_disc_springs.toml")?;
    let none = |_: &str| None;
    let mut rows = Vec::new();
    for one in case::read(&text)?.iter().filter(|one| one.id.starts_with("din2093-")) {
        let inputs = Inputs::new(one, &none);
        let thickness = inputs.number("thickness_mm")?;
        let force = one.expected_number("force_n");
        rows.push(Listed {
            size: DiscSize {
                outside: inputs.number("outside_diameter_mm")?,
                inside: inputs.number("inside_diameter_mm")?,
                thickness,
                cone: inputs.number("free_height_mm")? - thickness,
            },
            share: inputs.number("deflection_share_of_cone")?,
            force: force.ok_or_else(|| data.refused(format!("{} has no force", one.id)))?,
            source: one.source.clone(),
        });
    }
    Ok(rows)
}
