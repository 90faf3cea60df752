//! Both halves as installed: lapped faces together, housings at the seal gap, the load rings as
//! they are squeezed there.

use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::face_load::{Drawn, SectionOf};
use ringtrue_words::say;

use super::{Load, Outline, Room, Together, dimensions, outline, together};
use crate::figure::squeezed_section::Shape;
use crate::figure::svg::Point;
use crate::figure::{Drawing, style};
use crate::reader::Reader;

/// One half at the gap that is drawn.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Installed<'a> {
    /// Its parts.
    pub(crate) seal: &'a Seal,
    /// Its solved section.
    pub(crate) section: &'a Drawn,
    /// Its travel from the first touch, mm.
    pub(crate) travel_mm: f64,
}

/// The joint at a seal gap in mm; `None` where the measures make no section.
pub(crate) fn joint(
    name: &str,
    (a, b): (Installed, Installed),
    gap_mm: f64,
    reader: Reader,
) -> Option<Drawing> {
    let (a, b) = (squeezed(a)?, squeezed(b)?);
    let Together { mut canvas, views: [view_a, view_b], top } =
        together([&a, &b], Room { tallest: 56.0, below: 17.0 }, reader);
    let gap = reader.length(gap_mm, reader.workshop_decimals());
    let words = say!("figure-section-nominal-seal-gap", gap);
    dimensions::axial(&mut canvas, (view_a.x_zero, view_b.x_zero), top - 0.8, (top - 3.4, &words));
    let heights = [&a, &b].map(|half| reader.length(half.height, reader.workshop_decimals()));
    let alt =
        say!("figure-section-installed-alt", gap, height_a = heights[0], height_b = heights[1]);
    let title = say!("figure-section-installed-title").to_owned();
    Some(Drawing::new(name.to_owned(), title, alt, (style::WIDTH, canvas)))
}

/// A half's outline with its ring moved in and its load ring as it was solved.
fn squeezed(half: Installed) -> Option<Outline> {
    let free = outline(half.seal)?;
    let shape = Shape::at(&half.section.curve.picture, half.travel_mm)?;
    // The picture's z starts at the middle of the free section.
    let start = match (&free.load, &half.section.problem.section) {
        (Load::Round { centre, .. }, _) => centre.0,
        (Load::Corners(corners), SectionOf::ConicalWasher { corners_mm, .. }) => {
            let low = |z: &mut dyn Iterator<Item = f64>| z.fold(f64::INFINITY, f64::min);
            low(&mut corners.iter().map(|p| p.0)) - low(&mut corners_mm.iter().map(|p| p[1]))
        }
        (Load::Corners(_), SectionOf::Toric { .. }) => return None,
    };
    let moved = |(z, r): Point| (z + half.travel_mm, r);
    let mut ring = free.ring;
    for side in &mut ring {
        side.from = moved(side.from);
    }
    Some(Outline {
        height: free.height - half.travel_mm,
        housing: free.housing,
        ring,
        band: free.band.map(moved),
        load: Load::Corners(shape.outline().into_iter().map(|[r, z]| (z + start, r)).collect()),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figure::load_curve::travel_of;
    use crate::tests::fixture;

    #[test]
    fn the_squeezed_load_ring_lies_between_ring_and_housing() {
        let (case, load) = (fixture::final_drive(), fixture::final_drive_load());
        let nominal = load.joint.at_gap.nominal.unwrap();
        let mut heights = 0.0;
        for half in &load.halves {
            let outline = squeezed(Installed {
                seal: case.joint.seal(half.half),
                section: &half.section,
                travel_mm: travel_of(half.half, &nominal),
            })
            .unwrap();
            heights += outline.height;
            // Ring: face, open, open, ramp, open. Housing: face, lip, lip, ramp.
            for (sides, outward) in [(&outline.ring, 1.0), (&outline.housing, -1.0)] {
                let (p, q) = (sides[3].from, sides[4].from);
                let slope = (q.1 - p.1) / (q.0 - p.0);
                let above = |(z, r): Point| outward * (r - p.1 - slope * (z - p.0));
                let least =
                    outline.load.points().into_iter().map(above).fold(f64::INFINITY, f64::min);
                assert!(least.abs() < 0.02, "{:?}: {least} mm", half.half);
            }
        }
        assert!((heights - nominal.gap_mm).abs() < 1e-6, "{heights}");
    }
}
