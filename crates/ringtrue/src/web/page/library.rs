//! The shop's library: seals, gauges, materials, procedures and joints, each in all its editions.

use askama::Template;
use axum::extract::{Path, State};
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Response};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use ringtrue_job::digest::Digest;
use ringtrue_seal::definition::gauge::Gauge;
use ringtrue_seal::definition::joint::JointFile;
use ringtrue_seal::definition::material::Material;
use ringtrue_seal::definition::procedure::Procedure;
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::definition::{self, Definition, Kind, TextError};
use ringtrue_seal::squeeze::SqueezeFile;
use ringtrue_store::Edition;
use similar::{ChangeTag, TextDiff};

use super::Shown;
use super::download::file;
use super::frame::Frame;
use super::start::text;
use crate::moment::now;
use crate::problem::Problem;
use crate::web::Shared;
use crate::web::fields::{Fields, Form};
use crate::web::permission::Call;
use crate::web::router::see_other;
use crate::web::session::Visitor;
use crate::web::trouble::Trouble;
use ringtrue_words::words;

#[derive(Template)]
#[template(path = "library.html")]
struct Library {
    frame: Frame,
    kinds: Vec<(&'static str, Vec<Line>)>,
    may_bring_in: bool,
    wrong: Option<Trouble>,
}

/// A definition in a list.
struct Line {
    name: String,
    href: String,
    brought: String,
    due: Option<String>,
    overdue: bool,
}

#[derive(Template)]
#[template(path = "edition.html")]
struct EditionPage {
    frame: Frame,
    edition: Edition,
    brought: String,
    earlier: Vec<(String, String)>,
    changes: Vec<Change>,
}

/// What would change, before a new edition is brought in.
#[derive(Template)]
#[template(path = "bring-in.html")]
struct BringIn {
    frame: Frame,
    kind: &'static str,
    name: String,
    text: String,
    changes: Vec<Change>,
}

/// A line of a difference.
struct Change {
    sign: &'static str,
    class: &'static str,
    text: String,
}

/// The lines in which two editions differ, with three around each.
fn changes(old: &str, new: &str) -> Vec<Change> {
    let diff = TextDiff::from_lines(old, new);
    let mut lines = Vec::new();
    for (at, group) in diff.grouped_ops(3).iter().enumerate() {
        if at > 0 {
            lines.push(Change { sign: "\u{22ee}", class: "skipped", text: String::new() });
        }
        for change in group.iter().flat_map(|op| diff.iter_changes(op)) {
            let (sign, class) = match change.tag() {
                ChangeTag::Equal => (" ", "same"),
                ChangeTag::Delete => ("\u{2212}", "gone"),
                ChangeTag::Insert => ("+", "new"),
            };
            let text = change.value().trim_end_matches('\n').to_owned();
            lines.push(Change { sign, class, text });
        }
    }
    lines
}

/// Kind and name of a definition's text, which is read whole.
fn named(text: &str) -> Result<(Kind, String), TextError> {
    fn name<T: Definition>(text: &str, name: impl Fn(T) -> String) -> Result<String, TextError> {
        definition::read::<T>(text).map(name)
    }
    let kind = definition::kind_of(text)?;
    let name = match kind {
        Kind::Seal => name(text, |seal: Seal| seal.name),
        Kind::Joint => name(text, |joint: JointFile| joint.name),
        Kind::Gauge => name(text, |gauge: Gauge| gauge.name),
        Kind::Material => name(text, |material: Material| material.name),
        Kind::Procedure => name(text, |procedure: Procedure| procedure.name),
        Kind::Squeeze => name(text, |_: SqueezeFile| "squeeze".to_owned()),
    }?;
    Ok((kind, name))
}

fn line(edition: &Edition, frame: &Frame) -> Line {
    let gauge = (edition.kind == Kind::Gauge.name())
        .then(|| definition::read::<Gauge>(&edition.text).ok())
        .flatten();
    let due = gauge.map(|gauge| gauge.calibration.due);
    let today = Timestamp::now().to_zoned_datetime(TimeZone::system()).date();
    Line {
        name: edition.name.clone(),
        href: format!("/library/{}", edition.document),
        brought: frame.t.with(
            "library-brought",
            &[
                ("by", edition.brought_by.as_str()),
                ("at", frame.t.stored_moment(&edition.brought_at).as_str()),
            ],
        ),
        overdue: due.is_some_and(|due| due < today),
        due: due.map(|due| words().date(due)),
    }
}

pub(crate) async fn page(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
) -> Result<Response, Trouble> {
    Ok(Shown(library(&shared, (&visitor, &headers), None).await?).into_response())
}

async fn library(
    shared: &Shared,
    (visitor, headers): (&Visitor, &HeaderMap),
    wrong: Option<Trouble>,
) -> Result<Library, Trouble> {
    let frame = Frame::of(shared, Some(visitor), headers).at("/library");
    let editions = shared.stores.run(|store| Ok(store.library()?)).await?;
    let of_kind = |kind: Kind| {
        let lines = editions.iter().filter(|edition| edition.kind == kind.name());
        (kind.name(), lines.map(|edition| line(edition, &frame)).collect::<Vec<_>>())
    };
    let kinds = Kind::ALL.into_iter().map(of_kind);
    let kinds = kinds.filter(|(kind, lines)| *kind != Kind::Squeeze.name() || !lines.is_empty());
    Ok(Library {
        kinds: kinds.collect(),
        may_bring_in: Call::BringIn.is_allowed(visitor.role),
        wrong,
        frame,
    })
}

/// The edition with this hash.
async fn edition(shared: &Shared, hash: &str) -> Result<Edition, Trouble> {
    let hash = Digest::from_hex(hash).ok_or_else(Trouble::not_found)?;
    let found = shared.stores.run(move |store| Ok(store.edition(&hash)?)).await?;
    found.ok_or_else(Trouble::not_found)
}

pub(crate) async fn one(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    Path(hash): Path<String>,
) -> Result<Response, Trouble> {
    let edition = edition(&shared, &hash).await?;
    let frame = Frame::of(&shared, Some(&visitor), &headers).at(format!("/library/{hash}"));
    let (kind, name) = (edition.kind.clone(), edition.name.clone());
    let all = shared.stores.run(move |store| Ok(store.editions(&kind, &name)?)).await?;
    let here = all.iter().position(|one| one.document == edition.document);
    let before = here.and_then(|here| all.get(here + 1));
    let changes = before.map_or(Vec::new(), |before| changes(&before.text, &edition.text));
    let earlier = all.iter().filter(|one| one.document != edition.document);
    let page = EditionPage {
        brought: line(&edition, &frame).brought,
        earlier: earlier
            .map(|one| (format!("/library/{}", one.document), line(one, &frame).brought))
            .collect(),
        changes,
        edition,
        frame,
    };
    Ok(Shown(page).into_response())
}

/// The definition as the command line reads it.
pub(crate) async fn download(
    State(shared): State<Shared>,
    Path(hash): Path<String>,
) -> Result<Response, Trouble> {
    let edition = edition(&shared, &hash).await?;
    let name = format!("{}.toml", edition.name);
    Ok(file(("application/toml", &name), edition.text.into_bytes()))
}

pub(crate) async fn bring_in(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    Form(fields): Form,
) -> Result<Response, Trouble> {
    match brought(&shared, (&visitor, &headers), &fields).await {
        Ok(response) => Ok(response),
        Err(wrong) if wrong.status.is_server_error() => Err(wrong),
        Err(wrong) => {
            let status = wrong.status;
            let page = library(&shared, (&visitor, &headers), Some(wrong)).await?;
            Ok((status, Shown(page)).into_response())
        }
    }
}

async fn brought(
    shared: &Shared,
    (visitor, headers): (&Visitor, &HeaderMap),
    fields: &Fields,
) -> Result<Response, Trouble> {
    let t = words();
    let text = match fields.file("file") {
        Some(file) => text(file)?,
        // Browsers send a text field's line ends in their own way.
        None => fields.text("text").replace("\r\n", "\n"),
    };
    if text.is_empty() {
        return Err(Trouble::input(t.say("library-no-file"), t.say("trouble-no-text-next")));
    }
    let (kind, name) = named(&text)
        .map_err(|error| Trouble::from(Problem::text(std::path::Path::new("definition"), error)))?;
    let kind = kind.name();
    let known = name.clone();
    let editions = shared.stores.run(move |store| Ok(store.editions(kind, &known)?)).await?;
    if let Some(newest) = editions.first() {
        if newest.text == text {
            return Ok(see_other(&format!("/library/{}", newest.document)));
        }
        if fields.text("confirmed") != "yes" {
            let frame = Frame::of(shared, Some(visitor), headers).at("/library");
            let changes = changes(&newest.text, &text);
            return Ok(Shown(BringIn { frame, kind, name, text, changes }).into_response());
        }
    }
    let by = visitor.name.clone();
    let hash = shared
        .stores
        .write(move |store| Ok(store.bring_in((kind, &name), &text, (&by, now()))?))
        .await?;
    Ok(see_other(&format!("/library/{hash}")))
}
