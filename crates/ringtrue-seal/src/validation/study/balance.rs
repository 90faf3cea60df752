//! Energy balance, and convergence with the mesh.

use ringtrue_fem::reference::{RADIUS, plates, two_cones};
use ringtrue_fem::{Friction, Problem, Run};

use super::solved::{Expected, edges, point, single};
use super::table::Data;
use super::{Point, Series, Study, ValidationError, linear, logarithmic};
use crate::validation::Status;

pub(super) fn energy(data: &Data<'_>) -> Result<Study, ValidationError> {
    let smooth = Problem { steps: 60, ..plates(Some(RADIUS), Friction::Coulomb(0.0), 3.0) };
    let sticking = Problem { steps: 60, ..two_cones(Friction::NoSlip) };
    let one = |name: &str, problem: &Problem| -> Result<Series, ValidationError> {
        let run = single(data, problem, None)?;
        let points = run.steps.iter().filter(|s| s.fraction > 0.3).step_by(6).map(|step| {
            let value = step.strain_energy_n_mm_per_mm;
            // The trapezoidal rule over 60 steps, and the start of contact.
            let expected = Expected { at: step.travel_mm, value, theirs: 0.002 * value };
            point(expected, step.wall_work_n_mm_per_mm, 0.0)
        });
        Ok(Series {
            name: name.to_owned(),
            source: "first law: what the walls put in is stored where nothing slips under friction"
                .to_owned(),
            status: Status::Recomputed,
            points: points.collect(),
            line: run.steps.iter().map(|s| [s.travel_mm, s.wall_work_n_mm_per_mm]).collect(),
        })
    };
    Ok(Study {
        name: data.study.to_owned(),
        title: "Energy balance: work of the walls (line) and strain energy (points)".to_owned(),
        about:
            "A ring between smooth plates, and one between two cones that it sticks to. The work \
                is summed over 60 steps by the trapezoidal rule. Allowed: 0.2 %."
                .to_owned(),
        x: linear("travel", "mm"),
        y: linear("energy per length", "N"),
        series: vec![one("plates, frictionless", &smooth)?, one("cones, sticking", &sticking)?],
    })
}

pub(super) fn convergence(data: &Data<'_>) -> Result<Study, ValidationError> {
    const FINEST: f64 = 240.0;
    let problem = two_cones(Friction::NoSlip);
    let fine = single(data, &problem, edges(FINEST))?;
    let mut line = Vec::new();
    for count in [120.0, 96.0, 80.0, 60.0, 48.0, 40.0, 32.0] {
        let run = single(data, &problem, edges(count))?;
        line.push([std::f64::consts::PI * 12.0 / count, 100.0 * off(&run, &fine)]);
    }
    let (order, at_one) = fitted(&line);
    let law = |size: f64| at_one * size * size;
    let points = [line[0], line[2], line[4], line[6]].map(|[at, computed]| {
        let expected = law(at);
        // Single meshes scatter: where an edge ends beside the contact's end is chance.
        Point { at, expected, computed, theirs: 0.3 * expected, ours: 0.0 }
    });
    Ok(Study {
        name: data.study.to_owned(),
        title: format!("Two cones: the force converges with the power {order:.1} of the edge"),
        about: format!(
            "The ring between two cones that it sticks to, against its own run with {FINEST} \
             boundary edges: root mean square of the axial force's difference over the steps past \
             the first tenth, percent of the force. Least squares give the power {order:.2}; the \
             points are the second power through the same middle, which the error band rests on. \
             Single meshes scatter by up to 30 % of their small error: where an edge ends beside \
             the contact's end is chance."
        ),
        x: logarithmic("boundary edge", "mm"),
        y: logarithmic("difference of the force", "%"),
        series: vec![Series {
            name: "computed".to_owned(),
            source: "theory: contact ends cut edges, second power of the edge".to_owned(),
            status: Status::Recomputed,
            points: points.to_vec(),
            line,
        }],
    })
}

/// Root mean square of the axial force's relative difference past the first tenth of the motion.
fn off(run: &Run, fine: &Run) -> f64 {
    let (mut square, mut count) = (0.0, 0.0);
    for (a, b) in run.steps.iter().zip(&fine.steps).filter(|(a, _)| a.fraction > 0.1) {
        let ratio = a.walls[1].force_z_n_per_mm / b.walls[1].force_z_n_per_mm;
        square += (ratio - 1.0) * (ratio - 1.0);
        count += 1.0;
    }
    (square / count).sqrt()
}

/// Slope of the logarithms by least squares, and the factor of the square law with the same mean.
fn fitted(line: &[[f64; 2]]) -> (f64, f64) {
    let logs: Vec<[f64; 2]> = line.iter().map(|p| p.map(libm::log)).collect();
    let count = logs.len() as f64;
    let mean = [0, 1].map(|i| logs.iter().map(|p| p[i]).sum::<f64>() / count);
    let across: f64 = logs.iter().map(|p| (p[0] - mean[0]) * (p[0] - mean[0])).sum();
    let joint: f64 = logs.iter().map(|p| (p[0] - mean[0]) * (p[1] - mean[1])).sum();
    (joint / across, libm::exp(mean[1] - 2.0 * mean[0]))
}
