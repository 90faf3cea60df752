//! The procedure: a whole job as steps that a shop may edit and number anew.
//!
//! What is written stands here, beside the other definitions; which steps a joint needs is worked
//! out by `ringtrue_job::procedure`.

mod rules;
mod words;

pub use words::{
    DecidedBy, EvidenceKind, Hazard, HoldPoint, LimitKey, LoadRingType, Measures, Need,
    QuantityKind, ReadingSet, Rule, Stage,
};

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::seal::LoadRing;

/// A whole job, step by step.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Procedure {
    /// `ringtrue/procedure/1`.
    pub schema: String,
    /// What the shop calls it.
    pub name: String,
    /// Its edition, as the shop counts: `3`, `2026-11`.
    pub version: String,
    /// Where it comes from: job sheet, seal maker's instruction, `common practice, no source`.
    pub origin: String,
    /// The load ring that it is for.
    pub load_ring: LoadRingType,
    /// What is said before each step that has the hazard.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub caution: Vec<Caution>,
    /// The steps, in the order of the work.
    pub step: Vec<Step>,
}

/// A hazard and the words that stand before each step that has it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Caution {
    /// What can hurt.
    pub hazard: Hazard,
    /// What to do about it, deferring to safety data sheet, local codes and licensed practice.
    pub text: String,
}

/// One step of the work.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// Its name in the record: small letters, digits and hyphens.
    pub id: String,
    /// The part of the job it belongs to.
    pub stage: Stage,
    /// A short title.
    pub title: String,
    /// What to do.
    pub what: String,
    /// What goes wrong otherwise, and how that shows later.
    pub why: String,
    /// Rules of the joint that must all hold; a step without them is always due.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub when: Vec<Rule>,
    /// Hazards of this step; the text of each is said before it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub hazards: Vec<Hazard>,
    /// What else to take care of, said before the step.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub caution: Option<String>,
    /// What is recorded.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub evidence: Vec<Evidence>,
    /// What must conform before the work goes on.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gate: Option<Gate>,
}

/// How often the steps of a stage are done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Times {
    /// Once for the joint.
    Once,
    /// Once for each half.
    EachHalf,
}

/// One thing that a step records.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Evidence {
    /// Its name within the step: small letters, digits and hyphens.
    pub name: String,
    /// What it is.
    pub kind: EvidenceKind,
    /// What is asked for, in a few words.
    pub ask: String,
    /// Whether the step can be done without it.
    #[serde(default, skip_serializing_if = "Need::is_always")]
    pub need: Need,
    /// What a value measures; with `kind = "value"` only.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub quantity: Option<QuantityKind>,
    /// How a value may be typed; with `kind = "value"` only.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub example: Option<String>,
    /// What a value measures of the joint: what stands far from what the joint's files say of it is
    /// asked back; with `kind = "value"` only.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub measures: Option<Measures>,
    /// The limit of the joint's own definition that a value must keep; with `kind = "value"` only.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub limit: Option<LimitKey>,
    /// What the readings answer; with `kind = "reading-set"` only.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub readings: Option<ReadingSet>,
    /// Settings of the check that must be stated beside its readings, by name; with
    /// `kind = "reading-set"` only.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub stated: Vec<String>,
}

/// What must conform before the work goes on. A gate that does not conform, or is not proven,
/// holds the job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Gate {
    /// What decides.
    pub decided_by: DecidedBy,
    /// The hold point that it keeps: the fitter signs there, and nobody goes past it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hold_point: Option<HoldPoint>,
}

impl LoadRingType {
    /// The type of a seal's load ring.
    #[must_use]
    pub fn of(load_ring: &LoadRing) -> Self {
        match load_ring {
            LoadRing::Toric(_) => Self::Toric,
            LoadRing::ConicalWasher(_) => Self::ConicalWasher,
        }
    }
}

/// The shipped procedure for a type of load ring, as text: a shop's own begins as a copy of it.
#[must_use]
pub fn shipped(load_ring: LoadRingType) -> &'static str {
    match load_ring {
        LoadRingType::Toric => include_str!("../../../data/procedure/toric.toml"),
        LoadRingType::ConicalWasher => include_str!("../../../data/procedure/conical-washer.toml"),
    }
}

impl Procedure {
    /// The step with this id.
    #[must_use]
    pub fn step(&self, id: &str) -> Option<&Step> {
        self.step.iter().find(|step| step.id == id)
    }

    /// The steps that keep a hold point in every joint: those without a rule.
    #[must_use]
    pub fn keepers(&self, point: HoldPoint) -> Vec<&Step> {
        let keeps = |step: &&Step| {
            step.when.is_empty() && step.gate.is_some_and(|gate| gate.hold_point == Some(point))
        };
        self.step.iter().filter(keeps).collect()
    }

    /// What is said before a step: the text of each of its hazards, then its own.
    #[must_use]
    pub fn cautions<'p>(&'p self, step: &'p Step) -> Vec<&'p str> {
        let of_hazards = step.hazards.iter().filter_map(|hazard| {
            self.caution.iter().find(|caution| caution.hazard == *hazard).map(|c| c.text.as_str())
        });
        of_hazards.chain(step.caution.as_deref()).collect()
    }
}

impl Step {
    /// The evidence with this name.
    #[must_use]
    pub fn evidence(&self, name: &str) -> Option<&Evidence> {
        self.evidence.iter().find(|evidence| evidence.name == name)
    }
}

impl Stage {
    /// Once, or once for each half: from *inspect* to *level* each half has its own.
    #[must_use]
    pub fn times(self) -> Times {
        match self {
            Self::Inspect | Self::Clean | Self::Mount | Self::Chill | Self::Seat | Self::Level => {
                Times::EachHalf
            }
            Self::Open | Self::Identify | Self::Close | Self::Prove | Self::RunIn | Self::Sign => {
                Times::Once
            }
        }
    }
}

impl Need {
    fn is_always(&self) -> bool {
        *self == Self::Always
    }
}

#[cfg(test)]
mod tests;
