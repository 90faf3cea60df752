//! The section at one travel, read from the frames of a solved one.

use std::collections::BTreeMap;

use ringtrue_seal::section::{Bearing, Frame, Picture};
use ringtrue_words::say;

/// A point of the problem's half-plane: r outward and z into the housing, mm.
pub(crate) type Rz = [f64; 2];

/// The section at one travel and before it was squeezed.
#[derive(Debug, Clone)]
pub(crate) struct Shape<'p> {
    picture: &'p Picture,
    /// Places of the nodes before.
    before: Vec<Rz>,
    /// Places of the nodes at this travel.
    nodes: Vec<Rz>,
    /// Largest principal stretch of each element.
    stretch: Vec<f64>,
    /// Where the walls bear, at `borne_at`.
    pub(super) bearings: &'p [Bearing],
    /// Travel of the frame that the bearings are taken from.
    pub(super) borne_at: f64,
    /// The travel.
    pub(super) travel: f64,
}

impl<'p> Shape<'p> {
    /// The section at a travel, between its two nearest frames; `None` where there is no frame or
    /// the picture does not hang together.
    pub(crate) fn at(picture: &'p Picture, travel: f64) -> Option<Self> {
        if !whole(picture) {
            return None;
        }
        let frames = &picture.frames;
        let of = |frame: &Frame| f64::from(frame.travel_mm);
        let last = frames.len() - 1;
        let next =
            frames.partition_point(|frame| of(frame) < travel).clamp(usize::from(last > 0), last);
        let (a, b) = (&frames[next.saturating_sub(1)], &frames[next]);
        let span = of(b) - of(a);
        let t = if span > 0.0 { ((travel - of(a)) / span).clamp(0.0, 1.0) } else { 1.0 };
        let between = |p: f32, q: f32| f64::from(p) + t * (f64::from(q) - f64::from(p));
        let nearest = if t < 0.5 { a } else { b };
        Some(Self {
            picture,
            before: frames[0].nodes.iter().map(|node| node.map(f64::from)).collect(),
            nodes: a
                .nodes
                .iter()
                .zip(&b.nodes)
                .map(|(p, q)| [between(p[0], q[0]), between(p[1], q[1])])
                .collect(),
            stretch: a.stretch.iter().zip(&b.stretch).map(|(p, q)| between(*p, *q)).collect(),
            bearings: &nearest.pressure,
            borne_at: of(nearest),
            travel: of(a) + t * span,
        })
    }

    /// The outline at this travel.
    pub(crate) fn outline(&self) -> Vec<Rz> {
        self.outline_of(&self.nodes)
    }

    /// The outline before.
    pub(super) fn outline_before(&self) -> Vec<Rz> {
        self.outline_of(&self.before)
    }

    fn outline_of(&self, nodes: &[Rz]) -> Vec<Rz> {
        self.picture
            .boundary
            .iter()
            .flat_map(|edge| curve(edge.map(|n| nodes[n as usize])))
            .collect()
    }

    /// The elements, curved where the section is, with the stretch round their edges: at a corner
    /// the mean of the elements that meet there, between corners by straight lines.
    pub(super) fn elements(&self) -> Vec<Element> {
        let middles: BTreeMap<(u32, u32), u32> =
            self.picture.boundary.iter().map(|[from, mid, to]| ((*from, *to), *mid)).collect();
        let at_corner = self.corner_stretch();
        let outline = |corners: &[u32; 4]| -> Vec<(Rz, f64)> {
            (0..4)
                .flat_map(|i| {
                    let (from, to) = (corners[i], corners[(i + 1) % 4]);
                    let place = |node: u32| self.nodes[node as usize];
                    let (a, b) = (at_corner[from as usize], at_corner[to as usize]);
                    let edge = match middles.get(&(from, to)) {
                        Some(mid) => curve([from, *mid, to].map(place)),
                        None => vec![place(from)],
                    };
                    let parts = edge.len() as f64;
                    let value = move |i: usize| a + (b - a) * i as f64 / parts;
                    edge.into_iter().enumerate().map(move |(i, p)| (p, value(i)))
                })
                .collect()
        };
        let middle = |corners: &[u32; 4]| {
            [0, 1].map(|k| corners.iter().map(|n| self.nodes[*n as usize][k]).sum::<f64>() / 4.0)
        };
        self.stretch
            .iter()
            .zip(&self.picture.elements)
            .map(|(stretch, corners)| Element {
                middle: (middle(corners), *stretch),
                outline: outline(corners),
            })
            .collect()
    }

    /// Mean stretch of the elements that meet at each node.
    fn corner_stretch(&self) -> Vec<f64> {
        let mut sums = vec![(0.0, 0.0); self.nodes.len()];
        for (corners, stretch) in self.picture.elements.iter().zip(&self.stretch) {
            for node in corners {
                let sum: &mut (f64, f64) = &mut sums[*node as usize];
                *sum = (sum.0 + stretch, sum.1 + 1.0);
            }
        }
        sums.into_iter().map(|(sum, count)| if count > 0.0 { sum / count } else { 1.0 }).collect()
    }

    /// Which line of material is marked.
    pub(crate) fn mark(&self) -> Mark {
        if round(&self.outline_before()) { Mark::PartingLine } else { Mark::MiddleLine }
    }

    /// The marked line of material through the middle of the section, from the inside out: before,
    /// and at this travel.
    pub(super) fn marked_line(&self) -> Option<MarkedLine> {
        const INSIDE: u32 = 32;
        let outline = self.outline_before();
        let middle = centroid(&outline)?;
        let way = lengthwise(&outline).unwrap_or([1.0, 0.0]);
        let along = |p: &Rz| (p[0] - middle[0]) * way[0] + (p[1] - middle[1]) * way[1];
        let mut ends = self.crossings(middle, way);
        ends.sort_by(|p, q| along(&p.0).total_cmp(&along(&q.0)));
        let (first, last) = (*ends.first()?, *ends.last()?);
        let inside = (1..INSIDE).filter_map(|i| {
            let t = f64::from(i) / f64::from(INSIDE);
            let place = [0, 1].map(|k| first.0[k] + t * (last.0[k] - first.0[k]));
            Some((place, self.moved(place)?))
        });
        let (before, now) = std::iter::once(first).chain(inside).chain([last]).unzip();
        Some(MarkedLine { before, now, way })
    }

    /// Where the outline before crosses a line, and where those points are now.
    fn crossings(&self, middle: Rz, way: Rz) -> Vec<(Rz, Rz)> {
        let beside = |p: Rz| (p[0] - middle[0]) * way[1] - (p[1] - middle[1]) * way[0];
        let sides = self.picture.boundary.iter().flat_map(|[a, b, c]| [(*a, *b), (*b, *c)]);
        sides
            .filter_map(|(from, to)| {
                let (p, q) = (self.before[from as usize], self.before[to as usize]);
                let (a, b) = (beside(p), beside(q));
                ((a < 0.0) != (b < 0.0)).then(|| {
                    let t = a / (a - b);
                    let along = |p: Rz, q: Rz| [0, 1].map(|k| p[k] + t * (q[k] - p[k]));
                    (along(p, q), along(self.nodes[from as usize], self.nodes[to as usize]))
                })
            })
            .collect()
    }

    /// Where the material of a place is now, by the triangle of corners that it was in.
    fn moved(&self, place: Rz) -> Option<Rz> {
        let triangles = self
            .picture
            .elements
            .iter()
            .flat_map(|[a, b, c, d]| [[*a, *b, *c], [*a, *c, *d]])
            .map(|corners| corners.map(|node| node as usize));
        for corners in triangles {
            let [a, b, c] = corners.map(|node| self.before[node]);
            let cross =
                |p: Rz, q: Rz, s: Rz| (q[0] - p[0]) * (s[1] - p[1]) - (q[1] - p[1]) * (s[0] - p[0]);
            let whole = cross(a, b, c);
            if whole.abs() < 1e-12 {
                continue;
            }
            let share = [cross(b, c, place), cross(c, a, place), cross(a, b, place)]
                .map(|part| part / whole);
            if share.iter().all(|part| *part >= -1e-9) {
                let now = corners.map(|node| self.nodes[node]);
                return Some([0, 1].map(|k| (0..3).map(|i| share[i] * now[i][k]).sum()));
            }
        }
        None
    }

    /// Largest stretch of any element.
    pub(crate) fn largest_stretch(&self) -> f64 {
        self.stretch.iter().copied().fold(1.0, f64::max)
    }
}

/// One element as it is shaded.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Element {
    /// Its middle and its own largest principal stretch.
    pub(super) middle: (Rz, f64),
    /// Points round it, with the stretch there.
    pub(super) outline: Vec<(Rz, f64)>,
}

/// A line of material that is marked, so that one sees how the section turns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Mark {
    /// Of a round section: the line along r, where a moulded toric is parted.
    PartingLine,
    /// Of another section: the line along it, or along r where it is about as wide as it is high.
    MiddleLine,
}

impl Mark {
    /// What its unbroken line is.
    pub(crate) fn now(self) -> &'static str {
        match self {
            Self::PartingLine => say!("figure-squeezed-parting-line-now"),
            Self::MiddleLine => say!("figure-squeezed-middle-line-now"),
        }
    }

    /// How far it has turned.
    pub(super) fn rolled(self, angle: &str) -> String {
        match self {
            Self::PartingLine => say!("figure-squeezed-parting-line-rolled", angle),
            Self::MiddleLine => say!("figure-squeezed-middle-line-rolled", angle),
        }
    }
}

/// The marked line.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct MarkedLine {
    /// Its points before.
    pub(super) before: Vec<Rz>,
    /// The same points of the material now.
    pub(super) now: Vec<Rz>,
    /// Unit way of the line before, outwards.
    pub(super) way: Rz,
}

/// Is every point of an outline as far from its middle, within 2 %?
fn round(outline: &[Rz]) -> bool {
    let Some([r, z]) = centroid(outline) else { return false };
    let distances = || outline.iter().map(|p| (p[0] - r).hypot(p[1] - z));
    let (low, high) = (distances().fold(f64::INFINITY, f64::min), distances().fold(0.0, f64::max));
    high < 1.02 * low
}

/// The way along a section that is clearly longer than it is wide, outwards: the larger principal
/// axis of its outline.
fn lengthwise(outline: &[Rz]) -> Option<Rz> {
    let [r, z] = centroid(outline)?;
    let (mut rr, mut zz, mut rz) = (0.0, 0.0, 0.0);
    for (p, q) in outline.iter().zip(outline.iter().cycle().skip(1)) {
        let long = (q[0] - p[0]).hypot(q[1] - p[1]);
        let (dr, dz) = (f64::midpoint(p[0], q[0]) - r, f64::midpoint(p[1], q[1]) - z);
        rr += long * dr * dr;
        zz += long * dz * dz;
        rz += long * dr * dz;
    }
    let apart = (rr - zz).hypot(2.0 * rz);
    let (most, least) = (rr + zz + apart, rr + zz - apart);
    // Lengths go with the roots: a third longer than wide.
    (most > 1.8 * least).then(|| {
        let angle = libm::atan2(2.0 * rz, rr - zz) / 2.0;
        let way = [libm::cos(angle), libm::sin(angle)];
        if way[0] < 0.0 { way.map(|x| -x) } else { way }
    })
}

/// Does each frame have every node and element, and is every number finite?
fn whole(picture: &Picture) -> bool {
    let Some(first) = picture.frames.first() else { return false };
    let count = first.nodes.len();
    let inside = |node: &u32| (*node as usize) < count;
    !picture.elements.is_empty()
        && !picture.boundary.is_empty()
        && picture.elements.iter().flatten().all(inside)
        && picture.boundary.iter().flatten().all(inside)
        && picture.frames.iter().all(|frame| {
            frame.nodes.len() == count
                && frame.stretch.len() == picture.elements.len()
                && frame.nodes.iter().flatten().chain(&frame.stretch).all(|x| x.is_finite())
        })
}

/// A quadratic edge as points, without its end.
fn curve([from, mid, to]: [Rz; 3]) -> Vec<Rz> {
    const PARTS: u32 = 4;
    (0..PARTS)
        .map(|i| {
            let t = f64::from(i) / f64::from(PARTS);
            let share = [(1.0 - t) * (1.0 - 2.0 * t), 4.0 * t * (1.0 - t), t * (2.0 * t - 1.0)];
            [0, 1].map(|k| share[0] * from[k] + share[1] * mid[k] + share[2] * to[k])
        })
        .collect()
}

/// Centroid of a polygon by the shoelace formula.
pub(super) fn centroid(corners: &[Rz]) -> Option<Rz> {
    let origin = *corners.first()?;
    let (mut area, mut first) = (0.0, [0.0; 2]);
    for (from, to) in corners.iter().zip(corners.iter().cycle().skip(1)) {
        // From a corner, so that a section far from the axis loses no digits.
        let (p, q) =
            ([from[0] - origin[0], from[1] - origin[1]], [to[0] - origin[0], to[1] - origin[1]]);
        let cross = p[0] * q[1] - q[0] * p[1];
        area += cross / 2.0;
        for (sum, (a, b)) in first.iter_mut().zip(p.iter().zip(q)) {
            *sum += (a + b) * cross / 6.0;
        }
    }
    (area.abs() > 1e-12).then(|| [origin[0] + first[0] / area, origin[1] + first[1] / area])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tests::fixture;

    #[test]
    fn between_two_frames_each_node_lies_on_a_straight_line() {
        let picture = &fixture::final_drive_load().halves[0].section.curve.picture;
        let (a, b) = (&picture.frames[10], &picture.frames[11]);
        let travel = f64::midpoint(f64::from(a.travel_mm), f64::from(b.travel_mm));
        let shape = Shape::at(picture, travel).unwrap();
        assert!((shape.travel - travel).abs() < 1e-6);
        for (node, (p, q)) in shape.nodes.iter().zip(a.nodes.iter().zip(&b.nodes)) {
            let middle = f64::midpoint(f64::from(p[0]), f64::from(q[0]));
            assert!((node[0] - middle).abs() < 1e-5);
        }
        let last = Shape::at(picture, 1e9).unwrap();
        assert_eq!(last.nodes[7][0], f64::from(picture.frames.last().unwrap().nodes[7][0]));
    }

    #[test]
    fn the_parting_line_turns_by_the_roll() {
        let half = &fixture::final_drive_load().halves[0];
        for point in [&half.curve[6], half.curve.last().unwrap()] {
            let shape = Shape::at(&half.section.curve.picture, point.travel_mm).unwrap();
            assert_eq!(shape.mark(), Mark::PartingLine);
            let line = shape.marked_line().unwrap();
            let (from, to) = (line.now[0], line.now[line.now.len() - 1]);
            let turned = libm::atan2(from[1] - to[1], to[0] - from[0]).to_degrees();
            // The line through its ends; the roll is the mean over the section.
            assert!((turned - point.roll_deg).abs() < 6.0, "{turned} {}", point.roll_deg);
            let straight = line.before.iter().all(|p| (p[1] - line.before[0][1]).abs() < 1e-6);
            assert!(straight && line.before.len() > 25);
        }
        let washer = &fixture::mixer_shaft_load().halves[0];
        let shape = Shape::at(&washer.section.curve.picture, 0.5).unwrap();
        assert_eq!(shape.mark(), Mark::MiddleLine);
    }

    #[test]
    fn a_picture_that_does_not_hang_together_is_not_drawn() {
        let mut picture = fixture::final_drive_load().halves[0].section.curve.picture.clone();
        assert!(Shape::at(&Picture::default(), 1.0).is_none());
        picture.frames[3].nodes.pop();
        assert!(Shape::at(&picture, 1.0).is_none());
    }
}
