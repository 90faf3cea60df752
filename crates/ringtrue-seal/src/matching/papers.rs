//! Gauge, material and procedure files by themselves.

use jiff::civil::Date;
use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::clip;

use super::Finding;
use super::finding::proven;
use crate::definition::gauge::Gauge;
use crate::definition::material::{ISO_1629, Material};
use crate::definition::procedure::{HoldPoint, Procedure};

/// A gauge may be used up to and on the day on which it is due.
pub(super) fn calibration(gauge: &Gauge, today: Date) -> Finding {
    let due = gauge.calibration.due;
    let found = format!("`{}` is due on {due}, today is {today}", clip(&gauge.name));
    let fits = if today <= due {
        gauge.calibration.statement.clone()
    } else {
        "a gauge in date: have it calibrated before its readings count".to_owned()
    };
    Finding::new("calibration due date against today", proven(today <= due), found, fits)
}

/// The code should be one that the standard has.
pub(super) fn code(material: &Material) -> Finding {
    let what = "material code against ISO 1629";
    let found = format!("code `{}`", clip(&material.code));
    let known = ISO_1629.iter().find(|(code, _)| code.eq_ignore_ascii_case(material.code.trim()));
    match known {
        Some((code, polymer)) => {
            Finding::new(what, Verdict::Conforms, found, format!("{code}: {polymer}"))
        }
        None => {
            let codes: Vec<_> = ISO_1629.iter().map(|(code, _)| *code).collect();
            let fits = format!("a code that is known here: {}", codes.join(", "));
            Finding::new(what, Verdict::NotProven, found, fits)
        }
    }
    .with_sources(vec!["ISO 1629:2013".to_owned()])
}

/// Each hold point of the trade is kept by a gate that never falls away.
pub(super) fn hold_points(procedure: &Procedure) -> Vec<Finding> {
    let points = HoldPoint::ALL.into_iter().filter(|point| *point != HoldPoint::Own);
    let finding = |point: HoldPoint| {
        let keepers = procedure.keepers(point);
        let ids: Vec<_> = keepers.iter().map(|step| format!("`{}`", clip(&step.id))).collect();
        let found = match ids.as_slice() {
            [] => "no step keeps it in every joint".to_owned(),
            ids => format!("kept by {}", ids.join(", ")),
        };
        let fits = "a gate of that hold point in a step without `when`";
        let what = format!("hold point `{}`", point.name());
        Finding::new(what, proven(!keepers.is_empty()), found, fits)
    };
    points.map(finding).collect()
}
