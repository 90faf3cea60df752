//! How the toric gets past the retaining lip.
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

use std::f64::consts::TAU;

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{Quantity, fixed};
use ringtrue_words::say;
use serde::Serialize;

use super::passing::{COARSE_EDGES, EDGES, Fate, Passage, Passed, Passing};
use super::{Finding, Given, Input, Method, Outcome, Seated, Solver, Surface, mm, push_not_known};
use crate::RoomError;
use crate::definition::seal::{Chilling, RetainingLip, Seal, Toric};
use crate::face_load::rubber_modulus;
use crate::finding::shown_mm;
use crate::geometry::{self, MountedToric};
use crate::section::Stopped;

/// The toric on its ring and under the lip.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PastLip {
    /// Stretch of the inside diameter on the ring.
    pub stretch_percent: f64,
    /// Thinned section on the ring.
    pub section_mm: f64,
    /// Free section.
    pub free_section_mm: f64,
    /// Mounted outside diameter less the lip's diameter; null without a lip.
    pub interference_mm: Option<f64>,
    /// Is the ring pressed in all round, or worked in at one side?
    pub way: Way,
    /// Dry and wetted.
    pub pushes: Vec<Push>,
    /// Radius of the lip's nose; null without a lip.
    pub nose_radius: Option<Given>,
    /// The section on its way past the lip at the friction that counts, for drawing.
    #[serde(skip)]
    pub drawn: Option<(Passage, Passed)>,
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
            Self::PressedAllRound => say!("seating-way-pressed-in"),
            Self::WorkedInAtOneSide => say!("seating-way-worked-in"),
        }
    }
}

/// Half-width of the band over the difference of the two meshes.
const BAND_SAFETY: f64 = 1.5;

/// The seating of a toric.
pub(super) fn seated(
    (input, solver): (&Input, &mut Solver<'_>),
    toric: &Toric,
) -> Result<Outcome, RoomError> {
    let seal = &input.seal;
    let Some(mounted) = geometry::mounted(seal) else {
        return Err(RoomError::input(
            say!("seating-toric-lacks-ramp"),
            say!("seating-ramp-on-ring"),
        ));
    };
    if input.free_height.is_some() {
        let found = say!("seating-toric-with-free-height");
        return Err(RoomError::input(found, say!("seating-leave-free-height-out")));
    }
    let Some(modulus) = rubber_modulus(seal, input.material.as_ref())? else {
        return Err(RoomError::input(say!("seating-no-modulus"), say!("seating-hardness-wanted")));
    };
    let mut past = on_the_ring(seal, mm(toric.section_diameter.value()), &mounted);
    let crossed = match &seal.housing.lip {
        Some(lip) => past.under((input, solver), (&mounted, lip), modulus.young_mpa)?,
        None => None,
    };
    let interference = past.interference_mm;
    let mut outcome = input.begun(Seated::Toric(Box::new(past)), Some(modulus));
    outcome.max_principal_stretch = 1.0 + mounted.hoop_stretch.max(0.0);
    outcome.findings.extend(stretch(seal, mounted.stretch));
    match interference {
        Some(interference) => outcome.findings.push(held(interference, seal)),
        None => outcome.remarks.push(say!("seating-no-lip").to_owned()),
    }
    if let Some(crossed) = crossed {
        crossed.tell(seal, &mut outcome);
    }
    let strain = input.strain(&outcome);
    outcome.findings.push(strain);
    Ok(outcome)
}

/// What the ring alone does to the toric.
fn on_the_ring(seal: &Seal, free_section_mm: f64, mounted: &MountedToric) -> PastLip {
    let pressed = seal
        .fitting
        .pressed_up_to
        .as_ref()
        .is_none_or(|up_to| seal.ring.face_outer_diameter.value() <= up_to.value());
    PastLip {
        stretch_percent: 100.0 * mounted.stretch,
        section_mm: mm(mounted.section_diameter),
        free_section_mm,
        interference_mm: None,
        way: if pressed { Way::PressedAllRound } else { Way::WorkedInAtOneSide },
        pushes: Vec::new(),
        nose_radius: None,
        drawn: None,
    }
}

/// How the crossing at the friction that counts went.
struct Crossed {
    fate: Fate,
    stopped: Option<Stopped>,
    /// Push the way that the file names, N.
    push_n: Option<f64>,
    max_principal_stretch: f64,
    error_band_percent: Option<f64>,
    /// Share of the push that one standard uncertainty of the friction is worth.
    by_friction: Option<f64>,
    /// What becomes of it at a friction one standard uncertainty higher.
    at_more_friction: Option<(f64, Fate)>,
}

/// The ways that are solved.
struct Ways {
    dry: Passed,
    wet: Passed,
    /// On a coarser mesh, at the friction that counts.
    coarse: Passed,
    /// On that mesh, one standard uncertainty below and above that friction; none where it is
    /// exact.
    about: Option<[Passed; 2]>,
}

impl Ways {
    fn solve(
        (input, solver): (&Input, &mut Solver<'_>),
        passage: Passage,
    ) -> Result<Self, RoomError> {
        let [dry, wet] = [Surface::Dry, Surface::Wetted].map(|surface| input.friction(surface));
        let fine = |friction| Passing { passage, friction, edges: EDGES };
        let coarse = |friction| Passing { edges: COARSE_EDGES, ..fine(friction) };
        let mut problems = vec![fine(dry), fine(wet), coarse(input.friction(input.surface()))];
        problems.extend(input.friction_about().into_iter().flatten().map(coarse));
        let solved = solver(&problems).into_iter().collect::<Result<Vec<_>, _>>()?;
        let mut solved = solved.into_iter();
        let mut next =
            || solved.next().unwrap_or_else(|| unreachable!("a way less than {}", problems.len()));
        let (dry, wet, coarse) = (next(), next(), next());
        let about = (problems.len() > 3).then(|| [next(), next()]);
        Ok(Self { dry, wet, coarse, about })
    }

    /// Half the difference of the pushes one standard uncertainty above and below, over the push
    /// on the same mesh; one side of it where the friction below gives none.
    fn by_friction(&self, of: impl Fn(&Passed) -> Option<f64>) -> Option<f64> {
        let Some([below, above]) = &self.about else { return Some(0.0) };
        let (here, above) = (of(&self.coarse)?, of(above)?);
        let change = of(below).map_or(above - here, |below| (above - below) / 2.0);
        Some(change.abs() / here)
    }
}

impl PastLip {
    /// What the lip asks; nothing is crossed where it does not stand in the way.
    fn under(
        &mut self,
        (input, solver): (&Input, &mut Solver<'_>),
        (mounted, lip): (&MountedToric, &RetainingLip),
        young_mpa: f64,
    ) -> Result<Option<Crossed>, RoomError> {
        let interference = mm(mounted.outside_diameter()) - mm(lip.diameter.value());
        let nose = Given::of(lip.edge_radius.as_ref(), mm, mm(lip.height.value()) / 2.0);
        let nose_radius_mm = nose.value;
        self.interference_mm = Some(interference);
        self.nose_radius = Some(nose);
        let Some(ramp) = input.seal.ring.ramp.as_ref().filter(|_| interference > 0.0) else {
            return Ok(None);
        };
        let passage = Passage {
            section_mm: self.section_mm,
            mean_radius_mm: mm(mounted.centroid_diameter) / 2.0,
            hoop_stretch: 1.0 + mounted.hoop_stretch,
            ramp_deg: ramp.angle.value().si().to_degrees(),
            nose_radius_mm,
            overlap_mm: interference / 2.0,
        };
        let ways = Ways::solve((input, solver), passage)?;
        let pushes = [(Surface::Dry, &ways.dry), (Surface::Wetted, &ways.wet)]
            .map(|(surface, passed)| push(&passage, (surface, passed), young_mpa));
        let (pushed, counted) = match input.surface() {
            Surface::Dry => (&pushes[0], &ways.dry),
            Surface::Wetted => (&pushes[1], &ways.wet),
        };
        let crossed = Crossed {
            fate: counted.fate,
            stopped: counted.stopped,
            push_n: match self.way {
                Way::PressedAllRound => pushed.all_round_n,
                Way::WorkedInAtOneSide => pushed.one_side_n,
            },
            max_principal_stretch: pushed.max_principal_stretch,
            error_band_percent: counted
                .most()
                .zip(ways.coarse.most())
                .map(|(fine, coarse)| 100.0 * BAND_SAFETY * (1.0 - coarse / fine).abs()),
            by_friction: ways.by_friction(|passed| match self.way {
                Way::PressedAllRound => passed.most(),
                Way::WorkedInAtOneSide => passed.one_side(&passage),
            }),
            at_more_friction: ways.about.as_ref().map(|[_, above]| (above.friction, above.fate)),
        };
        let counted = counted.clone();
        self.pushes = pushes.to_vec();
        self.drawn = Some((passage, counted));
        Ok(Some(crossed))
    }
}

impl Crossed {
    /// What it comes to.
    fn tell(self, seal: &Seal, outcome: &mut Outcome) {
        outcome.max_principal_stretch =
            outcome.max_principal_stretch.max(self.max_principal_stretch);
        outcome.error_band_percent = self.error_band_percent;
        outcome.complete = self.push_n.is_some();
        if let Some(force) = self.push_n {
            let stronger = match seal.fitting.chilling {
                Chilling::Allowed => Method::ChillFirst,
                Chilling::NotAllowed => Method::Press,
            };
            outcome.decide(force, self.by_friction, stronger);
            outcome.findings.extend(self.with_more_friction());
            return;
        }
        outcome.remarks.push(match self.fate {
            Fate::SlidesPast | Fate::NotComputed => push_not_known(self.stopped),
            Fate::Folds => say!("seating-folds").to_owned(),
        });
    }

    /// A toric that goes past at the friction that is taken, and perhaps not at the true one.
    fn with_more_friction(&self) -> Option<Finding> {
        let (friction, fate) = self.at_more_friction?;
        match fate {
            Fate::SlidesPast => None,
            Fate::Folds | Fate::NotComputed => Some(Finding::new(
                say!("seating-way-past-the-lip"),
                Verdict::NotProven,
                say!("seating-at-friction", friction = fixed(friction, 2), fate = fate.words()),
                say!("seating-slides-past-wanted"),
            )),
        }
    }
}

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

fn stretch(seal: &Seal, found: f64) -> Option<Finding> {
    let limit = seal.limits.toric_stretch.as_ref()?;
    let (low, high) = limit.bounds_si();
    let inside = low.is_none_or(|low| found >= low) && high.is_none_or(|high| found <= high);
    let verdict = if inside { Verdict::Conforms } else { Verdict::DoesNotConform };
    let percent = |x: Option<f64>| {
        x.map_or(say!("seating-stretch-no-limit").to_owned(), |x| {
            format!("{} %", fixed(100.0 * x, 1))
        })
    };
    let fits = say!(
        "seating-stretch-from-to",
        low = percent(low),
        high = percent(high),
        origin = limit.origin
    );
    Some(Finding::new(
        say!("seating-stretch-on-ring"),
        verdict,
        format!("{} %", fixed(100.0 * found, 2)),
        fits,
    ))
}

fn held(interference_mm: f64, seal: &Seal) -> Finding {
    let held = interference_mm > 0.0;
    Finding::new(
        say!("seating-interference-at-lip"),
        if held { Verdict::Conforms } else { Verdict::DoesNotConform },
        say!("seating-interference", interference = shown_mm(interference_mm, seal)),
        say!("seating-interference-wanted"),
    )
}
