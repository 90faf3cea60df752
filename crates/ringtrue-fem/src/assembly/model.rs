//! What a run works on: the model, which stays, and the states, which move.

use crate::contact::{Contacts, Memory};
use crate::element::{Carried, Table};
use crate::mesh::Mesh;
use crate::problem::{Axis, Problem, Symmetry};

/// What does not change during a run.
#[derive(Debug, Clone)]
pub(crate) struct Model<'a> {
    pub(crate) problem: &'a Problem,
    pub(crate) mesh: &'a Mesh,
    pub(crate) table: Table,
    pub(crate) contacts: Contacts,
    /// Nodes on the axis of revolution: they do not move radially.
    pub(crate) on_axis: Vec<usize>,
    /// Shares of the shared nodes in the section's mean displacement; they add up to 1.
    pub(crate) mean_share: Vec<f64>,
}

impl<'a> Model<'a> {
    pub(crate) fn new(problem: &'a Problem, mesh: &'a Mesh) -> Self {
        let mean_radius = problem.section.mean_radius.unwrap_or(1.0);
        let table = Table::new(mesh, problem.symmetry, mean_radius);
        let on_axis = match problem.symmetry {
            Symmetry::PlaneStrain => Vec::new(),
            Symmetry::Axisymmetric => (0..mesh.shared_nodes())
                .filter(|&n| mesh.nodes[n][0] < 1e-9 * mean_radius)
                .collect(),
        };
        let mean_share = mean_share(mesh, &table);
        let contacts = Contacts::new(mesh, problem);
        Self { problem, mesh, table, contacts, on_axis, mean_share }
    }

    /// Stretch carried at `fraction` of the motion.
    pub(crate) fn carried(&self, fraction: f64) -> Carried {
        match self.problem.prestretch {
            None => Carried::by_hoop(1.0),
            Some(p) => {
                Carried::by_hoop(1.0 + (fraction / p.over).min(1.0) * (p.hoop_stretch - 1.0))
            }
        }
    }
}

/// Area shares of the nodes, the centre nodes' spread over the others as the eight-node element
/// does: the mean of any quadratic field is kept.
fn mean_share(mesh: &Mesh, table: &Table) -> Vec<f64> {
    let rule = crate::quadrature::gauss_3x3();
    let mut share = vec![0.0; mesh.shared_nodes()];
    let mut total = 0.0;
    for (nodes, points) in mesh.elements.iter().zip(&table.points) {
        for (point, [xi, eta, _]) in points.iter().zip(rule) {
            let shapes = crate::element::shape(xi, eta);
            total += point.area;
            for k in 0..8 {
                let spread = if k < 4 { -0.25 } else { 0.5 };
                share[nodes[k]] += point.area * (shapes[k][0] + spread * shapes[8][0]);
            }
        }
    }
    for s in &mut share {
        *s /= total;
    }
    share
}

/// Displacements, pressures and contact memories at a point of the path.
#[derive(Debug, Clone)]
pub(crate) struct State {
    /// Fraction of the whole motion.
    pub(crate) fraction: f64,
    pub(crate) u: Vec<[f64; 2]>,
    pub(crate) pressure: Vec<[f64; 3]>,
    pub(crate) memory: Vec<Memory>,
    /// Forces that hold the mean displacement in r and z, N per mm.
    pub(crate) hold: [f64; 2],
    /// Smallest determinant of the deformation gradient at the last equilibrium.
    pub(crate) least_j: f64,
}

impl State {
    pub(crate) fn start(model: &Model<'_>) -> Self {
        Self {
            fraction: 0.0,
            u: vec![[0.0; 2]; model.mesh.nodes.len()],
            pressure: vec![[0.0; 3]; model.mesh.elements.len()],
            memory: model.contacts.fresh_memory(),
            hold: [0.0; 2],
            least_j: 1.0,
        }
    }

    pub(crate) fn copy_from(&mut self, other: &Self) {
        self.fraction = other.fraction;
        self.u.copy_from_slice(&other.u);
        self.pressure.copy_from_slice(&other.pressure);
        self.memory.copy_from_slice(&other.memory);
        self.hold = other.hold;
        self.least_j = other.least_j;
    }
}

/// Where the walls are and what the section carries.
#[derive(Debug, Clone)]
pub(crate) struct Load {
    pub(crate) shifts: Vec<[f64; 2]>,
    pub(crate) carried: Carried,
}

impl Load {
    pub(crate) fn at(model: &Model<'_>, fraction: f64) -> Self {
        Self {
            shifts: model.problem.walls.iter().map(|w| w.displacement(fraction)).collect(),
            carried: model.carried(fraction),
        }
    }
}

pub(crate) fn axis_index(axis: Axis) -> usize {
    match axis {
        Axis::R => 0,
        Axis::Z => 1,
    }
}
