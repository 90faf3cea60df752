//! What was recorded at one step of one half.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::definition::procedure::DecidedBy;

use crate::event::{Assessed, Author, Entry, Event, Given};

/// State of one step.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct StepState {
    /// Evidence in the order in which it was given, what no longer counts included.
    pub given: Vec<GivenAt>,
    /// Numbers of the events that recorded something here and still count.
    pub recorded: Vec<u64>,
    /// Verdicts of its gate, in their order.
    pub assessments: Vec<AssessedAt>,
    /// Overrides: their numbers, and the verdicts that they pass over.
    pub overrides: Vec<(u64, u64)>,
}

/// A piece of evidence, and who gave it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GivenAt {
    /// The event's number.
    pub sequence: u64,
    /// Who.
    pub author: Author,
    /// What.
    pub given: Given,
    /// Does it still count?
    pub counts: bool,
}

/// A verdict in short.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AssessedAt {
    /// The event's number.
    pub sequence: u64,
    /// What decided.
    pub decided_by: DecidedBy,
    /// The verdict.
    pub verdict: Verdict,
    /// One sentence.
    pub summary: String,
    /// What it rests on.
    pub rests_on: Vec<u64>,
    /// The program that judged.
    pub program_version: String,
}

impl AssessedAt {
    pub(super) fn of(sequence: u64, assessed: &Assessed) -> Self {
        Self {
            sequence,
            decided_by: assessed.decided_by,
            verdict: assessed.verdict,
            summary: assessed.summary.clone(),
            rests_on: assessed.rests_on.clone(),
            program_version: assessed.program_version.clone(),
        }
    }
}

impl StepState {
    pub(super) fn give(&mut self, event: &Event, given: &[Given]) {
        self.recorded.push(event.sequence);
        self.given.extend(given.iter().map(|given| GivenAt {
            sequence: event.sequence,
            author: event.author.clone(),
            given: given.clone(),
            counts: true,
        }));
    }

    /// What an event gave, or decided, no longer counts.
    pub(super) fn withdraw(&mut self, event: u64) {
        for given in self.given.iter_mut().filter(|given| given.sequence == event) {
            given.counts = false;
        }
        self.recorded.retain(|sequence| *sequence != event);
        self.overrides.retain(|(sequence, _)| *sequence != event);
    }

    /// Who gave what a second person looks at.
    pub(super) fn first_persons(&self) -> Vec<&Author> {
        self.given
            .iter()
            .filter(|given| given.counts && !given.is_second())
            .map(|given| &given.author)
            .collect()
    }

    /// What counts under this name: the last that was given and not corrected. A second person's
    /// word counts only for what they have seen: nothing else was given after it.
    #[must_use]
    pub fn current(&self, name: &str) -> Option<&GivenAt> {
        let of_name = |given: &&GivenAt| given.counts && given.given.name == name;
        let last = self.given.iter().rev().find(of_name)?;
        let seen =
            |other: &GivenAt| !other.counts || other.is_second() || other.sequence < last.sequence;
        (!last.is_second() || self.given.iter().all(seen)).then_some(last)
    }

    /// How often this was given and not corrected: tries.
    #[must_use]
    pub fn times(&self, name: &str) -> usize {
        self.given.iter().filter(|given| given.counts && given.given.name == name).count()
    }

    /// The last verdict on its gate.
    #[must_use]
    pub fn verdict(&self) -> Option<&AssessedAt> {
        self.assessments.last()
    }

    /// The override of the last verdict, where there is one.
    #[must_use]
    pub fn overridden(&self) -> Option<u64> {
        let last = self.verdict()?.sequence;
        self.overrides.iter().find(|(_, verdict)| *verdict == last).map(|(sequence, _)| *sequence)
    }

    /// Does its gate hold: judged, not conforming and not overridden?
    #[must_use]
    pub fn holds(&self) -> bool {
        self.verdict().is_some_and(|last| last.verdict != Verdict::Conforms)
            && self.overridden().is_none()
    }
}

impl GivenAt {
    fn is_second(&self) -> bool {
        matches!(self.given.entry, Entry::SecondPerson)
    }
}
