//! Is the gap of the closed joint inside its limits all round?

use ringtrue_metrology::units::fixed;
use ringtrue_seal::closing::{Extreme, GapRound, Outcome, PullDown, caution};
use ringtrue_words::say;

use super::meaning;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine, paragraph};
use crate::figure::closing;
use crate::reader::{self, Reader};

/// The verdict on the gap all round; none where nothing was read.
pub(super) fn line(outcome: &Outcome, reader: Reader) -> Option<VerdictLine> {
    let gap = outcome.gap.as_ref()?;
    let (min, max) = (outcome.gap_limit_min_mm, outcome.gap_limit_max_mm);
    let limits = reader.limits(min, max, reader.workshop_decimals());
    Some(VerdictLine {
        verdict: outcome.verdict,
        question: say!("report-close-question").to_owned(),
        sentence: if limits.is_some() {
            meaning(outcome.verdict).to_owned()
        } else {
            say!("report-no-limit-to-judge").to_owned()
        },
        value: say!(
            "report-range",
            from = reader.uncertain(gap.narrowest.gap_mm, gap.narrowest.standard_uncertainty_mm),
            to = reader.uncertain(gap.widest.gap_mm, gap.widest.standard_uncertainty_mm)
        ),
        limit: limits.unwrap_or(say!("report-limit-none-stated").into()),
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
        blocks.push(Block::Heading(say!("report-what-to-do").to_owned()));
        blocks.push(Block::List(outcome.actions.clone()));
    }
    if let Some(gap) = &outcome.gap {
        blocks.push(Block::Tables(vec![places(gap, reader)]));
    }
    if let Some(pull) = &outcome.pull_down {
        blocks.push(Block::Heading(say!("report-close-pull-down-order", source = pull.source)));
        let order: Vec<String> = pull.order.iter().map(ToString::to_string).collect();
        blocks.push(Block::Text(say!("report-close-bolts-each-round", bolts = order.join(", "))));
        blocks.push(Block::Tables(vec![steps(pull, reader)]));
    }
    let of_readings = outcome.gap.as_ref().map(|_| say!("report-close-of-readings").to_owned());
    let of_order = outcome.pull_down.as_ref().map(|_| say!("report-close-of-order").to_owned());
    blocks.push(Block::Small(paragraph([of_readings, of_order].into_iter().flatten())));
    Section { title: say!("report-close-title").to_owned(), start: Start::NewPage, blocks }
}

fn parallel(gap: &GapRound, reader: Reader) -> String {
    let u = gap.out_of_parallel_standard_uncertainty_mm;
    let off = reader.uncertain(gap.out_of_parallel_mm, u);
    let tilt = gap.tilt_mrad.map(|mrad| fixed(mrad, 2));
    let at = gap
        .direction_standard_uncertainty_deg
        .map(|u| reader::direction(gap.widest.angle_deg, Some(u)));
    let out = match (at, tilt) {
        (Some(at), Some(tilt)) => say!("report-close-out-of-parallel-with-tilt", off, at, tilt),
        (Some(at), None) => say!("report-close-out-of-parallel", off, at),
        (None, Some(tilt)) => say!("report-close-not-resolved-with-tilt", off, tilt),
        (None, None) => say!("report-close-not-resolved", off),
    };
    let probability = gap.probability_conforms.map(|probability| {
        let probability = reader::probability(probability);
        say!("report-close-within-limits-with-probability", probability)
    });
    let narrowest = load(&gap.narrowest, reader);
    let narrowest = narrowest.map(|load| say!("report-close-load-at-narrowest", load));
    let widest = load(&gap.widest, reader);
    let widest = widest.map(|load| say!("report-close-load-at-widest", load));
    paragraph([Some(out), probability, narrowest, widest].into_iter().flatten())
}

fn load(one: &Extreme, reader: Reader) -> Option<String> {
    let u = one.face_load_standard_uncertainty_n_per_mm;
    Some(reader.line_loads().uncertain(one.face_load_n_per_mm?, u))
}

fn places(gap: &GapRound, reader: Reader) -> Table {
    let fine = reader.fine_decimals();
    let read = say!("report-close-gap", unit = reader.unit());
    let left = say!("report-close-off-plane", unit = reader.unit());
    let mut table = Table::new([
        (say!("report-at"), Set::Numbers),
        (&read, Set::Numbers),
        (&left, Set::Numbers),
        (say!("report-close-stands-off"), Set::Words),
        (say!("report-close-alone"), Set::Words),
    ]);
    for place in &gap.places {
        table.row([
            Cell::text(reader::degrees(place.angle_deg)),
            Cell::text(reader.number(place.gap_mm, fine)),
            Cell::text(reader.number(place.left_mm, fine)),
            Cell::text(if place.stands_off { say!("report-yes") } else { say!("report-no") }),
            Cell::text(place.verdict.words()),
        ]);
    }
    table
}

fn steps(pull: &PullDown, reader: Reader) -> Table {
    let gap = say!("report-close-gap", unit = reader.unit());
    let mut table = Table::new([
        (say!("report-close-step"), Set::Numbers),
        (say!("report-close-of-the-way"), Set::Numbers),
        (&gap, Set::Numbers),
        (say!("report-close-force-all-round"), Set::Numbers),
        (say!("report-close-on-each-bolt"), Set::Numbers),
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
