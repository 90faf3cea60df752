//! The signature on the whole job, and what became known later.

use askama::Template;
use axum::extract::{Path, State};
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Response};
use ringtrue_job::digest::Digest;
use ringtrue_job::event::FollowUp;

use super::Shown;
use super::frame::Frame;
use super::job::{Head, NextThing};
use crate::web::Shared;
use crate::web::act::{self, Act};
use crate::web::deed::{Content, SentDeed, SentPhoto};
use crate::web::fields::{Fields, Form};
use crate::web::permission::Call;
use crate::web::router::see_other;
use crate::web::session::Visitor;
use crate::web::trouble::Trouble;

#[derive(Template)]
#[template(path = "sign.html")]
pub(crate) struct Sign {
    frame: Frame,
    head: Head,
    next: NextThing,
    signatures: Vec<String>,
    is_signed: bool,
    may_sign: bool,
    kinds: [&'static str; 4],
    key: String,
    wrong: Option<Trouble>,
    hours: String,
    note: String,
}

pub(crate) async fn page(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    Path(id): Path<String>,
) -> Result<Shown<Sign>, Trouble> {
    let typed = (Fields::default(), None);
    sign_page(&shared, (&visitor, &headers), &id, typed).await.map(Shown)
}

async fn sign_page(
    shared: &Shared,
    (visitor, headers): (&Visitor, &HeaderMap),
    id: &str,
    (typed, wrong): (Fields, Option<Trouble>),
) -> Result<Sign, Trouble> {
    let kept = shared.stores.kept(id).await?;
    let frame = Frame::of(shared, Some(visitor), headers).at(format!("/jobs/{id}/sign"));
    let signed = kept
        .job
        .signatures
        .iter()
        .filter(|signed| matches!(signed.meaning, ringtrue_job::event::Meaning::Job));
    let signatures = signed.map(|signed| {
        let (at, role) = (frame.t.moment(signed.at), signed.author.role.name());
        let said = [("name", signed.author.name.as_str()), ("role", role), ("at", at.as_str())];
        frame.t.with("signed-line", &said)
    });
    Ok(Sign {
        head: Head::of(&kept),
        next: NextThing::of(&kept),
        signatures: signatures.collect(),
        is_signed: kept.job.signed_at().is_some(),
        may_sign: Call::Sign.is_allowed(visitor.role),
        kinds: FollowUp::ALL.map(FollowUp::name),
        key: super::form_key(),
        wrong,
        hours: typed.text("hours").to_owned(),
        note: typed.text("note").to_owned(),
        frame,
    })
}

pub(crate) async fn post(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    (Path(id), Form(fields)): (Path<String>, Form),
) -> Result<Response, Trouble> {
    let deed = match fields.text("deed") {
        "follow-up" => SentDeed::FollowUp {
            about: fields.text("about").to_owned(),
            hours: fields.some("hours").map(str::to_owned),
            note: fields.text("note").to_owned(),
            photos: fields
                .files("photos")
                .map(|file| SentPhoto {
                    file: file.name.clone(),
                    content: Content(file.content.to_vec()),
                })
                .collect(),
        },
        _ => SentDeed::Sign { step: None, half: None },
    };
    let asked = Digest::of(format!("{id} {deed:?}").as_bytes());
    let once = fields.some("key").map(|key| (key.to_owned(), asked));
    let expected = fields.text("expected").parse().ok();
    let act = Act { job: id.clone(), expected, once, by: None, deed };
    match act::act(&shared, &visitor, act).await {
        Ok(_) => Ok(see_other(&format!("/jobs/{id}/sign"))),
        Err(wrong) if wrong.status.is_server_error() => Err(wrong),
        Err(wrong) => {
            let status = wrong.status;
            let typed = (fields, Some(wrong));
            let page = sign_page(&shared, (&visitor, &headers), &id, typed).await?;
            Ok((status, Shown(page)).into_response())
        }
    }
}
