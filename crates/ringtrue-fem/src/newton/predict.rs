//! First guesses: extrapolation along the path, and a rigid motion at its start.

use crate::assembly::{Load, Model, State, axis_index};
use crate::contact::Bearing;

/// Extrapolates the newest states (last is newest, up to three) to `fraction` into `guess`.
pub(crate) fn extrapolate(history: &[State], fraction: f64, guess: &mut State) {
    let Some(newest) = history.last() else { return };
    guess.copy_from(newest);
    guess.fraction = fraction;
    let used = trusted(history, fraction);
    let weight = |k: usize| -> f64 {
        let mut product = 1.0;
        for (m, other) in used.iter().enumerate() {
            if m != k {
                product *= (fraction - other.fraction) / (used[k].fraction - other.fraction);
            }
        }
        product
    };
    let weights: Vec<f64> = (0..used.len()).map(weight).collect();
    let blend = |value: &dyn Fn(&State) -> f64| -> f64 {
        weights.iter().zip(used).map(|(w, s)| w * value(s)).sum()
    };
    for (k, u) in guess.u.iter_mut().enumerate() {
        *u = [0, 1].map(|c| blend(&|s| s.u[k][c]));
    }
    for (k, p) in guess.pressure.iter_mut().enumerate() {
        *p = [0, 1, 2].map(|c| blend(&|s| s.pressure[k][c]));
    }
    for (k, memory) in guess.memory.iter_mut().enumerate() {
        match memory.bearing {
            Bearing::Open => {}
            Bearing::Stick | Bearing::Slip | Bearing::Trial => {
                memory.pressure = blend(&|s| s.memory[k].pressure).max(0.0);
                memory.shear = blend(&|s| s.memory[k].shear);
            }
        }
    }
    guess.hold = [0, 1].map(|c| blend(&|s| s.hold[c]));
}

/// The states to extrapolate from: three on an even path, fewer where the stride grows, since a
/// parabola through close points magnifies what their equilibria left over.
fn trusted(history: &[State], fraction: f64) -> &[State] {
    let stride = |k: usize| {
        let next = history.get(k + 1).map_or(fraction, |s| s.fraction);
        next - history[k].fraction
    };
    let n = history.len();
    let mut first = n - 1;
    while first > 0 && n - first < 3 && (n - first < 2 || stride(n - 1) <= 2.5 * stride(first - 1))
    {
        first -= 1;
    }
    &history[first..]
}

/// Moves `guess` as a rigid body so that the points nearest to the walls follow them as well as
/// they can: the mean of the walls' motions, with the roll that lessens their slip.
pub(crate) fn rigid(model: &Model<'_>, (from, to): (&Load, &Load), guess: &mut State) {
    let contacts = &model.contacts;
    let extent = model.problem.section.extent();
    let centre = [model.problem.section.mean_radius.unwrap_or(0.0), 0.0];
    // Nearest point of each wall, and how far the wall moves.
    let mut touching = Vec::new();
    for (wall, surface) in contacts.surfaces.iter().enumerate() {
        let shift = to.shifts[wall];
        let motion = [0, 1].map(|c| to.shifts[wall][c] - from.shifts[wall][c]);
        let nearest = (0..contacts.points.len())
            .filter_map(|k| {
                let x = contacts.position(k, &model.mesh.nodes, &guess.u);
                surface.nearest([x[0] - shift[0], x[1] - shift[1]]).map(|s| (s.gap, x, s))
            })
            .min_by(|a, b| a.0.total_cmp(&b.0));
        if let Some((gap, x, standing)) = nearest
            && gap < 1e-6 * extent
        {
            touching.push((x, motion, standing));
        }
    }
    if touching.is_empty() {
        return;
    }
    let count = touching.len() as f64;
    let mean = [0, 1].map(|c| touching.iter().map(|t| t.1[c]).sum::<f64>() / count);
    // Least squares for the roll: velocity at an arm a is mean + roll (-a_z, a_r).
    let (mut top, mut bottom) = (0.0, 0.0);
    for (x, motion, standing) in &touching {
        let arm = [x[0] - centre[0], x[1] - centre[1]];
        let spin = -arm[1] * standing.tangent[0] + arm[0] * standing.tangent[1];
        let rest = (motion[0] - mean[0]) * standing.tangent[0]
            + (motion[1] - mean[1]) * standing.tangent[1];
        top += spin * rest;
        bottom += spin * spin;
    }
    let two_sided = touching.len() > 1 && bottom > 0.0;
    let roll = if two_sided { top / bottom } else { 0.0 };
    let held = |c: usize| model.problem.hold.iter().any(|a| axis_index(*a) == c);
    let (sin, cos) = roll.sin_cos();
    for (node, u) in model.mesh.nodes.iter().zip(&mut guess.u) {
        let a = [node[0] - centre[0], node[1] - centre[1]];
        let turned = [cos * a[0] - sin * a[1] - a[0], sin * a[0] + cos * a[1] - a[1]];
        for c in 0..2 {
            u[c] += turned[c] + if held(c) { 0.0 } else { mean[c] };
        }
    }
}
