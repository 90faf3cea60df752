//! Evidence from options, files and a prompt.

use std::collections::BTreeMap;
use std::io::{IsTerminal, Write};
use std::path::{Path, PathBuf};

use ringtrue_job::check::{self, Check};
use ringtrue_job::digest::Digest;
use ringtrue_job::event::{
    Answer, Content, Entry, Given, Photo, ReadingFile, Readings, Stated, Value,
};
use ringtrue_job::job::deed::kind_words;
use ringtrue_seal::definition::procedure::{Evidence, EvidenceKind, ReadingSet, Step};

use super::Brought;
use super::of_checks::OfChecks;
use crate::cli::checks;
use crate::files;
use crate::problem::Problem;

/// Evidence on the command line.
#[derive(Debug, Default, clap::Args)]
pub(super) struct Options {
    /// A tick: `NAME` or `NAME=yes`, `NAME=no`
    #[arg(long, value_name = "NAME[=no]")]
    tick: Vec<String>,
    /// A value with its unit
    #[arg(long, value_name = "NAME=VALUE")]
    value: Vec<String>,
    /// The standard uncertainty of a value, with its unit; without a name that of the readings of
    /// a check
    #[arg(long, value_name = "[NAME=]VALUE")]
    uncertainty: Vec<String>,
    /// A readings file (.csv, or a trace in .x3p); the name may be left out where the step asks
    /// for one set
    #[arg(long, value_name = "[NAME=]FILE")]
    readings: Vec<String>,
    /// One row of the step's readings, cells parted by commas and with their units:
    /// `90 deg,8.06 mm`; of the gap's sizes `spacer,12.48 mm,0.004 mm`; with `NAME=` before them
    /// where the step asks for more than one set
    #[arg(long, value_name = "[NAME=]CELLS")]
    row: Vec<String>,
    /// A photo or another file
    #[arg(long, value_name = "NAME=FILE")]
    photo: Vec<String>,
    /// A few words
    #[arg(long, value_name = "NAME=TEXT")]
    text: Vec<String>,
    /// You are the second person, and have looked; the name may be left out
    #[arg(long, value_name = "NAME", num_args = 0..=1, default_missing_value = "")]
    second: Vec<String>,
    /// The gauge file of the values and readings given here
    #[arg(long, value_name = "FILE")]
    gauge: Option<PathBuf>,
    #[command(flatten)]
    settings: OfChecks,
}

impl Options {
    /// Is any evidence on the command line?
    pub(super) fn are_given(&self) -> bool {
        [&self.tick, &self.value, &self.readings, &self.row, &self.photo, &self.text, &self.second]
            .iter()
            .any(|list| !list.is_empty())
            || !self.settings.stated.is_empty()
    }

    /// The gauge's text, where one is named, and its hash.
    pub(super) fn gauge(&self, brought: &mut Brought) -> Result<Option<Digest>, Problem> {
        let Some(path) = &self.gauge else { return Ok(None) };
        let text = files::text(path)?;
        let digest = Digest::of(text.as_bytes());
        brought.gauges.push((path.clone(), text));
        Ok(Some(digest))
    }

    /// The evidence for a step, in the order in which the step asks for it; what is not on the
    /// command line is asked for where nothing is, and a person sits there.
    pub(super) fn given(
        &self,
        step: &Step,
        (brought, gauge): (&mut Brought, Option<Digest>),
    ) -> Result<Vec<Given>, Problem> {
        let mut all = if !self.are_given() && std::io::stdin().is_terminal() {
            asked(step, brought, gauge)?
        } else {
            self.options(step, brought, gauge)?
        };
        go_along(step, &mut all);
        let order = |given: &Given| step.evidence.iter().position(|one| one.name == given.name);
        all.sort_by_key(order);
        Ok(all)
    }

    fn options(
        &self,
        step: &Step,
        brought: &mut Brought,
        gauge: Option<Digest>,
    ) -> Result<Vec<Given>, Problem> {
        let mut all = Vec::new();
        let mut give = |name: &str, entry| all.push(Given { name: name.to_owned(), entry });
        for tick in &self.tick {
            let (name, answer) = tick.split_once('=').unwrap_or((tick, "yes"));
            give(name, Entry::Tick(self::tick(answer)?));
        }
        let mut stated = self.settings.stated.clone();
        let mut uncertainties = BTreeMap::new();
        for pair in &self.uncertainty {
            match pair.split_once('=') {
                Some((name, typed)) => drop(uncertainties.insert(name, typed.to_owned())),
                None => {
                    stated.push(Stated { name: "uncertainty".to_owned(), typed: pair.clone() });
                }
            }
        }
        for pair in &self.value {
            let (name, typed) = parted(pair)?;
            let uncertainty = uncertainties.remove(name);
            give(name, Entry::Value(Value { typed: typed.to_owned(), uncertainty, gauge }));
        }
        if let Some((name, _)) = uncertainties.pop_first() {
            let what = format!("`{name}` has an uncertainty and no value");
            return Err(Problem::input(what, format!("add `--value {name}=...`")));
        }
        for (name, readings) in self.read(step, (&stated, gauge))? {
            give(&name, Entry::Readings(readings));
        }
        for pair in &self.photo {
            let (name, path) = parted(pair)?;
            give(name, Entry::Photo(photo(Path::new(path), brought)?));
        }
        for pair in &self.text {
            let (name, text) = parted(pair)?;
            give(name, Entry::Text(text.to_owned()));
        }
        for name in &self.second {
            let name = match name.as_str() {
                "" => only(step, EvidenceKind::SecondPerson)?,
                name => name.to_owned(),
            };
            give(&name, Entry::SecondPerson);
        }
        Ok(all)
    }
}

impl Options {
    /// Every set of readings that is given, with what is stated beside it.
    fn read(
        &self,
        step: &Step,
        (stated, gauge): (&[Stated], Option<Digest>),
    ) -> Result<BTreeMap<String, Readings>, Problem> {
        let mut files: BTreeMap<String, Vec<ReadingFile>> = BTreeMap::new();
        for pair in &self.readings {
            let (name, path) = of_set(step, pair)?;
            let path = Path::new(path);
            files.entry(name).or_default().push(checks::read(path, file_name(path))?);
        }
        let mut typed: BTreeMap<String, Vec<String>> = BTreeMap::new();
        for row in &self.row {
            let (name, cells) = of_set(step, row)?;
            typed.entry(name).or_default().push(cells.to_owned());
        }
        for (name, rows) in typed {
            let file = self::rows(step.evidence(&name), &rows);
            files.entry(name).or_default().push(file);
        }
        if files.is_empty() && !stated.is_empty() {
            // A check that has settings alone.
            files.insert(only(step, EvidenceKind::ReadingSet)?, Vec::new());
        }
        let with = |files: Vec<ReadingFile>| Readings { files, stated: stated.to_vec(), gauge };
        Ok(files.into_iter().map(|(name, files)| (name, with(files))).collect())
    }
}

/// What needs nothing goes along with what the one who does the step gives.
fn go_along(step: &Step, all: &mut Vec<Given>) {
    if all.iter().all(|given| given.entry == Entry::SecondPerson) {
        return;
    }
    let there = |name: &str| all.iter().any(|given| given.name == name);
    let along: Vec<String> =
        check::going_along(step, there).map(|asked| asked.name.clone()).collect();
    all.extend(along.into_iter().map(|name| {
        let readings = Readings { files: Vec::new(), stated: Vec::new(), gauge: None };
        Given { name, entry: Entry::Readings(readings) }
    }));
}

/// The set of readings that something is given for: named, or the step's only one.
fn of_set<'p>(step: &Step, pair: &'p str) -> Result<(String, &'p str), Problem> {
    match pair.split_once('=') {
        Some((name, given)) if step.evidence(name).is_some() => Ok((name.to_owned(), given)),
        Some(_) | None => Ok((only(step, EvidenceKind::ReadingSet)?, pair)),
    }
}

/// A photo's content is brought along; its hash stands in the event.
pub(super) fn photo(path: &Path, brought: &mut Brought) -> Result<Photo, Problem> {
    let content = files::record_bytes(path)?;
    crate::photo::photo(&file_name(path), content, &mut brought.files)
        .map_err(|problem| problem.in_file(path))
}

fn tick(answer: &str) -> Result<Answer, Problem> {
    match answer.trim().to_lowercase().as_str() {
        "yes" | "y" | "ja" => Ok(Answer::Yes),
        "no" | "n" | "nein" => Ok(Answer::No),
        other => Err(Problem::input(format!("`{other}` is no answer"), "`yes` or `no` would fit")),
    }
}

fn parted(pair: &str) -> Result<(&str, &str), Problem> {
    pair.split_once('=').ok_or_else(|| {
        Problem::input(
            format!("`{pair}` has no name"),
            "`NAME=...` is wanted, as the step names it",
        )
    })
}

/// The name of the one piece of evidence of a kind that a step asks for.
fn only(step: &Step, kind: EvidenceKind) -> Result<String, Problem> {
    let mut names = step.evidence.iter().filter(|one| one.kind == kind).map(|one| &one.name);
    match (names.next(), names.next()) {
        (Some(name), None) => Ok(name.clone()),
        (None, _) => {
            let what = format!("step {} asks for no {}", step.id, kind_words(kind));
            Err(Problem::input(what, "`ringtrue job next` says what is wanted"))
        }
        (Some(_), Some(_)) => {
            let what = format!("step {} asks for more than one of these", step.id);
            Err(Problem::input(what, "say which: `NAME=...`"))
        }
    }
}

/// Rows as typed, below the header that they stand under.
fn rows(asked: Option<&Evidence>, rows: &[String]) -> ReadingFile {
    let set = asked.and_then(|asked| asked.readings);
    let header = match (set, set.and_then(Check::of)) {
        (_, Some(check)) => check.row_header(),
        (Some(ReadingSet::SealGap), None) => "name,value,u",
        (_, None) => "angle,height",
    };
    let text = std::iter::once(header)
        .chain(rows.iter().map(String::as_str))
        .fold(String::new(), |text, row| text + row + "\n");
    ReadingFile { origin: "typed".to_owned(), content: Content::Text(text) }
}

fn file_name(path: &Path) -> String {
    path.file_name().unwrap_or(path.as_os_str()).to_string_lossy().into_owned()
}

/// Asks for each piece of evidence; an empty line leaves it out.
fn asked(step: &Step, brought: &mut Brought, gauge: Option<Digest>) -> Result<Vec<Given>, Problem> {
    let mut all = Vec::new();
    for one in &step.evidence {
        let entry = match one.kind {
            EvidenceKind::Tick => line(&format!("{} (yes/no)", one.ask))?
                .map(|text| tick(&text).map(Entry::Tick))
                .transpose()?,
            EvidenceKind::Value => value(one, gauge)?,
            EvidenceKind::ReadingSet => readings(one, gauge)?,
            EvidenceKind::Photo => line(&format!("{} (path of the file)", one.ask))?
                .map(|path| photo(Path::new(&path), brought).map(Entry::Photo))
                .transpose()?,
            EvidenceKind::Text => line(&one.ask)?.map(Entry::Text),
            // Another person says it, at another time.
            EvidenceKind::SecondPerson => None,
        };
        all.extend(entry.map(|entry| Given { name: one.name.clone(), entry }));
    }
    Ok(all)
}

/// Rows, and what a check wants stated beside them.
fn readings(one: &Evidence, gauge: Option<Digest>) -> Result<Option<Entry>, Problem> {
    let check = one.readings.and_then(Check::of);
    let typed = match check.map(Check::row_header) {
        Some("") => Vec::new(),
        Some(header) => {
            lines(&format!("{}, a row is {header}; an empty line at the end", one.ask))?
        }
        None => lines(&format!("{}, one row a line, an empty line at the end", one.ask))?,
    };
    let mut stated = Vec::new();
    for setting in check.map_or(&[][..], Check::settings) {
        let typed = line(&format!("  {} ({}), where it is needed", setting.name, setting.help()))?;
        stated.extend(typed.map(|typed| Stated { name: setting.name.to_owned(), typed }));
    }
    let files = if typed.is_empty() { Vec::new() } else { vec![rows(Some(one), &typed)] };
    let given = !files.is_empty() || !stated.is_empty();
    Ok(given.then_some(Entry::Readings(Readings { files, stated, gauge })))
}

fn value(one: &Evidence, gauge: Option<Digest>) -> Result<Option<Entry>, Problem> {
    let example = one.example.as_ref().map_or(String::new(), |e| format!(" (such as {e})"));
    let Some(typed) = line(&format!("{}{example}", one.ask))? else { return Ok(None) };
    let uncertainty = match (one.limit, gauge) {
        (Some(_), None) => line("  its standard uncertainty, where known")?,
        (_, _) => None,
    };
    Ok(Some(Entry::Value(Value { typed, uncertainty, gauge })))
}

fn line(ask: &str) -> Result<Option<String>, Problem> {
    let unreadable = |error: std::io::Error| {
        Problem::input(format!("the answer can't be read ({error})"), "type it again")
    };
    let mut out = std::io::stderr().lock();
    write!(out, "{ask}: ").and_then(|()| out.flush()).map_err(unreadable)?;
    let mut text = String::new();
    std::io::stdin().read_line(&mut text).map_err(unreadable)?;
    let text = text.trim();
    Ok((!text.is_empty()).then(|| text.to_owned()))
}

fn lines(ask: &str) -> Result<Vec<String>, Problem> {
    let mut all = Vec::new();
    let mut ask = ask.to_owned();
    while let Some(row) = line(&ask)? {
        all.push(row);
        ask = format!("  row {}", all.len() + 1);
    }
    Ok(all)
}
