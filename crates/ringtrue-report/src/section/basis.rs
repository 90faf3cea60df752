//! What the report rests on: files, parts, gauge, rules and sources.

use jiff::tz::TimeZone;
use ringtrue_seal::definition::gauge::GaugeKind;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::{assembled_height, gap_stack, geometry};

use super::half_section::load_ring;
use super::sources::merged;
use crate::JointReport;
use crate::document::{Block, Cell, Section, Set, Start, Table};
use crate::reader;

/// The last page.
pub(super) fn section(report: &JointReport) -> Section {
    let mut blocks = vec![Block::Heading("Files that were read".to_owned()), files(report)];
    blocks.push(Block::Heading("Parts".to_owned()));
    blocks.push(parts(report));
    blocks.push(Block::Heading("Gauge".to_owned()));
    blocks.push(gauge(report));
    blocks.extend(overdue(report).map(Block::Caution));
    blocks.push(Block::Heading("How verdicts are drawn".to_owned()));
    blocks.push(Block::Text(rules(report)));
    blocks.push(Block::Heading("Sources".to_owned()));
    blocks.push(Block::Columns(sources(report)));
    Section { title: "What this rests on".to_owned(), start: Start::NewPage, blocks }
}

fn files(report: &JointReport) -> Block {
    if report.inputs.is_empty() {
        return Block::Text("No file names were handed in with the values.".to_owned());
    }
    let mut table = Table::new([("What", Set::Words), ("File", Set::Prose)]);
    for input in report.inputs {
        table.row([Cell::text(input.role), Cell::text(input.name)]);
    }
    Block::Tables(vec![table])
}

fn parts(report: &JointReport) -> Block {
    let mut table = Table::new([("", Set::Words), ("Half a", Set::Prose), ("Half b", Set::Prose)]);
    table.columns[0].head = "Part".to_owned();
    let not_stated = || "not stated".to_owned();
    let both = |of: &dyn Fn(Half) -> String| [of(Half::A), of(Half::B)];
    let seal = |half| report.joint.seal(half);
    let rows = [
        ("Seal", both(&|half| seal(half).name.clone())),
        ("Drawing", both(&|h| seal(h).identity.drawing.clone().unwrap_or_else(not_stated))),
        ("Ring batch", both(&|h| seal(h).identity.ring_batch.clone().unwrap_or_else(not_stated))),
        (
            "Load ring batch",
            both(&|h| seal(h).identity.load_ring_batch.clone().unwrap_or_else(not_stated)),
        ),
        (
            "Load ring cured",
            both(&|half| {
                seal(half).identity.load_ring_cured.map_or_else(not_stated, |day| day.to_string())
            }),
        ),
        ("Load ring", both(&|half| load_ring(seal(half)))),
    ];
    for (what, [a, b]) in rows {
        table.row([Cell::text(what), Cell::Text(a), Cell::Text(b)]);
    }
    Block::Tables(vec![table])
}

fn gauge(report: &JointReport) -> Block {
    let Some(gauge) = report.gauge else {
        return Block::Text(
            "No gauge was named: the uncertainty is what was stated with the readings, or what the \
             rounds show."
                .to_owned(),
        );
    };
    let kind = match gauge.kind {
        GaugeKind::DepthGauge => "depth gauge",
        GaugeKind::DepthMicrometer => "depth micrometer",
        GaugeKind::Indicator => "indicator on a stand",
        GaugeKind::Caliper => "caliper",
        GaugeKind::Feeler => "feeler blades",
        GaugeKind::Rule => "rule",
    };
    let mut table = Table::new([("", Set::Words), ("", Set::Prose)]);
    table.columns[0].head = "Gauge".to_owned();
    table.columns[1].head = gauge.name.clone();
    let rows = [
        ("Kind", kind.to_owned()),
        ("Resolution", gauge.resolution.typed().to_owned()),
        (
            "Standard uncertainty that repeats",
            format!(
                "{} (cancels in range and tilt, not in mean height)",
                gauge.repeating_uncertainty.typed()
            ),
        ),
        (
            "Standard uncertainty that does not",
            format!("{}, without the resolution", gauge.non_repeating_uncertainty.typed()),
        ),
        ("Calibration", gauge.calibration.statement.clone()),
        ("Due again", gauge.calibration.due.to_string()),
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
        format!(
            "Gauge {}: its calibration was due on {}, before this report was made. Have it \
             calibrated and check what it measured since.",
            gauge.name, gauge.calibration.due
        )
    })
}

fn rules(report: &JointReport) -> String {
    let levels = |half: Half| {
        let levels = report.joint.seal(half).levels();
        (levels.accept(), levels.reject())
    };
    let (a, b) = (levels(Half::A), levels(Half::B));
    let words = |(accept, reject): (f64, f64)| {
        format!(
            "conforms where the probability of conformity is {} or more, does not conform where it \
             is {} or less, and is not proven in between",
            reader::percent(accept),
            reader::percent(reject)
        )
    };
    let drawn = if a == b {
        format!("A value {}.", words(a))
    } else {
        format!("Half a: a value {}. Half b: a value {}.", words(a), words(b))
    };
    format!(
        "{drawn} \u{b1} and U stand for the expanded uncertainty, k = 2, about 95 %. Angles run \
         counter-clockwise from the paint mark, seen facing the lapped face. Assembled height is \
         from the housing face to the lapped face, positive where the lapped face stands proud. \
         The range is the highest place less the lowest. The tilt is that of the least-squares \
         plane, peak to peak round the measuring circle; the second harmonic is the amplitude of \
         an oval about it, with two highs and two lows."
    )
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
        all.push("No sources were handed in.".to_owned());
    }
    all
}
