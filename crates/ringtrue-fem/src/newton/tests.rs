//! Newton's method on a section in contact: quadratic near the solution, repeatable to the bit.

use super::*;
use crate::material::{Material, NeoHooke};
use crate::mesh::mesh_section;
use crate::problem::{
    ErrorEstimate, Extent, Friction, Problem, Section, Settings, Shape, Symmetry, Wall,
};

fn plates() -> Problem {
    let plate = |name: &str, from: [f64; 2], to: [f64; 2], path: Vec<[f64; 2]>| Wall {
        name: name.to_owned(),
        profile: vec![from, to],
        fillets: Vec::new(),
        extent: Extent::Unbounded,
        path,
        friction: None,
    };
    Problem {
        symmetry: Symmetry::Axisymmetric,
        steps: 6,
        hold: Vec::new(),
        section: Section { shape: Shape::Round { diameter: 10.0 }, mean_radius: Some(60.0) },
        prestretch: None,
        material: Material::NeoHooke(NeoHooke { mu: 1.5, bulk: 3000.0 }),
        friction: Friction::NoSlip,
        walls: vec![
            plate("lower", [0.0, -5.0], [100.0, -5.0], Vec::new()),
            plate("upper", [100.0, 5.0], [0.0, 5.0], vec![[0.0, -1.5]]),
        ],
    }
}

#[test]
fn residual_falls_quadratically() {
    let problem = plates();
    let mesh = mesh_section(&problem.section, 1.0, &[]).unwrap();
    let model = Model::new(&problem, &mesh);
    let mut state = State::start(&model);
    follow(&model, 1000, &mut |_, reached, _| state.copy_from(reached)).unwrap();
    let load = Load::at(&model, 1.0);
    let mut assembly = Assembly::new(&model).unwrap();
    // Push inner nodes off the equilibrium, far from the walls so that no contact changes.
    for (u, x) in state.u.iter_mut().zip(&mesh.nodes) {
        let (r, z) = (x[0] - 60.0, x[1]);
        if r.hypot(z) < 2.0 {
            u[0] += 0.02 * (4.0 - r * r - z * z);
        }
    }
    let mut norms = Vec::new();
    for _ in 0..6 {
        let imbalance = assembly.assemble(&model, &state, &load);
        norms.push(imbalance.residual);
        let hold = assembly.solve(&model, &state).unwrap();
        assembly.update(&model, (hold, 1.0), &mut state);
    }
    // Once below 1 the number of right digits doubles, down to rounding (stiffness 1e7 x 1e-16).
    let start = norms.iter().position(|n| *n < 1.0).unwrap();
    let (a, b) = (norms[start], norms[start + 1]);
    assert!(b < 10.0 * a * a || b < 1e-9, "{norms:?}");
    assert!(norms[5] < 1e-9, "{norms:?}");
}

#[test]
fn a_run_repeats_to_the_last_bit() {
    let problem = plates();
    let settings = Settings {
        mesh_size: Some(1.0),
        error_estimate: ErrorEstimate::None,
        ..Settings::default()
    };
    let first = crate::solve(&problem, &settings).unwrap();
    let second = crate::solve(&problem, &settings).unwrap();
    assert_eq!(first, second);
}

#[test]
fn a_spent_budget_stops_with_what_there_is() {
    let problem = plates();
    let settings =
        Settings { mesh_size: Some(1.0), error_estimate: ErrorEstimate::None, max_iterations: 12 };
    let run = crate::solve(&problem, &settings).unwrap();
    assert!(run.steps.len() < 6 && !run.steps.is_empty());
    match run.outcome {
        crate::Outcome::Stopped { fraction, why: Stop::Budget(12) } => {
            assert!((fraction - run.steps[run.steps.len() - 1].fraction).abs() < 0.2);
        }
        other @ (crate::Outcome::Complete | crate::Outcome::Stopped { .. }) => panic!("{other:?}"),
    }
}
