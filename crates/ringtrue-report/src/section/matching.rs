//! Do the parts belong together?

use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::matching::Finding;
use ringtrue_words::say;

use super::{meaning, of_half, sentence};
use crate::JointReport;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine};

/// The verdict on the parts.
pub(super) fn line(report: &JointReport) -> VerdictLine {
    let found = report.matching;
    let all = found.findings.len();
    let of = |verdict| found.findings.iter().filter(|f| f.verdict == verdict).count();
    let said = match found.verdict {
        Verdict::Conforms if all == 0 => say!("report-match-nothing").to_owned(),
        Verdict::Conforms => say!("report-match-all-fit").to_owned(),
        Verdict::NotProven => say!("report-match-not-everything").to_owned(),
        Verdict::DoesNotConform => say!("report-match-some-do-not").to_owned(),
    };
    let conforming = of(Verdict::Conforms);
    VerdictLine {
        verdict: found.verdict,
        question: say!("report-match-question").to_owned(),
        sentence: said,
        value: say!("report-match-comparisons-fit", fitting = conforming, all),
        limit: match (of(Verdict::DoesNotConform), of(Verdict::NotProven)) {
            (0, 0) => say!("report-match-each-must-fit").to_owned(),
            (broken, 0) => say!("report-match-do-not", unfit = broken),
            (0, open) => say!("report-match-not-proven", open),
            (broken, open) => say!("report-match-do-not-not-proven", unfit = broken, open),
        },
        scale: None,
    }
}

fn whose(finding: &Finding) -> String {
    finding.half.map_or_else(|| say!("report-match-joint").to_owned(), of_half)
}

/// The findings with whom they concern; what is the same on both halves once.
fn together(findings: &[Finding]) -> Vec<(&Finding, String)> {
    let mut told: Vec<(&Finding, String)> = Vec::new();
    for finding in findings {
        let same = told.iter_mut().find(|(other, _)| {
            finding.half.is_some()
                && other.half.is_some()
                && (&other.what, &other.found, &other.fits, other.verdict)
                    == (&finding.what, &finding.found, &finding.fits, finding.verdict)
        });
        match same {
            Some((_, whose)) => *whose = say!("report-match-both-halves").to_owned(),
            None => told.push((finding, whose(finding))),
        }
    }
    told
}

/// What to do about parts that do not fit.
pub(super) fn deeds(report: &JointReport) -> Vec<String> {
    let open = together(&report.matching.findings)
        .into_iter()
        .filter(|(finding, _)| finding.verdict != Verdict::Conforms);
    open.map(|(finding, whose)| {
        say!(
            "report-match-deed",
            whose,
            what = finding.what,
            verdict = sentence(finding.verdict.words()),
            found = sentence(&finding.found),
            fits = sentence(&finding.fits)
        )
    })
    .collect()
}

/// The page of the parts.
pub(super) fn section(report: &JointReport) -> Section {
    let mut table = Table::new([
        (say!("report-common-verdict"), Set::Words),
        (say!("report-match-of"), Set::Words),
        (say!("report-common-compared"), Set::Prose),
        (say!("report-common-found"), Set::Prose),
        (say!("report-common-what-fits"), Set::Prose),
    ]);
    for (finding, whose) in together(&report.matching.findings) {
        table.row([
            Cell::Verdict(finding.verdict),
            Cell::Text(whose),
            Cell::Text(finding.what.clone()),
            Cell::Text(finding.found.clone()),
            Cell::Text(finding.fits.clone()),
        ]);
    }
    let mut blocks = vec![Block::Verdict(line(report))];
    if report.matching.findings.is_empty() {
        blocks.push(Block::Text(format!(
            "{} {}",
            say!("report-match-nothing-compared"),
            meaning(Verdict::NotProven)
        )));
    } else {
        blocks.push(Block::Tables(vec![table.close()]));
    }
    Section { title: say!("report-match-title").to_owned(), start: Start::NewPage, blocks }
}
