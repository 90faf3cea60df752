//! What brings the edges of a conical washer down all round.
//!
//! A new washer and its seats are never quite even: at first only its highest places bear. It is
//! pressed until the lowest bears too, by no more than the range of the assembled height that the
//! seal's file allows. Finite elements flatten the section by that much between two flat seats, on
//! which its edges slide with friction. That force all round is an upper bound: where the washer
//! stands lower it is flattened by less.
//!
//! The joint must flatten it by more than that, or a place bears nothing when the joint is closed:
//! compared at the largest gap, against its like.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::fixed;
use serde::Serialize;

use super::{Finding, Given, Input, Method, Outcome, Seated, Surface, mm};
use crate::definition::seal::ConicalWasher;
use crate::face_load::{Drawn, HalfCurve, HalfProblem, LoadedHalf, disc_spring};
use crate::{RoomError, geometry};

/// By how much a washer stands uneven where the seal's file has no range of the assembled height,
/// mm: common practice, no source.
const UNEVEN_MM: f64 = 1.0;

/// The washer between its seats.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Edges {
    /// Assembled height at which the washer just touches both seats.
    pub free_height_mm: f64,
    /// Assembled height that the ring's own weight presses it to, the ring on top; null where that
    /// is below `sits_at_height_mm`.
    pub rests_at_height_mm: Option<f64>,
    /// How far it is pressed down until the edges bear all round.
    pub pressed_down: Given,
    /// Assembled height at which they do.
    pub sits_at_height_mm: f64,
    /// At each surface that it may go in with.
    pub pressed: Vec<Pressed>,
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
    let Some(free) = geometry::free_height(seal).map(mm) else {
        return Err(RoomError::input("the washer has no outline", "its corners"));
    };
    let range = seal.limits.height_range.as_ref().and_then(|limit| limit.max.as_ref());
    let pressed_down = Given::of(range, mm, UNEVEN_MM);
    let tall = tall(washer);
    if !(pressed_down.value > 0.0 && pressed_down.value < tall) {
        let found = format!(
            "the assembled height may range over {} mm, and the washer is {tall} mm tall",
            pressed_down.value
        );
        return Err(RoomError::input(found, "a `limits.height_range` below the washer's height"));
    }
    let flatten = |surface: Surface| {
        let friction = Some(input.friction(surface));
        HalfProblem::of(seal, half.form.clone(), pressed_down.value, friction)
    };
    let counted = flatten(input.surface())?;
    let other = match input.surface() {
        // Steel goes in dry, whatever it is cleaned with.
        Surface::Dry if seal.load_ring.is_steel() => None,
        Surface::Dry => Some(flatten(Surface::Wetted)?),
        Surface::Wetted => Some(flatten(Surface::Dry)?),
    };
    let (curve, beside) =
        rayon::join(|| counted.solve(), || other.map(|problem| problem.solve()).transpose());
    let washer = Washer { input, half, free_mm: free, pressed_down };
    Ok(washer.outcome((counted, curve?), beside?.as_ref()))
}

/// Axial height of the free section, mm.
fn tall(washer: &ConicalWasher) -> f64 {
    let axial = || washer.outline.iter().map(|[_, axial]| mm(axial.value()));
    axial().fold(f64::NEG_INFINITY, f64::max) - axial().fold(f64::INFINITY, f64::min)
}

/// What is known before the curves are read.
struct Washer<'i> {
    input: &'i Input,
    half: LoadedHalf,
    free_mm: f64,
    pressed_down: Given,
}

impl Washer<'_> {
    fn outcome(
        self,
        (problem, curve): (HalfProblem, HalfCurve),
        beside: Option<&HalfCurve>,
    ) -> Outcome {
        let input = self.input;
        let counts = input.surface();
        let mut pressed = vec![self.pressed(counts, &curve)];
        let other = match counts {
            Surface::Dry => Surface::Wetted,
            Surface::Wetted => Surface::Dry,
        };
        pressed.extend(beside.map(|curve| self.pressed(other, curve)));
        pressed.sort_by_key(|pressed| pressed.surface);
        let force = self.force(&curve);
        let stretch = stretch(&curve);
        let band = curve.points.last().and_then(|point| point.error_band_percent);
        let band = band.or(curve.error_band_percent);
        let (complete, reason) = (curve.complete, curve.reason.clone());
        let edges = self.edges(pressed, (problem, curve));
        let findings: Vec<Finding> = self.bears(&edges).into_iter().collect();
        let heavy = force.is_some() && edges.rests_at_height_mm.is_none();
        let load_ring = Seated::ConicalWasher(Box::new(edges));
        let mut outcome = input.begun(load_ring, self.half.modulus);
        outcome.max_principal_stretch = stretch;
        outcome.error_band_percent = band;
        outcome.complete = complete;
        outcome.findings = findings;
        if let Some(force) = force {
            outcome.decide(force, Method::Press);
        } else {
            let reason = reason.as_deref().unwrap_or("stopped");
            outcome.remarks.push(format!("The push is not known: the computation {reason}."));
        }
        if heavy {
            outcome
                .remarks
                .push("The ring's own weight, on top, brings the edges down.".to_owned());
        }
        if input.seal.load_ring.is_steel() {
            outcome.remarks.push(STEEL.to_owned());
        } else {
            let strain = input.strain(&outcome);
            outcome.findings.push(strain);
        }
        outcome
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

    fn edges(&self, pressed: Vec<Pressed>, (problem, curve): (HalfProblem, HalfCurve)) -> Edges {
        let under_weight = travel_at(&curve, self.half.weight_n / self.half.scale);
        let beside = disc_spring::beside(&self.input.seal, &curve);
        let down = self.pressed_down.value;
        let at_end = beside.last().filter(|(travel, _)| (travel - down).abs() < 1e-9 * down);
        Edges {
            free_height_mm: self.free_mm,
            rests_at_height_mm: under_weight.map(|travel| self.free_mm - travel),
            sits_at_height_mm: self.free_mm - down,
            pressed_down: self.pressed_down.clone(),
            pressed,
            disc_spring_n: at_end.map(|(_, force)| *force),
            drawn: Drawn { problem, curve, scale: self.half.scale },
        }
    }

    /// Does the largest gap leave less than the free height, and by enough?
    fn bears(&self, edges: &Edges) -> Option<Finding> {
        let gap = self.input.seal.limits.seal_gap.as_ref()?.max.as_ref()?;
        let flattened = self.free_mm - mm(gap.value()) / 2.0;
        let down = edges.pressed_down.value;
        let verdict = if flattened >= down { Verdict::Conforms } else { Verdict::DoesNotConform };
        Some(Finding::new(
            "flattening at the largest gap",
            verdict,
            format!("{} mm, against its like at a gap of {gap}", fixed(flattened, 2)),
            format!(
                "at least the {} mm that bring the edges down all round ({})",
                fixed(down, 2),
                edges.pressed_down.origin
            ),
        ))
    }
}

const STEEL: &str = "Whether the steel stays below its yield is not judged: its maker's sheet says \
    how far it may be flattened.";

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
