//! A joint built by a form: what its files would hold, drawn to scale and checked while it is
//! typed.

use askama::Template;
use axum::extract::State;
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Response};
use ringtrue_job::digest::Digest;
use ringtrue_report::Drawing;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::procedure::LoadRingType;
use ringtrue_seal::definition::{Kind, Why};
use ringtrue_store::Edition;
use toml::Value;

use super::Shown;
use super::frame::{Frame, units_of};
use super::start::Procedures;
use crate::web::Shared;
use crate::web::fields::{Fields, Form};
use crate::web::session::Visitor;
use crate::web::start::{self, Sent};
use crate::web::trouble::Trouble;
use ringtrue_words::words;

mod slots;
mod typed;

use slots::{CORNER, Group, LINK, LOAD_RING, Need, SEAL, Slot, Takes};
use typed::{AS_A, Typed, corner_path, field, link_field};

/// Rows of dimensions that the form offers at least, and beyond the last one that is filled.
const ROWS: (usize, usize) = (4, 2);
/// The same of a washer's corners.
const CORNERS: (usize, usize) = (6, 2);

#[derive(Template)]
#[template(path = "build.html")]
struct Build {
    frame: Frame,
    wrong: Option<Trouble>,
    /// Fields that have something wrong: name and label.
    to_mend: Vec<(String, String)>,
    key: String,
    /// Is something typed that is not saved?
    is_typed: bool,
    joint: Vec<Line>,
    halves: Vec<HalfLines>,
    service: Vec<Line>,
    gap: Vec<Line>,
    links: Vec<RowLines>,
    together: Option<Drawing>,
    procedures: Procedures,
}

/// What a field shows.
struct Line {
    name: String,
    label: String,
    help: String,
    unit: &'static str,
    /// What holds while nothing is typed, or an example.
    placeholder: String,
    typed: String,
    takes: Takes,
    /// Words that may be chosen, each with its text.
    words: Vec<(&'static str, String)>,
    needed: bool,
    /// The load ring that it goes with, where it does not go with each.
    only: Option<&'static str>,
    wrong: Option<String>,
}

/// One half of the form.
struct HalfLines {
    half: &'static str,
    /// Its load ring: fields that go with another are not shown.
    load_ring: &'static str,
    from: Line,
    /// Hash and name of each seal of the library.
    seals: Vec<(String, String)>,
    is_b: bool,
    is_open: bool,
    kind: Line,
    groups: Vec<GroupLines>,
    drawing: Option<Drawing>,
}

/// Fields of a half under one heading.
struct GroupLines {
    title: String,
    only: Option<&'static str>,
    lines: Vec<Line>,
    /// The corners of a washer's section.
    corners: Vec<RowLines>,
}

/// A dimension of the chain, or a corner of a section.
struct RowLines {
    number: usize,
    lines: Vec<Line>,
}

/// How much of what is wrong is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Tell {
    /// Nothing: nobody has typed yet.
    Nothing,
    /// What was typed and does not fit.
    Unfit,
    /// What is missing, too.
    All,
}

/// Makes the lines of a form.
struct Lines<'f> {
    fields: &'f Fields,
    typed: &'f Typed,
    frame: &'f Frame,
    tell: Tell,
}

impl Lines<'_> {
    fn wrong(&self, name: &str) -> Option<String> {
        let wrong = self.typed.wrong.get(name)?;
        let told = match (self.tell, wrong.why) {
            (Tell::All, _) | (Tell::Unfit, Why::Unfit) => true,
            (Tell::Nothing, _) | (Tell::Unfit, Why::Missing) => false,
        };
        let next = if wrong.do_next.is_empty() { "" } else { ". " };
        told.then(|| format!("{}{next}{}", wrong.what, wrong.do_next))
    }

    /// A field; `now` is what holds while nothing is typed.
    fn line(&self, slot: &Slot, (name, word): (String, String), now: Option<String>) -> Line {
        let t = self.frame.t;
        let words = match slot.takes {
            Takes::OneOf(words) => words.iter().map(|one| (*one, t.say(word_of(one)))).collect(),
            Takes::Text | Takes::Quantity(_) | Takes::Count => Vec::new(),
        };
        Line {
            label: t.say(&word),
            help: t.say(&format!("{word}-help")),
            unit: slot.unit(self.frame.units),
            needed: slot.need == Need::Always && now.is_none(),
            placeholder: now.unwrap_or_else(|| slot.example().to_owned()),
            typed: self.fields.text(&name).to_owned(),
            takes: slot.takes,
            words,
            only: slot.only.map(LoadRingType::name),
            wrong: self.wrong(&name),
            name,
        }
    }

    fn all(&self, slots: &[Slot]) -> Vec<Line> {
        slots
            .iter()
            .map(|slot| self.line(slot, (slot.path.to_owned(), slot.word()), None))
            .collect()
    }

    fn half(&self, half: Half, editions: &[Edition]) -> HalfLines {
        let t = self.frame.t;
        let seals = editions.iter().filter(|edition| edition.kind == Kind::Seal.name());
        let name = field(half, "from");
        let from = Line {
            label: t.with("build-seal", &[("half", half.name())]),
            help: t.say("build-seal-help"),
            unit: "",
            placeholder: String::new(),
            typed: self.fields.text(&name).to_owned(),
            takes: Takes::Text,
            words: Vec::new(),
            needed: true,
            only: None,
            wrong: self.wrong(&name),
            name,
        };
        let typed = &self.typed.halves[half as usize];
        let line = |slot: &Slot| {
            let now = typed.base.as_ref().and_then(|base| typed::get(base, slot.path)).map(plain);
            self.line(slot, (field(half, &format!("seal.{}", slot.path)), slot.word()), now)
        };
        let group = |group: &Group| GroupLines {
            title: t.say(group.word),
            only: group.only.map(LoadRingType::name),
            lines: group.slots.iter().map(line).collect(),
            corners: match group.only {
                Some(LoadRingType::ConicalWasher) => self.corners(half),
                Some(LoadRingType::Toric) | None => Vec::new(),
            },
        };
        let groups: Vec<GroupLines> = SEAL.iter().map(group).collect();
        let kind = line(&LOAD_RING);
        let is_told = |line: &Line| !line.typed.is_empty() || line.wrong.is_some();
        let is_open = groups.iter().flat_map(GroupLines::all).any(is_told) || is_told(&kind);
        HalfLines {
            half: half.name(),
            load_ring: typed.load_ring.name(),
            from,
            seals: seals.map(|seal| (seal.document.to_string(), seal.name.clone())).collect(),
            is_b: half == Half::B,
            is_open,
            kind,
            groups,
            drawing: self.typed.half(half, self.frame.units),
        }
    }

    /// The corners of a washer's section.
    fn corners(&self, half: Half) -> Vec<RowLines> {
        let known = typed::corners_of(self.typed.halves[half as usize].base.as_ref());
        let (least, more) = CORNERS;
        let rows = (typed::corners_typed(half, self.fields).max(known.len()) + more).max(least);
        let line = |row: usize, (at, slot): (usize, &Slot)| {
            let name = field(half, &format!("seal.{}", corner_path(row, slot.path)));
            let now = known.get(row - 1).and_then(|corner| corner.as_array()?.get(at)).map(plain);
            // One example is no section: it stands at the first corner alone.
            let example = now.is_some() || row == 1;
            let line = self.line(slot, (name, format!("build-corner-{}", slot.path)), now);
            let placeholder = if example { line.placeholder } else { String::new() };
            // Three corners make a section.
            Line { needed: line.needed && row <= 3, placeholder, ..line }
        };
        (1..=rows)
            .map(|number| RowLines {
                number,
                lines: CORNER.iter().enumerate().map(|slot| line(number, slot)).collect(),
            })
            .collect()
    }

    fn links(&self) -> Vec<RowLines> {
        let (least, more) = ROWS;
        let rows = (typed::rows_typed(self.fields) + more).max(least);
        let line = |row: usize, slot: &Slot| {
            let word = format!("build-link-{}", slot.path.replace('_', "-"));
            let line = self.line(slot, (link_field(row, slot.path), word), None);
            // A row that stays empty is none.
            Line { needed: line.needed && row == 1, ..line }
        };
        (1..=rows)
            .map(|number| RowLines {
                number,
                lines: LINK.iter().map(|slot| line(number, slot)).collect(),
            })
            .collect()
    }
}

/// Key of the text of a word that may be chosen.
fn word_of(word: &str) -> &'static str {
    match word {
        "+" => "build-opens",
        "-" => "build-closes",
        "allowed" => "build-allowed",
        "not-allowed" => "build-not-allowed",
        "toric" => "build-toric",
        "conical-washer" => "build-conical-washer",
        "shaft-vertical" => "build-shaft-vertical",
        _ => "build-shaft-horizontal",
    }
}

/// A value of a file as it would be typed.
fn plain(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        Value::Integer(_)
        | Value::Float(_)
        | Value::Boolean(_)
        | Value::Datetime(_)
        | Value::Array(_)
        | Value::Table(_) => value.to_string(),
    }
}

impl GroupLines {
    /// All fields under the heading.
    fn all(&self) -> impl Iterator<Item = &Line> {
        self.lines.iter().chain(self.corners.iter().flat_map(|corner| &corner.lines))
    }
}

impl Line {
    /// Is it the list of load rings, whose first choice is what the library's seal has?
    fn is_load_ring(&self) -> bool {
        self.name.ends_with(LOAD_RING.path)
    }

    fn is_chosen(&self, word: &str) -> bool {
        self.typed == word
    }

    /// The kind of keyboard that it wants.
    fn keyboard(&self) -> &'static str {
        match self.takes {
            Takes::Count => "numeric",
            // A unit may be typed, so letters have to be there.
            Takes::Quantity(_) | Takes::Text | Takes::OneOf(_) => "text",
        }
    }
}

impl Build {
    fn of(frame: Frame, (fields, editions): (&Fields, &[Edition]), tell: Tell) -> Self {
        let system = if tell == Tell::Nothing { frame.units } else { units_of(fields) };
        let frame = Frame { units: system, ..frame };
        let typed = Typed::of(fields, editions, system);
        let lines = Lines { fields, typed: &typed, frame: &frame, tell };
        let halves: Vec<_> =
            Half::BOTH.into_iter().map(|half| lines.half(half, editions)).collect();
        let (joint, service) = (lines.all(slots::JOINT), lines.all(slots::SERVICE));
        let (gap, links) = (lines.all(slots::GAP), lines.links());
        let mut page = Self {
            wrong: None,
            to_mend: Vec::new(),
            key: super::form_key(),
            is_typed: tell != Tell::Nothing,
            joint,
            halves,
            service,
            gap,
            links,
            together: typed.together(system),
            procedures: Procedures::of(editions, fields),
            frame,
        };
        page.to_mend = page.unfit();
        page
    }

    /// All fields, in the order of the page.
    fn lines(&self) -> impl Iterator<Item = &Line> {
        let halves = self.halves.iter().flat_map(|half| {
            let sizes = half.groups.iter().flat_map(GroupLines::all);
            [&half.from, &half.kind].into_iter().chain(sizes)
        });
        let links = self.links.iter().flat_map(|link| &link.lines);
        self.joint.iter().chain(halves).chain(&self.gap).chain(links).chain(&self.service)
    }

    fn unfit(&self) -> Vec<(String, String)> {
        let wrong = self.lines().filter(|line| line.wrong.is_some());
        wrong.map(|line| (line.name.clone(), line.label.clone())).collect()
    }
}

pub(crate) async fn page(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
) -> Result<Response, Trouble> {
    let editions = shared.stores.run(|store| Ok(store.library()?)).await?;
    let frame = Frame::of(&shared, Some(&visitor), &headers).at("/jobs/build");
    Ok(Shown(Build::of(frame, (&Fields::default(), &editions), Tell::Nothing)).into_response())
}

pub(crate) async fn post(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    Form(fields): Form,
) -> Result<Response, Trouble> {
    let editions = shared.stores.run(|store| Ok(store.library()?)).await?;
    let frame = Frame::of(&shared, Some(&visitor), &headers).at("/jobs/build");
    if fields.text("deed") == "draw" {
        return Ok(Shown(Build::of(frame, (&fields, &editions), Tell::Unfit)).into_response());
    }
    match start::from_form(&shared, &visitor, &fields, sent(&fields, &editions)).await {
        Ok(there) => Ok(there),
        Err(wrong) if wrong.status.is_server_error() => Err(wrong),
        Err(wrong) => {
            let status = wrong.status;
            let page = Build::of(frame, (&fields, &editions), Tell::All);
            Ok((status, Shown(Build { wrong: Some(wrong), ..page })).into_response())
        }
    }
}

/// What the form comes to, for the page's script: drawings, and what is wrong at which field.
#[derive(Template)]
#[template(path = "build-drawn.html")]
pub(crate) struct Drawn {
    frame: Frame,
    drawings: [(&'static str, Option<Drawing>); 3],
    /// Each half and its load ring.
    load_rings: Vec<(&'static str, &'static str)>,
    /// Field, `missing` or `unfit`, and what is said.
    wrong: Vec<(String, &'static str, String)>,
    /// Fields of a seal and what holds while nothing is typed into them.
    now: Vec<(String, String)>,
}

pub(crate) async fn draw(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    Form(fields): Form,
) -> Result<Shown<Drawn>, Trouble> {
    let editions = shared.stores.run(|store| Ok(store.library()?)).await?;
    let frame = Frame::of(&shared, Some(&visitor), &headers);
    tokio::task::spawn_blocking(move || {
        let page = Build::of(frame, (&fields, &editions), Tell::All);
        let typed = Typed::of(&fields, &editions, units_of(&fields));
        let why = |name: &str| match typed.wrong.get(name).map(|wrong| wrong.why) {
            Some(Why::Missing) => "missing",
            Some(Why::Unfit) | None => "unfit",
        };
        let wrong = page
            .lines()
            .filter_map(|line| Some((line.name.clone(), why(&line.name), line.wrong.clone()?)));
        let wrong = wrong.collect();
        let seals = page.halves.iter().flat_map(|half| &half.groups).flat_map(GroupLines::all);
        let now = seals.map(|line| (line.name.clone(), line.placeholder.clone())).collect();
        let load_rings = page.halves.iter().map(|half| (half.half, half.load_ring)).collect();
        let mut halves = page.halves.into_iter().map(|half| half.drawing);
        let (a, b) = (halves.next().flatten(), halves.next().flatten());
        let drawings = [("a", a), ("b", b), ("joint", page.together)];
        Shown(Drawn { frame: page.frame, drawings, load_rings, wrong, now })
    })
    .await
    .map_err(|_| Trouble::fault())
}

/// The joint file that the form comes to, with the seals and materials that it may name.
fn sent(fields: &Fields, editions: &[Edition]) -> Result<(Sent, Digest), Trouble> {
    let typed = Typed::of(fields, editions, units_of(fields));
    if !typed.wrong.is_empty() {
        let t = words();
        let count = typed.wrong.len() as u64;
        return Err(Trouble::input(t.count("build-not-yet", count), t.say("build-not-yet-next")));
    }
    let joint = toml::to_string(&typed.joint).map_err(|_| Trouble::fault())?;
    let procedure = Procedures::text(fields, editions);
    let hash = Digest::of(format!("{joint}{:?}{procedure:?}", typed.files).as_bytes());
    Ok((Sent { joint, files: typed.files, procedure }, hash))
}
