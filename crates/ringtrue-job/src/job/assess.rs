//! A gate judged on what the record holds.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::RoomError;
use ringtrue_seal::definition::TextError;
use ringtrue_seal::definition::procedure::{
    DecidedBy, Evidence as Asked, EvidenceKind, Need, ReadingSet, Step,
};
use ringtrue_seal::matching::{Input as Parts, JointInput};
use ringtrue_words::{in_english, say};
use serde::Serialize;

use super::Job;
use super::limits::{self, Compared};
use super::plan::Plan;
use super::step::{GivenAt, StepState};
use super::{load, seating};
use crate::check::{self, Check, CheckError, Made, Parts as MadeOn};
use crate::event::{Answer, Assessed, BETWEEN, Entry, Payload, Place, Readings};
use crate::evidence::{self, HeightBasis};
use crate::{Assessment, Curves, Evidence, Question, judge, judge_with, reading};

/// Why a gate can't be judged.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum AssessError {
    /// Readings that can't be read.
    #[error("{origin}: {error}")]
    Text {
        /// Where the readings came from.
        origin: String,
        /// What does not fit.
        error: TextError,
    },
    /// A value that can't be read.
    #[error("`{name}`: {found}; {fits}")]
    Value {
        /// The evidence's name.
        name: String,
        /// What was found.
        found: String,
        /// What would fit.
        fits: String,
    },
    /// The room refuses its input.
    #[error(transparent)]
    Room(#[from] RoomError),
}

impl From<CheckError> for AssessError {
    fn from(error: CheckError) -> Self {
        match error {
            CheckError::Text { origin, error } => Self::Text { origin, error },
            CheckError::Room(error) => Self::Room(error),
        }
    }
}

/// What a gate's evidence says, ready for an event.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Judged {
    pub(super) verdict: Verdict,
    pub(super) summary: String,
    pub(super) outcome: String,
    pub(super) rests_on: Vec<u64>,
}

/// What a gate is judged on.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ground<'g> {
    pub(super) plan: &'g Plan,
    pub(super) job: &'g Job,
    pub(super) curves: &'g dyn Curves,
}

/// Judges the gate of a step on what counts now, in English as records are written; `None` where
/// what decides is not there yet.
///
/// # Errors
/// [`AssessError`], in the language that is spoken here.
pub(super) fn assess(
    ground: Ground<'_>,
    at: (&Place, &Step),
) -> Result<Option<Judged>, AssessError> {
    let judged = in_english(|| self::judged(ground, at));
    judged.map_err(|refused| self::judged(ground, at).err().unwrap_or(refused))
}

fn judged(
    ground: Ground<'_>,
    (place, step): (&Place, &Step),
) -> Result<Option<Judged>, AssessError> {
    let Some(gate) = step.gate else { return Ok(None) };
    let empty = StepState::default();
    let (plan, state) = (ground.plan, ground.job.steps.get(place).unwrap_or(&empty));
    match gate.decided_by {
        DecidedBy::Matching => Ok(Some(of_rooms(&plan.matching()?, Vec::new()))),
        DecidedBy::AssembledHeight => heights(plan, (place, step), state),
        DecidedBy::SealGap => seal_gap(plan, step, state).map(Some),
        DecidedBy::FaceLoad => load::judged(ground).map(Some),
        DecidedBy::Limits => of_limits(plan, (place, step), state),
        DecidedBy::Evidence => Ok(of_evidence(step, state)),
        DecidedBy::Alignment => of_checks(ground, (place, step), Check::Alignment),
        DecidedBy::Roughness => of_checks(ground, (place, step), Check::Roughness),
        DecidedBy::Flatness => of_checks(ground, (place, step), Check::Flatness),
        DecidedBy::Seating => seating::judged(ground, (place, step)),
        DecidedBy::Chilling => of_checks(ground, (place, step), Check::Chilling),
        DecidedBy::LeakTest => of_checks(ground, (place, step), Check::LeakTest),
        DecidedBy::Agents => of_checks(ground, (place, step), Check::Agents),
        DecidedBy::Closing => of_checks(ground, (place, step), Check::Closing),
    }
}

/// Can these readings be read, so that they can be judged, and is what the step asks for stated?
///
/// # Errors
/// [`AssessError`]
pub(super) fn can_be_read(
    plan: &Plan,
    place: &Place,
    (asked, readings): (&Asked, &Readings),
) -> Result<(), AssessError> {
    let Some(set) = asked.readings else { return Ok(()) };
    let stated = |name: &String| readings.stated.iter().any(|one| one.name == *name);
    if let Some(missing) = asked.stated.iter().find(|name| !stated(name)) {
        return Err(check::wanted(missing).into());
    }
    match (Check::of(set), set) {
        (Some(check), _) => check.evidence(&made(plan, place, readings)).map(|_| ())?,
        (None, ReadingSet::AssembledHeight) => {
            read_text(readings, reading::heights)?;
        }
        (None, _) => {
            read_text(readings, reading::measured)?;
        }
    }
    Ok(())
}

/// Readings of one text with nothing beside it.
fn read_text<T>(
    readings: &Readings,
    read: impl Fn(&str) -> Result<T, TextError>,
) -> Result<T, AssessError> {
    let text = readings.text().ok_or_else(|| RoomError::Input {
        found: say!("job-these-readings-judged-by-themselves").to_owned(),
        fits: say!("job-one-file-them-nothing-stated-beside").to_owned(),
    })?;
    read(text).map_err(|error| AssessError::Text { origin: readings.origin(), error })
}

/// Readings of a check with the parts that they were made on.
pub(super) fn made<'m>(plan: &'m Plan, place: &Place, readings: &'m Readings) -> Made<'m> {
    let materials = plan.materials();
    Made {
        files: &readings.files,
        stated: &readings.stated,
        gauge: readings.gauge.and_then(|gauge| plan.gauge(&gauge)),
        agents: &plan.agents,
        parts: match place.half {
            Some(half) => MadeOn::Half(plan.joint.seal(half), materials[half as usize]),
            None => MadeOn::Joint(&plan.joint, materials),
        },
    }
}

/// What stands in the place of an outcome where finite elements can't work one out at all.
#[derive(Serialize)]
struct NotWorkedOut {
    question: Question,
    reason: String,
    verdict: Verdict,
}

/// A verdict where none can be worked out: the job's definitions stand, so that an engineer may
/// decide.
pub(super) fn not_worked_out(question: Question, error: &RoomError, rests_on: Vec<u64>) -> Judged {
    let (verdict, reason) = (Verdict::NotProven, error.to_string());
    let summary = format!("{}: {verdict}; {reason}", question.title());
    let outcome = json(&NotWorkedOut { question, reason, verdict });
    Judged { verdict, summary, outcome, rests_on }
}

/// Several checks of one step, each by the name of its evidence.
#[derive(Serialize)]
struct ChecksOutcome {
    question: Question,
    checks: Vec<NamedCheck>,
    verdict: Verdict,
}

#[derive(Serialize)]
struct NamedCheck {
    name: String,
    #[serde(flatten)]
    assessment: Assessment,
}

/// Every set of readings of a check that counts at a step: the worst of them decides.
pub(super) fn of_checks(
    ground: Ground<'_>,
    (place, step): (&Place, &Step),
    check: Check,
) -> Result<Option<Judged>, AssessError> {
    let empty = StepState::default();
    let (plan, state) = (ground.plan, ground.job.steps.get(place).unwrap_or(&empty));
    let mut checks = Vec::new();
    let mut rests_on = Vec::new();
    let of_check = |asked: &&Asked| asked.readings.and_then(Check::of) == Some(check);
    for asked in step.evidence.iter().filter(of_check) {
        match (state.current(&asked.name), asked.need) {
            (Some(GivenAt { given, sequence, .. }), _) => {
                let Entry::Readings(readings) = &given.entry else { continue };
                let evidence = check.evidence(&made(plan, place, readings))?;
                let assessment = judge_with(&evidence, ground.curves)?;
                checks.push(NamedCheck { name: asked.name.clone(), assessment });
                rests_on.push(*sequence);
            }
            (None, Need::Always) => return Ok(None),
            (None, Need::IfAny) => {}
        }
    }
    rests_on.sort_unstable();
    rests_on.dedup();
    if let [only] = checks.as_slice() {
        return Ok(Some(of_rooms(&only.assessment, rests_on)));
    }
    let Some(verdict) = checks.iter().map(|one| one.assessment.verdict()).max() else {
        return Ok(None);
    };
    let each: Vec<String> =
        checks.iter().map(|one| format!("{} {}", one.name, one.assessment.verdict())).collect();
    let question = check.question();
    Ok(Some(Judged {
        verdict,
        summary: format!("{}: {}", question.title(), each.join(BETWEEN)),
        outcome: json(&ChecksOutcome { question, checks, verdict }),
        rests_on,
    }))
}

/// The event that says so.
pub(super) fn payload(
    judged: Judged,
    (place, decided_by): (&Place, DecidedBy),
    program_version: &str,
) -> Payload {
    let Judged { verdict, summary, outcome, rests_on } = judged;
    Payload::Assessed(Assessed {
        place: place.clone(),
        decided_by,
        rests_on,
        verdict,
        summary,
        outcome,
        program_version: program_version.to_owned(),
    })
}

pub(super) fn of_rooms(assessment: &Assessment, rests_on: Vec<u64>) -> Judged {
    let verdict = assessment.verdict();
    Judged {
        verdict,
        summary: format!("{}: {verdict}", assessment.question.title()),
        outcome: json(assessment),
        rests_on,
    }
}

pub(super) fn json(value: &impl Serialize) -> String {
    serde_json::to_string(value)
        .expect("outcomes hold texts, numbers and lists, which JSON all has")
}

/// The readings that count for a question, with the number of tries at it.
fn readings<'s>(
    step: &Step,
    state: &'s StepState,
    set: ReadingSet,
) -> Option<(&'s GivenAt, &'s Readings, usize)> {
    let asked = step.evidence.iter().find(|asked| asked.readings == Some(set))?;
    let given = state.current(&asked.name)?;
    match &given.given.entry {
        Entry::Readings(readings) => Some((given, readings, state.times(&asked.name))),
        Entry::Tick(_)
        | Entry::Value(_)
        | Entry::Photo(_)
        | Entry::Text(_)
        | Entry::SecondPerson => None,
    }
}

fn heights(
    plan: &Plan,
    (place, step): (&Place, &Step),
    state: &StepState,
) -> Result<Option<Judged>, AssessError> {
    let Some((given, found, tries)) = readings(step, state, ReadingSet::AssembledHeight) else {
        return Ok(None);
    };
    let assessment = height_assessment(plan, place, found, u32::try_from(tries).ok())?;
    Ok(Some(of_rooms(&assessment, vec![given.sequence])))
}

/// Height readings of a half, judged.
///
/// # Errors
/// [`AssessError`]
pub(super) fn height_assessment(
    plan: &Plan,
    place: &Place,
    found: &Readings,
    this_try: Option<u32>,
) -> Result<Assessment, AssessError> {
    let read = read_text(found, reading::heights)?;
    let basis = HeightBasis {
        seal: place.half.map(|half| plan.joint.seal(half)),
        gauge: found.gauge.and_then(|gauge| plan.gauge(&gauge)),
        this_try,
        ..HeightBasis::default()
    };
    Ok(judge(&Evidence::AssembledHeight(evidence::heights(read, basis)))?)
}

fn seal_gap(plan: &Plan, step: &Step, state: &StepState) -> Result<Judged, AssessError> {
    let found = readings(step, state, ReadingSet::SealGap);
    let assessment = gap_assessment(plan, found.map(|(_, readings, _)| readings))?;
    let rests_on = found.map(|(given, _, _)| given.sequence).into_iter().collect();
    Ok(of_rooms(&assessment, rests_on))
}

/// The gap of the joint with measured sizes, judged.
///
/// # Errors
/// [`AssessError`]
pub(super) fn gap_assessment(
    plan: &Plan,
    measured: Option<&Readings>,
) -> Result<Assessment, AssessError> {
    Ok(judge(&Evidence::SealGap(chain(plan, measured)?))?)
}

pub(super) fn chain(
    plan: &Plan,
    measured: Option<&Readings>,
) -> Result<ringtrue_seal::gap_stack::Input, AssessError> {
    let mut chain = evidence::joint_gap(&plan.joint, None)?;
    if let Some(found) = measured {
        let sizes = read_text(found, reading::measured)?;
        evidence::put_measured(&mut chain, &sizes)
            .map_err(|error| AssessError::Text { origin: found.origin(), error })?;
    }
    Ok(chain)
}

impl Plan {
    /// The joint's parts against each other, judged.
    ///
    /// # Errors
    /// [`RoomError`]
    pub(super) fn matching(&self) -> Result<Assessment, RoomError> {
        judge(&Evidence::Matching(Parts::Joint(Box::new(JointInput {
            joint: self.joint.clone(),
            material_a: self.material_a.clone(),
            material_b: self.material_b.clone(),
        }))))
    }
}

#[derive(Serialize)]
struct LimitsOutcome {
    question: &'static str,
    values: Vec<Compared>,
    verdict: Verdict,
    sources: Vec<String>,
}

fn of_limits(
    plan: &Plan,
    (place, step): (&Place, &Step),
    state: &StepState,
) -> Result<Option<Judged>, AssessError> {
    let mut values = Vec::new();
    let mut rests_on = Vec::new();
    for asked in &step.evidence {
        let Some(key) = asked.limit else { continue };
        match (state.current(&asked.name), asked.need) {
            (Some(GivenAt { given, sequence, .. }), _) => {
                let Entry::Value(value) = &given.entry else { continue };
                let gauge = value.gauge.and_then(|gauge| plan.gauge(&gauge));
                let compared =
                    limits::compare((&plan.joint, place.half), asked, key, (value, gauge));
                values.push(compared.map_err(|error| AssessError::Value {
                    name: asked.name.clone(),
                    found: error.found,
                    fits: error.fits,
                })?);
                rests_on.push(*sequence);
            }
            (None, Need::Always) => return Ok(None),
            (None, Need::IfAny) => {}
        }
    }
    // A limit that the definition leaves out is not judged.
    let verdict = values.iter().filter_map(|value| value.verdict).max();
    let verdict = verdict.unwrap_or(Verdict::Conforms);
    let sources = limits::SOURCES.iter().map(ToString::to_string).collect();
    let outcome = LimitsOutcome { question: "limits", values, verdict, sources };
    rests_on.sort_unstable();
    rests_on.dedup();
    Ok(Some(Judged {
        verdict,
        summary: say!("job-values-against-their-limits", verdict = verdict.to_string()),
        outcome: json(&outcome),
        rests_on,
    }))
}

#[derive(Serialize)]
struct EvidenceOutcome {
    question: &'static str,
    answered_no: Vec<String>,
    verdict: Verdict,
}

fn of_evidence(step: &Step, state: &StepState) -> Option<Judged> {
    let decides =
        |asked: &&Asked| matches!(asked.kind, EvidenceKind::Tick | EvidenceKind::SecondPerson);
    let mut answered_no = Vec::new();
    let mut rests_on = Vec::new();
    for asked in step.evidence.iter().filter(decides) {
        match (state.current(&asked.name), asked.need) {
            (Some(given), _) => {
                rests_on.push(given.sequence);
                if given.given.entry == Entry::Tick(Answer::No) {
                    answered_no.push(asked.name.clone());
                }
            }
            (None, Need::Always) => return None,
            (None, Need::IfAny) => {}
        }
    }
    let verdict = if answered_no.is_empty() { Verdict::Conforms } else { Verdict::DoesNotConform };
    rests_on.sort_unstable();
    rests_on.dedup();
    let summary = match answered_no.as_slice() {
        [] => say!("job-what-was-be-seen-done", verdict = verdict.to_string()),
        no => say!("job-answered-no", names = no.join(BETWEEN), verdict = verdict.to_string()),
    };
    let outcome = json(&EvidenceOutcome { question: "evidence", answered_no, verdict });
    Some(Judged { verdict, summary, outcome, rests_on })
}
