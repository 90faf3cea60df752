//! Evidence in, assessment out: the one way from a room's input to a verdict.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::face_load::{HalfCurve, HalfProblem};
use ringtrue_seal::seating::{Passed, Passing};
use ringtrue_seal::{
    RoomError, agents, alignment, assembled_height, chilling, closing, face_load, flatness,
    gap_stack, leak_test, matching, roughness, rubber_law, seating,
};
use serde::{Serialize, Serializer};

use crate::Question;

/// What a question is judged on.
#[derive(Debug, Clone)]
pub enum Evidence {
    /// Definitions to compare.
    Matching(matching::Input),
    /// Height readings round one ring.
    AssembledHeight(assembled_height::Input),
    /// A dimension chain.
    SealGap(gap_stack::Input),
    /// Two halves and the gap they are closed to.
    FaceLoad(face_load::Input),
    /// A toric and the lip it must pass.
    Seating(Box<seating::Input>),
    /// A toric to be chilled.
    Chilling(chilling::Input),
    /// A leak test.
    LeakTest(leak_test::Input),
    /// An agent and what it touches.
    Agents(agents::Input),
    /// Sweeps of housings.
    Alignment(alignment::Input),
    /// A ramp's traces or values.
    Roughness(roughness::Input),
    /// Light bands on a lapped face.
    Flatness(flatness::Input),
    /// Bolts and feeler readings.
    Closing(closing::Input),
    /// Stretch tests of a rubber.
    RubberLaw(rubber_law::Input),
}

/// What a room answered.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Answer {
    /// Findings on definitions.
    Matching(matching::Outcome),
    /// What the heights say.
    AssembledHeight(Box<assembled_height::Outcome>),
    /// What the chain gives.
    SealGap(Box<gap_stack::Outcome>),
    /// What the load rings give.
    FaceLoad(Box<face_load::Outcome>),
    /// What seating takes.
    Seating(Box<seating::Outcome>),
    /// What chilling gives.
    Chilling(Box<chilling::Outcome>),
    /// What the leak test says.
    LeakTest(Box<leak_test::Outcome>),
    /// What is known of the agent.
    Agents(Box<agents::Outcome>),
    /// What the sweeps say.
    Alignment(Box<alignment::Outcome>),
    /// What the traces show.
    Roughness(Box<roughness::Outcome>),
    /// What the bands show.
    Flatness(Box<flatness::Outcome>),
    /// How the joint closed.
    Closing(Box<closing::Outcome>),
    /// What the stretch tests give.
    RubberLaw(Box<rubber_law::Outcome>),
}

/// One judged question. Page, PDF and JSON are views of this value.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Assessment {
    /// The question.
    pub question: Question,
    /// The room's answer; its keys stand beside the others in JSON.
    #[serde(flatten)]
    pub answer: Answer,
    /// Where the formulas come from.
    #[serde(serialize_with = "sources_of")]
    pub sources: Question,
    /// The program that judged.
    pub program_version: &'static str,
}

impl Assessment {
    /// The verdict.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        match &self.answer {
            Answer::Matching(outcome) => outcome.verdict,
            Answer::AssembledHeight(outcome) => outcome.verdict,
            Answer::SealGap(outcome) => outcome.verdict,
            Answer::FaceLoad(outcome) => outcome.verdict,
            Answer::Seating(outcome) => outcome.verdict,
            Answer::Chilling(outcome) => outcome.verdict,
            Answer::LeakTest(outcome) => outcome.verdict,
            Answer::Agents(outcome) => outcome.verdict,
            Answer::Alignment(outcome) => outcome.verdict,
            Answer::Roughness(outcome) => outcome.verdict,
            Answer::Flatness(outcome) => outcome.verdict,
            Answer::Closing(outcome) => outcome.verdict,
            Answer::RubberLaw(outcome) => outcome.verdict,
        }
    }
}

/// Judges evidence; what takes finite elements is solved anew.
///
/// # Errors
/// As [`judge_with`].
pub fn judge(evidence: &Evidence) -> Result<Assessment, RoomError> {
    judge_with(evidence, &SolveAnew)
}

/// Judges evidence, with finite elements from where they may be known already.
///
/// # Errors
/// [`RoomError`] when the evidence is not something that can be judged.
pub fn judge_with(evidence: &Evidence, curves: &dyn Curves) -> Result<Assessment, RoomError> {
    let (question, answer) = match evidence {
        Evidence::Matching(input) => {
            (Question::Matching, Answer::Matching(matching::evaluate(input)?))
        }
        Evidence::AssembledHeight(input) => {
            let outcome = assembled_height::evaluate(input)?;
            (Question::AssembledHeight, Answer::AssembledHeight(Box::new(outcome)))
        }
        Evidence::SealGap(input) => {
            (Question::SealGap, Answer::SealGap(Box::new(gap_stack::evaluate(input)?)))
        }
        Evidence::FaceLoad(input) => {
            return judge_load(input, &mut |problems| curves.of(problems));
        }
        Evidence::Seating(input) => {
            let outcome = seating::evaluate_with(input, &mut |ways| curves.past(ways))?;
            (Question::Seating, Answer::Seating(Box::new(outcome)))
        }
        Evidence::Chilling(input) => {
            (Question::Chilling, Answer::Chilling(Box::new(chilling::evaluate(input)?)))
        }
        Evidence::LeakTest(input) => {
            (Question::LeakTest, Answer::LeakTest(Box::new(leak_test::evaluate(input)?)))
        }
        Evidence::Agents(input) => {
            (Question::Agents, Answer::Agents(Box::new(agents::evaluate(input)?)))
        }
        Evidence::Alignment(input) => {
            (Question::Alignment, Answer::Alignment(Box::new(alignment::evaluate(input)?)))
        }
        Evidence::Roughness(input) => {
            (Question::Roughness, Answer::Roughness(Box::new(roughness::evaluate(input)?)))
        }
        Evidence::Flatness(input) => {
            (Question::Flatness, Answer::Flatness(Box::new(flatness::evaluate(input)?)))
        }
        Evidence::Closing(input) => {
            (Question::Closing, Answer::Closing(Box::new(closing::evaluate(input)?)))
        }
        Evidence::RubberLaw(input) => {
            (Question::RubberLaw, Answer::RubberLaw(Box::new(rubber_law::evaluate(input)?)))
        }
    };
    Ok(assessment(question, answer))
}

/// Who solves what takes finite elements, or knows it solved.
pub trait Curves: std::fmt::Debug {
    /// The curves of some load rings, in their order.
    fn of(&self, problems: &[HalfProblem]) -> Vec<Result<HalfCurve, RoomError>>;

    /// Some ways of a toric past its lip, in their order.
    fn past(&self, problems: &[Passing]) -> Vec<Result<Passed, RoomError>>;
}

/// Solves everything anew: curves one after another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SolveAnew;

impl Curves for SolveAnew {
    fn of(&self, problems: &[HalfProblem]) -> Vec<Result<HalfCurve, RoomError>> {
        problems.iter().map(HalfProblem::solve).collect()
    }

    fn past(&self, problems: &[Passing]) -> Vec<Result<Passed, RoomError>> {
        seating::solve_all(problems)
    }
}

/// Judges a face load with the load rings' curves from a solver that may know them already.
///
/// # Errors
/// As [`judge_with`].
pub fn judge_load(
    input: &face_load::Input,
    solver: &mut face_load::Solver<'_>,
) -> Result<Assessment, RoomError> {
    let outcome = face_load::evaluate_with(input, solver)?;
    Ok(assessment(Question::FaceLoad, Answer::FaceLoad(Box::new(outcome))))
}

fn assessment(question: Question, answer: Answer) -> Assessment {
    let program_version = env!("CARGO_PKG_VERSION");
    Assessment { question, answer, sources: question, program_version }
}

fn sources_of<S: Serializer>(question: &Question, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_seq(question.sources().iter().map(ToString::to_string))
}
