//! Elimination of an element's own unknowns: the three pressures and the centre node.

use super::System;
use super::integrate::{Eight, Local};

/// Element matrix and residual on the displacements of the eight shared nodes.
#[derive(Debug, Clone)]
pub(crate) struct Condensed {
    /// Blocks rr, zr (row z, column r) and zz.
    pub(crate) rr: [Eight; 8],
    pub(crate) zr: [Eight; 8],
    pub(crate) zz: [Eight; 8],
    /// Residual along r and z.
    pub(crate) residual: [Eight; 2],
}

impl Condensed {
    pub(crate) const ZERO: Self =
        Self { rr: [[0.0; 8]; 8], zr: [[0.0; 8]; 8], zz: [[0.0; 8]; 8], residual: [[0.0; 8]; 2] };
}

/// What is needed to find the eliminated unknowns once the shared displacements are known.
#[derive(Debug, Clone)]
pub(crate) struct Recovery {
    /// The centre moves by `-(offset + slope . du)`, along r and z.
    centre_offset: [f64; 2],
    centre_slope: [[Eight; 2]; 2],
    /// The pressure becomes `offset + slope : du`.
    pressure_offset: [f64; 3],
    pressure_slope: [Local; 3],
}

impl Recovery {
    pub(crate) fn zero() -> Self {
        Self {
            centre_offset: [0.0; 2],
            centre_slope: [[[0.0; 8]; 2]; 2],
            pressure_offset: [0.0; 3],
            pressure_slope: Default::default(),
        }
    }

    /// Largest difference between the pressure that the volume asks for and `pressure`, MPa.
    pub(crate) fn pressure_mismatch(&self, pressure: &[f64; 3]) -> f64 {
        (0..3).map(|i| (self.pressure_offset[i] - pressure[i]).abs()).fold(0.0, f64::max)
    }

    /// Increment of the centre node and the new pressures for increments `du` of the shared nodes.
    #[inline(always)]
    pub(crate) fn recover(&self, du: &[Eight; 2]) -> ([f64; 2], [f64; 3]) {
        let dot = |a: &Eight, b: &Eight| -> f64 { a.iter().zip(b).map(|(a, b)| a * b).sum() };
        let centre = [0, 1].map(|c| {
            let [r, z] = &self.centre_slope[c];
            -(self.centre_offset[c] + dot(r, &du[0]) + dot(z, &du[1]))
        });
        let pressure = [0, 1, 2].map(|i| {
            let [r, z] = &self.pressure_slope[i];
            self.pressure_offset[i]
                + r.centre * centre[0]
                + z.centre * centre[1]
                + dot(&r.eight, &du[0])
                + dot(&z.eight, &du[1])
        });
        (centre, pressure)
    }
}

/// Condenses `system`. `bulk` is the bulk modulus, `None` when there is no pressure.
#[inline(always)]
pub(crate) fn condense(
    system: &mut System,
    (bulk, mass_inverse): (Option<f64>, &[[f64; 3]; 3]),
    pressure: &[f64; 3],
    (out, recovery): (&mut Condensed, &mut Recovery),
) {
    if let Some(bulk) = bulk {
        fold_pressure(system, (bulk, mass_inverse), pressure, recovery);
    }
    let [a, b, c] = system.own;
    let det = a * c - b * b;
    let inverse = [[c / det, -b / det], [-b / det, a / det]];
    let own = [system.force[0].centre, system.force[1].centre];
    let column = &system.centre;
    for r in 0..2 {
        let [x, y] = inverse[r];
        recovery.centre_offset[r] = x * own[0] + y * own[1];
        for axis in 0..2 {
            for k in 0..8 {
                recovery.centre_slope[r][axis][k] = x * column[0][axis][k] + y * column[1][axis][k];
            }
        }
    }
    let slope = &recovery.centre_slope;
    for i in 0..8 {
        let (rx, ry) = (column[0][0][i], column[1][0][i]);
        let (zx, zy) = (column[0][1][i], column[1][1][i]);
        for k in 0..8 {
            out.rr[i][k] = system.rr[i][k] - rx * slope[0][0][k] - ry * slope[1][0][k];
            out.zr[i][k] = system.zr[i][k] - zx * slope[0][0][k] - zy * slope[1][0][k];
            out.zz[i][k] = system.zz[i][k] - zx * slope[0][1][k] - zy * slope[1][1][k];
        }
    }
    let [x, y] = recovery.centre_offset;
    for axis in 0..2 {
        for k in 0..8 {
            out.residual[axis][k] =
                system.force[axis].eight[k] - x * column[0][axis][k] - y * column[1][axis][k];
        }
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
        for axis in 0..2 {
            let [x, y, z] = [&b[0][axis], &b[1][axis], &b[2][axis]];
            let slope = &mut recovery.pressure_slope[i][axis];
            for k in 0..8 {
                slope.eight[k] = m[0] * x.eight[k] + m[1] * y.eight[k] + m[2] * z.eight[k];
            }
            slope.centre = m[0] * x.centre + m[1] * y.centre + m[2] * z.centre;
        }
    }
    for q in 0..3 {
        let miss = recovery.pressure_offset[q] - pressure[q];
        let [slope_r, slope_z] = &recovery.pressure_slope[q];
        let [b_r, b_z] = &system.volume_gradient[q];
        for i in 0..8 {
            let (x, y) = (b_r.eight[i], b_z.eight[i]);
            for k in 0..8 {
                system.rr[i][k] += x * slope_r.eight[k];
                system.zr[i][k] += y * slope_r.eight[k];
                system.zz[i][k] += y * slope_z.eight[k];
            }
        }
        for k in 0..8 {
            system.centre[0][0][k] += b_r.eight[k] * slope_r.centre;
            system.centre[0][1][k] += b_z.eight[k] * slope_r.centre;
            system.centre[1][0][k] += b_r.eight[k] * slope_z.centre;
            system.centre[1][1][k] += b_z.eight[k] * slope_z.centre;
            system.force[0].eight[k] += b_r.eight[k] * miss;
            system.force[1].eight[k] += b_z.eight[k] * miss;
        }
        system.own[0] += b_r.centre * slope_r.centre;
        system.own[1] += b_z.centre * slope_r.centre;
        system.own[2] += b_z.centre * slope_z.centre;
        system.force[0].centre += b_r.centre * miss;
        system.force[1].centre += b_z.centre * miss;
    }
}
