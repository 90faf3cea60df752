//! Elimination of an element's own unknowns: the three pressures and the centre node.

use super::system::{Line, Rows};
use super::{CENTRE, Local, NODES, OUTER, SHARED, System};

/// Element matrix and residual on the displacements of the eight shared nodes.
#[derive(Debug, Clone)]
pub(crate) struct Condensed {
    /// Blocks `rr`, `zr` (row z, column r) and `zz`; of the first and last, which are symmetric,
    /// only entries `[i][j]` with `j <= i` are meant to be read.
    pub(crate) rr: [[f64; SHARED]; SHARED],
    pub(crate) zr: [[f64; SHARED]; SHARED],
    pub(crate) zz: [[f64; SHARED]; SHARED],
    /// `[r0..r7, z0..z7]`, N per mm.
    pub(crate) residual: [f64; OUTER],
}

impl Condensed {
    pub(crate) const ZERO: Self = Self {
        rr: [[0.0; SHARED]; SHARED],
        zr: [[0.0; SHARED]; SHARED],
        zz: [[0.0; SHARED]; SHARED],
        residual: [0.0; OUTER],
    };
}

/// What is needed to find the eliminated unknowns once the shared displacements are known.
#[derive(Debug, Clone)]
pub(crate) struct Recovery {
    /// The centre moves by `-(offset + slope . du)`, `slope` by r and by z of the shared nodes.
    centre_offset: [f64; 2],
    centre_slope: [[Line; 2]; 2],
    /// The pressure becomes `offset + slope : du`.
    pressure_offset: [f64; 3],
    pressure_slope: [Local; 3],
}

impl Recovery {
    pub(crate) const ZERO: Self = Self {
        centre_offset: [0.0; 2],
        centre_slope: [[Line::ZERO; 2]; 2],
        pressure_offset: [0.0; 3],
        pressure_slope: [[[0.0; NODES]; 2]; 3],
    };

    /// Largest difference between the pressure that the volume asks for and `pressure`, MPa.
    pub(crate) fn pressure_mismatch(&self, pressure: &[f64; 3]) -> f64 {
        (0..3).map(|i| (self.pressure_offset[i] - pressure[i]).abs()).fold(0.0, f64::max)
    }

    /// Increment of the centre node and the new pressures for increments of the shared nodes along
    /// r and along z.
    #[inline(always)]
    pub(crate) fn recover(&self, [dr, dz]: &[[f64; SHARED]; 2]) -> ([f64; 2], [f64; 3]) {
        let along = |r: &[f64], z: &[f64]| {
            let mut sums = [0.0; SHARED];
            for k in 0..SHARED {
                sums[k] = r[k] * dr[k] + z[k] * dz[k];
            }
            sums.iter().sum::<f64>()
        };
        let centre = [0, 1].map(|c| {
            let [r, z] = &self.centre_slope[c];
            -(self.centre_offset[c] + along(&r.0, &z.0))
        });
        let pressure = [0, 1, 2].map(|i| {
            let [r, z] = &self.pressure_slope[i];
            let own = r[CENTRE] * centre[0] + z[CENTRE] * centre[1];
            self.pressure_offset[i] + own + along(&r[..SHARED], &z[..SHARED])
        });
        (centre, pressure)
    }
}

/// Condenses `system`. `bulk` is the bulk modulus, `None` when there is no pressure.
#[inline(always)]
pub(crate) fn condense<const FUSED: bool>(
    system: &mut System,
    (bulk, mass_inverse): (Option<f64>, &[[f64; 3]; 3]),
    pressure: &[f64; 3],
    (out, recovery): (&mut Condensed, &mut Recovery),
) {
    *recovery = Recovery::ZERO;
    if let Some(bulk) = bulk {
        find_pressure(system, (bulk, mass_inverse), recovery);
        for q in 0..3 {
            let miss = recovery.pressure_offset[q] - pressure[q];
            for c in 0..2 {
                for k in 0..NODES {
                    system.force[c][k] += system.volume_gradient[q][c][k] * miss;
                }
            }
        }
    }
    // The centre's rows, its force along r by the shared nodes' z, and its own 2 x 2 block.
    let centre = rows::<FUSED>(system, recovery, CENTRE);
    let mut shared = [centre; SHARED];
    for (i, rows_of_i) in shared.iter_mut().enumerate() {
        *rows_of_i = rows::<FUSED>(system, recovery, i);
    }
    let (a, b, c) = (centre.rr.centre, centre.zr.centre, centre.zz.centre);
    let det = a * c - b * b;
    let inverse = [[c / det, -b / det], [-b / det, a / det]];
    let coupling = [
        [centre.rr.shared, Line(shared.map(|rows| rows.zr.centre))],
        [centre.zr.shared, centre.zz.shared],
    ];
    let own = [system.force[0][CENTRE], system.force[1][CENTRE]];
    for c in 0..2 {
        recovery.centre_offset[c] = inverse[c][0] * own[0] + inverse[c][1] * own[1];
        for axis in 0..2 {
            for k in 0..SHARED {
                recovery.centre_slope[c][axis].0[k] =
                    inverse[c][0] * coupling[0][axis].0[k] + inverse[c][1] * coupling[1][axis].0[k];
            }
        }
    }
    let [[x_r, x_z], [y_r, y_z]] = &recovery.centre_slope;
    for (i, Rows { rr, zr, zz }) in shared.iter_mut().enumerate() {
        let along_r = [coupling[0][0].0[i], coupling[1][0].0[i]];
        let along_z = [coupling[0][1].0[i], coupling[1][1].0[i]];
        for (row, [x, y], to) in [
            (&mut rr.shared, along_r, (x_r, y_r)),
            (&mut zr.shared, along_z, (x_r, y_r)),
            (&mut zz.shared, along_z, (x_z, y_z)),
        ] {
            row.add::<FUSED>(-x, &to.0.0);
            row.add::<FUSED>(-y, &to.1.0);
        }
        (out.rr[i], out.zr[i], out.zz[i]) = (rr.shared.0, zr.shared.0, zz.shared.0);
        let offset = recovery.centre_offset;
        out.residual[i] = system.force[0][i] - along_r[0] * offset[0] - along_r[1] * offset[1];
        out.residual[SHARED + i] =
            system.force[1][i] - along_z[0] * offset[0] - along_z[1] * offset[1];
    }
}

/// How the pressures follow: `M^-1 (swell + B du)`, with `M^-1 = K mass_inverse`.
#[inline(always)]
fn find_pressure(
    system: &System,
    (bulk, mass_inverse): (f64, &[[f64; 3]; 3]),
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
}

/// Rows of node `i` with the pressure's share `B M^-1 B^T`.
#[inline(always)]
fn rows<const FUSED: bool>(system: &System, recovery: &Recovery, i: usize) -> Rows {
    let mut rows = system.rows::<FUSED>(i);
    for (b, [slope_r, slope_z]) in system.volume_gradient.iter().zip(&recovery.pressure_slope) {
        let (b_r, b_z) = (b[0][i], b[1][i]);
        rows.rr.add::<FUSED>(b_r, slope_r);
        rows.zr.add::<FUSED>(b_z, slope_r);
        rows.zz.add::<FUSED>(b_z, slope_z);
    }
    rows
}
