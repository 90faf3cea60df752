//! Any outline: constrained Delaunay triangles, each cut into three quadrilaterals.

use std::collections::BTreeMap;

use spade::{
    AngleLimit, ConstrainedDelaunayTriangulation, Point2, RefinementParameters, Triangulation,
};

use super::{Mesh, MeshError, Outline, finish};

/// Most triangles of a section; a finer request is refused.
const MOST_TRIANGLES: usize = 60_000;

/// Section inside `outline` with boundary edges of about `size`.
pub(super) fn polygon(outline: &Outline, size: f64) -> Result<Mesh, MeshError> {
    // A triangle side becomes two element sides.
    let side = 2.0 * size;
    let rim = divide(outline, side);
    let triangles = triangulate(&rim, side)?;
    Ok(finish_quads(&rim, &triangles, outline))
}

/// A point on the outline with its place there.
#[derive(Debug, Clone, Copy)]
struct RimPoint {
    at: [f64; 2],
    piece: usize,
    share: f64,
}

/// Divides each piece evenly; an arc at least every 30 degrees.
fn divide(outline: &Outline, side: f64) -> Vec<RimPoint> {
    let mut rim = Vec::new();
    for (index, piece) in outline.pieces.iter().enumerate() {
        let least = match piece {
            super::outline::Piece::Line { .. } => 1.0,
            super::outline::Piece::Arc { sweep, .. } => (sweep.abs().to_degrees() / 30.0).ceil(),
        };
        let count = (piece.length() / side).ceil().max(least).max(1.0) as usize;
        for k in 0..count {
            let share = k as f64 / count as f64;
            rim.push(RimPoint { at: piece.at(share), piece: index, share });
        }
    }
    rim
}

struct Triangles {
    points: Vec<[f64; 2]>,
    corners: Vec<[usize; 3]>,
}

fn triangulate(rim: &[RimPoint], side: f64) -> Result<Triangles, MeshError> {
    let refused = |why: String| MeshError::Outline(why);
    let mut cdt = ConstrainedDelaunayTriangulation::<Point2<f64>>::new();
    let mut handles = Vec::with_capacity(rim.len());
    for point in rim {
        let handle = cdt
            .insert(Point2::new(point.at[0], point.at[1]))
            .map_err(|e| refused(format!("a corner is not a usable point ({e})")))?;
        handles.push(handle);
    }
    for k in 0..handles.len() {
        let (from, to) = (handles[k], handles[(k + 1) % handles.len()]);
        if from == to || !cdt.can_add_constraint(from, to) {
            return Err(refused("its sides touch or cross".to_owned()));
        }
        cdt.add_constraint(from, to);
    }
    let area = 0.5 * side * side;
    let parameters = RefinementParameters::<f64>::new()
        .exclude_outer_faces(true)
        .keep_constraint_edges()
        .with_angle_limit(AngleLimit::from_deg(25.0))
        .with_max_allowed_area(area)
        .with_max_additional_vertices(MOST_TRIANGLES);
    let result = cdt.refine(parameters);
    if cdt.num_inner_faces() > MOST_TRIANGLES {
        return Err(refused(format!("a mesh size of {} mm is too fine for it", 0.5 * side)));
    }
    let outside: std::collections::BTreeSet<usize> =
        result.excluded_faces.iter().map(|f| f.index()).collect();
    let mut points: Vec<[f64; 2]> =
        cdt.vertices().map(|v| [v.position().x, v.position().y]).collect();
    let corners: Vec<[usize; 3]> = cdt
        .inner_faces()
        .filter(|face| !outside.contains(&face.fix().index()))
        .map(|face| face.vertices().map(|v| v.fix().index()))
        .collect();
    smooth(&mut points, &corners, rim.len());
    Ok(Triangles { points, corners })
}

/// A few rounds of moving inner points to the mean of their neighbours, undone where a triangle
/// would fold. The first `fixed` points are the rim.
fn smooth(points: &mut [[f64; 2]], corners: &[[usize; 3]], fixed: usize) {
    let mut around: Vec<Vec<usize>> = vec![Vec::new(); points.len()];
    for (t, triangle) in corners.iter().enumerate() {
        for &p in triangle {
            around[p].push(t);
        }
    }
    let area =
        |points: &[[f64; 2]], t: usize| super::outline::signed_area(&corners[t].map(|p| points[p]));
    for _ in 0..4 {
        for p in fixed..points.len() {
            if around[p].is_empty() {
                continue;
            }
            let before: f64 = around[p].iter().map(|&t| area(points, t)).fold(f64::MAX, f64::min);
            let old = points[p];
            let mut mean = [0.0; 2];
            let mut count = 0.0;
            for &t in &around[p] {
                for &q in corners[t].iter().filter(|&&q| q != p) {
                    mean[0] += points[q][0];
                    mean[1] += points[q][1];
                    count += 1.0;
                }
            }
            points[p] = [mean[0] / count, mean[1] / count];
            let after = around[p].iter().map(|&t| area(points, t)).fold(f64::MAX, f64::min);
            if after < 0.5 * before {
                points[p] = old;
            }
        }
    }
}

/// Cuts each triangle into three nine-node quadrilaterals about its centroid; nodes on the rim are
/// moved onto the outline.
fn finish_quads(rim: &[RimPoint], triangles: &Triangles, outline: &Outline) -> Mesh {
    let mut builder =
        Builder { nodes: triangles.points.clone(), halves: BTreeMap::new(), rim, outline };
    let mut elements = Vec::with_capacity(3 * triangles.corners.len());
    for &[a, b, c] in &triangles.corners {
        let ab = builder.side(a, b);
        let bc = builder.side(b, c);
        let ca = builder.side(c, a);
        // Mean of the middles, which for a straight triangle is the centroid.
        let centre = builder.mean(&[ab.middle, bc.middle, ca.middle]);
        let spokes = [ab, bc, ca].map(|s| (s.middle, builder.mean(&[s.middle, centre])));
        for (corner, next, last, (n, spoke_n), (l, spoke_l)) in [
            (a, ab.half_at(a), ca.half_at(a), spokes[0], spokes[2]),
            (b, bc.half_at(b), ab.half_at(b), spokes[1], spokes[0]),
            (c, ca.half_at(c), bc.half_at(c), spokes[2], spokes[1]),
        ] {
            // Serendipity centre: exact for straight sides, follows the bent ones.
            let (m, q) = ([next, spoke_n, spoke_l, last], [corner, n, centre, l]);
            let at = |list: &[usize; 4], i: usize| -> f64 {
                list.iter().map(|&k| builder.nodes[k][i]).sum()
            };
            let heart = [0, 1].map(|i| 0.5 * at(&m, i) - 0.25 * at(&q, i));
            builder.nodes.push(heart);
            elements.push([
                corner,
                n,
                centre,
                l,
                next,
                spoke_n,
                spoke_l,
                last,
                builder.nodes.len() - 1,
            ]);
        }
    }
    finish(&builder.nodes, &elements)
}

/// A triangle side cut in two: its middle and the middles of its halves.
#[derive(Debug, Clone, Copy)]
struct Side {
    low: usize,
    middle: usize,
    low_half: usize,
    high_half: usize,
}

impl Side {
    fn half_at(self, corner: usize) -> usize {
        if corner == self.low { self.low_half } else { self.high_half }
    }
}

struct Builder<'a> {
    nodes: Vec<[f64; 2]>,
    halves: BTreeMap<(usize, usize), Side>,
    rim: &'a [RimPoint],
    outline: &'a Outline,
}

impl Builder<'_> {
    fn mean(&mut self, of: &[usize]) -> usize {
        let n = of.len() as f64;
        let at = [0, 1].map(|i| of.iter().map(|&k| self.nodes[k][i]).sum::<f64>() / n);
        self.nodes.push(at);
        self.nodes.len() - 1
    }

    fn side(&mut self, a: usize, b: usize) -> Side {
        let (low, high) = (a.min(b), a.max(b));
        if let Some(side) = self.halves.get(&(low, high)) {
            return *side;
        }
        let places = [0.25, 0.5, 0.75].map(|share| self.on_side(low, high, share));
        let first = self.nodes.len();
        self.nodes.extend(places);
        let side = Side { low, low_half: first, middle: first + 1, high_half: first + 2 };
        self.halves.insert((low, high), side);
        side
    }

    /// Point at `share` from `low` to `high`: along the outline if the two follow each other there.
    fn on_side(&self, low: usize, high: usize, share: f64) -> [f64; 2] {
        let n = self.rim.len();
        let along = |from: usize, to: usize, share: f64| {
            let (start, end) = (self.rim[from], self.rim[to]);
            let to_share = if end.piece == start.piece { end.share } else { 1.0 };
            self.outline.pieces[start.piece].at(start.share + share * (to_share - start.share))
        };
        if high < n && high == low + 1 {
            along(low, high, share)
        } else if high < n && low == 0 && high == n - 1 {
            along(high, low, 1.0 - share)
        } else {
            let (p, q) = (self.nodes[low], self.nodes[high]);
            [0, 1].map(|i| p[i] + share * (q[i] - p[i]))
        }
    }
}
