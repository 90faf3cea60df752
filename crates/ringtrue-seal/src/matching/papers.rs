//! Gauge and material files by themselves.

use jiff::civil::Date;
use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::clip;

use super::Finding;
use super::finding::proven;
use crate::definition::gauge::Gauge;
use crate::definition::material::{ISO_1629, Material};

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
