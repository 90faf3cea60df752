//! A joint built by a form, from seals of the library: what the joint file would hold.

use std::collections::BTreeMap;

use askama::Template;
use axum::extract::State;
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Response};
use ringtrue_job::digest::Digest;
use ringtrue_seal::definition::Kind;
use ringtrue_store::Edition;
use toml::{Table, Value};

use super::Shown;
use super::frame::Frame;
use crate::web::Shared;
use crate::web::fields::{Fields, Form};
use crate::web::router::see_other;
use crate::web::session::Visitor;
use crate::web::start::{self, Sent};
use crate::web::trouble::Trouble;
use crate::web::words::english;

/// Rows of the dimension chain that the form offers.
const LINKS: usize = 8;
/// Fields of a text each, as the joint file names them, with an example.
const SERVICE: [(&str, &str); 6] = [
    ("speed", "85 rpm"),
    ("oil", "mineral-oil"),
    ("oil_grade", "ISO VG 220"),
    ("temperature_min", "-25 degC"),
    ("temperature_max", "85 degC"),
    ("pressure_difference", "0.03 MPa"),
];

#[derive(Template)]
#[template(path = "build.html")]
struct Build {
    frame: Frame,
    wrong: Option<Trouble>,
    key: String,
    name: String,
    machine: String,
    attitude: String,
    service: Vec<Line>,
    /// Hash and name of each seal of the library.
    seals: Vec<(String, String)>,
    chosen: [String; 2],
    gap: [String; 2],
    links: Vec<LinkLine>,
}

/// A field with its example and what was typed.
struct Line {
    name: &'static str,
    example: &'static str,
    typed: String,
}

/// A row of the dimension chain.
struct LinkLine {
    name: String,
    sign: String,
    nominal: String,
    plus_minus: String,
}

impl Build {
    /// Was this seal chosen for the half before the form was refused?
    fn is_chosen(&self, half: &str, hash: &str) -> bool {
        let [a, b] = &self.chosen;
        if half == "a" { a == hash } else { b == hash }
    }

    fn of(frame: Frame, editions: &[Edition], typed: &Fields) -> Self {
        let text = |name: &str| typed.text(name).to_owned();
        let seals = editions.iter().filter(|edition| edition.kind == Kind::Seal.name());
        let column = |name: &str| typed.all(&format!("link.{name}"));
        let columns = ["name", "sign", "nominal", "plus_minus"].map(column);
        let cell = |column: usize, row: usize| {
            columns[column].get(row).map_or(String::new(), |text| (*text).to_owned())
        };
        Self {
            frame,
            wrong: None,
            key: super::form_key(),
            name: text("name"),
            machine: text("machine"),
            attitude: text("attitude"),
            service: SERVICE
                .into_iter()
                .map(|(name, example)| Line { name, example, typed: text(name) })
                .collect(),
            seals: seals.map(|seal| (seal.document.to_string(), seal.name.clone())).collect(),
            chosen: [text("seal_a"), text("seal_b")],
            gap: [text("gap_min"), text("gap_max")],
            links: (0..LINKS)
                .map(|row| LinkLine {
                    name: cell(0, row),
                    sign: cell(1, row),
                    nominal: cell(2, row),
                    plus_minus: cell(3, row),
                })
                .collect(),
        }
    }
}

pub(crate) async fn page(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
) -> Result<Response, Trouble> {
    let editions = shared.stores.run(|store| Ok(store.library()?)).await?;
    let frame = Frame::of(&shared, Some(&visitor), &headers).at("/jobs/build");
    Ok(Shown(Build::of(frame, &editions, &Fields::default())).into_response())
}

pub(crate) async fn post(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    Form(fields): Form,
) -> Result<Response, Trouble> {
    let editions = shared.stores.run(|store| Ok(store.library()?)).await?;
    let started = match sent(&fields, &editions) {
        Ok((sent, hash)) => {
            let once = fields.some("key").map(|key| (key.to_owned(), hash));
            start::start(&shared, &visitor, (sent, once)).await
        }
        Err(wrong) => Err(wrong),
    };
    match started {
        Ok((id, _)) => Ok(see_other(&format!("/jobs/{id}"))),
        Err(wrong) => {
            let frame = Frame::of(&shared, Some(&visitor), &headers).at("/jobs/build");
            let status = wrong.status;
            let page = Build { wrong: Some(wrong), ..Build::of(frame, &editions, &fields) };
            Ok((status, Shown(page)).into_response())
        }
    }
}

/// The joint file that the form comes to, with the seals and materials that it may name.
fn sent(fields: &Fields, editions: &[Edition]) -> Result<(Sent, Digest), Trouble> {
    let t = english();
    let mut files: BTreeMap<String, String> = editions
        .iter()
        .filter(|edition| edition.kind == Kind::Material.name())
        .map(|edition| (format!("{}.toml", edition.name), edition.text.clone()))
        .collect();
    for half in ["a", "b"] {
        let hash = fields.text(&format!("seal_{half}"));
        let seal = editions.iter().find(|edition| edition.document.to_string() == hash);
        let seal = seal.ok_or_else(|| {
            Trouble::input(t.with("build-no-seal", &[("half", half)]), t.say("build-no-seal-next"))
        })?;
        files.insert(format!("seal-{half}.toml"), seal.text.clone());
    }
    let joint = toml::to_string(&joint(fields)).map_err(|_| Trouble::fault())?;
    let hash = Digest::of(format!("{joint}{files:?}").as_bytes());
    Ok((Sent { joint, files, procedure: None }, hash))
}

fn joint(fields: &Fields) -> Table {
    let text = |name: &str| fields.some(name).map(|text| Value::String(text.to_owned()));
    let mut joint = Table::new();
    joint.insert("schema".to_owned(), Value::String("ringtrue/joint/1".to_owned()));
    for name in ["name", "machine", "attitude"] {
        joint.extend(text(name).map(|value| (name.to_owned(), value)));
    }
    let service = SERVICE.iter().filter_map(|(name, _)| Some(((*name).to_owned(), text(name)?)));
    joint.insert("service".to_owned(), Value::Table(service.collect()));
    let half = |half: &str| {
        let file = Value::String(format!("seal-{half}.toml"));
        let entry: Table = [("seal_file".to_owned(), file)].into_iter().collect();
        (half.to_owned(), Value::Table(entry))
    };
    let halves: Table = [half("a"), half("b")].into_iter().collect();
    joint.insert("half".to_owned(), Value::Table(halves));
    joint.insert("gap".to_owned(), Value::Table(gap(fields)));
    joint
}

/// The dimension chain and its limits.
fn gap(fields: &Fields) -> Table {
    let column = |name: &str| fields.all(&format!("link.{name}"));
    let (names, signs) = (column("name"), column("sign"));
    let (nominals, tolerances) = (column("nominal"), column("plus_minus"));
    let links = names.iter().enumerate().filter(|(_, name)| !name.trim().is_empty());
    let links = links.map(|(row, name)| {
        let cells = [
            ("name", Some(name)),
            ("sign", signs.get(row)),
            ("nominal", nominals.get(row)),
            ("plus_minus", tolerances.get(row)),
        ];
        let cells = cells.into_iter().filter_map(|(key, cell)| {
            let typed = Some(cell?.trim()).filter(|typed| !typed.is_empty())?;
            Some((key.to_owned(), Value::String(typed.to_owned())))
        });
        Value::Table(cells.collect())
    });
    let mut gap = Table::new();
    let limits: Table = [("min", "gap_min"), ("max", "gap_max")]
        .into_iter()
        .filter_map(|(key, name)| {
            Some((key.to_owned(), Value::String(fields.some(name)?.to_owned())))
        })
        .collect();
    if !limits.is_empty() {
        let origin = Value::String("typed when the job was opened".to_owned());
        let limits = limits.into_iter().chain([("origin".to_owned(), origin)]);
        gap.insert("limits".to_owned(), Value::Table(limits.collect()));
    }
    gap.insert("link".to_owned(), Value::Array(links.collect()));
    gap
}
