//! What brings the edges of a conical washer down all round.
//!
//! A new washer and its seats are never quite even: at first only its highest places bear. It is
//! pressed until the lowest bears too, by no more than the range of the assembled height that the
//! seal's file allows. Finite elements flatten the section by that much between two flat seats, on
//! which its edges slide with friction. That force all round is an upper bound: where the washer
//! stands lower it is flattened by less. Flattened, the inner edge wants to go inwards and the
//! outer one outwards: where the ring's shoulder and the housing's bore hold them so that they
//! can't slide, it takes far more, and that force is given too.
//!
//! The joint must flatten it by more than that, or a place bears nothing when the joint is closed:
//! compared at the largest gap, against its like.

use ringtrue_metrology::conformity::{Limits, Verdict, judge};
use ringtrue_metrology::units::{Length, length_text};
use ringtrue_words::say;
use serde::Serialize;
use uom::si::length::millimeter;

use super::{Finding, Given, Input, Method, Outcome, Seated, Surface, mm, push_not_known};
use crate::definition::seal::ConicalWasher;
use crate::face_load::disc_spring::{self, against_yield};
use crate::face_load::{Drawn, HalfCurve, HalfProblem, LoadedHalf};
use crate::finding::{shown_mm, system_of};
use crate::{RoomError, geometry};

/// By how much a washer stands uneven where the seal's file has no range of the assembled height,
/// mm: common practice, no source.
const UNEVEN_MM: f64 = 1.0;
/// A measured height of this many times the drawn one is a slip of the hand.
const MOST_TALL: f64 = 3.0;

/// The washer between its seats.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Edges {
    /// Assembled height at which the washer just touches both seats, with its own height as
    /// measured where that is stated, else as drawn.
    pub free_height_mm: f64,
    /// Height of the free washer on a flat plate, as drawn.
    pub drawn_washer_height_mm: f64,
    /// The same as measured.
    pub measured_washer_height_mm: Option<f64>,
    /// Standard uncertainty of the measured one.
    pub measured_standard_uncertainty_mm: Option<f64>,
    /// Assembled height that the ring's own weight presses it to, the ring on top; null where that
    /// is below `sits_at_height_mm`.
    pub rests_at_height_mm: Option<f64>,
    /// How far it is pressed down until the edges bear all round.
    pub pressed_down: Given,
    /// Assembled height at which they do.
    pub sits_at_height_mm: f64,
    /// At each surface that it may go in with.
    pub pressed: Vec<Pressed>,
    /// Force all round where shoulder and bore hold edges of rubber so that they can't slide; null
    /// for steel, whose edges have room, and where the computation did not come so far.
    pub held_force_n: Option<f64>,
    /// The disc-spring formula at the same deflection, N; null for rubber and for an outline that
    /// is no disc spring's. It is 3 to 11 % above finite elements.
    pub disc_spring_n: Option<f64>,
    /// The flattened section at the friction that counts, for drawing.
    #[serde(skip)]
    pub drawn: Drawn,
}

/// The force at one friction; null where the computation did not come so far.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Pressed {
    /// Dry or wetted.
    pub surface: Surface,
    /// Friction coefficient of the edges on their seats.
    pub friction: f64,
    /// Force all round when the edges sit.
    pub force_n: Option<f64>,
    /// Largest principal stretch as far as it was flattened.
    pub max_principal_stretch: f64,
}

/// The seating of a conical washer.
pub(super) fn seated(input: &Input, washer: &ConicalWasher) -> Result<Outcome, RoomError> {
    let seal = &input.seal;
    let half = LoadedHalf::of(seal, input.material.as_ref())?;
    let Some(drawn) = geometry::free_height(seal).map(mm) else {
        return Err(RoomError::input(
            say!("seating-washer-has-no-outline"),
            say!("seating-outline-wanted"),
        ));
    };
    let range = seal.limits.height_range.as_ref().and_then(|limit| limit.max.as_ref());
    let pressed_down = Given::of(range, mm, UNEVEN_MM);
    let tall = tall(washer);
    let measured = measured(input, tall)?;
    if !(pressed_down.value > 0.0 && pressed_down.value < tall) {
        let found = say!(
            "seating-height-range-too-wide",
            range = pressed_down.value.to_string(),
            height = tall.to_string()
        );
        return Err(RoomError::input(found, say!("seating-height-range-wanted")));
    }
    let flatten_at = |friction: Option<f64>| {
        HalfProblem::of(seal, half.form.clone(), pressed_down.value, friction)
    };
    let flatten = |friction: f64| flatten_at(Some(friction));
    let counted = flatten(input.friction(input.surface()))?;
    let other = match input.surface() {
        // Steel goes in dry, whatever it is cleaned with.
        Surface::Dry if seal.load_ring.is_steel() => None,
        Surface::Dry => Some(flatten(input.friction(Surface::Wetted))?),
        Surface::Wetted => Some(flatten(input.friction(Surface::Dry))?),
    };
    let held = if seal.load_ring.is_steel() { None } else { Some(flatten_at(None)?) };
    let about = input.friction_about().map(|about| about.map(flatten));
    let spoken = ringtrue_words::words();
    let ((curve, held), (beside, about)) = rayon::join(
        || {
            ringtrue_words::speaking(spoken, || {
                (counted.solve(), held.map(|problem| problem.solve()).transpose())
            })
        },
        || {
            ringtrue_words::speaking(spoken, || {
                let beside = other.map(|problem| problem.solve()).transpose();
                (beside, about.map(|about| about.map(|problem| problem?.solve())))
            })
        },
    );
    let about = about.map(|[below, above]| Ok::<_, RoomError>([below?, above?])).transpose()?;
    let shift = measured.map_or(0.0, |(height, _)| height - tall);
    let washer = Washer { input, half, free_mm: drawn + shift, tall, measured, pressed_down };
    let curves = Curves { counted: curve?, beside: beside?, about, held: held? };
    Ok(washer.outcome(counted, curves))
}

/// The height that was measured and its standard uncertainty, mm.
fn measured(input: &Input, tall: f64) -> Result<Option<(f64, f64)>, RoomError> {
    let Some(free) = input.free_height else { return Ok(None) };
    let (height, u) = (mm(free.height), mm(free.standard_uncertainty));
    if !(height > 0.0 && height < MOST_TALL * tall) {
        let found = say!(
            "seating-free-height-unfit",
            height = height.to_string(),
            drawn = tall.to_string()
        );
        return Err(RoomError::input(found, say!("seating-free-height-wanted")));
    }
    if !(u >= 0.0 && u < tall) {
        let found = say!("seating-free-height-uncertainty-unfit", uncertainty = u.to_string());
        return Err(RoomError::input(found, say!("seating-free-height-uncertainty-wanted")));
    }
    Ok(Some((height, u)))
}

/// Axial height of the free section, mm.
fn tall(washer: &ConicalWasher) -> f64 {
    let axial = || washer.outline.iter().map(|[_, axial]| mm(axial.value()));
    axial().fold(f64::NEG_INFINITY, f64::max) - axial().fold(f64::INFINITY, f64::min)
}

/// What was solved.
struct Curves {
    /// At the friction that counts.
    counted: HalfCurve,
    /// At that of the other surface that it may go in with.
    beside: Option<HalfCurve>,
    /// One standard uncertainty below and above the friction that counts.
    about: Option<[HalfCurve; 2]>,
    /// With edges of rubber that can't slide.
    held: Option<HalfCurve>,
}

/// What is known before the curves are read.
struct Washer<'i> {
    input: &'i Input,
    half: LoadedHalf,
    free_mm: f64,
    /// Height of the free washer as drawn.
    tall: f64,
    /// The same as measured, and its standard uncertainty.
    measured: Option<(f64, f64)>,
    pressed_down: Given,
}

impl Washer<'_> {
    fn outcome(self, problem: HalfProblem, curves: Curves) -> Outcome {
        let input = self.input;
        let Curves { counted: curve, beside, about, held } = curves;
        let counts = input.surface();
        let mut pressed = vec![self.pressed(counts, &curve)];
        let other = match counts {
            Surface::Dry => Surface::Wetted,
            Surface::Wetted => Surface::Dry,
        };
        pressed.extend(beside.map(|curve| self.pressed(other, &curve)));
        pressed.sort_by_key(|pressed| pressed.surface);
        let force = self.force(&curve);
        let by_friction = self.by_friction(force, about.as_ref());
        let stretch = stretch(&curve).max(held.as_ref().map_or(1.0, stretch));
        let band = curve.points.last().and_then(|point| point.error_band_percent);
        let band = band.or(curve.error_band_percent);
        let (complete, stopped) = (curve.complete, curve.stopped);
        let held_force_n = held.and_then(|held| self.force(&held));
        let edges = Edges { held_force_n, ..self.edges(pressed, (problem, curve)) };
        let yields = against_yield(&input.seal, self.deepest());
        let is_judged = yields.is_some();
        let findings = [self.as_drawn(), self.bears(&edges), yields].into_iter().flatten();
        let findings: Vec<Finding> = findings.collect();
        let heavy = force.is_some() && edges.rests_at_height_mm.is_none();
        let load_ring = Seated::ConicalWasher(Box::new(edges));
        let mut outcome = input.begun(load_ring, self.half.modulus);
        outcome.max_principal_stretch = stretch;
        outcome.error_band_percent = band;
        outcome.complete = complete;
        outcome.findings = findings;
        if let Some(force) = force {
            outcome.decide(force, by_friction, Method::Press);
            let stronger = held_force_n.map(|held| outcome.by(held, Method::Press));
            if let Some(stronger) = stronger.filter(|way| Some(*way) != outcome.method) {
                outcome
                    .remarks
                    .push(say!("seating-held-edges-ask-more", method = stronger.words()));
            }
        } else {
            outcome.remarks.push(push_not_known(stopped));
        }
        if heavy {
            outcome.remarks.push(say!("seating-own-weight-flattens").to_owned());
        }
        if input.seal.load_ring.is_steel() {
            outcome
                .remarks
                .extend((!is_judged).then(|| say!("seating-no-yield-strength").to_owned()));
        } else {
            let strain = input.strain(&outcome);
            outcome.findings.push(strain);
        }
        outcome
    }

    /// How far it is flattened at most: when its edges sit, or at the smallest gap against its
    /// like.
    fn deepest(&self) -> f64 {
        let gap = self.input.seal.limits.seal_gap.as_ref().and_then(|limit| limit.min.as_ref());
        let closed = gap.map_or(0.0, |gap| self.free_mm - mm(gap.value()) / 2.0);
        closed.max(self.pressed_down.value)
    }

    fn pressed(&self, surface: Surface, curve: &HalfCurve) -> Pressed {
        Pressed {
            surface,
            friction: self.input.friction(surface),
            force_n: self.force(curve),
            max_principal_stretch: stretch(curve),
        }
    }

    /// The force at the end of a curve that came so far.
    fn force(&self, curve: &HalfCurve) -> Option<f64> {
        let end = curve.points.last().filter(|_| curve.complete)?;
        Some(end.force_n * self.half.scale)
    }

    /// Half the difference of the forces one standard uncertainty of the friction above and below,
    /// over the force.
    fn by_friction(&self, force: Option<f64>, about: Option<&[HalfCurve; 2]>) -> Option<f64> {
        let Some([below, above]) = about else { return Some(0.0) };
        let (below, above) = (self.force(below)?, self.force(above)?);
        Some((above - below).abs() / 2.0 / force?)
    }

    fn edges(&self, pressed: Vec<Pressed>, (problem, curve): (HalfProblem, HalfCurve)) -> Edges {
        let under_weight = travel_at(&curve, self.half.weight_n / self.half.scale);
        let beside = disc_spring::beside(&self.input.seal, &curve);
        let down = self.pressed_down.value;
        let at_end = beside.last().filter(|(travel, _)| (travel - down).abs() < 1e-9 * down);
        Edges {
            free_height_mm: self.free_mm,
            drawn_washer_height_mm: self.tall,
            measured_washer_height_mm: self.measured.map(|(height, _)| height),
            measured_standard_uncertainty_mm: self.measured.map(|(_, u)| u),
            rests_at_height_mm: under_weight.map(|travel| self.free_mm - travel),
            sits_at_height_mm: self.free_mm - down,
            pressed_down: self.pressed_down.clone(),
            pressed,
            held_force_n: None,
            disc_spring_n: at_end.map(|(_, force)| *force),
            drawn: Drawn { problem, curve, scale: self.half.scale },
        }
    }

    /// Is the washer as tall as its limit or, where the file has none, its drawing says?
    fn as_drawn(&self) -> Option<Finding> {
        let (height, u) = self.measured?;
        let seal = &self.input.seal;
        let known = |mm: f64| {
            let [of, u] = [mm, u].map(Length::new::<millimeter>);
            length_text(of, Some(u), system_of(seal))
        };
        let found = say!("seating-height-measured", height = known(height), uncertainty = known(u));
        if let Some(limit) = &seal.limits.free_height {
            let (low, high) = limit.bounds_si();
            let limits = Limits::new(low.map(|x| x * 1e3), high.map(|x| x * 1e3))?;
            let verdict = judge(height, u, limits, seal.levels()).verdict;
            return Some(Finding::new(
                say!("seating-free-height-of-washer"),
                verdict,
                found,
                limit.words(),
            ));
        }
        let agree = (height - self.tall).abs() <= AGREE * u;
        let verdict = if agree { Verdict::Conforms } else { Verdict::NotProven };
        let fits = say!("seating-height-as-drawn", drawn = shown_mm(self.tall, seal));
        Some(Finding::new(say!("seating-free-height-of-washer"), verdict, found, fits))
    }

    /// Does the largest gap leave less than the free height, and by enough?
    fn bears(&self, edges: &Edges) -> Option<Finding> {
        let seal = &self.input.seal;
        let gap = seal.limits.seal_gap.as_ref()?.max.as_ref()?;
        let flattened = self.free_mm - mm(gap.value()) / 2.0;
        let down = edges.pressed_down.value;
        let u = self.measured.map_or(0.0, |(_, u)| u);
        let range = seal.limits.height_range.as_ref().and_then(|limit| limit.max.as_ref());
        // What is common practice is no limit of this washer's: nothing is proven by it.
        let verdict = match range {
            Some(_) => judge(flattened, u, Limits::at_least(down)?, seal.levels()).verdict,
            None => Verdict::NotProven,
        };
        Some(Finding::new(
            say!("seating-flattening-at-largest-gap"),
            verdict,
            say!("seating-flattening", flattened = shown_mm(flattened, seal), gap = gap.typed()),
            say!(
                "seating-flattening-wanted",
                least = shown_mm(down, seal),
                origin = edges.pressed_down.origin
            ),
        ))
    }
}

/// Standard uncertainties within which two heights agree.
const AGREE: f64 = 2.0;

fn stretch(curve: &HalfCurve) -> f64 {
    curve.points.iter().map(|point| point.max_principal_stretch).fold(1.0, f64::max)
}

/// The travel at which a curve first reaches a force, by straight lines between its points.
fn travel_at(curve: &HalfCurve, force_n: f64) -> Option<f64> {
    curve.points.windows(2).find_map(|pair| {
        let (from, to) = (&pair[0], &pair[1]);
        let within = from.force_n <= force_n && force_n <= to.force_n;
        let share = (force_n - from.force_n) / (to.force_n - from.force_n);
        let travel = from.travel_mm + share * (to.travel_mm - from.travel_mm);
        (within && travel.is_finite()).then_some(travel)
    })
}
