//! How does the toric get past the retaining lip, and does its rubber stand it?
//!
//! Three things are worked out: the stretch on the ring with the thinned section (constant volume),
//! the interference with the lip, and the push that takes the toric over it.
//!
//! The push: finite elements press the mounted section, carried by its ramp and a flat tool, past
//! the lip, a line-arc-line wall (`passing`). Lip, ramp and tool have the same friction. It counts
//! as found where the force falls again behind its largest: the section slides past. Where it rolls
//! and folds under the lip instead, no push is given.
//!
//! Pressed all round, each mm of circumference passes at once. Worked in at one side, the pushes of
//! all slices of the tipped ring add up; the most over the way in is given, an upper bound.

mod passing;

use std::f64::consts::TAU;

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::{Force, Length, Quantity, fixed};
use serde::Serialize;

pub use crate::finding::Finding;
pub use passing::{Fate, Passage, PassagePoint, Passed, Passing, solve_all};

use crate::RoomError;
use crate::definition::material::Material;
use crate::definition::seal::{Chilling, LoadRing, RetainingLip, Seal};
use crate::face_load::rubber_modulus;
use crate::finding::{AGAINST_BREAK, against_break, worst};
use crate::geometry::{self, MountedToric};
use crate::rubber::Modulus;

/// Where the method and its figures come from; [`crate::rubber::SOURCES`] has those of the modulus.
pub const SOURCES: &[Source] = &[
    Source::CommonPractice("mounted toric: constant volume of a stretched ring (Pappus)"),
    Source::Unverified(
        "finite elements: T. J. R. Hughes, The Finite Element Method (1987), mixed displacement \
         and pressure; neo-Hookean rubber: L. R. G. Treloar, The Physics of Rubber Elasticity",
    ),
    Source::CommonPractice(
        "friction of rubber on metal 0.8 dry and 0.3 wetted, 200 N by hand, 1000 N by tool and \
         mallet, a nose rounded over the lip's height: where the files give none",
    ),
];

/// Friction coefficient of dry rubber on metal where none is given: common practice, no source.
pub const DRY: f64 = 0.8;
/// The same, wetted with the cleaning agent: common practice, no source.
pub const WET: f64 = 0.3;
/// What two hands push, N, where the file gives none: common practice, no source.
pub const HAND_N: f64 = 200.0;
/// What tool and mallet give, N, where the file gives none: common practice, no source.
pub const TOOL_N: f64 = 1000.0;

/// The seal, its rubber, and how slippery it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// The half.
    pub seal: Seal,
    /// Its load ring's material, where figures are at hand.
    pub material: Option<Material>,
    /// Friction coefficient, dry.
    pub dry: f64,
    /// Friction coefficient, wetted.
    pub wet: f64,
}

/// What it takes to seat the toric.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outcome {
    /// Stretch of the inside diameter on the ring.
    pub stretch_percent: f64,
    /// Thinned section on the ring.
    pub section_mm: f64,
    /// Free section.
    pub free_section_mm: f64,
    /// Mounted outside diameter less the lip's diameter; null without a lip.
    pub interference_mm: Option<f64>,
    /// The push for the way that the file names and the surface that it names.
    pub push_force_n: Option<f64>,
    /// Its standard uncertainty: modulus and the band of the computation; null where there is no
    /// band. Friction is not in it.
    pub standard_uncertainty_n: Option<f64>,
    /// How the push is given.
    pub method: Option<Method>,
    /// Is the ring pressed in all round, or worked in at one side?
    pub way: Way,
    /// The surface that the file's cleaning agent leaves.
    pub surface: Surface,
    /// Dry and wetted.
    pub pushes: Vec<Push>,
    /// Largest principal stretch of the rubber on its way over the lip, or on the ring.
    pub max_principal_stretch: f64,
    /// What a hand gives, and where that comes from.
    pub hand: Given,
    /// What tool and mallet give.
    pub tool: Given,
    /// Radius of the lip's nose.
    pub nose_radius: Given,
    /// Young's modulus and where it came from.
    pub modulus: Modulus,
    /// Half-width of the band about the push by a second, coarser mesh, percent; null where that
    /// one did not slide past.
    pub error_band_percent: Option<f64>,
    /// What was compared.
    pub findings: Vec<Finding>,
    /// The worst of them.
    pub verdict: Verdict,
    /// Is the push known, where there is a lip to pass? None is given where it is not.
    pub complete: bool,
    /// What to know besides.
    pub remarks: Vec<String>,
    /// The section on its way past the lip at the friction that counts, for drawing.
    #[serde(skip)]
    pub drawn: Option<(Passage, Passed)>,
}

/// How slippery the surfaces are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Surface {
    /// Dry.
    Dry,
    /// Wetted with the cleaning agent.
    Wetted,
}

impl Surface {
    /// In a word.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Dry => "dry",
            Self::Wetted => "wetted",
        }
    }
}

/// The push at one friction; null where the section does not slide past the lip.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Push {
    /// Dry or wetted.
    pub surface: Surface,
    /// Friction coefficient.
    pub friction: f64,
    /// What became of the section.
    pub fate: Fate,
    /// Largest push per mm of circumference at the section's mean radius.
    pub push_n_per_mm: Option<f64>,
    /// All round at once.
    pub all_round_n: Option<f64>,
    /// Worked in at one side: at the entering point.
    pub one_side_n: Option<f64>,
    /// Largest principal stretch on the way as far as it was followed.
    pub max_principal_stretch: f64,
}

/// A figure and where it comes from.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Given {
    /// Value, N or mm as its key says.
    pub value: f64,
    /// `the seal's file`, or `common practice, no source`.
    pub origin: &'static str,
}

/// How the push is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Method {
    /// Hands suffice.
    Hand,
    /// The installing tool, tapped with a soft mallet.
    ToolAndMallet,
    /// Chilled first: the push is more than tool and mallet give.
    ChillFirst,
    /// A press or long bolts on the tool: the file lets nobody chill it.
    Press,
}

impl Method {
    /// In words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Hand => "by hand",
            Self::ToolAndMallet => "with the installing tool and a soft mallet",
            Self::ChillFirst => "chilled first: `ringtrue chill` says how long",
            Self::Press => "with a press or long bolts on the installing tool",
        }
    }
}

/// How the ring goes in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Way {
    /// All round at once.
    PressedAllRound,
    /// Beginning at one side.
    WorkedInAtOneSide,
}

impl Way {
    /// In words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::PressedAllRound => "pressed in all round",
            Self::WorkedInAtOneSide => "worked in at one side",
        }
    }
}

const OF_FILE: &str = "the seal's file";
const PRACTICE: &str = "common practice, no source";

/// Who solves the ways past the lip: directly, or from a store of solved ones.
pub type Solver<'s> = dyn FnMut(&[Passing]) -> Vec<Result<Passed, RoomError>> + 's;

/// Works out the seating of a toric, solving every way.
///
/// # Errors
/// As [`evaluate_with`].
pub fn evaluate(input: &Input) -> Result<Outcome, RoomError> {
    evaluate_with(input, &mut solve_all)
}

/// Works out the seating of a toric with ways from a solver.
///
/// # Errors
/// [`RoomError`] for a conical washer, a load ring without a modulus, a friction below zero or
/// above 5, and sizes that can't be.
pub fn evaluate_with(input: &Input, solver: &mut Solver<'_>) -> Result<Outcome, RoomError> {
    let seal = &input.seal;
    let (LoadRing::Toric(_), Some(mounted)) = (&seal.load_ring, geometry::mounted(seal)) else {
        return Err(RoomError::input(
            "this seal has a conical washer, which passes no lip",
            "`ringtrue load` gives its free height, and force and height when it sits",
        ));
    };
    for (name, mu) in [("dry", input.dry), ("wet", input.wet)] {
        if !(0.0..=5.0).contains(&mu) {
            let found = format!("the {name} friction coefficient is {mu}");
            return Err(RoomError::input(found, "a coefficient of 0 to 5"));
        }
    }
    let Some(modulus) = rubber_modulus(seal, input.material.as_ref())? else {
        return Err(RoomError::input("the toric's rubber has no modulus", "give its `hardness`"));
    };
    let mut outcome = on_the_ring(input, &mounted, modulus);
    if let Some(lip) = &seal.housing.lip {
        past_the_lip((input, solver), (&mounted, lip), &mut outcome)?;
    } else {
        outcome.remarks.push("The housing has no lip: nothing holds the toric in.".to_owned());
    }
    outcome.findings.push(strain(input, &outcome));
    outcome.verdict = worst(&outcome.findings);
    Ok(outcome)
}

/// What the ring alone does to the toric.
fn on_the_ring(input: &Input, mounted: &MountedToric, modulus: Modulus) -> Outcome {
    let seal = &input.seal;
    let fitting = &seal.fitting;
    let given = |force: &Option<ringtrue_metrology::units::Given<Force>>, practice: f64| {
        force.as_ref().map_or(Given { value: practice, origin: PRACTICE }, |force| Given {
            value: force.value().si(),
            origin: OF_FILE,
        })
    };
    let pressed = fitting
        .pressed_up_to
        .as_ref()
        .is_none_or(|up_to| seal.ring.face_outer_diameter.value() <= up_to.value());
    let dry = fitting.cleaning_agent == crate::definition::material::NO_AGENT;
    let free = match &seal.load_ring {
        LoadRing::Toric(toric) => mm(toric.section_diameter.value()),
        LoadRing::ConicalWasher(_) => 0.0,
    };
    Outcome {
        stretch_percent: 100.0 * mounted.stretch,
        section_mm: mm(mounted.section_diameter),
        free_section_mm: free,
        interference_mm: None,
        push_force_n: None,
        standard_uncertainty_n: None,
        method: None,
        way: if pressed { Way::PressedAllRound } else { Way::WorkedInAtOneSide },
        surface: if dry { Surface::Dry } else { Surface::Wetted },
        pushes: Vec::new(),
        max_principal_stretch: 1.0 + mounted.hoop_stretch.max(0.0),
        hand: given(&fitting.hand_force, HAND_N),
        tool: given(&fitting.tool_force, TOOL_N),
        nose_radius: Given { value: 0.0, origin: PRACTICE },
        modulus,
        error_band_percent: None,
        findings: stretch(seal, mounted.stretch).into_iter().collect(),
        verdict: Verdict::NotProven,
        complete: true,
        remarks: Vec::new(),
        drawn: None,
    }
}

/// What the lip asks.
fn past_the_lip(
    (input, solver): (&Input, &mut Solver<'_>),
    (mounted, lip): (&MountedToric, &RetainingLip),
    outcome: &mut Outcome,
) -> Result<(), RoomError> {
    let interference = mm(mounted.outside_diameter()) - mm(lip.diameter.value());
    outcome.interference_mm = Some(interference);
    outcome.findings.push(held(interference));
    outcome.nose_radius = match &lip.edge_radius {
        Some(radius) => Given { value: mm(radius.value()), origin: OF_FILE },
        None => Given { value: mm(lip.height.value()) / 2.0, origin: PRACTICE },
    };
    if interference <= 0.0 {
        return Ok(());
    }
    let Some(ramp) = &input.seal.ring.ramp else { return Ok(()) };
    let passage = Passage {
        section_mm: outcome.section_mm,
        mean_radius_mm: mm(mounted.centroid_diameter) / 2.0,
        hoop_stretch: 1.0 + mounted.hoop_stretch,
        ramp_deg: ramp.angle.value().si().to_degrees(),
        nose_radius_mm: outcome.nose_radius.value,
        overlap_mm: interference / 2.0,
    };
    let counts = match outcome.surface {
        Surface::Dry => input.dry,
        Surface::Wetted => input.wet,
    };
    let fine = |friction| Passing { passage, friction, edges: passing::EDGES };
    let coarse = Passing { edges: passing::COARSE_EDGES, ..fine(counts) };
    let solved = solver(&[fine(input.dry), fine(input.wet), coarse]);
    let [dry, wet, coarse] = <[_; 3]>::try_from(solved)
        .unwrap_or_else(|other| unreachable!("{} ways for 3 problems", other.len()));
    let (dry, wet, coarse) = (dry?, wet?, coarse?);
    let young = outcome.modulus.young_mpa;
    outcome.pushes = [(Surface::Dry, &dry), (Surface::Wetted, &wet)]
        .map(|(surface, passed)| push(&passage, (surface, passed), young))
        .to_vec();
    let counted = match outcome.surface {
        Surface::Dry => dry,
        Surface::Wetted => wet,
    };
    let reached = counted.points.iter().map(|point| point.max_principal_stretch);
    outcome.max_principal_stretch = reached.fold(outcome.max_principal_stretch, f64::max);
    outcome.complete = counted.peak.is_some();
    outcome.error_band_percent = counted
        .most()
        .zip(coarse.most())
        .map(|(fine, coarse)| 100.0 * BAND_SAFETY * (1.0 - coarse / fine).abs());
    match counted.fate {
        Fate::SlidesPast => decide(&input.seal, outcome),
        Fate::Folds => outcome.remarks.push(FOLDS.to_owned()),
        Fate::NotComputed => outcome.remarks.push(format!(
            "The push is not known: the computation {}.",
            counted.stopped.as_deref().unwrap_or("stopped")
        )),
    }
    outcome.drawn = Some((passage, counted));
    Ok(())
}

const FOLDS: &str = "At this friction the toric does not slide past the lip: it rolls and folds \
    under it. Wet it with the cleaning agent, break the lip's edge, or chill it where that is \
    allowed.";

/// Half-width of the band over the difference of the two meshes.
const BAND_SAFETY: f64 = 1.5;

fn push(passage: &Passage, (surface, passed): (Surface, &Passed), young_mpa: f64) -> Push {
    let per_mm = passed.most().map(|most| most * young_mpa);
    let reached = passed.points.iter().map(|point| point.max_principal_stretch);
    Push {
        surface,
        friction: passed.friction,
        fate: passed.fate,
        push_n_per_mm: per_mm,
        all_round_n: per_mm.map(|push| TAU * passage.mean_radius_mm * push),
        one_side_n: passed.one_side(passage).map(|most| most * young_mpa),
        max_principal_stretch: reached.fold(1.0, f64::max),
    }
}

/// The push that counts, and how it is given.
fn decide(seal: &Seal, outcome: &mut Outcome) {
    let Some(push) = outcome.pushes.iter().find(|push| push.surface == outcome.surface) else {
        return;
    };
    let force = match outcome.way {
        Way::PressedAllRound => push.all_round_n,
        Way::WorkedInAtOneSide => push.one_side_n,
    };
    let Some(force) = force else { return };
    outcome.push_force_n = Some(force);
    if let Some(percent) = outcome.error_band_percent {
        let band = percent / 100.0 / 3f64.sqrt();
        let relative = libm::hypot(outcome.modulus.relative_standard_uncertainty, band);
        outcome.standard_uncertainty_n = Some(force * relative);
    } else {
        outcome.findings.push(Finding::new(
            "push on a second mesh",
            Verdict::NotProven,
            "the coarser mesh does not slide past",
            "two meshes that agree",
        ));
    }
    outcome.method = Some(if force <= outcome.hand.value {
        Method::Hand
    } else if force <= outcome.tool.value {
        Method::ToolAndMallet
    } else {
        match seal.fitting.chilling {
            Chilling::Allowed => Method::ChillFirst,
            Chilling::NotAllowed => Method::Press,
        }
    });
}

fn stretch(seal: &Seal, found: f64) -> Option<Finding> {
    let limit = seal.limits.toric_stretch.as_ref()?;
    let (low, high) = limit.bounds_si();
    let inside = low.is_none_or(|low| found >= low) && high.is_none_or(|high| found <= high);
    let verdict = if inside { Verdict::Conforms } else { Verdict::DoesNotConform };
    let percent =
        |x: Option<f64>| x.map_or("none".to_owned(), |x| format!("{} %", fixed(100.0 * x, 1)));
    let fits = format!("{} to {} ({})", percent(low), percent(high), limit.origin);
    Some(Finding::new(
        "stretch on the ring",
        verdict,
        format!("{} %", fixed(100.0 * found, 2)),
        fits,
    ))
}

fn held(interference_mm: f64) -> Finding {
    let held = interference_mm > 0.0;
    Finding::new(
        "interference at the lip",
        if held { Verdict::Conforms } else { Verdict::DoesNotConform },
        format!("{} mm on the diameter", fixed(interference_mm, 2)),
        "above zero, or the lip does not keep the toric in",
    )
}

/// The largest stretch against the elongation at break, a value of uniaxial tension: principal
/// stretches on the lip are mostly those of pure shear, which tears no earlier (common practice, no
/// source).
fn strain(input: &Input, outcome: &Outcome) -> Finding {
    let stretch = outcome.max_principal_stretch;
    let compared = input.material.as_ref().and_then(|material| against_break(material, stretch));
    let Some((_, mut finding)) = compared else {
        let found = format!("{} %", fixed(100.0 * (stretch - 1.0), 0));
        let fits = "the material file gives no `elongation_at_break`: add it from the data sheet";
        return Finding::new(AGAINST_BREAK, Verdict::NotProven, found, fits);
    };
    if !outcome.complete {
        // The rest of the way may stretch it further: it can only be told that it is too much.
        finding.verdict = finding.verdict.max(Verdict::NotProven);
    }
    finding
}

fn mm(length: Length) -> f64 {
    // The rounding of metres taken off again.
    libm::round(length.si() * 1e12) / 1e9
}

#[cfg(test)]
mod tests;
