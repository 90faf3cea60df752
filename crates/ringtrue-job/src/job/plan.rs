//! The definitions of a job, and how far its steps have come.

use std::collections::BTreeMap;

use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::agents::{self, Agent, read_list};
use ringtrue_seal::definition::gauge::Gauge;
use ringtrue_seal::definition::joint::{Half, Joint, JointFile};
use ringtrue_seal::definition::material::Material;
use ringtrue_seal::definition::procedure::{Evidence, Measures, Need, Procedure, Step};
use ringtrue_seal::definition::{self, Definition, Kind, TextError};
use ringtrue_words::say;

use super::Job;
use super::step::StepState;
use crate::digest::Digest;
use crate::event::{Entry, Meaning, Opened, Place};
use crate::procedure::due_steps;

/// Texts by their content hash.
pub type Documents = BTreeMap<Digest, String>;

/// Why a job's definitions can't be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PlanError {
    /// A text is not there.
    #[error("{}", say!("job-plan-missing", kind = .0))]
    Missing(&'static str),
    /// A text is there and can't be read by this program.
    #[error("{}", say!("job-plan-unread", kind = .kind, error = .error.to_string()))]
    Text {
        /// What it is.
        kind: &'static str,
        /// What does not fit.
        error: TextError,
    },
    /// The joint is not whole.
    #[error("{}", say!("job-plan-seal-elsewhere"))]
    SealElsewhere,
    /// The joint can't be written down with its seals.
    #[error("{}", say!("job-plan-not-written", error = .0))]
    NotWritten(String),
}

/// The text of a joint file with both seals held inline: what a job keeps, whole in itself.
///
/// # Errors
/// [`PlanError::NotWritten`]
pub fn whole_joint(joint: &Joint) -> Result<String, PlanError> {
    let mut file = joint.file.clone();
    for (half, seal) in [(&mut file.half.a, &joint.a), (&mut file.half.b, &joint.b)] {
        half.seal_file = None;
        half.seal = Some(Box::new(seal.clone()));
    }
    toml::to_string(&file).map_err(|error| PlanError::NotWritten(error.to_string()))
}

/// Definitions of a job.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// The joint.
    pub joint: Joint,
    /// The figures of half a's material.
    pub material_a: Option<Material>,
    /// The figures of half b's material.
    pub material_b: Option<Material>,
    /// The procedure.
    pub procedure: Procedure,
    /// Agents with their figures.
    pub agents: Vec<Agent>,
    due: Vec<Place>,
    gauges: BTreeMap<Digest, Gauge>,
}

/// Where a step stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepStanding<'p> {
    /// Which.
    pub place: &'p Place,
    /// As the procedure has it.
    pub step: &'p Step,
    /// How far it is.
    pub standing: Standing,
}

/// How far a step is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Standing {
    /// Done: all its evidence is there, its gate passed, its hold point signed.
    Done,
    /// Done, its gate passed by an engineer's decision.
    Overridden,
    /// Names of the evidence that is still wanted.
    Wants(Vec<String>),
    /// Its gate holds the job, with this verdict.
    Held(Verdict),
    /// Its hold point waits for a signature.
    Unsigned,
}

impl Standing {
    /// Is there nothing left to do here?
    #[must_use]
    pub fn is_done(&self) -> bool {
        match self {
            Self::Done | Self::Overridden => true,
            Self::Wants(_) | Self::Held(_) | Self::Unsigned => false,
        }
    }
}

impl Plan {
    /// The figures of both halves' materials.
    #[must_use]
    pub fn materials(&self) -> [Option<&Material>; 2] {
        [self.material_a.as_ref(), self.material_b.as_ref()]
    }

    /// The plan of a job from the texts kept with it.
    ///
    /// # Errors
    /// [`PlanError`]
    pub fn of(opened: &Opened, documents: &Documents) -> Result<Self, PlanError> {
        let file: JointFile = text("joint", &opened.joint, documents)?;
        let joint =
            ringtrue_seal::definition::joint::assemble(file, |_, _| Err(PlanError::SealElsewhere))?;
        let material = |digest: &Option<Digest>| {
            digest.as_ref().map(|digest| text("material", digest, documents)).transpose()
        };
        let procedure: Procedure = text("procedure", &opened.procedure, documents)?;
        let agents = match &opened.agents {
            Some(digest) => {
                let list = documents.get(digest).ok_or(PlanError::Missing("agents"))?;
                let unread = |error| PlanError::Text { kind: "agents", error };
                read_list(list).map_err(unread)?
            }
            // The first form kept none: the program's own stood behind its verdicts.
            None => agents::shipped().to_vec(),
        };
        let due = due_steps(&procedure, &joint)
            .due
            .into_iter()
            .map(|due| Place { step: due.step.id.clone(), half: due.half })
            .collect();
        let mut plan = Self {
            material_a: material(&opened.material_a)?,
            material_b: material(&opened.material_b)?,
            joint,
            procedure,
            agents,
            due,
            gauges: BTreeMap::new(),
        };
        for content in documents.values() {
            if matches!(definition::kind_of(content), Ok(Kind::Gauge)) {
                plan.know_gauge(content)
                    .map_err(|error| PlanError::Text { kind: "gauge", error })?;
            }
        }
        Ok(plan)
    }

    /// Takes a gauge file in, and gives the hash it is named by.
    ///
    /// # Errors
    /// [`TextError`] when it is no gauge file.
    pub fn know_gauge(&mut self, content: &str) -> Result<Digest, TextError> {
        let digest = Digest::of(content.as_bytes());
        self.gauges.insert(digest, definition::read(content)?);
        Ok(digest)
    }

    /// The gauge with this hash.
    #[must_use]
    pub fn gauge(&self, digest: &Digest) -> Option<&Gauge> {
        self.gauges.get(digest)
    }

    /// The steps that this joint needs, in the order of the work.
    #[must_use]
    pub fn due(&self) -> &[Place] {
        &self.due
    }

    /// The step of a place, where it is due for this joint.
    #[must_use]
    pub fn step(&self, place: &Place) -> Option<&Step> {
        self.due.contains(place).then(|| self.procedure.step(&place.step)).flatten()
    }

    /// What a job's record holds of this measure of a half, as typed, in the order of the work.
    #[must_use]
    pub fn values_of<'j>(
        &self,
        job: &'j Job,
        (half, measures): (Option<Half>, Measures),
    ) -> Vec<&'j str> {
        let of_place = |place: &Place| {
            let (step, state) = (self.step(place)?, job.steps.get(place)?);
            let asked = step.evidence.iter().filter(|asked| asked.measures == Some(measures));
            let given = asked.filter_map(|asked| match &state.current(&asked.name)?.given.entry {
                Entry::Value(value) => Some(value.typed.as_str()),
                Entry::Tick(_)
                | Entry::Readings(_)
                | Entry::Photo(_)
                | Entry::Text(_)
                | Entry::SecondPerson => None,
            });
            Some(given.collect::<Vec<_>>())
        };
        let places = self.due.iter().filter(|place| place.half == half);
        places.filter_map(of_place).flatten().collect()
    }

    /// Where each step stands, in the order of the work.
    #[must_use]
    pub fn standings(&self, job: &Job) -> Vec<StepStanding<'_>> {
        let steps = self.due.iter().filter_map(|place| {
            let step = self.procedure.step(&place.step)?;
            Some(StepStanding { place, step, standing: standing(job, place, step) })
        });
        steps.collect()
    }

    /// The gate, if any, that must be passed before this step: one earlier in the order of the
    /// work, of the same half or of the whole joint; a step of the whole joint waits for both
    /// halves.
    #[must_use]
    pub fn gate_before<'p>(&'p self, job: &Job, place: &Place) -> Option<StepStanding<'p>> {
        let concerns = |half: Option<Half>| match (half, place.half) {
            (Some(gate), Some(own)) => gate == own,
            (None, _) | (_, None) => true,
        };
        self.standings(job)
            .into_iter()
            .take_while(|earlier| earlier.place != place)
            .filter(|earlier| concerns(earlier.place.half) && earlier.step.gate.is_some())
            .find(|earlier| !earlier.standing.is_done())
    }

    /// What comes next: the first step that is not done and that no gate keeps back; else the
    /// first that is not done.
    #[must_use]
    pub fn next<'p>(&'p self, job: &Job) -> Option<StepStanding<'p>> {
        let waiting: Vec<_> =
            self.standings(job).into_iter().filter(|one| !one.standing.is_done()).collect();
        waiting.into_iter().next()
    }
}

/// Evidence of a step that can't be left out and is not there.
pub(super) fn missing<'p>(step: &'p Step, state: Option<&StepState>) -> Vec<&'p Evidence> {
    let there = |asked: &Evidence| state.is_some_and(|state| state.current(&asked.name).is_some());
    step.evidence.iter().filter(|asked| asked.need == Need::Always && !there(asked)).collect()
}

fn standing(job: &Job, place: &Place, step: &Step) -> Standing {
    let state = job.steps.get(place);
    let touched = state.is_some_and(|state| !state.recorded.is_empty());
    let missing = missing(step, state);
    let verdict = state.and_then(StepState::verdict);
    // A gate that is judged and does not conform is named before what else is missing.
    if let (Some(state), Some(verdict)) = (state, verdict)
        && step.gate.is_some()
        && state.holds()
    {
        return Standing::Held(verdict.verdict);
    }
    if !touched || !missing.is_empty() || (step.gate.is_some() && verdict.is_none()) {
        return Standing::Wants(missing.iter().map(|asked| asked.name.clone()).collect());
    }
    let overridden = state.and_then(StepState::overridden);
    let decided = overridden.or(verdict.map(|verdict| verdict.sequence)).unwrap_or(0);
    let hold_point = step.gate.is_some_and(|gate| gate.hold_point.is_some());
    let signed = job.signatures.iter().any(|signed| {
        signed.sequence > decided
            && matches!(&signed.meaning, Meaning::HoldPoint(signed) if signed == place)
    });
    match overridden {
        _ if hold_point && !signed => Standing::Unsigned,
        Some(_) => Standing::Overridden,
        None => Standing::Done,
    }
}

fn text<T: Definition>(
    kind: &'static str,
    digest: &Digest,
    documents: &Documents,
) -> Result<T, PlanError> {
    let content = documents.get(digest).ok_or(PlanError::Missing(kind))?;
    definition::read(content).map_err(|error| PlanError::Text { kind, error })
}
