//! The parts to scale, and the limits that they are held against.

use ringtrue_metrology::units::{Quantity, System};
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::limit::Limit;
use ringtrue_seal::definition::seal::{LoadRing, Seal};
use ringtrue_seal::geometry;
use ringtrue_words::say;

use super::of_half;
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
    let whose = say!("report-section-whose", half = half.name(), seal = seal.name);
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
        blocks.push(Block::Text(say!("report-section-not-drawn").to_owned()));
    }
    blocks.push(Block::Small(say!("report-section-how-drawn").to_owned()));
    blocks.push(Block::Heading(say!("report-section-limits").to_owned()));
    blocks.push(limits(report));
    Section { title: say!("report-section-title").to_owned(), start: Start::NewPage, blocks }
}

fn limits(report: &JointReport) -> Block {
    let mut table = Table::new([
        (say!("report-section-of"), Set::Words),
        (say!("report-section-limit-on"), Set::Prose),
        (say!("report-section-as-written"), Set::Prose),
    ]);
    let joint = report.joint;
    let same = joint.a.limits == joint.b.limits;
    let halves = if same {
        vec![(say!("report-section-both").to_owned(), &joint.a)]
    } else {
        Half::BOTH.map(|half| (of_half(half), joint.seal(half))).into()
    };
    for (of, seal) in halves {
        for (what, written) in stated(seal) {
            table.row([Cell::text(&of), Cell::text(what), Cell::Text(written)]);
        }
    }
    if let Some(limit) = &joint.file.gap.limits {
        let (what, written) = row(say!("report-section-seal-gap"), limit);
        table.row([
            Cell::text(say!("report-section-joint")),
            Cell::text(what),
            Cell::Text(written),
        ]);
    }
    if table.rows.is_empty() {
        return Block::Text(say!("report-section-no-limits").to_owned());
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
        limits.seal_gap.as_ref().map(|l| row(say!("report-section-seal-gap"), l)),
        limits.face_load.as_ref().map(|l| row(say!("report-section-face-load"), l)),
        limits
            .assembled_height
            .as_ref()
            .map(|l| row(say!("report-section-mean-assembled-height"), l)),
        limits.height_range.as_ref().map(|l| row(say!("report-section-height-range"), l)),
        limits.ramp_finish_ra.as_ref().map(|l| row(say!("report-section-ramp-finish-ra"), l)),
        limits.face_flatness.as_ref().map(|l| row(say!("report-section-face-flatness"), l)),
        limits.eccentricity.as_ref().map(|l| row(say!("report-section-eccentricity"), l)),
        limits.tip.as_ref().map(|l| row(say!("report-section-tip"), l)),
        limits.speed.as_ref().map(|l| row(say!("report-section-sliding-speed"), l)),
        limits.temperature.as_ref().map(|l| row(say!("report-section-temperature"), l)),
        limits
            .pressure_difference
            .as_ref()
            .map(|l| row(say!("report-section-pressure-difference"), l)),
        limits.toric_stretch.as_ref().map(|l| row(say!("report-section-toric-stretch"), l)),
        limits.free_height.as_ref().map(|l| row(say!("report-section-washer-free-height"), l)),
        limits
            .ramp_angle_difference
            .as_ref()
            .map(|l| row(say!("report-section-ramp-angle-difference"), l)),
        limits
            .tool_diameter_difference
            .as_ref()
            .map(|l| row(say!("report-section-tool-diameter-difference"), l)),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// What is drawn of a half's load ring, in words.
pub(super) fn load_ring(seal: &Seal) -> String {
    match &seal.load_ring {
        LoadRing::Toric(toric) => {
            let (section, inside) = (toric.section_diameter.typed(), toric.inside_diameter.typed());
            let Some(mounted) = geometry::mounted(seal) else {
                return say!("report-section-toric", section, inside, material = toric.material);
            };
            let stretch = crate::reader::percent(mounted.stretch);
            let material = &toric.material;
            say!("report-section-toric-stretched", section, inside, material, stretch)
        }
        LoadRing::ConicalWasher(washer) => {
            say!("report-section-conical-washer", material = washer.material)
        }
    }
}
