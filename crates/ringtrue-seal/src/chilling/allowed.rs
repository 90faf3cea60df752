//! May this material be chilled so cold?

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{Quantity, Temperature, fixed};
use ringtrue_words::say;

use super::Finding;
use crate::definition::material::{Material, Span};
use crate::definition::seal::Chilling;

/// How far above the temperature at which a family crystallises it is still near it, K: common
/// practice, no source.
const NEAR: f64 = 5.0;

/// What the seal's file and the material's figures say of this cold.
pub(super) fn findings(
    material: &Material,
    cold: Temperature,
    chilling: Option<Chilling>,
) -> Vec<Finding> {
    let mut findings = Vec::new();
    match chilling {
        Some(Chilling::Allowed) => findings.push(Finding::new(
            say!("chill-seals-own-instruction"),
            Verdict::Conforms,
            say!("chill-file-allows-chilling"),
            say!("chill-seal-makers-instruction-stands-before-this"),
        )),
        Some(Chilling::NotAllowed) => findings.push(Finding::new(
            say!("chill-seals-own-instruction"),
            Verdict::DoesNotConform,
            say!("chill-file-does-not-allow-chilling"),
            say!("chill-seal-makers-instruction-stands-before-this"),
        )),
        None => {}
    }
    findings.push(transition(
        material,
        cold,
        material.glass_transition.as_ref(),
        Point {
            what: say!("chill-cold-against-glass-transition"),
            name: say!("chill-glass-transition"),
            missing: say!("chill-no-glass-transition-at-hand", material = material.code),
            above: say!("chill-rubber-stays-rubber-above"),
            between: say!("chill-some-compounds-glass-there-break-when"),
            below: say!("chill-glass-there-breaks-when-bent-warmer"),
        },
    ));
    findings.push(transition(
        material,
        cold,
        material.tr10.as_ref(),
        Point {
            what: say!("chill-cold-against-tr10"),
            name: "TR10",
            missing: say!("chill-no-tr10-at-hand", material = material.code),
            above: say!("chill-still-springs-back-above"),
            between: say!("chill-some-compounds-leather-stiff-there-will"),
            below: say!("chill-leather-stiff-there-will-not-pass"),
        },
    ));
    findings.extend(crystals(material, cold));
    findings
}

/// A temperature of the material and what the fitter is told.
struct Point {
    what: &'static str,
    name: &'static str,
    missing: String,
    above: &'static str,
    between: &'static str,
    below: &'static str,
}

fn transition(
    material: &Material,
    cold: Temperature,
    span: Option<&Span<Temperature>>,
    point: Point,
) -> Finding {
    let Some(span) = span else {
        let fits = say!("chill-take-from-compounds-data-sheet-in");
        return Finding::new(point.what, Verdict::NotProven, point.missing, fits);
    };
    let (low, high) = (span.min.value().si(), span.max.value().si());
    let range = if low == high {
        span.max.to_string()
    } else {
        say!("chill-from-to", least = span.min.to_string(), most = span.max.to_string())
    };
    let found = say!(
        "chill-cold-beside-point",
        cold = shown(cold),
        material = material.code,
        point = point.name,
        range
    );
    let (verdict, fits) = if cold.si() > high {
        (Verdict::Conforms, point.above)
    } else if cold.si() >= low && low < high {
        (Verdict::NotProven, point.between)
    } else {
        (Verdict::DoesNotConform, point.below)
    };
    Finding::new(point.what, verdict, found, fits).with_sources(vec![span.source.clone()])
}

/// A family that crystallises stiffens there with time, far above its glass transition.
fn crystals(material: &Material, cold: Temperature) -> Option<Finding> {
    let span = material.crystallises_near.as_ref()?;
    let found = say!(
        "chill-crystallises-near",
        cold = shown(cold),
        material = material.code,
        near = span.max.to_string()
    );
    let (verdict, fits) = if cold.si() > span.max.value().si() + NEAR {
        (Verdict::Conforms, say!("chill-stay-above"))
    } else {
        let fits = say!("chill-stiffens-there-with-time-comes-back");
        (Verdict::NotProven, fits)
    };
    let finding = Finding::new(say!("chill-cold-against-crystallising"), verdict, found, fits);
    Some(finding.with_sources(vec![span.source.clone()]))
}

fn shown(cold: Temperature) -> String {
    format!("{} degC", fixed(cold.si() - 273.15, 1))
}
