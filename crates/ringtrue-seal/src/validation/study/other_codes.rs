//! Curves of general-purpose codes: plates and two cones.

use ringtrue_fem::Friction;
use ringtrue_fem::fields::StepResult;
use ringtrue_fem::reference::{RADIUS, plates, two_cones};

use super::solved::{Expected, Solved, banded, curve, point};
use super::table::Data;
use super::{Point, Series, Study, ValidationError, linear};
use crate::validation::Status;

const FREE: Friction = Friction::Coulomb(0.0);

/// Where a quantity stands in a reference curve, and how it is read from a step.
struct Read<'r> {
    file: &'r str,
    travel: &'r str,
    column: &'r str,
    /// Half-width of the reference's band in percent; where there is none, that of its row.
    percent: Option<f64>,
    value: fn(&StepResult) -> f64,
}

/// Points of a reference curve with the steps at their travels.
fn compared(
    data: &Data<'_>,
    solved: &Solved,
    read: &Read<'_>,
    ours_percent: f64,
) -> Result<Vec<Point>, ValidationError> {
    let mut points = Vec::new();
    for row in data.rows(read.file)? {
        let (at, value) = (row.number(read.travel)?, row.number(read.column)?);
        let percent = match read.percent {
            Some(percent) => percent,
            None => row.number("err_pct")?,
        };
        let steps = &solved.run.steps;
        let step = steps.iter().find(|step| (step.travel_mm - at).abs() < 1e-9);
        let step = step.ok_or_else(|| data.refused(format!("no step at {at} mm")))?;
        let theirs = 0.01 * percent * value.abs();
        points.push(point(Expected { at, value, theirs }, (read.value)(step), ours_percent));
    }
    Ok(points)
}

const FELUPE: &str = "FElupe 11.3.0, four-node quadrilaterals with mean dilatation, \
                      cross-checked with CalculiX 2.20: reference/mechanics/";

fn series(
    name: &str,
    file: &str,
    (solved, value): (&Solved, fn(&StepResult) -> f64),
    points: Vec<Point>,
) -> Series {
    Series {
        name: name.to_owned(),
        source: format!("{FELUPE}{file}"),
        status: Status::Recomputed,
        line: curve(&solved.run, |s| s.travel_mm, value),
        points,
    }
}

fn squeezed(
    data: &Data<'_>,
    (mean_radius, friction): (Option<f64>, Friction),
    file: &str,
    title: &str,
) -> Result<Study, ValidationError> {
    // The reference's 12 or 10 points fall on steps.
    let (approach, steps) = if mean_radius.is_some() { (3.0, 30) } else { (3.6, 36) };
    let mut problem = plates(mean_radius, friction, approach);
    problem.steps = steps;
    let solved = banded(data, &problem, None)?;
    let value = |step: &StepResult| -step.walls[1].force_z_n_per_mm;
    let read = Read { file, travel: "squeeze_mm", column: "force_N_per_mm", percent: None, value };
    let points = compared(data, &solved, &read, solved.band_percent)?;
    Ok(Study {
        name: data.study.to_owned(),
        title: title.to_owned(),
        about: format!(
            "A round section of 12 mm between flat plates, mu 1 MPa, default mesh. Their band by \
             row of the curve (0.5 to 2 %); ours from two meshes, {:.2} %.",
            solved.band_percent
        ),
        x: linear("approach of the plates", "mm"),
        y: linear("force", "N/mm"),
        series: vec![series("force", file, (&solved, value), points)],
    })
}

pub(super) fn plates_bar_frictionless(data: &Data<'_>) -> Result<Study, ValidationError> {
    let title = "Bar between flat plates, without friction";
    squeezed(data, (None, FREE), "plate_plane_strain_frictionless.csv", title)
}

pub(super) fn plates_bar_no_slip(data: &Data<'_>) -> Result<Study, ValidationError> {
    let title = "Bar between flat plates that it sticks to";
    squeezed(data, (None, Friction::NoSlip), "plate_plane_strain_noslip.csv", title)
}

pub(super) fn plates_ring_frictionless(data: &Data<'_>) -> Result<Study, ValidationError> {
    let title = "Ring between flat plates, without friction";
    squeezed(data, (Some(RADIUS), FREE), "plate_axial_ring_frictionless.csv", title)
}

pub(super) fn plates_ring_no_slip(data: &Data<'_>) -> Result<Study, ValidationError> {
    let title = "Ring between flat plates that it sticks to";
    squeezed(data, (Some(RADIUS), Friction::NoSlip), "plate_axial_ring_noslip.csv", title)
}

const NO_SLIP: &str = "ramp_15deg_noslip.csv";
const COULOMB: &str = "ramp_15deg_coulomb03.csv";

fn coned(
    data: &Data<'_>,
    (friction, file): (Friction, &str),
    title: &str,
) -> Result<Study, ValidationError> {
    let solved = banded(data, &two_cones(friction), None)?;
    let axial = |step: &StepResult| step.walls[1].force_z_n_per_mm;
    let normal = |step: &StepResult| step.walls[1].normal_n_per_mm;
    let read = |column, percent, value| Read { file, travel: "u_mm", column, percent, value };
    let axial_points = compared(
        data,
        &solved,
        &read("axial_force_ring_N_per_mm", None, axial),
        solved.band_percent,
    )?;
    let normal_points = compared(
        data,
        &solved,
        // Its own column has no band: the axial force's, 2 % at most.
        &read("normal_force_ring_N_per_mm", None, normal),
        solved.band_percent,
    )?;
    Ok(Study {
        name: data.study.to_owned(),
        title: title.to_owned(),
        about: format!(
            "A ring of 12 mm at 120 mm between cones of 15 degrees, mu 1 MPa, default mesh; the \
             inner cone moves along the axis. Forces on the inner cone. Their band by row of the \
             curve (0.5 to 2 %, also for the normal force); ours from two meshes, {:.2} %.",
            solved.band_percent
        ),
        x: linear("travel", "mm"),
        y: linear("force", "N/mm"),
        series: vec![
            series("axial force", file, (&solved, axial), axial_points),
            series("normal force", file, (&solved, normal), normal_points),
        ],
    })
}

pub(super) fn two_cones_no_slip(data: &Data<'_>) -> Result<Study, ValidationError> {
    coned(data, (Friction::NoSlip, NO_SLIP), "Ring between two cones that it sticks to")
}

pub(super) fn two_cones_coulomb(data: &Data<'_>) -> Result<Study, ValidationError> {
    coned(data, (Friction::Coulomb(0.3), COULOMB), "Ring between two cones, friction 0.3")
}

pub(super) fn two_cones_roll(data: &Data<'_>) -> Result<Study, ValidationError> {
    /// Half the last digit of the first rows is 0.02 %; two meshes of theirs differ by less.
    const THEIRS_PERCENT: f64 = 0.2;
    let roll = |step: &StepResult| step.roll_deg;
    let mut all = Vec::new();
    for (name, friction, file) in
        [("sticking", Friction::NoSlip, NO_SLIP), ("friction 0.3", Friction::Coulomb(0.3), COULOMB)]
    {
        let solved = banded(data, &two_cones(friction), None)?;
        let read = Read {
            file,
            travel: "u_mm",
            column: "roll_deg",
            percent: Some(THEIRS_PERCENT),
            value: roll,
        };
        let points = compared(data, &solved, &read, solved.band_percent)?;
        all.push(series(name, file, (&solved, roll), points));
    }
    Ok(Study {
        name: data.study.to_owned(),
        title: "Ring between two cones: how far it rolls".to_owned(),
        about: "The same ring: area mean of the rotation. Their curve gives no band for it; 0.2 % \
                is taken. Ours: the force's, from two meshes."
            .to_owned(),
        x: linear("travel", "mm"),
        y: linear("roll", "deg"),
        series: all,
    })
}
