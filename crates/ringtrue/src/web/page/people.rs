//! Who works here: the keeper adds people, and takes them off.

use askama::Template;
use axum::extract::State;
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Response};
use ringtrue_job::person::{Person, Role};

use super::Shown;
use super::frame::Frame;
use crate::moment::now;
use crate::web::Shared;
use crate::web::enter::{self, Added};
use crate::web::fields::{Fields, Form};
use crate::web::router::see_other;
use crate::web::session::Visitor;
use crate::web::trouble::Trouble;
use ringtrue_words::words;

#[derive(Template)]
#[template(path = "people.html")]
struct People {
    frame: Frame,
    people: Vec<Line>,
    roles: [Role; 4],
    wrong: Option<Trouble>,
    name: String,
    role: String,
}

/// One of them.
struct Line {
    name: String,
    role: &'static str,
    key: String,
    added: String,
    retired: Option<String>,
    is_me: bool,
}

impl Line {
    fn of(person: &Person, me: &str) -> Self {
        Self {
            name: person.name.clone(),
            role: person.role.name(),
            key: person.key.fingerprint(),
            added: words().day(person.added),
            retired: person.retired.map(|at| words().day(at)),
            is_me: person.name == me,
        }
    }
}

pub(crate) async fn page(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
) -> Result<Response, Trouble> {
    let page = people(&shared, (&visitor, &headers), (None, &Fields::default())).await?;
    Ok(Shown(page).into_response())
}

async fn people(
    shared: &Shared,
    (visitor, headers): (&Visitor, &HeaderMap),
    (wrong, typed): (Option<Trouble>, &Fields),
) -> Result<People, Trouble> {
    let people = shared.stores.run(|store| Ok(store.people()?)).await?;
    Ok(People {
        frame: Frame::of(shared, Some(visitor), headers).at("/people"),
        people: people.iter().map(|person| Line::of(person, &visitor.name)).collect(),
        roles: Role::ALL,
        wrong,
        name: typed.text("name").to_owned(),
        role: typed.text("role").to_owned(),
    })
}

pub(crate) async fn add(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    Form(fields): Form,
) -> Result<Response, Trouble> {
    let t = words();
    let added = match Role::named(fields.text("role")) {
        Some(role) => {
            let added = match visitor.role {
                Role::Keeper => Added::Another(role),
                Role::Fitter | Role::Checker | Role::Engineer => Added::Unkept(role),
            };
            enter::add_person(&shared, &fields, added).await.map(|_| ())
        }
        None => Err(Trouble::input(t.say("people-no-role"), t.say("people-no-role-next"))),
    };
    match added {
        Ok(()) => Ok(see_other("/people")),
        Err(wrong) => {
            let status = wrong.status;
            let typed = (Some(wrong), &fields);
            let page = people(&shared, (&visitor, &headers), typed).await?;
            Ok((status, Shown(page)).into_response())
        }
    }
}

pub(crate) async fn retire(
    State(shared): State<Shared>,
    visitor: Visitor,
    Form(fields): Form,
) -> Result<Response, Trouble> {
    let t = words();
    let name = fields.text("name").to_owned();
    if name == visitor.name {
        return Err(Trouble::input(t.say("people-not-oneself"), t.say("people-not-oneself-next")));
    }
    let retired = name.clone();
    shared.stores.write(move |store| Ok(store.retire_person(&retired, now())?)).await?;
    shared.sessions.end_all_of(&name);
    Ok(see_other("/people"))
}
