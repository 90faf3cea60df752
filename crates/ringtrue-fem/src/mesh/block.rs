//! Structured mesh of a section with four sharp corners.

use super::{Mesh, finish};

/// Least number of elements across any side: a bent washer needs some over its thickness.
const LEAST: usize = 4;
/// Most elements along a side.
const MOST: usize = 400;

/// Four-cornered section, corners counter-clockwise, with element sides of about `size`.
pub(super) fn block(corners: [[f64; 2]; 4], size: f64) -> Mesh {
    let length =
        |a: usize, b: usize| (corners[b][0] - corners[a][0]).hypot(corners[b][1] - corners[a][1]);
    let count = |l: f64| ((l / size).ceil() as usize).clamp(LEAST, MOST);
    let (nx, ny) = (count(length(0, 1).max(length(3, 2))), count(length(1, 2).max(length(0, 3))));
    let index = |i: usize, j: usize| j * (2 * nx + 1) + i;
    let mut nodes = vec![[0.0; 2]; (2 * nx + 1) * (2 * ny + 1)];
    for j in 0..=2 * ny {
        for i in 0..=2 * nx {
            let (x, y) = (i as f64 / (2 * nx) as f64, j as f64 / (2 * ny) as f64);
            nodes[index(i, j)] = [0, 1].map(|c| {
                (1.0 - x) * (1.0 - y) * corners[0][c]
                    + x * (1.0 - y) * corners[1][c]
                    + x * y * corners[2][c]
                    + (1.0 - x) * y * corners[3][c]
            });
        }
    }
    let mut elements = Vec::with_capacity(nx * ny);
    for j in 0..ny {
        for i in 0..nx {
            let at = |x: usize, y: usize| index(2 * i + x, 2 * j + y);
            elements.push([
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
        }
    }
    finish(&nodes, &elements)
}
