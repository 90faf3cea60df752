//! Do the parts belong together?
//!
//! Cross-references between ring, load ring, housing, installing tool, material, oil, cleaning
//! agent, temperatures and gap chain. Each check gives a finding with its own verdict. A limit that
//! the file leaves out is not judged, save where geometry alone decides; a stated limit with
//! nothing to compare it with, an unknown material or an unknown fluid is not proven.

mod finding;
mod fluids;
mod halves;
mod papers;
mod ramps;
mod service;

use jiff::civil::Date;
use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::source::Source;
use serde::Serialize;

pub use crate::finding::Finding;

use crate::RoomError;
use crate::definition::gauge::Gauge;
use crate::definition::joint::{Half, Joint};
use crate::definition::material::Material;
use crate::definition::procedure::Procedure;
use crate::definition::seal::Seal;
use crate::finding::worst;

/// Where the formulas and rules come from; each finding names the figures' own sources besides.
pub const SOURCES: &[Source] = &[
    Source::CommonPractice(
        "mounted toric: constant volume of a stretched ring (Pappus), as O-ring handbooks take it",
    ),
    Source::CommonPractice(
        "ring, housing and installing tool are matched by ramp angle, not by size alone",
    ),
    Source::CommonPractice(
        "fluid ratings are for long immersion; a wipe is a short contact, for which fair is enough",
    ),
];

/// What is compared.
#[derive(Debug, Clone, PartialEq)]
pub enum Input {
    /// A joint with both its seals.
    Joint(Box<JointInput>),
    /// One seal alone.
    Seal(Box<SealInput>),
    /// A gauge, on a day.
    Gauge {
        /// The gauge.
        gauge: Gauge,
        /// The day on which it would be used.
        today: Date,
    },
    /// A material file alone.
    Material(Box<Material>),
    /// A procedure alone.
    Procedure(Box<Procedure>),
    /// A file that stands for itself: to be read is all it can be checked for.
    Alone,
}

/// A joint and the material files that its seals name.
#[derive(Debug, Clone, PartialEq)]
pub struct JointInput {
    /// The joint.
    pub joint: Joint,
    /// The material file of half `a`; `None` where it names a shipped material or steel.
    pub material_a: Option<Material>,
    /// The material file of half `b`; `None` where it names a shipped material or steel.
    pub material_b: Option<Material>,
}

/// A seal and the material file that it names.
#[derive(Debug, Clone, PartialEq)]
pub struct SealInput {
    /// The seal.
    pub seal: Seal,
    /// The material file; `None` where the seal names a shipped material or steel.
    pub material: Option<Material>,
}

/// What the checks found.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outcome {
    /// One finding a check, in the order in which a fitter would look.
    pub findings: Vec<Finding>,
    /// The worst of the findings; `conforms` when there was nothing to compare.
    pub verdict: Verdict,
}

/// Compares what can be compared.
///
/// # Errors
/// [`RoomError`] when a seal names a material file that was not handed over, or a link's tolerance
/// class has no limits for its size.
pub fn evaluate(input: &Input) -> Result<Outcome, RoomError> {
    let findings = match input {
        Input::Joint(joint) => of_joint(joint)?,
        Input::Seal(seal) => of_seal(&seal.seal, None, seal.material.as_ref())?,
        Input::Gauge { gauge, today } => vec![papers::calibration(gauge, *today)],
        Input::Material(material) => vec![papers::code(material)],
        Input::Procedure(procedure) => papers::hold_points(procedure),
        Input::Alone => Vec::new(),
    };
    let verdict = worst(&findings);
    Ok(Outcome { findings, verdict })
}

fn of_seal(
    seal: &Seal,
    half: Option<Half>,
    file: Option<&Material>,
) -> Result<Vec<Finding>, RoomError> {
    let stuff = fluids::stuff_of(seal, file)?;
    let mut findings = ramps::findings(seal);
    findings.extend(fluids::findings(seal, &stuff));
    for finding in &mut findings {
        finding.half = half;
    }
    Ok(findings)
}

fn of_joint(input: &JointInput) -> Result<Vec<Finding>, RoomError> {
    let joint = &input.joint;
    let mut findings = Vec::new();
    for (half, file) in [(Half::A, &input.material_a), (Half::B, &input.material_b)] {
        let seal = joint.seal(half);
        findings.extend(of_seal(seal, Some(half), file.as_ref())?);
        let stuff = fluids::stuff_of(seal, file.as_ref())?;
        let mut in_service = fluids::in_service(&joint.file.service, &stuff);
        in_service.extend(service::findings(&joint.file.service, seal));
        for finding in &mut in_service {
            finding.half = Some(half);
        }
        findings.extend(in_service);
    }
    findings.extend(halves::findings(joint)?);
    Ok(findings)
}

#[cfg(test)]
mod tests;
