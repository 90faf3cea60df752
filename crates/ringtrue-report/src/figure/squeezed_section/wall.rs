//! The rigid walls that squeeze a section, and the pressure that they bear with.

use std::f64::consts::FRAC_PI_2;

use ringtrue_metrology::units::{Given, Length, Quantity};
use ringtrue_seal::face_load::{HalfProblem, SectionOf};
use ringtrue_seal::seating::Passage;
use ringtrue_seal::section::Bearing;
use ringtrue_seal::squeeze::SqueezeFile;
use ringtrue_words::say;

use super::shape::{Rz, Shape};

/// A rigid wall, walked with the section on the left (r to the right, z up).
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Wall {
    /// Its name.
    pub(crate) name: String,
    /// Its surface at the start.
    pub(super) surface: Vec<Rz>,
    /// How far it moves by mm of travel.
    pub(super) per_travel: Rz,
}

impl Wall {
    /// Does it move?
    pub(super) fn moves(&self) -> bool {
        self.per_travel.iter().any(|part| part.abs() > 1e-12)
    }

    /// Its surface at a travel.
    pub(super) fn at(&self, travel: f64) -> Vec<Rz> {
        let moved = |p: &Rz| [0, 1].map(|k| p[k] + travel * self.per_travel[k]);
        self.surface.iter().map(moved).collect()
    }
}

/// The walls of a half: the ring, which moves into the housing, and the housing.
pub(crate) fn of_half(problem: &HalfProblem) -> Vec<Wall> {
    let (housing, ring) = match &problem.section {
        SectionOf::Toric {
            section_mm, mean_radius_mm, ring_ramp_deg, housing_ramp_deg, ..
        } => {
            let (half, long) = (section_mm / 2.0, 4.0 * section_mm);
            // Both ramps touch the round section and narrow with growing z.
            let at = |outward: f64, angle_deg: &f64, z: f64| {
                let angle = angle_deg.to_radians();
                let beside = outward * half / libm::cos(angle);
                [mean_radius_mm + beside - z * libm::tan(angle), z]
            };
            (
                vec![at(1.0, housing_ramp_deg, -long), at(1.0, housing_ramp_deg, long)],
                vec![at(-1.0, ring_ramp_deg, long), at(-1.0, ring_ramp_deg, -long)],
            )
        }
        SectionOf::ConicalWasher { corners_mm, mean_radius_mm, .. } => {
            let axial = || corners_mm.iter().map(|corner| corner[1]);
            let low = axial().fold(f64::INFINITY, f64::min);
            let high = axial().fold(f64::NEG_INFINITY, f64::max);
            let wide = mean_radius_mm / 2.0;
            let (inner, outer) = (mean_radius_mm - wide, mean_radius_mm + wide);
            (vec![[outer, high], [inner, high]], vec![[inner, low], [outer, low]])
        }
    };
    let wall = |name: &str, surface: Vec<Rz>, per_travel: Rz| Wall {
        name: name.to_owned(),
        surface,
        per_travel,
    };
    vec![
        wall(say!("figure-squeezed-housing"), housing, [0.0, 0.0]),
        wall(say!("figure-squeezed-ring"), ring, [0.0, 1.0]),
    ]
}

/// The lip that comes down over the section, and ramp and tool that carry it.
pub(crate) fn of_passage(passage: &Passage) -> Vec<Wall> {
    let still = |name: &str, surface: Vec<Rz>| Wall {
        name: name.to_owned(),
        surface,
        per_travel: [0.0; 2],
    };
    let (tool, rounded) = passage.tool_profile();
    let lip = filleted(&passage.lip_profile(), &[passage.nose_radius_mm]);
    vec![
        Wall { per_travel: [0.0, -1.0], ..still(say!("figure-squeezed-lip"), lip) },
        still(say!("figure-squeezed-ring"), passage.ramp_profile().to_vec()),
        still(say!("figure-squeezed-tool"), filleted(&tool, &[rounded])),
    ]
}

/// The walls of a general problem; those without end go on for `far` mm.
pub(crate) fn of_file(file: &SqueezeFile, far: f64) -> Vec<Wall> {
    let mm = |given: &Given<Length>| given.value().si() * 1e3;
    let motions: Vec<Rz> = file
        .wall
        .iter()
        .map(|wall| {
            let along = |given: Option<&Given<Length>>| given.map_or(0.0, mm);
            wall.motion
                .as_ref()
                .map_or([0.0; 2], |motion| [along(motion.r.as_ref()), along(motion.z.as_ref())])
        })
        .collect();
    // Travel is the fraction of the longest motion.
    let longest = motions.iter().map(|motion| motion[0].hypot(motion[1])).fold(0.0, f64::max);
    file.wall
        .iter()
        .zip(motions)
        .map(|(wall, motion)| {
            let profile: Vec<Rz> = wall.profile.iter().map(|[r, z]| [mm(r), mm(z)]).collect();
            let radii: Vec<f64> = wall.fillets.iter().map(mm).collect();
            let mut surface = filleted(&profile, &radii);
            if wall.unbounded {
                lengthened(&mut surface, far);
            }
            let per_travel =
                if longest > 0.0 { motion.map(|part| part / longest) } else { [0.0; 2] };
            Wall { name: wall.name.clone(), surface, per_travel }
        })
        .collect()
}

/// A profile with its inner corners rounded, as points.
fn filleted(profile: &[Rz], radii: &[f64]) -> Vec<Rz> {
    const PARTS: u32 = 12;
    let mut surface = Vec::new();
    for (i, corner) in profile.iter().enumerate() {
        let radius = i.checked_sub(1).and_then(|inner| radii.get(inner)).copied().unwrap_or(0.0);
        let (Some(before), Some(after)) =
            (i.checked_sub(1).map(|j| profile[j]), profile.get(i + 1))
        else {
            surface.push(*corner);
            continue;
        };
        let (back, ahead) = (unit(*corner, before), unit(*corner, *after));
        let (Some(back), Some(ahead)) = (back, ahead) else { continue };
        let half = libm::acos((back[0] * ahead[0] + back[1] * ahead[1]).clamp(-1.0, 1.0)) / 2.0;
        // A straight corner has no arc, and a fold no room for one.
        if radius <= 0.0 || !(1e-3..FRAC_PI_2 - 1e-4).contains(&half) {
            surface.push(*corner);
            continue;
        }
        let bisector = [back[0] + ahead[0], back[1] + ahead[1]];
        let long = bisector[0].hypot(bisector[1]);
        let out = radius / libm::sin(half);
        let centre = [0, 1].map(|k| corner[k] + bisector[k] / long * out);
        let touch = radius / libm::tan(half);
        let from = [0, 1].map(|k| corner[k] + back[k] * touch - centre[k]);
        let to = [0, 1].map(|k| corner[k] + ahead[k] * touch - centre[k]);
        let turn =
            libm::atan2(from[0] * to[1] - from[1] * to[0], from[0] * to[0] + from[1] * to[1]);
        surface.extend((0..=PARTS).map(|part| {
            let t = turn * f64::from(part) / f64::from(PARTS);
            let (sine, cosine) = (libm::sin(t), libm::cos(t));
            [
                centre[0] + from[0] * cosine - from[1] * sine,
                centre[1] + from[0] * sine + from[1] * cosine,
            ]
        }));
    }
    surface
}

/// Sets both ends `far` out along their segments.
fn lengthened(surface: &mut [Rz], far: f64) {
    let count = surface.len();
    if count < 2 {
        return;
    }
    for (end, next) in [(0, 1), (count - 1, count - 2)] {
        if let Some(out) = unit(surface[next], surface[end]) {
            surface[end] = [0, 1].map(|k| surface[end][k] + far * out[k]);
        }
    }
}

fn unit(from: Rz, to: Rz) -> Option<Rz> {
    let (dr, dz) = (to[0] - from[0], to[1] - from[1]);
    let long = dr.hypot(dz);
    (long > 1e-12).then(|| [dr / long, dz / long])
}

/// The metal behind a surface, `thick` deep, as a polygon: the solid is on the right of the walk.
pub(super) fn solid(surface: &[Rz], thick: f64) -> Vec<Rz> {
    let normals: Vec<Rz> = surface
        .windows(2)
        .map(|pair| unit(pair[0], pair[1]).map_or([0.0; 2], |[dr, dz]| [dz, -dr]))
        .collect();
    let behind = |i: usize| {
        let (Some(a), Some(b)) =
            (normals.get(i.saturating_sub(1)), normals.get(i.min(normals.len().saturating_sub(1))))
        else {
            return surface[i];
        };
        let sum = [a[0] + b[0], a[1] + b[1]];
        // A mitre, at most twice as long as the metal is thick.
        let scale = thick * 2.0 / (sum[0] * sum[0] + sum[1] * sum[1]).max(1.0);
        [0, 1].map(|k| surface[i][k] + scale * sum[k])
    };
    surface.iter().copied().chain((0..surface.len()).rev().map(behind)).collect()
}

/// A stretch of wall that bears: places on it with the way into the wall, and pressure, in walking
/// order.
pub(super) type Zone = Vec<(Rz, Rz, f64)>;

/// The zones that bear on each wall at the shape's travel.
pub(super) fn zones(walls: &[Wall], shape: &Shape) -> Vec<(usize, Zone)> {
    let surfaces: Vec<Vec<Rz>> = walls.iter().map(|wall| wall.at(shape.borne_at)).collect();
    let mut on_wall: Vec<Vec<(f64, &Bearing)>> = vec![Vec::new(); walls.len()];
    for bearing in shape.bearings.iter().filter(|bearing| bearing.pressure_mpa.is_finite()) {
        let at = bearing.at.map(f64::from);
        let nearest = surfaces
            .iter()
            .enumerate()
            .filter_map(|(i, surface)| nearest(surface, at).map(|(along, off)| (i, along, off)))
            .min_by(|a, b| a.2.total_cmp(&b.2));
        if let Some((i, along, _)) = nearest {
            on_wall[i].push((along, bearing));
        }
    }
    let mut all = Vec::new();
    for (i, (wall, mut bearings)) in walls.iter().zip(on_wall).enumerate() {
        bearings.sort_by(|a, b| a.0.total_cmp(&b.0));
        let shift = shape.travel - shape.borne_at;
        let place = |bearing: &Bearing| {
            let at = [0, 1].map(|k| f64::from(bearing.at[k]) + shift * wall.per_travel[k]);
            (at, bearing.normal.map(|x| -f64::from(x)), f64::from(bearing.pressure_mpa))
        };
        all.extend(
            split(&bearings)
                .into_iter()
                .map(|zone| (i, zone.iter().map(|(_, bearing)| place(bearing)).collect())),
        );
    }
    all
}

/// Parts of sorted places with a gap of more than three times the usual distance between them.
fn split<'s, 'b>(sorted: &'s [(f64, &'b Bearing)]) -> Vec<&'s [(f64, &'b Bearing)]> {
    let mut apart: Vec<f64> = sorted.windows(2).map(|pair| pair[1].0 - pair[0].0).collect();
    apart.sort_by(f64::total_cmp);
    let usual = apart.get(apart.len() / 2).copied().unwrap_or(0.0);
    sorted.chunk_by(|a, b| b.0 - a.0 <= 3.0 * usual + 1e-9).collect()
}

/// How far along a surface the nearest point to a place is, and how far off.
fn nearest(surface: &[Rz], place: Rz) -> Option<(f64, f64)> {
    let mut walked = 0.0;
    let mut best: Option<(f64, f64)> = None;
    for pair in surface.windows(2) {
        let Some(way) = unit(pair[0], pair[1]) else { continue };
        let long = (pair[1][0] - pair[0][0]).hypot(pair[1][1] - pair[0][1]);
        let from = [place[0] - pair[0][0], place[1] - pair[0][1]];
        let along = (from[0] * way[0] + from[1] * way[1]).clamp(0.0, long);
        let off = (from[0] - along * way[0]).hypot(from[1] - along * way[1]);
        if best.is_none_or(|(_, least)| off < least) {
            best = Some((walked + along, off));
        }
        walked += long;
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tests::fixture;

    #[test]
    fn a_fillet_touches_both_sides_of_its_corner() {
        let corner = [[0.0, 0.0], [10.0, 0.0], [10.0, 10.0]];
        let surface = filleted(&corner, &[2.0]);
        assert_eq!(surface.len(), 15);
        for point in &surface[1..14] {
            let from_centre = (point[0] - 8.0).hypot(point[1] - 2.0);
            assert!((from_centre - 2.0).abs() < 1e-12, "{point:?}");
        }
        assert!((surface[1][0] - 8.0).abs() < 1e-12 && (surface[13][1] - 2.0).abs() < 1e-12);
    }

    #[test]
    fn the_solid_is_on_the_right_of_the_walk() {
        let metal = solid(&[[0.0, 0.0], [4.0, 0.0]], 1.0);
        assert_eq!(metal, [[0.0, 0.0], [4.0, 0.0], [4.0, -1.0], [0.0, -1.0]]);
    }

    #[test]
    fn what_bears_lies_on_the_walls_of_the_solved_problem() {
        for load in [fixture::final_drive_load(), fixture::mixer_shaft_load()] {
            for half in &load.halves {
                let walls = of_half(&half.section.problem);
                let picture = &half.section.curve.picture;
                let last = Shape::at(picture, f64::INFINITY).unwrap();
                let zones = zones(&walls, &last);
                for (i, wall) in walls.iter().enumerate() {
                    let surface = wall.at(last.travel);
                    let on_wall = zones.iter().filter(|(wall, _)| *wall == i);
                    let places: Vec<_> = on_wall.flat_map(|(_, zone)| zone).collect();
                    assert!(!places.is_empty(), "{}", wall.name);
                    for (at, into, _) in places {
                        let (_, off) = nearest(&surface, *at).unwrap();
                        assert!(off < 0.02, "{}: {off} mm", wall.name);
                        // Into the metal: on the right of the walk.
                        let way = unit(surface[0], surface[1]).unwrap();
                        assert!((into[0] * way[1] - into[1] * way[0] - 1.0).abs() < 1e-3);
                    }
                }
            }
        }
    }

    #[test]
    fn places_apart_make_zones_of_their_own() {
        let bearing = Bearing { at: [0.0; 2], normal: [0.0; 2], pressure_mpa: 1.0 };
        let places: Vec<_> =
            [0.0, 0.1, 0.2, 5.0, 5.1].into_iter().map(|along| (along, &bearing)).collect();
        let lengths: Vec<_> = split(&places).iter().map(|zone| zone.len()).collect();
        assert_eq!(lengths, [3, 2]);
    }
}
