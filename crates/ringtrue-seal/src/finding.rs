//! One comparison with its own verdict: what rooms that compare several things answer with.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{Length, Quantity, System, fixed, length_text};
use ringtrue_words::say;
use serde::Serialize;
use uom::si::length::millimeter;

use crate::definition::joint::Half;
use crate::definition::material::Material;
use crate::definition::seal::Seal;

/// One comparison.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Finding {
    /// What was compared: `ring ramp angle against housing ramp angle`.
    pub what: String,
    /// The half it concerns, where it concerns one.
    pub half: Option<Half>,
    /// What was found, with its numbers as typed or computed.
    pub found: String,
    /// What would fit, with the limit's origin.
    pub fits: String,
    /// On this comparison.
    pub verdict: Verdict,
    /// Sources of the figures that were used.
    pub sources: Vec<String>,
}

impl Finding {
    /// A finding that concerns no half and rests on no figure of another source.
    pub(crate) fn new(
        what: impl Into<String>,
        verdict: Verdict,
        found: impl Into<String>,
        fits: impl Into<String>,
    ) -> Self {
        Self {
            what: what.into(),
            half: None,
            found: found.into(),
            fits: fits.into(),
            verdict,
            sources: Vec::new(),
        }
    }

    pub(crate) fn with_sources(mut self, sources: Vec<String>) -> Self {
        self.sources = sources;
        self
    }
}

/// A stretch against the elongation at break (ISO 37) of a material's compounds: their least in
/// percent, and the comparison. `None` where the material's file gives none.
pub(crate) fn against_break(material: &Material, stretch: f64) -> Option<([f64; 2], Finding)> {
    let span = material.elongation_at_break.as_ref()?;
    let [least, most] = [&span.min, &span.max].map(|given| 100.0 * given.value().si());
    let elongation = 100.0 * (stretch - 1.0);
    let verdict = if elongation <= least {
        Verdict::Conforms
    } else if elongation <= most {
        Verdict::NotProven
    } else {
        Verdict::DoesNotConform
    };
    let percent = |x: f64| fixed(x, 0);
    let fits = if least < most {
        say!(
            "finding-compounds-break-at",
            material = material.name,
            least = percent(least),
            most = percent(most)
        )
    } else {
        say!("finding-material-breaks-at", material = material.name, least = percent(least))
    };
    let found = say!(
        "finding-rubber-is-stretched-by",
        elongation = percent(elongation),
        share = percent(100.0 * elongation / least)
    );
    let finding = Finding::new(of_break(), verdict, found, fits);
    Some(([least, most], finding.with_sources(vec![span.source.clone()])))
}

/// What [`against_break`] compares.
pub(crate) fn of_break() -> &'static str {
    say!("finding-stretch-against-break")
}

/// The worst of several findings; `conforms` when there was nothing to compare.
pub(crate) fn worst(findings: &[Finding]) -> Verdict {
    findings.iter().map(|finding| finding.verdict).max().unwrap_or(Verdict::Conforms)
}

/// The system in which a seal's drawing is written, by the way its face diameter was typed.
pub(crate) fn system_of(seal: &Seal) -> System {
    let typed = seal.ring.face_outer_diameter.typed().to_lowercase();
    let metric = typed.ends_with('m') || typed.contains("met") || typed.contains("micro");
    if metric { System::Millimetre } else { System::Inch }
}

/// A computed length, mm, to a workshop's last digit in a seal's own system.
pub(crate) fn shown_mm(mm: f64, seal: &Seal) -> String {
    shown(Length::new::<millimeter>(mm), system_of(seal))
}

/// A computed length to a workshop's last digit.
pub(crate) fn shown(length: Length, system: System) -> String {
    length_text(length, None, system)
}
