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
        let mut state = State {
            u: Local::default(),
            pressure: [0.7, -0.2, 0.4],
            carried: Carried::by_hoop(1.03),
        };
        for k in 0..NODES {
            // An arbitrary smooth-ish displacement.
            let x = mesh.nodes[mesh.elements[5][k]];
            state.u[0][k] = 0.05 * (x[0] - radius) - 0.04 * x[1] + 0.02 * (k as f64).sin();
            state.u[1][k] = 0.06 * x[1] + 0.01 * (3.0 * k as f64).cos();
        }
        let at = |state: &State| {
            let mut out = System::ZERO;
            integrate(&table.points[5], state, &law, &mut out);
            out
        };
        let here = at(&state);
        let h = 1e-6;
        for axis in 0..2 {
            for k in 0..NODES {
                let (mut up, mut down) = (state, state);
                up.u[axis][k] += h;
                down.u[axis][k] -= h;
                let (up, down) = (at(&up), at(&down));
                for i in 0..NODES {
                    let slope = |c: usize| (up.force[c][i] - down.force[c][i]) / (2.0 * h);
                    let (by_r, by_z) = match axis {
                        0 => (here.rr[i][k], here.zr[i][k]),
                        _ => (here.zr[k][i], here.zz[i][k]),
                    };
                    assert!((slope(0) - by_r).abs() < 1e-7, "{} {by_r}", slope(0));
                    assert!((slope(1) - by_z).abs() < 1e-7, "{} {by_z}", slope(1));
                }
                for q in 0..3 {
                    let slope = (up.swell[q] - down.swell[q]) / (2.0 * h);
                    assert!((slope - here.volume_gradient[q][axis][k]).abs() < 1e-7);
                }
            }
        }
    }
}
