//! Do the parts belong together?

use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::matching::Finding;

use super::{meaning, sentence};
use crate::JointReport;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine};

/// The verdict on the parts.
pub(super) fn line(report: &JointReport) -> VerdictLine {
    let found = report.matching;
    let all = found.findings.len();
    let of = |verdict| found.findings.iter().filter(|f| f.verdict == verdict).count();
    let said = match found.verdict {
        Verdict::Conforms if all == 0 => "There was nothing to compare.".to_owned(),
        Verdict::Conforms => {
            "Ring, load ring, housing, tool, material and chain fit together.".to_owned()
        }
        Verdict::NotProven => "Not everything could be compared.".to_owned(),
        Verdict::DoesNotConform => "Some of the parts do not fit together.".to_owned(),
    };
    let conforming = of(Verdict::Conforms);
    VerdictLine {
        verdict: found.verdict,
        question: "parts that belong together".to_owned(),
        sentence: said,
        value: format!("{conforming} of {all} comparisons fit"),
        limit: match (of(Verdict::DoesNotConform), of(Verdict::NotProven)) {
            (0, 0) => "each must fit".to_owned(),
            (broken, 0) => format!("{broken} do not"),
            (0, open) => format!("{open} not proven"),
            (broken, open) => format!("{broken} do not, {open} not proven"),
        },
        scale: None,
    }
}

fn whose(finding: &Finding) -> String {
    finding.half.map_or_else(|| "joint".to_owned(), |half| format!("half {}", half.name()))
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
            Some((_, whose)) => *whose = "both halves".to_owned(),
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
        format!(
            "{whose}, {}: {} Found: {} Wanted: {}",
            finding.what,
            sentence(finding.verdict.words()),
            sentence(&finding.found),
            sentence(&finding.fits)
        )
    })
    .collect()
}

/// The page of the parts.
pub(super) fn section(report: &JointReport) -> Section {
    let mut table = Table::new([
        ("Verdict", Set::Words),
        ("Of", Set::Words),
        ("Compared", Set::Prose),
        ("Found", Set::Prose),
        ("What fits", Set::Prose),
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
            "Nothing was compared: the definitions hold no two values that bear on each other. {}",
            meaning(Verdict::NotProven)
        )));
    } else {
        blocks.push(Block::Tables(vec![table.close()]));
    }
    Section { title: "Parts that belong together".to_owned(), start: Start::NewPage, blocks }
}
