//! The demo's job: typed line by line, by two people, into a store of its own.

use std::collections::BTreeMap;
use std::path::Path;

use ringtrue_job::job::deed::Now;
use ringtrue_job::person::{self, Cost, Drawn, Role, Unlocked};
use ringtrue_store::{Access, Store, StoreError};

use crate::cli::job;
use crate::cli::{Units, output, refused};
use crate::curves::Curves;
use crate::files;
use crate::kept::Kept;
use crate::moment::{now, random};
use crate::problem::Problem;

/// The lines that are typed, among the example's files.
const DEEDS: &str = "deeds.txt";
/// What a line may say in the place of the number of the last event that recorded evidence.
const LAST: &str = "LAST";
/// Opens every key of the demo's store: it guards nothing.
const PASSPHRASE: &str = "only for the demo";
/// Who does it.
const PEOPLE: [(&str, Role); 2] = [("Fay", Role::Fitter), ("Eli", Role::Engineer)];

/// Does the job of an example in the demo's folder, and writes its store and its PDF beside it.
pub(super) fn run(out: &Path, example: &str) -> Result<(), Problem> {
    let path = out.join("record.db");
    let mut store = Store::open(&path, Access::Create).map_err(refused::store)?;
    let people = people(&mut store)?;
    let curves = Curves::kept();
    let at_bench = |name: &str| {
        let person = people.get(name).ok_or_else(|| {
            Problem::input(format!("nobody is called `{name}` here"), "one of the demo's people")
        })?;
        let program_version = env!("CARGO_PKG_VERSION");
        Ok(Now { at: now(), person, device: "bench 3", program_version, curves: &curves })
    };
    let deeds = out.join(example).join(DEEDS);
    let text = files::text(&deeds)?;
    let mut kept = None;
    for (index, line) in text.lines().enumerate() {
        let Some((name, words)) = read(line, out) else { continue };
        let failed = |problem: Problem| problem.in_line(&deeds, index + 1);
        let now = at_bench(&name).map_err(failed)?;
        let done = match (kept.take(), words.split_first()) {
            (None, Some((first, rest))) if first == "new" => {
                let joint = Path::new(rest.first().map_or("", String::as_str));
                let on_disk = files::joint(joint).map_err(failed)?;
                let parts = job::new::parts(joint, (&on_disk, None)).map_err(failed)?;
                job::new::open(&mut store, parts, &now)
            }
            (None, _) => Err(Problem::input("no job is open", "`new FILE` comes first")),
            (Some(kept), _) => {
                let words = typed(&kept, words);
                job::typed(&mut store, kept, &words, &now)
            }
        };
        kept = Some(done.map_err(failed)?);
    }
    let kept = kept.ok_or_else(|| {
        Problem::input("nothing is typed there", "lines such as `Fay: new joint.toml`")
            .in_file(&deeds)
    })?;
    show(out, &store, &kept)
}

/// Who types, and the words: `Fay: record height --half a`, `@` being the demo's folder. Nothing
/// for a remark or an empty line.
fn read(line: &str, out: &Path) -> Option<(String, Vec<String>)> {
    let line = line.split_once('#').map_or(line, |(before, _)| before);
    let (name, typed) = line.split_once(':')?;
    let mut words = vec![String::new()];
    let mut quoted = false;
    for letter in typed.trim().chars() {
        match letter {
            '"' => quoted = !quoted,
            letter if letter.is_whitespace() && !quoted => words.push(String::new()),
            letter => words.last_mut()?.push(letter),
        }
    }
    words.retain(|word| !word.is_empty());
    for word in &mut words {
        *word = word.replace('@', &format!("{}/", out.display()));
    }
    Some((name.trim().to_owned(), words))
}

/// The words as the command wants them: the job named, `LAST` a number.
fn typed(kept: &Kept, mut words: Vec<String>) -> Vec<String> {
    let last = kept.job.log.iter().rposition(|entry| entry.kind == "recorded");
    let last = last.map_or(0, |index| index + 1).to_string();
    for word in words.iter_mut().filter(|word| *word == LAST) {
        word.clone_from(&last);
    }
    words.insert(words.len().min(1), kept.job.id.clone());
    words
}

/// The demo's people: added where the store is new, else as they are.
fn people(store: &mut Store) -> Result<BTreeMap<&'static str, Unlocked>, Problem> {
    let mut people = BTreeMap::new();
    for (name, role) in PEOPLE {
        let person = match store.person(name) {
            Ok(person) => person,
            Err(StoreError::NoPerson(_)) => {
                let drawn = Drawn { secret: random()?, salt: *random()?, nonce: *random()? };
                let cost = (Cost::RFC_9106, now());
                let person = person::enrol((name, role), PASSPHRASE, &drawn, cost)
                    .map_err(refused::person)?;
                store.add_person(&person).map_err(refused::store)?;
                person
            }
            Err(error) => return Err(refused::store(error)),
        };
        let unlocked = person::unlock(&person, PASSPHRASE).map_err(refused::person)?;
        people.insert(name, unlocked);
    }
    Ok(people)
}

/// Writes the PDF, checks the store, and says what there is.
fn show(out: &Path, store: &Store, kept: &Kept) -> Result<(), Problem> {
    let pdf = out.join("job.pdf");
    let written = job::report::write(store, &kept.job.id, (&pdf, Units::Mm))?;
    let count = |kind: &str| {
        kept.job.log.iter().filter(|entry| entry.kind == kind).fold(0, |n, _| n + 1_u64)
    };
    let verified = store.verify_all().map_err(|unfit| {
        let next = "this is a fault of the program: please report it";
        Problem::not_completed(format!("the record does not verify: {unfit}"), next)
    })?;
    let row = |what: &str, value: String| output::print(format_args!("  {what:<28}{value}"));
    row("Job", format!("{}, {}", kept.job.id, kept.job.state().words()))?;
    row(
        "Record",
        format!(
            "{}, {}, {}, {}",
            output::counted(written.events, "event"),
            output::counted(count("corrected"), "correction"),
            output::counted(count("overridden"), "override"),
            output::counted(count("signed"), "signature")
        ),
    )?;
    let jobs = output::counted(verified.jobs, "job");
    row("Verified", format!("{jobs}, {}", output::counted(verified.events, "event")))?;
    row("Store", store.path().display().to_string())?;
    row("PDF", pdf.display().to_string())?;
    row("Each key opens with", format!("`{PASSPHRASE}`"))
}
