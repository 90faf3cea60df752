//! The limits of a joint's own definition that a step's values are held against.

use ringtrue_metrology::units::Quantity;
use ringtrue_seal::definition::joint::{Half, Joint};
use ringtrue_seal::definition::limit::Limit;
use ringtrue_seal::definition::procedure::{DecidedBy, EvidenceKind, LimitKey, Procedure};
use ringtrue_seal::definition::seal::Limits;
use ringtrue_words::say;

use super::due_steps;

/// A limit as a joint states it.
#[derive(Debug, Clone, PartialEq)]
pub struct StatedLimit {
    /// Smallest value that conforms, SI.
    pub min_si: Option<f64>,
    /// Largest value that conforms, SI.
    pub max_si: Option<f64>,
    /// What each statement says, with its origin: `half a: at most 3.2 um (drawing 4711)`.
    pub stated: Vec<String>,
}

/// The limit that a value of a step is held against: of its half, or for a step of the whole joint
/// what both halves leave together, `min_si` above `max_si` where they contradict each other. The
/// seal gap is always that of the joint. `None` where the definition states no such limit.
#[must_use]
pub fn stated_limit(joint: &Joint, half: Option<Half>, key: LimitKey) -> Option<StatedLimit> {
    if key == LimitKey::SealGap {
        let together = joint.gap_limits();
        let (min_si, max_si) = (together.min.map(Quantity::si), together.max.map(Quantity::si));
        return (!together.stated.is_empty()).then_some(StatedLimit {
            min_si,
            max_si,
            stated: together.stated,
        });
    }
    let halves = half.map_or(Half::BOTH.to_vec(), |half| vec![half]);
    let mut together = StatedLimit { min_si: None, max_si: None, stated: Vec::new() };
    for half in halves {
        let Some((min, max, words)) = of_seal(&joint.seal(half).limits, key) else { continue };
        let tighter = |a: Option<f64>, b: Option<f64>, pick: fn(f64, f64) -> f64| {
            a.zip(b).map(|(a, b)| pick(a, b)).or(a).or(b)
        };
        together.min_si = tighter(together.min_si, min, f64::max);
        together.max_si = tighter(together.max_si, max, f64::min);
        together.stated.push(say!("job-limit-of-half", half = half.name(), limit = words));
    }
    (!together.stated.is_empty()).then_some(together)
}

type Bounds = (Option<f64>, Option<f64>, String);

fn of_seal(limits: &Limits, key: LimitKey) -> Option<Bounds> {
    fn bounds<Q: Quantity>(limit: &Option<Limit<Q>>) -> Option<Bounds> {
        let limit = limit.as_ref()?;
        let (min, max) = limit.bounds_si();
        Some((min, max, limit.words()))
    }
    match key {
        LimitKey::SealGap => bounds(&limits.seal_gap),
        LimitKey::FaceLoad => bounds(&limits.face_load),
        LimitKey::AssembledHeight => bounds(&limits.assembled_height),
        LimitKey::HeightRange => bounds(&limits.height_range),
        LimitKey::RampFinishRa => bounds(&limits.ramp_finish_ra),
        LimitKey::FaceFlatness => bounds(&limits.face_flatness),
        LimitKey::Eccentricity => bounds(&limits.eccentricity),
        LimitKey::Tip => bounds(&limits.tip),
        LimitKey::Speed => bounds(&limits.speed),
        LimitKey::Temperature => bounds(&limits.temperature),
        LimitKey::PressureDifference => bounds(&limits.pressure_difference),
        LimitKey::ToricStretch => bounds(&limits.toric_stretch),
        LimitKey::FreeHeight => bounds(&limits.free_height),
        LimitKey::RampAngleDifference => bounds(&limits.ramp_angle_difference),
        LimitKey::ToolDiameterDifference => bounds(&limits.tool_diameter_difference),
    }
}

/// The limits that a joint states and no gate of its due steps judges: a fitter should know that
/// nobody looks at them here.
#[must_use]
pub fn limits_without_gate(procedure: &Procedure, joint: &Joint) -> Vec<LimitKey> {
    let due = due_steps(procedure, joint).due;
    let judged = |key: LimitKey| {
        due.iter().any(|due| match due.step.gate.map(|gate| gate.decided_by) {
            Some(DecidedBy::Matching) => by_matching(key),
            Some(DecidedBy::AssembledHeight) => {
                matches!(key, LimitKey::AssembledHeight | LimitKey::HeightRange)
            }
            Some(DecidedBy::SealGap | DecidedBy::Closing) => key == LimitKey::SealGap,
            Some(DecidedBy::FaceLoad) => key == LimitKey::FaceLoad,
            Some(DecidedBy::Limits) => due
                .step
                .evidence
                .iter()
                .any(|one| one.kind == EvidenceKind::Value && one.limit == Some(key)),
            Some(DecidedBy::Alignment) => matches!(key, LimitKey::Eccentricity | LimitKey::Tip),
            Some(DecidedBy::Roughness) => key == LimitKey::RampFinishRa,
            Some(DecidedBy::Flatness) => key == LimitKey::FaceFlatness,
            Some(DecidedBy::Seating) => {
                matches!(key, LimitKey::ToricStretch | LimitKey::FreeHeight)
            }
            Some(
                DecidedBy::Chilling | DecidedBy::LeakTest | DecidedBy::Agents | DecidedBy::Evidence,
            )
            | None => false,
        })
    };
    LimitKey::ALL
        .into_iter()
        .filter(|key| stated_limit(joint, None, *key).is_some() && !judged(*key))
        .collect()
}

/// Limits that the comparison of a joint's definitions judges.
fn by_matching(key: LimitKey) -> bool {
    match key {
        LimitKey::Speed
        | LimitKey::Temperature
        | LimitKey::PressureDifference
        | LimitKey::ToricStretch
        | LimitKey::RampAngleDifference
        | LimitKey::ToolDiameterDifference => true,
        LimitKey::SealGap
        | LimitKey::FaceLoad
        | LimitKey::AssembledHeight
        | LimitKey::HeightRange
        | LimitKey::RampFinishRa
        | LimitKey::FaceFlatness
        | LimitKey::Eccentricity
        | LimitKey::Tip
        | LimitKey::FreeHeight => false,
    }
}
