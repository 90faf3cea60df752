//! O-grid of the round section: a bulged square block inside, rings of elements around it.

use std::f64::consts::{FRAC_PI_4, PI, TAU};

use super::{Mesh, finish};

/// Radius of the block's corners over the section's radius: block and ring elements then have
/// about the same size as the boundary edges.
const BLOCK: f64 = 0.62;
/// How round the block's sides are: 0 a square, 1 a circle.
const BULGE: f64 = 0.35;

/// Round section of `radius` about the origin with boundary edges of about `size`.
pub(super) fn round(radius: f64, size: f64, touch: &[f64]) -> Mesh {
    let wanted = TAU * radius / (4.0 * size);
    // At least 16 edges round the section, at most 2000.
    let n = (wanted.ceil() as usize).clamp(4, 500);
    let rings = (n / 2).max(2);
    let angles = boundary_angles(8 * n, touch);
    let grid = Grid { n, rings };
    let mut nodes = vec![[0.0; 2]; grid.len()];
    fill_block(&mut nodes, &grid, radius, &angles);
    for layer in 1..=2 * rings {
        let share = layer as f64 / (2 * rings) as f64;
        for (k, angle) in angles.iter().enumerate() {
            let inner = nodes[grid.rim(k)];
            let outer = [radius * angle.cos(), radius * angle.sin()];
            nodes[grid.ring(layer, k)] = [0, 1].map(|i| inner[i] + share * (outer[i] - inner[i]));
        }
    }
    finish(&nodes, &elements(&grid))
}

/// Node numbering of the O-grid; `2 n` node spaces along a side of the block.
struct Grid {
    n: usize,
    rings: usize,
}

impl Grid {
    fn len(&self) -> usize {
        (2 * self.n + 1) * (2 * self.n + 1) + 8 * self.n * 2 * self.rings
    }

    fn block(&self, i: usize, j: usize) -> usize {
        j * (2 * self.n + 1) + i
    }

    /// Node `k` on the block's rim, counter-clockwise from its lower left corner.
    fn rim(&self, k: usize) -> usize {
        let side = 2 * self.n;
        let (turn, step) = (k / side % 4, k % side);
        match turn {
            0 => self.block(step, 0),
            1 => self.block(side, step),
            2 => self.block(side - step, side),
            _ => self.block(0, side - step),
        }
    }

    /// Node `k` of ring layer `layer`; layer 0 is the block's rim.
    fn ring(&self, layer: usize, k: usize) -> usize {
        let around = 8 * self.n;
        if layer == 0 {
            return self.rim(k);
        }
        (2 * self.n + 1) * (2 * self.n + 1) + (layer - 1) * around + k % around
    }
}

/// Angles of the boundary nodes, evenly spaced, then turned and gently warped so that a corner
/// node lies in each direction of `touch`.
fn boundary_angles(count: usize, touch: &[f64]) -> Vec<f64> {
    let step = TAU / count as f64;
    let start = -3.0 * FRAC_PI_4;
    // Corner nodes are every second one.
    let nearest = |angle: f64| {
        let k = ((angle - start) / (2.0 * step)).round() * 2.0;
        let shift = angle - (start + k * step);
        (k.rem_euclid(count as f64) as usize, shift)
    };
    let mut pins: Vec<(usize, f64)> = Vec::new();
    for &angle in touch {
        let pin = nearest(angle);
        if pins.iter().all(|p| p.0.abs_diff(pin.0) > 4) {
            pins.push(pin);
        }
    }
    pins.sort_by_key(|p| p.0);
    (0..count).map(|k| start + k as f64 * step + warp(k, count, &pins)).collect()
}

/// Shift of node `k`: the pins' shifts, linear in between round the circle.
fn warp(k: usize, count: usize, pins: &[(usize, f64)]) -> f64 {
    let (Some(&first), Some(&last)) = (pins.first(), pins.last()) else { return 0.0 };
    let before = pins.iter().rev().find(|p| p.0 <= k).copied().unwrap_or(last);
    let after = pins.iter().find(|p| p.0 > k).copied().unwrap_or(first);
    let span = (after.0 + count - before.0 - 1) % count + 1;
    let share = ((k + count - before.0) % count) as f64 / span as f64;
    before.1 + share * (after.1 - before.1)
}

/// Places the block's nodes: bulged sides, transfinite interpolation inside.
fn fill_block(nodes: &mut [[f64; 2]], grid: &Grid, radius: f64, angles: &[f64]) {
    let side = 2 * grid.n;
    for (k, angle) in angles.iter().enumerate() {
        let along = (2.0 * (k % side) as f64 / side as f64 - 1.0) * PI / 4.0;
        let square = FRAC_PI_4.cos() / along.cos();
        let rho = BLOCK * radius * (BULGE + (1.0 - BULGE) * square);
        nodes[grid.rim(k)] = [rho * angle.cos(), rho * angle.sin()];
    }
    let corner = [(0, 0), (side, 0), (side, side), (0, side)].map(|(i, j)| nodes[grid.block(i, j)]);
    for j in 1..side {
        for i in 1..side {
            let (x, y) = (i as f64 / side as f64, j as f64 / side as f64);
            let [west, east] = [nodes[grid.block(0, j)], nodes[grid.block(side, j)]];
            let [south, north] = [nodes[grid.block(i, 0)], nodes[grid.block(i, side)]];
            nodes[grid.block(i, j)] = [0, 1].map(|c| {
                (1.0 - x) * west[c] + x * east[c] + (1.0 - y) * south[c] + y * north[c]
                    - (1.0 - x) * (1.0 - y) * corner[0][c]
                    - x * (1.0 - y) * corner[1][c]
                    - x * y * corner[2][c]
                    - (1.0 - x) * y * corner[3][c]
            });
        }
    }
}

fn elements(grid: &Grid) -> Vec<[usize; 9]> {
    let mut list = Vec::new();
    let mut push = |at: &dyn Fn(usize, usize) -> usize| {
        list.push([
            at(0, 0),
            at(2, 0),
            at(2, 2),
            at(0, 2),
            at(1, 0),
            at(2, 1),
            at(1, 2),
            at(0, 1),
            at(1, 1),
        ]);
    };
    for j in 0..grid.n {
        for i in 0..grid.n {
            push(&|x, y| grid.block(2 * i + x, 2 * j + y));
        }
    }
    for layer in 0..grid.rings {
        for k in 0..4 * grid.n {
            // Outwards first, then counter-clockwise, so that the element is counter-clockwise.
            push(&|x, y| grid.ring(2 * layer + x, 2 * k + y));
        }
    }
    list
}
