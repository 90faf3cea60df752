//! Unilateral contact with rigid walls, with Coulomb friction, by an augmented Lagrangian.
//!
//! The boundary's nodes are the contact points, with the weights of Simpson's rule on each edge. At
//! each, for each wall, the nominal pressure is `p = max(0, lambda - e g)` with gap `g`, multiplier
//! `lambda` and a stiff `e`; the
//! shear is `tau = lambda_t - e (s - anchor)`, cut at `mu p`. The multipliers are extrapolated
//! along
//! the path and taken over from the tractions until no penetration is left, so the matrix stays
//! displacement-only and symmetric. Tractions act per undeformed area: a potential exists for
//! frictionless and sticking contact, and no derivative of the current area enters. Source of the
//! method: P. Alart, A. Curnier, Comput. Methods Appl. Mech. Eng. 92 (1991) 353 (from memory).

mod surface;
#[cfg(test)]
mod tests;

pub(crate) use surface::{Standing, Surface};

use crate::element::edge_slope;
use crate::mesh::Mesh;
use crate::problem::{Friction, Problem, Symmetry, Wall};
use crate::quadrature::simpson;

/// A boundary node, where contact is looked for. In boundary order: edge starts and edge middles
/// alternate.
#[derive(Debug, Clone, Copy)]
pub(crate) struct EdgePoint {
    pub(crate) node: usize,
    /// Undeformed length that it stands for times `R / mean radius`, mm.
    pub(crate) weight: f64,
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

/// What a point did in the iteration before.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Before {
    /// Nothing is known: this is the increment's first look at it.
    Unseen,
    /// It did not slip.
    Held,
    /// It slipped under this shear.
    Slipped(f64),
    /// Any slip is to be taken as it comes.
    Any,
}

impl Before {
    fn forbids_slip(self, shear: f64) -> bool {
        match self {
            Self::Unseen => true,
            Self::Slipped(last) => shear * last < 0.0,
            Self::Held | Self::Any => false,
        }
    }
}

/// How a wall resists what moves along it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Grip {
    pub(crate) friction: Friction,
    /// Penalty of creep along the wall, MPa/mm.
    pub(crate) penalty: f64,
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
    /// Penalty `e` of the gap, MPa/mm.
    pub(crate) penalty: f64,
    /// Largest pressure whose turning along an arc the stiffness follows, MPa: that of a node which
    /// the last step drove deep into its wall is none yet.
    pub(crate) most_bend: f64,
    /// Friction and penalty of creep along it, MPa/mm, of each wall.
    pub(crate) grips: Vec<Grip>,
}

/// Penalty times edge length over Young's modulus. Large enough that multipliers carried along the
/// path leave no visible penetration, small enough to keep nine digits in the factor.
const PENALTY: f64 = 1e4;
/// The same along the wall; softer with Coulomb's law, whose stick and slip then settle sooner.
const SHEAR_PENALTY: f64 = 100.0;
/// Contact pressure over Young's modulus up to which the stiffness follows its turning along an
/// arc; rubber between walls bears with about one.
const MOST_BEND: f64 = 10.0;

impl Contacts {
    pub(crate) fn new(mesh: &Mesh, problem: &Problem) -> Self {
        let mean_radius = problem.section.mean_radius.unwrap_or(1.0);
        let points = edge_points(mesh, problem.symmetry, mean_radius);
        let length: f64 = boundary_spans(mesh, &mesh.nodes).iter().map(span_length).sum();
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
        let grip = |wall: &Wall| {
            let friction = wall.friction.unwrap_or(problem.friction);
            let penalty = match friction {
                Friction::NoSlip => penalty,
                Friction::Coulomb(_) => penalty * (SHEAR_PENALTY / PENALTY),
            };
            Grip { friction, penalty }
        };
        let grips = problem.walls.iter().map(grip).collect();
        Self {
            points,
            surfaces,
            pairs,
            penalty,
            most_bend: problem.material.law().young() * MOST_BEND,
            grips,
        }
    }

    /// A memory for each pair, all open.
    pub(crate) fn fresh_memory(&self) -> Vec<Memory> {
        vec![Memory::OPEN; self.pairs.len()]
    }

    /// Current position of a point for nodal positions and displacements.
    #[inline]
    pub(crate) fn position(&self, point: usize, nodes: &[[f64; 2]], u: &[[f64; 2]]) -> [f64; 2] {
        let node = self.points[point].node;
        [nodes[node][0] + u[node][0], nodes[node][1] + u[node][1]]
    }

    /// Where a pair stands when its point is at `x` and its wall has moved by `shift`.
    #[inline]
    pub(crate) fn standing(&self, pair: &Pair, x: [f64; 2], shift: [f64; 2]) -> Option<Standing> {
        self.surfaces[pair.wall].standing(pair.chain, [x[0] - shift[0], x[1] - shift[1]])
    }

    /// Tractions of `wall` at `standing`.
    ///
    /// `before` is what the point did in the iteration before: a slip that would turn round at
    /// once, or come with the first touch, is tried as stick first. The one would alternate without
    /// end; the other would let a section that nothing holds yet shoot away.
    #[inline]
    pub(crate) fn traction(
        &self,
        wall: usize,
        (standing, memory): (&Standing, &Memory),
        before: Before,
    ) -> Traction {
        let Grip { friction, penalty } = self.grips[wall];
        let pressure = memory.pressure - self.penalty * standing.gap;
        if !(pressure > 0.0) {
            return Traction { pressure: 0.0, shear: 0.0, bearing: Bearing::Open };
        }
        let trial = memory.shear - penalty * (standing.along - memory.anchor);
        match friction {
            Friction::NoSlip => Traction { pressure, shear: trial, bearing: Bearing::Stick },
            Friction::Coulomb(mu) => {
                let bound = mu * pressure;
                if mu > 0.0 && trial.abs() <= bound {
                    Traction { pressure, shear: trial, bearing: Bearing::Stick }
                } else if mu > 0.0 && before.forbids_slip(trial) {
                    Traction { pressure, shear: trial, bearing: Bearing::Trial }
                } else {
                    let shear = if mu > 0.0 { bound.copysign(trial) } else { 0.0 };
                    Traction { pressure, shear, bearing: Bearing::Slip }
                }
            }
        }
    }
}

/// Edge starts and middles in boundary order, with their weights.
fn edge_points(mesh: &Mesh, symmetry: Symmetry, mean_radius: f64) -> Vec<EdgePoint> {
    let spans = boundary_spans(mesh, &mesh.nodes);
    let nodes = mesh.boundary.iter().flat_map(|edge| [edge[0], edge[1]]);
    nodes
        .zip(&spans)
        .map(|(node, span)| {
            let length = span_length(span);
            let weight = match symmetry {
                Symmetry::Axisymmetric => length * mesh.nodes[node][0] / mean_radius,
                Symmetry::PlaneStrain => length,
            };
            EdgePoint { node, weight }
        })
        .collect()
}

/// Pieces of boundary that each edge start and middle stands for at the positions `x`, mm: by
/// Simpson's rule on each edge, as vectors along it. A node between two edges has one of each; they
/// point apart at a sharp corner.
pub(crate) fn boundary_spans(mesh: &Mesh, x: &[[f64; 2]]) -> Vec<[[f64; 2]; 2]> {
    let count = mesh.boundary.len();
    let mut spans = vec![[[0.0; 2]; 2]; 2 * count];
    for (e, edge) in mesh.boundary.iter().enumerate() {
        for (k, [xi, weight]) in simpson().into_iter().enumerate() {
            let slope = edge_slope(xi);
            let side = usize::from(k == 2);
            spans[(2 * e + k) % (2 * count)][side] =
                [0, 1].map(|c| weight * (0..3).map(|n| slope[n] * x[edge[n]][c]).sum::<f64>());
        }
    }
    spans
}

/// Length of a piece of boundary, both parts, mm.
fn span_length(span: &[[f64; 2]; 2]) -> f64 {
    span.iter().map(|v| v[0].hypot(v[1])).sum()
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
