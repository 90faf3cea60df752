//! Evidence in, assessment out: the one way from a room's input to a verdict.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::{RoomError, assembled_height, gap_stack, matching};
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
        }
    }
}

/// Judges evidence.
///
/// # Errors
/// [`RoomError`] when the evidence is not something that can be judged.
pub fn judge(evidence: &Evidence) -> Result<Assessment, RoomError> {
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
    };
    Ok(Assessment {
        question,
        answer,
        sources: question,
        program_version: env!("CARGO_PKG_VERSION"),
    })
}

fn sources_of<S: Serializer>(question: &Question, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_seq(question.sources().iter().map(ToString::to_string))
}
