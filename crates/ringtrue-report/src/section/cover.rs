//! The first page: the verdicts, and what to do.

use jiff::tz::TimeZone;
use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::definition::joint::{Attitude, Half};
use ringtrue_words::say;

use super::{
    assembled_height, face_load, further, gap_stack, last_try, listed, matching, reader,
    verdict_lines,
};
use crate::document::{Cover, VerdictLine, paragraph};
use crate::figure::ring_from_above;
use crate::{Drawing, JointReport};

/// The first page.
pub(super) fn cover(report: &JointReport) -> Cover {
    let file = &report.joint.file;
    let lines = verdict_lines(report);
    let verdict = lines.iter().map(|line| line.verdict).max().unwrap_or(Verdict::NotProven);
    let correcting =
        Half::BOTH.into_iter().any(|half| assembled_height::moves_a_ring(report, half));
    let to_do = to_do(report);
    Cover {
        kind: say!("cover-kind").to_owned(),
        name: file.name.clone(),
        facts: facts(report),
        verdict,
        sentence: sentence_of(verdict).to_owned(),
        because: because(verdict, &lines),
        pictures: Half::BOTH.into_iter().filter_map(|half| emblem(report, half)).collect(),
        joint: super::half_section::joint(report),
        caution: caution(&to_do, correcting),
        to_do,
        lines,
    }
}

/// What stands before the orders: some of them can hurt, and each has its caution with its pages.
fn caution(to_do: &[String], correcting: bool) -> Option<String> {
    let of_rings = correcting.then(|| super::caution().to_owned());
    let elsewhere = (!to_do.is_empty()).then(|| say!("cover-cautions-first").to_owned());
    let said: Vec<String> = of_rings.into_iter().chain(elsewhere).collect();
    (!said.is_empty()).then(|| paragraph(said))
}

/// A verdict on the whole joint, as a sentence.
pub(super) fn sentence_of(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Conforms => say!("cover-this-joint-conforms"),
        Verdict::NotProven => say!("cover-this-joint-not-proven"),
        Verdict::DoesNotConform => say!("cover-this-joint-does-not-conform"),
    }
}

fn facts(report: &JointReport) -> Vec<(String, String)> {
    let file = &report.joint.file;
    let made = report.made.to_zoned_datetime(TimeZone::UTC);
    let day = format!("{} UTC", made.strftime(say!("date-and-time-pattern")));
    let attitude = match file.attitude {
        Attitude::ShaftHorizontal => say!("cover-shaft-horizontal"),
        Attitude::ShaftVertical => say!("cover-shaft-vertical"),
    };
    let or = |text: &Option<String>| {
        text.clone().unwrap_or_else(|| say!("report-not-stated").to_owned())
    };
    let gauge = report
        .gauge
        .map_or_else(|| say!("report-not-stated").to_owned(), |gauge| gauge.name.clone());
    [
        (say!("cover-shop"), or(&file.shop)),
        (say!("cover-machine"), or(&file.machine)),
        (say!("cover-attitude"), attitude.to_owned()),
        (say!("report-gauge"), gauge),
        (say!("cover-made"), day),
    ]
    .map(|(word, what)| (word.to_owned(), what))
    .into()
}

fn because(verdict: Verdict, lines: &[VerdictLine]) -> String {
    let named = |wanted: Verdict| -> Vec<String> {
        let of = lines.iter().filter(|line| line.verdict == wanted);
        of.map(|line| line.question.clone()).collect()
    };
    let (open, broken) = (named(Verdict::NotProven), named(Verdict::DoesNotConform));
    match verdict {
        Verdict::Conforms => say!("cover-all-keeps").to_owned(),
        Verdict::NotProven => say!("cover-not-proven", open = listed(&open)),
        Verdict::DoesNotConform if open.is_empty() => {
            say!("cover-does-not-conform", broken = listed(&broken))
        }
        Verdict::DoesNotConform => {
            say!(
                "cover-does-not-conform-not-proven",
                broken = listed(&broken),
                open = listed(&open)
            )
        }
    }
}

fn emblem(report: &JointReport, half: Half) -> Option<Drawing> {
    let outcome = last_try(report, half)?.outcome;
    let (name, whose) =
        (format!("half-{}-at-a-glance", half.name()), say!("report-half", half = half.name()));
    Some(ring_from_above::emblem(&ring_from_above::Ring {
        name: &name,
        whose: &whose,
        face: assembled_height::face(report.joint.seal(half)),
        outcome,
        reader: reader(report),
    }))
}

fn to_do(report: &JointReport) -> Vec<String> {
    let mut all = Vec::new();
    if let Some(overdue) = super::basis::overdue(report) {
        all.push(overdue);
    }
    for half in Half::BOTH {
        let mut deeds = assembled_height::deeds(report, half);
        if deeds.is_empty() && last_try(report, half).is_none() {
            deeds.push(say!("cover-measure-height").to_owned());
        }
        all.extend(deeds.into_iter().map(|deed| say!("cover-half-deed", half = half.name(), deed)));
    }
    all.extend(gap_stack::deeds(report));
    all.extend(face_load::deeds(report));
    all.extend(further::all_deeds(report.further, report.system));
    all.extend(matching::deeds(report));
    all
}
