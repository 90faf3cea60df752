//! What a reached state means: wall forces, contact zones, roll, stretch, energy.

use crate::assembly::{Load, Model, State, gather};
use crate::contact::{Bearing, boundary_spans};
use crate::element::deform;
use crate::material::Law;
use crate::problem::Symmetry;

/// A stretch of boundary that bears on a wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Zone {
    /// First and last touching point `(r, z)`, counter-clockwise round the section, mm.
    pub from: [f64; 2],
    /// See `from`.
    pub to: [f64; 2],
    /// Touching length in the deformed state, mm; resolved to about a quarter of a boundary edge.
    pub width_mm: f64,
    /// Largest and mean contact pressure on the deformed area, MPa.
    pub peak_mpa: f64,
    /// See `peak_mpa`.
    pub mean_mpa: f64,
    /// Share of the touching length that slips, 0 to 1.
    pub slip_share: f64,
}

/// Contact pressure at a point of the boundary.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PressureSample {
    /// Current place `(r, z)`, mm.
    pub at: [f64; 2],
    /// Unit normal from the wall into the section.
    pub normal: [f64; 2],
    /// Pressure on the deformed area, MPa.
    pub pressure_mpa: f64,
    /// Friction stress along the wall's walk on the deformed area, MPa.
    pub shear_mpa: f64,
}

/// One wall at one step. Forces are what the wall exerts on the section, per mm of circumference at
/// the section's undeformed mean radius, or per mm of length in plane strain.
#[derive(Debug, Clone, PartialEq)]
pub struct WallResult {
    /// The wall's name.
    pub name: String,
    /// Force along r and z, N/mm.
    pub force_r_n_per_mm: f64,
    /// See `force_r_n_per_mm`.
    pub force_z_n_per_mm: f64,
    /// Moment about the section's present centroid, positive from r towards z, N mm/mm.
    pub moment_n_mm_per_mm: f64,
    /// Sum of the normal forces, N/mm.
    pub normal_n_per_mm: f64,
    /// Touching length over all zones, mm.
    pub width_mm: f64,
    /// Largest pressure at a sample over all zones, MPa. At a sharp or narrowly rounded corner it
    /// grows with a finer mesh: read [`Self::peak_mean_mpa`] there.
    pub peak_mpa: f64,
    /// Largest mean pressure over any [`Problem::peak_length`](crate::Problem::peak_length) of the
    /// section's boundary, MPa: what of it touches nothing counts as zero.
    pub peak_mean_mpa: f64,
    /// Mean pressure over all zones, MPa.
    pub mean_mpa: f64,
    /// Share of the touching length that slips, 0 to 1.
    pub slip_share: f64,
    /// The zones, in boundary order.
    pub zones: Vec<Zone>,
    /// Pressure along the zones.
    pub samples: Vec<PressureSample>,
}

/// One step of the curve.
#[derive(Debug, Clone, PartialEq)]
pub struct StepResult {
    /// Fraction of the whole motion, 0 to 1.
    pub fraction: f64,
    /// The fraction of the longest motion, mm.
    pub travel_mm: f64,
    /// The walls, in the problem's order.
    pub walls: Vec<WallResult>,
    /// Area mean of the rotation of the polar decomposition, degrees; positive when the inner side
    /// moves to +z.
    pub roll_deg: f64,
    /// Area mean of the displacement, mm.
    pub centroid_dr_mm: f64,
    /// See `centroid_dr_mm`.
    pub centroid_dz_mm: f64,
    /// Largest principal stretch at any integration point.
    pub max_principal_stretch: f64,
    /// Strain energy, N mm/mm.
    pub strain_energy_n_mm_per_mm: f64,
    /// Work done by the walls since the start (trapezoidal over the steps), N mm/mm.
    pub wall_work_n_mm_per_mm: f64,
    /// Half-width of the band about the walls' forces that should hold the exact ones, percent of
    /// the force: as [`Run::error_band_percent`](crate::Run::error_band_percent), of this step and
    /// its neighbours alone.
    pub error_band_percent: Option<f64>,
    /// Force that holds the mean displacement in r and z, N/mm; zero where nothing is held.
    pub hold_n_per_mm: [f64; 2],
    /// Smallest determinant of the deformation gradient; positive in every accepted state.
    pub least_j: f64,
    /// Displacement of each node, mm.
    pub displacement: Vec<[f64; 2]>,
    /// Largest principal stretch averaged in each element, for shading.
    pub element_stretch: Vec<f64>,
}

/// Evaluates a state.
///
/// `last_roll_deg` is the roll of the step before: a section that has rolled more than half a turn
/// is counted on from there.
pub(crate) fn evaluate(
    model: &Model<'_>,
    state: &State,
    load: &Load,
    last_roll_deg: f64,
) -> StepResult {
    let bulk = Bulk::integrate(model, state, load, last_roll_deg.to_radians());
    let now: Vec<[f64; 2]> =
        model.mesh.nodes.iter().zip(&state.u).map(|(x, u)| [x[0] + u[0], x[1] + u[1]]).collect();
    let spans = boundary_spans(model.mesh, &now);
    let walls = (0..model.problem.walls.len())
        .map(|wall| wall_result(model, (state, load, &spans), (wall, bulk.centroid)))
        .collect();
    StepResult {
        fraction: state.fraction,
        travel_mm: state.fraction * model.problem.travel(),
        walls,
        roll_deg: bulk.roll.to_degrees(),
        centroid_dr_mm: bulk.mean[0],
        centroid_dz_mm: bulk.mean[1],
        max_principal_stretch: bulk.stretch,
        strain_energy_n_mm_per_mm: bulk.energy,
        wall_work_n_mm_per_mm: 0.0,
        error_band_percent: None,
        // The residual adds the holding force to the internal forces; outside it acts reversed.
        hold_n_per_mm: state.hold.map(|h| if h == 0.0 { 0.0 } else { -h }),
        least_j: bulk.least_j,
        displacement: state.u.clone(),
        element_stretch: bulk.element_stretch,
    }
}

/// Largest principal stretch for given invariants: of the in-plane pair and the hoop.
fn largest_stretch(i: crate::material::Invariants) -> f64 {
    let sum = (i.s + 2.0 * i.d).max(0.0).sqrt();
    let difference = (i.s - 2.0 * i.d).max(0.0).sqrt();
    (0.5 * (sum + difference)).max(i.w)
}

struct Bulk {
    mean: [f64; 2],
    centroid: [f64; 2],
    roll: f64,
    stretch: f64,
    energy: f64,
    least_j: f64,
    element_stretch: Vec<f64>,
}

impl Bulk {
    fn integrate(model: &Model<'_>, state: &State, load: &Load, last_roll: f64) -> Self {
        let law: &dyn Law = model.problem.material.law();
        let rule = crate::quadrature::gauss_3x3();
        let mut bulk = Self {
            mean: [0.0; 2],
            centroid: [0.0; 2],
            roll: 0.0,
            stretch: 0.0,
            energy: 0.0,
            least_j: f64::MAX,
            element_stretch: Vec::with_capacity(model.mesh.elements.len()),
        };
        let mut area = 0.0;
        let (sin, cos) = last_roll.sin_cos();
        for (e, nodes) in model.mesh.elements.iter().enumerate() {
            let local = gather(nodes, &state.u);
            let (mut sum, mut own) = (0.0, 0.0);
            for (point, [xi, eta, _]) in model.table.points[e].iter().zip(rule) {
                let deformation = deform(point, &local, load.carried);
                let (f, i) = (deformation.f, deformation.invariants);
                let shapes = crate::element::shape(xi, eta);
                for (k, n) in shapes.iter().enumerate() {
                    for c in 0..2 {
                        bulk.mean[c] += point.area * n[0] * local[c][k];
                        bulk.centroid[c] += point.area * n[0] * model.mesh.nodes[nodes[k]][c];
                    }
                }
                area += point.area;
                own += point.area;
                // Rotation in the sense z to r, less the last roll.
                let (spin, along) = (f[1] - f[2], f[0] + f[3]);
                let further = (cos * spin - sin * along).atan2(cos * along + sin * spin);
                bulk.roll += point.area * (last_roll + further);
                let stretch = largest_stretch(i);
                sum += point.area * stretch;
                bulk.stretch = bulk.stretch.max(stretch);
                bulk.least_j = bulk.least_j.min(i.d * i.w);
                bulk.energy += point.volume * law.jet(i).energy;
                if let Some(k) = law.bulk() {
                    let p: f64 = (0..3).map(|m| state.pressure[e][m] * point.q[m]).sum();
                    bulk.energy += point.volume * 0.5 * p * p / k;
                }
            }
            bulk.element_stretch.push(sum / own);
        }
        for c in 0..2 {
            bulk.mean[c] /= area;
            bulk.centroid[c] = bulk.centroid[c] / area + bulk.mean[c];
        }
        bulk.roll /= area;
        bulk
    }
}

/// A touching point with its share of the deformed length.
struct Touch {
    point: usize,
    sample: PressureSample,
    length: f64,
    slips: bool,
}

fn wall_result(
    model: &Model<'_>,
    (state, load, spans): (&State, &Load, &[[[f64; 2]; 2]]),
    (wall, centroid): (usize, [f64; 2]),
) -> WallResult {
    let contacts = &model.contacts;
    let mut result = WallResult {
        name: model.problem.walls[wall].name.clone(),
        force_r_n_per_mm: 0.0,
        force_z_n_per_mm: 0.0,
        moment_n_mm_per_mm: 0.0,
        normal_n_per_mm: 0.0,
        width_mm: 0.0,
        peak_mpa: 0.0,
        peak_mean_mpa: 0.0,
        mean_mpa: 0.0,
        slip_share: 0.0,
        zones: Vec::new(),
        samples: Vec::new(),
    };
    let mut touches: Vec<Touch> = Vec::new();
    for (pair, memory) in contacts.pairs.iter().zip(&state.memory) {
        if pair.wall != wall || memory.bearing == Bearing::Open {
            continue;
        }
        let x = contacts.position(pair.point, &model.mesh.nodes, &state.u);
        let Some(standing) = contacts.standing(pair, x, load.shifts[wall]) else { continue };
        let point = &contacts.points[pair.point];
        // After equilibrium the multipliers are the tractions.
        let push = memory.shear * standing.stretch;
        let force = [0, 1].map(|c| {
            point.weight * (memory.pressure * standing.normal[c] + push * standing.tangent[c])
        });
        result.force_r_n_per_mm += force[0];
        result.force_z_n_per_mm += force[1];
        result.moment_n_mm_per_mm +=
            (x[0] - centroid[0]) * force[1] - (x[1] - centroid[1]) * force[0];
        result.normal_n_per_mm += point.weight * memory.pressure;
        // Measured along the wall: at a sharp corner only the side that lies on it counts.
        let t = standing.tangent;
        let length: f64 = spans[pair.point].iter().map(|v| (v[0] * t[0] + v[1] * t[1]).abs()).sum();
        let current_area = match model.problem.symmetry {
            Symmetry::Axisymmetric => {
                length * x[0] / model.problem.section.mean_radius.unwrap_or(1.0)
            }
            Symmetry::PlaneStrain => length,
        };
        let thinning = if current_area > 0.0 { point.weight / current_area } else { 1.0 };
        touches.push(Touch {
            point: pair.point,
            sample: PressureSample {
                at: x,
                normal: standing.normal,
                pressure_mpa: memory.pressure * thinning,
                shear_mpa: push * thinning,
            },
            length,
            slips: memory.bearing == Bearing::Slip,
        });
    }
    let over = model.problem.peak_length();
    sum_zones(&mut result, touches, (contacts.points.len(), over));
    result
}

/// Zones of the touching points, and what they come to on the whole wall.
fn sum_zones(result: &mut WallResult, touches: Vec<Touch>, (points, over): (usize, f64)) {
    let runs = runs(&touches, points);
    let means = runs.iter().map(|run| peak_mean(run, &touches, over));
    result.peak_mean_mpa = means.fold(0.0, f64::max);
    result.zones = runs.iter().map(|run| zone(run, &touches)).collect();
    let total: f64 = result.zones.iter().map(|z| z.width_mm).sum();
    result.width_mm = total;
    for zone in &result.zones {
        result.peak_mpa = result.peak_mpa.max(zone.peak_mpa);
        if total > 0.0 {
            result.mean_mpa += zone.mean_mpa * zone.width_mm / total;
            result.slip_share += zone.slip_share * zone.width_mm / total;
        }
    }
    result.samples = touches.into_iter().map(|t| t.sample).collect();
}

/// Largest mean pressure over a length of the zone: pressures stand over their points' lengths, so
/// the mean is largest where an end of that length falls between two points.
fn peak_mean(run: &[usize], touches: &[Touch], over: f64) -> f64 {
    let mut places = Vec::with_capacity(run.len() + 1);
    let (mut at, mut force) = (0.0, 0.0);
    places.push([at, force]);
    for &k in run {
        at += touches[k].length;
        force += touches[k].length * touches[k].sample.pressure_mpa;
        places.push([at, force]);
    }
    let force_up_to = |x: f64| -> f64 {
        let next = places.partition_point(|p| p[0] <= x);
        match (next.checked_sub(1).map(|k| places[k]), places.get(next)) {
            (Some(from), Some(to)) => {
                from[1] + (to[1] - from[1]) * (x - from[0]) / (to[0] - from[0])
            }
            (Some(end), None) => end[1],
            (None, _) => 0.0,
        }
    };
    places
        .iter()
        .map(|[x, force]| (force_up_to(x + over) - force).max(force - force_up_to(x - over)))
        .fold(0.0, f64::max)
        / over
}

/// Runs of neighbouring touching points; the loop closes at the end. A hole of one edge's
/// nodes does not part a zone.
fn runs(touches: &[Touch], points: usize) -> Vec<Vec<usize>> {
    const HOLE: usize = 3;
    let mut order: Vec<usize> = (0..touches.len()).collect();
    order.sort_by_key(|&k| touches[k].point);
    let mut runs: Vec<Vec<usize>> = Vec::new();
    for &k in &order {
        match runs.last_mut() {
            Some(run) if touches[k].point - touches[run[run.len() - 1]].point <= HOLE => {
                run.push(k)
            }
            Some(_) | None => runs.push(vec![k]),
        }
    }
    if runs.len() > 1 {
        let first = touches[runs[0][0]].point;
        let last = touches[order[order.len() - 1]].point;
        if first + points - last <= HOLE
            && let Some(tail) = runs.pop()
        {
            let head = std::mem::replace(&mut runs[0], tail);
            runs[0].extend(head);
        }
    }
    runs
}

fn zone(run: &[usize], touches: &[Touch]) -> Zone {
    let width: f64 = run.iter().map(|&k| touches[k].length).sum();
    let over = |value: &dyn Fn(&Touch) -> f64| -> f64 {
        if width > 0.0 {
            run.iter().map(|&k| value(&touches[k]) * touches[k].length).sum::<f64>() / width
        } else {
            0.0
        }
    };
    Zone {
        from: touches[run[0]].sample.at,
        to: touches[run[run.len() - 1]].sample.at,
        width_mm: width,
        peak_mpa: run.iter().map(|&k| touches[k].sample.pressure_mpa).fold(0.0, f64::max),
        mean_mpa: over(&|t| t.sample.pressure_mpa),
        slip_share: over(&|t| if t.slips { 1.0 } else { 0.0 }),
    }
}
