//! Is the ring square in its housing, and at the right height? One section a half.

mod tables;

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::Quantity;
use ringtrue_seal::assembled_height::{Action, Deed, Outcome, UncertaintyBasis};
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::seal::Seal;
use ringtrue_words::say;

use super::{last_try, listed, meaning, reader, sentence};
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine, paragraph};
use crate::figure::heights;
use crate::figure::limit_scale::{self, Scale, Size, Spread};
use crate::figure::ring_from_above::{self, Face, Ring};
use crate::reader::{self, Reader};
use crate::{HeightTry, JointReport};

/// The verdicts on one half: the range, and the mean height where it has limits.
pub(super) fn lines(report: &JointReport, half: Half) -> Vec<VerdictLine> {
    let reader = reader(report);
    let Some(last) = last_try(report, half) else {
        return vec![VerdictLine {
            verdict: Verdict::NotProven,
            question: say!("report-height-question-range", half = half.name()),
            sentence: say!("report-height-not-measured").to_owned(),
            value: say!("report-height-no-readings").to_owned(),
            limit: say!("report-height-nothing-compare").to_owned(),
            scale: None,
        }];
    };
    let outcome = last.outcome;
    let mut lines = vec![range_line(outcome, half, reader)];
    lines.extend(mean_line(outcome, half, reader));
    lines
}

fn range_line(outcome: &Outcome, half: Half, reader: Reader) -> VerdictLine {
    let u = outcome.range_standard_uncertainty_mm;
    let verdict = outcome.verdict_range.unwrap_or(Verdict::NotProven);
    let limit = reader.limits(None, outcome.range_limit_mm, limit_decimals(reader, u));
    let scale = Scale {
        name: format!("half-{}-range-line", half.name()),
        quantity: say!("report-height-range-of-half", half = half.name()),
        value: outcome.range_mm,
        spread: Spread::Uncertainty(u),
        min: None,
        max: outcome.range_limit_mm,
    };
    let said = match (outcome.range_limit_mm, u) {
        (None, _) => say!("report-height-no-limit").to_owned(),
        (Some(_), None) if verdict == Verdict::NotProven => {
            say!("report-height-nothing-known").to_owned()
        }
        (Some(_), _) => judged(verdict, outcome.probability_conforms),
    };
    VerdictLine {
        verdict,
        question: say!("report-height-question-range", half = half.name()),
        sentence: said,
        value: say!("report-height-range", range = reader.uncertain(outcome.range_mm, u)),
        limit: limit.unwrap_or_else(|| say!("report-no-limit-given").to_owned()),
        scale: limit_scale::draw(&scale, Size::Line, reader),
    }
}

fn mean_line(outcome: &Outcome, half: Half, reader: Reader) -> Option<VerdictLine> {
    let verdict = outcome.verdict_mean_height?;
    let u = outcome.mean_height_standard_uncertainty_mm;
    let (min, max) = (outcome.mean_height_min_mm, outcome.mean_height_max_mm);
    let scale = Scale {
        name: format!("half-{}-mean-line", half.name()),
        quantity: say!("report-height-mean-of-half", half = half.name()),
        value: outcome.mean_height_mm,
        spread: Spread::Uncertainty(u),
        min,
        max,
    };
    Some(VerdictLine {
        verdict,
        question: say!("report-height-question-mean", half = half.name()),
        sentence: match u {
            None if verdict == Verdict::NotProven => say!("report-height-nothing-known").to_owned(),
            Some(_) | None => judged(verdict, outcome.probability_mean_height_conforms),
        },
        value: say!("report-height-mean", mean = reader.uncertain(outcome.mean_height_mm, u)),
        limit: reader
            .limits(min, max, limit_decimals(reader, u))
            .unwrap_or_else(|| say!("report-no-limit-given").to_owned()),
        scale: limit_scale::draw(&scale, Size::Line, reader),
    })
}

/// A limit needs no more trailing zeros than a workshop's reading has digits.
fn limit_decimals(reader: Reader, standard_uncertainty_mm: Option<f64>) -> usize {
    reader.decimals(standard_uncertainty_mm).min(reader.workshop_decimals())
}

/// What the verdict means, with the probability where one was computed.
fn judged(verdict: Verdict, probability: Option<f64>) -> String {
    let probability = probability
        .map(|p| say!("report-height-probability", probability = reader::probability(p)));
    paragraph([Some(meaning(verdict).to_owned()), probability].into_iter().flatten())
}

/// Most places that are listed beside the other numbers.
const MOST_BESIDE: usize = 12;

/// The pages of one half.
pub(super) fn section(report: &JointReport, half: Half) -> Section {
    let title = say!("report-height-title", half = half.name());
    let Some(last) = last_try(report, half) else {
        let text = say!("report-height-not-measured-text");
        let blocks = vec![Block::Text(text.to_owned())];
        return Section { title, start: Start::Below, blocks };
    };
    // The scales stand larger below.
    let bare = |line: VerdictLine| Block::Verdict(VerdictLine { scale: None, ..line });
    let mut blocks: Vec<Block> = lines(report, half).into_iter().map(bare).collect();
    blocks.push(pictures(report, half, last.outcome));
    let (numbers, places) = (
        tables::numbers(last.outcome, reader(report)),
        tables::places(last.outcome, reader(report)),
    );
    let side_by_side = last.outcome.places.len() <= MOST_BESIDE;
    let later = if side_by_side {
        blocks.push(Block::Tables(vec![numbers, places]));
        None
    } else {
        blocks.push(Block::Tables(vec![numbers]));
        Some(places)
    };
    blocks.extend(what_to_do(report, half));
    if last.outcome.rounds_disagree {
        blocks.push(Block::Text(say!("report-height-rounds-disagree").to_owned()));
    }
    blocks.extend(history(report, half));
    if let Some(places) = later {
        blocks.push(Block::Heading(say!("report-height-readings-place-by-place").to_owned()));
        blocks.push(places.beside());
    }
    blocks.push(Block::Small(basis(last, reader(report))));
    Section { title, start: Start::NewPage, blocks }
}

/// The measures of a ring's face.
pub(super) fn face(seal: &Seal) -> Face {
    let mm = |given: &ringtrue_metrology::units::Given<ringtrue_metrology::units::Length>| {
        given.value().si() * 1e3
    };
    Face {
        outer: mm(&seal.ring.face_outer_diameter),
        inner: mm(&seal.ring.face_inner_diameter),
        band: (
            mm(&seal.ring.contact_band_outer_diameter),
            mm(&seal.ring.contact_band_inner_diameter),
        ),
    }
}

fn pictures(report: &JointReport, half: Half, outcome: &Outcome) -> Block {
    let reader = reader(report);
    let whose = say!("report-half", half = half.name());
    let ring = ring_from_above::draw(&Ring {
        name: &format!("half-{}-from-above", half.name()),
        whose: &whose,
        face: face(report.joint.seal(half)),
        outcome,
        reader,
    });
    let chart = heights::draw(&format!("half-{}-heights", half.name()), &whose, outcome, reader);
    let mut beside = vec![chart];
    let range = Scale {
        name: format!("half-{}-range", half.name()),
        quantity: say!("report-height-range-of-half", half = half.name()),
        value: outcome.range_mm,
        spread: Spread::Uncertainty(outcome.range_standard_uncertainty_mm),
        min: None,
        max: outcome.range_limit_mm,
    };
    let mean = Scale {
        name: format!("half-{}-mean", half.name()),
        quantity: say!("report-height-mean-of-half", half = half.name()),
        value: outcome.mean_height_mm,
        spread: Spread::Uncertainty(outcome.mean_height_standard_uncertainty_mm),
        min: outcome.mean_height_min_mm,
        max: outcome.mean_height_max_mm,
    };
    for scale in [range, mean] {
        beside.extend(limit_scale::draw(&scale, Size::Full, reader));
    }
    Block::Drawings(vec![vec![ring], beside])
}

fn what_to_do(report: &JointReport, half: Half) -> Vec<Block> {
    let deeds = deeds(report, half);
    if deeds.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![Block::Heading(say!("report-what-to-do").to_owned())];
    if moves_a_ring(report, half) {
        blocks.push(Block::Caution(super::caution().to_owned()));
    }
    blocks.push(Block::List(deeds));
    blocks
}

/// Does the last try ask for a hand on the ring or its load ring?
pub(super) fn moves_a_ring(report: &JointReport, half: Half) -> bool {
    last_try(report, half).is_some_and(|last| {
        last.outcome.actions.iter().any(|action| match action.deed {
            Deed::Press | Deed::Lift | Deed::TakeOut => true,
            Deed::MeasureAgain => false,
        })
    })
}

/// What the last try asks for, a sentence each with its reason; like deeds together.
pub(super) fn deeds(report: &JointReport, half: Half) -> Vec<String> {
    let Some(last) = last_try(report, half) else { return Vec::new() };
    let reader = reader(report);
    let mut told: Vec<(Vec<&Action>, String)> = Vec::new();
    for action in &last.outcome.actions {
        let like = told.iter_mut().find(|(group, _)| {
            group[0].deed == Deed::MeasureAgain
                && action.deed == Deed::MeasureAgain
                && group[0].why == action.why
        });
        match like {
            Some((group, _)) => group.push(action),
            None => told.push((vec![action], action.why.clone())),
        }
    }
    told.iter()
        .map(|(group, why)| format!("{} {}", deed_text(group, reader), sentence(why)))
        .map(|text| text.trim().to_owned())
        .collect()
}

fn deed_text(group: &[&Action], reader: Reader) -> String {
    let angle = |action: &&Action| {
        action.angle_deg.map(|angle| match action.deed {
            // Fitted directions: no finer than a hand can aim.
            Deed::Press | Deed::Lift => reader::direction(angle, None),
            Deed::MeasureAgain | Deed::TakeOut => reader::degrees(angle),
        })
    };
    let places: Vec<String> = group.iter().filter_map(angle).collect();
    let at = if places.is_empty() { "none".to_owned() } else { listed(&places) };
    let by = group.iter().find_map(|action| action.amount_mm);
    let by = by.map_or("none".to_owned(), |mm| reader.about(mm));
    match group[0].deed {
        Deed::Press => say!("report-height-press", at, by),
        Deed::Lift => say!("report-height-lift", at, by),
        Deed::MeasureAgain => say!("report-height-measure-again", at),
        Deed::TakeOut => say!("report-height-take-out").to_owned(),
    }
}

fn history(report: &JointReport, half: Half) -> Vec<Block> {
    let tries = report.heights.of(half);
    if tries.len() < 2 {
        return Vec::new();
    }
    let reader = reader(report);
    let whose = say!("report-half", half = half.name());
    let rings: Vec<Ring> = tries
        .iter()
        .map(|one| Ring {
            name: "",
            whose: &whose,
            face: face(report.joint.seal(half)),
            outcome: one.outcome,
            reader,
        })
        .collect();
    let mut table = Table::new([
        (say!("report-height-try"), Set::Numbers),
        (say!("report-verdict"), Set::Words),
        (say!("report-height-range-and-u"), Set::Numbers),
        (say!("report-height-tilt"), Set::Numbers),
        (say!("report-height-readings"), Set::Prose),
    ]);
    for (i, one) in tries.iter().enumerate() {
        let outcome = one.outcome;
        table.row([
            Cell::text((i + 1).to_string()),
            Cell::Verdict(outcome.verdict),
            Cell::Text(reader.uncertain(outcome.range_mm, outcome.range_standard_uncertainty_mm)),
            Cell::Text(reader.known(outcome.tilt_mm, outcome.tilt_standard_uncertainty_mm)),
            Cell::text(one.file),
        ]);
    }
    let name = format!("half-{}-tries", half.name());
    vec![
        Block::Heading(say!("report-height-tries-so-far").to_owned()),
        Block::Beside(Box::new((ring_from_above::tries(&name, &whose, &rings), table))),
    ]
}

fn basis(one: &HeightTry, reader: Reader) -> String {
    let outcome = one.outcome;
    let from = match outcome.uncertainty_basis {
        UncertaintyBasis::Gauge => say!("report-height-from-gauge"),
        UncertaintyBasis::Stated => say!("report-height-as-stated-with-readings"),
        UncertaintyBasis::Rounds => say!("report-height-estimated-from-rounds"),
        UncertaintyBasis::None => say!("report-height-not-known"),
    };
    let u = match outcome.reading_standard_uncertainty_mm {
        Some(u) => {
            let decimals = ringtrue_metrology::units::decimals_for(Some(reader.of_mm(u)), 4);
            format!("{}, {from}", reader.length(u, decimals))
        }
        None => from.to_owned(),
    };
    say!("report-height-small-print", file = one.file, u)
}
