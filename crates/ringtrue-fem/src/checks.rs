//! What must hold exactly of the elements, whatever the mesh: patch states, rigid motion, and
//! tangents that are the derivatives of the forces. Numbers for tests and for the validation page.

use crate::assembly::{Assembly, Load, Model, State};
use crate::element::{self, Carried, Local, NODES, System, Table};
use crate::material::{Material, MooneyRivlin};
use crate::mesh::mesh_section;
use crate::problem::{Friction, Problem, Section, Shape, Symmetry};
use crate::run::SolveError;

/// Largest nodal force of a displacement field that was forced on a mesh, N per mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OutOfBalance {
    /// At nodes inside, where no load stands.
    pub inside: f64,
    /// At nodes of the outline, which carry the load of the field.
    pub outline: f64,
}

/// A homogeneous deformation forced on a distorted mesh: every inner node must stay in balance (the
/// patch test of B.M. Irons, for rings with the state `u_r = a r`, `u_z = b z`).
///
/// `amount` scales the strain: 1 is a stretch of 20 % with a shear of 40 % in plane strain, and
/// 8 % across and 10 % along the axis for a ring.
///
/// # Errors
/// [`SolveError`] when the mesh cannot be made.
pub fn patch(
    symmetry: Symmetry,
    material: &Material,
    amount: f64,
) -> Result<OutOfBalance, SolveError> {
    let a = amount;
    let (slope, hoop) = match symmetry {
        Symmetry::PlaneStrain => ([0.2 * a, 0.3 * a, -0.1 * a, -0.15 * a], 1.0),
        Symmetry::Axisymmetric => ([0.08 * a, 0.0, 0.0, -0.1 * a], 1.0 + 0.08 * a),
    };
    let j = ((1.0 + slope[0]) * (1.0 + slope[3]) - slope[1] * slope[2]) * hoop;
    let pressure = material.law().bulk().map_or(0.0, |bulk| bulk * (j - 1.0));
    forced(symmetry, material, pressure, |x| {
        [slope[0] * x[0] + slope[1] * x[1], slope[2] * x[0] + slope[3] * x[1]]
    })
}

/// A rigid motion forced on a mesh in plane strain: turned by `angle` rad and carried off by a few
/// mm. No force may come of it.
///
/// # Errors
/// As [`patch`].
pub fn rigid_motion(material: &Material, angle: f64) -> Result<OutOfBalance, SolveError> {
    let (sin, cos) = angle.sin_cos();
    forced(Symmetry::PlaneStrain, material, 0.0, |x| {
        [cos * x[0] - sin * x[1] - x[0] + 3.0, sin * x[0] + cos * x[1] - x[1] - 7.0]
    })
}

/// A round section of 10 mm, as a ring of mean radius 20 mm or a bar, with a displacement field and
/// a uniform pressure forced on it.
pub(crate) fn forced(
    symmetry: Symmetry,
    material: &Material,
    pressure: f64,
    field: impl Fn([f64; 2]) -> [f64; 2],
) -> Result<OutOfBalance, SolveError> {
    let problem = round_10(symmetry, material.clone());
    let mesh = mesh_section(&problem.section, 1.5, &[])?;
    let model = Model::new(&problem, &mesh);
    let mut state = State::start(&model);
    for (u, x) in state.u.iter_mut().zip(&mesh.nodes) {
        *u = field(*x);
    }
    for p in &mut state.pressure {
        *p = [pressure, 0.0, 0.0];
    }
    let mut assembly = Assembly::new(&model)?;
    assembly.assemble(&model, &state, &Load::at(&model, 0.0));
    let mut worst = OutOfBalance { inside: 0.0, outline: 0.0 };
    for (node, force) in assembly.residual.chunks_exact(2).enumerate() {
        let on_outline = mesh.boundary.iter().any(|edge| edge[..2].contains(&node));
        let kind = if on_outline { &mut worst.outline } else { &mut worst.inside };
        *kind = force.iter().fold(*kind, |worst, f| worst.max(f.abs()));
    }
    Ok(worst)
}

fn round_10(symmetry: Symmetry, material: Material) -> Problem {
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

/// Largest difference between an element's stiffness and the central difference quotient of its
/// forces with displacements moved by `step` mm, over its largest stiffness; also that of the
/// volume residual. A strained, prestretched element of a Mooney-Rivlin rubber with an uneven
/// pressure.
///
/// # Errors
/// As [`patch`].
pub fn tangent_difference(symmetry: Symmetry, step: f64) -> Result<f64, SolveError> {
    const ELEMENT: usize = 5;
    let law = MooneyRivlin { c10: 0.4, c01: 0.1, bulk: 2000.0 };
    let problem = round_10(symmetry, Material::MooneyRivlin(law));
    let mesh = mesh_section(&problem.section, 3.0, &[])?;
    let radius = problem.section.mean_radius.unwrap_or(1.0);
    let table = Table::new(&mesh, symmetry, radius);
    let mut state = element::State {
        u: Local::default(),
        pressure: [0.7, -0.2, 0.4],
        carried: Carried::by_hoop(1.03),
    };
    for k in 0..NODES {
        // An arbitrary smooth-ish displacement.
        let x = mesh.nodes[mesh.elements[ELEMENT][k]];
        state.u[0][k] = 0.05 * (x[0] - radius) - 0.04 * x[1] + 0.02 * (k as f64).sin();
        state.u[1][k] = 0.06 * x[1] + 0.01 * (3.0 * k as f64).cos();
    }
    let at = |state: &element::State| {
        let mut out = System::ZERO;
        element::integrate::<false, _>(&table.points[ELEMENT], state, &law, &mut out);
        out
    };
    let here = at(&state);
    let (mut off, mut off_volume) = (Worst::default(), Worst::default());
    for axis in 0..2 {
        for k in 0..NODES {
            let (mut up, mut down) = (state, state);
            up.u[axis][k] += step;
            down.u[axis][k] -= step;
            let (up, down) = (at(&up), at(&down));
            for i in 0..NODES {
                let [rr, zr, zz] = here.stiffness(i, k);
                let stiffness = match axis {
                    0 => [rr, zr],
                    _ => [here.stiffness(k, i)[1], zz],
                };
                for c in 0..2 {
                    let slope = (up.force[c][i] - down.force[c][i]) / (2.0 * step);
                    off.note(slope, stiffness[c]);
                }
            }
            for q in 0..3 {
                let slope = (up.swell[q] - down.swell[q]) / (2.0 * step);
                off_volume.note(slope, here.volume_gradient[q][axis][k]);
            }
        }
    }
    Ok(off.share().max(off_volume.share()))
}

/// Largest difference, and the largest value it is measured by.
#[derive(Default)]
struct Worst {
    difference: f64,
    value: f64,
}

impl Worst {
    fn note(&mut self, slope: f64, value: f64) {
        self.difference = self.difference.max((slope - value).abs());
        self.value = self.value.max(value.abs());
    }

    fn share(&self) -> f64 {
        self.difference / self.value
    }
}
