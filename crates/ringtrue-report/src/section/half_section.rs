//! The parts to scale, and the limits that they are held against.

use ringtrue_metrology::units::{Quantity, System};
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::limit::Limit;
use ringtrue_seal::definition::seal::{LoadRing, Seal};
use ringtrue_seal::geometry;

use crate::document::{Block, Cell, Section, Set, Start, Table};
use crate::figure::half_section::{self, Closed, Facing};
use crate::reader::Reader;
use crate::{Drawing, JointReport};

/// The joint with its faces together, where both halves make a section.
pub(super) fn joint(report: &JointReport) -> Option<Drawing> {
    let halves = (&report.joint.a, &report.joint.b);
    let closed = Closed {
        gap: report.gap.nominal_gap_mm,
        limits: (report.gap.limit_min_mm, report.gap.limit_max_mm),
    };
    joint_drawing(halves, Some(closed), report.system)
}

/// Both halves with their lapped faces together, to scale, and the seal gap where it is known;
/// `None` where a half's measures make no section.
#[must_use]
pub fn joint_drawing(
    halves: (&Seal, &Seal),
    closed: Option<Closed>,
    system: System,
) -> Option<Drawing> {
    half_section::joint("joint-section", halves, closed, Reader::new(system))
}

/// A half to scale with its dimensions; `None` where its measures make no section.
#[must_use]
pub fn half_drawing(half: Half, seal: &Seal, system: System) -> Option<Drawing> {
    let facing = match half {
        Half::A => Facing::Right,
        Half::B => Facing::Left,
    };
    let name = format!("half-{}-section", half.name());
    let whose = format!("half {}: {}", half.name(), seal.name);
    half_section::draw(&name, &whose, seal, (facing, Reader::new(system)))
}

/// The page of the parts to scale.
pub(super) fn section(report: &JointReport) -> Section {
    let joint = report.joint;
    let mut blocks = Vec::new();
    let halves: Vec<_> = Half::BOTH
        .into_iter()
        .filter_map(|half| half_drawing(half, joint.seal(half), report.system))
        .collect();
    let drawn = halves.len();
    if drawn > 0 {
        blocks.push(Block::Drawings(halves.into_iter().map(|drawing| vec![drawing]).collect()));
    }
    if drawn < 2 {
        blocks.push(Block::Text(
            "Where a half is not drawn, the measures in its definition do not make a section: \
             check diameters, angles and distances."
                .to_owned(),
        ));
    }
    blocks.push(Block::Small(
        "Each half is drawn where its load ring just touches, not squeezed: geometry tells that \
         much and no more. A toric is thinned by its stretch on the ring at constant volume. In \
         the drawing of the joint on the first page the dashed lines are the housing faces at the \
         nominal seal gap, set evenly about the lapped faces; how far each half really moves \
         follows from the face loads."
            .to_owned(),
    ));
    blocks.push(Block::Heading("Limits, and where they come from".to_owned()));
    blocks.push(limits(report));
    Section { title: "The parts to scale".to_owned(), start: Start::NewPage, blocks }
}

fn limits(report: &JointReport) -> Block {
    let mut table = Table::new([
        ("Of", Set::Words),
        ("Limit on", Set::Prose),
        ("As written, with its origin", Set::Prose),
    ]);
    let joint = report.joint;
    let same = joint.a.limits == joint.b.limits;
    let halves: &[(&str, &Seal)] =
        if same { &[("both", &joint.a)] } else { &[("half a", &joint.a), ("half b", &joint.b)] };
    for (of, seal) in halves {
        for (what, written) in stated(seal) {
            table.row([Cell::text(*of), Cell::text(what), Cell::Text(written)]);
        }
    }
    if let Some(limit) = &joint.file.gap.limits {
        let (what, written) = row("seal gap", limit);
        table.row([Cell::text("joint"), Cell::text(what), Cell::Text(written)]);
    }
    if table.rows.is_empty() {
        return Block::Text("The definitions state no limits.".to_owned());
    }
    Block::Tables(vec![table])
}

type Row = (&'static str, String);

fn row<Q: Quantity>(what: &'static str, limit: &Limit<Q>) -> Row {
    (what, limit.words())
}

fn stated(seal: &Seal) -> Vec<Row> {
    let limits = &seal.limits;
    [
        limits.seal_gap.as_ref().map(|l| row("seal gap", l)),
        limits
            .face_load
            .as_ref()
            .map(|l| row("face load per length, at the contact band's mean diameter", l)),
        limits.assembled_height.as_ref().map(|l| row("mean assembled height", l)),
        limits.height_range.as_ref().map(|l| row("range of the assembled height", l)),
        limits.ramp_finish_ra.as_ref().map(|l| row("ramp finish Ra", l)),
        limits.face_flatness.as_ref().map(|l| row("face flatness", l)),
        limits.eccentricity.as_ref().map(|l| row("eccentricity", l)),
        limits.tip.as_ref().map(|l| row("tip when lowering", l)),
        limits.speed.as_ref().map(|l| row("sliding speed", l)),
        limits.temperature.as_ref().map(|l| row("temperature", l)),
        limits.pressure_difference.as_ref().map(|l| row("pressure difference", l)),
        limits.toric_stretch.as_ref().map(|l| row("toric stretch", l)),
        limits.free_height.as_ref().map(|l| row("free height of the washer", l)),
        limits.ramp_angle_difference.as_ref().map(|l| row("ramp angle difference", l)),
        limits.tool_diameter_difference.as_ref().map(|l| row("tool diameter difference", l)),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// What is drawn of a half's load ring, in words.
pub(super) fn load_ring(seal: &Seal) -> String {
    match &seal.load_ring {
        LoadRing::Toric(toric) => {
            let stretch = geometry::mounted(seal).map_or_else(String::new, |mounted| {
                format!(", stretched {} on the ring", crate::reader::percent(mounted.stretch))
            });
            format!(
                "toric {} section, {} inside, {}{stretch}",
                toric.section_diameter.typed(),
                toric.inside_diameter.typed(),
                toric.material
            )
        }
        LoadRing::ConicalWasher(washer) => format!("conical washer, {}", washer.material),
    }
}
