//! What presses the lapped faces together?
//!
//! Each half's load ring is solved as a squeezed section; two halves in series then share the
//! travel that the closed gap leaves them:
//!
//! `travel a + travel b = free height a + free height b - gap`, with equal force in both.
//!
//! Face load is that force over the circumference at the contact band's mean diameter, N/mm. The
//! curve is that of a first slow loading of a new, dry load ring; a ring that has been worked is
//! softer, and with time rubber relaxes: neither is modelled. Friction is one coefficient all
//! round: a patch of oil, a twist or the entry past the lip is beyond it.

mod closing;
mod curve;
pub mod disc_spring;
mod half;
mod joined;
mod outcome;
mod strain;

use ringtrue_metrology::conformity::{Levels, Verdict};
use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::{Length, in_mm as mm};
use serde::Serialize;

pub use half::{CurvePoint, HalfCurve, HalfProblem, SectionOf};
pub use outcome::{
    AtGap, Drawn, GapLoad, GapPoint, HalfOutcome, JointOutcome, LoadPoint, StretchAtBreak,
};

use crate::RoomError;
use crate::definition::material::Material;
use crate::definition::seal::Seal;
use closing::Closing;
pub(crate) use closing::{LoadedHalf, rubber_modulus};
use joined::Joined;

/// Where the method and its figures come from; [`crate::rubber::SOURCES`] has those of the modulus.
pub const SOURCES: &[Source] = &[
    Source::Unverified(
        "finite elements: T. J. R. Hughes, The Finite Element Method (1987), mixed displacement \
         and pressure; neo-Hookean rubber: L. R. G. Treloar, The Physics of Rubber Elasticity",
    ),
    Source::CommonPractice("mounted toric: constant volume of a stretched ring (Pappus)"),
    Source::Published(
        "A. N. Gent, Trans. Inst. Rubber Ind. 34 (1958) 46-57, and log10 E = 0.0235 S - 0.6403: \
         modulus from hardness, their spread carried as uncertainty",
    ),
    Source::Published("JCGM 106:2012, clause 7 (probability of conformity)"),
    Source::Unverified("ISO 37: elongation at break of a dumb-bell"),
    Source::CommonPractice("friction of steel edges on their seats 0.15, where none is stated"),
];

/// Friction coefficient of a steel washer's edges where none is stated: common practice, no source.
pub const STEEL_FRICTION: f64 = 0.15;

/// One or two halves and the gap they are closed to.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// The halves: both of a joint, or one seal that is closed against its like.
    pub seals: Seals,
    /// What is known of each half's rubber besides the seal's own figures: its stretch tests, its
    /// elongation at break. The second is not read where a seal is closed against its like.
    pub materials: [Option<Box<Material>>; 2],
    /// Gap limits: smallest and largest.
    pub gap_limits: (Length, Length),
    /// Nominal gap; the middle of its limits where no chain gives it.
    pub nominal_gap: Option<Length>,
    /// Friction on both sides; where it is `None` rubber sticks where it first touches, and the
    /// edges of steel slide with [`STEEL_FRICTION`].
    pub friction: Option<f64>,
    /// Probabilities at which the verdict is drawn.
    pub levels: Levels,
}

/// The halves that are closed.
#[derive(Debug, Clone, PartialEq)]
pub enum Seals {
    /// One seal, against its like.
    Alike(Box<Seal>),
    /// Halves `a` and `b` of a joint.
    Joint(Box<[Seal; 2]>),
}

impl Seals {
    fn pair(&self) -> [&Seal; 2] {
        match self {
            Self::Alike(seal) => [seal, seal],
            Self::Joint(seals) => [&seals[0], &seals[1]],
        }
    }
}

impl Input {
    /// The materials of halves `a` and `b`.
    fn pair_of_materials(&self) -> [Option<&Material>; 2] {
        let [a, b] = [0, 1].map(|i| self.materials[i].as_deref());
        match self.seals {
            Seals::Alike(_) => [a, a],
            Seals::Joint(_) => [a, b],
        }
    }
}

/// The loads.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outcome {
    /// Each half alone; one where a seal is closed against its like.
    pub halves: Vec<HalfOutcome>,
    /// Both in series.
    pub joint: JointOutcome,
    /// Axial force that holds the halves at the nominal gap: what bolts or a press must supply, and
    /// what throws the halves apart when they are unbolted.
    pub closing_force_n: Option<f64>,
    /// Band about the computed forces for a given modulus, percent.
    pub error_band_percent: Option<f64>,
    /// Face load inside its limits over the whole gap tolerance?
    pub verdict: Verdict,
    /// Were all curves solved to their end? Nothing is judged where they were not.
    pub complete: bool,
    /// What to know besides.
    pub remarks: Vec<String>,
}

/// Who solves the halves' problems: directly, or from a store of solved curves.
pub type Solver<'s> = dyn FnMut(&[HalfProblem]) -> Vec<Result<HalfCurve, RoomError>> + 's;

/// Works out the loads, solving every half.
///
/// # Errors
/// As [`evaluate_with`].
pub fn evaluate(input: &Input) -> Result<Outcome, RoomError> {
    evaluate_with(input, &mut |problems| problems.iter().map(HalfProblem::solve).collect())
}

/// Works out the loads with curves from a solver.
///
/// # Errors
/// [`RoomError`] when a half can't be set up, its load ring has no modulus, or the gap leaves no
/// travel.
pub fn evaluate_with(input: &Input, solver: &mut Solver<'_>) -> Result<Outcome, RoomError> {
    let closing = Closing::of(input)?;
    let [material_a, material_b] = input.pair_of_materials();
    let [a, b] = input.seals.pair();
    let halves = [LoadedHalf::of(a, material_a)?, LoadedHalf::of(b, material_b)?];
    let problems = closing.problems(input, &halves)?;
    let mut solved = Vec::with_capacity(2);
    for curve in solver(&problems) {
        solved.push(curve?);
    }
    let curves: Vec<HalfCurve> = match solved.as_slice() {
        [one] => vec![one.clone(), one.clone()],
        [_, _] => solved,
        other => unreachable!("{} curves for 1 or 2 problems", other.len()),
    };
    let problems: Vec<HalfProblem> = problems.iter().cycle().take(2).cloned().collect();
    Ok(Joined { input, closing, problems, curves, halves }.outcome())
}

#[cfg(test)]
mod tests;
