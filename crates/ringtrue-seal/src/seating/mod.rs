//! What does it take to seat the load ring, and does it stand it?
//!
//! A toric is pushed past the retaining lip (`lip`). A conical washer is pressed down until its two
//! edges bear all round (`edges`).

mod edges;
mod lip;
mod passing;

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::{Force, Given as Typed, Length, Quantity, fixed, in_mm as mm};
use ringtrue_words::say;
use serde::Serialize;

pub use crate::finding::Finding;
pub use edges::{Edges, Pressed};
pub use lip::{PastLip, Push, Way};
pub use passing::{Fate, Passage, PassagePoint, Passed, Passing, solve_all};

use crate::RoomError;
use crate::definition::material::{Material, NO_AGENT};
use crate::definition::seal::{LoadRing, Seal};
use crate::finding::{against_break, of_break, worst};
use crate::rubber::Modulus;
use crate::section::Stopped;

/// Where the method and its figures come from; [`crate::rubber::SOURCES`] has those of the modulus.
pub const SOURCES: &[Source] = &[
    Source::CommonPractice("mounted toric: constant volume of a stretched ring (Pappus)"),
    Source::Unverified(
        "finite elements: T. J. R. Hughes, The Finite Element Method (1987), mixed displacement \
         and pressure; neo-Hookean rubber: L. R. G. Treloar, The Physics of Rubber Elasticity",
    ),
    Source::Published("DIN EN 16984 (disc springs: calculation), force with K1"),
    Source::CommonPractice(
        "friction of rubber on metal 0.8 dry and 0.3 wetted, of steel on metal 0.15 dry, each \
         known to a third of it either way; 200 N by hand, 1000 N by tool and mallet; a nose \
         rounded over the lip's height; a washer that stands 1 mm uneven: where nothing is stated",
    ),
    Source::Published(
        "JCGM 100:2008, 4.3.7 (a range as a rectangle), 5.1.3 note 2 (what friction adds: half the \
         difference of the pushes one standard uncertainty above and below)",
    ),
    Source::Unverified(
        "EN 16984: nominal stress at OM of a disc spring, held against the yield strength where \
         the load rests",
    ),
];

/// Friction coefficient of dry rubber on metal where none is given: common practice, no source.
pub const DRY: f64 = 0.8;
/// The same, wetted with the cleaning agent: common practice, no source.
pub const WET: f64 = 0.3;
/// Friction coefficient of dry steel on metal where none is given: common practice, no source.
pub const DRY_STEEL: f64 = crate::face_load::STEEL_FRICTION;
/// Half-width of the range about a friction coefficient whose uncertainty is not stated, as a share
/// of it, a rectangle: common practice, no source.
pub const FRICTION_RANGE: f64 = 1.0 / 3.0;
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
    /// Friction coefficient, dry; [`DRY`] or [`DRY_STEEL`] where it is `None`.
    pub dry: Option<f64>,
    /// Friction coefficient, wetted; [`WET`] where it is `None`. Steel goes in dry.
    pub wet: Option<f64>,
    /// Standard uncertainty of the coefficient that counts; that of [`FRICTION_RANGE`] where it is
    /// `None`.
    pub friction_uncertainty: Option<f64>,
    /// A washer's free height as measured on a flat plate.
    pub free_height: Option<FreeHeight>,
}

/// A height as measured, and its standard uncertainty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FreeHeight {
    /// The height.
    pub height: Length,
    /// Its standard uncertainty.
    pub standard_uncertainty: Length,
}

/// What it takes to seat the load ring.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outcome {
    /// What its kind adds.
    #[serde(flatten)]
    pub load_ring: Seated,
    /// The push for the way and the surface that the file names: the largest on a toric's way past
    /// the lip, or what brings a washer's edges down all round.
    pub push_force_n: Option<f64>,
    /// Its standard uncertainty, of the three parts; null where one of them is not known.
    pub standard_uncertainty_n: Option<f64>,
    /// What makes that uncertainty; null with it.
    pub standard_uncertainty_parts_n: Option<Parts>,
    /// Standard uncertainty of the friction coefficient that counts.
    pub friction_standard_uncertainty: Given,
    /// How the push is given.
    pub method: Option<Method>,
    /// The surface that the file's cleaning agent leaves.
    pub surface: Surface,
    /// Largest principal stretch of the load ring on its way, or of a toric on the ring.
    pub max_principal_stretch: f64,
    /// What a hand gives, and where that comes from.
    pub hand: Given,
    /// What tool and mallet give.
    pub tool: Given,
    /// Young's modulus of rubber and where it came from; null for steel.
    pub modulus: Option<Modulus>,
    /// Half-width of the band about the push by a second, coarser mesh, percent; null where that
    /// one gave none.
    pub error_band_percent: Option<f64>,
    /// What was compared.
    pub findings: Vec<Finding>,
    /// The worst of them.
    pub verdict: Verdict,
    /// Is the push known, where there is one to give?
    pub complete: bool,
    /// What to know besides.
    pub remarks: Vec<String>,
}

/// The parts of a push's standard uncertainty, N.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Parts {
    /// Young's modulus of the rubber; 0 for steel.
    pub modulus: f64,
    /// The friction coefficient.
    pub friction: f64,
    /// The band of the computation, a rectangle.
    pub mesh: f64,
}

/// What the two kinds of load ring add.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Seated {
    /// A toric and its lip.
    Toric(Box<PastLip>),
    /// A conical washer and its edges.
    ConicalWasher(Box<Edges>),
}

/// How slippery the surfaces are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
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
            Self::Dry => say!("seating-surface-dry"),
            Self::Wetted => say!("seating-surface-wetted"),
        }
    }
}

/// A figure and where it comes from.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Given {
    /// Value, N or mm as its key says.
    pub value: f64,
    /// `the seal's file`, `as stated`, or `common practice, no source`.
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
            Self::Hand => say!("seating-method-hand"),
            Self::ToolAndMallet => say!("seating-method-tool-and-mallet"),
            Self::ChillFirst => say!("seating-method-chill-first"),
            Self::Press => say!("seating-method-press"),
        }
    }
}

impl Given {
    /// A file's figure in the unit of its key, else common practice.
    fn of<Q: Quantity>(typed: Option<&Typed<Q>>, unit: fn(Q) -> f64, practice: f64) -> Self {
        match typed {
            Some(typed) => Self { value: unit(typed.value()), origin: say!("seating-origin-file") },
            None => Self { value: practice, origin: say!("seating-origin-practice") },
        }
    }
}

/// Who solves the ways past the lip: directly, or from a store of solved ones.
pub type Solver<'s> = dyn FnMut(&[Passing]) -> Vec<Result<Passed, RoomError>> + 's;

/// Works out the seating of a load ring, solving every way past a lip.
///
/// # Errors
/// As [`evaluate_with`].
pub fn evaluate(input: &Input) -> Result<Outcome, RoomError> {
    evaluate_with(input, &mut solve_all)
}

/// Works out the seating of a load ring with ways past the lip from a solver. A washer's curves
/// take a tenth of a second and are always solved.
///
/// # Errors
/// [`RoomError`] for a load ring without a modulus, a friction below zero or above 5, a free height
/// of a toric, and sizes that can't be.
pub fn evaluate_with(input: &Input, solver: &mut Solver<'_>) -> Result<Outcome, RoomError> {
    let unfit = |given: Option<f64>| given.filter(|given| !(0.0..=5.0).contains(given));
    let found = if let Some(dry) = unfit(input.dry) {
        Some(say!("seating-dry-friction-is", friction = dry.to_string()))
    } else if let Some(wet) = unfit(input.wet) {
        Some(say!("seating-wet-friction-is", friction = wet.to_string()))
    } else {
        let uncertainty = unfit(input.friction_uncertainty);
        uncertainty.map(|u| say!("seating-friction-uncertainty-is", uncertainty = u.to_string()))
    };
    if let Some(found) = found {
        return Err(RoomError::input(found, say!("seating-number-from-0-5")));
    }
    let mut outcome = match &input.seal.load_ring {
        LoadRing::Toric(toric) => lip::seated((input, solver), toric)?,
        LoadRing::ConicalWasher(washer) => edges::seated(input, washer)?,
    };
    outcome.verdict = worst(&outcome.findings);
    Ok(outcome)
}

impl Input {
    /// Friction coefficient of a surface.
    fn friction(&self, surface: Surface) -> f64 {
        let steel = self.seal.load_ring.is_steel();
        match surface {
            Surface::Dry => self.dry.unwrap_or(if steel { DRY_STEEL } else { DRY }),
            Surface::Wetted => self.wet.unwrap_or(WET),
        }
    }

    /// Standard uncertainty of the friction coefficient that counts.
    fn friction_uncertainty(&self) -> Given {
        match self.friction_uncertainty {
            Some(value) => Given { value, origin: say!("seating-origin-stated") },
            None => Given {
                value: self.friction(self.surface()) * FRICTION_RANGE / 3f64.sqrt(),
                origin: say!("seating-origin-practice"),
            },
        }
    }

    /// The friction coefficients one standard uncertainty below and above the one that counts, none
    /// below zero; `None` where it is known exactly.
    fn friction_about(&self) -> Option<[f64; 2]> {
        let (mu, u) = (self.friction(self.surface()), self.friction_uncertainty().value);
        (u > 0.0).then(|| [(mu - u).max(0.0), mu + u])
    }

    /// The surface that counts: steel goes in dry, rubber as the file's cleaning agent leaves it.
    fn surface(&self) -> Surface {
        let dry = self.seal.fitting.cleaning_agent == NO_AGENT;
        if dry || self.seal.load_ring.is_steel() { Surface::Dry } else { Surface::Wetted }
    }

    /// The outcome before anything is pushed.
    fn begun(&self, load_ring: Seated, modulus: Option<Modulus>) -> Outcome {
        let fitting = &self.seal.fitting;
        Outcome {
            load_ring,
            push_force_n: None,
            standard_uncertainty_n: None,
            standard_uncertainty_parts_n: None,
            friction_standard_uncertainty: self.friction_uncertainty(),
            method: None,
            surface: self.surface(),
            max_principal_stretch: 1.0,
            hand: Given::of(fitting.hand_force.as_ref(), Force::si, HAND_N),
            tool: Given::of(fitting.tool_force.as_ref(), Force::si, TOOL_N),
            modulus,
            error_band_percent: None,
            findings: Vec::new(),
            verdict: Verdict::NotProven,
            complete: true,
            remarks: Vec::new(),
        }
    }

    /// The largest stretch against the elongation at break, a value of uniaxial tension: principal
    /// stretches under a push are mostly those of pure shear, which tears no earlier (common
    /// practice, no source).
    fn strain(&self, outcome: &Outcome) -> Finding {
        let stretch = outcome.max_principal_stretch;
        let compared = self.material.as_ref().and_then(|material| against_break(material, stretch));
        let Some((_, mut finding)) = compared else {
            let found = format!("{} %", fixed(100.0 * (stretch - 1.0), 0));
            let fits = say!("seating-no-elongation-at-break");
            return Finding::new(of_break(), Verdict::NotProven, found, fits);
        };
        if !outcome.complete {
            // The rest of the way may stretch it further: it can only be told that it is too much.
            finding.verdict = finding.verdict.max(Verdict::NotProven);
        }
        finding
    }
}

impl Outcome {
    /// The push that counts with its uncertainty, and how it is given; `stronger` where it is more
    /// than tool and mallet give. `by_friction` is the share of the push that one standard
    /// uncertainty of the friction is worth, where that is known.
    fn decide(&mut self, force_n: f64, by_friction: Option<f64>, stronger: Method) {
        self.push_force_n = Some(force_n);
        let band = self.error_band_percent.map(|percent| percent / 100.0 / 3f64.sqrt());
        if band.is_none() {
            self.findings.push(Finding::new(
                say!("seating-push-on-second-mesh"),
                Verdict::NotProven,
                say!("seating-coarser-mesh-gives-none"),
                say!("seating-two-meshes-that-agree"),
            ));
        }
        if let Some((band, friction)) = band.zip(by_friction) {
            let modulus = self.modulus.map_or(0.0, |m| m.relative_standard_uncertainty);
            let [modulus, friction, mesh] = [modulus, friction, band].map(|share| force_n * share);
            self.standard_uncertainty_parts_n = Some(Parts { modulus, friction, mesh });
            self.standard_uncertainty_n = Some(libm::hypot(libm::hypot(modulus, friction), mesh));
        }
        let method = self.by(force_n, stronger);
        let at_most = force_n + 2.0 * self.standard_uncertainty_n.unwrap_or(0.0);
        let at_most = self.by(at_most, stronger);
        if at_most != method {
            self.remarks.push(say!("seating-may-ask-more", method = at_most.words()));
        }
        self.method = Some(method);
    }

    /// By what a push is given.
    fn by(&self, force_n: f64, stronger: Method) -> Method {
        if force_n <= self.hand.value {
            Method::Hand
        } else if force_n <= self.tool.value {
            Method::ToolAndMallet
        } else {
            stronger
        }
    }
}

/// What a computation that stopped leaves open.
fn push_not_known(stopped: Option<Stopped>) -> String {
    stopped.map_or_else(
        || say!("seating-push-not-known-stopped").to_owned(),
        |stopped| say!("seating-push-not-known", reason = stopped.words()),
    )
}

#[cfg(test)]
mod tests;
