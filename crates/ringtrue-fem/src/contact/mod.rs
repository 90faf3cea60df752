//! Unilateral contact with rigid walls, with Coulomb friction, by an augmented Lagrangian.
//!
//! Every boundary edge carries five Gauss-Lobatto points. At each, for each wall, the nominal
//! pressure is `p = max(0, lambda - e g)` with gap `g`, multiplier `lambda` and a stiff `e`; the
//! shear is `tau = lambda_t - e (s - anchor)`, cut at `mu p`. The multipliers are extrapolated along
//! the path and taken over from the tractions until no penetration is left, so the matrix stays
//! displacement-only and symmetric. Tractions act per undeformed area: a potential exists for
//! frictionless and sticking contact, and no derivative of the current area enters. Source of the
//! method: P. Alart, A. Curnier, Comput. Methods Appl. Mech. Eng. 92 (1991) 353 (from memory).

mod surface;
#[cfg(test)]
mod tests;

pub(crate) use surface::{Standing, Surface};

use crate::element::edge_shape;
use crate::mesh::Mesh;
use crate::problem::{Friction, Problem, Symmetry};
use crate::quadrature::lobatto_3;

/// Points on an edge.
pub(crate) const EDGE_POINTS: usize = 3;

/// An integration point of the boundary.
#[derive(Debug, Clone, Copy)]
pub(crate) struct EdgePoint {
    pub(crate) nodes: [usize; 3],
    pub(crate) shape: [f64; 3],
    pub(crate) slope: [f64; 3],
    /// Weight of the rule on [-1, 1].
    pub(crate) rule_weight: f64,
    /// Undeformed length times `R / mean radius`, mm.
    pub(crate) weight: f64,
    /// Index of the boundary edge.
    pub(crate) edge: usize,
}

/// How a point bears on a wall.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Bearing {
    Open,
    Stick,
    Slip,
    /// Held past the friction bound for one iteration; never part of an equilibrium.
    Trial,
}

/// A point and a chain of a wall that it may bear on.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Pair {
    pub(crate) point: usize,
    pub(crate) wall: usize,
    pub(crate) chain: usize,
}

/// What a pair remembers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Memory {
    /// Multipliers: nominal pressure and shear, MPa.
    pub(crate) pressure: f64,
    pub(crate) shear: f64,
    /// Place on the wall, by profile length, that a sticking point holds to, mm.
    pub(crate) anchor: f64,
    /// Whether it bore on the wall at the last equilibrium.
    pub(crate) bearing: Bearing,
}

impl Memory {
    const OPEN: Self = Self { pressure: 0.0, shear: 0.0, anchor: 0.0, bearing: Bearing::Open };
}

/// Nominal tractions of a pair, MPa, with the state they came from.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Traction {
    pub(crate) pressure: f64,
    pub(crate) shear: f64,
    pub(crate) bearing: Bearing,
}

/// All walls and all points that may meet them.
#[derive(Debug, Clone)]
pub(crate) struct Contacts {
    pub(crate) points: Vec<EdgePoint>,
    pub(crate) surfaces: Vec<Surface>,
    pub(crate) pairs: Vec<Pair>,
    pub(crate) friction: Friction,
    /// Penalty `e` of the gap, MPa/mm.
    pub(crate) penalty: f64,
    /// Penalty of creep along the wall, MPa/mm.
    pub(crate) shear_penalty: f64,
}

/// Penalty times edge length over Young's modulus. Large enough that multipliers carried along the
/// path leave no visible penetration, small enough to keep ten digits in the factor.
const PENALTY: f64 = 1000.0;
/// The same along the wall; softer with Coulomb's law, whose stick and slip then settle sooner.
const SHEAR_PENALTY: f64 = 100.0;

impl Contacts {
    pub(crate) fn new(mesh: &Mesh, problem: &Problem) -> Self {
        let mean_radius = problem.section.mean_radius.unwrap_or(1.0);
        let mut points = Vec::with_capacity(EDGE_POINTS * mesh.boundary.len());
        let mut length = 0.0;
        for (edge, &nodes) in mesh.boundary.iter().enumerate() {
            for [xi, rule_weight] in lobatto_3() {
                let (shape, slope) = edge_shape(xi);
                let sum = |w: &[f64; 3], c: usize| -> f64 {
                    w.iter().zip(&nodes).map(|(w, &n)| w * mesh.nodes[n][c]).sum()
                };
                let line = rule_weight * sum(&slope, 0).hypot(sum(&slope, 1));
                let radius = match problem.symmetry {
                    Symmetry::Axisymmetric => sum(&shape, 0),
                    Symmetry::PlaneStrain => 1.0,
                };
                let weight = match problem.symmetry {
                    Symmetry::Axisymmetric => line * radius / mean_radius,
                    Symmetry::PlaneStrain => line,
                };
                length += line;
                points.push(EdgePoint { nodes, shape, slope, rule_weight, weight, edge });
            }
        }
        let mean_edge = length / mesh.boundary.len().max(1) as f64;
        let least_radius = 2e-3 * problem.section.extent();
        let surfaces: Vec<Surface> = problem
            .walls
            .iter()
            .filter_map(|wall| {
                Surface::new(wall, least_radius).or_else(|_| Surface::new(wall, 0.0)).ok()
            })
            .collect();
        let mut pairs = Vec::new();
        for (wall, surface) in surfaces.iter().enumerate() {
            for chain in 0..surface.chains() {
                pairs.extend((0..points.len()).map(|point| Pair { point, wall, chain }));
            }
        }
        let penalty = PENALTY * problem.material.law().young() / mean_edge;
        let shear_penalty = match problem.friction {
            Friction::NoSlip => penalty,
            Friction::Coulomb(_) => penalty * (SHEAR_PENALTY / PENALTY),
        };
        Self { points, surfaces, pairs, friction: problem.friction, penalty, shear_penalty }
    }

    /// A memory for each pair, all open.
    pub(crate) fn fresh_memory(&self) -> Vec<Memory> {
        vec![Memory::OPEN; self.pairs.len()]
    }

    /// Current position of a point for nodal positions `x`.
    #[inline]
    pub(crate) fn position(&self, point: usize, nodes: &[[f64; 2]], u: &[[f64; 2]]) -> [f64; 2] {
        let point = &self.points[point];
        let mut x = [0.0; 2];
        for (n, &node) in point.shape.iter().zip(&point.nodes) {
            x[0] += n * (nodes[node][0] + u[node][0]);
            x[1] += n * (nodes[node][1] + u[node][1]);
        }
        x
    }

    /// Where a pair stands when its point is at `x` and its wall has moved by `shift`.
    #[inline]
    pub(crate) fn standing(&self, pair: &Pair, x: [f64; 2], shift: [f64; 2]) -> Option<Standing> {
        self.surfaces[pair.wall].standing(pair.chain, [x[0] - shift[0], x[1] - shift[1]])
    }

    /// Tractions at `standing`.
    #[inline]
    ///
    /// `last` is the shear of the iteration before where the point slipped, else 0: a slip that would
    /// turn round at once is tried as stick first, or the two would alternate without end.
    pub(crate) fn traction(&self, standing: &Standing, memory: &Memory, last: f64) -> Traction {
        let pressure = memory.pressure - self.penalty * standing.gap;
        if !(pressure > 0.0) {
            return Traction { pressure: 0.0, shear: 0.0, bearing: Bearing::Open };
        }
        let trial = memory.shear - self.shear_penalty * (standing.along - memory.anchor);
        match self.friction {
            Friction::NoSlip => Traction { pressure, shear: trial, bearing: Bearing::Stick },
            Friction::Coulomb(mu) => {
                let bound = mu * pressure;
                if mu > 0.0 && trial.abs() <= bound {
                    Traction { pressure, shear: trial, bearing: Bearing::Stick }
                } else if trial * last < 0.0 {
                    Traction { pressure, shear: trial, bearing: Bearing::Trial }
                } else {
                    let shear = if mu > 0.0 { bound.copysign(trial) } else { 0.0 };
                    Traction { pressure, shear, bearing: Bearing::Slip }
                }
            }
        }
    }
}

/// Where a point first touches a wall between two states, by profile length: on the straight path
/// from the old standing to the predicted one, where the gap closes, or at its end.
pub(crate) fn touch_down(old: &Standing, predicted: &Standing) -> f64 {
    let closing = old.gap - predicted.gap;
    let share = if predicted.gap < 0.0 && closing > 0.0 {
        (old.gap / closing).clamp(0.0, 1.0)
    } else {
        1.0
    };
    old.along + share * (predicted.along - old.along)
}
