//! Gauge, material and procedure files by themselves.

use jiff::civil::Date;
use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::clip;
use ringtrue_words::say;

use super::Finding;
use super::finding::proven;
use crate::definition::gauge::Gauge;
use crate::definition::material::{ISO_1629, Material, polymer};
use crate::definition::procedure::{HoldPoint, Procedure};

/// A gauge may be used up to and on the day on which it is due.
pub(super) fn calibration(gauge: &Gauge, today: Date) -> Finding {
    let due = gauge.calibration.due;
    let found = say!(
        "match-due",
        name = clip(&gauge.name),
        due = due.to_string(),
        today = today.to_string()
    );
    let fits = if today <= due {
        gauge.calibration.statement.clone()
    } else {
        say!("match-gauge-in-date").to_owned()
    };
    Finding::new(say!("match-due-date-against-today"), proven(today <= due), found, fits)
}

/// The code should be one that the standard has.
pub(super) fn code(material: &Material) -> Finding {
    let what = say!("match-code-against-iso-1629");
    let found = say!("match-code", code = clip(&material.code));
    let known = ISO_1629.iter().find(|(code, _)| code.eq_ignore_ascii_case(material.code.trim()));
    match known {
        Some((code, _)) => {
            Finding::new(what, Verdict::Conforms, found, format!("{code}: {}", polymer(code)))
        }
        None => {
            let codes: Vec<_> = ISO_1629.iter().map(|(code, _)| *code).collect();
            let fits = say!("match-codes-known", codes = codes.join(", "));
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
            [] => say!("match-no-step-keeps-it").to_owned(),
            ids => say!("match-kept-by", steps = ids.join(", ")),
        };
        let fits = say!("match-gate-of-hold-point");
        let what = say!("match-hold-point", point = point.name());
        Finding::new(what, proven(!keepers.is_empty()), found, fits)
    };
    points.map(finding).collect()
}
