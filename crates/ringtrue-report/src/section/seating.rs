//! How the toric gets past the lip, or the washer's edges come down.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::fixed;
use ringtrue_seal::seating::{Edges, Fate, Finding, Outcome, PastLip, Push, Seated, Way};

use super::sentence;
use crate::Drawing;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine};
use crate::figure::half_section::Facing;
use crate::figure::squeezed_section::{self, Squeezed, Stage};
use crate::reader::Reader;

/// Stands before the step.
pub const CAUTION: &str = "Lips and seats are sharp and the ring heavy: cut-resistant gloves, no \
    finger between ring and housing, and push with the installing tool, never with a screwdriver. \
    A mallet is a soft one. The seal maker's instruction stands before this page.";

/// What the seating's verdict rests on.
pub(super) fn line(outcome: &Outcome, reader: Reader) -> VerdictLine {
    let (question, fits, how, limit) = match &outcome.load_ring {
        Seated::Toric(past) => (
            "seating of the toric",
            "The toric passes the lip, is held by it, and its rubber stands it.",
            past.way.words().to_owned(),
            "stretch limit, lip and elongation at break",
        ),
        Seated::ConicalWasher(edges) => (
            "seating of the conical washer",
            "Its edges bear all round before the joint is closed, and it stands that.",
            format!("down to a height of {}", height(edges.sits_at_height_mm, reader)),
            "flattening at the largest gap, and what its material stands",
        ),
    };
    let said = match outcome.verdict {
        Verdict::Conforms => fits,
        Verdict::NotProven => "Not all that was compared could be proven.",
        Verdict::DoesNotConform => "What was compared is outside what fits.",
    };
    let held = match &outcome.load_ring {
        Seated::Toric(_) => None,
        Seated::ConicalWasher(edges) => edges.held_force_n,
    };
    let held = held.map_or_else(String::new, |held| {
        format!(" ({} where its edges can't slide)", force(held, reader))
    });
    let value = pushed(outcome, reader)
        .map_or("no push was computed".to_owned(), |push| format!("push {push}{held}, {how}"));
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
    let what = load_ring(outcome);
    let deed = outcome.method.map(|method| format!("Seat the {what} {}.", method.words()));
    deed.into_iter().collect()
}

fn load_ring(outcome: &Outcome) -> &'static str {
    match outcome.load_ring {
        Seated::Toric(_) => "toric",
        Seated::ConicalWasher(_) => "conical washer",
    }
}

/// The pages of the seating.
pub(super) fn section(outcome: &Outcome, reader: Reader) -> Section {
    let mut blocks =
        vec![Block::Caution(CAUTION.to_owned()), Block::Verdict(line(outcome, reader))];
    // By what the push is given: the step is done to learn it.
    blocks.extend(deeds(outcome).into_iter().map(Block::Text));
    let drawing = draw(outcome, reader);
    match &outcome.load_ring {
        Seated::Toric(past) => blocks.extend(past_the_lip(outcome, past, (drawing, reader))),
        Seated::ConicalWasher(edges) => {
            blocks.extend(edges_down(outcome, edges, (drawing, reader)))
        }
    }
    blocks.push(Block::Heading("What was compared".to_owned()));
    blocks.push(Block::Tables(vec![findings(&outcome.findings)]));
    blocks.extend(outcome.remarks.iter().map(|remark| Block::Text(remark.clone())));
    let title = format!("Seating of the {}", load_ring(outcome));
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
        blocks.push(Block::Small(format!(
            "{} At one side: the ring tipped so that the far side just touches the lip as the \
             near side has passed; an upper bound. {}",
            given(outcome, reader),
            made_of(outcome, reader)
        )));
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
    row("free height", height(edges.free_height_mm, reader));
    row("height of the free washer, drawn", height(edges.drawn_washer_height_mm, reader));
    let measured = edges.measured_washer_height_mm.zip(edges.measured_standard_uncertainty_mm);
    if let Some((measured, u)) = measured {
        let said = format!("{} (u {})", reader.known(measured, Some(u)), reader.known(u, Some(u)));
        row("height of the free washer, measured", said);
    }
    if let Some(rests) = edges.rests_at_height_mm {
        row("height under the ring's own weight", height(rests, reader));
    }
    let down = &edges.pressed_down;
    row(&format!("pressed down ({})", down.origin), height(down.value, reader));
    row("height when its edges sit", height(edges.sits_at_height_mm, reader));
    row("largest principal stretch", fixed(outcome.max_principal_stretch, 2));
    if let (Some(push), Some(u)) = (outcome.push_force_n, outcome.standard_uncertainty_n) {
        let what = format!("force when its edges sit, {}", outcome.surface.word());
        row(&what, with_u(push, u, reader));
    }
    if let Some(formula) = edges.disc_spring_n {
        row("the same by the disc-spring formula (EN 16984), no friction", force(formula, reader));
    }
    let mut forces = Table::new([
        ("seats", Set::Words),
        ("friction", Set::Numbers),
        ("force when the edges sit", Set::Numbers),
    ]);
    for pressed in &edges.pressed {
        let said = pressed.force_n.map_or("not computed".to_owned(), |n| force(n, reader));
        forces.row([
            Cell::text(pressed.surface.word()),
            Cell::text(fixed(pressed.friction, 2)),
            Cell::text(said),
        ]);
    }
    if let Some(held) = edges.held_force_n {
        forces.row([
            Cell::text("edges held by shoulder and bore"),
            Cell::text("no sliding"),
            Cell::text(force(held, reader)),
        ]);
    }
    vec![
        beside(drawing, heights),
        Block::Tables(vec![forces]),
        Block::Small(format!(
            "{} Flattened all round by what the washer may stand uneven: an upper bound, since \
             where it stands lower it is flattened by less. {}{}",
            given(outcome, reader),
            made_of(outcome, reader),
            if edges.disc_spring_n.is_some() {
                " The disc-spring formula is 3 to 11 % above finite elements."
            } else {
                ""
            }
        )),
    ]
}

/// What the push's uncertainty is made of.
fn made_of(outcome: &Outcome, reader: Reader) -> String {
    let mu = &outcome.friction_standard_uncertainty;
    let friction =
        format!("friction's standard uncertainty of {} ({})", fixed(mu.value, 3), mu.origin);
    let Some(parts) = outcome.standard_uncertainty_parts_n else {
        return format!("The push has no uncertainty here; {friction} would be part of it.");
    };
    let [modulus, by_friction, mesh] = [parts.modulus, parts.friction, parts.mesh]
        .map(|newton| reader.known_force(newton, outcome.standard_uncertainty_n));
    format!(
        "Its uncertainty u is made of {modulus} by the modulus, {by_friction} by {friction}, and \
         {mesh} by the mesh."
    )
}

fn given(outcome: &Outcome, reader: Reader) -> String {
    let (hand, tool) = (&outcome.hand, &outcome.tool);
    format!(
        "Hands are taken to give {} ({}), tool and mallet {} ({}).",
        force(hand.value, reader),
        hand.origin,
        force(tool.value, reader),
        tool.origin,
    )
}

fn on_the_ring(outcome: &Outcome, past: &PastLip, reader: Reader) -> Table {
    let mut table = Table::new([("", Set::Prose), ("", Set::Numbers)]);
    let mut row = |name: &str, value: String| {
        table.row([Cell::text(name), Cell::text(value)]);
    };
    row("stretch on the ring", format!("{} %", fixed(past.stretch_percent, 2)));
    row("section, free", height(past.free_section_mm, reader));
    row("section on the ring", height(past.section_mm, reader));
    if let Some(interference) = past.interference_mm {
        row("interference on the lip's diameter", height(interference, reader));
    }
    if let Some(nose) = &past.nose_radius {
        row(&format!("radius of the lip's nose ({})", nose.origin), height(nose.value, reader));
    }
    row("largest principal stretch", fixed(outcome.max_principal_stretch, 2));
    if let (Some(push), Some(u)) = (outcome.push_force_n, outcome.standard_uncertainty_n) {
        let what = format!("push, {}, {}", past.way.words(), outcome.surface.word());
        row(&what, with_u(push, u, reader));
    }
    table
}

fn pushes(pushes: &[Push], reader: Reader) -> Table {
    let mut table = Table::new([
        ("lip", Set::Words),
        ("friction", Set::Numbers),
        // Words where there is no push.
        ("pressed all round", Set::Prose),
        ("at one side", Set::Prose),
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
        ("Verdict", Set::Words),
        ("Compared", Set::Prose),
        ("Found", Set::Prose),
        ("What fits", Set::Prose),
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
    let push = pushed(outcome, reader).unwrap_or_else(|| "not known".to_owned());
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
            ("way since the touch", height(point.travel_mm, reader)),
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
            ("force, all round", push),
            ("pressed down", height(point.travel_mm, reader)),
            ("height", height(edges.free_height_mm - point.travel_mm, reader)),
        ],
    };
    let title = if drawn.curve.complete {
        "the conical washer, its edges down all round"
    } else {
        "the conical washer, as far as it was followed"
    };
    squeezed_section::draw(("seating", title), squeezed, &stage, reader)
}
