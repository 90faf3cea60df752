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

mod curve;
pub mod disc_spring;
mod half;

use std::f64::consts::PI;

use ringtrue_metrology::conformity::{Levels, Limits, Verdict, probability_within};
use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::{Length, Quantity};
use serde::Serialize;

pub use half::{CurvePoint, HalfCurve, HalfProblem, SectionOf};

use crate::RoomError;
use crate::definition::joint::Half;
use crate::definition::seal::{LoadRing, RetainingLip, Seal};
use crate::geometry;
use crate::rubber::{self, Modulus};
use curve::{Shared, Spring, series, steepens_at};

/// Where the method and its figures come from; [`rubber::SOURCES`] has those of the modulus.
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
];

/// One or two halves and the gap they are closed to.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// The halves: both of a joint, or one seal that is closed against its like.
    pub seals: Seals,
    /// Gap limits: smallest and largest.
    pub gap_limits: (Length, Length),
    /// Nominal gap; the middle of its limits where no chain gives it.
    pub nominal_gap: Option<Length>,
    /// Friction on both sides; `None` sticks where it first touches.
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
    /// Smallest distance of the load ring from the retaining lip at the end of the curve.
    pub lip_clearance_mm: Option<f64>,
    /// Weight of the ring over the same circumference: on a standing shaft it adds to the face load
    /// of the ring above and takes off that of the ring below.
    pub ring_weight_n_per_mm: f64,
    /// Young's modulus of the load ring and where it came from; null for steel.
    pub modulus: Option<Modulus>,
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
    /// Largest contact pressure of the load ring.
    pub peak_contact_mpa: f64,
    /// Largest principal stretch.
    pub max_principal_stretch: f64,
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
    let problems = closing.problems(input)?;
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
    let halves = input.seals.pair().map(LoadedHalf::of);
    let [a, b] = halves;
    Ok(Joined { input, closing, problems, curves, halves: [a?, b?] }.outcome())
}

/// The geometry of closing.
#[derive(Debug, Clone, Copy)]
struct Closing {
    free_mm: [f64; 2],
    gap_min: f64,
    gap_nominal: f64,
    gap_max: f64,
}

impl Closing {
    fn of(input: &Input) -> Result<Self, RoomError> {
        let free = |seal: &Seal| {
            geometry::free_height(seal).map(mm).ok_or_else(|| {
                RoomError::input("a toric lacks a ramp", "a ramp on ring and housing")
            })
        };
        let [a, b] = input.seals.pair();
        let (gap_min, gap_max) = (mm(input.gap_limits.0), mm(input.gap_limits.1));
        if gap_min > gap_max {
            let found = format!("gap limits from {gap_min} mm to {gap_max} mm");
            return Err(RoomError::input(found, "the smaller limit first"));
        }
        let gap_nominal = input.nominal_gap.map_or(f64::midpoint(gap_min, gap_max), mm);
        let closing = Self { free_mm: [free(a)?, free(b)?], gap_min, gap_nominal, gap_max };
        let total = closing.total(gap_min.min(gap_nominal));
        if total <= 0.0 {
            let found = format!(
                "the load rings just touch at a gap of {:.2} mm, and the smallest gap is {gap_min} \
                 mm",
                closing.free_mm[0] + closing.free_mm[1]
            );
            return Err(RoomError::input(found, "a gap that squeezes the load rings"));
        }
        Ok(closing)
    }

    /// Travel of both halves together at a gap.
    fn total(&self, gap: f64) -> f64 {
        self.free_mm[0] + self.free_mm[1] - gap
    }

    /// One problem where both halves are the same, else two. A softer half takes more than its
    /// share of the travel, so unlike halves are solved further than half of it.
    fn problems(&self, input: &Input) -> Result<Vec<HalfProblem>, RoomError> {
        const ALIKE: f64 = 0.51;
        const UNLIKE: f64 = 0.62;
        let total = self.total(self.gap_min.min(self.gap_nominal));
        let [a, b] = input.seals.pair();
        let of = |seal: &Seal, share: f64| {
            // Rounded up to a hundredth, so that small changes of a gap find the same curve.
            let travel = libm::ceil(total * share * 100.0) / 100.0;
            HalfProblem::of(seal, travel, input.friction)
        };
        let alike = [of(a, ALIKE)?, of(b, ALIKE)?];
        if alike[0] == alike[1] && LoadedHalf::of(a)?.scale == LoadedHalf::of(b)?.scale {
            let [one, _] = alike;
            return Ok(vec![one]);
        }
        Ok(vec![of(a, UNLIKE)?, of(b, UNLIKE)?])
    }
}

/// What turns a half's curve into loads.
#[derive(Debug, Clone)]
struct LoadedHalf {
    band: (f64, f64),
    weight_n: f64,
    modulus: Option<Modulus>,
    /// Young's modulus in MPa for rubber, 1 for steel.
    scale: f64,
    relative_uncertainty: f64,
}

impl LoadedHalf {
    fn of(seal: &Seal) -> Result<Self, RoomError> {
        /// Standard gravity, m/s².
        const GRAVITY: f64 = 9.806_65;
        let modulus = modulus(seal)?;
        Ok(Self {
            band: (
                mm(seal.ring.contact_band_inner_diameter.value()),
                mm(seal.ring.contact_band_outer_diameter.value()),
            ),
            weight_n: seal.ring.mass.value().si() * GRAVITY,
            modulus,
            scale: modulus.map_or(1.0, |modulus| modulus.young_mpa),
            relative_uncertainty: modulus.map_or(0.0, |m| m.relative_standard_uncertainty),
        })
    }
}

/// Young's modulus of a rubber load ring; `None` for steel, whose curve holds its own.
fn modulus(seal: &Seal) -> Result<Option<Modulus>, RoomError> {
    let (hardness, young, u) = match &seal.load_ring {
        LoadRing::Toric(t) => (&t.hardness, &t.modulus, &t.modulus_standard_uncertainty),
        LoadRing::ConicalWasher(w) => {
            if seal.load_ring.is_steel() {
                return Ok(None);
            }
            (&w.hardness, &w.modulus, &w.modulus_standard_uncertainty)
        }
    };
    if let Some(young) = young {
        let mpa = |pressure: &ringtrue_metrology::units::Pressure| pressure.si() / 1e6;
        let u = u.as_ref().map(|u| mpa(&u.value()));
        return Ok(Some(rubber::measured_modulus(mpa(&young.value()), u)));
    }
    let Some(hardness) = hardness else {
        return Err(RoomError::input(
            "the load ring has neither hardness nor modulus",
            "give `hardness` from its certificate or a measured `modulus`",
        ));
    };
    rubber::modulus_from_hardness(hardness.value()).map(Some).map_err(|error| {
        RoomError::input(error.to_string(), "give a measured `modulus` in its place")
    })
}

/// Everything that the outcome is read from.
struct Joined<'i> {
    input: &'i Input,
    closing: Closing,
    problems: Vec<HalfProblem>,
    curves: Vec<HalfCurve>,
    halves: [LoadedHalf; 2],
}

impl Joined<'_> {
    fn outcome(self) -> Outcome {
        let springs = self.springs([1.0, 1.0]);
        let at = |gap: f64| self.load_at(&springs, gap);
        let at_gap = AtGap {
            min: at(self.closing.gap_min),
            nominal: at(self.closing.gap_nominal),
            max: at(self.closing.gap_max),
        };
        let complete = self.curves.iter().all(|curve| curve.complete);
        let alike = matches!(self.input.seals, Seals::Alike(_));
        let shown = if alike { &Half::BOTH[..1] } else { &Half::BOTH[..] };
        let halves = shown.iter().map(|half| self.half(*half, &at_gap)).collect();
        let (low, high) = self.limits();
        Outcome {
            halves,
            joint: JointOutcome {
                alike,
                curve: self.gap_curve(&springs),
                at_gap,
                band_mean_diameter_mm: self.band_mean_diameter(),
                face_load_min_n_per_mm: low,
                face_load_max_n_per_mm: high,
            },
            closing_force_n: at_gap.nominal.map(|load| load.force_n),
            error_band_percent: self.error_band(),
            verdict: self.verdict(&at_gap, complete),
            complete,
            remarks: self.remarks(&at_gap),
        }
    }

    /// Both halves' springs, each modulus multiplied by a factor.
    fn springs(&self, factor: [f64; 2]) -> [Spring; 2] {
        [0, 1].map(|i| Spring::new(&self.curves[i], self.halves[i].scale * factor[i]))
    }

    fn share(&self, springs: &[Spring; 2], gap: f64) -> Option<Shared> {
        series(&springs[0], &springs[1], self.closing.total(gap))
    }

    /// The band that both rings share; half `a`'s where they do not overlap.
    fn band(&self) -> (f64, f64) {
        let [a, b] = &self.halves;
        let together = (a.band.0.max(b.band.0), a.band.1.min(b.band.1));
        if together.0 < together.1 { together } else { a.band }
    }

    fn band_mean_diameter(&self) -> f64 {
        let (inner, outer) = self.band();
        f64::midpoint(inner, outer)
    }

    fn circumference(&self) -> f64 {
        PI * self.band_mean_diameter()
    }

    fn load_at(&self, springs: &[Spring; 2], gap: f64) -> Option<GapLoad> {
        let shared = self.share(springs, gap)?;
        let face_load = shared.force_n / self.circumference();
        let (inner, outer) = self.band();
        let relative = self.relative_uncertainty(gap, shared.force_n);
        let u = face_load * relative;
        let (low, high) = self.limits();
        let limits = Limits::new(low, high);
        Some(GapLoad {
            gap_mm: gap,
            face_load_n_per_mm: face_load,
            standard_uncertainty_n_per_mm: u,
            force_n: shared.force_n,
            face_pressure_mpa: shared.force_n / (PI / 4.0 * (outer * outer - inner * inner)),
            travel_a_mm: shared.travel_a_mm,
            travel_b_mm: shared.travel_b_mm,
            probability_conforms: limits.map(|limits| probability_within(face_load, u, limits)),
        })
    }

    /// Share of the force that it is uncertain by. Both moduli are taken as wrong the same way, as
    /// one batch and one relation make them; the band of the computation is a rectangle.
    fn relative_uncertainty(&self, gap: f64, force: f64) -> f64 {
        const STEP: f64 = 1e-3;
        let band = self.error_band().unwrap_or(0.0) / 100.0 / 3f64.sqrt();
        if force <= 0.0 {
            return 0.0;
        }
        let moduli: f64 = [[STEP, 0.0], [0.0, STEP]]
            .into_iter()
            .zip(&self.halves)
            .map(|(step, half)| {
                let springs = self.springs([1.0 + step[0], 1.0 + step[1]]);
                // Beyond the end of a curve the share of two like springs is taken: half each.
                let share = self
                    .share(&springs, gap)
                    .map_or(0.5, |moved| (moved.force_n / force - 1.0) / STEP);
                share * half.relative_uncertainty
            })
            .sum();
        libm::hypot(moduli, band)
    }

    fn gap_curve(&self, springs: &[Spring; 2]) -> Vec<GapPoint> {
        const POINTS: usize = 48;
        let open = self.closing.free_mm[0] + self.closing.free_mm[1];
        let closed = self.closing.gap_min.min(self.closing.gap_nominal);
        (0..=POINTS)
            .map(|i| open + (closed - open) * i as f64 / POINTS as f64)
            .filter_map(|gap| {
                let force_n = self.share(springs, gap)?.force_n;
                let face_load_n_per_mm = force_n / self.circumference();
                Some(GapPoint { gap_mm: gap, face_load_n_per_mm, force_n })
            })
            .collect()
    }

    fn half(&self, half: Half, at_gap: &AtGap) -> HalfOutcome {
        let i = half as usize;
        let (loaded, curve) = (&self.halves[i], &self.curves[i]);
        let seal = self.input.seals.pair()[i];
        let circumference = PI * f64::midpoint(loaded.band.0, loaded.band.1);
        let free = self.closing.free_mm[i];
        let band = curve.error_band_percent.unwrap_or(0.0) / 100.0 / 3f64.sqrt();
        let relative = libm::hypot(loaded.relative_uncertainty, band);
        let point = |point: &CurvePoint| {
            let force_n = point.force_n * loaded.scale;
            LoadPoint {
                travel_mm: point.travel_mm,
                height_mm: free - point.travel_mm,
                face_load_n_per_mm: force_n / circumference,
                standard_uncertainty_n_per_mm: force_n / circumference * relative,
                force_n,
                roll_deg: point.roll_deg,
                peak_contact_mpa: point.peak_mpa * loaded.scale,
                max_principal_stretch: point.max_principal_stretch,
            }
        };
        let travel =
            |load: Option<GapLoad>| load.map(|load| [load.travel_a_mm, load.travel_b_mm][i]);
        HalfOutcome {
            half,
            free_height_mm: free,
            height_at_nominal_gap_mm: travel(at_gap.nominal).map(|travel| free - travel),
            curve: curve.points.iter().map(point).collect(),
            slip_friction: travel(at_gap.max)
                .and_then(|from| slip_friction(&self.problems[i], curve, from)),
            steepens_at_travel_mm: steepens_at(&curve.points),
            lip_clearance_mm: lip_clearance(seal, curve, free),
            ring_weight_n_per_mm: loaded.weight_n / circumference,
            modulus: loaded.modulus,
            disc_spring_n: disc_spring::beside(seal, curve),
            section: Drawn {
                problem: self.problems[i].clone(),
                curve: curve.clone(),
                scale: loaded.scale,
            },
        }
    }

    fn error_band(&self) -> Option<f64> {
        self.curves.iter().filter_map(|curve| curve.error_band_percent).reduce(f64::max)
    }

    /// Face-load limits that both seals leave together, N/mm.
    fn limits(&self) -> (Option<f64>, Option<f64>) {
        let bounds = self.input.seals.pair().map(|seal| {
            let limit = seal.limits.face_load.as_ref();
            // N/m to N/mm.
            limit.map_or((None, None), |limit| {
                let (low, high) = limit.bounds_si();
                (low.map(|x| x / 1e3), high.map(|x| x / 1e3))
            })
        });
        let [(low_a, high_a), (low_b, high_b)] = bounds;
        let tighter = |a: Option<f64>, b: Option<f64>, pick: fn(f64, f64) -> f64| {
            a.zip(b).map(|(a, b)| pick(a, b)).or(a).or(b)
        };
        (tighter(low_a, low_b, f64::max), tighter(high_a, high_b, f64::min))
    }

    /// The worst of the three gaps; nothing is drawn from a curve that was not solved to its end.
    fn verdict(&self, at_gap: &AtGap, complete: bool) -> Verdict {
        let three = [at_gap.min, at_gap.nominal, at_gap.max];
        if !complete || three.iter().any(Option::is_none) {
            return Verdict::NotProven;
        }
        let verdicts = three
            .into_iter()
            .flatten()
            .map(|load| load.probability_conforms.map(|p| self.input.levels.verdict(p)));
        // A load without limits is not proven to be right.
        verdicts
            .map(|verdict| verdict.unwrap_or(Verdict::NotProven))
            .max()
            .unwrap_or(Verdict::NotProven)
    }

    fn remarks(&self, at_gap: &AtGap) -> Vec<String> {
        let mut remarks: Vec<String> =
            self.curves.iter().filter_map(|curve| curve.reason.clone()).collect();
        remarks.dedup();
        let missing = [at_gap.min, at_gap.nominal, at_gap.max].iter().any(Option::is_none);
        if missing && remarks.is_empty() {
            remarks.push(
                "At a gap within its limits the two halves have no steady share of the travel: the \
                 load falls as a half is squeezed further (a tall cone does that), so one half \
                 snaps down and the other comes up."
                    .to_owned(),
            );
        }
        let hardness = self.halves.iter().any(|half| {
            half.modulus.is_some_and(|modulus| modulus.basis == rubber::ModulusBasis::Hardness)
        });
        if hardness {
            remarks.push(
                "The modulus is taken from hardness alone; a measured squeeze curve or modulus \
                 makes the load far better known."
                    .to_owned(),
            );
        }
        remarks
    }
}

/// The most friction that either ramp asks for from the largest gap on; null for a washer, which
/// does not roll, and where sliding was already allowed. Before the load rings bear, the mounted
/// toric's own hoop tension asks for more, and the ring's tail stop holds it.
fn slip_friction(problem: &HalfProblem, curve: &HalfCurve, from_travel_mm: f64) -> Option<f64> {
    let rolls = matches!(problem.section, SectionOf::Toric { .. }) && problem.friction.is_none();
    let asked = curve.points.iter().filter(|point| point.travel_mm >= from_travel_mm);
    asked.map(|point| point.friction_asked).reduce(f64::max).filter(|_| rolls)
}

/// Smallest distance of the deformed load ring from the lip at the end of the curve: the lip is the
/// metal outside its diameter, from the housing face to its height.
fn lip_clearance(seal: &Seal, curve: &HalfCurve, free_height_mm: f64) -> Option<f64> {
    let RetainingLip { diameter, height } = seal.housing.lip.as_ref()?;
    let toric = geometry::mounted(seal)?;
    let ramp = seal.ring.ramp.as_ref()?;
    let behind = mm(toric.section_diameter) / 2.0 * libm::sin(ramp.angle.value().si());
    // The picture's z starts at the centroid; the centroid starts here behind the housing face.
    let centroid = mm(ramp.plane_from_face.value()) + behind - free_height_mm;
    let (radius, deep) = (mm(diameter.value()) / 2.0, mm(height.value()));
    let frame = curve.picture.frames.last()?;
    curve
        .picture
        .boundary
        .iter()
        .flat_map(|edge| edge.iter())
        .map(|node| {
            let [r, z] = frame.nodes[*node as usize].map(f64::from);
            let (inside, behind) = ((radius - r).max(0.0), (z + centroid - deep).max(0.0));
            libm::hypot(inside, behind)
        })
        .reduce(f64::min)
}

fn mm(length: Length) -> f64 {
    libm::round(length.si() * 1e12) / 1e9
}

#[cfg(test)]
mod tests;
