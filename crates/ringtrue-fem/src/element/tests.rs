//! Element facts: patch states, rigid motion, tangents against differences.

use super::*;
use crate::assembly::{Assembly, Load, Model, State as Whole};
use crate::material::{Material, MooneyRivlin, SaintVenantKirchhoff};
use crate::mesh::mesh_section;
use crate::problem::{Friction, Problem, Section, Shape};

fn problem(symmetry: Symmetry, material: Material) -> Problem {
    let mean_radius = match symmetry {
        Symmetry::Axisymmetric => Some(20.0),
        Symmetry::PlaneStrain => None,
    };
    Problem {
        symmetry,
        steps: 1,
        hold: Vec::new(),
        section: Section { shape: Shape::Round { diameter: 10.0 }, mean_radius },
        prestretch: None,
        material,
        friction: Friction::Coulomb(0.0),
        walls: Vec::new(),
    }
}

fn rubber() -> Material {
    Material::MooneyRivlin(MooneyRivlin { c10: 0.4, c01: 0.1, bulk: 2000.0 })
}

fn steel() -> Material {
    Material::SaintVenantKirchhoff(SaintVenantKirchhoff { young: 206e3, poisson: 0.3 })
}

/// Largest residual on inner and on boundary nodes for a displacement field and uniform pressure.
fn residuals(problem: &Problem, field: impl Fn([f64; 2]) -> [f64; 2], pressure: f64) -> [f64; 2] {
    let mesh = mesh_section(&problem.section, 1.5, &[]).unwrap();
    let model = Model::new(problem, &mesh);
    let mut state = Whole::start(&model);
    for (u, x) in state.u.iter_mut().zip(&mesh.nodes) {
        *u = field(*x);
    }
    for p in &mut state.pressure {
        *p = [pressure, 0.0, 0.0];
    }
    let mut assembly = Assembly::new(&model).unwrap();
    assembly.assemble(&model, &state, &Load::at(&model, 0.0));
    let mut worst = [0.0_f64; 2];
    for (node, r) in assembly.residual.chunks_exact(2).enumerate() {
        let on_rim = mesh.boundary.iter().any(|e| e[..2].contains(&node));
        let kind = usize::from(on_rim);
        worst[kind] = worst[kind].max(r[0].abs()).max(r[1].abs());
    }
    worst
}

#[test]
fn patch_test_plane_strain() {
    // Any homogeneous deformation of the distorted O-grid is in equilibrium inside.
    let field = |x: [f64; 2]| [0.2 * x[0] + 0.3 * x[1], -0.1 * x[0] - 0.15 * x[1]];
    let j = 1.2 * 0.85 + 0.3 * 0.1;
    let p = problem(Symmetry::PlaneStrain, rubber());
    let [inside, rim] = residuals(&p, field, 2000.0 * (j - 1.0));
    assert!(rim > 1.0 && inside < 1e-11 * rim, "{inside:e} of {rim:e}");
    let [inside, rim] = residuals(&problem(Symmetry::PlaneStrain, steel()), field, 0.0);
    assert!(rim > 1.0 && inside < 1e-11 * rim, "{inside:e} of {rim:e}");
}

#[test]
fn patch_test_axisymmetric() {
    // u_r = a r, u_z = b z: the constant state of Irons's test for rings.
    let field = |x: [f64; 2]| [0.08 * x[0], -0.1 * x[1]];
    let j = 1.08 * 1.08 * 0.9;
    let p = problem(Symmetry::Axisymmetric, rubber());
    let [inside, rim] = residuals(&p, field, 2000.0 * (j - 1.0));
    assert!(rim > 1.0 && inside < 1e-10 * rim, "{inside:e} of {rim:e}");
    let [inside, rim] = residuals(&problem(Symmetry::Axisymmetric, steel()), field, 0.0);
    assert!(rim > 1.0 && inside < 1e-10 * rim, "{inside:e} of {rim:e}");
}

#[test]
fn rigid_motion_leaves_no_stress() {
    let (sin, cos) = 1.1_f64.sin_cos();
    let turn =
        |x: [f64; 2]| [cos * x[0] - sin * x[1] - x[0] + 3.0, sin * x[0] + cos * x[1] - x[1] - 7.0];
    for material in [rubber(), steel()] {
        let stiffness = material.law().young();
        let worst = residuals(&problem(Symmetry::PlaneStrain, material), turn, 0.0);
        assert!(worst[0].max(worst[1]) < 1e-13 * stiffness.max(2000.0) * 100.0, "{worst:?}");
    }
    // A ring can only be moved along its axis.
    let along = |_: [f64; 2]| [0.0, 5.0];
    let worst = residuals(&problem(Symmetry::Axisymmetric, rubber()), along, 0.0);
    assert!(worst[0].max(worst[1]) < 1e-10, "{worst:?}");
}

#[test]
fn stiffness_is_the_derivative_of_the_forces() {
    for symmetry in [Symmetry::Axisymmetric, Symmetry::PlaneStrain] {
        let p = problem(symmetry, rubber());
        let mesh = mesh_section(&p.section, 3.0, &[]).unwrap();
        let radius = p.section.mean_radius.unwrap_or(1.0);
        let table = Table::new(&mesh, symmetry, radius);
        let law = MooneyRivlin { c10: 0.4, c01: 0.1, bulk: 2000.0 };
        let nodes = mesh.elements[5];
        // An arbitrary smooth-ish displacement.
        let moved = |k: usize| {
            let (x, n) = (mesh.nodes[nodes[k]], k as f64);
            [
                0.05 * (x[0] - radius) - 0.04 * x[1] + 0.02 * n.sin(),
                0.06 * x[1] + 0.01 * (3.0 * n).cos(),
            ]
        };
        let all = [0, 1, 2, 3, 4, 5, 6, 7, 8];
        let state = State {
            u: [0, 1].map(|c| Nodal::from_nodes(&all.map(|k| moved(k)[c]))),
            pressure: [0.7, -0.2, 0.4],
            carried: Carried::by_hoop(1.03),
        };
        let at = |state: &State| {
            let mut out = System::ZERO;
            integrate(&table.points[5], state, &law, &mut out);
            out
        };
        let here = at(&state);
        // Entry of the stiffness: displacement `k` along `axis` on force `i` along `side`.
        let entry = |(side, i): (usize, usize), (axis, k): (usize, usize)| -> f64 {
            match ((side, i == 8), (axis, k == 8)) {
                ((0, false), (0, false)) => here.rr[i][k],
                ((1, false), (0, false)) => here.zr[i][k],
                ((0, false), (1, false)) => here.zr[k][i],
                ((1, false), (1, false)) => here.zz[i][k],
                ((_, false), (_, true)) => here.centre[axis][side][i],
                ((_, true), (_, false)) => here.centre[side][axis][k],
                ((0, true), (0, true)) => here.own[0],
                ((1, true), (1, true)) => here.own[2],
                _ => here.own[1],
            }
        };
        let h = 1e-6;
        let nudge = |axis: usize, k: usize, by: f64| {
            let mut moved = state;
            match k {
                8 => moved.u[axis].centre += by,
                _ => moved.u[axis].eight[k] += by,
            }
            at(&moved)
        };
        for axis in 0..2 {
            for k in 0..NODES {
                let (up, down) = (nudge(axis, k, h), nudge(axis, k, -h));
                for side in 0..2 {
                    for i in 0..NODES {
                        let slope = (up.force[side].at(i) - down.force[side].at(i)) / (2.0 * h);
                        let own = entry((side, i), (axis, k));
                        assert!((slope - own).abs() < 1e-7, "{side} {i} {axis} {k}: {slope} {own}");
                    }
                }
                for q in 0..3 {
                    let slope = (up.swell[q] - down.swell[q]) / (2.0 * h);
                    assert!((slope - here.volume_gradient[q][axis].at(k)).abs() < 1e-7);
                }
            }
        }
    }
}
