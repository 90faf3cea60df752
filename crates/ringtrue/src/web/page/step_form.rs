//! A step's posted form, made into evidence.

use std::collections::BTreeMap;

use ringtrue_job::check::{self, Check};
use ringtrue_job::digest::Digest;
use ringtrue_metrology::units::System;
use ringtrue_seal::definition::procedure::{Evidence, EvidenceKind, ReadingSet, Step};

use super::evidence::{
    cell, columns_of, field, takes_gauge, unit_of, unit_of_column, unit_of_setting,
    unit_of_uncertainty,
};
use super::frame::units_name;
use crate::web::deed::{Content, SentFile, SentGiven, YesNo, typed};
use crate::web::fields::{Fields, Upload};
use crate::web::trouble::Trouble;
use ringtrue_words::words;

/// The evidence in a form, in the order in which the step asks for it; what was left empty is left
/// out.
pub(crate) fn given(
    step: &Step,
    fields: &Fields,
    units: System,
) -> Result<Vec<SentGiven>, Trouble> {
    let gauge = match fields.some("gauge") {
        Some(hash) => Some(Digest::from_hex(hash).ok_or_else(|| {
            let t = words();
            Trouble::input(t.with("trouble-gauge", &[("gauge", hash)]), t.say("trouble-gauge-next"))
        })?),
        None => None,
    };
    let mut all = Vec::new();
    for asked in &step.evidence {
        // One field for the step, for what is read with a gauge.
        let gauge = gauge.filter(|_| takes_gauge(asked));
        all.extend(one(asked, fields, (gauge, units))?);
    }
    if !all.is_empty() {
        let there = |name: &str| all.iter().any(|given| given.name() == name);
        let along: Vec<SentGiven> = check::going_along(step, there).map(of_nothing).collect();
        all.extend(along);
    }
    Ok(all)
}

fn one(
    asked: &Evidence,
    fields: &Fields,
    (gauge, units): (Option<Digest>, System),
) -> Result<Option<SentGiven>, Trouble> {
    let name = asked.name.clone();
    let text = fields.some(&field(&name, ""));
    Ok(match asked.kind {
        EvidenceKind::Tick => match text {
            Some("yes") => Some(SentGiven::Tick { name, answer: YesNo::Yes }),
            Some("no") => Some(SentGiven::Tick { name, answer: YesNo::No }),
            Some(_) | None => None,
        },
        EvidenceKind::Value => text.map(|text| {
            let unit = unit_of(asked, units);
            let u = fields.some(&field(&name, "u"));
            let uncertainty = u.map(|u| with_unit(u, &unit_of_uncertainty(asked, units)));
            SentGiven::Value { name, typed: with_unit(text, &unit), uncertainty, gauge }
        }),
        EvidenceKind::Text => text.map(|text| SentGiven::Text { name, text: text.to_owned() }),
        EvidenceKind::Photo => fields.file(&field(&name, "")).map(|file| SentGiven::Photo {
            name,
            file: file.name.clone(),
            content: Content(file.content.to_vec()),
        }),
        EvidenceKind::ReadingSet => readings(asked, fields, (gauge, units))?,
        // The other person says it, in a form of their own.
        EvidenceKind::SecondPerson => None,
    })
}

/// A set of readings for which nothing has to be typed.
fn of_nothing(asked: &Evidence) -> SentGiven {
    let (files, stated) = (Vec::new(), BTreeMap::new());
    SentGiven::ReadingSet { name: asked.name.clone(), files, stated, gauge: None }
}

/// A set of readings: files, rows as typed, and what is stated beside them.
fn readings(
    asked: &Evidence,
    fields: &Fields,
    (gauge, units): (Option<Digest>, System),
) -> Result<Option<SentGiven>, Trouble> {
    let name = asked.name.clone();
    let mut files: Vec<SentFile> = fields.files(&field(&name, "file")).map(sent_file).collect();
    let check = asked.readings.and_then(Check::of);
    let rows = match check {
        Some(check) => cells(&name, check, (fields, units)),
        None if files.is_empty() => table(asked, fields, units),
        None => None,
    };
    files.extend(rows.map(|text| SentFile::Text { origin: typed(), text }));
    let stated: BTreeMap<String, String> = check
        .map_or(&[][..], Check::settings)
        .iter()
        .filter_map(|setting| {
            let typed = fields.some(&field(&name, &format!("set.{}", setting.name)))?;
            Some((setting.name.to_owned(), with_unit(typed, unit_of_setting(setting, units))))
        })
        .collect();
    let nothing = files.is_empty() && stated.is_empty();
    Ok((!nothing).then_some(SentGiven::ReadingSet { name, files, stated, gauge }))
}

/// An uploaded file: its text where it is one.
fn sent_file(file: &Upload) -> SentFile {
    let origin = file.name.clone();
    match String::from_utf8(file.content.to_vec()) {
        Ok(text) => SentFile::Text { origin, text },
        Err(bytes) => SentFile::Bytes { origin, content: Content(bytes.into_bytes()) },
    }
}

/// The readings of a check as CSV; lines that stay empty are none.
fn cells(name: &str, check: Check, (fields, units): (&Fields, System)) -> Option<String> {
    let columns: Vec<(&str, Vec<&str>)> = columns_of(check)
        .map(|column| (unit_of_column(column, units), fields.all(&cell(name, column))))
        .collect();
    let lines = columns.iter().map(|(_, typed)| typed.len()).max()?;
    let line = |at: usize| {
        let typed = columns.iter().map(|(unit, typed)| {
            typed.get(at).map_or_else(String::new, |typed| with_unit(typed, unit))
        });
        let typed: Vec<String> = typed.collect();
        typed.iter().any(|cell| !cell.is_empty()).then(|| csv(&typed))
    };
    let rows: Vec<String> = (0..lines).filter_map(line).collect();
    (!rows.is_empty()).then(|| format!("{}\n{}\n", check.row_header(), rows.join("\n")))
}

/// The rows of a form's table as CSV.
fn table(asked: &Evidence, fields: &Fields, units: System) -> Option<String> {
    let unit = units_name(units);
    let column = |part: &str| fields.all(&field(&asked.name, part));
    let (header, rows): (&str, Vec<String>) = if asked.readings == Some(ReadingSet::SealGap) {
        let (links, uncertainties) = (column("link"), column("u"));
        let row = |(at, value): (usize, &str)| {
            let value = Some(value.trim()).filter(|text| !text.is_empty())?;
            let u = with_unit(uncertainties.get(at)?, unit);
            Some(csv(&[(*links.get(at)?).to_owned(), with_unit(value, unit), u]))
        };
        let values = column("value").into_iter().enumerate();
        ("name,value,u", values.filter_map(row).collect())
    } else {
        let (angles, rounds) = (column("angle"), column("round"));
        let row = |(at, height): (usize, &str)| {
            let height = Some(height.trim()).filter(|text| !text.is_empty())?;
            let angle = with_unit(angles.get(at)?, "deg");
            Some(csv(&[angle, with_unit(height, unit), (*rounds.get(at)?).to_owned()]))
        };
        let heights = column("height").into_iter().enumerate();
        ("angle,height,round", heights.filter_map(row).collect())
    };
    (!rows.is_empty()).then(|| format!("{header}\n{}\n", rows.join("\n")))
}

/// A number with the unit that stands beside its field; a typed unit goes before it.
pub(super) fn with_unit(typed: &str, unit: &str) -> String {
    let typed = typed.trim();
    let bare = typed.chars().all(|c| c.is_ascii_digit() || ".,+-\u{2212}/ eE".contains(c));
    if bare && !typed.is_empty() && !unit.is_empty() {
        format!("{typed} {unit}")
    } else {
        typed.to_owned()
    }
}

/// A row; a decimal comma stays in its cell.
fn csv(cells: &[String]) -> String {
    let quoted = cells.iter().map(|cell| format!("\"{}\"", cell.replace('"', "\"\"")));
    quoted.collect::<Vec<_>>().join(",")
}

#[cfg(test)]
mod tests {
    use super::{csv, with_unit};

    #[test]
    fn a_bare_number_gets_the_unit_beside_its_field_and_a_typed_unit_stays() {
        assert_eq!(with_unit(" 8,06", "mm"), "8,06 mm");
        assert_eq!(with_unit("0.317 in", "mm"), "0.317 in");
        assert_eq!(with_unit("1e-3", "mm"), "1e-3 mm");
        assert_eq!(with_unit("1 1/4", "in"), "1 1/4 in");
        assert_eq!(with_unit("", "mm"), "");
        assert_eq!(with_unit("12", ""), "12");
    }

    #[test]
    fn cells_keep_their_commas_and_quotes() {
        assert_eq!(csv(&["a \"b\"".into(), "8,06 mm".into()]), "\"a \"\"b\"\"\",\"8,06 mm\"");
    }
}
