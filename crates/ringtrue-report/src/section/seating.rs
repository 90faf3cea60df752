//! How the toric gets past the lip, or the washer's edges come down.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::fixed;
use ringtrue_seal::seating::{Edges, Fate, Finding, Outcome, PastLip, Push, Seated, Surface, Way};
use ringtrue_words::say;

use super::sentence;
use crate::Drawing;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine};
use crate::figure::half_section::Facing;
use crate::figure::squeezed_section::{self, Squeezed, Stage};
use crate::reader::Reader;

/// Stands before the step.
#[must_use]
pub fn caution() -> &'static str {
    say!("report-seating-caution")
}

/// What the seating's verdict rests on.
pub(super) fn line(outcome: &Outcome, reader: Reader) -> VerdictLine {
    let (question, fits, how, limit) = match &outcome.load_ring {
        Seated::Toric(past) => (
            say!("report-seating-question-toric"),
            say!("report-seating-toric-fits"),
            past.way.words().to_owned(),
            say!("report-seating-toric-limit"),
        ),
        Seated::ConicalWasher(edges) => (
            say!("report-seating-question-washer"),
            say!("report-seating-washer-fits"),
            say!("report-seating-down-to", height = height(edges.sits_at_height_mm, reader)),
            say!("report-seating-washer-limit"),
        ),
    };
    let said = match outcome.verdict {
        Verdict::Conforms => fits,
        Verdict::NotProven => say!("report-seating-not-proven"),
        Verdict::DoesNotConform => say!("report-seating-outside"),
    };
    let held = match &outcome.load_ring {
        Seated::Toric(_) => None,
        Seated::ConicalWasher(edges) => edges.held_force_n,
    };
    let value = match (pushed(outcome, reader), held) {
        (None, _) => say!("report-seating-no-push").to_owned(),
        (Some(push), None) => say!("report-seating-push", push, how),
        (Some(push), Some(held)) => {
            say!("report-seating-push-held", push, held = force(held, reader), how)
        }
    };
    VerdictLine {
        verdict: outcome.verdict,
        question: question.to_owned(),
        sentence: said.to_owned(),
        value,
        limit: limit.to_owned(),
        scale: None,
    }
}

/// What to do.
pub(super) fn deeds(outcome: &Outcome) -> Vec<String> {
    let deed = outcome.method.map(|method| match outcome.load_ring {
        Seated::Toric(_) => say!("report-seating-seat-toric", how = method.words()),
        Seated::ConicalWasher(_) => say!("report-seating-seat-washer", how = method.words()),
    });
    deed.into_iter().collect()
}

/// The pages of the seating.
pub(super) fn section(outcome: &Outcome, reader: Reader) -> Section {
    let mut blocks =
        vec![Block::Caution(caution().to_owned()), Block::Verdict(line(outcome, reader))];
    // By what the push is given: the step is done to learn it.
    blocks.extend(deeds(outcome).into_iter().map(Block::Text));
    let drawing = draw(outcome, reader);
    match &outcome.load_ring {
        Seated::Toric(past) => blocks.extend(past_the_lip(outcome, past, (drawing, reader))),
        Seated::ConicalWasher(edges) => {
            blocks.extend(edges_down(outcome, edges, (drawing, reader)))
        }
    }
    blocks.push(Block::Heading(say!("report-seating-what-was-compared").to_owned()));
    blocks.push(Block::Tables(vec![findings(&outcome.findings)]));
    blocks.extend(outcome.remarks.iter().map(|remark| Block::Text(remark.clone())));
    let title = match outcome.load_ring {
        Seated::Toric(_) => say!("report-seating-title-toric"),
        Seated::ConicalWasher(_) => say!("report-seating-title-washer"),
    };
    let title = title.to_owned();
    Section { title, start: Start::NewPage, blocks }
}

/// The numbers, beside the drawing where there is one.
fn beside(drawing: Option<Drawing>, numbers: Table) -> Block {
    match drawing {
        Some(drawing) => Block::Beside(Box::new((drawing, numbers))),
        None => Block::Tables(vec![numbers]),
    }
}

fn past_the_lip(
    outcome: &Outcome,
    past: &PastLip,
    (drawing, reader): (Option<Drawing>, Reader),
) -> Vec<Block> {
    let mut blocks = vec![beside(drawing, on_the_ring(outcome, past, reader))];
    if !past.pushes.is_empty() {
        blocks.push(Block::Tables(vec![pushes(&past.pushes, reader)]));
        let told = [
            given(outcome, reader),
            say!("report-seating-how-one-side").to_owned(),
            made_of(outcome, reader),
        ];
        blocks.push(Block::Small(told.join(" ")));
    }
    blocks
}

fn edges_down(
    outcome: &Outcome,
    edges: &Edges,
    (drawing, reader): (Option<Drawing>, Reader),
) -> Vec<Block> {
    let mut heights = Table::new([("", Set::Prose), ("", Set::Numbers)]);
    let mut row = |name: &str, value: String| {
        heights.row([Cell::text(name), Cell::text(value)]);
    };
    row(say!("report-seating-height-just-touching"), height(edges.free_height_mm, reader));
    row(say!("report-seating-washer-height-drawn"), height(edges.drawn_washer_height_mm, reader));
    let measured = edges.measured_washer_height_mm.zip(edges.measured_standard_uncertainty_mm);
    if let Some((measured, u)) = measured {
        let said = format!("{} (u {})", reader.known(measured, Some(u)), reader.known(u, Some(u)));
        row(say!("report-seating-washer-height-measured"), said);
    }
    if let Some(rests) = edges.rests_at_height_mm {
        row(say!("report-seating-height-own-weight"), height(rests, reader));
    }
    let down = &edges.pressed_down;
    row(&say!("report-seating-pressed-down-by", origin = down.origin), height(down.value, reader));
    row(say!("report-seating-height-edges-sit"), height(edges.sits_at_height_mm, reader));
    row(say!("report-seating-largest-stretch"), fixed(outcome.max_principal_stretch, 2));
    if let (Some(push), Some(u)) = (outcome.push_force_n, outcome.standard_uncertainty_n) {
        let what = say!("report-seating-force-edges-sit-on", surface = surface(outcome.surface));
        row(&what, with_u(push, u, reader));
    }
    if let Some(formula) = edges.disc_spring_n {
        row(say!("report-seating-by-formula"), force(formula, reader));
    }
    let mut forces = Table::new([
        (say!("report-seating-seats"), Set::Words),
        (say!("report-seating-friction"), Set::Numbers),
        (say!("report-seating-force-edges-sit"), Set::Numbers),
    ]);
    for pressed in &edges.pressed {
        let said = pressed
            .force_n
            .map_or(say!("report-seating-not-computed").to_owned(), |n| force(n, reader));
        forces.row([
            Cell::text(surface(pressed.surface)),
            Cell::text(fixed(pressed.friction, 2)),
            Cell::text(said),
        ]);
    }
    if let Some(held) = edges.held_force_n {
        forces.row([
            Cell::text(say!("report-seating-edges-held")),
            Cell::text(say!("report-seating-no-sliding")),
            Cell::text(force(held, reader)),
        ]);
    }
    let mut told = vec![
        given(outcome, reader),
        say!("report-seating-how-flattened").to_owned(),
        made_of(outcome, reader),
    ];
    if edges.disc_spring_n.is_some() {
        told.push(say!("report-seating-formula-error").to_owned());
    }
    vec![beside(drawing, heights), Block::Tables(vec![forces]), Block::Small(told.join(" "))]
}

/// What the push's uncertainty is made of.
fn made_of(outcome: &Outcome, reader: Reader) -> String {
    let mu = &outcome.friction_standard_uncertainty;
    let (u, origin) = (fixed(mu.value, 3), mu.origin);
    let Some(parts) = outcome.standard_uncertainty_parts_n else {
        return say!("report-seating-no-uncertainty", u, origin);
    };
    let [modulus, friction, mesh] = [parts.modulus, parts.friction, parts.mesh]
        .map(|newton| reader.known_force(newton, outcome.standard_uncertainty_n));
    say!("report-seating-uncertainty", modulus, friction, u, origin, mesh)
}

fn given(outcome: &Outcome, reader: Reader) -> String {
    let (hand, tool) = (&outcome.hand, &outcome.tool);
    say!(
        "report-seating-hand-and-tool",
        hand = force(hand.value, reader),
        hand_origin = hand.origin,
        tool = force(tool.value, reader),
        tool_origin = tool.origin
    )
}

fn on_the_ring(outcome: &Outcome, past: &PastLip, reader: Reader) -> Table {
    let mut table = Table::new([("", Set::Prose), ("", Set::Numbers)]);
    let mut row = |name: &str, value: String| {
        table.row([Cell::text(name), Cell::text(value)]);
    };
    row(say!("report-seating-stretch-on-ring"), format!("{} %", fixed(past.stretch_percent, 2)));
    row(say!("report-seating-section-free"), height(past.free_section_mm, reader));
    row(say!("report-seating-section-on-ring"), height(past.section_mm, reader));
    if let Some(interference) = past.interference_mm {
        row(say!("report-seating-interference"), height(interference, reader));
    }
    if let Some(nose) = &past.nose_radius {
        row(&say!("report-seating-nose-radius", origin = nose.origin), height(nose.value, reader));
    }
    row(say!("report-seating-largest-stretch"), fixed(outcome.max_principal_stretch, 2));
    if let (Some(push), Some(u)) = (outcome.push_force_n, outcome.standard_uncertainty_n) {
        let what = say!(
            "report-seating-push-on",
            way = past.way.words(),
            surface = surface(outcome.surface)
        );
        row(&what, with_u(push, u, reader));
    }
    table
}

fn pushes(pushes: &[Push], reader: Reader) -> Table {
    let mut table = Table::new([
        (say!("report-seating-lip"), Set::Words),
        (say!("report-seating-friction"), Set::Numbers),
        // Words where there is no push.
        (say!("report-seating-pressed-all-round"), Set::Prose),
        (say!("report-seating-at-one-side"), Set::Prose),
    ]);
    for push in pushes {
        table.row([
            Cell::text(surface(push.surface)),
            Cell::text(fixed(push.friction, 2)),
            Cell::text(said(push.all_round_n, push.fate, reader)),
            Cell::text(said(push.one_side_n, push.fate, reader)),
        ]);
    }
    table
}

fn surface(surface: Surface) -> &'static str {
    match surface {
        Surface::Dry => say!("report-seating-dry"),
        Surface::Wetted => say!("report-seating-wetted"),
    }
}

/// A push, or why there is none.
fn said(push: Option<f64>, fate: Fate, reader: Reader) -> String {
    push.map_or_else(|| fate.words().to_owned(), |push| force(push, reader))
}

fn findings(findings: &[Finding]) -> Table {
    let mut table = Table::new([
        (say!("report-common-verdict"), Set::Words),
        (say!("report-common-compared"), Set::Prose),
        (say!("report-common-found"), Set::Prose),
        (say!("report-common-what-fits"), Set::Prose),
    ]);
    for finding in findings {
        let fits = match finding.sources.as_slice() {
            [] => finding.fits.clone(),
            sources => format!("{} ({})", finding.fits, sources.join("; ")),
        };
        table.row([
            Cell::Verdict(finding.verdict),
            Cell::text(finding.what.as_str()),
            Cell::text(finding.found.as_str()),
            Cell::text(sentence(&fits)),
        ]);
    }
    table
}

fn force(newton: f64, reader: Reader) -> String {
    reader.force(newton)
}

/// A push with its standard uncertainty.
fn with_u(newton: f64, u: f64, reader: Reader) -> String {
    let [push, u] = [newton, u].map(|newton| reader.known_force(newton, Some(u)));
    format!("{push} (u {u})")
}

/// The push that counts, rounded as it is known.
fn pushed(outcome: &Outcome, reader: Reader) -> Option<String> {
    let push = outcome.push_force_n?;
    Some(reader.known_force(push, outcome.standard_uncertainty_n))
}

fn height(mm: f64, reader: Reader) -> String {
    reader.length(mm, reader.workshop_decimals())
}

fn draw(outcome: &Outcome, reader: Reader) -> Option<Drawing> {
    let push =
        pushed(outcome, reader).unwrap_or_else(|| say!("report-common-not-known").to_owned());
    match &outcome.load_ring {
        Seated::Toric(past) => draw_under_the_lip(past, push, reader),
        Seated::ConicalWasher(edges) => draw_edges(edges, push, reader),
    }
}

/// The section where it pushes back most, or as far as it was followed.
fn draw_under_the_lip(past: &PastLip, push: String, reader: Reader) -> Option<Drawing> {
    let (passage, passed) = past.drawn.as_ref()?;
    let walls = squeezed_section::of_passage(passage);
    let squeezed = Squeezed { picture: &passed.picture, walls: &walls, facing: Facing::Right };
    let point = passed.points.get(passed.peak.unwrap_or(passed.points.len().saturating_sub(1)))?;
    let pushed = match past.way {
        Way::PressedAllRound => say!("report-seating-push-all-round"),
        Way::WorkedInAtOneSide => say!("report-seating-push-at-one-side"),
    };
    let stage = Stage {
        travel_mm: point.travel_mm,
        roll_deg: point.roll_deg,
        stretch: point.max_principal_stretch,
        peak: None,
        facts: vec![
            (pushed, push),
            (say!("report-seating-way-since-touch"), height(point.travel_mm, reader)),
            (say!("report-seating-stretch-here"), fixed(point.max_principal_stretch, 2)),
        ],
    };
    let title = match passed.peak {
        Some(_) => say!("report-seating-toric-drawn"),
        None => say!("report-seating-toric-as-far"),
    };
    let name = ("seating", title);
    squeezed_section::draw(name, squeezed, &stage, reader)
}

/// The washer when its edges sit, or as far as it was followed.
fn draw_edges(edges: &Edges, push: String, reader: Reader) -> Option<Drawing> {
    let drawn = &edges.drawn;
    let walls = squeezed_section::of_half(&drawn.problem);
    let squeezed = Squeezed { picture: &drawn.curve.picture, walls: &walls, facing: Facing::Right };
    let point = drawn.curve.points.last()?;
    let stage = Stage {
        travel_mm: point.travel_mm,
        roll_deg: point.roll_deg,
        stretch: point.max_principal_stretch,
        peak: Some(reader.pressure(point.peak_mpa * drawn.scale)),
        facts: vec![
            (say!("report-seating-force-all-round"), push),
            (say!("report-seating-pressed-down"), height(point.travel_mm, reader)),
            (say!("report-seating-height"), height(edges.free_height_mm - point.travel_mm, reader)),
        ],
    };
    let title = if drawn.curve.complete {
        say!("report-seating-washer-drawn")
    } else {
        say!("report-seating-washer-as-far")
    };
    squeezed_section::draw(("seating", title), squeezed, &stage, reader)
}
