//! A new job from a joint file and the files that it names, all of them sent along.

use std::collections::BTreeMap;
use std::path::Path;

use axum::response::Response;
use ringtrue_job::digest::Digest;
use ringtrue_job::procedure::shipped_for;
use ringtrue_seal::definition::joint::{self, Half, Joint, JointFile};
use ringtrue_seal::definition::material::Material;
use ringtrue_seal::definition::procedure::Procedure;
use ringtrue_seal::definition::seal::Seal;

use super::Shared;
use super::act::{Brought, EventLine, Judged, Write, answered};
use super::fields::Fields;
use super::router::see_other;
use super::session::Visitor;
use super::trouble::Trouble;
use crate::files;
use crate::opening::{self, Parts, suits};
use crate::paper::NotSolved;
use crate::problem::Problem;
use ringtrue_words::words;

/// What was sent: texts, by the names that they have among each other.
pub(crate) struct Sent {
    pub(crate) joint: String,
    pub(crate) files: BTreeMap<String, String>,
    pub(crate) procedure: Option<String>,
}

/// Opens a job for it; gives its id, and the answer as it is kept for a repeat.
pub(crate) async fn start(
    shared: &Shared,
    visitor: &Visitor,
    (sent, once): (Sent, Option<(String, Digest)>),
) -> Result<(String, String), Trouble> {
    let visitor = visitor.clone();
    let answer = shared
        .stores
        .run(move |store| {
            if let Some(answer) = answered(store, &visitor.name, once.as_ref())? {
                return Ok(Judged::Before(answer));
            }
            let (joint, materials) = assemble(&sent)?;
            let procedure = match sent.procedure {
                Some(text) => text,
                None => shipped_for(&joint).to_owned(),
            };
            let read: Procedure = files::parse(Path::new("procedure"), &procedure)?;
            suits(&read, &joint)?;
            let now = visitor.now(&NotSolved);
            let opening = opening::open(Parts { joint: &joint, materials, procedure }, &now)?;
            let brought = Brought { documents: opening.documents, files: Vec::new() };
            let (job, links) = (opening.job, vec![opening.link]);
            let lines = links.iter().map(|link| EventLine::of((None, &job), link)).collect();
            Ok(Judged::Now(Box::new(Write {
                job,
                here: 0,
                links,
                lines,
                brought,
                person: visitor.name.clone(),
                once,
                at: now.at,
            })))
        })
        .await?
        .written(shared)
        .await?;
    Ok((id_in(&answer), answer))
}

/// Opens a job from a form, and leads to its page; one form sent twice opens one job.
pub(crate) async fn from_form(
    shared: &Shared,
    visitor: &Visitor,
    fields: &Fields,
    sent: Result<(Sent, Digest), Trouble>,
) -> Result<Response, Trouble> {
    let (sent, hash) = sent?;
    let once = fields.some("key").map(|key| (key.to_owned(), hash));
    let (id, _) = start(shared, visitor, (sent, once)).await?;
    Ok(see_other(&format!("/jobs/{id}")))
}

/// The job's id in a kept answer.
fn id_in(answer: &str) -> String {
    let value: serde_json::Value = serde_json::from_str(answer).unwrap_or_default();
    value["job"].as_str().unwrap_or_default().to_owned()
}

/// The joint with its seals, and the texts of their materials, all from what was sent.
fn assemble(sent: &Sent) -> Result<(Joint, [Option<String>; 2]), Problem> {
    let file: JointFile = files::parse(Path::new("joint"), &sent.joint)?;
    let joint = joint::assemble(file, |written, _| {
        files::parse::<Seal>(Path::new(written), text_of(sent, written)?)
    })?;
    let material = |half: Half| {
        let Some(written) = joint.seal(half).load_ring.material_file() else { return Ok(None) };
        let text = text_of(sent, written)?;
        let material = files::parse::<Material>(Path::new(written), text)?;
        if let Some(file) = material.test_files().next() {
            let what = words().with("start-test-apart", &[("file", file)]);
            let next = words().say("start-test-apart-next");
            return Err(Problem::input(what, next).in_file(Path::new(written)));
        }
        Ok(Some(text.to_owned()))
    };
    let materials = [material(Half::A)?, material(Half::B)?];
    Ok((joint, materials))
}

/// The text that a file names: by its whole name, else by the last part of it.
fn text_of<'s>(sent: &'s Sent, written: &str) -> Result<&'s str, Problem> {
    let last = |name: &str| name.rsplit(['/', '\\']).next().unwrap_or_default().to_owned();
    let found = sent.files.get(written).or_else(|| {
        let wanted = last(written);
        sent.files.iter().find(|(name, _)| last(name) == wanted).map(|(_, text)| text)
    });
    found.map(String::as_str).ok_or_else(|| {
        let what = words().with("start-not-sent", &[("file", written)]);
        Problem::input(what, words().say("start-not-sent-next"))
    })
}
