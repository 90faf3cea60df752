//! Meshes of nine-node quadrilaterals for a section: round, four-cornered, or any rounded polygon.
//!
//! Positions are `(r, z)` in mm in the undeformed state. Node order in an element: corners
//! counter-clockwise, then the middles of the sides `0-1, 1-2, 2-3, 3-0`, then the centre.

mod block;
mod outline;
mod polygon;
mod round;
#[cfg(test)]
mod tests;

pub use outline::Outline;
pub(crate) use outline::{Piece, fillet};

use crate::problem::{Section, Shape};

/// A section cut into nine-node quadrilaterals.
#[derive(Debug, Clone, PartialEq)]
pub struct Mesh {
    /// Undeformed node positions, mm. The centre nodes of the elements come last, in element order.
    pub nodes: Vec<[f64; 2]>,
    /// Nodes of each element.
    pub elements: Vec<[usize; 9]>,
    /// Boundary edges as (start, middle, end), walking counter-clockwise round the section.
    pub boundary: Vec<[usize; 3]>,
}

impl Mesh {
    /// Number of nodes that elements share: all but the centres.
    #[must_use]
    pub fn shared_nodes(&self) -> usize {
        self.nodes.len() - self.elements.len()
    }
}

/// Why a section could not be meshed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum MeshError {
    /// The outline folds or is too thin for its corner radius.
    #[error("the outline cannot be meshed: {0}")]
    Outline(String),
    /// An element would be folded.
    #[error("element {element} of the mesh is folded; ask for a finer mesh or a smaller radius")]
    Folded {
        /// Index of the element.
        element: usize,
    },
}

/// Meshes `section` with boundary edges of about `size` mm.
///
/// `touch` lists directions (radians from the r axis towards z, seen from the centroid) in which
/// the section first meets a wall; the round mesh puts a node there.
///
/// # Errors
/// [`MeshError`] when the outline is unusable; see [`crate::Problem::defect`] for the checks that
/// come before.
pub fn mesh_section(section: &Section, size: f64, touch: &[f64]) -> Result<Mesh, MeshError> {
    let centre = [section.mean_radius.unwrap_or(0.0), 0.0];
    let mut mesh = match &section.shape {
        Shape::Round { diameter } => round::round(0.5 * diameter, size, touch),
        Shape::Polygon { corners, corner_radius } => {
            match <[[f64; 2]; 4]>::try_from(corners.as_slice()) {
                Ok(four) if *corner_radius == 0.0 => block::block(four, size),
                Ok(_) | Err(_) => {
                    let outline =
                        Outline::rounded(corners, *corner_radius).map_err(MeshError::Outline)?;
                    polygon::polygon(&outline, size)?
                }
            }
        }
    };
    for node in &mut mesh.nodes {
        node[0] += centre[0];
        node[1] += centre[1];
    }
    match (0..mesh.elements.len()).find(|&e| !crate::element::is_unfolded(&mesh, e)) {
        Some(element) => Err(MeshError::Folded { element }),
        None => Ok(mesh),
    }
}

/// Orders nodes (shared ones first, centres last in element order) and finds the boundary.
fn finish(nodes: &[[f64; 2]], elements: &[[usize; 9]]) -> Mesh {
    const NONE: usize = usize::MAX;
    let mut new_index = vec![NONE; nodes.len()];
    let mut ordered = Vec::with_capacity(nodes.len());
    for element in elements {
        for &old in &element[..8] {
            if new_index[old] == NONE {
                new_index[old] = ordered.len();
                ordered.push(nodes[old]);
            }
        }
    }
    for element in elements {
        new_index[element[8]] = ordered.len();
        ordered.push(nodes[element[8]]);
    }
    let elements: Vec<_> = elements.iter().map(|e| e.map(|old| new_index[old])).collect();
    let boundary = boundary_loop(&elements, ordered.len());
    Mesh { nodes: ordered, elements, boundary }
}

/// The sides of an element as positions (start, middle, end) in its node list.
pub(crate) const SIDES: [[usize; 3]; 4] = [[0, 4, 1], [1, 5, 2], [2, 6, 3], [3, 7, 0]];

/// Edges whose middle node belongs to one element only, chained into one loop.
fn boundary_loop(elements: &[[usize; 9]], nodes: usize) -> Vec<[usize; 3]> {
    let mut owners = vec![0_u8; nodes];
    for element in elements {
        for [_, middle, _] in SIDES {
            owners[element[middle]] += 1;
        }
    }
    let mut edge_from = vec![None; nodes];
    let mut first = None;
    for element in elements {
        for side in SIDES {
            let edge = side.map(|k| element[k]);
            if owners[edge[1]] == 1 {
                edge_from[edge[0]] = Some(edge);
                first = first.or(Some(edge));
            }
        }
    }
    let mut chain = Vec::new();
    let mut next = first;
    while let Some(edge) = next {
        chain.push(edge);
        next = edge_from[edge[2]].take().filter(|e| Some(*e) != first);
    }
    chain
}
