//! What the loads come to: each half alone, and both in series.

use serde::Serialize;

use super::half::{HalfCurve, HalfProblem};
use crate::definition::joint::Half;
use crate::finding::Finding;
use crate::rubber::Modulus;

/// One half alone.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HalfOutcome {
    /// Which half.
    pub half: Half,
    /// Assembled height at which the load ring just touches both sides.
    pub free_height_mm: f64,
    /// Assembled height that it is pressed to at the nominal gap.
    pub height_at_nominal_gap_mm: Option<f64>,
    /// Load against travel.
    pub curve: Vec<LoadPoint>,
    /// Friction coefficient below which a toric would slide instead of roll. Never leave to oil a
    /// ramp: one coefficient all round can't see a patch of oil, a twist or the entry past the lip.
    pub slip_friction: Option<f64>,
    /// Travel from which on the curve is twice as steep as in its middle.
    pub steepens_at_travel_mm: Option<f64>,
    /// Largest roll of the section up to the smallest gap, degrees.
    pub largest_roll_deg: f64,
    /// Largest principal stretch up to the smallest gap.
    pub largest_stretch: f64,
    /// Smallest distance of the load ring from the retaining lip, from the largest gap to the
    /// smallest.
    pub lip_clearance_mm: Option<f64>,
    /// Weight of the ring over the same circumference: on a standing shaft it adds to the face load
    /// of the ring above and takes off that of the ring below.
    pub ring_weight_n_per_mm: f64,
    /// Young's modulus of the load ring and where it came from; null for steel.
    pub modulus: Option<Modulus>,
    /// The largest stretch against what the material stands; null for steel, and where the material
    /// has no figure.
    pub stretch_at_break: Option<StretchAtBreak>,
    /// The stress of a steel washer at the smallest gap against its yield strength; null for
    /// rubber, and where the seal's file gives no yield strength.
    pub stress_at_yield: Option<Finding>,
    /// Travel from which on the whole contact of a ramp slides; null where a toric rolls, and for
    /// a washer.
    pub slides_from_travel_mm: Option<f64>,
    /// Length over which `peak_contact_mpa` is the mean pressure.
    pub peak_over_mm: f64,
    /// Disc-spring formula beside the curve, for a steel washer of four corners: deflection and N.
    pub disc_spring_n: Vec<(f64, f64)>,
    /// The section at each point, for drawing.
    #[serde(skip)]
    pub section: Drawn,
}

/// One half's solved section as it is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// The section between its walls.
    pub problem: HalfProblem,
    /// Its curve, with the mesh at each point.
    pub curve: HalfCurve,
    /// What pressures are multiplied by: Young's modulus in MPa, 1 for steel.
    pub scale: f64,
}

/// One point of a half's curve.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct LoadPoint {
    /// Travel from the first touch.
    pub travel_mm: f64,
    /// Assembled height there.
    pub height_mm: f64,
    /// Face load at the contact band's mean diameter.
    pub face_load_n_per_mm: f64,
    /// Its standard uncertainty.
    pub standard_uncertainty_n_per_mm: f64,
    /// Force all round.
    pub force_n: f64,
    /// Roll of the section.
    pub roll_deg: f64,
    /// Band about the computed load for a given modulus: half of its width.
    pub error_band_n_per_mm: Option<f64>,
    /// Largest contact pressure of the load ring, as the mean over `peak_over_mm` of its outline.
    pub peak_contact_mpa: f64,
    /// Largest principal stretch.
    pub max_principal_stretch: f64,
}

/// The largest stretch in a load ring, set against the elongation at break of its material.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StretchAtBreak {
    /// Largest principal stretch, of the mounted ring's own stretch and the squeeze together.
    pub max_principal_stretch: f64,
    /// Travel at which it is met: that of the smallest gap, or the end of the curve before.
    pub travel_mm: f64,
    /// Elongation that the stretch is, percent.
    pub elongation_percent: f64,
    /// Elongation at break of the material's compounds, least and most, percent.
    pub elongation_at_break_percent: [f64; 2],
    /// The elongation over the least elongation at break.
    pub share: f64,
    /// What that comes to.
    pub finding: Finding,
}

/// Both halves in series.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct JointOutcome {
    /// Is one seal taken against its like?
    pub alike: bool,
    /// Face load over the gap, from the first touch down to the smallest gap.
    pub curve: Vec<GapPoint>,
    /// At the gap's limits and its nominal.
    pub at_gap: AtGap,
    /// Mean diameter of the contact band, where face load is stated.
    pub band_mean_diameter_mm: f64,
    /// Smallest and largest face load that conform.
    pub face_load_min_n_per_mm: Option<f64>,
    /// See `face_load_min_n_per_mm`.
    pub face_load_max_n_per_mm: Option<f64>,
}

/// One gap.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct GapPoint {
    /// Seal gap.
    pub gap_mm: f64,
    /// Face load.
    pub face_load_n_per_mm: f64,
    /// Its standard uncertainty: modulus, and the band of the computation.
    pub standard_uncertainty_n_per_mm: f64,
    /// Band about the computed load for a given modulus: half of its width.
    pub error_band_n_per_mm: Option<f64>,
    /// Force all round.
    pub force_n: f64,
}

/// Loads at three gaps; null where a curve does not reach.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct AtGap {
    /// At the smallest gap.
    pub min: Option<GapLoad>,
    /// At the nominal gap.
    pub nominal: Option<GapLoad>,
    /// At the largest gap.
    pub max: Option<GapLoad>,
}

/// The load at a gap.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct GapLoad {
    /// Seal gap.
    pub gap_mm: f64,
    /// Face load.
    pub face_load_n_per_mm: f64,
    /// Its standard uncertainty: modulus, and the band of the computation.
    pub standard_uncertainty_n_per_mm: f64,
    /// Band about the computed load for a given modulus: half of its width.
    pub error_band_n_per_mm: Option<f64>,
    /// Force all round.
    pub force_n: f64,
    /// Mean pressure on the contact band.
    pub face_pressure_mpa: f64,
    /// Travel of half `a`.
    pub travel_a_mm: f64,
    /// Travel of half `b`.
    pub travel_b_mm: f64,
    /// Probability that the face load is inside its limits.
    pub probability_conforms: Option<f64>,
}
