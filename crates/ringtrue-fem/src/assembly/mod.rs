//! Residual and stiffness of the whole section, assembled into place without allocation.

mod contact;
mod model;
mod solve;

pub(crate) use model::{Load, Model, State, axis_index};

use contact::{Conduct, LANDING, Slip};

use crate::element::{
    Carried, Condensed, Local, OUTER, Recovery, SHARED, State as ElementState, System, condense,
    integrate,
};
use crate::linear_solve::{Krylov, LinearSolveError, Sparse};
use crate::material::{Law, Material};
use crate::problem::Axis;

/// How far a state is from equilibrium.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Imbalance {
    /// Root of the sum of squares of the nodal residuals and of the contact forces, N per mm.
    pub(crate) residual: f64,
    pub(crate) contact_force: f64,
    /// Largest pressure still missing from the volume constraint, MPa.
    pub(crate) pressure_mismatch: f64,
    /// Deepest penetration, and largest slip of a sticking point, mm.
    pub(crate) penetration: f64,
    /// Smallest determinant of the deformation gradient.
    pub(crate) least_j: f64,
    /// Points held past the friction bound for this iteration.
    pub(crate) on_trial: usize,
}

/// A resistance to moving away from where the section was: `stiffness` (N/mm per mm, over the whole
/// section) times the displacement since.
#[derive(Debug, Clone)]
pub(crate) struct Drag {
    pub(crate) stiffness: f64,
    pub(crate) from: Vec<[f64; 2]>,
}

/// Marks an entry that a fixed displacement takes out.
const OUT: u32 = u32::MAX;

/// The assembled system and everything it needs to be filled.
pub(crate) struct Assembly {
    pub(crate) matrix: Sparse,
    /// Drag that holds the section back on its way to a new equilibrium, if any.
    pub(crate) drag: Option<Drag>,
    /// Residual of the shared displacements, `2 node + axis`.
    pub(crate) residual: Vec<f64>,
    /// The last solved increment, in the same order.
    step: Vec<f64>,
    /// How centre nodes and pressures follow: of the last solve, and of the last assembly.
    recovery: Vec<Recovery>,
    next_recovery: Vec<Recovery>,
    element_slots: Vec<[u32; OUTER * (OUTER + 1) / 2]>,
    /// Slots rr, zr, zz of each contact point's node.
    node_slots: Vec<[u32; 3]>,
    diagonal: Vec<u32>,
    fixed: Vec<usize>,
    /// Unknown that is propped for each held axis, and the prop's stiffness.
    props: Vec<(Axis, usize)>,
    prop_stiffness: f64,
    floor: f64,
    /// Residual `r`, `z` and stiffness `rr`, `zr`, `zz` of each contact point without contact.
    bare: Vec<[f64; 5]>,
    borders: Vec<Vec<f64>>,
    pub(crate) slips: Vec<Slip>,
    /// How each pair has behaved in this increment's iterations.
    conduct: Vec<Conduct>,
    krylov: Krylov,
    scratch: Vec<f64>,
}

/// Displacement floor stiffness over Young's modulus.
const FLOOR: f64 = 1e-9;

impl Assembly {
    pub(crate) fn new(model: &Model<'_>) -> Result<Self, LinearSolveError> {
        let mesh = model.mesh;
        let n = 2 * mesh.shared_nodes();
        let fixed: Vec<usize> = model.on_axis.iter().map(|node| 2 * node).collect();
        let unknowns = |nodes: &[usize]| -> Vec<usize> {
            (0..2).flat_map(|axis| nodes.iter().map(move |node| 2 * node + axis)).collect()
        };
        let groups: Vec<Vec<usize>> = mesh.elements.iter().map(|e| unknowns(&e[..8])).collect();
        let matrix = Sparse::new(n, &groups)?;
        let slot = |i: usize, j: usize| -> u32 {
            if fixed.contains(&i) || fixed.contains(&j) {
                return OUT;
            }
            matrix.slot(i, j).and_then(|s| u32::try_from(s).ok()).unwrap_or(OUT)
        };
        let mut element_slots = Vec::with_capacity(groups.len());
        for group in &groups {
            element_slots.push(lower_slots(group, &slot));
        }
        let node_slots = model
            .contacts
            .points
            .iter()
            .map(|p| lower_slots(&[2 * p.node, 2 * p.node + 1], &slot))
            .collect();
        let diagonal = (0..n)
            .map(|i| matrix.slot(i, i).and_then(|s| u32::try_from(s).ok()).unwrap_or(OUT))
            .collect();
        let centre = [model.problem.section.mean_radius.unwrap_or(0.0), 0.0];
        let middle = (0..mesh.shared_nodes())
            .min_by(|&a, &b| {
                let d = |k: usize| (mesh.nodes[k][0] - centre[0]).hypot(mesh.nodes[k][1]);
                d(a).total_cmp(&d(b))
            })
            .unwrap_or(0);
        let mut props = Vec::new();
        for axis in [Axis::R, Axis::Z] {
            if model.problem.hold.contains(&axis) {
                props.push((axis, 2 * middle + axis_index(axis)));
            }
        }
        let young = model.problem.material.law().young();
        Ok(Self {
            residual: vec![0.0; n],
            step: vec![0.0; n],
            next_recovery: vec![Recovery::ZERO; mesh.elements.len()],
            recovery: vec![Recovery::ZERO; mesh.elements.len()],
            element_slots,
            node_slots,
            diagonal,
            fixed,
            borders: vec![vec![0.0; n]; 2 * props.len()],
            slips: Vec::with_capacity(model.contacts.pairs.len()),
            drag: None,
            conduct: vec![Conduct::FRESH; model.contacts.pairs.len()],
            krylov: Krylov::new(),
            scratch: vec![0.0; n],
            bare: vec![[0.0; 5]; model.contacts.points.len()],
            props,
            prop_stiffness: young,
            floor: FLOOR * young,
            matrix,
        })
    }

    /// Starts a new increment: nothing is known of the pairs' conduct.
    pub(crate) fn forget_conduct(&mut self) {
        self.conduct.fill(Conduct::FRESH);
    }

    /// Whether pair `k` is to hold wherever it ends the increment.
    pub(crate) fn is_landing(&self, k: usize) -> bool {
        self.conduct[k].closings >= LANDING
    }

    /// Fills residual and stiffness at `state`.
    pub(crate) fn assemble(&mut self, model: &Model<'_>, state: &State, load: &Load) -> Imbalance {
        self.residual.fill(0.0);
        let values = self.matrix.values_mut();
        values.fill(0.0);
        let mut fill = Fill {
            model,
            state,
            carried: load.carried,
            slots: &self.element_slots,
            recovery: &mut self.next_recovery,
            values,
            residual: &mut self.residual,
        };
        let (least_j, pressure_mismatch) = match &model.problem.material {
            Material::NeoHooke(law) => fill.elements(law),
            Material::MooneyRivlin(law) => fill.elements(law),
            Material::Yeoh(law) => fill.elements(law),
            Material::Ogden(law) => fill.elements(law),
            Material::SaintVenantKirchhoff(law) => fill.elements(law),
        };
        let values = self.matrix.values_mut();
        for &slot in &self.diagonal {
            values[slot as usize] += self.floor;
        }
        for &(axis, unknown) in &self.props {
            values[self.diagonal[unknown] as usize] += self.prop_stiffness;
            let force = state.hold[axis_index(axis)];
            for (node, share) in model.mean_share.iter().enumerate() {
                self.residual[2 * node + axis_index(axis)] += force * share;
            }
        }
        if let Some(drag) = &self.drag {
            for (node, share) in model.mean_share.iter().enumerate() {
                // Negative shares (corner nodes of the eight-node rule) would push, not hold.
                let stiffness = drag.stiffness * share.abs();
                for axis in 0..2 {
                    let moved = state.u[node][axis] - drag.from[node][axis];
                    self.residual[2 * node + axis] += stiffness * moved;
                    values[self.diagonal[2 * node + axis] as usize] += stiffness;
                }
            }
        }
        self.keep_bare(model);
        self.close(model, (state, load), (least_j, pressure_mismatch))
    }

    /// Fills residual and stiffness again at the state of the last [`Self::assemble`], of which
    /// only contact memories have changed since: the elements' share stands.
    pub(crate) fn assemble_contact(
        &mut self,
        model: &Model<'_>,
        (state, load): (&State, &Load),
        last: &Imbalance,
    ) -> Imbalance {
        let values = self.matrix.values_mut();
        for ((point, slots), bare) in
            model.contacts.points.iter().zip(&self.node_slots).zip(&self.bare)
        {
            self.residual[2 * point.node..2 * point.node + 2].copy_from_slice(&bare[..2]);
            for (slot, value) in slots.iter().zip(&bare[2..]) {
                if *slot != OUT {
                    values[*slot as usize] = *value;
                }
            }
        }
        self.close(model, (state, load), (last.least_j, last.pressure_mismatch))
    }

    /// Notes what stands in the contact points' entries before contact is added.
    fn keep_bare(&mut self, model: &Model<'_>) {
        let values = self.matrix.values_mut();
        let points = model.contacts.points.iter().zip(&self.node_slots);
        for ((point, slots), bare) in points.zip(&mut self.bare) {
            bare[..2].copy_from_slice(&self.residual[2 * point.node..2 * point.node + 2]);
            for (slot, value) in slots.iter().zip(&mut bare[2..]) {
                *value = if *slot == OUT { 0.0 } else { values[*slot as usize] };
            }
        }
    }

    /// Adds contact, fixes what is fixed, and takes the norms.
    fn close(
        &mut self,
        model: &Model<'_>,
        (state, load): (&State, &Load),
        (least_j, pressure_mismatch): (f64, f64),
    ) -> Imbalance {
        let (contact_force, penetration, on_trial) = self.add_contact(model, state, load);
        let values = self.matrix.values_mut();
        for &unknown in &self.fixed {
            values[self.diagonal[unknown] as usize] = self.prop_stiffness;
            self.residual[unknown] = 0.0;
        }
        let residual = self.residual.iter().map(|r| r * r).sum::<f64>().sqrt();
        Imbalance { residual, contact_force, pressure_mismatch, penetration, least_j, on_trial }
    }
}

fn lower_slots<const N: usize>(list: &[usize], slot: &impl Fn(usize, usize) -> u32) -> [u32; N] {
    let mut slots = [OUT; N];
    let mut k = 0;
    for (i, &a) in list.iter().enumerate() {
        for &b in &list[..=i] {
            slots[k] = slot(a, b);
            k += 1;
        }
    }
    slots
}

/// Nodal displacements of an element.
#[inline(always)]
pub(crate) fn gather(nodes: &[usize; 9], u: &[[f64; 2]]) -> Local {
    let mut local = Local::default();
    for (k, &node) in nodes.iter().enumerate() {
        local[0][k] = u[node][0];
        local[1][k] = u[node][1];
    }
    local
}

/// The element loop's working set.
struct Fill<'a, 'm> {
    model: &'a Model<'m>,
    state: &'a State,
    carried: Carried,
    slots: &'a [[u32; OUTER * (OUTER + 1) / 2]],
    recovery: &'a mut [Recovery],
    values: &'a mut [f64],
    residual: &'a mut [f64],
}

impl Fill<'_, '_> {
    /// Runs the loop compiled for the best instruction set at hand; returns the smallest `J` and
    /// the largest pressure mismatch.
    fn elements<L: Law>(&mut self, law: &L) -> (f64, f64) {
        pulp::Arch::new().dispatch(ElementLoop { fill: self, law })
    }

    #[inline(always)]
    fn loop_elements<const FUSED: bool, L: Law>(&mut self, law: &L) -> (f64, f64) {
        let mut system = System::ZERO;
        let mut condensed = Condensed::ZERO;
        let (mut least_j, mut mismatch) = (f64::MAX, 0.0_f64);
        for (e, nodes) in self.model.mesh.elements.iter().enumerate() {
            let pressure = self.state.pressure[e];
            let at =
                ElementState { u: gather(nodes, &self.state.u), pressure, carried: self.carried };
            integrate::<FUSED, L>(&self.model.table.points[e], &at, law, &mut system);
            least_j = least_j.min(system.least_j);
            if !(least_j > 0.0) {
                return (least_j, mismatch);
            }
            let mass = &self.model.table.mass_inverse[e];
            let recovery = &mut self.recovery[e];
            let out = (&mut condensed, recovery);
            condense::<FUSED>(&mut system, (law.bulk(), mass), &pressure, out);
            if law.bulk().is_some() {
                mismatch = mismatch.max(self.recovery[e].pressure_mismatch(&pressure));
            }
            self.scatter(e, nodes, &condensed);
        }
        (least_j, mismatch)
    }

    /// Adds an element's share where it belongs.
    #[inline(always)]
    fn scatter(&mut self, e: usize, nodes: &[usize; 9], condensed: &Condensed) {
        for (i, force) in condensed.residual.iter().enumerate() {
            self.residual[2 * nodes[i % SHARED] + i / SHARED] += force;
        }
        let mut slots = self.slots[e].iter();
        let mut add = |row: &[f64]| {
            for (value, slot) in row.iter().zip(&mut slots) {
                if *slot != OUT {
                    self.values[*slot as usize] += value;
                }
            }
        };
        for (i, row) in condensed.rr.iter().enumerate() {
            add(&row[..=i]);
        }
        for (i, (zr, zz)) in condensed.zr.iter().zip(&condensed.zz).enumerate() {
            add(zr);
            add(&zz[..=i]);
        }
    }
}

/// The element loop as a value: a closure would not be inlined into the dispatched function, and
/// would miss its instruction set.
struct ElementLoop<'f, 'a, 'm, L> {
    fill: &'f mut Fill<'a, 'm>,
    law: &'f L,
}

impl<L: Law> pulp::WithSimd for ElementLoop<'_, '_, '_, L> {
    type Output = (f64, f64);

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, _: S) -> (f64, f64) {
        // In the browser's instructions a fused product is a call.
        if S::IS_SCALAR || cfg!(target_family = "wasm") {
            self.fill.loop_elements::<false, L>(self.law)
        } else {
            self.fill.loop_elements::<true, L>(self.law)
        }
    }
}
