//! The contact terms of residual and stiffness.

use super::{Assembly, Load, Model, OUT, State};
use crate::contact::Bearing;

/// How a slipping point's shear follows its pressure: force `factor (n . x)` along `t`.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Slip {
    pub(super) nodes: [usize; 3],
    shape: [f64; 3],
    normal: [f64; 2],
    tangent: [f64; 2],
    factor: f64,
}

impl Slip {
    /// Normal displacement of the point.
    pub(super) fn normal_part(&self, x: &[f64]) -> f64 {
        let mut sum = 0.0;
        for (n, &node) in self.shape.iter().zip(&self.nodes) {
            sum += n * (self.normal[0] * x[2 * node] + self.normal[1] * x[2 * node + 1]);
        }
        sum
    }

    /// Adds `scale` times the tangential force pattern.
    pub(super) fn add_tangent(&self, scale: f64, x: &mut [f64]) {
        let scale = self.factor * scale;
        for (n, &node) in self.shape.iter().zip(&self.nodes) {
            x[2 * node] += scale * n * self.tangent[0];
            x[2 * node + 1] += scale * n * self.tangent[1];
        }
    }
}

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
            let last = std::mem::take(&mut self.slipping[k]);
            let x = contacts.position(pair.point, &model.mesh.nodes, &state.u);
            let Some(standing) = contacts.standing(pair, x, load.shifts[pair.wall]) else {
                continue;
            };
            let traction = contacts.traction(&standing, memory, last);
            let sticks = match traction.bearing {
                Bearing::Open => continue,
                Bearing::Stick => 1.0,
                Bearing::Trial => {
                    on_trial += 1;
                    1.0
                }
                Bearing::Slip => {
                    self.slipping[k] = traction.shear;
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
            let along = sticks * contacts.shear_penalty * standing.stretch * standing.stretch
                - traction.pressure * standing.curvature;
            let cross = traction.shear * standing.stretch * standing.curvature;
            let block = |a: usize, b: usize| {
                point.weight
                    * (e * n[a] * n[b] + along * t[a] * t[b] + cross * (n[a] * t[b] + t[a] * n[b]))
            };
            let block = [[block(0, 0), block(0, 1)], [block(1, 0), block(1, 1)]];
            if traction.bearing == Bearing::Slip && traction.shear != 0.0 {
                self.slips.push(Slip {
                    nodes: point.nodes,
                    shape: point.shape,
                    normal: n,
                    tangent: t,
                    factor: point.weight * e * push / traction.pressure,
                });
            }
            let slots = &self.edge_slots[point.edge];
            let mut k = 0;
            for i in 0..6 {
                let (node_i, axis_i) = (i / 2, i % 2);
                self.residual[2 * point.nodes[node_i] + axis_i] -=
                    point.shape[node_i] * force[axis_i];
                for j in 0..=i {
                    let slot = slots[k];
                    k += 1;
                    if slot != OUT {
                        values[slot as usize] +=
                            point.shape[node_i] * point.shape[j / 2] * block[axis_i][j % 2];
                    }
                }
            }
        }
        (force_square.sqrt(), penetration, on_trial)
    }
}
