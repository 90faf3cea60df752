//! What the joint's files say of a value, for the place beside its field: the limit that it is held
//! against, and the size that its part is drawn with.

use ringtrue_job::drawn::{Drawn, drawn};
use ringtrue_job::event::Place;
use ringtrue_job::procedure::stated_limit;
use ringtrue_metrology::units::{Quantity, System, fixed};
use ringtrue_seal::definition::procedure::{Evidence, Measures, QuantityKind};
use ringtrue_words::words;

use super::evidence::unit_of;
use super::frame::units_name;
use crate::kept::Kept;

/// The limit with its origin, as the files state it; empty where there is none.
pub(crate) fn limit(asked: &Evidence, (kept, place): (&Kept, &Place)) -> String {
    let key = asked.limit;
    let limit = key.and_then(|key| stated_limit(&kept.plan.joint, place.half, key));
    let Some(limit) = limit else { return String::new() };
    let t = words();
    t.with("value-limit", &[("limit", t.values(limit.stated.join("; ")))])
}

/// The size on the drawing, in the chosen units too; empty where the files do not say.
pub(crate) fn drawing(asked: &Evidence, (kept, place): (&Kept, &Place), units: System) -> String {
    let Some(what) = asked.measures else { return String::new() };
    let all = drawn((&kept.plan.joint, place.half), what);
    let t = words();
    let mut sizes: Vec<String> = Vec::new();
    for (half, one) in all {
        let size = size(&one, what, (&unit_of(asked, units), units));
        let of_half = || t.with("half", &[("half", half.name())]);
        sizes.push(if place.half.is_some() { size } else { format!("{} {size}", of_half()) });
    }
    if sizes.is_empty() {
        return String::new();
    }
    t.with("value-drawn", &[("size", t.values(sizes.join("; ")))])
}

/// One size, and the plane that it is measured at.
fn size(drawn: &Drawn, what: Measures, (unit, units): (&str, System)) -> String {
    let size = in_unit((drawn.typed.as_deref(), drawn.si), (what.quantity(), unit));
    let Some(plane) = &drawn.from_face else { return size };
    let plane = (Some(plane.typed()), plane.value().si());
    let plane = in_unit(plane, (QuantityKind::Length, units_name(units)));
    words().with("value-drawn-at", &[("size", size), ("plane", plane)])
}

/// As the file has it, and in the wanted unit where that is another one.
fn in_unit((typed, si): (Option<&str>, f64), (kind, symbol): (QuantityKind, &str)) -> String {
    let worked_out = kind.unit(symbol).map(|unit| {
        let decimals = if symbol == "in" { 4 } else { 2 };
        format!("{} {symbol}", fixed(unit.of_si(si), decimals))
    });
    match (typed, worked_out) {
        (Some(typed), Some(other)) if !has_unit(typed, symbol) => format!("{typed} ({other})"),
        (Some(typed), _) => typed.to_owned(),
        (None, other) => other.unwrap_or_default(),
    }
}

/// Does a typed size end with this unit?
fn has_unit(typed: &str, symbol: &str) -> bool {
    let number = typed.strip_suffix(symbol);
    number.is_some_and(|number| number.ends_with(|c: char| c.is_ascii_digit() || c == ' '))
}

#[cfg(test)]
mod tests {
    use ringtrue_seal::definition::procedure::QuantityKind;

    use super::in_unit;

    #[test]
    fn a_size_is_told_as_drawn_and_in_the_unit_of_its_field() {
        let inch = (QuantityKind::Length, "in");
        assert_eq!(in_unit((Some("9 mm"), 9e-3), (QuantityKind::Length, "mm")), "9 mm");
        assert_eq!(in_unit((Some("9 mm"), 9e-3), inch), "9 mm (0.3543 in)");
        assert_eq!(in_unit((Some("6.9in"), 0.17526), inch), "6.9in");
        assert_eq!(in_unit((None, 0.17526), (QuantityKind::Length, "mm")), "175.26 mm");
    }
}
