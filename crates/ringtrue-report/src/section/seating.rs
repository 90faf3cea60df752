//! How the toric gets past the lip.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::fixed;
use ringtrue_seal::seating::{Fate, Finding, Outcome, Push, Way};

use crate::Drawing;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine};
use crate::figure::half_section::Facing;
use crate::figure::squeezed_section::{self, Squeezed, Stage};
use crate::reader::Reader;

/// Stands before the step.
pub const CAUTION: &str = "The lip is sharp and the ring heavy: cut-resistant gloves, no \
    finger between ring and housing, and push with the installing tool, never with a screwdriver. \
    A mallet is a soft one. The seal maker's instruction stands before this page.";

/// What the seating's verdict rests on.
pub(super) fn line(outcome: &Outcome, reader: Reader) -> VerdictLine {
    let said = match outcome.verdict {
        Verdict::Conforms => "The toric passes the lip, is held by it, and its rubber stands it.",
        Verdict::NotProven => "Not all that was compared could be proven.",
        Verdict::DoesNotConform => "Stretch, lip or rubber is outside what fits.",
    };
    let value = outcome.push_force_n.map_or("no push was computed".to_owned(), |push| {
        format!("push {}, {}", force(push, reader), outcome.way.words())
    });
    VerdictLine {
        verdict: outcome.verdict,
        question: "seating of the toric".to_owned(),
        sentence: said.to_owned(),
        value,
        limit: "stretch limit, lip and elongation at break".to_owned(),
        scale: None,
    }
}

/// What to do.
pub(super) fn deeds(outcome: &Outcome) -> Vec<String> {
    outcome.method.map(|method| format!("Seat the toric {}.", method.words())).into_iter().collect()
}

/// The pages of the seating.
pub(super) fn section(outcome: &Outcome, reader: Reader) -> Section {
    let mut blocks =
        vec![Block::Caution(CAUTION.to_owned()), Block::Verdict(line(outcome, reader))];
    let drawing = draw(outcome, reader);
    blocks.extend(drawing.map(|drawing| Block::Drawings(vec![vec![drawing]])));
    blocks.push(Block::Tables(vec![sizes(outcome, reader)]));
    if !outcome.pushes.is_empty() {
        blocks.push(Block::Tables(vec![pushes(&outcome.pushes, reader)]));
        let (hand, tool) = (&outcome.hand, &outcome.tool);
        blocks.push(Block::Small(format!(
            "Hands are taken to give {} ({}), tool and mallet {} ({}). At one side: the ring \
             tipped so that the far side just touches the lip as the near side has passed; \
             an upper bound. Friction is not in the uncertainty.",
            force(hand.value, reader),
            hand.origin,
            force(tool.value, reader),
            tool.origin,
        )));
    }
    blocks.push(Block::Heading("What was compared".to_owned()));
    blocks.push(Block::Tables(vec![findings(&outcome.findings)]));
    blocks.extend(outcome.remarks.iter().map(|remark| Block::Text(remark.clone())));
    Section { title: "Seating of the toric".to_owned(), start: Start::NewPage, blocks }
}

fn sizes(outcome: &Outcome, reader: Reader) -> Table {
    let mut table = Table::new([("", Set::Words), ("", Set::Numbers)]);
    let mut row = |name: &str, value: String| {
        table.row([Cell::text(name), Cell::text(value)]);
    };
    let length = |mm: f64| reader.length(mm, reader.workshop_decimals());
    row("stretch on the ring", format!("{} %", fixed(outcome.stretch_percent, 2)));
    row("section, free", length(outcome.free_section_mm));
    row("section on the ring", length(outcome.section_mm));
    if let Some(interference) = outcome.interference_mm {
        row("interference on the lip's diameter", length(interference));
        let nose = &outcome.nose_radius;
        row(&format!("radius of the lip's nose ({})", nose.origin), length(nose.value));
    }
    row("largest principal stretch", fixed(outcome.max_principal_stretch, 2));
    if let (Some(push), Some(u)) = (outcome.push_force_n, outcome.standard_uncertainty_n) {
        let what = format!("push, {}, {}", outcome.way.words(), outcome.surface.word());
        row(&what, format!("{} (u {})", force(push, reader), force(u, reader)));
    }
    table
}

fn pushes(pushes: &[Push], reader: Reader) -> Table {
    let mut table = Table::new([
        ("lip", Set::Words),
        ("friction", Set::Numbers),
        ("pressed all round", Set::Numbers),
        ("at one side", Set::Numbers),
    ]);
    for push in pushes {
        table.row([
            Cell::text(push.surface.word()),
            Cell::text(fixed(push.friction, 2)),
            Cell::text(said(push.all_round_n, push.fate, reader)),
            Cell::text(said(push.one_side_n, push.fate, reader)),
        ]);
    }
    table
}

/// A push, or why there is none.
fn said(push: Option<f64>, fate: Fate, reader: Reader) -> String {
    push.map_or_else(|| fate.words().to_owned(), |push| force(push, reader))
}

fn findings(findings: &[Finding]) -> Table {
    let mut table = Table::new([
        ("what", Set::Words),
        ("found", Set::Words),
        ("fits", Set::Words),
        ("verdict", Set::Words),
    ]);
    for finding in findings {
        let fits = match finding.sources.as_slice() {
            [] => finding.fits.clone(),
            sources => format!("{} ({})", finding.fits, sources.join("; ")),
        };
        table.row([
            Cell::text(finding.what.as_str()),
            Cell::text(finding.found.as_str()),
            Cell::text(fits),
            Cell::text(finding.verdict.to_string()),
        ]);
    }
    table
}

fn force(newton: f64, reader: Reader) -> String {
    let system = reader.system;
    format!("{} {}", fixed(system.force_from_n(newton), 0), system.force_symbol())
}

/// The section where it pushes back most, or as far as it was followed.
fn draw(outcome: &Outcome, reader: Reader) -> Option<Drawing> {
    let (passage, passed) = outcome.drawn.as_ref()?;
    let walls = squeezed_section::of_passage(passage);
    let squeezed = Squeezed { picture: &passed.picture, walls: &walls, facing: Facing::Right };
    let point = passed.points.get(passed.peak.unwrap_or(passed.points.len().saturating_sub(1)))?;
    let push = outcome.push_force_n.map_or("not known".to_owned(), |push| force(push, reader));
    let pushed = match outcome.way {
        Way::PressedAllRound => "push, all round",
        Way::WorkedInAtOneSide => "push, at one side",
    };
    let stage = Stage {
        travel_mm: point.travel_mm,
        roll_deg: point.roll_deg,
        stretch: point.max_principal_stretch,
        peak: None,
        facts: vec![
            (pushed, push),
            ("way since the touch", reader.length(point.travel_mm, reader.workshop_decimals())),
            ("stretch here", fixed(point.max_principal_stretch, 2)),
        ],
    };
    let title = match passed.peak {
        Some(_) => "the toric under the retaining lip, where the push is largest",
        None => "the toric under the retaining lip, as far as it was followed",
    };
    let name = ("seating", title);
    squeezed_section::draw(name, squeezed, &stage, reader)
}
