//! The problem to solve, in the kernel's units: mm, N, MPa.

use crate::material::Material;
use crate::mesh::Outline;

/// What the section's plane stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Symmetry {
    /// A ring about the z axis; forces are per mm of circumference at the section's mean radius.
    Axisymmetric,
    /// A bar without end that cannot stretch along itself; forces are per mm of length.
    PlaneStrain,
}

/// A direction in the section's plane.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Axis {
    /// Away from the axis of revolution.
    R,
    /// Along the axis of revolution.
    Z,
}

/// Outline of the undeformed section about its centroid.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// A circle.
    Round {
        /// Diameter, mm.
        diameter: f64,
    },
    /// A polygon with all corners rounded alike.
    Polygon {
        /// Corners `(r, z)` from the centroid, counter-clockwise, mm.
        corners: Vec<[f64; 2]>,
        /// Radius of every corner, mm; 0 leaves them sharp.
        corner_radius: f64,
    },
}

/// The undeformed section.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Outline about the centroid.
    pub shape: Shape,
    /// Radius of the centroid, mm; the centroid starts at `(mean_radius, 0)`. `None` in plane
    /// strain, where it starts at the origin.
    pub mean_radius: Option<f64>,
}

impl Section {
    /// The larger of the outline's extents in r and z, mm.
    #[must_use]
    pub fn extent(&self) -> f64 {
        match &self.shape {
            Shape::Round { diameter } => *diameter,
            Shape::Polygon { corners, .. } => [0, 1]
                .map(|i| {
                    let values = corners.iter().map(|c| c[i]);
                    values.clone().fold(f64::MIN, f64::max) - values.fold(f64::MAX, f64::min)
                })
                .into_iter()
                .fold(0.0, f64::max),
        }
    }
}

/// Hoop stretch that the drawn section already carries, as a ring mounted over a larger core does.
///
/// The section in [`Problem::section`] is the mounted one: already thinned at constant volume, at
/// its
/// mounted mean radius. Its stress-free ancestor is larger by `hoop_stretch^(1/2)` across and
/// smaller by `hoop_stretch` in radius. The tension is brought up in proportion to the travel, from
/// nothing to all over the first part of it, so that the walls can carry it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prestretch {
    /// Mounted over stress-free mean radius; 1 is none.
    pub hoop_stretch: f64,
    /// Share of the whole motion, above 0 and at most 1, over which the tension is brought up.
    pub over: f64,
}

/// Friction between the section and a wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Friction {
    /// A point sticks where it first touches until its normal traction would become tensile.
    NoSlip,
    /// Coulomb's coefficient; 0 is frictionless.
    Coulomb(f64),
}

/// Whether a wall's first and last segments go on for ever.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Extent {
    /// The wall ends at its first and last point.
    Bounded,
    /// The first and last segments are rays.
    Unbounded,
}

/// A rigid wall.
#[derive(Debug, Clone, PartialEq)]
pub struct Wall {
    /// Name in results.
    pub name: String,
    /// Points `(r, z)`, mm, walked so that the rubber is on the left (r to the right, z up).
    pub profile: Vec<[f64; 2]>,
    /// Radii at the inner points, mm; empty when all are sharp.
    pub fillets: Vec<f64>,
    /// Whether the ends go on.
    pub extent: Extent,
    /// Places the wall moves through, as displacements `(r, z)` from its start, mm, evenly over the
    /// steps; the last is where it ends. Empty when it stands still.
    pub path: Vec<[f64; 2]>,
    /// Friction on this wall; `None` is the problem's.
    pub friction: Option<Friction>,
}

impl Wall {
    /// Displacement at `fraction` (0 to 1) of the whole motion, mm.
    #[must_use]
    pub fn displacement(&self, fraction: f64) -> [f64; 2] {
        let legs = self.path.len();
        if legs == 0 {
            return [0.0; 2];
        }
        let along = fraction.clamp(0.0, 1.0) * legs as f64;
        let leg = (along.floor() as usize).min(legs - 1);
        let share = along - leg as f64;
        let from = if leg == 0 { [0.0; 2] } else { self.path[leg - 1] };
        let to = self.path[leg];
        [0, 1].map(|i| from[i] + share * (to[i] - from[i]))
    }

    /// Length of the path, mm.
    #[must_use]
    pub fn travel(&self) -> f64 {
        let mut from = [0.0; 2];
        let mut sum = 0.0;
        for to in &self.path {
            sum += (to[0] - from[0]).hypot(to[1] - from[1]);
            from = *to;
        }
        sum
    }
}

/// A section, what it is made of, and the walls that squeeze it.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// Ring or bar.
    pub symmetry: Symmetry,
    /// Results are given at this many even steps of the motion, 1 to 10 000.
    pub steps: usize,
    /// Directions in which the section's mean displacement is kept zero.
    pub hold: Vec<Axis>,
    /// The undeformed section.
    pub section: Section,
    /// Hoop stretch of a mounted ring, if any.
    pub prestretch: Option<Prestretch>,
    /// What the section is made of.
    pub material: Material,
    /// Friction on every wall that says nothing of its own.
    pub friction: Friction,
    /// The walls.
    pub walls: Vec<Wall>,
}

impl Problem {
    /// The length that `travel_mm` counts: the longest motion of any wall, mm.
    #[must_use]
    pub fn travel(&self) -> f64 {
        self.walls.iter().map(Wall::travel).fold(0.0, f64::max)
    }

    /// The length over which a wall's peak pressure is averaged, mm: a tenth of the section's
    /// extent (of its diameter where it is round). The pressure at a corner has no limit that a
    /// finer mesh would come to; its mean over a length does.
    #[must_use]
    pub fn peak_length(&self) -> f64 {
        0.1 * self.section.extent()
    }

    /// What is wrong with the problem, if anything, in words for the person who wrote it.
    #[must_use]
    pub fn defect(&self) -> Option<String> {
        if self.steps == 0 || self.steps > 10_000 {
            return Some(format!("{} steps; ask for 1 to 10000", self.steps));
        }
        self.material
            .defect()
            .or_else(|| self.section_defect())
            .or_else(|| self.load_defect())
            .or_else(|| self.walls.iter().find_map(wall_defect))
    }

    fn section_defect(&self) -> Option<String> {
        let positive = |v: f64| v.is_finite() && v > 0.0;
        let inner = match &self.section.shape {
            Shape::Round { diameter } if !positive(*diameter) => {
                return Some(format!("the section's diameter is {diameter} mm, not positive"));
            }
            Shape::Round { diameter } => -0.5 * diameter,
            Shape::Polygon { corners, corner_radius } => {
                if corners.iter().flatten().any(|v| !v.is_finite()) {
                    return Some("a corner of the section is not a number".to_owned());
                }
                if !(corner_radius.is_finite() && *corner_radius >= 0.0) {
                    return Some(format!("the corner radius is {corner_radius} mm"));
                }
                if let Err(why) = Outline::rounded(corners, *corner_radius) {
                    return Some(why);
                }
                corners.iter().map(|c| c[0]).fold(f64::MAX, f64::min)
            }
        };
        match (self.symmetry, self.section.mean_radius) {
            (Symmetry::Axisymmetric, None) => Some("a ring needs its mean radius".to_owned()),
            (Symmetry::PlaneStrain, Some(_)) => {
                Some("plane strain has no mean radius; leave it out".to_owned())
            }
            (Symmetry::PlaneStrain, None) => None,
            (Symmetry::Axisymmetric, Some(radius)) if !positive(radius) => {
                Some(format!("the mean radius is {radius} mm, not positive"))
            }
            (Symmetry::Axisymmetric, Some(radius)) if radius + inner < -1e-9 * radius => {
                Some(format!("the section reaches past the axis by {:.4} mm", -radius - inner))
            }
            (Symmetry::Axisymmetric, Some(_)) => None,
        }
    }

    fn load_defect(&self) -> Option<String> {
        if let Some(defect) = friction_defect(self.friction) {
            return Some(defect);
        }
        let Prestretch { hoop_stretch, over } = self.prestretch?;
        if !(hoop_stretch.is_finite() && (0.5..=2.0).contains(&hoop_stretch)) {
            return Some(format!("the hoop stretch is {hoop_stretch}; it must be 0.5 to 2"));
        }
        if !(over > 0.0 && over <= 1.0) {
            return Some(format!("the hoop tension comes up over {over} of the motion"));
        }
        None
    }
}

fn friction_defect(friction: Friction) -> Option<String> {
    match friction {
        Friction::Coulomb(mu) if !(mu.is_finite() && mu >= 0.0) => {
            Some(format!("the friction coefficient is {mu}; it cannot be negative"))
        }
        Friction::Coulomb(_) | Friction::NoSlip => None,
    }
}

fn wall_defect(wall: &Wall) -> Option<String> {
    let name = &wall.name;
    if let Some(defect) = wall.friction.and_then(friction_defect) {
        return Some(format!("wall {name}: {defect}"));
    }
    if wall.profile.len() < 2 {
        return Some(format!("wall {name}: a profile needs at least 2 points"));
    }
    let numbers = wall.profile.iter().chain(&wall.path).flatten().chain(&wall.fillets);
    if numbers.into_iter().any(|v| !v.is_finite()) {
        return Some(format!("wall {name}: a coordinate is not a number"));
    }
    let inner = wall.profile.len() - 2;
    if !wall.fillets.is_empty() && wall.fillets.len() != inner {
        return Some(format!(
            "wall {name}: {} fillets for {inner} inner points; give one each, or none",
            wall.fillets.len()
        ));
    }
    crate::contact::Surface::new(wall, 0.0).err().map(|why| format!("wall {name}: {why}"))
}

/// How the problem is solved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settings {
    /// Wanted length of the boundary edges, mm; `None` takes 1/120 of a round section's
    /// circumference, or a like share of the outline's extent.
    pub mesh_size: Option<f64>,
    /// Whether a second, coarser run estimates the error.
    pub error_estimate: ErrorEstimate,
    /// Most Newton iterations of the whole run before it stops with what it has.
    pub max_iterations: usize,
}

impl Default for Settings {
    fn default() -> Self {
        Self { mesh_size: None, error_estimate: ErrorEstimate::TwoMeshes, max_iterations: 5_000 }
    }
}

/// Where the error band comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ErrorEstimate {
    /// No band is given.
    None,
    /// A second run on a mesh coarser by about 1.5, with half the steps.
    TwoMeshes,
}
