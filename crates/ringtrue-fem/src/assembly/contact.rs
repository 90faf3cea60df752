//! The contact terms of residual and stiffness.

use super::{Assembly, Load, Model, OUT, State};
use crate::contact::{Bearing, Before, Contacts, Memory, Standing, Traction};
use crate::problem::Friction;

/// How a slipping point's shear follows its pressure: force `factor (n . x)` along `t`.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Slip {
    node: usize,
    normal: [f64; 2],
    tangent: [f64; 2],
    factor: f64,
}

impl Slip {
    /// Normal displacement of the point.
    pub(super) fn normal_part(&self, x: &[f64]) -> f64 {
        self.normal[0] * x[2 * self.node] + self.normal[1] * x[2 * self.node + 1]
    }

    /// Adds `scale` times the tangential force pattern.
    pub(super) fn add_tangent(&self, scale: f64, x: &mut [f64]) {
        let scale = self.factor * scale;
        x[2 * self.node] += scale * self.tangent[0];
        x[2 * self.node + 1] += scale * self.tangent[1];
    }
}

/// What a pair did in the iterations of an increment.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Conduct {
    before: Before,
    /// Whether it was open in the last iteration, and how often it has closed.
    open: bool,
    pub(super) closings: u8,
}

impl Conduct {
    pub(super) const FRESH: Self = Self { before: Before::Unseen, open: false, closings: 0 };
}

/// A point that closes this often in one increment cannot hold to where it first touched: tied
/// there it is pulled off, let go it comes back. It slides freely and holds where it ends.
pub(super) const LANDING: u8 = 3;

/// How much less a sticking point's creep weighs than a penetration.
const STICK_SLACK: f64 = 0.1;

impl Assembly {
    pub(super) fn add_contact(
        &mut self,
        model: &Model<'_>,
        state: &State,
        load: &Load,
    ) -> (f64, f64, usize) {
        let contacts = &model.contacts;
        let values = self.matrix.values_mut();
        self.slips.clear();
        let (mut force_square, mut penetration, mut on_trial) = (0.0, 0.0_f64, 0);
        for (k, (pair, memory)) in contacts.pairs.iter().zip(&state.memory).enumerate() {
            let x = contacts.position(pair.point, &model.mesh.nodes, &state.u);
            let standing = contacts.standing(pair, x, load.shifts[pair.wall]);
            let met = meet(contacts, pair.wall, (&mut self.conduct[k], memory), standing);
            let Some((standing, traction)) = met else { continue };
            let sticks = match traction.bearing {
                Bearing::Open => continue,
                Bearing::Stick => 1.0,
                Bearing::Trial => {
                    on_trial += 1;
                    1.0
                }
                Bearing::Slip => {
                    self.conduct[k].before = Before::Slipped(traction.shear);
                    0.0
                }
            };
            penetration = penetration.max(standing.gap.abs());
            if sticks > 0.0 {
                let slack = STICK_SLACK * (standing.along - memory.anchor).abs();
                penetration = penetration.max(slack);
            }
            let point = &contacts.points[pair.point];
            let (n, t) = (standing.normal, standing.tangent);
            let push = traction.shear * standing.stretch;
            let force = [0, 1].map(|c| point.weight * (traction.pressure * n[c] + push * t[c]));
            force_square += force[0] * force[0] + force[1] * force[1];
            let e = contacts.penalty;
            let creep = contacts.grips[pair.wall].penalty;
            let bend = traction.pressure.min(contacts.most_bend) * standing.curvature;
            let along = sticks * creep * standing.stretch * standing.stretch - bend;
            let cross = traction.shear * standing.stretch * standing.curvature;
            let block = |a: usize, b: usize| {
                point.weight
                    * (e * n[a] * n[b] + along * t[a] * t[b] + cross * (n[a] * t[b] + t[a] * n[b]))
            };
            if traction.bearing == Bearing::Slip && traction.shear != 0.0 {
                self.slips.push(Slip {
                    node: point.node,
                    normal: n,
                    tangent: t,
                    factor: point.weight * e * push / traction.pressure,
                });
            }
            for (axis, f) in force.into_iter().enumerate() {
                self.residual[2 * point.node + axis] -= f;
            }
            let [rr, zr, zz] = self.node_slots[pair.point];
            for (slot, value) in [(rr, block(0, 0)), (zr, block(1, 0)), (zz, block(1, 1))] {
                if slot != OUT {
                    values[slot as usize] += value;
                }
            }
        }
        (force_square.sqrt(), penetration, on_trial)
    }
}

/// How a point meets its wall in this iteration, and what it does there; `None` where it stands
/// beyond the wall's ends.
fn meet(
    contacts: &Contacts,
    wall: usize,
    (conduct, memory): (&mut Conduct, &Memory),
    standing: Option<Standing>,
) -> Option<(Standing, Traction)> {
    let before = std::mem::replace(&mut conduct.before, Before::Held);
    let before = match (before, memory.bearing) {
        // What slipped or stuck at the last equilibrium may slip at once.
        (Before::Unseen, Bearing::Stick | Bearing::Slip | Bearing::Trial) => Before::Any,
        (other, _) => other,
    };
    let was_open = std::mem::replace(&mut conduct.open, true);
    let standing = standing?;
    let mut traction = contacts.traction(wall, (&standing, memory), before);
    if traction.bearing != Bearing::Open {
        conduct.open = false;
        // A finite friction lets the point slip instead.
        let counts = was_open && contacts.grips[wall].friction == Friction::NoSlip;
        conduct.closings = conduct.closings.saturating_add(u8::from(counts));
        if conduct.closings >= LANDING {
            traction.shear = 0.0;
            traction.bearing = Bearing::Slip;
        }
    }
    Some((standing, traction))
}
