//! Which steps a joint needs, in the order of the work.

use ringtrue_seal::definition::joint::{Half, Joint};
use ringtrue_seal::definition::procedure::{Procedure, Rule, Stage, Step, Times};

use super::rule::against;

/// A step that the joint needs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DueStep<'p> {
    /// The step.
    pub step: &'p Step,
    /// The half it is done on; `None` where it is done once for the joint.
    pub half: Option<Half>,
}

/// A step that the joint does not need.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FellAway<'p> {
    /// The step.
    pub step: &'p Step,
    /// The half it is not done on; `None` where it is a step of the whole joint.
    pub half: Option<Half>,
    /// The first of its rules that does not hold.
    pub rule: Rule,
    /// Why it does not hold: `the seal's file does not allow chilling`.
    pub because: String,
}

/// All steps of a procedure, parted by what a joint needs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DueSteps<'p> {
    /// What is to be done, in order.
    pub due: Vec<DueStep<'p>>,
    /// What falls away, in the same order.
    pub fell_away: Vec<FellAway<'p>>,
}

/// Stages that are gone through together, on one half before the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Round {
    Joint,
    Inspect,
    BuildUp,
}

/// The steps that a joint needs, worked out from its own definition.
///
/// Both halves are inspected before either is built up, so that a housing that is refused stops the
/// job before anything is fitted; then half `a` is built up from *clean* to *level*, then half `b`:
/// a wetted toric does not wait for the other half.
#[must_use]
pub fn due_steps<'p>(procedure: &'p Procedure, joint: &Joint) -> DueSteps<'p> {
    let mut steps = DueSteps { due: Vec::new(), fell_away: Vec::new() };
    let mut rest = procedure.step.as_slice();
    while let Some(first) = rest.first() {
        let round = round(first.stage);
        let length = rest.iter().take_while(|step| self::round(step.stage) == round).count();
        let (together, behind) = rest.split_at(length);
        rest = behind;
        let halves: &[Option<Half>] = match first.stage.times() {
            Times::Once => &[None],
            Times::EachHalf => &[Some(Half::A), Some(Half::B)],
        };
        for half in halves {
            together.iter().for_each(|step| steps.sort_in(step, *half, joint));
        }
    }
    steps
}

impl<'p> DueSteps<'p> {
    fn sort_in(&mut self, step: &'p Step, half: Option<Half>, joint: &Joint) {
        let fails = |rule: &Rule| against(*rule, joint, half).map(|because| (*rule, because));
        match step.when.iter().find_map(fails) {
            None => self.due.push(DueStep { step, half }),
            Some((rule, because)) => {
                self.fell_away.push(FellAway { step, half, rule, because });
            }
        }
    }
}

fn round(stage: Stage) -> Round {
    match stage {
        Stage::Inspect => Round::Inspect,
        Stage::Clean | Stage::Mount | Stage::Chill | Stage::Seat | Stage::Level => Round::BuildUp,
        Stage::Open
        | Stage::Identify
        | Stage::Close
        | Stage::Prove
        | Stage::RunIn
        | Stage::Sign => Round::Joint,
    }
}
