//! Is the gap of the closed joint inside its limits all round?

use ringtrue_metrology::units::fixed;
use ringtrue_seal::closing::{Extreme, GapRound, Outcome, PullDown, caution};

use super::meaning;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine};
use crate::figure::closing;
use crate::reader::{self, Reader};

/// The verdict on the gap all round; none where nothing was read.
pub(super) fn line(outcome: &Outcome, reader: Reader) -> Option<VerdictLine> {
    let gap = outcome.gap.as_ref()?;
    let (min, max) = (outcome.gap_limit_min_mm, outcome.gap_limit_max_mm);
    let limits = reader.limits(min, max, reader.workshop_decimals());
    Some(VerdictLine {
        verdict: outcome.verdict,
        question: "gap of the closed joint, all round".to_owned(),
        sentence: if limits.is_some() {
            meaning(outcome.verdict).to_owned()
        } else {
            "There is no limit to judge it by.".to_owned()
        },
        value: format!(
            "{} to {}",
            reader.uncertain(gap.narrowest.gap_mm, gap.narrowest.standard_uncertainty_mm),
            reader.uncertain(gap.widest.gap_mm, gap.widest.standard_uncertainty_mm)
        ),
        limit: limits.unwrap_or("none stated".into()),
        scale: None,
    })
}

/// The pages of the closing.
pub(super) fn section(outcome: &Outcome, reader: Reader) -> Section {
    let mut blocks: Vec<Block> = line(outcome, reader).map(Block::Verdict).into_iter().collect();
    blocks.push(Block::Caution(caution().to_owned()));
    if let Some(drawing) = closing::draw("closing", outcome, reader) {
        blocks.push(Block::Drawings(vec![vec![drawing]]));
    }
    if let Some(gap) = &outcome.gap {
        blocks.push(Block::Text(parallel(gap, reader)));
    }
    if !outcome.actions.is_empty() {
        blocks.push(Block::Heading("What to do".to_owned()));
        blocks.push(Block::List(outcome.actions.clone()));
    }
    if let Some(gap) = &outcome.gap {
        blocks.push(Block::Tables(vec![places(gap, reader)]));
    }
    if let Some(pull) = &outcome.pull_down {
        blocks.push(Block::Heading(format!("Pull-down order ({})", pull.source)));
        let order: Vec<String> = pull.order.iter().map(ToString::to_string).collect();
        blocks.push(Block::Text(format!("Bolts, each round: {}.", order.join(", "))));
        blocks.push(Block::Tables(vec![steps(pull, reader)]));
    }
    blocks.push(Block::Small(
        "The plane of least squares through the readings; the narrowest and the widest of plane \
         and readings are judged each by itself. Order and equal steps only: the torque is the job \
         sheet's."
            .to_owned(),
    ));
    Section { title: "Closing".to_owned(), start: Start::NewPage, blocks }
}

fn parallel(gap: &GapRound, reader: Reader) -> String {
    let u = gap.out_of_parallel_standard_uncertainty_mm;
    let mut text = format!("Out of parallel by {}", reader.uncertain(gap.out_of_parallel_mm, u));
    match gap.direction_standard_uncertainty_deg {
        Some(u) => {
            let at = reader::direction(gap.widest.angle_deg, Some(u));
            text.push_str(&format!(", widest at {at}"));
        }
        None => text.push_str(", its direction not resolved"),
    }
    if let Some(mrad) = gap.tilt_mrad {
        text.push_str(&format!(", a tilt of {} mrad", fixed(mrad, 2)));
    }
    text.push('.');
    if let Some(probability) = gap.probability_conforms {
        let probability = reader::probability(probability);
        text.push_str(&format!(" Within the limits with probability {probability}."));
    }
    for (name, one) in [("narrowest", &gap.narrowest), ("widest", &gap.widest)] {
        if let Some(load) = load(one, reader) {
            text.push_str(&format!(" Face load where it is {name}: {load}."));
        }
    }
    text
}

fn load(one: &Extreme, reader: Reader) -> Option<String> {
    let u = one.face_load_standard_uncertainty_n_per_mm;
    Some(reader.line_loads().uncertain(one.face_load_n_per_mm?, u))
}

fn places(gap: &GapRound, reader: Reader) -> Table {
    let fine = reader.fine_decimals();
    let read = format!("gap, {}", reader.unit());
    let left = format!("off the plane, {}", reader.unit());
    let mut table = Table::new([
        ("at", Set::Numbers),
        (&read, Set::Numbers),
        (&left, Set::Numbers),
        ("stands off", Set::Words),
        ("alone", Set::Words),
    ]);
    for place in &gap.places {
        table.row([
            Cell::text(reader::degrees(place.angle_deg)),
            Cell::text(reader.number(place.gap_mm, fine)),
            Cell::text(reader.number(place.left_mm, fine)),
            Cell::text(if place.stands_off { "yes" } else { "no" }),
            Cell::text(place.verdict.words()),
        ]);
    }
    table
}

fn steps(pull: &PullDown, reader: Reader) -> Table {
    let gap = format!("gap, {}", reader.unit());
    let mut table = Table::new([
        ("step", Set::Numbers),
        ("of the way", Set::Numbers),
        (&gap, Set::Numbers),
        ("force all round", Set::Numbers),
        ("on each bolt", Set::Numbers),
    ]);
    let force = |newton: Option<f64>| newton.map_or(String::new(), |newton| reader.force(newton));
    for step in &pull.steps {
        let gap =
            step.gap_mm.map_or(String::new(), |gap| reader.number(gap, reader.workshop_decimals()));
        table.row([
            Cell::text(step.step.to_string()),
            Cell::text(format!("{} %", fixed(step.share_percent, 0))),
            Cell::text(gap),
            Cell::text(force(step.force_n)),
            Cell::text(force(step.force_per_bolt_n)),
        ]);
    }
    table
}
