//! Are the two housings concentric and square to each other?

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{decimals_for, fixed};
use ringtrue_seal::alignment::{
    Action, AngleLimitBasis, Deed, EdgeBasis, Outcome, Reference, Sweep,
};

use super::meaning;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine};
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
        quantity: "Eccentricity".to_owned(),
        value,
        spread: Spread::Uncertainty(u),
        min: None,
        max: limit,
    });
    Some(VerdictLine {
        verdict,
        question: "eccentricity of the housings".to_owned(),
        sentence: said(verdict, off.is_some(), limit.is_some()),
        value: off.map_or("not swept".to_owned(), |off| reader.uncertain(off, u)),
        limit: reader
            .limits(None, limit, reader.workshop_decimals())
            .unwrap_or("none stated".into()),
        scale: scale.and_then(|scale| limit_scale::draw(&scale, Size::Line, reader)),
    })
}

fn angle_line(outcome: &Outcome) -> Option<VerdictLine> {
    let (angle, limit) = (outcome.angle_mrad, outcome.angle_limit_mrad);
    if angle.is_none() && limit.is_none() {
        return None;
    }
    let verdict = outcome.verdict_angle.unwrap_or(Verdict::NotProven);
    let basis = match outcome.angle_limit_basis {
        Some(AngleLimitBasis::Geometry) => " by the geometry",
        Some(AngleLimitBasis::Stated) | None => "",
    };
    Some(VerdictLine {
        verdict,
        question: "angle of the housings".to_owned(),
        sentence: said(verdict, angle.is_some(), limit.is_some()),
        value: angle.map_or("not swept".to_owned(), |angle| {
            milliradian(angle, outcome.angle_standard_uncertainty_mrad)
        }),
        limit: limit.map_or("none stated".to_owned(), |limit| {
            format!("at most {} mrad{basis}", fixed(limit, 2))
        }),
        scale: None,
    })
}

fn said(verdict: Verdict, swept: bool, limited: bool) -> String {
    match (swept, limited) {
        (false, _) => "There is a limit and nothing was swept.".to_owned(),
        (true, false) => "There is no limit to judge it by.".to_owned(),
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
        None => format!("{} mrad (U not known)", fixed(value, decimals)),
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
        blocks.push(Block::Heading("What to do".to_owned()));
        blocks.push(Block::Caution(
            "Lock out the drive before a shaft is turned by hand, and never stand under a part \
             that hangs: rated slings, licensed riggers, the shop's rules."
                .to_owned(),
        ));
        blocks.push(Block::List(deeds));
    }
    blocks.push(Block::Tables(vec![sweeps(outcome, reader)]));
    if let Some(tip) = tip(outcome) {
        blocks.push(Block::Heading("How far a half may be tipped while it is lowered".to_owned()));
        blocks.push(Block::Text(tip));
    }
    blocks.push(Block::Small(
        "The zone of concentricity or coaxiality on a drawing (ISO 1101) is a diameter: twice the \
         eccentricity. What a sweep leaves after its first wave is out-of-round or out-of-flat, \
         which no move mends."
            .to_owned(),
    ));
    Section { title: "Alignment of the housings".to_owned(), start: Start::NewPage, blocks }
}

fn position(outcome: &Outcome, reader: Reader) -> String {
    let relative = match outcome.relative_to {
        Reference::OtherHalf => "relative to the other half",
        Reference::IndicatorAxis => "relative to the axis that the indicator turned on",
    };
    let mut text = format!("Half {}, {relative}:", outcome.of_half.name());
    if let (Some(off), Some(towards)) =
        (outcome.eccentricity_mm, outcome.eccentricity_direction_deg)
    {
        let u = outcome.eccentricity_standard_uncertainty_mm;
        let way = match outcome.eccentricity_direction_standard_uncertainty_deg {
            Some(u) => format!("towards {}", reader::direction(towards, Some(u))),
            None => "in a direction that is not resolved".to_owned(),
        };
        text.push_str(&format!(" offset {}, {way};", reader.uncertain(off, u)));
    }
    if let (Some(angle), Some(nearest)) = (outcome.angle_mrad, outcome.angle_direction_deg) {
        let way = match outcome.angle_direction_standard_uncertainty_deg {
            Some(u) => format!("faces nearest at {}", reader::direction(nearest, Some(u))),
            None => "its direction not resolved".to_owned(),
        };
        let angle = milliradian(angle, outcome.angle_standard_uncertainty_mrad);
        text.push_str(&format!(" angle {angle}, {way};"));
    }
    text.pop();
    text.push('.');
    text
}

/// What to do, as sentences.
pub(super) fn deeds(outcome: &Outcome, reader: Reader) -> Vec<String> {
    outcome.actions.iter().map(|action| deed(action, reader)).collect()
}

fn deed(action: &Action, reader: Reader) -> String {
    let half = action.half.map_or(String::new(), |half| format!(" half {}", half.name()));
    let at = action.angle_deg.map(|angle| reader::direction(angle, None)).unwrap_or_default();
    let by = action.amount_mm.map_or(String::new(), |mm| format!(" by {}", reader.about(mm)));
    let what = match action.deed {
        Deed::Move => format!("Move{half}{by} towards {at}"),
        Deed::OpenGap => format!("Open the gap at {at}{by}, at{half}"),
        Deed::MeasureAgain if at.is_empty() => format!("Measure{half} again"),
        Deed::MeasureAgain => format!("Measure{half} again at {at}"),
        Deed::LookAtSurface => format!("Look at the surface of{half}"),
    };
    format!("{what}. {}", action.why)
}

fn sweeps(outcome: &Outcome, reader: Reader) -> Table {
    let unit = reader.unit();
    let first = format!("first wave, {unit}");
    let left = format!("left, {unit}");
    let mut table = Table::new([
        ("sweep", Set::Words),
        ("readings", Set::Numbers),
        (&first, Set::Numbers),
        ("towards", Set::Numbers),
        (&left, Set::Numbers),
        ("more than U explains", Set::Words),
    ]);
    for sweep in &outcome.sweeps {
        table.row(row(sweep, reader));
    }
    table
}

fn row(sweep: &Sweep, reader: Reader) -> [Cell; 6] {
    let fine = reader.fine_decimals();
    let real = match (sweep.out_of_form, sweep.left_standard_uncertainty_mm) {
        (true, _) => "yes",
        (false, Some(_)) => "no",
        (false, None) => "not known",
    };
    [
        Cell::text(format!("{} of half {}", sweep.surface.name(), sweep.half.name())),
        Cell::text(sweep.values_mm.len().to_string()),
        Cell::text(reader.number(sweep.first_mm, fine)),
        Cell::text(reader::direction(sweep.first_direction_deg, None)),
        Cell::text(reader.number(sweep.left_mm, fine)),
        Cell::text(real),
    ]
}

fn tip(outcome: &Outcome) -> Option<String> {
    let tips = outcome.tip_limits.as_ref()?;
    let mut text = format!(
        "At most {}° by the parts as drawn: the load ring leaves its seat on the high side at {}°",
        fixed(tips.smallest_deg, 2),
        fixed(tips.lift_deg, 2)
    );
    if let Some(edge) = tips.edge_deg {
        let which = match tips.edge_basis {
            EdgeBasis::Stated => "a housing's edge",
            EdgeBasis::InnermostEdge => {
                "the innermost edge of a housing's face (a wide face allows less)"
            }
        };
        text.push_str(&format!(", {which} touches at {}°", fixed(edge, 2)));
    }
    if let Some(bottom) = tips.bottom_deg {
        let bottom = fixed(bottom, 2);
        text.push_str(&format!(", the toric runs off below on the low side at {bottom}°"));
    }
    text.push_str(". Where the seal maker states a limit, that one holds.");
    Some(text)
}
