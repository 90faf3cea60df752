//! `ringtrue person add|list|retire`: who works here, and their keys.

use std::fmt::Write;
use std::process::ExitCode;

use clap::Subcommand;
use ringtrue_job::person::{self, Cost, Drawn, Person, Role};
use ringtrue_store::{Access, Store};
use serde::Serialize;

use super::bench::{self, Passphrases, StoreAt, Who, day, random};
use super::{output, refused};
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Add a person with a key of their own; once there is a keeper, a keeper does it
    Add(Add),
    /// Say who works here
    List(List),
    /// Take a person off: what they recorded stands; a keeper does it, where there is one
    Retire(Retire),
}

#[derive(Debug, clap::Args)]
struct Add {
    /// The new person's name, as it will stand in records
    name: String,
    /// fitter, checker, engineer or keeper
    #[arg(long, value_parser = role)]
    role: Role,
    #[command(flatten)]
    who: Who,
    #[command(flatten)]
    store: StoreAt,
    /// Print one JSON object
    #[arg(long)]
    json: bool,
}

#[derive(Debug, clap::Args)]
struct List {
    #[command(flatten)]
    store: StoreAt,
    /// Print one JSON object
    #[arg(long)]
    json: bool,
}

#[derive(Debug, clap::Args)]
struct Retire {
    /// Whom
    name: String,
    #[command(flatten)]
    who: Who,
    #[command(flatten)]
    store: StoreAt,
    /// Print one JSON object
    #[arg(long)]
    json: bool,
}

/// A person as JSON: nothing secret.
#[derive(Serialize)]
struct Shown {
    name: String,
    role: Role,
    key: String,
    added: String,
    retired: Option<String>,
}

#[derive(Serialize)]
struct People {
    people: Vec<Shown>,
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    match &arguments.command {
        Command::Add(arguments) => add(arguments)?,
        Command::List(arguments) => list(arguments)?,
        Command::Retire(arguments) => retire(arguments)?,
    }
    Ok(ExitCode::SUCCESS)
}

fn role(name: &str) -> Result<Role, String> {
    Role::named(name)
        .ok_or_else(|| format!("the roles are {}", Role::ALL.map(Role::name).join(", ")))
}

fn add(arguments: &Add) -> Result<(), Problem> {
    let mut passphrases = arguments.who.passphrases()?;
    let name = arguments.name.trim();
    // Without a passphrase no store is left behind.
    let first =
        if arguments.store.path()?.exists() { None } else { Some(passphrases.new_one(name)?) };
    let mut store = arguments.store.open(Access::Create)?;
    let keeper = by_keeper(&store, &arguments.who, &mut passphrases)?;
    if store.people().map_err(refused::store)?.iter().any(|person| person.name == name) {
        return Err(refused::store(ringtrue_store::StoreError::PersonExists(name.to_owned())));
    }
    let passphrase = match first {
        Some(passphrase) => passphrase,
        None => passphrases.new_one(name)?,
    };
    let drawn = Drawn { secret: random()?, salt: *random()?, nonce: *random()? };
    let person =
        person::enrol((name, arguments.role), &passphrase, &drawn, (Cost::RFC_9106, bench::now()))
            .map_err(refused::person)?;
    match keeper {
        Keeper::Agrees => store.add_person(&person),
        Keeper::None => store.add_person_unkept(&person),
    }
    .map_err(refused::store)?;
    let text = format!("{}, {}, key {}", person.name, person.role.name(), person.key.fingerprint());
    if arguments.json { output::json(&shown(person)) } else { output::print(text) }
}

fn list(arguments: &List) -> Result<(), Problem> {
    let people = arguments.store.open(Access::Read)?.people().map_err(refused::store)?;
    if arguments.json {
        return output::json(&People { people: people.into_iter().map(shown).collect() });
    }
    let mut text = String::new();
    for person in people {
        let retired = person.retired.map_or(String::new(), |at| format!(", retired {}", day(at)));
        let _ = writeln!(
            text,
            "{:<24}{:<10}key {}  added {}{retired}",
            person.name,
            person.role.name(),
            person.key.fingerprint(),
            day(person.added),
        );
    }
    output::print(if text.is_empty() { "nobody yet" } else { text.trim_end() })
}

fn retire(arguments: &Retire) -> Result<(), Problem> {
    let mut store = arguments.store.open(Access::Write)?;
    by_keeper(&store, &arguments.who, &mut arguments.who.passphrases()?)?;
    store.retire_person(&arguments.name, bench::now()).map_err(refused::store)?;
    let person = store.person(&arguments.name).map_err(refused::store)?;
    let text = format!("{} records nothing more; what stands, stands", person.name);
    if arguments.json { output::json(&shown(person)) } else { output::print(text) }
}

/// Who answers for what is done with people.
#[derive(Debug, Clone, Copy)]
enum Keeper {
    Agrees,
    None,
}

/// Where there is a keeper, a keeper has to do it.
fn by_keeper(store: &Store, who: &Who, passphrases: &mut Passphrases) -> Result<Keeper, Problem> {
    let people = store.people().map_err(refused::store)?;
    let keeps = |person: &&Person| person.role == Role::Keeper && person.retired.is_none();
    let Some(keeper) = people.iter().find(keeps) else { return Ok(Keeper::None) };
    let named = who.name();
    let is_keeper = |name: &String| people.iter().filter(keeps).any(|person| person.name == *name);
    if !named.as_ref().is_some_and(is_keeper) {
        let next = format!("do it as a keeper: `--person \"{}\"`", keeper.name);
        return Err(Problem::input("people are the keeper's business here", next));
    }
    who.unlock_with(store, passphrases).map(|_| Keeper::Agrees)
}

fn shown(person: Person) -> Shown {
    Shown {
        name: person.name,
        role: person.role,
        key: person.key.to_string(),
        added: person.added.to_string(),
        retired: person.retired.map(|at| at.to_string()),
    }
}
