//! One half as a problem of a squeezed section, and its curve.
//!
//! The half-plane of the problem: r outward, z into the housing, the section's centroid at z = 0.
//! The housing stands still and the ring moves along +z by the travel, from where the load ring
//! just touches both sides. Rubber is solved with a shear modulus of 1 MPa: all forces and
//! pressures of a neo-Hookean section grow in proportion to its modulus, so one curve serves every
//! modulus, and the uncertainty of the modulus is a factor.

use ringtrue_fem::material::{Material, SaintVenantKirchhoff};
use ringtrue_fem::{
    Extent, Friction, Prestretch, Problem, Section, Settings, Shape, Symmetry, Wall,
};
use ringtrue_metrology::units::{Quantity, in_mm as mm};
use ringtrue_words::say;
use serde::{Deserialize, Serialize};

use crate::RoomError;
use crate::definition::material::STEEL;
use crate::definition::seal::{ConicalWasher, LoadRing, Ramp, Seal};
use crate::geometry;
use crate::rubber::Form;
use crate::section::{Picture, SolvedSection, Step, Stopped, WallStep, solved};

/// Poisson's ratio of steel.
pub(super) const STEEL_POISSON: f64 = 0.3;
/// Even steps of a curve.
const STEPS: usize = 24;
/// Least and most share of the travel over which the mounted toric's hoop tension comes up.
const TENSION_OVER: (f64, f64) = (1.0 / STEPS as f64, 0.5);

/// What one half's curve depends on, and nothing else: equal problems have equal curves.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct HalfProblem {
    /// The section and what carries it.
    pub section: SectionOf,
    /// How the rubber's stress goes with its stretch; `None` is neo-Hooke, and steel.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rubber: Option<Form>,
    /// Friction on both sides; `None` sticks where it first touches.
    pub friction: Option<f64>,
    /// Travel to which the curve runs, mm.
    pub travel_mm: f64,
    /// Even steps of the curve.
    pub steps: usize,
}

/// The section of a half and the walls it works between.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum SectionOf {
    /// A mounted toric between two ramps.
    Toric {
        /// Diameter of the thinned section, mm.
        section_mm: f64,
        /// Radius of its centroid on the ring, mm.
        mean_radius_mm: f64,
        /// Mounted over free radius of the centroid.
        hoop_stretch: f64,
        /// Ring ramp's angle to the axis, deg.
        ring_ramp_deg: f64,
        /// Housing ramp's angle to the axis, deg.
        housing_ramp_deg: f64,
    },
    /// A conical washer between two flat seats.
    ConicalWasher {
        /// Corners from the centroid, mm.
        corners_mm: Vec<[f64; 2]>,
        /// Radius of the corners, mm.
        corner_radius_mm: f64,
        /// Radius of the centroid, mm.
        mean_radius_mm: f64,
        /// Young's modulus of steel, MPa; rubber has none here.
        steel_young_mpa: Option<f64>,
    },
}

/// One half's curve. Forces are in N over the whole circumference, for a Young's modulus of 1 MPa
/// where the load ring is rubber, as they are where it is steel.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct HalfCurve {
    /// The curve, from the first touch on.
    pub points: Vec<CurvePoint>,
    /// Band about the forces, percent: the widest past the first tenth of the travel.
    pub error_band_percent: Option<f64>,
    /// Length over which the largest contact pressure is averaged.
    pub peak_over_mm: f64,
    /// Was the whole travel reached?
    pub complete: bool,
    /// Where and why not, where it was not.
    pub stopped: Option<Stopped>,
    /// The section at each point, for drawing; z from its centroid.
    pub picture: Picture,
}

/// One point of a half's curve.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct CurvePoint {
    /// Travel.
    pub travel_mm: f64,
    /// Axial force on the ring.
    pub force_n: f64,
    /// Roll of the section.
    pub roll_deg: f64,
    /// Largest mean contact pressure over any [`HalfCurve::peak_over_mm`] of the section's outline.
    pub peak_mpa: f64,
    /// Largest principal stretch.
    pub max_principal_stretch: f64,
    /// Band about the force, percent: of this point and its neighbours.
    pub error_band_percent: Option<f64>,
    /// Largest share of the touching length that slips on either side.
    pub slip_share: f64,
    /// Largest share of friction in the normal force that either side asks for.
    pub friction_asked: f64,
}

impl HalfProblem {
    /// The problem of a half.
    ///
    /// # Errors
    /// [`RoomError`] when a toric lacks a ramp, or a steel washer its modulus.
    pub fn of(
        seal: &Seal,
        rubber: Option<Form>,
        travel_mm: f64,
        friction: Option<f64>,
    ) -> Result<Self, RoomError> {
        let section = match &seal.load_ring {
            LoadRing::Toric(_) => toric(seal)?,
            LoadRing::ConicalWasher(washer) => conical_washer(washer)?,
        };
        Ok(Self { section, rubber, friction, travel_mm, steps: STEPS })
    }

    /// Solves it.
    ///
    /// # Errors
    /// [`RoomError`] when the section can't be set up. A run that stops early is no error.
    pub fn solve(&self) -> Result<HalfCurve, RoomError> {
        let section = solved(&self.problem(), &Settings::default())?;
        Ok(self.curve(section))
    }

    /// Solves it on a mesh whose edges are `share` times as long as usual: what a finer run shows.
    ///
    /// # Errors
    /// As [`Self::solve`].
    pub fn solve_finer(&self, share: f64) -> Result<HalfCurve, RoomError> {
        let problem = self.problem();
        let settings = Settings {
            mesh_size: Some(share * ringtrue_fem::default_size(&problem)),
            ..Settings::default()
        };
        Ok(self.curve(solved(&problem, &settings)?))
    }

    fn problem(&self) -> Problem {
        let rubber = || Form::rubber(self.rubber.as_ref(), RUBBER_YOUNG);
        let (section, walls, prestretch, material) = match &self.section {
            SectionOf::Toric { section_mm, mean_radius_mm, hoop_stretch, .. } => (
                Section {
                    shape: Shape::Round { diameter: *section_mm },
                    mean_radius: Some(*mean_radius_mm),
                },
                self.ramps(),
                Some(Prestretch { hoop_stretch: *hoop_stretch, over: self.tension_over() }),
                rubber(),
            ),
            SectionOf::ConicalWasher {
                corners_mm,
                corner_radius_mm,
                mean_radius_mm,
                steel_young_mpa,
            } => (
                Section {
                    shape: Shape::Polygon {
                        corners: corners_mm.clone(),
                        corner_radius: *corner_radius_mm,
                    },
                    mean_radius: Some(*mean_radius_mm),
                },
                self.seats(corners_mm),
                None,
                steel_young_mpa.map_or_else(rubber, |young| {
                    Material::SaintVenantKirchhoff(SaintVenantKirchhoff {
                        young,
                        poisson: STEEL_POISSON,
                    })
                }),
            ),
        };
        Problem {
            symmetry: Symmetry::Axisymmetric,
            steps: self.steps,
            hold: Vec::new(),
            section,
            prestretch: prestretch.filter(|tension| (tension.hoop_stretch - 1.0).abs() > 1e-9),
            material,
            friction: self.friction.map_or(Friction::NoSlip, Friction::Coulomb),
            walls,
        }
    }

    /// Share of the travel over which the hoop tension comes up on the ramps.
    ///
    /// The tension draws the toric down its ramp. As long as the ramps hardly press, what friction
    /// they have can't hold it: the ring's tail stop does. So the ramps take the tension over no
    /// sooner than where friction could hold twice of it, with a normal force per mm of
    /// 1.6 E d c^1.5 at a squeeze c: a little below a held section's, so a little late.
    fn tension_over(&self) -> f64 {
        let (least, most) = TENSION_OVER;
        let SectionOf::Toric { section_mm, mean_radius_mm, hoop_stretch, ring_ramp_deg, .. } =
            &self.section
        else {
            return least;
        };
        let Some(friction) = self.friction else { return least };
        let sine = libm::sin(ring_ramp_deg.to_radians());
        let area = std::f64::consts::FRAC_PI_4 * section_mm * section_mm;
        // Over E: the tension's pull along the ramp, per mm, and the normal force that holds it.
        let pull = (hoop_stretch - 1.0).abs() * area / mean_radius_mm * sine;
        let normal = 2.0 * pull / (2.0 * friction.max(1e-3));
        let squeeze = libm::pow(normal / (1.6 * section_mm), 2.0 / 3.0);
        (squeeze * section_mm / sine / self.travel_mm).clamp(least, most)
    }

    /// Two ramps that the round section just touches.
    fn ramps(&self) -> Vec<Wall> {
        let SectionOf::Toric {
            section_mm, mean_radius_mm, ring_ramp_deg, housing_ramp_deg, ..
        } = &self.section
        else {
            return Vec::new();
        };
        let half = section_mm / 2.0;
        let at = |outward: f64, angle_deg: f64, z: f64| {
            let angle = angle_deg.to_radians();
            // Both ramps narrow with growing z.
            [mean_radius_mm + outward * half / libm::cos(angle) - z * libm::tan(angle), z]
        };
        let long = 2.0 * section_mm;
        let housing = vec![at(1.0, *housing_ramp_deg, -long), at(1.0, *housing_ramp_deg, long)];
        let ring = vec![at(-1.0, *ring_ramp_deg, long), at(-1.0, *ring_ramp_deg, -long)];
        self.walls(housing, ring)
    }

    /// Two flat seats that a washer just touches, without end: its edges can't leave them.
    fn seats(&self, corners: &[[f64; 2]]) -> Vec<Wall> {
        let low = corners.iter().map(|corner| corner[1]).fold(f64::INFINITY, f64::min);
        let high = corners.iter().map(|corner| corner[1]).fold(f64::NEG_INFINITY, f64::max);
        let radius = match &self.section {
            SectionOf::ConicalWasher { mean_radius_mm, .. }
            | SectionOf::Toric { mean_radius_mm, .. } => *mean_radius_mm,
        };
        let wide = radius / 2.0;
        let housing = vec![[radius + wide, high], [radius - wide, high]];
        let ring = vec![[radius - wide, low], [radius + wide, low]];
        self.walls(housing, ring)
    }

    fn walls(&self, housing: Vec<[f64; 2]>, ring: Vec<[f64; 2]>) -> Vec<Wall> {
        let wall = |name: &str, profile: Vec<[f64; 2]>, path: Vec<[f64; 2]>| Wall {
            name: name.to_owned(),
            profile,
            fillets: Vec::new(),
            extent: Extent::Unbounded,
            path,
            friction: None,
        };
        vec![wall(HOUSING, housing, Vec::new()), wall(RING, ring, vec![[0.0, self.travel_mm]])]
    }

    fn curve(&self, section: SolvedSection) -> HalfCurve {
        let (radius, young) = match &self.section {
            SectionOf::Toric { mean_radius_mm, .. } => (*mean_radius_mm, RUBBER_YOUNG),
            SectionOf::ConicalWasher { mean_radius_mm, steel_young_mpa, .. } => {
                (*mean_radius_mm, if steel_young_mpa.is_some() { 1.0 } else { RUBBER_YOUNG })
            }
        };
        let circumference = 2.0 * std::f64::consts::PI * radius;
        let start = CurvePoint {
            travel_mm: 0.0,
            force_n: 0.0,
            roll_deg: 0.0,
            peak_mpa: 0.0,
            max_principal_stretch: 1.0,
            error_band_percent: None,
            slip_share: 0.0,
            friction_asked: 0.0,
        };
        let over =
            |step: &Step, of: fn(&WallStep) -> f64| step.walls.values().map(of).fold(0.0, f64::max);
        let point = |step: &Step| CurvePoint {
            travel_mm: step.travel_mm,
            force_n: force_z(step, RING) * circumference / young,
            roll_deg: step.roll_deg,
            peak_mpa: over(step, |wall| wall.peak_mean_mpa) / young,
            max_principal_stretch: step.max_principal_stretch,
            error_band_percent: step.error_band_percent,
            slip_share: over(step, |wall| wall.slip_share),
            friction_asked: self.friction_asked(step),
        };
        HalfCurve {
            points: std::iter::once(start).chain(section.steps.iter().map(point)).collect(),
            error_band_percent: section.error_band_percent,
            peak_over_mm: section.peak_over_mm,
            complete: section.complete,
            stopped: section.stopped,
            picture: section.picture,
        }
    }

    /// The larger of both sides' |shear| over normal force.
    fn friction_asked(&self, step: &Step) -> f64 {
        let (ring_deg, housing_deg) = match &self.section {
            SectionOf::Toric { ring_ramp_deg, housing_ramp_deg, .. } => {
                (*ring_ramp_deg, *housing_ramp_deg)
            }
            // A flat seat stands across the axis.
            SectionOf::ConicalWasher { .. } => (90.0, 90.0),
        };
        let asked = |name: &str, ramp_deg: f64| {
            let Some(wall) = step.walls.get(name) else { return 0.0 };
            let angle = f64::to_radians(ramp_deg);
            // Along a ramp that narrows with growing z.
            let shear =
                wall.force_z_n_per_mm * libm::cos(angle) - wall.force_r_n_per_mm * libm::sin(angle);
            if wall.normal_n_per_mm > 0.0 { shear.abs() / wall.normal_n_per_mm } else { 0.0 }
        };
        asked(RING, ring_deg).max(asked(HOUSING, housing_deg))
    }
}

/// Names of the walls.
const RING: &str = "ring";
const HOUSING: &str = "housing";
/// Young's modulus of the rubber that curves are solved for, MPa: three times the shear modulus,
/// as incompressible rubber has it.
const RUBBER_YOUNG: f64 = 3.0;

fn force_z(step: &Step, wall: &str) -> f64 {
    step.walls.get(wall).map_or(0.0, |wall| wall.force_z_n_per_mm)
}

fn toric(seal: &Seal) -> Result<SectionOf, RoomError> {
    let ramps = seal.ring.ramp.as_ref().zip(seal.housing.ramp.as_ref());
    let (Some(mounted), Some((ring, housing))) = (geometry::mounted(seal), ramps) else {
        return Err(RoomError::input(
            say!("load-toric-lacks-ramp"),
            say!("load-ramp-on-ring-housing"),
        ));
    };
    let degrees = |ramp: &Ramp| ramp.angle.value().si().to_degrees();
    Ok(SectionOf::Toric {
        section_mm: mm(mounted.section_diameter),
        mean_radius_mm: mm(mounted.centroid_diameter) / 2.0,
        hoop_stretch: 1.0 + mounted.hoop_stretch,
        ring_ramp_deg: degrees(ring),
        housing_ramp_deg: degrees(housing),
    })
}

fn conical_washer(washer: &ConicalWasher) -> Result<SectionOf, RoomError> {
    let corners: Vec<[f64; 2]> =
        washer.outline.iter().map(|[r, z]| [mm(r.value()), mm(z.value())]).collect();
    let [r, z] = centroid(&corners);
    let steel_young_mpa = if washer.material == STEEL {
        let Some(modulus) = &washer.modulus else {
            let fits = say!("load-give-modulus-such-as-206-gpa");
            return Err(RoomError::input(say!("load-steel-washer-has-no-modulus"), fits));
        };
        Some(modulus.value().si() / 1e6)
    } else {
        None
    };
    Ok(SectionOf::ConicalWasher {
        corners_mm: corners.iter().map(|corner| [corner[0] - r, corner[1] - z]).collect(),
        corner_radius_mm: washer.corner_radius.as_ref().map_or(0.0, |radius| mm(radius.value())),
        mean_radius_mm: r,
        steel_young_mpa,
    })
}

/// Centroid of a polygon by the shoelace formula.
fn centroid(corners: &[[f64; 2]]) -> [f64; 2] {
    let (mut area, mut first) = (0.0, [0.0; 2]);
    for (from, to) in corners.iter().zip(corners.iter().cycle().skip(1)) {
        let cross = from[0] * to[1] - to[0] * from[1];
        area += cross / 2.0;
        for (sum, (a, b)) in first.iter_mut().zip(from.iter().zip(to)) {
            *sum += (a + b) * cross / 6.0;
        }
    }
    first.map(|moment| moment / area)
}
