//! What the report rests on: files, parts, gauge, rules and sources.

use jiff::tz::TimeZone;
use ringtrue_seal::definition::gauge::GaugeKind;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::{assembled_height, gap_stack, geometry};
use ringtrue_words::{say, words};

use super::half_section::load_ring;
use super::sources::merged;
use crate::JointReport;
use crate::document::{Block, Cell, Section, Set, Start, Table, paragraph};
use crate::reader;

/// The last page.
pub(super) fn section(report: &JointReport) -> Section {
    let mut blocks =
        vec![Block::Heading(say!("report-basis-files-that-were-read").to_owned()), files(report)];
    blocks.push(Block::Heading(say!("report-basis-parts").to_owned()));
    blocks.push(parts(report));
    blocks.push(Block::Heading(say!("report-gauge").to_owned()));
    blocks.push(gauge(report));
    blocks.extend(overdue(report).map(Block::Caution));
    blocks.push(Block::Heading(say!("report-basis-how-verdicts-are-drawn").to_owned()));
    blocks.push(Block::Text(rules(report)));
    blocks.push(Block::Heading(say!("report-basis-sources").to_owned()));
    blocks.push(Block::Columns(sources(report)));
    Section { title: say!("report-basis-title").to_owned(), start: Start::NewPage, blocks }
}

fn files(report: &JointReport) -> Block {
    if report.inputs.is_empty() {
        return Block::Text(say!("report-basis-no-files").to_owned());
    }
    let mut table = Table::new([
        (say!("report-basis-what"), Set::Words),
        (say!("report-basis-file"), Set::Prose),
    ]);
    for input in report.inputs {
        table.row([Cell::text(input.role), Cell::text(input.name)]);
    }
    Block::Tables(vec![table])
}

fn parts(report: &JointReport) -> Block {
    let mut table = Table::new([
        (say!("report-basis-part"), Set::Words),
        (say!("report-half-a"), Set::Prose),
        (say!("report-half-b"), Set::Prose),
    ]);
    let not_stated = || say!("report-not-stated").to_owned();
    let both = |of: &dyn Fn(Half) -> String| [of(Half::A), of(Half::B)];
    let seal = |half| report.joint.seal(half);
    let rows = [
        (say!("report-basis-seal"), both(&|half| seal(half).name.clone())),
        (
            say!("report-basis-drawing"),
            both(&|h| seal(h).identity.drawing.clone().unwrap_or_else(not_stated)),
        ),
        (
            say!("report-basis-ring-batch"),
            both(&|h| seal(h).identity.ring_batch.clone().unwrap_or_else(not_stated)),
        ),
        (
            say!("report-basis-load-ring-batch"),
            both(&|h| seal(h).identity.load_ring_batch.clone().unwrap_or_else(not_stated)),
        ),
        (
            say!("report-basis-load-ring-cured"),
            both(&|half| {
                seal(half).identity.load_ring_cured.map_or_else(not_stated, |day| words().date(day))
            }),
        ),
        (say!("report-basis-load-ring"), both(&|half| load_ring(seal(half)))),
    ];
    for (what, [a, b]) in rows {
        table.row([Cell::text(what), Cell::Text(a), Cell::Text(b)]);
    }
    Block::Tables(vec![table])
}

fn gauge(report: &JointReport) -> Block {
    let Some(gauge) = report.gauge else {
        return Block::Text(say!("report-basis-no-gauge").to_owned());
    };
    let kind = match gauge.kind {
        GaugeKind::DepthGauge => say!("report-basis-depth-gauge"),
        GaugeKind::DepthMicrometer => say!("report-basis-depth-micrometer"),
        GaugeKind::Indicator => say!("report-basis-indicator-on-stand"),
        GaugeKind::Caliper => say!("report-basis-caliper"),
        GaugeKind::Feeler => say!("report-basis-feeler-blades"),
        GaugeKind::Rule => say!("report-basis-rule"),
    };
    let mut table = Table::new([("", Set::Words), ("", Set::Prose)]);
    table.columns[0].head = say!("report-gauge").to_owned();
    table.columns[1].head = gauge.name.clone();
    let rows = [
        (say!("report-basis-kind"), kind.to_owned()),
        (say!("report-basis-resolution"), gauge.resolution.typed().to_owned()),
        (
            say!("report-basis-standard-uncertainty-that-repeats"),
            say!("report-basis-repeats", uncertainty = gauge.repeating_uncertainty.typed()),
        ),
        (
            say!("report-basis-standard-uncertainty-that-does-not"),
            say!(
                "report-basis-does-not-repeat",
                uncertainty = gauge.non_repeating_uncertainty.typed()
            ),
        ),
        (say!("report-basis-calibration"), gauge.calibration.statement.clone()),
        (say!("report-basis-due-again"), words().date(gauge.calibration.due)),
    ];
    for (what, value) in rows {
        table.row([Cell::text(what), Cell::Text(value)]);
    }
    Block::Tables(vec![table])
}

/// Says so where the gauge's calibration was due before the report was made.
pub(super) fn overdue(report: &JointReport) -> Option<String> {
    let gauge = report.gauge?;
    let today = report.made.to_zoned_datetime(TimeZone::UTC).date();
    (gauge.calibration.due < today).then(|| {
        say!("report-basis-overdue", name = gauge.name, due = words().date(gauge.calibration.due))
    })
}

fn rules(report: &JointReport) -> String {
    let levels = |half: Half| {
        let levels = report.joint.seal(half).levels();
        (levels.accept(), levels.reject())
    };
    let (a, b) = (levels(Half::A), levels(Half::B));
    let shown = |(accept, reject)| (reader::percent(accept), reader::percent(reject));
    let drawn = if a == b {
        let (accept, reject) = shown(a);
        say!("report-basis-drawn", accept, reject)
    } else {
        let ((accept_a, reject_a), (accept_b, reject_b)) = (shown(a), shown(b));
        say!("report-basis-drawn-apart", accept_a, reject_a, accept_b, reject_b)
    };
    paragraph([drawn, say!("report-basis-terms").to_owned()])
}

fn sources(report: &JointReport) -> Vec<String> {
    let of_rooms = assembled_height::SOURCES
        .iter()
        .chain(gap_stack::SOURCES)
        .chain(ringtrue_seal::matching::SOURCES)
        .chain(geometry::SOURCES)
        .map(ToString::to_string)
        .chain(super::face_load::sources(report));
    let of_findings =
        report.matching.findings.iter().flat_map(|finding| finding.sources.iter().cloned());
    let mut all = merged(of_rooms.chain(of_findings));
    if all.is_empty() {
        all.push(say!("report-basis-no-sources").to_owned());
    }
    all
}
