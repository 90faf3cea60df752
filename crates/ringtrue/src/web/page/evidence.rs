//! The fields of a step's evidence, as its form shows them.

use jiff::Timestamp;
use jiff::tz::TimeZone;
use ringtrue_job::check::{Check, Read, Setting};
use ringtrue_job::digest::Digest;
use ringtrue_job::event::{Entry, Place};
use ringtrue_job::plausible;
use ringtrue_metrology::units::System;
use ringtrue_seal::definition::gauge::Gauge;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::procedure::{Evidence, EvidenceKind, Need, ReadingSet, Step};
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::definition::{self, Kind};
use ringtrue_store::Edition;
use ringtrue_words::words;

use super::ask_back::{self, Doubt, Expected, Measured};
use super::known;
use crate::kept::Kept;
use crate::web::fields::Fields;

/// Places round a ring that a form offers.
pub(crate) const PLACES: [u32; 4] = [4, 6, 8, 12];
/// Rounds that a form offers.
pub(crate) const ROUNDS: [u32; 3] = [1, 2, 3];
/// Lines of a check's readings that a form offers.
const LINES: [u32; 4] = [4, 8, 12, 24];

/// One piece of evidence that a step asks for.
pub(crate) struct Asked {
    pub(crate) name: String,
    pub(crate) kind: &'static str,
    pub(crate) ask: String,
    pub(crate) always: bool,
    pub(crate) example: String,
    /// The limit that a value is held against, and what its part is drawn with.
    pub(crate) known: Vec<String>,
    /// The unit that a bare number is taken in.
    pub(crate) unit: String,
    /// The same for its uncertainty.
    pub(crate) unit_of_u: String,
    /// Is it held against a limit, so that its uncertainty counts?
    pub(crate) limited: bool,
    /// Where a value may be expected.
    pub(crate) expected: Expected,
    /// Is a value asked back?
    pub(crate) back: Option<Doubt>,
    /// Readings that are asked back: sent once more as they are, they are kept.
    pub(crate) doubts: Vec<Doubt>,
    /// What counts now, in words.
    pub(crate) given: Option<String>,
    /// What was typed before it was refused.
    pub(crate) typed: String,
    pub(crate) typed_uncertainty: String,
    /// Is a gauge named beside it?
    pub(crate) takes_gauge: bool,
    /// `heights`, `sizes`, `check` or empty.
    pub(crate) readings: &'static str,
    /// The header that typed rows of a check stand under; empty where it has none.
    pub(crate) row_header: &'static str,
    /// The columns that a check's readings are typed in.
    pub(crate) columns: Vec<Column>,
    /// What is typed in them, line after line.
    pub(crate) cells: Vec<Vec<Cell>>,
    pub(crate) lines: u32,
    pub(crate) settings: Vec<SettingLine>,
    pub(crate) rows: Vec<Row>,
    pub(crate) places: u32,
    pub(crate) rounds: u32,
}

/// One setting of a check.
pub(crate) struct SettingLine {
    pub(crate) field: String,
    pub(crate) name: &'static str,
    pub(crate) help: &'static str,
    pub(crate) default: String,
    /// The unit of a bare number; empty where it has none.
    pub(crate) unit: &'static str,
    pub(crate) is_flag: bool,
    /// Does the step record nothing without it?
    pub(crate) is_wanted: bool,
    pub(crate) words: Vec<&'static str>,
    /// What was measured of it at an earlier step of the job.
    pub(crate) measured: String,
    pub(crate) typed: String,
    pub(crate) expected: Expected,
    /// Is it asked back?
    pub(crate) back: Option<Doubt>,
}

/// A column of a check's readings.
#[derive(Clone)]
pub(crate) struct Column {
    pub(crate) name: &'static str,
    /// The unit of a bare number; empty where words are chosen.
    pub(crate) unit: &'static str,
    /// The words that may be chosen.
    pub(crate) words: Vec<&'static str>,
}

/// One reading of a check, in its line.
pub(crate) struct Cell {
    pub(crate) column: Column,
    pub(crate) line: String,
    pub(crate) field: String,
    pub(crate) typed: String,
    pub(crate) expected: Expected,
    /// Is it asked back?
    pub(crate) back: Option<Doubt>,
}

/// The lines of a check's readings, with what was typed.
fn cells(
    name: &str,
    (columns, measured): (&[Column], &[Measured]),
    (typed, lines): (&Fields, u32),
) -> Vec<Vec<Cell>> {
    let at = |column: &Column, line: usize| {
        let field = cell(name, column.name);
        let measured = measured.iter().find(|one| one.field == field);
        let typed = typed.all(&field).get(line).map_or(String::new(), |text| (*text).to_owned());
        Cell {
            column: column.clone(),
            line: (line + 1).to_string(),
            expected: measured.map(|one| one.expected(line)).unwrap_or_default(),
            back: measured.and_then(|one| one.doubt(line)),
            field,
            typed,
        }
    };
    (0..lines as usize)
        .map(|line| columns.iter().map(|column| at(column, line)).collect())
        .collect()
}

/// The columns of a check's readings by name.
pub(crate) fn columns_of(check: Check) -> impl Iterator<Item = &'static str> {
    check.row_header().split(',').filter(|column| !column.is_empty())
}

/// Name of the field of a column.
pub(crate) fn cell(name: &str, column: &str) -> String {
    field(name, &format!("cell.{column}"))
}

/// The unit of a bare number in a column of a check's readings.
pub(crate) fn unit_of_column(column: &str, units: System) -> &'static str {
    let own = match column {
        "angle" => "deg",
        "reading" | "gap" | "bend" | "spacing" => "mm",
        "ra" => "um",
        "time" => "min",
        "pressure" => "kPa",
        "temperature" => "degC",
        _ => "",
    };
    in_system(own, units)
}

/// One reading of a set.
pub(crate) struct Row {
    /// Angle in degrees, or the name of a size.
    pub(crate) at: String,
    pub(crate) round: u32,
    pub(crate) typed: String,
    pub(crate) typed_u: String,
    pub(crate) expected: Expected,
    /// Is it asked back?
    pub(crate) back: Option<Doubt>,
}

/// A gauge that may be chosen.
pub(crate) struct GaugeLine {
    pub(crate) hash: String,
    pub(crate) name: String,
    pub(crate) due: String,
    pub(crate) overdue: bool,
}

/// Name of a field of a piece of evidence.
pub(crate) fn field(name: &str, part: &str) -> String {
    if part.is_empty() { format!("given.{name}") } else { format!("given.{name}.{part}") }
}

/// Units that stand for each other in the two systems.
const PAIRS: [(&str, &str); 11] = [
    ("mm", "in"),
    ("um", "uin"),
    ("degC", "degF"),
    ("bar", "psi"),
    ("kPa", "psi"),
    ("N m", "lbf ft"),
    ("N", "lbf"),
    ("kg", "lb"),
    ("l", "US gal"),
    ("m3", "ft3"),
    ("m/s", "ft/s"),
];

/// A unit, or the one that stands for it in the chosen system; others stay.
fn in_system(own: &str, units: System) -> &str {
    let pair = PAIRS.into_iter().find(|(metric, inch)| own == *metric || own == *inch);
    match (pair, units) {
        (Some((metric, _)), System::Millimetre) if own != metric => metric,
        (Some((_, inch)), System::Inch) => inch,
        (Some(_) | None, _) => own,
    }
}

/// The unit that a step's value is typed in: that of its example, in the chosen system.
pub(crate) fn unit_of(asked: &Evidence, units: System) -> String {
    in_system(&unit_of_example(asked), units).to_owned()
}

/// The unit that a bare number of a setting is taken in; a difference of temperatures has its own.
pub(crate) fn unit_of_setting(setting: &Setting, units: System) -> &'static str {
    match (setting.unit, units) {
        ("K", System::Inch) => "degF",
        (own, _) => in_system(own, units),
    }
}

fn unit_of_example(asked: &Evidence) -> String {
    let example = asked.example.as_deref().unwrap_or_default().trim();
    let number = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+' | ' ');
    example.trim_start_matches(number).trim().to_owned()
}

/// The unit of a value's uncertainty: a temperature's is a difference.
pub(crate) fn unit_of_uncertainty(asked: &Evidence, units: System) -> String {
    let unit = unit_of(asked, units);
    if unit == "degC" { "K".to_owned() } else { unit }
}

impl Asked {
    /// The field of a piece of evidence, with what was typed into it.
    pub(crate) fn of(
        asked: &Evidence,
        (kept, place): (&Kept, &Place),
        (typed, units): (&Fields, System),
    ) -> Self {
        let state = kept.job.steps.get(place);
        let current = state.and_then(|state| state.current(&asked.name));
        let number = |part: &str, among: &[u32], otherwise: u32| {
            let wanted = typed.text(&field(&asked.name, part)).parse().ok();
            wanted.filter(|wanted| among.contains(wanted)).unwrap_or(otherwise)
        };
        let (places, rounds) = (number("places", &PLACES, 8), number("rounds", &ROUNDS, 1));
        let lines = number("lines", &LINES, LINES[0]);
        let measured = ask_back::measured(asked, (kept, place), (typed, units));
        let (readings, rows) = match asked.readings {
            Some(ReadingSet::AssembledHeight) => {
                ("heights", heights(&asked.name, (places, rounds), (typed, &measured)))
            }
            Some(ReadingSet::SealGap) => ("sizes", sizes(&asked.name, kept, (typed, &measured))),
            Some(_) => ("check", Vec::new()),
            None => ("", Vec::new()),
        };
        let check = asked.readings.and_then(Check::of);
        let columns = columns(check, units);
        let value = measured.first().filter(|_| asked.kind == EvidenceKind::Value);
        let drawing = known::drawing(asked, (kept, place), units);
        let unit = match asked.kind {
            EvidenceKind::ReadingSet => super::frame::units_name(units).to_owned(),
            EvidenceKind::Tick
            | EvidenceKind::Value
            | EvidenceKind::Photo
            | EvidenceKind::Text
            | EvidenceKind::SecondPerson => unit_of(asked, units),
        };
        Self {
            name: asked.name.clone(),
            kind: asked.kind.name(),
            ask: asked.ask.clone(),
            always: asked.need == Need::Always,
            example: example(asked, (&unit, &drawing)),
            known: [known::limit(asked, (kept, place)), drawing]
                .into_iter()
                .filter(|text| !text.is_empty())
                .collect(),
            unit,
            unit_of_u: unit_of_uncertainty(asked, units),
            limited: asked.limit.is_some(),
            expected: value.map(|one| one.expected(0)).unwrap_or_default(),
            back: value.and_then(|one| one.doubt(0)),
            doubts: measured.iter().flat_map(Measured::doubts).collect(),
            given: current.map(|given| given.given.words_alone()),
            typed: typed.text(&field(&asked.name, "")).to_owned(),
            typed_uncertainty: typed.text(&field(&asked.name, "u")).to_owned(),
            takes_gauge: takes_gauge(asked),
            readings,
            row_header: check.map_or("", Check::row_header),
            cells: cells(&asked.name, (&columns, &measured), (typed, lines)),
            columns,
            lines,
            settings: settings(asked, (kept, place), &measured, (typed, units)),
            rows,
            places,
            rounds,
        }
    }

    /// Name of its field.
    pub(crate) fn field(&self, part: &str) -> String {
        field(&self.name, part)
    }

    /// Numbers of places that are offered.
    pub(crate) fn offered_places(&self) -> [u32; 4] {
        PLACES
    }

    /// Numbers of lines that are offered.
    pub(crate) fn offered_lines(&self) -> [u32; 4] {
        LINES
    }

    /// Numbers of rounds that are offered.
    pub(crate) fn offered_rounds(&self) -> [u32; 3] {
        ROUNDS
    }
}

/// How it is typed, shown in its empty field. In another unit its number would mislead, and beside
/// the size of this joint that of another one would.
fn example(asked: &Evidence, (unit, drawing): (&str, &str)) -> String {
    let misleads = unit_of_example(asked) != unit || !drawing.is_empty();
    if misleads { String::new() } else { asked.example.clone().unwrap_or_default() }
}

/// The columns that a check's readings are typed in.
fn columns(check: Option<Check>, units: System) -> Vec<Column> {
    let of_check = |check: Check| {
        columns_of(check).map(move |name| Column {
            name,
            unit: unit_of_column(name, units),
            words: check.words_of(name),
        })
    };
    check.into_iter().flat_map(of_check).collect()
}

/// Is a gauge named beside it? Values and readings are taken with one; a check only where its
/// verdict rests on the gauge's uncertainty.
pub(crate) fn takes_gauge(asked: &Evidence) -> bool {
    match asked.kind {
        EvidenceKind::Value => true,
        EvidenceKind::ReadingSet => {
            asked.readings.and_then(Check::of).is_none_or(Check::takes_gauge)
        }
        EvidenceKind::Tick
        | EvidenceKind::Photo
        | EvidenceKind::Text
        | EvidenceKind::SecondPerson => false,
    }
}

/// What counts of a step's evidence.
pub(crate) struct RecordedLine {
    pub(crate) ask: String,
    pub(crate) says: String,
    /// The limit that it is held against.
    pub(crate) limit: String,
    pub(crate) by: String,
    /// Address of a photo.
    pub(crate) photo: Option<String>,
}

/// What counts now of what a step asks for, in its order.
pub(crate) fn recorded(step: &Step, (kept, place): (&Kept, &Place)) -> Vec<RecordedLine> {
    let Some(state) = kept.job.steps.get(place) else { return Vec::new() };
    let line = |asked: &Evidence| {
        let given = state.current(&asked.name)?;
        let photo = match &given.given.entry {
            Entry::Photo(photo) => Some(format!("/jobs/{}/files/{}", kept.job.id, photo.content)),
            Entry::Tick(_)
            | Entry::Value(_)
            | Entry::Readings(_)
            | Entry::Text(_)
            | Entry::SecondPerson => None,
        };
        Some(RecordedLine {
            ask: asked.ask.clone(),
            says: given.given.words_alone(),
            limit: known::limit(asked, (kept, place)),
            by: given.author.name.clone(),
            photo,
        })
    };
    step.evidence.iter().filter_map(line).collect()
}

/// The settings that a check can take on the parts at its place, with what was typed.
fn settings(
    asked: &Evidence,
    (kept, place): (&Kept, &Place),
    measured: &[Measured],
    typed: (&Fields, System),
) -> Vec<SettingLine> {
    let Some(check) = asked.readings.and_then(Check::of) else { return Vec::new() };
    let halves = place.half.map_or(Half::BOTH.to_vec(), |half| vec![half]);
    let seals: Vec<&Seal> = halves.into_iter().map(|half| kept.plan.joint.seal(half)).collect();
    let taken = check.settings().iter().filter(|setting| check.takes(setting, &seals));
    let line = |setting: &'static Setting| {
        let before = plausible::measured_by(check, setting.name)
            .map(|what| kept.plan.values_of(&kept.job, (place.half, what)).join(", "));
        SettingLine {
            measured: before.unwrap_or_default(),
            ..SettingLine::of((asked, setting), measured, typed)
        }
    };
    taken.map(line).collect()
}

impl SettingLine {
    fn of(
        (asked, setting): (&Evidence, &'static Setting),
        measured: &[Measured],
        (typed, units): (&Fields, System),
    ) -> Self {
        let field = field(&asked.name, &format!("set.{}", setting.name));
        let measured = measured.iter().find(|one| one.field == field);
        let words = match setting.read {
            Read::Words(words) => words(),
            Read::Typed(_) | Read::Flag => Vec::new(),
        };
        Self {
            typed: typed.text(&field).to_owned(),
            expected: measured.map(|one| one.expected(0)).unwrap_or_default(),
            back: measured.and_then(|one| one.doubt(0)),
            field,
            name: setting.name,
            help: setting.help(),
            default: default_of(setting),
            unit: unit_of_setting(setting, units),
            is_flag: matches!(setting.read, Read::Flag),
            is_wanted: asked.stated.iter().any(|name| name == setting.name),
            words,
            measured: String::new(),
        }
    }
}

/// What is taken where a setting is left out, as it is shown.
fn default_of(setting: &Setting) -> String {
    let default = setting.default.unwrap_or_default();
    match setting.read {
        Read::Words(_) => words().known("setting-word-", default).unwrap_or_default(),
        Read::Typed(_) | Read::Flag => default.to_owned(),
    }
}

/// Rows of heights: round after round, the way a hand goes round a ring.
fn heights(
    name: &str,
    (places, rounds): (u32, u32),
    (typed, measured): (&Fields, &[Measured]),
) -> Vec<Row> {
    // By place and round: the rows may have been laid out otherwise when they were typed.
    let column = |part: &str| typed.all(&field(name, part));
    let (angles, of_rounds, heights) = (column("angle"), column("round"), column("height"));
    let at = |angle: &str, round: u32| {
        let mut rows = angles.iter().zip(&of_rounds);
        rows.position(|(a, r)| *a == angle && *r == round.to_string())
    };
    let rows = (1..=rounds).flat_map(|round| (0..places).map(move |place| (round, place)));
    rows.map(|(round, place)| (round, (360 * place / places).to_string()))
        .map(|(round, angle)| {
            let row = at(&angle, round);
            Row {
                typed: row
                    .and_then(|row| heights.get(row))
                    .map_or(String::new(), ToString::to_string),
                at: angle,
                round,
                typed_u: String::new(),
                expected: measured.first().map(|one| one.expected(0)).unwrap_or_default(),
                back: row.and_then(|row| measured.first()?.doubt(row)),
            }
        })
        .collect()
}

/// Rows of sizes: the links of the joint's chain.
fn sizes(name: &str, kept: &Kept, (typed, measured): (&Fields, &[Measured])) -> Vec<Row> {
    let values = typed.all(&field(name, "value"));
    let uncertainties = typed.all(&field(name, "u"));
    let text =
        |list: &[&str], row: usize| list.get(row).map_or(String::new(), |text| (*text).to_owned());
    let links = kept.plan.joint.file.gap.link.iter().enumerate();
    links
        .map(|(row, link)| Row {
            at: link.name.clone(),
            round: 1,
            typed: text(&values, row),
            typed_u: text(&uncertainties, row),
            expected: measured.first().map(|one| one.expected(row)).unwrap_or_default(),
            back: measured.first().and_then(|one| one.doubt(row)),
        })
        .collect()
}

/// Gauges of the library, and those that the job knows besides.
pub(crate) fn gauges(kept: &Kept, editions: &[Edition]) -> Vec<GaugeLine> {
    let today = Timestamp::now().to_zoned_datetime(TimeZone::system()).date();
    let line = |hash: &Digest, gauge: &Gauge| GaugeLine {
        hash: hash.to_string(),
        name: gauge.name.clone(),
        due: words().date(gauge.calibration.due),
        overdue: gauge.calibration.due < today,
    };
    let mut lines: Vec<GaugeLine> = editions
        .iter()
        .filter(|edition| edition.kind == Kind::Gauge.name())
        .filter_map(|edition| {
            let gauge: Gauge = definition::read(&edition.text).ok()?;
            Some(line(&edition.document, &gauge))
        })
        .collect();
    for hash in kept.log.iter().flat_map(|link| link.event.documents()) {
        let Some(gauge) = kept.plan.gauge(&hash) else { continue };
        if lines.iter().all(|known| known.hash != hash.to_string()) {
            lines.push(line(&hash, gauge));
        }
    }
    lines
}
