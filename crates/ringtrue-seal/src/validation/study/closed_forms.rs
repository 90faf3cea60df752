//! Tubes: Lame's, Rivlin's, and the order of convergence.

use ringtrue_fem::Run;
use ringtrue_fem::material::{Material, NeoHooke, SaintVenantKirchhoff};
use ringtrue_fem::reference::{lame, rim_of_tube, rivlin, tube};

use super::solved::{Expected, point, single};
use super::table::Data;
use super::{Point, Series, Study, ValidationError, linear, logarithmic};
use crate::validation::Status;

pub(super) fn lame_tube(data: &Data<'_>) -> Result<Study, ValidationError> {
    /// A pressure so small that finite strain differs by 1e-6.
    const PRESSURE: f64 = 0.1;
    const OURS_PERCENT: f64 = 0.01;
    let check = &data.checks("solid_mechanics_fe.csv", "lame-u-ps")?[0];
    let size = [check.input("a")?, check.input("b")?];
    let [inner, outer] = size;
    let elastic = [check.input("E")?, check.input("nu")?];
    let formula = |pressures: [f64; 2], r: f64| lame(size, pressures, elastic, r);
    let of_table = formula([check.input("p")?, 0.0], check.input("r")?);
    if !agree(of_table, check.expected) {
        return Err(data.refused("the formula does not give the table's row lame-u-ps"));
    }
    let rim = formula([0.0, PRESSURE], outer);
    let [young, poisson] = elastic;
    let material = Material::SaintVenantKirchhoff(SaintVenantKirchhoff { young, poisson });
    let run = single(data, &tube(material, [inner, outer, 20.0, -rim]), Some(5.0))?;
    let micro = 1e3;
    let line: Vec<[f64; 2]> =
        through_the_wall(&run).iter().map(|[r, u]| [*r, -micro * u]).collect();
    let points = line.iter().step_by(2).map(|[r, computed]| {
        let value = -micro * formula([0.0, PRESSURE], *r);
        point(Expected { at: *r, value, theirs: 0.0 }, *computed, OURS_PERCENT)
    });
    Ok(Study {
        name: data.study.to_owned(),
        title: "Elastic tube narrowed at its rim".to_owned(),
        about: format!(
            "Radii {inner} and {outer} mm, E = {young} MPa, nu = {poisson}, held in its length; a \
             smooth wall narrows the rim by as much as {PRESSURE} MPa would. Inward displacement \
             through the wall. Allowed: {OURS_PERCENT} %."
        ),
        x: linear("radius", "mm"),
        y: linear("inward displacement", "um"),
        series: vec![Series {
            name: "displacement".to_owned(),
            source: "G. Lame's solution; S. P. Timoshenko, J. N. Goodier, Theory of Elasticity"
                .to_owned(),
            status: Status::FromMemory,
            points: points.collect(),
            line,
        }],
    })
}

/// A formula gives a table's number to the digits that are printed.
fn agree(formula: f64, table: f64) -> bool {
    (formula - table).abs() <= 1e-4 * table.abs()
}

/// Radius and radial displacement of the nodes on the middle of the tube, from bore to rim.
fn through_the_wall(run: &Run) -> Vec<[f64; 2]> {
    let Some(end) = run.steps.last() else { return Vec::new() };
    let lowest = run.mesh.nodes.iter().map(|x| x[1]).fold(f64::MAX, f64::min);
    let mut places: Vec<[f64; 2]> = run
        .mesh
        .nodes
        .iter()
        .zip(&end.displacement)
        .filter(|(x, _)| x[1] < lowest + 1e-9)
        .map(|(x, u)| [x[0], u[0]])
        .collect();
    places.sort_by(|a, b| a[0].total_cmp(&b[0]));
    places
}

pub(super) fn rivlin_tube(data: &Data<'_>) -> Result<Study, ValidationError> {
    /// Bulk modulus 1e5 mu stands for incompressible (1e-5 of strain).
    const OURS_PERCENT: f64 = 0.05;
    for check in data.checks("solid_mechanics_fe.csv", "nh-cyl-")? {
        let size = [check.input("A")?, check.input("B")?];
        let of_table = rivlin(size, check.input("a")?);
        if !agree(of_table, check.expected) {
            return Err(data.refused("the formula does not give the table's rows nh-cyl-*"));
        }
    }
    let size = [10.0, 20.0];
    let now = 6.0;
    let [inner, outer] = size;
    let shrinkage = outer - rim_of_tube(size, now);
    let material = Material::NeoHooke(NeoHooke { mu: 1.0, bulk: 1e5 });
    let run = single(data, &tube(material, [inner, outer, 4.0, shrinkage]), Some(10.0 / 16.0))?;
    let line: Vec<[f64; 2]> = run
        .steps
        .iter()
        .map(|step| {
            let rim = outer - step.fraction * shrinkage;
            let bore = (rim * rim - outer * outer + inner * inner).sqrt();
            [inner - bore, step.walls[0].mean_mpa]
        })
        .collect();
    let points = line.iter().map(|[at, computed]| {
        let value = -rivlin(size, inner - at);
        point(Expected { at: *at, value, theirs: 0.0 }, *computed, OURS_PERCENT)
    });
    Ok(Study {
        name: data.study.to_owned(),
        title: "Incompressible rubber tube narrowed at large strain".to_owned(),
        about: format!(
            "Radii {inner} and {outer} mm, neo-Hooke of mu 1 MPa and bulk modulus 1e5 MPa, held in \
             its length; a smooth wall narrows the rim until the bore has gone from {inner} to \
             {now} mm. Pressure on the rim. Allowed: {OURS_PERCENT} %."
        ),
        x: linear("bore narrowed by", "mm"),
        y: linear("pressure", "MPa"),
        series: vec![Series {
            name: "pressure".to_owned(),
            source: "R. S. Rivlin, Phil. Trans. R. Soc. A 242 (1949) 173".to_owned(),
            status: Status::FromMemory,
            points: points.collect(),
            line,
        }],
    })
}

pub(super) fn tube_convergence(data: &Data<'_>) -> Result<Study, ValidationError> {
    let (size, now) = ([10.0, 20.0], 9.0);
    let [inner, outer] = size;
    let material = Material::NeoHooke(NeoHooke { mu: 1.0, bulk: 1e6 });
    let rim = rim_of_tube(size, now);
    let mut line = Vec::new();
    for elements in [16.0, 8.0, 4.0] {
        let edge = (outer - inner) / elements;
        let problem = tube(material.clone(), [inner, outer, 4.0, outer - rim]);
        let run = single(data, &problem, Some(1.0001 * edge))?;
        line.push([edge, tube_error(&run, outer)]);
    }
    let [edge, coarsest] = line[2];
    let points = line[..2].iter().map(|[at, computed]| {
        let ratio = at / edge;
        let expected = coarsest * ratio * ratio * ratio;
        // Within 0.1 of the order: 2^0.1 for each halving.
        let theirs = expected * (libm::pow(edge / at, 0.1) - 1.0);
        Point { at: *at, expected, computed: *computed, theirs, ours: 0.0 }
    });
    let order = 0.5 * libm::log2(coarsest / line[0][1]);
    Ok(Study {
        name: data.study.to_owned(),
        title: format!("Rubber tube: displacements converge with the power {order:.2}"),
        about: "The tube of Rivlin's problem narrowed from a bore of 10 to 9 mm, whose exact \
                motion is r^2 = R^2 + c: root mean square error of the radial displacement \
                between the nodes, over the elements' size. Quadratic displacements: third power; \
                the points are the coarsest mesh's error brought down with it. Allowed: 0.1 of the \
                order."
            .to_owned(),
        x: logarithmic("element size", "mm"),
        y: logarithmic("displacement error", "mm"),
        series: vec![Series {
            name: "error".to_owned(),
            source: "theory of the quadratic element: third power of the size".to_owned(),
            status: Status::Recomputed,
            points: points.collect(),
            line,
        }],
    })
}

/// Root mean square error of the radial displacement half-way between the nodes of each element's
/// middle line, given the computed rim, so that what the wall's contact leaves does not enter.
fn tube_error(run: &Run, outer: f64) -> f64 {
    let Some(end) = run.steps.last() else { return f64::NAN };
    let u = &end.displacement;
    let on_rim = (0..run.mesh.nodes.len()).find(|&n| run.mesh.nodes[n][0] > outer - 1e-9);
    let Some(rim) = on_rim else { return f64::NAN };
    let moved = outer + u[rim][0];
    let constant = moved * moved - outer * outer;
    let (mut square, mut count) = (0.0, 0.0);
    for nodes in &run.mesh.elements {
        // Nodes on the middle line eta = 0, by xi = -1, 0, 1.
        let line = [nodes[7], nodes[8], nodes[5]];
        for xi in [-0.5, 0.5] {
            let shape = [0.5 * xi * (xi - 1.0), 1.0 - xi * xi, 0.5 * xi * (xi + 1.0)];
            let sum = |value: &dyn Fn(usize) -> f64| -> f64 {
                shape.iter().zip(&line).map(|(s, n)| s * value(*n)).sum()
            };
            let (radius, shift) = (sum(&|n| run.mesh.nodes[n][0]), sum(&|n| u[n][0]));
            let off = shift - ((radius * radius + constant).sqrt() - radius);
            square += off * off;
            count += 1.0;
        }
    }
    (square / count).sqrt()
}
