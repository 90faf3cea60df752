//! May this material be chilled so far?

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{Quantity, Temperature, fixed};

use super::Finding;
use crate::definition::material::{Material, Span};
use crate::definition::seal::Chilling;

/// How far above the temperature at which a family crystallises it is still near it, K.
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
            "the seal's own instruction",
            Verdict::Conforms,
            "its file allows chilling",
            "the seal maker's instruction stands before this computation",
        )),
        Some(Chilling::NotAllowed) => findings.push(Finding::new(
            "the seal's own instruction",
            Verdict::DoesNotConform,
            "its file does not allow chilling",
            "the seal maker's instruction stands before this computation",
        )),
        None => {}
    }
    findings.push(transition(
        material,
        cold,
        material.glass_transition.as_ref(),
        Point {
            what: "cold against glass transition",
            name: "glass transition",
            above: "rubber stays rubber above it",
            between: "some compounds are glass there and break when bent: the compound's data \
                      sheet decides",
            below: "it is glass there and breaks when it is bent: warmer, or not at all",
        },
    ));
    findings.push(transition(
        material,
        cold,
        material.tr10.as_ref(),
        Point {
            what: "cold against TR10",
            name: "TR10",
            above: "it still springs back above it",
            between: "some compounds are leather-stiff there and will not pass the lip: the \
                      compound's data sheet decides",
            below: "it is leather-stiff there and will not pass the lip: warmer",
        },
    ));
    findings.extend(crystals(material, cold));
    findings
}

/// A temperature of the material and what the fitter is told.
struct Point {
    what: &'static str,
    name: &'static str,
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
        let found = format!("no {} is at hand for {}", point.name, material.code);
        let fits = "take it from the compound's data sheet, in a material file";
        return Finding::new(point.what, Verdict::NotProven, found, fits);
    };
    let (low, high) = (span.min.value().si(), span.max.value().si());
    let range =
        if low == high { span.max.to_string() } else { format!("{} to {}", span.min, span.max) };
    let found = format!("{}: {}, {} {range}", shown(cold), material.code, point.name);
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
    let found = format!("{}: {} crystallises near {}", shown(cold), material.code, span.max);
    let (verdict, fits) = if cold.si() > span.max.value().si() + NEAR {
        (Verdict::Conforms, "stay above it")
    } else {
        let fits = "it stiffens there with time and comes back slowly: warmer, or a short stay \
                    by the compound's data sheet";
        (Verdict::NotProven, fits)
    };
    let finding = Finding::new("cold against crystallising", verdict, found, fits);
    Some(finding.with_sources(vec![span.source.clone()]))
}

fn shown(cold: Temperature) -> String {
    format!("{} degC", fixed(cold.si() - 273.15, 1))
}
