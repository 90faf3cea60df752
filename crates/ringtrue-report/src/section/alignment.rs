//! Are the two housings concentric and square to each other?

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{decimals_for, fixed};
use ringtrue_seal::alignment::{
    Action, AngleLimitBasis, Deed, EdgeBasis, Outcome, Reference, Sweep,
};
use ringtrue_seal::definition::joint::Half;
use ringtrue_words::say;

use super::meaning;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine, paragraph};
use crate::figure::eccentricity;
use crate::figure::limit_scale::{self, Scale, Size, Spread};
use crate::reader::{self, COVERAGE_FACTOR, Reader};

/// The verdicts: on the eccentricity and on the angle, each where it has a limit or was measured.
pub(super) fn lines(outcome: &Outcome, reader: Reader) -> Vec<VerdictLine> {
    [eccentricity_line(outcome, reader), angle_line(outcome)].into_iter().flatten().collect()
}

fn eccentricity_line(outcome: &Outcome, reader: Reader) -> Option<VerdictLine> {
    let (off, limit) = (outcome.eccentricity_mm, outcome.eccentricity_limit_mm);
    if off.is_none() && limit.is_none() {
        return None;
    }
    let verdict = outcome.verdict_eccentricity.unwrap_or(Verdict::NotProven);
    let u = outcome.eccentricity_standard_uncertainty_mm;
    let scale = off.map(|value| Scale {
        name: "alignment-eccentricity-line".to_owned(),
        quantity: say!("report-align-eccentricity").to_owned(),
        value,
        spread: Spread::Uncertainty(u),
        min: None,
        max: limit,
    });
    Some(VerdictLine {
        verdict,
        question: say!("report-align-eccentricity-of-housings").to_owned(),
        sentence: said(verdict, off.is_some(), limit.is_some()),
        value: off.map_or(say!("report-not-swept").to_owned(), |off| reader.uncertain(off, u)),
        limit: reader
            .limits(None, limit, reader.workshop_decimals())
            .unwrap_or(say!("report-limit-none-stated").into()),
        scale: scale.and_then(|scale| limit_scale::draw(&scale, Size::Line, reader)),
    })
}

fn angle_line(outcome: &Outcome) -> Option<VerdictLine> {
    let (angle, limit) = (outcome.angle_mrad, outcome.angle_limit_mrad);
    if angle.is_none() && limit.is_none() {
        return None;
    }
    let verdict = outcome.verdict_angle.unwrap_or(Verdict::NotProven);
    Some(VerdictLine {
        verdict,
        question: say!("report-align-angle-of-housings").to_owned(),
        sentence: said(verdict, angle.is_some(), limit.is_some()),
        value: angle.map_or(say!("report-not-swept").to_owned(), |angle| {
            milliradian(angle, outcome.angle_standard_uncertainty_mrad)
        }),
        limit: limit.map_or(say!("report-limit-none-stated").to_owned(), |limit| {
            let limit = fixed(limit, 2);
            match outcome.angle_limit_basis {
                Some(AngleLimitBasis::Geometry) => say!("report-align-limit-by-geometry", limit),
                Some(AngleLimitBasis::Stated) | None => say!("report-align-limit", limit),
            }
        }),
        scale: None,
    })
}

fn said(verdict: Verdict, swept: bool, limited: bool) -> String {
    match (swept, limited) {
        (false, _) => say!("report-align-nothing-was-swept").to_owned(),
        (true, false) => say!("report-no-limit-to-judge").to_owned(),
        (true, true) => meaning(verdict).to_owned(),
    }
}

fn milliradian(value: f64, u: Option<f64>) -> String {
    let decimals = decimals_for(u, 2);
    match u {
        Some(u) => {
            let expanded = fixed(COVERAGE_FACTOR * u, decimals);
            format!("{} ± {expanded} mrad", fixed(value, decimals))
        }
        None => say!("report-align-angle-u-not-known", angle = fixed(value, decimals)),
    }
}

/// The pages of the alignment.
pub(super) fn section(outcome: &Outcome, reader: Reader) -> Section {
    let mut blocks: Vec<Block> = lines(outcome, reader)
        .into_iter()
        .map(|line| Block::Verdict(VerdictLine { scale: None, ..line }))
        .collect();
    let pictures: Vec<_> = eccentricity::draw("alignment", outcome, reader).into_iter().collect();
    if !pictures.is_empty() {
        blocks.push(Block::Drawings(vec![pictures]));
    }
    blocks.push(Block::Text(position(outcome, reader)));
    let deeds = deeds(outcome, reader);
    if !deeds.is_empty() {
        blocks.push(Block::Heading(say!("report-what-to-do").to_owned()));
        blocks.push(Block::Caution(say!("report-align-caution").to_owned()));
        blocks.push(Block::List(deeds));
    }
    blocks.push(Block::Tables(vec![sweeps(outcome, reader)]));
    if let Some(tip) = tip(outcome) {
        blocks.push(Block::Heading(say!("report-align-how-far-tipped").to_owned()));
        blocks.push(Block::Text(tip));
    }
    blocks.push(Block::Small(say!("report-align-small-print").to_owned()));
    Section { title: say!("report-align-title").to_owned(), start: Start::NewPage, blocks }
}

fn position(outcome: &Outcome, reader: Reader) -> String {
    let found: Vec<String> =
        [offset(outcome, reader), angle(outcome)].into_iter().flatten().collect();
    let (half, found) = (outcome.of_half.name(), found.join("; "));
    match (found.is_empty(), outcome.relative_to) {
        (true, Reference::OtherHalf) => say!("report-align-to-half-nothing", half),
        (true, Reference::IndicatorAxis) => say!("report-align-to-axis-nothing", half),
        (false, Reference::OtherHalf) => say!("report-align-to-half", half, found),
        (false, Reference::IndicatorAxis) => say!("report-align-to-axis", half, found),
    }
}

fn offset(outcome: &Outcome, reader: Reader) -> Option<String> {
    let (off, towards) = (outcome.eccentricity_mm?, outcome.eccentricity_direction_deg?);
    let offset = reader.uncertain(off, outcome.eccentricity_standard_uncertainty_mm);
    Some(match outcome.eccentricity_direction_standard_uncertainty_deg {
        Some(u) => {
            let at = reader::direction(towards, Some(u));
            say!("report-align-offset", offset, at)
        }
        None => say!("report-align-offset-not-resolved", offset),
    })
}

fn angle(outcome: &Outcome) -> Option<String> {
    let (angle, nearest) = (outcome.angle_mrad?, outcome.angle_direction_deg?);
    let angle = milliradian(angle, outcome.angle_standard_uncertainty_mrad);
    Some(match outcome.angle_direction_standard_uncertainty_deg {
        Some(u) => {
            let at = reader::direction(nearest, Some(u));
            say!("report-align-angle", angle, at)
        }
        None => say!("report-align-angle-not-resolved", angle),
    })
}

/// What to do, as sentences.
pub(super) fn deeds(outcome: &Outcome, reader: Reader) -> Vec<String> {
    outcome.actions.iter().map(|action| deed(action, reader)).collect()
}

fn deed(action: &Action, reader: Reader) -> String {
    let half = action.half.map_or("none", Half::name);
    let at = action.angle_deg.map(|angle| reader::direction(angle, None)).unwrap_or_default();
    let by = action.amount_mm.map_or("none".to_owned(), |mm| reader.about(mm));
    let what = match action.deed {
        Deed::Move => say!("report-align-move", half, by, at),
        Deed::OpenGap => say!("report-align-open-gap", half, by, at),
        Deed::MeasureAgain if at.is_empty() => say!("report-align-measure-again", half),
        Deed::MeasureAgain => say!("report-align-measure-again-at", half, at),
        Deed::LookAtSurface => say!("report-align-look-at-surface", half),
    };
    paragraph([what, action.why.clone()])
}

fn sweeps(outcome: &Outcome, reader: Reader) -> Table {
    let unit = reader.unit();
    let first = say!("report-align-first-wave", unit);
    let left = say!("report-align-left", unit);
    let mut table = Table::new([
        (say!("report-align-sweep"), Set::Words),
        (say!("report-align-readings"), Set::Numbers),
        (&first, Set::Numbers),
        (say!("report-align-towards"), Set::Numbers),
        (&left, Set::Numbers),
        (say!("report-align-out-of-form"), Set::Words),
    ]);
    for sweep in &outcome.sweeps {
        table.row(row(sweep, reader));
    }
    table
}

fn row(sweep: &Sweep, reader: Reader) -> [Cell; 6] {
    let fine = reader.fine_decimals();
    let real = match (sweep.out_of_form, sweep.left_standard_uncertainty_mm) {
        (true, _) => say!("report-yes"),
        (false, Some(_)) => say!("report-no"),
        (false, None) => say!("report-not-known"),
    };
    [
        Cell::text(say!(
            "report-align-sweep-of-half",
            surface = sweep.surface.name(),
            half = sweep.half.name()
        )),
        Cell::text(sweep.values_mm.len().to_string()),
        Cell::text(reader.number(sweep.first_mm, fine)),
        Cell::text(reader::direction(sweep.first_direction_deg, None)),
        Cell::text(reader.number(sweep.left_mm, fine)),
        Cell::text(real),
    ]
}

fn tip(outcome: &Outcome) -> Option<String> {
    let tips = outcome.tip_limits.as_ref()?;
    let lift = fixed(tips.lift_deg, 2);
    let edge = tips.edge_deg.map(|edge| {
        let edge = fixed(edge, 2);
        match tips.edge_basis {
            EdgeBasis::Stated => say!("report-align-tip-edge", edge),
            EdgeBasis::InnermostEdge => say!("report-align-tip-innermost-edge", edge),
        }
    });
    let bottom = tips.bottom_deg.map(|deg| say!("report-align-tip-bottom", bottom = fixed(deg, 2)));
    let all = [Some(say!("report-align-tip-lift", lift)), edge, bottom];
    let reasons = all.into_iter().flatten().collect::<Vec<_>>().join(", ");
    let drawn = say!("report-align-tip", most = fixed(tips.smallest_deg, 2), reasons);
    let stated = match outcome.angle_limit_basis {
        Some(AngleLimitBasis::Stated) => outcome.angle_limit_mrad,
        Some(AngleLimitBasis::Geometry) | None => None,
    };
    Some(match stated {
        Some(mrad) => {
            let limit = fixed((mrad / 1e3).to_degrees(), 2);
            paragraph([say!("report-align-tip-stated", limit), drawn])
        }
        None => paragraph([drawn, say!("report-align-tip-no-limit").to_owned()]),
    })
}
