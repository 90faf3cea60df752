//! The mounted section pressed past the lip, by finite elements.

use std::f64::consts::{PI, TAU};

use ringtrue_fem::material::{Material, NeoHooke};
use ringtrue_fem::{
    ErrorEstimate, Extent, Friction, Prestretch, Problem, Section, Settings, Shape, Symmetry, Wall,
};
use ringtrue_words::say;

use rayon::prelude::*;
use serde::{Deserialize, Serialize};

use crate::RoomError;
use crate::rubber::BULK_OVER_SHEAR;
use crate::section::{Picture, Stopped, solved};

/// Even steps of the way.
const STEPS: usize = 24;
/// Boundary edges round the section, and round it on the coarser mesh.
pub(super) const EDGES: f64 = 96.0;
pub(super) const COARSE_EDGES: f64 = 68.0;
/// Iterations before a run is given up.
const MOST_ITERATIONS: usize = 3_000;
/// The way over the axial distance of the first touch before the nose.
const WAY: f64 = 1.5;
/// The push is found where the force falls to this share of its largest after it.
const FALLEN: f64 = 0.8;
/// Young's modulus that is solved for, MPa; forces go with it.
const YOUNG: f64 = 3.0;
const LIP: &str = "lip";

/// What a way past the lip depends on, and nothing else: equal problems have equal ways.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Passing {
    /// The section, what carries it, and the lip.
    pub passage: Passage,
    /// Friction coefficient of lip, ramp and tool.
    pub friction: f64,
    /// Boundary edges round the section.
    pub edges: f64,
}

impl Passing {
    /// Pushes the section past.
    ///
    /// # Errors
    /// [`RoomError`] for sizes that can't be set up.
    pub fn solve(&self) -> Result<Passed, RoomError> {
        self.passage.pass(self.friction, self.edges)
    }
}

/// Solves them beside each other, in their order.
#[must_use]
pub fn solve_all(problems: &[Passing]) -> Vec<Result<Passed, RoomError>> {
    let spoken = ringtrue_words::words();
    let solve = |problem: &Passing| ringtrue_words::speaking(spoken, || problem.solve());
    problems.par_iter().map(solve).collect()
}

/// The section, what carries it, and the lip. Lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Passage {
    /// Diameter of the thinned section.
    pub section_mm: f64,
    /// Radius of its centroid on the ring.
    pub mean_radius_mm: f64,
    /// Mounted over free radius of the centroid.
    pub hoop_stretch: f64,
    /// Ring ramp's angle to the axis, degrees.
    pub ramp_deg: f64,
    /// Radius of the lip's nose.
    pub nose_radius_mm: f64,
    /// How much lower the nose stands than the section's outermost point: half the interference.
    pub overlap_mm: f64,
}

/// One step of the way.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct PassagePoint {
    /// How far ring, toric and tool have come since the lip was touched, mm.
    pub travel_mm: f64,
    /// Push, N per mm at the section's mean radius, for a Young's modulus of 1 MPa.
    pub push_n_per_mm: f64,
    /// Largest principal stretch.
    pub max_principal_stretch: f64,
    /// Area mean of the rotation, degrees; positive when the inner side moves to the lip.
    pub roll_deg: f64,
}

/// What became of the section on its way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Fate {
    /// It slides past: the push falls behind its largest.
    SlidesPast,
    /// It went the whole way and the push never fell: it rolls and folds under the lip.
    Folds,
    /// The computation stopped before the push fell. Nothing is known of the rest.
    NotComputed,
}

impl Fate {
    /// In words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::SlidesPast => say!("seating-fate-slides-past"),
            Self::Folds => say!("seating-fate-folds"),
            Self::NotComputed => say!("seating-fate-not-computed"),
        }
    }
}

/// The way at one friction.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Passed {
    /// Friction coefficient of lip, ramp and tool.
    pub friction: f64,
    /// Steps that were reached, from no push on.
    pub points: Vec<PassagePoint>,
    /// Place of the largest push among them, where the section slides past.
    pub peak: Option<usize>,
    /// What became of it.
    pub fate: Fate,
    /// Where and why the computation stopped, where it did.
    pub stopped: Option<Stopped>,
    /// The mesh, for a shear modulus of 1 MPa.
    pub picture: Picture,
}

impl Passage {
    /// Axial distance of the nose's centre from the section's where they just touch, mm.
    fn above(&self) -> f64 {
        let apart = self.section_mm / 2.0 + self.nose_radius_mm;
        let across = apart - self.overlap_mm;
        (apart * apart - across * across).max(0.0).sqrt()
    }

    /// The whole way, mm.
    pub(super) fn way(&self) -> f64 {
        WAY * self.above()
    }

    /// The lip as a line, an arc and a line, walked with the section on its left: flanks at 45
    /// degrees to the axis about the nose.
    #[must_use]
    pub fn lip_profile(&self) -> [[f64; 2]; 3] {
        let across = self.section_mm / 2.0 - self.overlap_mm + self.nose_radius_mm;
        let corner = self.mean_radius_mm + across - self.nose_radius_mm * 2f64.sqrt();
        let (above, far) = (self.above(), 2.0 * self.section_mm);
        [[corner + far, above - far], [corner, above], [corner + far, above + far]]
    }

    /// The ring's ramp under the section.
    #[must_use]
    pub fn ramp_profile(&self) -> [[f64; 2]; 2] {
        let angle = self.ramp_deg.to_radians();
        let far = 2.0 * self.section_mm;
        let at = |z: f64| {
            let beside = self.section_mm / 2.0 / libm::cos(angle);
            [self.mean_radius_mm - beside - z * libm::tan(angle), z]
        };
        [at(far), at(-far)]
    }

    /// The flat tool behind the section, rounded where it ends outside; and that radius.
    #[must_use]
    pub fn tool_profile(&self) -> ([[f64; 2]; 3], f64) {
        let d = self.section_mm;
        let (inside, outside) = (self.mean_radius_mm - 0.7 * d, self.mean_radius_mm + 0.33 * d);
        let floor = -d / 2.0;
        ([[inside, floor], [outside, floor], [outside, floor - d]], 0.08 * d)
    }

    /// Pushes the section past, on a mesh of so many boundary edges.
    fn pass(&self, friction: f64, edges: f64) -> Result<Passed, RoomError> {
        let settings = Settings {
            mesh_size: Some(PI * self.section_mm / edges),
            error_estimate: ErrorEstimate::None,
            max_iterations: MOST_ITERATIONS,
        };
        let section = solved(&self.problem(friction), &settings)?;
        let start = PassagePoint {
            travel_mm: 0.0,
            push_n_per_mm: 0.0,
            max_principal_stretch: 1.0,
            roll_deg: 0.0,
        };
        let points = section.steps.iter().map(|step| PassagePoint {
            travel_mm: step.travel_mm,
            push_n_per_mm: step.walls.get(LIP).map_or(0.0, |lip| -lip.force_z_n_per_mm) / YOUNG,
            max_principal_stretch: step.max_principal_stretch,
            roll_deg: step.roll_deg,
        });
        let points: Vec<PassagePoint> = std::iter::once(start).chain(points).collect();
        let peak = peak(&points);
        let fate = match (peak, section.complete) {
            (Some(_), _) => Fate::SlidesPast,
            (None, true) => Fate::Folds,
            (None, false) => Fate::NotComputed,
        };
        Ok(Passed {
            friction,
            points,
            peak,
            fate,
            stopped: section.stopped,
            picture: section.picture,
        })
    }

    fn problem(&self, friction: f64) -> Problem {
        let wall = |name: &str, profile: Vec<[f64; 2]>, fillets: Vec<f64>, path| Wall {
            name: name.to_owned(),
            profile,
            fillets,
            extent: Extent::Bounded,
            path,
            friction: None,
        };
        let (tool, rounded) = self.tool_profile();
        let down = vec![[0.0, -self.way()]];
        let tension = Prestretch { hoop_stretch: self.hoop_stretch, over: 1.0 / STEPS as f64 };
        Problem {
            symmetry: Symmetry::Axisymmetric,
            steps: STEPS,
            hold: Vec::new(),
            section: Section {
                shape: Shape::Round { diameter: self.section_mm },
                mean_radius: Some(self.mean_radius_mm),
            },
            prestretch: Some(tension).filter(|t| (t.hoop_stretch - 1.0).abs() > 1e-9),
            material: Material::NeoHooke(NeoHooke { mu: YOUNG / 3.0, bulk: BULK_OVER_SHEAR }),
            friction: Friction::Coulomb(friction),
            walls: vec![
                wall(LIP, self.lip_profile().to_vec(), vec![self.nose_radius_mm], down),
                wall("ring", self.ramp_profile().to_vec(), Vec::new(), Vec::new()),
                wall("tool", tool.to_vec(), vec![rounded], Vec::new()),
            ],
        }
    }
}

/// The largest push with what follows falling well below it.
fn peak(points: &[PassagePoint]) -> Option<usize> {
    let push = |k: usize| points[k].push_n_per_mm;
    let most = (0..points.len()).max_by(|&a, &b| push(a).total_cmp(&push(b)))?;
    let fallen = (most..points.len()).any(|k| push(k) < FALLEN * push(most));
    (push(most) > 0.0 && fallen).then_some(most)
}

impl Passed {
    /// Largest push, N per mm for a Young's modulus of 1 MPa.
    pub(crate) fn most(&self) -> Option<f64> {
        self.peak.map(|k| self.points[k].push_n_per_mm)
    }

    /// Push at a travel, by straight lines between the points; nothing before, behind, or where the
    /// lip draws the section in.
    fn at(&self, travel_mm: f64) -> f64 {
        let next = self.points.partition_point(|point| point.travel_mm < travel_mm);
        match (next.checked_sub(1).and_then(|k| self.points.get(k)), self.points.get(next)) {
            (Some(a), Some(b)) => {
                let share = (travel_mm - a.travel_mm) / (b.travel_mm - a.travel_mm);
                (a.push_n_per_mm + share * (b.push_n_per_mm - a.push_n_per_mm)).max(0.0)
            }
            (None, _) | (_, None) => 0.0,
        }
    }

    /// Largest sum round a ring that goes in at one side, N for a Young's modulus of 1 MPa: the
    /// ring is tipped so that the far side has just come to the lip as the near side is past it.
    /// Each slice is taken to work as if all did; in truth it escapes along the ring.
    pub(super) fn one_side(&self, passage: &Passage) -> Option<f64> {
        const SLICES: usize = 180;
        const PLACES: usize = 200;
        self.peak?;
        let way = self.points.last()?.travel_mm;
        let around = TAU * passage.mean_radius_mm;
        let tipped = |near: f64| -> f64 {
            let slice = |k: usize| {
                let angle = TAU * (k as f64 + 0.5) / SLICES as f64;
                self.at(near - way * (1.0 - libm::cos(angle)) / 2.0)
            };
            around * (0..SLICES).map(slice).sum::<f64>() / SLICES as f64
        };
        let places = (0..=PLACES).map(|k| 2.0 * way * k as f64 / PLACES as f64);
        Some(places.map(tipped).fold(0.0, f64::max))
    }
}
