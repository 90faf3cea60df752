//! Elimination of an element's own unknowns: the three pressures and the centre node.

use super::{Local, NODES, OUTER, System};

/// Element matrix and residual on the displacements of the eight shared nodes, `[r0..r7, z0..z7]`.
#[derive(Debug, Clone)]
pub(crate) struct Condensed {
    /// Symmetric; only entries `[i][j]` with `j <= i` are meant to be read.
    pub(crate) stiffness: [[f64; OUTER]; OUTER],
    pub(crate) residual: [f64; OUTER],
}

/// What is needed to find the eliminated unknowns once the shared displacements are known.
#[derive(Debug, Clone)]
pub(crate) struct Recovery {
    /// The centre moves by `-(offset + slope . du)`.
    centre_offset: [f64; 2],
    centre_slope: [[f64; OUTER]; 2],
    /// The pressure becomes `offset + slope : du`.
    pressure_offset: [f64; 3],
    pressure_slope: [Local; 3],
}

impl Recovery {
    pub(crate) const ZERO: Self = Self {
        centre_offset: [0.0; 2],
        centre_slope: [[0.0; OUTER]; 2],
        pressure_offset: [0.0; 3],
        pressure_slope: [[[0.0; super::PAD]; 2]; 3],
    };

    /// Largest difference between the pressure that the volume asks for and `pressure`, MPa.
    pub(crate) fn pressure_mismatch(&self, pressure: &[f64; 3]) -> f64 {
        (0..3).map(|i| (self.pressure_offset[i] - pressure[i]).abs()).fold(0.0, f64::max)
    }

    /// Increment of the centre node and the new pressures for increments `du` of the shared nodes.
    #[inline(always)]
    pub(crate) fn recover(&self, du: &[f64; OUTER]) -> ([f64; 2], [f64; 3]) {
        let centre = [0, 1].map(|c| {
            let dot: f64 = self.centre_slope[c].iter().zip(du).map(|(a, b)| a * b).sum();
            -(self.centre_offset[c] + dot)
        });
        let pressure = [0, 1, 2].map(|i| {
            let [r, z] = &self.pressure_slope[i];
            let mut p = self.pressure_offset[i] + r[8] * centre[0] + z[8] * centre[1];
            for k in 0..8 {
                p += r[k] * du[k] + z[k] * du[8 + k];
            }
            p
        });
        (centre, pressure)
    }
}

/// Condenses `system`. `bulk` is the bulk modulus, `None` when there is no pressure; `floor` is a
/// stiffness added to each displacement, which steadies free bodies and changes no solution.
#[inline(always)]
pub(crate) fn condense(
    system: &mut System,
    (bulk, mass_inverse): (Option<f64>, &[[f64; 3]; 3]),
    pressure: &[f64; 3],
    (out, recovery): (&mut Condensed, &mut Recovery),
) {
    *recovery = Recovery::ZERO;
    if let Some(bulk) = bulk {
        fold_pressure(system, (bulk, mass_inverse), pressure, recovery);
    }
    for i in 0..8 {
        for k in 0..8 {
            out.stiffness[i][k] = system.rr[i][k];
            out.stiffness[8 + i][k] = system.zr[i][k];
            out.stiffness[8 + i][8 + k] = system.zz[i][k];
        }
        out.residual[i] = system.force[0][i];
        out.residual[8 + i] = system.force[1][i];
    }
    // Centre: rows of the 2 x 16 coupling and the 2 x 2 block.
    let mut coupling = [[0.0; OUTER]; 2];
    for k in 0..8 {
        coupling[0][k] = system.rr[8][k];
        coupling[0][8 + k] = system.zr[k][8];
        coupling[1][k] = system.zr[8][k];
        coupling[1][8 + k] = system.zz[8][k];
    }
    let (a, b, c) = (system.rr[8][8], system.zr[8][8], system.zz[8][8]);
    let det = a * c - b * b;
    let inverse = [[c / det, -b / det], [-b / det, a / det]];
    let own = [system.force[0][8], system.force[1][8]];
    for r in 0..2 {
        recovery.centre_offset[r] = inverse[r][0] * own[0] + inverse[r][1] * own[1];
        for k in 0..OUTER {
            recovery.centre_slope[r][k] =
                inverse[r][0] * coupling[0][k] + inverse[r][1] * coupling[1][k];
        }
    }
    for i in 0..OUTER {
        let (x, y) = (coupling[0][i], coupling[1][i]);
        for k in 0..OUTER {
            out.stiffness[i][k] -=
                x * recovery.centre_slope[0][k] + y * recovery.centre_slope[1][k];
        }
        out.residual[i] -= x * recovery.centre_offset[0] + y * recovery.centre_offset[1];
    }
}

/// Adds `B M^-1 B^T` and the pressure residual; `M^-1 = K mass_inverse`.
#[inline(always)]
fn fold_pressure(
    system: &mut System,
    (bulk, mass_inverse): (f64, &[[f64; 3]; 3]),
    pressure: &[f64; 3],
    recovery: &mut Recovery,
) {
    let b = &system.volume_gradient;
    for i in 0..3 {
        let m = mass_inverse[i].map(|x| bulk * x);
        recovery.pressure_offset[i] =
            m[0] * system.swell[0] + m[1] * system.swell[1] + m[2] * system.swell[2];
        for c in 0..2 {
            for k in 0..NODES {
                recovery.pressure_slope[i][c][k] =
                    m[0] * b[0][c][k] + m[1] * b[1][c][k] + m[2] * b[2][c][k];
            }
        }
    }
    for q in 0..3 {
        let miss = recovery.pressure_offset[q] - pressure[q];
        let (slope_r, slope_z) = (&recovery.pressure_slope[q][0], &recovery.pressure_slope[q][1]);
        let [b_r, b_z] = &system.volume_gradient[q];
        for i in 0..NODES {
            let (x, y) = (b_r[i], b_z[i]);
            for k in 0..super::PAD {
                system.rr[i][k] += x * slope_r[k];
                system.zr[i][k] += y * slope_r[k];
                system.zz[i][k] += y * slope_z[k];
            }
            system.force[0][i] += x * miss;
            system.force[1][i] += y * miss;
        }
    }
}
