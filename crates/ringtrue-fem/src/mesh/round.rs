//! O-grid of the round section: a bulged square block inside, a ring, a layer in which each element
//! side becomes three, and fine rings at the surface, where the section meets the walls.
//!
//! ```text
//!   T0---T1---T2---T3   fine ring        The layer of one coarse side A-B. Rolling contact needs
//!   |  \  |    |  / |                    a fine surface: each node that touches down bends the
//!   |   P-+----+-Q  |                    curve a little. The inside is smooth and stays coarse.
//!   | /            \|
//!   A---------------B   coarse ring
//! ```

use std::f64::consts::{FRAC_PI_4, PI, TAU};

use super::{Mesh, finish};

/// Radii over the section's: the block's corners, the coarse ring's outside, the layer's outside.
const BLOCK: f64 = 0.60;
const COARSE: f64 = 0.79;
const FINE: f64 = 0.91;
/// How round the block's sides are: 0 a square, 1 a circle.
const BULGE: f64 = 0.35;
/// Rings of elements inside and outside the layer.
const COARSE_RINGS: usize = 1;
const FINE_RINGS: usize = 1;
/// Nodes that a coarse side adds to the layer.
const OWN: usize = 12;

/// Round section of `radius` about the origin with boundary edges of about `size`.
pub(super) fn round(radius: f64, size: f64, touch: &[f64]) -> Mesh {
    // Twelve edges round the section for each element along a side of the block.
    let n = ((TAU * radius / (12.0 * size)).round() as usize).clamp(3, 200);
    let grid = Grid { n };
    let angles = boundary_angles(24 * n, touch);
    let coarse: Vec<f64> = angles.iter().step_by(3).copied().collect();
    let mut nodes = vec![[0.0; 2]; grid.len()];
    let on_circle = |rho: f64, angle: f64| [rho * radius * angle.cos(), rho * radius * angle.sin()];
    fill_block(&mut nodes, &grid, radius, &coarse);
    for layer in 1..=2 * COARSE_RINGS {
        let share = layer as f64 / (2 * COARSE_RINGS) as f64;
        for (k, angle) in coarse.iter().enumerate() {
            let (inner, outer) = (nodes[grid.rim(k)], on_circle(COARSE, *angle));
            nodes[grid.coarse(layer, k)] = mix(inner, outer, share);
        }
    }
    for layer in 0..=2 * FINE_RINGS {
        let share = layer as f64 / (2 * FINE_RINGS) as f64;
        for (k, angle) in angles.iter().enumerate() {
            nodes[grid.fine(layer, k)] = on_circle(FINE + share * (1.0 - FINE), *angle);
        }
    }
    for side in 0..4 * n {
        fill_layer(&mut nodes, &grid, side);
    }
    finish(&nodes, &elements(&grid))
}

fn mix(a: [f64; 2], b: [f64; 2], share: f64) -> [f64; 2] {
    [0, 1].map(|c| a[c] + share * (b[c] - a[c]))
}

/// Node numbering; `n` elements along a side of the block.
struct Grid {
    n: usize,
}

impl Grid {
    fn block_len(&self) -> usize {
        (2 * self.n + 1) * (2 * self.n + 1)
    }

    fn coarse_start(&self) -> usize {
        self.block_len()
    }

    fn layer_start(&self) -> usize {
        self.coarse_start() + 8 * self.n * 2 * COARSE_RINGS
    }

    fn fine_start(&self) -> usize {
        self.layer_start() + 4 * self.n * OWN
    }

    fn len(&self) -> usize {
        self.fine_start() + 24 * self.n * (2 * FINE_RINGS + 1)
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

    /// Node `k` of layer `layer` of the coarse ring; layer 0 is the block's rim.
    fn coarse(&self, layer: usize, k: usize) -> usize {
        match layer {
            0 => self.rim(k),
            _ => self.coarse_start() + (layer - 1) * 8 * self.n + k % (8 * self.n),
        }
    }

    /// Node `own` of the layer above coarse side `side`.
    fn layer(&self, side: usize, own: usize) -> usize {
        self.layer_start() + side % (4 * self.n) * OWN + own
    }

    /// Node `k` of layer `layer` of the fine ring.
    fn fine(&self, layer: usize, k: usize) -> usize {
        self.fine_start() + layer * 24 * self.n + k % (24 * self.n)
    }

    /// The nodes of the layer above a coarse side, named as in the module's picture.
    fn names(&self, side: usize) -> Names {
        let top = 2 * COARSE_RINGS;
        Names {
            a: self.coarse(top, 2 * side),
            ab: self.coarse(top, 2 * side + 1),
            b: self.coarse(top, 2 * side + 2),
            t: [0, 1, 2, 3, 4, 5, 6].map(|k| self.fine(0, 6 * side + k)),
            at: self.layer(side, 0),
            bt: self.layer(side + 1, 0),
            p: self.layer(side, 1),
            q: self.layer(side, 2),
            ap: self.layer(side, 3),
            pt: self.layer(side, 4),
            pq: self.layer(side, 5),
            qt: self.layer(side, 6),
            qb: self.layer(side, 7),
            hearts: [8, 9, 10, 11].map(|own| self.layer(side, own)),
        }
    }
}

/// Corner nodes have one letter, middles two; `t` alternates fine corners and middles.
struct Names {
    a: usize,
    ab: usize,
    b: usize,
    t: [usize; 7],
    at: usize,
    bt: usize,
    p: usize,
    q: usize,
    ap: usize,
    pt: usize,
    pq: usize,
    qt: usize,
    qb: usize,
    hearts: [usize; 4],
}

fn fill_layer(nodes: &mut [[f64; 2]], grid: &Grid, side: usize) {
    let m = grid.names(side);
    let third = |k: f64| mix(nodes[m.a], nodes[m.b], k / 3.0);
    let p = mix(third(1.0), nodes[m.t[2]], 0.5);
    let q = mix(third(2.0), nodes[m.t[4]], 0.5);
    (nodes[m.p], nodes[m.q]) = (p, q);
    for (middle, from, to) in [
        (m.at, m.a, m.t[0]),
        (m.ap, m.a, m.p),
        (m.pt, m.p, m.t[2]),
        (m.pq, m.p, m.q),
        (m.qt, m.q, m.t[4]),
        (m.qb, m.q, m.b),
    ] {
        nodes[middle] = mix(nodes[from], nodes[to], 0.5);
    }
    let bt = mix(nodes[m.b], nodes[m.t[6]], 0.5);
    nodes[m.bt] = bt;
    // Centres: half the middles less a quarter of the corners, exact for straight sides.
    for quad in layer_quads(&m) {
        nodes[quad[8]] = [0, 1].map(|c| {
            let sum = |range: std::ops::Range<usize>| -> f64 {
                quad[range].iter().map(|&k| nodes[k][c]).sum()
            };
            0.5 * sum(4..8) - 0.25 * sum(0..4)
        });
    }
}

/// The four elements above a coarse side.
fn layer_quads(m: &Names) -> [[usize; 9]; 4] {
    [
        [m.a, m.t[0], m.t[2], m.p, m.at, m.t[1], m.pt, m.ap, m.hearts[0]],
        [m.p, m.t[2], m.t[4], m.q, m.pt, m.t[3], m.qt, m.pq, m.hearts[1]],
        [m.q, m.t[4], m.t[6], m.b, m.qt, m.t[5], m.bt, m.qb, m.hearts[2]],
        [m.a, m.p, m.q, m.b, m.ap, m.pq, m.qb, m.ab, m.hearts[3]],
    ]
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
    // `at(x, y)` with x outwards or to the right, y counter-clockwise or up.
    let patch = |at: &dyn Fn(usize, usize) -> usize| {
        [(0, 0), (2, 0), (2, 2), (0, 2), (1, 0), (2, 1), (1, 2), (0, 1), (1, 1)]
            .map(|(x, y)| at(x, y))
    };
    for j in 0..grid.n {
        for i in 0..grid.n {
            list.push(patch(&|x, y| grid.block(2 * i + x, 2 * j + y)));
        }
    }
    for layer in 0..COARSE_RINGS {
        for k in 0..4 * grid.n {
            list.push(patch(&|x, y| grid.coarse(2 * layer + x, 2 * k + y)));
        }
    }
    for side in 0..4 * grid.n {
        list.extend(layer_quads(&grid.names(side)));
    }
    for layer in 0..FINE_RINGS {
        for k in 0..12 * grid.n {
            list.push(patch(&|x, y| grid.fine(2 * layer + x, 2 * k + y)));
        }
    }
    list
}
