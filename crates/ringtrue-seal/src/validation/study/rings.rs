//! Round sections and discs: line contact, rings free and held, the bonded disc, everting.

use ringtrue_fem::Friction;
use ringtrue_fem::reference::{
    EVERTING_GRIP, RADIUS, SECTION, bonded_disc as disc, everting as everting_ring,
    everting_moment, hertz_half_width, johnson_approach, lindley, plates,
};

use super::solved::{Expected, at_fraction, banded, curve, edges, point, single};
use super::table::{Check, Data};
use super::{Point, Series, Study, ValidationError, beside, linear, logarithmic};
use crate::validation::Status;

/// Young's modulus of the reference's rubber, and that of a line contact, MPa.
const YOUNG: f64 = 3.0;
const CONTACT_MODULUS: f64 = 4.0;
const FREE: Friction = Friction::Coulomb(0.0);
const JOHNSON: &str = "K. L. Johnson, Contact Mechanics (1985), sections 4.2 and 5.6";
const OWN_CODE: &str = "another code (four-node three-field elements, last mesh change under \
                        0.3 %): reference/mechanics/round_section.csv";

pub(super) fn line_contact(data: &Data<'_>) -> Result<Study, ValidationError> {
    const MOST: f64 = 0.06;
    let mut problem = plates(None, FREE, MOST * SECTION);
    problem.steps = 24;
    let solved = banded(data, &problem, edges(240.0))?;
    let line = curve(&solved.run, |s| 100.0 * MOST * s.fraction, |s| -s.walls[1].force_z_n_per_mm);
    let mut points = Vec::new();
    for squeeze in [0.01, 0.02, 0.03, 0.04, 0.05] {
        let step = at_fraction(data, &solved.run, squeeze / MOST)?;
        let value = force_of_approach(squeeze * SECTION);
        let theirs = value * departure(squeeze);
        let expected = Expected { at: 100.0 * squeeze, value, theirs };
        points.push(point(expected, -step.walls[1].force_z_n_per_mm, solved.band_percent));
    }
    let mut other = Vec::new();
    for check in data.checks("round_section.csv", "disc-ps-F-")? {
        let squeeze = check.input("squeeze")?;
        if squeeze < MOST {
            let step = at_fraction(data, &solved.run, squeeze / MOST)?;
            let expected = per_section(&check, 100.0 * squeeze);
            other.push(point(expected, -step.walls[1].force_z_n_per_mm, solved.band_percent));
        }
    }
    let series = |(name, source): (&str, &str), status, line, points| Series {
        name: name.to_owned(),
        source: source.to_owned(),
        status,
        line,
        points,
    };
    Ok(Study {
        name: data.study.to_owned(),
        title: "Line contact: a bar between smooth flats at small squeeze".to_owned(),
        about: "A round bar of 12 mm in plane strain, mu 1 MPa (E* = 4 MPa), 240 boundary edges. \
                The closed form's band is how far another code's rows leave it, 0.1 % at 2 % \
                squeeze and 1.6 % at 5 %; ours is from two meshes."
            .to_owned(),
        x: linear("squeeze", "%"),
        y: linear("force", "N/mm"),
        series: vec![
            series(("closed form", JOHNSON), Status::FromMemory, line, points),
            series(("another code", OWN_CODE), Status::Recomputed, Vec::new(), other),
        ],
    })
}

/// How far, as a share, another code's rows leave the closed form: 0.1 % at 2 % squeeze, 1.6 % at
/// 5 %, linear between and beyond.
fn departure(squeeze: f64) -> f64 {
    (0.001 + 0.5 * (squeeze - 0.02)).max(0.001)
}

/// A force per length over `mu d` at a squeeze in percent, as N/mm for the reference's section.
fn per_section(check: &Check, at: f64) -> Expected {
    Expected { at, value: SECTION * check.expected, theirs: SECTION * check.theirs }
}

/// The force at which Johnson's approach is this, by halving.
fn force_of_approach(approach: f64) -> f64 {
    let (mut low, mut high) = (1e-6, 10.0);
    for _ in 0..80 {
        let middle = 0.5 * (low + high);
        let reached = johnson_approach(middle, 0.5 * SECTION, CONTACT_MODULUS);
        if reached < approach {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

pub(super) fn line_contact_peak(data: &Data<'_>) -> Result<Study, ValidationError> {
    const MOST: f64 = 0.06;
    /// The pressure is sampled at points of the edges: its top lies between two of them.
    const OURS_PERCENT: f64 = 1.5;
    let mut problem = plates(None, FREE, MOST * SECTION);
    problem.steps = 24;
    let run = single(data, &problem, edges(240.0))?;
    let steps = || run.steps.iter().filter(|step| step.fraction > 0.15);
    let line: Vec<[f64; 2]> =
        steps().map(|s| [-s.walls[1].force_z_n_per_mm, s.walls[1].peak_mpa]).collect();
    let points = steps().step_by(3).map(|s| {
        let force = -s.walls[1].force_z_n_per_mm;
        let half_width = hertz_half_width(force, 0.5 * SECTION, CONTACT_MODULUS);
        let value = 2.0 * force / (std::f64::consts::PI * half_width);
        let squeeze = MOST * s.fraction;
        let theirs = value * departure(squeeze);
        point(Expected { at: force, value, theirs }, s.walls[1].peak_mpa, OURS_PERCENT)
    });
    Ok(Study {
        name: data.study.to_owned(),
        title: "Line contact: peak pressure over the force".to_owned(),
        about: format!(
            "The same bar. Hertz: p0 = 2 F / (pi b), b^2 = 4 F R / (pi E*). Its band is taken as \
             that of the approach; ours, {OURS_PERCENT} %, is the sampling of the pressure along \
             the edges. The contact at the first steps is a few edges wide and left out."
        ),
        x: linear("force", "N/mm"),
        y: linear("peak pressure", "MPa"),
        series: vec![Series {
            name: "peak".to_owned(),
            source: JOHNSON.to_owned(),
            status: Status::FromMemory,
            points: points.collect(),
            line,
        }],
    })
}

pub(super) fn held_section(data: &Data<'_>) -> Result<Study, ValidationError> {
    let mut problem = plates(None, FREE, 0.4 * SECTION);
    problem.steps = 40;
    let solved = banded(data, &problem, edges(192.0))?;
    let mut points = Vec::new();
    for check in data.checks("round_section.csv", "disc-ps-F-")? {
        let squeeze = check.input("squeeze")?;
        let step = at_fraction(data, &solved.run, squeeze / 0.4)?;
        let expected = per_section(&check, 100.0 * squeeze);
        points.push(point(expected, -step.walls[1].force_z_n_per_mm, solved.band_percent));
    }
    Ok(Study {
        name: data.study.to_owned(),
        title: "A round bar squeezed to 40 % between smooth flats".to_owned(),
        about: "Plane strain, 12 mm, mu 1 MPa, 192 boundary edges; ours from two meshes."
            .to_owned(),
        x: linear("squeeze", "%"),
        y: linear("force", "N/mm"),
        series: vec![Series {
            name: "bar".to_owned(),
            source: OWN_CODE.to_owned(),
            status: Status::Recomputed,
            line: curve(&solved.run, |s| 40.0 * s.fraction, |s| -s.walls[1].force_z_n_per_mm),
            points,
        }],
    })
}

pub(super) fn free_ring(data: &Data<'_>) -> Result<Study, ValidationError> {
    let steps_to = |mean_radius: Option<f64>| {
        let mut problem = plates(mean_radius, FREE, 0.3 * SECTION);
        problem.steps = 30;
        banded(data, &problem, None)
    };
    let (free, held) = (steps_to(Some(RADIUS))?, steps_to(None)?);
    // Force over E d and length: the circumference cancels.
    let over = |force: f64| -force / (YOUNG * SECTION);
    let at = |solved: &super::solved::Solved, squeeze: f64| {
        let step = at_fraction(data, &solved.run, squeeze / 0.3)?;
        Ok::<f64, ValidationError>(over(step.walls[1].force_z_n_per_mm))
    };
    let mut other = Vec::new();
    for check in data.checks("round_section.csv", "torus-F-")? {
        let squeeze = check.input("squeeze")?;
        if squeeze < 0.301 {
            let (value, theirs) = (check.expected, check.theirs);
            let expected = Expected { at: 100.0 * squeeze, value, theirs };
            other.push(point(expected, at(&free, squeeze)?, free.band_percent));
        }
    }
    let (mut formula, mut stiffer) = (Vec::new(), Vec::new());
    for squeeze in [0.15, 0.2, 0.25, 0.3] {
        let value = lindley(squeeze);
        let expected = Expected { at: 100.0 * squeeze, value, theirs: 0.08 * value };
        formula.push(point(expected, at(&free, squeeze)?, free.band_percent));
    }
    for squeeze in [0.15, 0.2, 0.25] {
        let value = 1.3 * lindley(squeeze);
        let expected = Expected { at: 100.0 * squeeze, value, theirs: 0.08 * value };
        stiffer.push(point(expected, at(&held, squeeze)?, held.band_percent));
    }
    let line = |solved: &super::solved::Solved| {
        curve(&solved.run, |s| 30.0 * s.fraction, |s| over(s.walls[1].force_z_n_per_mm))
    };
    let series = |name: &str, source: &str, line: Vec<[f64; 2]>, points: Vec<Point>| Series {
        name: name.to_owned(),
        source: source.to_owned(),
        status: Status::FromMemory,
        line,
        points,
    };
    const LINDLEY: &str = "P. B. Lindley, J. IRI 1 (1967) 209: 1.25 c^1.5 + 50 c^6";
    Ok(Study {
        name: data.study.to_owned(),
        title: "Lindley's formula holds for a ring that is free to grow".to_owned(),
        about: "A round-section ring (12 mm at 120 mm, mu 1 MPa) squeezed between smooth flats, \
                over E d and length. The formula's band, 8 %, is how far two other codes' curves \
                leave it from 15 to 30 % squeeze. A held section, which cannot grow, needs about \
                1.3 times that."
            .to_owned(),
        x: linear("squeeze", "%"),
        y: linear("force over E d", ""),
        series: vec![
            series("free to grow", LINDLEY, line(&free), formula),
            Series {
                status: Status::Recomputed,
                ..series("free, another code", OWN_CODE, Vec::new(), other)
            },
            series("held, 1.3 times", &format!("1.3 times {LINDLEY}"), line(&held), stiffer),
        ],
    })
}

pub(super) fn free_ring_growth(data: &Data<'_>) -> Result<Study, ValidationError> {
    let mut problem = plates(Some(RADIUS), FREE, 0.4 * SECTION);
    problem.steps = 40;
    let run = single(data, &problem, None)?;
    let growth = |s: &ringtrue_fem::fields::StepResult| 1.0 + s.centroid_dr_mm / RADIUS;
    let mut points = Vec::new();
    for check in data.checks("round_section.csv", "torus-hoop-")? {
        let squeeze = check.input("squeeze")?;
        let step = at_fraction(data, &run, squeeze / 0.4)?;
        let expected =
            Expected { at: 100.0 * squeeze, value: check.expected, theirs: check.theirs };
        points.push(point(expected, growth(step), 0.05));
    }
    Ok(Study {
        name: data.study.to_owned(),
        title: "A ring that is free to grow: its hoop stretch".to_owned(),
        about:
            "The same ring to 40 % squeeze: stretch of the circle through the section's centre. \
                Ours: 0.05 %."
                .to_owned(),
        x: linear("squeeze", "%"),
        y: linear("hoop stretch", ""),
        series: vec![Series {
            name: "ring".to_owned(),
            source: OWN_CODE.to_owned(),
            status: Status::Recomputed,
            line: curve(&run, |s| 40.0 * s.fraction, growth),
            points,
        }],
    })
}

pub(super) fn bonded_disc(data: &Data<'_>) -> Result<Study, ValidationError> {
    const STRAIN: f64 = 2e-4;
    const DISC: f64 = 20.0;
    let ratio = |shape_factor: f64, per_height: f64| {
        let height = DISC / (2.0 * shape_factor);
        let size = DISC.min(height) / per_height;
        let run = single(data, &disc([DISC, height], STRAIN), Some(size))?;
        let step = at_fraction(data, &run, 1.0)?;
        let force = -step.walls[1].force_z_n_per_mm * std::f64::consts::PI * DISC;
        let area = std::f64::consts::PI * DISC * DISC;
        Ok::<f64, ValidationError>(force / (area * STRAIN * YOUNG))
    };
    let mut line = Vec::new();
    for shape_factor in [0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0, 4.0, 8.0] {
        line.push([shape_factor, ratio(shape_factor, 16.0)?]);
    }
    let mut other = Vec::new();
    for check in data.checks("solid_mechanics_fe.csv", "bonded-disc-")? {
        let at = check.input("shape_factor")?;
        let expected = Expected { at, value: check.expected, theirs: check.theirs };
        // The bonded rim is singular.
        other.push(point(expected, ratio(at, 24.0)?, 0.4));
    }
    let mut formula = Vec::new();
    for at in [0.5, 1.0, 2.0, 4.0] {
        let value = 1.0 + 2.0 * at * at;
        let computed = line.iter().find(|[s, _]| *s == at).map_or(f64::NAN, |[_, c]| *c);
        formula.push(point(Expected { at, value, theirs: 0.03 * value }, computed, 0.6));
    }
    let series = |(name, source): (&str, &str), status, line, points| Series {
        name: name.to_owned(),
        source: source.to_owned(),
        status,
        line,
        points,
    };
    const GENT: &str = "A. N. Gent, P. B. Lindley, Proc. IMechE 173 (1959) 111: 1 + 2 S^2";
    Ok(Study {
        name: data.study.to_owned(),
        title: "Bonded rubber disc: apparent modulus over the shape factor".to_owned(),
        about: "A disc bonded between rigid plates, pressed by 0.02 %; S = R/(2 h). The formula's \
                band is 3 % from S = 0.5 on; ours is 0.4 % (0.6 % on the coarser mesh of the \
                line) for the singular bonded rim."
            .to_owned(),
        x: logarithmic("shape factor S", ""),
        y: logarithmic("apparent modulus over E", ""),
        series: vec![
            series(("formula", GENT), Status::FromMemory, line, formula),
            series(
                (
                    "another code",
                    "another code (mixed quadratic elements, two meshes): \
                     reference/mechanics/solid_mechanics_fe.csv",
                ),
                Status::Recomputed,
                Vec::new(),
                other,
            ),
        ],
    })
}

pub(super) fn everting(data: &Data<'_>) -> Result<Study, ValidationError> {
    const MEAN: f64 = 90.0;
    let run = single(data, &everting_ring(), None)?;
    let moment = |s: &ringtrue_fem::fields::StepResult| {
        s.walls[1].force_z_n_per_mm * (SECTION - EVERTING_GRIP)
    };
    let closed = |degrees: f64| everting_moment(YOUNG, SECTION, MEAN, degrees.to_radians());
    let loaded = || run.steps.iter().filter(|step| step.roll_deg > 1.0);
    let points = loaded().filter(|s| s.roll_deg > 20.0).step_by(6).map(|s| {
        let value = closed(s.roll_deg);
        let theirs = 0.02 * value + 0.02 * closed(90.0);
        point(Expected { at: s.roll_deg, value, theirs }, moment(s), 0.0)
    });
    let formula = (0..=24).map(|k| [5.0 * f64::from(k), closed(5.0 * f64::from(k))]).collect();
    let source = "S. P. Timoshenko, Strength of Materials II, ring twisted by uniform couples, \
                  continued to large angles: E I / R^2 sin(phi)";
    Ok(Study {
        name: data.study.to_owned(),
        title: "Turning a ring inside out: moment over the roll".to_owned(),
        about: "A ring of 12 mm at 90 mm rolls between two cylinders that stick to it and move \
                along their axis; the couple of their forces is the moment. The formula is that of \
                a thin ring: its band is 2 % of itself and of its top (d/R = 0.13, and the grip of \
                1 % adds rolling resistance)."
            .to_owned(),
        x: linear("roll", "deg"),
        y: linear("moment per length", "N"),
        series: vec![
            Series {
                name: "computed".to_owned(),
                source: source.to_owned(),
                status: Status::FromMemory,
                line: loaded().map(|s| [s.roll_deg, moment(s)]).collect(),
                points: points.collect(),
            },
            beside("E I / R^2 sin(phi)", source, formula),
        ],
    })
}
